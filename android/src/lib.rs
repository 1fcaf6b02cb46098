//! Where Android enters Strawblue.
#![cfg(target_os = "android")]

mod screen;
mod share;
mod system;
mod text;

use std::path::Path;

use slint::android::AndroidApp;
use strawblue::app::Device;

use self::screen::Screen;

/// What the phone does for the window.
struct Phone {
    app: AndroidApp,
    screen: Screen,
    shares: bool,
    text_scale: f32,
}

impl Device for Phone {
    fn keep_lit(&self, lit: bool) {
        self.screen.keep_lit(lit);
    }

    fn text_scale(&self) -> f32 {
        self.text_scale
    }

    fn shares(&self) -> bool {
        self.shares
    }

    fn share(&self, file: &Path, kind: &str, title: &str) -> Result<(), String> {
        share::share(&self.app, file, kind, title)
    }
}

/// Called by the system's activity on a thread of its own, each time the app is opened.
///
/// The folder that the system gives to the app is handed on before anything opens a file. All
/// else is the start that the desktop has too.
#[unsafe(no_mangle)]
#[allow(unsafe_code, reason = "the activity finds its entry point by this very name")]
fn android_main(app: AndroidApp) {
    let phone = Phone {
        app: app.clone(),
        screen: Screen::of_this_activity(),
        shares: share::can_share(&app),
        text_scale: text::scale(&app),
    };
    let folder = app.internal_data_path();
    if let Err(problem) = slint::android::init(app) {
        // What is printed goes to the system's log.
        eprintln!("Strawblue can't show a window: {problem}");
        return;
    }
    if let Err(problem) = strawblue::app::run(folder, None, phone) {
        eprintln!("Strawblue can't start: {problem}");
    }
}
