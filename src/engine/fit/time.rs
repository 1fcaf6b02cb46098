//! How many seconds are there to carry the hub, and to push the pin home?

use super::metal::{End, growth, temperature_for};
use super::table::Tightness;
use super::{DIAMETER, SHOP, TEMPERATURE, check_outer};
use crate::engine::error::Domain;
use crate::engine::lumped::{Around, Body, seconds_between, seconds_of_capacity};
use crate::engine::thermal::{DENSITY_KG_PER_M3, carbon_steel};
use crate::engine::{EngineError, Outcome, Says, Step, Unit};
use crate::reference::{Basis, Fits, HeatCycleData, Metal, Method};

/// A hub out of the heat, and the pin that goes in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HotHub<'a> {
    /// How much larger the pin is.
    pub tightness: &'a Tightness,
    /// Outside of the hub, mm.
    pub outer_mm: f64,
    /// Its length, mm.
    pub length_mm: f64,
    /// Metal of the hub.
    pub hub: &'a Metal,
    /// Metal of the pin.
    pub pin: &'a Metal,
    /// Temperature of the hub as it leaves the heat, °C.
    pub hub_c: f64,
    /// Temperature of the pin, °C.
    pub pin_c: f64,
    /// Temperature of the shop, °C.
    pub shop_c: f64,
}

/// Seconds from the heat to the pin, and from entry until the tightest pair sticks.
///
/// Carrying: the hub cools as one body in air, until the room to enter is the trade's; less at the low
/// end, for a draught or a cold clamp. In the hole: pin and hub share their heat through the gap,
/// `t = -tau ln(1 - room / closing)`, `tau = rho c d / (4 h)` of the pin times the hub's share of
/// both heat capacities; h from a tight to a loose gap. The pin is counted as one body, so that it warms sooner
/// than it does. Each metal holds the heat of its own row; steel that of EN 1993-1-2 3.4.1.2.
///
/// # Errors
/// `fit-not-open` where the tightest pair does not go in as hot and cold as they are; a hub that is no
/// larger than the fit; a temperature beyond the figures of a metal.
pub fn fit_time(
    fits: &Fits,
    losses: &HeatCycleData,
    asked: &HotHub<'_>,
) -> Result<[Outcome; 2], EngineError> {
    let air = losses.still_air();
    let diameter_mm = DIAMETER.check(asked.tightness.diameter_mm)?;
    check_outer(diameter_mm, asked.outer_mm)?;
    SHOP.check(asked.shop_c)?;
    Domain::new("hub-length", 0.5, 10_000.0).check(asked.length_mm)?;
    for at_c in [asked.hub_c, asked.pin_c] {
        TEMPERATURE.check(at_c)?;
    }
    let least = |metal, at_c| {
        growth(metal, at_c, End::Least).ok_or(EngineError::NoAnswer { reason: "fit-hub-beyond-figures" })
    };
    let pin_end = if asked.pin_c > asked.shop_c { End::Most } else { End::Least };
    let pin_at = |at_c| {
        growth(asked.pin, at_c, pin_end).ok_or(EngineError::NoAnswer { reason: "fit-pin-beyond-figures" })
    };
    let shrunk = pin_at(asked.shop_c)? - pin_at(asked.pin_c)?;
    let (start, hot) = (least(asked.hub, asked.shop_c)?, least(asked.hub, asked.hub_c)?);
    let tight = 1e-3 * asked.tightness.high_um / diameter_mm;
    let room = hot - start + shrunk - tight;
    if room <= 0.0 {
        return Err(EngineError::NoAnswer { reason: "fit-not-open" });
    }
    let wanted = 1e-3 * fits.room_um_per_mm;
    let entry_c = if room > wanted {
        temperature_for(asked.hub, start + tight + wanted - shrunk, End::Least).unwrap_or(asked.shop_c)
    } else {
        asked.hub_c
    }
    .max(asked.shop_c);
    let still = Around::of(air, asked.shop_c);
    let ring = Body::ring(diameter_mm, asked.outer_mm, asked.length_mm);
    let heat_basis = |basis| {
        [asked.hub, asked.pin]
            .into_iter()
            .filter_map(|metal| metal.heat_basis.as_ref())
            .fold(basis, |basis: &Basis, heat| basis.weaker(heat))
    };
    let basis = asked.tightness.weaker(air.basis.weaker(&losses.hindered_basis));
    let carry = Outcome::open(Method::FitTime, Unit::Second).named("fit-carry").resting_on(heat_basis(basis));
    let still_s = match asked.hub.heat_mj_per_m3_k {
        Some(heat) => {
            let j_per_k = 1e6 * heat * ring.mass_kg / DENSITY_KG_PER_M3;
            seconds_of_capacity(j_per_k, ring.surface_m2, still, asked.hub_c, entry_c)
        }
        None => seconds_between(ring, 0.0, still, asked.hub_c, entry_c),
    };
    let carry = match still_s {
        Some(still_s) => {
            let hindered_s = losses.hindered_share * still_s;
            Outcome { value: Some(hindered_s), ..carry }.spread(hindered_s, still_s)
        }
        // So cold a pin that the hub may cool down to the shop.
        None => carry.saying(Says::NoFigure),
    };
    let open = Outcome::open(Method::FitTime, Unit::Second)
        .named("fit-push")
        .resting_on(heat_basis(asked.tightness.weaker(&fits.gap_basis)));
    let square = |length_mm: f64| length_mm * length_mm;
    let middle_c = f64::midpoint(entry_c, asked.pin_c);
    let pin_part = square(diameter_mm) * heat_j_per_m3_k(asked.pin, middle_c);
    let hub_part = (square(asked.outer_mm) - square(diameter_mm)) * heat_j_per_m3_k(asked.hub, middle_c);
    let share = hub_part / (hub_part + pin_part);
    let even_c = share.mul_add(entry_c - asked.pin_c, asked.pin_c);
    // It closes as fast as hub and pin may, so that the seconds are the fewest.
    let most = |metal, at_c| growth(metal, at_c, End::Most);
    let pair = |metal, cold_c, hot_c| {
        let (hot, cold) = most(metal, hot_c).zip(most(metal, cold_c))?;
        Some(hot - cold)
    };
    let closing = pair(asked.pin, asked.pin_c, even_c)
        .zip(pair(asked.hub, even_c, entry_c))
        .map(|(pin, hub)| pin + hub)
        .ok_or(EngineError::NoAnswer { reason: "fit-pin-beyond-figures" })?;
    let room = room.min(wanted);
    let push = if room < closing {
        let heat = heat_j_per_m3_k(asked.pin, even_c) * diameter_mm / 4000.0;
        let seconds = |w_per_m2_k: f64| -heat / w_per_m2_k * share * (1.0 - room / closing).ln();
        let (low_s, high_s) = (seconds(fits.gap_tight_w_per_m2_k), seconds(fits.gap_loose_w_per_m2_k));
        Outcome { value: Some(low_s), ..open }.spread(low_s, high_s)
    } else {
        open.saying(Says::NoFigure)
    };
    let steps = vec![
        Step::new("room", 1e3 * room * diameter_mm, Unit::Micrometre),
        Step::new("at entry", entry_c, Unit::Celsius),
        Step::new("both", even_c, Unit::Celsius),
    ];
    Ok([push.worked(steps), carry])
}

/// Heat that a m³ holds for each K, J.
fn heat_j_per_m3_k(metal: &Metal, at_c: f64) -> f64 {
    metal
        .heat_mj_per_m3_k
        .map_or_else(|| DENSITY_KG_PER_M3 * carbon_steel::specific_heat(at_c), |heat| 1e6 * heat)
}
