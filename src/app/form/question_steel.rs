//! The steel that a question is asked for, as the session keeps it.

use crate::job::{STEEL, Session};
use crate::questions::{self, COMPOSITION, Question};

fn key(question: &Question, input: &str) -> String {
    format!("{}.{input}", question.name)
}

/// The question whose steel an input, `QUESTION.INPUT`, is; none where it is another.
pub(super) fn steel_asked(input: &str) -> Option<&'static Question> {
    let (name, key) = input.split_once('.')?;
    questions::find(name).filter(|_| key == STEEL)
}

/// What the session keeps the steel of a question under, `QUESTION.INPUT`.
pub(crate) fn steel_key(question: &Question) -> String {
    key(question, STEEL)
}

/// The steel that is chosen for a question.
pub(crate) fn steel_of(session: &Session, question: &Question) -> String {
    session.typed.get(&key(question, STEEL)).cloned().unwrap_or_default()
}

/// A steel is taken for a question, in place of the one before it.
pub(crate) fn take_steel(session: &mut Session, question: &Question, steel: &str) {
    session.typed.remove(&key(question, COMPOSITION));
    session.typed.insert(key(question, STEEL), steel.to_owned());
}
