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

use super::{Case, Evidence};
use crate::engine::error::{Domain, HEAT, HYDROGEN};
use crate::engine::{Checked, Ends, EngineError, Outcome, Says, Step};
use crate::reference::{C1Cell, Composition, Element, Method, MethodRow, TableC1, Unit};

/// What the table is asked with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct C1Query<'a> {
    /// CE (IIW), %.
    pub ce: f64,
    /// The analysis, where it is known: past the upper limits of its elements nothing clears.
    pub analysis: Option<&'a Composition>,
    /// Diffusible hydrogen, ml/100 g.
    pub hydrogen_ml: f64,
    /// Net heat input, kJ/mm.
    pub heat_input_kj_per_mm: f64,
    /// Combined thickness of the joint, mm, where the joint is known.
    pub combined_mm: Option<f64>,
}

/// Heat input down to which the lowest column may be scaled, kJ/mm (ours: the cells of 2.0 are
/// 1.67 to 2.0 times those of 1.0).
const SCALED_DOWN_TO: f64 = 0.5;
/// Boron from which the table clears nothing, %.
const BORON: f64 = 0.0005;

/// The cell that speaks for a query: `None` when the steel or the heat input lies
/// outside the table.
#[must_use]
pub fn cell<'a>(table: &'a TableC1, query: &C1Query<'_>) -> Option<&'a C1Cell> {
    table
        .cells
        .iter()
        .filter(|cell| {
            (cell.hydrogen_above_ml <= 0.0 || query.hydrogen_ml > cell.hydrogen_above_ml)
                && cell.hydrogen_up_to_ml.is_none_or(|up_to_ml| query.hydrogen_ml <= up_to_ml)
                // A cap that is met exactly still counts as met.
                && query.ce <= cell.ce + 1e-9
                && query.heat_input_kj_per_mm.max(lowest_heat(table)) >= cell.heat_input_kj_per_mm
        })
        .filter(|_| query.heat_input_kj_per_mm >= SCALED_DOWN_TO)
        .min_by(|a, b| a.ce.total_cmp(&b.ce).then(b.heat_input_kj_per_mm.total_cmp(&a.heat_input_kj_per_mm)))
}

fn lowest_heat(table: &TableC1) -> f64 {
    table.cells.iter().map(|cell| cell.heat_input_kj_per_mm).fold(f64::INFINITY, f64::min)
}

/// The combined thickness that the table clears from preheat, mm, and whether it clears this
/// joint; no figure outside the table.
///
/// `limits` is the row of CE (IIW), whose range of composition is that of Method A.
/// Valid for CE up to 0.49 and 1.0 kJ/mm or more; from 0.5 to 1.0 kJ/mm the lowest column counts
/// times the heat input (ours). From 0.0005 % of boron nothing clears.
///
/// # Errors
/// An input that is not a number, negative, or that no weld has.
pub fn table_c1(table: &TableC1, limits: &MethodRow, query: &C1Query<'_>) -> Result<Outcome, EngineError> {
    Domain::new("CE", 0.0, 20.0).check(query.ce)?;
    HYDROGEN.check(query.hydrogen_ml)?;
    HEAT.check(query.heat_input_kj_per_mm)?;
    Ok(worked(table, limits, query))
}

fn worked(table: &TableC1, limits: &MethodRow, query: &C1Query<'_>) -> Outcome {
    let highest_ce = table.cells.iter().map(|cell| cell.ce).reduce(f64::max);
    let mut inputs = vec![
        Checked::up_to("CE", query.ce, Unit::Percent, highest_ce),
        Checked {
            low: Some(SCALED_DOWN_TO),
            ..Checked::free("Q", query.heat_input_kj_per_mm, Unit::KilojoulePerMm)
        },
        Checked::free("HD", query.hydrogen_ml, Unit::MlPer100g),
    ];
    // Only the upper limits: a leaner steel is easier to weld.
    let beyond: Vec<Checked> = query
        .analysis
        .iter()
        .flat_map(|steel| {
            let limited = Element::ALL.into_iter().filter(|element| limits.limit(element.symbol()).is_some());
            limited.map(|element| Checked {
                low: None,
                ..Checked::of(limits, element.symbol(), steel.get(element), Ends::Drawn)
            })
        })
        .filter(Checked::above)
        .collect();
    let boron = query.analysis.is_some_and(|steel| steel.get(Element::B) >= BORON);
    let found = cell(table, query).filter(|_| beyond.is_empty() && !boron);
    let intended = query
        .analysis
        .filter(|_| boron)
        .map(|steel| Checked::up_to("B", steel.get(Element::B), Unit::Percent, Some(BORON)));
    // Under the lowest column its cell counts times the heat input.
    let scale = (query.heat_input_kj_per_mm / lowest_heat(table)).min(1.0);
    let most_mm = found.map(|cell| cell.combined_mm * scale);
    inputs
        .extend(query.combined_mm.map(|combined_mm| Checked::free("d_comb", combined_mm, Unit::Millimetre)));
    inputs.extend(beyond);
    inputs.extend(intended);
    let mut outcome =
        Outcome::open(Method::TableC1, Unit::Millimetre).from_inputs(inputs).resting_on(&table.basis);
    outcome.value = most_mm;
    outcome.says = match (most_mm, query.combined_mm) {
        (Some(most_mm), Some(combined_mm)) if combined_mm <= most_mm.min(table.never_above_mm) => {
            Says::Clears
        }
        (_, Some(_)) => Says::DoesNotClear,
        (Some(_), None) => Says::Figure,
        (None, None) => Says::NoFigure,
    };
    if let Some(cell) = found {
        outcome.steps = vec![
            Step::new("CE of the row", cell.ce, Unit::Percent),
            Step::new("Q of the column", cell.heat_input_kj_per_mm, Unit::KilojoulePerMm),
        ];
    }
    outcome
}

/// The table's word on a member.
#[must_use]
pub fn on(case: &Case<'_>, combined_mm: f64) -> Evidence {
    // Boron that a grade only caps is not there by intent.
    let only_capped = case.chemistry.grade_only
        && case
            .member
            .steel
            .grade()
            .and_then(|grade| grade.composition.get(&Element::B))
            .is_some_and(|limits| limits.min.is_none());
    let nominal = case.chemistry.nominal;
    let steel = if only_capped { nominal.with(Element::B, 0.0) } else { nominal };
    let query = C1Query {
        ce: case.chemistry.ce(),
        analysis: Some(&steel),
        hydrogen_ml: case.hydrogen_ml,
        heat_input_kj_per_mm: case.net_heat_kj_per_mm,
        combined_mm: Some(combined_mm),
    };
    case.evidence(worked(&case.reference.table_c1, case.row(Method::CeIiw), &query))
}
