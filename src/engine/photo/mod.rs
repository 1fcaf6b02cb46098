//! Which film does a photo of the tinted steel show, if it can be told at all?

mod read;
mod sample;

use std::ops::ControlFlow;

use image::DynamicImage;

use super::EngineError;
use super::tint::colour::{LabColour, difference, film_swatch, lab_of_linear};
use super::tint::{Circumstances, Mode, PeakFromTint, Span, Stage, TintError, peak_from_stages};
pub use read::{PhotoUnread, read_photo};
pub use sample::Region;
use sample::{Sample, sample};

/// Thickest film that is searched, nm.
const SEARCHED_NM: u32 = 85;
/// Thickest film that a photo may be believed, nm.
const BELIEVED_NM: f64 = 70.0;
/// Colour difference above which no film is like the photo.
const WORST: f64 = 12.0;
/// Colour difference up to which a match can be called good.
const GOOD: f64 = 5.0;
/// By how much a film two stages away must be worse for a good match.
const GOOD_MARGIN: f64 = 4.0;
/// As above for any answer at all.
const FAIR_MARGIN: f64 = 2.0;
/// Share of clipped pixels that a spot may have.
const CLIPPED_MAX: f64 = 0.02;
/// Least linear light of the reference; below, noise and rounding decide.
const DARKEST: f64 = 0.03;
/// Largest ratio between the channels of the reference that counts as white balance.
const TILT_MAX: f64 = 4.0;
/// Largest spread of light within a spot, as a share of its mean.
const UNEVEN_MAX: f64 = 0.5;
/// A tinted spot is not brighter than bright steel; noise and glare allow this factor.
const BRIGHTER_MAX: f64 = 1.15;

/// What the colour of the spot is held against.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PhotoReference {
    /// A still-bright part of the same steel in the same reflection: best.
    BrightSteel(Region),
    /// A grey card in the same light, with its reflectance.
    GreyCard {
        /// Where it is.
        region: Region,
        /// Its reflectance; 0.18 for the usual card.
        reflectance: f64,
    },
}

/// What is asked of a photo.
#[derive(Debug, Clone, PartialEq)]
pub struct PhotoQuestion {
    /// The tinted spot.
    pub spot: Region,
    /// What it is held against.
    pub reference: PhotoReference,
    /// The steel: a photo can't tell stainless from low-alloy steel, the person must.
    pub steel: Circumstances,
}

/// How far a match can be believed; never closer than a stage to either side.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, strum::IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Confidence {
    /// Look again, or measure.
    Fair,
    /// The steel is known to be low-alloy, the film is like the photo and no film two
    /// stages away is.
    Good,
}

impl Confidence {
    /// Stable id; the words are the Fluent message `photo-confidence-ID`.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// One film and how far its colour is from the photo.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FilmMatch {
    /// Film, nm.
    pub film_nm: f64,
    /// Its stage.
    pub stage: Stage,
    /// CIEDE2000 difference to the photo.
    pub difference: f64,
}

/// What a photo shows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PhotoMatch {
    /// The nearest film.
    pub best: FilmMatch,
    /// The nearest film of another stage.
    pub runner_up: FilmMatch,
    /// How far to believe it.
    pub confidence: Confidence,
    /// Colour of the spot once light and white balance are taken out.
    pub lab: LabColour,
    /// Thinnest and thickest film among the parts of the spot, nm.
    pub within_spot_nm: Span,
}

impl PhotoMatch {
    /// The stages that the photo leaves: one to either side of the best.
    #[must_use]
    pub const fn stages(&self) -> (Stage, Stage) {
        (self.best.stage.before(), self.best.stage.after())
    }

    /// The peak that left this colour, over the stages that the photo leaves.
    ///
    /// # Errors
    /// As [`peak_from_stages`].
    pub fn peak(&self, mode: &Mode, steel: &Circumstances) -> Result<PeakFromTint, TintError> {
        let (from, to) = self.stages();
        peak_from_stages(mode, from, to, steel)
    }
}

/// Why a photo gives no answer.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum PhotoError {
    /// A colour says nothing on this steel.
    #[error(transparent)]
    Tint(#[from] TintError),
    /// The spot or the reference lies outside the photo or is too small.
    #[error("region outside the photo")]
    Region,
    /// Part of the spot or the reference is over- or underexposed.
    #[error("clipped: {share}")]
    Clipped {
        /// Share of its pixels.
        share: f64,
    },
    /// The reference is too dark.
    #[error("too dark: {light}")]
    TooDark {
        /// Its linear light, 0 to 1.
        light: f64,
    },
    /// The light is so coloured that it can't be taken out.
    #[error("light too coloured: {ratio}")]
    ColouredLight {
        /// Ratio of its strongest to its weakest channel.
        ratio: f64,
    },
    /// Glare, texture, scale or more than one colour within a spot.
    #[error("uneven: {share}")]
    Uneven {
        /// Spread as a share of the mean.
        share: f64,
    },
    /// The spot is brighter than the bright steel beside it.
    #[error("brighter than the reference: {ratio}")]
    Brighter {
        /// Ratio of light.
        ratio: f64,
    },
    /// No film looks like this.
    #[error("no film is like it: {difference}")]
    NoFilm {
        /// Colour difference to the nearest film.
        difference: f64,
    },
    /// Two films far apart look like this.
    #[error("two films are like it: {margin}")]
    Ambiguous {
        /// How much worse the second is.
        margin: f64,
    },
    /// The nearest film is too thick to be believed.
    #[error("film too thick: {film_nm}")]
    TooThick {
        /// Film, nm.
        film_nm: f64,
    },
    /// The person stopped it.
    #[error("stopped")]
    Stopped,
}

impl PhotoError {
    /// Key of the Fluent message.
    #[must_use]
    pub fn key(&self) -> String {
        match self {
            Self::Tint(error) => error.key(),
            Self::Region => "error-photo-region".to_owned(),
            Self::Clipped { .. } => "error-photo-clipped".to_owned(),
            Self::TooDark { .. } => "error-photo-too-dark".to_owned(),
            Self::ColouredLight { .. } => "error-photo-coloured-light".to_owned(),
            Self::Uneven { .. } => "error-photo-uneven".to_owned(),
            Self::Brighter { .. } => "error-photo-brighter".to_owned(),
            Self::NoFilm { .. } => "error-photo-no-film".to_owned(),
            Self::Ambiguous { .. } => "error-photo-ambiguous".to_owned(),
            Self::TooThick { .. } => "error-photo-too-thick".to_owned(),
            Self::Stopped => "error-photo-stopped".to_owned(),
        }
    }
}

/// Which film does the photo show?
///
/// Linear light of the spot over linear light of the reference, per channel, times the
/// colour of bright steel (or of the card); nearest of the films from 0 to 85 nm by
/// CIEDE2000. `progress` is told the share done and may stop the work with `Break`.
///
/// # Errors
/// [`PhotoError`] with the reason: a photo in doubt gets no answer.
pub fn match_photo(
    photo: &DynamicImage,
    question: &PhotoQuestion,
    progress: &mut dyn FnMut(f64) -> ControlFlow<()>,
) -> Result<PhotoMatch, PhotoError> {
    question.steel.check()?;
    let (region, white) = match question.reference {
        PhotoReference::BrightSteel(region) => (region, film_swatch(0.0).linear),
        PhotoReference::GreyCard { region, reflectance } => {
            let card = super::error::Domain::new("card", 0.02, 1.0);
            (region, [card.check(reflectance).map_err(TintError::from)?; 3])
        }
    };
    let reference = sample(photo, region, &mut |share| progress(0.45 * share))?;
    let spot = sample(photo, question.spot, &mut |share| progress(0.45 + 0.45 * share))?;
    check_reference(&reference)?;
    check_spot(&spot)?;
    let corrected = |linear: [f64; 3]| -> [f64; 3] {
        std::array::from_fn(|part| linear[part] / reference.linear[part] * white[part])
    };
    let linear = corrected(spot.linear);
    let brighter = linear[1] / film_swatch(0.0).linear[1];
    if brighter > BRIGHTER_MAX {
        return Err(PhotoError::Brighter { ratio: brighter });
    }
    let lab = lab_of_linear(linear);
    let (best, runner_up, far) = nearest(lab);
    let within = spot.parts.iter().map(|part| nearest(lab_of_linear(corrected(*part))).0.film_nm);
    let within_spot_nm = Span::about(within).unwrap_or(Span::exactly(best.film_nm));
    if progress(1.0).is_break() {
        return Err(PhotoError::Stopped);
    }
    if best.difference > WORST {
        return Err(PhotoError::NoFilm { difference: best.difference });
    }
    if best.film_nm > BELIEVED_NM {
        return Err(PhotoError::TooThick { film_nm: best.film_nm });
    }
    let margin = far.difference - best.difference;
    if margin < FAIR_MARGIN {
        return Err(PhotoError::Ambiguous { margin });
    }
    let one_colour = Stage::of(within_spot_nm.low).steps_to(Stage::of(within_spot_nm.high)) <= 2;
    // Stainless steel shows the same colours, so a steel that is not known gets no confident answer.
    let known = question.steel.chromium_pct.is_some();
    let good = known && best.difference <= GOOD && margin >= GOOD_MARGIN && one_colour;
    let confidence = if good { Confidence::Good } else { Confidence::Fair };
    Ok(PhotoMatch { best, runner_up, confidence, lab, within_spot_nm })
}

fn check_reference(reference: &Sample) -> Result<(), PhotoError> {
    let (weakest, strongest) = ends(reference.linear);
    let clipped = reference.too_bright.max(reference.too_dark);
    if clipped > CLIPPED_MAX {
        return Err(PhotoError::Clipped { share: clipped });
    }
    if weakest < DARKEST {
        return Err(PhotoError::TooDark { light: weakest });
    }
    if strongest / weakest > TILT_MAX {
        return Err(PhotoError::ColouredLight { ratio: strongest / weakest });
    }
    check_even(reference)
}

fn check_spot(spot: &Sample) -> Result<(), PhotoError> {
    // Blue has next to no red, so one black channel is a colour; two are a hole.
    if spot.too_bright > CLIPPED_MAX {
        return Err(PhotoError::Clipped { share: spot.too_bright });
    }
    if spot.too_dark > CLIPPED_MAX {
        return Err(PhotoError::Clipped { share: spot.too_dark });
    }
    check_even(spot)
}

fn check_even(sample: &Sample) -> Result<(), PhotoError> {
    if sample.unevenness > UNEVEN_MAX { Err(PhotoError::Uneven { share: sample.unevenness }) } else { Ok(()) }
}

fn ends(linear: [f64; 3]) -> (f64, f64) {
    linear.iter().fold((f64::INFINITY, 0.0), |(low, high), &part| (low.min(part), part.max(high)))
}

/// The nearest film, the nearest of another stage, and the nearest at least two stages away.
fn nearest(lab: LabColour) -> (FilmMatch, FilmMatch, FilmMatch) {
    let all: Vec<FilmMatch> = (0..=SEARCHED_NM)
        .map(|film| {
            let film_nm = f64::from(film);
            FilmMatch {
                film_nm,
                stage: Stage::of(film_nm),
                difference: difference(lab, film_swatch(film_nm).lab),
            }
        })
        .collect();
    let least = |away: usize, from: Option<Stage>| {
        all.iter()
            .filter(|film| from.is_none_or(|from| film.stage.steps_to(from) >= away))
            .min_by(|a, b| a.difference.total_cmp(&b.difference))
            .copied()
            .expect("films of every stage are searched")
    };
    let best = least(0, None);
    (best, least(1, Some(best.stage)), least(2, Some(best.stage)))
}

impl From<EngineError> for PhotoError {
    fn from(error: EngineError) -> Self {
        Self::Tint(TintError::Input(error))
    }
}
