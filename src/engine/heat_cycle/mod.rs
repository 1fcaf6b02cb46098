//! The heat of a joint from the first flame to cold, and the hydrogen in it.
//!
//! One section of the actual joint is cut into cells ([`JointShape`]), heated, evened out, welded
//! pass by pass, held and cooled; hydrogen moves on the same cells. [`run`] answers for a whole
//! cycle, [`preheat`] for the flame alone.

mod after;
mod body;
mod clock;
mod cycle;
mod drawing;
mod falling;
mod fineness;
mod flames;
mod heating;
mod hydrogen;
mod levers;
mod lines;
mod losses;
mod power;
mod properties;
mod query;
mod recipe;
mod record;
mod refusal;
mod run;
mod section;
mod shape;
mod sites;
mod step;
pub mod torch;
pub mod trials;
mod turns;
mod welding;

pub use after::{Cooled, Deepest, Mark, Needed};
pub use cycle::{Closure, Cycle, Preheat, plain_preheat, plain_run, preheat, run};
pub use drawing::{Drawing, DrawnCell, drawing};
pub use fineness::Fineness;
pub use flames::{FlameShare, Flamed, Flames, HeatedBy, NoCycle};
pub use heating::Heated;
pub use levers::{FlowLever, flow_levers};
pub use losses::{Losses, losses_by_readings};
pub use power::{Reading, efficiency_of_first_part, power_that_would_do};
pub use query::{HeatCycle, Keep, Pass, PostHeat, Source, Surface, Surfaces};
pub use recipe::Matter;
pub use record::{Field, Moment, Phase};
pub use refusal::Refusal;
pub use run::Watch;
pub use shape::{BAR_REACH_MM, JointShape, REACH_MM, TeeKind, WELD_LENGTH_MM};
pub use sites::Reached;
pub use turns::{Turn, Turned, Turns};
pub use welding::PassHistory;
