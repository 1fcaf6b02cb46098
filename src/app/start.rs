//! Start-up, shared by desktop and phone.

use std::path::{Path, PathBuf};
use std::rc::Rc;

use slint::ComponentHandle;
use thiserror::Error;

use super::form::events;
use super::glue::glued;
use super::plan::fillers;
use super::settings::about;
use super::steels::{certificate, unmarked};
use super::{
    Device, Page, State, System, basis, bench, cycle, log, plan, safety, settings, shell, steels, tint, ui,
    welcome,
};
use crate::job::{Found, Session, Store, StoreError};
use crate::words::Words;

/// The name of the menu entry.
const APP_ID: &str = "strawblue";

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

/// Opens the window on what is kept in a folder, and on a file where one is given, and runs it on a device
/// until it is closed.
///
/// # Errors
/// [`StartError`] where there is no display, or something is missing that a window needs.
pub fn run(
    folder: Option<PathBuf>,
    file: Option<&Path>,
    device: impl Device + 'static,
) -> Result<(), StartError> {
    #[cfg(target_os = "linux")]
    check_desktop()?;
    // The dataset and the colours of the film are made ready while the window is.
    std::thread::spawn(|| {
        let _ = crate::reference::embedded();
        crate::engine::tint::colour::prepare();
    });
    let (window, state) = window_for(folder, System::here())?;
    on_device(&window, &state, device);
    // By this the desktop finds the menu entry, and with it the icon, that the window belongs to. A
    // desktop that asks for no such name refuses it, and shows the window as well.
    let _ = slint::set_xdg_app_id(APP_ID);
    #[cfg(feature = "gui")]
    super::outside::connect(&window, &state);
    if let Some(file) = file {
        super::open_with(&window, &state, file);
    }
    let ran = window.run().map_err(|error| StartError::NoWindow(error.to_string()));
    state.flush();
    ran
}

/// From now on the window asks this device for what it needs of it.
pub fn on_device(window: &ui::AppWindow, state: &State, device: impl Device + 'static) {
    window.global::<ui::Asked>().set_system_text(device.text_scale());
    state.log.borrow_mut().device = Box::new(device);
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
    let kept = Kept::of(folder.as_deref());
    window_with(kept, folder, Words::ENGLISH.into())
}

/// The same for a system: the window speaks its language until another one is chosen. Where no window has
/// saved before it begins with the units of the system, and with a welcome.
///
/// # Errors
/// [`StartError::NoWindow`] where there is no display.
pub fn window_for(folder: Option<PathBuf>, system: System) -> Result<(ui::AppWindow, Rc<State>), StartError> {
    let mut kept = Kept::of(folder.as_deref());
    if kept.first {
        kept.session = Session::first(system.units);
    }
    let (window, state) = window_with(kept, folder, system)?;
    welcome::greet(&window, &state);
    Ok((window, state))
}

fn window_with(
    kept: Kept,
    folder: Option<PathBuf>,
    system: System,
) -> Result<(ui::AppWindow, Rc<State>), StartError> {
    let (window, state) = window_on(kept.session, kept.store, folder, system)?;
    if let Some(trouble) = kept.trouble {
        state.tell(move |words| trouble.say(words));
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

/// What is kept in a folder.
#[derive(Default)]
struct Kept {
    session: Session,
    store: Option<Store>,
    trouble: Option<Trouble>,
    /// No window has saved here yet.
    first: bool,
}

impl Kept {
    /// What is kept in a folder. Where it can't be read the window starts anew and saves nothing over it.
    fn of(folder: Option<&Path>) -> Self {
        let Some(folder) = folder else { return Self::default() };
        let opened = Store::open(folder).and_then(|store| Ok((Session::load(&store)?, store)));
        match opened {
            Ok((found, store)) => Self {
                session: found.session.clone(),
                store: Some(store),
                first: found.first,
                trouble: found.kept_aside.is_some().then(|| Trouble::KeptAside(Box::new(found))),
            },
            Err(error) => Self { trouble: Some(Trouble::NotKept(error)), ..Self::default() },
        }
    }
}

/// A window on a session.
///
/// # Errors
/// [`StartError::NoWindow`] where there is no display.
pub fn window_of(session: Session, store: Option<Store>) -> Result<(ui::AppWindow, Rc<State>), StartError> {
    let folder = store.as_ref().map(|store| store.folder().to_owned());
    window_on(session, store, folder, Words::ENGLISH.into())
}

/// The same with the folder of the log, which is written though the session can't be.
fn window_on(
    session: Session,
    store: Option<Store>,
    folder: Option<PathBuf>,
    system: System,
) -> Result<(ui::AppWindow, Rc<State>), StartError> {
    let window = ui::AppWindow::new().map_err(|error| StartError::NoWindow(error.to_string()))?;
    let state = Rc::new(State::new(session, store, system));
    state.log.borrow_mut().set_folder(folder);
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
    log::connect(window, state);
    steels::connect(window, state);
    unmarked::connect(window, state);
    certificate::connect(window, state);
    fillers::connect(window, state);
    safety::connect(window, state);
    settings::connect(window, state);
    about::connect(window, state);
    welcome::connect(window, state);
    shell::refresh_all(window, state);
}

/// Fills a page. The pages lead to each other through the shell, which knows none of them.
fn fill(window: &ui::AppWindow, state: &State, page: Page) {
    match page {
        Page::Plan => plan::refresh(window, state),
        Page::Tint => tint::refresh(window, state),
        Page::Bench => bench::refresh(window, state),
        Page::Question => bench::refresh_question(window, state),
        Page::Log
        | Page::LogNew
        | Page::LogJob
        | Page::LogPiece
        | Page::LogEntry
        | Page::LogCard
        | Page::LogImport => log::refresh(window, state, page),
        Page::Safety => safety::refresh(window, state),
        Page::Steels => steels::refresh(window, state),
        Page::Unmarked => unmarked::refresh(window, state),
        Page::Certificate => certificate::refresh(window, state),
        Page::Cycle => cycle::refresh(window, state),
        Page::Fillers => fillers::refresh(window, state),
        Page::Settings => settings::refresh(window, state),
        Page::About => about::refresh(window, state),
        Page::Welcome => welcome::refresh(window, state),
    }
}
