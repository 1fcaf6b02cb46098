//! A steel or a filler by a name that is wholly its own; a slip lists what is near, it never
//! picks.

use crate::reference::search::{Hit, Match};
use crate::reference::spelling::normal;
use crate::reference::{Element, Filler, Grade, Limits, Reference, differences};

/// At most so many neighbours are listed.
const NEAR: usize = 8;

/// The elements that make a steel harden: what differs in them is told first.
const HARDENING: [Element; 7] =
    [Element::C, Element::Mn, Element::Cr, Element::Mo, Element::Ni, Element::V, Element::B];

/// The grade of a name: its designation, or else a number or name that it bears alone
/// (`G41400`, `1.4301`). Every letter and digit counts; numbers of steels that are only
/// similar are listed and not taken.
///
/// # Errors
/// Designations near what is typed, the nearest first; where several grades bear the name,
/// [`several_steels`] tells them apart.
pub fn find_steel<'a>(typed: &str, reference: &'a Reference) -> Result<&'a Grade, Vec<String>> {
    let bearers = bearers(typed, reference);
    let mut own = bearers.iter().filter(|grade| !is_other_name(typed, grade));
    match (own.next(), own.next(), bearers.as_slice()) {
        (Some(grade), None, _) | (None, None, [grade]) => Ok(grade),
        _ => Err(near(typed, reference, Reference::grade_of, |grade| &grade.designation)),
    }
}

/// Is what is typed another name of the grade than its designation?
#[must_use]
pub fn is_other_name(typed: &str, grade: &Grade) -> bool {
    let asked = normal(typed);
    normal(&grade.designation) != asked && normal(&grade.id) != asked
}

/// One of several steels that share a number.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ToldSteel {
    /// Its designation.
    pub designation: String,
    /// What it has otherwise than the others: `C 0.38–0.43`, `Mn 0.75–1`.
    pub shares: Vec<String>,
}

/// The grades that share a typed number, each with what it has otherwise than the others. Empty
/// where no two do.
#[must_use]
pub fn several_steels(typed: &str, reference: &Reference) -> Vec<ToldSteel> {
    let bearers = bearers(typed, reference);
    if bearers.len() < 2 {
        return Vec::new();
    }
    let differ = |grade: &Grade, element: Element| {
        bearers.iter().any(|other| differences(grade, other).iter().any(|(found, ..)| *found == element))
    };
    let mut told: Vec<Element> = HARDENING.into_iter().filter(|e| differ(bearers[0], *e)).collect();
    if told.is_empty() {
        told = Element::ALL.iter().copied().filter(|e| differ(bearers[0], *e)).collect();
    }
    let of = |grade: &&Grade| {
        let shares: Vec<String> = told
            .iter()
            .filter_map(|element| {
                Some(format!("{} {}", element.symbol(), span(grade.composition.get(element)?)?))
            })
            .collect();
        ToldSteel { designation: grade.designation.clone(), shares }
    };
    bearers.iter().map(of).collect()
}

fn span(limits: &Limits) -> Option<String> {
    match (limits.min, limits.max) {
        (Some(min), Some(max)) => Some(format!("{min}–{max}")),
        (None, Some(max)) => Some(format!("≤ {max}")),
        (Some(min), None) => Some(format!("≥ {min}")),
        (None, None) => None,
    }
}

/// The grades that bear just this name. A designation of two halves (`C45 / C45E`) is borne
/// by each.
fn bearers<'a>(typed: &str, reference: &'a Reference) -> Vec<&'a Grade> {
    let asked = normal(typed);
    let is_asked = |name: &str| normal(name) == asked;
    let bears = |grade: &&Grade| {
        is_asked(&grade.designation)
            || is_asked(&grade.id)
            || grade.designation.split(" / ").any(is_asked)
            || grade.also.iter().any(|name| is_asked(name))
    };
    // A whole name is found by its designation, by another name, or as a part of the first.
    let search = reference.search(typed);
    let whole = search.hits.iter().filter(|hit| hit.how <= Match::Part);
    whole.filter_map(|hit| reference.grade_of(hit)).filter(bears).collect()
}

/// The filler of an exact classification.
///
/// # Errors
/// Classifications near what is typed, the nearest first.
pub fn find_filler<'a>(typed: &str, reference: &'a Reference) -> Result<&'a Filler, Vec<String>> {
    let search = reference.search(typed);
    // Its own classification first; else another name of it, where no second filler bears it.
    for how in [Match::Designation, Match::CrossReference] {
        let exact = search.hits.iter().filter(|hit| hit.how == how);
        let mut exact = exact.filter_map(|hit| reference.filler_of(hit));
        if let (Some(row), None) = (exact.next(), exact.next()) {
            return Ok(row);
        }
    }
    Err(near(typed, reference, Reference::filler_of, |filler| &filler.classification))
}

fn near<'a, T: 'a>(
    typed: &str,
    reference: &'a Reference,
    row: impl Fn(&'a Reference, &Hit) -> Option<&'a T>,
    name: impl Fn(&T) -> &String,
) -> Vec<String> {
    let hits = reference.search(typed).hits;
    hits.iter().filter_map(|hit| row(reference, hit)).take(NEAR).map(|found| name(found).clone()).collect()
}
