//! Any question as a row of a form: its inputs to type or choose, its answers under them.
//!
//! What is typed is kept in the session as `QUESTION.INPUT`. An input that nobody has typed
//! takes what the plan has for it, and shows that in grey.

use super::parts::{fields, list, segments};
use super::row_id::RowId;
use crate::app::rows::model;
use crate::app::screen_values::{basis_kind, choice};
use crate::app::{State, ui};
use crate::engine::{EngineError, Outcome, Unit};
use crate::job::{Reading, read_answers, say_refusal, shown_unit};
use crate::questions::{Input, Kind, Preset, Problem, Question, Reply};
use crate::reference::tint::TintData;
use crate::report::{Pen, band, basis_mark, of_unit, source_line};

/// More choices than this fold into a list.
const SEGMENTS: usize = 3;

/// What an input is taken to be while nothing is typed: its key and the text.
pub(crate) type Presets = Vec<(&'static str, String)>;

/// The row of a question.
pub(crate) fn row(state: &State, question: &'static Question, presets: &Presets) -> ui::FormRow {
    let id = RowId::Question(question.name.to_owned()).to_string();
    let mut pairs = Vec::new();
    for input in question.inputs {
        let given = given(state, question, input)
            .or_else(|| presets.iter().find(|(key, _)| *key == input.key).map(|(_, text)| text.clone()));
        pairs.extend(given.map(|text| (input.key.to_owned(), text)));
    }
    let own_steels = state.session(|session| session.own_steels.clone());
    let units = state.session(|session| session.units);
    let reading = Reading { reference: state.reference, own_steels: &own_steels, units };
    let read = read_answers(question, &pairs, &reading);
    let problems: Vec<(String, String)> = read.as_ref().err().map_or_else(Vec::new, |problems| {
        problems.iter().map(|problem| (problem.key.clone(), problem.say(&state.words))).collect()
    });
    let asked = read.ok().map(|answers| question.ask(&answers));
    let mut parts = inputs(state, question, presets, &problems);
    let mut value = String::new();
    let mut wrong = problems.first().map_or_else(String::new, |(_, said)| said.clone());
    match asked {
        Some(Ok(reply)) => {
            value = results(state, question, &reply, &mut parts);
        }
        Some(Err(problem @ (Problem::Missing { .. } | Problem::MissingSeveral { .. }))) => {
            // What is asked first; the other fields stand empty beside it.
            let keys = match problem {
                Problem::Missing { keys } => keys,
                Problem::MissingSeveral { each } => each.into_iter().next().unwrap_or_default(),
                _ => Vec::new(),
            };
            let names: Vec<String> =
                keys.iter().map(|key| state.words.get(&format!("input-{key}")).to_lowercase()).collect();
            let said = state.words.with("tool-type", &[("fields", &names.join(", "))]);
            parts.push(text_part(&format!("{id}-missing"), said));
        }
        // What is given is sound, and there is no answer to it.
        Some(Err(problem @ Problem::Engine(EngineError::NoAnswer { .. }))) => {
            value = state.words.get("tool-no-answer");
            parts.push(text_part(&format!("{id}-refused"), say_refusal(&problem, &state.words)));
        }
        Some(Err(problem)) => {
            wrong = say_refusal(&problem, &state.words);
            parts.push(ui::PartRow {
                problem: wrong.as_str().into(),
                ..text_part(&format!("{id}-refused"), String::new())
            });
        }
        None => {}
    }
    ui::FormRow {
        label: state.word(&format!("question-{}", question.name)),
        value: value.into(),
        problem: wrong.into(),
        open: state.open.borrow().rows.contains(&id),
        id: id.into(),
        parts: model(parts),
        ..ui::FormRow::default()
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

fn kept_key(question: &Question, input: &Input) -> String {
    format!("{}.{}", question.name, input.key)
}

/// What is typed or chosen for an input.
fn given(state: &State, question: &Question, input: &Input) -> Option<String> {
    let key = kept_key(question, input);
    state.session(|session| {
        let from = if input.kind.numeric() { &session.typed } else { &session.choices };
        from.get(&key).filter(|text| !text.trim().is_empty()).cloned()
    })
}

/// What is typed for an input, `QUESTION.INPUT`, was changed.
pub(crate) fn typed(state: &State, input: &str, text: &str) {
    state.change(|session| {
        session.typed.insert(input.to_owned(), text.to_owned());
    });
}

/// A choice was made for an input, `QUESTION.INPUT`.
pub(crate) fn chosen(state: &State, input: &str, index: usize) {
    let found = input.split_once('.').and_then(|(name, key)| crate::questions::find(name)?.input(key));
    let text = match found.map(|input| input.kind) {
        Some(Kind::Choice(offered)) => offered.get(index).copied().unwrap_or_default(),
        Some(Kind::Flag) => ["no", "yes"][index.min(1)],
        _ => return,
    };
    state.change(|session| {
        session.choices.insert(input.to_owned(), text.to_owned());
    });
}

/// The inputs: numbers two and two, choices as segments or a list.
fn inputs(
    state: &State,
    question: &'static Question,
    presets: &Presets,
    problems: &[(String, String)],
) -> Vec<ui::PartRow> {
    let mut parts: Vec<ui::PartRow> = Vec::new();
    let mut line: Vec<ui::FieldRow> = Vec::new();
    let flush = |line: &mut Vec<ui::FieldRow>, parts: &mut Vec<ui::PartRow>| {
        if let Some(first) = line.first() {
            let id = format!("{}-line", first.id);
            parts.push(fields(&id, std::mem::take(line)));
        }
    };
    for input in question.inputs {
        if input.kind.numeric() {
            line.push(field(state, question, input, presets, problems));
            if line.len() == 2 {
                flush(&mut line, &mut parts);
            }
            continue;
        }
        flush(&mut line, &mut parts);
        parts.push(choice_part(state, question, input));
    }
    flush(&mut line, &mut parts);
    parts
}

fn field(
    state: &State,
    question: &Question,
    input: &Input,
    presets: &Presets,
    problems: &[(String, String)],
) -> ui::FieldRow {
    let unit = shown_unit(input.kind, state.session(|session| session.units));
    let preset = presets.iter().find(|(key, _)| *key == input.key).map(|(_, text)| text.clone());
    // The field writes its unit by itself.
    let bare = |text: &str| text.split('\u{a0}').next().unwrap_or_default().to_owned();
    // What surrounds the part is no figure of the plan.
    let of_plan = |text: &String| match input.key {
        "surroundings-most" => bare(text),
        _ => state.words.with("tool-of-plan", &[("figure", &bare(text))]),
    };
    let hint = preset.as_ref().map(of_plan).or_else(|| match input.default {
        Some(Preset::Number(value)) => Some(match input.kind {
            Kind::Temperature => bare(&state.show().temperature(value).main),
            Kind::Length => bare(&state.show().length(value).main),
            _ => state.show().number(value, 3),
        }),
        _ => None,
    });
    let problem = problems.iter().find(|(key, _)| key == input.key).map(|(_, said)| said.as_str());
    ui::FieldRow {
        id: RowId::Question(kept_key(question, input)).to_string().into(),
        label: state.word(&format!("input-{}", input.key)),
        text: given(state, question, input).unwrap_or_default().into(),
        unit: unit.into(),
        hint: hint.unwrap_or_default().into(),
        problem: problem.unwrap_or_default().into(),
        derived: false,
    }
}

fn choice_part(state: &State, question: &Question, input: &Input) -> ui::PartRow {
    let id = RowId::Question(kept_key(question, input));
    let label = format!("input-{}", input.key);
    let kept = given(state, question, input);
    match input.kind {
        Kind::Choice(offered) => {
            let preset = match input.default {
                Some(Preset::Choice(id)) => Some(id),
                _ => None,
            };
            let choices = offered
                .iter()
                .map(|id| choice(id, state.word(&format!("option-{id}")), "", ""))
                .collect::<Vec<_>>();
            let at = kept.as_deref().or(preset).and_then(|id| offered.iter().position(|known| *known == id));
            let short = choices.iter().all(|row| row.label.chars().count() <= 24);
            if offered.len() <= SEGMENTS && short {
                segments(state, &id, &label, choices, at)
            } else {
                list(state, &id, &label, "tool-choose", choices, at)
            }
        }
        _ => {
            let choices = vec![
                choice("no", state.word("form-no"), "", ""),
                choice("yes", state.word("form-yes"), "", ""),
            ];
            segments(state, &id, &label, choices, Some(usize::from(kept.as_deref() == Some("yes"))))
        }
    }
}

/// The answers and what must be said beside them; comes back with the first in short.
fn results(state: &State, question: &Question, reply: &Reply, parts: &mut Vec<ui::PartRow>) -> String {
    let pen = state.pen();
    let mut first = String::new();
    for outcome in &reply.answers {
        // A range too wide to use is no figure.
        let useless = reply.notes.contains(&"ir-no-use");
        let (main, second) =
            if useless { (pen.words.get("ir-no-use-short"), String::new()) } else { said(&pen, outcome) };
        if first.is_empty() {
            first.clone_from(&main);
        }
        for (label, value) in crayons(&pen, outcome) {
            parts.push(result_part(&format!("{}-{label}", outcome.name), label, value, String::new()));
        }
        let mark = basis_mark(&pen, &outcome.basis);
        let label = pen.words.get(&format!("answer-{}", outcome.name));
        parts.push(ui::PartRow {
            basis_kind: basis_kind(&mark),
            basis_label: mark.label.into(),
            ..result_part(outcome.name, label, main, second)
        });
    }
    parts.extend(surface(state, question));
    for note in &reply.notes {
        parts.push(text_part(&format!("{}-{note}", question.name), pen.words.get(&format!("note-{note}"))));
    }
    first
}

/// The emissivity that was reckoned with, and where it comes from.
fn surface(state: &State, question: &Question) -> Option<ui::PartRow> {
    let pen = state.pen();
    let chosen = given(state, question, question.input("surface")?)?;
    let row = TintData::embedded().surface(chosen.strip_prefix("surface-")?)?;
    let mark = basis_mark(&pen, &row.basis);
    let range = format!("{}–{}", pen.show.number(row.low, 2), pen.show.number(row.high, 2));
    Some(ui::PartRow {
        basis_kind: basis_kind(&mark),
        basis_label: mark.label.into(),
        ..result_part(
            &format!("{}-emissivity", question.name),
            pen.words.get("tool-emissivity"),
            range,
            source_line(&pen, &row.basis),
        )
    })
}

/// A pair of crayons is what it asks for: the range that it proves comes after.
fn crayons(pen: &Pen<'_>, outcome: &Outcome) -> Vec<(String, String)> {
    ["melts", "stays"]
        .iter()
        .filter_map(|symbol| {
            let step = outcome.steps.iter().find(|step| step.symbol == *symbol)?;
            let both = pen.show.temperature(step.value);
            Some((
                pen.words.get(&format!("tint-crayon-{symbol}")),
                format!("{} ({})", both.main, both.second),
            ))
        })
        .collect()
}

/// An answer in the reader's unit and in the other: a range of temperatures is rounded outwards.
fn said(pen: &Pen<'_>, outcome: &Outcome) -> (String, String) {
    match (outcome.value, outcome.low, outcome.high, outcome.unit) {
        (None, Some(low), Some(high), Unit::Celsius) => {
            let both = band(pen, low, high);
            (both.main, both.second)
        }
        (None, None, Some(high), Unit::Celsius) => {
            let both = pen.show.minimum(high, None);
            let most = |figure: &str| pen.words.with("tint-at-most", &[("figure", figure)]);
            (most(&both.main), most(&both.second))
        }
        (None, Some(low), None, Unit::Celsius) => {
            let both = pen.show.maximum(low, None);
            let least = |figure: &str| pen.words.with("tool-from", &[("figure", figure)]);
            (least(&both.main), least(&both.second))
        }
        (Some(value), _, _, unit) => (of_unit(value, unit, &pen.show), String::new()),
        _ => (pen.words.get("cli-no-figure"), String::new()),
    }
}
