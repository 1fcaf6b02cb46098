//! Post-heat of a whole section that is charged from face to face, as the plan still asks it.
//!
//! It knows no weld: for a weld on a thick part it is far too long.

use crate::engine::error::{Domain, THICKNESS};
use crate::engine::hydrogen::{Diffusion, mean_time_h, middle_time_h};
use crate::engine::{EngineError, Outcome, RangeCheck, Step, Unit};
use crate::reference::Basis;

/// The trade's range of post-heat temperature, °C (common practice).
pub const TRADE_TEMPERATURE_C: (f64, f64) = (200.0, 300.0);

/// The trade's hours per 25 mm (from memory).
pub const TRADE_H_PER_25_MM: (f64, f64) = (2.0, 4.0);

/// The post-heat that is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PostHeat {
    /// Thickness of the weld's section, both faces open, mm.
    pub thickness_mm: f64,
    /// Chosen temperature, °C.
    pub temperature_c: f64,
    /// Minimum preheat of the joint, °C: post-heat is never below it.
    pub minimum_preheat_c: f64,
    /// A temperature that the part must not pass, °C.
    pub ceiling_c: Option<f64>,
    /// Share of the hydrogen that may stay in the middle of the section.
    pub left: f64,
}

/// Hours by the trade's rule, lower and upper end: 2 to 4 h per 25 mm.
#[must_use]
pub fn trade_time_h(thickness_mm: f64) -> (f64, f64) {
    let shares = thickness_mm / 25.0;
    (TRADE_H_PER_25_MM.0 * shares, TRADE_H_PER_25_MM.1 * shares)
}

/// Post-heat by temperature, by diffusion out of a slab and by the trade's rule:
/// `post-heat-temperature`, `post-heat-time` (the longer), `post-heat-diffusion` (value: in
/// the middle; low: the mean of the section), `post-heat-trade` (value: 4 h per 25 mm).
///
/// Diffusion time grows with the square of the thickness, the trade's rule only in
/// proportion: it is short for thick parts.
///
/// # Errors
/// An input that is not a number, negative, or that no part has; `NoAnswer`
/// (`post-heat-above-ceiling`) where the temperature would pass the ceiling.
pub fn post_heat(asked: PostHeat) -> Result<[Outcome; 4], EngineError> {
    let PostHeat { thickness_mm, temperature_c, minimum_preheat_c, ceiling_c, left } = asked;
    THICKNESS.check(thickness_mm)?;
    let heat = |symbol| Domain::new(symbol, 0.0, 650.0);
    heat("T").check(temperature_c)?;
    heat("Tp").check(minimum_preheat_c)?;
    ceiling_c.map(|ceiling| Domain::new("Tmax", 0.0, 1600.0).check(ceiling)).transpose()?;
    Domain::new("f", 0.001, 0.99).check(left)?;
    let at_c = temperature_c.max(minimum_preheat_c);
    if ceiling_c.is_some_and(|ceiling| at_c > ceiling) {
        return Err(EngineError::NoAnswer { reason: "post-heat-above-ceiling" });
    }
    let (d, d_basis) = Diffusion::Slower.at(at_c)?;
    let middle = middle_time_h(d, thickness_mm, left);
    let mean = mean_time_h(d, thickness_mm, left);
    let (short, long) = trade_time_h(thickness_mm);
    let trade_basis = || Basis::memory("trade rule, 2-4 h per 25 mm");
    let (longer, basis) = if middle >= long { (middle, d_basis.clone()) } else { (long, trade_basis()) };
    let (low_c, high_c) = TRADE_TEMPERATURE_C;
    let hour = |symbol, value| Step { symbol, value, unit: Unit::Hour };
    Ok([
        Outcome::new("post-heat-temperature", at_c, Unit::Celsius, Basis::Practice)
            .checked(vec![RangeCheck { symbol: "T", value: at_c, low: Some(low_c), high: Some(high_c) }]),
        Outcome::new("post-heat-time", longer, Unit::Hour, basis)
            .worked(vec![hour("t diffusion", middle), hour("t trade", long)]),
        Outcome::new("post-heat-diffusion", middle, Unit::Hour, d_basis)
            .spread(mean, middle)
            .worked(vec![Step { symbol: "D (mm²/h)", value: d * 3.6e5, unit: Unit::One }]),
        Outcome::new("post-heat-trade", long, Unit::Hour, trade_basis()).spread(short, long),
    ])
}
