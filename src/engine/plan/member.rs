//! What minimum does the heat-affected zone of one member ask for (O1, O2)?
//!
//! Thin chromium-molybdenum tube has a printed row that stands before all others. Else:
//!
//! | family | figure |
//! |---|---|
//! | S | the lowest sufficient route: none where restraint is not high and Table C.1, the D1.1 category row or the row of B31.3 clears; else, for a listed grade inside its composition, the lower of its category row and Method B; else the greater of Method B and the D1.1 annex |
//! | Q | greatest of Method B, the D1.1 annex, the grade's own thickness row |
//! | P, H | greatest of Method B at its range end, the annex at its range end, the grade's own row, and the lowest sufficient practice figure |

use crate::engine::Says;
use crate::engine::evidence::{
    Case, Evidence, Standing, d11_annex, d11_category, grade_rows, method_b, piping_row, practice, shown,
    table_c1, thin_tube,
};
use crate::engine::family::Rungs;
use crate::engine::treatment::{has_left_its_name, is_tempered};
use crate::reference::Method;

/// The evidence on one member, weighed.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Weighed {
    /// Everything that was asked, governing first where one governs.
    pub evidence: Vec<Evidence>,
    /// The figure, °C; 0 when cleared; `None` when nothing answers.
    pub figure_c: Option<f64>,
    /// Index of the evidence that sets it.
    pub by: Option<usize>,
    /// Is the member cleared: no preheat, dry, at least 5 °C?
    pub cleared: bool,
}

impl Weighed {
    /// Is it cleared as thin tube?
    pub(super) fn is_thin_tube(&self) -> bool {
        let by = self.by.and_then(|place| self.evidence.get(place));
        self.cleared && by.is_some_and(|item| item.outcome.method == Method::ThinTube)
    }
}

/// Weighs the evidence on a member that methods speak for.
#[must_use]
pub(super) fn weigh(case: &Case<'_>, rungs: Rungs, combined_mm: f64) -> Weighed {
    let mut evidence = Vec::with_capacity(14);
    evidence.push(method_b::on(case));
    evidence.extend(d11_annex::on(case));
    evidence.extend(d11_category::on(case));
    evidence.extend(grade_rows::on(case));
    let tube = thin_tube::on(case).map(|found| (evidence.len(), evidence.push(found)).0);
    let mut cleared = tube.is_some();
    let by = match rungs {
        _ if tube.is_some() => tube,
        Rungs::Clearing => {
            evidence.push(table_c1::on(case, combined_mm));
            evidence.extend(piping_row::on(case));
            let inside = case.member.steel.grade().is_some() && !has_left_its_name(case.member);
            let clearing = clearing(case, &evidence, inside);
            cleared = clearing.is_some();
            clearing.or_else(|| lowest_route(case, &evidence, inside))
        }
        Rungs::Practice | Rungs::PracticeByCarbon => {
            evidence.extend(practice::on(case, rungs));
            if own_row_replaces(case) {
                shown_only(&mut evidence, |method| PRACTICE.contains(&method));
            }
            if rungs == Rungs::PracticeByCarbon {
                evidence.extend(piping_row::on(case));
            }
            if by_its_code(case, &evidence) {
                shown_only(&mut evidence, |method| method == Method::D11Annex || PRACTICE.contains(&method));
            }
            // A category is made for structural steel.
            shown_only(&mut evidence, |method| method == Method::D11Category);
            greatest(&evidence)
        }
        Rungs::Strongest | Rungs::Sheet | Rungs::None => {
            shown_only(&mut evidence, |method| method == Method::D11Category);
            greatest(&evidence)
        }
    };
    let figure_c = by.and_then(|place| evidence[place].value_c());
    for (place, item) in evidence.iter_mut().enumerate() {
        if Some(place) == by {
            item.standing = Standing::Governs;
        } else if cleared || (rungs == Rungs::Clearing && item.value_c() > figure_c) {
            // Another route than the lowest sufficient one.
            item.standing = Standing::ShownOnly;
        }
    }
    if tube.is_some() {
        let others = thin_tube::others(&case.reference.practice.thin_tube);
        evidence.push(Evidence { standing: Standing::ShownOnly, ..case.evidence(others) });
    }
    evidence.extend(shown::on(case));
    Weighed { evidence, figure_c, by, cleared }
}

/// Practice figures that a grade's own printed row replaces.
const PRACTICE: [Method; 4] = [Method::PracticeLowH, Method::DataSheet, Method::CeqBands, Method::CarbonLine];

fn own_row_replaces(case: &Case<'_>) -> bool {
    let own = case.member.steel.grade().and_then(|grade| grade.published_preheat.as_ref());
    own.is_some_and(|own| own.replaces_practice) && !has_left_its_name(case.member)
}

/// Has the piping code a row for the grade as it is supplied (P-No. 1, thin, low in hydrogen)? Chart,
/// bands and annex know nothing of that grade or end far below its carbon; Method B, which knows its
/// analysis, its thickness and the hydrogen, is the best evidence beside the row.
fn by_its_code(case: &Case<'_>, evidence: &[Evidence]) -> bool {
    place_of(evidence, Method::PipingRow).is_some()
        && !case.high_restraint()
        && !is_tempered(case.member)
        && !has_left_its_name(case.member)
}

fn shown_only(evidence: &mut [Evidence], which: impl Fn(Method) -> bool) {
    for item in evidence.iter_mut().filter(|item| which(item.outcome.method)) {
        item.standing = Standing::ShownOnly;
    }
}

fn place_of(evidence: &[Evidence], method: Method) -> Option<usize> {
    evidence.iter().position(|item| item.outcome.method == method)
}

/// The piece of evidence that clears a structural member, where one does. Its category and its
/// material number speak for a grade only inside its composition.
fn clearing(case: &Case<'_>, evidence: &[Evidence], inside: bool) -> Option<usize> {
    if case.high_restraint() {
        return None;
    }
    let clears =
        |method| place_of(evidence, method).filter(|&place| evidence[place].outcome.says == Says::Clears);
    let by_grade = |method| clears(method).filter(|_| inside);
    by_grade(Method::D11Category).or_else(|| clears(Method::TableC1)).or_else(|| by_grade(Method::PipingRow))
}

/// The lowest sufficient route for a structural member that nothing clears.
fn lowest_route(case: &Case<'_>, evidence: &[Evidence], inside: bool) -> Option<usize> {
    let figure = |place: usize| evidence[place].value_c();
    let method_b = place_of(evidence, Method::MethodB);
    let row = place_of(evidence, Method::D11Category);
    let own = place_of(evidence, Method::GradeRows);
    if let (Some(row), Some(method_b), true, false) = (row, method_b, inside, case.high_restraint()) {
        // A figure that reads "at least" wins nothing against a row that holds.
        let lower = !evidence[method_b].outcome.at_least && figure(method_b) < figure(row);
        return Some(if lower { method_b } else { row });
    }
    // A certificate that has left its grade keeps the row as a floor.
    let floor = row.filter(|_| case.member.steel.grade().is_some());
    let places = [method_b, place_of(evidence, Method::D11Annex), floor, own];
    places
        .into_iter()
        .flatten()
        .filter(|&place| figure(place).is_some())
        .reduce(|best, place| if figure(place) > figure(best) { place } else { best })
}

/// The greatest figure among what may govern; the earlier one of two equal ones.
pub(super) fn greatest(evidence: &[Evidence]) -> Option<usize> {
    let may_govern = evidence.iter().enumerate().filter(|(_, item)| item.standing != Standing::ShownOnly);
    let mut best: Option<(usize, f64)> = None;
    for (place, value_c) in may_govern.filter_map(|(place, item)| Some((place, item.value_c()?))) {
        if best.is_none_or(|(_, best_c)| value_c > best_c) {
            best = Some((place, value_c));
        }
    }
    best.map(|(place, _)| place)
}
