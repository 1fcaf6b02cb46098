//! The page on which a reading is typed: its keys, and what the figure says so far.

use slint::SharedString;

use super::entry::{Draft, Taken, With, Wrong, with_draft};
use super::form;
use super::kept::{LogKept, TYPED};
use super::piece::verdict_sign;
use crate::app::rows::{model, put};
use crate::app::screen_values::place_of;
use crate::app::{State, ui};
use crate::engine::reading::judge;
use crate::report::{band_words, reading_reasons, verdict_words, when_words};
use crate::units::TemperatureUnit;
use crate::words::List;

/// So far a plus and a minus key go.
const STEP_C: f64 = 5.0;
const STEP_F: f64 = 10.0;
/// No instrument shows more letters.
const LETTERS: usize = 14;

fn step(unit: TemperatureUnit) -> f64 {
    if unit == TemperatureUnit::F { STEP_F } else { STEP_C }
}

/// Fills the page; it keeps what is shown where no job is open.
pub(super) fn fill(adapter: &ui::LogAdapter<'_>, state: &State) {
    let of_trial = state.log.borrow().of_trial;
    adapter.set_of_trial(of_trial);
    with_draft(state, |draft| {
        fill_figure(adapter, draft);
        let mut wrong = Wrong::new();
        let taken = draft.taken(&mut wrong);
        fill_said(adapter, draft, of_trial, taken.as_ref(), &wrong);
        let mut rows = Vec::new();
        if draft.with() == With::Colour {
            rows.push(form::colour_part(draft));
        }
        if of_trial {
            rows.push(form::trial_row(state));
        }
        // An empty figure is no fault of the rest.
        rows.extend(form::entry_rows(draft, &wrong));
        put(&adapter.get_entry_rows(), rows);
    });
}

fn fill_figure(adapter: &ui::LogAdapter<'_>, draft: &Draft<'_>) {
    let (state, with, unit) = (draft.state, draft.with(), draft.unit());
    let show = state.show();
    let moment = [when_words(&state.pen(), draft.when()), {
        let at = draft.at().unwrap_or(draft.now);
        super::entry::time_words(state, at, draft.now)
    }];
    adapter.set_entry_moment(state.words.list(List::Comma, &moment).into());
    let text = draft.field().text(state);
    let read_c = draft.read_c(&text).ok();
    let second = read_c.map(|at_c| {
        let other = unit.other();
        show.with_unit(other.from_c(at_c).round(), 0, other.symbol())
    });
    adapter.set_second(second.unwrap_or_default().into());
    adapter.set_typed(text.into());
    adapter.set_unit(unit.symbol().into());
    adapter.set_other_unit(unit.other().symbol().into());
    adapter.set_by_keys(with != With::Colour);
    adapter.set_decimal(SharedString::from(show.mark.to_string()));
    let by = show.number(step(unit), 0);
    adapter.set_up(state.words.with("log-key-up", &[("step", &by)]).into());
    adapter.set_down(state.words.with("log-key-down", &[("step", &by)]).into());
    let last = draft.before.shown_c.map(|at_c| show.number(unit.from_c(at_c), 1));
    adapter.set_last_shown(last.unwrap_or_default().into());
    let parts = if draft.plan.members.len() > 1 { form::part_choices(draft) } else { Vec::new() };
    if !adapter_has(&adapter.get_parts(), &parts) {
        adapter.set_parts(model(parts));
    }
    adapter.set_part(place_of(draft.part().and_then(|nth| usize::try_from(nth).ok())));
    let ways = form::way_choices(state, with);
    if !adapter_has(&adapter.get_ways(), &ways) {
        adapter.set_ways(model(ways));
    }
    adapter.set_way(if draft.way_open() { -1 } else { i32::from(draft.second_way()) });
}

/// It was said whether the crayon melted, or when a colour was looked at. A figure that was typed before goes
/// to what was chosen.
pub(super) fn way_picked(state: &State, second: bool) {
    let way = Some(if second { "second" } else { "first" });
    let typed = with_draft(state, |draft| draft.way_open() && second).unwrap_or_default();
    match LogKept::Shows.get(state).filter(|_| typed) {
        Some(figure) => LogKept::set_all(
            state,
            &[(LogKept::Way, way), (LogKept::Shows, None), (LogKept::Stayed, Some(&figure))],
        ),
        None => LogKept::Way.set(state, way),
    }
}

/// Does a model show these already? New rows would be new controls.
fn adapter_has(shown: &slint::ModelRc<ui::ChoiceRow>, fresh: &[ui::ChoiceRow]) -> bool {
    slint::Model::iter(shown).eq(fresh.iter().cloned())
}

fn fill_said(
    adapter: &ui::LogAdapter<'_>,
    draft: &Draft<'_>,
    of_trial: bool,
    taken: Option<&Taken>,
    wrong: &Wrong,
) {
    let (state, pen) = (draft.state, draft.state.pen());
    let at_field = wrong.iter().find(|(at, _)| matches!(at, LogKept::Shows | LogKept::Stayed));
    let problem = at_field.map(|(_, says)| says.clone()).unwrap_or_default();
    let (mut verdict, mut sign, mut said) = (String::new(), ui::LogSign::None, Vec::new());
    if let Some(taken) = taken {
        said.push(pen.words.with("log-entry-steel", &[("range", &band_words(&pen, &taken.band))]));
        if !of_trial {
            let judged = judge(&taken.band, draft.when(), &draft.plan.limits());
            verdict = verdict_words(&pen, judged.verdict);
            sign = verdict_sign(judged.verdict);
            let reasons = reading_reasons(&pen, draft.plan, &judged, draft.when(), &taken.band);
            said.extend(reasons);
        }
    }
    said.retain(|text| !text.is_empty());
    adapter.set_reasons(pen.words.list(List::Sentences, &said).into());
    adapter.set_verdict(verdict.into());
    adapter.set_sign(sign);
    adapter.set_problem(problem.as_str().into());
    let can_save = taken.is_some() && wrong.is_empty();
    adapter.set_can_save(can_save);
    let why = match wrong.iter().find(|(at, _)| at_field.is_none_or(|(bad, _)| bad != at)) {
        _ if can_save || !problem.is_empty() => String::new(),
        _ if draft.is_empty() => {
            let key = if draft.with() == With::Colour { "log-type-colour" } else { "log-type-first" };
            state.words.get(key)
        }
        Some((_, says)) => says.clone(),
        None => String::new(),
    };
    adapter.set_save_why(why.into());
}

/// A key of the pad was pressed.
pub(super) fn pressed(state: &State, key: &str) {
    let change = with_draft(state, |draft| {
        let (field, unit, show) = (draft.field(), draft.unit(), state.show());
        let text = field.text(state);
        let written = |at: f64| Some((field, Some(show.number(at, 1))));
        let last = draft.before.shown_c.map(|at_c| unit.from_c(at_c));
        match key {
            "erase" => {
                let mut text = text;
                text.pop();
                Some((field, Some(text)))
            }
            "last" => last.and_then(|at| written((at * 10.0).round() / 10.0)),
            "up" | "down" => {
                let by = if key == "up" { step(unit) } else { -step(unit) };
                let typed = draft.read_c(&text).ok().map(|at_c| unit.from_c(at_c));
                // A figure that can't be read stays as it is.
                let begin = match (typed, text.trim().is_empty()) {
                    (Some(at), _) => Some(at),
                    (None, true) => {
                        last.or_else(|| Some(unit.from_c(draft.plan.limits().minimum_c?).round()))
                    }
                    (None, false) => None,
                };
                begin.and_then(|at| written(((at + by) * 10.0).round() / 10.0))
            }
            "unit" => Some((LogKept::Unit, Some(unit_id(unit.other()).to_owned()))),
            sign if text.chars().count() < LETTERS => Some((field, Some(format!("{text}{sign}")))),
            _ => None,
        }
    });
    if let Some((kept, text)) = change.flatten() {
        stamp_unit(state);
        kept.set(state, text.as_deref());
    }
}

const fn unit_id(unit: TemperatureUnit) -> &'static str {
    match unit {
        TemperatureUnit::C => "c",
        TemperatureUnit::F => "f",
    }
}

/// A bare figure keeps the unit that it is typed in, whatever the window is switched to later.
fn stamp_unit(state: &State) {
    if LogKept::Unit.get(state).is_none()
        && let Some(unit) = with_draft(state, |draft| draft.unit())
    {
        LogKept::Unit.set(state, Some(&format!("{}{TYPED}", unit_id(unit))));
    }
}

/// The figure was typed on a keyboard.
pub(super) fn typed(state: &State, text: &str) {
    let field = with_draft(state, |draft| draft.field()).unwrap_or(LogKept::Shows);
    stamp_unit(state);
    field.set(state, Some(text));
}
