//! The temperature that is waited for: pulled along the strip, or typed beside it.

use slint::SharedString;

use super::ask::{Asked, asked};
use super::kept::Kept;
use crate::app::form::echo::has_unit;
use crate::app::{State, ui};
use crate::units::{self, TemperatureUnit, Within, tidy};

/// Coldest and hottest temperature that may be waited for, °C.
const WAITED_C: Within = Within::new(100.0, 600.0);

/// A step along the strip: 5 °C or 10 °F.
pub(super) fn step_k(state: &State) -> f64 {
    match state.show().units.temperature {
        TemperatureUnit::C => 5.0,
        TemperatureUnit::F => 10.0 / 1.8,
    }
}

/// A pull asks for the nearest round figure of the reader's unit.
pub(super) fn pulled(state: &State, celsius: f64) {
    let unit = state.show().units.temperature;
    let round = match unit {
        TemperatureUnit::C => 5.0,
        TemperatureUnit::F => 10.0,
    };
    let asked = (unit.from_c(celsius) / round).round() * round;
    exactly(state, unit.to_c(asked).clamp(WAITED_C.low, WAITED_C.high));
}

/// A temperature is asked for as it is.
pub(super) fn exactly(state: &State, celsius: f64) {
    let text = format!("{celsius}");
    // A pull that stays on one figure changes nothing, and saves nothing.
    let same = Kept::Wait.typed(state).as_ref() == Some(&text)
        && Kept::Asked.choice(state).as_deref() == Some("wait")
        && Kept::WaitTyped.typed(state).is_none();
    if !same {
        state.change(|session| {
            session.choices.insert(Kept::Asked.to_string(), "wait".to_owned());
            session.typed.insert(Kept::Wait.to_string(), text);
            session.typed.remove(&Kept::WaitTyped.to_string());
        });
    }
}

fn read(state: &State, text: &str) -> Result<f64, units::Problem> {
    let show = state.show();
    show.typed_mark().read(text, |text| units::temperature(text, show.units.temperature, WAITED_C))
}

/// The temperature was typed. What can't be read stays in its field, and asks nothing; an empty field
/// takes back what was asked in it.
pub(crate) fn typed(state: &State, text: &str) {
    let read = read(state, text).ok();
    let (asked, waited, typed) =
        (Kept::Asked.to_string(), Kept::Wait.to_string(), Kept::WaitTyped.to_string());
    state.change(|session| {
        if tidy(text).is_empty() {
            // What was pulled stands beside an empty field, and is not its own.
            if session.typed.remove(&typed).is_some() {
                session.typed.remove(&waited);
                session.choices.remove(&asked);
            }
            return;
        }
        session.typed.insert(typed, text.to_owned());
        if let Some(celsius) = read {
            session.choices.insert(asked, "wait".to_owned());
            session.typed.insert(waited, format!("{celsius}"));
        }
    });
}

/// Does something stand in the field that can't be read?
pub(super) fn is_unread(state: &State) -> bool {
    Kept::WaitTyped.typed(state).is_some_and(|text| read(state, &text).is_err())
}

/// The unit of a bare figure, or what was understood of a text that says its own.
fn end_of_field(state: &State, text: &str) -> SharedString {
    let unit = state.show().units.temperature;
    match read(state, text) {
        Ok(_) if text.trim().ends_with(unit.symbol()) => "".into(),
        Ok(celsius) if has_unit(text) => {
            let understood = state.show().temperature(celsius).main;
            state.words.with("form-understood", &[("figure", &understood)]).into()
        }
        _ => unit.symbol().into(),
    }
}

/// The field beside the strip.
pub(super) fn field(state: &State) -> ui::FieldRow {
    let unit = state.show().units.temperature;
    let now = match asked(state) {
        Some(Asked::Wait(celsius)) => Some(celsius),
        _ => None,
    };
    let shown = |celsius: f64| state.show().number(unit.from_c(celsius), 0);
    let typed = Kept::WaitTyped.typed(state);
    let (text, problem) = match typed.map(|text| (read(state, &text), text)) {
        None => (String::new(), String::new()),
        Some((Err(problem), text)) => (text, problem.say(&state.words)),
        // A bare figure that was typed in the other unit is written in this one.
        Some((Ok(celsius), text)) => match now {
            Some(now) if (now - celsius).abs() > 1e-6 => (shown(now), String::new()),
            _ => (text, String::new()),
        },
    };
    ui::FieldRow {
        id: Kept::WaitTyped.to_string().into(),
        label: state.word("tint-wait-field"),
        unit: end_of_field(state, &text),
        text: text.into(),
        hint: now.map(shown).unwrap_or_default().into(),
        problem: problem.into(),
        ..ui::FieldRow::default()
    }
}
