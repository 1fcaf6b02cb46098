//! What can hurt me now: cautions by what the person is about to do.

use std::rc::Rc;

use slint::{ComponentHandle, SharedString};

use crate::app::calls::{calls, calls_plain};
use crate::app::rows::put;
use crate::app::rows::{Row, model};
use crate::app::screen_values::caution;
use crate::app::state::{flip, toggle};
use crate::app::{State, ui};
use crate::reference::{Caution, Place, Severity};
use crate::report::{CautionLine, caution_line};

/// The topic of what to do when it has happened.
const FIRST_AID: &str = "first-aid";

/// Wires the place.
pub(crate) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let adapter = window.global::<ui::SafetyAdapter>();
    adapter.set_places(model(Vec::new()));
    adapter.set_found(model(Vec::new()));
    adapter.set_first_aid(ui::SafetyPlace { rows: model(Vec::new()), ..ui::SafetyPlace::default() });
    adapter.on_query_edited(calls(window, state, |window, state, text: SharedString| {
        state.open.borrow_mut().safety_query = text.to_string();
        refresh(window, state);
    }));
    adapter.on_place_toggled(calls(window, state, |window, state, id: SharedString| {
        toggle(&mut state.open.borrow_mut().safety_places, &id);
        refresh(window, state);
    }));
    adapter.on_first_aid_toggled(calls_plain(window, state, |window, state| {
        flip(&mut state.open.borrow_mut().first_aid);
        refresh(window, state);
    }));
    adapter.on_caution_toggled(calls(window, state, |window, state, id: SharedString| {
        toggle(&mut state.open.borrow_mut().safety_cautions, &id);
        refresh(window, state);
    }));
}

/// Fills the place.
pub(crate) fn refresh(window: &ui::AppWindow, state: &State) {
    let adapter = window.global::<ui::SafetyAdapter>();
    let query = state.open.borrow().safety_query.clone();
    let places = Place::ALL
        .iter()
        .copied()
        .map(|place| {
            let open = state.open.borrow().safety_places.contains(place.id());
            let cautions = sorted(state, |caution| caution.places.contains(&place));
            heading(state, place.id(), &format!("safety-place-{}", place.id()), open, &cautions)
        })
        .collect();
    put(&adapter.get_places(), places);
    let aid = sorted(state, |caution| caution.topic == FIRST_AID);
    let open = state.open.borrow().first_aid;
    let mut aid = heading(state, FIRST_AID, "safety-first-aid", open, &aid);
    aid.adopt(&adapter.get_first_aid());
    adapter.set_first_aid(aid);
    let found = if query.trim().is_empty() { Vec::new() } else { search(state, &query) };
    adapter.set_found_note(found_note(state, &query, found.len()));
    put(&adapter.get_found(), found);
    // A query of nothing but space looks for nothing.
    adapter.set_query(if query.trim().is_empty() { "".into() } else { query.as_str().into() });
}

/// Cautions, the worst first.
fn sorted(state: &State, wanted: impl Fn(&Caution) -> bool) -> Vec<&'static Caution> {
    let mut found: Vec<&'static Caution> =
        state.reference.cautions.iter().filter(|caution| wanted(caution)).collect();
    found.sort_by_key(|caution| caution.severity);
    found
}

fn heading(state: &State, id: &str, label: &str, open: bool, cautions: &[&Caution]) -> ui::SafetyPlace {
    let critical = cautions.iter().filter(|caution| caution.severity == Severity::Critical).count();
    let rows = if open { rows(state, cautions) } else { Vec::new() };
    ui::SafetyPlace {
        id: id.into(),
        label: state.word(label),
        criticals: if critical == 0 {
            "".into()
        } else {
            state.words.count("safety-critical", critical, &[]).into()
        },
        count: state.words.count("safety-count", cautions.len(), &[]).into(),
        open,
        rows: model(rows),
    }
}

fn rows(state: &State, cautions: &[&Caution]) -> Vec<ui::CautionRow> {
    let pen = state.pen();
    let open = state.open.borrow();
    cautions
        .iter()
        .map(|one| caution(&caution_line(&pen, one), open.safety_cautions.contains(&one.id)))
        .collect()
}

/// The cautions in whose words every word of the query stands, the worst first.
fn search(state: &State, query: &str) -> Vec<ui::CautionRow> {
    let pen = state.pen();
    let asked: Vec<String> = query.to_lowercase().split_whitespace().map(str::to_owned).collect();
    let found = sorted(state, |caution| {
        let CautionLine { title, why, do_this, .. } = caution_line(&pen, caution);
        let trigger = state.words.get(&format!("{}.trigger", caution.message()));
        // Further words that it is looked for by, where it has any.
        let key = format!("{}.words", caution.message());
        let more = if state.words.has(&key) { state.words.get(&key) } else { String::new() };
        let words = [title, trigger, why, do_this, more].join(" ").to_lowercase();
        asked.iter().all(|word| words.contains(word))
    });
    rows(state, &found)
}

fn found_note(state: &State, query: &str, count: usize) -> SharedString {
    let key = if count == 0 { "safety-found-none" } else { "safety-found" };
    state.words.count(key, count, &[("query", query.trim())]).into()
}
