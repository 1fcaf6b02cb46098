//! What can hurt me now: cautions by what the person is about to do.

use std::rc::Rc;

use slint::{ComponentHandle, SharedString};

use crate::app::calls::{calls, calls_plain};
use crate::app::open::{flip, toggle};
use crate::app::rows::put;
use crate::app::rows::{Row, model};
use crate::app::screen_values::caution;
use crate::app::{State, ui};
use crate::reference::{Caution, Place, Role, Severity};
use crate::report::{caution_line, cautions_with};

/// The id of the card of first aid.
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
    put(&adapter.get_places(), Place::ALL.iter().map(|place| heading(state, *place)).collect());
    let mut aid = first_aid(state);
    aid.adopt(&adapter.get_first_aid());
    adapter.set_first_aid(aid);
    let found = rows(state, &cautions_with(&state.pen(), &query));
    adapter.set_found_note(found_note(state, &query, found.len()));
    put(&adapter.get_found(), found);
    // A query of nothing but space looks for nothing.
    adapter.set_query(if query.trim().is_empty() { "".into() } else { query.as_str().into() });
}

/// What one is about to do, with its cautions: the worst first, then what kills sooner.
fn heading(state: &State, place: Place) -> ui::SafetyPlace {
    let mut cautions: Vec<&Caution> =
        state.reference.cautions.iter().filter(|caution| caution.places.contains(&place)).collect();
    cautions.sort_by_key(|caution| (caution.severity, caution.harm, caution.rank));
    let dangers = cautions.iter().filter(|caution| caution.severity == Severity::Danger).count();
    let open = state.open.borrow().safety_places.contains(place.id());
    let rows = if open { rows(state, &cautions) } else { Vec::new() };
    ui::SafetyPlace {
        id: place.id().into(),
        label: state.word(&format!("safety-place-{}", place.id())),
        criticals: if dangers == 0 {
            "".into()
        } else {
            state.words.count("safety-critical", dangers, &[]).into()
        },
        count: state.words.count("safety-count", cautions.len(), &[]).into(),
        open,
        rows: model(rows),
    }
}

/// The card of first aid, in its own order. Nothing is counted on it: it is no list of cautions.
fn first_aid(state: &State) -> ui::SafetyPlace {
    let mut aid: Vec<&Caution> =
        state.reference.cautions.iter().filter(|caution| caution.role == Role::FirstAid).collect();
    aid.sort_by_key(|caution| caution.rank);
    let open = state.open.borrow().first_aid;
    let rows = if open { rows(state, &aid) } else { Vec::new() };
    ui::SafetyPlace {
        id: FIRST_AID.into(),
        label: state.word("safety-first-aid"),
        criticals: "".into(),
        count: state.word("safety-first-aid-note"),
        open,
        rows: model(rows),
    }
}

fn rows(state: &State, cautions: &[&Caution]) -> Vec<ui::CautionRow> {
    let pen = state.pen();
    let open = state.open.borrow();
    cautions
        .iter()
        .map(|one| {
            let row = caution(&caution_line(&pen, one), open.safety_cautions.contains(&one.id));
            // What has happened needs no word of warning.
            let word = if one.role == Role::FirstAid { "".into() } else { row.word.clone() };
            ui::CautionRow { word, ..row }
        })
        .collect()
}

fn found_note(state: &State, query: &str, count: usize) -> SharedString {
    let key = if count == 0 { "safety-found-none" } else { "safety-found" };
    state.words.count(key, count, &[("query", query.trim())]).into()
}
