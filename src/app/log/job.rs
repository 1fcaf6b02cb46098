//! The job that is open: its limits, its pieces, what its trial pieces taught, what two devices changed.

use slint::SharedString;

use super::conflicts;
use super::desk::LogDesk;
use super::list::{called, sign};
use crate::app::rows::{model, put};
use crate::app::{State, ui};
use crate::engine::reading::Seen;
use crate::log::{CrackOutcome, LimitCopy, Moment, PieceStatus, PieceView, PlanCopy, Thing, TrialPiece};
use crate::report::{
    Pen, band_words, clock_line, own_trial_warnings, piece_line, seen_words, taught_lines, trial_line,
    written_in,
};
use crate::units::parts;
use crate::words::List;

/// Fills what belongs to the job; false where none stands.
pub(super) fn fill(adapter: &ui::LogAdapter<'_>, state: &State, desk: &LogDesk) {
    let standing = desk.open.as_ref().map(|open| open.log().standing());
    adapter.set_has_job(desk.open.is_some());
    let job = standing.as_ref().and_then(|standing| Some((standing, standing.job.as_ref()?)));
    adapter.set_removed(desk.open.is_some() && job.is_none());
    let Some((standing, job)) = job else { return };
    let (pen, plan) = (state.pen(), &job.now.plan);
    adapter.set_job_name(called(state, &job.now.name, job.now.example).into());
    let told = [("log-drawing", &job.now.drawing), ("log-welder", &job.now.welder)];
    let told = told.into_iter().filter(|(_, text)| !text.is_empty());
    let told: Vec<SharedString> =
        told.map(|(key, text)| state.words.with(key, &[("text", text)]).into()).collect();
    let written = written_in(pen.words, plan).map(Into::into);
    adapter.set_job_notes(model(told.into_iter().chain(written).collect()));
    adapter.set_limits(model(limits(&pen, plan)));
    adapter.set_warned(model(own_trial_warnings(&pen, standing).into_iter().map(Into::into).collect()));
    adapter.set_no_range(if plan.answers { "".into() } else { no_range(state, plan) });
    put(&adapter.get_conflicts(), conflicts::rows(&pen, plan, standing));
    put(&adapter.get_trials(), standing.trials.iter().map(|trial| trial_row(&pen, desk, trial)).collect());
    adapter.set_taught(model(taught_lines(&pen, standing).into_iter().map(Into::into).collect()));
    let Some(overview) = standing.overview(state.reference, Moment::now()) else { return };
    adapter.set_left(state.words.numbers("log-left-pieces", &[("left", overview.left)], &[]).into());
    put(&adapter.get_pieces(), overview.pieces.iter().map(|piece| cell(&pen, plan, piece)).collect());
}

fn no_range(state: &State, plan: &PlanCopy) -> SharedString {
    if plan.title.is_empty() { state.word("log-no-range") } else { plan.title.as_str().into() }
}

/// The three limits that readings are judged by, in the units of the reader.
fn limits(pen: &Pen<'_>, plan: &PlanCopy) -> Vec<ui::LogLimit> {
    let none = pen.words.get("log-limit-none");
    // A ceiling that the plan asks for is not the same as none.
    let no_ceiling = if plan.ceiling_word.is_empty() { none.as_str() } else { plan.ceiling_word.as_str() };
    let each = [
        ("plan-minimum-short", "answer-minimum", &plan.minimum, none.as_str()),
        ("plan-maximum-short", "answer-maximum", &plan.maximum, none.as_str()),
        ("plan-ceiling-short", "answer-ceiling", &plan.ceiling, no_ceiling),
    ];
    each.into_iter()
        .map(|(short, long, limit, none)| shown_limit(pen, plan, (short, long), limit.as_ref(), none))
        .collect()
}

fn shown_limit(
    pen: &Pen<'_>,
    plan: &PlanCopy,
    (short, long): (&str, &str),
    limit: Option<&LimitCopy>,
    none: &str,
) -> ui::LogLimit {
    let label = pen.words.get(short);
    let spoken = pen.words.get(long);
    let Some(limit) = limit else {
        return ui::LogLimit {
            label: label.into(),
            note: none.into(),
            spoken: pen.words.list(List::Comma, &[spoken.as_str(), none]).into(),
            ..ui::LogLimit::default()
        };
    };
    let (mut main, mut second) = (limit.text.as_str(), limit.second.as_str());
    if !second.is_empty() && pen.show.units.temperature != plan.units.temperature {
        std::mem::swap(&mut main, &mut second);
    }
    let qualifier = if limit.at_least { pen.words.get("answer-at-least") } else { String::new() };
    let said = [spoken.as_str(), &qualifier, main, second].map(str::to_owned);
    let said: Vec<String> = said.into_iter().filter(|text| !text.is_empty()).collect();
    let (figure, unit) = parts(main);
    ui::LogLimit {
        label: label.into(),
        qualifier: qualifier.into(),
        figure: figure.into(),
        unit: unit.into(),
        second: second.into(),
        note: limit.note.as_str().into(),
        spoken: pen.words.list(List::Comma, &said).into(),
    }
}

/// A piece in the grid: its number, its status as shape and word, and the one figure that matters.
fn cell(pen: &Pen<'_>, plan: &PlanCopy, piece: &PieceView<'_>) -> ui::LogPieceCell {
    let said = piece_line(pen, plan, piece);
    // A crayon is one-sided, and its words are long: what the steel has by it.
    let shown = piece.readings.last().map(|last| match &last.thing.now.seen {
        Seen::Crayons { .. } => band_words(pen, &last.thing.now.band),
        seen => seen_words(pen, seen),
    });
    let shown = shown.unwrap_or_default();
    let figure = match piece.status {
        PieceStatus::Warm => clock_line(pen, &piece.clock).left,
        PieceStatus::NotBegun => String::new(),
        _ => shown,
    };
    let alarm = said.alarms.first().cloned().unwrap_or_default();
    let (number, clock) = (said.number.to_string(), said.clock.clone());
    let spoken = pen.words.with("log-piece", &[("number", &number), ("status", &said.status)]);
    // The minutes left are said by the clock.
    let last = if piece.status == PieceStatus::Warm { String::new() } else { figure.clone() };
    let spoken: Vec<String> =
        [spoken, last, clock].into_iter().chain(said.alarms).filter(|text| !text.is_empty()).collect();
    ui::LogPieceCell {
        id: piece.thing.id.to_string().into(),
        number: number.into(),
        word: said.status.into(),
        figure: figure.into(),
        alarm: alarm.into(),
        sign: sign(piece.status),
        spoken: pen.words.list(List::Sentences, &spoken).into(),
    }
}

fn trial_row(pen: &Pen<'_>, desk: &LogDesk, trial: &Thing<'_, TrialPiece>) -> ui::LogTrialRow {
    let said = trial_line(pen, trial.now);
    let text = pen.words.with("log-trial-at", &[("figure", &said.at)]);
    let notes: Vec<String> =
        [said.steel, said.cooled, said.note, said.when].into_iter().filter(|text| !text.is_empty()).collect();
    ui::LogTrialRow {
        id: trial.id.to_string().into(),
        name: said.name.into(),
        word: said.outcome.into(),
        text: text.into(),
        note: pen.words.list(List::Semicolon, &notes).into(),
        sign: match trial.now.outcome {
            CrackOutcome::Cracked => ui::LogSign::Cracked,
            CrackOutcome::Sound => ui::LogSign::Sound,
            CrackOutcome::NotYet => ui::LogSign::Todo,
        },
        open: desk.unfolded.contains(&trial.id),
    }
}
