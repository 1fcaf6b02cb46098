//! Which film does a heating leave at a peak, which peak leaves a film, and how sure is it?

use super::coupon::Coupon;
use super::growth::Growth;
use super::history::{Course, FILM, HOTTEST_C, SKIN};
use crate::engine::EngineError;
use crate::engine::solve::turning_point;

/// Scatter of handbook tables, K, one sigma.
pub(super) const TABLES_K: f64 = 12.0;
/// Scatter of what one calls a colour, K, one sigma.
pub(super) const NAMING_K: f64 = 8.0;
/// Scatter of alloys and finishes, K, one sigma.
pub(super) const ALLOY_K: f64 = 10.0;

/// A course of heating on a skin that may carry a film already.
#[derive(Debug, Clone, PartialEq)]
pub struct Heating {
    course: Course,
    film_before_nm: f64,
    coupon: Option<Coupon>,
}

impl Heating {
    /// A heating of bright steel.
    ///
    /// # Errors
    /// A time, rate or temperature that is not a number or that no heating has.
    pub fn new(course: Course) -> Result<Self, EngineError> {
        Self::on_film(course, 0.0)
    }

    /// A second heating: films add up, so the answer is an upper estimate of the film.
    ///
    /// # Errors
    /// As [`Heating::new`], and a film that is not a number or negative.
    pub fn on_film(course: Course, film_before_nm: f64) -> Result<Self, EngineError> {
        course.check()?;
        FILM.check(film_before_nm)?;
        Ok(Self { course, film_before_nm, coupon: None })
    }

    /// The same heating by what a coupon of the bar taught.
    #[must_use]
    pub fn by(self, coupon: Option<Coupon>) -> Self {
        Self { coupon, ..self }
    }

    /// A time law, as the coupon moves it.
    fn law(&self, law: Growth) -> Growth {
        self.coupon.as_ref().map_or(law, |coupon| coupon.teach(&law))
    }

    /// The course.
    #[must_use]
    pub const fn course(&self) -> &Course {
        &self.course
    }

    /// The film that was there before, nm.
    #[must_use]
    pub const fn film_before_nm(&self) -> f64 {
        self.film_before_nm
    }

    /// The film that a peak leaves, nm.
    #[must_use]
    pub fn film_nm(&self, peak_c: f64) -> f64 {
        self.film_by(peak_c, &self.law(Growth::model()))
    }

    fn film_by(&self, peak_c: f64, growth: &Growth) -> f64 {
        let peak_c = peak_c.clamp(SKIN.low, HOTTEST_C);
        growth.film_nm(growth.power(self.film_before_nm) + self.course.power(peak_c, growth))
    }

    /// The peak that leaves a film, °C; `None` where the skin carried that film before,
    /// or where no peak up to 900 °C grows it.
    #[must_use]
    pub fn peak_c(&self, film_nm: f64) -> Option<f64> {
        self.peak_by(film_nm, &self.law(Growth::model()))
    }

    fn peak_by(&self, film_nm: f64, growth: &Growth) -> Option<f64> {
        if film_nm.is_nan() || film_nm <= self.film_before_nm {
            return None;
        }
        let wanted = growth.power(film_nm) - growth.power(self.film_before_nm);
        let below = |peak_c: f64| self.course.power(peak_c, growth) < wanted;
        // Growth rises strictly with the peak.
        (!below(HOTTEST_C)).then(|| turning_point(self.course.start_c(), HOTTEST_C, below))
    }

    /// One sigma of the peak that leaves a film, K.
    ///
    /// `σ² = 12² + 8² + 10² + [T² R/Ea ln 1.65]² + [(T(P=2.7) - T(P=5))/2]²`: handbook
    /// tables, naming, alloy and finish, handbook minutes, time law. The last term solves
    /// the same course with both exponents, so it grows away from 1.2 min. With a coupon its
    /// remaining sigma stands for tables, alloy and minutes ([`Coupon`]).
    #[must_use]
    pub fn sigma_k(&self, film_nm: f64) -> Option<f64> {
        self.sigma_against(film_nm, Growth::slow())
    }

    /// The same upwards: the skin may have been hotter than its film looks. Up to ten minutes at
    /// the peak it is the same; beyond that growth may have slowed as far as P = 10, reached at
    /// an hour.
    ///
    /// Three ovens with a stated time (1 h at 232 °C, 2 h and 4 h at 204 °C; reports of amateurs)
    /// left less colour than the model has, by 11 to 54 K, all on this side.
    #[must_use]
    pub fn sigma_up_k(&self, film_nm: f64) -> Option<f64> {
        let minutes = self.minutes_at_peak(self.peak_c(film_nm)?);
        self.sigma_against(film_nm, Growth::slowest_after(minutes))
    }

    fn sigma_against(&self, film_nm: f64, slow: Growth) -> Option<f64> {
        let peak_c = self.peak_c(film_nm)?;
        let quick_c = self.peak_by(film_nm, &self.law(Growth::quick()))?;
        // A growth that never reaches the film is bounded by the hottest skin.
        let slow_c = self.peak_by(film_nm, &self.law(slow)).unwrap_or(HOTTEST_C);
        let time_law_k = (quick_c - slow_c) / 2.0;
        let terms = match &self.coupon {
            None => {
                let minutes_k = Growth::model().minutes_error_k(peak_c);
                vec![TABLES_K, NAMING_K, ALLOY_K, minutes_k, time_law_k]
            }
            // What tables, alloy and handbook minutes left open, the coupon has narrowed.
            Some(coupon) => vec![coupon.left_k(peak_c), NAMING_K, time_law_k],
        };
        Some(terms.iter().map(|term| term * term).sum::<f64>().sqrt())
    }

    /// Minutes at the peak itself that grow as much as the whole course does.
    #[must_use]
    pub fn minutes_at_peak(&self, peak_c: f64) -> f64 {
        let growth = Growth::model();
        self.course.power(peak_c, &growth) / growth.rate(peak_c)
    }
}
