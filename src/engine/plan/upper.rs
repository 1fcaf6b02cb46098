//! What are the maximum interpass and the ceiling: the lowest over the members, and over all
//! that a member may be?
//!
//! Interpass: the grade's own figure first; else S 250 °C or the joint's minimum + 50
//! where that is higher; Q 200 °C (149 with 2 % nickel or more); P and H max(315, minimum + 50),
//! not above 370, for H not above Ms where minimum + 25 still fits under it, and never less than
//! minimum + 25. Never above the ceiling. Thermomechanically rolled steel 150 °C. A steel whose
//! sheet keeps it under its own temper stays within 50 K of the minimum where that is not known.
//! t8/5 of quenched and tempered and of thermomechanical steel stays within 25 s; where it is
//! longer at the minimum already there is no window at this heat input.
//!
//! Ceiling, which no part may pass at any time: the part's tempering temperature less
//! 30 K where it is tempered, or a case; by a measured hardness where the temper is not stated.
//! A grade's own interpass figure is also its ceiling where the row's temper is typical and not
//! the part's stated one. Where a low temper is the usual one 200 °C stands (150 for a case or an
//! induction-hardened skin) until it is stated. Any other part that is or may be tempered, nobody
//! knows how, has a condition in place of a ceiling: the least temper that the window needs, and
//! the hardness that shows it.

use super::limit::Limit;
use super::temper::{Known, NeedsTemper, known, needs_temper, rolled};
use super::{sheets, side};
use crate::engine::evidence::grade_rows;
use crate::engine::family::{Family, Interpass};
use crate::engine::job::Job;
use crate::engine::part::Part;
use crate::engine::transformation::ms_steven_haynes_c;
use crate::reference::{Basis, Element, Method, Printed, Reference};
use crate::units::{Side, TemperatureUnit, limit_value};

/// Margin under the tempering temperature, K.
pub const UNDER_TEMPER_K: f64 = 30.0;
/// The same for the preheat and the runs of tool steel, K (common practice).
const TOOL_UNDER_TEMPER_K: f64 = 50.0;
/// A usable window is at least this wide, K.
pub const LEAST_WINDOW_K: f64 = 25.0;
/// Above this, only with heat treatment straight after, °C.
pub(super) const HEAT_TREAT_ABOVE_C: f64 = 370.0;
/// Interpass of a structural steel, °C: practice, not a property of the steel.
pub(super) const STRUCTURAL_INTERPASS_C: f64 = 250.0;
/// Interpass of a quenched and tempered steel without a figure of its own, °C.
pub(super) const QUENCHED_INTERPASS_C: f64 = 200.0;
/// The same with nickel of 2 % or more, °C (300 °F).
const NICKEL_INTERPASS_C: f64 = 149.0;
/// Nickel from which that counts, %.
const MUCH_NICKEL: f64 = 2.0;
/// The longest t8/5 of a quenched and tempered or thermomechanical steel, s.
pub(super) const LONGEST_T85_S: f64 = 25.0;

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
    /// The members whose temper must be asked for, also where another one or a demand sets a
    /// ceiling.
    pub ask_temper: Vec<usize>,
    /// Is t8/5 too long even at the minimum: no window at this heat input?
    pub too_slow: bool,
    /// The condition that the whole window stands under, where a temper is not known.
    pub needs: Option<NeedsTemper>,
}

/// The lowest of some limits; the earlier one of two equal ones.
#[derive(Default)]
struct Lowest(Option<Limit>);

impl Lowest {
    fn take(&mut self, limit: Limit) {
        if self.0.as_ref().is_none_or(|best| limit.exact_c < best.exact_c) {
            self.0 = Some(limit);
        }
    }
}

/// What a part may see whose usual temper is a low one, until its own is told.
fn low_temper(member: usize, most_c: f64) -> Limit {
    limit("low-temper", Some(member), most_c, Basis::Practice)
}

/// The upper side, with the joint's minimum as it is shown, °C.
#[must_use]
pub(super) fn upper(reference: &Reference, job: &Job, parts: &[Part], minimum_c: f64) -> Option<Upper> {
    let (ceiling, ask_temper) = joint_ceiling(reference, job, parts);
    let mut lowest = Lowest::default();
    let mut too_slow = false;
    for (index, part) in parts.iter().enumerate() {
        for reading in part.readings() {
            if let Some(limit) = member_interpass(reference, job, &reading, index, minimum_c) {
                lowest.take(limit);
            }
            match by_cooling_time(reference, job, &reading, index) {
                Some(limit) if limit.exact_c >= minimum_c + LEAST_WINDOW_K => lowest.take(limit),
                Some(_) => too_slow = true,
                None => {}
            }
            match known(reference, &reading, index) {
                Known::Ask { until_then_c: Some(most_c) } => {
                    lowest.take(low_temper(index, most_c));
                }
                Known::At(known) if reading.family == Family::Tool && known.by == "stated-temper" => {
                    let most_c = known.exact_c + UNDER_TEMPER_K - TOOL_UNDER_TEMPER_K;
                    lowest.take(limit("tool-temper", Some(index), most_c, Basis::Practice));
                }
                _ => {}
            }
        }
    }
    if let Some(interpass_c) = job.demands.interpass_c {
        lowest.take(demanded(reference, interpass_c));
    }
    if let Ceiling::At(ceiling) = &ceiling {
        lowest.take(ceiling.clone());
    }
    let interpass = lowest.0?;
    let needs = needs_temper(reference, parts, &ask_temper, &interpass, &ceiling);
    Some(Upper { interpass, ceiling, ask_temper, too_slow, needs })
}

/// The heat at which t8/5 of a quenched and tempered or thermomechanical member reaches its
/// longest, °C, where that lies above its own minimum.
fn by_cooling_time(reference: &Reference, job: &Job, part: &Part, index: usize) -> Option<Limit> {
    if !part.minds_cooling_time() {
        return None;
    }
    let (_, slow) = side::welds(reference, job, part.member.thickness_mm);
    let at_c = if slow.t85_s(side::COLDEST_C) > LONGEST_T85_S {
        side::COLDEST_C
    } else {
        slow.preheat_for_c(LONGEST_T85_S)?
    };
    let basis = reference.methods.row(Method::T85).basis.clone();
    Some(limit("t85-longest", Some(index), at_c, basis))
}

/// A figure as typed from drawing, procedure or customer's sheet.
fn demanded(reference: &Reference, exact_c: f64) -> Limit {
    limit(Method::Demanded.id(), None, exact_c, reference.methods.row(Method::Demanded).basis.clone())
}

pub(super) const fn limit(by: &'static str, member: Option<usize>, exact_c: f64, basis: Basis) -> Limit {
    Limit { exact_c, printed: None, by, member, at_least: false, basis }
}

pub(super) fn printed_limit(by: &'static str, member: usize, printed: Printed, basis: Basis) -> Limit {
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
    if part.thermomechanical() {
        let rolled = &reference.practice.thermomechanical;
        return Some(limit(
            "rolled-interpass",
            Some(index),
            rolled.interpass_c,
            rolled.interpass_basis.clone(),
        ));
    }
    let by_practice = |exact_c| limit("practice-interpass", Some(index), exact_c, Basis::Practice);
    match part.family.traits().interpass {
        Interpass::Structural => Some(by_practice(STRUCTURAL_INTERPASS_C.max(minimum_c + ROOM_K))),
        Interpass::Quenched => {
            let basis = Basis::memory("Q&T interpass 200-230 °C");
            let nickel = part.chemistry.nominal.get(Element::Ni) >= MUCH_NICKEL;
            let most_c = if nickel { NICKEL_INTERPASS_C } else { QUENCHED_INTERPASS_C };
            Some(limit("qt-interpass", Some(index), most_c, basis))
        }
        Interpass::Hardenable if own_span_c(part).is_some() => {
            let (high_c, basis) = own_span_c(part)?;
            Some(limit("grade-interpass", Some(index), high_c.max(minimum_c + LEAST_WINDOW_K), basis))
        }
        Interpass::Hardenable => Some(by_practice(hardenable_interpass_c(part, minimum_c))),
        Interpass::Sheet => {
            let figures = sheets::sheet(reference, job, part)?;
            let printed =
                figures.interpass.or_else(|| figures.upper_c.map(|c| Printed { c: Some(c), f: None }));
            if figures.below_own_temper && matches!(known(reference, part, index), Known::Ask { .. }) {
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

/// The upper end of a grade's own sheet, which replaces the practice figures at both ends: a rail's.
pub(super) fn own_span_c(part: &Part) -> Option<(f64, Basis)> {
    let own = part.member.steel.grade()?.published_preheat.as_ref()?;
    Some((own.high_c?, own.basis.clone())).filter(|_| own.replaces_practice)
}

fn hardenable_interpass_c(part: &Part, minimum_c: f64) -> f64 {
    let wanted_c = HARDENABLE_INTERPASS_C.max(minimum_c + ROOM_K).min(HEAT_TREAT_ABOVE_C);
    let ms_c = ms_steven_haynes_c(&part.chemistry.nominal);
    // Plain carbon steel turns to pearlite and bainite within minutes at such heat.
    let fits_under_ms = part.family == Family::Hardenable && minimum_c + LEAST_WINDOW_K <= ms_c;
    let capped_c = if fits_under_ms { wanted_c.min(ms_c) } else { wanted_c };
    capped_c.max(minimum_c + LEAST_WINDOW_K)
}

/// The lowest ceiling that is known, and the members whose temper is not. Beside a known one, what such a member
/// may see until its temper is told counts too: no other part's temper speaks for it.
fn joint_ceiling(reference: &Reference, job: &Job, parts: &[Part]) -> (Ceiling, Vec<usize>) {
    let (mut lowest, mut until_told) = (Lowest::default(), Lowest::default());
    let mut unknown = Vec::new();
    for (index, part) in parts.iter().enumerate() {
        if let Some(limit) = rolled(reference, part, index).filter(|_| part.thermomechanical()) {
            lowest.take(limit);
        }
        for reading in part.readings() {
            match known(reference, &reading, index) {
                Known::At(limit) => lowest.take(limit),
                Known::Ask { until_then_c } => {
                    if !unknown.contains(&index) {
                        unknown.push(index);
                    }
                    if let Some(most_c) = until_then_c {
                        until_told.take(low_temper(index, most_c));
                    }
                }
                Known::Untempered => {}
            }
        }
    }
    if let Some(demanded_c) = job.demands.ceiling_c {
        lowest.take(demanded(reference, demanded_c));
    }
    if lowest.0.is_some() {
        until_told.0.into_iter().for_each(|most| lowest.take(most));
    }
    let ceiling = match (lowest.0, unknown.first()) {
        (Some(limit), _) => Ceiling::At(limit),
        (None, Some(&member)) => Ceiling::AskTemper { member },
        (None, None) => Ceiling::BelowTransformation,
    };
    (ceiling, unknown)
}

/// The interpass as shown in °C: our own figure rounded down to 5, a printed one as it is.
#[must_use]
pub(super) fn shown_c(limit: &Limit) -> f64 {
    as_shown_c(limit.exact_c, limit.printed)
}

/// A maximum as shown in °C, by the rounding of every screen and text.
#[must_use]
pub(super) fn as_shown_c(exact_c: f64, printed: Option<Printed>) -> f64 {
    limit_value(Side::Maximum, exact_c, printed, TemperatureUnit::C)
}
