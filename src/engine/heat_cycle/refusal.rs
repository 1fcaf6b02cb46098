//! Why a heat cycle is not reckoned, with the figures that say what would.

use thiserror::Error;

use crate::engine::EngineError;

/// Why there is no answer. The `Display` text is for logs; the screen reads the Fluent message
/// `refused-ID` with the values put in.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum Refusal {
    /// An input that nothing can be reckoned with.
    #[error(transparent)]
    Input(#[from] EngineError),
    /// The source never brings the coldest required place to the minimum.
    #[error("{coldest_c} °C after {minutes} min; about {power_w:?} W would do")]
    MinimumNotReached {
        /// Coldest required place at the end, °C.
        coldest_c: f64,
        /// After so many minutes.
        minutes: f64,
        /// The power into the part that would do, W; `None` where none would under the ceiling.
        power_w: Option<f64>,
        /// Did the ceiling hold the source back at the end? Then no stronger one helps.
        held_back: bool,
    },
    /// It reaches the minimum and nothing beyond: without the flame there is no time to weld.
    #[error("{coldest_c} °C after {minutes} min, the minimum after {minimum_min} min")]
    ReserveNotReached {
        /// Coldest required place at the end, °C.
        coldest_c: f64,
        /// After so many minutes.
        minutes: f64,
        /// When it had the minimum, min.
        minimum_min: f64,
        /// Did the ceiling hold the source back at the end?
        held_back: bool,
    },
    /// What it is heated to lies at or above where the source must be throttled.
    #[error("goal {goal_c} °C, but no hotter than {cap_c} °C")]
    GoalAboveCap {
        /// °C.
        goal_c: f64,
        /// °C.
        cap_c: f64,
    },
    /// The maximum interpass is no higher than the minimum.
    #[error("minimum {minimum_c} °C, maximum {most_c} °C")]
    NoWindow {
        /// °C.
        minimum_c: f64,
        /// °C.
        most_c: f64,
    },
    /// So much heat on so little skin that the skin's temperature can't be said.
    #[error("{flux_kw_per_m2} kW/m², at most {most_kw_per_m2}")]
    FluxTooHigh {
        /// kW/m².
        flux_kw_per_m2: f64,
        /// kW/m².
        most_kw_per_m2: f64,
    },
    /// An efficiency that no flame has: check tip, flow and size.
    #[error("efficiency {efficiency}, not within {low} to {high}")]
    Efficiency {
        /// Share of the fuel's heat that went into the part.
        efficiency: f64,
        /// Lowest that is taken.
        low: f64,
        /// Highest that is taken.
        high: f64,
    },
    /// So large a part with so fine a weld that its section has too many cells.
    #[error("{cells} cells, at most {most}")]
    TooManyCells {
        /// Cells.
        cells: usize,
        /// Most that are taken.
        most: usize,
    },
    /// Steel away from the weld is hotter than its properties are printed for.
    #[error("{at_c} °C beside the weld, at most {most_c}")]
    TooHot {
        /// °C.
        at_c: f64,
        /// °C.
        most_c: f64,
    },
    /// It never cools to where it is waited for.
    #[error("still {at_c} °C after {hours} h")]
    NeverCool {
        /// °C.
        at_c: f64,
        /// h.
        hours: f64,
    },
    /// The books of heat or hydrogen don't close: no figure of the cycle is to be trusted.
    #[error("heat off by {energy}, hydrogen by {hydrogen}")]
    NotClosed {
        /// Share of the heat that came in.
        energy: f64,
        /// Share of the hydrogen that was put in.
        hydrogen: f64,
    },
    /// The reader stopped it.
    #[error("stopped")]
    Stopped,
}

impl Refusal {
    /// Key of the Fluent message.
    #[must_use]
    pub fn key(&self) -> String {
        let id = match self {
            Self::Input(error) => return error.key(),
            Self::MinimumNotReached { .. } => "minimum-not-reached",
            Self::ReserveNotReached { .. } => "reserve-not-reached",
            Self::GoalAboveCap { .. } => "goal-above-cap",
            Self::NoWindow { .. } => "no-window",
            Self::FluxTooHigh { .. } => "flux-too-high",
            Self::Efficiency { .. } => "efficiency",
            Self::TooManyCells { .. } => "too-many-cells",
            Self::TooHot { .. } => "too-hot",
            Self::NeverCool { .. } => "never-cool",
            Self::NotClosed { .. } => "not-closed",
            Self::Stopped => "stopped",
        };
        format!("refused-{id}")
    }

    /// The values of the message, ready for Fluent.
    #[must_use]
    pub fn values(&self) -> Vec<(&'static str, f64)> {
        match *self {
            Self::Input(_) | Self::Stopped => Vec::new(),
            Self::MinimumNotReached { coldest_c, minutes, power_w, .. } => {
                let mut values = vec![("coldest", coldest_c), ("minutes", minutes)];
                values.extend(power_w.map(|power_w| ("power", power_w / 1e3)));
                values
            }
            Self::ReserveNotReached { coldest_c, minutes, minimum_min, .. } => {
                vec![("coldest", coldest_c), ("minutes", minutes), ("minimum", minimum_min)]
            }
            Self::GoalAboveCap { goal_c, cap_c } => vec![("goal", goal_c), ("cap", cap_c)],
            Self::NoWindow { minimum_c, most_c } => vec![("minimum", minimum_c), ("most", most_c)],
            Self::FluxTooHigh { flux_kw_per_m2, most_kw_per_m2 } => {
                vec![("flux", flux_kw_per_m2), ("most", most_kw_per_m2)]
            }
            Self::Efficiency { efficiency, low, high } => {
                vec![("efficiency", efficiency), ("low", low), ("high", high)]
            }
            Self::TooManyCells { cells, most } => vec![("cells", cells as f64), ("most", most as f64)],
            Self::TooHot { at_c, most_c } => vec![("at", at_c), ("most", most_c)],
            Self::NotClosed { energy, hydrogen } => vec![("energy", energy), ("hydrogen", hydrogen)],
            Self::NeverCool { at_c, hours } => vec![("at", at_c), ("hours", hours)],
        }
    }
}

/// What a question says in its place, without its figures.
impl From<Refusal> for EngineError {
    fn from(refusal: Refusal) -> Self {
        let reason = match refusal {
            // What a size may be rests on the other sizes, which no single field says.
            Refusal::Input(Self::OutOfDomain { .. }) => "heat-sizes-do-not-fit",
            Refusal::Input(error) => return error,
            Refusal::MinimumNotReached { held_back: true, .. }
            | Refusal::ReserveNotReached { held_back: true, .. } => "heat-held-back",
            Refusal::MinimumNotReached { .. } => "heat-minimum-not-reached",
            Refusal::ReserveNotReached { .. } => "heat-reserve-not-reached",
            Refusal::GoalAboveCap { .. } => "heat-goal-above-cap",
            Refusal::NoWindow { .. } => "heat-no-range",
            Refusal::FluxTooHigh { .. } => "heat-flux-too-high",
            Refusal::Efficiency { .. } => "heat-efficiency",
            Refusal::TooHot { .. } => "heat-too-hot",
            Refusal::NotClosed { .. } => "heat-not-closed",
            Refusal::TooManyCells { .. } | Refusal::NeverCool { .. } | Refusal::Stopped => "heat-too-large",
        };
        Self::NoAnswer { reason }
    }
}
