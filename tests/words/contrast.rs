//! Can every text and every sign be told from what it stands on? Worked out from the theme's own colours.
//!
//! Relative luminance and contrast ratio: W3C, Web Content Accessibility Guidelines 2.1, definitions in
//! section 6. Text: 4.5 to 1 (success criterion 1.4.3, level AA). Controls, the ring of what has the
//! keyboard, signs and lines of charts: 3 to 1 (1.4.11).

#![allow(clippy::unwrap_used, reason = "a file that can't be read fails the test")]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use crate::house::{code, files, root};

const TEXT: f64 = 4.5;
const SIGN: f64 = 3.0;

/// What is seen on what: the colour, what it stands on, the least contrast, where.
const PAIRS: &[(&str, &[&str], f64, &str)] = &[
    // `line` is what a thing that is pressed is filled with.
    ("ink", &["bg", "panel", "field", "line"], TEXT, "text"),
    ("ink2", &["bg", "panel", "field", "line"], TEXT, "labels, notes, units"),
    ("ink3", &["bg", "panel", "field"], TEXT, "an example in an empty field, a button that can't be pressed"),
    ("stale", &["bg", "panel"], TEXT, "an old answer"),
    ("accent", &["bg", "panel", "field", "line"], SIGN, "signs, the ring, lines of charts"),
    ("accent", &["bg", "panel"], TEXT, "the word of what governs, of what opens a window"),
    ("stop", &["bg", "panel", "field"], TEXT, "errors, refusals"),
    ("stop", &["line"], SIGN, "the same on a row, as long as it is pressed"),
    ("on-accent", &["accent"], TEXT, "the word of the main button, the tick of a step that is done"),
    ("on-sel", &["sel"], TEXT, "the word of what is chosen, and the ring on it"),
    ("sel", &["bg", "panel", "field"], SIGN, "what is chosen, beside what isn't"),
    ("on-sel", &["ink"], TEXT, "a word on a filled part of a chart"),
    ("panel", &["ink"], TEXT, "the number of a point of the section"),
    ("bg", &["ink"], TEXT, "the name of a spot on a photo"),
    ("ink", &["marked"], TEXT, "text that is selected, a sum inside its limit"),
    ("edge", &["bg", "panel", "field"], SIGN, "the border of a control, hatching, frames of swatches"),
];

/// Names of colours.
type Names = &'static [&'static str];

/// Light that lies over a ground: the colour, its share in each look, what it lies on, what is read there.
const VEILS: &[(&str, [f64; 2], Names, Names)] = &[
    ("accent", [0.22, 0.16], &["bg", "panel"], &["ink", "ink2"]),
    ("ink2", [0.22, 0.22], &["panel"], &["ink", "ink2"]),
];

type Rgb = [f64; 3];

fn colour(hex: &str) -> Rgb {
    std::array::from_fn(|at| {
        f64::from(u8::from_str_radix(&hex[2 * at..2 * at + 2], 16).unwrap_or_else(|_| panic!("#{hex}")))
            / 255.0
    })
}

/// The colours of the theme: the dark look, then the light one.
fn tokens() -> [BTreeMap<String, Rgb>; 2] {
    let theme = fs::read_to_string(root().join("ui/theme.slint")).unwrap();
    let mut looks = [BTreeMap::new(), BTreeMap::new()];
    for (_, line) in code(&theme) {
        let Some(rest) = line.trim().strip_prefix("out property <color> ") else { continue };
        let (name, value) = rest.split_once(": ").unwrap();
        let hex: Vec<&str> = value.split('#').skip(1).map(|hex| &hex[..6]).collect();
        assert!(value.starts_with("dark ? #") && hex.len() == 2, "{line}");
        for (look, hex) in looks.iter_mut().zip(hex) {
            look.insert(name.to_owned(), colour(hex));
        }
    }
    looks
}

fn luminance(rgb: Rgb) -> f64 {
    let linear =
        rgb.map(|share| if share <= 0.03928 { share / 12.92 } else { ((share + 0.055) / 1.055).powf(2.4) });
    0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
}

fn contrast(one: Rgb, other: Rgb) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

/// Figures of the same document: black on white is 21 to 1; a colour on itself 1 to 1. #767676 on white is
/// the lightest grey that passes for text (WebAIM, contrast and color accessibility; from memory).
#[test]
fn the_contrast_is_that_of_the_guidelines() {
    let near = |found: f64, told: f64| assert!((found - told).abs() < 0.005, "{found} for {told}");
    near(contrast(colour("000000"), colour("FFFFFF")), 21.0);
    near(contrast(colour("58D3A4"), colour("58D3A4")), 1.0);
    near(contrast(colour("767676"), colour("FFFFFF")), 4.54);
    near(contrast(colour("777777"), colour("FFFFFF")), 4.48);
}

#[test]
fn every_colour_is_told_from_what_it_stands_on() {
    let mut low = Vec::new();
    for (look, tokens) in ["dark", "light"].into_iter().zip(tokens()) {
        let of = |name: &str| *tokens.get(name).unwrap_or_else(|| panic!("there is no {name}"));
        for (ink, grounds, least, place) in PAIRS {
            for ground in *grounds {
                let found = contrast(of(ink), of(ground));
                if found < *least {
                    low.push(format!("{look}: {ink} on {ground} {found:.2}, {least} is needed: {place}"));
                }
            }
        }
        for (veil, shares, grounds, inks) in VEILS {
            let share = shares[usize::from(look == "light")];
            for (ground, ink) in grounds.iter().flat_map(|ground| inks.iter().map(move |ink| (ground, ink))) {
                let (over, under) = (of(veil), of(ground));
                let mixed = std::array::from_fn(|at| over[at] * share + under[at] * (1.0 - share));
                let found = contrast(of(ink), mixed);
                if found < TEXT {
                    low.push(format!("{look}: {ink} on {veil} over {ground} {found:.2}"));
                }
            }
        }
    }
    assert!(low.is_empty(), "{}", low.join("\n"));
}

/// The list knows every colour of the theme, and every colour that a page gives to a text.
#[test]
fn no_colour_is_left_out_of_the_list() {
    let listed: BTreeSet<&str> =
        PAIRS.iter().flat_map(|(ink, grounds, ..)| grounds.iter().copied().chain([*ink])).collect();
    for tokens in tokens() {
        assert_eq!(tokens.keys().map(String::as_str).collect::<BTreeSet<_>>(), listed);
    }
    let for_text: BTreeSet<&str> =
        PAIRS.iter().filter(|(_, _, least, _)| *least == TEXT).map(|(ink, ..)| *ink).collect();
    let mut seen = 0;
    for (name, text) in files("ui", "slint") {
        for (at, line) in code(&text) {
            let Some(given) = line.trim().strip_prefix("color: ") else { continue };
            for token in given.split("Theme.").skip(1) {
                let end =
                    token.find(|sign: char| !sign.is_alphanumeric() && sign != '-').unwrap_or(token.len());
                let token = &token[..end];
                assert!(for_text.contains(token), "{name}:{at}: text in {token}");
                seen += 1;
            }
        }
    }
    assert!(seen > 100, "only {seen} texts were found");
}
