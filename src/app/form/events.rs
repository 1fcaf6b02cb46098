//! What happens in a form goes to the place that owns the row; then what is shown is filled anew.

use std::rc::Rc;

use slint::{ComponentHandle, SharedString};

use super::question;
use super::question_steel::steel_asked;
use super::row_id::{Button, RowId};
use crate::app::calls::{calls, calls_pair};
use crate::app::log;
use crate::app::open::toggle;
use crate::app::plan::form_events;
use crate::app::shell::{keyboard_to, open_page, refresh_all, refresh_screen};
use crate::app::tint::kept::Kept;
use crate::app::tint::{form, photo, waited};
use crate::app::{ChosenFor, Page, State, ui};
use crate::job::{Field, Slot};

/// Wires every form.
pub(crate) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let events = window.global::<ui::FormEvents>();
    events.on_row_toggled(calls(window, state, |window, state, id: SharedString| {
        toggle(&mut state.open.borrow_mut().rows, &id);
        refresh_screen(window, state);
    }));
    events.on_field_edited(calls_pair(
        window,
        state,
        |window, state, id: SharedString, text: SharedString| {
            edited(state, &id, &text);
            refresh_screen(window, state);
        },
    ));
    events.on_field_committed(calls_pair(
        window,
        state,
        |window, state, id: SharedString, text: SharedString| {
            edited(state, &id, &text);
            if let Ok(RowId::Log(kept)) = id.parse() {
                log::events::committed(state, kept);
            }
            refresh_screen(window, state);
            if id.parse() == Ok(RowId::Tint(Kept::PhotoPath)) {
                photo::committed(window, state);
            }
        },
    ));
    events.on_choice_made(calls_pair(window, state, |window, state, id: SharedString, index: i32| {
        chosen(window, state, &id, usize::try_from(index).unwrap_or(0));
        refresh_screen(window, state);
    }));
    events.on_pick_asked(calls(window, state, |window, state, id: SharedString| picked(window, state, &id)));
    events.on_action_asked(calls(window, state, |window, state, id: SharedString| {
        let goes = match id.parse() {
            Ok(RowId::Button(button)) => {
                form_events::pressed(state, button);
                !matches!(button, Button::AddProcess)
            }
            Ok(RowId::Question(name)) => {
                question::clear(state, &name);
                true
            }
            _ => return,
        };
        if goes {
            // The button goes with its press, and the keyboard must not go with it.
            window.invoke_enter_page();
        }
        refresh_all(window, state);
    }));
}

/// A field was typed into.
fn edited(state: &State, id: &str, text: &str) {
    match id.parse() {
        Ok(RowId::Question(input)) => {
            question::typed(state, &input, text);
            form::coupon_touched(state, &input);
        }
        Ok(RowId::Tint(Kept::WaitTyped)) => waited::typed(state, text),
        Ok(RowId::Log(kept)) => log::events::typed(state, kept, text),
        Ok(RowId::Tint(kept)) => kept.type_in(state, Some(text.to_owned())),
        Ok(row) => form_events::field_typed(state, &row, text),
        Err(_) => {}
    }
}

/// A choice was made; a list that it was made in folds again.
fn chosen(window: &ui::AppWindow, state: &Rc<State>, id: &str, index: usize) {
    let Ok(row) = id.parse::<RowId>() else { return };
    let folded = row.folded().to_string();
    if state.open.borrow_mut().rows.remove(&folded) {
        keyboard_to(window, folded.into(), false);
    }
    match row {
        RowId::Question(input) => {
            question::chosen(state, &input, index);
            form::coupon_touched(state, &input);
        }
        RowId::Tint(Kept::PhotoReference) => photo::reference_chosen(window, state, index),
        RowId::Log(kept) => log::events::chosen(state, kept, index),
        RowId::Tint(kept) => form::chosen(state, kept, index),
        row => form_events::chosen(state, &row, index),
    }
}

/// What another page chooses opens that page; a list that is folded unfolds in place.
fn picked(window: &ui::AppWindow, state: &State, id: &str) {
    match id.parse() {
        Ok(RowId::Slot(Slot { field: field @ (Field::Steel | Field::Filler), nth })) => {
            state.open.borrow_mut().chosen_for = ChosenFor::Nth(nth);
            open_page(window, state, if field == Field::Steel { Page::Steels } else { Page::Fillers });
        }
        Ok(RowId::Question(input)) => {
            let Some(question) = steel_asked(&input) else { return };
            state.open.borrow_mut().chosen_for = ChosenFor::Question(question);
            open_page(window, state, Page::Steels);
        }
        Ok(RowId::Folded(list)) => {
            toggle(&mut state.open.borrow_mut().rows, id);
            let unfolded = state.open.borrow().rows.contains(id);
            let wanted = if unfolded { list.to_string() } else { id.to_owned() };
            // What unfolds or folds here takes the keyboard as it comes into being.
            keyboard_to(window, wanted.into(), false);
            refresh_screen(window, state);
        }
        _ => {}
    }
}
