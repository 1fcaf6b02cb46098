//! Joints against finite elements on other meshes, by general libraries.
#![allow(clippy::unwrap_used, reason = "a table that can't be read fails the test")]

use serde_json::Value;
use strawblue::engine::heat_cycle::trials::{charged_weld, fixed_power};
use strawblue::engine::heat_cycle::{
    Fineness, HeatCycle, JointShape, PostHeat, Reached, Reading, Source, Surface, Surfaces, TeeKind,
    efficiency_of_first_part, preheat,
};
use strawblue::reference::embedded;

use super::histories::{id, number, vectors};
use super::joints::{BOSS, demo};

/// The joint of a vector.
fn query(inputs: &Value, fineness: Fineness) -> HeatCycle {
    let mm = |name: &str| number(&inputs["geometry_mm"][name]);
    let shape = match inputs["joint"].as_str().unwrap() {
        "boss-through" => BOSS,
        "t-fillet-both-sides" => JointShape::Tee {
            kind: TeeKind::BothSides,
            plate_mm: mm("t1"),
            web_mm: mm("t2"),
            leg_mm: mm("leg"),
            half_width_mm: mm("half_w"),
            web_height_mm: mm("web"),
            length_mm: mm("length"),
        },
        "repair" => JointShape::Repair {
            plate_mm: mm("t1"),
            depth_mm: mm("depth"),
            width_mm: mm("width"),
            half_width_mm: mm("half_w"),
            length_mm: mm("length"),
        },
        other => panic!("no joint {other}"),
    };
    let mut query = HeatCycle {
        shape,
        part_length_mm: shape.weld_length_mm(),
        ceiling_c: None,
        passes: vec![],
        required_mm: 10.0,
        post_heat: PostHeat::NONE,
        ..demo(fineness)
    };
    if let Some(power_w) = inputs.get("power_w") {
        query.source = Source::Torch { power_w: number(power_w) };
        query.zone_mm = number(&inputs["zone_mm"]);
        query.reached = if inputs["sides"] == "all" { Reached::All } else { Reached::FromAbove };
        let surface = |transfer: &str, emissivity: &str| {
            let of = |name: &str| inputs.get(name).map(number);
            of(transfer).zip(of(emissivity)).map(|(transfer, emissivity)| Surface::new(transfer, emissivity))
        };
        query.surfaces = Surfaces {
            bottom: surface("bottom_h", "bottom_emissivity"),
            ..Surfaces::all(surface("h", "emissivity").unwrap())
        };
    }
    query
}

const BOTH: [(Fineness, &str); 2] = [(Fineness::Live, "live"), (Fineness::Fine, "fine")];

#[test]
fn a_flame_of_fixed_power_as_finite_elements_have_it() {
    for (fineness, name) in BOTH {
        let mut worst = 0.0_f64;
        for vector in vectors("fixed_power") {
            let inputs = &vector["inputs"];
            let probes = inputs.get("probes_m_r_z").or(inputs.get("probes_m_x_y")).unwrap();
            let places: Vec<(f64, f64)> = probes
                .as_array()
                .unwrap()
                .iter()
                .map(|place| (number(&place[0]) * 1e3, number(&place[1]) * 1e3))
                .collect();
            let (flame_s, time_s) = (number(&inputs["flame_s"]), number(&inputs["time_s"]));
            let found = fixed_power(embedded(), &query(inputs, fineness), flame_s, time_s, &places).unwrap();
            let within_k = number(&vector["tolerance"][format!("absolute_{name}")]);
            for (found, is) in found.iter().zip(vector["expected"]["temperature_c"].as_array().unwrap()) {
                let off_k = (found - number(is)).abs();
                worst = worst.max(off_k);
                assert!(off_k <= within_k, "{} {name}: {found}, not {is}", id(&vector));
            }
        }
        assert!(worst <= if fineness == Fineness::Live { 5.5 } else { 3.4 }, "{name}: {worst} K off");
    }
}

#[test]
fn hydrogen_of_one_fillet_as_finite_elements_have_it() {
    for (fineness, name) in BOTH {
        for vector in vectors("isothermal_hydrogen") {
            let inputs = &vector["inputs"];
            let (at_c, time_s) = (number(&inputs["temperature_c"]), number(&inputs["time_s"]));
            let left = charged_weld(embedded(), &query(inputs, fineness), 0, at_c, time_s).unwrap();
            assert!(left.closure < 1e-9, "{}: the books are off by {}", id(&vector), left.closure);
            for (what, found) in [("peak", left.peak[0]), ("kept", left.kept[0])] {
                let is = number(&vector["expected"][what]);
                let within = number(&vector["tolerance"][format!("relative_{what}_{name}")]) * is;
                assert!((found - is).abs() <= within, "{} {name}: {what} {found}, not {is}", id(&vector));
            }
        }
    }
}

#[test]
fn an_oven_as_a_second_program_has_it() {
    for vector in vectors("oven") {
        let inputs = &vector["inputs"];
        let query = HeatCycle {
            source: Source::Oven { at_c: number(&inputs["oven_c"]) },
            minimum_c: number(&inputs["until_coldest_c"]),
            reserve_k: 0.0,
            ceiling_c: None,
            ..demo(Fineness::Live)
        };
        let found = preheat(embedded(), &query, &mut super::joints::go_on).unwrap().heated;
        let minutes = number(&vector["expected"]["minutes"]);
        let within = number(&vector["tolerance"]["relative_minutes"]) * minutes;
        assert!((found.minutes - minutes).abs() <= within, "{}", found.minutes);
        let hottest_c = number(&vector["expected"]["hottest_c"]);
        let within_k = number(&vector["tolerance"]["absolute_c"]);
        assert!((found.hottest_skin_c - hottest_c).abs() <= within_k, "{}", found.hottest_skin_c);
    }
}

#[test]
fn the_first_part_gives_the_efficiency() {
    for vector in vectors("efficiency_from_first_part") {
        let inputs = &vector["inputs"];
        let fuel_w = number(&inputs["flow_kw"]) * 1e3;
        let reading = Reading::Coldest(number(&inputs["coldest_reached_c"]));
        let query = demo(Fineness::Live);
        let minutes = number(&inputs["minutes"]);
        let found = efficiency_of_first_part(embedded(), &query, fuel_w, minutes, reading).unwrap();
        let is = number(&vector["expected"]["efficiency"]);
        assert!((found - is).abs() <= number(&vector["tolerance"]["relative"]) * is, "{found}");
        // The skin that those minutes show gives the same back.
        let with = HeatCycle {
            source: Source::Torch { power_w: fuel_w * is },
            ceiling_c: None,
            reserve_k: 0.0,
            ..query
        };
        let heated = preheat(embedded(), &with, &mut super::joints::go_on).unwrap().heated;
        let skin = Reading::Skin(heated.hottest_skin_c);
        let again = efficiency_of_first_part(embedded(), &with, fuel_w, heated.minutes, skin).unwrap();
        assert!((again - is).abs() <= 0.02 * is, "{again}");
    }
}

/// A run of `tests/oracle/heat_cycle_oracle.py`: other joints than those above, by scikit-fem
/// (quadratic triangles, implicit midpoint). The script says how to run it again.
#[test]
fn joints_as_the_committed_oracle_has_them() {
    let file: Value = serde_json::from_str(include_str!("../../oracle/heat_cycle_oracle.json")).unwrap();
    let lap = JointShape::Lap {
        lower_mm: 25.0,
        upper_mm: 15.0,
        leg_mm: 8.0,
        overlap_mm: 80.0,
        lower_reach_mm: 200.0,
        upper_reach_mm: 200.0,
        length_mm: 300.0,
    };
    let shaft =
        JointShape::RunOnShaft { diameter_mm: 70.0, layer_mm: 3.0, band_mm: 40.0, shaft_length_mm: 400.0 };
    let plain = |shape: JointShape, fineness| HeatCycle {
        shape,
        part_length_mm: shape.weld_length_mm(),
        ceiling_c: None,
        passes: vec![],
        required_mm: 10.0,
        ..demo(fineness)
    };
    let mut checked = 0;
    for (fineness, within_k, kept_share, peak_share) in
        [(Fineness::Live, 7.0, 0.05, 0.18), (Fineness::Fine, 4.0, 0.03, 0.12)]
    {
        for (name, shape) in [("lap", lap), ("shaft", shaft)] {
            let case = &file[name];
            let power_w = number(&case["power"]);
            let query = HeatCycle { source: Source::Torch { power_w }, ..plain(shape, fineness) };
            let probes = case["probes"].as_array().unwrap().iter();
            let places: Vec<(f64, f64)> =
                probes.map(|at| (number(&at[0]) * 1e3, number(&at[1]) * 1e3)).collect();
            let times = case["times"].as_array().unwrap().iter();
            for (time, expected) in times.zip(case["temperature_c"].as_array().unwrap()) {
                let (flame_s, time_s) = (number(&case["flame"]), number(time));
                let found = fixed_power(embedded(), &query, flame_s, time_s, &places).unwrap();
                for (found, is) in found.iter().zip(expected.as_array().unwrap()) {
                    let is = number(is);
                    assert!((found - is).abs() <= within_k, "{name} {time} {fineness:?}: {found}, not {is}");
                    checked += 1;
                }
            }
        }
        let case = &file["lap_hydrogen"];
        let times = case["times"].as_array().unwrap().iter();
        for (time, left) in times.zip(case["left"].as_array().unwrap()) {
            let query = plain(lap, fineness);
            let found = charged_weld(embedded(), &query, 0, number(&case["at"]), number(time)).unwrap();
            for (what, found, share) in
                [("peak", found.peak[0], peak_share), ("kept", found.kept[0], kept_share)]
            {
                let is = number(&left[what]);
                assert!((found / is - 1.0).abs() <= share, "{what} {time} {fineness:?}: {found}, not {is}");
                checked += 1;
            }
        }
    }
    assert_eq!(checked, 2 * (30 + 25 + 6));
}
