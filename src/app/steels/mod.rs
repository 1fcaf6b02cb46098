//! Which steel is it: search, browse, look, take. Search lists and never takes one.

pub(crate) mod certificate;
mod certificate_draft;
mod detail;
mod rows;
pub(crate) mod steel_id;
pub(crate) mod unmarked;
mod unmarked_end;
mod unmarked_rows;
mod unmarked_sketch;

use std::rc::Rc;

use slint::{ComponentHandle, SharedString};

use self::rows::{View, browse, found};
use self::steel_id::SteelId;
use crate::app::calls::{calls, calls_plain};
use crate::app::form::question_steel;
use crate::app::open::toggle;
use crate::app::rows::model;
use crate::app::rows::put;
use crate::app::shell::{back, open_page, refresh_all};
use crate::app::{ChosenFor, Page, State, ui};
use crate::job::{Field, find_steel};

/// Wires the list.
pub(crate) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let adapter = window.global::<ui::SteelsAdapter>();
    adapter.set_entries(model(Vec::new()));
    adapter.on_query_edited(calls(window, state, |window, state, text: SharedString| {
        state.open.borrow_mut().steel_query = text.to_string();
        refresh(window, state);
    }));
    adapter.on_detail_toggled(calls(window, state, |window, state, id: SharedString| {
        {
            let mut open = state.open.borrow_mut();
            let shut = open.steel_detail.as_deref() == Some(id.as_str());
            open.steel_detail = if shut { None } else { Some(id.to_string()) };
        }
        refresh(window, state);
    }));
    adapter.on_group_toggled(calls(window, state, |window, state, id: SharedString| {
        toggle(&mut state.open.borrow_mut().steel_groups, &id);
        refresh(window, state);
    }));
    adapter
        .on_steel_chosen(calls(window, state, |window, state, id: SharedString| choose(window, state, &id)));
    adapter.on_certificate_asked(calls_plain(window, state, |window, state| {
        certificate::open(window, state, None);
    }));
    adapter.on_unmarked_asked(calls_plain(window, state, |window, state| {
        open_page(window, state, Page::Unmarked);
    }));
    adapter.on_edit_asked(calls(window, state, |window, state, id: SharedString| {
        if let SteelId::Own(name) = SteelId::read(&id) {
            certificate::open(window, state, Some(name));
        }
    }));
    adapter.on_delete_confirmed(calls(window, state, |window, state, id: SharedString| {
        if let SteelId::Own(name) = SteelId::read(&id) {
            certificate_draft::delete(state, name);
            state.open.borrow_mut().steel_detail = None;
            refresh_all(window, state);
        }
    }));
}

/// Is the list open above a certificate, to name its grade?
fn for_grade(state: &State) -> bool {
    let open = state.open.borrow();
    open.pages.iter().rev().nth(1).is_some_and(|below| *below == Page::Certificate)
}

fn choose(window: &ui::AppWindow, state: &State, id: &str) {
    if for_grade(state) {
        if let Some(grade) = state.reference.grade(id) {
            certificate_draft::set(state, "grade", &grade.id);
            back(window, state);
        }
        return;
    }
    state.take_steel(SteelId::read(id).typed());
    back(window, state);
}

/// Fills the list and the steel that is looked at.
pub(crate) fn refresh(window: &ui::AppWindow, state: &State) {
    let adapter = window.global::<ui::SteelsAdapter>();
    let for_grade = for_grade(state);
    let (query, groups, detail) = {
        let open = state.open.borrow();
        (open.steel_query.clone(), open.steel_groups.clone(), open.steel_detail.clone())
    };
    let own = if for_grade { Vec::new() } else { state.session(|session| session.own_steels.clone()) };
    let view = View { state, own, groups, detail, chosen: chosen(state, for_grade) };
    let mut entries = if query.trim().is_empty() { browse(&view) } else { found(&view, &query) };
    if for_grade {
        entries.retain(|entry| {
            !matches!(entry.kind, ui::SteelEntryKind::Certificate | ui::SteelEntryKind::Unmarked)
        });
    }
    adapter.set_query(query.as_str().into());
    adapter
        .set_detail(view.detail.as_deref().map_or_else(ui::SteelDetail::default, |id| detail_of(&view, id)));
    put(&adapter.get_entries(), entries);
}

/// The id of the steel that stands in the job, or in the certificate.
fn chosen(state: &State, for_grade: bool) -> String {
    let typed = if for_grade {
        certificate_draft::get(state, "grade")
    } else {
        let chosen_for = state.open.borrow().chosen_for;
        state.session(|session| match chosen_for {
            ChosenFor::Nth(nth) => session.job.get(Field::Steel.nth(nth)).unwrap_or_default().to_owned(),
            ChosenFor::Question(question) => question_steel::steel_of(session, question),
        })
    };
    let own = state.session(|session| {
        session
            .own_steels
            .iter()
            .find(|own| own.is_called(&typed))
            .map(|own| SteelId::Own(&own.name).to_string())
    });
    own.filter(|_| !for_grade)
        .or_else(|| find_steel(&typed, state.reference).ok().map(|grade| grade.id.clone()))
        .unwrap_or_default()
}

fn detail_of(view: &View<'_>, id: &str) -> ui::SteelDetail {
    let pen = view.state.pen();
    let found = match SteelId::read(id) {
        SteelId::Own(name) => {
            view.own.iter().find(|own| own.name == name).map(|own| detail::of_own(&pen, id, own))
        }
        SteelId::Grade(id) => view.state.reference.grade(id).map(|grade| detail::of_grade(&pen, grade)),
    };
    found.unwrap_or_default()
}
