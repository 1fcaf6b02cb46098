//! A large log, for the job card: the example's plan with as many pieces and readings as asked.
#![allow(dead_code, reason = "each test file uses its own part")]

use strawblue::log::{Entry, Hand, Log, Moment, PieceEntry, ReadingTaken, demo_log};

/// The plan of the example with this many pieces, each with this many readings, all of them like those of
/// the example's first piece.
pub(crate) fn large_log(pieces: u32, readings: usize) -> Log {
    let demo = demo_log();
    let standing = demo.standing();
    let job = standing.job.as_ref().expect("the example has a job").now.clone();
    let like: Vec<&ReadingTaken> = standing.readings.iter().map(|reading| reading.now).collect();
    let mut at = Moment::new(1_773_730_000, 60);
    let mut log = Log::default();
    log.add(Hand::at("bench", at).begin(Entry::Job(Box::new(job))));
    for number in 1..=pieces {
        let hand = Hand::at("bench", at);
        let piece = hand.begin(Entry::Piece(PieceEntry { number, ..PieceEntry::default() }));
        let id = piece.thing;
        log.add(piece);
        for nth in 0..readings {
            at = at.plus_min(1.0);
            let hand = Hand::at("bench", at);
            let reading = ReadingTaken { piece: id, at, ..like[nth % like.len()].clone() };
            log.add(hand.begin(Entry::Reading(Box::new(reading))));
        }
    }
    log
}
