//! Which colour shows that a heat is reached?

use super::mode::Mode;
use super::read::{ColourAtPeak, colour_at_peak};
use super::refusal::{Circumstances, TintError};
use super::second::peak_on_colour;
use super::stages::Stage;

/// Which colours speak for a heat, and which against it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Proof {
    /// The earliest colour whose whole band lies at or above the heat; none where no colour
    /// that can be judged does.
    pub reached_from: Option<Stage>,
    /// The latest colour whose whole band lies below the heat; none where even no tint at all
    /// may show at it.
    pub below_up_to: Option<Stage>,
}

/// Which colour shows that a heat is reached, and up to which one is it surely not?
///
/// The inverse of the colours, each over its two-sigma band ([`peak_on_colour`]), so that
/// the answer never disagrees with what the same colour means when it is seen.
#[must_use]
pub fn proof_of(mode: &Mode, before: Stage, peak_c: f64, steel: &Circumstances) -> Proof {
    let band =
        |stage: Stage| peak_on_colour(mode, before, (stage, stage), steel).ok().map(|peak| peak.band_c);
    let judged = || Stage::ALL.iter().copied().filter(|stage| *stage != Stage::Later);
    Proof {
        reached_from: judged().find(|stage| band(*stage).and_then(|(low_c, _)| low_c) >= Some(peak_c)),
        below_up_to: judged().rfind(|stage| band(*stage).is_some_and(|(_, high_c)| high_c < peak_c)),
    }
}

/// Which colours can a heat show on steel that carried a colour before? The middle is that
/// of the earlier colour's own film; the band spans both of its ends.
///
/// # Errors
/// As [`colour_at_peak`] with the middle of the earlier colour.
pub fn colour_on_colour(
    mode: &Mode,
    before: Stage,
    peak_c: f64,
    steel: &Circumstances,
) -> Result<ColourAtPeak, TintError> {
    let on = |film_nm: f64| colour_at_peak(&mode.on_film(film_nm), peak_c, steel);
    let mut found = on(before.typical_nm())?;
    let ends = [before.from_nm(), before.to_nm().unwrap_or(before.typical_nm())];
    for end in ends.into_iter().filter(|_| before != Stage::Bright) {
        if let Ok(other) = on(end) {
            found.film_nm.low = found.film_nm.low.min(other.film_nm.low);
            found.film_nm.high = found.film_nm.high.max(other.film_nm.high);
            found.band_nm.low = found.band_nm.low.min(other.band_nm.low);
            found.band_nm.high = found.band_nm.high.max(other.band_nm.high);
        }
    }
    found.stages = (Stage::of(found.band_nm.low), Stage::of(found.band_nm.high));
    found.outcome.low = Some(found.band_nm.low);
    found.outcome.high = Some(found.band_nm.high);
    Ok(found)
}
