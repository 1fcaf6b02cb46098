//! The command line: `plan`, `ask`, `log`, `card`, `backup`, `restore`, `help`, or a file for the window.
//!
//! Exit status: 0 answered, 1 no safe answer, 2 not understood.

mod arguments;
mod ask;
mod ask_text;
#[cfg(not(target_os = "android"))]
mod backup;
mod card;
mod cycle;
mod help;
mod json_keys;
mod log;
mod open;
mod outcome_json;
mod plan;
mod plan_json;
mod plan_text;
mod said;
mod sequence_json;
mod weld_json;

use std::ffi::OsString;
use std::path::PathBuf;

use arguments::{Command, Request};
pub use plan::{KeyProblem, read_plan_arguments};
pub use said::Said;

use crate::log::Brought;
use crate::words::Words;

/// Exit status: answered.
pub const ANSWERED: u8 = 0;
/// Exit status: no safe answer.
pub const NO_SAFE_ANSWER: u8 = 1;
/// Exit status: not understood.
pub const NOT_UNDERSTOOD: u8 = 2;

/// Is the window asked for, by the program's own name or with a file?
pub fn asks_for_the_window(arguments: impl IntoIterator<Item = OsString>) -> Option<WindowOn> {
    match Request::read(arguments).ok()?.command {
        Command::Window => Some(WindowOn::Kept),
        // What can't be opened is said by the command line.
        Command::Open { file } => Brought::read(file.as_ref()).is_ok().then(|| WindowOn::File(file.into())),
        _ => None,
    }
}

/// What the window begins with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum WindowOn {
    /// What was left.
    Kept,
    /// A file.
    File(PathBuf),
}

/// What is said in place of the window: why it can't be opened, in the language of the system, and the
/// demo's plan.
pub fn without_window(arguments: impl IntoIterator<Item = OsString>, words: &Words, why: &str) -> Said {
    match Request::read(arguments) {
        Ok(request) => match &request.command {
            Command::Open { file } => open::without_window(file, &request, words, why),
            _ => plan::without_window(&request, words, why),
        },
        Err(problem) => Said::not_understood(problem.say(words), false),
    }
}

/// What a command line says, without printing it: in English unless it states a language.
pub fn answer(arguments: impl IntoIterator<Item = OsString>) -> Said {
    answer_in(arguments, Words::ENGLISH)
}

/// The same for a system that speaks a language. An answer as JSON is the same on every system: its texts
/// are English unless a language is stated.
pub fn answer_in(arguments: impl IntoIterator<Item = OsString>, system: &str) -> Said {
    let arguments: Vec<OsString> = arguments.into_iter().collect();
    // Who asks for JSON gets it for what is not understood too, wherever the option stands.
    let as_json = arguments.iter().any(|argument| argument == "--json");
    let words = Words::of(match arguments::stated_language(&arguments) {
        Some(stated) => stated,
        None if as_json => Words::ENGLISH,
        None => system,
    });
    let request = match Request::read(arguments) {
        Ok(request) => request,
        Err(problem) => return Said::not_understood(problem.say(&words), as_json),
    };
    if !request.json {
        words.write_in(request.units.scales());
    }
    match &request.command {
        Command::Window => plan::without_window(&request, &words, &words.get("cli-built-without-window")),
        Command::Open { file } => {
            open::without_window(file, &request, &words, &words.get("cli-built-without-window"))
        }
        #[cfg(not(target_os = "android"))]
        Command::Backup { words: given } => backup::backup(given, &request, &words),
        #[cfg(not(target_os = "android"))]
        Command::Restore { words: given } => backup::restored(given, &request, &words),
        // A phone has no command line that a person reaches.
        #[cfg(target_os = "android")]
        Command::Backup { .. } | Command::Restore { .. } => {
            Said::not_understood(words.get("cli-log-no-folder"), request.json)
        }
        Command::Version => Said::answered(format!("strawblue {}\n", env!("CARGO_PKG_VERSION"))),
        Command::Help { about } => help::help(about.as_deref(), &request, &words),
        Command::Ask { question, pairs } => ask::ask(question.as_deref(), pairs, &request, &words),
        Command::Card { words: given, options } => card::card(given, options, &request, &words),
        Command::Log { given } => log::log(given, &request, &words),
        Command::Plan { file, pairs } => plan::plan(file.as_deref(), pairs, &request, &words),
    }
}
