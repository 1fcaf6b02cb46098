//! Every language file against the English one: the same messages with the same attributes, arguments,
//! functions and choices; and what is said where a language lacks words.

#![allow(clippy::unwrap_used, reason = "a file that can't be read fails the test")]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use fluent_syntax::ast::{
    CallArguments, Entry, Expression, InlineExpression, Pattern, PatternElement, VariantKey,
};
use fluent_syntax::parser;
use strawblue::words::{List, Words};

use crate::house::root;

/// The arguments, functions and other messages that a text uses, and what it chooses by.
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
            // Each language has plural forms of its own; a choice by a text has the same ones everywhere.
            for variant in variants {
                if let VariantKey::Identifier { name } = variant.key
                    && !PLURAL.contains(&name)
                {
                    found.insert(format!("[{name}]"));
                }
                used(&variant.value, found);
            }
        }
    }
}

/// The plural forms of CLDR.
const PLURAL: [&str; 6] = ["zero", "one", "two", "few", "many", "other"];

fn used_inline(inline: &InlineExpression<&str>, found: &mut BTreeSet<String>) {
    match inline {
        InlineExpression::VariableReference { id } => {
            found.insert(format!("${}", id.name));
        }
        InlineExpression::MessageReference { id, .. } => {
            found.insert(id.name.to_owned());
        }
        InlineExpression::FunctionReference { id, arguments } => {
            // A figure in a sentence is the same in every language, but for its decimal mark.
            found.insert(format!("{}({})", id.name, figures(arguments)));
        }
        InlineExpression::Placeable { expression } => used_in(expression, found),
        _ => {}
    }
}

/// The figures that a function is given; of a text no more than its digits, without the nought that some
/// write before a decimal mark.
fn figures(arguments: &CallArguments<&str>) -> String {
    let digits = |text: &str| {
        let kept = text.replace(',', ".");
        kept.chars()
            .filter(|sign| sign.is_ascii_digit() || matches!(sign, '.' | '/' | '–'))
            .collect::<String>()
    };
    let figure = |argument: &InlineExpression<&str>| match argument {
        InlineExpression::NumberLiteral { value } => (*value).to_owned(),
        InlineExpression::StringLiteral { value } => {
            digits(value).trim_end_matches('.').trim_start_matches('0').to_owned()
        }
        _ => String::new(),
    };
    let positional = arguments.positional.iter().map(figure);
    let named = arguments.named.iter().map(|named| format!("{}: {}", named.name.name, figure(&named.value)));
    positional.chain(named).collect::<Vec<_>>().join(", ")
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

/// The figures that stand in a text as digits.
fn digits(pattern: &Pattern<&str>, found: &mut BTreeSet<String>) {
    for element in &pattern.elements {
        match element {
            PatternElement::TextElement { value } => {
                let runs = value.split(|sign: char| !sign.is_ascii_digit()).filter(|run| !run.is_empty());
                found.extend(runs.map(str::to_owned));
            }
            PatternElement::Placeable { expression: Expression::Select { variants, .. } } => {
                for variant in variants {
                    let mut within = BTreeSet::new();
                    digits(&variant.value, &mut within);
                    // A form for one may be that of none too, and then writes its number by its argument.
                    if matches!(variant.key, VariantKey::Identifier { name: "one" }) {
                        within.remove("1");
                    }
                    found.extend(within);
                }
            }
            PatternElement::Placeable { .. } => {}
        }
    }
}

/// The figures of each message and attribute; of words that are only looked for none.
fn figures_of(text: &str) -> BTreeMap<String, BTreeSet<String>> {
    let resource = parser::parse(text).expect("it reads");
    let mut made: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for entry in &resource.body {
        let Entry::Message(message) = entry else { continue };
        if let Some(value) = &message.value {
            digits(value, made.entry(message.id.name.to_owned()).or_default());
        }
        for attribute in message.attributes.iter().filter(|attribute| attribute.id.name != "words") {
            let key = format!("{}.{}", message.id.name, attribute.id.name);
            digits(&attribute.value, made.entry(key).or_default());
        }
    }
    made.retain(|key, _| !key.ends_with("-same-words"));
    made
}

/// Messages that write a figure in words.
const IN_WORDS: [(&str, &str); 1] = [("es", "caution-c045.why")];

/// A figure that got lost in a translation can hurt somebody.
#[test]
fn every_figure_of_an_english_text_stands_in_every_language() {
    let english = figures_of(&english());
    for tag in Words::languages() {
        let own = figures_of(&fs::read_to_string(root().join(format!("data/{tag}.ftl"))).unwrap());
        let lost = |key: &String| -> Vec<&String> {
            own.get(key).map_or_else(Vec::new, |own| english[key].difference(own).collect())
        };
        let excepted = |key: &String| IN_WORDS.contains(&(tag, key.as_str()));
        let keys = english.keys().filter(|key| !excepted(key) && !lost(key).is_empty());
        let lost: Vec<String> = keys.map(|key| format!("{key} lacks {:?}", lost(key))).collect();
        assert!(lost.is_empty(), "data/{tag}.ftl:\n{}", lost.join("\n"));
    }
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
        let known = Words::languages().any(|known| known == tag);
        assert!(known, "{tag}.ftl came after the program was built: touch src/build.rs");
        let found = faults(&english(), &fs::read_to_string(&path).unwrap());
        assert!(
            found.is_empty(),
            "data/{tag}.ftl has to be brought up to data/en.ftl, {} faults:\n{}",
            found.len(),
            found.join("\n")
        );
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
    assert_eq!(spoil("*[other] { $count } grades", "*[other] { $number } grades").len(), 1, "in a choice");
    assert_eq!(spoil("TEMP(316)", "TEMP(361)").len(), 1, "another figure");
    assert_eq!(spoil("LENGTH(\"75 mm\"", "LENGTH(\"76 mm\"").len(), 1, "another length");
    assert_eq!(spoil("LENGTH(\"2.5 mm\"", "LENGTH(\"2,5 mm\""), [""; 0], "the same with its own mark");
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
    assert_eq!(counted, ["1 note", "3 notes in all"]);
}

#[test]
fn the_language_can_change_while_it_is_spoken() {
    let words = Words::of_file("pl", POLISH);
    words.speak("en");
    assert_eq!((words.language().as_str(), words.get("place-plan").as_str()), ("en", "Plan"));
    // A region, another way to write it, and what there are no words of.
    for tag in ["en-GB", "en-US", "EN", "tlh", "", "C", "POSIX", "no tag"] {
        assert_eq!(Words::of(tag).language(), "en", "{tag}");
    }
    // Units stay as they are.
    let words = Words::of_file("pl", POLISH);
    words.write_in(strawblue::units::Units::F_IN.scales());
    words.speak("en");
    assert!(words.get("note-average-over-75").contains("3\u{a0}in"));
}

/// The tags that a system hands on are those of BCP 47, with a region of its own.
#[test]
fn a_region_without_words_speaks_its_language() {
    let spoken = [
        ("de-AT", "de"),
        ("de_CH", "de"),
        ("es-MX", "es"),
        ("fr-CA", "fr"),
        ("pt-PT", "pt-BR"),
        ("pt", "pt-BR"),
    ];
    for (asked, told) in spoken {
        assert_eq!(Words::known(asked), Some(told));
        assert_eq!(Words::of(asked).language(), told);
    }
    assert_eq!(Words::known("tlh"), None);
}

/// What a message says with all that it may be given; a choice by a number is said for one and for two.
fn said(words: &Words, key: &str, uses: &BTreeSet<String>) -> Vec<String> {
    let names: Vec<&str> = uses.iter().filter_map(|name| name.strip_prefix('$')).collect();
    let texts: Vec<(&str, &str)> = names.iter().map(|name| (*name, "42")).collect();
    let numbers = |number| names.iter().map(|name| (*name, number)).collect::<Vec<_>>();
    vec![words.with(key, &texts), words.numbers(key, &numbers(1), &[]), words.numbers(key, &numbers(2), &[])]
}

/// A message that Fluent can't put together shows the braces of what it lacks.
#[test]
fn every_message_of_every_language_can_be_said() {
    for tag in Words::languages() {
        let words = Words::of(tag);
        let file = fs::read_to_string(root().join(format!("data/{tag}.ftl"))).unwrap();
        let mut faults = Vec::new();
        for (key, uses) in shape(&file).expect("it reads") {
            for said in said(&words, &key, &uses) {
                let whole = !said.contains(['{', '}']) && !said.trim().is_empty();
                let lines = said.lines().any(|line| line.ends_with(' '));
                // Signs of a slip with the keyboard or of a text that went through another encoding.
                let clean = !said.contains(['\t', '\u{fffd}']);
                if !whole || lines || !clean {
                    faults.push(format!("{key}: {said:?}"));
                }
            }
        }
        assert!(faults.is_empty(), "data/{tag}.ftl:\n{}", faults.join("\n"));
    }
}

/// Common practice, no source: English sets a decimal off by a point, German, Spanish, French and
/// Portuguese by a comma.
#[test]
fn a_figure_has_the_mark_of_its_language() {
    for tag in Words::languages() {
        let words = Words::of(tag);
        let mark = if tag == "en" { '.' } else { ',' };
        assert_eq!(words.decimal_mark(), mark, "{tag}");
        assert_eq!(words.value("-0.5"), format!("\u{2212}0{mark}5"));
        assert_eq!(words.value("C45"), "C45");
    }
    let german = Words::of_file("de", "decimal-mark = ,\nrise = { RISE(2.5) }, { TEMP(37.5) }\n");
    assert_eq!(german.get("rise"), "2,5\u{a0}°C, 37,5\u{a0}°C");
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
