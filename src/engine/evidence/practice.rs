//! Which practice figure is enough for this steel?
//!
//! A practice row *covers* a steel when its C, Ni and V are each at or under the maxima of the
//! row's grade, it holds no boron, and its S49 equivalent is at or under that of the maxima (so
//! that a little more manganese against a little less chromium does not lose the row): what is
//! enough for the richer steel is enough for this one, so the lowest covering figure is taken.
//! Product tolerance counts for a certificate that names the row's grade.
//!
//! Rows: the handbook's low-hydrogen rows by thickness; a grade's data sheet that states
//! neither hydrogen nor thickness, only where no low-hydrogen row covers; the staircase of
//! the S49 equivalent; and for plain carbon steel the carbon chart read as a line.
//!
//! Source: `data/practice.ron`.

use std::collections::BTreeMap;

use super::low_hydrogen_rows::STRETCHED;
use super::{Case, Evidence, Standing, carbon_line, ceq_bands, data_sheet, low_hydrogen_rows};
use crate::engine::carbon_equivalent::ceq_s49;
use crate::engine::family::Rungs;
use crate::reference::{Composition, Element, Grade, LowHydrogenRow, RowUse};

/// Elements whose own maxima count, beside the S49 equivalent.
const BY_THEMSELVES: [Element; 3] = [Element::C, Element::Ni, Element::V];
/// Silicon that the maxima are taken with, %.
const SILICON: f64 = 0.35;
/// Boron from which no row covers a steel, %.
const BORON: f64 = 0.0005;

/// Does a grade's row cover the steel of a case? `raised` holds maxima of the row that are wider
/// than the grade's.
#[must_use]
pub fn covers(case: &Case<'_>, grade: &Grade, raised: &BTreeMap<Element, f64>) -> bool {
    let cover = &case.reference.practice.cover;
    let steel = &case.chemistry.nominal;
    let named =
        !case.chemistry.grade_only && case.member.steel.grade().is_some_and(|named| named.id == grade.id);
    let most = |element: Element| {
        let rule = cover.elements.get(&element);
        let max = raised.get(&element).copied().or_else(|| grade.max_of(element));
        let max = max.or_else(|| rule.and_then(|rule| rule.unstated_max))?;
        let tolerance = rule.map_or(0.0, |rule| rule.tolerance);
        Some(if named { max + tolerance } else { max })
    };
    let single = BY_THEMSELVES
        .into_iter()
        .all(|element| most(element).is_none_or(|max| steel.get(element) <= max + 1e-9));
    if !single || steel.get(Element::B) >= BORON {
        return false;
    }
    let maxima = [Element::C, Element::Mn, Element::Cr, Element::Mo, Element::Ni]
        .into_iter()
        .fold(Composition::new(&[(Element::Si, SILICON)]), |made, element| {
            made.with(element, most(element).unwrap_or(0.0))
        });
    ceq_s49(steel) <= ceq_s49(&maxima) + 1e-9
}

/// How a low-hydrogen row reaches a steel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Reach {
    Covers,
    Stretched,
    Not,
}

fn reach(case: &Case<'_>, row: &LowHydrogenRow) -> Reach {
    let nominal = &case.chemistry.nominal;
    if case.reference.grades.get(&row.grade).is_some_and(|grade| covers(case, grade, &row.cover_max)) {
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
    if rungs == Rungs::PracticeByCarbon {
        // A row of nickel-chromium-molybdenum steel says nothing beside a lower figure for plain carbon.
        sufficient.retain(|row| row.standing != Standing::ShownOnly || row.outcome.name != STRETCHED);
    }
    for row in &mut shown {
        row.standing = Standing::ShownOnly;
    }
    sufficient.append(&mut shown);
    sufficient
}

/// The member's own grade with a data sheet, or a richer one that covers the steel.
fn sheet_that_covers<'a>(case: &Case<'a>) -> Option<&'a Grade> {
    let none = BTreeMap::new();
    case.reference.with_data_sheet().find(|grade| covers(case, grade, &none))
}
