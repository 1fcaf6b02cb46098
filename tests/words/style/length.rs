//! Sentences that are too long to be read with gloves on.

use super::{INTERFACE, Text, formula};

/// The longest sentence and the longest order, in words. What stands in brackets is no part of it, a
/// colon and a semicolon end a thought.
const SENTENCE: usize = 20;
const ORDER: usize = 12;
/// Words that an order begins with.
const ORDERS: &[&str] = &[
    "Add",
    "Bolt",
    "Braze",
    "Bring",
    "Butter",
    "Check",
    "Choose",
    "Clean",
    "Close",
    "Confirm",
    "Cool",
    "Correct",
    "Cut",
    "Do",
    "Find",
    "Give",
    "Grind",
    "Heat",
    "Keep",
    "Leave",
    "Let",
    "Look",
    "Make",
    "Measure",
    "Move",
    "Never",
    "Open",
    "Peen",
    "Pick",
    "Plan",
    "Post-heat",
    "Preheat",
    "Put",
    "Rebake",
    "Redry",
    "Remove",
    "Start",
    "State",
    "Stop",
    "Take",
    "Temper",
    "Test",
    "Try",
    "Type",
    "Use",
    "Wait",
    "Warm",
    "Watch",
    "Wear",
    "Weld",
    "Write",
];
/// Longer all the same, and why.
pub(super) const LONG: &[(&str, &str)] = &[
    ("accepts-", "an order with examples to copy"),
    ("cli-help", "a page of help, laid out in columns"),
    (INTERFACE, "ids and names in a row"),
];

pub(super) fn too_long(text: &Text) -> Vec<String> {
    if formula(&text.key) || LONG.iter().any(|(key, _)| text.key.starts_with(key)) {
        return Vec::new();
    }
    let mut said = String::new();
    let mut depth = 0_usize;
    for sign in text.said.chars() {
        match sign {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            _ if depth == 0 => said.push(sign),
            _ => {}
        }
    }
    let ends = |word: &str| word.trim_end_matches(['”', '"']).ends_with(['.', ':', ';', '?', '!']);
    let words: Vec<&str> = said
        .split(' ')
        .filter(|word| word.contains(|sign: char| sign.is_alphanumeric() || sign == '□'))
        .collect();
    words
        .split_inclusive(|word| ends(word))
        .filter_map(|sentence| {
            let order = sentence.first().is_some_and(|first| ORDERS.contains(first));
            let most = if order { ORDER } else { SENTENCE };
            (sentence.len() > most).then(|| {
                format!("{}: {} words, {most} at most: {}", text.key, sentence.len(), sentence.join(" "))
            })
        })
        .collect()
}
