//! The Bench: one small question at a time, in the order of the work.

mod chart;
mod chart_words;
mod curves;
mod fit_chart;
mod fit_picture;
pub(crate) mod kept;
mod list;
mod page;
mod push;
pub(crate) mod search;

use std::rc::Rc;

use slint::{ComponentHandle, SharedString};

use crate::app::calls::{calls, calls_plain};
use crate::app::form::question;
use crate::app::rows::model;
use crate::app::shell::{open_page, refresh_all};
use crate::app::{BasisOf, ChosenFor, Page, State, ui};
use crate::questions;

/// The question that has a guided page of its own.
const GUIDED: &str = "unmarked-steel";

/// Wires the place.
pub(crate) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let adapter = window.global::<ui::BenchAdapter>();
    adapter.set_entries(model(Vec::new()));
    adapter.set_inputs(model(Vec::new()));
    adapter.set_notes(model(Vec::new()));
    adapter.set_more(model(Vec::new()));
    adapter.set_pushes(model(Vec::new()));
    adapter.on_chart_words(|chart, width, height| {
        model(chart_words::places(&chart, f64::from(width), f64::from(height)))
    });
    adapter.on_query_edited(calls(window, state, |window, state, text: SharedString| {
        state.open.borrow_mut().bench_query = text.to_string();
        list::refresh(window, state);
    }));
    adapter.on_question_asked(calls(window, state, |window, state, name: SharedString| {
        let Some(asked) = questions::find(&name) else { return };
        // The steel of this test goes into a part of the job.
        if asked.name == GUIDED {
            state.open.borrow_mut().chosen_for = ChosenFor::default();
            open_page(window, state, Page::Unmarked);
            return;
        }
        state.open.borrow_mut().question = Some(asked);
        open_page(window, state, Page::Question);
    }));
    adapter.on_basis_asked(calls(window, state, |window, state, answer: SharedString| {
        state.open.borrow_mut().basis = Some(BasisOf::Answer(answer.to_string()));
        page::refresh(window, state);
    }));
    adapter.on_take_asked(calls_plain(window, state, |window, state| {
        let asked = state.open.borrow().question;
        if let Some(asked) = asked {
            question::take_from_plan(state, asked);
        }
        refresh_all(window, state);
    }));
    adapter.on_push_asked(calls(window, state, |window, state, id: SharedString| {
        push::pressed(state, &id);
        refresh_all(window, state);
    }));
}

/// Fills the list.
pub(crate) fn refresh(window: &ui::AppWindow, state: &State) {
    list::refresh(window, state);
}

/// Fills the page of the question that is open.
pub(crate) fn refresh_question(window: &ui::AppWindow, state: &State) {
    page::refresh(window, state);
}
