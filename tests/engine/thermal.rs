//! Thermal properties of steel against printed figures, and the closed form of the heat
//! content against quadrature.

use crate::asking::near;
use strawblue::engine::thermal::{carbon_steel, stainless_steel};

/// EN 1993-1-2:2005 clause 3.4.1.2: c(100 … 400 °C) as printed in a public design file; the
/// peak of 5000 at 735 °C is printed in the clause.
#[test]
fn specific_heat_as_printed() {
    for (at_c, c) in [(100.0, 487.62), (200.0, 529.76), (300.0, 564.74), (400.0, 605.88), (735.0, 5000.0)] {
        near(carbon_steel::specific_heat(at_c), c, 0.01);
    }
    near(carbon_steel::specific_heat(734.999_999), 5000.0, 0.01);
    near(carbon_steel::specific_heat(1000.0), 650.0, 0.0);
}

/// EN 1993-1-2:2005 clause 3.4.1.3: 54 W/(m K) less 3.33e-2 for each °C, 27.3 from 800 °C on.
#[test]
fn conductivity_as_printed() {
    for (at_c, lambda) in [(100.0, 50.67), (300.0, 44.01), (735.0, 29.5245), (800.0, 27.3), (1200.0, 27.3)] {
        near(carbon_steel::conductivity(at_c), lambda, 1e-9);
    }
}

/// EN 1993-1-2:2005 clause 3.4.1.1, worked by hand.
#[test]
fn elongation_as_printed() {
    for (at_c, per_mille) in [
        (20.0, 0.0),
        (100.0, 0.998),
        (200.0, 2.318),
        (300.0, 3.718),
        (700.0, 10.118),
        (800.0, 11.0),
        (1000.0, 13.8),
    ] {
        near(carbon_steel::elongation(at_c), per_mille * 1e-3, 5e-7);
    }
    near(carbon_steel::mean_expansion_per_k(20.0, 300.0), 13.28e-6, 1e-12);
    near(carbon_steel::mean_expansion_per_k(20.0, 700.0), 14.88e-6, 1e-12);
    let over_the_turn = carbon_steel::mean_expansion_per_k(20.0, 900.0);
    near(over_the_turn, 11.8e-3 / 880.0, 1e-12);
}

/// EN 1993-1-2:2005 Annex C.3, worked by hand.
#[test]
fn stainless_steel_as_printed() {
    near(stainless_steel::conductivity(300.0), 18.41, 1e-9);
    near(stainless_steel::specific_heat(300.0), 511.428, 1e-9);
    near(stainless_steel::elongation(320.0), (16.0 + 1.5328 - 0.127_283_2) * 300.0e-6, 1e-9);
}

/// The heat content is the integral of the specific heat, over the peak too.
#[test]
fn heat_content_is_the_integral() {
    let spans =
        [(-40.0, 20.0), (20.0, 300.0), (300.0, 600.0), (600.0, 734.0), (736.0, 900.0), (900.0, 1500.0)];
    for (from_c, to_c) in spans {
        const STEPS: i32 = 20_000;
        let width = (to_c - from_c) / f64::from(STEPS);
        let middle = |i: i32| from_c + (f64::from(i) + 0.5) * width;
        let sum: f64 = (0..STEPS).map(|i| carbon_steel::specific_heat(middle(i)) * width).sum();
        let closed = carbon_steel::heat_content(to_c) - carbon_steel::heat_content(from_c);
        near(closed, sum, 1e-4 * sum);
    }
    for (at_c, heat) in [
        (100.0, 37_207.0),
        (300.0, 142_920.0),
        (500.0, 264_746.0),
        (735.0, 475_428.0),
        (900.0, 632_064.0),
        (1000.0, 697_064.0),
    ] {
        near(carbon_steel::heat_content(at_c), heat, 1e-5 * heat);
    }
}
