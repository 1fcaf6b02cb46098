//! A steel or a filler by its exact designation; a slip lists what is near, it never picks.

use crate::reference::search::{Hit, Match};
use crate::reference::{Filler, Grade, Reference};

/// At most so many neighbours are listed.
const NEAR: usize = 8;

/// The grade of an exact designation. A number that is a grade's cross-reference only is
/// listed and not taken: the grade's own figures differ.
///
/// # Errors
/// Designations near what is typed, the nearest first.
pub fn find_steel<'a>(typed: &str, reference: &'a Reference) -> Result<&'a Grade, Vec<String>> {
    only(typed, reference, Reference::grade_of, |grade| &grade.designation)
}

/// The filler of an exact classification.
///
/// # Errors
/// Classifications near what is typed, the nearest first.
pub fn find_filler<'a>(typed: &str, reference: &'a Reference) -> Result<&'a Filler, Vec<String>> {
    only(typed, reference, Reference::filler_of, |filler| &filler.classification)
}

fn only<'a, T>(
    typed: &str,
    reference: &'a Reference,
    row: impl Fn(&'a Reference, &Hit) -> Option<&'a T>,
    name: impl Fn(&T) -> &String,
) -> Result<&'a T, Vec<String>> {
    let found: Vec<(Match, &T)> = reference
        .search(typed)
        .hits
        .iter()
        .filter_map(|hit| row(reference, hit).map(|row| (hit.how, row)))
        .collect();
    let mut exact = found.iter().filter(|(how, _)| *how == Match::Designation);
    if let (Some((_, row)), None) = (exact.next(), exact.next()) {
        return Ok(row);
    }
    Err(found.into_iter().take(NEAR).map(|(_, row)| name(row).clone()).collect())
}
