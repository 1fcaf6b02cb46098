//! An outcome of the engine as JSON: one shape, in a plan and in an answer. Figures stand in the
//! engine's units, whatever the reader's are.

use serde::Serialize;

use crate::engine::{Checked, Outcome, Step};
use crate::reference::{Basis, Methods, Printed};

/// One outcome.
#[derive(Debug, Serialize)]
pub(super) struct OutcomeJson {
    method: &'static str,
    name: &'static str,
    says: &'static str,
    row: Option<String>,
    value: Option<f64>,
    unit: &'static str,
    low: Option<f64>,
    high: Option<f64>,
    raw: Option<f64>,
    printed: Option<Printed>,
    at_least: bool,
    in_range: bool,
    inputs: Vec<InputJson>,
    steps: Vec<StepJson>,
    basis: BasisJson,
}

impl OutcomeJson {
    /// An outcome with what it rests on.
    pub(super) fn of(outcome: &Outcome, methods: &Methods) -> Self {
        Self {
            method: outcome.method.id(),
            name: outcome.name,
            says: outcome.says.id(),
            row: outcome.row.clone(),
            value: outcome.value,
            unit: outcome.unit.symbol(),
            low: outcome.low,
            high: outcome.high,
            raw: outcome.raw,
            printed: outcome.printed,
            at_least: outcome.at_least,
            in_range: outcome.in_range(),
            inputs: outcome.inputs.iter().map(InputJson::from).collect(),
            steps: outcome.steps.iter().map(StepJson::from).collect(),
            basis: BasisJson::from(outcome.basis(methods)),
        }
    }
}

/// What was given, what counted, and the limits.
#[derive(Debug, Serialize)]
struct InputJson {
    symbol: &'static str,
    value: f64,
    used: f64,
    unit: &'static str,
    low: Option<f64>,
    high: Option<f64>,
    inside: bool,
}

impl From<&Checked> for InputJson {
    fn from(input: &Checked) -> Self {
        Self {
            symbol: input.symbol,
            value: input.value,
            used: input.used,
            unit: input.unit.symbol(),
            low: input.low,
            high: input.high,
            inside: input.inside(),
        }
    }
}

#[derive(Debug, Serialize)]
struct StepJson {
    symbol: &'static str,
    value: f64,
    unit: &'static str,
}

impl From<&Step> for StepJson {
    fn from(step: &Step) -> Self {
        Self { symbol: step.symbol, value: step.value, unit: step.unit.symbol() }
    }
}

/// What a figure rests on.
#[derive(Debug, Serialize)]
pub(super) struct BasisJson {
    kind: &'static str,
    source: Option<String>,
    clause: Option<String>,
    of: Option<String>,
}

impl From<&Basis> for BasisJson {
    fn from(basis: &Basis) -> Self {
        let mut made = Self { kind: basis.kind(), source: None, clause: None, of: None };
        match basis {
            Basis::Published { source, clause } => {
                made.source = Some(source.to_string());
                made.clause = Some(clause.to_string());
            }
            Basis::Memory { of } => made.of = Some(of.to_string()),
            Basis::Practice => {}
        }
        made
    }
}
