//! Start-up, shared by desktop and phone.

use std::path::PathBuf;
use std::rc::Rc;

use slint::ComponentHandle;
use thiserror::Error;

use super::{State, about, care, certificate, fillers, forms, plan, settings, shell, steels, tint, ui};
use crate::log::{Session, Store};

/// Why the window can't be opened.
#[derive(Debug, Error)]
pub enum StartError {
    /// No display, or what a display needs is missing.
    #[error("no window can be opened: {0}")]
    NoWindow(String),
}

/// Opens the window on what is kept in a folder, and runs it until it is closed.
///
/// # Errors
/// [`StartError::NoWindow`] where there is no display.
pub fn run(folder: Option<PathBuf>) -> Result<(), StartError> {
    let (session, store) = kept(folder);
    let (window, _state) = window_of(session, store)?;
    window.run().map_err(|error| StartError::NoWindow(error.to_string()))
}

/// The session of a folder. Where it can't be read the window starts anew and saves
/// nothing over it.
fn kept(folder: Option<PathBuf>) -> (Session, Option<Store>) {
    let Some(store) = folder.and_then(|folder| Store::open(folder).ok()) else {
        return (Session::default(), None);
    };
    match Session::load(&store) {
        Ok(found) => (found.session, Some(store)),
        Err(_) => (Session::default(), None),
    }
}

/// A window on a session.
///
/// # Errors
/// [`StartError::NoWindow`] where there is no display.
pub fn window_of(session: Session, store: Option<Store>) -> Result<(ui::AppWindow, Rc<State>), StartError> {
    let window = ui::AppWindow::new().map_err(|error| StartError::NoWindow(error.to_string()))?;
    let state = Rc::new(State::new(session, store));
    connect(&window, &state);
    Ok((window, state))
}

/// Wires every place and fills every model.
pub fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    window.global::<ui::I18n>().on_translate({
        let state = state.clone();
        move |key, _| state.words.get(&key).into()
    });
    window.global::<ui::I18n>().set_rev(1);
    shell::connect(window, state);
    plan::connect(window, state);
    forms::connect(window, state);
    tint::connect(window, state);
    steels::connect(window, state);
    certificate::connect(window, state);
    fillers::connect(window, state);
    care::connect(window, state);
    settings::connect(window, state);
    about::connect(window, state);
    shell::refresh_all(window, state);
}
