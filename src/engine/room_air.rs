//! What is left of the air of a closed room when a pin is frozen in it?

use super::error::Domain;
use super::{EngineError, Outcome, Unit};
use crate::reference::{Fits, Method};

/// Oxygen with the gas of liquid nitrogen in a room, and carbon dioxide with that of dry ice.
///
/// `O2 = 20.9 (1 - V / V_room)`, never below 0: the gas takes the place of as much air, and none of it
/// leaves again (the usual sum for displaced air, from memory). Gas that mixes and leaves in part would
/// leave more. `CO2 = 1e6 (1 - exp(-V / V_room))`, where it mixes and pushes the mixture out. Cold gas
/// lies low: at the floor it is worse. Source: 696 volumes of gas from one of liquid nitrogen.
///
/// # Errors
/// A figure that is not a number, or that no shop has.
pub fn room_air(
    fits: &Fits,
    room_m3: f64,
    nitrogen_l: f64,
    dry_ice_kg: f64,
) -> Result<[Outcome; 2], EngineError> {
    Domain::new("room-volume", 1.0, 1e6).check(room_m3)?;
    Domain::new("nitrogen", 0.0, 1000.0).check(nitrogen_l)?;
    Domain::new("dry-ice", 0.0, 1000.0).check(dry_ice_kg)?;
    let nitrogen_m3 = nitrogen_l / 1000.0 * fits.nitrogen_volumes;
    let dioxide_m3 = dry_ice_kg / fits.carbon_dioxide_kg_per_m3;
    let oxygen = fits.oxygen_percent * (1.0 - (nitrogen_m3 + dioxide_m3) / room_m3).max(0.0);
    let basis = if dry_ice_kg > 0.0 {
        fits.nitrogen_basis.weaker(&fits.carbon_dioxide_basis)
    } else {
        &fits.nitrogen_basis
    };
    let answer = |name, value, unit| Outcome::new(Method::RoomAir, value, unit).named(name);
    Ok([
        answer("air-oxygen", oxygen, Unit::Percent).resting_on(basis),
        answer("air-carbon-dioxide", -1e6 * (-dioxide_m3 / room_m3).exp_m1(), Unit::Ppm)
            .resting_on(&fits.carbon_dioxide_basis),
    ])
}
