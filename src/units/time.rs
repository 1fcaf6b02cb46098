//! Time spans.

use super::number;
use super::{Accepts, Problem, Within, limits};

/// A time span as people write it, in s: `90 s`, `20 min`, `1 h 20`, `1.5 h`, `1:20`
/// (hours and minutes). A bare number is minutes.
///
/// # Errors
/// A [`Problem`] if it is no time span, or outside the limits.
pub fn duration(text: &str) -> Result<f64, Problem> {
    let tidied = number::tidied(text, Accepts::Duration)?.to_lowercase();
    let seconds = clock(&tidied)
        .or_else(|| parts(&tidied))
        .ok_or_else(|| Problem::not_understood(text, Accepts::Duration))?;
    let within: Within = limits::DURATION_S;
    if within.holds(seconds) {
        return Ok(seconds);
    }
    Err(Problem::OutOfRange {
        typed: text.to_owned(),
        low: within.low / 3600.0,
        high: within.high / 3600.0,
        unit: "h",
        accepts: Accepts::Duration,
    })
}

fn clock(text: &str) -> Option<f64> {
    let (hours, minutes) = text.split_once(':')?;
    let digits = |part: &str| !part.is_empty() && part.len() <= 3 && part.chars().all(|c| c.is_ascii_digit());
    if !digits(hours) || !digits(minutes) || minutes.len() != 2 {
        return None;
    }
    let minutes: f64 = minutes.parse().ok()?;
    let hours: f64 = hours.parse().ok()?;
    (minutes < 60.0).then_some(hours * 3600.0 + minutes * 60.0)
}

fn parts(text: &str) -> Option<f64> {
    let mut rest = text;
    let mut seconds = 0.0;
    // A smaller unit follows a larger one; a bare number after hours is minutes.
    let mut below = f64::INFINITY;
    while !rest.is_empty() {
        let found = number::leading(rest).ok()?;
        let after = found.rest.trim_start();
        let end = after.find(|c: char| !c.is_alphabetic()).unwrap_or(after.len());
        let (unit, left) = after.split_at(end);
        let worth = match unit {
            "h" | "hr" | "hrs" | "hour" | "hours" => 3600.0,
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
