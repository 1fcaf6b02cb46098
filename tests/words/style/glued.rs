//! Texts that are a piece of a sentence, and figures that part from their unit.

use super::{INTERFACE, Text, formula};

/// Texts that begin small, and why: they are words of a list or of a sentence, and no sentence.
pub(super) const SMALL: &[(&str, &str)] = &[
    ("tint-stage-", "the short name of a colour, within a sentence"),
    ("instrument-", "the short name of an instrument, in a list"),
    ("kind-", "kinds of steel, in a list"),
    ("unmarked-family-", "metals, in a list"),
    ("grade-form-", "forms of a grade, in a list"),
    ("grade-state-", "what else is said of a condition, in a list"),
    ("steels-figures-typical", "in the same list"),
    ("typed-means-", "what a text can mean, after what to write for it"),
    ("hydrogen-means-", "the same"),
    ("condition-means-", "the same"),
    ("process-means-", "the same"),
    ("joint-means-", "the same"),
    ("not-told-", "what was not told, in a list"),
    ("then-figure-", "a figure, after the deed of a step"),
    ("note-ir-hotter.short", "what the gun says, in the line of a folded question"),
    ("store-kept-whole", "in a list of the names of fields"),
    ("cycle-phase-", "what goes on, behind the time of a moment"),
    ("cycle-part-", "a part of the joint, within a line"),
    ("unit-minutes", "a unit"),
    ("units-", "units"),
    ("cli-takes-", "after a key and its spaces, in the help"),
    ("cli-required", "after what a key takes, in the help"),
    ("cli-", "an answer below its name on the command line"),
    ("then-m90-", "a figure within a sentence"),
];
/// Words that a whole text doesn't end with.
const CONNECTING: &[&str] = &[
    "a", "an", "and", "at", "by", "for", "from", "in", "is", "of", "on", "or", "than", "that", "the", "to",
    "was", "with",
];

pub(super) fn glued(text: &Text) -> Option<String> {
    if formula(&text.key) || text.key.starts_with(INTERFACE) {
        return None;
    }
    let fault = |why: &str| Some(format!("{}: {why}: {}", text.key, text.said));
    if text.glued {
        return fault("another message is put between its words");
    }
    let small = text.said.chars().next().is_some_and(char::is_lowercase);
    // A symbol or a term that is written small everywhere begins a text as it is.
    let term = ["t8/5", "pH"].iter().any(|term| text.said.starts_with(term));
    // What of a caution is from memory stands in a sentence that says so.
    let part = text.key.ends_with(".memory");
    if small && !term && !part && !SMALL.iter().any(|(key, _)| text.key.starts_with(key)) {
        return fault("begins small");
    }
    let last = text.said.rsplit([' ', '\u{a0}']).next().unwrap_or_default();
    // A flame that is on is whole; so is a unit.
    let whole = ["flame on", "flame is on", ", in"].iter().any(|end| text.said.to_lowercase().ends_with(end));
    if (CONNECTING.contains(&last) && !whole)
        || text.said.ends_with([' ', ',', ';'])
        || text.said.starts_with(' ')
    {
        return fault("ends in the middle of a sentence");
    }
    None
}

/// Units that a number stands with.
const UNITS: &[&str] =
    &["°C", "°F", "mm", "ml", "ml/100", "%", "h", "min", "s", "HV", "HRC", "MPa", "K", "kJ/mm"];
/// Texts to copy into a field or a command, where people write a plain space.
pub(super) const TO_COPY: &[&str] = &["accepts-", "typed-", "cli-", INTERFACE];

pub(super) fn parted(text: &Text) -> Option<String> {
    if formula(&text.key) || TO_COPY.iter().any(|key| text.key.starts_with(key)) {
        return None;
    }
    let words: Vec<&str> = text.said.split(' ').collect();
    let number = |word: &str| word.ends_with(|sign: char| sign.is_ascii_digit());
    words
        .windows(2)
        .find(|pair| number(pair[0]) && UNITS.contains(&pair[1].trim_end_matches(['.', ',', ':', ';', ')'])))
        .map(|pair| format!("{}: a no-break space in “{} {}”", text.key, pair[0], pair[1]))
}
