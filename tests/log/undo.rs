//! What is undone is as it was: a settled conflict is one again. Two pieces of one number are said.

use strawblue::log::{Entry, Hand, Log, Moment, PieceEntry};
use strawblue::reference::embedded;
use strawblue::report::{Pen, piece_line};
use strawblue::units::{Show, Units};
use strawblue::words::Words;

use crate::shop::{job_of, reading};

fn hand(device: &str, minute: i64, log: &Log) -> Hand {
    Hand::at(device, Moment::new(60 * minute, 0)).after(log)
}

/// One device changed a reading, the other took it back; one version was kept. Undone, both stand again.
#[test]
fn a_settled_conflict_comes_back_whole() {
    let mut log = Log::default();
    log.extend(hand("me", 0, &log).begin_job(job_of(1)));
    let piece = log.standing().pieces[0].id;
    let first = reading(&hand("me", 1, &log), piece, 7);
    log.add(first.clone());
    let Entry::Reading(mut changed) = first.entry.clone() else { panic!("a reading") };
    changed.note = "changed".to_owned();
    log.add(hand("me", 2, &log).change_seen(&first, Entry::Reading(changed.clone())));
    log.add(hand("other", 3, &log).change_seen(&first, Entry::Withdrawn));
    let heads = |log: &Log| -> Vec<Entry> {
        let standing = log.standing();
        let all = standing.in_conflict();
        all.iter().flat_map(|(_, records)| records.iter().map(|record| record.entry.clone())).collect()
    };
    let before = heads(&log);
    assert_eq!(before.len(), 2);
    let settle = {
        let standing = log.standing();
        hand("me", 4, &log).change(&standing.readings[0], Entry::Reading(changed))
    };
    log.add(settle);
    assert_eq!(heads(&log), []);
    let undone = hand("me", 5, &log).undo_last(&log);
    log.extend(undone.clone());
    assert_eq!(heads(&log), before, "both stand again");
    assert_eq!(log.standing().readings.len(), 1);
    // The undoing is undone as one, whether by the last record or by all of them.
    for again in [hand("me", 6, &log).undo_last(&log), hand("me", 6, &log).undo_all(&log, &undone)] {
        assert_eq!(again.len(), 1);
        let mut settled = log.clone();
        settled.extend(again);
        assert_eq!(heads(&settled), []);
        assert_eq!(settled.standing().readings[0].now.note, "changed");
    }
}

/// Both devices add the next piece: after the merge nothing is lost, and the number is said.
#[test]
fn two_pieces_of_one_number_are_said() {
    let mut log = Log::default();
    log.extend(hand("me", 0, &log).begin_job(job_of(2)));
    let mut other = log.clone();
    log.extend(hand("me", 1, &log).begin_pieces(3..=3));
    other.extend(hand("other", 1, &other).begin_pieces(3..=3));
    assert!(log.standing().same_numbers().is_empty());
    log.merge(&other);
    let words = Words::english();
    let pen = Pen { reference: embedded(), words: &words, show: Show::new(Units::C_MM, &words) };
    let alarms = |log: &Log| -> Vec<usize> {
        let standing = log.standing();
        let overview = standing.overview(embedded(), Moment::new(600, 0)).expect("a job");
        let plan = &standing.job.as_ref().expect("a job").now.plan;
        overview.pieces.iter().map(|piece| piece_line(&pen, plan, piece).alarms.len()).collect()
    };
    assert_eq!((log.standing().same_numbers(), alarms(&log)), (vec![3], vec![0, 0, 1, 1]));
    let changed = {
        let standing = log.standing();
        let entry = PieceEntry { number: 4, ..PieceEntry::default() };
        hand("me", 2, &log).change(&standing.pieces[3], Entry::Piece(entry))
    };
    log.add(changed);
    assert!(log.standing().same_numbers().is_empty());
    assert_eq!(alarms(&log), [0, 0, 0, 0]);
}
