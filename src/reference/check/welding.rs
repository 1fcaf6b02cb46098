//! Runs, strength and current of a weld have figures that can be, and tables that move one way.

use super::{Fault, Faults, Rule, unique_rows};
use crate::reference::{
    FactorRange, UsualRange, WeldCracks, WeldCurrent, WeldRuns, WeldStrength, WeldTreatment, Welding,
};

pub(super) fn check(welding: &Welding, list: &mut Vec<Fault>) {
    unique_rows(&welding.runs.processes, "weld_runs.ron", list);
    unique_rows(&welding.strength.correlation, "weld_strength.ron", list);
    unique_rows(&welding.current.torches, "weld_current.ron", list);
    unique_rows(&welding.current.electrodes, "weld_current.ron", list);
    unique_rows(&welding.current.wires, "weld_current.ron", list);
    unique_rows(&welding.current.load_lines, "weld_current.ron", list);
    runs(&welding.runs, &mut Faults { file: "weld_runs.ron", list });
    strength(&welding.strength, &mut Faults { file: "weld_strength.ron", list });
    current(&welding.current, &mut Faults { file: "weld_current.ron", list });
    unique_rows(&welding.cracks.shapes, "weld_cracks.ron", list);
    cracks(&welding.cracks, &mut Faults { file: "weld_cracks.ron", list });
    treatment(&welding.treatment, &mut Faults { file: "weld_treatment.ron", list });
}

/// A figure that has to stand inside what is possible.
fn one(faults: &mut Faults<'_>, row: &str, name: &str, value: f64, possible: (f64, f64)) {
    faults.range(row, name, Some(value), None, possible);
}

fn ends(faults: &mut Faults<'_>, row: &str, name: &str, range: FactorRange, possible: (f64, f64)) {
    faults.range(row, name, Some(range.low), Some(range.high), possible);
}

fn usual(faults: &mut Faults<'_>, row: &str, name: &str, range: UsualRange, possible: (f64, f64)) {
    faults.range(row, name, Some(range.low), Some(range.usual), possible);
    faults.range(row, name, Some(range.usual), Some(range.high), possible);
}

fn runs(runs: &WeldRuns, faults: &mut Faults<'_>) {
    for row in &runs.processes {
        usual(faults, &row.id, "area by energy", row.per_energy_mm2, (1.0, 60.0));
        usual(faults, &row.id, "share of arc time", row.arc_share, (0.05, 1.0));
        one(faults, &row.id, "area of a run", row.run_mm2, (1.0, 120.0));
        one(faults, &row.id, "share deposited", row.deposited_share, (0.3, 1.0));
        one(faults, &row.id, "slice", row.slice_mm, (1.0, 10.0));
        one(faults, &row.id, "rate at 100 A", row.rate.at(100.0), (0.1, 6.0));
        let legs = row.largest_leg_mm;
        for leg in [legs.flat, legs.horizontal, legs.vertical_up, legs.overhead] {
            faults.range(&row.id, "largest leg", leg, None, (2.0, 15.0));
        }
    }
    let borders: Vec<_> = runs.least_legs.iter().map(|row| row.up_to_mm).collect();
    faults.rising("least legs", "thickness", &borders);
    for pair in runs.least_legs.windows(2) {
        faults.check(pair[0].leg_mm < pair[1].leg_mm, "least legs", Rule::TableWhole, || {
            "a thicker part may have a smaller leg".to_owned()
        });
    }
    let borders: Vec<_> = runs.convexities.iter().map(|row| row.up_to_mm).collect();
    faults.rising("convexities", "width", &borders);
    one(faults, "runs", "convexity", runs.convexity_share, (0.0, 0.2));
    one(faults, "runs", "share of a run", runs.short_share, (0.0, 0.3));
    one(faults, "runs", "density", runs.density_kg_per_mm3, (7e-6, 9e-6));
    one(faults, "runs", "recovery", runs.recovery, (0.8, 2.0));
    one(faults, "runs", "stub", runs.stub_mm, (20.0, 100.0));
    ends(faults, "runs", "gas after", runs.gas_after_s, (0.0, 60.0));
}

fn strength(strength: &WeldStrength, faults: &mut Faults<'_>) {
    let row = "strength";
    one(faults, row, "share in shear", strength.shear_share, (0.5, 0.65));
    one(faults, row, "resistance factor", strength.resistance, (0.5, 0.9));
    one(faults, row, "safety factor", strength.safety, (1.5, 3.0));
    one(faults, row, "partial factor", strength.partial, (1.0, 1.5));
    one(faults, row, "rounding", strength.same_share, (0.0, 0.02));
    for steel in &strength.correlation {
        one(faults, &steel.id, "correlation factor", steel.factor, (0.8, 1.0));
    }
    let dry = &strength.hydrogen;
    faults.rising(row, "hydrogen", &[Some(dry.rich_ml), Some(dry.usual_ml), Some(dry.thin_ml)]);
    faults.rising(row, "carbon", &[Some(dry.lean_carbon), Some(dry.rich_carbon), Some(dry.hardest_carbon)]);
    faults.rising(row, "carbon equivalent", &[Some(dry.lean_ce), Some(dry.rich_ce)]);
    let steps: Vec<_> = strength.steps_mpa.iter().map(|step| Some(*step)).collect();
    faults.rising(row, "strength step", &steps);
}

fn current(current: &WeldCurrent, faults: &mut Faults<'_>) {
    for pair in current.gtaw.windows(2) {
        let rises = pair[0].thickness_mm < pair[1].thickness_mm
            && pair[0].butt_a.high < pair[1].butt_a.high
            && pair[0].fillet_a.low < pair[1].fillet_a.low
            && pair[0].fillet_a.high < pair[1].fillet_a.high;
        faults.check(rises, "gtaw", Rule::TableWhole, || "a thicker part takes fewer amperes".to_owned());
    }
    for row in &current.gtaw {
        ends(faults, "gtaw", "butt", row.butt_a, (10.0, 400.0));
        ends(faults, "gtaw", "fillet", row.fillet_a, (10.0, 400.0));
    }
    for pair in current.tungsten.windows(2) {
        let rises = pair[0].diameter_mm < pair[1].diameter_mm
            && pair[0].comfortable_a.high < pair[1].comfortable_a.high;
        faults.check(rises, "tungsten", Rule::TableWhole, || "a thicker tungsten carries less".to_owned());
    }
    for row in &current.tungsten {
        ends(faults, "tungsten", "comfortable", row.comfortable_a, (5.0, 600.0));
        ends(faults, "tungsten", "composite", row.composite_a, (5.0, 900.0));
    }
    for row in &current.rods {
        ends(faults, "rods", "current", row.amps, (5.0, 500.0));
    }
    for row in &current.torches {
        one(faults, &row.id, "current", row.amps, (50.0, 600.0));
        one(faults, &row.id, "duty", row.duty_percent, (20.0, 100.0));
    }
    for row in &current.electrodes {
        ends(faults, &row.id, "current", row.amps, (20.0, 500.0));
    }
    for row in &current.wires {
        one(faults, &row.id, "spray current", row.spray_from_a, (50.0, 500.0));
    }
    for row in &current.load_lines {
        one(faults, &row.id, "volts", row.base_v, (5.0, 30.0));
    }
    one(faults, "current", "start", current.start_share, (0.5, 1.0));
    one(faults, "current", "over rated", current.most_over_rated, (1.0, 1.5));
}

fn cracks(cracks: &WeldCracks, faults: &mut Faults<'_>) {
    for row in &cracks.mn_s {
        faults.range("mn-s", "carbon", Some(row.over), Some(row.up_to), (0.0, 0.3));
    }
    let borders: Vec<_> = cracks.hydrogen.iter().map(|row| row.up_to_ml).collect();
    faults.rising("hydrogen", "hydrogen", &borders);
    for pair in cracks.hydrogen.windows(2) {
        faults.check(pair[0].most_hv > pair[1].most_hv, "hydrogen", Rule::TableWhole, || {
            "more hydrogen may be harder".to_owned()
        });
    }
    for (name, steps) in [("throat", &cracks.throat), ("plate", &cracks.plate)] {
        let borders: Vec<_> = steps.iter().map(|step| step.up_to_mm).collect();
        faults.rising(name, "size", &borders);
        for pair in steps.windows(2) {
            faults.check(pair[0].z < pair[1].z, name, Rule::TableWhole, || "larger strains less".to_owned());
        }
    }
    for row in &cracks.wear_plate {
        for pair in row.steps.windows(2) {
            let rises = pair[0].from_mm < pair[1].from_mm && pair[0].at_c < pair[1].at_c;
            faults.check(rises, "wear plate", Rule::TableWhole, || "thicker is colder".to_owned());
        }
        for step in &row.steps {
            one(faults, "wear plate", "preheat", step.at_c, (50.0, cracks.wear_plate_most_c));
        }
    }
    for pair in cracks.bent.windows(2) {
        faults.check(pair[0].from > pair[1].from, "bent", Rule::RangeOrdered, || {
            "a tighter bend stands first".to_owned()
        });
    }
    ends(faults, "cracks", "width over depth", cracks.width_depth, (0.5, 3.0));
    ends(faults, "cracks", "downslope", cracks.downslope_s, (0.5, 30.0));
    one(faults, "cracks", "carbon of a buttering", cracks.butter_most_carbon, (0.05, 0.2));
}

fn treatment(data: &WeldTreatment, faults: &mut Faults<'_>) {
    faults.range("treatment", "temperature", Some(data.from_c), Some(data.to_c), (300.0, 800.0));
    one(faults, "treatment", "constant", data.constant, (15.0, 25.0));
    let mut before = (0.0, data.navsea_h_per_inch);
    for row in &data.navsea_lower {
        let rises = row.less_k > before.0 && row.h_per_inch > before.1;
        faults.check(rises, "navsea", Rule::TableWhole, || "colder takes less time".to_owned());
        before = (row.less_k, row.h_per_inch);
    }
    for rate in [data.en_rate, data.asme_heating, data.asme_cooling] {
        faults.range("treatment", "rate", Some(rate.least), Some(rate.most), (10.0, 500.0));
    }
}
