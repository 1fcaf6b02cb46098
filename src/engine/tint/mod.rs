//! Temper colours of bright steel: the film grows along the temperature history and
//! shows its colour; the colour tells which peak the skin saw, within an honest band.

pub mod colour;
pub mod growth;
mod heating;
mod history;
mod mode;
pub mod optics;
mod read;
mod refusal;
mod stages;
mod strip;
pub mod tables;

pub use heating::Heating;
pub use history::{Course, HeatCurve, History, NEAR_PEAK_K, Stretch};
pub use mode::{Afterwards, FlameOn, Mode, PLAUSIBLE_NEAR_PEAK_MIN, Pace, Span};
pub use read::{ColourAtPeak, PeakFromTint, TintNote, colour_at_peak, peak_from_film, peak_from_stages};
pub use refusal::{CHROMIUM_MAX_PCT, Circumstances, Refusal, STAINLESS_PCT, SpotState, TintError};
pub use stages::Stage;
pub use strip::{StripColumn, strip};
