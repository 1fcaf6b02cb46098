//! In which part of the work a question is asked: the Bench lists by that.

use strum::{EnumIter, IntoStaticStr};

/// A part of the work, in the order of time. Its head on the Bench is the message `work-ID`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, EnumIter, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Work {
    /// Which steel is it, and what becomes of it?
    Steel,
    /// How hot must it be?
    Preheat,
    /// How does it get hot?
    Heat,
    /// How is that known?
    Measure,
    /// Parts that go together only hot.
    Fit,
    /// Arc, energy and electrodes.
    Weld,
    /// Hot after welding, and cold.
    Cool,
    /// Is it sound?
    Check,
}

impl Work {
    /// Its id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}
