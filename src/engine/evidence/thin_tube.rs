//! Is it thin chromium-molybdenum tube, which needs no preheat?
//!
//! Printed for a wall up to 0.120 in, gas tungsten arc welded: no preheat, the tube at 70 °F or
//! warmer. It holds for steels no richer than 4135 (ours), 3 ml/100 g of hydrogen or less and a
//! restraint that is not high. Source: `data/practice.ron`, `thin_tube`.

use super::{Case, Evidence};
use crate::engine::carbon_equivalent::ceq_s49;
use crate::engine::{Checked, Outcome, Says};
use crate::reference::{Composition, Element, Method, Reference, ThinTube, Unit};

/// Silicon that the grade's maxima are taken with, %.
const SILICON: f64 = 0.35;
/// The answer that other texts give.
pub const OTHERS: &str = "thin-tube-others";
/// Elements that the equivalent counts.
const COUNTED: [Element; 5] = [Element::C, Element::Mn, Element::Cr, Element::Mo, Element::Ni];

/// No preheat for tube of this thickness, mm, the tube as warm as printed; where cold steel is preheated
/// anyway, the printed figure. The steel is known to be one that the row speaks for.
#[must_use]
pub fn thin_tube(tube: &ThinTube, thickness_mm: f64, hydrogen_ml: f64, cold: bool) -> Outcome {
    let mut outcome =
        Outcome::new(Method::ThinTube, tube.minimum.as_minimum_c(), Unit::Celsius).from_inputs(vec![
            Checked::up_to("d", thickness_mm, Unit::Millimetre, Some(tube.up_to_mm)),
            Checked::up_to("HD", hydrogen_ml, Unit::MlPer100g, Some(tube.hydrogen_max_ml)),
        ]);
    outcome.printed = Some(tube.minimum);
    if !cold {
        outcome.says = Says::Clears;
    }
    outcome
}

/// What other texts print for such tube, shown beside it.
#[must_use]
pub fn others(tube: &ThinTube) -> Outcome {
    let (low_c, high_c) = (tube.others_low.as_minimum_c(), tube.others_high.as_minimum_c());
    let outcome = Outcome::open(Method::ThinTube, Unit::Celsius).named(OTHERS).resting_on(&tube.others_basis);
    Outcome { says: Says::Span, low: Some(low_c), high: Some(high_c), ..outcome }
}

/// The row's word on a member that it speaks for.
#[must_use]
pub fn on(case: &Case<'_>) -> Option<Evidence> {
    let tube = &case.reference.practice.thin_tube;
    let process = |id| case.reference.process(id).is_some_and(|row| tube.arcs.contains(&row.arc));
    let speaks = case.member.thickness_mm <= tube.up_to_mm
        && case.hydrogen_ml <= tube.hydrogen_max_ml
        && !case.high_restraint()
        && case.job.runs.iter().all(|run| process(run.process.id()))
        && covers(case.reference, tube, &case.chemistry.nominal);
    let cold = case.job.shop_c < case.reference.d11.cold_start.below_c;
    let outcome = || thin_tube(tube, case.member.thickness_mm, case.hydrogen_ml, cold);
    speaks.then(|| case.evidence(outcome()))
}

/// A chromium-molybdenum steel no richer than the row's grade at its maxima.
fn covers(reference: &Reference, tube: &ThinTube, steel: &Composition) -> bool {
    let Some(grade) = reference.grade(&tube.ceq_grade) else { return false };
    let most = COUNTED.into_iter().fold(Composition::new(&[(Element::Si, SILICON)]), |made, element| {
        made.with(element, grade.max_of(element).unwrap_or(0.0))
    });
    steel.get(Element::C) <= tube.c_max
        && steel.get(Element::Mo) <= tube.mo_max
        && steel.get(Element::Ni) <= tube.ni_max
        && steel.get(Element::V) <= tube.v_max
        && steel.get(Element::B) < tube.b_below
        && ceq_s49(steel) <= ceq_s49(&most)
}
