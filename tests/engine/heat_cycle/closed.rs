//! Closed forms of the handbooks that the cycle is compared with.

use std::f64::consts::PI;

use roots::{SimpleConvergency, find_root_brent};

use strawblue::engine::post_heat::{Curve, diffusivity_cm2_per_s};
use strawblue::engine::thermal::carbon_steel;
use strawblue::reference::Reference;

/// Minutes to heat a part that loses nothing: `m [H(T) - H(T0)] / P`.
pub(super) fn lumped_min_no_loss(mass_kg: f64, from_c: f64, to_c: f64, power_w: f64) -> f64 {
    mass_kg * (carbon_steel::heat_content(to_c) - carbon_steel::heat_content(from_c)) / power_w / 60.0
}

/// Seconds in which a part with constant properties cools or warms through:
/// `m c / (h A) ln[(T0 - Ta) / (T - Ta)]`.
pub(super) fn lumped_constant_s(
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
pub(super) struct Constant {
    /// W/(m K).
    pub(super) conductivity: f64,
    /// J/(kg K).
    pub(super) specific_heat: f64,
    /// kg/m³.
    pub(super) density: f64,
}

impl Constant {
    /// Diffusivity of heat, m²/s.
    pub(super) fn diffusivity(self) -> f64 {
        self.conductivity / (self.specific_heat * self.density)
    }

    /// Rise under a steady flux at a depth of a thick part, K:
    /// `2 q √(α t / π) exp(-x² / 4 α t) / λ - q x erfc(x / 2 √(α t)) / λ`.
    pub(super) fn thick_rise_k(self, flux_w_per_m2: f64, time_s: f64, depth_m: f64) -> f64 {
        let reach = (self.diffusivity() * time_s).sqrt();
        let x = depth_m / (2.0 * reach);
        flux_w_per_m2 / self.conductivity
            * (2.0 * reach / PI.sqrt() * (-x * x).exp() - depth_m * libm::erfc(x))
    }
}

/// Difference of the faces of a plate under a steady flame on one of them, K: `q t / 2 λ`. So the
/// flame's face reads high.
pub(super) fn face_difference_k(flux_w_per_m2: f64, thickness_m: f64, conductivity: f64) -> f64 {
    flux_w_per_m2 * thickness_m / (2.0 * conductivity)
}

/// How heat runs along a plate that loses on both faces: `m = √(2 h / λ t)`, 1/m, and what is left
/// of the base's excess at x with the far end closed, `cosh m(L - x) / cosh mL`.
pub(super) fn fin(transfer: f64, thickness_m: f64, conductivity: f64, length_m: f64, x_m: f64) -> (f64, f64) {
    let m = (2.0 * transfer / (conductivity * thickness_m)).sqrt();
    (m, (m * (length_m - x_m)).cosh() / (m * length_m).cosh())
}

/// The first term of a series: `C exp(-ζ² Fo)`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct OneTerm {
    /// ζ.
    pub(super) zeta: f64,
    /// C.
    pub(super) factor: f64,
}

impl OneTerm {
    /// A slab with both faces in the air, by its half thickness: `ζ tan ζ = Bi`,
    /// `C = 4 sin ζ / (2 ζ + sin 2ζ)`.
    pub(super) fn slab(biot: f64) -> Self {
        let zeta = root(1e-9, PI / 2.0 - 1e-12, |zeta| zeta * zeta.sin() - biot * zeta.cos());
        Self { zeta, factor: 4.0 * zeta.sin() / (2.0 * zeta + (2.0 * zeta).sin()) }
    }

    /// A cylinder, by its radius: `ζ J1(ζ) / J0(ζ) = Bi`, `C = 2 J1 / [ζ (J0² + J1²)]`.
    pub(super) fn cylinder(biot: f64) -> Self {
        /// First root of J0.
        const FIRST_ROOT: f64 = 2.404_825_557_695_773;
        let zeta = root(1e-9, FIRST_ROOT, |zeta| zeta * libm::j1(zeta) - biot * libm::j0(zeta));
        let (zeroth, first) = (libm::j0(zeta), libm::j1(zeta));
        Self { zeta, factor: 2.0 * first / (zeta * (zeroth * zeroth + first * first)) }
    }

    /// What is left of the excess in the middle at `Fo = α t / L²`; good from 0.2 on.
    pub(super) fn middle(self, fourier: f64) -> f64 {
        self.factor * (-self.zeta * self.zeta * fourier).exp()
    }
}

fn root(low: f64, high: f64, rises: impl Fn(f64) -> f64) -> f64 {
    let mut near = SimpleConvergency { eps: 1e-14, max_iter: 200 };
    find_root_brent(low, high, &rises, &mut near).expect("the ends lie on both sides of the root")
}

/// Share that a charged layer on a thick part has kept at `F = D t / a²`, its surface empty:
/// `erf(a/s) - s / (a √π) [1 - exp(-a²/s²)]` with `s = 2 √(D t)`.
pub(super) fn layer_kept(fourier: f64) -> f64 {
    if fourier <= 0.0 {
        return 1.0;
    }
    let s = 2.0 * fourier.sqrt();
    libm::erf(1.0 / s) + s / PI.sqrt() * (-1.0 / (s * s)).exp_m1()
}

/// Late in its life the peak of such a layer is `0.121 a² / (D t)`.
pub(super) const LATE_PEAK: f64 = 0.121;

/// Hours until a share is left of a layer, by its late form alone: on the long side.
pub(super) fn layer_hours_late(depth_mm: f64, diffusivity_cm2_per_s: f64, left: f64) -> f64 {
    LATE_PEAK * depth_mm * depth_mm / (diffusivity_cm2_per_s * 100.0 * left) / 3600.0
}

/// `∫ D dt` of a weld that cools evenly, mm²: it stands for `D t` in the forms above.
pub(super) fn thermal_factor_mm2(
    reference: &Reference,
    curve: Curve,
    from_c: f64,
    to_c: f64,
    hours: f64,
) -> f64 {
    const STEPS: i32 = 2000;
    let at = |step: i32| (f64::from(step) + 0.5) / f64::from(STEPS);
    let d = |share: f64| diffusivity_cm2_per_s(reference, curve, from_c + share * (to_c - from_c));
    let mean = (0..STEPS).map(|step| d(at(step))).sum::<f64>() / f64::from(STEPS);
    mean * 100.0 * hours * 3600.0
}
