//! Whole histories against a second program of the same model.
#![allow(clippy::unwrap_used, reason = "a table that can't be read fails the test")]

use serde_json::Value;
use strawblue::engine::heat_cycle::{Cooled, Cycle, Fineness, HeatCycle, Refusal, Source, Surfaces};

use super::joints::{AIR, BLANKET, DRAUGHT, cycle, demo, pass, shape};

/// The vectors of a kind of question.
pub(super) fn vectors(function: &str) -> Vec<Value> {
    let all: Value = serde_json::from_str(include_str!("vectors.json")).unwrap();
    let of = |vector: &&Value| vector["inputs"]["fn"] == function;
    all["vectors"].as_array().unwrap().iter().filter(of).cloned().collect()
}

pub(super) fn id(vector: &Value) -> &str {
    vector["id"].as_str().unwrap()
}

pub(super) fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

fn surface(name: &Value) -> Surfaces {
    Surfaces::all(match name.as_str().unwrap() {
        "air" => AIR,
        "draught" => DRAUGHT,
        "blanket" => BLANKET,
        other => panic!("no surface {other}"),
    })
}

pub(super) fn fineness(vector: &Value) -> Fineness {
    let name = vector["inputs"]["grid"].as_str().unwrap();
    *Fineness::ALL.iter().find(|fineness| fineness.id() == name).unwrap()
}

fn query(vector: &Value) -> HeatCycle {
    let inputs = &vector["inputs"];
    let shape = shape(inputs["joint"].as_str().unwrap());
    let mut query = HeatCycle {
        shape,
        part_length_mm: shape.weld_length_mm(),
        surfaces: surface(&inputs["surface"]),
        cooling: surface(&inputs["cooling_surface"]),
        source: Source::Torch { power_w: number(&inputs["power_w"]) },
        zone_mm: number(&inputs["zone_m"]) * 1e3,
        required_mm: number(&inputs["required_distance_m"]) * 1e3,
        minimum_c: number(&inputs["minimum_c"]),
        reserve_k: number(&inputs["reserve_k"]),
        ceiling_c: Some(number(&inputs["ceiling_c"])),
        interpass_c: Some(number(&inputs["max_interpass_c"])),
        pause_s: number(&inputs["pause_s"]),
        shop_c: number(&inputs["ambient_c"]),
        ..demo(fineness(vector))
    };
    let factors = inputs["lambda_factor_member_1_2_weld"].as_array().unwrap();
    query.conductivity = std::array::from_fn(|at| number(&factors[at]));
    let passes = inputs["passes"].as_array().unwrap().iter();
    query.passes = passes
        .map(|row| {
            let weld = row["weld"].as_u64().unwrap() as usize;
            pass(weld, number(&row["net_kj_per_mm"]), number(&row["arc_net_w"]))
        })
        .collect();
    query.post_heat.hours = number(&inputs["post_heat"]["hours"]);
    query.post_heat.at_c = number(&inputs["post_heat"]["at_c"]);
    query
}

/// Collects what is off, so that one look shows all.
struct Off<'a> {
    id: &'a str,
    found: Vec<String>,
}

impl Off<'_> {
    fn check(&mut self, what: &str, found: f64, is: f64, within: f64) {
        if std::env::var_os("STRAWBLUE_SHOW").is_some() {
            println!(
                "{:<26} {what:<28} {found:>12.5} {is:>12.5} {:>9.3} of {within:.4}",
                self.id,
                found - is
            );
        }
        if (found - is).abs() > within || found.is_nan() {
            self.found.push(format!("{}: {what} is {found}, not {is} within {within}", self.id));
        }
    }
}

fn compare(vector: &Value, cycle: &Cycle, cooled: &Cooled) -> Vec<String> {
    let (expected, tolerance) = (&vector["expected"], &vector["tolerance"]);
    let mut off = Off { id: id(vector), found: Vec::new() };
    let tolerated = |name: &str| number(&tolerance[name]);
    let minutes = |is: f64| tolerated("relative_minutes") * is;
    let heated = cycle.preheat.heated;
    for (name, found) in [
        ("flame_min", heated.minutes),
        ("minimum_reached_min", heated.minimum_min),
        ("weld_by_min", cycle.preheat.weld_by_min),
        ("end_of_weld_min", cycle.end_of_weld_min),
        ("minutes_to_100c", cooled.mark(100.0).unwrap().minutes),
        ("minutes_to_50c", cooled.mark(50.0).unwrap().minutes),
    ] {
        let is = number(&expected[name]);
        off.check(name, found, is, minutes(is));
    }
    let wait_s = number(&expected["wait_s"]);
    off.check("wait_s", cycle.preheat.even_s, wait_s, tolerated("absolute_wait_s"));
    let skin_c = number(&expected["hottest_skin_c"]);
    off.check("hottest_skin_c", heated.hottest_skin_c, skin_c, tolerated("absolute_c"));
    let energy = number(&expected["flame_energy_mj"]);
    off.check("flame_energy_mj", heated.energy_j * 1e-6, energy, minutes(energy));
    let pairs = expected["pass_start_coldest_c"].as_array().unwrap().iter().zip(&cycle.passes);
    for (is, pass) in pairs {
        off.check("pass_start_coldest_c", pass.coldest_start_c, number(is), tolerated("absolute_c"));
    }
    for (is, pass) in expected["reheat_min"].as_array().unwrap().iter().zip(&cycle.passes) {
        let found = pass.reheat.map_or(0.0, |reheat| reheat.minutes);
        off.check("reheat_min", found, number(is), tolerated("absolute_reheat_min"));
    }
    assert_eq!(expected["reheat_min"].as_array().unwrap().len(), cycle.passes.len());
    for (lane, name) in ["slow", "middle", "fast"].into_iter().enumerate() {
        for (when, found) in [
            ("end_of_weld", cycle.peak_end_of_weld_ml),
            ("end_of_hold", cooled.peak_after_hold_ml),
            ("at_100c", cooled.mark(100.0).unwrap().peak_ml),
            ("at_50c", cooled.mark(50.0).unwrap().peak_ml),
        ] {
            let key = format!("peak_{when}_{name}");
            let is = number(&expected[&key]);
            off.check(&key, found[lane], is, tolerated("relative_hydrogen") * is);
        }
    }
    off.found
}

#[test]
fn histories_agree_with_a_second_program() {
    let mut off = Vec::new();
    for vector in vectors("history") {
        if std::env::var("STRAWBLUE_ONLY").is_ok_and(|only| !id(&vector).contains(&only)) {
            continue;
        }
        let query = query(&vector);
        match cycle(&query) {
            Ok(cycle) => off.extend(compare(&vector, &cycle, &cycle.planned)),
            Err(refusal) => refused(&vector, refusal, &mut off),
        }
    }
    assert!(off.is_empty(), "{}", off.join("\n"));
}

fn refused(vector: &Value, refusal: Refusal, off: &mut Vec<String>) {
    let (expected, tolerance) = (&vector["expected"], &vector["tolerance"]);
    let mut found = Off { id: id(vector), found: Vec::new() };
    let within_c = number(&tolerance["absolute_c"]);
    let coldest = number(&expected["coldest_after_120_min_c"]);
    let name = expected["refused"].as_str().unwrap_or("not refused");
    assert_eq!(refusal.key(), format!("refused-{name}"), "{}: {refusal}", id(vector));
    match refusal {
        Refusal::MinimumNotReached { coldest_c, .. } => {
            found.check("coldest", coldest_c, coldest, within_c);
        }
        Refusal::ReserveNotReached { coldest_c, minimum_min, .. } => {
            found.check("coldest", coldest_c, coldest, within_c);
            let is = number(&expected["minimum_reached_min"]);
            found.check("minimum", minimum_min, is, number(&tolerance["relative_minutes"]) * is);
        }
        other => panic!("{}: {other}", id(vector)),
    }
    off.extend(found.found);
}
