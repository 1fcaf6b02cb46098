//! Where Android enters Strawblue.
#![cfg(target_os = "android")]

use slint::android::AndroidApp;

/// Called by the system's activity on a thread of its own, each time the app is opened.
///
/// The folder that the system gives to the app is handed on before anything opens a file. All
/// else is the start that the desktop has too.
#[unsafe(no_mangle)]
#[allow(unsafe_code, reason = "the activity finds its entry point by this very name")]
fn android_main(app: AndroidApp) {
    let folder = app.internal_data_path();
    if let Err(problem) = slint::android::init(app) {
        // What is printed goes to the system's log.
        eprintln!("Strawblue can't show a window: {problem}");
        return;
    }
    if let Err(problem) = strawblue::app::run(folder) {
        eprintln!("Strawblue can't start: {problem}");
    }
}
