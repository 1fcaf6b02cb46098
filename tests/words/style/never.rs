//! Words that are never written.

use super::{INTERFACE, PLACED, Text, formula};

/// Words never to write, and where they may stand all the same: a word around them that makes
/// another one of them, or `@` and the beginning of the keys that may. Each is looked for as whole words, whatever its case.
const NEVER: &[(&str, &[&str])] = &[
    // Quaint turns.
    ("reckoned", &[]),
    ("nought", &[]),
    ("held", &[]),
    ("hold", &["holding oven", "@caution-"]),
    ("put at", &[]),
    ("stand", &["@caution-"]),
    ("stands", &[]),
    ("lie", &[]),
    ("lies", &[]),
    ("ask for", &[]),
    ("asks", &[]),
    ("knows", &[]),
    ("speaks", &[]),
    ("tells", &[]),
    ("says nothing", &[]),
    ("clears", &[]),
    ("does not clear", &[]),
    ("counts as", &[]),
    (
        "counted as",
        &[
            "counted as 0",
            "counted as above",
            "counted as thick",
            "counted as the core",
            "counted as □",
            "counted as 30",
        ],
    ),
    ("taken for", &[]),
    ("taken as", &[]),
    ("near it", &[]),
    ("bears", &[]),
    ("lay", &[]),
    ("laid", &[]),
    ("one looks", &[]),
    ("the trade’s", &[]),
    ("whoever", &[]),
    ("as drawn", &[]),
    ("as sketched", &[]),
    ("remembered", &[]),
    ("prove", &[]),
    ("proven", &[]),
    ("proof", &[]),
    ("fool", &[]),
    ("flatters", &[]),
    ("drowns", &[]),
    ("freezes", &[]),
    ("no good", &[]),
    ("no use", &[]),
    ("better not", &[]),
    ("demanded", &[]),
    ("demands", &[]),
    ("would", &[]),
    ("should", &[]),
    ("nor", &[]),
    // Words with a second meaning in the trade or on a screen.
    ("skin", &["@caution-", "@first-aid"]),
    ("film", &["cling film", "oxide film", "film can look", "of the film", "sulphur films"]),
    ("window", &["open its window", "without a window", "the window"]),
    ("stick", &[]),
    ("gun", &["ir gun"]),
    ("member", &[]),
    ("hydrogen soak", &[]),
    ("hand-warm", &[]),
    ("red-hot", &[]),
    ("poisonous", &[]),
    ("crack the valve", &[]),
    ("cut the power", &[]),
    ("tight place", &[]),
    ("dye test", &[]),
    ("magnetic test", &[]),
    ("hardened and tempered", &[]),
    // Temper is the verb; the figure is the tempering temperature.
    ("the temper", &["the temper colour"]),
    ("a temper", &["a temper colour"]),
    ("its temper", &[]),
    ("own temper", &[]),
    ("last temper", &[]),
    ("low temper", &[]),
    // Heat is energy and the verb; the figure is a temperature.
    ("this heat", &["this heat input"]),
    ("the heat", &["the heat input", "the heat treatment"]),
    ("more heat", &[]),
    ("less heat", &[]),
    // A difference is taken off with “minus”; a limit is “below” or “above”.
    ("under □", &[]),
    ("over □", &["over □ of", "mean over"]),
    ("less □", &[]),
    ("under the temper", &[]),
    ("past the", &[]),
    ("beside the weld", &[]),
    ("interpass at", &["interpass at most"]),
    // One meaning each.
    ("at once", &[]),
    ("else", &[]),
    ("least", &["at least", "the least", "least bad"]),
    ("none set", &[]),
    ("old answer", &[]),
    // The trade reads full words.
    ("e.g", &[]),
    ("i.e", &[]),
    ("etc", &[]),
    ("max", &[]),
];

/// What is looked through: small letters, every figure the same sign, words with one space between.
fn plain(said: &str) -> String {
    let small = said.replace(PLACED, "□").replace(['\n', '\u{a0}'], " ").to_lowercase();
    small.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn whole_words(text: &str, words: &str) -> bool {
    let part = |sign: Option<char>| sign.is_some_and(|sign| sign.is_alphanumeric() || sign == '-');
    text.match_indices(words).any(|(at, found)| {
        !part(text[..at].chars().next_back()) && !part(text[at + found.len()..].chars().next())
    })
}

pub(super) fn never_written(text: &Text) -> Vec<String> {
    if formula(&text.key) || text.key.starts_with(INTERFACE) {
        return Vec::new();
    }
    let said = plain(&text.said);
    let mut found: Vec<String> = NEVER
        .iter()
        .filter(|(words, allowed)| {
            let here =
                |allowed: &&str| allowed.strip_prefix('@').is_some_and(|key| text.key.starts_with(key));
            if allowed.iter().any(here) {
                return false;
            }
            let left = allowed.iter().fold(said.clone(), |said, allowed| said.replace(allowed, "…"));
            whole_words(&left, words)
        })
        .map(|(words, _)| format!("{}: never “{words}”: {}", text.key, text.said))
        .collect();
    if ["n’t", "n't", "it’s", "’ll ", "’re "].iter().any(|short| said.contains(short)) {
        found.push(format!("{}: no contraction: {}", text.key, text.said));
    }
    found
}
