//! Which current does a covered electrode or a wire take?

use crate::engine::error::Domain;
use crate::engine::{EngineError, Outcome, Unit};
use crate::reference::{CoveredElectrode, FactorRange, Method, Position, WeldCurrent, WireRow};

/// Range and start of a covered electrode.
///
/// Source: two trade pages on E7018, data sheets of E309L-16, from memory the smallest and the largest. A
/// row that prints its upright range keeps that; any other has 10 % less upright.
///
/// # Errors
/// A current that no electrode has.
pub fn electrode_current(
    current: &WeldCurrent,
    electrode: &CoveredElectrode,
    position: Position,
) -> Result<Vec<Outcome>, EngineError> {
    let upright = position == Position::VerticalUp;
    let less = match (position, electrode.upright_a) {
        (Position::VerticalUp, None) => current.upright_less_share,
        (Position::Overhead, _) => current.overhead_less_share,
        _ => 0.0,
    };
    let range = electrode.upright_a.filter(|_| upright).unwrap_or(electrode.amps);
    let range = FactorRange { low: range.low, high: range.high * (1.0 - less) };
    let start = (current.start_share * range.high).max(range.low);
    let answer = |name| Outcome::new(Method::ElectrodeCurrent, start, Unit::Ampere).named(name);
    Ok(vec![
        answer("electrode-start").resting_on(&current.start_basis),
        Outcome::open(Method::ElectrodeCurrent, Unit::Ampere)
            .named("electrode-range")
            .spread(range.low, range.high)
            .resting_on(&electrode.basis),
    ])
}

/// How metal goes over from a wire.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr)]
#[strum(prefix = "wire-", serialize_all = "kebab-case")]
pub enum Transfer {
    /// Short arc.
    ShortArc,
    /// Spray.
    Spray,
    /// Large drops between the two.
    LargeDrops,
    /// Where the tables overlap.
    Border,
    /// No table has a range for this wire.
    NoRange,
}

impl Transfer {
    /// Id of its note.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// How metal goes over from a wire at a current.
#[must_use]
pub fn transfer(wire: &WireRow, amps: f64) -> Transfer {
    let sprays = amps >= wire.spray_from_a;
    let Some(short) = wire.short_a else { return if sprays { Transfer::Spray } else { Transfer::NoRange } };
    // The tables of two sources overlap between the one's spray range and the other's least spray current.
    let spray_low = wire.spray_a.map_or(wire.spray_from_a, |spray| spray.low.min(wire.spray_from_a));
    match (amps <= short.high, sprays) {
        (true, true) => Transfer::Border,
        (true, false) if amps >= spray_low => Transfer::Border,
        (true, false) => Transfer::ShortArc,
        (false, true) => Transfer::Spray,
        (false, false) => Transfer::LargeDrops,
    }
}

/// Least spray current of a wire, and its ranges.
///
/// Source: a handbook for the least spray current in argon with 2 % oxygen, a machine manual for the ranges.
///
/// # Errors
/// A current that no wire has.
pub fn wire_current(
    current: &WeldCurrent,
    wire: &WireRow,
    amps: Option<f64>,
) -> Result<(Vec<Outcome>, Option<Transfer>), EngineError> {
    let amps = amps.map(|amps| Domain::new("amps", 3.0, 1500.0).check(amps)).transpose()?;
    let ranged = |name, range: Option<FactorRange>, unit| {
        let made = Outcome::open(Method::ElectrodeCurrent, unit).named(name).resting_on(&current.wires_basis);
        range.map(|range| made.spread(range.low, range.high))
    };
    let least = Outcome::new(Method::ElectrodeCurrent, wire.spray_from_a, Unit::Ampere)
        .named("wire-spray-from")
        .resting_on(&current.spray_basis);
    let ranges = [
        ranged("wire-short-amps", wire.short_a, Unit::Ampere),
        ranged("wire-short-volts", wire.short_v, Unit::Volt),
        ranged("wire-spray-amps", wire.spray_a, Unit::Ampere),
        ranged("wire-spray-volts", wire.spray_v, Unit::Volt),
    ];
    let outcomes = std::iter::once(least).chain(ranges.into_iter().flatten()).collect();
    Ok((outcomes, amps.map(|amps| transfer(wire, amps))))
}
