//! How thick does the oxide film grow along a temperature history?

use crate::engine::thermal::ZERO_C_IN_K;

/// `ln A` of the growth law, A in nm: fitted to eight handbook means.
const LN_A: f64 = 11.566_474_882_336_182;
/// Temperature constant of the growth law, K: fitted with `LN_A`.
const B_K: f64 = 4_450.223_663_727;
/// Minutes that the handbook figures stand for.
pub const HANDBOOK_MIN: f64 = 1.2;
/// Factor by which the handbook minutes may be off, one sigma.
const HANDBOOK_MIN_FACTOR: f64 = 1.65;

/// Exponent of the law that takes time least seriously, up to ten minutes and after long times.
const SLOW: f64 = 5.0;
/// The same after long times: what timed reports of ovens ask for.
const SLOWEST: f64 = 10.0;
/// From here, and from there on, growth may have slowed that far, min.
const LONG_MIN: (f64, f64) = (10.0, 60.0);

/// The time law of growth: `d^P = exp(P (ln A - B/T)) t / t0`.
///
/// Symbols: d film, nm; T in K; t in min; t0 = 1.2 min; ln A = 11.566; B = 4450 K.
/// Valid for bright carbon and low-alloy steel in air, films up to 85 nm, times of a
/// minute to an hour; shorter and longer times lie outside what P was fitted to.
/// Source: the model's own fit to temper colours of a steel-working book of about 1920
/// and to six times; P = 3.5, plausible from 2.7 to 5.0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Growth {
    exponent: f64,
    /// `P B`, K.
    slope_k: f64,
    /// `A^P / t0`, nm^P per minute.
    factor: f64,
}

impl Growth {
    /// The law with another exponent through the same temperatures at 1.2 min.
    #[must_use]
    pub fn with_exponent(exponent: f64) -> Self {
        Self { exponent, slope_k: exponent * B_K, factor: (exponent * LN_A).exp() / HANDBOOK_MIN }
    }

    /// The adopted law, P = 3.5.
    #[must_use]
    pub fn model() -> Self {
        Self::with_exponent(3.5)
    }

    /// The law that takes time most seriously, P = 2.7.
    #[must_use]
    pub fn quick() -> Self {
        Self::with_exponent(2.7)
    }

    /// The law that takes time least seriously, P = 5.0.
    #[must_use]
    pub fn slow() -> Self {
        Self::with_exponent(SLOW)
    }

    /// The law that takes so long a time least seriously: P = 5 up to ten minutes, P = 10 from an
    /// hour on, and between them 1/P on a straight line in the logarithm of time.
    #[must_use]
    pub fn slowest_after(minutes: f64) -> Self {
        let (from_min, to_min) = LONG_MIN;
        let share = ((minutes / from_min).ln() / (to_min / from_min).ln()).clamp(0.0, 1.0);
        Self::with_exponent((SLOW.recip() + share * (SLOWEST.recip() - SLOW.recip())).recip())
    }

    /// The law with its growth constant moved: `ln A` becomes `ln A + by`, the film `e^by` times as
    /// thick.
    #[must_use]
    pub fn moved(self, by: f64) -> Self {
        Self { factor: self.factor * (self.exponent * by).exp(), ..self }
    }

    /// How far `ln A` moves for each kelvin that a film appears earlier: `B/T²`, 1/K.
    #[must_use]
    pub fn ln_a_per_k(&self, celsius: f64) -> f64 {
        B_K / (celsius + ZERO_C_IN_K).powi(2)
    }

    /// Growth of `d^P` per minute at a temperature, nm^P/min.
    #[must_use]
    pub fn rate(&self, celsius: f64) -> f64 {
        self.factor * (-self.slope_k / (celsius + ZERO_C_IN_K)).exp()
    }

    /// Growth of `d^P` while the temperature goes evenly from one figure to another, nm^P.
    ///
    /// `minutes/(T2-T1) ∫ exp(-PB/T) dT`, exact: the integral is an exponential integral.
    #[must_use]
    pub fn on_line(&self, from_c: f64, to_c: f64, minutes: f64) -> f64 {
        let difference_k = to_c - from_c;
        // Below a thousandth of a kelvin the middle is closer than the difference of two integrals.
        if difference_k.abs() < 1e-3 {
            return self.rate(f64::midpoint(from_c, to_c)) * minutes;
        }
        (self.integral(to_c) - self.integral(from_c)) * self.factor * minutes / difference_k
    }

    /// `∫ exp(-E/T) dT = T exp(-x) (1 - x e^x E1(x))` with `x = E/T`, E in K.
    fn integral(&self, celsius: f64) -> f64 {
        let kelvin = celsius + ZERO_C_IN_K;
        let x = self.slope_k / kelvin;
        kelvin * (-x).exp() * (1.0 - x * scaled_e1(x))
    }

    /// `d^P` of a film, nm^P.
    #[must_use]
    pub fn power(&self, film_nm: f64) -> f64 {
        film_nm.powf(self.exponent)
    }

    /// The film of a `d^P`, nm.
    #[must_use]
    pub fn film_nm(&self, power: f64) -> f64 {
        power.powf(self.exponent.recip())
    }

    /// Temperature error that the uncertain handbook minutes make, K.
    ///
    /// `T² R/Ea ln 1.65`, with `Ea/R = P B`.
    #[must_use]
    pub fn minutes_error_k(&self, celsius: f64) -> f64 {
        (celsius + ZERO_C_IN_K).powi(2) / self.slope_k * HANDBOOK_MIN_FACTOR.ln()
    }

    /// The same as an error of `ln A`: `ln 1.65 / P`.
    #[must_use]
    pub fn minutes_error_ln_a(&self) -> f64 {
        HANDBOOK_MIN_FACTOR.ln() / self.exponent
    }
}

/// `e^x E1(x)` as a continued fraction, for x above 3: `1/(x+1-1/(x+3-4/(x+5-9/(x+7-…))))`.
/// Sixteen terms leave less than one part in 10^15 at 6, the lowest that 1600 °C asks for.
fn scaled_e1(x: f64) -> f64 {
    const TERMS: u32 = 16;
    let mut below = x + f64::from(2 * TERMS + 1);
    for term in (1..=TERMS).rev() {
        below = x + f64::from(2 * term - 1) - f64::from(term * term) / below;
    }
    below.recip()
}
