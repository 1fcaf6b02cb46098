//! Carbon equivalents.

use super::{Answers, Input, Kind, Preset, Problem, Question, Reply, shared};
use crate::engine::carbon_equivalent::{Equivalent, carbon_equivalent};

const FORMULAS: &[&str] = &["all", "ce-iiw", "cet", "pcm", "cen", "ce-si6", "ce-wes", "ceq-bands-equivalent"];

/// One carbon equivalent, or all of them.
pub(super) static CARBON_EQUIVALENT: Question = Question {
    name: "carbon-equivalent",
    inputs: &[
        shared::STEEL.required(),
        Input::new("formula", Kind::Choice(FORMULAS)).or(Preset::Choice("all")),
    ],
    answers: &["ce-iiw", "cet", "pcm", "cen", "ce-si6", "ce-wes", "ceq-bands-equivalent"],
    notes: &[],
    answer,
};

fn answer(given: &Answers) -> Result<Reply, Problem> {
    let steel = given.composition()?;
    let asked = given.maybe_choice("formula").unwrap_or("all");
    let answers: Result<Vec<_>, _> = Equivalent::ALL
        .into_iter()
        .filter(|which| asked == "all" || asked == which.id())
        .map(|which| carbon_equivalent(which, steel))
        .collect();
    Ok(Reply::of(answers?))
}
