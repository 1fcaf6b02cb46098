//! The clock where it must show nothing, or less: a part that may have been heated, one that may be too hot, a
//! reading with an open end, two faces of one moment.

use proptest::prelude::*;
use strawblue::engine::reading::{Band, Fall, Falls, Pace, Seen, Timed, Touch, When};
use strawblue::log::{Clock, ClockWhy, Entry, Face, Hand, Log, Moment, PieceStatus, ReadingTaken, StepDone};
use strawblue::reference::embedded;
use strawblue::report::{Pen, clock_line, piece_line};
use strawblue::units::{Show, Units};
use strawblue::words::Words;

use crate::clock::{MAXIMUM_C, MINIMUM_C, at, log_of, times};
use crate::made::falls;

pub(crate) fn near(at_c: f64) -> Band {
    Band::from_to(at_c - 1.0, at_c + 1.0)
}

/// 5 K a minute, by hand.
pub(crate) fn straight() -> Falls {
    let fall = Fall {
        points: (0..=100).map(|minute| (f64::from(minute), 600.0 - 5.0 * f64::from(minute))).collect(),
    };
    Falls { quick: fall.clone(), slow: fall }
}

pub(crate) fn said(log: &Log, minutes: f64) -> (String, String) {
    let words = Words::english();
    let pen = Pen { reference: embedded(), words: &words, show: Show::new(Units::C_MM, &words) };
    let standing = log.standing();
    let overview = standing.overview(embedded(), Moment::new(0, 0).plus_min(minutes)).expect("a job");
    let plan = &standing.job.as_ref().expect("a job").now.plan;
    let line = piece_line(&pen, plan, &overview.pieces[0]);
    (line.clock.replace('\u{a0}', " "), clock_line(&pen, &overview.pieces[0].clock).why)
}

/// What one pair shows, 10 min after its first reading.
fn pair(when: When, between: &[(f64, When, Band)], second_min: f64) -> Clock {
    let mut all = vec![(0.0, when, near(240.0))];
    all.extend_from_slice(between);
    all.push((second_min, when, near(225.0)));
    at(&log_of(None, &all), second_min).0
}

/// 240 °C between two runs, the run, 225 °C after it: the part fell many times as quick as the two say.
#[test]
fn a_pair_with_an_arc_or_a_flame_between_shows_no_minutes() {
    let run = When::BeforeRun(2);
    assert_eq!(pair(run, &[], 10.0).why, ClockWhy::ByTwoReadings);
    for when in [When::BetweenRuns, When::BeforeTack] {
        let clock = pair(when, &[], 10.0);
        assert_eq!((clock.left_min, clock.why), (None, ClockWhy::NoCycle), "{when:?}");
    }
    let heated = [(4.0, When::Heating, near(235.0))];
    assert_eq!(pair(run, &heated, 10.0).left_min, None, "a flame between");
    let rose = [(4.0, run, near(215.0))];
    assert_eq!(pair(run, &rose, 10.0).left_min, None, "it rose between");
    assert_eq!(pair(run, &[], 60.0).left_min, None, "left for an hour");
    // A step that was done between the two may have heated it.
    let mut log = log_of(None, &[(0.0, run, near(240.0)), (10.0, run, near(225.0))]);
    assert!(at(&log, 10.0).0.left_min.is_some());
    let piece = log.standing().pieces[0].id;
    let (branch, note) = (String::new(), String::new());
    let done = StepDone { piece, number: 3, branch, at: Moment::new(0, 0).plus_min(5.0), note };
    log.add(Hand::at("me", Moment::new(0, 0)).after(&log).begin(Entry::Step(done)));
    assert_eq!(at(&log, 10.0).0.left_min, None, "a step between");
    assert!(said(&log, 10.0).1.contains("heat nothing between them"));
}

/// 10 K a minute before run 1, 1.5 K a minute before run 2: 25 K are gone in about 3 min, not in 16.
#[test]
fn the_quickest_of_several_pairs_counts() {
    let (first, second) = (When::BeforeRun(1), When::BeforeRun(2));
    let slow = [(20.0, second, near(240.0)), (30.0, second, near(225.0))];
    let alone = at(&log_of(None, &slow), 30.0).0.left_min.expect("minutes");
    let quick = [(0.0, first, near(260.0)), (2.0, first, near(240.0))];
    let both = at(&log_of(None, &[&quick[..], &slow[..]].concat()), 30.0).0.left_min.expect("minutes");
    assert!(alone > 10.0 && (1.5..4.0).contains(&both), "{alone} alone, {both} with the quicker pair");
    // What fell quickly once does not show that it falls now.
    let once = [&quick[..], &slow[1..]].concat();
    assert_eq!(at(&log_of(None, &once), 30.0).0.left_min, None);
}

#[test]
fn a_reading_with_an_open_top_gives_no_wait_and_says_so() {
    let open = Band { high_c: None, ..Band::from_to(MAXIMUM_C - 5.0, 0.0) };
    let before = (0.0, When::BeforeRun(1), near(290.0));
    let known = log_of(Some(straight()), &[before]);
    assert_eq!((at(&known, 0.0).0.wait_min, at(&known, 0.0).0.may_be_hot), (Some(0.0), false));
    let log = log_of(Some(straight()), &[before, (5.0, When::BeforeRun(2), open)]);
    let (clock, status) = at(&log, 5.0);
    assert_eq!((clock.wait_min, clock.may_be_hot, status), (None, true, PieceStatus::Warm));
    let says = said(&log, 5.0).0;
    assert!(says.contains("left to weld") && says.contains("measure before the next run"), "{says}");
}

/// 120 to 340 °C where 200 to 300 °C are wanted.
#[test]
fn what_may_be_too_cold_and_too_hot_is_measured_again() {
    let wide = [(0.0, When::BeforeRun(2), Band::from_to(120.0, 340.0))];
    for falls in [None, Some(straight())] {
        let log = log_of(falls, &wide);
        // Without a cycle nothing says when it falls below, and nothing says to heat.
        let (clock, status) = at(&log, 1.0);
        assert!(matches!(status, PieceStatus::Measure | PieceStatus::Begun), "{status:?} {clock:?}");
        let says = said(&log, 1.0).0;
        assert!(says.contains("measure") && !says.contains("heat") && !says.contains("Wait"), "{says}");
    }
    let log = log_of(Some(straight()), &wide);
    assert_eq!(at(&log, 1.0).1, PieceStatus::Measure);
    // By the slow fall even 340 °C is below 300 °C after 8 min: then it is heated.
    assert_eq!(at(&log, 9.0).1, PieceStatus::Overdue);
    assert!(said(&log, 9.0).0.contains("heat it again"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    /// Nobody is sent to heat what may be too hot still.
    #[test]
    fn heat_again_is_never_said_of_what_may_be_too_hot(
        falls in prop::option::of(falls()), readings in times(), later in 0..300_u32,
    ) {
        let log = log_of(falls, &readings);
        let (clock, status) = at(&log, 90.0 + f64::from(later));
        if status == PieceStatus::Overdue {
            prop_assert_eq!(clock.wait_min, Some(0.0));
        }
        let last = readings.iter().rfind(|(_, _, band)| !band.peak);
        if clock.wait_min.is_some() && let Some((_, _, band)) = last {
            prop_assert!(band.high_c.is_some(), "a wait from a reading with an open top");
        }
    }
}

/// Two clocks, and the minute that one rounds to, are apart: what the entry takes the clock takes.
#[test]
fn a_reading_two_minutes_ahead_is_one_of_now() {
    let log = log_of(Some(straight()), &[(2.0, When::BeforeTack, Band::from_to(250.0, 260.0))]);
    let (clock, status) = at(&log, 0.0);
    assert_eq!((clock.why, status), (ClockWhy::ByCycle, PieceStatus::Warm));
    assert!((clock.left_min.expect("minutes") - 10.0).abs() < 1e-9, "no more than at that moment");
    let log = log_of(Some(straight()), &[(3.0, When::BeforeTack, Band::from_to(250.0, 260.0))]);
    assert_eq!(at(&log, 0.0).0.why, ClockWhy::SetBack);
    // A clock that is wrong sends nobody to heat what was too hot.
    let log = log_of(Some(straight()), &[(9.0, When::BeforeTack, Band::from_to(350.0, 360.0))]);
    assert_eq!(at(&log, 0.0).1, PieceStatus::Measure);
}

/// The far face below the minimum, then the heated one a minute later: the part does not have it.
#[test]
fn the_colder_of_two_faces_counts() {
    let of = |all: &[(f64, Face, f64)]| {
        let mut log = log_of(Some(straight()), &[]);
        let piece = log.standing().pieces[0].id;
        for (minutes, face, at_c) in all {
            let seen = Seen::Touched { with: Touch::ContactProbe, shows_c: *at_c };
            let at = Moment::new(0, 0).plus_min(*minutes);
            let (typed, note, face, band) = (String::new(), String::new(), *face, near(*at_c));
            let (member, when, away_mm) = (None, When::BeforeTack, None);
            let taken = ReadingTaken { piece, at, member, face, away_mm, when, typed, seen, band, note };
            log.add(Hand::at("me", at).after(&log).begin(Entry::Reading(Box::new(taken))));
        }
        at(&log, all[all.len() - 1].0)
    };
    let (clock, status) = of(&[(0.0, Face::Far, MINIMUM_C - 10.0), (1.0, Face::Heated, 280.0)]);
    assert_eq!((clock.left_min, status), (Some(0.0), PieceStatus::Overdue));
    let (clock, _) = of(&[(0.0, Face::Far, MINIMUM_C + 21.0), (1.0, Face::Heated, 280.0)]);
    assert!((clock.left_min.expect("minutes") - 3.0).abs() < 1e-9, "{clock:?}");
    // The hotter one makes the wait: 330 °C at most, a minute ago.
    let (clock, _) = of(&[(0.0, Face::Heated, MAXIMUM_C + 29.0), (1.0, Face::Far, 280.0)]);
    assert!((clock.wait_min.expect("a wait") - 5.0).abs() < 1e-9, "{clock:?}");
    // Read again at that face, or later, it is another moment.
    let (clock, _) =
        of(&[(0.0, Face::Far, 190.0), (1.0, Face::Heated, 280.0), (2.0, Face::Far, MINIMUM_C + 51.0)]);
    assert!((clock.left_min.expect("minutes") - 10.0).abs() < 1e-9, "{clock:?}");
    let (clock, _) = of(&[(0.0, Face::Far, 190.0), (9.0, Face::Heated, 280.0)]);
    assert!(clock.left_min.is_some_and(|left_min| left_min > 10.0), "{clock:?}");
}

/// 290 °C to 100 °C in 4 min where the model, which ends at 140 °C, has 5 K a minute: eight times as quick at least.
#[test]
fn the_quickest_fall_of_all_quickens_the_pace() {
    let fall = Fall { points: vec![(0.0, 600.0), (92.0, 140.0)] };
    let falls = Falls { quick: fall.clone(), slow: fall };
    let timed = |at_min: f64, at_c: f64| Timed { at_min, band: near(at_c) };
    let pace = Pace::default().with(&falls, &timed(0.0, 290.0), &timed(4.0, 100.0));
    assert!((9.0..=10.0).contains(&pace.quickest), "{pace:?}");
    let before = When::BeforeRun(1);
    let cold = [(0.0, before, near(290.0)), (4.0, before, near(100.0))];
    let again = [&cold[..], &[(30.0, When::BeforeRun(2), near(290.0))]].concat();
    let left_min = at(&log_of(Some(falls), &again), 30.0).0.left_min.expect("minutes");
    assert!(left_min < 2.5, "{left_min}, where the model has 18");
}
