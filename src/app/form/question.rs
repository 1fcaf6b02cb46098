//! Any question as a row of a form: its inputs to type or choose, its answers under them.
//!
//! What is typed is kept in the session as `QUESTION.INPUT`. An input that nobody has typed
//! takes what the plan has for it, and says so. While something can't be read the last
//! answer stays, grey.

use super::parts::text_part;
pub(crate) use super::question_asked::{Asked, Replied, ask};
use super::question_asked::{belongs, keys_of, label_of, read, row_of};
use super::question_plan::PlanFacts;
use super::row_id::RowId;
use super::{question_inputs, question_results};
use crate::app::rows::model;
use crate::app::{State, ui};
use crate::engine::EngineError;
use crate::job::{Reading, say_refusal};
use crate::questions::{self, Answers, Kind, Problem, Question, Reply};
use crate::words::List;

/// How a question stands with what is given for it.
pub(crate) enum Stands {
    /// It is answered.
    Answered(Reply),
    /// Of each of these groups of inputs one is needed first.
    Missing(Vec<Vec<&'static str>>),
    /// What is given is sound, and there is no answer to it: why.
    Refused(String),
    /// What is given does not go together: why.
    Wrong(String),
    /// Something that is typed can't be read; its field says so.
    Unread,
    /// The answer is being worked out.
    Working,
}

/// A question as it stands.
pub(crate) struct Found {
    /// What is typed, and what is taken beside it.
    pub(crate) asked: Asked,
    /// How it stands.
    pub(crate) stands: Stands,
    /// The last answer, where there is none to what is typed now.
    pub(crate) last: Option<Reply>,
}

impl Found {
    /// The first of what can't be used.
    pub(crate) fn problem(&self) -> String {
        match (&self.stands, self.asked.problems.first()) {
            (Stands::Wrong(why), _) => why.clone(),
            (_, Some((_, said))) => said.clone(),
            (_, None) => String::new(),
        }
    }

    /// The fields that can't be used, by their names; what is wrong stands under each.
    pub(crate) fn bad_fields(&self, state: &State) -> Vec<String> {
        self.asked.bad_fields(&state.words)
    }

    /// All inputs, drawn.
    pub(crate) fn inputs(&self, state: &State) -> Vec<ui::PartRow> {
        question_inputs::parts(state, &self.asked)
    }
}

/// Asks a question with what is given for it, and keeps its answer.
pub(crate) fn find(state: &State, question: &'static Question) -> Found {
    let (asked, reply) = ask(state, question);
    let stands = stands(state, question, reply);
    match &stands {
        Stands::Answered(reply) => state.keep_reply(question.name, Some(reply.clone())),
        Stands::Refused(_) => state.keep_reply(question.name, None),
        _ => {}
    }
    let now = matches!(stands, Stands::Answered(_) | Stands::Refused(_));
    let last = state.last_reply(question.name).filter(|_| !now);
    Found { asked, stands, last }
}

/// What has come of asking, in words where it is no answer.
pub(crate) fn stands(state: &State, question: &'static Question, reply: Replied) -> Stands {
    match reply {
        Replied::Now(Ok(reply)) => Stands::Answered(reply),
        Replied::Now(Err(Problem::Missing { keys })) => Stands::Missing(vec![keys]),
        Replied::Now(Err(Problem::MissingSeveral { each })) => Stands::Missing(each),
        Replied::Now(Err(problem @ Problem::Engine(EngineError::NoAnswer { .. }))) => {
            Stands::Refused(say_refusal(&problem, &state.words))
        }
        Replied::Now(Err(problem)) => Stands::Wrong(say(state, question, &problem)),
        Replied::Working => Stands::Working,
        Replied::Unread => Stands::Unread,
    }
}

/// The row of a question.
pub(crate) fn row(state: &State, question: &'static Question) -> ui::FormRow {
    let id = row_of(question).to_string();
    let found = find(state, question);
    let mut parts = found.inputs(state);
    let mut made = ui::FormRow {
        label: state.word(&format!("question-{}", question.name)),
        open: state.open.borrow().rows.contains(&id),
        problem: found.problem().into(),
        ..ui::FormRow::default()
    };
    match &found.stands {
        Stands::Answered(reply) => {
            let mut results = question_results::of(state, question, reply);
            made.value = results.summary(state, reply).into();
            // That a reading is of no use stands before what was typed.
            parts.splice(0..0, results.verdict.take());
            parts.extend(results.parts());
        }
        // What is asked first; the other fields stand empty beside it.
        Stands::Missing(each) => {
            let needed = missing(state, question, &each[..each.len().min(1)]);
            let said = state.words.with("tool-type", &[("fields", &needed)]);
            parts.push(text_part(&format!("{id}-missing"), said));
        }
        Stands::Refused(why) => {
            made.value = state.word("tool-no-answer");
            parts.push(text_part(&format!("{id}-refused"), why.clone()));
        }
        Stands::Wrong(why) => parts
            .push(ui::PartRow { problem: why.into(), ..text_part(&format!("{id}-refused"), String::new()) }),
        Stands::Working => {
            made.value = state.word("bench-working");
            parts.push(text_part(&format!("{id}-working"), state.words.get("bench-working")));
        }
        Stands::Unread => {}
    }
    if let Some(last) = &found.last {
        let (first, results) = question_results::stale(state, question, last);
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

/// What stands before any figure of its answer: that it is of no use, and what is known all the same.
pub(crate) fn verdict(state: &State, question: &'static Question) -> Option<String> {
    match find(state, question).stands {
        Stands::Answered(reply) => {
            question_results::of(state, question, &reply).verdict.map(|part| part.label.to_string())
        }
        _ => None,
    }
}

/// The inputs of a question as a row that stands open, from one of them on: what comes of them is
/// shown elsewhere.
pub(crate) fn inputs_row(
    state: &State,
    question: &'static Question,
    first: &str,
    needed: &[&str],
) -> ui::FormRow {
    let asked =
        Asked { needed: needed.iter().map(|key| (*key).to_owned()).collect(), ..read(state, question) };
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

/// All that is missing; of each group one is enough.
pub(crate) fn missing(state: &State, question: &Question, each: &[Vec<&'static str>]) -> String {
    let fields: Vec<String> = each.iter().map(|keys| either(state, question, keys)).collect();
    state.words.list(List::Semicolon, &fields)
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

/// What is typed and chosen for a question, to draw its inputs one by one.
pub(crate) fn asked(state: &State, question: &'static Question) -> Asked {
    read(state, question)
}

/// What a question is asked with; none while some of it can't be read.
pub(crate) fn answers(state: &State, question: &'static Question) -> Option<Answers> {
    read(state, question).given
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
pub(crate) fn clear(state: &State, name: &str) {
    let Some(question) = questions::find(name) else { return };
    state.change(|session| {
        session.typed.retain(|key, _| !belongs(key, question));
        session.choices.retain(|key, _| !belongs(key, question));
    });
    state.keep_reply(question.name, None);
}

/// What is typed and chosen over something that the plan knows: the keys of the session.
pub(crate) fn over_the_plan(state: &State, question: &'static Question) -> Vec<String> {
    let Some(plan) = PlanFacts::beside(state, question) else { return Vec::new() };
    let own_steels = state.session(|session| session.own_steels.clone());
    let units = state.session(|session| session.units);
    let reading = Reading {
        reference: state.reference,
        own_steels: &own_steels,
        units,
        mark: state.show().typed_mark(),
    };
    let says = plan.says();
    let known: Vec<_> =
        question.inputs.iter().filter(|input| says.given(input, &reading).is_some()).collect();
    // What says the same as the plan's stands in its way too.
    let in_its_way = |input: &&questions::Input| {
        known
            .iter()
            .any(|other| std::ptr::eq(*other, *input) || input.group.is_some() && input.group == other.group)
    };
    let keys = question.inputs.iter().filter(in_its_way).flat_map(keys_of);
    let keys: Vec<String> = keys.map(|key| format!("{}.{key}", question.name)).collect();
    state.session(|session| {
        let given = |key: &String| {
            session
                .typed
                .get(key)
                .or_else(|| session.choices.get(key))
                .is_some_and(|text| !text.trim().is_empty())
        };
        keys.into_iter().filter(given).collect()
    })
}

/// The plan's own values come back in place of what is typed over them.
pub(crate) fn take_from_plan(state: &State, question: &'static Question) {
    let over = over_the_plan(state, question);
    state.change(|session| {
        for key in &over {
            session.typed.remove(key);
            session.choices.remove(key);
        }
    });
}
