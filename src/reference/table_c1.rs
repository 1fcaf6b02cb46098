//! Table C.1 of EN 1011-2: combined thickness weldable without preheat (`data/table_c1.ron`).

use serde::{Deserialize, Serialize};

use super::Basis;

/// One cell: exact, never interpolated.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct C1Cell {
    /// Hydrogen above this, ml in 100 g (0 for the lowest band).
    pub hydrogen_above_ml: f64,
    /// Hydrogen up to and including this, ml in 100 g; `None` is the open band.
    pub hydrogen_up_to_ml: Option<f64>,
    /// CE (IIW) of the column.
    pub ce: f64,
    /// Heat input of the column, kJ/mm.
    pub heat_input_kj_per_mm: f64,
    /// Combined thickness that needs no preheat, mm.
    pub combined_mm: f64,
}

/// The table.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TableC1 {
    /// The 20 cells.
    pub cells: Vec<C1Cell>,
    /// Combined thickness above which nothing is cleared, mm.
    pub never_above_mm: f64,
    /// What it rests on.
    pub basis: Basis,
}
