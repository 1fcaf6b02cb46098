//! The weld-by clock of a piece: how long may it still be welded, and when may the next run begin?

use super::together::{is_same_place, latest_of, of, of_one_moment, same_place, says, surely_over};
use super::{Moment, PlanCopy, ReadingTaken};
use crate::engine::reading::{Band, Falls, Pace, Timed, When, left_min, wait_min};
use crate::engine::two_readings::TwoReadings;
use crate::reference::Reference;

/// Nobody leaves a part for longer between two readings and heats nothing, min (common practice, no source).
const PAIR_MOST_MIN: f64 = 30.0;
/// Minutes of a hot end that are about none, min: who reads a clock rounds so far (common practice, no source).
const ABOUT_NONE_MIN: f64 = 1.0;

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
    /// Does it count from the hot end of a reading whose cold end nobody knows? It may be too cold already.
    pub may_be_cold: bool,
    /// Was it too hot when last read, or does it wait? Then no minutes to weld are counted.
    pub too_hot: bool,
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

    /// Has its time run out while it may as well be too hot, or warm? Then nobody knows whether to heat or to wait.
    #[must_use]
    pub fn must_be_measured(&self) -> bool {
        (self.may_be_hot || self.may_be_cold) && self.left_min.is_some_and(|left_min| left_min <= 0.0)
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
            let mut each = members.iter().map(|member| {
                // What was read of no part in particular is of one of those that were told apart.
                let known = member.is_none() && readings.iter().any(|reading| says(reading, minimum_c));
                self.left(&of(readings, *member), minimum_c, known)
            });
            // Every part must have the minimum: the first that falls below it counts.
            if let Some(first) = each.next() {
                clock = each.fold(first, sooner);
            }
        } else {
            clock.why = ClockWhy::NoMinimum;
        }
        if let Some(maximum_c) = limits.maximum_c {
            let each: Vec<Option<f64>> =
                members.iter().map(|member| self.wait(&of(readings, *member))).collect();
            // A part of which nobody knows when it is below makes the wait of the others no answer.
            let waits: Option<Vec<f64>> = each.into_iter().collect();
            clock.wait_min = waits.and_then(|waits| waits.into_iter().reduce(f64::max));
            clock.may_be_hot = !readings.is_empty() && clock.wait_min != Some(0.0);
            // What falls below the minimum before the wait is over is never surely between the two: waiting
            // does not help, unless it is surely too hot.
            let in_vain =
                clock.left_min.zip(clock.wait_min).is_some_and(|(left, wait)| 0.0 < left && left <= wait);
            let surely_hot = || members.iter().any(|member| surely_over(&of(readings, *member), maximum_c));
            if in_vain && !surely_hot() {
                (clock.left_min, clock.overdue_min) = (Some(0.0), Some(0.0));
            }
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
    /// other places. The colder place counts. A newer reading whose hot end alone is known caps the minutes.
    /// `known` where readings of no part in particular say something.
    fn left(&self, readings: &[&ReadingTaken], minimum_c: f64, known: bool) -> Clock {
        let says = |reading: &ReadingTaken| says(reading, minimum_c);
        let caps = |reading: &ReadingTaken| !says(reading) && reading.band.most_c().is_some();
        let Some(last) = readings.iter().rposition(|reading| says(reading)) else {
            let each = (0..readings.len()).filter(|nth| caps(readings[*nth]));
            let each = each.map(|nth| self.left_by_top(readings, nth, minimum_c, known));
            return each.reduce(sooner).unwrap_or_else(|| Clock::none(ClockWhy::NoReading));
        };
        let latest = self.left_by(readings, last, minimum_c);
        let others = of_one_moment(readings, last, says);
        let others = others.into_iter().map(|nth| self.left_by(readings, nth, minimum_c));
        let clock =
            others.fold(latest, |one, other| if other.left_min.is_some() { sooner(one, other) } else { one });
        let again = |nth: usize| {
            readings[nth + 1..].iter().any(|later| says(later) && is_same_place(readings[nth], later))
        };
        let near = of_one_moment(readings, last, caps).into_iter().filter(|nth| *nth < last && !again(*nth));
        let newer = (last + 1..readings.len()).filter(|nth| caps(readings[*nth]));
        let bounded = clock.left_min.is_some();
        near.chain(newer).map(|nth| self.left_by_top(readings, nth, minimum_c, bounded)).fold(clock, sooner)
    }

    /// What is left by the hot end of a reading whose cold end nobody knows: as if it had that temperature.
    /// None where nothing older bounds it, and where its hot end has about none.
    fn left_by_top(&self, readings: &[&ReadingTaken], nth: usize, minimum_c: f64, bounded: bool) -> Clock {
        let reading = readings[nth];
        let by_top = reading.band.most_c().filter(|_| bounded).and_then(|most_c| {
            let falls = self.plan.falls.as_ref();
            let top = Band::from_to(most_c, most_c);
            let by_cycle = falls.and_then(|falls| left_min(falls, self.pace, &top, minimum_c));
            let pairs = (0..=nth).flat_map(|second| self.pairs(readings, second, minimum_c));
            let losses = &self.reference.heat_cycle;
            let by_pairs = pairs.filter_map(|pair| pair.fewest(losses, most_c, minimum_c));
            let by_pairs = by_pairs.reduce(f64::min).filter(|minutes| minutes.is_finite());
            let why = match by_cycle {
                Some(_) if self.pace.quickest <= 1.0 && by_pairs.is_none() => ClockWhy::ByCycle,
                Some(_) => ClockWhy::ByReadings,
                None => ClockWhy::ByTwoReadings,
            };
            Some((by_cycle.into_iter().chain(by_pairs).reduce(f64::min)?, why))
        });
        let by_top = by_top.map(|(minutes, why)| (if minutes < ABOUT_NONE_MIN { 0.0 } else { minutes }, why));
        let (minutes, why) = by_top.unwrap_or((0.0, ClockWhy::NoReading));
        Clock { may_be_cold: true, ..self.shown(reading, minutes, why) }
    }

    /// A clock of so many minutes from a reading on.
    fn shown(&self, reading: &ReadingTaken, left_min: f64, why: ClockWhy) -> Clock {
        let gone_min = self.now.minutes_since(reading.at).max(0.0);
        Clock {
            left_min: Some((left_min - gone_min).max(0.0)),
            overdue_min: (gone_min >= left_min).then_some(gone_min - left_min),
            why,
            since: Some(reading.at),
            ..Clock::default()
        }
    }

    /// What is left by one reading of a part.
    fn left_by(&self, readings: &[&ReadingTaken], nth: usize, minimum_c: f64) -> Clock {
        let reading = readings[nth];
        if reading.band.most_c().is_some_and(|most_c| most_c < minimum_c) {
            return self.shown(reading, 0.0, ClockWhy::ByReadings);
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
        self.shown(reading, least, why)
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
        let each = latest_of(readings).into_iter().map(|nth| self.wait_by(readings[nth], maximum_c));
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

/// The clock that runs out first; one that shows nothing runs out before any that still runs.
fn sooner(one: Clock, other: Clock) -> Clock {
    match (one.left_min, other.left_min) {
        (Some(left), Some(right)) if right < left => other,
        (Some(left), None) if left > 0.0 => other,
        (None, Some(right)) if right <= 0.0 => other,
        // What ran out by a known cold end is heated, and need not be measured first.
        (Some(left), Some(right))
            if left <= right && right <= 0.0 && one.may_be_cold != other.may_be_cold =>
        {
            if one.may_be_cold {
                other
            } else {
                one
            }
        }
        // Of two that ran out the one that did so first.
        (Some(left), Some(right)) if left <= right && one.overdue_min < other.overdue_min => other,
        _ => one,
    }
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
