//! Any question as a row of a form: its inputs to type or choose, its answers under them.
//!
//! What is typed is kept in the session as `QUESTION.INPUT`. An input that nobody has typed
//! takes what the plan has for it, and says so. While something can't be read the last
//! answer stays, grey.

use super::question_plan::PlanFacts;
use super::{question_inputs, question_results};
use crate::app::rows::model;
use crate::app::{State, ui};
use crate::engine::EngineError;
use crate::job::{Reading, STEEL, Session, read_answers, say_refusal};
use crate::questions::{self, Answers, COMPOSITION, Given, Input, Kind, Problem, Question, Reply};
use crate::words::{List, Words};

/// What the id of a row, a field or a choice of a question begins with.
pub(crate) const ASKS: &str = "ask:";

/// What an input is taken to be while nothing is typed or chosen.
pub(super) struct Begun {
    /// Its key.
    pub(super) key: &'static str,
    /// The value.
    pub(super) given: Given,
    /// Is it the plan's?
    pub(super) of_plan: bool,
}

/// A question with what is typed for it and what is taken beside that.
pub(super) struct Asked {
    /// The question.
    pub(super) question: &'static Question,
    /// What is taken where nothing is typed or chosen.
    pub(super) begun: Vec<Begun>,
    /// Keys of what can't be used, each with why.
    pub(super) problems: Vec<(String, String)>,
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

    /// Why what is typed under a key can't be used; empty where it can.
    pub(super) fn problem(&self, key: &str) -> &str {
        self.problems.iter().find(|(of, _)| of == key).map_or("", |(_, said)| said)
    }
}

/// The row of a question.
pub(crate) fn row(state: &State, question: &'static Question) -> ui::FormRow {
    let id = format!("{ASKS}{}", question.name);
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

/// What is typed and chosen for a question, what is taken beside it, and the answer where all
/// of it can be read.
fn ask(state: &State, question: &'static Question) -> (Asked, Option<Result<Reply, Problem>>) {
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
    let reading = Reading { reference: state.reference, own_steels: &own_steels, units };
    let plan = PlanFacts::of(state);
    // What is typed takes the place of all that says the same.
    let open = |input: &&Input| {
        !touched
            .iter()
            .any(|other| std::ptr::eq(*other, *input) || input.group.is_some() && other.group == input.group)
    };
    let begun: Vec<Begun> = question
        .inputs
        .iter()
        .filter(open)
        .filter_map(|input| {
            let of_plan = plan.as_ref().and_then(|plan| plan.given(state, input));
            let in_form = || input.in_form.map(|preset| (preset.given(), false));
            let (given, of_plan) = of_plan.map(|given| (given, true)).or_else(in_form)?;
            Some(Begun { key: input.key, given, of_plan })
        })
        .collect();
    let read = read_answers(question, &pairs, &reading);
    let problems = read.as_ref().err().map_or_else(Vec::new, |problems| {
        problems.iter().map(|problem| (problem.key.clone(), problem.say(&state.words))).collect()
    });
    let reply = read.ok().map(|mut answers: Answers| {
        for taken in &begun {
            answers.set(taken.key, taken.given.clone());
            if let (Given::Steel(_), Some(plan)) = (&taken.given, &plan) {
                plan.steel_notes().into_iter().for_each(|note| answers.note(note));
            }
        }
        question.ask(&answers)
    });
    (Asked { question, begun, problems }, reply)
}

/// The keys under which an input may be typed: a steel by its name or by its certificate.
fn keys_of(input: &'static Input) -> &'static [&'static str] {
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

/// The same inside a sentence: a symbol keeps its capitals.
fn in_sentence(label: &str) -> String {
    let mut letters = label.chars();
    match (letters.next(), letters.clone().next()) {
        (Some(first), Some(second)) if second.is_lowercase() => first.to_lowercase().chain(letters).collect(),
        _ => label.to_owned(),
    }
}

/// The inputs of some keys as a choice in a sentence.
fn either(state: &State, question: &Question, keys: &[&str]) -> String {
    let names = keys.iter().filter_map(|key| question.input(key));
    let names = names.map(|input| in_sentence(&label_of(&state.words, input)));
    names
        .reduce(|one, other| state.words.with("tool-either", &[("one", &one), ("other", &other)]))
        .unwrap_or_default()
}

fn missing(state: &State, question: &Question, keys: &[&str]) -> ui::PartRow {
    let fields = either(state, question, keys);
    let said = state.words.with("tool-type", &[("fields", &fields)]);
    text_part(&format!("{ASKS}{}-missing", question.name), said)
}

/// What the question refuses, with the names of the fields.
fn say(state: &State, question: &Question, problem: &Problem) -> String {
    match problem {
        Problem::OnlyOne { keys } => {
            let names = keys.iter().filter_map(|key| question.input(key));
            let names: Vec<String> = names.map(|input| label_of(&state.words, input)).collect();
            state.words.with("error-only-one", &[("keys", &names.join(", "))])
        }
        other => say_refusal(other, &state.words),
    }
}

/// A line of text.
pub(crate) fn text_part(id: &str, text: String) -> ui::PartRow {
    ui::PartRow {
        kind: ui::PartKind::Note,
        id: id.into(),
        label: text.into(),
        chosen: -1,
        choices: model(Vec::new()),
        fields: model(Vec::new()),
        ..ui::PartRow::default()
    }
}

/// A result: what it is, the figure, a note and what it rests on.
pub(crate) fn result_part(id: &str, label: String, value: String, note: String) -> ui::PartRow {
    ui::PartRow { kind: ui::PartKind::Result, value: value.into(), note: note.into(), ..text_part(id, label) }
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

/// A field was changed; `false` where it is no question's.
pub(crate) fn typed(state: &State, id: &str, text: &str) -> bool {
    let Some(key) = id.strip_prefix(ASKS) else { return false };
    state.change(|session| {
        // An empty field says nothing: what the plan has for it counts again.
        if text.trim().is_empty() {
            session.typed.remove(key);
        } else {
            session.typed.insert(key.to_owned(), text.to_owned());
        }
    });
    true
}

/// A choice was made; `false` where it is no question's.
pub(crate) fn chosen(state: &State, id: &str, index: usize) -> bool {
    let Some((name, key)) = id.strip_prefix(ASKS).and_then(|rest| rest.split_once('.')) else { return false };
    let Some(input) = questions::find(name).and_then(|question| question.input(key)) else {
        return true;
    };
    let text = match input.kind {
        Kind::Choice(offered) => offered.get(index).copied().unwrap_or_default(),
        Kind::Flag => ["no", "yes"][index.min(1)],
        _ => return true,
    };
    state.change(|session| {
        session.choices.insert(format!("{name}.{key}"), text.to_owned());
    });
    true
}

/// A button was pressed: what is typed and chosen for a question goes, and with it its last
/// answer. `false` where it is no question's.
pub(crate) fn cleared(state: &State, id: &str) -> bool {
    let Some(question) = id.strip_prefix(ASKS).and_then(questions::find) else { return false };
    state.change(|session| {
        session.typed.retain(|key, _| !belongs(key, question));
        session.choices.retain(|key, _| !belongs(key, question));
    });
    state.keep_reply(question.name, None);
    true
}

/// Is this key of the session an input of the question?
pub(super) fn belongs(key: &str, question: &Question) -> bool {
    key.split_once('.').is_some_and(|(name, _)| name == question.name)
}

/// The question whose steel a pick asks for; none where it is no question's.
pub(crate) fn steel_asked(id: &str) -> Option<&'static Question> {
    let name = id.strip_prefix(ASKS)?.strip_suffix(STEEL)?.strip_suffix('.')?;
    questions::find(name)
}

/// The id of that pick.
pub(crate) fn steel_pick(question: &Question) -> String {
    format!("{ASKS}{}.{STEEL}", question.name)
}

/// The steel that is chosen for a question.
pub(crate) fn steel_of(state: &State, question: &Question) -> String {
    given(state, question, STEEL).unwrap_or_default()
}

/// A steel is taken for a question, in place of the one before it.
pub(crate) fn take_steel(session: &mut Session, question: &Question, steel: &str) {
    session.typed.remove(&format!("{}.{COMPOSITION}", question.name));
    session.typed.insert(format!("{}.{STEEL}", question.name), steel.to_owned());
}

/// The questions for which a steel of this name is chosen.
pub(crate) fn with_steel<'a>(
    session: &'a Session,
    called: impl Fn(&str) -> bool + 'a,
) -> impl Iterator<Item = &'static Question> + 'a {
    let chosen = move |question: &&'static Question| {
        session.typed.get(&format!("{}.{STEEL}", question.name)).is_some_and(|name| called(name))
    };
    questions::ALL.iter().copied().filter(chosen)
}

/// A steel of the reader's own goes: a question keeps its figures as a certificate.
pub(crate) fn keep_certificate(session: &mut Session, question: &Question, grade: &str, composition: &str) {
    take_steel(session, question, grade);
    session.typed.insert(format!("{}.{COMPOSITION}", question.name), composition.to_owned());
}
