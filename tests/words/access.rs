//! Nothing is drawn that only the eye gets, and nothing is typed into that only a hand gets to: every chart,
//! drawing and picture is told in words, and no field lies where Tab passes over it.

use std::collections::BTreeSet;

use crate::house::{code, files};

/// Where something is drawn from paths or from an image that is made, and how a reader hears of it.
const DRAWN: &[(&str, How)] = &[
    ("ui/pages/bench/chart.slint", How::Described),
    ("ui/pages/bench/fit_moments.slint", How::Described),
    ("ui/pages/cycle/chart.slint", How::Described),
    ("ui/pages/cycle/section.slint", How::Described),
    ("ui/pages/log/card.slint", How::Described),
    ("ui/pages/log/plot.slint", How::Described),
    ("ui/pages/plan/weld.slint", How::Described),
    ("ui/pages/tint/photo.slint", How::Described),
    // The name says all of it.
    ("ui/pages/log/photos.slint", How::Named),
    ("ui/widgets/window_line.slint", How::Named),
    // A slider, whose value says what stands along it.
    ("ui/widgets/tint_strip.slint", How::Slider),
    // A sketch within a row, a tile or a button that says its name.
    ("ui/pages/cycle/moments.slint", How::Within),
    ("ui/pages/steels/unmarked_parts.slint", How::Within),
    ("ui/widgets/form.slint", How::Within),
    ("ui/widgets/tiles.slint", How::Within),
    // Sentences under it.
    ("ui/widgets/tint_moment.slint", How::Sentences),
];

#[derive(Clone, Copy, PartialEq, Debug)]
enum How {
    Described,
    Named,
    Slider,
    Within,
    Sentences,
}

/// Does this file draw a picture of data? An icon is a sign, and stands beside its word.
fn draws(text: &str) -> bool {
    let lines: Vec<&str> = code(text).map(|(_, line)| line.trim()).collect();
    let made = lines.iter().any(|line| {
        let source = line.strip_prefix("source: ").unwrap_or_default();
        let data = ["Adapter.", ".view.", ".moment.tint", ".photo.", "Icons.sketch("];
        !source.contains("Icons.up")
            && data.iter().any(|data| source.contains(data))
            && !source.contains("AnswerKind.")
    });
    let paths = lines
        .iter()
        .any(|line| line.contains("inherits Path {") || line.ends_with(" Path {") || *line == "Path {");
    made || paths || lines.iter().any(|line| line.contains("accessible-role") && line.contains("image"))
}

#[test]
fn every_drawing_is_told_in_words() {
    let listed: BTreeSet<&str> = DRAWN.iter().map(|(name, _)| *name).collect();
    let all = files("ui", "slint");
    let found: BTreeSet<&str> =
        all.iter().filter(|(_, text)| draws(text)).map(|(name, _)| name.as_str()).collect();
    assert_eq!(found, listed);
    for (name, how) in DRAWN {
        let text = &all.iter().find(|(file, _)| file == name).expect("it is listed").1;
        let lines: Vec<&str> = code(text).map(|(_, line)| line.trim()).collect();
        let of_role = |role: &str| {
            let at = lines.iter().position(|line| line.starts_with("accessible-role") && line.contains(role));
            // What is said of a thing stands beside its role.
            at.map(|at| lines[at.saturating_sub(2)..lines.len().min(at + 7)].to_vec())
        };
        let says = |beside: &[&str], what: &str| beside.iter().any(|line| line.starts_with(what));
        let told = match how {
            How::Described => of_role("image").is_some_and(|beside| {
                says(&beside, "accessible-label:") && says(&beside, "accessible-description:")
            }),
            How::Named => of_role("image").is_some_and(|beside| says(&beside, "accessible-label:")),
            How::Slider => of_role("slider").is_some_and(|beside| {
                says(&beside, "accessible-label:") && says(&beside, "accessible-value:")
            }),
            How::Within => !lines.iter().any(|line| line.contains("accessible-role: image")),
            How::Sentences => lines.iter().filter(|line| line.ends_with("Txt {")).count() > 1,
        };
        assert!(told, "{name} is not told in words: {how:?}");
    }
}

/// An image that says nothing of itself is left out of what is heard: what stands around it speaks for it.
#[test]
fn no_image_is_heard_as_nothing() {
    let mut images = 0;
    for (name, text) in files("ui", "slint") {
        let lines: Vec<&str> = text.lines().map(str::trim).collect();
        for at in (0..lines.len()).filter(|at| lines[*at].ends_with(" Image {") || lines[*at] == "Image {") {
            let own = &lines[at + 1..lines.len().min(at + 4)];
            let inherits = lines[at].contains("inherits");
            let told = own.iter().any(|line| line.starts_with("accessible-role: none"));
            assert!(inherits || told, "{name}:{}: an image without a role", at + 1);
            images += usize::from(!inherits);
        }
    }
    assert!(images > 8, "{images} images");
}

/// Lines that a line lies within, the nearest first.
fn around<'a>(lines: &'a [&'a str], at: usize) -> impl Iterator<Item = usize> + 'a {
    let deep = |line: &str| line.len() - line.trim_start().len();
    let mut depth = deep(lines[at]);
    (0..at).rev().filter(move |&above| {
        let within = !lines[above].trim().is_empty() && deep(lines[above]) < depth;
        if within {
            depth = deep(lines[above]);
        }
        within
    })
}

/// Is this field within an element that clips? It is then passed over by Tab wherever it is scrolled out
/// of view.
fn clipped(lines: &[&str], field: usize) -> bool {
    let deep = |line: &str| line.len() - line.trim_start().len();
    around(lines, field).any(|outer| {
        let own = lines[outer + 1..]
            .iter()
            .take_while(|line| line.trim().is_empty() || deep(line) > deep(lines[outer]));
        own.filter(|line| deep(line) == deep(lines[outer]) + 4).any(|line| line.trim() == "clip: true;")
    })
}

#[test]
fn no_field_lies_within_a_clip() {
    let mut fields = 0;
    for (name, text) in files("ui", "slint") {
        let lines: Vec<&str> = text.lines().collect();
        for at in (0..lines.len()).filter(|at| lines[*at].trim_end().ends_with("TextInput {")) {
            assert!(!clipped(&lines, at), "{name}:{}: a field within a clip", at + 1);
            fields += 1;
        }
    }
    assert!(fields >= 3, "{fields} fields");
    let clips = [
        "Rectangle {",
        "    clip: true;",
        "    Rectangle {",
        "        edt := TextInput {",
        "        }",
        "    }",
        "}",
    ];
    assert!(clipped(&clips, 3), "what it is looked for is found");
}
