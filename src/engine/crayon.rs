//! Which two temperature crayons bracket a window?

use super::error::Domain;
use super::{EngineError, Outcome, Step, Unit};
use crate::reference::Method;
use crate::reference::tint::Crayons;

const LIMIT: Domain = Domain::new("T", 0.0, 700.0);

/// Two crayons: one must melt, the other must not.
#[derive(Debug, Clone, PartialEq)]
pub struct CrayonPair {
    /// The crayon that must melt, °C as marked.
    pub melts_c: f64,
    /// The crayon that must not melt, °C as marked.
    pub stays_c: f64,
    /// What the pair proves, its rating counted in, as a range inside the window.
    pub outcome: Outcome,
}

/// Which crayon must melt and which must not, so that the steel is surely in its window?
///
/// The lower is the first whose figure less its rating is not below the minimum, the upper
/// the last whose figure plus its rating is not above the maximum. A crayon that melts
/// says "at least"; one that stays says "less".
/// Source: the rows of `data/crayons.ron`.
///
/// # Errors
/// `crayon-window` where the maximum is below the minimum, `crayon-no-pair` where no two
/// steps fit the window, a limit that is not a number or outside 0 to 700 °C.
pub fn crayon_pair(crayons: &Crayons, minimum_c: f64, maximum_c: f64) -> Result<CrayonPair, EngineError> {
    LIMIT.check(minimum_c)?;
    LIMIT.check(maximum_c)?;
    if maximum_c < minimum_c {
        return Err(EngineError::NoAnswer { reason: "crayon-window" });
    }
    let share = crayons.rating_pct / 100.0;
    let lower = crayons.steps_c.iter().copied().find(|step| step * (1.0 - share) >= minimum_c);
    let upper = crayons.steps_c.iter().copied().rfind(|step| step * (1.0 + share) <= maximum_c);
    match lower.zip(upper) {
        Some((melts_c, stays_c)) if melts_c < stays_c => {
            let outcome = Outcome::open(Method::CrayonPair, Unit::Celsius)
                .resting_on(&crayons.basis)
                .spread(melts_c * (1.0 - share), stays_c * (1.0 + share))
                .worked(vec![
                    Step { symbol: "melts", value: melts_c, unit: Unit::Celsius },
                    Step { symbol: "stays", value: stays_c, unit: Unit::Celsius },
                    Step { symbol: "rating", value: crayons.rating_pct, unit: Unit::Percent },
                ]);
            Ok(CrayonPair { melts_c, stays_c, outcome })
        }
        _ => Err(EngineError::NoAnswer { reason: "crayon-no-pair" }),
    }
}
