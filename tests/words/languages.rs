//! Every language file against the English one, and what is said where a language lacks words.

#![allow(clippy::unwrap_used, reason = "a file that can't be read fails the test")]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use fluent_syntax::ast::{CallArguments, Entry, Expression, InlineExpression, Pattern, PatternElement};
use fluent_syntax::parser;
use strawblue::words::{List, Words};

use crate::house::root;

/// The arguments and functions that a text uses.
fn used(pattern: &Pattern<&str>, found: &mut BTreeSet<String>) {
    for element in &pattern.elements {
        if let PatternElement::Placeable { expression } = element {
            used_in(expression, found);
        }
    }
}

fn used_in(expression: &Expression<&str>, found: &mut BTreeSet<String>) {
    match expression {
        Expression::Inline(inline) => used_inline(inline, found),
        Expression::Select { selector, variants } => {
            used_inline(selector, found);
            variants.iter().for_each(|variant| used(&variant.value, found));
        }
    }
}

fn used_inline(inline: &InlineExpression<&str>, found: &mut BTreeSet<String>) {
    match inline {
        InlineExpression::VariableReference { id } => {
            found.insert(format!("${}", id.name));
        }
        InlineExpression::FunctionReference { id, arguments } => {
            // A figure in a sentence is the same in every language.
            found.insert(format!("{}({})", id.name, figures(arguments)));
        }
        InlineExpression::Placeable { expression } => used_in(expression, found),
        _ => {}
    }
}

fn figures(arguments: &CallArguments<&str>) -> String {
    let positional = arguments.positional.iter().map(|argument| match argument {
        InlineExpression::NumberLiteral { value } | InlineExpression::StringLiteral { value } => *value,
        _ => "",
    });
    positional.collect::<Vec<_>>().join(", ")
}

/// Each message and attribute of a file, with what it uses.
fn shape(text: &str) -> Result<BTreeMap<String, BTreeSet<String>>, String> {
    let resource = parser::parse(text).map_err(|(_, errors)| format!("{errors:?}"))?;
    let mut made = BTreeMap::new();
    let mut add = |key: String, pattern: &Pattern<&str>| {
        let mut found = BTreeSet::new();
        used(pattern, &mut found);
        match made.insert(key.clone(), found) {
            None => Ok(()),
            Some(_) => Err(format!("{key} is written twice")),
        }
    };
    for entry in &resource.body {
        let Entry::Message(message) = entry else { continue };
        if let Some(value) = &message.value {
            add(message.id.name.to_owned(), value)?;
        }
        for attribute in &message.attributes {
            add(format!("{}.{}", message.id.name, attribute.id.name), &attribute.value)?;
        }
    }
    Ok(made)
}

/// What a language file lacks, has too much, or says with other arguments than English.
fn faults(english: &str, other: &str) -> Vec<String> {
    let english = shape(english).expect("English reads");
    let other = match shape(other) {
        Ok(other) => other,
        Err(fault) => return vec![fault],
    };
    let lacking = english.keys().filter(|key| !other.contains_key(*key)).map(|key| format!("lacks {key}"));
    let different = other.iter().filter_map(|(key, uses)| match english.get(key) {
        None => Some(format!("{key} is no message of English")),
        Some(wanted) if wanted != uses => Some(format!("{key} uses {uses:?} and not {wanted:?}")),
        Some(_) => None,
    });
    lacking.chain(different).collect()
}

fn english() -> String {
    fs::read_to_string(root().join("data/en.ftl")).unwrap()
}

/// A file is a language by standing there.
#[test]
fn every_language_says_what_english_says() {
    let mut files = 0;
    for entry in fs::read_dir(root().join("data")).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|ending| ending != "ftl") {
            continue;
        }
        files += 1;
        let tag = path.file_stem().unwrap().to_str().unwrap();
        assert!(Words::languages().any(|known| known == tag), "src/words/mod.rs doesn't know of {tag}.ftl");
        let found = faults(&english(), &fs::read_to_string(&path).unwrap());
        assert!(found.is_empty(), "{tag}.ftl:\n{}", found.join("\n"));
    }
    assert_eq!(files, Words::languages().count(), "each language has its file");
}

#[test]
fn a_spoiled_language_is_found_out() {
    let english = english();
    let spoil = |from: &str, to: &str| {
        assert!(english.contains(from), "English has {from}");
        faults(&english, &english.replacen(from, to, 1))
    };
    assert_eq!(spoil("\nplace-plan = ", "\nplace-plaan = ").len(), 2, "one lacks, one is too much");
    assert_eq!(spoil("    .short = faint yellow\n", ""), ["lacks tint-stage-faint-yellow.short"]);
    assert_eq!(spoil("window = Plan: { $range }", "window = Plan: { $rang }").len(), 1, "another argument");
    assert_eq!(spoil("*[other] { $count } steels", "*[other] { $number } steels").len(), 1, "in a choice");
    assert_eq!(spoil("TEMP(316)", "TEMP(361)").len(), 1, "another figure");
    assert_eq!(spoil("\nplace-tint = ", "\nplace-plan = ")[0], "place-plan is written twice");
    assert_eq!(spoil("{ $low }", "{ $low").len(), 1, "a line that can't be read");
    assert_eq!(faults(&english, &english), [""; 0]);
}

/// A language that counts in a way of its own and lacks nearly everything.
const POLISH: &str = "\
place-plan = Przykład
steels-count =
    { $count ->
        [one] { $count } stal
        [few] { $count } stale
       *[many] { $count } stali
    }
list-and = { $before } i { $next }
";

#[test]
fn english_stands_behind_a_language() {
    let words = Words::of_file("pl", POLISH);
    assert_eq!((words.language().as_str(), words.get("place-plan").as_str()), ("pl", "Przykład"));
    assert_eq!(words.get("place-tint"), "Tint");
    assert_eq!(words.get("tint-stage-blue.short"), "blue");
    assert!(words.has("place-tint") && !words.has("place-nowhere"));
    assert_eq!(words.get("place-nowhere"), "place-nowhere");
    // A number chooses by the rules of the language that the message is of (CLDR: Polish has one, few
    // and many; English one and other).
    let counted = [1, 3, 5, 22].map(|count| words.count("steels-count", count, &[]));
    assert_eq!(counted, ["1 stal", "3 stale", "5 stali", "22 stale"]);
    let counted = [1, 3].map(|count| words.count("safety-count", count, &[]));
    assert_eq!(counted, ["1 note", "3 notes"]);
}

#[test]
fn the_language_can_change_while_it_is_spoken() {
    let words = Words::of_file("pl", POLISH);
    words.speak("en");
    assert_eq!((words.language().as_str(), words.get("place-plan").as_str()), ("en", "Plan"));
    // A region, another way to write it, and what there are no words of.
    for tag in ["en-GB", "en-US", "EN", "tlh", "", "no tag"] {
        assert_eq!(Words::of(tag).language(), "en", "{tag}");
    }
    // Units stay as they are.
    let words = Words::of_file("pl", POLISH);
    words.write_in(strawblue::units::Units::F_IN.scales());
    words.speak("en");
    assert!(words.get("note-average-over-75").contains("3\u{a0}in"));
}

#[test]
fn several_texts_stand_in_one_line() {
    let words = Words::english();
    let three = ["a", "b", "c"];
    assert_eq!(words.list(List::Comma, &three), "a, b, c");
    assert_eq!(words.list(List::And, &three), "a, b and c");
    assert_eq!(words.list(List::And, &three[..2]), "a and b");
    assert_eq!(words.list(List::Semicolon, &three), "a; b; c");
    assert_eq!(words.list(List::Names, &three), "a · b · c");
    assert_eq!(words.list(List::And, &three[..1]), "a");
    assert_eq!(words.list(List::Comma, &[""; 0]), "");
    assert_eq!(Words::of_file("pl", POLISH).list(List::And, &three), "a, b i c");
}
