//! A limit of a plan.

use crate::reference::{Basis, Printed};

/// A limit of the plan. Figures and ids only: words are for `words`.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit {
    /// The exact figure, °C.
    pub exact_c: f64,
    /// As the source prints it, where the figure is a printed one.
    pub printed: Option<Printed>,
    /// What sets it: the id of a method, or of a rule of the upper side.
    pub by: &'static str,
    /// The member that sets it, where one does.
    pub member: Option<usize>,
    /// Does it read "at least"?
    pub at_least: bool,
    /// What it rests on.
    pub basis: Basis,
}
