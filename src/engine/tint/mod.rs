//! Temper colours of bright steel: the film grows along the temperature history and
//! shows its colour; the colour tells which peak the skin saw, within an honest band.

pub mod colour;
mod coupon;
pub mod growth;
mod heating;
mod history;
mod mode;
pub mod optics;
mod proof;
mod read;
mod refusal;
mod second;
mod stages;
mod strip;
pub mod tables;
mod verdict;

pub use coupon::{Coupon, CouponSeen};
pub use heating::Heating;
pub use history::{Course, HeatCurve, History, NEAR_PEAK_K, Stretch};
pub use mode::{Afterwards, FlameOn, Mode, PLAUSIBLE_NEAR_PEAK_MIN, Pace, Span};
pub use proof::{Proof, colour_on_colour, proof_of};
pub use read::{ColourAtPeak, PeakFromTint, TintNote, colour_at_peak, peak_from_film, peak_from_stages};
pub use refusal::{CHROMIUM_MAX_PCT, Circumstances, Refusal, STAINLESS_PCT, SpotState, TintError};
pub use second::peak_on_colour;
pub use stages::Stage;
pub use strip::{StripColumn, strip};
pub use verdict::{Held, TintLimits, TintVerdict, judge_tint};
