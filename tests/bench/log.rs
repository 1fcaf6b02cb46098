//! How long the log takes with as much in it as a shop ever has, each figure beside its target.
//! Measures and prints; nothing here fails for being slow.

mod jobs;

use std::fs;
use std::hint::black_box;
use std::io::Write;
use std::path::Path;
use std::time::Instant;

use jobs::{JOBS, put_jobs, reading};
use strawblue::log::{Logs, Moment, OpenLog};
use strawblue::reference::embedded;

/// Rows that a screen shows.
const SCREEN: usize = 20;

fn line(what: &str, taken: f64, target: f64, unit: &str) {
    let verdict = if taken <= target { "kept" } else { "MISSED" };
    println!("{what:<58} {taken:>9.1} {unit:<3} target {target:>7.1} {unit}  {verdict}");
}

/// The middle of many timings, ms.
fn middle_ms(times: usize, mut work: impl FnMut()) -> f64 {
    let mut taken: Vec<f64> = (0..times)
        .map(|_| {
            let begun = Instant::now();
            work();
            begun.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    taken.sort_by(f64::total_cmp);
    taken[times / 2]
}

fn peak_mb() -> f64 {
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let kb = line.and_then(|line| line.trim().trim_end_matches("kB").trim().parse::<f64>().ok());
    kb.unwrap_or(0.0) / 1024.0
}

fn bare_write(folder: &Path, text: &[u8]) {
    let file = folder.join("bare");
    let mut open = fs::File::create(file).expect("makes");
    open.write_all(text).expect("writes");
    open.sync_all().expect("reaches the disk");
}

fn main() {
    let within = std::env::var_os("STRAWBLUE_BENCH_FOLDER").map_or_else(std::env::temp_dir, Into::into);
    let folder = tempfile::tempdir_in(within).expect("a folder");
    put_jobs(folder.path());

    // Nothing is known yet: the rows of the first screen.
    let begun = Instant::now();
    let logs = Logs::open(folder.path()).expect("opens");
    let listing = logs.list().expect("a list");
    let rows = logs.look(&listing.unread[..SCREEN]);
    let first_ms = begun.elapsed().as_secs_f64() * 1e3;
    assert_eq!((listing.unread.len(), rows.len()), (JOBS, SCREEN));
    line("1,000 jobs, nothing known: first rows", first_ms, 150.0, "ms");
    let begun = Instant::now();
    assert_eq!(logs.list_all().expect("a list").len(), JOBS);
    println!("1,000 jobs, nothing known: all rows {:>31.1} s", begun.elapsed().as_secs_f64());

    let known_ms = middle_ms(9, || {
        let logs = Logs::open(folder.path()).expect("opens");
        assert_eq!(black_box(logs.list().expect("a list")).rows.len(), JOBS);
    });
    line("1,000 jobs: first rows, and all of them", known_ms, 150.0, "ms");

    let last = logs.list().expect("a list").rows[0].id;
    let open_ms = middle_ms(9, || drop(black_box(logs.job(last).expect("opens"))));
    line("a job of 20 pieces × 12 readings: opened", open_ms, 50.0, "ms");
    let mut open: OpenLog = logs.job(last).expect("opens");
    let view_ms = middle_ms(31, || {
        let standing = open.log().standing();
        black_box(standing.overview(embedded(), Moment::now()).expect("a job"));
    });
    line("the same: all clocks and verdicts", view_ms, 16.0, "ms");

    let piece = open.log().standing().pieces[0].id;
    let text = open.export();
    // What was made above reaches the disk first, and both are timed in turn.
    let _ = std::process::Command::new("sync").status();
    let (mut bare, mut saved) = (Vec::new(), Vec::new());
    for nth in 0..101 {
        let begun = Instant::now();
        bare_write(folder.path(), text.as_bytes());
        bare.push(begun.elapsed().as_secs_f64() * 1e3);
        let begun = Instant::now();
        let record = reading(&open.hand(), piece, nth);
        open.add(vec![record]).expect("adds");
        saved.push(begun.elapsed().as_secs_f64() * 1e3);
    }
    bare.sort_by(f64::total_cmp);
    saved.sort_by(f64::total_cmp);
    let (bare_ms, saved_ms) = (bare[50], saved[50]);
    println!("a bare write and fsync of {:>6} bytes {:>28.2} ms", text.len(), bare_ms);
    println!("one reading saved {saved_ms:>48.2} ms");
    line("one reading saved beside a bare write and fsync", saved_ms / bare_ms, 2.0, "×");
    line("memory at the most", peak_mb(), 200.0, "MB");
}
