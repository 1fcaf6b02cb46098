//! A steel or a filler by its exact designation; a slip lists what is near, it never picks.

use crate::reference::{Filler, Grade, Reference};

/// At most so many neighbours are listed.
const NEAR: usize = 6;

/// A designation without spaces, case, and the name of the body that numbers it.
fn bare(name: &str) -> String {
    let folded: String = crate::units::tidy(name)
        .to_uppercase()
        .chars()
        .filter(|c| !matches!(c, ' ' | '-' | '_' | '.'))
        .collect();
    for body in ["AISISAE", "SAEAISI", "SAE", "AISI", "ASTM", "UNS", "EN"] {
        if let Some(rest) = folded.strip_prefix(body).filter(|rest| !rest.is_empty()) {
            return rest.to_owned();
        }
    }
    folded
}

/// The grade of an exact designation.
///
/// # Errors
/// Designations near what is typed: those that bear it as a cross-reference first.
pub fn find_steel<'a>(typed: &str, reference: &'a Reference) -> Result<&'a Grade, Vec<String>> {
    let wanted = bare(typed);
    let exact: Vec<&Grade> = reference
        .grades
        .iter()
        .filter(|grade| bare(&grade.id) == wanted || bare(&grade.designation) == wanted)
        .collect();
    if let [grade] = exact.as_slice() {
        return Ok(grade);
    }
    Err(near(
        &wanted,
        reference.grades.iter().map(|grade| (grade.designation.as_str(), grade.also.as_slice())),
    ))
}

/// The filler of an exact classification.
///
/// # Errors
/// Classifications near what is typed.
pub fn find_filler<'a>(typed: &str, reference: &'a Reference) -> Result<&'a Filler, Vec<String>> {
    let wanted = bare(typed);
    let exact: Vec<&Filler> = reference
        .fillers
        .iter()
        .filter(|filler| bare(&filler.id) == wanted || bare(&filler.classification) == wanted)
        .collect();
    if let [filler] = exact.as_slice() {
        return Ok(filler);
    }
    Err(near(
        &wanted,
        reference.fillers.iter().map(|filler| (filler.classification.as_str(), filler.also.as_slice())),
    ))
}

/// The names nearest to what is typed, nearest first.
fn near<'a>(wanted: &str, names: impl Iterator<Item = (&'a str, &'a [String])>) -> Vec<String> {
    let mut scored: Vec<(usize, &str)> = names
        .filter_map(|(name, also)| {
            let own = distance(wanted, &bare(name));
            let cross = also.iter().map(|other| distance(wanted, &bare(other))).min().unwrap_or(usize::MAX);
            let best = own.min(cross);
            (best <= wanted.chars().count().div_ceil(3)).then_some((best, name))
        })
        .collect();
    scored.sort_by_key(|(score, _)| *score);
    scored.into_iter().take(NEAR).map(|(_, name)| name.to_owned()).collect()
}

/// How many letters must be put, taken or changed to get from one word to the other.
fn distance(one: &str, other: &str) -> usize {
    let other: Vec<char> = other.chars().collect();
    let mut row: Vec<usize> = (0..=other.len()).collect();
    for (at, letter) in one.chars().take(64).enumerate() {
        let mut corner = row[0];
        row[0] = at + 1;
        for (column, second) in other.iter().enumerate() {
            let changed = corner + usize::from(letter != *second);
            corner = row[column + 1];
            row[column + 1] = changed.min(corner + 1).min(row[column] + 1);
        }
    }
    row[other.len()]
}
