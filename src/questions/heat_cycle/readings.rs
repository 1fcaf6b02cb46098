//! Two readings on the joint, which say what it loses.

use crate::engine::two_readings::TwoReadings;
use crate::questions::{Answers, Problem};
use crate::reference::tint::TintData;

/// Two readings on the joint, and the minutes between them.
pub(super) const READINGS: [&str; 3] = ["first-reading", "second-reading", "minutes-between"];
/// What a reading on the joint is taken with: it touches the steel.
const READ_WITH: &str = "contact-probe";

/// The two readings on the joint: all three figures of them, or none.
pub(super) fn readings(given: &Answers, shop_c: f64) -> Result<Option<TwoReadings>, Problem> {
    let all = READINGS.map(|key| given.maybe_number(key));
    let [Some(first_c), Some(second_c), Some(minutes)] = all else {
        let open = READINGS.iter().zip(all).filter(|(_, value)| value.is_none());
        let keys: Vec<&'static str> = open.map(|(key, _)| *key).collect();
        return match keys.len() {
            3 => Ok(None),
            1 => Err(Problem::Missing { keys }),
            _ => Err(Problem::MissingSeveral { each: keys.into_iter().map(|key| vec![key]).collect() }),
        };
    };
    let off = |at_c: f64| TintData::embedded().off_k(READ_WITH, at_c).map(|(off_k, _)| off_k);
    let off = |at_c: f64| off(at_c).ok_or(Problem::WrongKind { key: READINGS[0] });
    let readings = TwoReadings { first_c, second_c, minutes, off_k: (off(first_c)?, off(second_c)?), shop_c };
    readings.check()?;
    Ok(Some(readings))
}
