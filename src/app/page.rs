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
    /// How it looks and how figures are written.
    Settings,
    /// What this is.
    About,
}

impl Page {
    /// Places in the order of the navigation: only those that work.
    pub(super) const PLACES: [Self; 4] = [Self::Plan, Self::Tint, Self::Bench, Self::Safety];

    /// Its id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    /// The place that a session names; the first where it names none.
    pub(super) fn place(kept: &str) -> Self {
        kept.parse().ok().filter(|page| Self::PLACES.contains(page)).unwrap_or(Self::PLACES[0])
    }

    /// The message of its title.
    pub(super) fn title(self) -> String {
        // A question is titled by its part of the work; without one it is a page of the Bench.
        let id = if self == Self::Question { Self::Bench.id() } else { self.id() };
        if Self::PLACES.contains(&self) || self == Self::Question {
            format!("place-{id}")
        } else {
            format!("page-{id}")
        }
    }
}
