//! What is told of a piece beside its readings, at any time: heat numbers, a note; and of a reading later:
//! the part that was measured.

use super::entry::Wrong;
use super::form::{alone, field};
use super::kept::LogKept;
use super::write::write;
use crate::app::form::parts::plain_row;
use crate::app::{State, ui};
use crate::engine::reading::Seen;
use crate::log::{Entry, Hand, Id, PieceEntry, PieceView, PlanCopy, ReadingTaken, Record, Thing};
use crate::words::List;

/// What is typed for a piece.
pub(super) const OF_PIECE: [LogKept; 3] = [LogKept::HeatA, LogKept::HeatB, LogKept::PieceNote];
const HEATS: [LogKept; 2] = [LogKept::HeatA, LogKept::HeatB];

/// What stands of a piece where something is typed.
fn stands(piece: &PieceEntry, kept: LogKept) -> &str {
    match HEATS.iter().position(|heat| *heat == kept) {
        Some(nth) => piece.heat_numbers.get(nth).map(String::as_str).unwrap_or_default(),
        None => &piece.note,
    }
}

fn put(piece: &mut PieceEntry, kept: LogKept, text: &str) {
    let Some(nth) = HEATS.iter().position(|heat| *heat == kept) else {
        text.clone_into(&mut piece.note);
        return;
    };
    if piece.heat_numbers.len() <= nth {
        piece.heat_numbers.resize(nth + 1, String::new());
    }
    text.clone_into(&mut piece.heat_numbers[nth]);
}

/// Heat numbers and a note: what is typed, or what stands.
pub(super) fn rows(state: &State, plan: &PlanCopy, piece: &PieceView<'_>) -> Vec<ui::FormRow> {
    let optional = state.word("form-optional");
    let now = piece.thing.now;
    let theirs = changed_by_others(state, piece);
    let told = |kept: LogKept, label: slint::SharedString| {
        let wrong: Wrong = theirs.iter().filter(|(of, _)| *of == kept).cloned().collect();
        let row = field(state, kept, "log-form-note", &wrong);
        let text = if kept.get(state).is_some() { row.text.clone() } else { stands(now, kept).into() };
        alone(ui::FieldRow { text, hint: optional.clone(), label, ..row })
    };
    let heats = plan.members.iter().zip(HEATS);
    let mut parts: Vec<ui::PartRow> = heats
        .map(|(member, kept)| told(kept, state.words.with("log-heat-of", &[("part", &member.name)]).into()))
        .collect();
    parts.push(told(LogKept::PieceNote, state.word("log-form-note")));
    let value: Vec<&String> =
        now.heat_numbers.iter().chain([&now.note]).filter(|text| !text.is_empty()).collect();
    let row = plain_row(state, "log-told", state.words.list(List::Comma, &value), parts);
    let problem = theirs.first().map(|(_, says)| says.clone()).unwrap_or_default();
    vec![ui::FormRow { problem: problem.into(), ..row }]
}

/// What is being typed here and was changed by somebody else meanwhile, with what they wrote.
fn changed_by_others(state: &State, piece: &PieceView<'_>) -> Wrong {
    let desk = state.log.borrow();
    let seen = desk.open.as_ref().and_then(|open| seen(state, open.log()));
    let Some(seen) = seen.and_then(entry_of) else { return Wrong::new() };
    let now = piece.thing.now;
    let changed = |kept: &LogKept| {
        let typed = kept.get(state)?;
        let theirs = stands(now, *kept);
        (theirs != stands(seen, *kept) && theirs != typed.trim())
            .then(|| (*kept, state.words.with("log-changed-meanwhile", &[("text", theirs)])))
    };
    OF_PIECE.iter().filter_map(changed).collect()
}

/// The record of the piece that stood when its typing began.
fn seen<'a>(state: &State, log: &'a crate::log::Log) -> Option<&'a Record> {
    log.get(Id::read(&LogKept::PieceSeen.get(state)?)?)
}

const fn entry_of(record: &Record) -> Option<&PieceEntry> {
    match &record.entry {
        Entry::Piece(piece) => Some(piece),
        _ => None,
    }
}

/// Something is typed for the piece: what stands of it is remembered.
pub(super) fn begun(state: &State, kept: LogKept) {
    if !OF_PIECE.contains(&kept) || LogKept::PieceSeen.get(state).is_some() {
        return;
    }
    let stood = {
        let desk = state.log.borrow();
        let standing = desk.open.as_ref().map(|open| open.log().standing());
        let piece = standing
            .as_ref()
            .and_then(|standing| standing.pieces.iter().find(|piece| Some(piece.id) == desk.piece));
        piece.map(|piece| piece.record.id.to_string())
    };
    LogKept::PieceSeen.set(state, stood.as_deref());
}

/// Writes down what is typed for the piece that is open. Where somebody else changed the same meanwhile, both
/// stand, and somebody chooses.
pub(super) fn write_down(state: &State) {
    let typed: Vec<(LogKept, String)> =
        OF_PIECE.iter().filter_map(|kept| Some((*kept, kept.get(state)?.trim().to_owned()))).collect();
    if typed.is_empty() {
        return;
    }
    // What others wrote is known before it is judged.
    state.log.borrow_mut().hear();
    let of = state.log.borrow().piece;
    let (same, before) = {
        let desk = state.log.borrow();
        let Some(open) = &desk.open else { return };
        let standing = open.log().standing();
        let Some(thing) = standing.pieces.iter().find(|piece| Some(piece.id) == of) else { return };
        let same = typed.iter().all(|(kept, text)| stands(thing.now, *kept) == text);
        (same, seen(state, open.log()).cloned())
    };
    let done = same
        || write(state, |standing, hand| {
            let found = standing.pieces.iter().find(|piece| Some(piece.id) == of);
            found.map(|thing| changed(thing, hand, &typed, before.as_ref())).into_iter().collect()
        });
    if done {
        let gone = OF_PIECE.iter().chain([&LogKept::PieceSeen]);
        LogKept::set_all(state, &gone.map(|kept| (*kept, None)).collect::<Vec<_>>());
    }
}

/// The record of what was typed; beside what somebody else wrote meanwhile, and in the place of anything else.
fn changed(
    thing: &Thing<'_, PieceEntry>,
    hand: &Hand,
    typed: &[(LogKept, String)],
    seen: Option<&Record>,
) -> Record {
    let mut now = thing.now.clone();
    typed.iter().for_each(|(kept, text)| put(&mut now, *kept, text));
    let theirs = |seen: &PieceEntry| {
        typed.iter().any(|(kept, text)| {
            let stands = stands(thing.now, *kept);
            stands != self::stands(seen, *kept) && stands != text
        })
    };
    match seen.filter(|seen| seen.thing == thing.id).and_then(|seen| Some((seen, entry_of(seen)?))) {
        Some((seen, before)) if theirs(before) => hand.change_seen(seen, Entry::Piece(now)),
        _ => hand.change(thing, Entry::Piece(now)),
    }
}

/// The part that was measured is told of a reading, or corrected.
pub(super) fn part_of_reading(state: &State, id: Id, part: u32) {
    let reference = state.reference;
    write(state, |standing, hand| {
        let plan = standing.job.as_ref().map(|job| &job.now.plan);
        let of = standing.readings.iter().find(|reading| reading.id == id);
        let Some((of, plan)) = of.zip(plan).filter(|(of, _)| of.now.member != Some(part)) else {
            return Vec::new();
        };
        let mut now = ReadingTaken { member: Some(part), ..of.now.clone() };
        // What a colour says depends on the steel that shows it.
        if let Seen::Colour { chromium_pct, .. } = &mut now.seen {
            *chromium_pct = plan.chromium_pct(Some(part));
            match now.seen.band(reference) {
                Ok(band) => now.band = band,
                Err(_) => return Vec::new(),
            }
        }
        vec![hand.change(of, Entry::Reading(Box::new(now)))]
    });
}
