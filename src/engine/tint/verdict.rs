//! Does the peak that a colour tells keep the limits of a plan?

use super::read::{PeakFromTint, TintNote};

/// Limits that a colour is held against, °C.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct TintLimits {
    /// The steel must be at least this hot.
    pub minimum_c: Option<f64>,
    /// The steel must be at most this hot between runs.
    pub maximum_c: Option<f64>,
    /// The steel must never be hotter.
    pub ceiling_c: Option<f64>,
}

/// Is a limit kept, over the whole band of the colour?
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Held {
    /// Kept, even at the unfavourable end.
    Kept,
    /// Not kept, even at the favourable end.
    Missed,
    /// The colour can't tell.
    Unsure,
}

/// How a colour stands to each limit that there is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct TintVerdict {
    /// To the minimum, judged at the cold end of the band.
    pub minimum: Option<Held>,
    /// To the maximum, judged at its hot end.
    pub maximum: Option<Held>,
    /// To the ceiling, judged at its hot end.
    pub ceiling: Option<Held>,
}

/// How does a colour stand to the limits of a plan? Each limit is judged at the end of
/// the two-sigma band that is unfavourable to it, so that a colour never flatters:
/// `minimum ≤ low` keeps the minimum, `high ≤ maximum` keeps a maximum.
///
/// Where the chromium of the steel is not known the band has no sure upper end, since chromium
/// shifts every colour to a higher heat: then no maximum is kept, and no minimum surely missed.
/// A colour with no lower end (no tint yet, or one that was there before) never keeps a
/// minimum. A peak that kept the minimum says nothing of the temperature now.
#[must_use]
pub fn judge_tint(peak: &PeakFromTint, limits: &TintLimits) -> TintVerdict {
    let (low_c, high_c) = peak.band_c;
    let top_known = !peak.notes.contains(&TintNote::ChromiumUnknown);
    let least = |minimum_c: f64| match low_c {
        Some(low_c) if low_c >= minimum_c => Held::Kept,
        _ if high_c < minimum_c && top_known => Held::Missed,
        _ => Held::Unsure,
    };
    let most = |maximum_c: f64| match low_c {
        _ if high_c <= maximum_c && top_known => Held::Kept,
        Some(low_c) if low_c > maximum_c => Held::Missed,
        _ => Held::Unsure,
    };
    TintVerdict {
        minimum: limits.minimum_c.map(least),
        maximum: limits.maximum_c.map(most),
        ceiling: limits.ceiling_c.map(most),
    }
}
