//! The pages of the window: the places, and what opens above one.

use strum::{EnumIter, EnumString, IntoStaticStr};

/// A page. Its id names its words, its icon and what the window draws.
#[derive(Debug, Clone, Copy, PartialEq, Eq, EnumIter, EnumString, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Page {
    /// A job, and what it needs.
    Plan,
    /// Temper colours.
    Tint,
    /// One small question at a time.
    Bench,
    /// Jobs, pieces, readings.
    Log,
    /// What can hurt. Sessions that were kept under its older name open there.
    #[strum(to_string = "safety", serialize = "care")]
    Safety,
    /// A question of the Bench.
    Question,
    /// The list of steels.
    Steels,
    /// A bar without a mark.
    Unmarked,
    /// A steel of the reader's own.
    Certificate,
    /// The heat cycle of the plan's joint.
    Cycle,
    /// The list of fillers.
    Fillers,
    /// A new job of the log.
    LogNew,
    /// A job of the log.
    LogJob,
    /// A piece of it.
    LogPiece,
    /// A reading that is typed.
    LogEntry,
    /// The card of a job.
    LogCard,
    /// A job file that is taken in.
    LogImport,
    /// How it looks and how figures are written.
    Settings,
    /// What this is.
    About,
    /// The first minute.
    Welcome,
}

impl Page {
    /// Places in the order of the navigation: only those that work.
    pub(super) const PLACES: [Self; 5] = [Self::Plan, Self::Tint, Self::Bench, Self::Log, Self::Safety];

    /// Its id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    /// The place that a session names; the first where it names none.
    pub(super) fn place(kept: &str) -> Self {
        kept.parse().ok().filter(|page| Self::PLACES.contains(page)).unwrap_or(Self::PLACES[0])
    }

    /// Is it the Log, or opened from it?
    pub(super) const fn is_log(self) -> bool {
        matches!(
            self,
            Self::Log
                | Self::LogNew
                | Self::LogJob
                | Self::LogPiece
                | Self::LogEntry
                | Self::LogCard
                | Self::LogImport
        )
    }

    /// The message of its title.
    pub(super) fn title(self) -> String {
        if self == Self::Welcome {
            return "app-name".to_owned();
        }
        // A question is titled by its part of the work; without one it is a page of the Bench.
        let id = if self == Self::Question { Self::Bench.id() } else { self.id() };
        if Self::PLACES.contains(&self) || self == Self::Question {
            format!("place-{id}")
        } else {
            format!("page-{id}")
        }
    }
}
