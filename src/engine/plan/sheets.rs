//! What do the families say that no carbon-equivalent method speaks for: iron, tool,
//! creep-resisting, stainless and other high-alloy steels?
//!
//! Each has a sheet of practice figures; no method is called. Iron has two routes that
//! are never blended: cold (nickel filler, short beads, hand-warm) and hot. A demanded
//! figure that a route cannot keep shuts that route. Source: `data/own_sheets.ron` and the
//! grade's own published row.

use super::upper;
use crate::engine::evidence::{Case, Evidence, naval_rows};
use crate::engine::family::{Family, Rungs};
use crate::engine::job::{Demands, Job, Restraint, Run};
use crate::engine::part::Part;
use crate::engine::{Outcome, Says, Unit, treatment};
use crate::reference::{
    Basis, Element, IronRoute, IronRouteKind, Method, Printed, Reference, Sheet, SheetCase, SheetGroup,
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
    /// Does the part stay under its own tempering temperature, whatever the figures say?
    pub below_own_temper: bool,
    /// What they rest on.
    pub basis: Basis,
}

const fn printed_c(c: f64) -> Printed {
    Printed { c: Some(c), f: None }
}

/// The routes for iron that keep what is demanded, cold first, each narrowed to it. Empty
/// for a dataset without them.
#[must_use]
pub(super) fn iron_routes(reference: &Reference, demands: &Demands) -> Vec<IronRoute> {
    [IronRouteKind::Cold, IronRouteKind::Hot]
        .into_iter()
        .filter_map(|kind| reference.own_sheets.iron_route(kind))
        .filter_map(|route| narrowed(route, demands))
        .collect()
}

/// A route with the demanded figures in it; `None` where they leave it no room.
fn narrowed(route: &IronRoute, demands: &Demands) -> Option<IronRoute> {
    let most_c = [demands.interpass_c, demands.ceiling_c, route.interpass_c]
        .into_iter()
        .flatten()
        .fold(f64::INFINITY, f64::min);
    let preheat_low_c = route.preheat_low_c.max(demands.preheat_c.unwrap_or(f64::NEG_INFINITY));
    let fits = preheat_low_c <= route.preheat_high_c && preheat_low_c + upper::LEAST_WINDOW_K <= most_c;
    fits.then(|| IronRoute {
        preheat_low_c,
        preheat_high_c: route.preheat_high_c.min(most_c),
        interpass_c: most_c.is_finite().then_some(most_c),
        ..route.clone()
    })
}

/// The sheet of a member: `None` for a family that methods speak for.
#[must_use]
pub(super) fn sheet(reference: &Reference, job: &Job, part: &Part<'_>) -> Option<SheetFigures> {
    match part.family {
        Family::Iron => iron_sheet(reference, &job.demands),
        Family::Creep => creep_sheet(reference, job, part),
        other if other.traits().rungs == Rungs::Sheet => plain_sheet(reference, part),
        _ => None,
    }
}

/// The first route that is open; where the demands shut both, the one that the demanded
/// preheat points at.
fn iron_sheet(reference: &Reference, demands: &Demands) -> Option<SheetFigures> {
    let open = iron_routes(reference, demands).first().map(|route| route.kind);
    let cold = reference.own_sheets.iron_route(IronRouteKind::Cold)?;
    let too_hot = demands.preheat_c.is_some_and(|preheat_c| preheat_c > cold.preheat_high_c);
    let shut = if too_hot { IronRouteKind::Hot } else { IronRouteKind::Cold };
    let route = reference.own_sheets.iron_route(open.unwrap_or(shut))?;
    Some(SheetFigures {
        row: route.id.clone(),
        minimum: Some(printed_c(route.preheat_low_c)),
        upper_c: Some(route.preheat_high_c),
        interpass: route.interpass_c.map(printed_c),
        below_own_temper: false,
        basis: route.basis.clone(),
    })
}

/// Vanadium from which a 9 % chromium steel counts as the modified kind, %.
const MODIFIED_VANADIUM: f64 = 0.15;

/// Chromium of 2.25Cr-1Mo steel, %: P22, A387-22, F22, WC9 and 10CrMo9-10 are one.
const ONE_STEEL_CHROMIUM: std::ops::RangeInclusive<f64> = 2.0..=2.8;

/// The group of the naval table by chromium: C-Mo, up to 2 % Cr, above; the modified 9 %
/// chromium steels have a sheet of their own.
fn creep_sheet(reference: &Reference, job: &Job, part: &Part<'_>) -> Option<SheetFigures> {
    let (member, chemistry) = (part.member, &part.chemistry);
    let cr = chemistry.nominal.get(Element::Cr);
    if cr > 8.0
        && chemistry.nominal.get(Element::V) >= MODIFIED_VANADIUM
        && let Some(sheet) = reference.own_sheets.sheet("nine-chromium-v")
    {
        return Some(figures_of(sheet));
    }
    let group = creep_group(reference, cr)?;
    // One steel is sold as pipe, plate, forging and casting of either strength: the harder row counts.
    let sold_both_ways = ONE_STEEL_CHROMIUM.contains(&cr);
    // What the table spares thin and weak parts holds for low hydrogen and an easy joint.
    let low = |run: &Run| reference.low_hydrogen(run.process.id());
    let easy = job.restraint != Restraint::High
        && job.hydrogen_ml() <= reference.d11.low_hydrogen_ml
        && job.runs.iter().all(low);
    // Else the part counts as thicker than any border of the table.
    let asked = SheetCase {
        tensile_mpa: treatment::tensile_mpa(member).filter(|_| easy && !sold_both_ways),
        thickness_mm: if easy { member.thickness_mm } else { f64::INFINITY },
        c: chemistry.nominal.get(Element::C),
        cr,
    };
    Some(SheetFigures {
        row: group.id.clone(),
        minimum: naval_rows::minimum(group, &asked).printed,
        upper_c: None,
        interpass: group.interpass,
        below_own_temper: false,
        basis: group.basis.clone(),
    })
}

/// The ceiling that a family's sheet prints, with what it rests on.
pub(super) fn ceiling_c(reference: &Reference, part: &Part<'_>) -> Option<(f64, Basis)> {
    let sheet = reference.own_sheets.sheet(part.family.traits().sheet?)?;
    Some((sheet.ceiling_c?, sheet.basis.clone()))
}

fn figures_of(sheet: &Sheet) -> SheetFigures {
    SheetFigures {
        row: sheet.id.clone(),
        minimum: sheet.preheat_low_c.map(printed_c),
        upper_c: sheet.preheat_high_c,
        interpass: sheet.interpass_c.map(printed_c),
        below_own_temper: sheet.below_own_temper,
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
fn plain_sheet(reference: &Reference, part: &Part<'_>) -> Option<SheetFigures> {
    let grade = part.member.steel.grade();
    if let Some(own) =
        grade.and_then(|grade| reference.own_sheets.sheet(&format!("tool-{}", grade.id.to_lowercase())))
    {
        return Some(figures_of(own));
    }
    let mut figures = figures_of(reference.own_sheets.sheet(part.family.traits().sheet?)?);
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
    let mut outcome = Outcome::open(Method::OwnSheet, Unit::Celsius)
        .of_row(figures.row.as_str())
        .resting_on(&figures.basis);
    outcome.value = figures.minimum.map(Printed::as_minimum_c);
    outcome.says = if outcome.value.is_some() { Says::Figure } else { Says::Clears };
    outcome.printed = figures.minimum;
    case.evidence(outcome)
}
