//! The list of jobs: what is overdue first, then the latest.

use super::desk::LogDesk;
use crate::app::rows::put;
use crate::app::{State, ui};
use crate::log::{JobRow, Moment, PieceStatus};
use crate::report::{day_and_time, piece_words};

/// Fills the list.
pub(super) fn fill(adapter: &ui::LogAdapter<'_>, state: &State, desk: &LogDesk) {
    let now = Moment::now();
    let mut rows: Vec<(PieceStatus, ui::LogJobRow)> =
        desk.rows.iter().map(|row| job_row(state, desk, row, now)).collect();
    // What has no clock that runs stays in the order of its last change.
    let urgent = |status: PieceStatus| match status {
        PieceStatus::Overdue | PieceStatus::Measure | PieceStatus::Warm | PieceStatus::Wait => status,
        _ => PieceStatus::Begun,
    };
    rows.sort_by_key(|(status, _)| urgent(*status));
    let more = rows.len().saturating_sub(desk.jobs_shown());
    rows.truncate(desk.jobs_shown());
    put(&adapter.get_jobs(), rows.into_iter().map(|(_, row)| row).collect());
    let more = if more > 0 { state.words.count("log-more-jobs", more, &[]) } else { String::new() };
    adapter.set_more_jobs(more.into());
    adapter.set_example_offered(!desk.rows.iter().any(|row| row.example && !row.withdrawn));
    adapter.set_keeps(desk.can_keep());
    adapter.set_reading_list(desk.unread > 0);
}

/// The sign of a piece's status.
pub(super) const fn sign(status: PieceStatus) -> ui::LogSign {
    match status {
        PieceStatus::Overdue => ui::LogSign::Overdue,
        PieceStatus::Measure => ui::LogSign::Unsure,
        PieceStatus::Warm => ui::LogSign::Warm,
        PieceStatus::Wait => ui::LogSign::Wait,
        PieceStatus::Begun => ui::LogSign::Begun,
        PieceStatus::Welded => ui::LogSign::Welded,
        PieceStatus::NotBegun => ui::LogSign::Todo,
        PieceStatus::Done => ui::LogSign::Done,
    }
}

/// What a job is called.
pub(super) fn called(state: &State, name: &str, example: bool) -> String {
    let name = if name.is_empty() { state.words.get("log-unnamed") } else { name.to_owned() };
    if example { state.words.with("log-example", &[("name", &name)]) } else { name }
}

fn job_row(state: &State, desk: &LogDesk, row: &JobRow, now: Moment) -> (PieceStatus, ui::LogJobRow) {
    let pen = state.pen();
    let standing = desk.fresh.get(&row.id).map(|open| open.log().standing());
    let overview = standing.as_ref().and_then(|standing| standing.overview(state.reference, now));
    let first = overview.as_ref().and_then(|all| all.pieces.get(*all.urgent.first()?));
    let rest = match (row.finished, row.readings) {
        (finished, _) if finished == row.pieces => PieceStatus::Done,
        (0, 0) => PieceStatus::NotBegun,
        _ => PieceStatus::Begun,
    };
    let status = first.map_or(rest, |piece| piece.status);
    let runs =
        matches!(status, PieceStatus::Overdue | PieceStatus::Measure | PieceStatus::Warm | PieceStatus::Wait);
    let alarm = if row.withdrawn {
        state.words.get("log-job-removed")
    } else if row.faulty {
        state.words.get("log-faulty")
    } else if row.conflicts > 0 {
        state.words.get("log-in-conflict")
    } else {
        first.filter(|_| runs).map_or_else(String::new, |piece| {
            let number = piece.thing.now.number.to_string();
            let values = [("number", number.as_str()), ("status", &piece_words(&pen, piece.status))];
            state.words.with("log-piece", &values)
        })
    };
    let counts = [("finished", row.finished), ("pieces", row.pieces)];
    let sign = if row.withdrawn {
        ui::LogSign::None
    } else if row.faulty || row.conflicts > 0 {
        ui::LogSign::Unsure
    } else {
        sign(status)
    };
    let shown = ui::LogJobRow {
        id: row.id.to_string().into(),
        name: called(state, &row.name, row.example).into(),
        note: state.words.numbers("log-finished-of", &counts, &[]).into(),
        last: state.words.with("log-last-change", &[("time", &day_and_time(&pen, row.last))]).into(),
        alarm: alarm.into(),
        sign,
    };
    (status, shown)
}
