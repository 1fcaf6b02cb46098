//! Asks the system for a file or a folder, in a dialog of its own.

use std::cell::Cell;
use std::future::Future;
use std::path::PathBuf;
use std::rc::Rc;
use std::time::{Duration, Instant};

use rfd::{AsyncFileDialog, FileHandle};
use slint::ComponentHandle;

use super::{State, ui};

/// A person takes longer than this to close a dialog.
const AT_ONCE: Duration = Duration::from_millis(300);

/// What came of the dialog.
pub(super) enum Chosen {
    /// This was chosen.
    Path(PathBuf),
    /// It was closed without a choice.
    Nothing,
    /// There is none on this system.
    NoChooser,
}

/// A dialog for pictures that can be read.
pub(super) fn pictures() -> AsyncFileDialog {
    let endings = ["jpg", "jpeg", "png", "webp", "JPG", "JPEG", "PNG", "WEBP"];
    AsyncFileDialog::new().add_filter("JPEG, PNG, WebP", &endings)
}

/// Waits for a dialog without holding up the window, and acts on what came of it.
pub(super) fn ask_system(
    window: &ui::AppWindow,
    state: &Rc<State>,
    asked: impl Future<Output = Option<FileHandle>> + 'static,
    act: impl FnOnce(&ui::AppWindow, &Rc<State>, Chosen) + 'static,
) {
    let (weak, theirs) = (window.as_weak(), state.clone());
    // Held outside too: a loop that does not run drops the future, and the press still gets a word.
    let act = Rc::new(Cell::new(Some(act)));
    let first = act.clone();
    let from = Instant::now();
    let answered = slint::spawn_local(async move {
        let chosen = match asked.await {
            Some(file) => Chosen::Path(file.path().to_owned()),
            // Nobody closes a chooser so fast: there was none.
            None if from.elapsed() < AT_ONCE => Chosen::NoChooser,
            None => Chosen::Nothing,
        };
        if let (Some(window), Some(act)) = (weak.upgrade(), first.take()) {
            act(&window, &theirs, chosen);
        }
    });
    if answered.is_err()
        && let Some(act) = act.take()
    {
        act(window, state, Chosen::NoChooser);
    }
}
