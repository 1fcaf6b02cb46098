//! How hot must the hub be, and how cold the pin, so that the pin slides in freely?

use super::local::HotRing;
use super::metal::{End, growth, temperature_for};
use super::table::Tightness;
use super::{SHOP, TEMPERATURE};
use crate::engine::error::Domain;
use crate::engine::{EngineError, Outcome, Says, Step, Unit};
use crate::reference::{Basis, Fits, Metal, Method};

/// A hub, a pin, and what may be done to them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShrinkFit<'a> {
    /// How much larger the pin is.
    pub tightness: &'a Tightness,
    /// Room to enter on the diameter, µm; `None` takes the trade's.
    pub room_um: Option<f64>,
    /// Metal of the hub.
    pub hub: &'a Metal,
    /// Metal of the pin.
    pub pin: &'a Metal,
    /// Temperature of the shop, at which both were measured, °C.
    pub shop_c: f64,
    /// Temperature of the pin, °C; `None` leaves it at that of the shop.
    pub pin_c: Option<f64>,
    /// What the hub must not pass, °C.
    pub ceiling_c: f64,
    /// What of the hub is hot, where that is only the metal round the bore.
    pub local: Option<HotRing>,
}

/// What came out.
#[derive(Debug, Clone, PartialEq)]
pub struct Shrunk {
    /// The answers, the hub's temperature first.
    pub outcomes: Vec<Outcome>,
    /// Would the hub pass its ceiling, or the figures of its metal?
    pub above_ceiling: bool,
    /// Is there a frozen pin with which it does not?
    pub by_freezing: bool,
    /// Is the pin so cold that the hub needs no heat?
    pub without_heat: bool,
    /// Does the reserve for the way to the pin pass the ceiling, where the need itself does not?
    pub reserve_above_ceiling: bool,
    /// Has the pin's metal figures for freezing?
    pub pin_freezes: bool,
    /// Would a hub that is heated round the bore alone pass the ceiling, or the figures of its metal?
    pub local_above_ceiling: bool,
}

/// Names of the answers with a frozen pin, by the ids of the coolants.
pub const FROZEN: [(&str, &str); 3] =
    [("freezer", "fit-hub-freezer"), ("dry-ice", "fit-hub-dry-ice"), ("nitrogen", "fit-hub-nitrogen")];

impl ShrinkFit<'_> {
    /// The bore, mm.
    pub(super) const fn bore_mm(&self) -> f64 {
        self.tightness.diameter_mm
    }

    /// Room to enter, µm.
    pub(super) fn room_um(&self, fits: &Fits) -> f64 {
        self.room_um.unwrap_or(fits.room_um_per_mm * self.tightness.diameter_mm)
    }

    /// Growth of hub and shrinkage of pin together that let the tightest pair in.
    fn needed(&self, fits: &Fits) -> f64 {
        1e-3 * (self.tightness.high_um + self.room_um(fits)) / self.tightness.diameter_mm
    }

    /// How much a pin of this temperature has shrunk since the shop's: the least that is sure.
    pub(super) fn shrunk(&self, pin_c: f64) -> Option<f64> {
        // A pin that is warmer than the shop has grown, at the most that it can.
        let end = if pin_c > self.shop_c { End::Most } else { End::Least };
        Some(growth(self.pin, self.shop_c, end)? - growth(self.pin, pin_c, end)?)
    }

    /// The hub's temperature with a pin of this one, °C: never below the shop's. `None` beyond the
    /// figures of a metal.
    pub(super) fn hub_c(&self, fits: &Fits, pin_c: f64) -> Option<f64> {
        self.hot_zone_c(fits, pin_c, 1.0)
    }

    /// The same where only this share of the hub's area is hot: the cold rest holds the bore.
    pub(super) fn hot_zone_c(&self, fits: &Fits, pin_c: f64, share: f64) -> Option<f64> {
        let start = growth(self.hub, self.shop_c, End::Least)?;
        let left = (self.needed(fits) - self.shrunk(pin_c)?).max(0.0);
        let left = if left > 0.0 { left / share } else { 0.0 };
        temperature_for(self.hub, start + left, End::Least).map(|hub_c| hub_c.max(self.shop_c))
    }
}

/// The hub's temperature at the bore at the moment of entry: with the pin as it is, then with the
/// pin out of a freezer, dry ice or liquid nitrogen; the pin's temperature that needs no heat.
///
/// `e_h(T) - e_h(T0) + s_p = (delta + c) / d`: e_h the growth of the hub, T0 the shop, s_p the
/// shrinkage of the pin, delta the tightest interference, c the room to enter, d the diameter. For
/// steel on steel this is `T = [-1.2e-5 + sqrt(1.44e-10 + 1.6e-8 (2.416e-4 + e0 + x))] / 0.8e-8`.
/// On the way a fifth of the rise is lost, and 20 K at least. A temperature above the ceiling is no
/// answer. Source: growth by EN 1993-1-2 3.4.1.1 or by the metal's row.
///
/// # Errors
/// A figure that is not a number, or that no shop has.
pub fn shrink_fit(fits: &Fits, fit: &ShrinkFit<'_>) -> Result<Shrunk, EngineError> {
    SHOP.check(fit.shop_c)?;
    TEMPERATURE.check(fit.ceiling_c)?;
    fit.pin_c.map(|pin_c| TEMPERATURE.check(pin_c)).transpose()?;
    Domain::new("room", 0.0, 5000.0).check(fit.room_um(fits))?;
    if let Some(ring) = fit.local {
        ring.check(fit.bore_mm())?;
    }
    let pin_c = fit.pin_c.unwrap_or(fit.shop_c);
    if fit.shrunk(pin_c).is_none() {
        return Err(EngineError::NoAnswer { reason: "fit-pin-beyond-figures" });
    }
    let allowed = |hub_c: Option<f64>| hub_c.filter(|hub_c| *hub_c <= fit.ceiling_c);
    let basis = fit.tightness.weaker(&fit.hub.basis);
    let room_basis = if fit.room_um.is_some() { basis } else { basis.weaker(&fits.room_basis) };
    let cold = fit.pin.cold_basis.as_ref().unwrap_or(room_basis);
    let frozen = |own: &Basis| {
        Outcome::open(Method::ShrinkFit, Unit::Celsius).resting_on(room_basis.weaker(cold).weaker(own))
    };
    let as_given = || {
        if pin_c < fit.shop_c {
            frozen(room_basis)
        } else {
            Outcome::open(Method::ShrinkFit, Unit::Celsius).resting_on(room_basis)
        }
    };
    let needed_c = fit.hub_c(fits, pin_c);
    let hub_c = allowed(needed_c);
    let mut steps = vec![
        Step::new("interference", fit.tightness.high_um, Unit::Micrometre),
        Step::new("room", fit.room_um(fits), Unit::Micrometre),
        Step::new("pin", pin_c, Unit::Celsius),
        Step::new("ceiling", fit.ceiling_c, Unit::Celsius),
    ];
    if let (None, Some(needed_c)) = (hub_c, needed_c) {
        steps.push(Step::new("needed", needed_c, Unit::Celsius));
    }
    let figure = |made: Outcome, hub_c: Option<f64>| match hub_c {
        Some(hub_c) => Outcome { value: Some(hub_c), ..made },
        None => made.saying(Says::NoFigure),
    };
    let mut outcomes = vec![figure(as_given().named("fit-hub-temperature"), hub_c).worked(steps)];
    let out_c = hub_c.map(|hub_c| {
        let rise_k = hub_c - fit.shop_c;
        if rise_k > 0.0 { hub_c + (fits.on_the_way_share * rise_k).max(fits.on_the_way_k) } else { hub_c }
    });
    let mut way = as_given().named("fit-hub-out-of-heat");
    let least = hub_c.is_some_and(|hub_c| fits.on_the_way_share * (hub_c - fit.shop_c) < fits.on_the_way_k);
    let reserve = if least { &fits.on_the_way_k_basis } else { &fits.on_the_way_share_basis };
    way.own_basis = way.own_basis.map(|own| own.weaker(reserve).clone());
    outcomes.push(figure(way, allowed(out_c)));
    let mut by_freezing = false;
    for coolant in &fits.coolants {
        let Some((_, name)) = FROZEN.iter().find(|(id, _)| *id == coolant.id) else { continue };
        let frozen_c = allowed(fit.hub_c(fits, coolant.at_c).filter(|_| !fit.pin.cold.is_empty()));
        by_freezing |= frozen_c.is_some();
        outcomes.push(figure(frozen(&coolant.basis).named(name), frozen_c));
    }
    let start = growth(fit.pin, fit.shop_c, End::Least).unwrap_or_default();
    let alone_c =
        temperature_for(fit.pin, start - fit.needed(fits), End::Least).filter(|_| !fit.pin.cold.is_empty());
    outcomes.push(figure(frozen(room_basis).named("fit-pin-alone"), alone_c));
    outcomes.push(fit.tightness.outcome());
    let locally_c = fit.local.map(|ring| allowed(fit.hot_zone_c(fits, pin_c, ring.share(fit.bore_mm()))));
    if let Some(locally_c) = locally_c {
        outcomes.push(figure(as_given().named("fit-hub-local"), locally_c));
    }
    Ok(Shrunk {
        outcomes,
        above_ceiling: hub_c.is_none(),
        by_freezing,
        without_heat: hub_c.is_some_and(|hub_c| hub_c <= fit.shop_c),
        reserve_above_ceiling: hub_c.is_some() && allowed(out_c).is_none(),
        pin_freezes: !fit.pin.cold.is_empty(),
        local_above_ceiling: locally_c.is_some_and(|locally_c| locally_c.is_none()),
    })
}
