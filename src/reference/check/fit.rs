//! Steps of diameters join, heavier fits are tighter, and metals grow where they are heated.

use super::{Fault, Faults, Rule, unique_rows};
use crate::reference::{FactorRange, Fit, Fits, HotLaw, Metal, Reference};

pub(super) fn check(reference: &Reference, list: &mut Vec<Fault>) {
    unique_rows(&reference.fits.coolants, "fits.ron", list);
    fits(&reference.fits, &mut Faults { file: "fits.ron", list });
    for metal in &reference.metals {
        self::metal(metal, &mut Faults { file: "expansion.ron", list });
    }
}

fn span(faults: &mut Faults<'_>, row: &str, name: &str, span: FactorRange, possible: (f64, f64)) {
    faults.range(row, name, Some(span.low), Some(span.high), possible);
}

fn fits(fits: &Fits, faults: &mut Faults<'_>) {
    for step in &fits.steps {
        let row = step.up_to_mm.to_string();
        faults.range(&row, "diameter", Some(step.over_mm), Some(step.up_to_mm), (1.0, 500.0));
        faults.range(&row, "width", Some(step.it6_um), Some(step.it7_um), (5.0, 100.0));
        let heavier = Fit::ALL.windows(2).all(|pair| step.lower_um(pair[0]) < step.lower_um(pair[1]));
        faults.check(heavier, &row, Rule::TableWhole, || "a heavier fit is not tighter".to_owned());
        faults.check(step.interference_um(Fit::P6).low >= 0.0, &row, Rule::TableWhole, || {
            "the loosest p6 has no interference".to_owned()
        });
    }
    for pair in fits.steps.windows(2) {
        let row = pair[1].up_to_mm.to_string();
        faults.check(pair[0].up_to_mm == pair[1].over_mm, &row, Rule::TableWhole, || {
            format!("the step before ends at {} mm", pair[0].up_to_mm)
        });
        let grows = Fit::ALL.iter().all(|&fit| pair[0].lower_um(fit) <= pair[1].lower_um(fit))
            && pair[0].it6_um <= pair[1].it6_um
            && pair[0].it7_um <= pair[1].it7_um;
        faults.check(grows, &row, Rule::TableWhole, || "a larger diameter has a smaller figure".to_owned());
    }
    span(faults, "friction", "dry", fits.friction_dry, (0.02, 0.5));
    span(faults, "friction", "oiled", fits.friction_oiled, (0.02, 0.5));
    faults.range("fits", "room", Some(fits.room_um_per_mm), None, (0.2, 5.0));
    faults.range("fits", "on the way", Some(fits.on_the_way_share), None, (0.0, 1.0));
    faults.range("fits", "on the way, K", Some(fits.on_the_way_k), None, (0.0, 100.0));
    faults.range("fits", "smoothing", Some(fits.smoothing_share), None, (0.0, 1.0));
    let gap = (fits.gap_loose_w_per_m2_k, fits.gap_tight_w_per_m2_k);
    faults.range("fits", "gap", Some(gap.0), Some(gap.1), (50.0, 20_000.0));
    faults.range("fits", "nitrogen", Some(fits.nitrogen_volumes), None, (600.0, 800.0));
    faults.range("fits", "carbon dioxide", Some(fits.carbon_dioxide_kg_per_m3), None, (1.5, 2.0));
    let oxygen = (fits.oxygen_least_percent, fits.oxygen_percent);
    faults.range("fits", "oxygen", Some(oxygen.0), Some(oxygen.1), (18.0, 21.0));
    let dioxide = (fits.carbon_dioxide_most_ppm, fits.carbon_dioxide_deadly_ppm);
    faults.range("fits", "carbon dioxide, ppm", Some(dioxide.0), Some(dioxide.1), (1000.0, 100_000.0));
    for coolant in &fits.coolants {
        faults.range(&coolant.id, "temperature", Some(coolant.at_c), None, (-200.0, 0.0));
    }
}

fn metal(metal: &Metal, faults: &mut Faults<'_>) {
    let id = metal.id.as_str();
    faults.range(id, "hottest", Some(metal.up_to_c), None, (100.0, 750.0));
    if let HotLaw::Means(means) = &metal.hot {
        for mean in means {
            faults.range(id, "expansion", Some(mean.low), Some(mean.high), (5.0, 30.0));
        }
        for pair in means.windows(2) {
            faults.check(pair[0].up_to_c < pair[1].up_to_c, id, Rule::RangeOrdered, || {
                format!("{} °C is not followed by a hotter figure", pair[0].up_to_c)
            });
            faults.check(pair[0].low <= pair[1].low, id, Rule::TableWhole, || {
                "the mean expansion falls with temperature".to_owned()
            });
        }
        let whole = means.last().is_some_and(|mean| mean.up_to_c == metal.up_to_c);
        faults.check(whole, id, Rule::TableWhole, || "the last figure is not that of the hottest".to_owned());
    }
    faults.check(metal.cold.is_empty() == metal.cold_basis.is_none(), id, Rule::TableWhole, || {
        "shrinkage and what it rests on go together".to_owned()
    });
    faults.check(
        metal.heat_mj_per_m3_k.is_none() == metal.heat_basis.is_none(),
        id,
        Rule::TableWhole,
        || "heat and what it rests on go together".to_owned(),
    );
    faults.range(id, "heat", metal.heat_mj_per_m3_k, None, (1.5, 6.0));
    let mut before = (20.0, 0.0);
    for point in &metal.cold {
        faults.range(id, "shrinkage", Some(point.per_mille), None, (0.1, 6.0));
        let shrinks = point.at_c < before.0 && point.per_mille > before.1;
        faults.check(shrinks, id, Rule::RangeOrdered, || {
            format!("{} °C is not colder and smaller than {} °C", point.at_c, before.0)
        });
        before = (point.at_c, point.per_mille);
    }
}
