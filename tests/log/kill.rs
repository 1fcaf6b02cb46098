//! Writers that are killed at any moment: whatever was acknowledged is there.
//!
//! In the gate a few dozen kills; `STRAWBLUE_KILLS=1000` makes it as long as one likes.

use std::io::{BufRead, BufReader, Write};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use strawblue::job::StoreError;
use strawblue::log::{Id, LogStoreError, Logs};

use crate::shop::{Dice, Shop, begin, files_in, reading};

/// The folder of a writer; only a process of this test has it.
const FOLDER: &str = "STRAWBLUE_WRITER_FOLDER";
const JOB: &str = "STRAWBLUE_WRITER_JOB";
const KILLS: &str = "STRAWBLUE_KILLS";
/// Kills in the gate.
const FEW: usize = 40;
/// A job is used for so many, so that it does not grow without end.
const A_JOB: usize = 20;

/// Writes readings until it is killed, and says each one once it is kept.
#[test]
fn writer() {
    let (Ok(folder), Ok(job)) = (std::env::var(FOLDER), std::env::var(JOB)) else { return };
    let logs = Logs::open(folder).expect("opens");
    let mut open = logs.job(Id::read(&job).expect("an id")).expect("reads");
    let mut out = std::io::stdout();
    for nth in 0.. {
        let piece = open.log().standing().pieces[0].id;
        let record = reading(&open.hand(), piece, nth);
        let id = record.id;
        // Two that write without a pause may keep each other waiting: that is said, and tried again.
        loop {
            match open.add(vec![record.clone()]) {
                Ok(()) => break,
                Err(LogStoreError::Store(StoreError::Busy { .. })) => {}
                Err(error) => panic!("{error}"),
            }
        }
        writeln!(out, "kept {id}").expect("says");
        out.flush().expect("says");
    }
}

fn spawn(shop: &Shop, job: Id) -> Child {
    Command::new(std::env::current_exe().expect("this program"))
        .args(["kill::writer", "--exact", "--nocapture", "--test-threads=1"])
        .env(FOLDER, shop.folder.path())
        .env(JOB, job.to_string())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("starts")
}

/// Kills it after a while; what it said until then, and what it complained of.
fn killed(mut child: Child, after: Duration) -> (Vec<Id>, String) {
    let mut said = BufReader::new(child.stdout.take().expect("an output"));
    let mut kept = Vec::new();
    let mut line = String::new();
    // The clock of the kill begins with the first reading, or with the last before it, at any moment.
    while kept.is_empty() && said.read_line(&mut line).is_ok_and(|count| count > 0) {
        kept.extend(line.split("kept ").nth(1).and_then(Id::read));
        line.clear();
    }
    std::thread::sleep(after);
    child.kill().expect("kills");
    for line in said.lines().map_while(Result::ok) {
        kept.extend(line.split("kept ").nth(1).and_then(Id::read));
    }
    let complaint = std::io::read_to_string(child.stderr.take().expect("an output")).unwrap_or_default();
    child.wait().expect("ends");
    (kept, complaint)
}

#[test]
fn what_was_acknowledged_outlives_every_kill() {
    if std::env::var_os(FOLDER).is_some() {
        return;
    }
    let kills: usize = std::env::var(KILLS).ok().and_then(|text| text.parse().ok()).unwrap_or(FEW);
    let mut random = Dice::new();
    let (mut done, mut acknowledged, mut half_written) = (0, 0, 0);
    while done < kills {
        let shop = Shop::new();
        let job = begin(&shop.logs(), 2).job();
        let mut kept: Vec<Id> = Vec::new();
        for nth in 0..A_JOB.min(kills - done) {
            let mut after = || Duration::from_micros(random.below(25_000) as u64);
            // Every third time two of them write at once.
            let children: Vec<Child> =
                (0..1 + usize::from(nth % 3 == 0)).map(|_| spawn(&shop, job)).collect();
            for child in children {
                let (ids, complaint) = killed(child, after());
                assert!(!complaint.contains("panicked"), "{complaint}");
                acknowledged += ids.len();
                kept.extend(ids);
                done += 1;
            }
            half_written += files_in(&shop.folder.path().join("log").join(job.to_string()))
                .iter()
                .filter(|name| name.starts_with(".half"))
                .count();
            let open = shop.logs().job(job).expect("reads");
            assert!(open.notes().is_empty(), "{:?}", open.notes());
            for id in &kept {
                assert!(open.log().get(*id).is_some(), "{id} is lost after {done} kills");
            }
        }
    }
    println!(
        "{done} kills, {acknowledged} readings acknowledged, 0 lost, {half_written} half-written files seen"
    );
    assert!(acknowledged >= kills, "hardly anything was written");
}
