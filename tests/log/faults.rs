//! Faults of files and folders: no acknowledged reading is lost, nothing panics, each is said plainly.

use std::fs;
use std::path::Path;

use strawblue::log::{Hand, Id, LogNote, LogStoreError, Moment};
use strawblue::words::Words;

use crate::shop::{Dice, Shop, begin, read};

/// A shop with a job and acknowledged readings.
pub(crate) struct Batch {
    pub(crate) shop: Shop,
    pub(crate) job: Id,
    pub(crate) acknowledged: Vec<Id>,
}

impl Batch {
    pub(crate) fn new(readings: usize) -> Self {
        let shop = Shop::new();
        let mut open = begin(&shop.logs(), 2);
        let acknowledged = (0..readings).map(|nth| read(&mut open, nth)).collect();
        Self { shop, job: open.job(), acknowledged }
    }

    /// All readings are there, for a new start of the program and for the one after it; what was said.
    pub(crate) fn nothing_is_lost(&self, what: &str) -> Vec<LogNote> {
        let mut said = Vec::new();
        for start in 0..2 {
            let open = self.shop.logs().job(self.job).unwrap_or_else(|error| panic!("{what}: {error}"));
            for id in &self.acknowledged {
                assert!(open.log().get(*id).is_some(), "{what}: {id} is lost, start {start}");
            }
            if start == 0 {
                said = open.notes().to_vec();
            }
        }
        said
    }
}

/// A plain line: one to three sentences, no debris of the program.
pub(crate) fn is_plain(said: &str) -> bool {
    let ends = said.ends_with('.');
    ends && said.chars().count() < 400
        && !said.contains("Error")
        && !said.contains("::")
        && !said.contains('\n')
}

fn all_plain(notes: &[LogNote], what: &str) {
    let words = Words::english();
    for note in notes {
        let said = note.say(&words);
        assert!(is_plain(&said), "{what}: {said}");
    }
}

fn restored(notes: &[LogNote]) -> bool {
    notes.iter().any(|note| matches!(note, LogNote::Restored { .. }))
}

/// A file that a crash or a sync cut off, anywhere.
#[test]
fn a_truncated_file_takes_nothing_with_it() {
    let batch = Batch::new(6);
    let file = batch.shop.own_file(batch.job);
    let whole = fs::read(&file).expect("reads");
    let mut cases = 0;
    for length in (0..whole.len()).step_by(97).chain(whole.len() - 3..whole.len()) {
        fs::write(&file, &whole[..length]).expect("writes");
        let notes = batch.nothing_is_lost(&format!("cut at {length}"));
        // A last line break is no loss.
        assert!(restored(&notes) || length + 1 >= whole.len(), "cut at {length}: {notes:?}");
        all_plain(&notes, "cut");
        let there = fs::read(&file).expect("reads").len();
        assert!(there == whole.len() || notes.is_empty(), "it is whole again");
        cases += 1;
    }
    println!("truncated: {cases} cases");
}

#[test]
fn a_flipped_bit_takes_nothing_with_it() {
    let batch = Batch::new(6);
    let file = batch.shop.own_file(batch.job);
    let whole = fs::read(&file).expect("reads");
    let mut random = Dice::new();
    let mut silent = 0;
    for case in 0..400 {
        let mut bytes = whole.clone();
        let at = random.below(bytes.len());
        bytes[at] ^= 1 << random.below(8);
        fs::write(&file, &bytes).expect("writes");
        let notes = batch.nothing_is_lost(&format!("case {case}: bit at {at}"));
        all_plain(&notes, "flipped");
        // A space that became another, or a letter of the device's name, harms nothing.
        silent += usize::from(notes.is_empty());
        // Nothing false is taken in: what stands is what was written.
        let open = batch.shop.logs().job(batch.job).expect("reads");
        let fresh = strawblue::log::LogFile::read(&String::from_utf8_lossy(&whole)).expect("a log");
        assert_eq!(open.log().len(), fresh.records.len(), "case {case}: bit at {at}");
        fs::write(&file, &whole).expect("writes");
    }
    println!("bit flips: 400 cases, {silent} of them without any meaning");
    assert!(silent < 60, "{silent} of 400 were not noticed");
}

#[test]
fn empty_and_junk_files_take_nothing_with_them() {
    let junk: Vec<(&str, Vec<u8>)> = vec![
        ("empty", Vec::new()),
        ("blank", b" \n\n ".to_vec()),
        ("zeros", vec![0; 20_000]),
        ("text", b"this is no log\n".repeat(500)),
        ("brackets", b"(".repeat(60_000)),
        ("deep", b"[{(".repeat(20_000)),
        ("other RON", b"(schema: 1, records: 7)".to_vec()),
        ("JSON", b"{\"schema\": 1, \"records\": []}".to_vec()),
        ("one record line", b"(sum: \"00000000\", record: (id:\"x\")),\n".to_vec()),
        ("bytes", (0..200_000_u32).map(|nth| (nth.wrapping_mul(2_654_435_761) >> 24) as u8).collect()),
    ];
    for (what, bytes) in &junk {
        let batch = Batch::new(4);
        fs::write(batch.shop.own_file(batch.job), bytes).expect("writes");
        let notes = batch.nothing_is_lost(what);
        assert!(restored(&notes), "{what}: {notes:?}");
        all_plain(&notes, what);
        // The file is kept as it was.
        let aside = notes.iter().find_map(|note| match note {
            LogNote::Restored { aside, .. } => aside.clone(),
            _ => None,
        });
        assert_eq!(&fs::read(aside.expect("kept")).expect("reads"), bytes, "{what}");
        // The same as a file that another device left there.
        fs::write(batch.shop.job_folder(batch.job).join("other.ron"), bytes).expect("writes");
        let notes = batch.nothing_is_lost(what);
        assert!(notes.iter().any(LogNote::is_loss), "{what}: {notes:?}");
        all_plain(&notes, what);
        let there = fs::read(batch.shop.job_folder(batch.job).join("other.ron")).expect("reads");
        assert_eq!(&there, bytes, "what another device wrote is left alone");
    }
    println!("junk: {} cases", 2 * junk.len());
}

/// 100 MB of anything are not read into memory, and stay where they are.
#[test]
fn a_hundred_megabytes_of_junk_are_passed_over() {
    let batch = Batch::new(4);
    let file = batch.shop.job_folder(batch.job).join("big.ron");
    let made = fs::File::create(&file).expect("makes");
    made.set_len(100 << 20).expect("grows");
    let begun = std::time::Instant::now();
    let notes = batch.nothing_is_lost("100 MB");
    assert!(begun.elapsed().as_secs() < 10);
    assert!(matches!(notes.as_slice(), [LogNote::NoLog { aside: None, .. }]), "{notes:?}");
    all_plain(&notes, "100 MB");
    assert_eq!(fs::metadata(&file).expect("there").len(), 100 << 20);
    // In place of the own file: it is put aside by its name, and all is written anew.
    fs::rename(&file, batch.shop.own_file(batch.job)).expect("moves");
    let notes = batch.nothing_is_lost("100 MB as the own file");
    all_plain(&notes, "100 MB");
}

#[test]
fn a_folder_that_is_gone_while_the_program_runs_comes_back() {
    let mut batch = Batch::new(5);
    let mut open = batch.shop.logs().job(batch.job).expect("reads");
    fs::remove_dir_all(batch.shop.folder.path().join("log")).expect("removes");
    batch.acknowledged.push(read(&mut open, 90));
    assert!(open.notes().iter().any(|note| matches!(note, LogNote::FolderBack { .. })), "{:?}", open.notes());
    all_plain(open.notes(), "folder");
    batch.nothing_is_lost("folder of the jobs");
    // Both rooms: what runs still has all.
    fs::remove_dir_all(batch.shop.folder.path().join("log")).expect("removes");
    fs::remove_dir_all(batch.shop.folder.path().join("log-second")).expect("removes");
    batch.acknowledged.push(read(&mut open, 91));
    batch.nothing_is_lost("both rooms");
    // Gone while nothing runs: the second room has it.
    fs::remove_dir_all(batch.shop.folder.path().join("log")).expect("removes");
    let rows = batch.shop.logs().list_all().expect("a list");
    assert_eq!(rows.len(), 1);
    let notes = batch.nothing_is_lost("gone at the start");
    all_plain(&notes, "gone");
}

#[test]
fn a_clock_that_was_set_back_changes_no_order() {
    let batch = Batch::new(3);
    let mut open = batch.shop.logs().job(batch.job).expect("reads");
    let before = Moment::now().plus_min(-3.0 * 24.0 * 60.0);
    let hand = Hand::at(batch.shop.logs().device(), before).after(open.log());
    assert!(hand.is_set_back(open.log()));
    assert!(!open.hand().is_set_back(open.log()));
    let last = open.log().last();
    let piece = open.log().standing().pieces[0].id;
    let record = crate::shop::reading(&hand, piece, 7);
    assert!(Some(record.id) > last);
    open.add(vec![record.clone()]).expect("adds");
    // The last that was written is the last that is undone, whatever its time.
    let undone = open.hand().undo_last(open.log());
    assert_eq!(undone[0].thing, record.thing);
    batch.nothing_is_lost("clock");
}

#[test]
fn a_log_of_another_job_does_not_count() {
    let (batch, other) = (Batch::new(3), Batch::new(3));
    fs::copy(other.shop.own_file(other.job), batch.shop.job_folder(batch.job).join("strange.ron"))
        .expect("copies");
    let notes = batch.nothing_is_lost("another job");
    assert!(matches!(notes.as_slice(), [LogNote::OtherJob { .. }]), "{notes:?}");
    all_plain(&notes, "another job");
    assert_eq!(batch.shop.logs().job(batch.job).expect("reads").log().standing().readings.len(), 3);
}

#[test]
fn the_small_files_beside_may_be_anything() {
    let batch = Batch::new(3);
    let at = |name: &str| batch.shop.folder.path().join(name);
    let device = batch.shop.logs().device().to_owned();
    for junk in [&b""[..], b"\xff\xfe\x00", b"../../etc", b"{\"version\":1,\"jobs\":7}", b"[", b"a"] {
        fs::write(at("log-index.json"), junk).expect("writes");
        assert_eq!(batch.shop.logs().list_all().expect("a list").len(), 1);
        fs::write(at("device"), junk).expect("writes");
        let logs = batch.shop.logs();
        assert!(logs.device().bytes().all(|sign| sign.is_ascii_alphanumeric()) && logs.device().len() > 3);
        batch.nothing_is_lost("device");
        let mut open = logs.job(batch.job).expect("reads");
        read(&mut open, 50);
        fs::write(at("device"), &device).expect("writes");
        batch.nothing_is_lost("device back");
    }
    for name in ["not an id", "0198", ".hidden"] {
        fs::create_dir_all(at("log").join(name)).expect("makes");
    }
    fs::write(at("log").join("a file"), "x").expect("writes");
    fs::create_dir_all(at("log").join(Id::new().to_string())).expect("makes");
    assert!(batch.shop.logs().list_all().is_ok());
    fs::create_dir_all(batch.shop.job_folder(batch.job).join("folder.ron")).expect("makes");
    batch.nothing_is_lost("a folder named as a file");
}

/// What the system refuses is said, and nothing is said to be kept. Root may write anywhere: a file stands
/// where the folder would be.
#[test]
fn a_folder_that_cannot_be_written_keeps_nothing_and_says_so() {
    let words = Words::english();
    let batch = Batch::new(3);
    let mut open = batch.shop.logs().job(batch.job).expect("reads");
    for room in ["log", "log-second"] {
        let there = batch.shop.folder.path().join(room);
        let aside = batch.shop.folder.path().join("aside");
        fs::rename(&there, &aside).expect("moves");
        fs::write(&there, "no folder").expect("writes");
        let before = open.log().clone();
        let piece = before.standing().pieces[0].id;
        let record = crate::shop::reading(&open.hand(), piece, 8);
        let failed = open.add(vec![record]).expect_err("no folder");
        assert!(
            matches!(failed, LogStoreError::Store(_)) && is_plain(&failed.say(&words)),
            "{}",
            failed.say(&words)
        );
        assert_eq!(open.log(), &before, "{room}");
        fs::remove_file(&there).expect("removes");
        fs::rename(&aside, &there).expect("moves");
    }
    batch.nothing_is_lost("after it");
    assert!(Path::new(batch.shop.folder.path()).is_dir());
}
