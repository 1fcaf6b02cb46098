//! All that is kept, into one file and back, from the settings.

#[cfg(not(target_os = "android"))]
use std::path::Path;
use std::rc::Rc;

use slint::{ComponentHandle, SharedString};

use crate::app::calls::calls_plain;
#[cfg(feature = "gui")]
use crate::app::chooser::{self, Chosen};
#[cfg(not(target_os = "android"))]
use crate::app::shell::say_anew;
use crate::app::{State, ui};
#[cfg(not(target_os = "android"))]
use crate::words::List;

/// How the file of a backup ends.
#[cfg(feature = "gui")]
const ENDING: &str = "tar";

/// Wires the two rows.
pub(super) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let adapter = window.global::<ui::BackupAdapter>();
    // A phone hands no file to the program.
    adapter.set_offered(cfg!(feature = "gui"));
    adapter.set_said(SharedString::default());
    adapter.on_backup_asked(calls_plain(window, state, choose_new));
    adapter.on_restore_asked(calls_plain(window, state, choose_old));
}

/// Packs everything into a new file, and says so on the page.
#[cfg(not(target_os = "android"))]
pub fn back_up_to(window: &ui::AppWindow, state: &State, file: &Path) {
    // What was typed last is part of it.
    state.flush();
    let Some(folder) = state.log.borrow().folder().map(Path::to_owned) else { return };
    let said = match crate::backup::pack(&folder, file) {
        Ok(packed) => state.words.count("backup-made", packed.jobs, &[("path", &file.display().to_string())]),
        Err(error) => error.say(&state.words),
    };
    say(window, said);
}

/// Takes everything of a file back, and shows it.
#[cfg(not(target_os = "android"))]
pub fn restore_from(window: &ui::AppWindow, state: &State, file: &Path) {
    state.flush();
    let Some(folder) = state.log.borrow().folder().map(Path::to_owned) else { return };
    match crate::backup::restore(&folder, file) {
        Ok(done) => {
            state.log.borrow_mut().read_list();
            // The session on the disk is another one, as if a second window had written it.
            state.hear_news();
            state.flush();
            state.hear_news();
            say_anew(window, state);
            say(window, state.words.list(List::Sentences, &done.say(&state.words)));
        }
        Err(error) => say(window, error.say(&state.words)),
    }
}

#[cfg(not(target_os = "android"))]
fn say(window: &ui::AppWindow, said: String) {
    window.global::<ui::BackupAdapter>().set_said(SharedString::from(said));
}

/// Asks the system where the file goes.
#[cfg(feature = "gui")]
fn choose_new(window: &ui::AppWindow, state: &Rc<State>) {
    let asked = rfd::AsyncFileDialog::new()
        .set_title(state.words.get("settings-backup"))
        .set_file_name(format!("strawblue.{ENDING}"))
        .save_file();
    ask_system(window, state, asked, back_up_to);
}

/// Asks the system for a file.
#[cfg(feature = "gui")]
fn choose_old(window: &ui::AppWindow, state: &Rc<State>) {
    let asked = rfd::AsyncFileDialog::new()
        .set_title(state.words.get("settings-restore"))
        .add_filter("TAR", &[ENDING])
        .pick_file();
    ask_system(window, state, asked, restore_from);
}

#[cfg(feature = "gui")]
fn ask_system(
    window: &ui::AppWindow,
    state: &Rc<State>,
    asked: impl Future<Output = Option<rfd::FileHandle>> + 'static,
    act: fn(&ui::AppWindow, &State, &Path),
) {
    chooser::ask_system(window, state, asked, move |window, state, chosen| match chosen {
        Chosen::Path(path) => act(window, state, &path),
        Chosen::NoChooser => say(window, state.words.get("settings-backup-no-chooser")),
        Chosen::Nothing => {}
    });
}

#[cfg(not(feature = "gui"))]
const fn choose_new(_: &ui::AppWindow, _: &Rc<State>) {}

#[cfg(not(feature = "gui"))]
const fn choose_old(_: &ui::AppWindow, _: &Rc<State>) {}
