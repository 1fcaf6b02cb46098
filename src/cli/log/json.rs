//! Jobs, and what stands of one, as JSON: SI units, stable keys.

use serde_json::{Value, json};

use super::super::Said;
use crate::engine::reading::{Band, Verdict};
use crate::engine::tint::Held;
use crate::log::{
    Id, Imported, JobRow, LimitCopy, Moment, Overview, PieceView, ReadingView, Standing, bounds,
};
use crate::report::{Pen, own_trial_warnings, taught_lines};

/// The list of jobs.
pub(super) fn list(rows: &[JobRow]) -> Said {
    let row = |row: &JobRow| {
        json!({
            "id": row.id.to_string(), "name": row.name, "example": row.example, "removed": row.withdrawn,
            "pieces": row.pieces, "finished": row.finished, "readings": row.readings,
            "conflicts": row.conflicts, "last": row.last.to_string(), "faulty": row.faulty,
        })
    };
    Said::json(&json!({ "jobs": rows.iter().map(row).collect::<Vec<_>>() }))
}

/// What an import did.
pub(super) fn imported(done: &Imported) -> Said {
    Said::json(&json!({
        "job": done.job.to_string(), "new": done.new, "known": done.known,
        "damaged": done.damaged, "cut": done.cut, "conflicts": done.conflicts,
    }))
}

/// What stands of a job, or of one piece of it.
pub(super) fn job(
    pen: &Pen<'_>,
    id: Id,
    standing: &Standing<'_>,
    now: Moment,
    piece: Option<Id>,
    notes: Vec<String>,
) -> Said {
    let Some((job, overview)) = standing.job.as_ref().zip(standing.overview(pen.reference, now)) else {
        return Said::json(&json!({ "id": id.to_string(), "removed": true, "notes": notes }));
    };
    let (entry, plan) = (job.now, &job.now.plan);
    let at_c = |limit: &Option<LimitCopy>| limit.as_ref().map(|limit| limit.at_c);
    let wanted = |view: &&PieceView<'_>| piece.is_none_or(|id| view.thing.id == id);
    Said::json(&json!({
        "id": id.to_string(),
        "name": entry.name, "example": entry.example, "removed": false,
        "drawing": entry.drawing, "welder": entry.welder,
        "verdict": plan.verdict,
        "preheat_min_c": at_c(&plan.minimum), "interpass_max_c": at_c(&plan.maximum), "ceiling_c": at_c(&plan.ceiling),
        "left": overview.left,
        "pieces": overview.pieces.iter().filter(wanted).map(one_piece).collect::<Vec<_>>(),
        "urgent": overview.urgent.iter().map(|place| overview.pieces[*place].thing.now.number).collect::<Vec<_>>(),
        "trials": trials(standing), "taught": taught(standing), "taught_says": taught_lines(pen, standing),
        "taught_warns": own_trial_warnings(pen, standing),
        "used": used(&overview),
        "conflicts": conflicts(standing), "same_numbers": standing.same_numbers(),
        "notes": notes,
    }))
}

fn one_piece(view: &PieceView<'_>) -> Value {
    json!({
        "number": view.thing.now.number, "id": view.thing.id.to_string(),
        "heat_numbers": view.thing.now.heat_numbers, "note": view.thing.now.note,
        "status": view.status.id(), "ceiling_passed": view.ceiling_passed,
        "same_number": view.same_number,
        "left_min": view.clock.left_min, "overdue_min": view.clock.overdue_min,
        "wait_min": view.clock.wait_min, "may_be_hot": view.clock.may_be_hot, "clock": view.clock.why.id(),
        "steps": view.steps.iter().map(|step| step.now.number).collect::<Vec<_>>(),
        "readings": view.readings.iter().map(reading).collect::<Vec<_>>(),
    })
}

fn reading(view: &ReadingView<'_>) -> Value {
    let taken = view.thing.now;
    let held = |held: Option<Held>| {
        held.map(|held| match held {
            Held::Kept => "kept",
            Held::Missed => "missed",
            Held::Unsure => "unsure",
        })
    };
    let run = match taken.when {
        crate::engine::reading::When::BeforeRun(number) => Some(number),
        _ => None,
    };
    json!({
        "id": view.thing.id.to_string(), "at": taken.at.to_string(), "part": taken.member.map(|nth| u64::from(nth) + 1),
        "face": taken.face.id(), "away_mm": taken.away_mm, "when": taken.when.id(), "run": run,
        "instrument": taken.seen.instrument(), "shows_c": taken.seen.shows_c(), "typed": taken.typed,
        "steel": band(&taken.band), "verdict": view.judged.verdict.map(Verdict::id),
        "minimum": held(view.judged.minimum), "maximum": held(view.judged.maximum),
        "ceiling": held(view.judged.ceiling), "note": taken.note,
    })
}

fn band(band: &Band) -> Value {
    json!({ "low_c": band.low_c, "high_c": band.high_c, "peak": band.peak })
}

fn trials(standing: &Standing<'_>) -> Vec<Value> {
    let trial = |thing: &crate::log::Thing<'_, crate::log::TrialPiece>| {
        let now = thing.now;
        json!({
            "id": thing.id.to_string(), "name": now.name, "steel": now.steel, "grade": now.grade,
            "heat_number": now.heat_number, "at": now.at.to_string(), "welded": band(&now.band),
            "cooled": now.cooled.id(), "outcome": now.outcome.id(), "place": now.place, "photo": now.photo,
            "note": now.note,
        })
    };
    standing.trials.iter().map(trial).collect()
}

fn taught(standing: &Standing<'_>) -> Vec<Value> {
    let of = |bounds: &crate::log::Bounds<'_>| {
        json!({
            "steel": bounds.steel,
            "coldest_sound_c": bounds.sound.as_ref().map(|(at_c, _)| at_c),
            "hottest_cracked_c": bounds.cracked.as_ref().map(|(at_c, _)| at_c).filter(|at_c| at_c.is_finite()),
            // One that cracked and may have been hotter than was seen.
            "cracked_hot_end_open": bounds.cracked.as_ref().is_some_and(|(at_c, _)| !at_c.is_finite()),
        })
    };
    bounds(standing).iter().map(of).collect()
}

fn used(overview: &Overview<'_>) -> Vec<Value> {
    let of = |used: &crate::log::UsedOf| {
        json!({
            "what": used.id, "unit": used.unit, "estimate": used.estimate,
            "estimate_so_far": used.estimate_so_far, "told": used.told,
        })
    };
    overview.used.iter().map(of).collect()
}

fn conflicts(standing: &Standing<'_>) -> Vec<Value> {
    let of = |(thing, heads): (Id, Vec<&crate::log::Record>)| {
        let record = |record: &&crate::log::Record| json!({ "record": record.id.to_string(), "device": record.device, "at": record.at.to_string() });
        json!({ "thing": thing.to_string(), "records": heads.iter().map(record).collect::<Vec<_>>() })
    };
    standing.in_conflict().into_iter().map(of).collect()
}
