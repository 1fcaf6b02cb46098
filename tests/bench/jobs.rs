//! A shop of many years on the disk, for the timings of the log.

use std::fs;
use std::path::Path;

use strawblue::engine::reading::{Band, Seen, Touch, When};
use strawblue::log::{
    Entry, Face, Hand, Id, JobEntry, Log, LogFile, Moment, PlanCopy, ReadingTaken, Record, demo_log,
};

/// So many jobs, each of so many pieces with so many readings.
pub(crate) const JOBS: usize = 1000;
const PIECES: u32 = 20;
const READINGS: usize = 12;
/// Who wrote them.
pub(crate) const DEVICE: &str = "bench0000001";

/// A reading.
pub(crate) fn reading(hand: &Hand, piece: Id, nth: usize) -> Record {
    let shows_c = 300.0 + (nth % 50) as f64;
    hand.begin(Entry::Reading(Box::new(ReadingTaken {
        piece,
        at: hand.at,
        member: Some(1),
        face: Face::Far,
        away_mm: Some(75.0),
        when: When::BeforeRun(1 + nth as u32 % 4),
        typed: format!("{shows_c} °C"),
        seen: Seen::Touched { with: Touch::ContactProbe, shows_c },
        band: Band::from_to(shows_c - 6.0, shows_c + 6.0),
        note: String::new(),
    })))
}

/// A job with the plan of the example, whole.
fn job(plan: &PlanCopy, nth: usize) -> Log {
    let at = Moment::new(1_700_000_000 + 3600 * nth as i64, 60);
    let hand = Hand::at(DEVICE, at);
    let entry =
        JobEntry { name: format!("Batch {nth}"), pieces: PIECES, plan: plan.clone(), ..JobEntry::default() };
    let mut log: Log = hand.begin_job(entry).into_iter().collect();
    let pieces: Vec<_> = log.standing().pieces.iter().map(|piece| piece.id).collect();
    for piece in pieces {
        for nth in 0..READINGS {
            log.add(reading(&hand, piece, nth));
        }
    }
    log
}

/// Lays them down in a folder.
pub(crate) fn put_jobs(folder: &Path) {
    let log = demo_log();
    let plan = log.standing().job.expect("a job").now.plan.clone();
    for nth in 0..JOBS {
        let log = job(&plan, nth);
        let id = log.standing().job.expect("a job").id;
        let there = folder.join("log").join(id.to_string());
        fs::create_dir_all(&there).expect("makes");
        let text = LogFile { job: id, device: DEVICE.to_owned() }.write(log.records());
        fs::write(there.join(format!("{DEVICE}.ron")), text).expect("writes");
    }
    fs::write(folder.join("device"), DEVICE).expect("writes");
}
