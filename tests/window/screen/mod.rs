//! The real window on the testing backend, drawn by the software renderer.

pub(crate) mod compare;
pub(crate) mod hand;
pub(crate) mod measure;
pub(crate) mod on_screen;

use std::cell::Cell;
use std::path::Path;
use std::rc::Rc;
use std::sync::Once;
use std::time::{Duration, Instant};

pub(crate) use i_slint_backend_testing::testing_backend::mock_elapsed_time;
use i_slint_backend_testing::{TestingBackend, TestingBackendOptions};
use slint::{ComponentHandle, PhysicalSize};
use strawblue::app::glue::glued;
use strawblue::app::{State, System, ui, window_for, window_in, window_of};
use strawblue::job::{Session, Slot, Store};
use strawblue::words::Words;

static FONTS: Once = Once::new();

/// Only the bundled fonts may be found, so that every machine draws the same picture.
#[allow(unsafe_code, reason = "changing the environment is unsafe in this edition")]
fn use_bundled_fonts() {
    FONTS.call_once(|| {
        let fonts = Path::new(env!("CARGO_MANIFEST_DIR")).join("ui/fonts");
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
        let conf = folder.join("fonts.conf");
        let text = format!(
            "<?xml version=\"1.0\"?><!DOCTYPE fontconfig SYSTEM \"fonts.dtd\"><fontconfig><dir>{}</dir><cachedir>{}</cachedir></fontconfig>",
            fonts.display(),
            folder.join("font-cache").display()
        );
        std::fs::write(&conf, text).expect("the test folder can be written");
        // SAFETY: runs once, before any window of this process exists, and nothing else in it reads
        // the environment but through Rust's own lock.
        unsafe { std::env::set_var("FONTCONFIG_FILE", &conf) };
    });
}

/// The testing backend, once for each test thread.
fn ready() {
    use_bundled_fonts();
    thread_local!(static READY: Cell<bool> = const { Cell::new(false) });
    if !READY.replace(true) {
        slint::platform::set_platform(Box::new(TestingBackend::new(TestingBackendOptions {
            mock_time: true,
            threading: false,
            renderer_name: Some("software".into()),
        })))
        .expect("one platform for each test thread");
    }
}

/// The disk, the work beside the screen and the clock go on until it is so.
pub(crate) fn soon(what: &str, done: impl Fn() -> bool) {
    let from = Instant::now();
    while !done() {
        assert!(from.elapsed() < Duration::from_secs(240), "never: {what}");
        std::thread::sleep(Duration::from_millis(10));
        mock_elapsed_time(200);
    }
}

/// What is typed in a field of the job.
pub(crate) fn typed_at(state: &State, slot: impl Into<Slot>) -> Option<String> {
    state.session(|session| session.job.get(slot).map(str::to_owned))
}

/// Shows a window in a size, ready to be drawn.
fn show(window: &ui::AppWindow, size: (u32, u32)) {
    window.show().expect("the testing backend shows windows");
    window.window().set_size(PhysicalSize::new(size.0, size.1));
    mock_elapsed_time(50);
}

/// The real window on a session, wired to the engine as the person meets it.
pub(crate) fn live(size: (u32, u32), session: Session) -> (ui::AppWindow, Rc<State>) {
    live_with(size, session, None)
}

/// The same with a store.
pub(crate) fn live_with(
    size: (u32, u32),
    session: Session,
    store: Option<Store>,
) -> (ui::AppWindow, Rc<State>) {
    ready();
    let (window, state) = window_of(session, store).expect("the testing backend makes windows");
    show(&window, size);
    (window, state)
}

/// The window on what is kept in a folder, as the program opens it.
pub(crate) fn live_in(size: (u32, u32), folder: &Path) -> (ui::AppWindow, Rc<State>) {
    ready();
    let (window, state) = window_in(Some(folder.to_owned())).expect("the testing backend makes windows");
    show(&window, size);
    (window, state)
}

/// The same as the program opens it on a system: where nobody has worked before, with a welcome.
pub(crate) fn live_first(size: (u32, u32), folder: &Path, system: System) -> (ui::AppWindow, Rc<State>) {
    ready();
    let (window, state) =
        window_for(Some(folder.to_owned()), system).expect("the testing backend makes windows");
    show(&window, size);
    (window, state)
}

/// A window in English with `fill` applied to its preview, ready to be drawn.
pub(crate) fn window(size: (u32, u32), look: ui::Look, fill: impl FnOnce(&ui::AppWindow)) -> ui::AppWindow {
    ready();
    let window = ui::AppWindow::new().expect("the testing backend makes windows");
    let words = Rc::new(Words::english());
    window.global::<ui::I18n>().on_translate(move |key, _| words.get(&key).into());
    window.global::<ui::I18n>().on_glued(|said| glued(&said).map_or(said, Into::into));
    window.global::<ui::I18n>().set_rev(1);
    window.global::<ui::Theme>().set_look(look);
    fill(&window);
    show(&window, size);
    window
}
