//! How may a weld crack? Named checks, each on a scale of its own: they are never ranked against each other.

pub mod bent;
pub mod butter;
pub mod cut_edge;
pub mod hydrogen_hardness;
pub mod lamellar;
pub mod reheat;
pub mod run_shape;
pub mod solidification;

/// What a check says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Check {
    /// Nothing speaks against it.
    Pass,
    /// It may crack.
    Warn,
    /// The check has no figure here.
    NoFigure,
}

impl Check {
    /// A pass where the condition is true, else a warning.
    #[must_use]
    pub const fn passes(holds: bool) -> Self {
        if holds { Self::Pass } else { Self::Warn }
    }
}
