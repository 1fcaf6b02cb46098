//! What becomes of the fit at the preheat, and how warm are hub and pin once they share their heat?

use super::metal::{End, growth, temperature_for};
use super::table::Tightness;
use super::{SHOP, TEMPERATURE};
use crate::engine::lumped::MASS;
use crate::engine::solve::turning_point;
use crate::engine::thermal::carbon_steel;
use crate::engine::{EngineError, Outcome, Says, Step, Unit};
use crate::reference::{Metal, Method};

/// A pin in its hub, both at one temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WarmFit<'a> {
    /// How much larger the pin is.
    pub tightness: &'a Tightness,
    /// Metal of the hub.
    pub hub: &'a Metal,
    /// Metal of the pin.
    pub pin: &'a Metal,
    /// Temperature at which both were measured, °C.
    pub shop_c: f64,
    /// Temperature of both, °C.
    pub both_c: f64,
}

/// The interference with both parts equally hot, of the loosest and the tightest pair, and the hub's
/// temperature at which a pin that stays cold comes loose.
///
/// Source: growth by EN 1993-1-2 3.4.1.1 or by the metals' rows.
///
/// # Errors
/// A temperature that no shop has, or beyond the figures of a metal.
pub fn fit_at_preheat(asked: &WarmFit<'_>) -> Result<[Outcome; 2], EngineError> {
    SHOP.check(asked.shop_c)?;
    TEMPERATURE.check(asked.both_c)?;
    let diameter_mm = asked.tightness.diameter_mm;
    let change_um = |end| -> Result<[f64; 2], EngineError> {
        let grown = |metal: &Metal, end, reason| {
            let at = |at_c| growth(metal, at_c, end).ok_or(EngineError::NoAnswer { reason });
            Ok::<f64, EngineError>(at(asked.both_c)? - at(asked.shop_c)?)
        };
        let pin = grown(asked.pin, end, "fit-pin-beyond-figures")?;
        // A metal grows with itself: the ends of its figures do not part.
        let ends = if asked.hub.id == asked.pin.id { [end; 2] } else { [End::Least, End::Most] };
        let mut made = [0.0; 2];
        for (one, hub_end) in made.iter_mut().zip(ends) {
            let hub = grown(asked.hub, hub_end, "fit-hub-beyond-figures")?;
            *one = 1e3 * (pin - hub) * diameter_mm;
        }
        Ok(made)
    };
    let changes_um = [change_um(End::Least)?, change_um(End::Most)?].concat();
    let least_um = changes_um.iter().copied().fold(f64::INFINITY, f64::min);
    let most_um = changes_um.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let basis = asked.tightness.weaker(asked.hub.basis.weaker(&asked.pin.basis));
    let warm = Outcome::new(Method::FitAtPreheat, asked.tightness.low_um + least_um, Unit::Micrometre)
        .named("fit-at-preheat")
        .spread(asked.tightness.low_um + least_um, asked.tightness.high_um + most_um)
        .resting_on(basis)
        .worked(vec![Step::new("change", least_um, Unit::Micrometre)]);
    let start = growth(asked.hub, asked.shop_c, End::Most);
    let loose = start.and_then(|start| {
        temperature_for(asked.hub, start + 1e-3 * asked.tightness.low_um / diameter_mm, End::Most)
    });
    let alone = Outcome::open(Method::FitAtPreheat, Unit::Celsius).named("fit-hub-alone").resting_on(basis);
    Ok([
        warm,
        match loose {
            Some(loose_c) => Outcome { value: Some(loose_c), ..alone },
            None => alone.saying(Says::NoFigure),
        },
    ])
}

/// Two bodies of steel that come to one temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pair {
    /// Mass of the hub, kg.
    pub hub_kg: f64,
    /// Its temperature, °C.
    pub hub_c: f64,
    /// Mass of the pin, kg.
    pub pin_kg: f64,
    /// Its temperature, °C.
    pub pin_c: f64,
}

/// The temperature of both, with no heat lost: `m_h h(T_h) + m_p h(T_p) = (m_h + m_p) h(T)`.
///
/// Source: heat content by EN 1993-1-2 3.4.1.2. Below 20 °C the specific heat of 20 °C counts, which
/// is more than frozen steel has: the pair is no colder than this.
///
/// # Errors
/// A mass or a temperature that no part has.
pub fn even_temperature(pair: Pair) -> Result<Outcome, EngineError> {
    for mass_kg in [pair.hub_kg, pair.pin_kg] {
        MASS.check(mass_kg)?;
    }
    for at_c in [pair.hub_c, pair.pin_c] {
        TEMPERATURE.check(at_c)?;
    }
    let heat = |at_c| carbon_steel::heat_content(at_c);
    let sum = pair.hub_kg * heat(pair.hub_c) + pair.pin_kg * heat(pair.pin_c);
    let mean = sum / (pair.hub_kg + pair.pin_kg);
    let (low_c, high_c) = (pair.hub_c.min(pair.pin_c), pair.hub_c.max(pair.pin_c));
    let even_c = turning_point(low_c, high_c, |at_c| heat(at_c) < mean);
    Ok(Outcome::new(Method::EvenTemperature, even_c, Unit::Celsius).named("fit-even-temperature"))
}
