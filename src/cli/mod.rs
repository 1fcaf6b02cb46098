//! The command line: `plan`, `ask`, `help`.
//!
//! Exit status: 0 answered, 1 no safe answer, 2 not understood.

mod arguments;
mod ask;
mod ask_text;
mod help;
mod json;
mod json_keys;
mod plan;
mod plan_json;
mod plan_text;
mod said;

use std::ffi::OsString;
use std::io::Write;
use std::process::ExitCode;

use arguments::{Command, Request};
pub use plan::{KeyProblem, read_plan_arguments};
pub use said::Said;

use crate::words::Words;

/// Exit status: answered.
pub const ANSWERED: u8 = 0;
/// Exit status: no safe answer.
pub const NO_SAFE_ANSWER: u8 = 1;
/// Exit status: not understood.
pub const NOT_UNDERSTOOD: u8 = 2;

/// Runs a command line, the program's own name first: opens the window where nothing is
/// asked, and prints what it says otherwise.
pub fn run(arguments: impl IntoIterator<Item = OsString>) -> ExitCode {
    let arguments: Vec<OsString> = arguments.into_iter().collect();
    let said = match window(&arguments) {
        Some(said) => said,
        None => answer(arguments),
    };
    // A reader that has gone away is no fault of the answer.
    let _ = std::io::stdout().lock().write_all(said.out.as_bytes());
    let _ = std::io::stderr().lock().write_all(said.err.as_bytes());
    ExitCode::from(said.status)
}

/// Opens the window if that is what is asked, and says what there is to say when it is
/// closed, or can't be opened.
#[cfg(feature = "gui")]
fn window(arguments: &[OsString]) -> Option<Said> {
    let request = Request::read(arguments.iter().cloned()).ok()?;
    if !matches!(request.command, Command::Window) {
        return None;
    }
    Some(match crate::app::run(crate::log::Store::desktop_folder()) {
        Ok(()) => Said::answered(String::new()),
        Err(problem) => {
            let words = Words::english();
            plan::without_window(&request, &words, &problem.say(&words))
        }
    })
}

#[cfg(not(feature = "gui"))]
const fn window(_arguments: &[OsString]) -> Option<Said> {
    None
}

/// What a command line says, without printing it.
pub fn answer(arguments: impl IntoIterator<Item = OsString>) -> Said {
    let words = Words::english();
    let arguments: Vec<OsString> = arguments.into_iter().collect();
    // Who asks for JSON gets it for what is not understood too, wherever the option stands.
    let as_json = arguments.iter().any(|argument| argument == "--json");
    let request = match Request::read(arguments) {
        Ok(request) => request,
        Err(problem) => return Said::not_understood(problem.say(&words), as_json),
    };
    if !request.json {
        words.write_in(request.units.scales());
    }
    match &request.command {
        Command::Window => plan::without_window(&request, &words, &words.get("cli-built-without-window")),
        Command::Version => Said::answered(format!("strawblue {}\n", env!("CARGO_PKG_VERSION"))),
        Command::Help { about } => help::help(about.as_deref(), &request, &words),
        Command::Ask { question, pairs } => ask::ask(question.as_deref(), pairs, &request, &words),
        Command::Plan { file, pairs } => plan::plan(file.as_deref(), pairs, &request, &words),
    }
}
