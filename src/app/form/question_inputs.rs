//! The inputs of a question: numbers two and two, choices as segments or a list, a steel as
//! what the list of steels chooses.

use slint::SharedString;

use super::echo::has_unit;
use super::parts::{action, fields, list, segments, text_part};
use super::question_asked::{Asked, belongs, given, label_of, row_of};
use super::question_plan::PlanFacts;
use super::question_steel::steel_key;
use super::row_id::RowId;
use crate::app::screen_values::choice;
use crate::app::{State, ui};
use crate::job::{STEEL, shown_unit};
use crate::questions::{COMPOSITION, Given, Input, Kind, Preset, Question};
use crate::words::List;

/// More choices than this fold into a list.
const SEGMENTS: usize = 3;
/// More letters than this on one line of choices, or in one of them, fold into a list too.
const LINE: usize = 48;
const SHORT: usize = 24;
/// A field with a longer name than this has its line to itself, so that the name is read whole.
const NAME: usize = 27;

/// All inputs.
pub(super) fn parts(state: &State, asked: &Asked) -> Vec<ui::PartRow> {
    let mut parts: Vec<ui::PartRow> = Vec::new();
    let mut line: Vec<ui::FieldRow> = Vec::new();
    let flush = |line: &mut Vec<ui::FieldRow>, parts: &mut Vec<ui::PartRow>| {
        if let Some(first) = line.first() {
            let id = format!("{}-line", first.id);
            parts.push(fields(&id, std::mem::take(line)));
        }
    };
    for input in asked.question.inputs.iter().filter(|input| counts(state, asked, input)) {
        match input.kind {
            Kind::Composition | Kind::Choice(_) | Kind::Flag => {
                flush(&mut line, &mut parts);
                parts.push(match input.kind {
                    Kind::Composition => steel_part(state, asked, input),
                    Kind::Choice(offered) => choice_part(state, asked, input, offered),
                    _ => flag_part(state, asked, input),
                });
            }
            _ => {
                let field = field(state, asked, input);
                let long = field.label.chars().count() > NAME;
                if long || line.len() == 2 {
                    flush(&mut line, &mut parts);
                }
                line.push(field);
                if long {
                    flush(&mut line, &mut parts);
                }
            }
        }
    }
    flush(&mut line, &mut parts);
    parts
}

/// One input.
pub(crate) fn one(state: &State, asked: &Asked, key: &str) -> Option<ui::PartRow> {
    let input = asked.question.input(key)?;
    Some(match input.kind {
        Kind::Composition => steel_part(state, asked, input),
        Kind::Choice(offered) => choice_part(state, asked, input, offered),
        Kind::Flag => flag_part(state, asked, input),
        _ => {
            let field = field(state, asked, input);
            fields(format!("{}-line", field.id), vec![field])
        }
    })
}

/// Does it say anything beside what is chosen? What is typed stays to be seen.
fn counts(state: &State, asked: &Asked, input: &Input) -> bool {
    let Some((key, ids)) = input.only else { return true };
    let taken = || {
        let input = asked.question.input(key)?;
        let begun = asked.begun(input).map(|begun| begun.given.clone());
        match begun.or_else(|| input.default.map(Preset::given)) {
            Some(Given::Choice(id)) => Some(id),
            _ => None,
        }
    };
    let chosen = given(state, asked.question, key).filter(|id| !id.is_empty()).or_else(taken);
    let typed = given(state, asked.question, input.key).is_some_and(|text| !text.trim().is_empty());
    typed || chosen.is_none_or(|id| ids.contains(&id.as_str()))
}

/// The button that takes away what is typed, once something is.
pub(crate) fn clear_part(state: &State, question: &Question) -> Option<ui::PartRow> {
    let typed = state.session(|session| {
        let mut all = session.typed.iter().chain(&session.choices);
        all.any(|(key, text)| belongs(key, question) && !text.trim().is_empty())
    });
    typed.then(|| action(state, row_of(question), "tool-clear"))
}

fn id_of(question: &Question, input: &Input) -> RowId {
    RowId::Question(format!("{}.{}", question.name, input.key))
}

fn field(state: &State, asked: &Asked, input: &Input) -> ui::FieldRow {
    let hint = match (asked.begun(input), input.default) {
        (Some(begun), _) => {
            let figure = figure(state, input.kind, &begun.given);
            if begun.of_plan { state.words.with("tool-of-plan", &[("figure", &figure)]) } else { figure }
        }
        (None, Some(preset)) => figure(state, input.kind, &preset.given()),
        (None, None) if asked.needed.iter().any(|key| key == input.key) => state.words.get("tool-needed"),
        (None, None) if !input.required && !input.group.is_some_and(|group| group.needed) => {
            state.words.get("tool-optional")
        }
        (None, None) if asked.says_so(input) => state.words.get("tool-or-this"),
        (None, None) => String::new(),
    };
    let text = given(state, asked.question, input.key).unwrap_or_default();
    ui::FieldRow {
        id: id_of(asked.question, input).to_string().into(),
        label: label_of(&state.words, input).into(),
        unit: unit_or_echo(state, asked, input, &text),
        text: text.into(),
        hint: hint.into(),
        problem: asked.problem(input.key).into(),
        ..ui::FieldRow::default()
    }
}

/// What stands at the end of a field: its unit, what was understood of another one, or nothing where the
/// text says its unit itself.
fn unit_or_echo(state: &State, asked: &Asked, input: &Input, text: &str) -> SharedString {
    let unit = shown_unit(input.kind, state.session(|session| session.units));
    let read = asked.given.as_ref().and_then(|given| given.maybe_number(input.key));
    let Some(value) = read.filter(|_| !unit.is_empty() && has_unit(text)) else { return unit.into() };
    if text.trim().ends_with(unit) {
        return SharedString::default();
    }
    let figure = figure(state, input.kind, &Given::Number(value));
    let understood = [figure.as_str(), unit].join("\u{a0}");
    state.words.with("form-understood", &[("figure", &understood)]).into()
}

/// A number as its field shows it, which writes the unit by itself.
fn figure(state: &State, kind: Kind, given: &Given) -> String {
    let Given::Number(value) = *given else { return String::new() };
    let show = state.show();
    let with_unit = match kind {
        Kind::Temperature => show.temperature(value).main,
        Kind::Length => show.length(value).main,
        Kind::HeatInput => show.heat(value).main,
        Kind::Stress => show.strength(value).main,
        Kind::Mass => show.mass(value).main,
        Kind::GasFlow => show.gas_flow(value).main,
        Kind::Volume => show.volume(value).main,
        Kind::Speed => show.travel(value * 60.0).main,
        Kind::Of(quantity) => show.number(quantity.in_unit(value, show.units), 3),
        _ => show.number(value, 3),
    };
    with_unit.split('\u{a0}').next().unwrap_or_default().to_owned()
}

fn choice_part(state: &State, asked: &Asked, input: &Input, offered: &'static [&'static str]) -> ui::PartRow {
    let kept = given(state, asked.question, input.key);
    let begun = asked.begun(input);
    let taken = match (begun.map(|begun| &begun.given), input.default) {
        (Some(Given::Choice(id)), _) => Some(id.as_str()),
        (_, Some(Preset::Choice(id))) => Some(id),
        _ => None,
    };
    let at = kept.as_deref().or(taken).and_then(|id| offered.iter().position(|known| *known == id));
    let words = |id: &&str| choice(id, state.word(&format!("option-{}-{id}", input.key)), "", "");
    let choices: Vec<_> = offered.iter().map(words).collect();
    let letters: Vec<usize> = choices.iter().map(|row| row.label.chars().count()).collect();
    let short = letters.iter().all(|count| *count <= SHORT) && letters.iter().sum::<usize>() <= LINE;
    let (id, label) = (id_of(asked.question, input), format!("input-{}", input.key));
    let part = if offered.len() <= SEGMENTS && short {
        segments(state, &id, &label, choices, at)
    } else {
        list(state, &id, &label, "tool-choose", choices, at)
    };
    let of_plan = begun.is_some_and(|begun| begun.of_plan);
    ui::PartRow {
        note: if of_plan { state.word("tool-taken-of-plan") } else { part.note.clone() },
        problem: asked.problem(input.key).into(),
        ..part
    }
}

fn flag_part(state: &State, asked: &Asked, input: &Input) -> ui::PartRow {
    let kept = given(state, asked.question, input.key);
    let on = kept.map_or(input.default == Some(Preset::Flag(true)), |text| text == "yes");
    let choices =
        vec![choice("no", state.word("form-no"), "", ""), choice("yes", state.word("form-yes"), "", "")];
    let (id, label) = (id_of(asked.question, input), format!("input-{}", input.key));
    segments(state, &id, &label, choices, Some(usize::from(on)))
}

/// The steel: its name with what it is also called or consists of, and the way to the list.
fn steel_part(state: &State, asked: &Asked, input: &Input) -> ui::PartRow {
    let question = asked.question;
    let named = given(state, question, STEEL);
    let certificate = given(state, question, COMPOSITION);
    let own = named.as_ref().and_then(|name| {
        state.session(|session| session.own_steels.iter().find(|own| own.is_called(name)).cloned())
    });
    let grade = named.as_ref().and_then(|name| state.reference.grade(name));
    let (value, note) = match (named, certificate, asked.begun(input)) {
        (Some(name), None, _) => match (own, grade) {
            (Some(own), _) => (own.name, own.composition),
            (None, Some(grade)) => (grade.designation.clone(), also(state, &grade.also)),
            (None, None) => (name, String::new()),
        },
        (Some(name), Some(line), _) => (grade.map_or(name, |grade| grade.designation.clone()), line),
        (None, Some(line), _) => (state.words.get("steel-by-certificate"), line),
        (None, None, Some(_)) => (
            PlanFacts::of(state).map_or_else(String::new, |plan| plan.steel_name(state)),
            state.words.get("tool-taken-of-plan"),
        ),
        (None, None, None) => (state.words.get("form-pick-steel"), String::new()),
    };
    let problem =
        [STEEL, COMPOSITION].map(|key| asked.problem(key)).into_iter().find(|said| !said.is_empty());
    ui::PartRow {
        kind: ui::PartKind::Pick,
        value: value.into(),
        note: note.into(),
        problem: problem.unwrap_or_default().into(),
        leads_away: true,
        ..text_part(&RowId::Question(steel_key(question)).to_string(), label_of(&state.words, input))
    }
}

/// The first of the other names of a grade.
fn also(state: &State, names: &[String]) -> String {
    state.words.list(List::Comma, &names[..names.len().min(3)])
}
