//! Joint and restraint, as typed.

use super::{asked, not_understood, words_of};
use crate::engine::job::{Joint, Restraint};
use crate::units::{Accepts, Problem};

/// A joint as people write it: `butt`, `t both sides`, `lap`, `boss`, `shaft`, `repair`.
///
/// # Errors
/// A [`Problem`] if the words are not known, or leave it open (`fillet`: asked).
pub fn joint(text: &str) -> Result<Joint, Problem> {
    let words = words_of(text);
    let joined = words.join("-");
    if let Some(known) = Joint::ALL.into_iter().find(|joint| joint.id() == joined) {
        return Ok(known);
    }
    Ok(match words.join(" ").as_str() {
        "groove" | "butt weld" | "butt joint" | "groove weld" => Joint::Butt,
        "t one side" | "tee one side" | "fillet one side" | "t joint one side" | "one side" => {
            Joint::TFilletOneSide
        }
        "t both sides" | "tee both sides" | "fillet both sides" | "t joint both sides" | "both sides"
        | "double fillet" => Joint::TFilletBothSides,
        "lap joint" | "overlap" => Joint::Lap,
        "corner joint" => Joint::Corner,
        "boss" | "pin" | "boss through plate" | "pin through plate" | "boss in plate" | "pin through" => {
            Joint::BossThrough
        }
        "shaft" | "build up" | "buildup" | "run on a shaft" | "on shaft" => Joint::RunOnShaft,
        "cavity" | "crack" | "crack repair" => Joint::Repair,
        "bars" | "bar" | "round to round" | "bar butt" => Joint::BarToBar,
        "fillet" | "t" | "tee" | "t joint" | "tee joint" | "fillet weld" | "t fillet" => {
            return Err(asked(
                text,
                &[
                    ("t-fillet-one-side", "joint-means-one-side"),
                    ("t-fillet-both-sides", "joint-means-both-sides"),
                    ("lap", "joint-means-lap"),
                    ("boss-through", "joint-means-boss"),
                ],
            ));
        }
        _ => return Err(not_understood(text, Accepts::Joint)),
    })
}

/// Restraint as people write it: `low`, `medium`, `high`, and near words; `restraint-high`,
/// as a single question writes it, too.
///
/// # Errors
/// A [`Problem`] if the word is not known.
pub fn restraint(text: &str) -> Result<Restraint, Problem> {
    let words = words_of(text).join(" ");
    Ok(match words.strip_prefix("restraint ").unwrap_or(&words) {
        "low" | "free" | "free to move" | "none" => Restraint::Low,
        "medium" | "moderate" | "some" | "attached" => Restraint::Medium,
        "high" | "rigid" | "severe" | "clamped" | "almost no freedom" => Restraint::High,
        _ => return Err(not_understood(text, Accepts::Restraint)),
    })
}

/// Is it written in a way that may mean "low" as well as "nothing is stated"?
#[must_use]
pub fn restraint_is_none(text: &str) -> bool {
    words_of(text).join(" ") == "none"
}
