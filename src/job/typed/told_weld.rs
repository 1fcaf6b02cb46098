//! What is told of the weld, as typed: load, position, groove.

use super::Typed;
use crate::engine::weld::groove::GrooveShape;
use crate::engine::weld::matching::WeldLoad;
use crate::reference::Position;
use crate::units::Accepts;

impl Typed for WeldLoad {
    const ACCEPTS: Accepts = Accepts::Load;
    const WORDS: &'static [(&'static str, Self)] = &[
        ("pull", Self::Tension),
        ("across", Self::Tension),
        ("push", Self::Compression),
        ("lengthwise", Self::Along),
        ("unknown", Self::NotKnown),
    ];
}

impl Typed for Position {
    const ACCEPTS: Accepts = Accepts::Position;
    const WORDS: &'static [(&'static str, Self)] = &[
        ("pa", Self::Flat),
        ("1f", Self::Flat),
        ("pb", Self::Horizontal),
        ("2f", Self::Horizontal),
        ("vertical", Self::VerticalUp),
        ("pf", Self::VerticalUp),
        ("3f", Self::VerticalUp),
        ("pd", Self::Overhead),
        ("4f", Self::Overhead),
    ];
}

impl Typed for GrooveShape {
    const ACCEPTS: Accepts = Accepts::Groove;
    const WORDS: &'static [(&'static str, Self)] = &[
        ("i", Self::Square),
        ("single v", Self::V),
        ("single bevel", Self::Bevel),
        ("half v", Self::Bevel),
        ("x", Self::DoubleV),
        ("k", Self::DoubleBevel),
    ];
}
