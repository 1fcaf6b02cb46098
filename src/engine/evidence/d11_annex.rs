//! What does the hydrogen control annex of AWS D1.1 ask for?
//!
//! A susceptibility group from Pcm and the hydrogen level (table), and one from the index
//! `SI = 12·Pcm + log10(H)` (bands, with the actual hydrogen H in ml/100 g); then a minimum
//! preheat and interpass by group, restraint and thickness. Table and bands part company near
//! the column tops of level H1, so that both are read and the higher counts. Pcm at or above
//! the last column uses that column and reads "at least".
//!
//! Source: `data/d11.ron`, with the marks of what was seen and what is from memory.

use super::{Case, Evidence};
use crate::engine::error::{Domain, HYDROGEN, THICKNESS};
use crate::engine::{Checked, EngineError, Outcome, Says, Step};
use crate::reference::{Cell, D11, Group, HydrogenLevel, Method, Printed, Restraint, Unit, row_at};

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
    row_at(&d11.levels, |row| row.up_to_ml, hydrogen_ml).map_or(HydrogenLevel::H3, |row| row.level)
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
    let group = row_at(&d11.si_bands.bands, |band| band.up_to, index).map_or(Group::G, |band| band.group);
    Susceptibility { group, at_least: index > d11.si_bands.at_least_above }
}

/// What the annex is asked with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct D11Annex {
    /// Pcm, %.
    pub pcm: f64,
    /// Diffusible hydrogen, ml/100 g.
    pub hydrogen_ml: f64,
    /// Restraint.
    pub restraint: Restraint,
    /// Thickness, mm.
    pub thickness_mm: f64,
}

/// The minimum preheat and interpass of the annex: the higher of table and bands. Printed
/// with "or lower" by both it clears.
///
/// Pcm in %, H in ml/100 g; valid for Pcm under 0.38 and SI up to 7.
///
/// # Errors
/// An input that is not a number, negative, or that no weld has.
pub fn d11_annex(d11: &D11, asked: D11Annex) -> Result<Outcome, EngineError> {
    Domain::new("Pcm", 0.0, 10.0).check(asked.pcm)?;
    HYDROGEN.check(asked.hydrogen_ml)?;
    THICKNESS.check(asked.thickness_mm)?;
    worked(d11, asked).ok_or(EngineError::NoAnswer { reason: "table-has-no-row" })
}

fn worked(d11: &D11, asked: D11Annex) -> Option<Outcome> {
    let D11Annex { pcm, hydrogen_ml, restraint, thickness_mm } = asked;
    let index = susceptibility_index(pcm, hydrogen_ml);
    let found = [group_by_table(d11, pcm, hydrogen_ml), group_by_bands(d11, index)];
    let cell = |group: Group| d11.annex.cell(restraint, thickness_mm, group);
    let (by_table, by_bands) = (cell(found[0].group)?, cell(found[1].group)?);
    let printed = |cell: &Cell| Printed { c: Some(cell.c), f: Some(cell.f) };
    let [table_c, bands_c] = [by_table, by_bands].map(|cell| printed(cell).as_minimum_c());
    let bands_govern = bands_c > table_c;
    let (higher, group) = if bands_govern { (by_bands, found[1].group) } else { (by_table, found[0].group) };
    let mut steps = Vec::with_capacity(4);
    steps.extend([
        Step::new("SI", index, Unit::One),
        Step::new(group_symbols(found[0].group).0, table_c, Unit::Celsius),
        Step::new(group_symbols(found[1].group).1, bands_c, Unit::Celsius),
    ]);
    let level = level(d11, hydrogen_ml);
    let level_top = d11.levels.iter().find(|row| row.level == level).and_then(|row| row.up_to_ml);
    steps.extend(level_top.map(|top_ml| Step::new("H level up to", top_ml, Unit::MlPer100g)));
    let basis = if higher.seen { &d11.annex.seen_basis } else { &d11.annex.basis };
    let mut outcome = Outcome::new(Method::D11Annex, table_c.max(bands_c), Unit::Celsius)
        .of_row(group.letter())
        .from_inputs(vec![
            Checked::up_to("Pcm", pcm, Unit::Percent, d11.groups.pcm_below.last().copied()),
            Checked::up_to("SI", index, Unit::One, Some(d11.si_bands.at_least_above)),
            Checked::free("HD", hydrogen_ml, Unit::MlPer100g),
            Checked::free("d", thickness_mm, Unit::Millimetre),
        ])
        .worked(steps)
        .resting_on(basis);
    outcome.printed = Some(printed(higher));
    outcome.at_least = found.iter().any(|group| group.at_least);
    if by_table.or_lower && by_bands.or_lower {
        outcome.says = Says::Clears;
    }
    Some(outcome)
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

/// The annex's word on a member.
#[must_use]
pub fn on(case: &Case<'_>) -> Option<Evidence> {
    let asked = D11Annex {
        pcm: case.chemistry.pcm(),
        hydrogen_ml: case.hydrogen_ml,
        restraint: case.job.restraint,
        thickness_mm: case.member.thickness_mm,
    };
    worked(&case.reference.d11, asked).map(|outcome| case.evidence(outcome))
}
