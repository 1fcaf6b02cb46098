//! What surrounds every page: places, header, units, the way back.

use std::rc::Rc;

use slint::{ComponentHandle, Model};

use super::plan;
use super::plan::fillers;
use super::rows::model;
use super::safety;
use super::screen_values::choice;
use super::settings;
use super::settings::about;
use super::steels;
use super::steels::certificate;
use super::tint;
use super::{State, ui};
use crate::job::Theme;
use crate::units::Units;

/// Places in the order of the navigation: only those that work.
const PLACES: [&str; 3] = ["plan", "tint", "safety"];
/// Units offered in the header; the rest are in the settings.
const UNITS: [(Units, &str); 3] =
    [(Units::C_MM, "units-c-mm"), (Units::F_IN, "units-f-in"), (Units::F_MM, "units-f-mm")];

/// Wires the shell.
pub(super) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let shell = window.global::<ui::Shell>();
    shell.on_place_chosen({
        let (weak, state) = (window.as_weak(), state.clone());
        move |place| {
            let window = weak.upgrade().expect("the window calls while it lives");
            {
                let mut open = state.open.borrow_mut();
                open.pages.clear();
                open.basis = None;
            }
            state.change(|session| session.place = place.to_string());
            refresh_all(&window, &state);
        }
    });
    shell.on_settings_asked({
        let (weak, state) = (window.as_weak(), state.clone());
        move || open_page(&weak.upgrade().expect("the window calls while it lives"), &state, "settings")
    });
    shell.on_back_asked({
        let (weak, state) = (window.as_weak(), state.clone());
        move || back(&weak.upgrade().expect("the window calls while it lives"), &state)
    });
    shell.on_unit_picked({
        let (weak, state) = (window.as_weak(), state.clone());
        move |index| {
            let window = weak.upgrade().expect("the window calls while it lives");
            // One button on a phone asks for the next; a choice on a desktop says which.
            let next =
                usize::try_from(index).ok().and_then(|index| UNITS.get(index)).map(|(units, _)| *units);
            let units = next.unwrap_or_else(|| next_units(state.session(|session| session.units)));
            set_units(&window, &state, units);
        }
    });
    shell.on_notice_seen({
        let state = state.clone();
        move || state.tell(String::new())
    });
    state.on_notice({
        let weak = window.as_weak();
        move |notice| {
            if let Some(window) = weak.upgrade() {
                window.global::<ui::Shell>().set_notice(notice.into());
            }
        }
    });
    shell.on_leave(|| {
        // Leaving loses nothing: every change is saved as it is made.
        let _ = slint::quit_event_loop();
    });
}

fn next_units(units: Units) -> Units {
    let at = UNITS.iter().position(|(known, _)| *known == units).map_or(0, |at| at + 1);
    UNITS[at % UNITS.len()].0
}

/// Changes the units everywhere at once. A bare number keeps the unit that it was typed in.
pub(super) fn set_units(window: &ui::AppWindow, state: &State, units: Units) {
    state.change(|session| session.switch_units(units));
    let texts = window.global::<ui::I18n>();
    texts.set_rev(texts.get_rev() + 1);
    refresh_all(window, state);
}

/// Opens a page above the place.
pub fn open_page(window: &ui::AppWindow, state: &State, page: &str) {
    {
        let mut open = state.open.borrow_mut();
        if open.pages.last().is_none_or(|top| top != page) {
            open.pages.push(page.to_owned());
            // A list is opened to look for something new.
            match page {
                "steels" => {
                    open.steel_query.clear();
                    open.steel_detail = None;
                }
                "fillers" => open.filler_query.clear(),
                _ => {}
            }
        }
    }
    refresh_all(window, state);
}

/// One page back.
pub fn back(window: &ui::AppWindow, state: &State) {
    let left = state.open.borrow_mut().pages.pop();
    // Where the page was asked for.
    let pick = match left.as_deref() {
        Some("steels") if state.open.borrow().steel_for_b => "steel-b",
        Some("steels") => "steel-a",
        Some("fillers") => "filler",
        _ => "",
    };
    window.global::<ui::Wanted>().set_id(pick.into());
    refresh_all(window, state);
}

/// Fills every model anew: after a change of units, language, theme or page.
pub fn refresh_all(window: &ui::AppWindow, state: &State) {
    refresh(window, state);
    refresh_shown(window, state);
}

/// Fills what is on the screen, and the plan, which other pages lead back to.
pub(super) fn refresh_shown(window: &ui::AppWindow, state: &State) {
    plan::refresh(window, state);
    match shown_page(state).as_str() {
        "tint" => tint::refresh(window, state),
        "steels" => steels::refresh(window, state),
        "certificate" => certificate::refresh(window, state),
        "fillers" => fillers::refresh(window, state),
        "safety" => safety::refresh(window, state),
        "settings" => settings::refresh(window, state),
        "about" => about::refresh(window, state),
        _ => {}
    }
}

/// The page on the screen: the one opened last, or the place.
fn shown_page(state: &State) -> String {
    let top = state.open.borrow().pages.last().cloned();
    top.unwrap_or_else(|| state.session(|session| known_place(&session.place).to_owned()))
}

/// The place of that name; the first where there is none.
fn known_place(kept: &str) -> &'static str {
    // A session that was kept under an older name of the place.
    let kept = if kept == "care" { "safety" } else { kept };
    PLACES.into_iter().find(|place| *place == kept).unwrap_or(PLACES[0])
}

fn refresh(window: &ui::AppWindow, state: &State) {
    let shell = window.global::<ui::Shell>();
    let (place, units, theme, name) = state.session(|session| {
        let place = known_place(&session.place).to_owned();
        (place, session.units, session.theme, session.job.name.clone().unwrap_or_default())
    });
    let top = state.open.borrow().pages.last().cloned();
    let page = top.clone().unwrap_or_else(|| place.clone());
    let places: Vec<ui::PlaceRow> = PLACES
        .iter()
        .map(|id| ui::PlaceRow { id: (*id).into(), label: state.word(&format!("place-{id}")) })
        .collect();
    // New rows would be new controls, and the one that has the keyboard would lose it.
    if !shell.get_places().iter().eq(places.iter().cloned()) {
        shell.set_places(model(places));
    }
    let title = if page == "plan" && !name.is_empty() {
        name.into()
    } else if top.is_some() {
        state.word(&format!("page-{page}"))
    } else {
        state.word(&format!("place-{page}"))
    };
    shell.set_title(title);
    shell.set_place(place.into());
    if shell.get_page() != page.as_str() {
        shell.set_page(page.into());
        window.invoke_enter_page();
    }
    shell.set_can_go_back(top.is_some());
    let choices: Vec<ui::ChoiceRow> =
        UNITS.iter().map(|(units, key)| choice(units.id(), state.word(key), "", "")).collect();
    if !shell.get_unit_choices().iter().eq(choices.iter().cloned()) {
        shell.set_unit_choices(model(choices));
    }
    let chosen = UNITS.iter().position(|(known, _)| *known == units);
    shell.set_unit_chosen(chosen.and_then(|at| i32::try_from(at).ok()).unwrap_or(-1));
    shell.set_units(state.word(&format!("units-{}", units.id())));
    window.global::<ui::Theme>().set_look(match theme {
        Theme::System => ui::Look::System,
        Theme::Dark => ui::Look::Dark,
        Theme::Light => ui::Look::Light,
    });
}
