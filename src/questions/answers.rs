//! What a person has given to a question, and what is wrong with it.

use std::collections::BTreeMap;

use thiserror::Error;

use crate::engine::EngineError;
use crate::engine::error::check_composition;
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
            Self::UnknownInput { .. } => "error-unknown-input".to_owned(),
            Self::WrongKind { .. } => "error-wrong-kind".to_owned(),
            Self::NotOffered { .. } => "error-not-offered".to_owned(),
            Self::Engine(error) => error.key(),
        }
    }

    /// The values of the message, ready for Fluent; keys and symbols as they are.
    #[must_use]
    pub fn values(&self) -> Vec<(&'static str, String)> {
        match self {
            Self::Missing { keys } => vec![("keys", keys.join(", "))],
            Self::UnknownInput { key } => vec![("key", key.clone())],
            Self::WrongKind { key } => vec![("key", (*key).to_owned())],
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

    /// An optional composition.
    #[must_use]
    pub fn maybe_composition(&self) -> Option<&Composition> {
        match self.given.get(COMPOSITION) {
            Some(Given::Composition(composition)) => Some(composition),
            _ => None,
        }
    }

    /// The composition, which must be there.
    ///
    /// # Errors
    /// It isn't.
    pub fn composition(&self) -> Result<&Composition, Problem> {
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
        if let Some(value) = self.maybe_number(key) {
            return Ok(value);
        }
        let composition =
            self.maybe_composition().ok_or_else(|| Problem::Missing { keys: vec![COMPOSITION, key] })?;
        check_composition(composition)?;
        Ok(of(composition))
    }
}

/// Key of the one composition input.
pub const COMPOSITION: &str = "composition";
