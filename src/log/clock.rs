//! The weld-by clock of a piece: how long may it still be welded, and when may the next run begin?

use super::{Moment, PlanCopy, ReadingTaken};
use crate::engine::reading::{Falls, Pace, Timed, When, left_min, wait_min};
use crate::engine::two_readings::TwoReadings;
use crate::reference::Reference;

/// Who reads a part at several places takes no longer, min (common practice, no source).
const ROUND_MIN: f64 = 5.0;
/// Nobody leaves a part for longer between two readings and heats nothing, min (common practice, no source).
const PAIR_MOST_MIN: f64 = 30.0;

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
    /// Minutes until it is surely below its maximum; 0 where it is, `None` where nobody knows.
    pub wait_min: Option<f64>,
    /// May it be above its maximum still, by what was read last?
    pub may_be_hot: bool,
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

    /// Has its time run out while it may as well be too hot? Then nobody knows whether to heat or to wait.
    #[must_use]
    pub fn must_be_measured(&self) -> bool {
        self.may_be_hot && self.left_min.is_some_and(|left_min| left_min <= 0.0)
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
    /// When steps of this piece were done.
    pub(super) steps_at: &'a [Moment],
    /// All readings of this piece.
    pub(super) all: &'a [&'a ReadingTaken],
}

impl Counts<'_> {
    /// The clock by the readings of the piece, in the order of time.
    pub(super) fn clock(&self) -> Clock {
        let readings = self.all;
        if readings.iter().any(|reading| reading.at.is_after(self.now)) {
            return Clock { may_be_hot: self.may_be_hot(readings), ..Clock::set_back() };
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
        if limits.maximum_c.is_some() {
            let each: Vec<Option<f64>> =
                members.iter().map(|member| self.wait(&of(readings, *member))).collect();
            // A part of which nobody knows when it is below makes the wait of the others no answer.
            let waits: Option<Vec<f64>> = each.into_iter().collect();
            clock.wait_min = waits.and_then(|waits| waits.into_iter().reduce(f64::max));
            clock.may_be_hot = !readings.is_empty() && clock.wait_min != Some(0.0);
        }
        clock
    }

    /// May the piece be above its maximum, by its latest readings alone?
    fn may_be_hot(&self, readings: &[&ReadingTaken]) -> bool {
        let Some(maximum_c) = self.plan.limits().maximum_c else { return false };
        let latest = readings.iter().rev().find(|reading| !reading.band.peak);
        latest.is_none_or(|latest| latest.band.most_c().is_none_or(|most_c| most_c > maximum_c))
    }

    /// What is left of a part: by its latest reading that says anything, and by those of that moment at its
    /// other places. The colder place counts.
    fn left(&self, readings: &[&ReadingTaken], minimum_c: f64) -> Clock {
        let says = |reading: &&ReadingTaken| {
            reading.band.most_c().is_some_and(|most_c| most_c < minimum_c) || reading.band.least_c().is_some()
        };
        let Some(last) = readings.iter().rposition(says) else { return Clock::none(ClockWhy::NoReading) };
        let latest = self.left_by(readings, last, minimum_c);
        let others = of_one_moment(readings, last, |reading| says(&reading));
        let others = others.into_iter().map(|nth| self.left_by(readings, nth, minimum_c));
        others.fold(latest, |one, other| if other.left_min.is_some() { sooner(one, other) } else { one })
    }

    /// What is left by one reading of a part.
    fn left_by(&self, readings: &[&ReadingTaken], nth: usize, minimum_c: f64) -> Clock {
        let reading = readings[nth];
        let gone_min = self.now.minutes_since(reading.at).max(0.0);
        let shown = |left_min: f64, why| Clock {
            left_min: Some((left_min - gone_min).max(0.0)),
            overdue_min: (gone_min >= left_min).then_some(gone_min - left_min),
            why,
            since: Some(reading.at),
            ..Clock::default()
        };
        if reading.band.most_c().is_some_and(|most_c| most_c < minimum_c) {
            return shown(0.0, ClockWhy::ByReadings);
        }
        let falls = self.plan.falls.as_ref();
        let by_cycle = falls.and_then(|falls| left_min(falls, self.pace, &reading.band, minimum_c));
        let by_two = self.by_two(readings, nth, minimum_c);
        let why = match (by_cycle, by_two) {
            (Some(cycle), Some(two)) if two < cycle => ClockWhy::ByReadings,
            (Some(_), _) if self.pace.quickest > 1.0 => ClockWhy::ByReadings,
            (Some(_), _) => ClockWhy::ByCycle,
            (None, Some(_)) => ClockWhy::ByTwoReadings,
            (None, None) => return Clock { since: Some(reading.at), ..Clock::none(ClockWhy::NoCycle) },
        };
        let least = by_cycle.into_iter().chain(by_two).fold(f64::INFINITY, f64::min);
        shown(least, why)
    }

    /// What two readings of one place say by themselves, counted from the later one. Where earlier pairs of the
    /// part fell quicker, the quickest counts.
    fn by_two(&self, readings: &[&ReadingTaken], nth: usize, minimum_c: f64) -> Option<f64> {
        let from_c = readings[nth].band.least_c()?;
        let own: Vec<_> = self.pairs(readings, nth, minimum_c).collect();
        let earlier = (0..nth).flat_map(|second| self.pairs(readings, second, minimum_c));
        let losses = &self.reference.heat_cycle;
        let own = own.iter().filter_map(|pair| pair.minutes_to(losses, minimum_c)).map(|(fewest, _)| fewest);
        // No pair of this reading, no figure: how it fell at another time alone does not show that it falls.
        let own = own.reduce(f64::min)?;
        let earlier = earlier.filter_map(|pair| pair.fewest(losses, from_c, minimum_c));
        let fewest = earlier.fold(own, f64::min);
        fewest.is_finite().then_some(fewest.max(0.0))
    }

    /// The pairs of readings that end in one, with nothing between them that can have heated the part.
    fn pairs<'r>(
        &'r self,
        readings: &'r [&ReadingTaken],
        nth: usize,
        minimum_c: f64,
    ) -> impl Iterator<Item = TwoReadings> + 'r {
        (0..nth).filter(move |first| self.only_fell(&readings[*first..=nth], minimum_c)).filter_map(
            move |first| {
                let (first, second) = (readings[first], readings[nth]);
                let pair = TwoReadings {
                    first_c: first.band.middle_c()?,
                    second_c: second.band.middle_c()?,
                    minutes: second.at.minutes_since(first.at),
                    off_k: (first.band.off_k()?, second.band.off_k()?),
                    shop_c: self.plan.shop_c,
                };
                pair.check().ok().map(|()| pair)
            },
        )
    }

    /// Can nothing have heated a part from the first to the last of these readings? Only just before one run
    /// is there surely no arc: tacks are several, and between runs there is a run. A piece that may have been
    /// below its minimum was heated again; so was one that rose, and one that was left for long.
    fn only_fell(&self, readings: &[&ReadingTaken], minimum_c: f64) -> bool {
        let [first, .., second] = readings else { return false };
        let between = |at: Moment| first.at <= at && at <= second.at;
        let of_run = matches!(first.when, When::BeforeRun(_));
        // A reading on any part tells at which point of the work the piece was.
        let mut all = self.all.iter().filter(|reading| between(reading.at));
        let warm =
            |reading: &&ReadingTaken| reading.band.least_c().is_none_or(|least_c| least_c >= minimum_c);
        let at_one_place: Vec<Option<f64>> = readings
            .iter()
            .filter(|reading| is_same_place(first, reading))
            .map(|reading| reading.band.middle_c())
            .collect();
        let fell = |pair: &[Option<f64>]| pair[0].zip(pair[1]).is_some_and(|(one_c, next_c)| next_c <= one_c);
        of_run
            && same_place(first, second)
            && all.all(|reading| reading.when == first.when)
            && readings[..readings.len() - 1].iter().all(warm)
            && at_one_place.windows(2).all(fell)
            && !self.steps_at.iter().any(|at| between(*at))
            && second.at.minutes_since(first.at) <= PAIR_MOST_MIN
    }

    /// Until a part is surely below its maximum, by its latest reading of what it was when one looked, and by
    /// those of that moment at its other places. `None` where nobody knows.
    fn wait(&self, readings: &[&ReadingTaken]) -> Option<f64> {
        let maximum_c = self.plan.limits().maximum_c?;
        // Where only the hottest that it was is known, it is no hotter now.
        let last = readings.iter().rposition(|reading| !reading.band.peak);
        let last = last.or_else(|| readings.len().checked_sub(1))?;
        let others = of_one_moment(readings, last, |reading| !reading.band.peak);
        let each = others.into_iter().chain([last]).map(|nth| self.wait_by(readings[nth], maximum_c));
        each.collect::<Option<Vec<f64>>>()?.into_iter().reduce(f64::max)
    }

    fn wait_by(&self, reading: &ReadingTaken, maximum_c: f64) -> Option<f64> {
        if reading.band.most_c()? <= maximum_c {
            return Some(0.0);
        }
        let wait = wait_min(self.plan.falls.as_ref()?, self.pace, &reading.band, maximum_c)?;
        Some((wait - self.now.minutes_since(reading.at).max(0.0)).max(0.0))
    }
}

fn of<'a>(readings: &[&'a ReadingTaken], member: Option<u32>) -> Vec<&'a ReadingTaken> {
    readings.iter().filter(|reading| reading.member == member).copied().collect()
}

/// The latest readings at other places of a part that are of one moment with one of its readings: who goes
/// round a part takes a few minutes.
fn of_one_moment(
    readings: &[&ReadingTaken],
    last: usize,
    says: impl Fn(&ReadingTaken) -> bool,
) -> Vec<usize> {
    let mut found: Vec<usize> = vec![last];
    for (nth, reading) in readings.iter().enumerate().rev() {
        let near_min = readings[last].at.minutes_since(reading.at).abs();
        let new = !found.iter().any(|known| is_same_place(readings[*known], reading));
        if near_min <= ROUND_MIN && new && says(reading) {
            found.push(nth);
        }
    }
    found.split_off(1)
}

/// The clock that runs out first; one that shows nothing runs out before any.
fn sooner(one: Clock, other: Clock) -> Clock {
    match (one.left_min, other.left_min) {
        (Some(left), Some(right)) if right < left => other,
        (Some(_), None) => other,
        // Of two that ran out the one that did so first.
        (Some(left), Some(right)) if left <= right && one.overdue_min < other.overdue_min => other,
        _ => one,
    }
}

fn is_same_place(one: &ReadingTaken, other: &ReadingTaken) -> bool {
    one.member == other.member && one.face == other.face && one.away_mm == other.away_mm
}

/// Two readings of one place at one point of the work.
fn same_place(first: &ReadingTaken, second: &ReadingTaken) -> bool {
    first.when == second.when
        && first.when.in_welding()
        && is_same_place(first, second)
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
