//! What is said with a step: how it is done, what goes wrong, why.

use super::figure::range;
use super::sequence::{least, most};
use super::{Pen, heat_words, member_name};
use crate::engine::job::Job;
use crate::engine::plan::{Note, Plan};

/// Below this a steel is cold, °C.
const COLD_C: f64 = 20.0;

/// A note in words.
pub(super) fn note(pen: &Pen<'_>, job: &Job, plan: &Plan, note: &Note) -> String {
    let key = format!("then-note-{}", note.id());
    let with = |values: &[(&str, &str)]| pen.words.with(&key, values);
    let named = |member: usize| member_name(pen, job, member);
    match *note {
        Note::Zone { mm } => with(&[("distance", &pen.show.least_length(mm).main)]),
        Note::Ceiling(ceiling) | Note::CeilingOfWelding(ceiling) => with(&[("ceiling", &most(pen, ceiling))]),
        Note::FromWeld { mm, at_least } => {
            let distance = pen.show.rule_length(mm).main;
            let key = if at_least { "then-note-from-weld.least" } else { "then-note-from-weld" };
            pen.words.with(key, &[("distance", &distance)])
        }
        Note::ThickPart { member } | Note::CoolsSlow { member } => with(&[("member", &named(member))]),
        // A wait rounds up to what a clock shows.
        Note::FarFace { wait_min } => with(&[("time", &pen.show.with_unit(wait_min.ceil(), 0, "min"))]),
        Note::CoolsFast { member, heat } => {
            with(&[("member", &named(member)), ("heat", &pen.show.least_heat(heat).main)])
        }
        Note::OilFromIron { at_c, minutes } => {
            let time = pen.show.with_unit(minutes, 0, "min");
            with(&[("temperature", &pen.show.temperature(at_c).main), ("time", &time)])
        }
        Note::CrackGroove { radius_mm } => with(&[("radius", &pen.show.rule_length(radius_mm).main)]),
        Note::BeadLength { mm } => with(&[("length", &pen.show.rule_length(mm).main)]),
        Note::HeldAt { low, high } if least(pen, low) == most(pen, high) => {
            pen.words.with("then-note-held-at.one", &[("figure", &most(pen, high))])
        }
        Note::HeldAt { low, high } => with(&[("low", &least(pen, low)), ("high", &most(pen, high))]),
        Note::MinimumAboveM90 | Note::AboveM90 => with(&[("m90", &m90(pen, plan))]),
        Note::SizeAssumed { mm, fillet } => {
            let key = if fillet { "then-note-size-assumed.leg" } else { "then-note-size-assumed" };
            pen.words.with(key, &[("size", &pen.show.rule_length(mm).main)])
        }
        Note::SizeCounted { mm } => with(&[("size", &pen.show.rule_length(mm).main)]),
        Note::TradeHours { field_h, low_h, high_h } => {
            let hours = |hours: f64| pen.show.with_unit(hours, 1, "h");
            let trade = range(pen, &hours(low_h), &hours(high_h));
            with(&[("field", &hours(field_h)), ("trade", &trade)])
        }
        Note::BelowM90 => below_m90(pen, plan),
        Note::CoolingRate { k_per_h } => with(&[("rate", &pen.show.difference(k_per_h).main)]),
        Note::PrintedTreatment { member } => {
            with(&[("member", &named(member)), ("printed", &printed(pen, job, member))])
        }
        Note::OverCeiling { member, loser, ceiling } => with(&[
            ("member", &named(loser)),
            ("printed", &printed(pen, job, member)),
            ("ceiling", &most(pen, ceiling)),
        ]),
        _ => pen.words.get(&key),
    }
}

fn m90(pen: &Pen<'_>, plan: &Plan) -> String {
    let Some((_, m90_c)) = plan.ms_m90_c else { return String::new() };
    // The formula is made for no steel whose martensite ends in the cold.
    if m90_c < COLD_C {
        return pen.words.get("then-m90-in-the-cold");
    }
    let m90 = pen.show.temperature(m90_c).main;
    let Some(scatter_k) = plan.ms_scatter_k else { return m90 };
    let scatter = pen.show.difference(scatter_k).main;
    pen.words.with("then-m90-about", &[("m90", &m90), ("scatter", &scatter)])
}

fn below_m90(pen: &Pen<'_>, plan: &Plan) -> String {
    let held = plan.side.as_ref().and_then(|side| side.post_heat.as_ref());
    let Some(below) = held.and_then(|held| held.answer.below_m90.as_ref()) else { return String::new() };
    let hold = &below.hold;
    let hours = pen.show.with_unit(hold.shown_h(), 1, "h");
    let (low, high) = (pen.show.minimum(hold.low_c, None).main, pen.show.maximum(hold.high_c, None).main);
    let share = pen.show.with_unit(below.austenite_left * 100.0, 0, "%");
    let values = [("hours", &*hours), ("low", &*low), ("high", &*high), ("share", &*share)];
    pen.words.with("then-note-below-m90", &values)
}

fn printed(pen: &Pen<'_>, job: &Job, member: usize) -> String {
    let grade = job.members.get(member).and_then(|member| member.steel.grade());
    grade
        .and_then(|grade| grade.pwht.as_ref())
        .map_or_else(String::new, |row| heat_words(pen, row.low_c, row.high_c, row.wording.as_deref()))
}
