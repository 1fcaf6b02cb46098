//! A caution that does not say when, or what to do, is none.

use super::{Fault, Faults, Rule};
use crate::reference::{Reference, Trigger};

pub(super) fn check(reference: &Reference, list: &mut Vec<Fault>) {
    let mut faults = Faults { file: "cautions.ron", list };
    let rule = Rule::CautionComplete;
    for caution in &reference.cautions {
        let row = &caution.id;
        faults.check(!caution.places.is_empty(), row, rule, || "it is listed nowhere".to_owned());
        faults.check(!caution.triggers.is_empty(), row, rule, || "it has no trigger".to_owned());
        for trigger in &caution.triggers {
            faults.check((1..=3).contains(&trigger.directness), row, rule, || {
                format!("directness {} is not 1 to 3", trigger.directness)
            });
            if let Trigger::PreheatAbove(above_c) = trigger.when {
                faults.range(row, "preheat above", Some(above_c), None, (0.0, 900.0));
            }
        }
    }
}
