//! Rules of the code rows, of the scatter of Ms and of the tables beside the practice figures.

use std::collections::HashSet;

use super::tables::{celsius, once};
use super::{Fault, Faults, Rule};
use crate::reference::{Reference, TemperCurve};

pub(super) fn check(reference: &Reference, list: &mut Vec<Fault>) {
    code_rows(reference, &mut Faults { file: "code_rows.ron", list });
    transformation(reference, &mut Faults { file: "transformation.ron", list });
    practice(reference, &mut Faults { file: "practice.ron", list });
}

fn code_rows(reference: &Reference, faults: &mut Faults<'_>) {
    let rows = &reference.code_rows;
    once(faults, &rows.piping);
    once(faults, &rows.naval);
    for row in &rows.piping {
        let id = &row.id;
        faults.printed(id, row.at);
        row.interpass.iter().for_each(|printed| faults.printed(id, *printed));
        faults.range(
            id,
            "preheat and interpass",
            Some(celsius(row.at)),
            row.interpass.map(celsius),
            (0.0, 400.0),
        );
        faults.range(id, "thickness", row.above_mm, row.up_to_mm, (1.0, 500.0));
        faults.range(id, "tensile", row.tensile_above_mpa, row.tensile_up_to_mpa, (200.0, 1000.0));
        faults.range(id, "carbon", row.c_above, row.c_up_to, (0.0, 1.0));
        faults.range(id, "chromium", row.cr_above, None, (0.0, 12.0));
    }
    let editions: HashSet<_> = rows.piping.iter().map(|row| row.edition).collect();
    for edition in editions {
        let rest = rows.piping.iter().filter(|row| row.edition == edition && row.numbers.is_empty()).count();
        faults.check(rest == 1, "piping", Rule::TableWhole, || {
            format!("{edition:?} has {rest} rows for all other materials, and prints one")
        });
    }
    for row in &rows.naval {
        row.at.iter().chain(&row.interpass).for_each(|printed| faults.printed(&row.id, *printed));
        faults.check(row.at.is_some() || row.interpass.is_some(), &row.id, Rule::TableWhole, || {
            "a row without a figure".to_owned()
        });
        faults.range(
            &row.id,
            "preheat and interpass",
            row.at.map(celsius),
            row.interpass.map(celsius),
            (0.0, 400.0),
        );
    }
}

fn transformation(reference: &Reference, faults: &mut Faults<'_>) {
    let bands = &reference.transformation.ms_scatter.bands;
    faults.rising("ms_scatter", "carbon", &bands.iter().map(|band| band.c_up_to).collect::<Vec<_>>());
    let open = bands.last().is_some_and(|band| band.c_up_to.is_none());
    faults.check(open, "ms_scatter", Rule::TableWhole, || "the last band is not open".to_owned());
    for band in bands {
        faults.range("ms_scatter", "too low", Some(band.too_low_k), None, (0.0, 300.0));
        faults.range("ms_scatter", "mean", Some(-band.too_low_k), Some(band.mean_k), (-300.0, 300.0));
        faults.range("ms_scatter", "mean", Some(band.mean_k), Some(band.too_high_k), (-300.0, 300.0));
    }
}

fn practice(reference: &Reference, faults: &mut Faults<'_>) {
    let practice = &reference.practice;
    once(faults, &practice.temper_curves);
    once(faults, &practice.bolt_classes);
    practice.temper_curves.iter().for_each(|curve| temper_curve(reference, faults, curve));
    faults.check(practice.temper_curve_of(None).is_some(), "temper_curve", Rule::RowExists, || {
        format!("there is no curve of {}", practice.temper_curve)
    });
    for class in &practice.bolt_classes {
        faults.range(&class.class, "lowest temper", Some(class.temper_min_c), None, (300.0, 700.0));
    }
    let tube = &practice.thin_tube;
    faults.printed("thin_tube", tube.minimum);
    faults.printed("thin_tube", tube.others_low);
    faults.range(
        "thin_tube",
        "others",
        Some(celsius(tube.others_low)),
        Some(celsius(tube.others_high)),
        (0.0, 400.0),
    );
    faults.range("thin_tube", "thickness", Some(tube.up_to_mm), None, (0.5, 10.0));
    faults.check(reference.grade(&tube.ceq_grade).is_some(), "thin_tube", Rule::RowExists, || {
        format!("the grade {} is not in grades.ron", tube.ceq_grade)
    });
    let rolled = &practice.thermomechanical;
    faults.range("thermomechanical", "heat", Some(rolled.interpass_c), Some(rolled.ceiling_c), (50.0, 700.0));
}

/// A steel that is tempered hotter is not harder after it.
fn temper_curve(reference: &Reference, faults: &mut Faults<'_>, curve: &TemperCurve) {
    let row = &curve.grade;
    faults
        .check(reference.grade(row).is_some(), row, Rule::RowExists, || "it is not in grades.ron".to_owned());
    faults.check(curve.points.len() >= 2, row, Rule::TableWhole, || "a curve needs two points".to_owned());
    for pair in curve.points.windows(2) {
        let falls = pair[0].temper_c < pair[1].temper_c && pair[0].hv > pair[1].hv;
        faults.check(falls, row, Rule::TableWhole, || {
            format!("the hardness does not fall from {} to {} °C", pair[0].temper_c, pair[1].temper_c)
        });
    }
    for point in &curve.points {
        faults.range(row, "temper", Some(point.temper_c), None, (100.0, 750.0));
        faults.range(row, "hardness", Some(point.hv), None, (100.0, 900.0));
    }
}
