//! The clock by readings whose cold end nobody knows, and by those that may be too cold and too hot: a crayon
//! that did not melt, a wide reading. Window 200 to 300 °C, a fall of 5 K a minute, by hand.

use proptest::prelude::*;
use strawblue::engine::reading::{Band, When};
use strawblue::log::{Clock, ClockWhy, Entry, Face, Hand, Log, Moment, PieceStatus, ReadingTaken};

use crate::clock::{MAXIMUM_C, MINIMUM_C, at, log_of, times};
use crate::clock_safe::{near, said, straight};
use crate::made::falls;

const BEFORE: When = When::BeforeTack;

/// A crayon that did not melt: at most so hot.
fn stayed(high_c: f64) -> Band {
    Band { high_c: Some(high_c), ..Band::default() }
}

fn of(readings: &[(f64, Band)]) -> Log {
    let all: Vec<(f64, When, Band)> =
        readings.iter().map(|(minute, band)| (*minute, BEFORE, *band)).collect();
    log_of(Some(straight()), &all)
}

/// Minutes, part, face, band.
fn of_parts(readings: &[(f64, Option<u32>, Face, Band)]) -> Log {
    let mut log = log_of(Some(straight()), &[]);
    let piece = log.standing().pieces[0].id;
    for (minutes, member, face, band) in readings {
        let seen = strawblue::engine::reading::Seen::Crayons { melted_c: None, stayed_c: band.high_c };
        let at = Moment::new(0, 0).plus_min(*minutes);
        let (typed, note) = (String::new(), String::new());
        let (member, face, band, when, away_mm) = (*member, *face, *band, BEFORE, None);
        let taken = ReadingTaken { piece, at, member, face, away_mm, when, typed, seen, band, note };
        log.add(Hand::at("me", at).after(&log).begin(Entry::Reading(Box::new(taken))));
    }
    log
}

fn left_is(clock: &Clock, minutes: f64) {
    assert!((clock.left_min.expect("minutes") - minutes).abs() < 1e-9, "{clock:?}, not {minutes} min");
}

/// Read at 239 °C at least, 7.8 min above 200 °C; then a crayon for 203 °C does not melt.
#[test]
fn a_newer_crayon_that_did_not_melt_caps_the_minutes() {
    let first = (0.0, near(240.0));
    left_is(&at(&of(&[first]), 1.0).0, 6.8);
    // 0.6 min from its hot end is about nothing.
    for high_c in [MINIMUM_C, MINIMUM_C + 3.0] {
        let log = of(&[first, (1.0, stayed(high_c))]);
        let (clock, status) = at(&log, 1.0);
        assert_eq!((clock.left_min, clock.wait_min, status), (Some(0.0), Some(0.0), PieceStatus::Measure));
        assert_eq!(said(&log, 1.0).0, "It may be too cold: measure again.");
    }
    // 21 K from its hot end are 4.2 min; then nobody knows, until the older reading has run out as well.
    let log = of(&[first, (1.0, stayed(MINIMUM_C + 21.0))]);
    let (clock, status) = at(&log, 1.0);
    left_is(&clock, 4.2);
    assert_eq!((clock.why, status), (ClockWhy::ByCycle, PieceStatus::Warm));
    assert_eq!(at(&log, 6.0).1, PieceStatus::Measure);
    assert_eq!(at(&log, 9.0).1, PieceStatus::Overdue);
    // A hotter one takes nothing away, and a newer reading with a cold end lifts the cap.
    left_is(&at(&of(&[first, (1.0, stayed(MAXIMUM_C - 5.0))]), 1.0).0, 6.8);
    left_is(&at(&of(&[first, (1.0, stayed(MINIMUM_C + 3.0)), (2.0, near(261.0))]), 2.0).0, 12.0);
    // An upper end alone says no more where it is that of a peak.
    let peak = Band { peak: true, ..Band::from_to(190.0, MINIMUM_C + 3.0) };
    assert_eq!(at(&of(&[first, (1.0, peak)]), 1.0).1, PieceStatus::Measure);
}

#[test]
fn of_several_parts_and_faces_the_one_with_the_crayon_is_capped() {
    let (far, heated) = (Face::Far, Face::Heated);
    let parts = [(0.0, Some(0), far, near(240.0)), (0.0, Some(1), far, near(240.0))];
    let with = |more: (f64, Option<u32>, Face, Band)| at(&of_parts(&[&parts[..], &[more]].concat()), 1.0);
    let low = stayed(MINIMUM_C + 3.0);
    for (member, face) in [(Some(1), far), (Some(1), heated), (None, far)] {
        assert_eq!(with((1.0, member, face, low)).1, PieceStatus::Measure, "{member:?} {face:?}");
    }
    // Of no part in particular: it is one of those that were read.
    let (clock, status) = with((1.0, None, far, stayed(MINIMUM_C + 21.0)));
    left_is(&clock, 4.2);
    assert_eq!(status, PieceStatus::Warm);
    // The crayon on the far face, the probe on the heated one a minute later: the colder face counts.
    let faces =
        |minute: f64| at(&of_parts(&[(0.0, None, far, low), (minute, None, heated, near(240.0))]), minute);
    assert_eq!(faces(1.0).1, PieceStatus::Measure);
    assert_eq!(faces(9.0).1, PieceStatus::Warm, "another moment");
    let again = [(0.0, None, far, low), (1.0, None, far, near(240.0)), (2.0, None, heated, near(240.0))];
    assert_eq!(at(&of_parts(&again), 2.0).1, PieceStatus::Warm, "read again at that face");
    // One part of which nobody knows anything, and one that is surely below: that one is heated.
    let below = [(0.0, Some(0), far, low), (1.0, Some(1), far, near(150.0))];
    assert_eq!(at(&of_parts(&below), 5.0).1, PieceStatus::Overdue);
}

/// Without a heat cycle one reading says no minutes, so that nothing bounds the cold end of the crayon.
#[test]
fn without_a_cycle_two_readings_count_from_the_hot_end() {
    let run = When::BeforeRun(1);
    let log = log_of(None, &[(0.0, run, near(240.0)), (1.0, run, stayed(MINIMUM_C + 90.0))]);
    assert_eq!(at(&log, 1.0).1, PieceStatus::Measure);
    let pair = [(0.0, run, near(260.0)), (4.0, run, near(240.0))];
    let alone = at(&log_of(None, &pair), 5.0).0.left_min.expect("minutes");
    let capped = at(&log_of(None, &[&pair[..], &[(5.0, run, stayed(MINIMUM_C + 15.0))]].concat()), 5.0);
    let left_min = capped.0.left_min.expect("minutes");
    assert!(1.0 < left_min && left_min < 0.7 * alone, "{left_min} beside {alone}");
    assert_eq!((capped.0.why, capped.1), (ClockWhy::ByTwoReadings, PieceStatus::Warm));
}

/// A crayon for 350 °C did not melt, and nothing else is known: it may have been 20 °C.
#[test]
fn a_crayon_that_did_not_melt_alone_is_measured_again() {
    for falls in [None, Some(straight())] {
        let log = log_of(falls.clone(), &[(0.0, BEFORE, stayed(MAXIMUM_C + 3.5))]);
        assert_eq!(at(&log, 0.0).1, PieceStatus::Measure);
        assert_eq!(said(&log, 0.0).0, "It may be too cold or too hot: measure again.");
        let log = log_of(falls, &[(0.0, BEFORE, stayed(MAXIMUM_C - 20.0))]);
        assert_eq!(at(&log, 0.0).1, PieceStatus::Measure);
        assert_eq!(said(&log, 0.0).0, "It may be too cold: measure again.");
    }
    // When the wait would be over, the cold end is as unknown.
    assert_eq!(at(&of(&[(0.0, stayed(MAXIMUM_C + 3.5))]), 5.0).1, PieceStatus::Measure);
}

#[test]
fn a_wait_that_outlasts_the_minutes_is_not_told() {
    // 220 to 340 °C: 4 min above 200 °C, 8 min to 300 °C.
    let log = of(&[(0.0, Band::from_to(MINIMUM_C + 20.0, MAXIMUM_C + 40.0))]);
    let (clock, status) = at(&log, 1.0);
    assert_eq!((clock.left_min, status), (Some(0.0), PieceStatus::Measure));
    assert_eq!(said(&log, 1.0).0, "It may be too cold or too hot: measure again.");
    // 260 to 310 °C: 12 min and 2 min. Surely above 300 °C it is too hot, whatever comes after.
    for (band, wait_min) in [(Band::from_to(260.0, 310.0), 2.0), (Band::from_to(305.0, 425.0), 25.0)] {
        let (clock, status) = at(&of(&[(0.0, band)]), 0.0);
        assert_eq!((clock.wait_min, status), (Some(wait_min), PieceStatus::Wait), "{band:?}");
    }
}

/// Under "Too hot" no minutes to weld are told: while it waits, when the wait is over by the model alone, and
/// where nobody knows it.
#[test]
fn too_hot_and_minutes_to_weld_are_not_told_together() {
    let hot = of(&[(0.0, Band::from_to(350.0, 360.0))]);
    let open = of(&[(0.0, Band::from_to(560.0, 700.0))]);
    for (log, minutes, says) in [(&hot, 2.0, "Wait 10 min"), (&hot, 13.0, "measure"), (&open, 2.0, "measure")]
    {
        let (clock, status) = at(log, minutes);
        assert_eq!(status, PieceStatus::Wait);
        assert!(clock.left_min.is_some_and(|left_min| left_min > 0.0) && clock.too_hot);
        let said = said(log, minutes).0;
        assert!(said.contains(says) && !said.contains("left to weld"), "{said}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    /// Whatever was read before: no more minutes than from the hot end of what was read last.
    #[test]
    fn no_more_minutes_than_from_the_last_hot_end(
        falls in falls(), readings in times(), high_c in 150.0..600.0_f64, later in 0..60_u32,
    ) {
        let last = [(90.0, When::BeforeRun(2), stayed(high_c))];
        let log = log_of(Some(falls.clone()), &[&readings[..], &last[..]].concat());
        let (clock, status) = at(&log, 90.0 + f64::from(later));
        let top_min = falls.quick.minutes(high_c, MINIMUM_C);
        if let Some(left_min) = clock.left_min {
            let most = top_min.map_or(0.0, |top_min| (top_min - f64::from(later)).max(0.0));
            prop_assert!(left_min <= most + 1e-6, "{left_min} left, {most} from the hot end");
        }
        if status == PieceStatus::Warm {
            prop_assert!(top_min.is_some_and(|top_min| top_min >= 1.0));
        }
        prop_assert!(high_c < MINIMUM_C || clock.left_min.is_some(), "{clock:?}");
    }
}
