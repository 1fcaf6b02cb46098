//! Lengths: thickness, diameter, leg, run.

use super::measure::{self, Row};
use super::{Accepts, Choice, LengthUnit, Problem, Within, tidy};

/// A length as typed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Length {
    /// mm.
    pub mm: f64,
    /// Written with a diameter sign?
    pub round: bool,
}

const ROWS: &[Row] = &[
    Row::plain("mm", &["mm", "millimetre", "millimetres", "millimeter", "millimeters"]),
    Row::scaled("in", &["in", "inch", "inches", "\"", "''"], 25.4),
    Row::scaled("cm", &["cm"], 10.0),
    Row::scaled("m", &["m", "metre", "metres", "meter", "meters"], 1000.0),
    Row::over("µm", &["µm", "μm", "um", "micron", "microns"], 1000.0),
    Row::scaled("thou", &["thou"], 0.0254),
    Row::scaled("ft", &["ft", "foot", "feet"], 304.8),
];

/// A length as people write it: `1-1/2"`, `1 1/2 in`, `.75`, `38`, `38,5 mm`, `Ø90`.
///
/// A bare number takes the unit shown. A bare fraction in a millimetre field is
/// asked about, since it is an inch size nearly always; so is a bare number that begins
/// with its decimal mark (`.75`), which only inch sizes are written as.
///
/// # Errors
/// A [`Problem`] if it is no length, ambiguous, a gauge number, or outside the limits.
pub fn length(text: &str, shown: LengthUnit, within: Within) -> Result<Length, Problem> {
    let tidied = tidy(text);
    let (bare, round) = without_diameter_sign(&tidied);
    if bare.is_empty() {
        return Err(if round {
            Problem::not_understood(text, Accepts::Length)
        } else {
            Problem::Empty { accepts: Accepts::Length }
        });
    }
    let unit = measure::squeezed(bare.trim_start_matches(|c: char| c.is_ascii_digit() || c == ' '));
    if matches!(unit.as_str(), "ga" | "gauge" | "gage" | "swg" | "g") || bare.to_lowercase().starts_with("ga")
    {
        return Err(Problem::Trap { typed: text.to_owned(), key: "typed-gauge" });
    }
    let mm = metric(bare, shown, Accepts::Length, within).map_err(|problem| retyped(problem, text))?;
    Ok(Length { mm, round })
}

/// The leg of a fillet: `8`, `8 mm`, and `z8` as ISO 2553 writes it on a drawing. Its `a8` is the throat:
/// the leg of that is asked about, since one taken for the other is off by two fifths.
///
/// # Errors
/// A [`Problem`] as of [`length`], and for a throat.
pub fn leg(text: &str, shown: LengthUnit, within: Within) -> Result<Length, Problem> {
    let tidied = tidy(text);
    let after = |letter: char| {
        let rest = tidied.strip_prefix([letter, letter.to_ascii_uppercase()])?.trim_start();
        rest.starts_with(|c: char| c.is_ascii_digit() || ".,".contains(c)).then_some(rest)
    };
    if let Some(rest) = after('z') {
        return length(rest, shown, within).map_err(|problem| retyped(problem, text));
    }
    let any = Within::new(0.0, f64::MAX);
    if let Some(throat) = after('a').and_then(|rest| length(rest, shown, any).ok()) {
        let leg_mm = throat.mm * std::f64::consts::SQRT_2;
        let write = match shown {
            LengthUnit::Mm => format!("{leg_mm:.1} mm"),
            LengthUnit::Inch => format!("{:.2} in", leg_mm / 25.4),
        };
        let choices = vec![Choice { write, means: "typed-means-leg" }];
        return Err(Problem::Ambiguous { typed: text.to_owned(), choices });
    }
    length(text, shown, within)
}

/// The length of a run of weld, mm: `200`, `200 mm`, `8 in`, `8-1/2"`. A bare number takes
/// the unit shown. A diameter is none: a run around a round is π times as long.
///
/// # Errors
/// A [`Problem`] if it is no length, ambiguous, or outside the limits.
pub fn run_length(text: &str, shown: LengthUnit, within: Within) -> Result<f64, Problem> {
    metric(text, shown, Accepts::RunLength, within)
}

/// A length in mm, without any sign before it.
fn metric(text: &str, shown: LengthUnit, accepts: Accepts, within: Within) -> Result<f64, Problem> {
    let row = usize::from(shown == LengthUnit::Inch);
    let any = Within::new(f64::MIN, f64::MAX);
    // Asked before the limits are looked at: many an inch size lies below them in millimetres.
    if shown == LengthUnit::Mm
        && let Ok(read) = measure::read(text, accepts, ROWS, row, any)
        && read.bare
        && read.value > 0.0
        && (read.fraction || tidy(text).starts_with(['.', ',']))
    {
        return Err(Problem::Ambiguous {
            typed: text.to_owned(),
            choices: vec![
                Choice { write: format!("{} in", text.trim()), means: "typed-means-inch-fraction" },
                Choice { write: format!("{} mm", text.trim()), means: "typed-means-mm-fraction" },
            ],
        });
    }
    Ok(measure::read(text, accepts, ROWS, row, within)?.value)
}

/// The text without a leading diameter sign, and whether there was one.
fn without_diameter_sign(text: &str) -> (&str, bool) {
    for sign in ["Ø", "diameter", "Diameter", "dia.", "Dia.", "dia", "Dia", "DIA"] {
        if let Some(after) = text.strip_prefix(sign) {
            return (after.trim_start(), true);
        }
    }
    (text, false)
}

/// The same problem with the whole text as typed.
fn retyped(problem: Problem, text: &str) -> Problem {
    let typed = text.to_owned();
    match problem {
        Problem::NotUnderstood { accepts, .. } => Problem::NotUnderstood { typed, accepts },
        Problem::UnknownUnit { unit, accepts, .. } => Problem::UnknownUnit { typed, unit, accepts },
        Problem::OutOfRange { low, high, unit, accepts, .. } => {
            Problem::OutOfRange { typed, low, high, unit, accepts }
        }
        Problem::Ambiguous { choices, .. } => Problem::Ambiguous { typed, choices },
        other => other,
    }
}
