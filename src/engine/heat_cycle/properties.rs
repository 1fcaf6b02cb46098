//! Heat content and conductivity on a grid of temperatures, so that a step looks them up.

use once_cell::sync::Lazy;

use crate::engine::thermal::{DENSITY_KG_PER_M3, carbon_steel};

/// The tables run from here, °C.
pub(super) const LOW_C: f64 = -60.0;
/// One row each K.
const ROWS: usize = 2061;

/// Properties by temperature: straight between rows 1 K apart, from -60 to 2000 °C.
#[derive(Debug, Clone)]
pub(super) struct Properties {
    /// Heat content from 20 °C, J/kg.
    heat: Vec<f64>,
    /// 1 / conductivity, m K/W.
    resistivity: Vec<f64>,
    /// kg/m³.
    pub(super) density: f64,
}

/// Where a temperature lies in the tables.
#[derive(Debug, Clone, Copy)]
pub(super) struct Row {
    pub(super) below: usize,
    pub(super) share: f64,
}

impl Row {
    /// The row of a temperature.
    #[inline]
    pub(super) fn of(at_c: f64) -> Self {
        let place = (at_c - LOW_C).clamp(0.0, (ROWS - 2) as f64);
        let below = place as usize;
        Self { below, share: place - below as f64 }
    }

    /// A value between two rows.
    #[inline]
    pub(super) fn between(self, table: &[f64]) -> f64 {
        table[self.below] + self.share * (table[self.below + 1] - table[self.below])
    }
}

/// One value for each row.
pub(super) fn rows(of: impl Fn(f64) -> f64) -> Vec<f64> {
    (0..ROWS).map(|row| of(LOW_C + row as f64)).collect()
}

impl Properties {
    /// Carbon and low-alloy steel by EN 1993-1-2.
    pub(super) fn steel() -> &'static Self {
        static STEEL: Lazy<Properties> = Lazy::new(|| Properties {
            heat: rows(carbon_steel::heat_content),
            resistivity: rows(|at_c| 1.0 / carbon_steel::conductivity(at_c)),
            density: DENSITY_KG_PER_M3,
        });
        &STEEL
    }

    /// A metal whose properties don't change.
    pub(super) fn constant(conductivity: f64, specific_heat: f64, density: f64) -> Self {
        Self {
            heat: rows(|at_c| specific_heat * (at_c - 20.0)),
            resistivity: rows(|_| 1.0 / conductivity),
            density,
        }
    }

    /// Specific heat in a row, J/(kg K): the slope of the heat content, so that every joule is
    /// booked once and the peak at 735 °C can't be stepped over.
    #[inline]
    pub(super) fn specific_heat(&self, row: Row) -> f64 {
        self.heat[row.below + 1] - self.heat[row.below]
    }

    #[inline]
    pub(super) fn resistivity(&self, row: Row) -> f64 {
        row.between(&self.resistivity)
    }

    /// Heat content at a temperature, J/kg; beyond the tables by their last slope.
    pub(super) fn heat_at(&self, at_c: f64) -> f64 {
        let row = Row::of(at_c);
        let share = at_c - LOW_C - row.below as f64;
        self.heat[row.below] + share * self.specific_heat(row)
    }

    /// The temperature of a heat content, looked for from the row that it was in.
    #[inline]
    pub(super) fn temperature(&self, heat: f64, near: usize) -> f64 {
        let mut below = near;
        while below + 2 < ROWS && heat > self.heat[below + 1] {
            below += 1;
        }
        while below > 0 && heat < self.heat[below] {
            below -= 1;
        }
        let low = self.heat[below];
        LOW_C + below as f64 + (heat - low) / (self.heat[below + 1] - low)
    }
}
