//! The weld-by clock of a piece: how long may it still be welded, and when may the next run begin?

use super::{Moment, PlanCopy, ReadingTaken};
use crate::engine::reading::{Falls, Pace, Timed, left_min, wait_min};
use crate::engine::two_readings::TwoReadings;
use crate::reference::Reference;

/// What a clock rests on, or why it shows nothing; its words are the Fluent message `log-clock-ID`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, strum::IntoStaticStr, strum::VariantArray)]
#[strum(serialize_all = "kebab-case")]
pub enum ClockWhy {
    /// Nothing was read yet, or no reading shows the minimum kept.
    #[default]
    NoReading,
    /// The heat cycle of the plan.
    ByCycle,
    /// The same, quickened by the readings of this job.
    ByReadings,
    /// Two readings of this piece alone.
    ByTwoReadings,
    /// There is no heat cycle, and no two readings that fall.
    NoCycle,
    /// The plan has no minimum to fall below.
    NoMinimum,
    /// The piece is welded: nothing runs out.
    Over,
    /// A reading is later than the clock of this device: none is shown to be left.
    SetBack,
}

impl ClockWhy {
    /// All of them.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// The clock of a piece at a moment.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Clock {
    /// Minutes left above the minimum, cautious; 0 where none is left, `None` where nothing says.
    pub left_min: Option<f64>,
    /// Minutes since none was left.
    pub overdue_min: Option<f64>,
    /// Minutes until it is surely below its maximum; 0 where it is.
    pub wait_min: Option<f64>,
    /// What it rests on.
    pub why: ClockWhy,
    /// When the reading that it counts from was taken.
    pub since: Option<Moment>,
}

impl Clock {
    /// A clock that shows nothing, and why.
    pub(super) fn none(why: ClockWhy) -> Self {
        Self { why, ..Self::default() }
    }

    /// A device whose clock was set back shows none left rather than too many.
    pub(super) fn set_back() -> Self {
        Self { left_min: Some(0.0), overdue_min: Some(0.0), why: ClockWhy::SetBack, ..Self::default() }
    }
}

/// What clocks of one job count with.
#[derive(Debug, Clone, Copy)]
pub(super) struct Counts<'a> {
    pub(super) reference: &'a Reference,
    pub(super) plan: &'a PlanCopy,
    pub(super) pace: Pace,
    pub(super) now: Moment,
}

impl Counts<'_> {
    /// The clock by the readings of one piece, in the order of time.
    pub(super) fn clock(&self, readings: &[&ReadingTaken]) -> Clock {
        if readings.iter().any(|reading| reading.at > self.now) {
            return Clock::set_back();
        }
        // What was read of no part in particular counts until parts are told apart.
        let told_apart = readings.iter().rposition(|reading| reading.member.is_some());
        let readings: Vec<&ReadingTaken> = readings
            .iter()
            .enumerate()
            .filter(|(nth, reading)| reading.member.is_some() || told_apart.is_none_or(|last| *nth > last))
            .map(|(_, reading)| *reading)
            .collect();
        let readings = readings.as_slice();
        let limits = self.plan.limits();
        let mut members: Vec<Option<u32>> = readings.iter().map(|reading| reading.member).collect();
        members.sort_unstable();
        members.dedup();
        let mut clock = Clock::none(ClockWhy::NoReading);
        if let Some(minimum_c) = limits.minimum_c {
            let mut each = members.iter().map(|member| self.left(&of(readings, *member), minimum_c));
            // Every part must have the minimum: the first that falls below it counts.
            if let Some(first) = each.next() {
                clock = each.fold(first, sooner);
            }
        } else {
            clock.why = ClockWhy::NoMinimum;
        }
        if let Some(maximum_c) = limits.maximum_c {
            let each = members.iter().filter_map(|member| self.wait(&of(readings, *member), maximum_c));
            clock.wait_min = each.reduce(f64::max);
        }
        clock
    }

    /// What is left by the latest reading of a part that says anything.
    fn left(&self, readings: &[&ReadingTaken], minimum_c: f64) -> Clock {
        for (nth, reading) in readings.iter().enumerate().rev() {
            let gone_min = self.now.minutes_since(reading.at);
            let shown = |left_min: f64, why| Clock {
                left_min: Some((left_min - gone_min).max(0.0)),
                overdue_min: (gone_min >= left_min).then_some(gone_min - left_min),
                wait_min: None,
                why,
                since: Some(reading.at),
            };
            if reading.band.most_c().is_some_and(|most_c| most_c < minimum_c) {
                return shown(0.0, ClockWhy::ByReadings);
            }
            if reading.band.least_c().is_none() {
                continue;
            }
            let by_cycle = self
                .plan
                .falls
                .as_ref()
                .and_then(|falls| left_min(falls, self.pace, &reading.band, minimum_c));
            let by_two = self.by_two(&readings[..=nth], minimum_c);
            let why = match (by_cycle, by_two) {
                (Some(cycle), Some(two)) if two < cycle => ClockWhy::ByReadings,
                (Some(_), _) if self.pace.quickest > 1.0 => ClockWhy::ByReadings,
                (Some(_), _) => ClockWhy::ByCycle,
                (None, Some(_)) => ClockWhy::ByTwoReadings,
                (None, None) => return Clock { since: Some(reading.at), ..Clock::none(ClockWhy::NoCycle) },
            };
            let least = by_cycle.into_iter().chain(by_two).fold(f64::INFINITY, f64::min);
            return shown(least, why);
        }
        Clock::none(ClockWhy::NoReading)
    }

    /// What two readings of one place say by themselves, counted from the later one: the fewest minutes.
    fn by_two(&self, readings: &[&ReadingTaken], minimum_c: f64) -> Option<f64> {
        let (second, before) = readings.split_last()?;
        let first = before.iter().rev().find(|first| same_place(first, second))?;
        let pair = TwoReadings {
            first_c: first.band.middle_c()?,
            second_c: second.band.middle_c()?,
            minutes: second.at.minutes_since(first.at),
            off_k: (first.band.off_k()?, second.band.off_k()?),
            shop_c: self.plan.shop_c,
        };
        pair.check().ok()?;
        let (fewest, _) = pair.minutes_to(&self.reference.heat_cycle, minimum_c)?;
        fewest.is_finite().then_some(fewest.max(0.0))
    }

    /// Until a part is surely below its maximum, by its latest reading that says anything.
    fn wait(&self, readings: &[&ReadingTaken], maximum_c: f64) -> Option<f64> {
        let reading =
            readings.iter().rev().find(|reading| reading.band.most_c().is_some() && !reading.band.peak)?;
        if reading.band.most_c().is_some_and(|most_c| most_c <= maximum_c) {
            return Some(0.0);
        }
        let wait = wait_min(self.plan.falls.as_ref()?, self.pace, &reading.band, maximum_c)?;
        Some((wait - self.now.minutes_since(reading.at)).max(0.0))
    }
}

fn of<'a>(readings: &[&'a ReadingTaken], member: Option<u32>) -> Vec<&'a ReadingTaken> {
    readings.iter().filter(|reading| reading.member == member).copied().collect()
}

/// The clock that runs out first; one that shows nothing runs out before any.
fn sooner(one: Clock, other: Clock) -> Clock {
    match (one.left_min, other.left_min) {
        (Some(left), Some(right)) if right < left => other,
        (Some(_), None) => other,
        _ => one,
    }
}

/// Two readings of one place at one point of the work, with no arc between them.
fn same_place(first: &ReadingTaken, second: &ReadingTaken) -> bool {
    first.when == second.when
        && first.when.in_welding()
        && first.member == second.member
        && first.face == second.face
        && first.away_mm == second.away_mm
        && first.at < second.at
}

/// How a job's parts fall beside the model, by all pairs of its readings.
pub(super) fn pace_of<'a>(falls: &Falls, pieces: impl IntoIterator<Item = Vec<&'a ReadingTaken>>) -> Pace {
    let mut pace = Pace::default();
    for readings in pieces {
        for (nth, second) in readings.iter().enumerate() {
            let Some(first) = readings[..nth].iter().rev().find(|first| same_place(first, second)) else {
                continue;
            };
            let timed = |reading: &ReadingTaken| Timed {
                at_min: reading.at.minutes_since(first.at),
                band: reading.band,
            };
            pace = pace.with(falls, &timed(first), &timed(second));
        }
    }
    pace
}
