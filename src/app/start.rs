//! Start-up, shared by desktop and phone.

use std::path::PathBuf;
use std::rc::Rc;

use slint::ComponentHandle;
use thiserror::Error;

use super::form::events;
use super::glue::glued;
use super::plan::fillers;
use super::settings::about;
use super::steels::{certificate, unmarked};
use super::{Page, State, basis, bench, cycle, plan, safety, settings, shell, steels, tint, ui};
use crate::job::{Found, Session, Store, StoreError};
use crate::words::Words;

/// Why the window can't be opened.
#[derive(Debug, Error)]
pub enum StartError {
    /// No display, or what a display needs is missing.
    #[error("{0}")]
    NoWindow(String),
    /// The system has no font, and the window draws none without one.
    #[error("no font")]
    NoFont,
    /// A library that the window needs is missing.
    #[error("no {file}")]
    NoLibrary {
        /// Its file.
        file: &'static str,
        /// The package of Debian that brings it.
        package: &'static str,
    },
}

impl StartError {
    /// Why, as a part of a sentence.
    #[must_use]
    pub fn say(&self, words: &Words) -> String {
        match self {
            Self::NoWindow(cause) => cause.clone(),
            Self::NoFont => words.get("start-no-font"),
            Self::NoLibrary { file, package } => {
                words.with("start-no-library", &[("library", file), ("package", package)])
            }
        }
    }
}

/// Opens the window on what is kept in a folder, and runs it until it is closed.
///
/// # Errors
/// [`StartError`] where there is no display, or something is missing that a window needs.
pub fn run(folder: Option<PathBuf>) -> Result<(), StartError> {
    #[cfg(target_os = "linux")]
    check_desktop()?;
    // The dataset and the colours of the film are made ready while the window is.
    std::thread::spawn(|| {
        let _ = crate::reference::embedded();
        crate::engine::tint::colour::prepare();
    });
    let (window, state) = window_in(folder)?;
    let ran = window.run().map_err(|error| StartError::NoWindow(error.to_string()));
    state.flush();
    ran
}

#[cfg(target_os = "linux")]
fn check_desktop() -> Result<(), StartError> {
    use super::desktop::{Display, display, has_font, missing_here};
    let display = display();
    // Without a display the toolkit itself says so.
    if display == Display::None {
        return Ok(());
    }
    if let Some(library) = missing_here(display) {
        return Err(StartError::NoLibrary { file: library.file, package: library.package });
    }
    if has_font() { Ok(()) } else { Err(StartError::NoFont) }
}

/// A window on what is kept in a folder. What can't be read or kept is said on it.
///
/// # Errors
/// [`StartError::NoWindow`] where there is no display.
pub fn window_in(folder: Option<PathBuf>) -> Result<(ui::AppWindow, Rc<State>), StartError> {
    let (session, store, trouble) = kept(folder);
    let (window, state) = window_of(session, store)?;
    if let Some(trouble) = trouble {
        state.tell(trouble.say(&state.words));
    }
    Ok((window, state))
}

/// What went wrong with what is kept.
enum Trouble {
    /// It can't be read; nothing is saved over it.
    NotKept(StoreError),
    /// A part of it can't be read, and is kept aside.
    KeptAside(Box<Found>),
}

impl Trouble {
    fn say(&self, words: &Words) -> String {
        match self {
            Self::NotKept(error) => words.with("start-not-kept", &[("why", &error.say(words))]),
            Self::KeptAside(found) => found.say(words),
        }
    }
}

/// The session of a folder. Where it can't be read the window starts anew and saves
/// nothing over it.
fn kept(folder: Option<PathBuf>) -> (Session, Option<Store>, Option<Trouble>) {
    let Some(folder) = folder else { return (Session::default(), None, None) };
    let opened = Store::open(folder).and_then(|store| Ok((Session::load(&store)?, store)));
    match opened {
        Ok((found, store)) if found.kept_aside.is_none() => (found.session, Some(store), None),
        Ok((found, store)) => (found.session.clone(), Some(store), Some(Trouble::KeptAside(Box::new(found)))),
        Err(error) => (Session::default(), None, Some(Trouble::NotKept(error))),
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
fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    window.global::<ui::I18n>().on_translate({
        let state = state.clone();
        move |key, _| state.words.get(&key).into()
    });
    window.global::<ui::I18n>().on_glued(|said| glued(&said).map_or(said, Into::into));
    window.global::<ui::I18n>().set_rev(1);
    state.fill_with(fill);
    state.desk.on_answer({
        let (weak, heard) = (window.as_weak(), Rc::downgrade(state));
        move || {
            if let (Some(window), Some(state)) = (weak.upgrade(), heard.upgrade()) {
                shell::refresh_screen(&window, &state);
            }
        }
    });
    shell::connect(window, state);
    basis::connect(window, state);
    plan::connect(window, state);
    cycle::connect(window, state);
    events::connect(window, state);
    tint::connect(window, state);
    bench::connect(window, state);
    steels::connect(window, state);
    unmarked::connect(window, state);
    certificate::connect(window, state);
    fillers::connect(window, state);
    safety::connect(window, state);
    settings::connect(window, state);
    about::connect(window, state);
    shell::refresh_all(window, state);
}

/// Fills a page. The pages lead to each other through the shell, which knows none of them.
fn fill(window: &ui::AppWindow, state: &State, page: Page) {
    match page {
        Page::Plan => plan::refresh(window, state),
        Page::Tint => tint::refresh(window, state),
        Page::Bench => bench::refresh(window, state),
        Page::Question => bench::refresh_question(window, state),
        Page::Safety => safety::refresh(window, state),
        Page::Steels => steels::refresh(window, state),
        Page::Unmarked => unmarked::refresh(window, state),
        Page::Certificate => certificate::refresh(window, state),
        Page::Cycle => cycle::refresh(window, state),
        Page::Fillers => fillers::refresh(window, state),
        Page::Settings => settings::refresh(window, state),
        Page::About => about::refresh(window, state),
    }
}
