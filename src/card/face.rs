//! How wide a text is, and where its lines break: measured with the letters that it is drawn with.

use std::collections::HashMap;
use std::sync::LazyLock;

use skrifa::instance::{LocationRef, Size};
use skrifa::{FontRef, MetadataProvider};

use super::draw::Weight;

/// How far letters reach above the line that they stand on, of their size.
pub const ABOVE: f64 = 1.025;
/// How far below.
pub const BELOW: f64 = 0.275;

/// What stands for a letter that the font lacks.
pub const LACKING: char = '◊';

static REGULAR: &[u8] = include_bytes!("../../ui/fonts/IBMPlexSans_400Regular.ttf");
static STRONG: &[u8] = include_bytes!("../../ui/fonts/IBMPlexSans_600SemiBold.ttf");

/// One letter: its number in the font and its width, of its size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Glyph {
    pub(super) id: u32,
    pub(super) advance: f64,
}

struct Face {
    glyphs: HashMap<char, Glyph>,
    lacking: Glyph,
}

static FACES: LazyLock<[Face; 2]> = LazyLock::new(|| [Face::read(REGULAR), Face::read(STRONG)]);

impl Face {
    fn read(bytes: &[u8]) -> Self {
        let font = FontRef::new(bytes).expect("tests/words/card.rs reads the bundled fonts");
        let metrics = font.glyph_metrics(Size::new(1.0), LocationRef::default());
        let glyphs: HashMap<char, Glyph> = font
            .charmap()
            .mappings()
            .filter_map(|(code, id)| {
                let advance = f64::from(metrics.advance_width(id)?);
                Some((char::from_u32(code)?, Glyph { id: id.to_u32(), advance }))
            })
            .collect();
        let lacking = glyphs.get(&LACKING).copied().unwrap_or(Glyph { id: 1, advance: 0.5 });
        Self { glyphs, lacking }
    }

    fn glyph(&self, letter: char) -> Glyph {
        self.glyphs.get(&letter).copied().unwrap_or(self.lacking)
    }
}

fn face(weight: Weight) -> &'static Face {
    &FACES[weight as usize]
}

/// A font, to be drawn with.
pub(super) fn font(weight: Weight) -> FontRef<'static> {
    FontRef::new(file(weight)).expect("tests/words/card.rs reads the bundled fonts")
}

/// The file of a font.
pub(super) const fn file(weight: Weight) -> &'static [u8] {
    match weight {
        Weight::Regular => REGULAR,
        Weight::Strong => STRONG,
    }
}

/// The letters of a text.
pub(super) fn glyphs(text: &str, weight: Weight) -> impl Iterator<Item = (usize, char, Glyph)> {
    let face = face(weight);
    text.char_indices().map(move |(at, letter)| (at, letter, face.glyph(letter)))
}

/// How wide a text is.
#[must_use]
pub fn width(text: &str, size: f64, weight: Weight) -> f64 {
    let face = face(weight);
    text.chars().map(|letter| face.glyph(letter).advance).sum::<f64>() * size
}

/// A text as it can be drawn: line ends and tabs are spaces, what has no sign is left out, and a letter
/// that the font lacks is shown as [`LACKING`]. The second is true where one was.
#[must_use]
pub fn drawable(text: &str) -> (String, bool) {
    let face = face(Weight::Regular);
    let mut lacks = false;
    let drawn = text
        .chars()
        .filter_map(|letter| match letter {
            '\n' | '\r' | '\t' => Some(' '),
            letter if letter.is_control() || letter == '\u{feff}' => None,
            letter if face.glyphs.contains_key(&letter) => Some(letter),
            _ => {
                lacks = true;
                Some(LACKING)
            }
        })
        .collect();
    (drawn, lacks)
}

/// The lines of a text, none wider than so much. It breaks at spaces, and within a word only where the
/// word alone is wider; together the lines are the text again, each but the last with its space.
#[must_use]
pub fn lines(text: &str, size: f64, weight: Weight, most: f64) -> Vec<String> {
    let face = face(weight);
    let (mut lines, mut line, mut used) = (Vec::new(), String::new(), 0.0);
    for word in text.split_inclusive(' ') {
        let bare = width(word.trim_end_matches(' '), size, weight);
        if used + bare > most && !line.is_empty() {
            lines.push(std::mem::take(&mut line));
            used = 0.0;
        }
        if bare <= most {
            line.push_str(word);
            used += width(word, size, weight);
            continue;
        }
        for letter in word.chars() {
            let advance = face.glyph(letter).advance * size;
            if used + advance > most && !line.is_empty() && letter != ' ' {
                lines.push(std::mem::take(&mut line));
                used = 0.0;
            }
            line.push(letter);
            used += advance;
        }
    }
    if !line.is_empty() || lines.is_empty() {
        lines.push(line);
    }
    lines
}
