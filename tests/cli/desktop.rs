//! What a desktop reads of the program says what the program does: the manual page and the completions
//! name every command and option of its help, and no others; the icons are the one drawing.

use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;
use std::process::Command;

use crate::run;

fn file(name: &str) -> String {
    fs::read_to_string(path(name)).expect("a file of the desktop")
}

fn path(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("data/desktop").join(name)
}

fn help(about: &[&str]) -> String {
    run(&[&["help"], about].concat()).out
}

/// A lower-case word at the beginning of a text, with its hyphens.
fn word(text: &str) -> &str {
    let end = text.find(|sign: char| !(sign.is_ascii_lowercase() || sign == '-')).unwrap_or(text.len());
    &text[..end]
}

/// Words that follow a text, wherever it stands.
fn words_after<'a>(text: &'a str, before: &str) -> BTreeSet<&'a str> {
    text.split(before).skip(1).map(word).filter(|word| !word.is_empty()).collect()
}

/// Commands and options that the help of the program tells.
fn commands(help: &str) -> BTreeSet<&str> {
    words_after(help, "  strawblue ")
}

fn options(help: &str) -> BTreeSet<&str> {
    words_after(help, "--")
}

/// Does the word stand in a text by itself?
fn has_word(text: &str, wanted: &str) -> bool {
    let part = |sign: char| sign.is_ascii_alphanumeric() || sign == '-' || sign == '_';
    text.split(|sign: char| !part(sign)).any(|word| word == wanted)
}

#[test]
fn the_manual_page_tells_every_command_and_option() {
    let page = file("strawblue.1").replace("\\-", "-");
    let top = help(&[]);
    let all = [top.clone(), help(&["log"]), help(&["card"])].concat();
    for command in commands(&top) {
        assert!(page.contains(&format!("strawblue {command}")), "the page has no \"strawblue {command}\"");
        assert!(page.contains(&format!(".B {command}\n")), "{command} has no line of its own");
    }
    for option in options(&all) {
        assert!(page.contains(&format!("--{option}")), "the page has no --{option}");
    }
    // Nor does it promise more.
    assert_eq!(options(&page), options(&all).into_iter().chain(["help"]).collect());
    for action in log_actions() {
        assert!(has_word(&page, &action), "the page has no \"log {action}\"");
    }
    // What the help says of the end is what the page says.
    assert!(page.contains(concat!("\"Strawblue ", env!("CARGO_PKG_VERSION"), "\"")));
    for status in 0..=2 {
        assert!(page.contains(&format!(".B {status}\n")), "no status {status}");
    }
}

/// What can be done with a log, as the program lists it itself.
fn log_actions() -> Vec<String> {
    let refused = run(&["log", "no-such-action"]).err;
    let known = refused.split("Write one of: ").nth(1).expect("a list");
    let actions: Vec<String> = known.trim().trim_end_matches('.').split(", ").map(str::to_owned).collect();
    assert!(actions.len() > 10, "{refused}");
    actions
}

#[test]
fn the_completions_tell_every_command_and_option() {
    let top = help(&[]);
    let all = [top.clone(), help(&["card"])].concat();
    for shell in ["bash", "zsh", "fish"] {
        let text = file(&format!("completions/strawblue.{shell}"));
        let code: String = text.lines().filter(|line| !line.starts_with('#')).collect::<Vec<_>>().join("\n");
        for command in commands(&top) {
            assert!(has_word(&code, command), "{shell}: no {command}");
        }
        for action in log_actions() {
            assert!(has_word(&code, &action), "{shell}: no log {action}");
        }
        for option in options(&all) {
            let written = if shell == "fish" { format!("-l {option}") } else { format!("--{option}") };
            assert!(code.contains(&written), "{shell}: no {written}");
        }
    }
}

/// What a language is stated by is what the program speaks.
#[test]
fn the_desktop_offers_every_language() {
    let tags: Vec<&str> = strawblue::words::Words::languages().collect();
    for shell in ["bash", "zsh", "fish"] {
        assert!(
            file(&format!("completions/strawblue.{shell}")).contains(&tags.join(" ")),
            "{shell}: {tags:?}"
        );
    }
    let page = file("strawblue.1").replace("\\-", "-");
    assert!(tags.iter().all(|tag| page.contains(&format!("{tag} ,"))
        || page.contains(&format!(".B {tag}\n"))
        || page.contains(&format!(".BR {tag} "))));
}

/// What bash offers for the last of these words.
fn bash_offers(words: &[&str]) -> Vec<String> {
    let script = "shopt -u progcomp; source \"$1\"; shift; COMP_WORDS=(\"$@\"); COMP_CWORD=$(($# - 1)); \
                  _strawblue; printf '%s\\n' \"${COMPREPLY[@]}\"";
    let ran = Command::new("bash")
        .args(["--norc", "-c", script, "offers"])
        .arg(path("completions/strawblue.bash"))
        .arg(env!("CARGO_BIN_EXE_strawblue"))
        .args(words)
        .env_remove("LANGUAGE")
        .env("LC_ALL", "C")
        // Nothing of this folder is offered as a file.
        .current_dir(tempfile::tempdir().expect("a folder").path())
        .output()
        .expect("bash runs");
    assert!(ran.stderr.is_empty(), "{}", String::from_utf8_lossy(&ran.stderr));
    String::from_utf8(ran.stdout).expect("text").lines().map(str::to_owned).collect()
}

/// Run as the shell runs it: each offer is something that the program takes.
#[test]
#[cfg(target_os = "linux")]
fn bash_offers_what_the_program_takes() {
    let top = help(&[]);
    let commands = commands(&top);
    let offered = bash_offers(&[""]);
    assert_eq!(offered.iter().map(String::as_str).collect::<BTreeSet<_>>(), commands);
    assert_eq!(bash_offers(&["ask", "crayon-p"]), ["crayon-pair"]);
    assert_eq!(bash_offers(&["ask", "crayon-pair", ""]), ["minimum=", "maximum="]);
    assert_eq!(bash_offers(&["--json", "ask", "crayon-pair", "min"]), ["minimum="]);
    assert!(bash_offers(&["plan", "steel"]).contains(&"steel-b=".to_owned()));
    assert!(bash_offers(&["plan", "heat-cycle.f"]).contains(&"heat-cycle.fuel-flow=".to_owned()));
    assert_eq!(bash_offers(&["--units", "f"]), ["f-in", "f-mm"]);
    assert!(bash_offers(&["card", "--"]).contains(&"--letter".to_owned()));
    assert!(!bash_offers(&["plan", "--"]).contains(&"--letter".to_owned()));
    for action in bash_offers(&["log", ""]) {
        assert!(log_actions().contains(&action), "log {action} is none");
    }
}

/// The small pictures are the drawing itself: its ground, its brackets and its bar, each at its place.
#[test]
fn the_icons_are_one_drawing() {
    let drawing = fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/ui/icons/strawblue.svg"));
    let drawing = drawing.expect("the drawing");
    assert!(drawing.contains("viewBox=\"0 0 64 64\""));
    for size in [48, 128, 256] {
        let picture = image::open(path(&format!("icons/{size}.png"))).expect("a picture").to_rgba8();
        assert_eq!(picture.dimensions(), (size, size));
        // A point of the drawing, and the colour that it has there.
        for (x, y, colour) in
            [(32, 18, "#131618"), (13, 32, "#F3F5F4"), (51, 32, "#F3F5F4"), (32, 32, "#58D3A4")]
        {
            assert!(drawing.contains(colour), "the drawing has no {colour}");
            let seen = picture.get_pixel(x * size / 64, y * size / 64).0;
            assert_eq!(format!("#{:02X}{:02X}{:02X}", seen[0], seen[1], seen[2]), colour, "{size}: {x}, {y}");
        }
        assert_eq!(picture.get_pixel(0, 0).0[3], 0, "the corners are round");
    }
}
