//! A photo of the tinted steel: it is read and matched off the screen's thread, with its
//! progress shown, so that the window stays alive.

use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Sender, TryRecvError, channel};
use std::time::Duration;

use slint::{ComponentHandle, Image, Timer, TimerMode};

use super::ask;
use super::kept::Kept;
use super::photo_read::{News, Photo, Trouble, Work, read, region_at, unread};
use crate::app::calls::{calls, calls_pair, calls_plain};
#[cfg(feature = "gui")]
use crate::app::chooser::{self, Chosen};
use crate::app::shell::refresh_screen;
use crate::app::{State, ui};
use crate::engine::photo::{PhotoQuestion, PhotoReference, match_photo};

/// Bright steel of the same part, or a grey card.
pub(super) const REFERENCES: [&str; 2] = ["bright", "card"];
/// Reflectance of the usual grey card.
const CARD: f64 = 0.18;
/// How often the window asks for news of the work.
const NEWS: Duration = Duration::from_millis(40);

/// Wires the photo.
pub(crate) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let adapter = window.global::<ui::TintAdapter>();
    adapter.on_photo_open_asked(calls_plain(window, state, choose));
    adapter.on_photo_turn_picked(calls(window, state, |window, state, index: i32| {
        state.photo.borrow_mut().turn = usize::try_from(index).unwrap_or(0).min(1);
        refresh_screen(window, state);
    }));
    adapter.on_photo_touched(calls_pair(window, state, |window, state, x: f32, y: f32| {
        touch(state, f64::from(x), f64::from(y));
        start_match(window, state);
        refresh_screen(window, state);
    }));
    adapter.on_photo_stop_asked(calls_plain(window, state, |_, state| {
        if let Some(work) = &state.photo.borrow().work {
            work.stop.store(true, Ordering::Relaxed);
        }
    }));
    adapter.on_photo_take_asked(calls_plain(window, state, |window, state| {
        let stages = match &state.photo.borrow().found {
            Some(Ok(found)) => Some(found.stages()),
            _ => None,
        };
        // A photo is never closer than one colour to either side.
        if let Some((first, last)) = stages {
            ask::see(state, first, last);
        }
        refresh_screen(window, state);
    }));
}

/// A touch sets the spot whose turn it is, and passes the turn on.
fn touch(state: &State, x: f64, y: f64) {
    let mut photo = state.photo.borrow_mut();
    let at = Some((x.clamp(0.0, 1.0), y.clamp(0.0, 1.0)));
    if photo.turn == 0 {
        photo.spot = at;
        photo.turn = usize::from(photo.bright.is_none());
    } else {
        photo.bright = at;
        photo.turn = usize::from(photo.spot.is_some());
    }
    photo.found = None;
}

/// Enter, or the keyboard left the field: the file that it names is opened.
pub(crate) fn committed(window: &ui::AppWindow, state: &Rc<State>) {
    let typed = Kept::PhotoPath.typed(state).unwrap_or_default();
    let path = PathBuf::from(typed.trim());
    if !typed.trim().is_empty() && state.photo.borrow().file.as_ref() != Some(&path) {
        open(window, state, &path);
    }
}

/// What the tint is compared with was chosen.
pub(crate) fn reference_chosen(window: &ui::AppWindow, state: &Rc<State>, index: usize) {
    Kept::choose(state, &[(Kept::PhotoReference, REFERENCES[index.min(1)])]);
    state.photo.borrow_mut().found = None;
    start_match(window, state);
}

/// Asks the system for a file.
#[cfg(feature = "gui")]
fn choose(window: &ui::AppWindow, state: &Rc<State>) {
    let asked = chooser::pictures().set_title(state.words.get("photo-head")).pick_file();
    chooser::ask_system(window, state, asked, |window, state, chosen| match chosen {
        Chosen::Path(path) => bring(window, state, &path),
        Chosen::NoChooser => {
            state.photo.borrow_mut().problem = Some(Trouble("photo-no-chooser", None));
            refresh_screen(window, state);
        }
        Chosen::Nothing => {}
    });
}

#[cfg(not(feature = "gui"))]
const fn choose(_: &ui::AppWindow, _: &Rc<State>) {}

/// A photo that the person brings along: as if it had been chosen here.
pub(crate) fn bring(window: &ui::AppWindow, state: &Rc<State>, path: &Path) {
    Kept::PhotoPath.type_in(state, Some(path.display().to_string()));
    open(window, state, path);
}

/// Reads a photo off the screen's thread.
pub(crate) fn open(window: &ui::AppWindow, state: &Rc<State>, path: &Path) {
    let path = path.to_owned();
    {
        let mut photo = state.photo.borrow_mut();
        *photo = Photo { file: Some(path.clone()), ..Photo::default() };
        if !path.is_file() {
            photo.problem = Some(Trouble("photo-no-file", Some(("path", path.display().to_string()))));
        }
    }
    if path.is_file() {
        start(window, state, move |news, stop| {
            let read = read(&path, news, stop);
            let _ = news.send(News::Loaded(read.map(Box::new)));
        });
    }
    refresh_screen(window, state);
}

/// Starts work, and asks for its news until it is done.
fn start(
    window: &ui::AppWindow,
    state: &Rc<State>,
    work: impl FnOnce(&Sender<News>, &AtomicBool) + Send + 'static,
) {
    let (sender, news) = channel();
    let stop = Arc::new(AtomicBool::new(false));
    let stopped = stop.clone();
    std::thread::spawn(move || work(&sender, &stopped));
    let timer = Timer::default();
    timer.start(TimerMode::Repeated, NEWS, calls_plain(window, state, hear));
    let mut photo = state.photo.borrow_mut();
    photo.work = Some(Work { news, stop, progress: 0.0 });
    photo.timer = Some(timer);
}

/// Takes in what the work has told.
fn hear(window: &ui::AppWindow, state: &Rc<State>) {
    let mut done = false;
    let mut changed = false;
    {
        let mut photo = state.photo.borrow_mut();
        let Some(work) = &mut photo.work else { return };
        let mut told = Vec::new();
        loop {
            match work.news.try_recv() {
                Ok(News::Progress(share)) => work.progress = share,
                Ok(news) => told.push(news),
                Err(TryRecvError::Empty) => break,
                Err(TryRecvError::Disconnected) => {
                    done = true;
                    break;
                }
            }
            changed = true;
        }
        for news in told {
            match news {
                News::Loaded(Ok(loaded)) => {
                    photo.picture = Image::from_rgba8(loaded.shown.clone());
                    photo.photo = Some(loaded.photo.clone());
                }
                News::Loaded(Err(why)) => {
                    photo.problem = Some(unread(why));
                }
                News::Matched(found) => photo.found = Some(found),
                News::Progress(_) => {}
            }
        }
        if done {
            photo.work = None;
        }
    }
    if done {
        let timer = state.photo.borrow_mut().timer.take();
        if let Some(timer) = timer {
            timer.stop();
        }
    }
    if changed || done {
        // Another place may be on the screen by now.
        refresh_screen(window, state);
    }
}

/// Matches the photo once both spots are set.
fn start_match(window: &ui::AppWindow, state: &Rc<State>) {
    let ask = ask::ask(state);
    let (photo, question) = {
        let kept = state.photo.borrow();
        let (Some(photo), Some(spot), Some(bright)) = (kept.photo.clone(), kept.spot, kept.bright) else {
            return;
        };
        let region = region_at(&photo, bright);
        let card = Kept::PhotoReference.chosen(state, &REFERENCES) == 1;
        let reference = if card {
            PhotoReference::GreyCard { region, reflectance: CARD }
        } else {
            PhotoReference::BrightSteel(region)
        };
        let question = PhotoQuestion { spot: region_at(&photo, spot), reference, steel: ask.steel.clone() };
        (photo, question)
    };
    start(window, state, move |news, stop| {
        let found = match_photo(&photo, &question, &mut |share| {
            let _ = news.send(News::Progress(share));
            if stop.load(Ordering::Relaxed) { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
        });
        let _ = news.send(News::Matched(found));
    });
}
