//! What happens in a form goes to the place that owns the row; then what is shown is filled anew.

use std::rc::Rc;

use slint::{ComponentHandle, SharedString};

use super::parts::LIST;
use super::question;
use crate::app::page_rows::toggle;
use crate::app::plan::calls;
use crate::app::plan::form_events;
use crate::app::shell::{open_page, refresh_shown};
use crate::app::tint::form;
use crate::app::tint::photo;
use crate::app::{State, ui};

/// Wires every form.
pub(crate) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let events = window.global::<ui::FormEvents>();
    events.on_row_toggled(calls(window, state, |window, state, id: SharedString| {
        toggle(&mut state.open.borrow_mut().rows, &id);
        refresh_shown(window, state);
    }));
    let edited = calls(window, state, |window, state, (field, text): (SharedString, SharedString)| {
        if !question::typed(state, &field, &text) && !photo::typed(state, &field, &text) {
            form_events::field_typed(state, &field, &text);
        }
        refresh_shown(window, state);
    });
    let edited = Rc::new(edited);
    events.on_field_edited({
        let edited = edited.clone();
        move |field, text| edited((field, text))
    });
    let committed = calls(window, state, |window, state, field: SharedString| {
        photo::committed(window, state, &field);
    });
    events.on_field_committed(move |field, text| {
        edited((field.clone(), text));
        committed(field);
    });
    let chosen = calls(window, state, |window, state, (group, index): (SharedString, i32)| {
        let folded = format!("{LIST}{group}");
        if state.open.borrow_mut().rows.remove(&folded) {
            window.global::<ui::Wanted>().set_id(folded.into());
        }
        let index = usize::try_from(index).unwrap_or(0);
        let taken = question::chosen(state, &group, index)
            || form::choice_made(state, &group, index)
            || photo::choice_made(window, state, &group, index);
        if !taken {
            form_events::choice_made(state, &group, index);
        }
        refresh_shown(window, state);
    });
    events.on_choice_made(move |group, index| chosen((group, index)));
    events.on_pick_asked(calls(window, state, |window, state, part: SharedString| match part.as_str() {
        "filler" => open_page(window, state, "fillers"),
        "steel-a" | "steel-b" => {
            state.open.borrow_mut().steel_for_b = part == "steel-b";
            open_page(window, state, "steels");
        }
        // A list that is folded unfolds in place.
        list => {
            toggle(&mut state.open.borrow_mut().rows, list);
            let unfolded = state.open.borrow().rows.contains(list);
            let wanted = if unfolded { list.strip_prefix(LIST).unwrap_or(list) } else { list };
            window.global::<ui::Wanted>().set_id(wanted.into());
            refresh_shown(window, state);
        }
    }));
    events.on_action_asked(calls(window, state, |window, state, part: SharedString| {
        form_events::action_asked(state, &part);
        crate::app::refresh_all(window, state);
    }));
}
