//! Thicknesses that meet at the weld.

use super::{Answers, Input, Kind, Preset, Problem, Question, Reply, shared};
use crate::engine::combined_thickness::{Meeting, combined_thickness, tapered_thickness};
use crate::engine::job::Joint;

const JOINTS: [&str; Joint::ALL.len()] = {
    let mut ids = [""; Joint::ALL.len()];
    let mut at = 0;
    while at < ids.len() {
        ids[at] = Joint::ALL[at].id();
        at += 1;
    }
    ids
};

/// Combined thickness of a joint.
pub(super) static COMBINED_THICKNESS: Question = Question {
    name: "combined-thickness",
    inputs: &[
        Input::new("joint", Kind::Choice(&JOINTS)).required(),
        shared::THICKNESS.required(),
        Input::new("other-thickness", Kind::Length).within(0.1, 5000.0),
        Input::new("opposed-at-once", Kind::Flag).or(Preset::Flag(false)),
    ],
    answers: &["combined-thickness"],
    notes: &["through-member-first", "opposed-halved", "same-thickness-taken", "average-over-75"],
    answer: answer_combined,
};

fn answer_combined(given: &Answers) -> Result<Reply, Problem> {
    let joint = given.choice("joint", &Joint::ALL, Joint::id)?;
    let meeting = Meeting {
        joint,
        through_mm: given.number("thickness")?,
        ending_mm: given.maybe_number("other-thickness"),
        opposed_at_once: given.flag("opposed-at-once"),
    };
    let unequal =
        matches!(joint, Joint::TFilletOneSide | Joint::TFilletBothSides | Joint::Lap | Joint::BossThrough);
    let one_part = matches!(joint, Joint::RunOnShaft | Joint::Repair);
    Ok(Reply::of([combined_thickness(meeting)?])
        .note_if(unequal, "through-member-first")
        .note_if(meeting.opposed_at_once && joint == Joint::TFilletBothSides, "opposed-halved")
        .note_if(meeting.ending_mm.is_none() && !one_part, "same-thickness-taken")
        .note_if(true, "average-over-75"))
}

/// Mean thickness of a taper beside the weld.
pub(super) static TAPERED_THICKNESS: Question = Question {
    name: "tapered-thickness",
    inputs: &[
        shared::THICKNESS.required(),
        Input::new("far-thickness", Kind::Length).required().within(0.1, 5000.0),
        Input::new("taper-length", Kind::Length).required().within(0.0, 5000.0),
    ],
    answers: &["tapered-thickness"],
    notes: &["thicker-beyond-75"],
    answer: answer_tapered,
};

fn answer_tapered(given: &Answers) -> Result<Reply, Problem> {
    let (near, far) = (given.number("thickness")?, given.number("far-thickness")?);
    let outcome = tapered_thickness(near, far, given.number("taper-length")?)?;
    Ok(Reply::of([outcome]).note_if(far > near, "thicker-beyond-75"))
}
