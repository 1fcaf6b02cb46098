//! The form of the Plan place: a job as typed becomes rows, and what happens to a row
//! becomes a change of the job.

use super::form_values::length_unit;
use crate::app::form::parts::{
    action, field_part, fields, form_row, list, note, pick, picture, segments, tiles,
};
use crate::app::form::row_id::{Button, RowId};
use crate::app::screen_values::choice;
use crate::app::{State, ui};
use crate::engine::job::{Joint, Restraint};
use crate::job::{Field, JobText};
use crate::reference::ConditionKind;

/// The fields of a part of the joint.
struct PartFields {
    steel: Field,
    condition: Field,
    thickness: Field,
    shape: Field,
    diameter: Field,
    hardness: Field,
    strength: Field,
    buttered: Field,
}

const FIRST: PartFields = PartFields {
    steel: Field::Steel,
    condition: Field::Condition,
    thickness: Field::Thickness,
    shape: Field::Shape,
    diameter: Field::Diameter,
    hardness: Field::Hardness,
    strength: Field::Yield,
    buttered: Field::Buttered,
};
const SECOND: PartFields = PartFields {
    steel: Field::SteelB,
    condition: Field::ConditionB,
    thickness: Field::ThicknessB,
    shape: Field::ShapeB,
    diameter: Field::DiameterB,
    hardness: Field::HardnessB,
    strength: Field::YieldB,
    buttered: Field::ButteredB,
};

/// Conditions in the order in which they are offered, as they are typed and kept.
pub(crate) const CONDITIONS: [(ConditionKind, &str); 11] = [
    (ConditionKind::Unknown, "unknown"),
    (ConditionKind::AsRolled, "as rolled"),
    (ConditionKind::Annealed, "annealed"),
    (ConditionKind::NormalisedTempered, "normalised and tempered"),
    (ConditionKind::Normalised, "normalised"),
    (ConditionKind::HardenedTempered, "hardened and tempered"),
    (ConditionKind::CaseHardened, "case-hardened"),
    (ConditionKind::InductionHardened, "induction-hardened"),
    (ConditionKind::Thermomechanical, "thermomechanical"),
    (ConditionKind::ColdWorked, "cold worked"),
    (ConditionKind::AsCast, "as cast"),
];

/// Sketches of the joints.
const fn sketch(joint: Joint) -> &'static str {
    match joint {
        Joint::Butt => "butt",
        Joint::TFilletOneSide => "tee-one",
        Joint::TFilletBothSides => "tee-both",
        Joint::Lap => "lap",
        Joint::Corner => "corner",
        Joint::BossThrough => "through",
        Joint::RunOnShaft => "shaft",
        Joint::Repair => "repair",
        Joint::BarToBar => "bars",
    }
}

pub(super) const RESTRAINTS: [(Restraint, &str); 3] =
    [(Restraint::Low, "low"), (Restraint::Medium, "medium"), (Restraint::High, "high")];

fn has_second(job: &JobText) -> bool {
    [Field::SteelB, Field::CertificateB, Field::ThicknessB, Field::DiameterB, Field::ConditionB]
        .into_iter()
        .any(|field| job.get(field).is_some() || matches!(field, Field::SteelB) && job.steel_b.is_some())
}

/// The kind and the rest of a condition as typed.
pub(super) fn condition_parts(text: &str) -> (Option<usize>, String) {
    let lower = text.trim().to_lowercase();
    let found = CONDITIONS.iter().position(|(_, words)| lower.starts_with(words));
    let rest = found.map_or(text, |place| text.trim().get(CONDITIONS[place].1.len()..).unwrap_or_default());
    (found, rest.trim().trim_start_matches([',', ';']).trim().to_owned())
}

/// Does a tempering temperature belong to this condition?
pub(super) const fn takes_temper(kind: ConditionKind) -> bool {
    matches!(
        kind,
        ConditionKind::HardenedTempered
            | ConditionKind::NormalisedTempered
            | ConditionKind::CaseHardened
            | ConditionKind::InductionHardened
    )
}

/// All rows of the form.
pub(crate) fn rows(state: &State) -> Vec<ui::FormRow> {
    let job = state.session(|session| session.job.clone());
    let mut rows = vec![member_row(state, &job, &FIRST, "a")];
    if has_second(&job) {
        rows.push(member_row(state, &job, &SECOND, "b"));
    } else {
        rows.push(form_row(
            state,
            "member-b",
            &[],
            state.words.get("form-member-b-same"),
            vec![action(state, RowId::Button(Button::AddPart), "form-add-b")],
        ));
    }
    rows.push(joint_row(state, &job));
    rows.push(super::form_process::process_row(state, &job));
    rows.push(super::form_weld::heat_row(state, &job));
    rows.push(restraint_row(state, &job));
    rows.push(super::form_weld::weld_row(state, &job));
    rows.push(super::form_weld::shop_row(state, &job));
    rows.push(super::form_weld::demands_row(state, &job));
    open_next(state, &mut rows);
    rows
}

/// Until there is a plan the first row that still wants something stands open.
fn open_next(state: &State, rows: &mut [ui::FormRow]) {
    if state.planned().is_some() {
        return;
    }
    let problems = state.problems();
    let wants = |fields: &[Field]| problems.iter().any(|problem| fields.contains(&problem.field));
    let next = if wants(&[Field::Steel, Field::Certificate, Field::Thickness, Field::Diameter]) {
        "member-a"
    } else if wants(&[Field::Joint]) {
        "joint"
    } else {
        "process"
    };
    if let Some(row) = rows.iter_mut().find(|row| row.id == next) {
        row.open = true;
    }
}

/// The conditions that a steel comes in, "not known" first; all of them where the steel
/// is no grade of the dataset. One that is chosen is always among them.
pub(super) fn conditions_offered(state: &State, steel: &str, chosen: Option<usize>) -> Vec<usize> {
    let grade = state.reference.grade(steel);
    (0..CONDITIONS.len())
        .filter(|place| {
            let kind = CONDITIONS[*place].0;
            *place == 0
                || Some(*place) == chosen
                || grade.is_none_or(|grade| grade.conditions.iter().any(|row| row.kind == kind))
        })
        .collect()
}

fn member_row(state: &State, job: &JobText, of: &PartFields, letter: &str) -> ui::FormRow {
    let index = usize::from(letter == "b");
    let steel = job.get(of.steel).unwrap_or_default();
    let known = state.reference.grade(steel);
    let own = state.session(|session| session.own_steels.iter().find(|own| own.name == steel).cloned());
    let steel_note = match (&own, known) {
        (Some(own), _) => own.composition.clone(),
        (None, Some(grade)) => grade.also.iter().take(3).cloned().collect::<Vec<_>>().join(", "),
        _ => String::new(),
    };
    let steel_label = known.map_or(steel, |grade| grade.designation.as_str());
    let mut parts = vec![pick(
        state,
        RowId::Field(of.steel),
        "field-steel",
        steel_label,
        "form-pick-steel",
        &steel_note,
        of.steel,
    )];
    let (kind, temper) = condition_parts(job.get(of.condition).unwrap_or_default());
    let offered = conditions_offered(state, steel, kind);
    let condition_choices = offered
        .iter()
        .map(|place| {
            let words = CONDITIONS[*place].1;
            choice(words, state.word(&format!("form-condition-{}", words.replace(' ', "-"))), "", "")
        })
        .collect();
    let chosen = offered.iter().position(|place| *place == kind.unwrap_or(0));
    parts.push(list(
        state,
        &RowId::Field(of.condition),
        "field-condition",
        "form-condition-unknown",
        condition_choices,
        chosen,
    ));
    if kind.is_some_and(|place| takes_temper(CONDITIONS[place].0)) {
        let unit = state.show().units.temperature.symbol();
        let mut temper_field = field_part(state, of.condition, &temper, unit);
        temper_field.id = RowId::Temper(of.condition).to_string().into();
        temper_field.label = state.word("form-temper");
        parts.push(fields(format!("temper-{letter}"), vec![temper_field]));
    }
    let round = job.get(of.diameter).is_some()
        || job.get(of.shape).is_some_and(|shape| crate::job::typed::shape_is_round(shape) == Ok(true));
    let shapes = vec![
        choice("plate", state.word("form-plate"), "", "plate"),
        choice("round", state.word("form-round"), "", "bar"),
    ];
    parts.push(segments(state, RowId::Field(of.shape), "field-shape", shapes, Some(usize::from(round))));
    let size = if round && job.get(of.diameter).is_some() { of.diameter } else { of.thickness };
    let mut size_field = field_part(state, size, job.get(size).unwrap_or_default(), length_unit(state));
    size_field.label = state.word(if round { "field-diameter" } else { "field-thickness" });
    parts.push(fields(format!("size-{letter}"), vec![size_field]));
    parts.push(picture(
        state,
        format!("counts-{letter}"),
        if round { "bar" } else { "plate" },
        if round { "form-counts-round" } else { "form-counts-plate" },
    ));
    let strength_unit =
        if state.show().units.length == crate::units::LengthUnit::Inch { "ksi" } else { "MPa" };
    let mut known = vec![
        field_part(state, of.hardness, job.get(of.hardness).unwrap_or_default(), "HRC, HB, HV"),
        field_part(state, of.strength, job.get(of.strength).unwrap_or_default(), strength_unit),
    ];
    known[0].label = state.word("field-hardness");
    known[1].label = state.word("field-yield");
    parts.push(fields(format!("known-{letter}"), known));
    let mut buttered = super::form_weld::yes_no(state, job, of.buttered);
    buttered.label = state.word("field-buttered");
    parts.push(buttered);
    if letter == "b" {
        parts.push(action(state, RowId::Button(Button::RemovePart), "form-remove-b"));
    }
    let value =
        state.planned().filter(|_| state.problem_of(of.steel).is_none() && !steel.is_empty()).map_or_else(
            || steel_label.to_owned(),
            |_| format!("{steel_label} · {}", sized(state, job.get(size).unwrap_or("–"))),
        );
    let watched = [of.steel, of.condition, size, of.hardness, of.strength, of.shape];
    let mut row = form_row(state, &format!("member-{letter}"), &watched, value, parts);
    if steel.is_empty() {
        row.value = state.word("form-pick-steel");
    } else {
        row.note = job.get(of.condition).map_or_else(|| state.word("form-condition-not-known"), Into::into);
    }
    row.pinned = index == 0 || has_second(job);
    row.titled = has_second(job);
    row
}

/// A size as it was typed; a bare number with the unit that it takes.
fn sized(state: &State, typed: &str) -> String {
    let bare = typed.ends_with(|sign: char| sign.is_ascii_digit());
    if bare { format!("{typed}\u{a0}{}", length_unit(state)) } else { typed.to_owned() }
}

fn joint_row(state: &State, job: &JobText) -> ui::FormRow {
    let typed = job.get(Field::Joint).and_then(|text| crate::job::typed::joint(text).ok());
    let chosen = typed.and_then(|joint| Joint::ALL.iter().position(|known| *known == joint));
    let choices = Joint::ALL
        .iter()
        .map(|joint| {
            choice(joint.id(), state.word(&format!("form-joint-{}", joint.id())), "", sketch(*joint))
        })
        .collect();
    let mut parts = vec![tiles(state, RowId::Field(Field::Joint), "field-joint", choices, chosen)];
    // A leg is that of a fillet; what stands in the field of another joint is not used.
    if typed.is_none_or(Joint::has_fillet) {
        let leg = job.get(Field::Leg).unwrap_or_default();
        parts.push(fields("leg", vec![field_part(state, Field::Leg, leg, length_unit(state))]));
    }
    let value = typed.map_or_else(String::new, |joint| state.words.get(&format!("joint-{}", joint.id())));
    let mut row = form_row(state, "joint", &[Field::Joint, Field::Leg], value, parts);
    row.pinned = true;
    row
}

fn restraint_row(state: &State, job: &JobText) -> ui::FormRow {
    let read = state.planned().map(|planned| planned.read.job.restraint);
    let typed = job.get(Field::Restraint).and_then(|text| crate::job::typed::restraint(text).ok());
    let shown = typed.or(read);
    let chosen = shown.and_then(|found| RESTRAINTS.iter().position(|(known, _)| *known == found));
    let choices = RESTRAINTS
        .iter()
        .map(|(_, id)| {
            choice(id, state.word(&format!("form-restraint-{id}")), "", &format!("restraint-{id}"))
        })
        .collect();
    let parts = vec![
        tiles(state, RowId::Field(Field::Restraint), "field-restraint", choices, chosen),
        note(state, "restraint-note", "form-restraint-note"),
    ];
    let value = chosen.map_or_else(
        || state.words.get("form-by-default"),
        |place| state.words.get(&format!("form-restraint-{}", RESTRAINTS[place].1)),
    );
    form_row(state, "restraint", &[Field::Restraint], value, parts)
}
