//! Are the colours of the tiles still apart for an eye that does not tell red from green?
//!
//! Matrices for full protanopia and deuteranopia in linear sRGB: Machado, Oliveira, Fernandes,
//! A Physiologically-based Model for Simulation of Color Vision Deficiency, IEEE TVCG 15 (2009);
//! figures from memory.

use strawblue::engine::tint::Stage;
use strawblue::engine::tint::colour::{difference, film_swatch, lab_of_linear};

const PROTANOPIA: [[f64; 3]; 3] = [
    [0.152_286, 1.052_583, -0.204_868],
    [0.114_503, 0.786_281, 0.099_216],
    [-0.003_882, -0.048_116, 1.051_998],
];
const DEUTERANOPIA: [[f64; 3]; 3] = [
    [0.367_322, 0.860_646, -0.227_968],
    [0.280_085, 0.672_501, 0.047_413],
    [-0.011_820, 0.042_940, 0.968_881],
];

/// A difference that is seen side by side; 2.3 is about the least that is noticed. Purple-blue
/// and blue come nearest, which is why a tile says its name, its heat and its lightness too.
const SEEN: f64 = 4.0;

fn seen_by(matrix: &[[f64; 3]; 3], linear: [f64; 3]) -> [f64; 3] {
    std::array::from_fn(|row| {
        (0..3).map(|column| matrix[row][column] * linear[column].clamp(0.0, 1.0)).sum::<f64>().clamp(0.0, 1.0)
    })
}

#[test]
fn neighbouring_colours_stay_apart_without_red_and_green() {
    for (name, matrix) in [("protanopia", PROTANOPIA), ("deuteranopia", DEUTERANOPIA)] {
        // A row of white adds up to white, so that grey stays grey.
        for row in matrix {
            crate::near(row.iter().sum(), 1.0, 1e-5, name);
        }
        let lab = |stage: Stage| lab_of_linear(seen_by(&matrix, film_swatch(stage.typical_nm()).linear));
        for pair in Stage::ALL[..10].windows(2) {
            let apart = difference(lab(pair[0]), lab(pair[1]));
            println!("{name}: {} to {}: {apart:.1}", pair[0].id(), pair[1].id());
            assert!(apart >= SEEN, "{name}: {} and {} are only {apart:.1} apart", pair[0].id(), pair[1].id());
        }
    }
}
