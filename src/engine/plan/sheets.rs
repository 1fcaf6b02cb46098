//! What do the families say that no carbon-equivalent method speaks for: iron, tool,
//! creep-resisting, stainless and other high-alloy steels?
//!
//! Each has a sheet of practice figures; no method is called. Iron has two routes that
//! are never blended: cold (nickel filler, short beads, hand-warm) and hot. Source:
//! `data/own_sheets.ron` and the grade's own published row.

use super::types::{Evidence, Family, Says, Standing};
use super::{Chemistry, family};
use crate::engine::evidence::{Case, d11::higher_c};
use crate::engine::job::Member;
use crate::reference::{
    Basis, Element, GradeFamily, IronRoute, IronRouteKind, Printed, Reference, Sheet, SheetCase, SheetGroup,
};

/// What a sheet says of a member.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct SheetFigures {
    /// The sheet's row.
    pub row: String,
    /// Minimum preheat; `None` when none is asked.
    pub minimum: Option<Printed>,
    /// Upper end of the preheat, °C.
    pub upper_c: Option<f64>,
    /// Maximum interpass.
    pub interpass: Option<Printed>,
    /// What they rest on.
    pub basis: Basis,
}

const fn printed_c(c: f64) -> Printed {
    Printed { c: Some(c), f: None }
}

/// The two routes for iron, cold first. Empty for a dataset without them.
#[must_use]
pub(super) fn iron_routes(reference: &Reference) -> Vec<&IronRoute> {
    [IronRouteKind::Cold, IronRouteKind::Hot]
        .into_iter()
        .filter_map(|kind| reference.own_sheets.iron_route(kind))
        .collect()
}

/// The sheet of a member: `None` for a family that methods speak for.
#[must_use]
pub(super) fn sheet(
    reference: &Reference,
    member: &Member,
    chemistry: &Chemistry,
    kin: Family,
) -> Option<SheetFigures> {
    match kin {
        Family::Iron => iron_sheet(reference),
        Family::Creep => creep_sheet(reference, member, chemistry),
        Family::Tool | Family::Stainless | Family::HighAlloy => {
            plain_sheet(reference, member, chemistry, kin)
        }
        _ => None,
    }
}

fn iron_sheet(reference: &Reference) -> Option<SheetFigures> {
    let cold = reference.own_sheets.iron_route(IronRouteKind::Cold)?;
    Some(SheetFigures {
        row: cold.id.clone(),
        minimum: Some(printed_c(cold.preheat_low_c)),
        upper_c: Some(cold.preheat_high_c),
        interpass: cold.interpass_c.map(printed_c),
        basis: cold.basis.clone(),
    })
}

/// Vanadium from which a 9 % chromium steel counts as the modified kind, %.
const MODIFIED_VANADIUM: f64 = 0.15;

/// The group of the naval table by chromium: C-Mo, up to 2 % Cr, above; the modified 9 %
/// chromium steels have a sheet of their own.
fn creep_sheet(reference: &Reference, member: &Member, chemistry: &Chemistry) -> Option<SheetFigures> {
    let cr = chemistry.nominal.get(Element::Cr);
    if cr > 8.0
        && chemistry.nominal.get(Element::V) >= MODIFIED_VANADIUM
        && let Some(sheet) = reference.own_sheets.sheet("nine-chromium-v")
    {
        return Some(figures_of(sheet));
    }
    let group = creep_group(reference, cr)?;
    let minimum = group.minimum(&SheetCase {
        tensile_mpa: family::tensile_mpa(member),
        thickness_mm: member.thickness_mm,
        c: chemistry.nominal.get(Element::C),
        cr,
    });
    Some(SheetFigures {
        row: group.id.clone(),
        minimum: Some(minimum),
        upper_c: None,
        interpass: group.interpass,
        basis: group.basis.clone(),
    })
}

fn figures_of(sheet: &Sheet) -> SheetFigures {
    SheetFigures {
        row: sheet.id.clone(),
        minimum: sheet.preheat_low_c.map(printed_c),
        upper_c: sheet.preheat_high_c,
        interpass: sheet.interpass_c.map(printed_c),
        basis: sheet.basis.clone(),
    }
}

fn creep_group(reference: &Reference, cr: f64) -> Option<&SheetGroup> {
    let id = if cr < 0.5 {
        "s-3"
    } else if cr <= 2.0 {
        "s-4"
    } else {
        "s-5"
    };
    reference.own_sheets.group(id)
}

/// Tool, stainless and other high-alloy steels: a sheet for the very grade first, then
/// the grade's own published row, then the family's sheet.
fn plain_sheet(
    reference: &Reference,
    member: &Member,
    chemistry: &Chemistry,
    kin: Family,
) -> Option<SheetFigures> {
    let grade = member.steel.grade();
    if let Some(own) =
        grade.and_then(|grade| reference.own_sheets.sheet(&format!("tool-{}", grade.id.to_lowercase())))
    {
        return Some(figures_of(own));
    }
    let id = match (kin, grade.map(|grade| grade.family)) {
        (Family::Stainless, Some(GradeFamily::StainlessFerritic)) => "stainless-ferritic",
        (Family::Stainless, Some(GradeFamily::StainlessAustenitic)) => "stainless-austenitic",
        (Family::Stainless, None) if chemistry.nominal.get(Element::Ni) >= 6.0 => "stainless-austenitic",
        (Family::Stainless, _) => "stainless-martensitic",
        (Family::HighAlloy, _) if chemistry.nominal.get(Element::Mn) > 3.0 => "high-manganese",
        _ => "tool",
    };
    let mut figures = figures_of(reference.own_sheets.sheet(id)?);
    let published = grade.and_then(|grade| grade.published_preheat.as_ref().map(|row| (grade, row)));
    if let Some((grade, published)) = published.filter(|(_, published)| !published.sae_chart) {
        if let Some(low_c) = published.low_c {
            figures.minimum = Some(printed_c(low_c));
            figures.basis = published.basis.clone();
            figures.row.clone_from(&grade.id);
        }
        figures.upper_c = published.high_c.or(figures.upper_c);
    }
    Some(figures)
}

/// The sheet as a piece of evidence on the member's heat-affected zone.
#[must_use]
pub(super) fn evidence(case: &Case<'_>, figures: &SheetFigures) -> Evidence {
    let says = figures.minimum.map_or(Says::Clears, |minimum| Says::Figure(higher_c(minimum)));
    let mut evidence = case.evidence("own-sheet", says, figures.basis.clone());
    evidence.row = Some(figures.row.clone());
    evidence.printed = figures.minimum;
    evidence.standing = Standing::InRange;
    evidence
}
