//! Properties, closed forms and blocks with known answers: series and formulas of the handbooks.
#![allow(clippy::unwrap_used, reason = "a table that can't be read fails the test")]

use serde_json::Value;
use strawblue::engine::heat_cycle::trials::{
    Block, BlockAfter, Charged, Left, Metal, Outside, block, equal_lines, hydrogen_block,
};
use strawblue::engine::lumped::{Around, Body, seconds_between};
use strawblue::engine::post_heat::{Curve, WeldPath, diffusivity_cm2_per_s, layer_peak, layer_peak_depth};
use strawblue::engine::thermal::carbon_steel;
use strawblue::reference::embedded;

use super::closed::{
    Constant, OneTerm, face_difference_k, fin, layer_hours_late, layer_kept, lumped_constant_s,
    lumped_min_no_loss, thermal_factor_mm2,
};
use super::histories::{id, number, vectors};

/// Answers by their names in the vector.
type Found = Vec<(&'static str, f64)>;

/// All vectors of a question, each compared with what is found.
fn all(function: &str, answer: impl Fn(&Value) -> Found) -> usize {
    let vectors = vectors(function);
    for vector in &vectors {
        let found = answer(&vector["inputs"]);
        let expected = vector["expected"].as_object().unwrap();
        assert_eq!(found.len(), expected.len(), "{}", id(vector));
        for (name, found) in found {
            let is = number(&expected[name]);
            let within = vector["tolerance"]["relative"]
                .as_f64()
                .map_or_else(|| number(&vector["tolerance"]["absolute"]), |share| share * is.abs());
            assert!((found - is).abs() <= within, "{}: {name} is {found}, not {is}", id(vector));
        }
    }
    assert!(!vectors.is_empty(), "no vectors of {function}");
    vectors.len()
}

fn get(inputs: &Value, name: &str) -> f64 {
    inputs.get(name).map_or_else(|| panic!("no {name}"), number)
}

fn curve(inputs: &Value) -> Curve {
    assert_eq!(inputs["curve"], "slow");
    Curve::Slow
}

#[test]
fn properties_and_closed_forms() {
    let reference = embedded();
    let d = |curve, at_c| diffusivity_cm2_per_s(reference, curve, at_c);
    let mut count = all("steel", |inputs| {
        let at_c = get(inputs, "temperature_c");
        vec![
            ("enthalpy_j_per_kg_from_20", carbon_steel::heat_content(at_c)),
            ("c_j_per_kg_k", carbon_steel::specific_heat(at_c)),
            ("lambda_w_per_m_k", carbon_steel::conductivity(at_c)),
        ]
    });
    count += all("diffusivity", |inputs| {
        let at_c = get(inputs, "temperature_c");
        vec![
            ("slow_cm2_per_s", d(Curve::Slow, at_c)),
            ("middle_cm2_per_s", d(Curve::Middle, at_c)),
            ("fast_cm2_per_s", d(Curve::Fast, at_c)),
        ]
    });
    let ends = |inputs: &Value| (get(inputs, "mass_kg"), get(inputs, "from_c"), get(inputs, "to_c"));
    count += all("lumped_minutes_no_loss", |inputs| {
        let (mass_kg, from_c, to_c) = ends(inputs);
        vec![("minutes", lumped_min_no_loss(mass_kg, from_c, to_c, get(inputs, "power_w")))]
    });
    count += all("lumped_minutes", |inputs| {
        let (mass_kg, from_c, to_c) = ends(inputs);
        let body = Body { mass_kg, surface_m2: get(inputs, "area_m2") };
        let around = Around {
            w_per_m2_k: get(inputs, "h"),
            emissivity: get(inputs, "emissivity"),
            air_c: get(inputs, "ambient_c"),
        };
        let seconds = seconds_between(body, get(inputs, "power_w"), around, from_c, to_c);
        vec![("minutes", seconds.unwrap() / 60.0)]
    });
    count += all("semi_infinite_rise", |inputs| {
        let metal = Constant {
            conductivity: get(inputs, "lambda_"),
            specific_heat: get(inputs, "c"),
            density: get(inputs, "rho"),
        };
        let rise =
            metal.thick_rise_k(get(inputs, "flux_w_per_m2"), get(inputs, "time_s"), get(inputs, "depth_m"));
        vec![("rise_k", rise)]
    });
    count += all("face_difference", |inputs| {
        let flux = get(inputs, "flux_w_per_m2");
        vec![("kelvin", face_difference_k(flux, get(inputs, "thickness_m"), get(inputs, "lambda_")))]
    });
    count += all("fin_share", |inputs| {
        let (thickness, length) = (get(inputs, "thickness_m"), get(inputs, "length_m"));
        let (m, share) = fin(get(inputs, "h"), thickness, get(inputs, "lambda_"), length, get(inputs, "x_m"));
        vec![("m_per_m", m), ("share", share)]
    });
    let one_term = |of: fn(f64) -> OneTerm, inputs: &Value| {
        let term = of(get(inputs, "biot"));
        vec![("zeta", term.zeta), ("middle", term.middle(get(inputs, "fourier")))]
    };
    count += all("one_term_slab", |inputs| one_term(OneTerm::slab, inputs));
    count += all("one_term_cylinder", |inputs| one_term(OneTerm::cylinder, inputs));
    count += all("surface_layer", |inputs| {
        let fourier = get(inputs, "dt_over_a2");
        vec![
            ("peak", layer_peak(fourier)),
            ("peak_depth_over_a", layer_peak_depth(fourier)),
            ("kept", layer_kept(fourier)),
        ]
    });
    count += all("layer_hold_hours", |inputs| {
        let (depth_mm, left) = (get(inputs, "depth_mm"), get(inputs, "left"));
        let d = d(curve(inputs), get(inputs, "temperature_c"));
        vec![
            ("exact_h", WeldPath::BuildUp { depth_mm }.hours(reference, left, d)),
            ("simple_h", layer_hours_late(depth_mm, d, left)),
        ]
    });
    count += all("thermal_factor_mm2_linear_cooling", |inputs| {
        let (from_c, to_c) = (get(inputs, "from_c"), get(inputs, "to_c"));
        let of = |curve| thermal_factor_mm2(reference, curve, from_c, to_c, get(inputs, "hours"));
        vec![("slow_mm2", of(Curve::Slow)), ("middle_mm2", of(Curve::Middle)), ("fast_mm2", of(Curve::Fast))]
    });
    assert_eq!(count, 31);
}

/// A textbook's plate of 4 cm, AISI 1010, both faces, h 30, density 7833, c 460, from 500 to 100 °C
/// in air of 50 °C: 5281.78 s printed; the print rounds its rate to 4.16e-4.
#[test]
fn a_printed_lumped_cooling() {
    let exact_s = lumped_constant_s(7833.0 * 0.02, 460.0, 30.0, 500.0, 100.0, 50.0);
    assert!((exact_s / 5281.78 - 1.0).abs() < 1e-3, "{exact_s}");
    // The same plate through the steps of the cycle, its conductivity high as the textbook has it.
    let plate = Block {
        xs: equal_lines(0.02, 10),
        ys: vec![0.0, 1.0],
        round: false,
        metal: Metal::Constant { conductivity: 5000.0, specific_heat: 460.0, density: 7833.0 },
        sides: air_on_the_right(30.0, 50.0),
    };
    let after = block(&plate, 500.0, 5281.78, 2000);
    assert!((after.mean_c() - 100.0).abs() < 0.3, "{}", after.mean_c());
}

/// One-term values of heat-conduction handbooks (from memory): Bi, slab ζ and C, cylinder ζ and C.
#[test]
fn one_term_as_the_handbooks_print_it() {
    for (biot, slab, slab_c, cylinder, cylinder_c) in [
        (0.01, 0.0998, 1.0017, 0.1412, 1.0025),
        (0.05, 0.2218, 1.0082, 0.3143, 1.0124),
        (0.1, 0.3111, 1.0161, 0.4417, 1.0246),
        (0.3, 0.5218, 1.0450, 0.7465, 1.0712),
        (0.5, 0.6533, 1.0701, 0.9408, 1.1143),
        (1.0, 0.8603, 1.1191, 1.2558, 1.2071),
        (5.0, 1.3138, 1.2402, 1.9898, 1.5029),
        (10.0, 1.4289, 1.2620, 2.1795, 1.5677),
        (100.0, 1.5552, 1.2731, 2.3809, 1.6015),
    ] {
        let (one, other) = (OneTerm::slab(biot), OneTerm::cylinder(biot));
        for (found, is) in
            [(one.zeta, slab), (one.factor, slab_c), (other.zeta, cylinder), (other.factor, cylinder_c)]
        {
            assert!((found - is).abs() < 1e-4, "Bi {biot}: {found}, not {is}");
        }
    }
    // A textbook's wall of 40 mm (from memory): h 500, λ 63.9, α 18.8e-6, from -20 °C beside oil of
    // 60 °C, after 8 min 42.9 °C at the insulated face.
    let wall = OneTerm::slab(500.0 * 0.04 / 63.9);
    let found = 60.0 - 80.0 * wall.middle(18.8e-6 * 480.0 / 0.04_f64.powi(2));
    assert!((found - 42.9).abs() < 0.2, "{found}");
}

fn air_on_the_right(transfer: f64, around_c: f64) -> [Outside; 4] {
    let air = Outside { transfer_w_per_m2_k: transfer, around_c, ..Outside::default() };
    [Outside::default(), air, Outside::default(), Outside::default()]
}

fn cells(inputs: &Value) -> Vec<usize> {
    match &inputs["cells"] {
        Value::Array(both) => both.iter().map(|count| count.as_u64().unwrap() as usize).collect(),
        one => vec![one.as_u64().unwrap() as usize],
    }
}

/// The block of a vector with its start and its steps.
fn run_block(inputs: &Value) -> BlockAfter {
    let cells = cells(inputs);
    let shape = inputs["shape"].as_str().unwrap();
    let pair = |name: &str| {
        let both = inputs[name].as_array().unwrap();
        (number(&both[0]), number(&both[1]))
    };
    let ((width, height), round) = match shape {
        "slab" => ((get(inputs, "length_m"), 1.0), false),
        "cylinder" => ((get(inputs, "length_m"), 1.0), true),
        "quarter bar" => (pair("half_sides_m"), false),
        "half short cylinder" => ((get(inputs, "radius_m"), get(inputs, "half_length_m")), true),
        "strip" => ((get(inputs, "length_m"), get(inputs, "thickness_m")), false),
        "bar 20x20" => ((0.02, 0.02), false),
        other => panic!("no block {other}"),
    };
    let metal = if inputs.get("steel").is_some() {
        Metal::Steel
    } else {
        Metal::Constant {
            conductivity: get(inputs, "lambda_"),
            specific_heat: get(inputs, "c"),
            density: get(inputs, "rho"),
        }
    };
    let or_none = |name: &str| inputs.get(name).map_or(0.0, number);
    let open = Outside {
        transfer_w_per_m2_k: or_none("h"),
        emissivity: or_none("emissivity"),
        around_c: inputs.get("ambient_c").map_or(20.0, number),
        flux_w_per_m2: or_none("flux_w_per_m2"),
    };
    let shut = Outside::default();
    let base = Outside { transfer_w_per_m2_k: 1e9, around_c: or_none("base_c"), ..shut };
    let sides = match shape {
        "strip" => [base, shut, open, open],
        "bar 20x20" => [open; 4],
        "slab" | "cylinder" => [shut, open, shut, shut],
        _ => [shut, open, shut, open],
    };
    let ys = equal_lines(height, cells.get(1).copied().unwrap_or(1));
    let body = Block { xs: equal_lines(width, cells[0]), ys, round, metal, sides };
    let time_s = get(inputs, "time_s");
    let steps = inputs.get("steps").map_or_else(|| (time_s / get(inputs, "step_s")).ceil(), number);
    let start_c = inputs.get("start_c").map_or_else(|| get(inputs, "ambient_c"), number);
    let after = block(&body, start_c, time_s, steps as usize);
    assert!(after.closure < 1e-9, "{shape}: the books are off by {}", after.closure);
    after
}

#[test]
fn blocks_of_metal() {
    let count = all("fv_block", |inputs| {
        let after = run_block(inputs);
        let width = || get(inputs, "length_m");
        match inputs["shape"].as_str().unwrap() {
            "slab" if inputs.get("flux_w_per_m2").is_some() => {
                vec![("heated_face_c", after.at(width())), ("far_face_c", after.at(0.0))]
            }
            "slab" => vec![("middle_c", after.at(0.0)), ("face_c", after.at(width()))],
            "cylinder" => vec![("axis_c", after.at(0.0))],
            "strip" => vec![("at_100mm_c", after.at(0.1)), ("tip_c", after.at(width()))],
            "bar 20x20" => vec![("mean_c", after.mean_c())],
            _ => vec![("middle_c", after.at_c[0])],
        }
    });
    assert_eq!(count, 8);
}

/// Fine cells of one width, then wider by a factor.
fn growing(inputs: &Value) -> Vec<f64> {
    let (width, even_to, growth) =
        (get(inputs, "cell_m"), get(inputs, "uniform_to_m"), get(inputs, "growth"));
    let (mut lines, mut now) = (vec![0.0], width);
    while lines.len() <= cells(inputs)[0] {
        let last = lines[lines.len() - 1];
        if last >= even_to - 1e-9 {
            now *= growth;
        }
        lines.push(last + now);
    }
    lines
}

fn run_hydrogen(inputs: &Value) -> (Left, usize) {
    let cells = cells(inputs);
    let shape = inputs["shape"].as_str().unwrap();
    let flat = vec![0.0, 1.0];
    let line = || equal_lines(get(inputs, "length_m"), cells[0]);
    let (xs, ys, round, open, charged_to) = match shape {
        "slab, both faces open" => (line(), flat, false, [true, true, false, false], 1.0),
        "cylinder" => (line(), flat, true, [false, true, false, false], 1.0),
        "bar 20x30, all faces open" => {
            (equal_lines(0.02, cells[0]), equal_lines(0.03, cells[1]), false, [true; 4], 1.0)
        }
        "layer on a half space" => {
            (growing(inputs), flat, false, [true, false, false, false], get(inputs, "depth_m"))
        }
        other => panic!("no block {other}"),
    };
    let columns = xs.len() - 1;
    let middle = if round { 0 } else { columns / 2 + columns * (cells.get(1).copied().unwrap_or(1) / 2) };
    let hours = inputs.get("hours").or(inputs.get("linear_hours")).map(number).unwrap();
    let time_s = hours * 3600.0;
    let at_c = |now_s: f64| match inputs.get("temperature_c") {
        Some(at_c) => number(at_c),
        None => {
            let (from_c, to_c) = (get(inputs, "from_c"), get(inputs, "to_c"));
            from_c + (to_c - from_c) * now_s / time_s
        }
    };
    let steps = inputs.get("steps").map_or_else(|| (time_s / get(inputs, "step_s")).ceil(), number);
    let block = Charged { xs, ys, round, open, charged_to };
    let left = hydrogen_block(embedded(), &block, at_c, time_s, steps as usize);
    assert!(left.closure < 1e-9, "{shape}: the books are off by {}", left.closure);
    (left, middle)
}

#[test]
fn blocks_with_hydrogen() {
    let count = all("fv_hydrogen_block", |inputs| {
        let (left, middle) = run_hydrogen(inputs);
        match inputs["shape"].as_str().unwrap() {
            "layer on a half space" => vec![("peak", left.peak[0]), ("kept", left.kept[0])],
            _ => vec![("mean", left.kept[0]), ("middle", left.content[middle][0])],
        }
    });
    assert_eq!(count, 8);
}
