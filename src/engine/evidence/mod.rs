//! Each preheat method by itself: its formula or table, and its word on a member of a job.
//! The plan weighs them.
//!
//! A method is written once, as a function from its inputs to an [`Outcome`]. A question asks
//! it with the inputs as they are; the plan asks the same function with them put at the ends
//! of its range, and `on` only builds what is asked.

pub mod carbon_line;
mod case;
pub mod ceq_bands;
pub mod cool_or_damp;
pub mod cracking_index;
pub mod d11_annex;
pub mod d11_category;
pub mod data_sheet;
pub mod dearden_oneill;
pub mod grade_rows;
pub mod ito_bessyo;
pub mod low_hydrogen_rows;
pub mod method_b;
pub mod multi_run;
pub mod naval_rows;
pub mod piping_row;
pub mod practice;
pub mod sae_chart;
pub mod seferian;
pub mod shift;
pub mod shown;
pub mod table_c1;
pub mod thin_tube;
pub mod weld_metal;

pub use case::Case;

use strum::IntoStaticStr;

use super::Outcome;

/// A preheat below this means "without preheat", °C (EN 1011-2).
pub const NO_PREHEAT_BELOW_C: f64 = 20.0;

/// What part of the job asks for a minimum.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Obligation {
    /// O1, O2: the heat-affected zone of a member.
    HeatAffectedZone,
    /// O3: the weld metal.
    WeldMetal,
    /// O4: the code's minimum.
    Code,
    /// O5: dry and not cold.
    DryAndWarm,
    /// O6: demanded by drawing, procedure or customer.
    Demanded,
}

impl Obligation {
    /// Stable id, as printed in JSON.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// How a piece of evidence stands in the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Standing {
    /// It sets the figure.
    Governs,
    /// Inside its range; could have governed.
    InRange,
    /// An input is put at the limit of its range, or the table ends.
    AtLimit,
    /// Shown for checking only.
    ShownOnly,
}

impl Standing {
    /// Stable id, as printed in JSON.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    /// How an answer stands that is not weighed yet.
    #[must_use]
    pub fn of(outcome: &Outcome) -> Self {
        if outcome.at_limit() || !outcome.in_range() { Self::AtLimit } else { Self::InRange }
    }
}

/// One method's word on one obligation.
#[derive(Debug, Clone, PartialEq)]
pub struct Evidence {
    /// The method's answer.
    pub outcome: Outcome,
    /// The obligation that it speaks to.
    pub obligation: Obligation,
    /// Index of the member, for a heat-affected zone.
    pub member: Option<usize>,
    /// How it stands in the plan.
    pub standing: Standing,
}

impl Evidence {
    /// Evidence that is not weighed yet, of no one member.
    #[must_use]
    pub fn new(outcome: Outcome, obligation: Obligation) -> Self {
        let standing = Standing::of(&outcome);
        Self { outcome, obligation, member: None, standing }
    }

    /// The figure, where it has one; a clearance counts as 0.
    #[must_use]
    pub fn value_c(&self) -> Option<f64> {
        self.outcome.preheat_c()
    }
}
