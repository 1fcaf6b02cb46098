//! Sizes, runs, amounts and strength of a weld, and the current that makes it.
//!
//! The sum is weld metal: an area in mm² along a length. A run has so much of it as the arc melts.

pub mod amount;
pub mod austenite;
pub mod deposit;
pub mod electrode;
pub mod fillet;
pub mod groove;
pub mod hydrogen_need;
pub mod matching;
pub mod offered;
pub mod order;
pub mod plate;
pub mod ring;
pub mod runs;
pub mod section;
pub mod strength;
pub mod tig;
pub mod torch_class;
pub mod unfit;
