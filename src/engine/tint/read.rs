//! Which peak left this colour, and which colour will a peak leave?

use super::colour::film_swatch;
use super::heating::Heating;
use super::history::{Course, SKIN};
use super::mode::{Mode, Span};
use super::refusal::{Circumstances, Refusal, TintError};
use super::stages::Stage;
use crate::engine::error::Domain;
use crate::engine::{Checked, Outcome, Step, Unit};
use crate::reference::Method;

/// Sigmas on each side that the band of the screen spans.
const BAND_SIGMAS: f64 = 2.0;
/// Shortest and longest time at the peak that the time law was fitted to, min.
const FITTED_MIN: Span = Span { low: 1.2, high: 60.0 };
/// Least new film that a peak is solved for on an earlier one, nm.
const LEAST_NEW_NM: f64 = 0.5;
/// Sigma where no peak up to 900 °C grows the film, K: the widest of the fitted times.
const WIDEST_K: f64 = 30.0;
/// Time at the peak beyond which an answer is only an indication, min.
const INDICATIVE_MIN: f64 = 10.0;

/// What to keep in mind with an answer; the words are the Fluent message `note-ID`.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr, strum::VariantNames, strum::VariantArray,
)]
#[strum(serialize_all = "kebab-case", prefix = "tint-")]
pub enum TintNote {
    /// The colour tells the hottest that this skin was, not what it is now.
    PeakNotNow,
    /// It tells of this skin only: not of the core, not of the far side.
    ThisSkinOnly,
    /// Look under diffuse daylight, straight on.
    LookStraight,
    /// Shorter than the times that the law was fitted to.
    ShorterThanFitted,
    /// A long time: an indication only.
    LongTime,
    /// After a long time the skin may have been hotter than its colour looks.
    HotterThanItLooks,
    /// A second heating adds to the film; the sum is an upper estimate.
    SecondHeating,
    /// The chromium of the steel is not known.
    ChromiumUnknown,
    /// No tint yet: below, and nothing else.
    OnlyBelow,
    /// The peak lies above the end of the heat-up curve.
    BeyondCurve,
    /// A coupon of the same bar narrowed the range.
    ByCoupon,
}

impl TintNote {
    /// All notes.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// The colour that a peak leaves.
#[derive(Debug, Clone, PartialEq)]
pub struct ColourAtPeak {
    /// The peak asked for, °C.
    pub peak_c: f64,
    /// Film over the plausible histories, nm.
    pub film_nm: Span,
    /// Film over the plausible histories and two sigma, nm. Below its lower end the peak
    /// is surely not reached yet; at its upper end it surely is.
    pub band_nm: Span,
    /// The stage in the middle of the histories.
    pub stage: Stage,
    /// Screen colour of that film.
    pub srgb: [u8; 3],
    /// The earliest and the latest stage of the band.
    pub stages: (Stage, Stage),
    /// Film in the middle, as an outcome with its band.
    pub outcome: Outcome,
    /// What to keep in mind.
    pub notes: Vec<TintNote>,
}

/// Which colour appears at a peak, by the plausible histories of a mode?
///
/// Film along the history ([`super::growth::Growth`]), colour of the film by its optics;
/// the band is the film at two sigma below and above the peak.
///
/// # Errors
/// [`TintError::Refused`] where a colour says nothing or is past first order; an input
/// that is not a number or that no heating has.
pub fn colour_at_peak(mode: &Mode, peak_c: f64, steel: &Circumstances) -> Result<ColourAtPeak, TintError> {
    steel.check()?;
    Domain::new("T", 0.0, 700.0).check(peak_c)?;
    let heatings = mode.heatings(steel)?;
    let films: Vec<f64> = heatings.iter().map(|heating| heating.film_nm(peak_c)).collect();
    let film_nm = whole(&films)?;
    let middle_nm = films[films.len() / 2];
    if film_nm.low > Stage::Later.from_nm() {
        return Err(Refusal::PastFirstOrder.into());
    }
    // A skin that may be hotter than its film looks may as well have a film thinner than it should.
    let ends = heatings.iter().zip(&films).flat_map(|(heating, &film)| {
        let (down_k, up_k) =
            (sigma_of(heating, film, Heating::sigma_up_k), sigma_of(heating, film, Heating::sigma_k));
        [-BAND_SIGMAS * down_k, 0.0, BAND_SIGMAS * up_k].map(|shift_k| heating.film_nm(peak_c + shift_k))
    });
    let band_nm = whole(&ends.collect::<Vec<_>>())?;
    let mut notes = notes(mode, &heatings, peak_c, steel);
    if Stage::of(middle_nm) == Stage::Bright {
        notes.push(TintNote::OnlyBelow);
    }
    let name = match mode {
        Mode::FlameOn(_) => "tint-flame-on",
        Mode::Afterwards(_) => "tint-afterwards",
    };
    let mut outcome = Outcome::new(Method::TintFit, middle_nm, Unit::Nanometre)
        .named(name)
        .spread(band_nm.low, band_nm.high)
        .from_inputs(ranges(&heatings, peak_c));
    outcome.steps = vec![
        Step { symbol: "T", value: peak_c, unit: Unit::Celsius },
        Step { symbol: "d low", value: film_nm.low, unit: Unit::Nanometre },
        Step { symbol: "d high", value: film_nm.high, unit: Unit::Nanometre },
    ];
    Ok(ColourAtPeak {
        peak_c,
        film_nm,
        band_nm,
        stage: Stage::of(middle_nm),
        srgb: film_swatch(middle_nm).srgb,
        stages: (Stage::of(band_nm.low), Stage::of(band_nm.high)),
        outcome,
        notes,
    })
}

/// The peak that left a colour: always a range.
#[derive(Debug, Clone, PartialEq)]
pub struct PeakFromTint {
    /// The film that was seen, nm.
    pub film_nm: Span,
    /// Lowest and highest peak over the plausible histories without sigma, °C; no lower
    /// end where no tint is seen.
    pub central_c: (Option<f64>, f64),
    /// Widest sigma over the same, K.
    pub sigma_k: f64,
    /// Two sigma below and above, °C.
    pub band_c: (Option<f64>, f64),
    /// The band as an outcome: it has no single value.
    pub outcome: Outcome,
    /// What to keep in mind.
    pub notes: Vec<TintNote>,
}

/// Which peak left the film between two thicknesses, by the plausible histories of a mode?
///
/// Lowest (peak − 2σ) to highest (peak + 2σ) over film and histories; σ by
/// [`Heating::sigma_k`], and upwards by [`Heating::sigma_up_k`], which is wider after a long time.
/// Two sigma on either side, so a single figure is never given.
///
/// # Errors
/// [`TintError::Refused`] where a colour says nothing, is past first order, or was there
/// before; an input that is not a number or that no heating has.
pub fn peak_from_film(mode: &Mode, film_nm: Span, steel: &Circumstances) -> Result<PeakFromTint, TintError> {
    steel.check()?;
    let film = Domain::new("d", 0.0, 1000.0);
    film.check(film_nm.low)?;
    film.check(film_nm.high)?;
    if film_nm.high < film_nm.low {
        return Err(crate::engine::EngineError::NoAnswer { reason: "span-swapped" }.into());
    }
    if film_nm.low >= Stage::Later.from_nm() {
        return Err(Refusal::PastFirstOrder.into());
    }
    if film_nm.high <= mode.film_before_nm() {
        return Err(Refusal::ThereBefore.into());
    }
    let heatings = mode.heatings(steel)?;
    // No tint has no lower end, and neither has a colour that was there before.
    let first_nm = Stage::FaintYellow.from_nm().max(mode.film_before_nm());
    let only_below = film_nm.low < first_nm;
    let peaks = |film_nm: f64, sigma: fn(&Heating, f64) -> Option<f64>| -> Vec<(f64, f64)> {
        heatings
            .iter()
            .filter_map(|heating| Some((heating.peak_c(film_nm)?, sigma(heating, film_nm)?)))
            .collect()
    };
    let low = if only_below { Vec::new() } else { peaks(film_nm.low, Heating::sigma_k) };
    let high = peaks(film_nm.high, Heating::sigma_up_k);
    let least = |shift: f64| low.iter().map(|(peak, sigma)| peak - shift * sigma).reduce(f64::min);
    let most = |shift: f64| high.iter().map(|(peak, sigma)| peak + shift * sigma).reduce(f64::max);
    let (Some(top_c), Some(band_top_c)) = (most(0.0), most(BAND_SIGMAS)) else {
        return Err(Refusal::PastFirstOrder.into());
    };
    let (central_c, band_c) = ((least(0.0), top_c), (least(BAND_SIGMAS), band_top_c));
    let sigma_k = low.iter().chain(&high).map(|(_, sigma)| *sigma).fold(0.0, f64::max);
    let mut notes = notes(mode, &heatings, top_c, steel);
    // A colour that was there before has no lower end either, and is no missing tint.
    if film_nm.low < Stage::FaintYellow.from_nm() {
        notes.push(TintNote::OnlyBelow);
    }
    let mut outcome = Outcome::open(Method::TintFit, Unit::Celsius)
        .named("peak-from-tint")
        .from_inputs(ranges(&heatings, top_c));
    outcome.low = band_c.0;
    outcome.high = Some(band_c.1);
    outcome.steps = vec![
        Step { symbol: "d low", value: film_nm.low, unit: Unit::Nanometre },
        Step { symbol: "d high", value: film_nm.high, unit: Unit::Nanometre },
        Step { symbol: "σ", value: sigma_k, unit: Unit::Kelvin },
    ];
    Ok(PeakFromTint { film_nm, central_c, sigma_k, band_c, outcome, notes })
}

/// Which peak left a stage, or the stages from one to another?
///
/// # Errors
/// As [`peak_from_film`].
pub fn peak_from_stages(
    mode: &Mode,
    from: Stage,
    to: Stage,
    steel: &Circumstances,
) -> Result<PeakFromTint, TintError> {
    let high = to.to_nm().ok_or(Refusal::PastFirstOrder)?;
    peak_from_film(mode, Span { low: from.from_nm(), high }, steel)
}

/// One sigma of a film, K; a film that is hardly thicker than the one before has the sigma
/// of the first that is, and one past every peak the widest.
fn sigma_of(heating: &Heating, film_nm: f64, sigma: fn(&Heating, f64) -> Option<f64>) -> f64 {
    sigma(heating, film_nm.max(heating.film_before_nm() + LEAST_NEW_NM)).unwrap_or(WIDEST_K)
}

fn whole(films: &[f64]) -> Result<Span, TintError> {
    Span::about(films.iter().copied())
        .ok_or(TintError::Input(crate::engine::EngineError::NotANumber { symbol: "d" }))
}

/// The time at the peak beside what the time law was fitted to.
fn ranges(heatings: &[Heating], peak_c: f64) -> Vec<Checked> {
    heatings
        .iter()
        .take(1)
        .chain(heatings.iter().skip(1).last())
        .map(|heating| {
            let minutes = heating.minutes_at_peak(peak_c);
            Checked::between("minutes at peak", minutes, Unit::Minute, FITTED_MIN.low, FITTED_MIN.high)
        })
        .collect()
}

fn notes(mode: &Mode, heatings: &[Heating], peak_c: f64, steel: &Circumstances) -> Vec<TintNote> {
    let mut notes = match mode {
        // While the flame is on, the peak is now; the colour still says nothing once it is off.
        Mode::FlameOn(_) => vec![TintNote::ThisSkinOnly, TintNote::LookStraight],
        Mode::Afterwards(_) => vec![TintNote::PeakNotNow, TintNote::ThisSkinOnly, TintNote::LookStraight],
    };
    let times: Vec<f64> =
        heatings.iter().map(|heating| heating.minutes_at_peak(peak_c.max(SKIN.low))).collect();
    if times.iter().any(|&minutes| minutes < FITTED_MIN.low) {
        notes.push(TintNote::ShorterThanFitted);
    }
    if times.iter().any(|&minutes| minutes > INDICATIVE_MIN) {
        notes.push(TintNote::LongTime);
        notes.push(TintNote::HotterThanItLooks);
    }
    if mode.film_before_nm() > 0.0 {
        notes.push(TintNote::SecondHeating);
    }
    if steel.chromium_pct.is_none() {
        notes.push(TintNote::ChromiumUnknown);
    }
    if steel.coupon.is_some() {
        notes.push(TintNote::ByCoupon);
    }
    let beyond =
        |heating: &Heating| matches!(heating.course(), Course::Curve(curve) if peak_c > curve.end_c());
    if heatings.iter().any(beyond) {
        notes.push(TintNote::BeyondCurve);
    }
    notes
}
