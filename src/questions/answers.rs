//! What a person has given to a question, and what is wrong with it.

use std::collections::BTreeMap;

use thiserror::Error;

use crate::engine::EngineError;
use crate::engine::chemistry::Chemistry;
use crate::engine::error::check_composition;
use crate::engine::job::Steel;
use crate::reference::{Composition, Joint, embedded};

/// One given value, parsed to the engine's unit.
#[derive(Debug, Clone, PartialEq)]
pub enum Given {
    /// A number in the unit of the input's kind.
    Number(f64),
    /// The id of a choice.
    Choice(String),
    /// Text.
    Text(String),
    /// Yes or no.
    Flag(bool),
    /// A composition.
    Composition(Composition),
    /// A steel, whose analysis is that of a plan.
    Steel(Box<Steel>),
}

/// What is wrong with a question's inputs, or why it has no answer. The words are the
/// Fluent message of [`Problem::key`].
#[derive(Debug, Clone, PartialEq, Error)]
pub enum Problem {
    /// One of these inputs must be given.
    #[error("missing: one of {keys:?}")]
    Missing {
        /// Keys, any of which will do.
        keys: Vec<&'static str>,
    },
    /// Of each of these groups one input must be given.
    #[error("missing: of each one of {each:?}")]
    MissingSeveral {
        /// The groups, each with keys of which any will do.
        each: Vec<Vec<&'static str>>,
    },
    /// These inputs say one thing, and more than one of them is given.
    #[error("only one of {keys:?} can be given")]
    OnlyOne {
        /// Keys.
        keys: Vec<&'static str>,
    },
    /// Travel speed and a timed run both say how fast the arc travelled.
    #[error("travel speed and a timed run are both given")]
    TravelTwice,
    /// The question has no such input.
    #[error("no input {key}")]
    UnknownInput {
        /// The key that was given.
        key: String,
    },
    /// The value is of another kind than the input.
    #[error("{key} is of another kind")]
    WrongKind {
        /// Key of the input.
        key: &'static str,
    },
    /// A count that is no whole number.
    #[error("{key} = {value} is not a whole number")]
    NotWhole {
        /// Key of the input.
        key: &'static str,
        /// What was given.
        value: f64,
    },
    /// The choice isn't offered.
    #[error("{key} = {given} is not one of {offered:?}")]
    NotOffered {
        /// Key of the input.
        key: &'static str,
        /// What was given.
        given: String,
        /// What is offered.
        offered: &'static [&'static str],
    },
    /// The engine refuses.
    #[error(transparent)]
    Engine(#[from] EngineError),
}

impl Problem {
    /// Key of the Fluent message.
    #[must_use]
    pub fn key(&self) -> String {
        match self {
            Self::Missing { .. } => "error-missing".to_owned(),
            Self::MissingSeveral { .. } => "error-missing-several".to_owned(),
            Self::OnlyOne { .. } => "error-only-one".to_owned(),
            Self::TravelTwice => "error-travel-twice".to_owned(),
            Self::UnknownInput { .. } => "error-unknown-input".to_owned(),
            Self::WrongKind { .. } => "error-wrong-kind".to_owned(),
            Self::NotWhole { .. } => "error-not-whole".to_owned(),
            Self::NotOffered { .. } => "error-not-offered".to_owned(),
            Self::Engine(error) => error.key(),
        }
    }

    /// The values of the message, ready for Fluent; keys and symbols as they are.
    #[must_use]
    pub fn values(&self) -> Vec<(&'static str, String)> {
        match self {
            Self::Missing { keys } | Self::OnlyOne { keys } => vec![("keys", keys.join(", "))],
            Self::MissingSeveral { each } => {
                let each: Vec<String> = each.iter().map(|keys| keys.join(" / ")).collect();
                vec![("keys", each.join(", "))]
            }
            Self::TravelTwice => Vec::new(),
            Self::UnknownInput { key } => vec![("key", key.clone())],
            Self::WrongKind { key } => vec![("key", (*key).to_owned())],
            Self::NotWhole { key, value } => {
                vec![("key", (*key).to_owned()), ("value", value.to_string())]
            }
            Self::NotOffered { key, given, offered } => {
                vec![("key", (*key).to_owned()), ("given", given.clone()), ("offered", offered.join(", "))]
            }
            Self::Engine(error) => error.values(),
        }
    }
}

/// The given inputs of a question by key.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Answers {
    given: BTreeMap<String, Given>,
    notes: Vec<&'static str>,
    taken_for: Option<(String, String)>,
}

impl Answers {
    /// Nothing given.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Gives a value.
    pub fn set(&mut self, key: impl Into<String>, value: Given) {
        self.given.insert(key.into(), value);
    }

    /// The same with a value given.
    #[must_use]
    pub fn with(mut self, key: impl Into<String>, value: Given) -> Self {
        self.set(key, value);
        self
    }

    /// Adds what must be said about the way in which the steel was read.
    pub fn note(&mut self, note: &'static str) {
        self.notes.push(note);
    }

    /// What must be said about the way in which the steel was read.
    #[must_use]
    pub fn notes(&self) -> &[&'static str] {
        &self.notes
    }

    /// Keeps the name that was typed for a steel and the grade that it was taken for.
    pub fn take_for(&mut self, typed: String, grade: String) {
        self.taken_for = Some((typed, grade));
    }

    /// The name that was typed for a steel and the grade that it was taken for, where the
    /// two differ.
    #[must_use]
    pub fn taken_for(&self) -> Option<(&str, &str)> {
        self.taken_for.as_ref().map(|(typed, grade)| (typed.as_str(), grade.as_str()))
    }

    /// What is given for a key.
    #[must_use]
    pub fn get(&self, key: &str) -> Option<&Given> {
        self.given.get(key)
    }

    /// Keys of what is given.
    pub fn keys(&self) -> impl Iterator<Item = &str> {
        self.given.keys().map(String::as_str)
    }

    /// An optional number.
    #[must_use]
    pub fn maybe_number(&self, key: &str) -> Option<f64> {
        match self.given.get(key) {
            Some(Given::Number(value)) => Some(*value),
            _ => None,
        }
    }

    /// A number that must be there.
    ///
    /// # Errors
    /// It isn't.
    pub fn number(&self, key: &'static str) -> Result<f64, Problem> {
        self.maybe_number(key).ok_or_else(|| Problem::Missing { keys: vec![key] })
    }

    /// A flag; not given is no.
    #[must_use]
    pub fn flag(&self, key: &str) -> bool {
        matches!(self.given.get(key), Some(Given::Flag(true)))
    }

    /// An optional choice.
    #[must_use]
    pub fn maybe_choice(&self, key: &str) -> Option<&str> {
        match self.given.get(key) {
            Some(Given::Choice(id)) => Some(id),
            _ => None,
        }
    }

    /// A choice that must be there, as the item whose id it is.
    ///
    /// # Errors
    /// It isn't given, or no item has that id.
    pub fn choice<T: Copy>(
        &self,
        key: &'static str,
        items: &[T],
        id: fn(T) -> &'static str,
    ) -> Result<T, Problem> {
        let chosen = self.maybe_choice(key).ok_or_else(|| Problem::Missing { keys: vec![key] })?;
        items.iter().copied().find(|item| id(*item) == chosen).ok_or(Problem::WrongKind { key })
    }

    /// The joint's row, which must be there.
    ///
    /// # Errors
    /// It isn't given, or the dataset has no such row.
    pub fn joint(&self) -> Result<&'static Joint, Problem> {
        let id = self.maybe_choice("joint").ok_or_else(|| Problem::Missing { keys: vec!["joint"] })?;
        embedded().joint(id).ok_or(Problem::WrongKind { key: "joint" })
    }

    /// The analysis of the steel, where one is given: that on which a plan works, so that a
    /// single question and a plan give one figure.
    #[must_use]
    pub fn analysis(&self) -> Option<Chemistry> {
        match self.given.get(COMPOSITION) {
            Some(Given::Composition(composition)) => Some(Chemistry::certified(*composition)),
            Some(Given::Steel(steel)) => Some(Chemistry::of(steel, self.thickest_mm())),
            _ => None,
        }
    }

    /// What a cap on the grade counts at: no part is thicker than all together, and where
    /// nothing is said of it, it may be as thick as can be.
    fn thickest_mm(&self) -> f64 {
        let given = |key: &str| self.maybe_number(key);
        given("thickness").or_else(|| given("combined")).unwrap_or(f64::INFINITY)
    }

    /// An optional composition.
    #[must_use]
    pub fn maybe_composition(&self) -> Option<Composition> {
        self.analysis().map(|analysis| analysis.composition)
    }

    /// What must be said of a steel that is known by its grade only: the figure stands at
    /// the upper end of the grade, as a plan's does, or at its middle.
    #[must_use]
    pub fn grade_note(&self, at_upper_end: bool) -> Option<&'static str> {
        let analysis = self.analysis().filter(|analysis| analysis.grade_only)?;
        let capped = analysis.composition != analysis.nominal;
        Some(if at_upper_end || capped { GRADE_UPPER } else { GRADE_MIDDLE })
    }

    /// The composition, which must be there.
    ///
    /// # Errors
    /// It isn't.
    pub fn composition(&self) -> Result<Composition, Problem> {
        self.maybe_composition().ok_or_else(|| Problem::Missing { keys: vec![COMPOSITION] })
    }

    /// A number that is given, or follows from the composition.
    ///
    /// # Errors
    /// Neither is there, or the composition can't be one.
    pub fn number_or_of_composition(
        &self,
        key: &'static str,
        of: fn(&Composition) -> f64,
    ) -> Result<f64, Problem> {
        self.number_or_of_analysis(key, |analysis| of(&analysis.composition))
    }

    /// A number that is given, or follows from the analysis as a plan takes it.
    ///
    /// # Errors
    /// Neither is there, or the composition can't be one.
    pub fn number_or_of_analysis(
        &self,
        key: &'static str,
        of: impl Fn(&Chemistry) -> f64,
    ) -> Result<f64, Problem> {
        if let Some(value) = self.maybe_number(key) {
            return Ok(value);
        }
        let analysis = self.analysis().ok_or_else(|| Problem::Missing { keys: vec![COMPOSITION, key] })?;
        check_composition(&analysis.composition)?;
        Ok(of(&analysis))
    }
}

/// Said where a grade counts at its upper end.
pub(super) const GRADE_UPPER: &str = "grade-upper";
/// Said where a grade counts at its middle.
pub(super) const GRADE_MIDDLE: &str = "grade-middle";
/// Said where a certificate leaves elements out that its grade has.
pub const AT_GRADE_MAXIMUM: &str = "certificate-at-maximum";
/// Said where a certificate without a grade leaves elements out.
pub const NOT_STATED: &str = "certificate-not-stated";
/// What any question that takes a steel may say about its reading.
pub const STEEL_NOTES: [&str; 2] = [AT_GRADE_MAXIMUM, NOT_STATED];

/// Key of the one composition input.
pub const COMPOSITION: &str = "composition";
