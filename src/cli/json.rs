//! Answers as JSON: figures in the engine's units, whatever the reader's are.

use serde_json::{Value, json};

use super::plan_json::BasisJson;
use crate::engine::Outcome;

/// One answer of the engine.
pub(super) fn outcome(outcome: &Outcome) -> Value {
    let range: Vec<Value> = outcome
        .range
        .iter()
        .map(|check| {
            json!({
                "symbol": check.symbol, "value": check.value, "low": check.low, "high": check.high,
                "inside": check.inside(),
            })
        })
        .collect();
    let steps: Vec<Value> = outcome
        .steps
        .iter()
        .map(|step| json!({ "symbol": step.symbol, "value": step.value, "unit": step.unit.symbol() }))
        .collect();
    json!({
        "name": outcome.name,
        "value": outcome.value,
        "unit": outcome.unit.symbol(),
        "low": outcome.low,
        "high": outcome.high,
        "in_range": outcome.in_range(),
        "range": range,
        "steps": steps,
        "basis": BasisJson::from(&outcome.basis),
    })
}
