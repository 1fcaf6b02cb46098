//! What does AWS D1.1 ask for: by hydrogen control (annex), and by category?
//!
//! *Annex.* A susceptibility group from Pcm and the hydrogen level (table), or from the
//! index `SI = 12·Pcm + log10(H)` (bands, with the actual hydrogen H in ml/100 g); then
//! a minimum preheat and interpass by group, restraint and thickness. Table and bands
//! part company near the column tops of level H1, so both are shown and the higher
//! counts. Pcm at or above the last column (0.38) uses that column and reads "at least".
//!
//! *Category.* Prequalified minimum by steel category, process and thickness: category
//! A with a process that is not low in hydrogen, B to D as the grade is listed.
//!
//! Source: `data/d11.ron`, with the marks of what was seen and what is from memory.

use super::Case;
use crate::engine::RangeCheck;
use crate::engine::plan::{Evidence, Obligation, Says};
use crate::reference::{Cell, D11, D11Category, Group, HydrogenLevel, Printed};

/// A group with "at least" where the table or the bands end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Susceptibility {
    /// The group.
    pub group: Group,
    /// Beyond the last column or band?
    pub at_least: bool,
}

/// The hydrogen level of a content: H1 up to 5, H2 up to 10, H3 above (ml/100 g).
#[must_use]
pub fn level(d11: &D11, hydrogen_ml: f64) -> HydrogenLevel {
    d11.levels
        .iter()
        .find(|row| row.up_to_ml.is_none_or(|up_to_ml| hydrogen_ml <= up_to_ml))
        .map_or(HydrogenLevel::H3, |row| row.level)
}

/// The group by the table.
#[must_use]
pub fn group_by_table(d11: &D11, pcm: f64, hydrogen_ml: f64) -> Susceptibility {
    let level = level(d11, hydrogen_ml);
    let column = d11.groups.pcm_below.iter().position(|&below| pcm < below);
    let groups = d11.groups.rows.iter().find(|row| row.level == level).map(|row| row.groups.as_slice());
    let group = groups.and_then(|groups| column.map_or_else(|| groups.last(), |place| groups.get(place)));
    Susceptibility { group: group.copied().unwrap_or(Group::G), at_least: column.is_none() }
}

/// The susceptibility index; a hydrogen content under 1 ml/100 g counts as 1.
#[must_use]
pub fn susceptibility_index(pcm: f64, hydrogen_ml: f64) -> f64 {
    12.0f64.mul_add(pcm, hydrogen_ml.max(1.0).log10())
}

/// The group by the bands.
#[must_use]
pub fn group_by_bands(d11: &D11, index: f64) -> Susceptibility {
    let group = d11
        .si_bands
        .bands
        .iter()
        .find(|band| band.up_to.is_none_or(|up_to| index <= up_to))
        .map_or(Group::G, |band| band.group);
    Susceptibility { group, at_least: index > d11.si_bands.at_least_above }
}

/// A printed cell as evidence says it: `<` clears; otherwise the higher of the printed
/// pair, so that the unit shown never loosens it.
fn says(cell: &Cell) -> Says {
    if cell.or_lower {
        Says::Clears
    } else {
        Says::Figure(higher_c(Printed { c: Some(cell.c), f: Some(cell.f) }))
    }
}

/// The higher reading in °C of a printed minimum.
#[must_use]
pub fn higher_c(printed: Printed) -> f64 {
    let from_f = printed.f.map(|f| (f - 32.0) / 1.8);
    match (printed.c, from_f) {
        (Some(c), Some(from_f)) => c.max(from_f),
        (Some(c), None) => c,
        (None, Some(from_f)) => from_f,
        (None, None) => 0.0,
    }
}

/// The annex's word on a member: by table, and by bands.
#[must_use]
pub fn annex_on(case: &Case<'_>) -> [Evidence; 2] {
    let d11 = &case.reference.d11;
    let pcm = case.chemistry.pcm();
    let index = susceptibility_index(pcm, case.hydrogen_ml);
    let by_table = group_by_table(d11, pcm, case.hydrogen_ml);
    let by_bands = group_by_bands(d11, index);
    let pcm_end = d11.groups.pcm_below.last().copied();
    [
        annex_evidence(
            case,
            "d11-annex",
            by_table,
            RangeCheck { symbol: "Pcm", value: pcm, low: None, high: pcm_end },
        ),
        annex_evidence(
            case,
            "d11-band",
            by_bands,
            RangeCheck { symbol: "SI", value: index, low: None, high: Some(d11.si_bands.at_least_above) },
        ),
    ]
}

fn annex_evidence(case: &Case<'_>, id: &'static str, found: Susceptibility, check: RangeCheck) -> Evidence {
    let annex = &case.reference.d11.annex;
    let cell = annex.cell(case.job.restraint, case.member.thickness_mm, found.group);
    let seen = cell.is_some_and(|cell| cell.seen);
    let basis = if seen { annex.seen_basis.clone() } else { annex.basis.clone() };
    let mut evidence = case.evidence(id, cell.map_or(Says::NoFigure, says), basis);
    evidence.row = Some(found.group.letter().to_string());
    evidence.printed = cell.map(|cell| Printed { c: Some(cell.c), f: Some(cell.f) });
    evidence.at_limit = found.at_least;
    evidence.range = vec![check];
    evidence
}

/// The category's word on a member, where its grade is listed. `None` for other grades.
#[must_use]
pub fn category_on(case: &Case<'_>) -> Option<Evidence> {
    let listed = case.member.steel.grade()?.d11_category?;
    let letter = if case.low_hydrogen() {
        match listed {
            D11Category::B => 'B',
            D11Category::C => 'C',
            D11Category::D => 'D',
        }
    } else {
        'A'
    };
    let mut found = category_rows(case, letter)?;
    // Category C with a process that is not low in hydrogen is not prequalified at all:
    // the higher of the two rows stands.
    if letter == 'A' && listed == D11Category::C {
        let own = category_rows(case, 'C')?;
        if own.value_c() > found.value_c() {
            found = own;
        }
    }
    Some(found)
}

fn category_rows(case: &Case<'_>, letter: char) -> Option<Evidence> {
    let row = case.reference.d11.category(letter)?;
    let found = row
        .rows
        .iter()
        .find(|row| row.up_to_mm.is_none_or(|up_to_mm| case.member.thickness_mm <= up_to_mm))?;
    let value_c = higher_c(found.at);
    let says = if value_c <= 20.0 { Says::Clears } else { Says::Figure(value_c) };
    let mut evidence = case.evidence("d11-category", says, row.basis.clone());
    evidence.obligation = Obligation::Code;
    evidence.row = Some(letter.to_string());
    evidence.printed = Some(found.at);
    Some(evidence)
}
