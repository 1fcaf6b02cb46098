//! Any question as a row of a form: its inputs to type or choose, its answers under them.
//!
//! What is typed is kept in the session as `QUESTION.INPUT`. An input that nobody has typed
//! takes what the plan has for it, and says so. While something can't be read the last
//! answer stays, grey.

use super::parts::text_part;
use super::question_asked::{ask, belongs, label_of, read, row_of};
use super::row_id::RowId;
use super::{question_inputs, question_results};
use crate::app::rows::model;
use crate::app::{State, ui};
use crate::engine::EngineError;
use crate::job::say_refusal;
use crate::questions::{self, Answers, Kind, Problem, Question};
use crate::words::List;

/// The row of a question.
pub(crate) fn row(state: &State, question: &'static Question) -> ui::FormRow {
    let id = row_of(question).to_string();
    let (asked, reply) = ask(state, question);
    let mut parts = question_inputs::parts(state, &asked);
    let mut made = ui::FormRow {
        label: state.word(&format!("question-{}", question.name)),
        open: state.open.borrow().rows.contains(&id),
        problem: asked.problems.first().map(|(_, said)| said.into()).unwrap_or_default(),
        ..ui::FormRow::default()
    };
    let mut current = false;
    match reply {
        Some(Ok(reply)) => {
            let (first, results) = question_results::parts(state, question, &reply);
            made.value = first.into();
            parts.extend(results);
            state.keep_reply(question.name, Some(reply));
            current = true;
        }
        Some(Err(Problem::Missing { keys })) => parts.push(missing(state, question, &keys)),
        // What is asked first; the other fields stand empty beside it.
        Some(Err(Problem::MissingSeveral { each })) => {
            parts.extend(each.first().map(|keys| missing(state, question, keys)));
        }
        // What is given is sound, and there is no answer to it.
        Some(Err(problem @ Problem::Engine(EngineError::NoAnswer { .. }))) => {
            made.value = state.word("tool-no-answer");
            parts.push(text_part(&format!("{id}-refused"), say_refusal(&problem, &state.words)));
            state.keep_reply(question.name, None);
            current = true;
        }
        Some(Err(problem)) => {
            made.problem = say(state, question, &problem).into();
            parts.push(ui::PartRow {
                problem: made.problem.clone(),
                ..text_part(&format!("{id}-refused"), String::new())
            });
        }
        None => {}
    }
    if let Some(last) = state.last_reply(question.name).filter(|_| !current) {
        let (first, results) = question_results::stale(state, question, &last);
        made.value = first.into();
        made.note = state.word("plan-stale");
        made.stale = true;
        parts.push(text_part(&format!("{id}-stale"), state.words.get("plan-stale")));
        parts.extend(results);
    }
    parts.extend(question_inputs::clear_part(state, question));
    made.id = id.into();
    made.parts = model(parts);
    made
}

/// The inputs of a question as a row that stands open, from one of them on: what comes of them is
/// shown elsewhere.
pub(crate) fn inputs_row(state: &State, question: &'static Question, first: &str) -> ui::FormRow {
    let (asked, _) = read(state, question);
    let mut parts = question_inputs::parts(state, &asked);
    let first = RowId::Question(format!("{}.{first}", question.name)).to_string();
    let at = parts.iter().position(|part| part.id == first).unwrap_or(0);
    parts.rotate_left(at);
    parts.extend(question_inputs::clear_part(state, question));
    ui::FormRow {
        id: row_of(question).to_string().into(),
        label: state.word("cycle-inputs"),
        problem: asked.problems.first().map(|(_, said)| said.into()).unwrap_or_default(),
        open: true,
        pinned: true,
        parts: model(parts),
        ..ui::FormRow::default()
    }
}

/// The inputs of some keys, of which one is enough.
fn either(state: &State, question: &Question, keys: &[&str]) -> String {
    let names = keys.iter().filter_map(|key| question.input(key));
    let names: Vec<String> = names.map(|input| label_of(&state.words, input)).collect();
    state.words.list(List::Or, &names)
}

fn missing(state: &State, question: &Question, keys: &[&str]) -> ui::PartRow {
    let fields = either(state, question, keys);
    let said = state.words.with("tool-type", &[("fields", &fields)]);
    text_part(&format!("{}-missing", row_of(question)), said)
}

/// What the question refuses, with the names of the fields.
fn say(state: &State, question: &Question, problem: &Problem) -> String {
    match problem {
        Problem::OnlyOne { keys } => {
            let names = keys.iter().filter_map(|key| question.input(key));
            let names: Vec<String> = names.map(|input| label_of(&state.words, input)).collect();
            state.words.with("error-only-one", &[("keys", &state.words.list(List::Comma, &names))])
        }
        other => say_refusal(other, &state.words),
    }
}

/// What a question is asked with; none while some of it can't be read.
pub(crate) fn answers(state: &State, question: &'static Question) -> Option<Answers> {
    read(state, question).1
}

/// What is typed for an input, `QUESTION.INPUT`, was changed.
pub(crate) fn typed(state: &State, input: &str, text: &str) {
    state.change(|session| {
        // An empty field says nothing: what the plan has for it counts again.
        if text.trim().is_empty() {
            session.typed.remove(input);
        } else {
            session.typed.insert(input.to_owned(), text.to_owned());
        }
    });
}

/// A choice was made for an input, `QUESTION.INPUT`.
pub(crate) fn chosen(state: &State, input: &str, index: usize) {
    let found = input.split_once('.').and_then(|(name, key)| questions::find(name)?.input(key));
    let text = match found.map(|input| input.kind) {
        Some(Kind::Choice(offered)) => offered.get(index).copied().unwrap_or_default(),
        Some(Kind::Flag) => ["no", "yes"][index.min(1)],
        _ => return,
    };
    state.change(|session| {
        session.choices.insert(input.to_owned(), text.to_owned());
    });
}

/// What is typed and chosen for a question goes, and with it its last answer.
pub(super) fn clear(state: &State, name: &str) {
    let Some(question) = questions::find(name) else { return };
    state.change(|session| {
        session.typed.retain(|key, _| !belongs(key, question));
        session.choices.retain(|key, _| !belongs(key, question));
    });
    state.keep_reply(question.name, None);
}
