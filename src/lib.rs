//! Strawblue: an offline bench reference for welding hardenable steel.

#[cfg(feature = "window")]
pub mod app;
#[cfg(not(target_os = "android"))]
pub mod backup;
pub mod card;
pub mod cli;
pub mod engine;
pub mod job;
pub mod log;
mod packed;
pub mod questions;
pub mod reference;
pub mod report;
pub mod units;
pub mod words;

use std::ffi::OsString;
use std::io::Write;
use std::process::ExitCode;

/// Runs a command line, the program's own name first: opens the window where nothing is
/// asked, and prints what the command line says otherwise.
pub fn run(arguments: impl IntoIterator<Item = OsString>) -> ExitCode {
    let arguments: Vec<OsString> = arguments.into_iter().collect();
    let said = match window(&arguments) {
        Some(status) => return status,
        None => cli::answer_in(arguments, words::Words::of_system()),
    };
    print(&said)
}

fn print(said: &cli::Said) -> ExitCode {
    // A reader that has gone away is no fault of the answer.
    let _ = std::io::stdout().lock().write_all(said.out.as_bytes());
    let _ = std::io::stderr().lock().write_all(said.err.as_bytes());
    ExitCode::from(said.status)
}

/// Opens the window if that is what is asked. Where it can't be opened the command line says
/// why.
#[cfg(feature = "gui")]
fn window(arguments: &[OsString]) -> Option<ExitCode> {
    #[cfg(target_os = "linux")]
    if let Some(known) = app::desktop::asked_for_fonts() {
        return Some(if known { ExitCode::SUCCESS } else { ExitCode::FAILURE });
    }
    let file = match cli::asks_for_the_window(arguments.iter().cloned())? {
        cli::WindowOn::Kept => None,
        // What is kept of it must hold in another folder too.
        cli::WindowOn::File(file) => Some(std::path::absolute(&file).unwrap_or(file)),
    };
    Some(match app::run(job::Store::desktop_folder(), file.as_deref(), app::Desktop) {
        Ok(()) => ExitCode::SUCCESS,
        Err(problem) => {
            let words = words::Words::of(words::Words::of_system());
            print(&cli::without_window(arguments.iter().cloned(), &words, &problem.say(&words)))
        }
    })
}

#[cfg(not(feature = "gui"))]
const fn window(_arguments: &[OsString]) -> Option<ExitCode> {
    None
}
