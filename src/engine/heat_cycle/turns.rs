//! When the steel that transforms lowest turns to martensite on its way to cold.

use strum::IntoStaticStr;

use super::after::Cooled;

/// A point of the transformation.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Turn {
    /// Martensite begins.
    Ms,
    /// Nine tenths are martensite.
    M90,
}

impl Turn {
    /// Stable id, as printed in JSON.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// The steel of the joint that transforms lowest, by the formula of the plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Turns {
    /// Ms, °C.
    pub ms_c: f64,
    /// M90, °C.
    pub m90_c: f64,
    /// How far both may lie from the formula, K.
    pub scatter_k: f64,
}

/// One point, and when the joint falls past it. Whoever waits for it waits for the later end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Turned {
    /// Which.
    pub turn: Turn,
    /// By the formula, °C.
    pub at_c: f64,
    /// The cold end of what it may be, °C.
    pub low_c: f64,
    /// The hot end, °C.
    pub high_c: f64,
    /// Minutes of the cooling until the hot end; 0 where cooling begins below it, `None` where it
    /// ends above it.
    pub from_min: Option<f64>,
    /// The same of the cold end.
    pub to_min: Option<f64>,
}

impl Turns {
    /// Both points in a cooling, the hotter first.
    #[must_use]
    pub fn passed(&self, cooled: &Cooled) -> [Turned; 2] {
        [(Turn::Ms, self.ms_c), (Turn::M90, self.m90_c)].map(|(turn, at_c)| {
            let (low_c, high_c) = (at_c - self.scatter_k, at_c + self.scatter_k);
            let (from_min, to_min) = (cooled.passes_min(high_c), cooled.passes_min(low_c));
            Turned { turn, at_c, low_c, high_c, from_min, to_min }
        })
    }
}
