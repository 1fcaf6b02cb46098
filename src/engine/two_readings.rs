//! How long is left, by two readings and the minutes between them?

use super::error::{Domain, TEMPERATURE};
use super::lumped::{Around, seconds_of_shape};
use super::{EngineError, Outcome, Step, Unit};
use crate::reference::{HeatCycleData, Method};

/// Two readings at one place of a part that cools with nothing heating it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoReadings {
    /// The first, °C.
    pub first_c: f64,
    /// The second, °C.
    pub second_c: f64,
    /// Minutes between them.
    pub minutes: f64,
    /// How far each may be off, K.
    pub off_k: (f64, f64),
    /// Temperature of the shop, °C.
    pub shop_c: f64,
}

/// Surfaces whose losses are told apart by their shape: mostly moved air, and mostly glow.
const SURFACES: [&str; 4] = ["still-air", "draught", "blanket", "machined"];

impl TwoReadings {
    /// Looks whether the two readings tell anything.
    ///
    /// # Errors
    /// `readings-close` where they differ by no more than both may be off; `readings-not-falling`
    /// where the second is not the colder; `cooling-below-shop` where it is no warmer than the shop; a figure
    /// that is not a number, or that no part has.
    pub fn check(&self) -> Result<(), EngineError> {
        for at_c in [self.first_c, self.second_c, self.shop_c] {
            TEMPERATURE.check(at_c)?;
        }
        Domain::new("minutes", 0.01, 10_000.0).check(self.minutes)?;
        Domain::new("off", 0.0, 500.0).check(self.off_k.0.max(self.off_k.1))?;
        if self.second_c >= self.first_c {
            return Err(EngineError::NoAnswer { reason: "readings-not-falling" });
        }
        if self.first_c - self.off_k.0 <= self.second_c + self.off_k.1 {
            return Err(EngineError::NoAnswer { reason: "readings-close" });
        }
        if self.second_c - self.off_k.1 <= self.shop_c {
            return Err(EngineError::NoAnswer { reason: "cooling-below-shop" });
        }
        Ok(())
    }

    /// Minutes from the second reading down to a temperature: the fewest and the most.
    ///
    /// One body, `C dT/dt = -A loss(T)`: its heat content C and its surface A are not known and need
    /// not be, since the readings give their ratio; `t = Δt I(T2→T) / I(T1→T2)`, `I = ∫ c(T)/loss(T) dT`.
    /// What stays open is how much of the loss is glow (the surfaces of `data/heat_cycle.ron`) and how
    /// far each reading is off: the ends of both. `None` where it never gets that cold.
    #[must_use]
    pub fn minutes_to(&self, losses: &HeatCycleData, to_c: f64) -> Option<(f64, f64)> {
        self.minutes_between(losses, None, to_c)
    }

    /// Minutes from any temperature of the same part down to another, at the pace of these readings: the
    /// fewest.
    #[must_use]
    pub fn fewest(&self, losses: &HeatCycleData, from_c: f64, to_c: f64) -> Option<f64> {
        self.minutes_between(losses, Some(from_c), to_c).map(|(fewest, _)| fewest)
    }

    /// From the second reading where no other beginning is given.
    fn minutes_between(&self, losses: &HeatCycleData, from_c: Option<f64>, to_c: f64) -> Option<(f64, f64)> {
        if to_c <= self.shop_c {
            return None;
        }
        let mut span: Option<(f64, f64)> = None;
        for surface in SURFACES.iter().filter_map(|id| losses.surface(id)) {
            let around = Around::of(surface, self.shop_c);
            for sign in [-1.0_f64, 1.0] {
                let first_c = sign.mul_add(-self.off_k.0, self.first_c);
                let second_c = sign.mul_add(self.off_k.1, self.second_c);
                let from_c = from_c.unwrap_or(second_c);
                let left = if to_c >= from_c { 0.0 } else { seconds_of_shape(around, from_c, to_c)? };
                let between = seconds_of_shape(around, first_c, second_c)?;
                let minutes = self.minutes * left / between;
                span = Some(
                    span.map_or((minutes, minutes), |(low, high)| (low.min(minutes), high.max(minutes))),
                );
            }
        }
        span
    }

    /// Minutes until a part may be below its minimum: the fewest count.
    #[must_use]
    pub fn left(&self, losses: &HeatCycleData, minimum_c: f64) -> Option<Outcome> {
        let (low, high) = self.minutes_to(losses, minimum_c)?;
        Some(self.answer("readings-left", low, (low, high)))
    }

    /// Minutes until a part is surely below its maximum: the most count.
    #[must_use]
    pub fn wait(&self, losses: &HeatCycleData, maximum_c: f64) -> Option<Outcome> {
        let (low, high) = self.minutes_to(losses, maximum_c)?;
        Some(self.answer("readings-wait", high, (low, high)))
    }

    fn answer(&self, name: &'static str, counts: f64, (low, high): (f64, f64)) -> Outcome {
        let made = Outcome::new(Method::TwoReadings, counts, Unit::Minute).named(name);
        // None left is none, and no range.
        let made = if low < high { made.spread(low, high) } else { made };
        made.worked(vec![
            Step::new("first", self.first_c, Unit::Celsius),
            Step::new("second", self.second_c, Unit::Celsius),
            Step::new("first-off", self.off_k.0, Unit::Kelvin),
            Step::new("second-off", self.off_k.1, Unit::Kelvin),
        ])
    }
}
