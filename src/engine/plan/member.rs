//! What minimum does the heat-affected zone of one member ask for (O1, O2)?
//!
//! | family | figure |
//! |---|---|
//! | S | restraint not high and Table C.1 or the D1.1 category row clears: none. Else the greater of Method B and D1.1 |
//! | Q | greatest of Method B, D1.1, the grade's own thickness row |
//! | P, H | greatest of Method B at its range end, D1.1 at its range end, the grade's own thickness row, and the lowest sufficient practice figure |

use super::types::{Evidence, Family, Says, Standing};
use crate::engine::evidence::{Case, d11, grade_rows, heat_affected, practice, shown, table_c1};
use crate::reference::Restraint;

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

/// Weighs the evidence on a member of family S, Q, P or H.
#[must_use]
pub(super) fn weigh(case: &Case<'_>, family: Family, combined_mm: f64) -> Weighed {
    let mut evidence = Vec::with_capacity(14);
    evidence.push(heat_affected::on(case));
    evidence.extend(d11::annex_on(case));
    evidence.extend(d11::category_on(case));
    evidence.extend(grade_rows::on(case));
    let clearing = if family == Family::Structural {
        evidence.push(table_c1::on(case, combined_mm));
        clearing_evidence(case, &evidence)
    } else {
        None
    };
    if matches!(family, Family::PlainCarbon | Family::Hardenable) {
        evidence.extend(practice::on(case, family));
    }
    let by = clearing.or_else(|| greatest(&evidence));
    for (place, item) in evidence.iter_mut().enumerate() {
        let standing = match (Some(place) == by, item.standing) {
            (true, _) => Standing::Governs,
            (false, Standing::ShownOnly) => Standing::ShownOnly,
            _ if clearing.is_some() => Standing::ShownOnly,
            _ if item.at_limit => Standing::AtLimit,
            _ => Standing::InRange,
        };
        item.standing = standing;
    }
    let figure_c = by.and_then(|place| evidence[place].value_c());
    evidence.extend(shown::on(case));
    Weighed { evidence, figure_c, by, cleared: clearing.is_some() }
}

/// The piece of evidence that clears a member of family S, where one does.
fn clearing_evidence(case: &Case<'_>, evidence: &[Evidence]) -> Option<usize> {
    if case.job.restraint == Restraint::High {
        return None;
    }
    let clears = |id: &str| evidence.iter().position(|item| item.id == id && item.says == Says::Clears);
    clears("table-c1").or_else(|| clears("d11-category"))
}

/// The greatest figure among what may govern; the earlier one of two equal ones.
fn greatest(evidence: &[Evidence]) -> Option<usize> {
    let mut best: Option<(usize, f64)> = None;
    for (place, item) in evidence.iter().enumerate() {
        if item.standing == Standing::ShownOnly {
            continue;
        }
        if let Some(value_c) = item.value_c()
            && best.is_none_or(|(_, best_c)| value_c > best_c)
        {
            best = Some((place, value_c));
        }
    }
    best.map(|(place, _)| place)
}
