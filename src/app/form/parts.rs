//! Parts of a form: what a row unfolds into.

use std::fmt::Display;

use slint::SharedString;

use super::echo::{echo, has_unit};
use super::row_id::RowId;
use crate::app::rows::model;
use crate::app::screen_values::{basis_kind, place_of};
use crate::app::{State, ui};
use crate::job::typed::{self, TypedProcess};
use crate::job::{Fault, Field, FieldProblem, JobText, Of, Slot, kind_of, shown_unit};
use crate::reference::Basis;
use crate::report::{Pen, basis_mark};
use crate::units::Accepts;
use crate::words::List;

fn part(kind: ui::PartKind, id: impl Display) -> ui::PartRow {
    ui::PartRow {
        kind,
        id: id.to_string().into(),
        chosen: -1,
        choices: model(Vec::new()),
        fields: model(Vec::new()),
        ..ui::PartRow::default()
    }
}

/// The first problem of these fields in words. A field that is empty is not one on the
/// screen: the answer band says what is still wanted.
fn first_problem(state: &State, slots: &[Slot]) -> SharedString {
    let problems = state.problems();
    let shown = |problem: &&FieldProblem| slots.contains(&problem.slot) && problem.fault != Fault::Missing;
    problems.iter().find(shown).map_or_else(SharedString::default, |problem| problem.say(&state.words).into())
}

/// Number fields side by side.
pub(crate) fn fields(id: impl Display, rows: Vec<ui::FieldRow>) -> ui::PartRow {
    ui::PartRow { fields: model(rows), ..part(ui::PartKind::Fields, id) }
}

/// A figure as it was typed; a bare number with the unit that its field takes.
pub(crate) fn sized(state: &State, typed: &str, of: Field) -> String {
    if has_unit(typed) { typed.to_owned() } else { format!("{}\u{a0}{}", typed.trim(), unit_of(state, of)) }
}

/// The unit that a bare number in this field takes, or the units that it may have.
pub(crate) fn unit_of(state: &State, field: Field) -> &'static str {
    match (kind_of(field), field.accepts()) {
        (Some(kind), _) => shown_unit(kind, state.show().units),
        (None, Accepts::Hydrogen) => "ml/100 g",
        (None, Accepts::Hardness) => "HRC, HB, HV",
        (None, Accepts::Strength) => "MPa, ksi",
        (None, Accepts::Voltage) => "V",
        (None, Accepts::Current) => "A",
        (None, Accepts::ShortTime) => "s",
        (None, Accepts::Number) => "%",
        (None, Accepts::Angle) => "°",
        _ => "",
    }
}

/// Fields that a plan does without.
const OPTIONAL: [Field; 15] = [
    Field::Cylinders,
    Field::Hardness,
    Field::Yield,
    Field::Leg,
    Field::WeldDepth,
    Field::WeldLength,
    Field::GrooveAngle,
    Field::RootGap,
    Field::RootFace,
    Field::Passes,
    Field::WeldStrength,
    Field::WeldCet,
    Field::DemandPreheat,
    Field::DemandInterpass,
    Field::DemandCeiling,
];

/// One field of the job. What was understood of it stands in the place of the unit, where that is
/// not plain from what was typed.
pub(crate) fn field_part(state: &State, job: &JobText, slot: impl Into<Slot>) -> ui::FieldRow {
    let slot = slot.into();
    let text = job.get(slot).unwrap_or_default();
    let label = state.word(&slot.field.key());
    ui::FieldRow {
        id: slot.id().as_ref().into(),
        spoken: of_run(state, job, slot, &label),
        label,
        text: text.into(),
        unit: unit_or_echo(state, slot, text),
        hint: if OPTIONAL.contains(&slot.field) { state.word("form-optional") } else { "".into() },
        problem: first_problem(state, &[slot]),
        derived: false,
    }
}

/// What stands at the end of a field: its unit, what was understood, or nothing where the text
/// says its unit itself.
pub(crate) fn unit_or_echo(state: &State, slot: Slot, text: &str) -> SharedString {
    let field = if slot.field == Field::Condition { Field::Shop } else { slot.field };
    let unit = unit_of(state, field);
    match echo(state, slot, text) {
        Some(echo) => echo.into(),
        None if kind_of(field).is_some() && has_unit(text) && text.ends_with(unit) => "".into(),
        None => unit.into(),
    }
}

/// Whose a field of a run is, where there are several: what a screen reader says, and what stands
/// over its fields.
pub(crate) fn of_run(state: &State, job: &JobText, slot: Slot, label: &str) -> SharedString {
    if slot.field.of() != Of::Run || job.runs.len() < 2 {
        return "".into();
    }
    state.words.list(List::Comma, &[label.to_owned(), run_name(state, job, slot.nth)]).into()
}

/// A run by its process; by its number too where two have the same.
pub(crate) fn run_name(state: &State, job: &JobText, nth: usize) -> String {
    let process = |nth: usize| match typed::process(job.get(Field::Process.nth(nth))?, state.reference) {
        Ok(TypedProcess::Known(process)) => Some(process),
        Ok(TypedProcess::CoveredElectrode) | Err(_) => None,
    };
    let alone = (0..job.runs.len()).filter(|other| process(*other) == process(nth)).count() == 1;
    let number = (nth + 1).to_string();
    let Some(process) = process(nth) else {
        return state.words.with("form-run-number", &[("number", &number)]);
    };
    let name = state.words.get(&format!("process-{}", process.id()));
    if alone { name } else { state.words.with("form-run-again", &[("process", &name), ("number", &number)]) }
}

/// The name of a run over its fields, where there are several.
pub(crate) fn run_head(state: &State, job: &JobText, nth: usize) -> Option<ui::PartRow> {
    let head = |name| result_part(&format!("run-head-{nth}"), name, String::new(), String::new());
    (job.runs.len() > 1).then(|| head(run_name(state, job, nth)))
}

/// One choice of several, shown in this way.
fn one_of(
    kind: ui::PartKind,
    id: impl Display,
    label: SharedString,
    choices: Vec<ui::ChoiceRow>,
    place: Option<usize>,
) -> ui::PartRow {
    ui::PartRow { label, choices: model(choices), chosen: place_of(place), ..part(kind, id) }
}

/// One choice in a row.
pub(crate) fn segments(
    state: &State,
    id: impl Display,
    label: &str,
    choices: Vec<ui::ChoiceRow>,
    place: Option<usize>,
) -> ui::PartRow {
    one_of(ui::PartKind::Segments, id, state.word(label), choices, place)
}

/// One choice among sketches.
pub(crate) fn tiles(
    state: &State,
    id: impl Display,
    label: &str,
    choices: Vec<ui::ChoiceRow>,
    place: Option<usize>,
) -> ui::PartRow {
    one_of(ui::PartKind::Tiles, id, state.word(label), choices, place)
}

/// One choice in a list, folded to what is chosen until it is asked for.
pub(crate) fn list(
    state: &State,
    id: &RowId,
    label: &str,
    empty: &str,
    choices: Vec<ui::ChoiceRow>,
    place: Option<usize>,
) -> ui::PartRow {
    let folded = id.folded().to_string();
    if state.open.borrow().rows.contains(&folded) {
        return one_of(ui::PartKind::List, id, state.word(label), choices, place);
    }
    let value =
        place.and_then(|place| choices.get(place)).map_or_else(|| state.word(empty), |row| row.label.clone());
    ui::PartRow { label: state.word(label), value, ..part(ui::PartKind::Pick, folded) }
}

/// Something that another page chooses.
pub(crate) fn pick(state: &State, slot: Slot, value: &str, empty: &str, note: &str) -> ui::PartRow {
    let problem = first_problem(state, &[slot]);
    let value = if value.is_empty() { state.word(empty) } else { value.into() };
    ui::PartRow {
        label: state.word(&slot.field.key()),
        value,
        note: note.into(),
        problem,
        leads_away: true,
        ..part(ui::PartKind::Pick, slot.id())
    }
}

/// A line of text.
pub(crate) fn note(state: &State, id: impl Display, key: &str) -> ui::PartRow {
    ui::PartRow {
        label: state.word(key),
        basis_kind: ui::BasisKind::Practice,
        ..part(ui::PartKind::Note, id)
    }
}

/// A line of text.
pub(crate) fn text_part(id: &str, text: String) -> ui::PartRow {
    ui::PartRow { label: text.into(), ..part(ui::PartKind::Note, id) }
}

/// A result: what it is, the figure, a note and what it rests on.
pub(crate) fn result_part(id: &str, label: String, value: String, note: String) -> ui::PartRow {
    ui::PartRow { kind: ui::PartKind::Result, value: value.into(), note: note.into(), ..text_part(id, label) }
}

/// A sketch with words beside it.
pub(crate) fn picture(state: &State, id: impl Display, sketch: &str, key: &str) -> ui::PartRow {
    ui::PartRow {
        value: sketch.into(),
        label: state.word(key),
        note: state.word(&format!("{key}.note")),
        ..part(ui::PartKind::Picture, id)
    }
}

/// A button.
pub(crate) fn action(state: &State, id: impl Display, key: &str) -> ui::PartRow {
    ui::PartRow { label: state.word(key), ..part(ui::PartKind::Action, id) }
}

/// A part with what it rests on.
pub(crate) fn based(pen: &Pen<'_>, basis: &Basis, part: ui::PartRow) -> ui::PartRow {
    let mark = basis_mark(pen, basis);
    ui::PartRow { basis_kind: basis_kind(&mark), basis_label: mark.label.into(), ..part }
}

/// A row, with the first problem of the fields that it holds, and whether nobody typed them.
pub(crate) fn form_row(
    state: &State,
    id: &str,
    watched: &[Slot],
    value: String,
    parts: Vec<ui::PartRow>,
) -> ui::FormRow {
    let problem = first_problem(state, watched);
    let assumed = state
        .planned()
        .is_some_and(|planned| planned.read.defaulted.iter().any(|found| watched.contains(&found.slot)))
        && state.session(|session| watched.iter().all(|slot| session.job.get(*slot).is_none()));
    ui::FormRow {
        id: id.into(),
        label: state.word(&format!("form-{id}")),
        value: value.into(),
        note: "".into(),
        problem,
        assumed,
        open: state.open.borrow().rows.contains(id),
        pinned: false,
        titled: false,
        stale: false,
        parts: model(parts),
    }
}

/// A row with its parts; nobody types its value.
pub(crate) fn plain_row(state: &State, id: &str, value: String, parts: Vec<ui::PartRow>) -> ui::FormRow {
    ui::FormRow {
        label: state.word(&format!("form-{id}")),
        value: value.into(),
        open: state.open.borrow().rows.contains(id),
        id: id.into(),
        parts: model(parts),
        ..ui::FormRow::default()
    }
}
