//! Logs on the disk: several windows, several devices, lists, exchange.

use std::fs;

use strawblue::job::Store;
use strawblue::log::{Entry, Hand, Id, LogFile, LogNote, LogStoreError, Logs, PieceEntry};

use crate::shop::{Shop, begin, files_in, job_of, read};

#[test]
fn what_was_added_is_there_again() {
    let shop = Shop::new();
    let logs = shop.logs();
    let mut open = begin(&logs, 3);
    let ids: Vec<Id> = (0..5).map(|nth| read(&mut open, nth)).collect();
    // Another program start.
    let again = shop.logs();
    assert_eq!(again.device(), logs.device());
    let back = again.job(open.job()).expect("reads");
    assert_eq!(back.log(), open.log());
    assert!(back.notes().is_empty(), "{:?}", back.notes());
    assert!(ids.iter().all(|id| back.log().get(*id).is_some()));
    // The same twice is once.
    let same: Vec<_> = back.log().records().cloned().collect();
    open.add(same).expect("adds");
    assert_eq!(open.log().len(), back.log().len());
    assert_eq!(shop.logs().job(open.job()).expect("reads").log(), back.log());
}

#[test]
fn two_windows_on_one_folder_see_each_other() {
    let shop = Shop::new();
    let mut one = begin(&shop.logs(), 2);
    let mut other = shop.logs().job(one.job()).expect("reads");
    for nth in 0..6 {
        if nth % 2 == 0 {
            read(&mut one, nth);
        } else {
            read(&mut other, nth);
        }
    }
    assert!(one.refresh().expect("reads"));
    other.refresh().expect("reads");
    assert!(!other.refresh().expect("reads"));
    assert_eq!(one.log(), other.log());
    assert_eq!(one.log().standing().readings.len(), 6);
    // One device, one file.
    assert_eq!(files_in(&shop.job_folder(one.job())).len(), 1);
}

/// Two devices share a folder through a file sync: each writes its own file.
#[test]
fn two_devices_on_one_shared_folder_merge() {
    let (shop, other_shop) = (Shop::new(), Shop::new());
    let mut one = begin(&shop.logs(), 2);
    let job = one.job();
    let sync = |from: &Shop, to: &Shop| {
        let (from, to) = (from.job_folder(job), to.job_folder(job));
        fs::create_dir_all(&to).expect("makes");
        for name in files_in(&from) {
            if !to.join(&name).exists()
                || fs::read(from.join(&name)).expect("reads").len()
                    > fs::read(to.join(&name)).expect("reads").len()
            {
                fs::copy(from.join(&name), to.join(&name)).expect("copies");
            }
        }
    };
    sync(&shop, &other_shop);
    let mut other = other_shop.logs().job(one.job()).expect("reads");
    read(&mut one, 1);
    read(&mut other, 2);
    let change = |open: &mut strawblue::log::OpenLog, note: &str| {
        let record = {
            let standing = open.log().standing();
            let piece = &standing.pieces[0];
            open.hand().change(piece, Entry::Piece(PieceEntry { note: note.to_owned(), ..piece.now.clone() }))
        };
        open.add(vec![record]).expect("adds");
    };
    change(&mut one, "from one");
    change(&mut other, "from the other");
    sync(&shop, &other_shop);
    sync(&other_shop, &shop);
    assert!(one.refresh().expect("reads") && other.refresh().expect("reads"));
    assert_eq!(one.log(), other.log());
    assert_eq!(one.log().standing().readings.len(), 2);
    assert_eq!(one.log().standing().conflicts(), 1, "both changes are shown");
    assert_eq!(files_in(&shop.job_folder(one.job())).len(), 2);
    // A conflict copy of a sync is one more file of the folder.
    let own = shop.own_file(one.job());
    fs::copy(&own, own.with_file_name("a (conflicted copy).ron")).expect("copies");
    assert!(!one.refresh().expect("reads"));
    assert_eq!(one.log(), other.log());
}

#[test]
fn a_list_is_known_without_reading_and_read_where_something_changed() {
    let shop = Shop::new();
    let logs = shop.logs();
    let mut one = begin(&logs, 3);
    let other = begin(&logs, 2);
    let all = logs.list_all().expect("a list");
    assert_eq!(all.len(), 2);
    let known = logs.list().expect("a list");
    assert_eq!((known.rows.len(), known.unread.len()), (2, 0));
    read(&mut one, 1);
    let known = logs.list().expect("a list");
    assert_eq!((known.rows.len(), known.unread.as_slice()), (1, [one.job()].as_slice()));
    let row = &logs.look(&known.unread)[0];
    assert_eq!((row.readings, row.pieces, row.name.as_str()), (1, 3, "Batch"));
    // A job that was taken back is listed as such, and comes back.
    let mut other = other;
    let gone = {
        let standing = other.log().standing();
        other.hand().withdraw(standing.job.as_ref().expect("a job"))
    };
    other.add(vec![gone]).expect("adds");
    let row = logs.list_all().expect("a list").into_iter().find(|row| row.id == other.job()).expect("a row");
    assert!(row.withdrawn && row.name == "Batch");
    let back = other.hand().undo_last(other.log());
    assert_eq!(back.len(), 1);
    other.add(back).expect("adds");
    assert!(logs.list_all().expect("a list").iter().all(|row| !row.withdrawn));
    // Without its index it is the same.
    fs::remove_file(shop.folder.path().join("log-index.json")).expect("removes");
    assert_eq!(logs.list().expect("a list").unread.len(), 2);
    assert_eq!(logs.list_all().expect("a list").len(), 2);
    // Nothing is made where only a look is asked.
    let empty = Shop::new();
    assert!(Logs::to_read(empty.folder.path()).is_none());
    assert!(files_in(empty.folder.path()).is_empty());
}

#[test]
fn export_and_import_are_one_and_the_same() {
    let (shop, other) = (Shop::new(), Shop::new());
    let mut open = begin(&shop.logs(), 2);
    for nth in 0..4 {
        read(&mut open, nth);
    }
    let file = other.folder.path().join("handed over.ron");
    fs::write(&file, open.export()).expect("writes");
    let done = other.logs().import(&file).expect("imports");
    assert_eq!((done.job, done.new, done.known, done.damaged.len()), (open.job(), open.log().len(), 0, 0));
    let there = other.logs().job(open.job()).expect("reads");
    assert_eq!(there.log(), open.log());
    // The file of the other device names that device; what it says is the same.
    let (one, two) =
        (LogFile::read(&there.export()).expect("a log"), LogFile::read(&open.export()).expect("a log"));
    assert_eq!((one.head.job, &one.records), (two.head.job, &two.records));
    assert_ne!(one.head.device, two.head.device);
    let again = other.logs().import(&file).expect("imports");
    assert_eq!((again.new, again.known), (0, open.log().len()));
    assert!(matches!(
        other.logs().import(&other.folder.path().join("none.ron")),
        Err(LogStoreError::Store(_))
    ));
    fs::write(&file, "no log").expect("writes");
    assert!(matches!(other.logs().import(&file), Err(LogStoreError::NoLog { .. })));
}

#[test]
fn the_example_is_loaded_once_and_stays_apart() {
    let shop = Shop::new();
    let logs = shop.logs();
    let first = logs.load_example().expect("loads");
    assert!(first.new > 20);
    assert_eq!(logs.load_example().expect("loads").new, 0);
    let rows = logs.list_all().expect("a list");
    assert!(rows.len() == 1 && rows[0].example && rows[0].trials.is_empty());
    assert!(logs.trials().expect("reads").is_empty());
}

/// Where no lock can be had each writer has a file of its own, and none writes over another.
#[test]
fn a_window_that_keeps_the_lock_is_waited_for_and_then_said() {
    let shop = Shop::new();
    let logs = shop.logs();
    let mut open = begin(&logs, 1);
    let lock = fs::File::open(shop.second_folder(open.job()).join(".lock")).expect("opens");
    lock.lock().expect("locks");
    let record = Hand::now(logs.device()).after(open.log()).begin(Entry::Piece(PieceEntry::default()));
    let before = open.log().clone();
    let failed = open.add(vec![record.clone()]).expect_err("busy");
    assert!(failed.say(&strawblue::words::Words::english()).contains("is in use"), "{failed}");
    assert_eq!(open.log(), &before, "nothing is said to be there");
    lock.unlock().expect("unlocks");
    open.add(vec![record]).expect("adds");
    assert!(Store::open(shop.folder.path()).is_ok() && job_of(1).pieces == 1);
}

/// Files of the first schema stay readable, whatever comes later.
#[test]
fn a_file_of_the_first_schema_is_read() {
    let text = include_str!("kept/schema-1.ron");
    let read = LogFile::read(text).expect("a log");
    assert!(read.is_whole(), "{:?}", read.damaged);
    assert_eq!(read.records.len(), 6);
    let log: strawblue::log::Log = read.records.iter().cloned().collect();
    let standing = log.standing();
    let job = standing.job.as_ref().expect("a job").now;
    assert_eq!((job.name.as_str(), job.plan.limits().minimum_c), ("Kept", Some(200.0)));
    assert_eq!((standing.pieces.len(), standing.readings.len(), standing.trials.len()), (1, 1, 1));
    assert_eq!(standing.readings[0].now.band.low_c, Some(205.0));
    // It is written as it was.
    assert_eq!(read.head.write(&read.records), text);
    // A later program may add fields: they are passed over.
    let more =
        text.replacen("name:\"Kept\"", "name:\"Kept\",later:(a:[1,2],b:\"x\")", 1).replace("sum:", "other:");
    let read = LogFile::read(&more).expect("a log");
    assert_eq!(read.records.len(), 6, "{:?}", read.damaged);
    // And a later schema is not touched.
    let later = text.replacen("schema: 1", "schema: 2", 1);
    assert_eq!(LogFile::read(&later), Err(strawblue::log::LogFileError::Newer { schema: 2 }));
}

#[test]
fn a_job_of_a_newer_program_is_read_only() {
    let shop = Shop::new();
    let mut open = begin(&shop.logs(), 1);
    read(&mut open, 1);
    let newer = shop.job_folder(open.job()).join("elsewhere.ron");
    fs::write(&newer, open.export().replacen("schema: 1", "schema: 9", 1)).expect("writes");
    let mut back = shop.logs().job(open.job()).expect("reads");
    assert!(matches!(back.notes(), [LogNote::Newer { schema: 9, .. }]));
    let record = back.hand().begin(Entry::Piece(PieceEntry::default()));
    assert!(matches!(back.add(vec![record]), Err(LogStoreError::ReadOnly { schema: 9, .. })));
    assert_eq!(back.log(), open.log());
    // A newer program took over while this one runs.
    fs::remove_file(&newer).expect("removes");
    let mut open = shop.logs().job(open.job()).expect("reads");
    let own = shop.own_file(open.job());
    let text = open.export().replacen("schema: 1", "schema: 9", 1);
    fs::write(&own, &text).expect("writes");
    let record = open.hand().begin(Entry::Piece(PieceEntry::default()));
    assert!(matches!(open.add(vec![record]), Err(LogStoreError::ReadOnly { schema: 9, .. })));
    assert_eq!(fs::read_to_string(&own).expect("reads"), text, "it is left alone");
}
