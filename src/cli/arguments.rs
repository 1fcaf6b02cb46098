//! From the words of a command line to a request.

use std::ffi::OsString;

use crate::units::{Problem, Units, shortened};
use crate::words::Words;

/// What is asked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Command {
    /// Nothing: the window.
    Window,
    /// The version.
    Version,
    /// Help, on a command where one is named.
    Help {
        /// The command.
        about: Option<String>,
    },
    /// A question, or the list of them.
    Ask {
        /// Name of the question.
        question: Option<String>,
        /// Keys and values in the order given.
        pairs: Vec<(String, String)>,
    },
    /// A plan.
    Plan {
        /// A job file.
        file: Option<String>,
        /// Keys and values in the order given.
        pairs: Vec<(String, String)>,
    },
}

/// A request with the options that stand anywhere.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Request {
    pub(super) command: Command,
    /// Answer as JSON?
    pub(super) json: bool,
    /// Units of bare numbers and of the answer.
    pub(super) units: Units,
    /// Were the units stated?
    pub(super) units_stated: bool,
}

/// Why a command line was not understood.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum ArgumentProblem {
    /// An argument is no text.
    NotText(String),
    /// No such command.
    UnknownCommand(String),
    /// No such option.
    UnknownOption(String),
    /// `--units` without them.
    UnitsMissing,
    /// Units that are none.
    Units(Problem),
    /// A word where `key=value` is meant.
    NoPair(String),
    /// A second file.
    SecondFile(String),
}

impl ArgumentProblem {
    pub(super) fn say(&self, words: &Words) -> String {
        let (key, given) = match self {
            Self::NotText(given) => ("cli-not-text", given),
            Self::UnknownCommand(given) => ("cli-unknown-command", given),
            Self::UnknownOption(given) => ("cli-unknown-option", given),
            Self::UnitsMissing => return words.get("cli-units-missing"),
            Self::Units(problem) => return problem.say(words),
            Self::NoPair(given) => ("cli-no-pair", given),
            Self::SecondFile(given) => ("cli-second-file", given),
        };
        words.with(key, &[("given", &shortened(given))])
    }
}

impl Request {
    /// The request of a command line, the program's own name first.
    pub(super) fn read(arguments: impl IntoIterator<Item = OsString>) -> Result<Self, ArgumentProblem> {
        let mut words = Vec::new();
        let mut request =
            Self { command: Command::Window, json: false, units: Units::default(), units_stated: false };
        let (mut help, mut version) = (false, false);
        let mut rest = arguments.into_iter().skip(1);
        while let Some(argument) = rest.next() {
            let text = text_of(argument)?;
            match text.as_str() {
                "--json" => request.json = true,
                "--help" | "-h" => help = true,
                "--version" | "-V" => version = true,
                "--units" => {
                    let units = rest.next().ok_or(ArgumentProblem::UnitsMissing)?;
                    request.set_units(&text_of(units)?)?;
                }
                text if text.starts_with("--units=") => request.set_units(&text["--units=".len()..])?,
                text if text.starts_with("--") => {
                    return Err(ArgumentProblem::UnknownOption(text.to_owned()));
                }
                _ => words.push(text),
            }
        }
        let mut words = words.into_iter();
        let first = words.next();
        request.command = match (first.as_deref(), help, version) {
            (_, false, true) => Command::Version,
            (Some(about), true, _) => Command::Help { about: Some(about.to_owned()) },
            (None, true, _) => Command::Help { about: None },
            (None, ..) => Command::Window,
            (Some("help"), ..) => Command::Help { about: words.next() },
            (Some("ask"), ..) => {
                let question = words.next();
                Command::Ask { question, pairs: words.map(pair).collect::<Result<_, _>>()? }
            }
            (Some("plan"), ..) => plan(words)?,
            (Some(other), ..) => return Err(ArgumentProblem::UnknownCommand(other.to_owned())),
        };
        Ok(request)
    }

    fn set_units(&mut self, text: &str) -> Result<(), ArgumentProblem> {
        self.units = Units::read(text).map_err(ArgumentProblem::Units)?;
        self.units_stated = true;
        Ok(())
    }
}

fn text_of(argument: OsString) -> Result<String, ArgumentProblem> {
    argument.into_string().map_err(|bytes| ArgumentProblem::NotText(bytes.to_string_lossy().into_owned()))
}

fn pair(word: String) -> Result<(String, String), ArgumentProblem> {
    match word.split_once('=') {
        Some((key, value)) if !key.trim().is_empty() => Ok((key.trim().to_owned(), value.to_owned())),
        _ => Err(ArgumentProblem::NoPair(word)),
    }
}

/// A file first, where there is one, then keys and values, which come before the file's.
fn plan(words: impl Iterator<Item = String>) -> Result<Command, ArgumentProblem> {
    let (mut file, mut pairs) = (None, Vec::new());
    for word in words {
        // A path may hold `=`; one that ends as a job file does is a file.
        let is_file = std::path::Path::new(&word).extension().is_some_and(|ending| ending == "ron");
        match (word.split_once('='), is_file) {
            (Some((key, _)), _) if crate::job::Slot::from_id(key).is_some() => pairs.push(pair(word)?),
            (_, true) if file.is_none() => file = Some(word),
            (_, true) => return Err(ArgumentProblem::SecondFile(word)),
            _ => pairs.push(pair(word)?),
        }
    }
    Ok(Command::Plan { file, pairs })
}
