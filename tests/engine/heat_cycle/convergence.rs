//! What grid and steps are worth: a table that is kept, and that no change may worsen.
#![allow(clippy::unwrap_used, reason = "a file that can't be read fails the test")]

use std::fmt::Write as _;

use strawblue::engine::heat_cycle::{Cycle, Fineness, HeatCycle, PostHeat};

use super::joints::{cycle, demo, pass, shape};

const KEPT: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/engine/heat_cycle/convergence.md");

/// The figures of a row, each with its digits.
fn figures(found: &Cycle) -> [(f64, usize); 9] {
    let cold = found.planned.mark(50.0).unwrap();
    [
        (found.cells as f64, 0),
        (found.preheat.heated.minutes, 2),
        (found.preheat.heated.hottest_skin_c, 0),
        (found.preheat.weld_by_min, 2),
        (found.end_of_weld_min, 1),
        (found.planned.mark(100.0).unwrap().minutes, 1),
        (found.peak_end_of_weld_ml[0], 3),
        (found.planned.peak_after_hold_ml[0], 4),
        (cold.peak_ml[0], 4),
    ]
}

#[test]
fn grid_and_steps_converge() {
    let mut table = String::from(
        "# Grid and steps\n\nWritten by `tests/engine/heat_cycle/convergence.rs`; `STRAWBLUE_BLESS=1` writes it anew. The demo's boss \
         without a post-heat and with 2 h at 300 °C, and a tee (30 and 20 mm) at 200 °C. Hydrogen by the slow \
         diffusivity, ml/100 g of 4 put in.\n\n| joint | grid | cells | flame min | skin °C | weld by min | welded min | to 100 °C \
         min | end of welding | end of hold | at 50 °C |\n|---|---|---|---|---|---|---|---|---|---|---|\n",
    );
    let tee = |fineness| {
        let shape = shape("t-fillet-both-sides");
        HeatCycle {
            shape,
            part_length_mm: shape.weld_length_mm(),
            minimum_c: 200.0,
            interpass_c: Some(300.0),
            ceiling_c: Some(450.0),
            passes: vec![pass(0, 1.2, 2800.0), pass(1, 1.2, 2800.0)],
            ..demo(fineness)
        }
    };
    let held = |fineness| HeatCycle {
        post_heat: PostHeat { at_c: 300.0, hours: 2.0, beside_h: vec![], shares: vec![] },
        ..demo(fineness)
    };
    let all: [(&str, &dyn Fn(Fineness) -> HeatCycle); 3] =
        [("boss", &demo), ("boss, 2 h", &held), ("tee", &tee)];
    let mut all_rows = Vec::new();
    for (name, query) in all {
        let rows: Vec<[(f64, usize); 9]> =
            Fineness::ALL.iter().map(|&fineness| figures(&cycle(&query(fineness)).unwrap())).collect();
        for (fineness, row) in Fineness::ALL.iter().zip(&rows) {
            write!(table, "| {name} | {} ", fineness.id()).unwrap();
            for (figure, digits) in row {
                write!(table, "| {figure:.digits$} ").unwrap();
            }
            table.push_str("|\n");
        }
        all_rows.push((name, rows));
    }
    if std::env::var_os("STRAWBLUE_BLESS").is_some() {
        std::fs::write(KEPT, &table).unwrap();
    }
    for (name, rows) in all_rows {
        let [live, fine, check] = [rows[0], rows[1], rows[2]];
        // Heat is free of the grid to 2 %, a cooling to 3 %.
        for (figure, within) in [(1, 0.02), (2, 0.02), (4, 0.02), (5, 0.03)] {
            for coarse in [live, fine] {
                let off = (coarse[figure].0 / check[figure].0 - 1.0).abs();
                assert!(off < within, "{name}: figure {figure} is off by {off}");
            }
        }
        // Hydrogen reads high on a coarse grid, but in the first minutes after the last pass.
        for (coarse, least, most) in [(live, 0.94, 1.25), (fine, 0.98, 1.09)] {
            for figure in [6, 8] {
                let times = coarse[figure].0 / check[figure].0;
                assert!((least..most).contains(&times), "{name}: {times} times figure {figure}");
            }
        }
    }
    assert_eq!(std::fs::read_to_string(KEPT).unwrap_or_default(), table, "convergence.md is another");
}
