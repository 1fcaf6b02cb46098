//! Strawblue: an offline bench reference for welding hardenable steel.

#[cfg(feature = "window")]
pub mod app;
pub mod cli;
pub mod engine;
pub mod job;
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
        None => cli::answer(arguments),
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
    if !cli::asks_for_the_window(arguments.iter().cloned()) {
        return None;
    }
    Some(match app::run(job::Store::desktop_folder()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(problem) => {
            let why = problem.say(&words::Words::english());
            print(&cli::without_window(arguments.iter().cloned(), &why))
        }
    })
}

#[cfg(not(feature = "gui"))]
const fn window(_arguments: &[OsString]) -> Option<ExitCode> {
    None
}
