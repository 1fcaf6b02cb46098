//! Fuel gas, electrodes in open air and slow cooling have figures that can be.

use super::{Fault, Faults, Rule, unique_rows};
use crate::reference::Reference;

pub(super) fn check(reference: &Reference, list: &mut Vec<Fault>) {
    unique_rows(&reference.fuels.fuels, "fuels.ron", list);
    unique_rows(&reference.fuels.tips, "fuels.ron", list);
    unique_rows(&reference.electrode_exposure.classes, "electrode_exposure.ron", list);
    fuels(reference, &mut Faults { file: "fuels.ron", list });
    exposure(reference, &mut Faults { file: "electrode_exposure.ron", list });
    cooling(reference, &mut Faults { file: "slow_cooling.ron", list });
}

fn fuels(reference: &Reference, faults: &mut Faults<'_>) {
    let fuels = &reference.fuels;
    for fuel in &fuels.fuels {
        faults.range(&fuel.id, "heating value", Some(fuel.net_mj_per_m3), None, (20.0, 130.0));
    }
    for tip in &fuels.tips {
        for flow in [tip.acetylene_ft3_per_h, tip.propane_ft3_per_h] {
            faults.range(&tip.id, "flow", Some(flow.low), Some(flow.high), (1.0, 1000.0));
        }
    }
    for pair in fuels.tips.windows(2) {
        let grows = pair[0].acetylene_ft3_per_h.high < pair[1].acetylene_ft3_per_h.high
            && pair[0].propane_ft3_per_h.high < pair[1].propane_ft3_per_h.high;
        faults.check(grows, &pair[1].id, Rule::TableWhole, || "a larger tip has a smaller flow".to_owned());
    }
    let efficiency = fuels.efficiency;
    faults.range("efficiency", "low", Some(efficiency.low), Some(efficiency.likely), (0.05, 0.9));
    faults.range("efficiency", "high", Some(efficiency.likely), Some(efficiency.high), (0.05, 0.9));
    let draw = &fuels.draw;
    faults.check(draw.older < draw.intermittent, "draw", Rule::RangeOrdered, || {
        "the older rule is not the looser one".to_owned()
    });
    faults.check(draw.intermittent < draw.continuous, "draw", Rule::RangeOrdered, || {
        "a draw that goes on is not the slower one".to_owned()
    });
}

fn exposure(reference: &Reference, faults: &mut Faults<'_>) {
    let exposure = &reference.electrode_exposure;
    for class in &exposure.classes {
        faults.range(&class.id, "hours", Some(class.hours), Some(class.tested_hours), (0.1, 24.0));
        let resistant = class.moisture_resistant_hours;
        faults.range(&class.id, "hours with R", Some(class.hours), resistant, (0.1, 24.0));
    }
    for pair in exposure.classes.windows(2) {
        faults.check(pair[0].hours > pair[1].hours, &pair[1].id, Rule::TableWhole, || {
            "a stronger electrode may lie longer".to_owned()
        });
    }
    faults.range("oven", "temperature", Some(exposure.oven_c), None, (60.0, 450.0));
    faults.range("oven", "hours", Some(exposure.oven_hours), None, (0.1, 24.0));
}

fn cooling(reference: &Reference, faults: &mut Faults<'_>) {
    for row in &reference.slow_cooling {
        faults.range(&row.id, "rate", row.least_k_per_h, row.at_most_k_per_h, (5.0, 500.0));
        faults.range(&row.id, "temperature", row.first_to_c, row.until_c, (20.0, 300.0));
        faults.check(
            row.at_most_k_per_h.is_some() == row.until_c.is_some(),
            &row.id,
            Rule::TableWhole,
            || "a rate and its end go together".to_owned(),
        );
        faults.check(!(row.no_blanket && row.until_c.is_some()), &row.id, Rule::TableWhole, || {
            "it is cooled slowly and harmed by it".to_owned()
        });
    }
}
