//! What was used up, beside what was estimated: told for the job or for one of its pieces, and taken back.

use std::rc::Rc;

use slint::{ComponentHandle, SharedString};

use super::desk::LogDesk;
use super::entry::Wrong;
use super::form::{alone, field};
use super::kept::LogKept;
use super::write::write;
use crate::app::calls::{calls, calls_plain};
use crate::app::form::parts::{list, plain_row};
use crate::app::form::row_id::RowId;
use crate::app::open::toggle;
use crate::app::rows::{model, put};
use crate::app::screen_values::choice;
use crate::app::shell::refresh_screen;
use crate::app::{State, ui};
use crate::log::{Entry, Id, Moment, PlanCopy, Standing, Thing, Used, UsedOf};
use crate::report::{Pen, day_and_time};
use crate::units::{LengthUnit, Within, mass, number};
use crate::words::List;

/// Amounts.
const AMOUNT: Within = Within { low: 1e-6, high: 1e6 };
/// What is written to the last thousandth.
const KILOGRAM: &str = "kg";
const OTHER: &str = "other";
const ALL: [LogKept; 5] =
    [LogKept::UsedWhat, LogKept::UsedName, LogKept::UsedAmount, LogKept::UsedUnit, LogKept::UsedPiece];

/// Wires it.
pub(super) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let adapter = window.global::<ui::LogUsed>();
    adapter.set_lines(model(Vec::new()));
    adapter.set_rows(model(Vec::new()));
    adapter.on_toggled(calls(window, state, |window, state, id: SharedString| {
        toggle(&mut state.open.borrow_mut().rows, &row_id(&id));
        refresh_screen(window, state);
    }));
    adapter.on_removed(calls(window, state, |window, state, id: SharedString| {
        if let Some(id) = Id::read(&id) {
            write(state, |standing, hand| {
                standing.used.iter().filter(|used| used.id == id).map(|used| hand.withdraw(used)).collect()
            });
        }
        refresh_screen(window, state);
    }));
    adapter.on_save_asked(calls_plain(window, state, |window, state| {
        save(state);
        refresh_screen(window, state);
    }));
}

fn row_id(id: &str) -> String {
    format!("log-used:{id}")
}

/// Fills what was used on the job that is open.
pub(super) fn fill(adapter: &ui::LogUsed<'_>, state: &State, desk: &LogDesk) {
    let standing = desk.open.as_ref().map(|open| open.log().standing());
    let Some((standing, job)) = standing.as_ref().and_then(|of| Some((of, of.job.as_ref()?))) else { return };
    let Some(overview) = standing.overview(state.reference, Moment::now()) else { return };
    let pen = state.pen();
    put(&adapter.get_lines(), overview.used.iter().map(|of| line(&pen, state, standing, of)).collect());
    let mut wrong = Wrong::new();
    let entry = entry(state, &job.now.plan, standing, &mut wrong);
    let row = form(state, &job.now.plan, standing, &wrong);
    adapter.set_open(row.open);
    adapter.set_can_save(entry.is_some());
    put(&adapter.get_rows(), vec![row]);
}

fn amount_words(pen: &Pen<'_>, amount: f64, unit: &str) -> String {
    let decimals = if unit == KILOGRAM { 3 } else { 2 };
    if unit.is_empty() {
        pen.show.number(amount, decimals)
    } else {
        pen.show.with_unit(amount, decimals, unit)
    }
}

fn line(pen: &Pen<'_>, state: &State, standing: &Standing<'_>, of: &UsedOf) -> ui::LogUsedLine {
    let amount = |amount: f64| amount_words(pen, amount, &of.unit);
    let told = if of.any_told { amount(of.told) } else { pen.words.get("log-used-none") };
    let value = match of.estimate {
        // An estimate is no finer than the card and the command line give it.
        Some(estimate) => {
            let estimate = pen.show.with_unit(estimate, 2, &of.unit);
            pen.words.with("log-used-of", &[("told", &told), ("estimate", &estimate)])
        }
        None => told,
    };
    let own = standing.used.iter().filter(|used| used.now.what == of.id && used.now.unit == of.unit);
    let id = if of.estimate.is_some() { of.id.clone() } else { format!("{} {}", of.id, of.unit) };
    ui::LogUsedLine {
        label: of.label.as_str().into(),
        value: value.into(),
        open: state.open.borrow().rows.contains(&row_id(&id)),
        entries: model(own.map(|used| told_entry(pen, standing, used)).collect()),
        id: id.into(),
    }
}

fn told_entry(pen: &Pen<'_>, standing: &Standing<'_>, used: &Thing<'_, Used>) -> ui::LogUsedEntry {
    let piece = used.now.piece.and_then(|of| standing.pieces.iter().find(|piece| piece.id == of));
    let whose = piece.map_or_else(
        || pen.words.get("log-used-job"),
        |piece| pen.words.with("log-piece-title", &[("number", &piece.now.number.to_string())]),
    );
    let amount = amount_words(pen, used.now.amount, &used.now.unit);
    let text = [amount, whose, day_and_time(pen, used.now.at), used.now.note.clone()];
    let text: Vec<String> = text.into_iter().filter(|text| !text.is_empty()).collect();
    ui::LogUsedEntry { id: used.id.to_string().into(), text: pen.words.list(List::Comma, &text).into() }
}

/// What is meant: a need of the plan, or something else.
fn what(state: &State, plan: &PlanCopy) -> String {
    let chosen = LogKept::UsedWhat.text(state);
    let known = chosen == OTHER || plan.needs.iter().any(|need| need.id == chosen);
    match plan.needs.first() {
        _ if known => chosen,
        Some(first) => first.id.clone(),
        None => OTHER.to_owned(),
    }
}

fn form(state: &State, plan: &PlanCopy, standing: &Standing<'_>, wrong: &Wrong) -> ui::FormRow {
    let what = what(state, plan);
    let need = plan.needs.iter().find(|need| need.id == what);
    let choices: Vec<ui::ChoiceRow> = whats(state, plan);
    let at = choices.iter().position(|row| row.id == what.as_str());
    let mut parts = Vec::new();
    if choices.len() > 1 {
        let id = RowId::Log(LogKept::UsedWhat);
        parts.push(list(state, &id, "log-used-what", "tool-choose", choices, at));
    }
    if need.is_none() {
        let name = field(state, LogKept::UsedName, "log-used-name", wrong);
        parts.push(alone(name));
    }
    let amount = field(state, LogKept::UsedAmount, "log-used-amount", wrong);
    parts.push(alone(ui::FieldRow {
        unit: need.map(|need| need.unit.as_str()).unwrap_or_default().into(),
        ..amount
    }));
    if need.is_none() {
        let unit = field(state, LogKept::UsedUnit, "log-used-unit", wrong);
        parts.push(alone(ui::FieldRow { hint: state.word("form-optional"), ..unit }));
    }
    let pieces = pieces(state, standing);
    let piece = LogKept::UsedPiece.text(state);
    let at = pieces.iter().position(|row| row.id == piece.as_str()).unwrap_or(0);
    let id = RowId::Log(LogKept::UsedPiece);
    parts.push(list(state, &id, "log-used-for", "tool-choose", pieces, Some(at)));
    let row = plain_row(state, "log-used", String::new(), parts);
    let problem = wrong.first().map(|(_, says)| says.clone()).unwrap_or_default();
    ui::FormRow { problem: problem.into(), ..row }
}

fn whats(state: &State, plan: &PlanCopy) -> Vec<ui::ChoiceRow> {
    let needs = plan.needs.iter().map(|need| choice(&need.id, need.label.as_str(), "", ""));
    needs.chain([choice(OTHER, state.word("log-used-other"), "", "")]).collect()
}

fn pieces(state: &State, standing: &Standing<'_>) -> Vec<ui::ChoiceRow> {
    let each = standing.pieces.iter().map(|piece| {
        let name = state.words.with("log-piece-title", &[("number", &piece.now.number.to_string())]);
        choice(&piece.id.to_string(), name, "", "")
    });
    [choice("", state.word("log-used-job"), "", "")].into_iter().chain(each).collect()
}

/// A choice was made in the form: the id that it stands for.
pub(super) fn chosen(state: &State, kept: LogKept, index: usize) -> Option<String> {
    let desk = state.log.borrow();
    let standing = desk.open.as_ref()?.log().standing();
    let plan = &standing.job.as_ref()?.now.plan;
    let rows = if kept == LogKept::UsedWhat { whats(state, plan) } else { pieces(state, &standing) };
    rows.get(index).map(|row| row.id.to_string())
}

/// What is typed as an entry; none where something is missing or wrong.
fn entry(state: &State, plan: &PlanCopy, standing: &Standing<'_>, wrong: &mut Wrong) -> Option<Used> {
    let what = what(state, plan);
    let need = plan.needs.iter().find(|need| need.id == what);
    let text = LogKept::UsedAmount.text(state);
    let text = text.trim();
    let amount = if text.is_empty() {
        None
    } else {
        // The unit stands in the field; another one of weight may be typed.
        let bare = number(text, AMOUNT);
        let read = match need {
            Some(need) if need.unit == KILOGRAM && bare.is_err() => mass(text, LengthUnit::Mm, AMOUNT),
            _ => bare,
        };
        read.map_err(|problem| wrong.push((LogKept::UsedAmount, problem.say(&state.words)))).ok()
    };
    let (name, unit) = match need {
        Some(need) => (need.id.clone(), need.unit.clone()),
        None => {
            let typed = |kept: LogKept| kept.text(state).trim().to_owned();
            (typed(LogKept::UsedName), typed(LogKept::UsedUnit))
        }
    };
    let piece = Id::read(&LogKept::UsedPiece.text(state));
    let piece = piece.filter(|id| standing.pieces.iter().any(|piece| piece.id == *id));
    let amount = amount.filter(|_| !name.is_empty())?;
    Some(Used { what: name, amount, unit, at: Moment::now(), piece, note: String::new() })
}

/// Writes down the amount that is typed.
fn save(state: &State) {
    let done = write(state, |standing, hand| {
        let Some(job) = &standing.job else { return Vec::new() };
        let entry = entry(state, &job.now.plan, standing, &mut Wrong::new());
        entry.map(|entry| hand.begin(Entry::Used(entry))).into_iter().collect()
    });
    if done {
        LogKept::set_all(state, &ALL.map(|kept| (kept, None)));
        state.open.borrow_mut().rows.remove("log-used");
    }
}
