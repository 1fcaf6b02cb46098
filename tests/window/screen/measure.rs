//! How wide a text is drawn, in the fonts of the window.

use std::path::Path;

use ttf_parser::Face;

/// A weight of the one font.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Weight {
    /// Labels, notes.
    Regular,
    /// Values.
    Medium,
    /// What is chosen.
    SemiBold,
}

/// A font to measure with.
pub(crate) struct Measure(Vec<u8>);

impl Measure {
    pub(crate) fn new(weight: Weight) -> Self {
        let name = match weight {
            Weight::Regular => "400Regular",
            Weight::Medium => "500Medium",
            Weight::SemiBold => "600SemiBold",
        };
        let path = format!("ui/fonts/IBMPlexSans_{name}.ttf");
        Self(std::fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join(path)).expect("a bundled font"))
    }

    /// The width of a text in one line, px; kerning only narrows it.
    pub(crate) fn width(&self, text: &str, size_px: f64) -> f64 {
        let face = Face::parse(&self.0, 0).expect("a font");
        let units = text.chars().map(|letter| {
            let glyph = face.glyph_index(letter).unwrap_or_default();
            f64::from(face.glyph_hor_advance(glyph).unwrap_or_default())
        });
        units.sum::<f64>() * size_px / f64::from(face.units_per_em())
    }

    /// The lines that a text takes at a width, broken at spaces.
    pub(crate) fn lines(&self, text: &str, size_px: f64, width_px: f64) -> usize {
        let space = self.width(" ", size_px);
        let (mut lines, mut at) = (1, 0.0);
        for word in text.split(' ') {
            let word = self.width(word, size_px);
            if word > width_px {
                return usize::MAX;
            }
            if at > 0.0 && at + space + word > width_px {
                lines += 1;
                at = word;
            } else {
                at += if at > 0.0 { space + word } else { word };
            }
        }
        lines
    }
}
