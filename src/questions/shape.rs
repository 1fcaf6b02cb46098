//! Thicknesses that meet at the weld.

use super::{Answers, Input, Kind, OfPlan, Preset, Problem, Question, Reply, Work, shared};
use crate::engine::combined_thickness::{Meeting, combined_thickness, tapered_thickness};
use crate::reference::{Method, embedded};

/// Combined thickness of a joint.
pub(super) static COMBINED_THICKNESS: Question = Question {
    name: "combined-thickness",
    work: Work::Preheat,
    inputs: &[
        shared::JOINT.required(),
        shared::THICKNESS.required().of(OfPlan::FirstThickness),
        Input::new("other-thickness", Kind::Length).within(0.1, 5000.0).of(OfPlan::SecondThickness),
        Input::new("opposed-at-once", Kind::Flag).or(Preset::Flag(false)),
    ],
    answers: &["combined-thickness"],
    notes: &[
        "through-member-first",
        "plate-first-boss-second",
        "opposed-halved",
        "same-thickness-taken",
        "average-over-75",
    ],
    answer: answer_combined,
};

fn answer_combined(given: &Answers) -> Result<Reply, Problem> {
    let joint = given.joint()?;
    let meeting = Meeting {
        joint,
        first_mm: given.number("thickness")?,
        second_mm: given.maybe_number("other-thickness"),
        opposed_at_once: given.flag("opposed-at-once"),
    };
    Ok(Reply::of([combined_thickness(embedded().methods.row(Method::CombinedThickness), meeting)?])
        .note_if(joint.members > 1 && joint.ways.first > joint.ways.second, "through-member-first")
        .note_if(joint.ways.second > joint.ways.first, "plate-first-boss-second")
        .note_if(meeting.halved(), "opposed-halved")
        .note_if(meeting.second_mm.is_none() && joint.members > 1, "same-thickness-taken")
        .note_if(true, "average-over-75"))
}

/// Mean thickness of a taper beside the weld.
pub(super) static TAPERED_THICKNESS: Question = Question {
    name: "tapered-thickness",
    work: Work::Preheat,
    inputs: &[
        shared::THICKNESS.required().of_no_plan(),
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
