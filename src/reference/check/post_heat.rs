//! Hydrogen's curves move the way that the physics moves, and every rule has its hours.

use std::collections::HashSet;

use super::{Fault, Faults, Rule};
use crate::reference::{DiffusivityPoint, PostHeatData, RuleTime};

pub(super) fn check(data: &PostHeatData, list: &mut Vec<Fault>) {
    let mut faults = Faults { file: "post_heat.ron", list };
    curve("slow", &data.diffusivity.slow, &mut faults);
    curve("fast", &data.diffusivity.fast, &mut faults);
    faults.range("limits", "left", Some(data.left), None, (0.001, 0.5));
    faults.range("limits", "temperature", Some(data.wait_from_c), Some(data.from_c), (50.0, 300.0));
    faults.range("limits", "fillet", Some(data.fillet_more_mm), None, (0.0, 10.0));
    faults.range("trapping", "times", Some(data.trapping.times), None, (1.0, 100.0));
    let drop = &data.austenite;
    faults.range("austenite", "drop", Some(drop.drop_floor_c), Some(drop.drop_from_c), (100.0, 400.0));
    faults.check(
        drop.drop_from_c - drop.under_m90_k >= drop.drop_floor_c,
        "austenite",
        Rule::RangeOrdered,
        || "the hold after the lowest drop lies below its floor".to_owned(),
    );
    let mut seen = HashSet::new();
    for rule in &data.rules {
        let id = rule.id.as_str();
        faults.check(seen.insert(id), id, Rule::UniqueId, || "the id occurs twice".to_owned());
        faults.range(id, "temperature", rule.low_c, rule.high_c, (100.0, 500.0));
        faults.check(rule.at_preheat != rule.low_c.is_some(), id, Rule::TableWhole, || {
            "it holds the preheat, or a temperature of its own".to_owned()
        });
        match &rule.time {
            RuleTime::Fixed { low_h, high_h } | RuleTime::PerDepth { low_h, high_h, .. } => {
                faults.range(id, "hours", Some(*low_h), Some(*high_h), (0.1, 24.0));
            }
            RuleTime::BySize(steps) => {
                let borders: Vec<_> = steps.iter().map(|step| Some(step.up_to_mm)).collect();
                faults.rising(id, "size", &borders);
                let rises = steps.windows(2).all(|pair| pair[0].hours <= pair[1].hours);
                faults.check(rises && !steps.is_empty(), id, Rule::TableWhole, || {
                    "a larger weld is held for a shorter time".to_owned()
                });
            }
        }
    }
}

fn curve(name: &str, points: &[DiffusivityPoint], faults: &mut Faults<'_>) {
    faults.check(points.len() > 1, name, Rule::TableWhole, || "a curve needs two points".to_owned());
    for pair in points.windows(2) {
        faults.check(pair[0].at_c < pair[1].at_c, name, Rule::RangeOrdered, || {
            format!("{} °C is not followed by a hotter point", pair[0].at_c)
        });
        faults.check(pair[0].cm2_per_s <= pair[1].cm2_per_s, name, Rule::TableWhole, || {
            format!("hydrogen is slower at {} °C than at {} °C", pair[1].at_c, pair[0].at_c)
        });
    }
    for point in points {
        faults.range(name, "D", Some(point.cm2_per_s), None, (1e-12, 1e-2));
    }
}
