//! What must be done beside heating: actions that follow from the plan's figures.
//!
//! Ms and M90 (Steven and Haynes) are actions, not limits: above M90 the steel keeps
//! austenite and its hydrogen, so post-heat before it goes cold is part of the plan;
//! above Ms heat treatment follows straight after.

use strum::IntoStaticStr;

use super::figures::lies_under_buttering;
use super::upper::{HEAT_TREAT_ABOVE_C, own_span_c};
use crate::engine::family::Family;
use crate::engine::job::{Job, Process, Run};
use crate::engine::part::Part;
use crate::engine::transformation::{m90_c, ms_steven_haynes_c};
use crate::engine::{contradiction, treatment};
use crate::reference::{CARBURISED_C_MAX, ConditionKind, CrackedCase, Element, Grade, Reference};

/// One action; its words are the Fluent message `action-ID`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Action {
    /// Grind a hardened case off the weld zone.
    RemoveCase,
    /// Grind an induction-hardened skin off the weld zone.
    RemoveHardSkin,
    /// Post-heat before the part goes cold: the minimum lies above M90.
    PostHeatBeforeCold,
    /// Post-heat is advised when the part is welded hotter than M90.
    PostHeatAboveM90,
    /// The interpass reaches above Ms: only with heat treatment straight after.
    HeatTreatStraightAfter,
    /// Ask for the tempering temperature before heating.
    AskTemper,
    /// t8/5 leaves 5–20 s: heat input is the lever.
    CoolingTimeOutside,
    /// No post-weld heat treatment on this grade.
    NoPwht,
    /// Cool slowly under a blanket or in dry sand.
    CoolSlowly,
    /// The filler is not known: its own demand is left open.
    FillerUnknown,
    /// Grind hardened thermal-cut edges, or preheat the cut.
    CutEdges,
    /// The steel is known by grade only.
    GradeOnly,
    /// Weld a trial piece.
    TrialPiece,
    /// Short beads, peen, wait (iron, cold route).
    ShortBeads,
    /// Warm the steel until it is dry.
    DryFirst,
    /// The part is harder than its stated condition or temper allows.
    TooHard,
    /// A member is buttered: what laying the buttering asks for.
    Buttering,
    /// Steel of this kind cracked in a published case although it was preheated.
    CrackedCase,
    /// Heat treatment after welding belongs to this steel.
    HeatTreatAfter,
    /// Basic electrodes and flux are low in hydrogen only while they are dry.
    DryElectrodes,
    /// Austenitic or nickel filler holds hydrogen, and turns brittle in heat treatment.
    AusteniticFiller,
    /// The code that the job names prequalifies no procedure for it: qualify it by test.
    QualifyProcedure,
}

impl Action {
    /// Stable id, as printed in JSON.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// What the actions are drawn from.
#[derive(Debug, Clone, Copy)]
pub(super) struct Drawn<'a> {
    /// The job.
    pub job: &'a Job,
    /// Its parts.
    pub parts: &'a [Part<'a>],
    /// The minimum as shown, °C; 0 when none is needed.
    pub minimum_c: f64,
    /// The interpass as shown, °C.
    pub interpass_c: f64,
    /// Is the cold route for iron open?
    pub iron_cold: bool,
    /// Is a temper asked for?
    pub ask_temper: bool,
    /// Does t8/5 leave its span for a quenched and tempered part?
    pub cooling_outside: bool,
    /// Was the weld metal left unasked?
    pub weld_metal_unknown: bool,
    /// Did such a steel crack in a published case?
    pub cracked: bool,
    /// Ms and M90 of the part that transforms lowest, °C.
    pub ms_m90_c: Option<(f64, f64)>,
}

/// The parts whose own zone the last joint heats: a buttering takes its part out of it.
fn welded<'a, 'b>(parts: &'b [Part<'a>]) -> impl Iterator<Item = &'b Part<'a>> {
    parts.iter().enumerate().filter(|(index, _)| !lies_under_buttering(parts, *index)).map(|(_, part)| part)
}

/// Ms and M90 of the part that transforms lowest, °C. Plain carbon steel is none of them: at the
/// heat of welding it turns to pearlite and bainite within minutes.
#[must_use]
pub(super) fn lowest_ms_m90_c(parts: &[Part<'_>]) -> Option<(f64, f64)> {
    welded(parts)
        .filter(|part| part.by_methods() && part.family != Family::PlainCarbon)
        .map(|part| (ms_steven_haynes_c(&part.chemistry.nominal), m90_c(&part.chemistry.nominal)))
        .min_by(|a, b| a.0.total_cmp(&b.0))
}

/// How far Ms and M90 may lie from the formula for the part that transforms lowest, K: nine in ten
/// of the measured steels of its carbon lie closer.
#[must_use]
pub(super) fn ms_scatter_k(reference: &Reference, parts: &[Part<'_>]) -> Option<f64> {
    let lowest = welded(parts)
        .filter(|part| part.by_methods() && part.family != Family::PlainCarbon)
        .map(|part| &part.chemistry.nominal)
        .min_by(|a, b| ms_steven_haynes_c(a).total_cmp(&ms_steven_haynes_c(b)))?;
    let band = reference.transformation.ms_scatter.band(lowest.get(Element::C))?;
    Some(band.too_low_k.max(band.too_high_k))
}

/// The actions of a plan, in the order of the work.
#[must_use]
pub(super) fn actions(drawn: &Drawn<'_>) -> Vec<Action> {
    let mut found = Vec::new();
    let parts = drawn.parts;
    let kind = |wanted| parts.iter().any(|part| part.member.condition.kind == wanted);
    let any = |wanted| parts.iter().any(|part| part.family == wanted);
    let mut when = |yes: bool, action| {
        if yes {
            found.push(action);
        }
    };
    let by_sheet = || parts.iter().any(Part::hardens_by_its_sheet);
    let too_hard = |part: &Part<'_>| part.hardens() && contradiction::too_hard(part.member, part.family);
    when(parts.iter().any(too_hard), Action::TooHard);
    let cased = |part: &&Part<'_>| part.member.condition.kind == ConditionKind::CaseHardened;
    // Where the core hardens as the case does there is no softer steel under it to plan for.
    let has_core = |part: &Part<'_>| part.chemistry.nominal.get(Element::C) <= CARBURISED_C_MAX;
    when(parts.iter().filter(cased).any(has_core), Action::RemoveCase);
    let hard_skin = parts.iter().filter(cased).any(|part| !has_core(part));
    when(hard_skin || kind(ConditionKind::InductionHardened), Action::RemoveHardSkin);
    when(drawn.minimum_c <= 0.0 || any(Family::Iron), Action::DryFirst);
    when(drawn.job.thermal_cut, Action::CutEdges);
    when(drawn.ask_temper, Action::AskTemper);
    when(parts.iter().any(|part| part.member.buttered), Action::Buttering);
    when(drawn.cracked, Action::CrackedCase);
    when(drawn.weld_metal_unknown, Action::FillerUnknown);
    let takes_up_water = |run: &Run| matches!(run.process, Process::SmawBasic | Process::Saw);
    when(parts.iter().any(Part::hardens) && drawn.job.runs.iter().any(takes_up_water), Action::DryElectrodes);
    when(drawn.cooling_outside, Action::CoolingTimeOutside);
    when(drawn.iron_cold, Action::ShortBeads);
    let austenitic = drawn.job.weld.austenitic && parts.iter().any(Part::hardens);
    when(austenitic, Action::AusteniticFiller);
    // A rail's own sheet spans to its upper end without a heat treatment.
    let spans = |part: &Part<'_>| own_span_c(part).is_some_and(|(high_c, _)| drawn.interpass_c <= high_c);
    let too_hot = drawn.interpass_c > HEAT_TREAT_ABOVE_C
        && welded(parts).any(|part| part.family.traits().hardens_through && !spans(part));
    if let Some((ms_c, m90_c)) = drawn.ms_m90_c {
        // Austenitic weld metal holds its hydrogen: no post-heat is promised.
        when(drawn.minimum_c > m90_c && !austenitic, Action::PostHeatBeforeCold);
        when(
            // Thin tube that needs no preheat lets its hydrogen out in minutes.
            drawn.minimum_c > 0.0
                && drawn.minimum_c <= m90_c
                && drawn.interpass_c > m90_c
                && any(Family::Hardenable)
                && !austenitic,
            Action::PostHeatAboveM90,
        );
        when(drawn.interpass_c > ms_c || too_hot, Action::HeatTreatStraightAfter);
    } else {
        when(too_hot, Action::HeatTreatStraightAfter);
    }
    when(hardens(parts) || any(Family::Iron) || by_sheet(), Action::CoolSlowly);
    when(by_sheet(), Action::HeatTreatAfter);
    when(parts.iter().any(|part| part.family.traits().never_heat_treated), Action::NoPwht);
    let unmarked = parts.iter().any(|part| part.member.steel.is_unmarked());
    when(hardens(parts) || by_sheet() || unmarked, Action::TrialPiece);
    when(parts.iter().any(|part| part.chemistry.grade_only && part.by_methods()), Action::GradeOnly);
    found
}

/// The published case in which a steel of this job cracked although it was preheated: the
/// steel's grade says so, or an analysis inside that grade's limits.
#[must_use]
pub(super) fn cracked_case<'a>(reference: &'a Reference, parts: &[Part<'_>]) -> Option<&'a CrackedCase> {
    reference.practice.low_hydrogen.rows.iter().find_map(|row| {
        let case = row.cracked.as_ref()?;
        let grade = reference.grades.get(&row.grade)?;
        parts.iter().any(|part| part.by_methods() && is_kind_of(part, grade)).then_some(case)
    })
}

fn is_kind_of(part: &Part<'_>, grade: &Grade) -> bool {
    const TELLING: [Element; 5] = [Element::C, Element::Mn, Element::Cr, Element::Mo, Element::Ni];
    let inside = |element: Element| {
        let percent = part.chemistry.nominal.get(element);
        grade.composition.get(&element).is_none_or(|limits| {
            limits.min.is_none_or(|min| percent >= min) && limits.max.is_none_or(|max| percent <= max)
        })
    };
    part.member.steel.grade().map_or_else(|| TELLING.into_iter().all(inside), |own| own.id == grade.id)
}

fn hardens(parts: &[Part<'_>]) -> bool {
    parts.iter().any(|part| part.family.traits().hardens_through)
}

/// Does the part come hardened, with a temper that heat could spoil?
#[must_use]
pub fn tempered(parts: &[Part<'_>]) -> bool {
    parts.iter().any(|part| part.hardens() && treatment::is_tempered(part.member))
}
