//! What this is, what it isn't, and whose work is in it.

use std::rc::Rc;

use slint::{ComponentHandle, SharedString};

use super::licences::LICENCES;
use crate::app::rows::model;
use crate::app::{State, ui};

/// Wires the page: there is nothing to press on it.
pub(crate) fn connect(window: &ui::AppWindow, _state: &Rc<State>) {
    let adapter = window.global::<ui::AboutAdapter>();
    adapter.set_paragraphs(model(Vec::new()));
    adapter.set_licences(model(Vec::new()));
}

/// The version in words.
pub(super) fn version(state: &State) -> SharedString {
    state.words.with("about-version", &[("version", env!("CARGO_PKG_VERSION"))]).into()
}

/// Fills the page.
pub(crate) fn refresh(window: &ui::AppWindow, state: &State) {
    let adapter = window.global::<ui::AboutAdapter>();
    adapter.set_version(version(state));
    let paragraph =
        |key: &str| ui::ParagraphRow { label: state.word(key), text: state.word(&format!("{key}.text")) };
    adapter.set_paragraphs(model(
        ["about-is", "about-isnt", "about-limits", "about-keeps"].map(paragraph).to_vec(),
    ));
    let licence = |licence: &super::licences::Licence| ui::ParagraphRow {
        label: licence.title.into(),
        text: [licence.kind, licence.works].join("\n").trim_end().into(),
    };
    adapter.set_licences(model(LICENCES.iter().map(licence).collect()));
}
