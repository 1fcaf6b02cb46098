//! A new job: the plan on hand is copied with its heat cycle, off the screen's thread, and written down.

use std::sync::mpsc::{TryRecvError, channel};

use super::entry::Wrong;
use super::form;
use super::kept::LogKept;
use crate::app::rows::put;
use crate::app::{State, ui};
use crate::job::{Field, is_demo_called};
use crate::log::{Hand, JobEntry, PlanCopy};
use crate::questions::HEAT_CYCLE;
use crate::reference::embedded;
use crate::report::{CopyTyped, copy_of_job, range, tint_limits};
use crate::units::{self, Within};
use crate::words::Words;

/// Pieces of a batch.
const PIECES: Within = Within { low: 1.0, high: 1000.0 };
/// What a new job takes from its form.
const OF_FORM: [LogKept; 4] = [LogKept::Name, LogKept::Pieces, LogKept::Drawing, LogKept::Welder];

/// The plan on hand in one line; empty where there is none to weld by.
pub(super) fn plan_line(state: &State) -> String {
    let Some(planned) = state.planned_now() else { return String::new() };
    let pen = state.pen();
    let held = tint_limits(&pen, Some(&planned.plan)).held;
    let at = |at_c: f64| pen.show.temperature(at_c);
    let steels: Vec<String> = (0..planned.read.job.members.len())
        .map(|nth| crate::report::member_name(&pen, &planned.read.job, nth))
        .collect();
    let steels = pen.words.list(crate::words::List::Comma, &steels);
    match (held.minimum_c, held.maximum_c) {
        (Some(low_c), Some(high_c)) => {
            let range = range(&pen, &at(low_c).main, &at(high_c).main);
            pen.words.with("log-plan-line", &[("steels", &steels), ("range", &range)])
        }
        _ => pen.words.with("log-plan-line.none", &[("steels", &steels)]),
    }
}

/// How many pieces, or what is wrong with what is typed.
fn pieces(state: &State, wrong: &mut Wrong) -> u32 {
    let text = LogKept::Pieces.text(state);
    if text.trim().is_empty() {
        return 1;
    }
    let mark = state.show().typed_mark();
    mark.read(&text, |text| units::count(text, PIECES)).unwrap_or_else(|problem| {
        wrong.push((LogKept::Pieces, problem.say(&state.words)));
        1
    })
}

/// Fills the form.
pub(super) fn fill(adapter: &ui::LogAdapter<'_>, state: &State) {
    let mut wrong = Wrong::new();
    pieces(state, &mut wrong);
    let name = state.session(|session| session.job.get(Field::Name).unwrap_or_default().to_owned());
    put(&adapter.get_new_rows(), form::new_rows(state, &wrong, &name));
    adapter.set_plan_line(plan_line(state).into());
    let desk = state.log.borrow();
    adapter.set_new_problem(desk.new_problem.map(|key| state.word(key)).unwrap_or_default());
    adapter.set_working(desk.copying.is_some());
}

/// Begins to copy the plan on hand.
pub(super) fn begin(state: &State) {
    let mut wrong = Wrong::new();
    pieces(state, &mut wrong);
    if !wrong.is_empty() || state.log.borrow().copying.is_some() {
        return;
    }
    if state.planned_now().is_none() {
        state.log.borrow_mut().new_problem = Some("log-no-plan");
        return;
    }
    let prefix = format!("{}.", HEAT_CYCLE.name);
    let (job, units, own_steels, pairs) = state.session(|session| {
        let all = session.typed.iter().chain(&session.choices);
        let own = all.filter_map(|(key, text)| Some((key.strip_prefix(&prefix)?.to_owned(), text.clone())));
        let pairs: Vec<(String, String)> = own.filter(|(_, text)| !text.trim().is_empty()).collect();
        (session.job.with_units_written(session.units), session.units, session.own_steels.clone(), pairs)
    });
    let language = state.words.language();
    let mark = state.show().typed_mark();
    let (sender, copied) = channel();
    std::thread::spawn(move || {
        let words = Words::of(&language);
        words.write_in(units.scales());
        let typed = CopyTyped { units, units_stated: true, own_steels: &own_steels, mark };
        // Nobody may wait for it any more.
        let _ = sender.send(copy_of_job(embedded(), &words, &job, &pairs, typed).ok());
    });
    let mut desk = state.log.borrow_mut();
    desk.copying = Some(copied);
    desk.new_problem = None;
}

/// Takes in the copy, once it is made, and writes the job down. None where there is nothing new; else
/// whether the job is begun and open.
pub(super) fn hear(state: &State) -> Option<bool> {
    let copied = {
        let desk = state.log.borrow();
        match desk.copying.as_ref()?.try_recv() {
            Ok(copied) => copied,
            Err(TryRecvError::Empty) => return None,
            Err(TryRecvError::Disconnected) => None,
        }
    };
    state.log.borrow_mut().copying = None;
    let Some(plan) = copied else {
        state.log.borrow_mut().new_problem = Some("log-copy-lost");
        return Some(false);
    };
    Some(write(state, plan))
}

fn write(state: &State, plan: PlanCopy) -> bool {
    let typed = |kept: LogKept| kept.text(state).trim().to_owned();
    let own = plan.job.get(Field::Name).map(str::to_owned);
    let name = Some(typed(LogKept::Name)).filter(|name| !name.is_empty()).or(own);
    let name = name.unwrap_or_else(|| state.words.get("log-unnamed"));
    let entry = JobEntry {
        example: is_demo_called(&plan.job, &name),
        name,
        pieces: pieces(state, &mut Wrong::new()),
        drawing: typed(LogKept::Drawing),
        welder: typed(LogKept::Welder),
        note: String::new(),
        plan,
    };
    let mut desk = state.log.borrow_mut();
    let Some(logs) = desk.logs() else { return false };
    match logs.begin(Hand::now(logs.device()).begin_job(entry)) {
        Ok(open) => {
            desk.take(open);
            drop(desk);
            LogKept::forget_job(state);
            LogKept::set_all(state, &OF_FORM.map(|kept| (kept, None)));
            true
        }
        Err(error) => {
            desk.trouble = Some(error);
            false
        }
    }
}
