//! Carbon equivalents.

use strum::IntoEnumIterator;

use super::answers::{GRADE_MIDDLE, GRADE_UPPER};
use super::{Answers, COMPOSITION, Input, Kind, Preset, Problem, Question, Reply, Work, shared};
use crate::engine::carbon_equivalent::{Equivalent, carbon_equivalent};
use crate::engine::{Step, Unit};
use crate::reference::embedded;

const FORMULAS: &[&str] = &["all", "ce-iiw", "cet", "pcm", "cen", "ce-si6", "ce-wes", "ceq-bands-equivalent"];

/// One carbon equivalent, or all of them.
pub(super) static CARBON_EQUIVALENT: Question = Question {
    name: "carbon-equivalent",
    work: Work::Steel,
    inputs: &[
        shared::STEEL.required(),
        Input::new("formula", Kind::Choice(FORMULAS)).or(Preset::Choice("all")),
    ],
    answers: &["ce-iiw", "cet", "pcm", "cen", "ce-si6", "ce-wes", "ceq-bands-equivalent"],
    notes: &[GRADE_MIDDLE, GRADE_UPPER],
    answer,
};

fn answer(given: &Answers) -> Result<Reply, Problem> {
    let steel = given.analysis().ok_or_else(|| Problem::Missing { keys: vec![COMPOSITION] })?;
    let asked = given.maybe_choice("formula").unwrap_or("all");
    let mut answers = Vec::new();
    let (mut upper, mut middle) = (false, false);
    for which in Equivalent::iter().filter(|which| asked == "all" || asked == which.id()) {
        let mut outcome =
            carbon_equivalent(which, embedded().methods.row(which.method()), &steel.composition)?;
        // What the grade may have above its middle, where the plan counts it.
        let spread = match which {
            Equivalent::CeIiw => steel.ce_add,
            Equivalent::Cet => steel.cet_add,
            Equivalent::Pcm => steel.pcm_add,
            _ => 0.0,
        };
        if spread > 0.0 {
            outcome.value = outcome.value.map(|value| value + spread);
            outcome.steps.push(Step::new("spread of the grade", spread, Unit::Percent));
        }
        upper |= spread > 0.0;
        middle |= spread == 0.0;
        answers.push(outcome);
    }
    Ok(Reply::of(answers)
        .note_of(given.grade_note(true).filter(|_| upper))
        .note_of(given.grade_note(false).filter(|_| middle)))
}
