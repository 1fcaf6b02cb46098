//! Rules of the tables: practice, D1.1, Table C.1, sheets, joints, processes, methods, words.

use std::collections::HashSet;

use super::{Fault, Faults, Rule};
use crate::reference::{GradeFamily, Group, HydrogenLevel, Printed, Process, Reference, Restraint, Row};

pub(super) fn check(reference: &Reference, list: &mut Vec<Fault>) {
    practice(reference, &mut Faults { file: "practice.ron", list });
    d11(reference, &mut Faults { file: "d11.ron", list });
    table_c1(reference, &mut Faults { file: "table_c1.ron", list });
    own_sheets(reference, &mut Faults { file: "own_sheets.ron", list });
    joints(reference, &mut Faults { file: "joints.ron", list });
    processes(reference, &mut Faults { file: "processes.ron", list });
    methods(reference, &mut Faults { file: "methods.ron", list });
    waits(reference, &mut Faults { file: "inspection.ron", list });
    everyday(reference, &mut Faults { file: "everyday_words.ron", list });
}

pub(super) fn once<'a, T: Row + 'a>(faults: &mut Faults<'_>, rows: impl IntoIterator<Item = &'a T>) {
    let mut seen = HashSet::new();
    for row in rows {
        faults.check(seen.insert(row.id()), row.id(), Rule::UniqueId, || "the id occurs twice".to_owned());
    }
}

/// °C of a printed temperature, for comparing rows.
pub(super) fn celsius(printed: Printed) -> f64 {
    printed.c.or(printed.f.map(|f| (f - 32.0) / 1.8)).unwrap_or(f64::NAN)
}

fn practice(reference: &Reference, faults: &mut Faults<'_>) {
    let practice = &reference.practice;
    once(faults, &practice.low_hydrogen.rows);
    once(faults, &practice.sae_chart);
    once(faults, &practice.shown_spans);
    for row in &practice.low_hydrogen.rows {
        faults.check(reference.grade(&row.grade).is_some(), &row.id, Rule::RowExists, || {
            format!("the grade {} is not in grades.ron", row.grade)
        });
        faults.rising(&row.id, "thickness", &row.rows.iter().map(|one| one.up_to_mm).collect::<Vec<_>>());
        faults.check(
            row.rows.last().is_some_and(|one| one.up_to_mm.is_none()),
            &row.id,
            Rule::TableWhole,
            || "the last row is not open".to_owned(),
        );
        row.rows.iter().for_each(|one| faults.printed(&row.id, one.at));
        for pair in row.rows.windows(2) {
            faults.check(celsius(pair[0].at) <= celsius(pair[1].at), &row.id, Rule::TableWhole, || {
                "the preheat falls with thickness".to_owned()
            });
        }
    }
    for row in &practice.low_hydrogen.rows {
        for (element, percent) in &row.cover_max {
            faults.range(&row.id, element.symbol(), Some(*percent), None, (0.0, 5.0));
        }
    }
    let bands = &practice.ceq_bands.steps;
    faults.rising("ceq_bands", "Ceq", &bands.iter().map(|step| step.up_to).collect::<Vec<_>>());
    for pair in bands.windows(2) {
        faults.check(pair[0].preheat_c <= pair[1].preheat_c, "ceq_bands", Rule::TableWhole, || {
            format!("{} °C is followed by {} °C", pair[0].preheat_c, pair[1].preheat_c)
        });
    }
    for pair in practice.carbon_line.points.windows(2) {
        let rises = pair[0].c < pair[1].c && pair[0].preheat_c < pair[1].preheat_c;
        faults.check(rises, "carbon_line", Rule::TableWhole, || {
            format!("the point at {} % is not below the one at {} %", pair[0].c, pair[1].c)
        });
    }
    let shift = &practice.hydrogen_shift;
    faults.range("hydrogen_shift", "limits", Some(shift.min_k), Some(shift.max_k), (-200.0, 200.0));
    let credit = &practice.thickness_credit;
    faults.range("thickness_credit", "limits", Some(credit.min_k), Some(credit.max_k), (-200.0, 200.0));
    for row in &practice.sae_chart {
        row.low.iter().chain([&row.high]).for_each(|printed| faults.printed(&row.id, *printed));
        faults.range(&row.id, "carbon", row.c_above, row.c_up_to, (0.0, 2.0));
        faults.range(&row.id, "preheat", row.low.map(celsius), Some(celsius(row.high)), (0.0, 600.0));
        for id in row.grades.iter().filter(|id| reference.grade(id).is_none()) {
            faults.add(&row.id, Rule::RowExists, format!("the grade {id} is not in grades.ron"));
        }
    }
    for span in &practice.shown_spans {
        faults.range(&span.id, "carbon", span.c_above, span.c_up_to, (0.0, 2.0));
        faults.range(&span.id, "preheat", Some(celsius(span.low)), span.high.map(celsius), (0.0, 600.0));
    }
}

fn d11(reference: &Reference, faults: &mut Faults<'_>) {
    let d11 = &reference.d11;
    let borders = |restraint| -> Vec<Option<f64>> {
        d11.annex.rows.iter().filter(|row| row.restraint == restraint).map(|row| row.up_to_mm).collect()
    };
    for restraint in [Restraint::Low, Restraint::Medium, Restraint::High] {
        let rows = borders(restraint);
        faults.check(rows.len() == 5 && rows.last() == Some(&None), "annex", Rule::TableWhole, || {
            format!("{restraint:?} has {} rows and needs 5, the last one open", rows.len())
        });
        faults.rising("annex", "thickness", &rows);
    }
    for row in &d11.annex.rows {
        for cell in &row.cells {
            faults.printed("annex", Printed { c: Some(cell.c), f: Some(cell.f) });
        }
        let rises = row.cells.windows(2).all(|pair| pair[0].c <= pair[1].c && pair[0].f <= pair[1].f);
        faults.check(rises, "annex", Rule::TableWhole, || {
            format!("{:?} up to {:?} mm falls from one group to the next", row.restraint, row.up_to_mm)
        });
    }
    for pair in d11.annex.rows.windows(2).filter(|pair| pair[0].restraint == pair[1].restraint) {
        let rises = pair[0].cells.iter().zip(&pair[1].cells).all(|(thin, thick)| thin.f <= thick.f);
        faults.check(rises, "annex", Rule::TableWhole, || {
            format!("{:?} falls above {:?} mm", pair[0].restraint, pair[0].up_to_mm)
        });
    }
    let groups = &d11.groups;
    faults.rising("groups", "Pcm", &groups.pcm_below.iter().copied().map(Some).collect::<Vec<_>>());
    for &level in HydrogenLevel::ALL {
        let row = groups.rows.iter().find(|row| row.level == level);
        let whole = row.is_some_and(|row| {
            row.groups.len() == groups.pcm_below.len() && row.groups.windows(2).all(|pair| pair[0] < pair[1])
        });
        faults
            .check(whole, "groups", Rule::TableWhole, || format!("the row of {level:?} is missing or falls"));
    }
    let bands: Vec<Group> = d11.si_bands.bands.iter().map(|band| band.group).collect();
    faults.check(bands == Group::ALL, "si_bands", Rule::TableWhole, || "the bands are not A to G".to_owned());
    faults.rising("si_bands", "index", &d11.si_bands.bands.iter().map(|band| band.up_to).collect::<Vec<_>>());
    for letter in ['A', 'B', 'C', 'D'] {
        faults.check(d11.category(letter).is_some(), "categories", Rule::TableWhole, || {
            format!("category {letter} is missing")
        });
    }
    for row in &d11.categories {
        let name = row.category.to_string();
        faults.rising(&name, "thickness", &row.rows.iter().map(|one| one.up_to_mm).collect::<Vec<_>>());
        row.rows.iter().for_each(|one| faults.printed(&name, one.at));
    }
}

fn table_c1(reference: &Reference, faults: &mut Faults<'_>) {
    let cells = &reference.table_c1.cells;
    faults.check(cells.len() == 20, "table", Rule::TableWhole, || {
        format!("{} cells, and 20 are printed", cells.len())
    });
    for one in cells {
        faults.range("table", "hydrogen", Some(one.hydrogen_above_ml), one.hydrogen_up_to_ml, (0.0, 100.0));
        faults.range(
            "table",
            "combined thickness",
            Some(one.combined_mm),
            None,
            (1.0, reference.table_c1.never_above_mm),
        );
        // Less hydrogen, a lower CE or more heat input never clears less.
        for other in cells {
            let easier = other.hydrogen_above_ml <= one.hydrogen_above_ml
                && other.ce <= one.ce
                && other.heat_input_kj_per_mm >= one.heat_input_kj_per_mm;
            faults.check(!easier || other.combined_mm >= one.combined_mm, "table", Rule::TableWhole, || {
                format!(
                    "{} mm at CE {} falls to {} mm in an easier cell",
                    one.combined_mm, one.ce, other.combined_mm
                )
            });
        }
    }
}

fn own_sheets(reference: &Reference, faults: &mut Faults<'_>) {
    let sheets = &reference.own_sheets;
    once(faults, &sheets.iron);
    once(faults, &sheets.iron_spans);
    once(faults, &sheets.groups);
    once(faults, &sheets.sheets);
    for route in &sheets.iron {
        faults.range(
            &route.id,
            "preheat",
            Some(route.preheat_low_c),
            Some(route.preheat_high_c),
            (0.0, 700.0),
        );
        faults.range(
            &route.id,
            "preheat and interpass",
            Some(route.preheat_high_c),
            route.interpass_c,
            (0.0, 700.0),
        );
    }
    for span in &sheets.iron_spans {
        faults.range(&span.id, "span", Some(span.low_c), span.high_c, (0.0, 700.0));
        let iron = matches!(span.iron, GradeFamily::GreyIron | GradeFamily::DuctileIron);
        faults.check(iron, &span.id, Rule::GradeTreatment, || format!("{:?} is no iron", span.iron));
    }
    for group in &sheets.groups {
        [Some(group.base), group.raised, group.interpass]
            .into_iter()
            .flatten()
            .for_each(|at| faults.printed(&group.id, at));
        faults.range(&group.id, "chromium", group.cr_above, group.cr_up_to, (0.0, 30.0));
        faults.range(
            &group.id,
            "minimum",
            Some(celsius(group.base)),
            group.raised.map(celsius),
            (0.0, 600.0),
        );
    }
    for sheet in &sheets.sheets {
        faults.range(&sheet.id, "preheat", sheet.preheat_low_c, sheet.preheat_high_c, (0.0, 600.0));
        faults.range(
            &sheet.id,
            "preheat and interpass",
            sheet.preheat_low_c,
            sheet.interpass_c,
            (0.0, 600.0),
        );
        faults.range(&sheet.id, "interpass and ceiling", sheet.interpass_c, sheet.ceiling_c, (0.0, 800.0));
    }
    for row in &sheets.hardness.rows {
        faults.range(&row.group, "hardness", row.heat_treated_hv, row.as_welded_hv, (100.0, 600.0));
    }
    for pair in sheets.diffusion.points.windows(2) {
        let falls = pair[0].at_c > pair[1].at_c;
        faults.check(falls, "diffusion", Rule::RangeOrdered, || {
            format!("{} °C is not above {} °C", pair[0].at_c, pair[1].at_c)
        });
    }
}

fn joints(reference: &Reference, faults: &mut Faults<'_>) {
    for joint in &reference.joints {
        faults.range(&joint.id, "F2", Some(joint.f2.low), Some(joint.f2.high), (0.1, 1.0));
        faults.range(&joint.id, "F3", Some(joint.f3.low), Some(joint.f3.high), (0.1, 1.0));
        let ways = joint.ways.first > 0 && (joint.members == 1) == (joint.ways.second == 0);
        faults.check(ways, &joint.id, Rule::TableWhole, || {
            format!("{} members and ways {:?}", joint.members, joint.ways)
        });
    }
}

fn processes(reference: &Reference, faults: &mut Faults<'_>) {
    for process in &reference.processes {
        faults.range(&process.id, "efficiency", Some(process.efficiency), None, (0.2, 1.0));
        let (low, high) = (process.hydrogen_low_ml, process.hydrogen_high_ml);
        faults.range(&process.id, "hydrogen", Some(low), Some(high), (0.0, 100.0));
        for id in process.designators.iter().filter(|id| reference.designators.get(id).is_none()) {
            faults.add(&process.id, Rule::RowExists, format!("the designator {id} is not in processes.ron"));
        }
    }
    let spellings = |row: &Process| row.said.iter().chain(&row.covering).cloned().collect::<Vec<_>>();
    let all: Vec<String> = reference.processes.iter().flat_map(spellings).collect();
    for twice in all.iter().enumerate().filter(|(nth, said)| all[..*nth].contains(said)).map(|(_, said)| said)
    {
        faults.add(twice, Rule::UniqueId, format!("{twice} is said of two processes"));
    }
    for designator in &reference.designators {
        faults.range(&designator.id, "hydrogen", designator.above_ml, designator.up_to_ml, (0.0, 100.0));
    }
}

fn methods(reference: &Reference, faults: &mut Faults<'_>) {
    for method in &reference.methods {
        for limit in &method.limits {
            faults.range(&method.id, &limit.symbol, limit.low, limit.high, (-300.0, 2000.0));
            faults.check(limit.low.is_some() || limit.high.is_some(), &method.id, Rule::RangeOrdered, || {
                format!("{} is listed without a limit", limit.symbol)
            });
        }
    }
}

fn waits(reference: &Reference, faults: &mut Faults<'_>) {
    for wait in &reference.inspection {
        faults.range(&wait.id, "hours", Some(wait.hours), None, (0.0, 200.0));
        faults.range(&wait.id, "size", wait.size_above_mm, wait.size_up_to_mm, (0.0, 500.0));
        faults.range(&wait.id, "heat input", wait.heat_input_above, wait.heat_input_up_to, (0.0, 20.0));
    }
}

fn everyday(reference: &Reference, faults: &mut Faults<'_>) {
    for word in &reference.everyday_words {
        for id in word.grades.iter().filter(|id| reference.grade(id).is_none()) {
            faults.add(&word.word, Rule::RowExists, format!("the grade {id} is not in grades.ron"));
        }
        for id in word.fillers.iter().filter(|id| reference.filler(id).is_none()) {
            faults.add(&word.word, Rule::RowExists, format!("the filler {id} is not in fillers.ron"));
        }
        // A word for what is no steel, or for a steel that nobody knows, says so.
        let nothing = word.grades.is_empty() && word.fillers.is_empty() && word.groups.is_empty();
        faults.check(!nothing || word.note.is_some(), &word.word, Rule::TableWhole, || {
            "it stands for nothing and says nothing".to_owned()
        });
    }
}
