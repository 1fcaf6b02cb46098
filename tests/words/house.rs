//! Rules of the house that the compiler does not keep: short files, words from one place,
//! colours from one place, one direction.

#![allow(clippy::unwrap_used, reason = "a file that can't be read fails the test")]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use fluent_syntax::parser;

const LINES: usize = 400;

fn root() -> PathBuf {
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
fn files(folder: &str, ending: &str) -> Vec<(String, String)> {
    let mut found = Vec::new();
    walk(&root().join(folder), ending, &mut found);
    assert!(!found.is_empty(), "no .{ending} in {folder}");
    found
}

/// Lines without comments.
fn code(text: &str) -> impl Iterator<Item = (usize, &str)> {
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
fn before_tests(text: &str) -> &str {
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

/// Messages of a language file, each with its attributes and the messages that it refers to.
struct Messages {
    attributes: BTreeMap<String, BTreeSet<String>>,
    referred: BTreeSet<String>,
}

fn refer(pattern: &Pattern<&str>, referred: &mut BTreeSet<String>) {
    for element in &pattern.elements {
        let PatternElement::Placeable { expression } = element else { continue };
        match expression {
            Expression::Inline(InlineExpression::MessageReference { id, .. }) => {
                referred.insert(id.name.to_owned());
            }
            Expression::Select { variants, .. } => {
                variants.iter().for_each(|variant| refer(&variant.value, referred));
            }
            Expression::Inline(_) => {}
        }
    }
}

fn messages() -> Messages {
    let text = fs::read_to_string(root().join("data/en.ftl")).unwrap();
    let resource = parser::parse(text.as_str()).unwrap_or_else(|(_, errors)| panic!("{errors:?}"));
    let mut made = Messages { attributes: BTreeMap::new(), referred: BTreeSet::new() };
    for entry in &resource.body {
        let Entry::Message(message) = entry else { continue };
        let names = message.attributes.iter().map(|attribute| attribute.id.name.to_owned()).collect();
        let twice = made.attributes.insert(message.id.name.to_owned(), names);
        assert!(twice.is_none(), "{} is written twice", message.id.name);
        let values = message.value.iter().chain(message.attributes.iter().map(|attribute| &attribute.value));
        values.for_each(|pattern| refer(pattern, &mut made.referred));
    }
    made
}

/// Texts between quotation marks on one line.
fn literals(line: &str) -> impl Iterator<Item = &str> {
    line.split('"').skip(1).step_by(2)
}

fn is_key(text: &str) -> bool {
    text.split('-').filter(|word| !word.is_empty()).count() > 1
        && text
            .chars()
            .all(|sign| sign.is_ascii_lowercase() || sign.is_ascii_digit() || matches!(sign, '-' | '.'))
}

/// Texts that follow a call, where the call is given a text: `get("…")`.
fn called_with<'a>(text: &'a str, calls: &[&str]) -> Vec<&'a str> {
    let mut found = Vec::new();
    for call in calls {
        for rest in text.split(call).skip(1) {
            found.extend(rest.trim_start().strip_prefix('"').and_then(|rest| rest.split('"').next()));
        }
    }
    found
}

#[test]
fn every_word_that_is_asked_for_exists() {
    let messages = messages();
    let known = |key: &str| {
        let (id, attribute) = key.split_once('.').map_or((key, None), |(id, rest)| (id, Some(rest)));
        messages.attributes.get(id).is_some_and(|have| attribute.is_none_or(|name| have.contains(name)))
    };
    let mut missing = BTreeSet::new();
    for (name, text) in files("ui", "slint") {
        for (_, line) in code(&text).filter(|(_, line)| line.contains("I18n.t(")) {
            // A key may stand in a choice, so every key-like text of the argument counts.
            for rest in line.split("I18n.t(").skip(1) {
                let argument = rest.split(')').next().unwrap_or_default();
                let keys = literals(argument).filter(|key| is_key(key) && !known(key));
                missing.extend(keys.map(|key| format!("{name}: {key}")));
            }
        }
    }
    let calls = ["words.get(", "words.with(", "word(", " get("];
    for (name, text) in files("src", "rs") {
        let keys =
            called_with(before_tests(&text), &calls).into_iter().filter(|key| is_key(key) && !known(key));
        missing.extend(keys.map(|key| format!("{name}: {key}")));
    }
    assert!(missing.is_empty(), "data/en.ftl lacks:\n{}", missing.into_iter().collect::<Vec<_>>().join("\n"));
}

/// Families of messages whose keys are put together at run time, and by what. What follows
/// the beginning must be the id of something: a text in the code or in the data.
const FAMILIES: &[(&str, &str)] = &[
    ("accepts-", "what a field takes"),
    ("action-", "actions of a plan"),
    ("answer-", "answers of a question"),
    ("answer-refused-", "why a steel must not be welded"),
    ("basis-", "kinds of basis"),
    ("safety-place-", "places of cautions"),
    ("caution-", "cautions"),
    ("certificate-formula-", "equivalents of a certificate"),
    ("error-", "reasons of the engine"),
    ("evidence-", "methods in a plan"),
    ("evidence-why-", "methods that are shown only"),
    ("field-", "fields of a job"),
    ("fillers-for-", "kinds of arc"),
    ("form-", "fields of the form"),
    ("form-class-", "hydrogen classes"),
    ("form-condition-", "conditions of a part"),
    ("form-heat-", "ways to state the heat"),
    ("form-joint-", "joints"),
    ("form-restraint-", "restraints"),
    ("formula-", "methods"),
    ("grade-form-", "forms that a grade comes in"),
    ("group-", "groups of grades"),
    ("input-", "inputs of a question"),
    ("inspection-", "rules for the wait"),
    ("instrument-", "kinds of instrument"),
    ("iron-", "routes and spans for iron"),
    ("joint-", "joints"),
    ("json-", "keys of an answer as JSON"),
    ("language-", "languages"),
    ("lever-", "levers"),
    ("light-", "lights of a glow"),
    ("limit-", "rules of the upper side"),
    ("method-", "methods"),
    ("note-", "notes of a question"),
    ("option-", "choices of a question"),
    ("page-", "pages beside the places"),
    ("photo-confidence-", "how far a photo is believed"),
    ("photo-reference-", "what a tint is held against"),
    ("place-", "places"),
    ("process-", "processes"),
    ("question-", "questions"),
    ("red-heat-", "red heats"),
    ("settings-look-", "looks"),
    ("severity-", "severities"),
    ("sheet-", "groups and sheets of steels with figures of their own"),
    ("span-", "published spans"),
    ("symbol-", "symbols of a formula, in lower case"),
    ("then-", "things to do"),
    ("tint-air-", "air or not"),
    ("tint-crayon-", "crayons of a pair"),
    ("tint-lists-set-", "groups of lists"),
    ("tint-mode-", "when one looks"),
    ("tint-spot-", "states of a spot"),
    ("tint-stage-", "temper colours"),
    ("tint-steel-", "steels of the tint place"),
    ("units-", "sets of units"),
];

/// `ArcEnergy` as `arc-energy`.
fn kebab(word: &str) -> String {
    let mut made = String::new();
    for sign in word.chars() {
        if sign.is_uppercase() && !made.is_empty() {
            made.push('-');
        }
        made.extend(sign.to_lowercase());
    }
    made
}

#[test]
fn every_word_can_be_reached() {
    let messages = messages();
    let mut texts = BTreeSet::new();
    for (_, text) in [files("src", "rs"), files("ui", "slint"), files("data", "ron")].concat() {
        // The id of a variant is its name in lower case, with hyphens.
        let words = text.split(|sign: char| !sign.is_ascii_alphanumeric());
        texts.extend(words.filter(|word| word.starts_with(char::is_uppercase)).map(kebab));
        for line in text.lines() {
            texts.extend(literals(line).map(|text| text.to_lowercase().replace(['_', '/', ' '], "-")));
        }
    }
    let named =
        |key: &str| texts.contains(key) || texts.range(format!("{key}.")..format!("{key}/")).next().is_some();
    // A count of one has words of its own.
    let asked = |key: &str| named(key) || key.strip_suffix("-one").is_some_and(named);
    let by_family = |key: &str| {
        FAMILIES.iter().any(|(start, _)| {
            key.strip_prefix(start).is_some_and(|id| {
                texts.contains(id)
                    || ["-weld", "-stretched", "-note"]
                        .iter()
                        .any(|end| id.strip_suffix(end).is_some_and(|id| texts.contains(id)))
            })
        })
    };
    let unused: Vec<&str> = messages
        .attributes
        .keys()
        .map(String::as_str)
        .filter(|key| !asked(key) && !messages.referred.contains(*key) && !by_family(key))
        .collect();
    assert!(unused.is_empty(), "{} messages that nothing asks for:\n{}", unused.len(), unused.join("\n"));
}

#[test]
fn every_family_of_words_is_put_together_somewhere() {
    let sources = files("src", "rs");
    for (start, by) in FAMILIES {
        let made = sources.iter().any(|(_, text)| {
            text.contains(&format!("\"{start}{{")) || text.contains(&format!("prefix = \"{start}\""))
        });
        assert!(made, "no code puts `{start}…` together from {by}");
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
