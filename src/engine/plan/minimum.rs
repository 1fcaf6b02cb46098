//! What is the minimum preheat of the joint: the greatest over all obligations?

use super::figures::lies_under_buttering;
use super::member::Weighed;
use super::types::{Evidence, Family, Limit, Obligation, Says, Standing};
use super::{Part, round};
use crate::engine::evidence::{Case, d11, heat_affected, method, weld_metal};
use crate::engine::job::{Code, Job};
use crate::engine::source_ids::{OWN_DOCUMENT, published};
use crate::reference::{Basis, Printed, Reference};

/// Steel colder than this is warmed first, °C (D1.1); to [`WARM_TO_C`].
pub(super) const COLD_BELOW_C: f64 = 0.0;
/// What cold steel is warmed to, °C.
pub(super) const WARM_TO_C: f64 = 20.0;
/// Below this shop temperature, or in very humid air, Method B asks for more, °C.
pub(super) const COOL_BELOW_C: f64 = 5.0;
/// How much more, K (a steelmaker's handbook).
pub(super) const COOL_OR_DAMP_K: f64 = 25.0;
/// What a demand rests on.
pub(super) const AS_TYPED: Basis = published(OWN_DOCUMENT, "as typed");
/// A printed minimum up to this means "without preheat", °C (EN 1011-2).
pub(super) const WITHOUT_PREHEAT_C: f64 = 20.0;

/// The joint's minimum and all that it was weighed from.
#[derive(Debug, Clone, PartialEq)]
pub struct Minimum {
    /// The limit; `None` when nothing answers.
    pub limit: Option<Limit>,
    /// All evidence; what governs is marked.
    pub evidence: Vec<Evidence>,
    /// Was the weld metal left unasked because its filler is not known?
    pub weld_metal_unknown: bool,
}

/// Weighs all obligations of a job.
#[must_use]
pub(super) fn minimum(reference: &Reference, job: &Job, parts: &[Part], weighed: &[Weighed]) -> Minimum {
    let mut evidence: Vec<Evidence> = Vec::with_capacity(weighed.len() * 14 + 6);
    let mut candidates: Vec<usize> = Vec::new();
    for member in weighed {
        if let Some(by) = member.by {
            candidates.push(evidence.len() + by);
        }
        evidence.extend(member.evidence.iter().cloned());
    }
    let mut ask = |found: Vec<Evidence>| {
        for item in found {
            candidates.push(evidence.len());
            evidence.push(item);
        }
    };
    let any_method = parts.iter().any(|part| part.by_methods());
    let all_cleared = weighed.iter().all(|member| member.cleared);
    let weld_asked = any_method && !all_cleared;
    if weld_asked {
        ask(weld_metal::on(reference, job));
    }
    ask(code_minimum(reference, job, parts, weighed));
    ask(cold_or_damp(reference, job, parts, weighed));
    ask(demanded(job));
    let iron = parts.iter().any(|part| part.family == Family::Iron);
    let limit = govern(&mut evidence, &candidates, if iron { f64::NEG_INFINITY } else { job.shop_c });
    Minimum {
        limit,
        evidence,
        weld_metal_unknown: weld_asked && job.weld.cet.is_none() && !job.weld.austenitic,
    }
}

/// Marks the greatest candidate as governing and the rest by their range. Steel that is
/// as warm as a minimum of 20 °C or less needs no preheat; iron is warmed by hand anyway.
fn govern(evidence: &mut [Evidence], candidates: &[usize], steel_c: f64) -> Option<Limit> {
    let mut best: Option<(usize, f64)> = None;
    for &place in candidates {
        if let Some(value_c) = evidence[place].value_c()
            && best.is_none_or(|(_, best_c)| value_c > best_c)
        {
            best = Some((place, value_c));
        }
    }
    for item in evidence.iter_mut() {
        if item.standing == Standing::Governs {
            item.standing = if item.at_limit { Standing::AtLimit } else { Standing::InRange };
        }
    }
    let (place, value_c) = best?;
    evidence[place].standing = Standing::Governs;
    let governing = &evidence[place];
    let exact_c = if value_c <= WITHOUT_PREHEAT_C && steel_c >= value_c { 0.0 } else { value_c };
    Some(Limit {
        exact_c,
        printed: if exact_c > 0.0 { governing.printed } else { None },
        by: governing.id,
        member: governing.member,
        at_least: governing.at_limit,
        basis: governing.basis.clone(),
    })
}

/// O4: the category row of a listed grade, and the annex where the job names the code.
fn code_minimum(reference: &Reference, job: &Job, parts: &[Part], weighed: &[Weighed]) -> Vec<Evidence> {
    let mut found = Vec::new();
    for (index, part) in parts.iter().enumerate() {
        if !part.by_methods() || !weighed[index].cleared {
            continue;
        }
        let case = part.case(reference, job, index);
        found.extend(d11::category_on(&case).filter(|row| matches!(row.says, Says::Figure(_))));
        if job.code == Code::AwsD11 {
            found.extend(d11::annex_on(&case));
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
    let mut found = Vec::new();
    if job.shop_c < COLD_BELOW_C {
        let mut item =
            dry_evidence("cold-shop", Says::Figure(WARM_TO_C), method(reference, "cold-shop").basis.clone());
        item.printed = Some(Printed { c: Some(WARM_TO_C), f: Some(70.0) });
        found.push(item);
    }
    if job.shop_c < COOL_BELOW_C || job.damp {
        for (index, part) in parts.iter().enumerate() {
            if !part.by_methods() || weighed[index].cleared || lies_under_buttering(parts, index) {
                continue;
            }
            let case: Case<'_> = part.case(reference, job, index);
            let by_method_b = heat_affected::on(&case);
            if let Says::Figure(value_c) = by_method_b.says {
                let mut item = dry_evidence(
                    "cool-or-damp",
                    Says::Figure(value_c + COOL_OR_DAMP_K),
                    method(reference, "cool-or-damp").basis.clone(),
                );
                item.member = Some(index);
                item.at_limit = by_method_b.at_limit;
                item.range = by_method_b.range;
                found.push(item);
            }
        }
    }
    found
}

fn dry_evidence(id: &'static str, says: Says, basis: Basis) -> Evidence {
    Evidence::new(id, Obligation::DryAndWarm, says, basis)
}

/// O6: the figure that the reader typed from drawing, procedure or customer's sheet.
fn demanded(job: &Job) -> Vec<Evidence> {
    let Some(preheat_c) = job.demands.preheat_c else { return Vec::new() };
    let mut item = dry_evidence("demanded", Says::Figure(preheat_c), AS_TYPED);
    item.obligation = Obligation::Demanded;
    vec![item]
}

/// The minimum as shown in °C: our own figure rounded up to 5.
#[must_use]
pub(super) fn shown_c(limit: &Limit) -> f64 {
    as_shown_c(limit.exact_c, limit.printed)
}

/// A minimum as shown in °C: as printed, else rounded up to 5.
#[must_use]
pub(super) fn as_shown_c(exact_c: f64, printed: Option<Printed>) -> f64 {
    printed.and_then(|printed| printed.c).map_or_else(|| round::up_c(exact_c), |c| c.max(0.0))
}

/// Is a family weighed by methods?
#[must_use]
pub(super) const fn by_methods(family: Family) -> bool {
    matches!(family, Family::Structural | Family::QuenchedTempered | Family::PlainCarbon | Family::Hardenable)
}
