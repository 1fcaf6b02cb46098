//! Readers of what others wrote, fed with what nobody would write: mutated from sound texts, from a seed.
//!
//! In the gate some seconds a reader; `STRAWBLUE_FUZZ_S=600` makes it as long as one likes. It prints how many
//! texts each was fed with.

use std::hint::black_box;
use std::time::{Duration, Instant};

use strawblue::job::JobText;
use strawblue::job::typed::{composition, condition};
use strawblue::log::{Log, LogFile, Moment};
use strawblue::units::{LengthUnit, TemperatureUnit, Units, length, limits, number, temperature};

use crate::shop::Dice;

/// Seconds for each reader, where nobody says.
const SECONDS: f64 = 2.0;
/// A text does not grow beyond this, bytes.
const LONGEST: usize = 20_000;
/// What upsets readers.
const PIECES: &[&str] = &[
    "",
    "(",
    ")",
    "((((((((((((",
    "]",
    "{",
    "}",
    "\"",
    "'",
    "\\",
    "\\u{10ffff}",
    "\n",
    "\r\n",
    "\0",
    "\u{feff}",
    ",",
    ":",
    "..",
    "-",
    "−",
    "½",
    "1/0",
    "1e999",
    "-1e-999",
    "NaN",
    "inf",
    "99999999999999999999",
    "0x",
    "r#\"",
    "/*",
    "//",
    "°",
    "µ",
    "Ø",
    "\u{a0}",
    "\u{202e}",
    "٣",
    "schema: 2",
    "schema: 18446744073709551616",
    "(sum: \"",
    "record: ",
    "None",
    "Some(Some(",
    "é",
    "🔥",
    "#![enable(unwrap_newtypes)]",
];

/// Feeds a reader of text until its time is over.
fn feed(name: &str, sound: &[&str], mut read: impl FnMut(&str)) {
    let sound: Vec<Vec<u8>> = sound.iter().map(|text| text.as_bytes().to_vec()).collect();
    feed_bytes(name, &sound, |bytes| read(&String::from_utf8_lossy(bytes)));
}

/// Feeds a reader until its time is over; says how many texts that were.
pub(super) fn feed_bytes(name: &str, sound: &[Vec<u8>], mut read: impl FnMut(&[u8])) {
    let seconds = std::env::var("STRAWBLUE_FUZZ_S").ok().and_then(|text| text.parse().ok());
    let until = Instant::now() + Duration::from_secs_f64(seconds.unwrap_or(SECONDS));
    let mut dice = Dice::new();
    let mut kept: Vec<Vec<u8>> = sound.to_vec();
    let mut fed = 0_u64;
    for bytes in sound {
        read(bytes);
    }
    while !fed.is_multiple_of(64) || Instant::now() < until {
        let mut bytes = kept[dice.below(kept.len())].clone();
        for _ in 0..1 + dice.below(4) {
            mutate(&mut bytes, &kept, &mut dice);
        }
        bytes.truncate(LONGEST);
        read(&bytes);
        fed += 1;
        // Some go on from where they are.
        if dice.below(200) == 0 && kept.len() < 400 {
            kept.push(bytes);
        }
    }
    println!("{name}: {fed} texts");
    assert!(fed > 100, "{name} was hardly fed");
}

fn mutate(bytes: &mut Vec<u8>, kept: &[Vec<u8>], dice: &mut Dice) {
    let at = dice.below(bytes.len() + 1);
    let to = (at + dice.below(24)).min(bytes.len());
    match dice.below(7) {
        0 if at < bytes.len() => bytes[at] ^= 1 << dice.below(8),
        1 => drop(bytes.drain(at..to)),
        2 => {
            let again: Vec<u8> = bytes[at..to].to_vec();
            bytes.splice(at..at, again);
        }
        3 => {
            let other = &kept[dice.below(kept.len())];
            let from = dice.below(other.len() + 1);
            let until = (from + dice.below(200)).min(other.len());
            bytes.splice(at..to, other[from..until].iter().copied());
        }
        4 => bytes.truncate(at),
        5 if at < bytes.len() => bytes[at] = dice.below(256) as u8,
        _ => drop(bytes.splice(at..at, PIECES[dice.below(PIECES.len())].bytes())),
    }
}

#[test]
fn the_reader_of_jobs() {
    let flat =
        "(steel: \"4140\", thickness: 38, joint: \"butt\", process: \"gtaw + smaw basic\", damp: true)";
    feed(
        "jobs",
        &[include_str!("../../data/demo.ron"), flat, "(schema: 2, parts: [(steel: \"x\")])", "()"],
        |text| {
            if let Ok(job) = JobText::from_ron(text) {
                assert_eq!(JobText::from_ron(&job.to_ron()).as_ref(), Ok(&job), "{text}");
            }
        },
    );
}

#[test]
fn the_reader_of_figures() {
    let sound = [
        "1-1/2 in",
        "1 1/2\"",
        ".75",
        "38,5 mm",
        "500F",
        "260 °C",
        "1.234,5",
        "1,234.5",
        "Ø90",
        "-5",
        "3½",
        "1e3",
        "−40 °F",
        "2 3/8",
        "5'6\"",
        "0.5 m",
        "7:30",
        "2026-03-17 7:30",
    ];
    let now = Moment::new(1_773_729_000, 60);
    feed("figures", &sound, |text| {
        let finite = |value: f64| assert!(value.is_finite(), "{text}: {value}");
        if let Ok(value) = number(text, limits::ANY_LENGTH_MM) {
            finite(value);
            assert!(limits::ANY_LENGTH_MM.holds(value), "{text}: {value}");
        }
        for unit in [LengthUnit::Mm, LengthUnit::Inch] {
            if let Ok(found) = length(text, unit, limits::THICKNESS_MM) {
                assert!(limits::THICKNESS_MM.holds(found.mm), "{text}: {}", found.mm);
            }
        }
        for unit in [TemperatureUnit::C, TemperatureUnit::F] {
            if let Ok(value) = temperature(text, unit, limits::READING_C) {
                assert!(limits::READING_C.holds(value), "{text}: {value}");
            }
        }
        let _ = black_box((now.at_time(text), text.parse::<Moment>(), Units::read(text)));
    });
}

#[test]
fn the_reader_of_certificates() {
    let sound = [
        "C 0.42 Mn 0.65 Si 0.25 Cr 1.05 Mo 0.20",
        "C: 0,38; Mn: 0,7; Cr 1.1 %; Ni<0.3; P 120 ppm; S .010",
        "lot 4711 C=.41",
        "0.40 C, 0.80 Mn",
        "unmarked lean",
        "quenched and tempered 540 °C",
        "Q&T 1000F",
    ];
    feed("certificates", &sound, |text| {
        let _ = black_box((composition(text), condition(text, TemperatureUnit::C)));
    });
}

#[test]
fn the_reader_of_logs() {
    let kept = include_str!("kept/schema-1.ron");
    let bare = "(job: \"01990000-0000-7000-8000-000000000001\", records: [(record: (id: \"01990000-0000-7000-8000-000000000001\", thing: \"01990000-0000-7000-8000-000000000001\", device: \"a\", at: \"2026-03-17T07:30:00+01:00\", entry: Withdrawn))])";
    feed("logs", &[kept, bare], |text| {
        let Ok(read) = LogFile::read(text) else { return };
        let log: Log = read.records.iter().cloned().collect();
        let standing = log.standing();
        let overview = standing.overview(strawblue::reference::embedded(), Moment::new(1_773_800_000, 0));
        black_box((overview, strawblue::log::bounds(&standing), standing.conflicts()));
        // What was read is written as it is read again.
        let again = LogFile::read(&read.head.write(log.records())).expect("a log");
        assert!(again.is_whole(), "{text}");
        assert_eq!(again.records.into_iter().collect::<Log>(), log, "{text}");
    });
}
