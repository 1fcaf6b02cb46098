//! How long is a part that nothing heats still above its minimum, and when is it below its maximum?

use serde::{Deserialize, Serialize};

use super::Band;

/// A part that falls: minutes and °C, from hot to cold.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Fall {
    /// Minutes since it began to fall, and the temperature then, °C.
    pub points: Vec<(f64, f64)>,
}

/// The two falls of a joint.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Falls {
    /// The coldest place that must have the minimum, straight after the flame that leaves the least heat in
    /// the part: nothing that is welded later falls quicker.
    pub quick: Fall,
    /// A part that is as hot all through, or that a flame has just left, whichever is slower: nothing that
    /// has an arc on one spot falls slower.
    pub slow: Fall,
}

impl Fall {
    /// When it passes a temperature, min: straight between points; its beginning where that is hotter than
    /// all of it, nothing where it ends hotter.
    #[must_use]
    pub fn passes_min(&self, at_c: f64) -> Option<f64> {
        let (first, last) = (self.points.first()?, self.points.last()?);
        if !at_c.is_finite() || at_c < last.1 {
            return None;
        }
        if at_c >= first.1 {
            return Some(first.0);
        }
        let next = self.points.iter().position(|(_, cooler_c)| *cooler_c <= at_c)?;
        let (after, before) = (self.points[next], self.points[next.checked_sub(1)?]);
        let fall = before.1 - after.1;
        let share = if fall > 0.0 { (before.1 - at_c) / fall } else { 1.0 };
        Some((after.0 - before.0).mul_add(share, before.0))
    }

    /// Minutes from one temperature down to another; none of them where it is there already.
    #[must_use]
    pub fn minutes(&self, from_c: f64, to_c: f64) -> Option<f64> {
        if from_c <= to_c {
            return Some(0.0);
        }
        let minutes = self.passes_min(to_c)? - self.passes_min(from_c)?;
        (minutes.is_finite() && minutes >= 0.0).then_some(minutes)
    }

    /// The same where it ends hotter than that: its last stretch goes on straight. What cools loses less
    /// and less, so that these are never too many.
    #[must_use]
    pub fn minutes_at_least(&self, from_c: f64, to_c: f64) -> Option<f64> {
        let end_c = self.points.last()?.1;
        if !to_c.is_finite() || to_c >= end_c || from_c <= to_c {
            return self.minutes(from_c, to_c);
        }
        let stretch = self.points.iter().rev().find(|point| point.1 > end_c);
        let per_k = stretch
            .map_or(0.0, |before| (self.points[self.points.len() - 1].0 - before.0) / (before.1 - end_c));
        let past_min = per_k * (from_c.min(end_c) - to_c);
        Some(self.minutes(from_c.max(end_c), end_c)? + past_min)
    }

    /// Is it hot enough at its beginning to speak of a temperature?
    #[must_use]
    pub fn reaches(&self, at_c: f64) -> bool {
        self.points.first().is_some_and(|(_, first_c)| *first_c >= at_c)
    }
}

/// A reading with its time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Timed {
    /// Minutes on any one clock.
    pub at_min: f64,
    /// What it says.
    pub band: Band,
}

/// How much quicker, and how much slower, a job's parts fall than the model has it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pace {
    /// At most so many times as quick; never below 1, so that no reading lengthens the minutes left.
    pub quickest: f64,
    /// At least so many times as quick; never above 1.
    pub slowest: f64,
}

impl Default for Pace {
    fn default() -> Self {
        Self { quickest: 1.0, slowest: 1.0 }
    }
}

/// No part falls so many times as quick as the model; readings that say so were of two places.
const WILD: f64 = 10.0;

impl Pace {
    /// The same with what two readings of one falling place say: each taken at the end that is unfavourable.
    /// Readings that may be equal tell nothing.
    #[must_use]
    pub fn with(self, falls: &Falls, first: &Timed, second: &Timed) -> Self {
        let minutes = second.at_min - first.at_min;
        let (Some(high), Some(low)) = (ends(&first.band), ends(&second.band)) else { return self };
        // Cold end of the first above the hot end of the second: it surely fell.
        if !minutes.is_finite() || minutes <= 0.0 || high.0 <= low.1 {
            return self;
        }
        let times =
            |fall: &Fall, from_c: f64, to_c: f64| fall.minutes(from_c, to_c).map(|model| model / minutes);
        // What is colder by now than the model goes down fell quickest of all.
        let model = falls.quick.minutes_at_least(high.1, low.0);
        let quickest = model.map(|model| (model / minutes).min(WILD));
        let slowest = times(&falls.slow, high.0, low.1)
            .filter(|_| falls.slow.reaches(high.0))
            .map(|times| times.max(1.0 / WILD));
        Self {
            quickest: quickest.map_or(self.quickest, |times| self.quickest.max(times)),
            slowest: slowest.map_or(self.slowest, |times| self.slowest.min(times)),
        }
    }
}

/// Both ends of a band that tells what the part was at that moment.
fn ends(band: &Band) -> Option<(f64, f64)> {
    if band.peak { None } else { band.low_c.zip(band.high_c) }
}

/// Minutes until a part that read so may be below its minimum: the cautious end. `None` where nothing says.
#[must_use]
pub fn left_min(falls: &Falls, pace: Pace, band: &Band, minimum_c: f64) -> Option<f64> {
    let least_c = band.least_c()?;
    Some(falls.quick.minutes(least_c, minimum_c)? / pace.quickest.max(1.0))
}

/// Minutes until a part that read so is surely below its maximum: the cautious end. `None` where nothing says.
#[must_use]
pub fn wait_min(falls: &Falls, pace: Pace, band: &Band, maximum_c: f64) -> Option<f64> {
    let most_c = band.most_c().filter(|_| !band.peak)?;
    if most_c <= maximum_c {
        return Some(0.0);
    }
    if !falls.slow.reaches(most_c) {
        return None;
    }
    Some(falls.slow.minutes(most_c, maximum_c)? / pace.slowest.clamp(1.0 / WILD, 1.0))
}
