//! What surrounds every page: places, header, units, the way back.

use std::rc::Rc;

use slint::{ComponentHandle, Model, SharedString};

use super::calls::{calls, calls_plain};
use super::form::question_steel::steel_key;
use super::form::row_id::RowId;
use super::open::UnmarkedAt;
use super::rows::model;
use super::screen_values::{choice, picked, place_of};
use super::{ChosenFor, Page, State, ui};
use crate::job::{Controls, Field, Session, Theme};
use crate::units::Units;

/// Units offered in the header; the rest are in the settings.
const UNITS: [(Units, &str); 3] =
    [(Units::C_MM, "units-c-mm"), (Units::F_IN, "units-f-in"), (Units::F_MM, "units-f-mm")];

/// The list of questions, as the control that takes the keyboard.
const BENCH_LIST: &str = "bench-list";

/// Wires the shell.
pub(super) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let shell = window.global::<ui::Shell>();
    shell.on_place_chosen(calls(window, state, |window, state, place: SharedString| {
        {
            let mut open = state.open.borrow_mut();
            open.pages.clear();
            open.basis = None;
        }
        state.change(|session| session.place = place.to_string());
        refresh_all(window, state);
    }));
    shell.on_settings_asked(calls_plain(window, state, |window, state| {
        open_page(window, state, Page::Settings);
    }));
    window.global::<ui::Wanted>().on_rest(calls_plain(window, state, |window, _| {
        window.invoke_enter_page();
    }));
    shell.on_back_asked(calls_plain(window, state, |window, state| back(window, state)));
    shell.on_unit_picked(calls(window, state, |window, state, index: i32| {
        if let Some((units, _)) = picked(&UNITS, index) {
            set_units(window, state, units);
        }
    }));
    shell.on_notice_seen({
        let state = state.clone();
        move || state.tell(|_| String::new())
    });
    state.on_notice({
        let weak = window.as_weak();
        move |notice| {
            if let Some(window) = weak.upgrade() {
                window.global::<ui::Shell>().set_notice(notice.into());
            }
        }
    });
    state.on_saving({
        let weak = Rc::downgrade(state);
        move || {
            if let Some(state) = weak.upgrade() {
                state.hear_saver();
            }
        }
    });
    state.on_news({
        let (weak, heard) = (window.as_weak(), Rc::downgrade(state));
        move || {
            if let (Some(window), Some(state)) = (weak.upgrade(), heard.upgrade())
                && state.hear_news()
            {
                say_anew(&window, &state);
            }
        }
    });
    shell.on_leave(|| {
        // Leaving loses nothing: what is not yet on the disk is written when the window is shut.
        let _ = slint::quit_event_loop();
    });
}

/// A job of the log by its name, a piece by its number.
fn log_title(state: &State, page: Page) -> Option<String> {
    let desk = state.log.borrow();
    match page {
        Page::LogEntry if desk.logs_trial() => Some(state.words.get("log-trial-new")),
        Page::LogPiece | Page::LogEntry => {
            let number = desk.piece_number()?.to_string();
            Some(state.words.with("log-piece-title", &[("number", &number)]))
        }
        Page::LogJob => {
            let (name, example) = desk.job_name()?;
            Some(if example { state.words.with("log-example", &[("name", &name)]) } else { name })
        }
        _ => None,
    }
}

/// Changes the units everywhere at once. A bare number keeps the unit that it was typed in.
pub(super) fn set_units(window: &ui::AppWindow, state: &State, units: Units) {
    state.change(|session| session.switch_units(units));
    say_anew(window, state);
}

/// Says everything anew: the units or the language have changed.
pub(super) fn say_anew(window: &ui::AppWindow, state: &State) {
    let texts = window.global::<ui::I18n>();
    texts.set_rev(texts.get_rev() + 1);
    state.tell_anew();
    refresh_all(window, state);
}

/// Opens a page above the place.
pub fn open_page(window: &ui::AppWindow, state: &State, page: Page) {
    {
        let mut open = state.open.borrow_mut();
        if open.pages.last() != Some(&page) {
            open.pages.push(page);
            // A list is opened to look for something new.
            match page {
                Page::Steels => {
                    open.steel_query.clear();
                    open.steel_detail = None;
                }
                Page::Fillers => open.filler_query.clear(),
                // What came of the last visit is read by now.
                Page::Settings => open.settings_reset = false,
                // A test goes on where it was left.
                Page::Unmarked => open.unmarked_at = UnmarkedAt::First,
                _ => {}
            }
        }
    }
    refresh_all(window, state);
}

/// One page back.
pub fn back(window: &ui::AppWindow, state: &State) {
    let left = state.open.borrow_mut().pages.pop();
    if left == Some(Page::Welcome) {
        state.change(Session::end_welcome);
    }
    // Where the page was asked for.
    let chosen_for = state.open.borrow().chosen_for;
    let wanted = match (left, chosen_for) {
        (Some(Page::Steels), ChosenFor::Nth(nth)) => RowId::of(Field::Steel.nth(nth)).to_string(),
        (Some(Page::Steels), ChosenFor::Question(question)) => {
            RowId::Question(steel_key(question)).to_string()
        }
        (Some(Page::Question), _) => BENCH_LIST.to_owned(),
        (Some(Page::Fillers), ChosenFor::Nth(nth)) => RowId::of(Field::Filler.nth(nth)).to_string(),
        _ => String::new(),
    };
    keyboard_to(window, wanted.into(), true);
    refresh_all(window, state);
}

/// The keyboard goes on at a control: as that comes into being, or `later`, once its page has its place.
pub(super) fn keyboard_to(window: &ui::AppWindow, id: SharedString, later: bool) {
    let wanted = window.global::<ui::Wanted>();
    wanted.set_later(later);
    wanted.set_id(id);
}

/// Fills every model anew: after a change of units, language, theme or page.
pub fn refresh_all(window: &ui::AppWindow, state: &State) {
    refresh(window, state);
    refresh_screen(window, state);
}

/// Fills what is on the screen, and the plan, which other pages lead back to.
pub(super) fn refresh_screen(window: &ui::AppWindow, state: &State) {
    state.fill(window, Page::Plan);
    let page = state.page();
    if page != Page::Plan {
        state.fill(window, page);
    }
    state.log.borrow_mut().light(page, state.reference);
}

fn refresh(window: &ui::AppWindow, state: &State) {
    let shell = window.global::<ui::Shell>();
    let (text_size, controls) = state.session(|session| (session.text_size, session.controls));
    let (place, units, theme, name) = state.session(|session| {
        let name = session.job.get(Field::Name).unwrap_or_default().to_owned();
        (Page::place(&session.place), session.units, session.theme, name)
    });
    let page = state.page();
    let places: Vec<ui::PlaceRow> = Page::PLACES
        .iter()
        .map(|place| ui::PlaceRow { id: place.id().into(), label: state.word(&place.title()) })
        .collect();
    // New rows would be new controls, and the one that has the keyboard would lose it.
    if !shell.get_places().iter().eq(places.iter().cloned()) {
        shell.set_places(model(places));
    }
    let named = page == Page::Plan && !name.is_empty();
    // A question bears the name of its part of the work; the page itself says what is asked.
    let work = state.open.borrow().question.filter(|_| page == Page::Question).map(|asked| asked.work);
    let log = log_title(state, page);
    shell.set_title(match work {
        None if log.is_some() => log.unwrap_or_default().into(),
        Some(work) => state.word(&format!("work-{}", work.id())),
        None if named => name.into(),
        None => state.word(&page.title()),
    });
    shell.set_place(place.id().into());
    if shell.get_page() != page.id() {
        shell.set_page(page.id().into());
        window.invoke_enter_page();
    }
    shell.set_can_go_back(!state.open.borrow().pages.is_empty());
    let choices: Vec<ui::ChoiceRow> =
        UNITS.iter().map(|(units, key)| choice(units.id(), state.word(key), "", "")).collect();
    if !shell.get_unit_choices().iter().eq(choices.iter().cloned()) {
        shell.set_unit_choices(model(choices));
    }
    let chosen = UNITS.iter().position(|(known, _)| *known == units);
    shell.set_unit_chosen(place_of(chosen));
    shell.set_units(state.word(&format!("units-{}", units.id())));
    window.global::<ui::Theme>().set_look(match theme {
        Theme::System => ui::Look::System,
        Theme::Dark => ui::Look::Dark,
        Theme::Light => ui::Look::Light,
    });
    window.global::<ui::Asked>().set_text(f32::from(text_size.percent()) / 100.0);
    window.global::<ui::Asked>().set_gloves(controls == Controls::Gloves);
}
