//! Every message that is asked for exists, and every message that exists is asked for.

#![allow(clippy::unwrap_used, reason = "a file that can't be read fails the test")]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use fluent_syntax::parser;
use strawblue::words::Words;

use crate::house::{before_tests, code, files, root};

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

/// Families of messages whose keys are put together at run time: what they begin with, and the
/// files, or folders, where the ids stand that follow. An id of any other file doesn't count, or every
/// common word would keep a dead message alive.
const FAMILIES: &[(&str, &[&str])] = &[
    ("answer-", &["src/questions/", "src/engine/", "src/reference/inspection.rs"]),
    ("answer-refused-", &["src/report/"]),
    ("ask-", &["src/engine/treatment.rs"]),
    ("remark-", &["src/engine/plan/remarks.rs"]),
    ("kind-", &["src/engine/family.rs"]),
    ("unmarked-family-", &["src/engine/unmarked/families.rs"]),
    ("unmarked-test-", &["src/questions/unmarked_walk.rs"]),
    ("basis-", &["src/reference/basis.rs"]),
    ("card-paper-", &["src/card/draw.rs"]),
    ("caution-", &["data/cautions.ron"]),
    ("certificate-formula-", &["src/engine/carbon_equivalent.rs"]),
    ("error-", &["src/engine/"]),
    ("evidence-", &["src/reference/method.rs", "src/engine/evidence/piping_row.rs"]),
    ("evidence-why-", &["src/reference/method.rs"]),
    ("field-", &["src/job/"]),
    ("fillers-for-", &["src/reference/process.rs"]),
    ("form-", &["src/app/"]),
    ("form-class-", &["data/processes.ron"]),
    ("form-condition-", &["src/app/plan/"]),
    ("form-heat-", &["src/app/plan/"]),
    ("form-joint-", &["src/engine/job.rs"]),
    ("form-restraint-", &["src/app/plan/"]),
    ("formula-", &["src/reference/method.rs", "src/engine/"]),
    ("grade-form-", &["data/grades.ron"]),
    ("group-", &["data/grades.ron"]),
    ("input-", &["src/questions/"]),
    ("instrument-", &["src/engine/instrument.rs"]),
    ("iron-", &["data/own_sheets.ron"]),
    ("joint-", &["data/joints.ron"]),
    ("json-", &["src/cli/"]),
    ("language-", &["data/en.ftl"]),
    ("leading-", &["src/engine/crayon.rs"]),
    ("lever-", &["src/engine/plan/"]),
    ("light-", &["src/reference/tint.rs"]),
    ("limit-", &["src/engine/plan/", "src/reference/method.rs"]),
    ("log-clock-", &["src/log/clock.rs"]),
    ("log-cooled-", &["src/log/entry.rs"]),
    ("log-face-", &["src/log/entry.rs"]),
    ("log-kind-", &["src/log/entry.rs"]),
    ("log-piece-", &["src/log/piece.rs"]),
    ("log-trial-", &["src/log/entry.rs"]),
    ("log-verdict-", &["src/engine/reading/verdict.rs"]),
    ("log-when-", &["src/engine/reading/verdict.rs"]),
    ("log-with-", &["src/engine/reading/band.rs"]),
    ("note-", &["src/questions/", "src/engine/"]),
    (
        "option-",
        &[
            "src/questions/",
            "src/engine/",
            "src/reference/tint.rs",
            "data/processes.ron",
            "data/joints.ron",
            "data/surfaces.ron",
        ],
    ),
    ("page-", &["src/app/page.rs"]),
    ("photo-confidence-", &["src/engine/photo/"]),
    ("photo-reference-", &["src/app/tint/"]),
    ("place-", &["src/app/page.rs"]),
    ("process-", &["data/processes.ron"]),
    ("question-", &["src/questions/"]),
    ("range-", &["src/report/outcome.rs"]),
    ("red-heat-", &["src/reference/tint.rs"]),
    ("safety-place-", &["src/reference/caution.rs"]),
    ("settings-controls-", &["src/app/settings/"]),
    ("settings-look-", &["src/app/settings/"]),
    ("settings-source-", &["src/reference/source.rs"]),
    ("severity-", &["src/report/"]),
    ("sheet-", &["data/own_sheets.ron"]),
    ("symbol-", &["src/report/", "src/engine/", "src/questions/"]),
    ("taken-", &["src/questions/"]),
    ("then-", &["src/report/", "src/engine/plan/sequence/"]),
    ("then-branch-", &["src/engine/plan/sequence/"]),
    ("then-find-", &["src/engine/plan/sequence/"]),
    ("then-note-", &["src/engine/plan/sequence/"]),
    ("tint-air-", &["src/app/tint/"]),
    ("tint-label-", &["src/report/"]),
    ("tint-lists-set-", &["src/app/tint/"]),
    ("tint-mode-", &["src/app/tint/"]),
    ("tint-spot-", &["src/engine/tint/"]),
    ("tint-stage-", &["src/engine/tint/"]),
    ("tint-steel-", &["src/app/tint/"]),
    ("tint-wait-label-", &["src/report/"]),
    ("units-", &["src/units/system.rs"]),
    ("work-", &["src/questions/work.rs"]),
    ("weld-as-", &["src/engine/weld/plate.rs"]),
    ("weld-base-", &["src/engine/weld_of_job/"]),
    ("weld-", &["src/engine/weld_of_job/", "src/engine/weld/offered.rs"]),
];
/// What may follow the id.
const ENDINGS: &[&str] = &["", "-weld", "-stretched", "-others", "-note"];
/// The check of the dataset asks whether messages are there, and shows none.
const CHECK: &str = "src/reference/check/";

/// The id of an enum's variant on a line of its own, as the derived ids write it.
fn variant(line: &str) -> Option<String> {
    let name = line.strip_prefix("    ")?.split(['(', ' ', ',']).next()?;
    let begins = name.starts_with(|first: char| first.is_ascii_uppercase());
    (begins && name.chars().all(char::is_alphanumeric)).then(|| {
        let mut made = String::new();
        for letter in name.chars() {
            if letter.is_ascii_uppercase() && !made.is_empty() {
                made.push('-');
            }
            made.extend(letter.to_lowercase());
        }
        made
    })
}

/// The ids of all enums' variants, each behind the prefix that its enum states.
fn variants<'a>(lines: impl Iterator<Item = &'a str>) -> Vec<String> {
    let mut prefix = "";
    let mut ids = Vec::new();
    // An enum within a macro that derives for it stands one step further in.
    let mut within = false;
    for line in lines {
        let inner = line.strip_prefix("    ");
        within = inner.map_or(within, |line| line.starts_with("pub enum ") || within && line != "}");
        let line = inner.filter(|line| within || line.starts_with("#[strum(")).unwrap_or(line);
        if line.starts_with("#[strum(") {
            prefix = line
                .split_once("prefix = \"")
                .and_then(|(_, after)| after.split_once('"'))
                .map_or("", |(prefix, _)| prefix);
        } else if line == "}" {
            prefix = "";
        }
        ids.extend(variant(line).map(|id| format!("{prefix}{id}")));
    }
    ids
}

/// Every text of the sources and of the data, by file, in the spelling of a key.
fn spoken() -> Vec<(String, BTreeSet<String>)> {
    [files("src", "rs"), files("ui", "slint"), files("data", "ron")]
        .concat()
        .into_iter()
        .filter(|(name, _)| !name.starts_with(CHECK))
        .map(|(name, text)| {
            let lines = || code(before_tests(&text)).map(|(_, line)| line);
            let texts = lines()
                .flat_map(literals)
                .map(|text| text.to_lowercase().replace(['_', '/', ' '], "-").replace('δ', "d"));
            let texts = texts.chain(variants(lines())).collect();
            (name, texts)
        })
        // A language is offered by its file.
        .chain([("data/en.ftl".to_owned(), Words::languages().map(str::to_owned).collect())])
        .collect()
}

/// A choice is named by its input's key and its own id.
fn choice(id: &str, spoken: &[(String, BTreeSet<String>)], places: &[&str]) -> bool {
    let said = |text: &str, places: &[&str]| {
        spoken
            .iter()
            .any(|(name, texts)| places.iter().any(|place| name.starts_with(place)) && texts.contains(text))
    };
    id.match_indices('-').any(|(at, _)| said(&id[..at], &["src/questions/"]) && said(&id[at + 1..], places))
}

/// The messages that nothing asks for.
fn unreached(messages: &Messages) -> Vec<&str> {
    let spoken = spoken();
    let named = |key: &str| {
        spoken.iter().any(|(_, texts)| {
            texts.contains(key) || texts.range(format!("{key}.")..format!("{key}/")).next().is_some()
        })
    };
    let of_family = |key: &str| {
        FAMILIES.iter().any(|(start, places)| {
            let Some(id) = key.strip_prefix(start) else { return false };
            if *start == "option-" {
                return choice(id, &spoken, places);
            }
            spoken.iter().filter(|(name, _)| places.iter().any(|place| name.starts_with(place))).any(
                |(_, texts)| {
                    ENDINGS.iter().filter_map(|end| id.strip_suffix(end)).any(|id| texts.contains(id))
                },
            )
        })
    };
    let keys = messages.attributes.keys().map(String::as_str);
    keys.filter(|key| !named(key) && !messages.referred.contains(*key) && !of_family(key)).collect()
}

#[test]
fn every_word_can_be_reached() {
    let mut messages = messages();
    let unused = unreached(&messages);
    assert!(unused.is_empty(), "{} messages that nothing asks for:\n{}", unused.len(), unused.join("\n"));
    // Words that are texts of the program elsewhere, and ids of another family, reach nothing.
    for dead in ["steels-of-nowhere", "place-bright", "severity-4140", "then-butt"] {
        messages.attributes.insert(dead.to_owned(), BTreeSet::new());
        assert_eq!(unreached(&messages), [dead]);
        messages.attributes.remove(dead);
    }
}

#[test]
fn every_family_of_words_is_put_together_somewhere() {
    let sources = files("src", "rs");
    for (start, places) in FAMILIES {
        let bare = start.trim_end_matches('-');
        let made = sources.iter().filter(|(name, _)| !name.starts_with(CHECK)).any(|(_, text)| {
            // Or one of several beginnings.
            text.contains(&format!("\"{start}{{"))
                || (text.contains(&format!("\"{bare}\"")) && text.contains("\"{prefix}-{"))
        });
        assert!(made, "no code puts `{start}…` together");
        for place in *places {
            assert!(root().join(place).exists(), "{start}: there is no {place}");
        }
    }
}
