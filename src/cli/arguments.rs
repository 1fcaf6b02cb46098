//! From the words of a command line to a request.

use std::ffi::OsString;

use crate::units::{Problem, Units, shortened};
use crate::words::{List, Words};

/// What is asked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Command {
    /// Nothing: the window.
    Window,
    /// The window, on a file.
    Open {
        /// The file.
        file: String,
    },
    /// All that is kept, into one file.
    Backup {
        /// The words after the command.
        words: Vec<String>,
    },
    /// All of such a file, back.
    Restore {
        /// The words after the command.
        words: Vec<String>,
    },
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
    /// The job card of a log, or its readings as a table.
    Card {
        /// The words after the command.
        words: Vec<String>,
        /// The options that only it has.
        options: Vec<String>,
    },
    /// The log of what was done.
    Log {
        /// What is done with it, and on what.
        given: Vec<String>,
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
    /// `--language` without one that there are words of.
    Language,
    /// A word where `key=value` is meant.
    NoPair(String),
    /// A second file.
    SecondFile(String),
}

/// The option that states a language, and the same with its value in one word.
const LANGUAGE: &str = "--language";
const LANGUAGE_IS: &str = "--language=";

/// The language that a command line states, before anything else of it is read: problems are said in it.
pub(super) fn stated_language(arguments: &[OsString]) -> Option<&'static str> {
    let texts: Vec<&str> = arguments.iter().filter_map(|argument| argument.to_str()).collect();
    let behind = texts.windows(2).find(|pair| pair[0] == LANGUAGE).map(|pair| pair[1]);
    let within = || texts.iter().find_map(|text| text.strip_prefix(LANGUAGE_IS));
    Words::known(behind.or_else(within)?)
}

/// The tags that can be stated.
pub(super) fn languages(words: &Words) -> String {
    words.list(List::Comma, &Words::languages().collect::<Vec<_>>())
}

impl ArgumentProblem {
    pub(super) fn say(&self, words: &Words) -> String {
        let (key, given) = match self {
            Self::NotText(given) => ("cli-not-text", given),
            Self::UnknownCommand(given) => ("cli-unknown-command", given),
            Self::UnknownOption(given) => ("cli-unknown-option", given),
            Self::UnitsMissing => return words.get("cli-units-missing"),
            Self::Units(problem) => return problem.say(words),
            Self::Language => return words.with("cli-language", &[("known", &languages(words))]),
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
        let mut of_card = Vec::new();
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
                LANGUAGE => {
                    let tag = rest.next().map(text_of).transpose()?.unwrap_or_default();
                    Words::known(&tag).ok_or(ArgumentProblem::Language)?;
                }
                text if text.starts_with(LANGUAGE_IS) => {
                    Words::known(&text[LANGUAGE_IS.len()..]).ok_or(ArgumentProblem::Language)?;
                }
                text if super::card::OPTIONS.contains(&text) => of_card.push(text.to_owned()),
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
            (Some("log"), ..) => Command::Log { given: words.collect() },
            (Some("plan"), ..) => plan(words)?,
            (Some("card"), ..) => Command::Card { words: words.collect(), options: of_card.clone() },
            (Some("backup"), ..) => Command::Backup { words: words.collect() },
            (Some("restore"), ..) => Command::Restore { words: words.collect() },
            (Some(other), ..) => match (looks_like_a_file(other), words.next()) {
                (true, None) => Command::Open { file: other.to_owned() },
                (true, Some(second)) => return Err(ArgumentProblem::SecondFile(second)),
                (false, _) => return Err(ArgumentProblem::UnknownCommand(other.to_owned())),
            },
        };
        match of_card.into_iter().next() {
            Some(option) if !matches!(request.command, Command::Card { .. } | Command::Help { .. }) => {
                Err(ArgumentProblem::UnknownOption(option))
            }
            _ => Ok(request),
        }
    }

    fn set_units(&mut self, text: &str) -> Result<(), ArgumentProblem> {
        self.units = Units::read(text).map_err(ArgumentProblem::Units)?;
        self.units_stated = true;
        Ok(())
    }
}

/// A word that is no command may name a file: one that is there, or one that is written as a file is.
fn looks_like_a_file(word: &str) -> bool {
    word.contains(['/', '.']) || std::path::Path::new(word).exists()
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
