//! What minimum does the heat-affected zone of one member ask for (O1, O2)?
//!
//! | family | figure |
//! |---|---|
//! | S | restraint not high and Table C.1 or the D1.1 category row clears: none. Else the greater of Method B and D1.1 |
//! | Q | greatest of Method B, D1.1, the grade's own thickness row |
//! | P, H | greatest of Method B at its range end, D1.1 at its range end, the grade's own thickness row, and the lowest sufficient practice figure |

use crate::engine::Says;
use crate::engine::evidence::{
    Case, Evidence, Standing, d11_annex, d11_category, grade_rows, method_b, practice, shown, table_c1,
};
use crate::engine::family::Rungs;
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

/// Weighs the evidence on a member that methods speak for.
#[must_use]
pub(super) fn weigh(case: &Case<'_>, rungs: Rungs, combined_mm: f64) -> Weighed {
    let mut evidence = Vec::with_capacity(14);
    evidence.push(method_b::on(case));
    evidence.extend(d11_annex::on(case));
    evidence.extend(d11_category::on(case));
    evidence.extend(grade_rows::on(case));
    let mut clearing = None;
    if rungs == Rungs::Clearing {
        evidence.push(table_c1::on(case, combined_mm));
        clearing = clearing_evidence(case, &evidence);
    }
    if matches!(rungs, Rungs::Practice | Rungs::PracticeByCarbon) {
        evidence.extend(practice::on(case, rungs));
    }
    let by = clearing.or_else(|| greatest(&evidence));
    for (place, item) in evidence.iter_mut().enumerate() {
        if Some(place) == by {
            item.standing = Standing::Governs;
        } else if clearing.is_some() {
            item.standing = Standing::ShownOnly;
        }
    }
    let figure_c = by.and_then(|place| evidence[place].value_c());
    evidence.extend(shown::on(case));
    Weighed { evidence, figure_c, by, cleared: clearing.is_some() }
}

/// The piece of evidence that clears a member of family S, where one does.
fn clearing_evidence(case: &Case<'_>, evidence: &[Evidence]) -> Option<usize> {
    if case.high_restraint() {
        return None;
    }
    let clears = |method: Method| {
        let by = |item: &Evidence| item.outcome.method == method && item.outcome.says == Says::Clears;
        evidence.iter().position(by)
    };
    clears(Method::TableC1).or_else(|| clears(Method::D11Category))
}

/// The greatest figure among what may govern; the earlier one of two equal ones.
fn greatest(evidence: &[Evidence]) -> Option<usize> {
    let may_govern = evidence.iter().enumerate().filter(|(_, item)| item.standing != Standing::ShownOnly);
    let mut best: Option<(usize, f64)> = None;
    for (place, value_c) in may_govern.filter_map(|(place, item)| Some((place, item.value_c()?))) {
        if best.is_none_or(|(_, best_c)| value_c > best_c) {
            best = Some((place, value_c));
        }
    }
    best.map(|(place, _)| place)
}
