//! How the texts are written: words that are never written, sentences that are too long, texts longer
//! than their place, and texts glued from pieces. The lists below are the rules; what may depart from
//! one stands beside it, with why.

#![allow(clippy::unwrap_used, reason = "a file that can't be read fails the test")]

mod code;
mod glued;
mod length;
mod never;
mod place;

use std::collections::BTreeSet;
use std::fmt::Write;
use std::fs;

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use fluent_syntax::parser;

use strawblue::words::Words;

use crate::house::root;
use glued::{SMALL, TO_COPY, glued, parted};
use length::{LONG, too_long};
use never::never_written;
use place::{NO_PLACE, PLACES, beyond_place};

/// Words that a search takes for one another: they are shown nowhere.
const SEARCHED: [&str; 2] = ["safety-same-words", "bench-same-words"];

/// What stands for a figure, a name or a list in a text: one word, of eight letters.
const PLACED: &str = "□□□□□□□□";

/// One text of the language file: `key` or `key.attribute`, each variant of a choice by itself.
struct Text {
    key: String,
    said: String,
    /// Does it put another message, or a text of its own, between its words?
    glued: bool,
}

fn texts_of(key: &str, pattern: &Pattern<&str>, made: &mut Vec<Text>) {
    let mut text = Text { key: key.to_owned(), said: String::new(), glued: false };
    let alone = pattern.elements.len() == 1;
    for element in &pattern.elements {
        match element {
            PatternElement::TextElement { value } => text.said.push_str(value),
            PatternElement::Placeable { expression } => match expression {
                Expression::Select { variants, .. } => {
                    variants.iter().for_each(|variant| texts_of(key, &variant.value, made));
                }
                Expression::Inline(InlineExpression::MessageReference { .. }) if alone => return,
                Expression::Inline(
                    InlineExpression::MessageReference { .. } | InlineExpression::StringLiteral { .. },
                ) => text.glued = true,
                Expression::Inline(_) => text.said.push_str(PLACED),
            },
        }
    }
    if !text.said.is_empty() || text.glued {
        made.push(text);
    }
}

/// All texts of a language file that somebody reads.
fn texts(file: &str) -> Vec<Text> {
    let resource = parser::parse(file).unwrap_or_else(|(_, errors)| panic!("{errors:?}"));
    let mut made = Vec::new();
    for entry in &resource.body {
        let Entry::Message(message) = entry else { continue };
        let id = message.id.name;
        if SEARCHED.contains(&id) {
            continue;
        }
        if let Some(value) = &message.value {
            texts_of(id, value, &mut made);
        }
        // What a search finds a caution by is shown nowhere.
        for attribute in message.attributes.iter().filter(|attribute| attribute.id.name != "words") {
            texts_of(&format!("{id}.{}", attribute.id.name), &attribute.value, &mut made);
        }
    }
    made
}

fn english() -> String {
    fs::read_to_string(root().join("data/en.ftl")).unwrap()
}

/// The keys of an answer as JSON: ids and names of a data structure, for whoever writes a program on it.
const INTERFACE: &str = "json-";

/// A formula is no sentence.
fn formula(key: &str) -> bool {
    key.starts_with("formula-") || key.starts_with("certificate-formula-") || key.ends_with(".formula")
}

fn faults(file: &str) -> Vec<String> {
    texts(file)
        .iter()
        .flat_map(|text| {
            let mut found = never_written(text);
            found.extend(too_long(text));
            found.extend(beyond_place(text));
            found.extend(glued(text));
            found.extend(parted(text));
            found
        })
        .collect()
}

#[test]
fn every_text_is_written_as_the_reader_reads() {
    let found = faults(&english());
    assert!(found.is_empty(), "{} faults in data/en.ftl:\n{}", found.len(), found.join("\n"));
}

/// A figure and its unit, and a sign that French sets apart, never part at the end of a line.
#[test]
fn nothing_parts_at_the_end_of_a_line_in_any_language() {
    for tag in Words::languages() {
        let file = fs::read_to_string(root().join(format!("data/{tag}.ftl"))).unwrap();
        let mut found: Vec<String> = texts(&file).iter().filter_map(parted).collect();
        if tag == "fr" {
            let apart = [" :", " ;", " ?", " !", " »", "« "];
            let torn = |text: &&Text| {
                let written = !formula(&text.key) && !TO_COPY.iter().any(|key| text.key.starts_with(key));
                written && apart.iter().any(|sign| text.said.contains(sign))
            };
            let texts = texts(&file);
            found.extend(texts.iter().filter(torn).map(|text| format!("{}: {}", text.key, text.said)));
        }
        assert!(found.is_empty(), "data/{tag}.ftl, {} texts:\n{}", found.len(), found.join("\n"));
    }
}

#[test]
fn a_text_that_breaks_a_rule_is_found() {
    let of = |line: &str| {
        let found = faults(line);
        assert_eq!(found.len(), 1, "{line}: {found:?}");
        found.into_iter().next().unwrap()
    };
    assert!(of("x-a = The temper colour of the skin.\n").contains("never “skin”"));
    assert!(of("x-a = Heat it to the temper less 30.\n").contains("never “the temper”"));
    assert!(of("x-a = Read it on the IR gun, and not on a gun.\n").contains("never “gun”"));
    assert!(of("x-a = Don’t weld this.\n").contains("contraction"));
    let order = "Weld it with the driest rods of the box that was opened last of all here.";
    assert!(of(&format!("x-a = {order}\n")).contains("16 words, 12 at most"));
    assert_eq!(faults(&format!("x-a = Then {}\n", order.replace("Weld", "weld"))), [""; 0], "no order");
    assert!(of("place-x = A long place\n").contains("12 letters, 9 at most"));
    assert!(of("x-a = the label of a field\n").contains("begins small"));
    assert!(of("x-a = Wait at least for\n").contains("middle of a sentence"));
    assert!(of("x-b = Maximum\nx-a = Above it: { x-b }\n").contains("another message"));
    assert!(of("x-a = Above{ \" \" }it\n").contains("another message"));
    assert!(of("x-a = At most 300 °C\n").contains("no-break space"));
    assert!(
        of("x-a = { $count ->\n    [one] One steel\n   *[other] { $count } steels, he would say\n }\n")
            .contains("would")
    );
    assert_eq!(faults("x-b = Maximum\nx-a = { x-b }\nx-c = { TEMP(30) } in { $time }\n"), [""; 0]);
}

#[test]
fn no_exception_stands_for_nothing() {
    let english = english();
    let texts = texts(&english);
    let mut idle = String::new();
    let keys: BTreeSet<&str> = texts.iter().map(|text| text.key.as_str()).collect();
    let places = PLACES.iter().map(|(key, _)| *key);
    let lists = places.chain(SMALL.iter().map(|(key, _)| *key)).chain(LONG.iter().map(|(key, _)| *key));
    for key in lists.chain(NO_PLACE.iter().copied()).chain(TO_COPY.iter().copied()) {
        if !keys.iter().any(|known| known.starts_with(key)) {
            let _ = writeln!(idle, "no text begins with {key}");
        }
    }
    assert!(idle.is_empty(), "{idle}");
}
