//! What is asked of a question: what is typed and chosen for it, and what is taken beside that.

use super::question_plan::PlanFacts;
use super::row_id::RowId;
use crate::app::State;
use crate::job::{Begun, Reading, STEEL, begun, beside_plan};
use crate::questions::{Answers, COMPOSITION, Input, Kind, Problem, Question, Reply};
use crate::words::Words;

/// A question with what is typed for it and what is taken beside that.
pub(crate) struct Asked {
    /// The question.
    pub(super) question: &'static Question,
    /// Is something typed or chosen for it?
    pub(crate) touched: bool,
    /// What is taken where nothing is typed or chosen.
    pub(crate) begun: Vec<Begun>,
    /// All that is given and taken, where all of it can be read.
    pub(crate) given: Option<Answers>,
    /// Keys of what is still wanted for an answer, though each may be left out beside another.
    pub(super) needed: Vec<String>,
    /// Keys of what can't be used, each with why.
    pub(super) problems: Vec<(String, String)>,
}

/// What comes of asking.
pub(crate) enum Replied {
    /// The answer, or why there is none.
    Now(Result<Reply, Problem>),
    /// It is being worked out.
    Working,
    /// Something that is typed can't be read.
    Unread,
}

impl Asked {
    /// What is taken for an input while nothing is typed or chosen.
    pub(super) fn begun(&self, input: &Input) -> Option<&Begun> {
        self.begun.iter().find(|begun| begun.key == input.key)
    }

    /// Does what is taken for another input say what this one would?
    pub(super) fn says_so(&self, input: &Input) -> bool {
        let group = input.group.filter(|group| group.exclusive);
        let mut others = self.begun.iter().filter_map(|begun| self.question.input(begun.key));
        group.is_some() && others.any(|other| other.group == group)
    }

    /// The names of the fields that can't be used, each once.
    pub(crate) fn bad_fields(&self, words: &Words) -> Vec<String> {
        let bad = |key: &&str| self.problems.iter().any(|(of, _)| of == key);
        let inputs = self.question.inputs.iter().filter(|input| keys_of(input).iter().any(bad));
        inputs.map(|input| label_of(words, input)).collect()
    }

    /// Why what is typed under a key can't be used; empty where it can.
    pub(super) fn problem(&self, key: &str) -> &str {
        self.problems.iter().find(|(of, _)| of == key).map_or("", |(_, said)| said)
    }
}

/// The id of the row of a question.
pub(super) fn row_of(question: &Question) -> RowId {
    RowId::Question(question.name.to_owned())
}

/// What is typed and chosen for a question, what is taken beside it, and what comes of asking.
pub(crate) fn ask(state: &State, question: &'static Question) -> (Asked, Replied) {
    let asked = read(state, question);
    let replied = asked.given.as_ref().map_or(Replied::Unread, |given| {
        state.desk.answer(question, given).map_or(Replied::Working, Replied::Now)
    });
    (asked, replied)
}

/// The same without asking.
pub(super) fn read(state: &State, question: &'static Question) -> Asked {
    let mut pairs = Vec::new();
    let mut touched = Vec::new();
    for input in question.inputs {
        for key in keys_of(input) {
            if let Some(text) = given(state, question, key) {
                pairs.push(((*key).to_owned(), text));
                touched.push(input);
            }
        }
    }
    let own_steels = state.session(|session| session.own_steels.clone());
    let units = state.session(|session| session.units);
    let reading = Reading {
        reference: state.reference,
        own_steels: &own_steels,
        units,
        mark: state.show().typed_mark(),
    };
    let plan = PlanFacts::beside(state, question);
    let says = plan.as_ref().map(PlanFacts::says);
    let begun = begun(question, &touched, says.as_ref(), &reading);
    let read = beside_plan(question, &pairs, &begun, says.as_ref(), &reading);
    let problems = read.as_ref().err().map_or_else(Vec::new, |problems| {
        problems.iter().map(|problem| (problem.key.clone(), problem.say(&state.words))).collect()
    });
    let touched = !pairs.is_empty();
    Asked { question, touched, begun, given: read.ok(), needed: Vec::new(), problems }
}

/// The keys under which an input may be typed: a steel by its name or by its certificate.
pub(super) fn keys_of(input: &'static Input) -> &'static [&'static str] {
    match input.kind {
        Kind::Composition => &[STEEL, COMPOSITION],
        _ => std::slice::from_ref(&input.key),
    }
}

/// What an input is called on the screen.
pub(super) fn label_of(words: &Words, input: &Input) -> String {
    match input.kind {
        Kind::Composition => words.get("field-steel"),
        _ => words.get(&format!("input-{}", input.key)),
    }
}

/// What is typed or chosen under a key of a question.
pub(super) fn given(state: &State, question: &Question, key: &str) -> Option<String> {
    let chosen = matches!(question.input(key).map(|input| input.kind), Some(Kind::Choice(_) | Kind::Flag));
    let key = format!("{}.{key}", question.name);
    state.session(|session| {
        let from = if chosen { &session.choices } else { &session.typed };
        from.get(&key).filter(|text| !text.trim().is_empty()).cloned()
    })
}

/// Is this key of the session an input of the question?
pub(super) fn belongs(key: &str, question: &Question) -> bool {
    key.split_once('.').is_some_and(|(name, _)| name == question.name)
}
