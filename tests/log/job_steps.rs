//! Steps of the job and of its pieces: what is done once for all, what is done anew each day.

use strawblue::log::{Hand, Id, Log, Moment, demo_log};
use strawblue::reference::embedded;

/// Half past seven in the evening of a day of work, on a clock one hour ahead.
const EVENING: Moment = Moment { utc_s: 1_773_772_200, offset_min: 60 };

fn done(log: &Log, now: Moment) -> Vec<(String, usize)> {
    let standing = log.standing();
    let steps = standing.job_steps(now);
    steps.iter().map(|step| (step.step.phase.clone(), step.done.len())).collect()
}

fn turn(log: &mut Log, nth: usize, now: Moment) {
    let records = {
        let standing = log.standing();
        let job = standing.job.as_ref().expect("a job").id;
        let steps = standing.job_steps(now);
        Hand::at("tester000001", now).after(log).turn_job_step(job, &steps[nth])
    };
    log.extend(records);
}

fn bare() -> Log {
    demo_log().records().filter(|record| record.entry.kind() != "step").cloned().collect()
}

#[test]
fn the_place_is_made_safe_anew_each_day_and_the_trial_is_welded_once() {
    let mut log = bare();
    let of = |safe: usize, trial: usize| vec![("make-safe".to_owned(), safe), ("trial".to_owned(), trial)];
    assert_eq!(done(&log, EVENING), of(0, 0));
    turn(&mut log, 0, EVENING);
    turn(&mut log, 1, EVENING);
    assert_eq!(done(&log, EVENING), of(1, 1));
    // The day is that of the clock on the wall: it ends at its midnight, not at that of the world.
    assert_eq!(done(&log, EVENING.plus_min(4.0 * 60.0)), of(1, 1), "half past eleven");
    assert_eq!(done(&log, EVENING.plus_min(5.0 * 60.0)), of(0, 1), "half past midnight");
    turn(&mut log, 0, EVENING.plus_min(5.0 * 60.0));
    assert_eq!(done(&log, EVENING.plus_min(12.0 * 60.0)), of(1, 1));
    turn(&mut log, 0, EVENING.plus_min(12.0 * 60.0));
    assert_eq!(done(&log, EVENING.plus_min(12.0 * 60.0)), of(0, 1), "it is taken back");
    assert_eq!(done(&log, EVENING), of(1, 1), "and the day before keeps its own");
}

/// What an earlier program marked on a piece counts for the job, and no piece is asked for a step of the job.
#[test]
fn a_piece_begins_with_a_step_of_its_own() {
    let log = demo_log();
    let standing = log.standing();
    let plan = &standing.job.as_ref().expect("a job").now.plan;
    let marked = standing.steps.iter().find(|step| step.now.number == 1).expect("it was made safe");
    assert!(done(&log, marked.now.at).iter().all(|(_, count)| *count > 0));
    let overview = standing.overview(embedded(), EVENING).expect("a job");
    for piece in &overview.pieces {
        let next = piece.next_step(plan);
        assert!(next.is_none_or(|step| !step.is_of_job()), "{}", piece.thing.now.number);
        if piece.steps.is_empty() {
            assert_eq!(next.map(|step| step.phase.as_str()), Some("clean"));
        }
    }
    // A mark on the job is no mark on a piece.
    let mut log = bare();
    turn(&mut log, 1, EVENING);
    let standing = log.standing();
    let overview = standing.overview(embedded(), EVENING).expect("a job");
    assert!(overview.pieces.iter().all(|piece| piece.steps.is_empty()));
    assert_eq!(standing.steps.len(), 1);
    assert_ne!(standing.steps[0].now.piece, Id::default());
}

/// A change that was begun on a record which somebody replaced meanwhile stands beside the other one.
#[test]
fn a_change_of_what_was_seen_loses_nothing() {
    use strawblue::log::{Entry, PieceEntry};
    let mut log = bare();
    let heat = |number: u32, text: &str| {
        Entry::Piece(PieceEntry { number, heat_numbers: vec![text.to_owned()], ..PieceEntry::default() })
    };
    let (seen, theirs) = {
        let standing = log.standing();
        let piece = &standing.pieces[6];
        let hand = Hand::at("other0000001", EVENING).after(&log);
        (piece.record.clone(), hand.change(piece, heat(7, "theirs")))
    };
    log.add(theirs);
    let own = Hand::at("tester000001", EVENING).after(&log).change_seen(&seen, heat(7, "own"));
    log.add(own);
    let standing = log.standing();
    let piece = &standing.pieces[6];
    assert!(piece.in_conflict());
    let said = |entry: &Entry| match entry {
        Entry::Piece(piece) => piece.heat_numbers.concat(),
        _ => String::new(),
    };
    let mut both: Vec<String> = piece.others.iter().map(|other| said(&other.entry)).collect();
    both.push(piece.now.heat_numbers.concat());
    both.sort();
    assert_eq!(both, ["own", "theirs"]);
}
