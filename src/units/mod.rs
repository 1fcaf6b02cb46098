//! What the person typed, and how figures are shown.
//!
//! Readers take text as people write it and the unit shown in the field; they
//! answer in the engine's unit or with a [`Problem`] that holds what was typed
//! and what would be accepted. Words live in Fluent.

mod electric;
mod gas;
mod hardness;
mod heat;
mod hydrogen;
mod length;
pub mod limits;
mod mark;
mod measure;
mod number;
mod printed;
mod problem;
mod quantity;
mod region;
mod round;
mod show;
mod strength;
mod system;
mod temperature;
mod tidy;
mod time;

pub use electric::{current, travel, voltage};
pub use gas::{CUBIC_METRES_PER_CUBIC_FOOT, gas_flow, volume};
pub use hardness::{Hardness, HardnessScale, hardness};
pub use heat::{arc_energy, net_heat};
pub use hydrogen::{Hydrogen, hydrogen};
pub use length::{Length, leg, length, run_length};
pub use limits::Within;
pub use mark::Mark;
pub use number::{count, number, percent, share};
pub use printed::Printed;
pub(crate) use problem::shortened;
pub use problem::{Accepts, Choice, Problem};
pub use quantity::Quantity;
pub use round::{Side, limit_value, safe_maximum, safe_minimum};
pub use show::{Both, Show, parts};
pub use strength::{mass, stated_strength, strength};
pub use system::{LengthUnit, TemperatureUnit, Units};
pub use temperature::{difference, temperature};
pub use tidy::tidy;
pub use time::{TimeUnit, duration};
