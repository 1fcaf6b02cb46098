//! What is left of the temper colours for an eye that lacks one kind of cone.
//!
//! Matrices of severity 1.0 in linear sRGB: Machado, Oliveira, Fernandes, A Physiologically-based Model for
//! Simulation of Color Vision Deficiency, IEEE Transactions on Visualization and Computer Graphics 15
//! (2009), 1291-1298; figures as several public colour libraries copy the authors' table, which agree to
//! the last digit. Differences: CIEDE2000.

use strawblue::engine::tint::Stage;
use strawblue::engine::tint::colour::{difference, film_swatch, lab_of_linear};

type Matrix = [[f64; 3]; 3];

const PROTANOPIA: Matrix = [
    [0.152_286, 1.052_583, -0.204_868],
    [0.114_503, 0.786_281, 0.099_216],
    [-0.003_882, -0.048_116, 1.051_998],
];
const DEUTERANOPIA: Matrix = [
    [0.367_322, 0.860_646, -0.227_968],
    [0.280_085, 0.672_501, 0.047_413],
    [-0.011_820, 0.042_940, 0.968_881],
];
const TRITANOPIA: Matrix = [
    [1.255_528, -0.076_749, -0.178_779],
    [-0.078_411, 0.930_809, 0.147_602],
    [0.004_733, 0.691_367, 0.303_900],
];
const PLAIN: Matrix = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];

/// A difference that is seen side by side; 2.3 is about the least that is noticed.
const SEEN: f64 = 4.0;
/// Less than that, and a colour that is remembered, or lies in other light, is taken for the other one.
const SURE: f64 = 10.0;

fn seen_by(matrix: &Matrix, linear: [f64; 3]) -> [f64; 3] {
    std::array::from_fn(|row| {
        (0..3).map(|column| matrix[row][column] * linear[column].clamp(0.0, 1.0)).sum::<f64>().clamp(0.0, 1.0)
    })
}

/// How far apart two colours of the place are for an eye.
fn apart(matrix: &Matrix, one: Stage, other: Stage) -> f64 {
    let lab = |stage: Stage| lab_of_linear(seen_by(matrix, film_swatch(stage.typical_nm()).linear));
    difference(lab(one), lab(other))
}

/// Which two colours are nearer than that, as `one other`.
fn nearer_than(limit: f64, matrix: &Matrix) -> Vec<String> {
    // The last one is no colour but a warning.
    let stages = &Stage::ALL[..10];
    let pairs = stages
        .iter()
        .enumerate()
        .flat_map(|(at, one)| stages[at + 1..].iter().map(move |other| (*one, *other)));
    pairs
        .filter(|(one, other)| apart(matrix, *one, *other) < limit)
        .map(|(one, other)| format!("{} {}", one.id(), other.id()))
        .collect()
}

#[test]
fn grey_stays_grey() {
    for matrix in [PROTANOPIA, DEUTERANOPIA, TRITANOPIA] {
        for row in matrix {
            crate::near(row.iter().sum(), 1.0, 2e-6, "a row of white");
        }
    }
}

/// On the tiles, side by side.
#[test]
fn neighbouring_colours_stay_apart_side_by_side() {
    for (name, matrix) in
        [("protanopia", PROTANOPIA), ("deuteranopia", DEUTERANOPIA), ("tritanopia", TRITANOPIA)]
    {
        for pair in Stage::ALL[..10].windows(2) {
            let apart = apart(&matrix, pair[0], pair[1]);
            assert!(apart >= SEEN, "{name}: {} and {} are only {apart:.1} apart", pair[0].id(), pair[1].id());
        }
    }
}

/// On the part there is nothing to compare with. What is then taken for its neighbour is why the place says
/// that a colour-blind reader judges by an instrument (`tint-colour-vision`): purple-blue and blue part where
/// the minimum of a thick part is often awaited.
#[test]
fn some_colours_are_one_colour_for_some_eyes() {
    assert_eq!(
        nearer_than(SURE, &PLAIN),
        ["faint-yellow light-straw"],
        "the eye that the lists are written for"
    );
    let lost = [
        (PROTANOPIA, vec!["faint-yellow light-straw", "bluish-purple blue"]),
        (DEUTERANOPIA, vec!["faint-yellow light-straw", "bluish-purple blue"]),
        (TRITANOPIA, vec!["faint-yellow light-straw", "bronze reddish-purple"]),
    ];
    for (matrix, expected) in &lost {
        assert_eq!(nearer_than(SURE, matrix), *expected);
    }
    assert_eq!(nearer_than(5.0, &DEUTERANOPIA), ["bluish-purple blue"], "hardly apart side by side");
    // Lightness alone parts purple from straw, but neither side of the darkest colour.
    let light = |stage: Stage| lab_of_linear(film_swatch(stage.typical_nm()).linear).l;
    assert!(
        light(Stage::Blue) > light(Stage::BluishPurple) && light(Stage::Bronze) > light(Stage::BluishPurple)
    );
}
