//! Which histories are plausible: flame on, or looking afterwards?

use super::heating::Heating;
use super::history::{Course, HeatCurve};
use super::refusal::Circumstances;
use crate::engine::EngineError;

/// From and to, where a figure is not known sharply.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// Lowest.
    pub low: f64,
    /// Highest.
    pub high: f64,
}

impl Span {
    /// A figure that is known.
    #[must_use]
    pub const fn exactly(value: f64) -> Self {
        Self { low: value, high: value }
    }

    /// Does it hold a value, both ends counted?
    #[must_use]
    pub fn contains(&self, value: f64) -> bool {
        self.low <= value && value <= self.high
    }

    /// The span about all values; `None` of none.
    #[must_use]
    pub fn about(values: impl IntoIterator<Item = f64>) -> Option<Self> {
        values.into_iter().fold(None, |span: Option<Self>, value| {
            Some(span.map_or(Self::exactly(value), |span| Self {
                low: span.low.min(value),
                high: span.high.max(value),
            }))
        })
    }

    /// Five values from low to high, in even ratios; one where both are equal.
    fn samples(self) -> Vec<f64> {
        if self.low >= self.high || self.low <= 0.0 {
            return vec![self.low];
        }
        let ratio = self.high / self.low;
        (0..=4).map(|step| self.low * ratio.powf(f64::from(step) / 4.0)).collect()
    }
}

/// How fast the steel is heated while one looks at it.
#[derive(Debug, Clone, PartialEq)]
pub enum Pace {
    /// Minutes from the start to the colour.
    Minutes(Span),
    /// One rate, K/min.
    KelvinPerMin(Span),
    /// The heat-up curve of the plan.
    Curve(HeatCurve),
}

/// Looking at the steel while the flame is on.
#[derive(Debug, Clone, PartialEq)]
pub struct FlameOn {
    /// Temperature at the start, °C; a curve has its own.
    pub start_c: f64,
    /// How fast.
    pub pace: Pace,
    /// Film that earlier heating left, nm.
    pub film_before_nm: f64,
}

/// Looking at the steel after the flame is gone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Afterwards {
    /// Temperature at the start, °C.
    pub start_c: f64,
    /// Minutes with the skin within 20 K of its peak, both flanks included.
    pub near_peak_min: Span,
    /// Rate of heating, K/min.
    pub up_k_per_min: f64,
    /// Rate of cooling, K/min.
    pub down_k_per_min: f64,
    /// Film that earlier heating left, nm.
    pub film_before_nm: f64,
}

/// Minutes near the peak when nothing is known: from no wait at all to four minutes of
/// equalising, heated at 96 K/min and cooled in still air at 10 K/min.
pub const PLAUSIBLE_NEAR_PEAK_MIN: Span = Span { low: 20.0 / 96.0 + 2.0, high: 20.0 / 96.0 + 6.0 };

impl Default for Afterwards {
    fn default() -> Self {
        Self {
            start_c: 20.0,
            near_peak_min: PLAUSIBLE_NEAR_PEAK_MIN,
            up_k_per_min: 96.0,
            down_k_per_min: 10.0,
            film_before_nm: 0.0,
        }
    }
}

/// When one looks.
#[derive(Debug, Clone, PartialEq)]
pub enum Mode {
    /// While the flame is on.
    FlameOn(FlameOn),
    /// Afterwards.
    Afterwards(Afterwards),
}

impl Mode {
    /// Heatings of a steel from one end of the plausible to the other.
    ///
    /// # Errors
    /// A time, rate, temperature or film that is not a number or that no heating has; a
    /// span whose ends are swapped (`span-swapped`).
    pub fn heatings(&self, steel: &Circumstances) -> Result<Vec<Heating>, EngineError> {
        let (courses, film_before_nm): (Vec<Course>, f64) = match self {
            Self::FlameOn(FlameOn { start_c, pace, film_before_nm }) => {
                let start_c = *start_c;
                let courses = match pace {
                    Pace::Minutes(span) => ordered(*span)?
                        .samples()
                        .into_iter()
                        .map(|minutes| Course::Minutes { start_c, minutes })
                        .collect(),
                    Pace::KelvinPerMin(span) => ordered(*span)?
                        .samples()
                        .into_iter()
                        .map(|k_per_min| Course::Rate { start_c, k_per_min })
                        .collect(),
                    Pace::Curve(curve) => vec![Course::Curve(curve.clone())],
                };
                (courses, *film_before_nm)
            }
            Self::Afterwards(look) => {
                let courses = ordered(look.near_peak_min)?
                    .samples()
                    .into_iter()
                    .map(|near_peak_min| Course::Afterwards {
                        start_c: look.start_c,
                        near_peak_min,
                        up_k_per_min: look.up_k_per_min,
                        down_k_per_min: look.down_k_per_min,
                    })
                    .collect();
                (courses, look.film_before_nm)
            }
        };
        courses
            .into_iter()
            .map(|course| Ok(Heating::on_film(course, film_before_nm)?.by(steel.coupon.clone())))
            .collect()
    }

    /// The same on a film that earlier heating left, nm.
    #[must_use]
    pub fn on_film(&self, film_before_nm: f64) -> Self {
        match self.clone() {
            Self::FlameOn(flame) => Self::FlameOn(FlameOn { film_before_nm, ..flame }),
            Self::Afterwards(look) => Self::Afterwards(Afterwards { film_before_nm, ..look }),
        }
    }

    /// Film that earlier heating left, nm.
    #[must_use]
    pub const fn film_before_nm(&self) -> f64 {
        match self {
            Self::FlameOn(flame) => flame.film_before_nm,
            Self::Afterwards(look) => look.film_before_nm,
        }
    }
}

fn ordered(span: Span) -> Result<Span, EngineError> {
    match span.low.partial_cmp(&span.high) {
        None => Err(EngineError::NotANumber { symbol: "t" }),
        Some(std::cmp::Ordering::Greater) => Err(EngineError::NoAnswer { reason: "span-swapped" }),
        Some(_) => Ok(span),
    }
}
