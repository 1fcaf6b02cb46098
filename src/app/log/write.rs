//! What is written down: each is on the disk where its function says true, and nothing was changed where it
//! says false; why is kept and shown.

use super::entry::{Wrong, trial_told, with_draft};
use super::kept::LogKept;
use crate::app::State;
use crate::log::{
    CrackOutcome, Entry, Hand, Id, Moment, PieceEntry, Record, Standing, StepCopy, StepDone, Thing,
    TrialPiece,
};

/// Makes records from what stands, and writes them.
pub(super) fn write(state: &State, make: impl FnOnce(&Standing<'_>, &Hand) -> Vec<Record>) -> bool {
    let records = {
        let desk = state.log.borrow();
        let (Some(open), Some(hand)) = (&desk.open, desk.hand()) else { return false };
        make(&open.log().standing(), &hand)
    };
    state.log.borrow_mut().add(records)
}

/// Writes the reading that is typed; false where something is wrong or missing.
pub(super) fn reading(state: &State) -> bool {
    let Some(piece) = state.log.borrow().piece else { return false };
    let entry = with_draft(state, |draft| {
        let mut wrong = Wrong::new();
        let taken = draft.taken(&mut wrong).filter(|_| wrong.is_empty())?;
        Some(Entry::Reading(Box::new(draft.reading(piece, taken))))
    });
    let Some(entry) = entry.flatten() else { return false };
    let done = write(state, |_, hand| vec![hand.begin(entry)]);
    if done {
        LogKept::begin_reading(state);
    }
    done
}

/// Writes the trial piece that is typed.
pub(super) fn trial(state: &State) -> bool {
    let number = {
        let desk = state.log.borrow();
        desk.open.as_ref().map_or(0, |open| open.log().standing().trials.len()) + 1
    };
    let entry = with_draft(state, |draft| {
        let mut wrong = Wrong::new();
        let taken = draft.taken(&mut wrong).filter(|_| wrong.is_empty())?;
        let nth = draft.part().unwrap_or(0);
        let of = usize::try_from(nth).ok().and_then(|nth| draft.plan.members.get(nth))?;
        let (outcome, cooled) = trial_told(state);
        Some(Entry::Trial(Box::new(TrialPiece {
            name: state.words.with("log-trial-name", &[("number", &number.to_string())]),
            member: Some(nth),
            steel: of.name.clone(),
            grade: of.grade.clone(),
            family: of.family.clone(),
            cet: Some(of.cet),
            heat_number: LogKept::Heat.text(state),
            thickness_mm: Some(of.thickness_mm),
            at: draft.at().unwrap_or(draft.now),
            seen: Some(taken.seen),
            band: taken.band,
            cooled,
            outcome,
            place: if outcome == CrackOutcome::Cracked { LogKept::Place.text(state) } else { String::new() },
            photo: String::new(),
            note: LogKept::Note.text(state),
        })))
    });
    let Some(entry) = entry.flatten() else { return false };
    let done = write(state, |_, hand| vec![hand.begin(entry)]);
    if done {
        LogKept::begin_reading(state);
    }
    done
}

/// A trial piece was looked at: it cracked, or it did not.
pub(super) fn trial_outcome(state: &State, id: Id, outcome: CrackOutcome) {
    write(state, |standing, hand| {
        let of = standing.trials.iter().find(|trial| trial.id == id && trial.now.outcome != outcome);
        let change = |trial: &Thing<'_, TrialPiece>| {
            hand.change(trial, Entry::Trial(Box::new(TrialPiece { outcome, ..trial.now.clone() })))
        };
        of.map(change).into_iter().collect()
    });
}

/// Takes a reading back.
pub(super) fn remove_reading(state: &State, id: Id) {
    write(state, |standing, hand| {
        standing.readings.iter().filter(|reading| reading.id == id).map(|of| hand.withdraw(of)).collect()
    });
}

/// A step is done, or is not after all.
pub(super) fn step(state: &State, step: &StepCopy) {
    let Some(piece) = state.log.borrow().piece else { return };
    write(state, |standing, hand| {
        let same = |done: &&Thing<'_, StepDone>| {
            let done = done.now;
            done.piece == piece && done.number == step.number && done.branch == step.branch
        };
        let done: Vec<Record> = standing.steps.iter().filter(same).map(|done| hand.withdraw(done)).collect();
        if !done.is_empty() {
            return done;
        }
        let (number, branch, note) = (step.number, step.branch.clone(), String::new());
        vec![hand.begin(Entry::Step(StepDone { piece, number, branch, at: Moment::now(), note }))]
    });
}

/// Changes what is known of the piece that is open.
fn change_piece(state: &State, change: impl FnOnce(&mut PieceEntry)) -> bool {
    let piece = state.log.borrow().piece;
    write(state, |standing, hand| {
        let Some(thing) = standing.pieces.iter().find(|of| Some(of.id) == piece) else { return Vec::new() };
        let mut now = thing.now.clone();
        change(&mut now);
        if now == *thing.now { Vec::new() } else { vec![hand.change(thing, Entry::Piece(now))] }
    })
}

/// The piece is finished, or is not after all.
pub(super) fn finished(state: &State) {
    change_piece(state, |piece| piece.finished = !piece.finished);
}

/// Of several records that stand of one thing, this one is right.
pub(super) fn keep_version(state: &State, id: Id) {
    fn of<T>(things: &[Thing<'_, T>], id: Id, hand: &Hand) -> Option<Record> {
        things.iter().filter(|thing| thing.in_conflict()).find_map(|thing| {
            let all = [thing.record].into_iter().chain(thing.others.iter().copied());
            let kept = all.into_iter().find(|record| record.id == id)?;
            Some(hand.change(thing, kept.entry.clone()))
        })
    }
    write(state, |standing, hand| {
        let found = of(standing.job.as_slice(), id, hand)
            .or_else(|| of(&standing.pieces, id, hand))
            .or_else(|| of(&standing.steps, id, hand))
            .or_else(|| of(&standing.readings, id, hand))
            .or_else(|| of(&standing.trials, id, hand))
            .or_else(|| of(&standing.used, id, hand));
        found.into_iter().collect()
    });
}

/// Removes the job that is open.
pub(super) fn remove_job(state: &State) -> bool {
    write(state, |standing, hand| standing.job.iter().map(|job| hand.withdraw(job)).collect())
}

/// Brings the job that is open back.
pub(super) fn bring_back(state: &State) -> bool {
    let records = {
        let desk = state.log.borrow();
        let (Some(open), Some(hand)) = (&desk.open, desk.hand()) else { return false };
        let standing = open.log().standing();
        let gone = standing.withdrawn.iter().filter(|(record, _)| record.thing == open.job());
        gone.flat_map(|(record, _)| hand.undo(open.log(), record)).collect()
    };
    state.log.borrow_mut().add(records)
}
