//! The batch at a moment: each piece with its readings, its steps, its clock; what is left; what was used.

use super::clock::{ClockWhy, Counts, pace_of};
use super::entry::{PieceEntry, ReadingTaken, StepDone, Used};
use super::{Clock, Moment, PlanCopy, Standing, StepCopy, Thing};
use crate::engine::reading::{Judged, Pace, Verdict, judge};
use crate::engine::tint::Held;
use crate::reference::Reference;

/// Phases after which a piece need not be at its minimum.
const WELDED: [&str; 5] = ["weld", "post-heat", "cool", "heat-treat", "inspect"];

/// How a piece stands; its words are the Fluent message `log-piece-ID`.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, strum::IntoStaticStr, strum::VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
pub enum PieceStatus {
    /// No minute is left above the minimum, or it was read below: heat it again.
    Overdue,
    /// The same, and it may as well be too hot, or no cold end is known: nobody knows whether to heat or to wait.
    Measure,
    /// A minute runs.
    Warm,
    /// Too hot for the next run.
    Wait,
    /// Begun, and no clock runs.
    Begun,
    /// Welded: it cools.
    Welded,
    /// Nothing was done to it.
    NotBegun,
    /// Finished.
    Done,
}

impl PieceStatus {
    /// All of them, the most urgent first.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// A reading with its verdict.
#[derive(Debug, Clone, PartialEq)]
pub struct ReadingView<'a> {
    /// The reading.
    pub thing: Thing<'a, ReadingTaken>,
    /// How it stands to the limits of the plan.
    pub judged: Judged,
}

/// A piece at a moment.
#[derive(Debug, Clone, PartialEq)]
pub struct PieceView<'a> {
    /// The piece.
    pub thing: Thing<'a, PieceEntry>,
    /// Its readings, in the order of time.
    pub readings: Vec<ReadingView<'a>>,
    /// Its steps that are done.
    pub steps: Vec<Thing<'a, StepDone>>,
    /// Its clock.
    pub clock: Clock,
    /// How it stands.
    pub status: PieceStatus,
    /// Was a reading surely above the ceiling? That stays with the piece.
    pub ceiling_passed: bool,
    /// Has another piece the same number? Two devices that add a piece give both the next one.
    pub same_number: bool,
}

impl PieceView<'_> {
    /// Is a step of the plan done?
    #[must_use]
    pub fn is_done(&self, step: &StepCopy) -> bool {
        self.steps.iter().any(|done| done.now.number == step.number && done.now.branch == step.branch)
    }

    /// The next step of the plan on this piece: the way is that of the steps that are done. Steps of the job
    /// are none of a piece.
    #[must_use]
    pub fn next_step<'p>(&self, plan: &'p PlanCopy) -> Option<&'p StepCopy> {
        let branch = self.steps.iter().map(|done| done.now.branch.as_str()).find(|branch| !branch.is_empty());
        let branches = plan.branches();
        let branch = branch.or_else(|| branches.first().copied()).unwrap_or_default();
        plan.steps
            .iter()
            .filter(|step| !step.is_of_job() && (step.branch.is_empty() || step.branch == branch))
            .find(|step| !self.is_done(step))
    }

    /// How many readings have this verdict.
    #[must_use]
    pub fn count(&self, verdict: Verdict) -> usize {
        self.readings.iter().filter(|reading| reading.judged.verdict == Some(verdict)).count()
    }
}

/// What was used beside what was estimated.
#[derive(Debug, Clone, PartialEq)]
pub struct UsedOf {
    /// Id of the need, or the reader's own name.
    pub id: String,
    /// In words.
    pub label: String,
    /// Its unit.
    pub unit: String,
    /// For the whole batch, as estimated; none where nothing was.
    pub estimate: Option<f64>,
    /// For the pieces that are welded by now, as estimated.
    pub estimate_so_far: Option<f64>,
    /// As told.
    pub told: f64,
    /// Is anything told of it?
    pub any_told: bool,
}

/// A batch at a moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Overview<'a> {
    /// The moment.
    pub now: Moment,
    /// The pieces, by number.
    pub pieces: Vec<PieceView<'a>>,
    /// Places of the pieces in the order in which they want the welder: overdue first.
    pub urgent: Vec<usize>,
    /// How its parts fall beside the model.
    pub pace: Pace,
    /// Pieces that are not finished.
    pub left: usize,
    /// Readings of trial pieces, in the order of time.
    pub trial_readings: Vec<ReadingView<'a>>,
    /// What was used.
    pub used: Vec<UsedOf>,
}

impl<'a> Standing<'a> {
    /// The batch at a moment; `None` where no job stands.
    #[must_use]
    pub fn overview(&self, reference: &Reference, now: Moment) -> Option<Overview<'a>> {
        let plan = &self.job.as_ref()?.now.plan;
        let limits = plan.limits();
        let of = |id| self.readings.iter().filter(move |reading| reading.now.piece == id);
        let pace = plan.falls.as_ref().map_or_else(Pace::default, |falls| {
            let each = self.pieces.iter().map(|piece| of(piece.id).map(|reading| reading.now).collect());
            pace_of(falls, each)
        });
        let view = |reading: &Thing<'a, ReadingTaken>| ReadingView {
            thing: reading.clone(),
            judged: judge(&reading.now.band, reading.now.when, &limits),
        };
        let same_numbers = self.same_numbers();
        let piece = |thing: &Thing<'a, PieceEntry>| {
            let readings: Vec<ReadingView<'a>> = of(thing.id).map(view).collect();
            let steps: Vec<_> =
                self.steps.iter().filter(|step| step.now.piece == thing.id).cloned().collect();
            let steps_at: Vec<Moment> = steps.iter().map(|step| step.now.at).collect();
            let all: Vec<&ReadingTaken> = readings.iter().map(|reading| reading.thing.now).collect();
            let counts = Counts { reference, plan, pace, now, steps_at: &steps_at, all: &all };
            let mut clock = clock(&counts, thing.now, &readings, &steps);
            let status = status(thing.now, &readings, &steps, &clock);
            clock.too_hot = status == PieceStatus::Wait;
            PieceView {
                status,
                ceiling_passed: readings.iter().any(|reading| reading.judged.ceiling == Some(Held::Missed)),
                same_number: same_numbers.contains(&thing.now.number),
                thing: thing.clone(),
                readings,
                steps,
                clock,
            }
        };
        let pieces: Vec<PieceView<'a>> = self.pieces.iter().map(piece).collect();
        let trial = |reading: &&Thing<'a, ReadingTaken>| {
            self.trials.iter().any(|trial| trial.id == reading.now.piece)
        };
        Some(Overview {
            now,
            urgent: urgent(&pieces),
            pace,
            left: pieces.iter().filter(|piece| piece.status != PieceStatus::Done).count(),
            trial_readings: self.readings.iter().filter(trial).map(view).collect(),
            used: used(plan, &pieces, &self.used),
            pieces,
        })
    }
}

fn is_welded(plan: &PlanCopy, readings: &[ReadingView<'_>], steps: &[Thing<'_, StepDone>]) -> bool {
    use crate::engine::reading::When;
    let phase = |done: &Thing<'_, StepDone>| {
        plan.steps.iter().find(|step| step.number == done.now.number && step.branch == done.now.branch)
    };
    let by_step = steps.iter().filter_map(phase).any(|step| WELDED.contains(&step.phase.as_str()));
    let last = readings.last().map(|reading| reading.thing.now.when);
    by_step || matches!(last, Some(When::PostHeat | When::Cooling))
}

fn clock(
    counts: &Counts<'_>,
    piece: &PieceEntry,
    readings: &[ReadingView<'_>],
    steps: &[Thing<'_, StepDone>],
) -> Clock {
    if piece.finished || is_welded(counts.plan, readings, steps) {
        return Clock::none(ClockWhy::Over);
    }
    counts.clock()
}

fn status(
    piece: &PieceEntry,
    readings: &[ReadingView<'_>],
    steps: &[Thing<'_, StepDone>],
    clock: &Clock,
) -> PieceStatus {
    if piece.finished {
        return PieceStatus::Done;
    }
    if readings.is_empty() && steps.is_empty() {
        return PieceStatus::NotBegun;
    }
    if clock.why == ClockWhy::Over {
        return PieceStatus::Welded;
    }
    let last = readings.last().and_then(|reading| reading.judged.verdict);
    match clock.left_min {
        Some(_) if clock.must_be_measured() => PieceStatus::Measure,
        Some(left_min) if left_min <= 0.0 => PieceStatus::Overdue,
        _ if last == Some(Verdict::Over) || clock.wait_min.is_some_and(|wait_min| wait_min > 0.0) => {
            PieceStatus::Wait
        }
        Some(_) => PieceStatus::Warm,
        None => PieceStatus::Begun,
    }
}

fn urgent(pieces: &[PieceView<'_>]) -> Vec<usize> {
    let mut places: Vec<usize> = (0..pieces.len()).collect();
    let minutes = |piece: &PieceView<'_>| {
        let clock = &piece.clock;
        match piece.status {
            PieceStatus::Overdue | PieceStatus::Measure => -clock.overdue_min.unwrap_or(0.0),
            PieceStatus::Wait => clock.wait_min.unwrap_or(f64::INFINITY),
            _ => clock.left_min.unwrap_or(f64::INFINITY),
        }
    };
    places.sort_by(|one, other| {
        let (one, other) = (&pieces[*one], &pieces[*other]);
        one.status.cmp(&other.status).then(minutes(one).total_cmp(&minutes(other)))
    });
    places
}

fn used(plan: &PlanCopy, pieces: &[PieceView<'_>], told: &[Thing<'_, Used>]) -> Vec<UsedOf> {
    let welded = |piece: &&PieceView<'_>| matches!(piece.status, PieceStatus::Welded | PieceStatus::Done);
    let (all, so_far) = (pieces.len() as f64, pieces.iter().filter(welded).count() as f64);
    let mut found: Vec<UsedOf> = plan
        .needs
        .iter()
        .map(|need| UsedOf {
            id: need.id.clone(),
            label: need.label.clone(),
            unit: need.unit.clone(),
            estimate: Some(need.per_piece * all),
            estimate_so_far: Some(need.per_piece * so_far),
            told: 0.0,
            any_told: false,
        })
        .collect();
    for used in told.iter().map(|thing| thing.now) {
        let same = |of: &&mut UsedOf| of.id == used.what && of.unit == used.unit;
        if let Some(of) = found.iter_mut().find(same) {
            of.told += used.amount;
            of.any_told = true;
        } else {
            found.push(UsedOf {
                id: used.what.clone(),
                label: used.what.clone(),
                unit: used.unit.clone(),
                estimate: None,
                estimate_so_far: None,
                told: used.amount,
                any_told: true,
            });
        }
    }
    found
}
