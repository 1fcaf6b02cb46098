//! A reading on a part: what it really says, how it stands to the limits, and how long is left.

mod band;
mod fall;
mod verdict;

pub use band::{Band, Gun, Look, Seen, Touch};
pub use fall::{Fall, Falls, Pace, Timed, left_min, wait_min};
pub use verdict::{Judged, Limits, Verdict, When, judge};
