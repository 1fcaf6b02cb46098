//! What is the minimum preheat of the joint: the greatest over all obligations?

use super::Edge;
use super::figures::lies_under_buttering;
use super::limit::Limit;
use super::member::Weighed;
use crate::engine::evidence::{
    Case, Evidence, NO_PREHEAT_BELOW_C, Obligation, Standing, cool_or_damp, d11_annex, d11_category,
    weld_metal,
};
use crate::engine::family::Family;
use crate::engine::job::{Code, Job};
use crate::engine::part::Part;
use crate::engine::treatment::has_left_its_name;
use crate::engine::{Outcome, Says, Unit};
use crate::reference::{Method, Printed, Reference};
use crate::units::{Side, TemperatureUnit, limit_value};

/// The joint's minimum and all that it was weighed from.
#[derive(Debug, Clone, PartialEq)]
pub struct Minimum {
    /// The limit; `None` when nothing answers.
    pub limit: Option<Limit>,
    /// All evidence; what governs is marked.
    pub evidence: Vec<Evidence>,
    /// Was the weld metal left unasked because its filler is not known?
    pub weld_metal_unknown: bool,
    /// Where no preheat is needed the steel is still dry and no colder than this.
    pub dry_from: Edge,
}

/// Steel that needs no preheat is dry and no colder than this, °C.
const DRY_FROM_C: f64 = 5.0;

/// The warmest that a source prints, or a document demands, for steel that needs no preheat.
fn dry_from(evidence: &[Evidence], candidates: &[usize]) -> Edge {
    let no_preheat = |outcome: &Outcome| {
        let printed = outcome.printed.is_some() || outcome.method == Method::Demanded;
        let none = outcome.says == Says::Clears || outcome.value.is_some_and(|c| c <= NO_PREHEAT_BELOW_C);
        outcome.unit == Unit::Celsius && printed && none
    };
    let edges =
        candidates.iter().map(|place| &evidence[*place].outcome).filter(|outcome| no_preheat(outcome));
    edges
        .filter_map(|outcome| Some(Edge { exact_c: outcome.value?, printed: outcome.printed }))
        .filter(|edge| edge.exact_c > DRY_FROM_C)
        .max_by(|one, other| one.exact_c.total_cmp(&other.exact_c))
        .unwrap_or_else(|| Edge::own(DRY_FROM_C))
}

/// Weighs all obligations of a job.
#[must_use]
pub(super) fn minimum(
    reference: &Reference,
    job: &Job,
    parts: &[Part],
    mut weighed: Vec<Weighed>,
) -> Minimum {
    let mut evidence: Vec<Evidence> = Vec::with_capacity(weighed.len() * 14 + 6);
    let mut candidates: Vec<usize> = Vec::new();
    let thin_tube = weighed.iter().all(Weighed::is_thin_tube);
    for member in &mut weighed {
        if let Some(by) = member.by {
            candidates.push(evidence.len() + by);
        }
        evidence.append(&mut member.evidence);
    }
    let mut ask = |found: Vec<Evidence>| {
        for item in found {
            candidates.push(evidence.len());
            evidence.push(item);
        }
    };
    let any_method = parts.iter().any(Part::weld_metal_is_weighed);
    let all_cleared = weighed.iter().all(|member| member.cleared);
    let weld_asked = any_method && !all_cleared;
    // What clears a steel is made for ordinary weld metal; thin tube has rod of its own analysis.
    let counts = job.weld.beyond_ordinary() && !thin_tube;
    if weld_asked || any_method && counts {
        ask(weld_metal::on(reference, job));
    }
    ask(code_minimum(reference, job, parts));
    ask(cold_or_damp(reference, job, parts, &weighed));
    ask(demanded(job).into_iter().collect());
    let dry_from = dry_from(&evidence, &candidates);
    let unmarked = job.members.iter().any(|member| member.steel.is_unmarked());
    let iron = parts.iter().any(|part| part.family == Family::Iron);
    let limit =
        govern(reference, &mut evidence, &candidates, if iron { f64::NEG_INFINITY } else { job.shop_c })
            // Of a steel without a mark no more is known than that.
            .map(|limit| Limit { at_least: limit.at_least || unmarked, ..limit });
    Minimum {
        limit,
        evidence,
        dry_from,
        weld_metal_unknown: weld_asked && job.weld.cet.is_none() && !job.weld.austenitic,
    }
}

/// Marks the greatest candidate as governing and the rest by their range. Steel that is
/// as warm as a minimum of 20 °C or less needs no preheat; iron is warmed by hand anyway.
fn govern(
    reference: &Reference,
    evidence: &mut [Evidence],
    candidates: &[usize],
    steel_c: f64,
) -> Option<Limit> {
    // Of two equal ones the one that is shown higher: a source may print a rounded figure.
    let shown = |place: usize, value_c| as_shown_c(value_c, evidence[place].outcome.printed);
    let mut best: Option<(usize, f64)> = None;
    for &place in candidates {
        if let Some(value_c) = evidence[place].value_c()
            && best.is_none_or(|(at, best_c)| (value_c, shown(place, value_c)) > (best_c, shown(at, best_c)))
        {
            best = Some((place, value_c));
        }
    }
    for item in evidence.iter_mut() {
        if item.standing == Standing::Governs {
            item.standing = Standing::of(&item.outcome);
        }
    }
    let (place, value_c) = best?;
    evidence[place].standing = Standing::Governs;
    let governing = &evidence[place];
    let outcome = &governing.outcome;
    let exact_c = if value_c <= NO_PREHEAT_BELOW_C && steel_c >= value_c { 0.0 } else { value_c };
    Some(Limit {
        exact_c,
        printed: if exact_c > 0.0 { outcome.printed } else { None },
        by: outcome.method.id(),
        member: governing.member,
        at_least: outcome.at_least,
        basis: outcome.basis(&reference.methods).clone(),
    })
}

/// O4: where the job names AWS D1.1, the category row of a listed grade; the annex is the code's
/// alternative for a steel that no category lists. A certificate that leaves its grade keeps the
/// row as a floor, and is asked the annex as well.
fn code_minimum(reference: &Reference, job: &Job, parts: &[Part]) -> Vec<Evidence> {
    let mut found = Vec::new();
    if job.code != Code::AwsD11 {
        return found;
    }
    for (index, part) in parts.iter().enumerate() {
        if !part.may_go_by_methods() || lies_under_buttering(parts, index) {
            continue;
        }
        let case = Case::of(reference, job, part, index);
        let row = d11_category::on(&case);
        let listed = row.is_some() && !has_left_its_name(part.member);
        found.extend(row);
        if !listed {
            found.extend(d11_annex::on(&case));
        }
    }
    for item in &mut found {
        item.obligation = Obligation::Code;
    }
    found
}

/// O5: steel under 0 °C is warmed; in a cool shop or damp air Method B asks for 25 K
/// more on every member that is not cleared and whose own zone is heated.
fn cold_or_damp(reference: &Reference, job: &Job, parts: &[Part], weighed: &[Weighed]) -> Vec<Evidence> {
    let mut found: Vec<Evidence> = cold_shop(reference, job).into_iter().collect();
    if job.shop_c < cool_or_damp::COOL_BELOW_C || job.damp {
        for (index, part) in parts.iter().enumerate() {
            if !part.may_go_by_methods() || weighed[index].cleared || lies_under_buttering(parts, index) {
                continue;
            }
            found.extend(cool_or_damp::on(&Case::of(reference, job, part, index)));
        }
    }
    found
}

/// What cold steel is warmed to (D1.1).
fn cold_shop(reference: &Reference, job: &Job) -> Option<Evidence> {
    let cold = &reference.d11.cold_start;
    if job.shop_c >= cold.below_c {
        return None;
    }
    let mut outcome = Outcome::new(Method::ColdShop, cold.warm_to_c, Unit::Celsius);
    outcome.printed = Some(Printed { c: Some(cold.warm_to_c), f: Some(cold.warm_to_f) });
    Some(Evidence::new(outcome, Obligation::DryAndWarm))
}

/// O6: the figure that the reader typed from drawing, procedure or customer's sheet.
fn demanded(job: &Job) -> Option<Evidence> {
    let outcome = Outcome::new(Method::Demanded, job.demands.preheat_c?, Unit::Celsius);
    Some(Evidence::new(outcome, Obligation::Demanded))
}

/// The minimum as shown in °C: our own figure rounded up to 5.
#[must_use]
pub(super) fn shown_c(limit: &Limit) -> f64 {
    as_shown_c(limit.exact_c, limit.printed)
}

/// A minimum as shown in °C, by the rounding of every screen and text: as printed, else up to 5.
#[must_use]
pub(super) fn as_shown_c(exact_c: f64, printed: Option<Printed>) -> f64 {
    limit_value(Side::Minimum, exact_c, printed, TemperatureUnit::C).max(0.0)
}

/// A member's own minimum, exact and as printed: the greatest that speaks for its
/// heat-affected zone. Iron is warmed by hand: its 20 °C are no "without preheat".
pub(super) fn member_minimum(
    evidence: &[Evidence],
    index: usize,
    kin: Family,
) -> Option<(f64, Option<Printed>)> {
    evidence
        .iter()
        .filter(|item| item.member == Some(index) && item.obligation == Obligation::HeatAffectedZone)
        .filter(|item| item.standing != Standing::ShownOnly)
        .filter_map(|item| Some((item.value_c()?, item.outcome.printed)))
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|found| {
            let none = found.0 <= NO_PREHEAT_BELOW_C && kin != Family::Iron;
            if none { (0.0, None) } else { found }
        })
}
