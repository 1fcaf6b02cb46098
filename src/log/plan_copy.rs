//! The plan of a job as it was that day: what is known later does not move it.

use ron::value::RawValue;
use serde::{Deserialize, Deserializer, Serialize};

use crate::engine::reading::{Falls, Limits};
use crate::job::JobText;
use crate::units::Units;

/// A plan, copied into a log. Figures in SI; words in the language and units of that day.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct PlanCopy {
    /// The edition of program and data that made it.
    pub edition: String,
    /// The language of its sentences; empty in copies from before it was kept.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub language: String,
    /// The job as it was typed.
    #[serde(deserialize_with = "job_text")]
    pub job: JobText,
    /// The units that it was shown in.
    pub units: Units,
    /// Id of the plan's verdict.
    pub verdict: String,
    /// Is it a plan to weld by?
    pub answers: bool,
    /// What speaks where there is no figure.
    pub title: String,
    /// Minimum preheat; where none is needed, the temperature that the dry steel has at least.
    pub minimum: Option<LimitCopy>,
    /// Maximum interpass.
    pub maximum: Option<LimitCopy>,
    /// The ceiling.
    pub ceiling: Option<LimitCopy>,
    /// What the plan says in the place of a ceiling: that there is none, or what must be told first.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub ceiling_word: String,
    /// Which evidence governs, in one sentence.
    pub sentence: String,
    /// What was said above the figures.
    pub status: Vec<String>,
    /// The parts, in the order of the job.
    pub members: Vec<MemberCopy>,
    /// Are the parts logged apart, because they differ?
    pub apart: bool,
    /// What must be settled before the first step.
    pub find: Vec<LineCopy>,
    /// The weld sequence.
    pub steps: Vec<StepCopy>,
    /// Filler, runs, current, arc energy, order.
    pub weld: Vec<LineCopy>,
    /// Further figures.
    pub beside: Vec<LineCopy>,
    /// The cautions.
    pub cautions: Vec<CautionCopy>,
    /// What was not told of the work place, in one line.
    pub not_told: String,
    /// The shop, °C.
    pub shop_c: f64,
    /// So far from the weld it is measured, mm.
    pub measured_at_mm: Option<f64>,
    /// What was typed for the heat cycle: key and text.
    pub cycle_typed: Vec<(String, String)>,
    /// How its parts fall, by the heat cycle; none where there is no cycle.
    pub falls: Option<Falls>,
    /// The heat cycle as a picture has it.
    pub curve: Vec<CurvePoint>,
    /// What it says of the hydrogen that is left and of the transformation, in sentences.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub cycle_says: Vec<String>,
    /// When its steel turns to martensite.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub turns: Vec<TurnCopy>,
    /// Why there is no heat cycle; empty where there is one.
    pub no_cycle: String,
    /// What a piece takes, as estimated.
    pub needs: Vec<Need>,
}

impl PlanCopy {
    /// The limits that a reading is held against.
    #[must_use]
    pub fn limits(&self) -> Limits {
        let at_c = |limit: &Option<LimitCopy>| limit.as_ref().map(|limit| limit.at_c);
        Limits {
            minimum_c: at_c(&self.minimum),
            maximum_c: at_c(&self.maximum),
            ceiling_c: at_c(&self.ceiling),
            range_known: self.answers && self.minimum.is_some() && self.maximum.is_some(),
        }
    }

    /// Chromium of a part, %: of the one that has most where none is named.
    #[must_use]
    pub fn chromium_pct(&self, member: Option<u32>) -> Option<f64> {
        let all = self.members.iter().map(|member| member.chromium_pct);
        match member.and_then(|nth| self.members.get(usize::try_from(nth).ok()?)) {
            Some(member) => Some(member.chromium_pct),
            None => all.reduce(f64::max),
        }
    }

    /// The ids of the ways that part the sequence, in order; none where it has one way.
    #[must_use]
    pub fn branches(&self) -> Vec<&str> {
        let mut found: Vec<&str> = Vec::new();
        for step in self.steps.iter().filter(|step| !step.branch.is_empty()) {
            if !found.contains(&step.branch.as_str()) {
                found.push(&step.branch);
            }
        }
        found
    }

    /// The steps of one whole way: those that all ways have, and its own.
    pub fn way<'a>(&'a self, branch: &'a str) -> impl Iterator<Item = &'a StepCopy> + 'a {
        self.steps.iter().filter(move |step| step.branch.is_empty() || step.branch == branch)
    }
}

/// A limit.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct LimitCopy {
    /// What readings are held against, °C: as shown.
    pub at_c: f64,
    /// Before it was rounded, °C.
    pub exact_c: f64,
    /// As it was shown, with its unit.
    pub text: String,
    /// The same in the other unit.
    pub second: String,
    /// Does it read "at least"?
    pub at_least: bool,
    /// What it rests on, in words.
    pub basis: String,
    /// The mark of its basis: `published`, `practice`, `memory`, or empty.
    pub mark: String,
    /// A short note beside it.
    pub note: String,
}

/// A part.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct MemberCopy {
    /// Its steel and size.
    pub name: String,
    /// Id of its grade.
    pub grade: Option<String>,
    /// Id of its family.
    pub family: String,
    /// Carbon equivalent CET, %.
    pub cet: f64,
    /// Chromium of its analysis as the plan counted it, %.
    pub chromium_pct: f64,
    /// Thickness, or diameter of a round, mm.
    pub thickness_mm: f64,
    /// Is it round?
    pub round: bool,
}

/// A step of the weld sequence.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct StepCopy {
    /// Its number on its way.
    pub number: u32,
    /// Id of the way that it stands in; empty where all ways have it.
    pub branch: String,
    /// The way in words, where it begins with this step.
    pub head: String,
    /// Id of its phase.
    pub phase: String,
    /// Id of what is done.
    pub deed: String,
    /// What is done.
    pub what: String,
    /// Its figure; empty where it has none.
    pub figure: String,
    /// What is said with it.
    pub notes: Vec<String>,
}

/// A label, what stands beside it, and a note.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct LineCopy {
    /// The label.
    pub label: String,
    /// The value.
    pub value: String,
    /// The note.
    pub note: String,
}

/// A caution.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct CautionCopy {
    /// Its signal word; empty for what every job is told.
    pub word: String,
    /// The title.
    pub title: String,
    /// When it bites.
    pub trigger: String,
    /// What can happen.
    pub why: String,
    /// What to do.
    pub do_this: String,
}

/// A moment of the heat cycle.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct CurvePoint {
    /// From the first flame, min.
    pub minute: f64,
    /// Id of what is going on.
    pub phase: String,
    /// Coldest place that must have the minimum, °C.
    pub coldest_c: f64,
    /// Hottest of weld and heat-affected zone, °C.
    pub hottest_c: f64,
}

/// A point of the transformation to martensite.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct TurnCopy {
    /// Its id: `ms` where it begins, `m90` where nine tenths of it are done.
    pub id: String,
    /// By the formula, °C.
    pub at_c: f64,
    /// The cold end of what it may be, °C.
    pub low_c: f64,
    /// The hot end, °C.
    pub high_c: f64,
}

/// What a piece takes.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Need {
    /// Stable id.
    pub id: String,
    /// What it is, in words.
    pub label: String,
    /// How much a piece takes.
    pub per_piece: f64,
    /// Its unit.
    pub unit: String,
}

/// A job as its own reader reads it, whatever stands around it.
fn job_text<'de, D: Deserializer<'de>>(deserializer: D) -> Result<JobText, D::Error> {
    let raw = Box::<RawValue>::deserialize(deserializer)?;
    JobText::from_ron(raw.get_ron()).map_err(serde::de::Error::custom)
}
