//! The weld-by clock: never more minutes than the cautious end of the model, over a restart, a clock that was
//! set back and a night.

use std::ops::ControlFlow;

use proptest::prelude::*;
use strawblue::engine::heat_cycle::{Keep, Phase};
use strawblue::engine::reading::{Band, Fall, Falls, Seen, Touch, When, wait_min};
use strawblue::job::{PlanSays, Reading, cycle_of_plan, demo_job, read_job};
use strawblue::log::{
    Clock, ClockWhy, Entry, Face, Hand, JobEntry, LimitCopy, Log, Moment, PieceStatus, PlanCopy,
    ReadingTaken, demo_log,
};
use strawblue::reference::embedded;
use strawblue::report::{Pen, clock_line, tint_limits};
use strawblue::units::{Show, Units};
use strawblue::words::Words;

use crate::made::{band, falls};

pub(crate) const MINIMUM_C: f64 = 200.0;
pub(crate) const MAXIMUM_C: f64 = 300.0;

fn plan(falls: Option<Falls>) -> PlanCopy {
    let limit = |at_c: f64| Some(LimitCopy { at_c, exact_c: at_c, ..LimitCopy::default() });
    PlanCopy {
        answers: true,
        minimum: limit(MINIMUM_C),
        maximum: limit(MAXIMUM_C),
        ceiling: limit(500.0),
        shop_c: 20.0,
        falls,
        ..PlanCopy::default()
    }
}

/// A job of one piece with these readings: minutes, when, band.
pub(crate) fn log_of(falls: Option<Falls>, readings: &[(f64, When, Band)]) -> Log {
    let mut log = Log::default();
    let hand = Hand::at("me", Moment::new(0, 0));
    let job = JobEntry { pieces: 1, plan: plan(falls), ..JobEntry::default() };
    log.extend(hand.begin_job(job));
    let piece = log.standing().pieces[0].id;
    for (minutes, when, band) in readings {
        let at = Moment::new(0, 0).plus_min(*minutes);
        let seen = Seen::Touched { with: Touch::ContactProbe, shows_c: 0.0 };
        let (typed, note) = (String::new(), String::new());
        let (when, band) = (*when, *band);
        let face = Face::Far;
        let taken = ReadingTaken {
            piece,
            at,
            member: None,
            face,
            away_mm: Some(50.0),
            when,
            typed,
            seen,
            band,
            note,
        };
        log.add(hand.clone().after(&log).begin(Entry::Reading(Box::new(taken))));
    }
    log
}

pub(crate) fn at(log: &Log, minutes: f64) -> (strawblue::log::Clock, PieceStatus) {
    let standing = log.standing();
    let overview = standing.overview(embedded(), Moment::new(0, 0).plus_min(minutes)).expect("a job");
    (overview.pieces[0].clock, overview.pieces[0].status)
}

/// In whole minutes, since a moment has whole seconds.
pub(crate) fn times() -> impl Strategy<Value = Vec<(f64, When, Band)>> {
    let when = prop_oneof![Just(When::BeforeTack), (1..3_u32).prop_map(When::BeforeRun), Just(When::Heating)];
    prop::collection::vec(((0..90_u32).prop_map(f64::from), when, band()), 1..7).prop_map(|mut all| {
        all.sort_by(|one, other| one.0.total_cmp(&other.0));
        all
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1024))]

    /// Whatever was read, and whatever that says of the pace: no more than the model from one of the
    /// readings, less the time since.
    #[test]
    fn no_more_minutes_than_the_model(falls in falls(), readings in times(), later in 0.0..300.0_f64) {
        let log = log_of(Some(falls.clone()), &readings);
        let now = 90.0 + later.floor();
        let (clock, status) = at(&log, now);
        let by_model = readings.iter().filter_map(|(minute, _, band)| {
            let model = falls.quick.minutes(band.least_c()?, MINIMUM_C)?;
            Some(model - (now - minute))
        });
        let most = by_model.fold(0.0_f64, f64::max);
        if let Some(left_min) = clock.left_min {
            prop_assert!(left_min <= most + 1e-6, "{left_min} left, {most} by the model");
            // A minute later there is a minute less, and none below none.
            let (next, _) = at(&log, now + 1.0);
            let next = next.left_min.expect("still a clock");
            prop_assert!((next - (left_min - 1.0).max(0.0)).abs() < 1e-6);
            let out = matches!(status, PieceStatus::Overdue | PieceStatus::Measure);
            prop_assert_eq!(left_min <= 0.0, out);
        }
        // A day later nothing is left.
        let (night, _) = at(&log, now + 24.0 * 60.0);
        prop_assert!(night.left_min.is_none_or(|left_min| left_min == 0.0));
    }

    /// A clock that was set back shows none left.
    #[test]
    fn a_clock_that_was_set_back_shows_none(falls in falls(), readings in times()) {
        let log = log_of(Some(falls), &readings);
        let last = readings[readings.len() - 1].0;
        let (clock, status) = at(&log, last - 3.0);
        prop_assert_eq!((clock.left_min, clock.why), (Some(0.0), ClockWhy::SetBack));
        let hot = if clock.may_be_hot { PieceStatus::Measure } else { PieceStatus::Overdue };
        prop_assert_eq!(status, hot);
    }

    /// A colder reading never has more minutes, and a hotter one never a shorter wait.
    #[test]
    fn colder_is_shorter_and_hotter_waits_longer(falls in falls(), low in 100.0..400.0_f64, by in 0.0..50.0_f64) {
        let one = |at_c: f64| at(&log_of(Some(falls.clone()), &[(0.0, When::BeforeTack, Band::from_to(at_c, at_c))]), 0.0).0;
        let (cold, warm) = (one(low), one(low + by));
        if let (Some(cold), Some(warm)) = (cold.left_min, warm.left_min) {
            prop_assert!(cold <= warm + 1e-9);
        }
        if let (Some(cold), Some(warm)) = (cold.wait_min, warm.wait_min) {
            prop_assert!(cold <= warm + 1e-9);
        }
    }

    /// Readings that fall quicker than the model shorten the minutes, and none lengthens them.
    #[test]
    fn readings_only_shorten(falls in falls(), minutes in 1..60_u32, from in 210.0..400.0_f64, by in 1.0..150.0_f64) {
        let band = |at_c: f64| Band::from_to(at_c - 2.0, at_c + 2.0);
        let minutes = f64::from(minutes);
        let alone = log_of(Some(falls.clone()), &[(minutes, When::BeforeTack, band(from - by))]);
        let pair = log_of(Some(falls), &[(0.0, When::BeforeTack, band(from)), (minutes, When::BeforeTack, band(from - by))]);
        if let (Some(alone), Some(pair)) = (at(&alone, minutes).0.left_min, at(&pair, minutes).0.left_min) {
            prop_assert!(pair <= alone + 1e-9, "{pair} against {alone}");
        }
    }
}

/// A straight fall of 5 K a minute, by hand: 250 °C at the cold end is 10 minutes above 200 °C.
#[test]
fn minutes_by_hand() {
    let straight = Fall {
        points: (0..=100).map(|minute| (f64::from(minute), 600.0 - 5.0 * f64::from(minute))).collect(),
    };
    let falls = Falls { quick: straight.clone(), slow: straight };
    let log = log_of(Some(falls.clone()), &[(0.0, When::BeforeTack, Band::from_to(250.0, 260.0))]);
    let (clock, status) = at(&log, 3.0);
    assert!((clock.left_min.expect("minutes") - 7.0).abs() < 1e-9);
    assert_eq!((clock.why, status, clock.wait_min), (ClockWhy::ByCycle, PieceStatus::Warm, Some(0.0)));
    let (over, status) = at(&log, 14.0);
    assert!((over.overdue_min.expect("over") - 4.0).abs() < 1e-9 && status == PieceStatus::Overdue);
    // 10 K a minute on the piece, twice the model: half the minutes. 298 to 252 °C in 5 min, sharp readings.
    let sharp = |at_c: f64| Band::from_to(at_c, at_c);
    let quick = log_of(
        Some(falls.clone()),
        &[(0.0, When::BeforeTack, sharp(290.0)), (4.0, When::BeforeTack, sharp(250.0))],
    );
    let left_min = at(&quick, 4.0).0.left_min.expect("minutes");
    assert!(left_min <= 5.0 + 1e-9, "{left_min}");
    // 360 °C at the hot end: 12 minutes until 300 °C.
    let hot = log_of(Some(falls.clone()), &[(0.0, When::BeforeRun(2), Band::from_to(350.0, 360.0))]);
    let (clock, status) = at(&hot, 2.0);
    assert!((clock.wait_min.expect("a wait") - 10.0).abs() < 1e-9 && status == PieceStatus::Wait);
    assert_eq!(
        wait_min(&falls, strawblue::engine::reading::Pace::default(), &Band::from_to(600.0, 700.0), 300.0),
        None
    );
    // Without a cycle one reading says nothing, and two of one place do.
    let alone = log_of(None, &[(0.0, When::BeforeTack, sharp(290.0))]);
    assert_eq!((at(&alone, 0.0).0.left_min, at(&alone, 0.0).0.why), (None, ClockWhy::NoCycle));
    let before = When::BeforeRun(1);
    let two = log_of(None, &[(0.0, before, sharp(290.0)), (4.0, before, sharp(250.0))]);
    let (clock, _) = at(&two, 4.0);
    assert_eq!(clock.why, ClockWhy::ByTwoReadings);
    // At least as long as at the rate of the hotter stretch, since what is colder loses less.
    assert!(clock.left_min.is_some_and(|left_min| (4.5..12.0).contains(&left_min)), "{clock:?}");
}

/// The fall of the demo's joint against the minutes that the cycle itself gives: from the end of the flame
/// until its coldest place falls below the minimum, no flame is quicker.
#[test]
fn the_fall_is_the_one_of_the_cycle() {
    let words = Words::english();
    let job = demo_job();
    let reading = Reading {
        reference: embedded(),
        own_steels: &[],
        units: Units::default(),
        mark: strawblue::units::Mark::Point,
    };
    let read = read_job(&job, &reading).expect("read");
    let plan = strawblue::engine::plan::plan(embedded(), &read.job);
    let pen = Pen { reference: embedded(), words: &words, show: Show::new(read.units, &words) };
    let limits = tint_limits(&pen, Some(&plan)).held;
    let typed = job.with_units_written(read.units);
    let says = PlanSays { read: &read, plan: &plan, limits, typed: &typed, flame_min: None };
    let pairs: Vec<(String, String)> = crate::demo::plan_of_demo().cycle_typed;
    let flames = cycle_of_plan(&pairs, &says, &reading).expect("a cycle");
    let on = &mut |_, _| ControlFlow::Continue(());
    let found = flames.run(embedded(), on).expect("an answer");
    let falls = flames.falls(embedded(), &found, on).expect("falls");
    let least_min = [Some(&found.cycle.preheat), Some(&found.strong), found.weak.as_ref()]
        .into_iter()
        .flatten()
        .map(|preheat| preheat.lasts_min())
        .fold(f64::INFINITY, f64::min);
    let minimum_c = limits.minimum_c.expect("a minimum");
    let hottest_c = falls.quick.points[0].1;
    let whole_min = falls.quick.minutes(hottest_c, minimum_c).expect("it falls below");
    assert!(whole_min <= least_min + 1e-3, "{whole_min} min by the fall, {least_min} by the cycle");
    assert!(whole_min > 0.5 * least_min, "{whole_min} min by the fall, {least_min} by the cycle");
    assert!(falls.quick.points.windows(2).all(|pair| pair[1].0 > pair[0].0 && pair[1].1 < pair[0].1));
    // No wait of the cycle for its next run is longer than the slow fall has it.
    let mut flames = flames;
    flames.cycle.keep = Keep::Curves;
    let found = flames.run(embedded(), on).expect("an answer");
    let mut waits = 0;
    let mut begun: Option<(f64, f64)> = None;
    for moment in &found.cycle.moments {
        match (moment.phase, begun) {
            (Phase::Interpass, None) if !falls.slow.reaches(moment.hottest_c) => {}
            (Phase::Interpass, None) => begun = Some((moment.minute, moment.hottest_c)),
            // While the heat of a flame still runs in, it rises: one measures after the wait.
            (Phase::Interpass, Some((_, hot_c))) if moment.hottest_c >= hot_c => {
                begun = Some((moment.minute, moment.hottest_c));
            }
            (Phase::Interpass, Some((minute, hot_c))) => {
                let slow_min = falls.slow.minutes(hot_c, moment.hottest_c).expect("it falls");
                let waited_min = moment.minute - minute;
                assert!(
                    slow_min >= 0.97 * waited_min - 0.05,
                    "{slow_min} by the fall, {waited_min} by the cycle"
                );
                waits += 1;
            }
            _ => begun = None,
        }
    }
    assert!(waits > 3, "the cycle waits for no run");
}

/// Each part must have the minimum: the first that falls below it counts. What was read of no part counts until
/// parts are told apart.
#[test]
fn the_part_that_falls_first_counts() {
    let straight = Fall { points: vec![(0.0, 600.0), (100.0, 100.0)] };
    let falls = Falls { quick: straight.clone(), slow: straight };
    let sharp = |at_c: f64| Band::from_to(at_c, at_c);
    let of = |all: &[(f64, Option<u32>, f64)]| {
        let mut log = log_of(Some(falls.clone()), &[]);
        let piece = log.standing().pieces[0].id;
        for (minutes, member, at_c) in all {
            let seen = Seen::Touched { with: Touch::ContactProbe, shows_c: *at_c };
            let at = Moment::new(0, 0).plus_min(*minutes);
            let (typed, note, face) = (String::new(), String::new(), Face::Far);
            let (member, band, when) = (*member, sharp(*at_c), When::BeforeTack);
            let taken =
                ReadingTaken { piece, at, member, face, away_mm: None, when, typed, seen, band, note };
            let record = Hand::at("me", at).after(&log).begin(Entry::Reading(Box::new(taken)));
            log.add(record);
        }
        at(&log, 2.0).0.left_min.expect("minutes")
    };
    let near = |one: f64, other: f64| assert!((one - other).abs() < 1e-9, "{one} against {other}");
    near(of(&[(0.0, Some(0), 280.0), (0.0, Some(1), 250.0)]), 8.0);
    near(of(&[(0.0, Some(0), 250.0), (1.0, Some(0), 280.0)]), 15.0);
    near(of(&[(0.0, None, 205.0), (1.0, Some(0), 280.0)]), 15.0);
    near(of(&[(0.0, Some(0), 280.0), (1.0, None, 250.0)]), 9.0);
}

#[test]
fn pieces_of_the_example_have_clocks_that_stop() {
    let log = demo_log();
    let standing = log.standing();
    let last = standing.readings.last().expect("readings").now.at;
    let overview = standing.overview(embedded(), last.plus_min(1.0)).expect("a job");
    assert_eq!(overview.pieces[0].clock.why, ClockWhy::Over);
    assert!(overview.pieces[3].clock.left_min.is_some());
}

/// Who comes back within the day is told how long none was left; after it the hours say nothing more.
#[test]
fn a_night_is_told_in_hours_and_a_month_is_not() {
    let words = Words::english();
    let pen = Pen { reference: embedded(), words: &words, show: Show::new(Units::C_MM, &words) };
    let over = |minutes: f64| {
        let clock = Clock { left_min: Some(0.0), overdue_min: Some(minutes), ..Clock::default() };
        clock_line(&pen, &clock).says.replace('\u{a0}', " ")
    };
    assert_eq!(over(30.0), "No time left for 30 min: heat it again.");
    assert_eq!(over(600.0), "No time left for 10 h: heat it again.");
    assert_eq!(over(60.0 * 6150.0), "No time left: heat it again.");
}
