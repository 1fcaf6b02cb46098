//! Time spans.

use super::number;
use super::problem::{inward_high, inward_low};
use super::{Accepts, Problem, Within};

/// The unit that a bare number takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum TimeUnit {
    /// s.
    Seconds,
    /// min.
    Minutes,
    /// h.
    Hours,
}

impl TimeUnit {
    const fn symbol(self) -> &'static str {
        match self {
            Self::Seconds => "s",
            Self::Minutes => "min",
            Self::Hours => "h",
        }
    }

    const fn seconds(self) -> f64 {
        match self {
            Self::Seconds => 1.0,
            Self::Minutes => 60.0,
            Self::Hours => 3600.0,
        }
    }
}

/// A time span as people write it, in s: `90 s`, `20 min`, `1 h 20`, `1.5 h`, `1:20`, `0:01:20`.
///
/// A bare number takes the unit shown; after hours it is minutes, after minutes seconds.
/// `1:20` is hours and minutes, or minutes and seconds as on a stopwatch where seconds are shown.
///
/// # Errors
/// A [`Problem`] if it is no time span, or outside the limits.
pub fn duration(text: &str, shown: TimeUnit, within: Within) -> Result<f64, Problem> {
    let accepts = if shown == TimeUnit::Seconds { Accepts::ShortTime } else { Accepts::Duration };
    let tidied = number::tidied(text, accepts)?.to_lowercase();
    let seconds = clock(&tidied, shown)
        .or_else(|| parts(&tidied, shown))
        .ok_or_else(|| Problem::not_understood(text, accepts))?;
    if within.holds(seconds) {
        return Ok(seconds);
    }
    Err(Problem::OutOfRange {
        typed: text.to_owned(),
        low: inward_low(within.low / shown.seconds()),
        high: inward_high(within.high / shown.seconds()),
        unit: shown.symbol(),
        accepts,
    })
}

/// A time as a clock shows it. Seconds may have decimals.
fn clock(text: &str, shown: TimeUnit) -> Option<f64> {
    let all: Vec<&str> = text.split(':').collect();
    let worth: &[f64] = match (all.len(), shown) {
        (3, _) => &[3600.0, 60.0, 1.0],
        (2, TimeUnit::Seconds) => &[60.0, 1.0],
        (2, _) => &[3600.0, 60.0],
        _ => return None,
    };
    let mut seconds = 0.0;
    for (place, (part, &worth)) in all.iter().zip(worth).enumerate() {
        let (whole, tenths) = part.split_once(['.', ',']).map_or((*part, ""), |(whole, rest)| (whole, rest));
        let digits = |text: &str| text.chars().all(|c| c.is_ascii_digit());
        let long_enough = if place == 0 { (1..=3).contains(&whole.len()) } else { whole.len() == 2 };
        let decimals = whole.len() < part.len();
        if !long_enough
            || !digits(whole)
            || !digits(tenths)
            || (decimals && (worth > 1.0 || tenths.is_empty()))
        {
            return None;
        }
        let value: f64 = format!("{whole}.{tenths}0").parse().ok()?;
        if place > 0 && value >= 60.0 {
            return None;
        }
        seconds += value * worth;
    }
    Some(seconds)
}

fn parts(text: &str, shown: TimeUnit) -> Option<f64> {
    let mut rest = text;
    let mut seconds = 0.0;
    // A smaller unit follows a larger one; a bare number after minutes is seconds.
    let mut below = f64::INFINITY;
    while !rest.is_empty() {
        let found = number::leading(rest).ok()?;
        let after = found.rest.trim_start();
        let end = after.find(|c: char| !c.is_alphabetic()).unwrap_or(after.len());
        let (unit, left) = after.split_at(end);
        let worth = match unit {
            "h" | "hr" | "hrs" | "hour" | "hours" => 3600.0,
            "" if below.is_infinite() => shown.seconds(),
            "" if below <= 60.0 => 1.0,
            "" | "min" | "mins" | "minute" | "minutes" | "m" => 60.0,
            "s" | "sec" | "secs" | "second" | "seconds" => 1.0,
            "d" | "day" | "days" => 86_400.0,
            _ => return None,
        };
        if worth >= below || (found.value < 0.0 && below.is_finite()) {
            return None;
        }
        below = worth;
        seconds += found.value * worth;
        rest = left.trim_start_matches([' ', '.']);
        rest = rest.strip_prefix("and ").unwrap_or(rest);
    }
    Some(seconds)
}
