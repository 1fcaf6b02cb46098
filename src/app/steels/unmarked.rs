//! A bar without a mark: the file test, until more tests lead to a steel.

use std::rc::Rc;

use slint::ComponentHandle;

use super::certificate;
use crate::app::calls::calls_plain;
use crate::app::form::question;
use crate::app::rows::{model, put};
use crate::app::{State, ui};
use crate::questions;

/// The question that the page asks.
const TEST: &str = "file-test";

/// Wires the page.
pub(crate) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let adapter = window.global::<ui::UnmarkedAdapter>();
    adapter.set_rows(model(Vec::new()));
    adapter.on_certificate_asked(calls_plain(window, state, |window, state| {
        certificate::open(window, state, None);
    }));
}

/// Fills the page: the test stands open, with nothing to fold.
pub(crate) fn refresh(window: &ui::AppWindow, state: &State) {
    let adapter = window.global::<ui::UnmarkedAdapter>();
    let row = questions::find(TEST).map(|asked| ui::FormRow {
        pinned: true,
        titled: true,
        ..question::row(state, asked)
    });
    put(&adapter.get_rows(), row.into_iter().collect());
}
