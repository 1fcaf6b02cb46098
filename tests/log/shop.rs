//! A shop with devices, for the tests of the store.

use std::path::{Path, PathBuf};

use strawblue::engine::reading::{Band, Seen, Touch, When};
use strawblue::log::{
    Entry, Face, Hand, Id, JobEntry, LimitCopy, Logs, Moment, OpenLog, PlanCopy, ReadingTaken, Record,
};

/// A folder of its own, gone at the end.
pub(crate) struct Shop {
    pub(crate) folder: tempfile::TempDir,
}

impl Shop {
    pub(crate) fn new() -> Self {
        Self { folder: tempfile::tempdir().expect("a folder") }
    }

    pub(crate) fn logs(&self) -> Logs {
        Logs::open(self.folder.path()).expect("opens")
    }

    pub(crate) fn job_folder(&self, job: Id) -> PathBuf {
        self.folder.path().join("log").join(job.to_string())
    }

    pub(crate) fn second_folder(&self, job: Id) -> PathBuf {
        self.folder.path().join("log-second").join(job.to_string())
    }

    pub(crate) fn own_file(&self, job: Id) -> PathBuf {
        self.job_folder(job).join(format!("{}.ron", self.logs().device()))
    }
}

/// A job of so many pieces, with a plan of its own limits.
pub(crate) fn job_of(pieces: u32) -> JobEntry {
    let limit = |at_c: f64| Some(LimitCopy { at_c, exact_c: at_c, ..LimitCopy::default() });
    JobEntry {
        name: "Batch".to_owned(),
        pieces,
        plan: PlanCopy {
            answers: true,
            minimum: limit(200.0),
            maximum: limit(300.0),
            shop_c: 20.0,
            ..PlanCopy::default()
        },
        ..JobEntry::default()
    }
}

pub(crate) fn begin(logs: &Logs, pieces: u32) -> OpenLog {
    logs.begin(Hand::now(logs.device()).begin_job(job_of(pieces))).expect("begins")
}

/// A reading of a piece, with a note that names it.
pub(crate) fn reading(hand: &Hand, piece: Id, nth: usize) -> Record {
    let shows_c = 200.0 + (nth % 100) as f64;
    hand.begin(Entry::Reading(Box::new(ReadingTaken {
        piece,
        at: Moment::now(),
        member: Some(0),
        face: Face::Far,
        away_mm: Some(75.0),
        when: When::BeforeRun(1),
        typed: format!("{shows_c} °C"),
        seen: Seen::Touched { with: Touch::ContactProbe, shows_c },
        band: Band::from_to(shows_c - 5.0, shows_c + 5.0),
        note: format!("reading {nth}"),
    })))
}

/// Adds a reading, and gives back its id once it is acknowledged.
pub(crate) fn read(open: &mut OpenLog, nth: usize) -> Id {
    let piece = open.log().standing().pieces[0].id;
    let record = reading(&open.hand(), piece, nth);
    let id = record.id;
    open.add(vec![record]).expect("adds");
    id
}

pub(crate) fn files_in(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .into_iter()
        .flatten()
        .flatten()
        .map(|entry| entry.file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

/// Chance that the gate draws the same every time, as it does for the laws.
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) fn new() -> Self {
        let seed = std::env::var("PROPTEST_RNG_SEED").ok().and_then(|text| text.parse().ok());
        let seed = seed.unwrap_or_else(|| Id::new().0.as_u64_pair().1);
        println!("PROPTEST_RNG_SEED={seed} draws the same again");
        Self(seed | 1)
    }

    /// A figure below another (the multiplicative generator of Steele and Vigna, from memory).
    pub(crate) fn below(&mut self, end: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (mixed ^ (mixed >> 31)) as usize % end.max(1)
    }
}
