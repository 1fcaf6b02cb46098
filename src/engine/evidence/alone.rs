//! What does each preheat table say by itself, without a job and unweighed?

use super::d11::{group_by_bands, group_by_table, higher_c, level, susceptibility_index};
use super::practice::{
    carbon_line_c, ceq_band_c, hydrogen_shift_k, hydrogen_shift_range, thickness_credit_k,
};
use super::table_c1::{self, C1Query};
use crate::engine::error::{Domain, HEAT, HYDROGEN, THICKNESS};
use crate::engine::{EngineError, Outcome, RangeCheck, Step, Unit};
use crate::reference::{
    Basis, Cell, D11, Group, OwnSheets, Practice, Printed, Restraint, RowUse, SheetCase, TableC1,
    ThicknessRow,
};

/// Any carbon equivalent, %.
const EQUIVALENT: Domain = Domain::new("CE", 0.0, 20.0);

const fn step(symbol: &'static str, value: f64, unit: Unit) -> Step {
    Step { symbol, value, unit }
}

/// The combined thickness that Table C.1 clears from preheat, mm: the row at or above
/// the steel's CE, the column at or below the heat input, the band that holds the
/// hydrogen. Empty outside the table, which clears nothing there.
///
/// Valid for CE up to 0.49 and 1.0 kJ/mm or more. Source: EN 1011-2, Table C.1.
///
/// # Errors
/// An input that is not a number, negative, or that no weld has.
pub fn table_c1(table: &TableC1, query: C1Query) -> Result<Outcome, EngineError> {
    EQUIVALENT.check(query.ce)?;
    HYDROGEN.check(query.hydrogen_ml)?;
    HEAT.check(query.heat_input_kj_per_mm)?;
    let highest_ce = table.cells.iter().map(|cell| cell.ce).reduce(f64::max);
    let lowest_heat = table.cells.iter().map(|cell| cell.heat_input_kj_per_mm).reduce(f64::min);
    let mut outcome = Outcome::new("table-c1", 0.0, Unit::Millimetre, table.basis.clone()).checked(vec![
        RangeCheck { symbol: "CE", value: query.ce, low: None, high: highest_ce },
        RangeCheck { symbol: "Q", value: query.heat_input_kj_per_mm, low: lowest_heat, high: None },
    ]);
    let cell = table_c1::cell(table, &query);
    outcome.value = cell.map(|cell| cell.combined_mm);
    if let Some(cell) = cell {
        outcome.steps = vec![
            step("CE of the row", cell.ce, Unit::One),
            step("Q of the column", cell.heat_input_kj_per_mm, Unit::KilojoulePerMm),
        ];
    }
    Ok(outcome)
}

/// What the hydrogen annex of AWS D1.1 is asked with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AnnexQuery {
    /// Pcm, %.
    pub pcm: f64,
    /// Diffusible hydrogen, ml/100 g.
    pub hydrogen_ml: f64,
    /// Restraint.
    pub restraint: Restraint,
    /// Thickness, mm.
    pub thickness_mm: f64,
}

/// The annex's answer with what must be said beside it.
#[derive(Debug, Clone, PartialEq)]
pub struct AnnexAnswer {
    /// The higher of table and bands.
    pub outcome: Outcome,
    /// Does the table or do the bands end below this steel?
    pub at_least: bool,
    /// Is it printed so that a lower temperature also serves?
    pub lower_serves: bool,
}

/// The minimum preheat and interpass of the hydrogen annex: the group by table and by
/// `SI = 12·Pcm + log10(H)`, each read at the restraint and thickness; the higher counts.
///
/// Pcm in %, H in ml/100 g; valid for Pcm under 0.38 and SI up to 7.
/// Source: AWS D1.1, hydrogen control annex, from memory but for one cell.
///
/// # Errors
/// An input that is not a number, negative, or that no weld has.
pub fn d11_annex(d11: &D11, query: AnnexQuery) -> Result<AnnexAnswer, EngineError> {
    EQUIVALENT.check(query.pcm)?;
    HYDROGEN.check(query.hydrogen_ml)?;
    THICKNESS.check(query.thickness_mm)?;
    let index = susceptibility_index(query.pcm, query.hydrogen_ml);
    let found = [group_by_table(d11, query.pcm, query.hydrogen_ml), group_by_bands(d11, index)];
    let nothing = EngineError::NoAnswer { reason: "table-has-no-row" };
    let printed = |cell: &Cell| higher_c(Printed { c: Some(cell.c), f: Some(cell.f) });
    let [by_table, by_bands] =
        found.map(|group| d11.annex.cell(query.restraint, query.thickness_mm, group.group));
    let (by_table, by_bands) = (by_table.ok_or(nothing)?, by_bands.ok_or(nothing)?);
    let higher = if printed(by_bands) > printed(by_table) { by_bands } else { by_table };
    let basis = if higher.seen { d11.annex.seen_basis.clone() } else { d11.annex.basis.clone() };
    let level_top_ml =
        d11.levels.iter().find(|row| row.level == level(d11, query.hydrogen_ml)).and_then(|row| row.up_to_ml);
    let mut steps = vec![
        step("SI", index, Unit::One),
        step(group_symbols(found[0].group).0, printed(by_table), Unit::Celsius),
        step(group_symbols(found[1].group).1, printed(by_bands), Unit::Celsius),
        step("printed in °F", higher.f, Unit::One),
    ];
    if let Some(top_ml) = level_top_ml {
        steps.push(step("H level up to", top_ml, Unit::MlPer100g));
    }
    let outcome = Outcome::new("d11-annex", printed(higher), Unit::Celsius, basis)
        .checked(vec![
            RangeCheck {
                symbol: "Pcm",
                value: query.pcm,
                low: None,
                high: d11.groups.pcm_below.last().copied(),
            },
            RangeCheck { symbol: "SI", value: index, low: None, high: Some(d11.si_bands.at_least_above) },
        ])
        .worked(steps);
    Ok(AnnexAnswer {
        outcome,
        at_least: found.iter().any(|group| group.at_least),
        lower_serves: by_table.or_lower && by_bands.or_lower,
    })
}

/// A group as the steps of the annex name it: by table, by bands.
const fn group_symbols(group: Group) -> (&'static str, &'static str) {
    match group {
        Group::A => ("group A by table", "group A by bands"),
        Group::B => ("group B by table", "group B by bands"),
        Group::C => ("group C by table", "group C by bands"),
        Group::D => ("group D by table", "group D by bands"),
        Group::E => ("group E by table", "group E by bands"),
        Group::F => ("group F by table", "group F by bands"),
        Group::G => ("group G by table", "group G by bands"),
    }
}

/// The printed temperature of rows by thickness.
fn at(rows: &[ThicknessRow], thickness_mm: f64) -> Result<Printed, EngineError> {
    THICKNESS.check(thickness_mm)?;
    rows.iter()
        .find(|row| row.up_to_mm.is_none_or(|up_to_mm| thickness_mm <= up_to_mm))
        .map(|row| row.at)
        .ok_or(EngineError::NoAnswer { reason: "table-has-no-row" })
}

/// The prequalified minimum of a steel category at a thickness, °C.
///
/// Source: AWS D1.1, minimum preheat by category. Category D allows 8 ml/100 g.
///
/// # Errors
/// A letter that the table lacks; more hydrogen than the category allows; a thickness or
/// hydrogen that is not a number, negative, or that no weld has.
pub fn d11_category(
    d11: &D11,
    letter: char,
    thickness_mm: f64,
    hydrogen_ml: Option<f64>,
) -> Result<Outcome, EngineError> {
    let row = d11.category(letter).ok_or(EngineError::NoAnswer { reason: "table-has-no-row" })?;
    if let (Some(most_ml), Some(hydrogen_ml)) = (row.hydrogen_max_ml, hydrogen_ml)
        && HYDROGEN.check(hydrogen_ml)? > most_ml
    {
        return Err(EngineError::NoAnswer { reason: "category-hydrogen" });
    }
    let value_c = higher_c(at(&row.rows, thickness_mm)?);
    Ok(Outcome::new("d11-category", value_c, Unit::Celsius, row.basis.clone()))
}

/// The handbook's low-hydrogen figure for a grade at a thickness, moved from 8 ml/100 g to
/// this hydrogen; with the use that the plan makes of the row.
///
/// `T = printed + ΔH(8)`. Source: the row's basis, a handbook from memory; the move is
/// common practice.
///
/// # Errors
/// A grade that has no such row; a thickness or hydrogen that is not a number, negative,
/// or that no weld has.
pub fn practice_rows(
    practice: &Practice,
    grade: &str,
    thickness_mm: f64,
    hydrogen_ml: f64,
) -> Result<(Outcome, RowUse), EngineError> {
    HYDROGEN.check(hydrogen_ml)?;
    let table = &practice.low_hydrogen;
    let row = table
        .rows
        .iter()
        .find(|row| row.grade == grade)
        .ok_or(EngineError::NoAnswer { reason: "table-has-no-row" })?;
    let printed_c = higher_c(at(&row.rows, thickness_mm)?);
    let shift_k = hydrogen_shift_k(&practice.hydrogen_shift, hydrogen_ml, table.hydrogen_ml);
    let outcome = Outcome::new("practice-rows", printed_c + shift_k, Unit::Celsius, row.basis.clone())
        .checked(vec![
            RangeCheck { symbol: "d", value: thickness_mm, low: None, high: Some(row.at_least_above_mm) },
            hydrogen_shift_range("ΔH", &practice.hydrogen_shift, hydrogen_ml, table.hydrogen_ml),
        ])
        .worked(vec![step("printed", printed_c, Unit::Celsius), step("ΔH", shift_k, Unit::Kelvin)]);
    Ok((outcome, row.row_use))
}

/// The step of the trade text's staircase, raised for more than 8 ml/100 g; and whether
/// the step is ours, beyond the last printed one.
///
/// `T = step + max(0, ΔH(8))`. Valid for Ceq up to 0.90.
///
/// # Errors
/// An input that is not a number, negative, or that no weld has.
pub fn ceq_bands(practice: &Practice, ceq: f64, hydrogen_ml: f64) -> Result<(Outcome, bool), EngineError> {
    EQUIVALENT.check(ceq)?;
    HYDROGEN.check(hydrogen_ml)?;
    let (step_c, ours) = ceq_band_c(practice, ceq);
    let base_ml = practice.low_hydrogen.hydrogen_ml;
    let shift_k = hydrogen_shift_k(&practice.hydrogen_shift, hydrogen_ml, base_ml).max(0.0);
    let basis = if ours { Basis::Practice } else { practice.ceq_bands.basis.clone() };
    let last = practice.ceq_bands.steps.iter().filter(|step| !step.ours).filter_map(|step| step.up_to);
    let outcome = Outcome::new("ceq-bands", step_c + shift_k, Unit::Celsius, basis)
        .checked(vec![
            RangeCheck { symbol: "Ceq", value: ceq, low: None, high: last.reduce(f64::max) },
            hydrogen_shift_range("ΔH", &practice.hydrogen_shift, hydrogen_ml, base_ml),
        ])
        .worked(vec![step("step", step_c, Unit::Celsius), step("ΔH", shift_k, Unit::Kelvin)]);
    Ok((outcome, ours))
}

/// The carbon chart for plain carbon steel read as a line.
///
/// `T = line(C) + ΔH(15) + credit(d)`; C in %, d in mm. Valid for C 0.20-0.80, flat outside.
///
/// # Errors
/// An input that is not a number, negative, or that no weld has.
pub fn carbon_line(
    practice: &Practice,
    carbon: f64,
    hydrogen_ml: f64,
    thickness_mm: f64,
) -> Result<Outcome, EngineError> {
    Domain::new("C", 0.0, 2.0).check(carbon)?;
    HYDROGEN.check(hydrogen_ml)?;
    THICKNESS.check(thickness_mm)?;
    let line = &practice.carbon_line;
    let line_c = carbon_line_c(line, carbon);
    let shift_k = hydrogen_shift_k(&practice.hydrogen_shift, hydrogen_ml, line.hydrogen_ml);
    let credit_k = thickness_credit_k(&practice.thickness_credit, thickness_mm);
    let (low, high) = (line.points.first().map(|point| point.c), line.points.last().map(|point| point.c));
    let value_c = line_c + shift_k + credit_k;
    Ok(Outcome::new("carbon-line", value_c, Unit::Celsius, line.basis.clone())
        .checked(vec![
            RangeCheck { symbol: "C", value: carbon, low, high },
            hydrogen_shift_range("ΔH", &practice.hydrogen_shift, hydrogen_ml, line.hydrogen_ml),
        ])
        .worked(vec![
            step("line", line_c, Unit::Celsius),
            step("ΔH", shift_k, Unit::Kelvin),
            step("credit", credit_k, Unit::Kelvin),
        ]))
}

/// The naval table's minimum preheat for a group of carbon or creep-resisting steel, and
/// its maximum interpass where it prints one.
///
/// # Errors
/// A group that the table lacks; a thickness that is not a number, negative, or that no
/// weld has.
pub fn naval_rows(sheets: &OwnSheets, group: &str, case: &SheetCase) -> Result<[Outcome; 2], EngineError> {
    THICKNESS.check(case.thickness_mm)?;
    let row = sheets.group(group).ok_or(EngineError::NoAnswer { reason: "table-has-no-row" })?;
    let minimum_c = higher_c(row.minimum(case));
    let minimum = Outcome::new("navsea-rows", minimum_c, Unit::Celsius, row.basis.clone());
    let mut interpass = Outcome::new("navsea-interpass", 0.0, Unit::Celsius, row.basis.clone());
    interpass.value = row.interpass.map(lower_c);
    Ok([minimum, interpass])
}

/// The lower reading in °C of a printed maximum.
fn lower_c(printed: Printed) -> f64 {
    let from_f = printed.f.map(|f| (f - 32.0) / 1.8);
    match (printed.c, from_f) {
        (Some(c), Some(from_f)) => c.min(from_f),
        (Some(c), None) | (None, Some(c)) => c,
        (None, None) => 0.0,
    }
}
