//! How long to wait before the final inspection: `data/inspection.ron`.

use serde::{Deserialize, Serialize};
use strum::{EnumIter, IntoStaticStr};

use super::{Basis, Row};

/// The texts and advice that ask for a wait; the words of each are the Fluent message
/// `answer-ID`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, EnumIter, IntoStaticStr, Serialize, Deserialize)]
pub enum WaitBook {
    /// EN 1011-2 clause 18.
    #[strum(serialize = "wait-en-1011-2")]
    En1011,
    /// NSSS.
    #[strum(serialize = "wait-nsss")]
    Nsss,
    /// EN 1090-2.
    #[strum(serialize = "wait-en-1090-2")]
    En1090,
    /// EEMUA 158.
    #[strum(serialize = "wait-eemua-158")]
    Eemua158,
    /// AWS D1.1.
    #[strum(serialize = "wait-d1-1")]
    D11,
    /// CSA W59.
    #[strum(serialize = "wait-csa-w59")]
    CsaW59,
    /// Advice of the trade.
    #[strum(serialize = "wait-prudent")]
    Prudent,
}

/// What a weld is like, for a rule that speaks of such welds.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum WaitFor {
    /// A steel that hardens as it cools.
    Hardening,
    /// A quenched and tempered steel.
    Quenched,
    /// A steel that hardens through, with its alloy.
    Hardenable,
    /// High restraint.
    HighRestraint,
    /// A known yield above this, MPa.
    YieldAbove(f64),
    /// A known yield under this, MPa.
    YieldUnder(f64),
    /// Thicker than this, mm.
    ThickerThan(f64),
}

/// A wait that a text asks for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WaitRule {
    /// Stable id in kebab-case.
    pub id: String,
    /// The text.
    pub book: WaitBook,
    /// Hours to wait after the weld has gone cold.
    pub hours: f64,
    /// Weld size above this, mm.
    pub size_above_mm: Option<f64>,
    /// Weld size up to and including this, mm.
    pub size_up_to_mm: Option<f64>,
    /// Heat input above this, kJ/mm.
    pub heat_input_above: Option<f64>,
    /// Heat input up to and including this, kJ/mm.
    pub heat_input_up_to: Option<f64>,
    /// It speaks of a weld of which one of these is true; of every weld where none stands.
    #[serde(default)]
    pub when_any: Vec<WaitFor>,
    /// And of which all of these are true.
    #[serde(default)]
    pub when_all: Vec<WaitFor>,
    /// And none of these.
    #[serde(default)]
    pub unless_any: Vec<WaitFor>,
    /// Is the wait dropped after a hydrogen-reducing or stress-relief treatment?
    #[serde(default)]
    pub none_after_heat: bool,
    /// What it rests on.
    pub basis: Basis,
}

impl WaitRule {
    /// Is the row made for a weld of this size and heat input?
    #[must_use]
    pub fn holds_for(&self, size_mm: f64, net_heat_kj_per_mm: f64) -> bool {
        let inside = |value: f64, above: Option<f64>, up_to: Option<f64>| {
            above.is_none_or(|above| value > above) && up_to.is_none_or(|up_to| value <= up_to)
        };
        inside(size_mm, self.size_above_mm, self.size_up_to_mm)
            && inside(net_heat_kj_per_mm, self.heat_input_above, self.heat_input_up_to)
    }
}

impl Row for WaitRule {
    fn id(&self) -> &str {
        &self.id
    }
}
