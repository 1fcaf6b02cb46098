//! Which temperatures did the skin pass through, and for how long?

use super::growth::Growth;
use crate::engine::EngineError;
use crate::engine::error::Domain;

/// Hottest skin that a film is grown for, °C: far past every colour.
pub(crate) const HOTTEST_C: f64 = 900.0;
/// Minutes of a stretch of history.
pub(crate) const MINUTES: Domain = Domain::new("t", 0.01, 10_000.0);
/// Rates of heating and cooling, K/min.
pub(crate) const RATE: Domain = Domain::new("r", 0.05, 5000.0);
/// Temperatures of a skin, °C.
pub(crate) const SKIN: Domain = Domain::new("T", -60.0, HOTTEST_C);
/// A film that is there already, nm.
pub(crate) const FILM: Domain = Domain::new("d", 0.0, 1000.0);

/// A stretch of time in which the temperature goes evenly from one figure to another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// Temperature at its start, °C.
    pub from_c: f64,
    /// Temperature at its end, °C.
    pub to_c: f64,
    /// Its length, min.
    pub minutes: f64,
}

/// A film on the steel, and what the skin went through after that.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct History {
    /// Film at the start, nm: what earlier heating left.
    pub film_before_nm: f64,
    /// Stretches in their order.
    pub stretches: Vec<Stretch>,
}

impl History {
    /// The film at the end, nm. It adds up over stretches and never shrinks.
    ///
    /// # Errors
    /// A figure that is not a number, negative, or that no skin has.
    pub fn film_nm(&self) -> Result<f64, EngineError> {
        FILM.check(self.film_before_nm)?;
        let growth = Growth::model();
        let mut power = growth.power(self.film_before_nm);
        for stretch in &self.stretches {
            SKIN.check(stretch.from_c)?;
            SKIN.check(stretch.to_c)?;
            Domain::new("t", 0.0, MINUTES.high).check(stretch.minutes)?;
            power += growth.on_line(stretch.from_c, stretch.to_c, stretch.minutes);
        }
        Ok(growth.film_nm(power))
    }

    /// The highest temperature, °C; `None` without a stretch.
    #[must_use]
    pub fn peak_c(&self) -> Option<f64> {
        self.stretches.iter().map(|stretch| stretch.from_c.max(stretch.to_c)).reduce(f64::max)
    }
}

/// A heat-up curve: the temperature after so many minutes, on straight lines between points.
#[derive(Debug, Clone, PartialEq)]
pub struct HeatCurve {
    points: Vec<(f64, f64)>,
}

impl HeatCurve {
    /// A curve through points of minutes and °C.
    ///
    /// # Errors
    /// Fewer than two points, minutes that do not rise, a temperature that falls, a curve
    /// that ends where it began (`heat-curve`); a temperature that no skin has.
    pub fn new(points: Vec<(f64, f64)>) -> Result<Self, EngineError> {
        for &(minutes, celsius) in &points {
            SKIN.check(celsius)?;
            Domain::new("t", 0.0, MINUTES.high).check(minutes)?;
        }
        let rising = points.windows(2).all(|pair| pair[1].0 > pair[0].0 && pair[1].1 >= pair[0].1);
        match (points.first(), points.last()) {
            (Some(first), Some(last)) if rising && last.1 > first.1 => Ok(Self { points }),
            _ => Err(EngineError::NoAnswer { reason: "heat-curve" }),
        }
    }

    /// Temperature at its start, °C.
    #[must_use]
    pub fn start_c(&self) -> f64 {
        self.points[0].1
    }

    /// Temperature at its end, °C.
    #[must_use]
    pub fn end_c(&self) -> f64 {
        self.points[self.points.len() - 1].1
    }

    /// Visits the stretches until a temperature is first reached. Above its end the curve
    /// goes on as steeply as it last rose, so that an inverse has no edge.
    fn until(&self, target_c: f64, visit: &mut impl FnMut(Stretch)) {
        let mut slope_k_per_min = 1.0;
        for pair in self.points.windows(2) {
            let ((from_min, from_c), (to_min, to_c)) = (pair[0], pair[1]);
            if target_c <= from_c {
                return;
            }
            let minutes = to_min - from_min;
            if to_c > from_c {
                slope_k_per_min = (to_c - from_c) / minutes;
            }
            if target_c <= to_c {
                let share = (target_c - from_c) / (to_c - from_c);
                visit(Stretch { from_c, to_c: target_c, minutes: minutes * share });
                return;
            }
            visit(Stretch { from_c, to_c, minutes });
        }
        let from_c = self.end_c();
        visit(Stretch { from_c, to_c: target_c, minutes: (target_c - from_c) / slope_k_per_min });
    }
}

/// A family of histories, one for each peak.
#[derive(Debug, Clone, PartialEq)]
pub enum Course {
    /// The whole time at the peak, as handbook figures are read.
    Constant {
        /// Minutes at the peak.
        minutes: f64,
    },
    /// Flame on: evenly from the start to the peak in so many minutes.
    Minutes {
        /// Temperature at the start, °C.
        start_c: f64,
        /// Minutes from start to peak.
        minutes: f64,
    },
    /// Flame on: from the start to the peak at one rate.
    Rate {
        /// Temperature at the start, °C.
        start_c: f64,
        /// Rate, K/min.
        k_per_min: f64,
    },
    /// Flame on: along a heat-up curve.
    Curve(HeatCurve),
    /// Looking afterwards: up, a while near the peak, and down again.
    Afterwards {
        /// Temperature at the start, °C.
        start_c: f64,
        /// Minutes within 20 K of the peak, both flanks included.
        near_peak_min: f64,
        /// Rate of heating, K/min.
        up_k_per_min: f64,
        /// Rate of cooling, K/min.
        down_k_per_min: f64,
    },
}

/// "Near the peak" reaches so far below it, K.
pub const NEAR_PEAK_K: f64 = 20.0;
/// The shop, where cooling ends, °C.
const SHOP_C: f64 = 20.0;

impl Course {
    /// Visits the stretches of the history with a peak.
    fn visit(&self, peak_c: f64, visit: &mut impl FnMut(Stretch)) {
        match self {
            Self::Constant { minutes } => visit(Stretch { from_c: peak_c, to_c: peak_c, minutes: *minutes }),
            Self::Minutes { start_c, minutes } => {
                if peak_c > *start_c {
                    visit(Stretch { from_c: *start_c, to_c: peak_c, minutes: *minutes });
                }
            }
            Self::Rate { start_c, k_per_min } => {
                if peak_c > *start_c {
                    let minutes = (peak_c - start_c) / k_per_min;
                    visit(Stretch { from_c: *start_c, to_c: peak_c, minutes });
                }
            }
            Self::Curve(curve) => curve.until(peak_c, visit),
            Self::Afterwards { start_c, near_peak_min, up_k_per_min, down_k_per_min } => {
                if peak_c <= *start_c {
                    return;
                }
                let flanks_min = NEAR_PEAK_K / up_k_per_min + NEAR_PEAK_K / down_k_per_min;
                let rest_min = (near_peak_min - flanks_min).max(0.0);
                // A shorter time near the peak than both flanks take means steeper flanks.
                let steeper = (flanks_min / near_peak_min).max(1.0);
                let (up, down) = (up_k_per_min * steeper, down_k_per_min * steeper);
                let end_c = SHOP_C.min(peak_c);
                visit(Stretch { from_c: *start_c, to_c: peak_c, minutes: (peak_c - start_c) / up });
                visit(Stretch { from_c: peak_c, to_c: peak_c, minutes: rest_min });
                visit(Stretch { from_c: peak_c, to_c: end_c, minutes: (peak_c - end_c) / down });
            }
        }
    }

    /// The history with a peak.
    #[must_use]
    pub fn history(&self, peak_c: f64, film_before_nm: f64) -> History {
        let mut stretches = Vec::new();
        self.visit(peak_c, &mut |stretch| stretches.push(stretch));
        History { film_before_nm, stretches }
    }

    /// Growth of `d^P` with a peak, nm^P.
    pub(crate) fn power(&self, peak_c: f64, growth: &Growth) -> f64 {
        let mut power = 0.0;
        self.visit(peak_c, &mut |stretch| {
            power += growth.on_line(stretch.from_c, stretch.to_c, stretch.minutes);
        });
        power
    }

    /// Lowest peak that the course can have, °C.
    #[must_use]
    pub fn start_c(&self) -> f64 {
        match self {
            Self::Constant { .. } => SKIN.low,
            Self::Minutes { start_c, .. } | Self::Rate { start_c, .. } | Self::Afterwards { start_c, .. } => {
                *start_c
            }
            Self::Curve(curve) => curve.start_c(),
        }
    }

    pub(crate) fn check(&self) -> Result<(), EngineError> {
        if !matches!(self, Self::Constant { .. }) {
            Domain::new("T0", SKIN.low, 500.0).check(self.start_c())?;
        }
        match self {
            Self::Constant { minutes } | Self::Minutes { minutes, .. } => MINUTES.check(*minutes).map(|_| ()),
            Self::Rate { k_per_min, .. } => RATE.check(*k_per_min).map(|_| ()),
            Self::Curve(_) => Ok(()),
            Self::Afterwards { near_peak_min, up_k_per_min, down_k_per_min, .. } => {
                MINUTES.check(*near_peak_min)?;
                RATE.check(*up_k_per_min)?;
                RATE.check(*down_k_per_min).map(|_| ())
            }
        }
    }
}
