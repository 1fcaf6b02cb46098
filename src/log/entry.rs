//! What a record says.

use serde::{Deserialize, Serialize};

use super::{Id, Moment, PlanCopy};
use crate::engine::reading::{Band, Seen, When};

/// What a record says of its thing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Entry {
    /// The job.
    Job(Box<JobEntry>),
    /// A piece of the batch.
    Piece(PieceEntry),
    /// A step of the weld sequence, done.
    Step(StepDone),
    /// A reading.
    Reading(Box<ReadingTaken>),
    /// A trial piece or coupon.
    Trial(Box<TrialPiece>),
    /// What was used up.
    Used(Used),
    /// The thing is taken back: it stands no more, and its records stay.
    Withdrawn,
}

impl Entry {
    /// Stable id of its kind.
    #[must_use]
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::Job(_) => "job",
            Self::Piece(_) => "piece",
            Self::Step(_) => "step",
            Self::Reading(_) => "reading",
            Self::Trial(_) => "trial",
            Self::Used(_) => "used",
            Self::Withdrawn => "withdrawn",
        }
    }
}

/// A job: a batch that is made by one plan.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct JobEntry {
    /// Its name.
    pub name: String,
    /// How many pieces the batch has.
    pub pieces: u32,
    /// The drawing, and what it says.
    pub drawing: String,
    /// Who welds.
    pub welder: String,
    /// What else is to be known.
    pub note: String,
    /// Is it the example of the program, and no work?
    pub example: bool,
    /// The plan as it was that day.
    pub plan: PlanCopy,
}

/// A piece.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct PieceEntry {
    /// Its number.
    pub number: u32,
    /// Heat number of the steel of each part, in the order of the plan; empty where not told.
    pub heat_numbers: Vec<String>,
    /// What else is to be known.
    pub note: String,
    /// Was it declared finished?
    pub finished: bool,
}

/// A step of the weld sequence that was done on a piece.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct StepDone {
    /// The piece.
    pub piece: Id,
    /// Number of the step in the plan.
    pub number: u32,
    /// Id of the way that the step stands in; empty where all ways have it.
    #[serde(default)]
    pub branch: String,
    /// When.
    pub at: Moment,
    /// What else is to be known.
    #[serde(default)]
    pub note: String,
}

/// The face that was measured.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    Hash,
    Default,
    strum::IntoStaticStr,
    strum::VariantArray,
    Serialize,
    Deserialize,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Face {
    /// Nobody told.
    #[default]
    NotTold,
    /// The one that is heated.
    Heated,
    /// The one opposite.
    Far,
    /// An edge or end.
    Edge,
}

impl Face {
    /// All of them.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Stable id; its words are the Fluent message `log-face-ID`.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// A reading.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ReadingTaken {
    /// The piece or the trial piece.
    pub piece: Id,
    /// When.
    pub at: Moment,
    /// The part of the joint, counted from 0; none where parts are not told apart.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub member: Option<u32>,
    /// The face.
    #[serde(default)]
    pub face: Face,
    /// So far from the weld, mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub away_mm: Option<f64>,
    /// When in the work.
    pub when: When,
    /// The figure as it was typed, with its unit.
    #[serde(default)]
    pub typed: String,
    /// What was seen.
    pub seen: Seen,
    /// What it says of the steel, as counted that day.
    pub band: Band,
    /// What else is to be known.
    #[serde(default)]
    pub note: String,
}

/// Did a trial piece crack?
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    Hash,
    Default,
    strum::IntoStaticStr,
    strum::VariantArray,
    Serialize,
    Deserialize,
)]
#[strum(serialize_all = "kebab-case")]
pub enum CrackOutcome {
    /// Nobody has looked yet, or its wait is not over.
    #[default]
    NotYet,
    /// It did not.
    Sound,
    /// It did.
    Cracked,
}

impl CrackOutcome {
    /// All of them.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Stable id; its words are the Fluent message `log-trial-ID`.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// How a trial piece cooled.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    Hash,
    Default,
    strum::IntoStaticStr,
    strum::VariantArray,
    Serialize,
    Deserialize,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Cooled {
    /// Nobody told.
    #[default]
    NotTold,
    /// In the open.
    Fast,
    /// Covered, or in an oven.
    Slow,
}

impl Cooled {
    /// All of them.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Stable id; its words are the Fluent message `log-cooled-ID`.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// A trial piece or a coupon.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct TrialPiece {
    /// What it is called.
    pub name: String,
    /// The part of the plan whose steel it is of, counted from 0.
    pub member: Option<u32>,
    /// The steel as it is named.
    pub steel: String,
    /// Id of the grade, where it is one of the dataset.
    pub grade: Option<String>,
    /// Id of its family.
    pub family: String,
    /// Carbon equivalent CET of its analysis, %.
    pub cet: Option<f64>,
    /// Heat number.
    pub heat_number: String,
    /// Thickness, mm.
    pub thickness_mm: Option<f64>,
    /// When it was welded.
    pub at: Moment,
    /// What was read on it just before the arc, where an instrument was read.
    pub seen: Option<Seen>,
    /// The temperature that it was welded at.
    pub band: Band,
    /// How it cooled.
    pub cooled: Cooled,
    /// Did it crack?
    pub outcome: CrackOutcome,
    /// Where.
    pub place: String,
    /// Name of a picture in the folder of the job.
    pub photo: String,
    /// What else is to be known.
    pub note: String,
}

impl Default for TrialPiece {
    fn default() -> Self {
        Self {
            name: String::new(),
            member: None,
            steel: String::new(),
            grade: None,
            family: String::new(),
            cet: None,
            heat_number: String::new(),
            thickness_mm: None,
            at: Moment::new(0, 0),
            seen: None,
            band: Band::default(),
            cooled: Cooled::NotTold,
            outcome: CrackOutcome::NotYet,
            place: String::new(),
            photo: String::new(),
            note: String::new(),
        }
    }
}

/// What was used up.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Used {
    /// Id of the need of the plan, or a name of the reader's own.
    pub what: String,
    /// How much.
    pub amount: f64,
    /// Its unit.
    pub unit: String,
    /// When.
    pub at: Moment,
    /// On which piece, where it is told of one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub piece: Option<Id>,
    /// What else is to be known.
    #[serde(default)]
    pub note: String,
}
