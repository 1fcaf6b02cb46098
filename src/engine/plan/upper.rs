//! What are the maximum interpass and the ceiling: the lowest over the members?
//!
//! Interpass: the grade's own figure first; else S 250 °C or the joint's minimum + 50
//! where that is higher; Q 200 °C; P and H max(315, minimum + 50), not above 370, not
//! above Ms where minimum + 25 still fits under it, and never less than minimum + 25.
//! Never above the ceiling. A steel whose sheet keeps it under its own temper stays within
//! 50 K of the minimum where that temper is not known.
//!
//! Ceiling, which no part may pass at any time: the part's tempering temperature less
//! 30 K where it is tempered, or a case. A grade's own interpass figure is also its ceiling
//! where the row's temper is typical and not the part's stated one. A part that is or may
//! be tempered, nobody knows how, has no ceiling but a question.

use super::limit::Limit;
use super::{round, sheets};
use crate::engine::evidence::grade_rows;
use crate::engine::family::Interpass;
use crate::engine::job::Job;
use crate::engine::part::Part;
use crate::engine::transformation::ms_steven_haynes_c;
use crate::engine::treatment;
use crate::reference::{Basis, ConditionKind, Method, Printed, Reference, TemperKind};

/// Margin under the tempering temperature, K.
pub const UNDER_TEMPER_K: f64 = 30.0;
/// A usable window is at least this wide, K.
pub const LEAST_WINDOW_K: f64 = 25.0;
/// Above this, only with heat treatment straight after, °C.
pub(super) const HEAT_TREAT_ABOVE_C: f64 = 370.0;
/// Interpass of a structural steel, °C: practice, not a property of the steel.
pub(super) const STRUCTURAL_INTERPASS_C: f64 = 250.0;
/// Interpass of a quenched and tempered steel without a figure of its own, °C.
pub(super) const QUENCHED_INTERPASS_C: f64 = 200.0;
/// Interpass of a hardenable steel, °C.
pub(super) const HARDENABLE_INTERPASS_C: f64 = 315.0;
/// Room above the joint's minimum, K.
pub(super) const ROOM_K: f64 = 50.0;

/// What is known of the ceiling of the joint.
#[derive(Debug, Clone, PartialEq)]
pub enum Ceiling {
    /// A figure.
    At(Limit),
    /// A tempered part whose temper isn't known: ask for it.
    AskTemper {
        /// The member.
        member: usize,
    },
    /// No part is tempered: only the lower transformation temperature bounds it.
    BelowTransformation,
}

impl Ceiling {
    /// The figure, °C.
    #[must_use]
    pub const fn exact_c(&self) -> Option<f64> {
        match self {
            Self::At(limit) => Some(limit.exact_c),
            Self::AskTemper { .. } | Self::BelowTransformation => None,
        }
    }
}

/// The upper side of a joint.
#[derive(Debug, Clone, PartialEq)]
pub struct Upper {
    /// Maximum interpass.
    pub interpass: Limit,
    /// The ceiling.
    pub ceiling: Ceiling,
    /// The first member whose temper must be asked for, also where another one or a demand
    /// sets a ceiling.
    pub ask_temper: Option<usize>,
}

/// The upper side, with the joint's minimum as it is shown, °C.
#[must_use]
pub(super) fn upper(reference: &Reference, job: &Job, parts: &[Part], minimum_c: f64) -> Option<Upper> {
    let (ceiling, ask_temper) = joint_ceiling(reference, job, parts);
    let mut lowest: Option<Limit> = None;
    let mut take = |limit: Limit| {
        if lowest.as_ref().is_none_or(|best| limit.exact_c < best.exact_c) {
            lowest = Some(limit);
        }
    };
    for (index, part) in parts.iter().enumerate() {
        if let Some(limit) = member_interpass(reference, job, part, index, minimum_c) {
            take(limit);
        }
    }
    if let Some(interpass_c) = job.demands.interpass_c {
        take(demanded(reference, interpass_c));
    }
    if let Ceiling::At(ceiling) = &ceiling {
        take(ceiling.clone());
    }
    lowest.map(|interpass| Upper { interpass, ceiling, ask_temper })
}

/// A figure as typed from drawing, procedure or customer's sheet.
fn demanded(reference: &Reference, exact_c: f64) -> Limit {
    limit(Method::Demanded.id(), None, exact_c, reference.methods.row(Method::Demanded).basis.clone())
}

const fn limit(by: &'static str, member: Option<usize>, exact_c: f64, basis: Basis) -> Limit {
    Limit { exact_c, printed: None, by, member, at_least: false, basis }
}

fn printed_limit(by: &'static str, member: usize, printed: Printed, basis: Basis) -> Limit {
    Limit {
        exact_c: printed.as_maximum_c(),
        printed: Some(printed),
        by,
        member: Some(member),
        at_least: false,
        basis,
    }
}

/// The interpass of one member.
fn member_interpass(
    reference: &Reference,
    job: &Job,
    part: &Part,
    index: usize,
    minimum_c: f64,
) -> Option<Limit> {
    if let Some((printed, basis)) = grade_rows::interpass(part.member) {
        return Some(printed_limit("grade-interpass", index, printed, basis.clone()));
    }
    let by_practice = |exact_c| limit("practice-interpass", Some(index), exact_c, Basis::Practice);
    match part.family.traits().interpass {
        Interpass::Structural => Some(by_practice(STRUCTURAL_INTERPASS_C.max(minimum_c + ROOM_K))),
        Interpass::Quenched => {
            let basis = Basis::memory("Q&T interpass 200-230 °C");
            Some(limit("qt-interpass", Some(index), QUENCHED_INTERPASS_C, basis))
        }
        Interpass::Hardenable => Some(by_practice(hardenable_interpass_c(part, minimum_c))),
        Interpass::Sheet => {
            let figures = sheets::sheet(reference, job, part)?;
            let printed =
                figures.interpass.or_else(|| figures.upper_c.map(|c| Printed { c: Some(c), f: None }));
            if figures.below_own_temper && matches!(member_ceiling(part, index), Ceiling::AskTemper { .. }) {
                let exact_c = (minimum_c + ROOM_K).min(printed.map_or(f64::INFINITY, Printed::as_maximum_c));
                return Some(limit("own-temper-unknown", Some(index), exact_c, Basis::Practice));
            }
            match printed {
                Some(printed) => Some(printed_limit("sheet-interpass", index, printed, figures.basis)),
                None => Some(by_practice(HARDENABLE_INTERPASS_C.max(minimum_c + ROOM_K))),
            }
        }
    }
}

fn hardenable_interpass_c(part: &Part, minimum_c: f64) -> f64 {
    let wanted_c = HARDENABLE_INTERPASS_C.max(minimum_c + ROOM_K).min(HEAT_TREAT_ABOVE_C);
    let ms_c = ms_steven_haynes_c(&part.chemistry.nominal);
    let fits_under_ms = minimum_c + LEAST_WINDOW_K <= ms_c;
    let capped_c = if fits_under_ms { wanted_c.min(ms_c) } else { wanted_c };
    capped_c.max(minimum_c + LEAST_WINDOW_K)
}

/// The lowest ceiling that is known, and the member whose temper is not.
fn joint_ceiling(reference: &Reference, job: &Job, parts: &[Part]) -> (Ceiling, Option<usize>) {
    let mut lowest: Option<Limit> = None;
    let mut unknown = None;
    for (index, part) in parts.iter().enumerate() {
        match member_ceiling(part, index) {
            Ceiling::At(limit) => {
                if lowest.as_ref().is_none_or(|best| limit.exact_c < best.exact_c) {
                    lowest = Some(limit);
                }
            }
            Ceiling::AskTemper { .. } => unknown = unknown.or(Some(index)),
            Ceiling::BelowTransformation => {}
        }
    }
    if let Some(demanded_c) = job.demands.ceiling_c
        && lowest.as_ref().is_none_or(|best| demanded_c < best.exact_c)
    {
        lowest = Some(demanded(reference, demanded_c));
    }
    let ceiling = match (lowest, unknown) {
        (Some(limit), _) => Ceiling::At(limit),
        (None, Some(member)) => Ceiling::AskTemper { member },
        (None, None) => Ceiling::BelowTransformation,
    };
    (ceiling, unknown)
}

/// The ceiling of one member: the condition that counts decides, not the grade row.
fn member_ceiling(part: &Part, index: usize) -> Ceiling {
    let member = part.member;
    if !part.hardens() {
        return Ceiling::BelowTransformation;
    }
    let under_temper =
        |by, temper_c: f64, basis| Ceiling::At(limit(by, Some(index), temper_c - UNDER_TEMPER_K, basis));
    let counted = treatment::counted_kind(member);
    if let Some(temper_c) = member.condition.temper_c.filter(|_| treatment::has_temper(member.condition.kind))
    {
        // A temper that the measured hardness belies is none, and the standard's is none either.
        return if treatment::too_hard(member, part.family) {
            Ceiling::AskTemper { member: index }
        } else {
            under_temper("stated-temper", temper_c, Basis::Practice)
        };
    }
    if treatment::has_temper(counted) {
        let row = treatment::grade_temper(member);
        let typical = row.is_none_or(|temper| temper.kind == TemperKind::Typical);
        if typical && let Some((printed, basis)) = grade_rows::interpass(member) {
            return Ceiling::At(printed_limit("grade-interpass", index, printed, basis.clone()));
        }
        return match row {
            Some(temper) if temper.kind == TemperKind::Minimum => under_temper(
                "standard-temper",
                temper.low_c,
                Basis::memory("lowest temper of the grade's standard"),
            ),
            _ => Ceiling::AskTemper { member: index },
        };
    }
    if counted == ConditionKind::Unknown && part.may_be_tempered() {
        return Ceiling::AskTemper { member: index };
    }
    Ceiling::BelowTransformation
}

/// The interpass as shown in °C: our own figure rounded down to 5, a printed one as it is.
#[must_use]
pub(super) fn shown_c(limit: &Limit) -> f64 {
    limit.printed.and_then(|printed| printed.c).unwrap_or_else(|| round::down_c(limit.exact_c))
}
