//! The first minute: language and units as the system is set, who decides, and where to begin.

use std::rc::Rc;

use slint::ComponentHandle;

use super::calls::calls_plain;
use super::plan::begin;
use super::shell::{back, open_page};
use super::{Page, State, settings, ui};
use crate::job::demo_job;

/// Wires the page.
pub(super) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let adapter = window.global::<ui::WelcomeAdapter>();
    adapter.on_example_asked(calls_plain(window, state, |window, state| {
        back(window, state);
        begin::bring(window, state, demo_job());
    }));
    adapter.on_own_asked(calls_plain(window, state, |window, state| back(window, state)));
}

/// Shows it where nobody has answered it yet.
pub(super) fn greet(window: &ui::AppWindow, state: &State) {
    if state.session(crate::job::Session::is_to_be_welcomed) {
        open_page(window, state, Page::Welcome);
    }
}

/// Fills the page: what is chosen on it are settings.
pub(super) fn refresh(window: &ui::AppWindow, state: &State) {
    settings::refresh(window, state);
}
