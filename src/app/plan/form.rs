//! The form of the Plan place: a job as typed becomes rows, and what happens to a row
//! becomes a change of the job.

use crate::app::form::parts::{
    action, field_part, fields, form_row, list, note, pick, picture, segments, sized, tiles, unit_or_echo,
};
use crate::app::form::row_id::{Button, RowId};
use crate::app::screen_values::choice;
use crate::app::{State, ui};
use crate::engine::job::{Joint, Restraint};
use crate::job::{Field, JobText, Slot};
use crate::reference::ConditionKind;
use crate::words::List;

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

/// What the standards call hardened and tempered; typed as often.
const QUENCHED: (ConditionKind, &str) = (ConditionKind::HardenedTempered, "quenched and tempered");

/// The kind and the rest of a condition as typed.
pub(super) fn condition_parts(text: &str) -> (Option<usize>, String) {
    let lower = text.trim().to_lowercase();
    let typed = CONDITIONS.iter().chain([&QUENCHED]).find(|(_, words)| lower.starts_with(words));
    let found = typed.and_then(|(kind, _)| CONDITIONS.iter().position(|(known, _)| known == kind));
    let rest = typed.map_or(text, |(_, words)| text.trim().get(words.len()..).unwrap_or_default());
    (found, rest.trim().trim_start_matches([',', ';']).trim().to_owned())
}

/// A condition as typed, in the words of the form; as it stands where it is none of them.
fn condition_words(state: &State, typed: &str) -> String {
    let (kind, temper) = condition_parts(typed);
    match kind.map(|place| CONDITIONS[place]) {
        None => typed.to_owned(),
        Some((ConditionKind::Unknown, _)) => state.words.get("form-condition-not-known"),
        Some((_, words)) => {
            let condition = state.words.get(&format!("form-condition-{}", words.replace(' ', "-")));
            let values = [("condition", &*condition), ("temper", &*sized(state, &temper, Field::Shop))];
            if temper.is_empty() { condition } else { state.words.with("form-condition-at", &values) }
        }
    }
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
    let mut rows = vec![member_row(state, &job, 0)];
    if job.parts.len() > 1 {
        rows.push(member_row(state, &job, 1));
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
    rows.extend(super::form_laying::laying_row(state, &job));
    rows.extend(super::form_repair::repair_row(state, &job));
    rows.push(super::form_weld::shop_row(state, &job));
    rows.push(super::form_weld::demands_row(state, &job));
    rows.push(super::form_safety::safety_row(state, &job));
    open_next(state, &mut rows);
    rows
}

/// Until there is a plan the first row that still wants something stands open.
fn open_next(state: &State, rows: &mut [ui::FormRow]) {
    if state.planned().is_some() {
        return;
    }
    let problems = state.problems();
    let wants = |fields: &[Field]| problems.iter().any(|problem| fields.contains(&problem.slot.field));
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

fn member_row(state: &State, job: &JobText, nth: usize) -> ui::FormRow {
    let letter = if nth == 0 { "a" } else { "b" };
    let of = |field: Field| field.nth(nth);
    let steel = job.get(of(Field::Steel)).unwrap_or_default();
    let grade = state.reference.grade(steel);
    let own = state.session(|session| session.own_steels.iter().find(|own| own.name == steel).cloned());
    let steel_note = match (&own, grade) {
        (Some(own), _) => own.composition.clone(),
        (None, Some(grade)) => state.words.list(List::Comma, &grade.also[..grade.also.len().min(3)]),
        _ => String::new(),
    };
    let steel_label = grade.map_or(steel, |grade| grade.designation.as_str());
    let mut parts = vec![pick(state, of(Field::Steel), steel_label, "form-pick-steel", &steel_note)];
    parts.extend(condition_rows(state, job, nth));
    let diameter = job.get(of(Field::Diameter));
    let round = diameter.is_some()
        || job
            .get(of(Field::Shape))
            .is_some_and(|shape| crate::job::typed::shape_is_round(shape) == Ok(true));
    let shapes = vec![
        choice("plate", state.word("form-plate"), "", "plate"),
        choice("round", state.word("form-round"), "", "bar"),
    ];
    parts.push(segments(state, RowId::of(of(Field::Shape)), "field-shape", shapes, Some(usize::from(round))));
    let size = of(if diameter.is_some() { Field::Diameter } else { Field::Thickness });
    let mut size_field = field_part(state, job, size);
    size_field.label = state.word(if round { "field-diameter" } else { "field-thickness" });
    parts.push(fields(format!("size-{letter}"), vec![size_field]));
    parts.push(picture(
        state,
        format!("counts-{letter}"),
        if round { "bar" } else { "plate" },
        if round { "form-counts-round" } else { "form-counts-plate" },
    ));
    for (field, id) in [(Field::Hardness, "hardness"), (Field::Yield, "yield")] {
        parts.push(fields(format!("known-{id}-{letter}"), vec![field_part(state, job, of(field))]));
    }
    parts.push(super::form_weld::yes_no(state, job, of(Field::Buttered)));
    if nth > 0 {
        parts.push(action(state, RowId::Button(Button::RemovePart), "form-remove-b"));
    }
    let value = state
        .planned()
        .filter(|_| state.problem_of(of(Field::Steel)).is_none() && !steel.is_empty())
        .map_or_else(
            || steel_label.to_owned(),
            |_| {
                let size = sized(state, job.get(size).unwrap_or("–"), Field::Thickness);
                let size = if round && !size.starts_with('Ø') { format!("Ø{size}") } else { size };
                state.words.list(List::Names, &[steel_label, size.as_str()])
            },
        );
    let watched = [Field::Steel, Field::Condition, size.field, Field::Hardness, Field::Yield, Field::Shape];
    let mut row = form_row(state, &format!("member-{letter}"), &watched.map(of), value, parts);
    let certified = job.get(of(Field::Certificate)).is_some();
    if steel.is_empty() && !certified {
        row.value = state.word("form-pick-steel");
    } else {
        if steel.is_empty() {
            row.value = state.word("steel-by-certificate");
        }
        row.note = job.get(of(Field::Condition)).map_or_else(
            || state.word("form-condition-not-known"),
            |typed| condition_words(state, typed).into(),
        );
    }
    row.pinned = true;
    row.titled = job.parts.len() > 1;
    row
}

/// The condition of a part, and its tempering temperature where it has one.
fn condition_rows(state: &State, job: &JobText, nth: usize) -> Vec<ui::PartRow> {
    let steel = job.get(Field::Steel.nth(nth)).unwrap_or_default();
    let slot = Field::Condition.nth(nth);
    let (kind, temper) = condition_parts(job.get(slot).unwrap_or_default());
    let offered = conditions_offered(state, steel, kind);
    let word = |words: &str| state.word(&format!("form-condition-{}", words.replace(' ', "-")));
    let choices = offered.iter().map(|place| CONDITIONS[*place].1);
    let choices = choices.map(|words| choice(words, word(words), "", "")).collect();
    let chosen = offered.iter().position(|place| *place == kind.unwrap_or(0));
    let id = RowId::of(slot);
    let mut parts = vec![list(state, &id, "field-condition", "form-condition-unknown", choices, chosen)];
    if kind.is_some_and(|place| takes_temper(CONDITIONS[place].0)) {
        let id = RowId::Temper(nth).to_string();
        let (label, text) = (state.word("form-temper"), temper.as_str().into());
        let row = ui::FieldRow {
            id: id.into(),
            label,
            unit: unit_or_echo(state, slot, &temper),
            hint: state.word("form-optional"),
            text,
            ..field_part(state, job, slot)
        };
        parts.push(fields(format!("temper-{nth}"), vec![row]));
    }
    parts
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
    let mut parts = vec![tiles(state, RowId::of(Field::Joint), "field-joint", choices, chosen)];
    // A leg is that of a fillet; what stands in the field of another joint is not used.
    if typed.is_none_or(Joint::has_fillet) {
        parts.push(fields("leg", vec![field_part(state, job, Field::Leg)]));
    }
    // A groove, a repair or a build-up has a depth in its place.
    if typed.is_some_and(|joint| !joint.has_fillet()) {
        parts.push(fields("weld-depth", vec![field_part(state, job, Field::WeldDepth)]));
    }
    let value = typed.map_or_else(String::new, |joint| state.words.get(&format!("joint-{}", joint.id())));
    let mut row =
        form_row(state, "joint", &[Field::Joint, Field::Leg, Field::WeldDepth].map(Slot::from), value, parts);
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
        tiles(state, RowId::of(Field::Restraint), "field-restraint", choices, chosen),
        note(state, "restraint-note", "form-restraint-note"),
    ];
    let value = chosen.map_or_else(
        || state.words.get("form-by-default"),
        |place| state.words.get(&format!("form-restraint-{}", RESTRAINTS[place].1)),
    );
    form_row(state, "restraint", &[Field::Restraint.into()], value, parts)
}
