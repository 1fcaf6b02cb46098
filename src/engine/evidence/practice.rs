//! Which practice figure is enough for this steel?
//!
//! A practice row *covers* a steel when its C, Mn, Cr, Mo, Ni and V are each at or under
//! the maxima of the row's grade with product tolerance: what is enough for the richer
//! steel is enough for this one, so the lowest covering figure is taken.
//!
//! Rows: the handbook's low-hydrogen rows by thickness, made for 8 ml/100 g and shifted
//! by `ΔH(8)`; a grade's data sheet that states neither hydrogen nor thickness, with
//! `max(0, ΔH(8))`, only where no low-hydrogen row covers; the staircase of the S49
//! equivalent, with `max(0, ΔH(8))`; and for plain carbon steel the carbon chart read as
//! a line, with `ΔH(15)` and a credit for thin sections.
//!
//! `ΔH(ref) = 62·(HD^0.35 − ref^0.35)` within −50 … +60 K: the hydrogen term of EN
//! 1011-2 Method B on another base; its use here is common practice. Held at +60 K the
//! figure is "at least": more hydrogen asks for more than it says.
//!
//! Source: `data/practice.ron`.

use super::{Case, d11::higher_c};
use crate::engine::RangeCheck;
use crate::engine::plan::{Evidence, Family, Says, Standing};
use crate::reference::{
    Basis, CarbonLine, Composition, Cover, Grade, HydrogenShift, LowHydrogenRow, Practice, Printed, RowUse,
    ThicknessCredit,
};

/// `factor·(HD^exponent − base^exponent)` within its limits, K.
#[must_use]
pub fn hydrogen_shift_k(shift: &HydrogenShift, hydrogen_ml: f64, base_ml: f64) -> f64 {
    raw_shift_k(shift, hydrogen_ml, base_ml).clamp(shift.min_k, shift.max_k)
}

/// The same without its limits, K.
fn raw_shift_k(shift: &HydrogenShift, hydrogen_ml: f64, base_ml: f64) -> f64 {
    shift.factor_k * (hydrogen_ml.max(0.0).powf(shift.exponent) - base_ml.powf(shift.exponent))
}

/// The shift beside its upper limit: outside it the shift is held there, and what is moved
/// by it reads "at least". Its lower limit only keeps a figure up.
#[must_use]
pub fn hydrogen_shift_range(
    symbol: &'static str,
    shift: &HydrogenShift,
    hydrogen_ml: f64,
    base_ml: f64,
) -> RangeCheck {
    let value = raw_shift_k(shift, hydrogen_ml, base_ml).max(shift.min_k);
    RangeCheck { symbol, value, low: None, high: Some(shift.max_k) }
}

/// `factor·[tanh(d/scale) − tanh(base/scale)]` within its limits, K.
#[must_use]
pub fn thickness_credit_k(credit: &ThicknessCredit, thickness_mm: f64) -> f64 {
    let raw = credit.factor_k
        * ((thickness_mm / credit.scale_mm).tanh() - (credit.base_mm / credit.scale_mm).tanh());
    raw.clamp(credit.min_k, credit.max_k)
}

/// The carbon chart as a line, flat outside its points, °C.
#[must_use]
pub fn carbon_line_c(line: &CarbonLine, carbon: f64) -> f64 {
    let (Some(first), Some(last)) = (line.points.first(), line.points.last()) else { return 0.0 };
    if carbon <= first.c {
        return first.preheat_c;
    }
    for pair in line.points.windows(2) {
        if carbon <= pair[1].c {
            let share = (carbon - pair[0].c) / (pair[1].c - pair[0].c);
            return share.mul_add(pair[1].preheat_c - pair[0].preheat_c, pair[0].preheat_c);
        }
    }
    last.preheat_c
}

/// The staircase of the S49 equivalent, °C, and whether the step is ours.
#[must_use]
pub fn ceq_band_c(practice: &Practice, ceq: f64) -> (f64, bool) {
    practice
        .ceq_bands
        .steps
        .iter()
        .find(|step| step.up_to.is_none_or(|up_to| ceq <= up_to))
        .map_or((0.0, true), |step| (step.preheat_c, step.ours))
}

/// Does a grade's row cover this composition?
#[must_use]
pub fn covers(cover: &Cover, grade: &Grade, composition: &Composition) -> bool {
    cover.elements.iter().all(|(&element, rule)| {
        let max = grade.max_of(element).or(rule.unstated_max);
        max.is_none_or(|max| composition.get(element) <= max + rule.tolerance + 1e-9)
    })
}

/// How a low-hydrogen row reaches a steel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Reach {
    Covers,
    Stretched,
    Not,
}

fn reach(case: &Case<'_>, row: &LowHydrogenRow) -> Reach {
    let cover = &case.reference.practice.cover;
    let nominal = &case.chemistry.nominal;
    let by_grade = case.reference.grades.get(&row.grade).is_some_and(|grade| covers(cover, grade, nominal));
    let by_stretch = row.stretch.is_some_and(|stretch| {
        nominal.get(crate::reference::Element::C) <= stretch.c_max + 1e-9
            && case.chemistry.ceq_s49() <= stretch.ceq_max + 1e-9
    });
    match (by_grade, by_stretch) {
        (true, _) => Reach::Covers,
        (false, true) => Reach::Stretched,
        (false, false) => Reach::Not,
    }
}

/// All practice evidence on a member of family P or H. The lowest sufficient figure
/// stands in range (or at its limit); every other row is shown only.
#[must_use]
pub fn on(case: &Case<'_>, family: Family) -> Vec<Evidence> {
    let practice = &case.reference.practice;
    let mut rows = Vec::new();
    let mut sufficient = Vec::new();
    for row in &practice.low_hydrogen.rows {
        let reach = reach(case, row);
        let own = case.member.steel.grade().is_some_and(|grade| grade.id == row.grade);
        if reach == Reach::Not && !own && row.row_use == RowUse::MayGovern {
            continue;
        }
        let may_govern = row.row_use == RowUse::MayGovern && reach != Reach::Not;
        if !may_govern && !own {
            continue;
        }
        let evidence = low_hydrogen_evidence(case, row, reach == Reach::Stretched);
        if may_govern {
            sufficient.push(rows.len());
        }
        rows.push(evidence);
    }
    if sufficient.is_empty()
        && let Some(sheet) = data_sheet_evidence(case)
    {
        sufficient.push(rows.len());
        rows.push(sheet);
    }
    sufficient.push(rows.len());
    rows.push(bands_evidence(case));
    if family == Family::PlainCarbon {
        sufficient.push(rows.len());
        rows.push(carbon_line_evidence(case));
    }
    let lowest = sufficient.into_iter().min_by(|&a, &b| {
        rows[a].value_c().unwrap_or(f64::MAX).total_cmp(&rows[b].value_c().unwrap_or(f64::MAX))
    });
    for (place, row) in rows.iter_mut().enumerate() {
        row.standing = match (Some(place) == lowest, row.at_limit) {
            (true, false) => Standing::InRange,
            (true, true) => Standing::AtLimit,
            (false, _) => Standing::ShownOnly,
        };
    }
    rows
}

fn low_hydrogen_evidence(case: &Case<'_>, row: &LowHydrogenRow, stretched: bool) -> Evidence {
    let practice = &case.reference.practice;
    let thickness_mm = case.member.thickness_mm;
    let printed = row
        .rows
        .iter()
        .find(|step| step.up_to_mm.is_none_or(|up_to_mm| thickness_mm <= up_to_mm))
        .map_or(Printed { c: None, f: None }, |step| step.at);
    let shift_k =
        hydrogen_shift_k(&practice.hydrogen_shift, case.hydrogen_ml, practice.low_hydrogen.hydrogen_ml);
    let mut evidence =
        case.evidence("practice-low-h", Says::Figure(higher_c(printed) + shift_k), row.basis.clone());
    evidence.row = Some(if stretched { format!("{}+", row.grade) } else { row.grade.clone() });
    evidence.printed = (shift_k == 0.0).then_some(printed);
    evidence.at_limit = thickness_mm > row.at_least_above_mm;
    evidence.range = vec![
        RangeCheck { symbol: "d", value: thickness_mm, low: None, high: Some(row.at_least_above_mm) },
        RangeCheck { symbol: "printed", value: higher_c(printed), low: None, high: None },
        shift_step(shift_k),
    ];
    mark_held_shift(case, practice.low_hydrogen.hydrogen_ml, &mut evidence);
    evidence
}

/// What is added for the hydrogen, as a step of the evidence.
const fn shift_step(shift_k: f64) -> RangeCheck {
    RangeCheck { symbol: "dH", value: shift_k, low: None, high: None }
}

/// Marks evidence whose hydrogen asks for more than the shift is allowed to add: it then
/// stands at its limit, and reads "at least".
fn mark_held_shift(case: &Case<'_>, base_ml: f64, evidence: &mut Evidence) {
    let shift = &case.reference.practice.hydrogen_shift;
    let check = hydrogen_shift_range("dH raw", shift, case.hydrogen_ml, base_ml);
    if !check.inside() {
        evidence.at_limit = true;
        evidence.range.push(check);
    }
}

fn upward_shift_k(case: &Case<'_>) -> f64 {
    let practice = &case.reference.practice;
    hydrogen_shift_k(&practice.hydrogen_shift, case.hydrogen_ml, practice.low_hydrogen.hydrogen_ml).max(0.0)
}

/// The data sheet of the member's grade, or of a richer grade that covers the steel.
fn data_sheet_evidence(case: &Case<'_>) -> Option<Evidence> {
    let cover = &case.reference.practice.cover;
    let (grade, sheet) = case
        .reference
        .grades
        .iter()
        .filter_map(|grade| grade.data_sheet.as_ref().map(|sheet| (grade, sheet)))
        .find(|(grade, _)| covers(cover, grade, &case.chemistry.nominal))?;
    let low_c = sheet.low_c?;
    let shift_k = upward_shift_k(case);
    let mut evidence = case.evidence("data-sheet", Says::Figure(low_c + shift_k), sheet.basis.clone());
    evidence.row = Some(grade.id.clone());
    evidence.printed = (shift_k == 0.0).then_some(Printed { c: Some(low_c), f: None });
    mark_held_shift(case, case.reference.practice.low_hydrogen.hydrogen_ml, &mut evidence);
    Some(evidence)
}

fn bands_evidence(case: &Case<'_>) -> Evidence {
    let practice = &case.reference.practice;
    let ceq = case.chemistry.ceq_s49();
    let (step_c, ours) = ceq_band_c(practice, ceq);
    let shift_k = upward_shift_k(case);
    let basis = if ours { Basis::Practice } else { practice.ceq_bands.basis.clone() };
    let mut evidence = case.evidence("ceq-bands", Says::Figure(step_c + shift_k), basis);
    evidence.printed = (shift_k == 0.0 && !ours).then_some(Printed { c: Some(step_c), f: None });
    evidence.at_limit = ours;
    evidence.range =
        vec![RangeCheck { symbol: "Ceq", value: ceq, low: None, high: Some(0.90) }, shift_step(shift_k)];
    mark_held_shift(case, practice.low_hydrogen.hydrogen_ml, &mut evidence);
    evidence
}

fn carbon_line_evidence(case: &Case<'_>) -> Evidence {
    let practice = &case.reference.practice;
    let carbon = case.chemistry.nominal.get(crate::reference::Element::C);
    let line_c = carbon_line_c(&practice.carbon_line, carbon);
    let shift_k =
        hydrogen_shift_k(&practice.hydrogen_shift, case.hydrogen_ml, practice.carbon_line.hydrogen_ml);
    let credit_k = thickness_credit_k(&practice.thickness_credit, case.member.thickness_mm);
    let mut evidence = case.evidence(
        "carbon-line",
        Says::Figure(line_c + shift_k + credit_k),
        practice.carbon_line.basis.clone(),
    );
    let ends = (practice.carbon_line.points.first(), practice.carbon_line.points.last());
    evidence.at_limit = ends.1.is_some_and(|last| carbon > last.c);
    evidence.range = vec![
        RangeCheck { symbol: "C", value: carbon, low: ends.0.map(|p| p.c), high: ends.1.map(|p| p.c) },
        RangeCheck { symbol: "line", value: line_c, low: None, high: None },
        shift_step(shift_k),
        RangeCheck { symbol: "credit", value: credit_k, low: None, high: None },
    ];
    mark_held_shift(case, practice.carbon_line.hydrogen_ml, &mut evidence);
    evidence
}
