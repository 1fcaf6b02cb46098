//! What trial pieces taught, in words; and what they say of a new plan.

use super::log::{band_words, day_and_time};
use super::{Pen, Report, member_name, steels_asked};
use crate::engine::job::Job;
use crate::engine::plan::{Plan, Verdict};
use crate::log::{
    Bounds, Cooled, KnownTrial, MemberCopy, Standing, SteelAsked, TrialPiece, bounds, cracked_above,
};
use crate::words::List;

/// A trial piece in words.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct TrialLine {
    /// What it is called.
    pub name: String,
    /// Its steel, thickness and heat number.
    pub steel: String,
    /// The temperature that it was welded at.
    pub at: String,
    /// Did it crack?
    pub outcome: String,
    /// How it cooled; empty where nobody told.
    pub cooled: String,
    /// Where it cracked, and what else was written.
    pub note: String,
    /// When it was welded.
    pub when: String,
}

/// A trial piece in words.
#[must_use]
pub fn trial_line(pen: &Pen<'_>, trial: &TrialPiece) -> TrialLine {
    let heat = (!trial.heat_number.is_empty())
        .then(|| pen.words.with("log-heat-number", &[("number", &trial.heat_number)]));
    let steel: Vec<String> = [trial.steel.clone()].into_iter().chain(heat).collect();
    let notes: Vec<String> =
        [&trial.place, &trial.note].into_iter().filter(|text| !text.is_empty()).cloned().collect();
    TrialLine {
        name: trial.name.clone(),
        steel: pen.words.list(List::Comma, &steel),
        at: band_words(pen, &trial.band),
        outcome: pen.words.get(&format!("log-trial-{}", trial.outcome.id())),
        cooled: if trial.cooled == Cooled::NotTold {
            String::new()
        } else {
            pen.words.get(&format!("log-cooled-{}", trial.cooled.id()))
        },
        note: pen.words.list(List::Semicolon, &notes),
        when: day_and_time(pen, trial.at),
    }
}

/// What the trial pieces of a job taught: a sentence for each steel, and one where they overlap.
#[must_use]
pub fn taught_lines(pen: &Pen<'_>, standing: &Standing<'_>) -> Vec<String> {
    bounds(standing).iter().flat_map(|bounds| taught(pen, bounds)).collect()
}

fn taught(pen: &Pen<'_>, bounds: &Bounds<'_>) -> Vec<String> {
    // Both are told by the hot end of what was read, upwards.
    let shown = |at_c: f64| {
        let unit = pen.show.units.temperature;
        pen.show.with_unit((unit.from_c(at_c) - 1e-6).ceil(), 0, unit.symbol())
    };
    let line =
        |key: &str, at_c: f64| pen.words.with(key, &[("steel", bounds.steel), ("figure", &shown(at_c))]);
    let cracked = bounds.cracked.as_ref().map(|(at_c, trial)| {
        if at_c.is_finite() {
            return line("log-taught-cracked", *at_c);
        }
        let figure = band_words(pen, &trial.now.band);
        pen.words.with("log-taught-cracked-open", &[("steel", bounds.steel), ("figure", &figure)])
    });
    let sound = bounds.sound.as_ref().map(|(at_c, _)| line("log-taught-sound", *at_c));
    let overlap = bounds.overlap().then(|| pen.words.get("log-taught-overlap"));
    [cracked, sound, overlap].into_iter().flatten().collect()
}

/// Puts what trial pieces of earlier jobs say of a plan above everything that is said of it.
pub fn put_trials(pen: &Pen<'_>, job: &Job, plan: &Plan, known: &[KnownTrial], report: &mut Report) {
    report.answer.lines.splice(0..0, trial_warnings(pen, job, plan, known));
}

/// What the trial pieces of earlier jobs say of a plan: a warning for each part whose steel cracked at a
/// temperature above the plan's minimum, or at one whose hot end is not known.
#[must_use]
pub fn trial_warnings(pen: &Pen<'_>, job: &Job, plan: &Plan, known: &[KnownTrial]) -> Vec<String> {
    if !plan.verdict.answers() || plan.verdict == Verdict::TwoRoutes {
        return Vec::new();
    }
    let least_c = plan.minimum_c.filter(|_| plan.minimum.is_some());
    let minimum_c = least_c.or_else(|| plan.dry_from.map(|edge| edge.least_c())).unwrap_or(0.0);
    let found = cracked_above(known, &steels_asked(job, plan), minimum_c);
    let line = |(member, trial, at_c): (usize, &KnownTrial, f64)| {
        warning(pen, &member_name(pen, job, member), trial, at_c)
    };
    found.into_iter().map(line).collect()
}

/// What a job's own trial pieces say of its plan: the same warning for each part whose steel cracked at the
/// minimum or above it.
#[must_use]
pub fn own_trial_warnings(pen: &Pen<'_>, standing: &Standing<'_>) -> Vec<String> {
    let Some(job) = &standing.job else { return Vec::new() };
    let plan = &job.now.plan;
    let Some(minimum) = &plan.minimum else { return Vec::new() };
    let trials = standing.trials.iter().map(|trial| trial.now.clone());
    let known: Vec<KnownTrial> =
        trials.map(|trial| KnownTrial { job: job.id, job_name: job.now.name.clone(), trial }).collect();
    let steel = |(member, of): (usize, &MemberCopy)| {
        let (grade, family) = (of.grade.clone(), of.family.clone());
        SteelAsked { member, grade, family, cet: of.cet }
    };
    let steels: Vec<SteelAsked> = plan.members.iter().enumerate().map(steel).collect();
    // At the minimum itself it cracked as well.
    let found = cracked_above(&known, &steels, minimum.at_c.next_down());
    let line = |(member, trial, at_c): (usize, &KnownTrial, f64)| {
        warning(pen, &plan.members[member].name, trial, at_c)
    };
    found.into_iter().map(line).collect()
}

fn warning(pen: &Pen<'_>, part: &str, trial: &KnownTrial, at_c: f64) -> String {
    let unit = pen.show.units.temperature;
    let (key, at) = if at_c.is_finite() {
        ("log-trial-warning", pen.show.with_unit((unit.from_c(at_c) - 1e-6).ceil(), 0, unit.symbol()))
    } else {
        ("log-trial-warning-open", band_words(pen, &trial.trial.band))
    };
    let (day, _) = trial.trial.at.day_and_time();
    let values = [
        ("member", part),
        ("figure", &at),
        ("job", &trial.job_name),
        ("steel", &trial.trial.steel),
        ("day", &day),
    ];
    pen.words.with(key, &values)
}
