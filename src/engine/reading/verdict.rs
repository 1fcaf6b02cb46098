//! How does a reading stand to the limits of its job?

use serde::{Deserialize, Serialize};

use super::Band;
use crate::engine::tint::Held;

/// When a reading was taken; runs are counted from 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub enum When {
    /// While the part was heated, before any arc.
    Heating,
    /// Just before a tack.
    BeforeTack,
    /// Just before a run.
    BeforeRun(u32),
    /// Between two runs, at no run's own moment.
    BetweenRuns,
    /// In the hold after welding.
    PostHeat,
    /// After all of it, while it cools.
    Cooling,
}

impl When {
    /// Stable id without the number of the run.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Heating => "heating",
            Self::BeforeTack => "before-tack",
            Self::BeforeRun(_) => "before-run",
            Self::BetweenRuns => "between-runs",
            Self::PostHeat => "post-heat",
            Self::Cooling => "cooling",
        }
    }

    /// Must the part be at its minimum, and below its maximum between runs?
    #[must_use]
    pub const fn in_welding(self) -> bool {
        matches!(self, Self::BeforeTack | Self::BeforeRun(_) | Self::BetweenRuns)
    }
}

/// Limits that a reading is held against, °C, as they were shown.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Limits {
    /// At least so hot.
    pub minimum_c: Option<f64>,
    /// At most so hot between runs.
    pub maximum_c: Option<f64>,
    /// Never hotter.
    pub ceiling_c: Option<f64>,
    /// Is there a working range at all? Where the plan has none, nothing is in it.
    pub range_known: bool,
}

/// A reading in one word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr, strum::VariantArray)]
#[strum(serialize_all = "kebab-case")]
pub enum Verdict {
    /// Surely below the minimum.
    Below,
    /// Surely inside every limit of its moment.
    In,
    /// Surely above the maximum or the ceiling.
    Over,
    /// It may be either.
    CannotTell,
}

impl Verdict {
    /// All of them.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Stable id; its words are the Fluent message `log-verdict-ID`.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// How a reading stands to each limit of its moment, and in one word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Judged {
    /// The minimum, by the cold end; none where none counts then.
    pub minimum: Option<Held>,
    /// The maximum between runs, by the hot end.
    pub maximum: Option<Held>,
    /// The ceiling, by the hot end.
    pub ceiling: Option<Held>,
    /// All together; none outside of welding while the ceiling is kept, and where no limit counts.
    pub verdict: Option<Verdict>,
}

/// How does a reading stand to the limits of its moment?
///
/// One-sided: the minimum is kept by the cold end of the band alone, maximum and ceiling by its hot end
/// alone, so that no correction flatters. The minimum and the maximum count from the first tack to the last
/// run, the ceiling always. "In" is only what keeps every limit from the first tack to the last run, in a plan
/// that has a working range. A peak shows no minimum kept, and passes no maximum between runs, since it tells of an earlier moment.
#[must_use]
pub fn judge(band: &Band, when: When, limits: &Limits) -> Judged {
    let real = |at_c: &f64| at_c.is_finite();
    let (least_c, most_c) = (band.least_c().filter(real), band.most_c().filter(real));
    let low_c = band.low_c.filter(real);
    let least = |minimum_c: f64| match (least_c, most_c) {
        (Some(least_c), _) if least_c >= minimum_c => Held::Kept,
        (_, Some(most_c)) if most_c < minimum_c => Held::Missed,
        _ => Held::Unsure,
    };
    let most = |maximum_c: f64, by_peak: bool| match (low_c, most_c) {
        (_, Some(most_c)) if most_c <= maximum_c => Held::Kept,
        (Some(low_c), _) if low_c > maximum_c && by_peak => Held::Missed,
        _ => Held::Unsure,
    };
    let welding = when.in_welding();
    let minimum = limits.minimum_c.filter(|_| welding).map(least);
    let maximum = limits.maximum_c.filter(|_| welding).map(|at_c| most(at_c, !band.peak));
    let ceiling = limits.ceiling_c.map(|at_c| most(at_c, true));
    let all = [minimum, maximum, ceiling];
    let kept = all.iter().flatten().all(|held| *held == Held::Kept);
    let verdict = if maximum == Some(Held::Missed) || ceiling == Some(Held::Missed) {
        Some(Verdict::Over)
    } else if minimum == Some(Held::Missed) {
        Some(Verdict::Below)
    } else if !welding {
        (!kept).then_some(Verdict::CannotTell)
    } else if kept && limits.range_known && !band.peak {
        Some(Verdict::In)
    } else {
        Some(Verdict::CannotTell)
    };
    Judged { minimum, maximum, ceiling, verdict }
}
