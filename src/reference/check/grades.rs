//! Rules of grades and fillers.

use std::collections::BTreeMap;

use super::{Fault, Faults, Rule};
use crate::reference::{
    Basis, CARBURISED_C_MAX, ConditionKind, D11Category, Element, FigureKind, Filler, Grade, GradeCondition,
    GradeFamily, GradeHardness, HardnessScale, Limits, PublishedFit, PublishedPreheat, Pwht, Reference,
    TemperKind, ThicknessTable,
};

/// Temperatures that a preheat, a temper or a heat treatment can have, °C.
const HEAT_C: (f64, f64) = (0.0, 900.0);
/// Strengths that a steel can have, MPa.
const STRENGTH_MPA: (f64, f64) = (100.0, 2500.0);
/// Thicknesses that a row can speak of, mm.
const THICKNESS_MM: (f64, f64) = (0.5, 1000.0);

pub(super) fn check(reference: &Reference, list: &mut Vec<Fault>) {
    let mut faults = Faults { file: "grades.ron", list };
    for grade in &reference.grades {
        composition(&mut faults, &grade.id, &grade.composition);
        faults.check(grade.max_of(Element::C).is_some(), &grade.id, Rule::GradeComplete, || {
            "the composition states no highest carbon".to_owned()
        });
        faults.check(('A'..='E').contains(&grade.weldability), &grade.id, Rule::RangeOrdered, || {
            format!("weldability {} is not A to E", grade.weldability)
        });
        for element in grade.composition_memory.iter().chain(&grade.composition_usual) {
            faults.check(grade.composition.contains_key(element), &grade.id, Rule::GradeComplete, || {
                format!("{} is marked, but has no limits", element.symbol())
            });
        }
        conditions(&mut faults, grade);
        treatment(&mut faults, grade, reference);
        figures(&mut faults, grade);
        super::grade_heat::check(&mut faults, grade);
    }
}

pub(super) fn composition(faults: &mut Faults<'_>, row: &str, limits: &BTreeMap<Element, Limits>) {
    let mut least = 0.0;
    for (element, limits) in limits {
        faults.check(limits.min.is_some() || limits.max.is_some(), row, Rule::GradeComplete, || {
            format!("{} has neither a lowest nor a highest content", element.symbol())
        });
        faults.range(row, element.symbol(), limits.min, limits.max, (0.0, 100.0));
        least += limits.min.unwrap_or(0.0);
    }
    faults.check(least <= 100.0, row, Rule::RangeOrdered, || format!("the elements make {least} % at least"));
}

fn conditions(faults: &mut Faults<'_>, grade: &Grade) {
    let row = &grade.id;
    faults.check(!grade.conditions.is_empty(), row, Rule::GradeComplete, || {
        "it comes in no condition".to_owned()
    });
    for condition in &grade.conditions {
        let kind = condition.kind;
        faults.range(row, "yield", condition.yield_mpa, None, STRENGTH_MPA);
        faults.range(row, "tensile", condition.tensile_min_mpa, condition.tensile_max_mpa, STRENGTH_MPA);
        let tensile_mpa = condition.tensile_min_mpa.or(condition.tensile_max_mpa);
        faults.range(row, "yield and tensile", condition.yield_mpa, tensile_mpa, STRENGTH_MPA);
        figures_have_a_basis(faults, row, condition);
        faults.range(row, "thickness", condition.up_to_mm, None, THICKNESS_MM);
        let bare = condition.yield_mpa.or(condition.tensile_min_mpa).or(condition.tensile_max_mpa).is_none();
        let idle = bare && condition.hardness.is_none() && condition.figures == FigureKind::Typical;
        faults.check(!idle, row, Rule::GradeComplete, || format!("{kind:?} has no figures to be typical"));
        let Some(temper) = condition.temper else { continue };
        faults.range(row, "temper", Some(temper.low_c), temper.high_c, HEAT_C);
        let case = temper.kind == TemperKind::Case;
        faults.check(case == (kind == ConditionKind::CaseHardened), row, Rule::GradeComplete, || {
            format!("{kind:?} has a temper of the kind {:?}", temper.kind)
        });
        let tempered = matches!(
            kind,
            ConditionKind::HardenedTempered | ConditionKind::NormalisedTempered | ConditionKind::CaseHardened
        );
        faults.check(tempered, row, Rule::GradeComplete, || format!("{kind:?} has a temper"));
    }
    let carbon = grade.max_of(Element::C).unwrap_or_default();
    let case = grade.condition_kinds().contains(&ConditionKind::CaseHardened);
    faults.check(!case || carbon <= CARBURISED_C_MAX, row, Rule::GradeTreatment, || {
        format!("it has a case, and with {carbon} % carbon the core hardens too")
    });
    for kind in grade.condition_kinds() {
        let borders: Vec<_> = grade
            .conditions
            .iter()
            .filter(|condition| condition.kind == kind)
            .map(|one| one.up_to_mm)
            .collect();
        faults.rising(row, "thickness", &borders);
    }
    let caps: Vec<_> = grade.cev_cap.iter().chain(&grade.cev_cap_thicker).collect();
    faults.rising(row, "thickness of the CE cap", &caps.iter().map(|cap| cap.up_to_mm).collect::<Vec<_>>());
    for pair in caps.windows(2) {
        faults.check(pair[0].value <= pair[1].value, row, Rule::RangeOrdered, || {
            format!("the CE cap falls from {} to {} with thickness", pair[0].value, pair[1].value)
        });
    }
    for cap in caps {
        faults.range(row, "CE cap", Some(cap.value), None, (0.2, 1.2));
    }
}

/// A condition without figures is one that is possible. A strength, a hardness or a temper
/// comes from somewhere: a source, or memory.
fn figures_have_a_basis(faults: &mut Faults<'_>, row: &str, condition: &GradeCondition) {
    let kind = condition.kind;
    let strength = condition.yield_mpa.or(condition.tensile_min_mpa).or(condition.tensile_max_mpa);
    let bare = strength.is_none() && condition.hardness.is_none();
    faults.check(bare || condition.basis != Basis::Practice, row, Rule::GradeComplete, || {
        format!("{kind:?} has figures and names no source and no memory for them")
    });
    let of_temper = condition.temper.is_none() || *condition.temper_rests_on() != Basis::Practice;
    faults.check(of_temper, row, Rule::GradeComplete, || {
        format!("{kind:?} has a temper and names no source and no memory for it")
    });
    let Some(GradeHardness { at, low, high, scale }) = condition.hardness else { return };
    let possible = match scale {
        HardnessScale::Hb => (60.0, 750.0),
        HardnessScale::Hrc => (15.0, 70.0),
        HardnessScale::Hrb => (20.0, 115.0),
    };
    faults.range(row, "hardness", at, None, possible);
    faults.range(row, "hardness", low, high, possible);
    faults.check(at.is_some() != (low.is_some() || high.is_some()), row, Rule::GradeComplete, || {
        format!("the hardness of {kind:?} is not one figure or a range")
    });
}

fn treatment(faults: &mut Faults<'_>, grade: &Grade, reference: &Reference) {
    let row = &grade.id;
    let rule = Rule::GradeTreatment;
    faults.check(grade.d11_category.is_none() || grade.d11_basis.is_some(), row, rule, || {
        "its D1.1 category has no basis".to_owned()
    });
    faults.check(grade.d11_category.is_none() || grade.preheat_rows.is_none(), row, rule, || {
        "it has a D1.1 category and rows of its own".to_owned()
    });
    faults.check(
        grade.d11_above_h8.is_none() || grade.d11_category == Some(D11Category::D),
        row,
        rule,
        || "a category above 8 ml is only asked of category D".to_owned(),
    );
    let needs_sheet = matches!(
        grade.family,
        GradeFamily::ToolSteel
            | GradeFamily::CreepResisting
            | GradeFamily::StainlessAustenitic
            | GradeFamily::StainlessFerritic
            | GradeFamily::StainlessMartensitic
            | GradeFamily::StainlessDuplex
            | GradeFamily::AusteniticManganese
    );
    faults.check(needs_sheet == grade.own_sheet.is_some(), row, rule, || {
        format!("family {:?} and sheet {:?} do not fit", grade.family, grade.own_sheet)
    });
    if let Some(sheet) = &grade.own_sheet {
        let known =
            reference.own_sheets.group(sheet).is_some() || reference.own_sheets.sheet(sheet).is_some();
        faults.check(known, row, Rule::RowExists, || format!("the sheet {sheet} is not in own_sheets.ron"));
    }
    let leaded =
        grade.composition.get(&Element::Pb).and_then(|limits| limits.max).is_some_and(|max| max >= 0.15);
    faults.check(leaded == (grade.family == GradeFamily::DoNotWeldLead), row, rule, || {
        "lead of 0.15 % or more and the family for leaded steel go together".to_owned()
    });
    let sulphur =
        grade.composition.get(&Element::S).and_then(|limits| limits.min).is_some_and(|min| min >= 0.08);
    let refused = matches!(grade.family, GradeFamily::DoNotWeldLead | GradeFamily::DoNotWeldSulphur);
    faults.check(!sulphur || refused, row, rule, || "sulphur of 0.08 % or more, and no refusal".to_owned());
    let iron = matches!(grade.family, GradeFamily::GreyIron | GradeFamily::DuctileIron);
    let carbon = grade.composition.get(&Element::C).and_then(|limits| limits.min).unwrap_or(0.0);
    faults.check(iron == (carbon >= 2.0), row, rule, || {
        format!("family {:?} with {carbon} % carbon at least", grade.family)
    });
}

fn figures(faults: &mut Faults<'_>, grade: &Grade) {
    let row = &grade.id;
    for preheat in grade.data_sheet.iter().chain(&grade.maker_sheet).chain(&grade.published_preheat) {
        let PublishedPreheat { low_c, high_c, wording, fit, basis, .. } = preheat;
        faults.range(row, "published preheat", *low_c, *high_c, HEAT_C);
        faults.check(
            low_c.is_some() || high_c.is_some() || wording.is_some(),
            row,
            Rule::GradeComplete,
            || "a preheat has neither figures nor words".to_owned(),
        );
        let remembered = matches!(fit, PublishedFit::Memory | PublishedFit::MemoryDoubtful);
        faults.check(remembered == matches!(basis, Basis::Memory { .. }), row, Rule::GradeComplete, || {
            format!("a preheat that fits as {fit:?} rests on {}", basis.kind())
        });
    }
    if let Some(Pwht { low_c, high_c, wording, basis }) = &grade.pwht {
        faults.range(row, "heat treatment after welding", *low_c, *high_c, HEAT_C);
        let figures = low_c.is_some() || high_c.is_some();
        faults.check(figures || wording.is_some(), row, Rule::GradeComplete, || {
            "a heat treatment has neither figures nor words".to_owned()
        });
        faults.check(!figures || *basis != Basis::Practice, row, Rule::GradeComplete, || {
            "a heat treatment has figures and names no source and no memory for them".to_owned()
        });
    }
    for table in grade.preheat_rows.iter().chain(&grade.interpass_rows) {
        thickness_table(faults, row, table);
    }
}

fn thickness_table(faults: &mut Faults<'_>, row: &str, table: &ThicknessTable) {
    faults
        .check(!table.rows.is_empty(), row, Rule::TableWhole, || "a table by thickness is empty".to_owned());
    faults.rising(row, "thickness", &table.rows.iter().map(|one| one.up_to_mm).collect::<Vec<_>>());
    for one in &table.rows {
        faults.printed(row, one.at);
    }
}

pub(super) fn check_fillers(reference: &Reference, list: &mut Vec<Fault>) {
    let mut faults = Faults { file: "fillers.ron", list };
    for filler in &reference.fillers {
        let Filler { id, tensile_min_mpa, tensile_max_mpa, yield_min_mpa, yield_max_mpa, .. } = filler;
        composition(&mut faults, id, &filler.composition);
        faults.range(id, "tensile", *tensile_min_mpa, *tensile_max_mpa, STRENGTH_MPA);
        faults.range(id, "yield", *yield_min_mpa, *yield_max_mpa, STRENGTH_MPA);
        faults.range(id, "yield and tensile", *yield_min_mpa, *tensile_min_mpa, STRENGTH_MPA);
        faults.check(!filler.arcs.is_empty(), id, Rule::GradeComplete, || {
            "it belongs to no process".to_owned()
        });
        if let Some(hydrogen) = &filler.hydrogen {
            faults.range(id, "hydrogen", hydrogen.low_ml, hydrogen.high_ml, (0.0, 100.0));
        }
    }
}
