//! Rules of the house that the compiler does not keep: short files, colours from one place,
//! one direction.

#![allow(clippy::unwrap_used, reason = "a file that can't be read fails the test")]

use std::collections::{BTreeMap, BTreeSet};
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

/// What is drawn goes through the one place that keeps a figure and its unit in one line.
#[test]
fn a_text_says_what_it_draws() {
    let all = files("ui", "slint");
    let of = |line: &str| line.trim_end().strip_suffix('{').map(|head| head.trim_end().to_owned());
    let mut texts: BTreeSet<String> = BTreeSet::from(["Txt".to_owned(), "Mute".to_owned()]);
    for (_, text) in &all {
        let made = code(text).filter_map(|(_, line)| {
            let (name, base) = line.trim().strip_prefix("component ")?.split_once(" inherits ")?;
            base.starts_with("Txt").then(|| name.to_owned())
        });
        texts.extend(made);
    }
    let mut wrong = Vec::new();
    for (name, text) in &all {
        let mut open: Vec<bool> = Vec::new();
        for (at, line) in code(text) {
            if line.trim_start().starts_with("text:") && open.last() == Some(&true) {
                wrong.push(format!("{name}:{at}: `says:`, not `text:`"));
            }
            if line.trim() == "Text {" {
                wrong.push(format!("{name}:{at}: Txt, not Text"));
            }
            let opens = line.matches('{').count();
            let shuts = line.matches('}').count();
            let element = of(line).and_then(|head| head.split_whitespace().last().map(str::to_owned));
            let is_text = element.is_some_and(|element| texts.contains(&element));
            for _ in shuts..opens {
                open.push(is_text);
            }
            for _ in opens..shuts {
                open.pop();
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
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

/// What carries the data files stands below all rooms.
const BELOW: &str = "packed";

/// The rooms that each room may use.
const DIRECTION: &[(&str, &[&str])] = &[
    ("words", &[]),
    ("units", &["words"]),
    ("reference", &["units"]),
    ("engine", &["reference", "units"]),
    ("questions", &["engine", "reference", "units"]),
    ("job", &["questions", "engine", "reference", "units", "words"]),
    ("log", &["job", "questions", "engine", "reference", "units", "words"]),
    ("report", &["log", "job", "questions", "engine", "reference", "units", "words"]),
    ("card", &["report", "log", "job", "engine", "reference", "units", "words"]),
    ("backup", &["log", "job", "words"]),
    (
        "cli",
        &["backup", "card", "report", "log", "job", "questions", "engine", "reference", "units", "words"],
    ),
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
                for other in used.filter(|other| other != room && *other != BELOW && !may.contains(other)) {
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

/// What each part of the engine may use of its folders; its single files use none of them.
const INSIDE_ENGINE: &[(&str, &[&str])] = &[
    ("evidence", &["evidence"]),
    ("fit", &["fit"]),
    ("post_heat", &["post_heat"]),
    ("heat_cycle", &["heat_cycle", "post_heat", "reading"]),
    ("tint", &["tint"]),
    ("photo", &["photo", "tint"]),
    ("reading", &["reading", "tint"]),
    ("weld", &["weld", "crack"]),
    ("unmarked", &["unmarked"]),
    ("crack", &["crack"]),
    ("plan", &["plan", "evidence", "post_heat"]),
    ("weld_of_job", &["weld_of_job", "plan", "weld", "crack"]),
];

#[test]
fn the_engine_looks_one_way() {
    let mut wrong = Vec::new();
    let folders: Vec<&str> = INSIDE_ENGINE.iter().map(|(folder, _)| *folder).collect();
    for (name, text) in files("src/engine", "rs") {
        let inside = name.trim_start_matches("src/engine/");
        let folder = inside.split_once('/').map(|(folder, _)| folder);
        // The list of modules names them all.
        if inside == "mod.rs" {
            continue;
        }
        assert!(folder.is_none_or(|folder| folders.contains(&folder)), "{name} lies in a new folder");
        let may = INSIDE_ENGINE.iter().find(|(own, _)| Some(*own) == folder).map_or(&[][..], |row| row.1);
        for (at, line) in code(before_tests(&text)) {
            let used = folders.iter().filter(|used| line.contains(&format!("engine::{used}::")));
            for used in used.filter(|used| !may.contains(used)) {
                wrong.push(format!("{name}:{at}: uses engine::{used}"));
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

/// The files of the window by their module, such as `plan::results`, with their code.
fn window_modules() -> BTreeMap<String, String> {
    files("src/app", "rs")
        .into_iter()
        .map(|(name, text)| {
            let path = name.trim_start_matches("src/app/").trim_end_matches(".rs").replace('/', "::");
            let module = path.trim_end_matches("mod").trim_end_matches("::").to_owned();
            (module, code(&text).map(|(_, line)| format!("{line}\n")).collect())
        })
        .collect()
}

fn join(module: &str, name: &str) -> String {
    if module.is_empty() { name.to_owned() } else { format!("{module}::{name}") }
}

/// The leaves of a use tree, each as the names on its way: `a::{b, c::d}` is `a b` and `a c d`.
fn leaves(text: &str, way: &[String], found: &mut Vec<Vec<String>>) -> usize {
    let end = text.find(|sign: char| !(sign.is_alphanumeric() || sign == '_')).unwrap_or(text.len());
    let mut here = way.to_vec();
    if end > 0 {
        here.push(text[..end].to_owned());
    }
    let rest = &text[end..];
    if let Some(after) = rest.strip_prefix("::") {
        return end + 2 + leaves(after, &here, found);
    }
    if end > 0 || !rest.starts_with('{') {
        found.push(here);
        return end;
    }
    let mut at = 1;
    while at < rest.len() && !rest[at..].starts_with('}') {
        let skipped = rest[at..].find(|sign: char| !(sign.is_whitespace() || sign == ',')).unwrap_or(0);
        at += skipped;
        if !rest[at..].starts_with('}') {
            at += leaves(&rest[at..], &here, found).max(1);
        }
    }
    at + 1
}

/// The modules that one of them names.
fn named_by(module: &str, text: &str, all: &BTreeMap<String, String>) -> BTreeSet<String> {
    let is_folder = module.is_empty() || all.keys().any(|other| other.starts_with(&format!("{module}::")));
    let above = |module: &str| module.rsplit_once("::").map_or("", |(above, _)| above).to_owned();
    let mut found = BTreeSet::new();
    let mut follow = |from: String, rest: &str| {
        let mut ways = Vec::new();
        leaves(rest, &[], &mut ways);
        for way in ways {
            let mut at = from.clone();
            let mut names = way.iter().map(String::as_str).peekable();
            while names.next_if_eq(&"super").is_some() {
                at = above(&at);
            }
            let mut item = None;
            for name in names {
                let next = join(&at, name);
                if !all.contains_key(&next) {
                    item = Some(name);
                    break;
                }
                at = next;
            }
            // What the top hands on belongs to the file that it comes from.
            if let (true, Some(item)) = (at.is_empty(), item) {
                let from = all[""]
                    .lines()
                    .filter_map(|line| line.strip_prefix("pub use "))
                    .find(|line| line.split(|sign: char| !sign.is_alphanumeric()).any(|word| word == item));
                let way = from.and_then(|line| {
                    line.split("::{").next()?.strip_suffix(';').or(line.split("::{").next())
                });
                at = way.map_or_else(String::new, |way| {
                    let known = |way: &str| all.contains_key(way);
                    if known(way) { way.to_owned() } else { above(way) }
                });
            }
            found.insert(at);
        }
    };
    for (start, _) in text.match_indices("crate::app::") {
        follow(String::new(), &text[start + "crate::app::".len()..]);
    }
    let own = if is_folder { module.to_owned() } else { above(module) };
    for (start, _) in text.match_indices("super::") {
        let fresh = !text[..start].ends_with("::");
        if fresh {
            let from = if is_folder { above(module) } else { own.clone() };
            follow(from, &text[start + "super::".len()..]);
        }
    }
    if is_folder && !module.is_empty() {
        for child in all.keys().filter(|other| above(other) == module) {
            let name = child.rsplit("::").next().unwrap_or_default();
            let named = text.match_indices(&format!("{name}::")).any(|(at, _)| {
                !text[..at].ends_with(|sign: char| sign.is_alphanumeric() || sign == '_')
                    && (!text[..at].ends_with("::") || text[..at].ends_with("self::"))
            });
            if named {
                found.insert(child.clone());
            }
        }
    }
    found.remove(module);
    found.remove("");
    found
}

#[test]
fn no_files_of_the_window_use_each_other_in_a_circle() {
    let all = window_modules();
    let uses: BTreeMap<&String, BTreeSet<String>> = all
        .iter()
        .filter(|(module, _)| !module.is_empty())
        .map(|(module, text)| (module, named_by(module, text, &all)))
        .collect();
    assert!(uses[&"start".to_owned()].contains("shell"), "the reader of `use` finds nothing");
    // Take away what uses nothing that is left, until only circles and their users remain.
    let mut left = uses;
    loop {
        let before = left.len();
        let known: BTreeSet<String> = left.keys().map(|module| (*module).clone()).collect();
        left.retain(|_, used| used.iter().any(|other| known.contains(other)));
        if left.len() == before {
            break;
        }
    }
    let known: BTreeSet<String> = left.keys().map(|module| (*module).clone()).collect();
    let circles: Vec<String> = left
        .iter()
        .map(|(module, used)| {
            let used: Vec<&str> =
                used.iter().filter(|other| known.contains(*other)).map(String::as_str).collect();
            format!("{module} uses {}", used.join(", "))
        })
        .collect();
    assert!(circles.is_empty(), "a circle, or a way into one:\n{}", circles.join("\n"));
}
