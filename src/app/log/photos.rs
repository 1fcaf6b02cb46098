//! Pictures of trial pieces: read off the screen's thread, one after the other, and kept small.

use std::fs::File;
use std::io::BufReader;
#[cfg(feature = "gui")]
use std::path::Path;
use std::path::PathBuf;
use std::rc::Rc;
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::time::Duration;

use slint::{ComponentHandle, Image, SharedString, TimerMode};

use super::desk::LogDesk;
use super::entry::Wrong;
use super::form::{alone, field};
use super::kept::LogKept;
use super::photo_kept::{Done, Pixels};
use super::write::write;
use crate::app::calls::calls;
#[cfg(feature = "gui")]
use crate::app::chooser::{self, Chosen};
use crate::app::rows::{model, put};
use crate::app::shell::refresh_screen;
use crate::app::{State, ui};
use crate::engine::photo::read_photo;
use crate::log::{Entry, Id, LogStoreError, PhotoFile, TrialPiece};

/// Longest side of a picture in a row, and of one that is looked at, pixels.
const SMALL: u32 = 160;
const LARGE: u32 = 1200;
/// So many large ones are kept: those that were looked at last.
const LARGE_KEPT: usize = 3;
/// How often the window asks for news of the work.
const NEWS: Duration = Duration::from_millis(40);

/// Wires it.
pub(super) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let adapter = window.global::<ui::LogPhotos>();
    adapter.set_photos(model(Vec::new()));
    adapter.set_rows(model(Vec::new()));
    adapter.on_asked(calls(window, state, |window, state, id: SharedString| {
        {
            let mut desk = state.log.borrow_mut();
            desk.photos.wanted = Id::read(&id);
            desk.photos.problem.clear();
        }
        refresh_screen(window, state);
        choose(window, state);
    }));
    adapter.on_removed(calls(window, state, |window, state, id: SharedString| {
        if let Some(id) = Id::read(&id) {
            set(state, id, "");
        }
        refresh_screen(window, state);
    }));
    let desk = state.log.borrow();
    // The timer is the state's own: it must not keep the state.
    let (weak, heard) = (window.as_weak(), Rc::downgrade(state));
    desk.photos.timer.start(TimerMode::Repeated, NEWS, move || {
        if let (Some(window), Some(state)) = (weak.upgrade(), heard.upgrade()) {
            hear(&window, &state);
        }
    });
    desk.photos.timer.stop();
}

/// Fills the pictures of the trial pieces, and begins to read those that are not there yet.
pub(super) fn fill(window: &ui::AppWindow, state: &State, desk: &mut LogDesk) {
    let adapter = window.global::<ui::LogPhotos>();
    adapter.set_offered(!cfg!(target_os = "android"));
    let Some(open) = &desk.open else { return };
    let standing = open.log().standing();
    let of = |trial: &TrialPiece| (!trial.photo.is_empty()).then(|| open.photo(&trial.photo));
    let files: Vec<(Id, Option<PathBuf>)> =
        standing.trials.iter().map(|trial| (trial.id, of(trial.now))).collect();
    let names: Vec<String> = standing.trials.iter().map(|trial| trial.now.name.clone()).collect();
    drop(standing);
    let all: Vec<&PathBuf> = files.iter().filter_map(|(_, file)| file.as_ref()).collect();
    let photos = &mut desk.photos;
    photos.small.retain(|file, _| all.contains(&file));
    photos.large.retain(|(file, _)| all.contains(&file));
    // More large ones than are kept would be read for ever in turn.
    let opened = files.iter().filter(|(id, _)| desk.unfolded.contains(id));
    let opened: Vec<&PathBuf> = opened.filter_map(|(_, file)| file.as_ref()).take(LARGE_KEPT).collect();
    let lacks = |file: &&PathBuf| match photos.small.get(*file) {
        None => true,
        Some(small) => {
            small.is_some() && opened.contains(file) && !photos.large.iter().any(|(of, _)| of == *file)
        }
    };
    let next = all.iter().copied().find(lacks).cloned();
    let rows = files.iter().zip(&names).map(|((id, file), name)| {
        let file = file.as_ref();
        let small = file.and_then(|file| photos.small.get(file));
        let large = file.and_then(|file| photos.large.iter().find(|(of, _)| of == file));
        let small_one = small.cloned().flatten();
        let wanted = photos.wanted == Some(*id);
        ui::LogPhotoRow {
            id: id.to_string().into(),
            has: file.is_some(),
            shown: small_one.is_some(),
            large: large.map(|(_, image)| image.clone()).or_else(|| small_one.clone()).unwrap_or_default(),
            small: small_one.unwrap_or_default(),
            spoken: state.words.with("log-photo-of", &[("name", name)]).into(),
            missing: if matches!(small, Some(None)) { state.word("log-photo-missing") } else { "".into() },
            wanted,
            problem: if wanted { photos.problem.as_str().into() } else { "".into() },
        }
    });
    put(&adapter.get_photos(), rows.collect());
    put(&adapter.get_rows(), vec![file_row(state)]);
    if let Some(file) = next.filter(|_| photos.work.is_none()) {
        let (sender, done) = channel();
        std::thread::spawn(move || {
            let read = File::open(&file).ok().and_then(|open| read_photo(BufReader::new(open)).ok());
            let small = |side: u32| {
                read.as_ref().map(|photo| {
                    // A picture is never made larger.
                    let side = side.min(photo.width().max(photo.height()));
                    let small = photo.thumbnail(side, side).into_rgba8();
                    Pixels::clone_from_slice(small.as_raw(), small.width(), small.height())
                })
            };
            let pixels = small(SMALL).zip(small(LARGE));
            // Nobody may wait for it any more.
            let _ = sender.send(Done::Shown(file, pixels));
        });
        photos.work = Some(done);
        photos.timer.restart();
    }
}

/// The field that names a file, for a system without a chooser.
fn file_row(state: &State) -> ui::FormRow {
    let path = field(state, LogKept::Photo, "photo-path", &Wrong::new());
    ui::FormRow {
        id: "log-photo".into(),
        open: true,
        pinned: true,
        parts: model(vec![alone(path)]),
        ..ui::FormRow::default()
    }
}

/// Takes in what the work has brought.
fn hear(window: &ui::AppWindow, state: &Rc<State>) {
    let done = {
        let mut desk = state.log.borrow_mut();
        let photos = &mut desk.photos;
        match photos.work.as_ref().map(Receiver::try_recv) {
            Some(Err(TryRecvError::Empty)) => return,
            Some(Ok(done)) => {
                photos.work = None;
                done
            }
            None | Some(Err(TryRecvError::Disconnected)) => {
                photos.work = None;
                photos.timer.stop();
                return;
            }
        }
    };
    state.log.borrow().photos.timer.stop();
    match done {
        Done::Shown(file, pixels) => {
            let mut desk = state.log.borrow_mut();
            let photos = &mut desk.photos;
            if let Some((small, large)) = pixels {
                photos.small.insert(file.clone(), Some(Image::from_rgba8(small)));
                photos.large.insert(0, (file, Image::from_rgba8(large)));
                photos.large.truncate(LARGE_KEPT);
            } else {
                photos.small.insert(file, None);
            }
        }
        Done::Taken(id, photo) => take(state, id, photo),
    }
    refresh_screen(window, state);
}

/// A picture that was read is kept with its trial piece, or it is said why not.
fn take(state: &State, id: Id, photo: Result<PhotoFile, LogStoreError>) {
    let kept = photo.and_then(|photo| {
        let desk = state.log.borrow();
        let open = desk.open.as_ref().ok_or(LogStoreError::NotThere { job: id })?;
        open.put_photo(&photo)
    });
    match kept {
        Ok(name) => {
            if set(state, id, &name) {
                LogKept::Photo.set(state, None);
                state.log.borrow_mut().photos.wanted = None;
            }
        }
        Err(error) => state.log.borrow_mut().photos.problem = error.say(&state.words),
    }
}

/// Writes down which picture a trial piece has.
fn set(state: &State, id: Id, photo: &str) -> bool {
    write(state, |standing, hand| {
        let of = standing.trials.iter().find(|trial| trial.id == id);
        let changed = of.map(|trial| {
            let now = TrialPiece { photo: photo.to_owned(), ..trial.now.clone() };
            hand.change(trial, Entry::Trial(Box::new(now)))
        });
        changed.into_iter().collect()
    })
}

/// Enter, or the keyboard left the field: the file that it names becomes the picture.
pub(crate) fn committed(state: &State) {
    let typed = LogKept::Photo.text(state);
    if !typed.trim().is_empty() {
        read(state, PathBuf::from(typed.trim()));
    }
}

/// Reads a file that is to be the picture.
fn read(state: &State, path: PathBuf) {
    let mut desk = state.log.borrow_mut();
    let photos = &mut desk.photos;
    let Some(id) = photos.wanted else { return };
    photos.problem.clear();
    if !path.is_file() {
        photos.problem = state.words.with("photo-no-file", &[("path", &path.display().to_string())]);
        return;
    }
    let (sender, done) = channel();
    std::thread::spawn(move || {
        // Nobody may wait for it any more.
        let _ = sender.send(Done::Taken(id, PhotoFile::read(&path)));
    });
    // A picture that was only to be shown is read again later.
    photos.work = Some(done);
    photos.timer.restart();
}

/// Asks the system for a file.
#[cfg(feature = "gui")]
fn choose(window: &ui::AppWindow, state: &Rc<State>) {
    let asked = chooser::pictures().set_title(state.words.get("log-photo-add")).pick_file();
    chooser::ask_system(window, state, asked, |window, state, chosen| {
        match chosen {
            Chosen::Path(path) => named(state, &path),
            Chosen::NoChooser => {
                state.log.borrow_mut().photos.problem = state.words.get("photo-no-chooser");
            }
            Chosen::Nothing => {}
        }
        refresh_screen(window, state);
    });
}

#[cfg(feature = "gui")]
fn named(state: &State, path: &Path) {
    LogKept::Photo.set(state, Some(&path.display().to_string()));
    read(state, path.to_owned());
}

#[cfg(not(feature = "gui"))]
const fn choose(_: &ui::AppWindow, _: &Rc<State>) {}
