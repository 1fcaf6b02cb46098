//! A file that the person brings along: given on the command line, chosen on the desktop, or dropped on the
//! window. A job comes into the plan, a log is offered to be taken in, a photo is looked at in the Tint place.

use std::path::Path;
use std::rc::Rc;

use super::log::arrival as log;
use super::plan::begin as plan;
use super::tint::photo;
use super::{Page, State, ui};
use crate::app::shell::refresh_all;
use crate::log::Brought;

/// Opens a file in its place; what can't be opened is said above the page, and nothing changes.
pub fn open_with(window: &ui::AppWindow, state: &Rc<State>, file: &Path) {
    match Brought::read(file) {
        Ok(Brought::Job(job)) => {
            go_to(state, Page::Plan);
            plan::bring(window, state, *job);
        }
        Ok(Brought::Log) => {
            go_to(state, Page::Log);
            log::bring(state, file);
        }
        Ok(Brought::Photo) => {
            go_to(state, Page::Tint);
            photo::bring(window, state, file);
        }
        Err(problem) => {
            let path = file.display().to_string();
            state.tell(move |words| {
                words.with("brought-problem", &[("path", &path), ("why", &problem.say(words))])
            });
        }
    }
    refresh_all(window, state);
}

/// The place is on the screen, with no page above it.
fn go_to(state: &State, place: Page) {
    {
        let mut open = state.open.borrow_mut();
        open.pages.clear();
        open.basis = None;
    }
    state.change(|session| {
        session.place = place.id().to_owned();
        // Who brings a file begins with that.
        session.end_welcome();
    });
}
