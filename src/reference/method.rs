//! A calculation method: a row of `data/methods.ron`. Where it stands beside others as evidence, its
//! name is the Fluent message `evidence-ID`.

use serde::{Deserialize, Serialize};

use super::{Basis, Row};

/// The limits that a method states for one of its inputs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct InputLimit {
    /// The symbol in the equation: `C`, `CET`, `d`, `HD`, `Q` …
    pub symbol: String,
    /// Its unit.
    pub unit: String,
    /// Lower limit, where stated.
    pub low: Option<f64>,
    /// Upper limit, where stated.
    pub high: Option<f64>,
}

/// One method with its basis and its range.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Method {
    /// Stable id in kebab-case.
    pub id: String,
    /// What the equation or table rests on.
    pub basis: Basis,
    /// The range of each input; empty where the source states none.
    #[serde(default)]
    pub limits: Vec<InputLimit>,
    /// What the range rests on, where that differs from the equation.
    pub limits_basis: Option<Basis>,
    /// Is it shown beside the plan without ever governing?
    #[serde(default)]
    pub shown_only: bool,
    /// Further sources.
    #[serde(default)]
    pub see: Vec<String>,
}

impl Method {
    /// The limits of one input.
    #[must_use]
    pub fn limit(&self, symbol: &str) -> Option<&InputLimit> {
        self.limits.iter().find(|limit| limit.symbol == symbol)
    }
}

impl Row for Method {
    fn id(&self) -> &str {
        &self.id
    }
}
