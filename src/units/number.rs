//! Numbers as people write them: comma or point, fractions, thousands.

use super::measure::{self, Row};
use super::{Accepts, Problem, Within, tidy};

/// A number at the start of a text.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Leading<'a> {
    pub(super) value: f64,
    /// Written as a fraction?
    pub(super) fraction: bool,
    pub(super) rest: &'a str,
}

/// Why no number could be read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Fault {
    /// The text does not start with a number, or the number is malformed.
    None,
    /// `1,500`: a decimal comma or thousands.
    Thousands { decimal: f64, whole: f64 },
}

/// Reads the number at the start of a tidied text.
pub(super) fn leading(text: &str) -> Result<Leading<'_>, Fault> {
    let (sign, unsigned) = match text.strip_prefix('-') {
        Some(after) => (-1.0, after.trim_start()),
        None => (1.0, text.strip_prefix('+').unwrap_or(text).trim_start()),
    };
    if let Some((value, rest)) = fraction(unsigned)? {
        return Ok(Leading { value: sign * value, fraction: true, rest });
    }
    let end = unsigned.find(|c: char| !matches!(c, '0'..='9' | '.' | ',')).unwrap_or(unsigned.len());
    let (digits, rest) = unsigned.split_at(end);
    let (digits, rest) = spaced_thousands(digits, rest);
    match decimal(&digits) {
        Ok(plain) => {
            let (exponent, rest) = exponent(rest);
            let value: f64 = format!("{plain}{exponent}").parse().map_err(|_| Fault::None)?;
            Ok(Leading { value: sign * value, fraction: false, rest })
        }
        Err(Fault::Thousands { decimal, whole }) => {
            Err(Fault::Thousands { decimal: sign * decimal, whole: sign * whole })
        }
        Err(fault) => Err(fault),
    }
}

fn digits_end(text: &str) -> usize {
    text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len())
}

/// `3/4`, `1 1/2`, `1-1/2`; `None` where the text is no fraction.
fn fraction(text: &str) -> Result<Option<(f64, &str)>, Fault> {
    let (first, after) = text.split_at(digits_end(text));
    if first.is_empty() {
        return Ok(None);
    }
    if let Some(below) = after.strip_prefix('/') {
        return ratio(first, below).map(|(value, rest)| Some((value, rest)));
    }
    let part = after.trim_start();
    let part = part.strip_prefix('-').unwrap_or(part).trim_start();
    if part.len() == after.len() {
        return Ok(None);
    }
    let (above, slash) = part.split_at(digits_end(part));
    let Some(below) = slash.strip_prefix('/') else { return Ok(None) };
    if above.is_empty() {
        return Ok(None);
    }
    let (value, rest) = ratio(above, below)?;
    let whole: f64 = first.parse().map_err(|_| Fault::None)?;
    // A whole number with an improper fraction is a slip of the finger.
    if value < 1.0 { Ok(Some((whole + value, rest))) } else { Err(Fault::None) }
}

fn ratio<'a>(above: &str, below: &'a str) -> Result<(f64, &'a str), Fault> {
    let (below, rest) = below.split_at(digits_end(below));
    let above: f64 = above.parse().map_err(|_| Fault::None)?;
    let below: f64 = below.parse().map_err(|_| Fault::None)?;
    if below > 0.0 { Ok((above / below, rest)) } else { Err(Fault::None) }
}

/// Joins `1 500`, thousands set apart by a space as ISO 80000 writes them.
fn spaced_thousands<'a>(digits: &str, rest: &'a str) -> (String, &'a str) {
    let mut joined = digits.to_owned();
    let mut rest = rest;
    while (1..=3).contains(&digits.len()) && !digits.contains(['.', ',']) && !digits.starts_with('0') {
        let Some(group) = rest.strip_prefix(' ') else { break };
        let end = digits_end(group);
        if end != 3 || group[end..].starts_with('/') {
            break;
        }
        joined.push_str(&group[..end]);
        rest = &group[end..];
    }
    (joined, rest)
}

/// The digits with a point for the decimal mark and no thousands marks.
fn decimal(digits: &str) -> Result<String, Fault> {
    let points = digits.matches('.').count();
    let commas = digits.matches(',').count();
    if !digits.contains(|c: char| c.is_ascii_digit()) || digits.ends_with(',') {
        return Err(Fault::None);
    }
    match (points, commas) {
        (0 | 1, 0) => Ok(digits.to_owned()),
        (0, 1) if is_grouped(digits, ',') && !digits.starts_with('0') => Err(Fault::Thousands {
            decimal: digits.replace(',', ".").parse().map_err(|_| Fault::None)?,
            whole: digits.replace(',', "").parse().map_err(|_| Fault::None)?,
        }),
        (0, 1) => Ok(digits.replace(',', ".")),
        (_, 0) if is_grouped(digits, '.') => Ok(digits.replace('.', "")),
        (0, _) if is_grouped(digits, ',') => Ok(digits.replace(',', "")),
        (1, _) | (_, 1) => {
            let (thousands, mark) =
                if digits.rfind('.') > digits.rfind(',') { (',', '.') } else { ('.', ',') };
            match digits.rsplit_once(mark) {
                Some((whole, part)) if is_grouped(whole, thousands) && !whole.contains(mark) => {
                    Ok(format!("{}.{part}", whole.replace(thousands, "")))
                }
                _ => Err(Fault::None),
            }
        }
        _ => Err(Fault::None),
    }
}

/// Is it `1,500` or `12,500,000`: one to three digits, then groups of three?
pub(super) fn is_grouped(digits: &str, mark: char) -> bool {
    let mut groups = digits.split(mark);
    groups.next().is_some_and(|first| (1..=3).contains(&first.len())) && groups.all(|group| group.len() == 3)
}

fn exponent(rest: &str) -> (&str, &str) {
    let Some(after) = rest.strip_prefix(['e', 'E']) else { return ("", rest) };
    let sign = usize::from(after.starts_with(['+', '-']));
    let end = sign + digits_end(&after[sign..]);
    if end == sign { ("", rest) } else { rest.split_at(1 + end) }
}

/// A plain number inside limits.
///
/// # Errors
/// A [`Problem`] if it is no number, ambiguous, or outside the limits.
pub fn number(text: &str, within: Within) -> Result<f64, Problem> {
    const PLAIN: &[Row] = &[Row::plain("", &[""])];
    measure::read(text, Accepts::Number, PLAIN, 0, within).map(|read| read.value)
}

/// Weight percent inside limits: `0.41`, `0,41 %`.
///
/// # Errors
/// A [`Problem`] if it is no number, or outside the limits.
pub fn percent(text: &str, within: Within) -> Result<f64, Problem> {
    const ROWS: &[Row] = &[Row::plain("%", &["%", "wt%", "percent"])];
    measure::read(text, Accepts::Percent, ROWS, 0, within).map(|read| read.value)
}

/// A whole number inside limits.
///
/// # Errors
/// A [`Problem`] if it is no whole number, or outside the limits.
pub fn count(text: &str, within: Within) -> Result<u32, Problem> {
    let value = number(text, within)?;
    // Limits of a count are far inside u32; the cast of a whole number in range is exact.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "checked whole and in range")]
    if value.fract() == 0.0 && (0.0..=4e9).contains(&value) {
        Ok(value as u32)
    } else {
        Err(Problem::not_understood(text, Accepts::Count))
    }
}

/// A share from 0 to 1, as `0.8` or `80 %`.
///
/// # Errors
/// A [`Problem`] if it is no number, or outside 0 to 1.
pub fn share(text: &str) -> Result<f64, Problem> {
    const ROWS: &[Row] = &[Row::plain("", &[""]), Row::scaled("%", &["%", "percent"], 0.01)];
    measure::read(text, Accepts::Share, ROWS, 0, super::limits::SHARE).map(|read| read.value)
}

/// The tidied text, or a problem if nothing is there or too much.
pub(super) fn tidied(text: &str, accepts: Accepts) -> Result<String, Problem> {
    let tidied = tidy(text);
    if tidied.is_empty() {
        Err(Problem::Empty { accepts })
    } else if tidied.chars().count() > 80 {
        Err(Problem::not_understood(text, accepts))
    } else {
        Ok(tidied)
    }
}
