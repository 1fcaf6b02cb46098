//! How fast does a part that is equally hot all through heat up and cool down?
//!
//! Steel is where its Biot number stays below 0.1: at 300 °C in still air up to about 180 mm of half
//! thickness, at 600 °C up to 60 mm.

use super::error::Domain;
use super::thermal::{DENSITY_KG_PER_M3, STEFAN_BOLTZMANN, ZERO_C_IN_K, carbon_steel};
use crate::reference::LosingSurface;

/// Steps of temperature in which a time is added up.
const STEPS: u32 = 1000;

/// Mass of a part, kg.
pub(super) const MASS: Domain = Domain::new("mass", 0.001, 100_000.0);
/// Thickness or diameter of a part, mm.
pub(super) const SIZE: Domain = Domain::new("size", 0.5, 2000.0);

/// The shape that a mass is counted as.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shape {
    /// A square plate.
    Plate {
        /// Thickness, mm.
        thickness_mm: f64,
    },
    /// A round bar.
    Bar {
        /// Diameter, mm.
        diameter_mm: f64,
    },
}

/// A body of steel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Body {
    /// Mass, kg.
    pub mass_kg: f64,
    /// Surface, m².
    pub surface_m2: f64,
}

impl Body {
    /// The body of a mass and a shape, with all its faces.
    #[must_use]
    pub fn of(mass_kg: f64, shape: Shape) -> Self {
        let volume_m3 = mass_kg / DENSITY_KG_PER_M3;
        let surface_m2 = match shape {
            Shape::Plate { thickness_mm } => {
                let thickness_m = thickness_mm / 1000.0;
                let face_m2 = volume_m3 / thickness_m;
                2.0 * face_m2 + 4.0 * face_m2.sqrt() * thickness_m
            }
            Shape::Bar { diameter_mm } => {
                let diameter_m = diameter_mm / 1000.0;
                let end_m2 = std::f64::consts::FRAC_PI_4 * diameter_m * diameter_m;
                2.0 * end_m2 + std::f64::consts::PI * diameter_m * volume_m3 / end_m2
            }
        };
        Self { mass_kg, surface_m2 }
    }

    /// A ring of steel, with its faces and its bore.
    #[must_use]
    pub fn ring(bore_mm: f64, outer_mm: f64, length_mm: f64) -> Self {
        let (bore_m, outer_m, length_m) = (bore_mm / 1000.0, outer_mm / 1000.0, length_mm / 1000.0);
        let face_m2 = std::f64::consts::FRAC_PI_4 * (outer_m * outer_m - bore_m * bore_m);
        Self {
            mass_kg: DENSITY_KG_PER_M3 * face_m2 * length_m,
            surface_m2: 2.0 * face_m2 + std::f64::consts::PI * (bore_m + outer_m) * length_m,
        }
    }
}

/// What takes the heat away.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Around {
    /// Heat transfer, W/(m² K).
    pub w_per_m2_k: f64,
    /// Emissivity of the surface.
    pub emissivity: f64,
    /// Air and walls, °C.
    pub air_c: f64,
}

impl Around {
    /// A surface of the dataset in this air.
    #[must_use]
    pub const fn of(surface: &LosingSurface, air_c: f64) -> Self {
        Self { w_per_m2_k: surface.transfer_w_per_m2_k, emissivity: surface.emissivity, air_c }
    }

    /// What a square metre loses at a temperature, W: `h (T - Ta) + eps sigma (T⁴ - Ta⁴)`.
    #[must_use]
    pub fn loss_w_per_m2(&self, at_c: f64) -> f64 {
        let fourth = |at_c: f64| (at_c + ZERO_C_IN_K).powi(4);
        self.w_per_m2_k * (at_c - self.air_c)
            + self.emissivity * STEFAN_BOLTZMANN * (fourth(at_c) - fourth(self.air_c))
    }
}

/// Seconds from one temperature to another with a power into the part, W; 0 leaves it to cool.
/// `None` where it never gets there.
///
/// `m c(T) dT/dt = P - A loss(T)`, added up in steps of temperature with the heat content in closed
/// form, so that no step passes over the peak of the specific heat.
#[must_use]
pub fn seconds_between(body: Body, power_w: f64, around: Around, from_c: f64, to_c: f64) -> Option<f64> {
    let content = |at_c| body.mass_kg * carbon_steel::heat_content(at_c);
    seconds(content, body.surface_m2, power_w, around, from_c, to_c)
}

/// Seconds that a body of this surface cools by itself; it holds so many J for each K.
#[must_use]
pub fn seconds_of_capacity(
    j_per_k: f64,
    surface_m2: f64,
    around: Around,
    from_c: f64,
    to_c: f64,
) -> Option<f64> {
    seconds(|at_c| j_per_k * at_c, surface_m2, 0.0, around, from_c, to_c)
}

/// Seconds that a kilogram of steel behind a square metre takes to cool by itself: only the ratio of two
/// such times means anything for a part of which nothing is known.
#[must_use]
pub fn seconds_of_shape(around: Around, from_c: f64, to_c: f64) -> Option<f64> {
    seconds(carbon_steel::heat_content, 1.0, 0.0, around, from_c, to_c)
}

fn seconds(
    content_j: impl Fn(f64) -> f64,
    surface_m2: f64,
    power_w: f64,
    around: Around,
    from_c: f64,
    to_c: f64,
) -> Option<f64> {
    let step_k = (to_c - from_c) / f64::from(STEPS);
    if !step_k.is_finite() {
        return None;
    }
    let mut taken_s = 0.0;
    for step in 0..STEPS {
        let here_c = step_k.mul_add(f64::from(step), from_c);
        let net_w = power_w - surface_m2 * around.loss_w_per_m2(step_k.mul_add(0.5, here_c));
        let heat_j = content_j(here_c + step_k) - content_j(here_c);
        let step_s = heat_j / net_w;
        if heat_j != 0.0 && !(step_s > 0.0 && step_s.is_finite()) {
            return None;
        }
        taken_s += if heat_j == 0.0 { 0.0 } else { step_s };
    }
    // The middle of the last step may get there where its end does not.
    let end_w = power_w - surface_m2 * around.loss_w_per_m2(to_c);
    (step_k == 0.0 || end_w * step_k > 0.0).then_some(taken_s)
}

/// The rate at which a part cools at a temperature, K/h.
#[must_use]
pub fn cooling_rate_k_per_h(body: Body, around: Around, at_c: f64) -> f64 {
    3600.0 * body.surface_m2 * around.loss_w_per_m2(at_c) / (body.mass_kg * carbon_steel::specific_heat(at_c))
}

/// How unevenly a body cools through: `Bi = h V / (A λ)` with all losses in h; under 0.1 it is as hot in
/// the middle as outside (handbooks of heat transfer).
#[must_use]
pub fn biot(body: Body, around: Around, at_c: f64) -> f64 {
    let w_per_m2_k = around.loss_w_per_m2(at_c) / (at_c - around.air_c);
    let depth_m = body.mass_kg / DENSITY_KG_PER_M3 / body.surface_m2;
    w_per_m2_k * depth_m / carbon_steel::conductivity(at_c)
}

/// A blanket and the air outside it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Blanket {
    /// What its fibre passes, W/(m K).
    pub w_per_m_k: f64,
    /// What the air outside takes, W/(m² K).
    pub air_w_per_m2_k: f64,
}

impl Blanket {
    /// What a thickness of it passes, W/(m² K): `1 / (t/k + 1/h)`.
    #[must_use]
    pub fn passes_w_per_m2_k(self, thickness_mm: f64) -> f64 {
        1.0 / (thickness_mm / 1000.0 / self.w_per_m_k + 1.0 / self.air_w_per_m2_k)
    }

    /// The thickness under which a part cools no faster than this at a temperature, mm; 0 where none
    /// is needed.
    #[must_use]
    pub fn thickness_mm_for(self, body: Body, rate_k_per_h: f64, at_c: f64, air_c: f64) -> f64 {
        let most = rate_k_per_h / 3600.0 * body.mass_kg * carbon_steel::specific_heat(at_c)
            / (body.surface_m2 * (at_c - air_c));
        (1000.0 * self.w_per_m_k * (1.0 / most - 1.0 / self.air_w_per_m2_k)).max(0.0)
    }
}
