//! A question asked with bare numbers and ids, and its figures.

use strawblue::questions::{self, Answers, Given, Problem, Reply};

/// What is given: numbers in the unit of their kind, and ids of choices.
pub(super) fn given(numbers: &[(&str, f64)], choices: &[(&str, &str)]) -> Answers {
    let given =
        numbers.iter().fold(Answers::new(), |all, (key, value)| all.with(*key, Given::Number(*value)));
    choices.iter().fold(given, |all, (key, id)| all.with(*key, Given::Choice((*id).to_owned())))
}

/// Asks a question.
pub(super) fn ask(name: &str, numbers: &[(&str, f64)], choices: &[(&str, &str)]) -> Result<Reply, Problem> {
    questions::find(name).expect("a question").ask(&given(numbers, choices))
}

/// The figure of an answer; no number where there is none.
pub(super) fn figure(reply: &Reply, name: &str) -> f64 {
    reply.answer(name).and_then(|found| found.value).unwrap_or(f64::NAN)
}

/// The key of what it is refused with.
pub(super) fn refused(reply: Result<Reply, Problem>) -> String {
    reply.expect_err("it is refused").key()
}

/// Two figures that are the same but for so much.
pub(super) fn near(found: f64, is: f64, within: f64) {
    assert!((found - is).abs() <= within, "{found} is not {is} within {within}");
}
