//! `card`: a PDF or a table of a log's file, and what is said where there is none.

use std::fs;

use super::{json_of, run};

const LOG: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/data/demo_log.ron");

fn folder() -> tempfile::TempDir {
    tempfile::tempdir().expect("a folder")
}

fn path(folder: &tempfile::TempDir, name: &str) -> String {
    folder.path().join(name).to_str().expect("text").to_owned()
}

#[test]
fn a_card_is_made_on_both_papers() {
    let folder = folder();
    let file = path(&folder, "card.pdf");
    let mut made = Vec::new();
    for more in [&[][..], &["--letter"], &["--letter", "--units", "f-in"]] {
        let ran = run(&[&["card", LOG, "-o", &file], more].concat());
        assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{}", ran.out);
        assert!(ran.out.contains("pages"), "{}", ran.out);
        let bytes = fs::read(&file).expect("the card");
        assert!(bytes.starts_with(b"%PDF-1.7"));
        made.push(bytes);
    }
    assert!(made[0] != made[1] && made[1] != made[2]);
    let ran = run(&["card", LOG, "-o", &file, "--json"]);
    assert!(json_of(&ran)["pages"].as_u64().is_some_and(|pages| pages > 2), "{}", ran.out);
}

#[test]
fn the_table_of_readings_is_printed_or_written() {
    let folder = folder();
    let printed = run(&["card", LOG, "--csv"]);
    assert_eq!(printed.status, 0, "{}", printed.err);
    assert!(printed.out.starts_with("job,piece,"), "{}", printed.out);
    let file = path(&folder, "readings.csv");
    let ran = run(&["card", LOG, "--csv", "-o", &file]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    let written = fs::read_to_string(&file).expect("the table").replace('\u{a0}', " ");
    assert_eq!(written, printed.out);
}

/// Each fault has a plain message, and no file is made or touched.
#[test]
fn what_is_no_log_is_told() {
    let folder = folder();
    let (card, empty, junk) =
        (path(&folder, "card.pdf"), path(&folder, "empty.ron"), path(&folder, "junk.ron"));
    fs::write(&empty, "").expect("written");
    fs::write(&junk, [0xff, 0xfe, 0x00, 0x41]).expect("written");
    let text = path(&folder, "text.ron");
    fs::write(&text, "hello").expect("written");
    let newer = path(&folder, "newer.ron");
    let log = fs::read_to_string(LOG).expect("the example");
    fs::write(&newer, log.replace("schema: 1", "schema: 99")).expect("written");
    let missing = path(&folder, "missing.ron");
    for (given, says) in [
        (&empty, "is empty"),
        (&junk, "is no log"),
        (&text, "is no log"),
        (&newer, "A newer version"),
        (&missing, "cannot be read"),
    ] {
        let ran = run(&["card", given, "-o", &card]);
        assert_eq!(ran.status, 2, "{given}");
        assert!(ran.err.contains(says), "{given}: {}", ran.err);
        assert!(!fs::exists(&card).expect("known"));
    }
    for arguments in
        [&["card"][..], &["card", LOG], &["card", LOG, "-o"], &["card", LOG, "again.ron", "-o", "x"]]
    {
        assert_eq!(run(arguments).status, 2, "{arguments:?}");
    }
    // Its options belong to it alone.
    assert_eq!(run(&["plan", "steel=4140", "--letter"]).status, 2);
    let nowhere = path(&folder, "no/such/folder/card.pdf");
    assert!(run(&["card", LOG, "-o", &nowhere]).err.contains("cannot be written"));
}

/// The log is never written over by its card.
#[test]
fn a_card_does_not_take_the_place_of_its_log() {
    let folder = folder();
    let log = path(&folder, "log.ron");
    fs::copy(LOG, &log).expect("copied");
    let beside = folder.path().join(".").join("log.ron");
    for to in [log.as_str(), beside.to_str().expect("text")] {
        let ran = run(&["card", &log, "-o", to]);
        assert_eq!(ran.status, 2, "{}", ran.out);
        assert!(ran.err.contains("the log itself"), "{}", ran.err);
    }
    assert_eq!(fs::read(&log).expect("there"), fs::read(LOG).expect("there"));
}

/// A damaged line is told, on the card and beside it, and the rest is there.
#[test]
fn a_damaged_log_has_its_card_with_a_warning() {
    let folder = folder();
    let damaged = path(&folder, "damaged.ron");
    let text = fs::read_to_string(LOG).expect("the example");
    let lines: Vec<&str> = text.lines().collect();
    let place = lines.iter().rposition(|line| line.contains("Reading(")).expect("a reading");
    let mut changed: Vec<String> = lines.iter().map(|line| (*line).to_owned()).collect();
    changed[place] = changed[place].replacen("piece", "piXce", 1);
    fs::write(&damaged, changed.join("\n") + "\n").expect("written");
    let ran = run(&["card", &damaged, "-o", &path(&folder, "card.pdf")]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(ran.err.contains("One line of the job file cannot be read."), "{}", ran.err);
}
