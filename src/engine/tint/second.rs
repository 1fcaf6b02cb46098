//! Which peak left a colour on steel that carried one before?

use super::mode::Mode;
use super::read::{PeakFromTint, peak_from_stages};
use super::refusal::{Circumstances, Refusal, TintError};
use super::stages::Stage;

/// Which peak of this heating left the colours from `first` to `last`, when the skin
/// carried the colour `before`?
///
/// Films add up: `d^P = d_before^P + ∫K dt`. A colour is a range of films, so both ends of
/// the earlier one are reckoned and the answer spans them. Where the thick end could have
/// been there before, the answer has no lower end.
///
/// # Errors
/// As [`peak_from_stages`] with the thin end of the earlier colour.
pub fn peak_on_colour(
    mode: &Mode,
    before: Stage,
    (first, last): (Stage, Stage),
    steel: &Circumstances,
) -> Result<PeakFromTint, TintError> {
    let on = |film_nm: f64| peak_from_stages(&mode.on_film(film_nm), first, last, steel);
    let thin = on(before.from_nm())?;
    let Some(thick_nm) = before.to_nm().filter(|_| before != Stage::Bright) else { return Ok(thin) };
    let lower_of = |one: Option<f64>, other: Option<f64>| one.zip(other).map(|(a, b)| a.min(b));
    match on(thick_nm) {
        Ok(thick) => {
            let mut both = thin;
            both.central_c =
                (lower_of(both.central_c.0, thick.central_c.0), both.central_c.1.max(thick.central_c.1));
            both.band_c = (lower_of(both.band_c.0, thick.band_c.0), both.band_c.1.max(thick.band_c.1));
            both.sigma_k = both.sigma_k.max(thick.sigma_k);
            both.outcome.low = both.band_c.0;
            both.outcome.high = Some(both.band_c.1);
            for note in thick.notes {
                if !both.notes.contains(&note) {
                    both.notes.push(note);
                }
            }
            Ok(both)
        }
        Err(TintError::Refused(Refusal::ThereBefore)) => {
            let mut open = thin;
            (open.central_c.0, open.band_c.0, open.outcome.low) = (None, None, None);
            Ok(open)
        }
        Err(error) => Err(error),
    }
}
