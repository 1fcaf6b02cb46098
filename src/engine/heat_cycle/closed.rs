//! Closed forms that stand beside the cycle and bound it.

use std::f64::consts::PI;

use roots::{SimpleConvergency, find_root_brent};

use crate::engine::post_heat::{Curve, diffusivity_cm2_per_s};
use crate::engine::thermal::carbon_steel;
use crate::reference::Reference;

/// Stefan-Boltzmann constant, W/(m² K⁴).
const RADIATION: f64 = 5.670_374_419e-8;
const ZERO_C_K: f64 = 273.15;

/// Share of `t α / L²` after which the faces of a plate that was heated on one of them differ by
/// 10 % of what they did.
pub const EVEN_TO_TENTH: f64 = 0.212;
/// The same for 5 %.
pub const EVEN_TO_TWENTIETH: f64 = 0.282;

/// Minutes to heat a part that loses nothing: `m [H(T) - H(T0)] / P`.
#[must_use]
pub fn lumped_min_no_loss(mass_kg: f64, from_c: f64, to_c: f64, power_w: f64) -> f64 {
    mass_kg * (carbon_steel::heat_content(to_c) - carbon_steel::heat_content(from_c)) / power_w / 60.0
}

/// A part that is hot all through, with its surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lump {
    /// kg.
    pub mass_kg: f64,
    /// m².
    pub area_m2: f64,
    /// W/(m² K).
    pub transfer_w_per_m2_k: f64,
    /// Emissivity.
    pub emissivity: f64,
    /// °C.
    pub around_c: f64,
    /// Power that goes in, W.
    pub power_w: f64,
}

impl Lump {
    /// Net power at a temperature, W.
    #[must_use]
    pub fn net_w(&self, at_c: f64) -> f64 {
        let fourth = |at_c: f64| (at_c + ZERO_C_K).powi(4);
        let radiant = self.emissivity * RADIATION * (fourth(at_c) - fourth(self.around_c));
        self.power_w - self.area_m2 * (self.transfer_w_per_m2_k * (at_c - self.around_c) + radiant)
    }

    /// Minutes from one temperature to another: `m c dT / dt = P - A [h (T - Ta) + ε σ (K⁴ - Ka⁴)]`;
    /// `None` where it never gets there.
    #[must_use]
    pub fn minutes(&self, from_c: f64, to_c: f64) -> Option<f64> {
        const STEPS: i32 = 4000;
        let width = (to_c - from_c) / f64::from(STEPS);
        let mut seconds = 0.0;
        for step in 0..STEPS {
            let low_c = f64::from(step).mul_add(width, from_c);
            let content = carbon_steel::heat_content(low_c + width) - carbon_steel::heat_content(low_c);
            let part = self.mass_kg * content / self.net_w(low_c + width / 2.0);
            if !part.is_finite() || part < 0.0 {
                return None;
            }
            seconds += part;
        }
        Some(seconds / 60.0)
    }
}

/// Seconds in which a part with constant properties cools or warms through:
/// `m c / (h A) ln[(T0 - Ta) / (T - Ta)]`.
#[must_use]
pub fn lumped_constant_s(
    mass_kg: f64,
    specific_heat: f64,
    transfer_w_per_k: f64,
    from_c: f64,
    to_c: f64,
    around_c: f64,
) -> f64 {
    mass_kg * specific_heat / transfer_w_per_k * ((from_c - around_c) / (to_c - around_c)).ln()
}

/// A metal whose properties don't change.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Constant {
    /// W/(m K).
    pub conductivity: f64,
    /// J/(kg K).
    pub specific_heat: f64,
    /// kg/m³.
    pub density: f64,
}

impl Constant {
    /// Diffusivity of heat, m²/s.
    #[must_use]
    pub fn diffusivity(self) -> f64 {
        self.conductivity / (self.specific_heat * self.density)
    }

    /// Rise under a steady flux at a depth of a thick part, K:
    /// `2 q √(α t / π) exp(-x² / 4 α t) / λ - q x erfc(x / 2 √(α t)) / λ`.
    #[must_use]
    pub fn thick_rise_k(self, flux_w_per_m2: f64, time_s: f64, depth_m: f64) -> f64 {
        let reach = (self.diffusivity() * time_s).sqrt();
        let x = depth_m / (2.0 * reach);
        flux_w_per_m2 / self.conductivity
            * (2.0 * reach / PI.sqrt() * (-x * x).exp() - depth_m * libm::erfc(x))
    }
}

/// Difference of the faces of a plate under a steady flame on one of them, K: `q t / 2 λ`. So the
/// flame's face reads high.
#[must_use]
pub const fn face_difference_k(flux_w_per_m2: f64, thickness_m: f64, conductivity: f64) -> f64 {
    flux_w_per_m2 * thickness_m / (2.0 * conductivity)
}

/// How heat runs along a plate that loses on both faces: `m = √(2 h / λ t)`, 1/m, and what is left
/// of the base's excess at x with the far end closed, `cosh m(L - x) / cosh mL`.
#[must_use]
pub fn fin(transfer: f64, thickness_m: f64, conductivity: f64, length_m: f64, x_m: f64) -> (f64, f64) {
    let m = (2.0 * transfer / (conductivity * thickness_m)).sqrt();
    (m, (m * (length_m - x_m)).cosh() / (m * length_m).cosh())
}

/// The first term of a series: `C exp(-ζ² Fo)`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OneTerm {
    /// ζ.
    pub zeta: f64,
    /// C.
    pub factor: f64,
}

impl OneTerm {
    /// A slab with both faces in the air, by its half thickness: `ζ tan ζ = Bi`,
    /// `C = 4 sin ζ / (2 ζ + sin 2ζ)`.
    #[must_use]
    pub fn slab(biot: f64) -> Self {
        let zeta = root(1e-9, PI / 2.0 - 1e-12, |zeta| zeta * zeta.sin() - biot * zeta.cos());
        Self { zeta, factor: 4.0 * zeta.sin() / (2.0 * zeta + (2.0 * zeta).sin()) }
    }

    /// A cylinder, by its radius: `ζ J1(ζ) / J0(ζ) = Bi`, `C = 2 J1 / [ζ (J0² + J1²)]`.
    #[must_use]
    pub fn cylinder(biot: f64) -> Self {
        /// First root of J0.
        const FIRST_ROOT: f64 = 2.404_825_557_695_773;
        let zeta = root(1e-9, FIRST_ROOT, |zeta| zeta * libm::j1(zeta) - biot * libm::j0(zeta));
        let (zeroth, first) = (libm::j0(zeta), libm::j1(zeta));
        Self { zeta, factor: 2.0 * first / (zeta * (zeroth * zeroth + first * first)) }
    }

    /// What is left of the excess in the middle at `Fo = α t / L²`; good from 0.2 on.
    #[must_use]
    pub fn middle(self, fourier: f64) -> f64 {
        self.factor * (-self.zeta * self.zeta * fourier).exp()
    }
}

fn root(low: f64, high: f64, rises: impl Fn(f64) -> f64) -> f64 {
    let mut near = SimpleConvergency { eps: 1e-14, max_iter: 200 };
    find_root_brent(low, high, &rises, &mut near).expect("the ends lie on both sides of the root")
}

/// Share that a charged layer on a thick part has kept at `F = D t / a²`, its surface empty:
/// `erf(a/s) - s / (a √π) [1 - exp(-a²/s²)]` with `s = 2 √(D t)`.
#[must_use]
pub fn layer_kept(fourier: f64) -> f64 {
    if fourier <= 0.0 {
        return 1.0;
    }
    let s = 2.0 * fourier.sqrt();
    libm::erf(1.0 / s) + s / PI.sqrt() * (-1.0 / (s * s)).exp_m1()
}

/// Late in its life the peak of such a layer is `0.121 a² / (D t)`.
pub const LATE_PEAK: f64 = 0.121;

/// Hours until a share is left of a layer, by its late form alone: on the long side.
#[must_use]
pub fn layer_hours_late(depth_mm: f64, diffusivity_cm2_per_s: f64, left: f64) -> f64 {
    LATE_PEAK * depth_mm * depth_mm / (diffusivity_cm2_per_s * 100.0 * left) / 3600.0
}

/// `∫ D dt` of a weld that cools evenly, mm²: it stands for `D t` in the forms above.
#[must_use]
pub fn thermal_factor_mm2(reference: &Reference, curve: Curve, from_c: f64, to_c: f64, hours: f64) -> f64 {
    const STEPS: i32 = 2000;
    let at = |step: i32| (f64::from(step) + 0.5) / f64::from(STEPS);
    let d = |share: f64| diffusivity_cm2_per_s(reference, curve, from_c + share * (to_c - from_c));
    let mean = (0..STEPS).map(|step| d(at(step))).sum::<f64>() / f64::from(STEPS);
    mean * 100.0 * hours * 3600.0
}
