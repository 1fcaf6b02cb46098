//! Laws of the log: what two devices know together, what a file gives back, what a reading may claim.

use std::collections::BTreeSet;

use proptest::prelude::*;
use strawblue::engine::reading::{Limits, Verdict, judge};
use strawblue::engine::tint::Held;
use strawblue::log::{Entry, Hand, Id, Log, LogFile, Moment, Record};

use crate::made::{band, id, log_of, record, records, when};

fn merged(one: &Log, other: &Log) -> Log {
    let mut log = one.clone();
    log.merge(other);
    log
}

/// All records that stand or were taken back, of whatever thing.
fn shown(log: &Log) -> BTreeSet<Id> {
    let standing = log.standing();
    let mut found: BTreeSet<Id> = standing.withdrawn.iter().map(|(record, _)| record.id).collect();
    let mut put = |records: Vec<Id>| found.extend(records);
    standing.job.iter().for_each(|thing| put(thing.stands()));
    standing.more_jobs.iter().for_each(|thing| put(thing.stands()));
    standing.pieces.iter().for_each(|thing| put(thing.stands()));
    standing.steps.iter().for_each(|thing| put(thing.stands()));
    standing.readings.iter().for_each(|thing| put(thing.stands()));
    standing.trials.iter().for_each(|thing| put(thing.stands()));
    standing.used.iter().for_each(|thing| put(thing.stands()));
    found
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    #[test]
    fn it_does_not_matter_who_merges_with_whom(one in records(), other in records(), third in records()) {
        let (one, other, third) = (log_of(&one), log_of(&other), log_of(&third));
        prop_assert_eq!(merged(&one, &other), merged(&other, &one));
        prop_assert_eq!(merged(&merged(&one, &other), &third), merged(&one, &merged(&other, &third)));
        prop_assert_eq!(merged(&one, &one), one.clone());
        let both = merged(&one, &other);
        prop_assert_eq!(merged(&both, &other), both.clone());
        // What stands follows from the records alone.
        let back: Vec<Record> = both.records().cloned().collect();
        let turned: Log = back.iter().rev().cloned().collect();
        prop_assert_eq!(both.standing(), turned.standing());
    }

    #[test]
    fn a_merge_loses_nothing(one in records(), other in records()) {
        let (one, other) = (log_of(&one), log_of(&other));
        let both = merged(&one, &other);
        prop_assert!(one.records().chain(other.records()).all(|record| both.has(record)));
        prop_assert!(both.records().all(|record| one.has(record) || other.has(record)));
        // Whatever is not shown was replaced by a record of its own thing.
        let shown = shown(&both);
        for record in both.records().filter(|record| !shown.contains(&record.id)) {
            let replaced = both.records().any(|later| {
                later.thing == record.thing && later.id != record.id && later.replaces.contains(&record.id)
            });
            // What two devices took back is shown once.
            let gone = record.entry == Entry::Withdrawn;
            prop_assert!(replaced || gone, "{:?} vanished", record.id);
        }
        // And every thing shows something.
        for record in both.records() {
            prop_assert!(both.records().any(|other| other.thing == record.thing && shown.contains(&other.id)));
        }
    }

    #[test]
    fn a_file_gives_back_what_was_written(records in records(), job in 1..9_u128, device in crate::made::text()) {
        let log = log_of(&records);
        let head = LogFile { job: id(job), device };
        let text = head.write(log.records());
        let read = LogFile::read(&text).expect("a log");
        prop_assert!(read.is_whole(), "{:?} {}\n{}", read.damaged, read.cut, text);
        prop_assert_eq!(&read.head, &head);
        let back: Log = read.records.iter().cloned().collect();
        prop_assert_eq!(&back, &log);
        prop_assert_eq!(head.write(back.records()), text);
    }

    #[test]
    fn a_hand_set_file_is_read_all_the_same(records in records()) {
        let log = log_of(&records);
        let text = LogFile { job: id(1), device: "a".to_owned() }.write(log.records());
        // Without sums, without line breaks at the records, and without a count.
        let bare: String = text
            .lines()
            .filter(|line| !line.trim_start().starts_with("count:"))
            .map(|line| match line.trim_start().strip_prefix("(sum: \"") {
                Some(rest) => format!("(\n{}\n", &rest[rest.find("record:").expect("a record")..]),
                None => format!("{line}\n"),
            })
            .collect();
        let read = LogFile::read(&bare).expect("a log");
        prop_assert!(read.damaged.is_empty(), "{:?}\n{bare}", read.damaged);
        let back: Log = read.records.into_iter().collect();
        prop_assert_eq!(back, log);
    }

    /// No verdict claims more than its band shows.
    #[test]
    fn a_reading_is_in_only_where_all_of_its_band_is(
        band in band(), when in when(), minimum_c in 0.0..500.0_f64, room_k in 0.0..300.0_f64,
        known in any::<bool>(), none in 0..8_u8,
    ) {
        let ends = [minimum_c, minimum_c + room_k, minimum_c + 2.0 * room_k];
        let some = |nth: u8| (none & (1 << nth) == 0).then_some(ends[usize::from(nth)]);
        let limits = Limits { minimum_c: some(0), maximum_c: some(1), ceiling_c: some(2), range_known: known };
        let judged = judge(&band, when, &limits);
        if judged.verdict == Some(Verdict::In) {
            prop_assert!(known && when.in_welding() && !band.peak);
            prop_assert!(limits.minimum_c.is_none_or(|least| band.low_c.is_some_and(|low| low >= least)));
            for most in [limits.maximum_c, limits.ceiling_c].into_iter().flatten() {
                prop_assert!(band.high_c.is_some_and(|high| high <= most));
            }
        }
        // What is surely missed is never passed over, and nothing is sure of an open end.
        let missed = [judged.minimum, judged.maximum, judged.ceiling].contains(&Some(Held::Missed));
        prop_assert_eq!(missed, matches!(judged.verdict, Some(Verdict::Below | Verdict::Over)));
        if judged.verdict == Some(Verdict::Below) {
            prop_assert!(band.high_c.is_some_and(|high| limits.minimum_c.is_some_and(|least| high < least)));
        }
        // A wider band never knows more.
        let wider = strawblue::engine::reading::Band {
            low_c: band.low_c.map(|low_c| low_c - 10.0),
            high_c: band.high_c.map(|high_c| high_c + 10.0),
            judged_low_c: band.judged_low_c.map(|low_c| low_c - 10.0),
            ..band
        };
        if judge(&wider, when, &limits).verdict == Some(Verdict::In) {
            prop_assert_eq!(judged.verdict, Some(Verdict::In));
        }
    }

    /// An undoing puts back what was there, and can be undone.
    #[test]
    fn what_is_undone_is_as_it_was(records in records(), more in record()) {
        // A job and its pieces are taken back by name.
        prop_assume!(!matches!(more.entry, Entry::Job(_) | Entry::Piece(_)));
        // Devices that write by the rules replace what stands, and have ids of their own.
        let mut log = Log::default();
        let hand = |log: &Log| Hand::at("me", Moment::new(1000, 0)).after(log);
        for record in records.iter().take(6) {
            let new = hand(&log).begin(record.entry.clone());
            log.add(new);
        }
        let before = log.clone();
        let next = hand(&log).begin(more.entry);
        let (thing, withdrawn) = (next.thing, next.entry == Entry::Withdrawn);
        log.add(next);
        let undone = hand(&log).undo_last(&log);
        prop_assert_eq!(undone[0].thing, thing);
        log.extend(undone);
        let (one, other) = (before.standing(), log.standing());
        prop_assert_eq!(one.pieces.len(), other.pieces.len());
        prop_assert_eq!(one.readings.len(), other.readings.len());
        prop_assert_eq!(one.trials.len(), other.trials.len());
        if !withdrawn {
            let again = hand(&log).undo_last(&log);
            log.extend(again.clone());
            prop_assert_eq!(again.len(), 1);
            prop_assert_eq!(again[0].thing, thing);
            prop_assert!(again[0].entry != Entry::Withdrawn);
        }
        prop_assert_eq!(log.standing().conflicts(), 0);
    }

    /// What a device writes comes after all that it has seen, whatever its clock says.
    #[test]
    fn ids_go_up_though_the_clock_does_not(records in records()) {
        let mut log = log_of(&records);
        for minute in [500, 20, -300] {
            let last = log.last();
            let record = Hand::at("me", Moment::new(minute * 60, 0)).after(&log).begin(Entry::Withdrawn);
            prop_assert!(last.is_none_or(|last| record.id > last));
            log.add(record);
        }
        let far = Id(uuid::Uuid::from_u128(u128::MAX >> 9));
        prop_assert!(Id::after(far) > far);
    }

    #[test]
    fn a_moment_is_written_as_a_clock_has_it(moment in crate::made::moment()) {
        let text = moment.to_string();
        prop_assert_eq!(text.parse::<Moment>().expect("a moment"), moment);
        let (day, time) = moment.day_and_time();
        let again = moment.at_time(&format!("{day} {time}")).expect("a time");
        prop_assert_eq!(again.utc_s, moment.utc_s - moment.utc_s.rem_euclid(60));
    }
}

#[test]
fn a_time_is_read_as_it_is_written() {
    // 17 March 2026, 07:30 one hour ahead of UTC, by hand.
    let at = Moment::new(1_773_729_000, 60);
    assert_eq!(at.to_string(), "2026-03-17T07:30:00+01:00");
    assert_eq!(at.at_time("8:05").map(|at| at.to_string()).as_deref(), Some("2026-03-17T08:05:00+01:00"));
    for wrong in ["", "8", "25:00", "8:61", "yesterday 8:00", "2026-13-01 8:00", "8:05:x"] {
        assert_eq!(at.at_time(wrong), None, "{wrong}");
    }
}
