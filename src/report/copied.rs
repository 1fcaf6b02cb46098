//! A copied plan for a reader of another language: what has a code is said anew, what is text stays as it was
//! written, and one line says so.

use crate::log::{PlanCopy, StepCopy};
use crate::words::Words;

/// What a step asks for.
#[must_use]
pub fn step_what(words: &Words, plan: &PlanCopy, step: &StepCopy) -> String {
    anew(words, plan, &format!("then-{}", step.deed)).unwrap_or_else(|| step.what.clone())
}

/// The way that begins with a step; empty where none does.
#[must_use]
pub fn step_head(words: &Words, plan: &PlanCopy, step: &StepCopy) -> String {
    let said =
        (!step.head.is_empty()).then(|| anew(words, plan, &format!("then-branch-{}", step.branch))).flatten();
    said.unwrap_or_else(|| step.head.clone())
}

/// In which language a copied plan's sentences stand, where it is not the reader's.
#[must_use]
pub fn written_in(words: &Words, plan: &PlanCopy) -> Option<String> {
    is_foreign(words, plan).then(|| {
        let language = words.get(&format!("language-{}", plan.language));
        words.with("log-plan-language", &[("language", &language)])
    })
}

/// Not known of copies that were made before the language was kept.
fn is_foreign(words: &Words, plan: &PlanCopy) -> bool {
    !plan.language.is_empty() && plan.language != words.language()
}

fn anew(words: &Words, plan: &PlanCopy, key: &str) -> Option<String> {
    if !is_foreign(words, plan) || !words.has(key) {
        return None;
    }
    // The name of a part is in the text alone: a message that wants one keeps its hole.
    Some(words.get(key)).filter(|said| !said.contains('{'))
}
