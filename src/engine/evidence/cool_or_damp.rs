//! What do a cool shop and damp air add to Method B?

use super::{Case, Evidence, Obligation, method_b};
use crate::engine::{Outcome, Says, Step};
use crate::reference::{Method, Unit};

/// Below this shop temperature, or in very humid air, Method B asks for more, °C.
pub const COOL_BELOW_C: f64 = 5.0;
/// How much more, K (a steelmaker's handbook).
pub const COOL_OR_DAMP_K: f64 = 25.0;

/// Method B's figure and 25 K; nothing where Method B asks for no preheat.
#[must_use]
pub fn cool_or_damp(method_b: Outcome) -> Option<Outcome> {
    if method_b.says != Says::Figure {
        return None;
    }
    let mut outcome = Outcome { method: Method::CoolOrDamp, name: Method::CoolOrDamp.id(), ..method_b };
    outcome.value = outcome.value.map(|value_c| value_c + COOL_OR_DAMP_K);
    outcome.raw = outcome.raw.map(|raw_c| raw_c + COOL_OR_DAMP_K);
    outcome.steps.push(Step::new("cool or damp", COOL_OR_DAMP_K, Unit::Kelvin));
    Some(outcome)
}

/// The rule's word on a member.
#[must_use]
pub fn on(case: &Case<'_>) -> Option<Evidence> {
    let held = method_b::held(case.row(Method::MethodB), &method_b::asked_of(case));
    let outcome = cool_or_damp(held)?;
    Some(Evidence { obligation: Obligation::DryAndWarm, ..case.evidence(outcome) })
}
