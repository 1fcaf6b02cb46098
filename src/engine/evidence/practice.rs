//! Which practice figure is enough for this steel?
//!
//! A practice row *covers* a steel when its C, Mn, Cr, Mo, Ni and V are each at or under
//! the maxima of the row's grade with product tolerance: what is enough for the richer
//! steel is enough for this one, so the lowest covering figure is taken.
//!
//! Rows: the handbook's low-hydrogen rows by thickness; a grade's data sheet that states
//! neither hydrogen nor thickness, only where no low-hydrogen row covers; the staircase of
//! the S49 equivalent; and for plain carbon steel the carbon chart read as a line.
//!
//! Source: `data/practice.ron`.

use super::{Case, Evidence, Standing, carbon_line, ceq_bands, data_sheet, low_hydrogen_rows};
use crate::engine::family::Rungs;
use crate::reference::{Composition, Cover, Element, Grade, LowHydrogenRow, RowUse};

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
    if case.reference.grades.get(&row.grade).is_some_and(|grade| covers(cover, grade, nominal)) {
        return Reach::Covers;
    }
    let stretched = row.stretch.is_some_and(|stretch| {
        nominal.get(Element::C) <= stretch.c_max + 1e-9 && case.chemistry.ceq_s49() <= stretch.ceq_max + 1e-9
    });
    if stretched { Reach::Stretched } else { Reach::Not }
}

/// All practice evidence on a member. The lowest sufficient figure may govern; every other
/// row is shown only.
#[must_use]
pub fn on(case: &Case<'_>, rungs: Rungs) -> Vec<Evidence> {
    let practice = &case.reference.practice;
    let own = |row: &LowHydrogenRow| case.member.steel.grade().is_some_and(|grade| grade.id == row.grade);
    let mut sufficient = Vec::with_capacity(6);
    let mut shown = Vec::new();
    for row in &practice.low_hydrogen.rows {
        let reach = reach(case, row);
        let governs = row.row_use == RowUse::MayGovern && reach != Reach::Not;
        if governs {
            sufficient.extend(low_hydrogen_rows::on(case, row, reach == Reach::Stretched));
        } else if own(row) {
            shown.extend(low_hydrogen_rows::on(case, row, false));
        }
    }
    if sufficient.is_empty() {
        sufficient.extend(sheet_that_covers(case).and_then(|grade| data_sheet::on(case, grade)));
    }
    sufficient.extend(ceq_bands::on(case));
    if rungs == Rungs::PracticeByCarbon {
        sufficient.push(carbon_line::on(case));
    }
    let lowest = (0..sufficient.len()).min_by(|&a, &b| {
        let figure_c = |place: usize| sufficient[place].value_c().unwrap_or(f64::MAX);
        figure_c(a).total_cmp(&figure_c(b))
    });
    for (place, row) in sufficient.iter_mut().enumerate() {
        if Some(place) != lowest {
            row.standing = Standing::ShownOnly;
        }
    }
    for row in &mut shown {
        row.standing = Standing::ShownOnly;
    }
    sufficient.append(&mut shown);
    sufficient
}

/// The member's own grade with a data sheet, or a richer one that covers the steel.
fn sheet_that_covers<'a>(case: &Case<'a>) -> Option<&'a Grade> {
    let cover = &case.reference.practice.cover;
    case.reference.with_data_sheet().find(|grade| covers(cover, grade, &case.chemistry.nominal))
}
