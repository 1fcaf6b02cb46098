//! What a plan holds. Figures and ids only: words are for `words`.

use crate::engine::RangeCheck;
use crate::reference::{Basis, Printed};

/// How a steel is treated.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Family {
    /// Structural: everything else.
    Structural,
    /// Quenched and tempered, C at most 0.25 %, yield at least 460 MPa.
    QuenchedTempered,
    /// Plain carbon above 0.25 %.
    PlainCarbon,
    /// Hardenable: C above 0.25 % and Cr + Mo + Ni above 0.5 %.
    Hardenable,
    /// Cast iron: own sheet.
    Iron,
    /// Tool steel: own sheet.
    Tool,
    /// Creep-resisting steel: own sheet.
    Creep,
    /// Stainless steel: own sheet.
    Stainless,
    /// Other high-alloy steel (Cr above 3 % or Mn above 3 %): own sheet.
    HighAlloy,
    /// Must not be welded.
    DoNotWeld,
}

impl Family {
    /// Stable id, as printed in JSON.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Structural => "structural",
            Self::QuenchedTempered => "quenched-tempered",
            Self::PlainCarbon => "plain-carbon",
            Self::Hardenable => "hardenable",
            Self::Iron => "iron",
            Self::Tool => "tool",
            Self::Creep => "creep",
            Self::Stainless => "stainless",
            Self::HighAlloy => "high-alloy",
            Self::DoNotWeld => "do-not-weld",
        }
    }
}

/// What part of the job asks for a minimum.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
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
    pub const fn id(self) -> &'static str {
        match self {
            Self::HeatAffectedZone => "heat-affected-zone",
            Self::WeldMetal => "weld-metal",
            Self::Code => "code",
            Self::DryAndWarm => "dry-and-warm",
            Self::Demanded => "demanded",
        }
    }
}

/// How a piece of evidence stands in the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Standing {
    /// It sets the figure.
    Governs,
    /// Inside its range; could have governed.
    InRange,
    /// An input is put at the limit of its range: "at least".
    AtLimit,
    /// Shown for checking only.
    ShownOnly,
}

impl Standing {
    /// Stable id, as printed in JSON.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Governs => "governs",
            Self::InRange => "in range",
            Self::AtLimit => "at limit",
            Self::ShownOnly => "shown only",
        }
    }
}

/// What a piece of evidence says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Says {
    /// At least this many °C.
    Figure(f64),
    /// A printed span, for checking.
    Span {
        /// Lower end, °C.
        low_c: f64,
        /// Upper end, °C.
        high_c: f64,
    },
    /// No preheat is needed: dry, at least 5 °C.
    Clears,
    /// It does not clear; the amount is unknown.
    DoesNotClear,
    /// The method has no figure for this job.
    NoFigure,
}

/// One method's word on one obligation.
#[derive(Debug, Clone, PartialEq)]
pub struct Evidence {
    /// Method: a row of `data/methods.ron`.
    pub id: &'static str,
    /// The row within the method that answered, where it has rows (a grade, a group, a band).
    pub row: Option<String>,
    /// The obligation that it speaks to.
    pub obligation: Obligation,
    /// Index of the member, for a heat-affected zone.
    pub member: Option<usize>,
    /// What it says.
    pub says: Says,
    /// The raw figure with no input put at its limit, where it differs, °C.
    pub raw_c: Option<f64>,
    /// As the source prints it, where it prints one and nothing was added.
    pub printed: Option<Printed>,
    /// Is an input held at the end of the range, or the row open-ended ("at least")?
    pub at_limit: bool,
    /// How it stands in the plan.
    pub standing: Standing,
    /// What it rests on.
    pub basis: Basis,
    /// Inputs beside their limits.
    pub range: Vec<RangeCheck>,
}

impl Evidence {
    /// Evidence in range, not yet weighed, of no one member.
    #[must_use]
    pub const fn new(id: &'static str, obligation: Obligation, says: Says, basis: Basis) -> Self {
        Self {
            id,
            row: None,
            obligation,
            member: None,
            says,
            raw_c: None,
            printed: None,
            at_limit: false,
            standing: Standing::InRange,
            basis,
            range: Vec::new(),
        }
    }

    /// The figure, where it has one; a clearance counts as 0.
    #[must_use]
    pub const fn value_c(&self) -> Option<f64> {
        match self.says {
            Says::Figure(value_c) => Some(value_c),
            Says::Clears => Some(0.0),
            Says::Span { low_c, .. } => Some(low_c),
            Says::DoesNotClear | Says::NoFigure => None,
        }
    }
}

/// A limit of the plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit {
    /// The exact figure, °C.
    pub exact_c: f64,
    /// As the source prints it, where the figure is a printed one.
    pub printed: Option<Printed>,
    /// What sets it: an evidence id, or the id of an upper-side rule.
    pub by: &'static str,
    /// The member that sets it, where one does.
    pub member: Option<usize>,
    /// Does it read "at least"?
    pub at_least: bool,
    /// What it rests on.
    pub basis: Basis,
}
