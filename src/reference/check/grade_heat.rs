//! Rules of what a grade's own standard or sheet says beside its limits.

use super::grades::composition;
use super::tables::celsius;
use super::{Faults, Rule};
use crate::reference::{Basis, ConditionKind, Grade, GradeFamily, TemperKind};

/// Temperatures at which steel turns, °C.
const TURNS_C: (f64, f64) = (-100.0, 1000.0);
/// A temper that starts under this is a low one, °C.
const LOW_TEMPER_C: f64 = 545.0;

pub(super) fn check(faults: &mut Faults<'_>, grade: &Grade) {
    let row = &grade.id;
    thicker(faults, grade);
    window(faults, grade);
    if let Some(printed) = &grade.transformation {
        faults.range(row, "Mf and Ms", printed.mf_c, Some(printed.ms_c), TURNS_C);
        faults.range(row, "Ms and Ac1", Some(printed.ms_c), printed.ac1_c, TURNS_C);
        faults.range(row, "Ac1 and Ac3", printed.ac1_c, printed.ac3_c, TURNS_C);
        let seen = matches!(printed.basis, Basis::Published { .. });
        faults.check(seen, row, Rule::GradeComplete, || "a printed Ms names who prints it".to_owned());
    }
    if grade.low_temper.is_some() {
        let hot =
            grade.conditions.iter().filter(|one| one.kind == ConditionKind::HardenedTempered).any(|one| {
                one.temper
                    .is_some_and(|temper| temper.kind == TemperKind::Minimum && temper.low_c >= LOW_TEMPER_C)
            });
        faults.check(!hot, row, Rule::GradeTreatment, || {
            "its temper is usually low, and its standard demands a high one".to_owned()
        });
    }
    if let Some(preheat) = grade.published_preheat.as_ref().filter(|preheat| preheat.replaces_practice) {
        faults.check(!preheat.sae_chart, row, Rule::GradeTreatment, || {
            "a row of the old chart is no sheet of the grade's own".to_owned()
        });
        faults.check(preheat.low_c.is_some(), row, Rule::GradeComplete, || {
            "a sheet that replaces a practice figure states none".to_owned()
        });
        faults.check(grade.family == GradeFamily::ByAnalysis, row, Rule::GradeTreatment, || {
            format!("family {:?} has a sheet of its own already", grade.family)
        });
    }
}

/// Thicker material is never leaner: the limits of thin material are then those that err low.
fn thicker(faults: &mut Faults<'_>, grade: &Grade) {
    let row = &grade.id;
    let borders: Vec<_> = grade.composition_thicker.iter().map(|one| Some(one.above_mm)).collect();
    faults.rising(row, "thickness of the limits", &borders);
    for one in &grade.composition_thicker {
        faults.range(row, "thickness of the limits", Some(one.above_mm), None, (1.0, 500.0));
        composition(faults, row, &one.limits);
        for (element, limits) in &one.limits {
            let thin = grade.max_of(*element);
            let richer = thin.zip(limits.max).is_some_and(|(thin, thick)| thin <= thick);
            faults.check(richer, row, Rule::RangeOrdered, || {
                format!("{} above {} mm is leaner than in thin material", element.symbol(), one.above_mm)
            });
        }
    }
}

fn window(faults: &mut Faults<'_>, grade: &Grade) {
    let Some(window) = &grade.documented_window else { return };
    let row = &grade.id;
    faults.check(grade.interpass_rows.is_some(), row, Rule::GradeTreatment, || {
        "a documented window has no maximum between runs".to_owned()
    });
    faults.check(grade.preheat_rows.is_none(), row, Rule::GradeTreatment, || {
        "a documented window stands beside rows of its own".to_owned()
    });
    faults.check(!window.rows.is_empty(), row, Rule::TableWhole, || "a window is empty".to_owned());
    faults.rising(row, "thickness", &window.rows.iter().map(|one| one.up_to_mm).collect::<Vec<_>>());
    for one in &window.rows {
        std::iter::once(&one.low).chain(&one.high).for_each(|printed| faults.printed(row, *printed));
        let maximum =
            grade.interpass_rows.as_ref().and_then(|rows| rows.at(one.up_to_mm.unwrap_or(f64::MAX)));
        let top = one.high.or(Some(one.low));
        faults.range(row, "window", Some(celsius(one.low)), top.map(celsius), (0.0, 400.0));
        faults.range(row, "window", Some(celsius(one.low)), maximum.map(celsius), (0.0, 400.0));
    }
}
