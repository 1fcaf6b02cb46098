//! What two devices changed, each version with all that it says, so that one can choose.

use crate::app::rows::model;
use crate::app::ui;
use crate::card::entry_words;
use crate::log::{Entry, Id, PlanCopy, Record, Standing};
use crate::report::{Pen, day_and_time};
use crate::words::List;

/// Every conflict of a job.
pub(super) fn rows(pen: &Pen<'_>, plan: &PlanCopy, standing: &Standing<'_>) -> Vec<ui::LogConflict> {
    let all = standing.in_conflict().into_iter();
    let shown = all.map(|(thing, heads)| ui::LogConflict {
        id: thing.to_string().into(),
        what: what(pen, standing, &heads).into(),
        versions: model(
            heads.iter().enumerate().map(|(nth, record)| version(pen, plan, nth + 1, record)).collect(),
        ),
    });
    shown.collect()
}

/// What was changed, and of which piece.
fn what(pen: &Pen<'_>, standing: &Standing<'_>, heads: &[&Record]) -> String {
    let known = |id: Id| {
        let piece = standing.pieces.iter().find(|piece| piece.id == id)?;
        Some(pen.words.with("card-piece", &[("number", &piece.now.number.to_string())]))
    };
    // A version that takes the thing back does not tell what it was.
    let said = heads.iter().find(|record| record.entry != Entry::Withdrawn).or(heads.first());
    let Some(said) = said else { return String::new() };
    let of = match &said.entry {
        Entry::Piece(piece) => Some(pen.words.with("card-piece", &[("number", &piece.number.to_string())])),
        Entry::Reading(reading) => known(reading.piece),
        Entry::Step(step) => known(step.piece),
        Entry::Trial(trial) => Some(trial.name.clone()),
        Entry::Job(_) | Entry::Used(_) | Entry::Withdrawn => None,
    };
    let kind = pen.words.get(&format!("log-kind-{}", said.entry.kind()));
    let kind = (!matches!(said.entry, Entry::Piece(_) | Entry::Trial(_))).then_some(kind);
    pen.words.list(List::Comma, &kind.into_iter().chain(of).collect::<Vec<_>>())
}

fn version(pen: &Pen<'_>, plan: &PlanCopy, nth: usize, record: &Record) -> ui::LogVersion {
    let at = day_and_time(pen, record.at.here());
    let what = entry_words(pen, plan, &record.entry);
    let text = pen.words.with("log-version", &[("what", &what), ("time", &at), ("device", &record.device)]);
    ui::LogVersion {
        id: record.id.to_string().into(),
        text: text.into(),
        keep: pen.words.with("log-version-keep", &[("number", &nth.to_string())]).into(),
    }
}
