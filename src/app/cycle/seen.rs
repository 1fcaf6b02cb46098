//! A cycle that was worked out, with what its pictures need.

use super::field::Places;
use crate::engine::heat_cycle::{Drawing, Fineness, Flamed, Flames};

/// A cycle with what its pictures need.
pub(crate) struct Seen {
    pub(crate) flames: Flames,
    pub(crate) found: Flamed,
    pub(crate) drawing: Drawing,
    /// What lies where on it.
    pub(super) places: Places,
}

impl Seen {
    /// Is it that of the fine grid?
    pub(super) fn is_fine(&self) -> bool {
        self.flames.cycle.fineness == Fineness::Fine
    }
}
