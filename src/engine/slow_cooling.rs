//! How must a part cool after welding, by its family, and how fast does it cool by itself?

use super::error::{Domain, TEMPERATURE};
use super::lumped::{Around, Blanket, Body, MASS, SIZE, Shape, biot, cooling_rate_k_per_h, seconds_between};
use super::{EngineError, Outcome, Says, Unit};
use crate::reference::{HeatCycleData, Method, SlowCooling};

/// The rate of slow cooling that a family needs, down to a temperature; no figure where it cools in
/// still air.
///
/// Source: the family's row in `data/slow_cooling.ron`.
#[must_use]
pub fn slow_cooling(row: &SlowCooling) -> [Outcome; 2] {
    let answer = |name, unit| Outcome::open(Method::SlowCooling, unit).named(name).resting_on(&row.basis);
    let (rate, until) = (answer("slow-rate", Unit::KelvinPerHour), answer("slow-until", Unit::Celsius));
    let rate = match (row.at_most_k_per_h, row.least_k_per_h) {
        (Some(most), Some(least)) => Outcome { value: Some(most), ..rate }.spread(least, most),
        (Some(most), None) => Outcome { value: Some(most), ..rate },
        (None, _) => rate.saying(Says::NoFigure),
    };
    let until = match row.until_c.or(row.first_to_c) {
        Some(until_c) => Outcome { value: Some(until_c), ..until },
        None => until.saying(Says::NoFigure),
    };
    [rate, until]
}

/// What lies around a part that cools.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Wrapped {
    /// Nothing.
    StillAir,
    /// Nothing, and the air moves.
    Draught,
    /// A blanket, mm.
    Blanket(f64),
}

/// A part that cools.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoolingPart {
    /// Mass, kg.
    pub mass_kg: f64,
    /// What it is counted as.
    pub shape: Shape,
    /// Temperature now, °C.
    pub from_c: f64,
    /// Temperature then, °C.
    pub to_c: f64,
    /// Temperature of the shop, °C.
    pub shop_c: f64,
    /// What lies around it.
    pub wrapped: Wrapped,
    /// The rate that it must not pass, K/h.
    pub wanted_k_per_h: Option<f64>,
}

/// How a part cools.
#[derive(Debug, Clone, PartialEq)]
pub struct CooledPart {
    /// Minutes, rate, and the blanket where one was asked.
    pub outcomes: Vec<Outcome>,
    /// Is it so thick that its middle stays hotter than one body would?
    pub uneven: bool,
}

/// The Biot number up to which a part is one body (handbooks of heat transfer).
const EVEN_BIOT: f64 = 0.1;

/// One layer of blanket, mm: the one that `data/heat_cycle.ron` knows. Less is not laid.
const LAYER_MM: f64 = 25.0;
/// Places between two temperatures at which a rate is looked at: closer than the peak of the specific
/// heat is wide.
const LOOKS: u32 = 400;

/// Minutes from one temperature to another, the greatest rate on the way, and the blanket that keeps it
/// under a wanted rate.
///
/// The part is one body, `m c(T) dT/dt = -A loss(T)`. A cold bench, a clamp or moving air may leave a
/// share of the minutes and make the rate so much greater: the far ends. A blanket keeps no heat of its
/// own, and nothing shines through it; none is needed where the bare part cools slowly enough itself, else
/// it is one layer at least. Source: heat content by EN 1993-1-2 3.4.1.2; losses by `data/heat_cycle.ron`.
///
/// # Errors
/// `cooling-not-colder` where the part is as cold already; `cooling-below-shop` where it would end up
/// no warmer than the shop; a figure that is not a number, or that no part has.
pub fn part_cooling(losses: &HeatCycleData, part: CoolingPart) -> Result<CooledPart, EngineError> {
    MASS.check(part.mass_kg)?;
    let (Shape::Plate { thickness_mm: size_mm } | Shape::Bar { diameter_mm: size_mm }) = part.shape;
    SIZE.check(size_mm)?;
    for at_c in [part.from_c, part.to_c, part.shop_c] {
        TEMPERATURE.check(at_c)?;
    }
    if let Wrapped::Blanket(thickness_mm) = part.wrapped {
        Domain::new("blanket", 1.0, 1000.0).check(thickness_mm)?;
    }
    part.wanted_k_per_h.map(|rate| Domain::new("rate", 1.0, 10_000.0).check(rate)).transpose()?;
    if part.to_c >= part.from_c {
        return Err(EngineError::NoAnswer { reason: "cooling-not-colder" });
    }
    if part.to_c <= part.shop_c {
        return Err(EngineError::NoAnswer { reason: "cooling-below-shop" });
    }
    let body = Body::of(part.mass_kg, part.shape);
    let still = losses.still_air();
    let blanket = Blanket { w_per_m_k: losses.blanket_w_per_m_k, air_w_per_m2_k: still.transfer_w_per_m2_k };
    let (around, basis) = match part.wrapped {
        Wrapped::StillAir => (Around::of(still, part.shop_c), &still.basis),
        Wrapped::Draught => (Around::of(losses.draught(), part.shop_c), &losses.draught().basis),
        Wrapped::Blanket(thickness_mm) => {
            let w_per_m2_k = blanket.passes_w_per_m2_k(thickness_mm);
            (
                Around { w_per_m2_k, emissivity: 0.0, air_c: part.shop_c },
                losses.blanket_basis.weaker(&still.basis),
            )
        }
    };
    let seconds = seconds_between(body, 0.0, around, part.from_c, part.to_c)
        .ok_or(EngineError::NoAnswer { reason: "cooling-below-shop" })?;
    let minutes = seconds / 60.0;
    let rate = greatest(&part, |at_c| cooling_rate_k_per_h(body, around, at_c));
    let answer =
        |name, value, unit| Outcome::new(Method::LumpedCooling, value, unit).named(name).resting_on(basis);
    let mut outcomes = vec![
        answer("cooling-minutes", minutes, Unit::Minute)
            .spread(losses.hindered_share * minutes, minutes)
            .resting_on(basis.weaker(&losses.hindered_basis)),
        answer("cooling-rate", rate, Unit::KelvinPerHour)
            .spread(rate, rate / losses.hindered_share)
            .resting_on(basis.weaker(&losses.hindered_basis)),
    ];
    if let Some(wanted) = part.wanted_k_per_h {
        let bare = Around::of(still, part.shop_c);
        let slow_enough = greatest(&part, |at_c| cooling_rate_k_per_h(body, bare, at_c)) <= wanted;
        let needed = greatest(&part, |at_c| blanket.thickness_mm_for(body, wanted, at_c, part.shop_c));
        let thickness_mm = if slow_enough { 0.0 } else { needed.max(LAYER_MM) };
        let basis = losses.blanket_basis.weaker(&still.basis);
        outcomes.push(answer("cooling-blanket", thickness_mm, Unit::Millimetre).resting_on(basis));
    }
    Ok(CooledPart { outcomes, uneven: biot(body, around, part.from_c) > EVEN_BIOT })
}

/// The greatest of a figure between the two temperatures of a part.
fn greatest(part: &CoolingPart, of: impl Fn(f64) -> f64) -> f64 {
    let step_k = (part.from_c - part.to_c) / f64::from(LOOKS);
    (0..=LOOKS).map(|look| of(step_k.mul_add(f64::from(look), part.to_c))).fold(0.0, f64::max)
}
