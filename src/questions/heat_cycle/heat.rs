//! What heats the joint that a heat cycle is asked of: a torch, mats or a coil, or a furnace.

use super::{Answers, Problem, shop};
use crate::engine::heat_cycle::{FlameShare, HeatedBy};
use crate::reference::Reference;

pub(super) const HEATED_BY: &str = "heating";
pub(super) const TORCH: &str = "torch";
pub(super) const MATS: &str = "mats";
const FURNACE: &str = "furnace";
/// What may heat.
pub(super) const SOURCES: &[&str] = &[TORCH, MATS, FURNACE];
/// Which of them are set to a temperature.
pub(super) const SET: &[&str] = &[MATS, FURNACE];
pub(super) const FUEL: &str = "fuel";
pub(super) const POWER: &str = "heating-power";
pub(super) const SET_C: &str = "set-temperature";
pub(super) const SHARE: &str = "flame-share";
pub(super) const FIRST_PART: &str = "first-part-minutes";

fn needed(given: &Answers, key: &'static str) -> Result<f64, Problem> {
    given.maybe_number(key).ok_or_else(|| Problem::Missing { keys: vec![key] })
}

/// What is told of it.
pub(super) fn heat(given: &Answers, reference: &Reference) -> Result<HeatedBy, Problem> {
    match given.maybe_choice(HEATED_BY) {
        Some(MATS) => {
            Ok(HeatedBy::Mats { power_w: needed(given, POWER)? * 1e3, set_c: needed(given, SET_C)? })
        }
        Some(FURNACE) => Ok(HeatedBy::Furnace { at_c: needed(given, SET_C)? }),
        _ => torch(given, reference),
    }
}

fn torch(given: &Answers, reference: &Reference) -> Result<HeatedBy, Problem> {
    let fuel_id = given.maybe_choice(FUEL).unwrap_or(shop::ACETYLENE);
    let fuel = reference.fuels.fuel(fuel_id).ok_or(Problem::WrongKind { key: FUEL })?;
    let share = match (given.maybe_number(SHARE), given.maybe_number(FIRST_PART)) {
        (Some(_), Some(_)) => return Err(Problem::OnlyOne { keys: vec![SHARE, FIRST_PART] }),
        (Some(share), None) => FlameShare::Known(share),
        (None, Some(minutes)) => FlameShare::FirstPart { minutes },
        (None, None) => FlameShare::NotKnown,
    };
    let fuel_w = needed(given, shop::FLOW.key)? * fuel.net_mj_per_m3 / 3.6 * 1e3;
    Ok(HeatedBy::Torch { fuel: fuel_id.to_owned(), fuel_w, share })
}
