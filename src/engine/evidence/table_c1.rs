//! Does EN 1011-2 Table C.1 clear this joint from preheat?
//!
//! The table prints, for a hydrogen band, a CE (IIW) and a heat input, the greatest
//! combined thickness that needs no preheat. It answers *clears* or *does not clear,
//! amount unknown*: between its cells the standard has nomograms that exist as figures
//! only, so nothing is interpolated and no temperature is made up.
//!
//! The row at or above the steel's CE is taken (0.43, 0.49), the heat-input column at
//! or below the job's (1.0, 2.0 kJ/mm), and the band that contains the hydrogen.
//! Source: `data/table_c1.ron`.

use super::Case;
use crate::engine::RangeCheck;
use crate::engine::plan::{Evidence, Says};
use crate::reference::{C1Cell, Element, TableC1};

/// What the table is asked with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct C1Query {
    /// CE (IIW), %.
    pub ce: f64,
    /// Diffusible hydrogen, ml/100 g.
    pub hydrogen_ml: f64,
    /// Net heat input, kJ/mm.
    pub heat_input_kj_per_mm: f64,
}

/// The cell that speaks for a query: `None` when the steel or the heat input lies
/// outside the table.
#[must_use]
pub fn cell<'a>(table: &'a TableC1, query: &C1Query) -> Option<&'a C1Cell> {
    table
        .cells
        .iter()
        .filter(|cell| {
            (cell.hydrogen_above_ml <= 0.0 || query.hydrogen_ml > cell.hydrogen_above_ml)
                && cell.hydrogen_up_to_ml.is_none_or(|up_to_ml| query.hydrogen_ml <= up_to_ml)
                // A cap that is met exactly still counts as met.
                && query.ce <= cell.ce + 1e-9
                && query.heat_input_kj_per_mm >= cell.heat_input_kj_per_mm
        })
        .min_by(|a, b| a.ce.total_cmp(&b.ce).then(b.heat_input_kj_per_mm.total_cmp(&a.heat_input_kj_per_mm)))
}

/// Does the table clear this combined thickness?
#[must_use]
pub fn clears(table: &TableC1, query: &C1Query, combined_mm: f64) -> bool {
    combined_mm <= table.never_above_mm
        && cell(table, query).is_some_and(|cell| combined_mm <= cell.combined_mm)
}

/// The table's word on a member. The upper limits of Method A's composition count:
/// beyond them it does not clear.
#[must_use]
pub fn on(case: &Case<'_>, combined_mm: f64) -> Evidence {
    let table = &case.reference.table_c1;
    let query = C1Query {
        ce: case.chemistry.ce(),
        hydrogen_ml: case.hydrogen_ml,
        heat_input_kj_per_mm: case.net_heat_kj_per_mm,
    };
    let limits = case.method("ce-iiw");
    let composition_fits = Element::ALL.into_iter().all(|element| {
        limits
            .limit(element.symbol())
            .and_then(|limit| limit.high)
            .is_none_or(|high| case.chemistry.nominal.get(element) <= high)
    });
    let says = if composition_fits && clears(table, &query, combined_mm) {
        Says::Clears
    } else {
        Says::DoesNotClear
    };
    let mut evidence = case.evidence("table-c1", says, table.basis.clone());
    let most_mm = cell(table, &query).map(|cell| cell.combined_mm);
    evidence.range = vec![
        RangeCheck { symbol: "CE", value: query.ce, low: None, high: Some(0.49) },
        RangeCheck { symbol: "Q", value: query.heat_input_kj_per_mm, low: Some(1.0), high: None },
        RangeCheck { symbol: "combined", value: combined_mm, low: None, high: most_mm },
    ];
    evidence
}
