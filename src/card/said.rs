//! What was written into a log, in words.

use super::content::Sign;
use crate::engine::reading::{Band, Judged, Seen, Verdict, When};
use crate::engine::tint::Held;
use crate::log::{CrackOutcome, Entry, PlanCopy, ReadingTaken};
use crate::report::{
    Pen, band_words, day_and_time, in_both, instrument_words, place_words, seen_words, when_words,
};
use crate::units::{Both, Show, Units};
use crate::words::List;

/// A reading's verdict, as a shape and in words.
pub(super) fn verdict(pen: &Pen<'_>, judged: &Judged, when: When) -> (Option<Sign>, String) {
    let (sign, key) = match judged.verdict {
        None => (None, "log-not-judged"),
        Some(Verdict::In) if when.in_welding() => (Some(Sign::Inside), "cycle-fill-inside"),
        Some(Verdict::In) => (Some(Sign::Inside), "card-below-ceiling"),
        Some(Verdict::Below) => (Some(Sign::Below), "cycle-fill-below"),
        Some(Verdict::Over) if judged.ceiling == Some(Held::Missed) => {
            (Some(Sign::Over), "cycle-fill-ceiling")
        }
        Some(Verdict::Over) => (Some(Sign::Over), "cycle-fill-above"),
        Some(Verdict::CannotTell) => (Some(Sign::CannotTell), "log-verdict-cannot-tell"),
    };
    (sign, pen.words.get(key))
}

/// Where: the part, the face, the distance.
pub(super) fn place(pen: &Pen<'_>, plan: &PlanCopy, reading: &ReadingTaken) -> String {
    let member = reading.member.and_then(|nth| plan.members.get(usize::try_from(nth).ok()?));
    place_words(pen, member, reading.face, reading.away_mm)
}

/// What the instrument showed: as it was typed, where that says all.
pub(super) fn shown(pen: &Pen<'_>, reading: &ReadingTaken) -> String {
    // Two figures alone do not tell which crayon melted.
    if reading.typed.is_empty() || matches!(reading.seen, Seen::Crayons { .. }) {
        seen_words(pen, &reading.seen)
    } else {
        reading.typed.clone()
    }
}

/// What the steel has by a reading, in both units.
pub(super) fn steel_has(pen: &Pen<'_>, found: &Band) -> String {
    let main = band_words(pen, found);
    let units = Units { temperature: pen.show.units.temperature.other(), ..pen.show.units };
    let second = band_words(&Pen { show: Show { units, ..pen.show }, ..*pen }, found);
    let known = found.low_c.is_some() || found.high_c.is_some();
    let range = if known { in_both(pen, &Both { main, second }) } else { main };
    if found.peak { pen.words.with("card-peak", &[("range", &range)]) } else { range }
}

/// Whether a trial piece cracked, as a shape and in words.
pub(super) fn cracked(pen: &Pen<'_>, outcome: CrackOutcome) -> (Option<Sign>, String) {
    let sign = match outcome {
        CrackOutcome::NotYet => None,
        CrackOutcome::Sound => Some(Sign::NotCracked),
        CrackOutcome::Cracked => Some(Sign::Cracked),
    };
    (sign, pen.words.get(&format!("log-trial-{}", outcome.id())))
}

/// The limits of a plan in one line, so that two plans are told apart.
fn limits(pen: &Pen<'_>, plan: &PlanCopy) -> String {
    let all = [
        ("answer-minimum", &plan.minimum),
        ("answer-maximum", &plan.maximum),
        ("answer-ceiling", &plan.ceiling),
    ];
    let known = all.into_iter().filter_map(|(key, limit)| {
        let limit = limit.as_ref()?;
        Some(pen.words.with("text-figure", &[("label", &pen.words.get(key)), ("value", &limit.text)]))
    });
    pen.words.list(List::Comma, &known.collect::<Vec<_>>())
}

/// The heat numbers that are told; nothing where none is.
fn heat_numbers(pen: &Pen<'_>, all: &[String]) -> String {
    let told: Vec<&str> = all.iter().map(|text| text.trim()).filter(|text| !text.is_empty()).collect();
    if told.is_empty() {
        return String::new();
    }
    pen.words.with("card-heat-numbers", &[("numbers", &pen.words.list(List::Comma, &told))])
}

/// An entry in one line, for where two of them stand against each other.
#[must_use]
pub fn entry(pen: &Pen<'_>, plan: &PlanCopy, said: &Entry) -> String {
    let figure = |count: u32| count.to_string();
    let mut parts = match said {
        Entry::Job(job) => vec![
            job.name.clone(),
            pen.words.with("card-said-pieces", &[("pieces", &figure(job.pieces))]),
            job.drawing.clone(),
            job.welder.clone(),
            limits(pen, &job.plan),
            job.note.clone(),
        ],
        Entry::Piece(piece) => vec![
            pen.words.with("card-piece", &[("number", &figure(piece.number))]),
            heat_numbers(pen, &piece.heat_numbers),
            if piece.finished { pen.words.get("card-finished") } else { String::new() },
            piece.note.clone(),
        ],
        Entry::Step(step) => vec![
            pen.words.with("card-step", &[("number", &figure(step.number))]),
            day_and_time(pen, step.at),
            step.note.clone(),
        ],
        Entry::Reading(reading) => vec![
            day_and_time(pen, reading.at),
            when_words(pen, reading.when),
            place(pen, plan, reading),
            instrument_words(pen, &reading.seen),
            shown(pen, reading),
            steel_has(pen, &reading.band),
            reading.note.clone(),
        ],
        Entry::Trial(trial) => vec![
            trial.name.clone(),
            trial.steel.clone(),
            steel_has(pen, &trial.band),
            cracked(pen, trial.outcome).1,
            trial.place.clone(),
            trial.note.clone(),
        ],
        Entry::Used(used) => vec![
            used.what.clone(),
            pen.show.with_unit(used.amount, 3, &used.unit),
            day_and_time(pen, used.at),
            used.note.clone(),
        ],
        Entry::Withdrawn => vec![pen.words.get("card-taken-back")],
    };
    parts.retain(|part| !part.is_empty());
    pen.words.list(List::Semicolon, &parts)
}
