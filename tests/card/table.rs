//! The table of readings, read by a general reader of comma-separated values.

use strawblue::card::csv;
use strawblue::log::{Entry, Hand, Log, ReadingTaken, demo_log};
use strawblue::units::Units;

use crate::made::{now, pen, words};

fn rows(log: &Log) -> Vec<std::collections::BTreeMap<String, String>> {
    let words = words(Units::C_MM);
    let text = csv(&pen(&words, Units::C_MM), &log.standing());
    assert!(text.ends_with("\r\n") && !text.replace("\r\n", "").contains('\r'), "RFC 4180, section 2");
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let heads = reader.headers().expect("heads").clone();
    reader
        .records()
        .map(|record| {
            let record = record.expect("a row as long as the heads");
            heads.iter().map(str::to_owned).zip(record.iter().map(str::to_owned)).collect()
        })
        .collect()
}

#[test]
fn every_reading_has_a_row_in_both_units() {
    let log = demo_log();
    let standing = log.standing();
    let rows = rows(&log);
    assert_eq!(rows.len(), standing.readings.len());
    for (row, reading) in rows.iter().zip(&standing.readings) {
        assert_eq!(row["record"], reading.record.id.to_string());
        assert_eq!(row["time"], reading.now.at.to_string());
        assert_eq!(row["minimum_c"], "300");
        for (celsius, fahrenheit) in [("shows_c", "shows_f"), ("low_c", "low_f"), ("high_c", "high_f")] {
            let Ok(at_c) = row[celsius].parse::<f64>() else {
                assert!(row[fahrenheit].is_empty());
                continue;
            };
            let at_f: f64 = row[fahrenheit].parse().expect("a figure");
            assert!((at_f - (at_c * 1.8 + 32.0)).abs() < 0.02, "{at_c} °C, {at_f} °F");
        }
    }
    let verdicts: Vec<&str> = rows.iter().map(|row| row["verdict"].as_str()).collect();
    assert!(
        ["in", "below", "over", "cannot-tell"].iter().all(|verdict| verdicts.contains(verdict)),
        "{verdicts:?}"
    );
}

/// Notes come back as they were written, whatever signs they have; only what a spreadsheet would work
/// out as a formula has an apostrophe before it.
#[test]
fn notes_come_back_as_they_were_written() {
    for note in ["plain", "a, b", "say \"hot\"", "two\r\nlines", "=1+1", "+A1", "@x", "-x", "-5", ""] {
        let mut log = demo_log();
        let record = {
            let standing = log.standing();
            let reading = &standing.readings[0];
            let hand = Hand::at("a", now());
            let noted = ReadingTaken { note: note.to_owned(), ..reading.now.clone() };
            hand.change(reading, Entry::Reading(Box::new(noted)))
        };
        log.add(record);
        let words = words(Units::C_MM);
        let text = csv(&pen(&words, Units::C_MM), &log.standing());
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let place = reader.headers().expect("heads").iter().position(|head| head == "note").expect("a note");
        let row = reader.records().next().expect("a row").expect("it reads");
        let formula = ["=1+1", "+A1", "@x", "-x"].contains(&note);
        assert_eq!(row[place], if formula { format!("'{note}") } else { note.to_owned() });
    }
}
