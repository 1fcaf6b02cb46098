//! Hydrogen: its scale, its removal, and the wait before inspection.

use super::{Answers, Input, Kind, OfPlan, Preset, Problem, Question, Reply, Work, shared};
use crate::engine::family::Family;
use crate::engine::hydrogen::{Coefficient, Slab, hydrogen_scale, removal_time, share_left};
use crate::engine::inspection::{WeldToInspect, inspection_wait};
use crate::reference::{Restraint, embedded};

/// The band of a hydrogen content.
pub(super) static HYDROGEN_SCALE: Question = Question {
    name: "hydrogen-scale",
    work: Work::Preheat,
    inputs: &[shared::HYDROGEN.required()],
    answers: &["hydrogen-scale", "hydrogen-ppm", "hydrogen-jis"],
    notes: &["scale-a", "scale-b", "scale-c", "scale-d", "scale-e", "hydrogen-letters-differ"],
    answer: answer_scale,
};

fn answer_scale(given: &Answers) -> Result<Reply, Problem> {
    let (letter, answers) = hydrogen_scale(&embedded().designators, given.number("hydrogen")?)?;
    let note = HYDROGEN_SCALE.notes.iter().copied().find(|note| *note == letter.id);
    Ok(Reply::of(answers).note_of(note).note_if(true, "hydrogen-letters-differ"))
}

const LEFT: Input = Input::new("left", Kind::Number).or(Preset::Number(0.1)).within(0.001, 0.99);
const DIFFUSIONS: &[&str] = &["slower", "measured", "arrhenius"];

/// Time until hydrogen has left, and what is left after a time.
pub(super) static HYDROGEN_REMOVAL: Question = Question {
    name: "hydrogen-removal",
    work: Work::Cool,
    inputs: &[
        shared::THICKNESS.required(),
        Input::new("temperature", Kind::Temperature).required().within(0.0, 650.0),
        LEFT,
        Input::new("time", Kind::Hours).within(0.0, 1e5),
        Input::new("diffusion", Kind::Choice(DIFFUSIONS)).or(Preset::Choice("slower")),
        Input::new("diffusivity", Kind::Number).within(1e-12, 1e-2),
    ],
    answers: &["hydrogen-time-mean", "hydrogen-time-middle", "hydrogen-left-mean", "hydrogen-left-middle"],
    notes: &["both-faces-open", "diffusion-uncertain"],
    answer: answer_removal,
};

fn answer_removal(given: &Answers) -> Result<Reply, Problem> {
    let coefficient = match (given.maybe_number("diffusivity"), given.maybe_choice("diffusion")) {
        (Some(own), _) => Coefficient::Own(own),
        (None, Some("measured")) => Coefficient::Measured,
        (None, Some("arrhenius")) => Coefficient::Arrhenius,
        _ => Coefficient::Slower,
    };
    let slab = Slab {
        thickness_mm: given.number("thickness")?,
        temperature_c: given.number("temperature")?,
        coefficient,
    };
    let table = &embedded().own_sheets.diffusion;
    let mut answers = removal_time(table, slab, given.number("left")?)?.to_vec();
    if let Some(time_h) = given.maybe_number("time") {
        answers.extend(share_left(table, slab, time_h)?);
    }
    Ok(Reply::of(answers)
        .note_if(true, "both-faces-open")
        .note_if(slab.temperature_c < 200.0, "diffusion-uncertain"))
}

/// Families that are welded by the rules that the wait knows, the plainest first.
const FAMILIES: [Family; 4] =
    [Family::Structural, Family::QuenchedTempered, Family::PlainCarbon, Family::Hardenable];
const FAMILY_IDS: &[&str] = &["structural", "quenched-tempered", "plain-carbon", "hardenable"];
/// The least wait before the final inspection.
pub(super) static INSPECTION_WAIT: Question = Question {
    name: "inspection-wait",
    work: Work::Check,
    inputs: &[
        Input::new("family", Kind::Choice(FAMILY_IDS)).required().of(OfPlan::Family),
        shared::THICKNESS.required(),
        shared::NET_HEAT.required(),
        Input::new("weld-size", Kind::Length).within(0.1, 5000.0).of(OfPlan::WeldSize),
        Input::new("yield", Kind::Stress).within(50.0, 3000.0).of(OfPlan::Yield),
        shared::RESTRAINT.or(Preset::Choice("medium")),
        Input::new("heat-treated", Kind::Flag).or(Preset::Flag(false)),
    ],
    answers: &[
        "inspection-wait",
        "wait-en-1011-2",
        "wait-nsss",
        "wait-en-1090-2",
        "wait-eemua-158",
        "wait-d1-1",
        "wait-csa-w59",
        "wait-prudent",
    ],
    notes: &["wait-from-cold", "wait-heat-treated"],
    answer: answer_wait,
};

fn answer_wait(given: &Answers) -> Result<Reply, Problem> {
    let weld = WeldToInspect {
        family: given.choice("family", &FAMILIES, Family::id)?,
        thickness_mm: given.number("thickness")?,
        size_mm: given.maybe_number("weld-size"),
        yield_mpa: given.maybe_number("yield"),
        net_heat_kj_per_mm: given.number("heat-input")?,
        restraint: given.choice("restraint", Restraint::ALL, Restraint::id)?,
        heat_treated: given.flag("heat-treated"),
    };
    Ok(Reply::of(inspection_wait(&embedded().inspection, &weld)?)
        .note_if(true, "wait-from-cold")
        .note_if(weld.heat_treated, "wait-heat-treated"))
}
