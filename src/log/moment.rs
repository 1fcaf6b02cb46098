//! A moment as a clock on the wall showed it.

use std::fmt;
use std::str::FromStr;

use jiff::civil::{Date, DateTime};
use jiff::fmt::temporal::Pieces;
use jiff::tz::{Offset, TimeZone};
use jiff::{Timestamp, ZonedDateTime};
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use thiserror::Error;

/// A moment, with the offset of the clock that it was read on. Written as
/// `2026-11-29T18:05:07+01:00`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Moment {
    /// Seconds since the beginning of 1970, UTC.
    pub utc_s: i64,
    /// The clock is so many minutes ahead of UTC.
    pub offset_min: i16,
}

/// Seconds that a moment may have: from year 1 to 9998, so that any offset stays inside.
const RANGE_S: std::ops::RangeInclusive<i64> = -62_135_510_400..=253_370_678_400;
/// A day, min.
const DAY_MIN: i16 = 24 * 60;

/// Why a typed time is none that can be written down.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum TimeWrong {
    /// It is no time.
    #[error("no time")]
    NoTime,
    /// It is still to come.
    #[error("still to come")]
    ToCome,
}

impl Moment {
    /// A moment, put into the range that a calendar has.
    #[must_use]
    pub fn new(utc_s: i64, offset_min: i16) -> Self {
        Self {
            utc_s: utc_s.clamp(*RANGE_S.start(), *RANGE_S.end()),
            offset_min: offset_min.clamp(1 - DAY_MIN, DAY_MIN - 1),
        }
    }

    /// Now, by the clock of this device.
    #[must_use]
    pub fn now() -> Self {
        Self::of(&ZonedDateTime::now())
    }

    fn of(zoned: &ZonedDateTime) -> Self {
        let minutes = zoned.offset().seconds() / 60;
        Self::new(zoned.timestamp().as_second(), i16::try_from(minutes).unwrap_or(0))
    }

    /// Minutes from an earlier moment to this one; less than none where it is not the earlier.
    #[must_use]
    pub fn minutes_since(self, earlier: Self) -> f64 {
        (self.utc_s - earlier.utc_s) as f64 / 60.0
    }

    /// The moment so many minutes later.
    #[must_use]
    pub fn plus_min(self, minutes: f64) -> Self {
        Self::new(self.utc_s.saturating_add((minutes * 60.0) as i64), self.offset_min)
    }

    /// The day and the time of day on that clock: `2026-11-29`, `18:05`.
    #[must_use]
    pub fn day_and_time(self) -> (String, String) {
        let text = self.to_string();
        (text.get(..10).unwrap_or_default().to_owned(), text.get(11..16).unwrap_or_default().to_owned())
    }

    /// The day, hour and minute on that clock, as numbers: year, month, day, hour, minute.
    #[must_use]
    pub fn on_clock(self) -> (i16, i8, i8, i8, i8) {
        let civil = self.offset().to_datetime(self.stamp());
        (civil.year(), civil.month(), civil.day(), civil.hour(), civil.minute())
    }

    /// Clocks of two devices, and the minute that a person rounds to, may be so far apart, min: what is no
    /// further ahead counts as now.
    pub const LENIENT_MIN: f64 = 2.0;

    /// Is it further ahead of another moment than two clocks may be apart?
    #[must_use]
    pub fn is_after(self, now: Self) -> bool {
        self.minutes_since(now) > Self::LENIENT_MIN
    }

    /// The same day at another time of the clock, as a person writes it: `18:05`, `7:30`, or with the day
    /// before it, `2026-11-29 18:05`. `None` for what is no time. Where the clock of this device is put
    /// forward or back between the two, the time is that of its own offset; of two possible moments it is
    /// the earlier, so that no minute is shown too many.
    #[must_use]
    pub fn at_time(self, text: &str) -> Option<Self> {
        self.at_time_in(text, &self.zone())
    }

    /// The same in a time zone.
    #[must_use]
    pub fn at_time_in(self, text: &str, zone: &TimeZone) -> Option<Self> {
        let (day, time) = parts(text);
        self.on_day(day, time, 0, zone)
    }

    /// The moment that a person tells at this one: a time that is still to come today is one of yesterday
    /// evening, told in the night.
    ///
    /// # Errors
    /// [`TimeWrong`] for what is no time, and for one with its day that is still to come.
    pub fn told(self, text: &str) -> Result<Self, TimeWrong> {
        self.told_in(text, &self.zone())
    }

    /// The same in a time zone.
    ///
    /// # Errors
    /// As [`Moment::told`].
    pub fn told_in(self, text: &str, zone: &TimeZone) -> Result<Self, TimeWrong> {
        let (day, time) = parts(text);
        let at = self.on_day(day, time, 0, zone).ok_or(TimeWrong::NoTime)?;
        match (at.is_after(self), day) {
            (false, _) => Ok(at),
            (true, None) => self.on_day(None, time, 1, zone).ok_or(TimeWrong::NoTime),
            (true, Some(_)) => Err(TimeWrong::ToCome),
        }
    }

    /// A time of a day, or of so many days before the one of this moment.
    fn on_day(self, day: Option<&str>, time: &str, days_back: i32, zone: &TimeZone) -> Option<Self> {
        let (hour, minute) = time.split_once(':')?;
        let (hour, minute): (i8, i8) = (hour.parse().ok()?, minute.parse().ok()?);
        let date: Date = match day {
            Some(day) => day.parse().ok()?,
            None => self.offset().to_datetime(self.stamp()).date(),
        };
        let date = date.checked_sub(jiff::Span::new().days(days_back)).ok()?;
        let civil = DateTime::new(date.year(), date.month(), date.day(), hour, minute, 0, 0).ok()?;
        let stamp = zone.to_ambiguous_timestamp(civil).earlier().ok()?;
        Some(Self::of(&stamp.to_zoned_datetime(zone.clone())))
    }

    /// The time zone of this device where that has the offset of this moment; else the moment is of another
    /// clock, and only its offset is known.
    fn zone(self) -> TimeZone {
        let system = TimeZone::system();
        let same = i32::from(self.offset_min) * 60 == system.to_offset(self.stamp()).seconds() / 60 * 60;
        if same { system } else { self.offset().to_time_zone() }
    }

    fn stamp(self) -> Timestamp {
        Timestamp::from_second(self.utc_s).unwrap_or(Timestamp::UNIX_EPOCH)
    }

    fn offset(self) -> Offset {
        Offset::from_seconds(i32::from(self.offset_min) * 60).unwrap_or(Offset::UTC)
    }

    /// The same moment on the clock of this device.
    #[must_use]
    pub fn here(self) -> Self {
        Self::of(&self.stamp().to_zoned_datetime(TimeZone::system()))
    }
}

/// The day, where one is written, and the time.
fn parts(text: &str) -> (Option<&str>, &str) {
    match text.trim().split_once([' ', 'T']) {
        Some((day, time)) => (Some(day), time.trim()),
        None => (None, text.trim()),
    }
}

impl fmt::Display for Moment {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "{}", self.stamp().display_with_offset(self.offset()))
    }
}

impl FromStr for Moment {
    type Err = jiff::Error;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let stamp: Timestamp = text.parse()?;
        let offset = Pieces::parse(text)?.to_numeric_offset().unwrap_or(Offset::UTC);
        Ok(Self::new(stamp.as_second(), i16::try_from(offset.seconds() / 60).unwrap_or(0)))
    }
}

impl Serialize for Moment {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Moment {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        String::deserialize(deserializer)?.parse().map_err(D::Error::custom)
    }
}
