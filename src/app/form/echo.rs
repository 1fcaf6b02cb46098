//! What was understood of a field, beside what was typed in it.

use crate::app::State;
use crate::job::{Field, Slot};
use crate::units::{self, Accepts, Problem, Show, TimeUnit, Within, limits};

/// Wide enough for whatever a temperature field takes: the field itself judges its limits.
const ANY_C: Within = Within::new(-200.0, 2000.0);

/// What was understood, in the units of the screen; none where that is what was typed anyway, or
/// where it can't be read.
pub(crate) fn echo(state: &State, slot: Slot, typed: &str) -> Option<String> {
    let (show, units) = (state.show(), state.show().units);
    let understood = match slot.field.accepts() {
        Accepts::Hydrogen if slot.field == Field::Hydrogen => {
            // A class means what it means to the process, which the plan knows.
            state.problem_of(slot).is_none().then_some(())?;
            show.hydrogen(state.planned_now()?.read.job.runs.get(slot.nth)?.hydrogen_ml)
        }
        Accepts::Condition => {
            show.temperature(units::temperature(typed, units.temperature, ANY_C).ok()?).main
        }
        _ => show.typed_mark().read(typed, |typed| said(show, slot.field, typed)).ok()??,
    };
    let plain = |text: &str| text.chars().filter(|sign| !sign.is_whitespace()).collect::<String>();
    let (same, figure) = (plain(&understood), understood.split('\u{a0}').next().unwrap_or_default());
    let as_typed = plain(&typed.replace(',', "."));
    let number = |text: &str| text.parse::<f64>().ok();
    let bare = number(&as_typed).is_some() && number(&as_typed) == number(&figure.replace(',', "."));
    (as_typed != same.replace(',', ".") && !bare)
        .then(|| state.words.with("form-understood", &[("figure", &understood)]))
}

/// A quantity as the screen writes it; none where a field takes none.
fn said(show: Show, field: Field, typed: &str) -> Result<Option<String>, Problem> {
    let units = show.units;
    Ok(Some(match field.accepts() {
        Accepts::Length => show.length(units::length(typed, units.length, limits::ANY_LENGTH_MM)?.mm).main,
        Accepts::RunLength => show.length(units::run_length(typed, units.length, limits::RUN_MM)?).main,
        Accepts::Temperature => show.temperature(units::temperature(typed, units.temperature, ANY_C)?).main,
        // A bare one is asked for its unit, which the screen must not answer in its place.
        Accepts::Strength if field == Field::Yield => {
            show.strength(units::stated_strength(typed, limits::STRENGTH_MPA)?).main
        }
        Accepts::Strength => show.strength(units::strength(typed, units.length, limits::STRENGTH_MPA)?).main,
        Accepts::Heat => show.heat(units::net_heat(typed, units.length, limits::NET_HEAT_KJ_PER_MM)?).main,
        Accepts::ArcEnergy => {
            show.heat(units::arc_energy(typed, units.length, limits::ARC_ENERGY_KJ_PER_MM)?).main
        }
        Accepts::ShortTime => {
            show.with_unit(units::duration(typed, TimeUnit::Seconds, limits::ARC_TIME_S)?, 0, "s")
        }
        _ => return Ok(None),
    }))
}

/// Does the text bring its own unit along? A bare number doesn't.
pub(crate) fn has_unit(typed: &str) -> bool {
    let bare = |sign: char| sign.is_ascii_digit() || ".,½¼¾⅛⅜⅝⅞".contains(sign);
    typed.trim().ends_with(|sign: char| !bare(sign))
}
