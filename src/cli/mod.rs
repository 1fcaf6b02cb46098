//! The command line: `plan`, `ask`, `help`.
//!
//! Exit status: 0 answered, 1 no safe answer, 2 not understood.

mod arguments;
mod ask;
mod ask_text;
mod cycle;
mod help;
mod json_keys;
mod outcome_json;
mod plan;
mod plan_json;
mod plan_text;
mod said;
mod sequence_json;
mod weld_json;

use std::ffi::OsString;

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

/// Is the window all that is asked, by the program's own name and nothing else?
pub fn asks_for_the_window(arguments: impl IntoIterator<Item = OsString>) -> bool {
    Request::read(arguments).is_ok_and(|request| matches!(request.command, Command::Window))
}

/// What is said in place of the window: why it can't be opened, and the demo's plan.
pub fn without_window(arguments: impl IntoIterator<Item = OsString>, why: &str) -> Said {
    let words = Words::english();
    match Request::read(arguments) {
        Ok(request) => plan::without_window(&request, &words, why),
        Err(problem) => Said::not_understood(problem.say(&words), false),
    }
}

/// What a command line says, without printing it.
pub fn answer(arguments: impl IntoIterator<Item = OsString>) -> Said {
    said(arguments)
}

fn said(arguments: impl IntoIterator<Item = OsString>) -> Said {
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
