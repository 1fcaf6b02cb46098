//! What does a coupon of the same bar teach about its colours?

use super::growth::Growth;
use super::heating::{ALLOY_K, NAMING_K, TABLES_K};
use super::history::{Course, FILM};
use super::mode::Span;
use super::refusal::TintError;
use super::stages::Stage;
use crate::engine::EngineError;
use crate::engine::error::Domain;

/// A colour and a reading that lie further apart than so many sigmas don't belong together.
const APART_SIGMAS: f64 = 3.0;
/// Sigma of an even spread over its width: `1/√12`.
const EVEN: f64 = 0.288_675_134_594_812_9;

/// A bright piece of the bar that was heated, read with an instrument, and looked at.
#[derive(Debug, Clone, PartialEq)]
pub struct CouponSeen {
    /// How it was heated: the reading is the peak of this course.
    pub course: Course,
    /// The first and the last colour that it may be called.
    pub stages: (Stage, Stage),
    /// The temperatures that the instrument leaves open, °C.
    pub read_c: Span,
    /// One sigma of the instrument, K.
    pub instrument_k: f64,
}

/// What the coupon taught: how far the growth constant of the film moves, and how sure it is then.
///
/// The growth constant is `ln A`. Before the coupon its sigma is what tables, alloy and handbook
/// minutes leave open; the coupon is a measurement of it, as sure as the name of its colour, the
/// width of that colour and the instrument are. Bayes' rule for two normal spreads weighs them:
/// `shift = w δ`, `w = V0/(V0 + V)`, `1/V1 = 1/V0 + 1/V`. The time law stays open: each exponent
/// gets a shift of its own through the coupon, so its error is small near the coupon's time and
/// grows away from it. What one calls a colour stays open too: it counts anew at each look.
#[derive(Debug, Clone, PartialEq)]
pub struct Coupon {
    course: Course,
    film_nm: f64,
    read_c: f64,
    weight: f64,
    sigma_ln_a: f64,
}

impl Coupon {
    /// Learns from a coupon.
    ///
    /// # Errors
    /// `tint-coupon-colour` where its colour has no film of its own (no tint, or past the first
    /// order), `tint-coupon-apart` where reading and colour lie further apart than three sigmas,
    /// so one of them is wrong; a figure that is not a number or that no heating has.
    pub fn learn(seen: &CouponSeen) -> Result<Self, TintError> {
        seen.course.check()?;
        let read = Domain::new("T", 100.0, 600.0);
        let (low_c, high_c) = (read.check(seen.read_c.low)?, read.check(seen.read_c.high)?);
        Domain::new("σ", 0.0, 100.0).check(seen.instrument_k)?;
        if high_c < low_c {
            return Err(EngineError::NoAnswer { reason: "span-swapped" }.into());
        }
        let (first, last) = seen.stages;
        let no_film = |stage| matches!(stage, Stage::Bright | Stage::Later);
        let Some(to_nm) = last.to_nm().filter(|_| !no_film(first) && !no_film(last) && first <= last) else {
            return Err(EngineError::NoAnswer { reason: "tint-coupon-colour" }.into());
        };
        let (from_ln, to_ln) = (first.from_nm().ln(), to_nm.ln());
        let read_c = f64::midpoint(low_c, high_c);
        let growth = Growth::model();
        // ln A moves by so much for each kelvin that a film appears earlier.
        let per_k = growth.ln_a_per_k(read_c);
        let square = |figure: f64| figure * figure;
        let before = square(TABLES_K * per_k) + square(ALLOY_K * per_k) + square(growth.minutes_error_ln_a());
        let measured = square(NAMING_K * per_k)
            + square((to_ln - from_ln) * EVEN)
            + square((high_c - low_c) * EVEN * per_k)
            + square(seen.instrument_k * per_k);
        let coupon = Self {
            course: seen.course.clone(),
            film_nm: f64::midpoint(from_ln, to_ln).exp(),
            read_c,
            weight: before / (before + measured),
            sigma_ln_a: (before * measured / (before + measured)).sqrt(),
        };
        FILM.check(coupon.film_nm)?;
        let apart = coupon.apart(&growth);
        if apart.is_nan() || apart.abs() > APART_SIGMAS * (before + measured).sqrt() {
            return Err(EngineError::NoAnswer { reason: "tint-coupon-apart" }.into());
        }
        Ok(coupon)
    }

    /// How far `ln A` would have to move for this law to leave the coupon's film.
    fn apart(&self, law: &Growth) -> f64 {
        self.film_nm.ln() - law.film_nm(self.course.power(self.read_c, law)).ln()
    }

    /// The law as the coupon moves it.
    #[must_use]
    pub fn teach(&self, law: &Growth) -> Growth {
        (*law).moved(self.weight * self.apart(law))
    }

    /// What of the model's own sigma is left at a temperature, K: all but the name of the colour
    /// and the time law.
    #[must_use]
    pub fn left_k(&self, celsius: f64) -> f64 {
        self.sigma_ln_a / Growth::model().ln_a_per_k(celsius)
    }

    /// What was read, °C.
    #[must_use]
    pub const fn read_c(&self) -> f64 {
        self.read_c
    }

    /// Kelvin by which its colour appears earlier than the model has it; below zero where later.
    #[must_use]
    pub fn earlier_k(&self) -> f64 {
        let growth = Growth::model();
        self.weight * self.apart(&growth) / growth.ln_a_per_k(self.read_c)
    }
}
