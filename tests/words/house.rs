//! Rules of the house that the compiler does not keep: short files, colours from one place,
//! one direction.

#![allow(clippy::unwrap_used, reason = "a file that can't be read fails the test")]

use std::fs;
use std::path::{Path, PathBuf};

const LINES: usize = 400;

pub(crate) fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn walk(folder: &Path, ending: &str, found: &mut Vec<(String, String)>) {
    let mut entries: Vec<PathBuf> =
        fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    entries.sort();
    for path in entries {
        if path.is_dir() {
            walk(&path, ending, found);
        } else if path.extension().is_some_and(|have| have == ending) {
            let name = path.strip_prefix(root()).unwrap().to_str().unwrap().replace('\\', "/");
            found.push((name, fs::read_to_string(&path).unwrap()));
        }
    }
}

/// Files under a folder with their text, by their path from the top.
pub(crate) fn files(folder: &str, ending: &str) -> Vec<(String, String)> {
    let mut found = Vec::new();
    walk(&root().join(folder), ending, &mut found);
    assert!(!found.is_empty(), "no .{ending} in {folder}");
    found
}

/// Lines without comments.
pub(crate) fn code(text: &str) -> impl Iterator<Item = (usize, &str)> {
    text.lines()
        .enumerate()
        .filter(|(_, line)| !line.trim_start().starts_with("//"))
        .map(|(at, line)| (at + 1, line))
}

#[test]
fn every_file_is_read_in_one_sitting() {
    let long: Vec<String> = [files("src", "rs"), files("ui", "slint")]
        .concat()
        .iter()
        .map(|(name, text)| (name, text.lines().count()))
        .filter(|(_, lines)| *lines > LINES)
        .map(|(name, lines)| format!("{name}: {lines} lines"))
        .collect();
    assert!(long.is_empty(), "more than {LINES} lines:\n{}", long.join("\n"));
}

#[test]
fn colours_come_from_the_theme() {
    let mut wrong = Vec::new();
    for (name, text) in files("ui", "slint") {
        if name == "ui/theme.slint" {
            continue;
        }
        for (at, line) in code(&text) {
            let hex = line.split('#').skip(1).any(|rest| {
                let digits = rest.chars().take_while(char::is_ascii_hexdigit).count();
                matches!(digits, 3 | 4 | 6 | 8)
            });
            if hex || line.contains("rgb(") || line.contains("rgba(") || line.contains("hsv(") {
                wrong.push(format!("{name}:{at}: {}", line.trim()));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The part of a file before its tests.
pub(crate) fn before_tests(text: &str) -> &str {
    text.split("#[cfg(test)]").next().unwrap_or_default()
}

#[test]
fn nothing_is_unwrapped() {
    let mut wrong = Vec::new();
    for (name, text) in files("src", "rs") {
        for (at, line) in code(before_tests(&text)) {
            if line.contains(".unwrap()") || line.contains(".expect(\"\")") {
                wrong.push(format!("{name}:{at}: {}", line.trim()));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The rooms that each room may use.
const DIRECTION: &[(&str, &[&str])] = &[
    ("words", &[]),
    ("units", &["words"]),
    ("reference", &["units"]),
    ("engine", &["reference", "units"]),
    ("questions", &["engine", "reference", "units"]),
    ("job", &["questions", "engine", "reference", "units", "words"]),
    ("report", &["engine", "reference", "units", "words"]),
    ("cli", &["report", "job", "questions", "engine", "reference", "units", "words"]),
];

#[test]
fn the_rooms_look_one_way() {
    let mut wrong = Vec::new();
    for (room, may) in DIRECTION {
        for (name, text) in files(&format!("src/{room}"), "rs") {
            for (at, line) in code(&text) {
                let used = line.split("crate::").skip(1).map(|rest| {
                    rest.split(|sign: char| !(sign.is_alphanumeric() || sign == '_'))
                        .next()
                        .unwrap_or_default()
                });
                for other in used.filter(|other| other != room && !may.contains(other)) {
                    wrong.push(format!("{name}:{at}: {room} uses {other}"));
                }
                if line.contains("slint::") {
                    wrong.push(format!("{name}:{at}: {room} uses Slint"));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn only_the_window_knows_slint() {
    for (name, text) in files("src", "rs") {
        let window = name.starts_with("src/app/") || name == "src/build.rs";
        let uses = code(&text).any(|(_, line)| line.contains("slint::"));
        assert!(window || !uses, "{name} uses Slint");
    }
}
