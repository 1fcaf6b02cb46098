//! A caution that is listed nowhere, or that has no place of its own among the others, is none.

use std::collections::BTreeMap;

use super::{Fault, Faults, Rule};
use crate::reference::{Reference, Role, Trigger};

pub(super) fn check(reference: &Reference, list: &mut Vec<Fault>) {
    let mut faults = Faults { file: "cautions.ron", list };
    let rule = Rule::CautionComplete;
    let mut ranks = BTreeMap::new();
    for caution in &reference.cautions {
        let row = &caution.id;
        let listed = caution.role == Role::Caution;
        faults.check(listed != caution.places.is_empty(), row, rule, || {
            "a caution is listed somewhere, a line of the briefing and first aid are not".to_owned()
        });
        let triggers = || caution.stated.iter().chain(&caution.assumed);
        faults.check(listed || triggers().next().is_none(), row, rule, || {
            "only a caution has triggers".to_owned()
        });
        for trigger in triggers() {
            if let Trigger::PreheatAbove(above_c) = trigger {
                faults.range(row, "preheat above", Some(*above_c), None, (0.0, 900.0));
            }
        }
        let before = ranks.insert((caution.role == Role::FirstAid, caution.rank), row);
        faults.check(before.is_none(), row, rule, || {
            format!("it has the rank of {}", before.map_or("", String::as_str))
        });
    }
}
