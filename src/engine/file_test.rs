//! How hard is a surface on which a file bites, or skates?

use super::{Outcome, Unit};
use crate::reference::Method;

/// Hardness at which an ordinary new file stops biting, HRC.
pub const FILE_HRC: f64 = 60.0;

/// The hardness that a new file tells, HRC: at least [`FILE_HRC`] where it skates, at most
/// that where it bites.
///
/// It speaks of the skin only: a case, cold work or lost carbon hide what is below.
/// Source: none; common practice of the trade.
#[must_use]
pub fn file_test(skates: bool) -> Outcome {
    let mut outcome = Outcome::open(Method::FileTest, Unit::RockwellC).named("file-hardness");
    if skates {
        outcome.low = Some(FILE_HRC);
    } else {
        outcome.high = Some(FILE_HRC);
    }
    outcome
}
