//! How hard does the hub grip, what does that do to it, and what does it hold?

use super::table::Tightness;
use super::{DIAMETER, check_outer};
use crate::engine::error::Domain;
use crate::engine::{EngineError, Outcome, Step, Unit};
use crate::reference::{FactorRange, Fits, Method};

/// Hub and pin, elastic and as long as each other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grip {
    /// Diameter of the fit, mm.
    pub diameter_mm: f64,
    /// Outside of the hub, mm.
    pub outer_mm: f64,
    /// Bore of the pin, mm; 0 for a solid one.
    pub pin_bore_mm: f64,
    /// Young's modulus of the hub, MPa.
    pub hub_mpa: f64,
    /// Young's modulus of the pin, MPa.
    pub pin_mpa: f64,
    /// Poisson's ratio of both.
    pub poisson: f64,
}

/// Pressure and stresses of one interference, MPa.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stresses {
    /// Pressure in the fit.
    pub pressure: f64,
    /// Hoop stress of the hub at the bore.
    pub hub_hoop: f64,
    /// Hoop stress of the hub at its outside.
    pub hub_outside: f64,
    /// The same as the hub, by von Mises.
    pub hub_mises: f64,
    /// Hoop stress of the pin at the fit; negative is compression.
    pub pin_hoop: f64,
    /// The same at the pin's own bore, where it has one.
    pub pin_bore_hoop: Option<f64>,
}

impl Grip {
    /// Pressure and stresses by Lamé, plane stress, for an interference on the diameter, µm.
    ///
    /// `p = delta / (d [ (K_h + nu) / E_h + (K_p - nu) / E_p ])`,
    /// `K_h = (D² + d²) / (D² - d²)`, `K_p = (d² + b²) / (d² - b²)`.
    #[must_use]
    pub fn stresses(&self, interference_um: f64) -> Stresses {
        let square = |length_mm: f64| length_mm * length_mm;
        let (d2, outer2, bore2) = (square(self.diameter_mm), square(self.outer_mm), square(self.pin_bore_mm));
        let (hub, pin) = ((outer2 + d2) / (outer2 - d2), (d2 + bore2) / (d2 - bore2));
        let gives = (hub + self.poisson) / self.hub_mpa + (pin - self.poisson) / self.pin_mpa;
        let pressure = 1e-3 * interference_um / (self.diameter_mm * gives);
        let hub_hoop = pressure * hub;
        Stresses {
            pressure,
            hub_hoop,
            hub_outside: 2.0 * pressure * d2 / (outer2 - d2),
            hub_mises: (hub_hoop * hub_hoop + hub_hoop * pressure + pressure * pressure).sqrt(),
            pin_hoop: -pressure * pin,
            pin_bore_hoop: (self.pin_bore_mm > 0.0).then(|| -2.0 * pressure * d2 / (d2 - bore2)),
        }
    }

    /// Axial force that slips, kN: `mu p pi d L`.
    #[must_use]
    pub fn force_kn(&self, pressure_mpa: f64, friction: f64, length_mm: f64) -> f64 {
        1e-3 * friction * pressure_mpa * std::f64::consts::PI * self.diameter_mm * length_mm
    }

    /// Torque that slips, N m: the force at half the diameter.
    #[must_use]
    pub fn torque_nm(&self, force_kn: f64) -> f64 {
        force_kn * self.diameter_mm / 2.0
    }
}

/// A grip with what it must hold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GripQuery<'a> {
    /// The two parts.
    pub grip: Grip,
    /// How much larger the pin is.
    pub tightness: &'a Tightness,
    /// Roughness Rz of both surfaces together, µm.
    pub roughness_um: f64,
    /// Length of the fit, mm.
    pub length_mm: f64,
    /// Friction.
    pub friction: FactorRange,
}

/// The grip.
#[derive(Debug, Clone, PartialEq)]
pub struct Gripped {
    /// The answers, what the loosest pair holds first.
    pub outcomes: Vec<Outcome>,
    /// The hub's stress by von Mises in the tightest pair, MPa.
    pub hub_mises_mpa: f64,
    /// The greatest stress of the pin in the tightest pair, MPa.
    pub pin_mpa: f64,
    /// Does the loosest pair hold nothing?
    pub loosest_slips: bool,
}

/// Torque and force of the loosest pair with the least friction to the tightest with the most;
/// pressure of both; stresses of the tightest.
///
/// Source: Lamé's thick cylinders in plane stress; `delta - 0.8 (Rz + Rz)` for rough surfaces.
///
/// # Errors
/// A hub that is no larger than the fit, a pin bore that is, a figure that no part has.
pub fn grip(fits: &Fits, asked: &GripQuery<'_>) -> Result<Gripped, EngineError> {
    let grip = asked.grip;
    DIAMETER.check(grip.diameter_mm)?;
    check_outer(grip.diameter_mm, grip.outer_mm)?;
    Domain::new("pin-bore", 0.0, 0.99 * grip.diameter_mm).check(grip.pin_bore_mm)?;
    Domain::new("fit-length", 0.5, 10_000.0).check(asked.length_mm)?;
    Domain::new("roughness", 0.0, 1000.0).check(asked.roughness_um)?;
    for modulus in [grip.hub_mpa, grip.pin_mpa] {
        Domain::new("E", 1000.0, 1e15).check(modulus)?;
    }
    for friction in [asked.friction.low, asked.friction.high] {
        Domain::new("friction", 0.0, 1.0).check(friction)?;
    }
    let smoothed =
        |interference_um: f64| (interference_um - fits.smoothing_share * asked.roughness_um).max(0.0);
    let (loose_um, tight_um) = (smoothed(asked.tightness.low_um), smoothed(asked.tightness.high_um));
    let (loose, tight) = (grip.stresses(loose_um), grip.stresses(tight_um));
    let least_kn = grip.force_kn(loose.pressure, asked.friction.low, asked.length_mm);
    let most_kn = grip.force_kn(tight.pressure, asked.friction.high, asked.length_mm);
    let method = Method::LameGrip;
    let holds = |name, least, most, unit| {
        Outcome::new(method, least, unit)
            .named(name)
            .spread(least, most)
            .resting_on(asked.tightness.weaker(&fits.friction_basis))
    };
    let stress = |name, value| {
        let made = Outcome::new(method, value, Unit::Megapascal).named(name);
        if asked.roughness_um > 0.0 { made.resting_on(&fits.smoothing_basis) } else { made }
    };
    let counted = vec![
        Step::new("loosest", loose_um, Unit::Micrometre),
        Step::new("tightest", tight_um, Unit::Micrometre),
    ];
    let pin_most = tight.pin_bore_hoop.unwrap_or(tight.pin_hoop);
    Ok(Gripped {
        outcomes: vec![
            holds("fit-torque", grip.torque_nm(least_kn), grip.torque_nm(most_kn), Unit::NewtonMetre)
                .worked(counted),
            holds("fit-force", least_kn, most_kn, Unit::Kilonewton),
            stress("fit-pressure", tight.pressure).spread(loose.pressure, tight.pressure),
            stress("fit-hub-hoop", tight.hub_hoop),
            stress("fit-hub-mises", tight.hub_mises),
            stress("fit-pin-hoop", pin_most),
        ],
        hub_mises_mpa: tight.hub_mises,
        pin_mpa: pin_most.abs(),
        loosest_slips: loose_um <= 0.0,
    })
}
