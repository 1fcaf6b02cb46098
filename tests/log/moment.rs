//! A time that a person tells: of this day or of last evening, never one to come, and right across the nights in
//! which clocks are put forward and back.

use jiff::tz::TimeZone;
use strawblue::log::{Moment, TimeWrong};

/// Central European time: forward on the last Sunday of March at 2:00, back on that of October at 3:00
/// (Directive 2000/84/EC).
fn zone() -> TimeZone {
    TimeZone::posix("CET-1CEST,M3.5.0,M10.5.0/3").expect("a zone")
}

fn told(now: &str, text: &str) -> Result<String, TimeWrong> {
    let now: Moment = now.parse().expect("a moment");
    now.told_in(text, &zone()).map(|at| at.to_string())
}

fn is(now: &str, text: &str, wanted: &str) {
    assert_eq!(told(now, text).as_deref(), Ok(wanted), "{text} told at {now}");
}

#[test]
fn a_time_that_is_to_come_is_one_of_last_evening() {
    is("2026-06-10T00:10:00+02:00", "23:50", "2026-06-09T23:50:00+02:00");
    is("2026-06-10T08:00:00+02:00", "7:30", "2026-06-10T07:30:00+02:00");
    // Two minutes ahead are no time to come.
    is("2026-06-10T08:00:00+02:00", "8:02", "2026-06-10T08:02:00+02:00");
    is("2026-06-10T08:00:00+02:00", "8:03", "2026-06-09T08:03:00+02:00");
    is("2026-06-10T08:00:00+02:00", "2026-06-09 8:03", "2026-06-09T08:03:00+02:00");
    assert_eq!(told("2026-06-10T08:00:00+02:00", "2026-06-10 8:03"), Err(TimeWrong::ToCome));
    assert_eq!(told("2026-06-10T08:00:00+02:00", "soon"), Err(TimeWrong::NoTime));
    let now = Moment::now();
    assert!(now.told("23:59").expect("a time").minutes_since(now) <= Moment::LENIENT_MIN);
}

#[test]
fn nights_in_which_the_clock_is_put_back_or_forward() {
    // Back: 80 min ago, not 20.
    is("2026-10-25T02:10:00+01:00", "1:50", "2026-10-25T01:50:00+02:00");
    // 2:05 was twice: the earlier, so that no minute is too many.
    is("2026-10-25T02:10:00+01:00", "2:05", "2026-10-25T02:05:00+02:00");
    is("2026-10-25T02:10:00+02:00", "2:05", "2026-10-25T02:05:00+02:00");
    // A day before and after it has its own offset, the evening before too.
    is("2026-10-26T08:00:00+01:00", "2026-10-24 12:00", "2026-10-24T12:00:00+02:00");
    is("2026-10-25T23:30:00+01:00", "23:45", "2026-10-24T23:45:00+02:00");
    // Forward: 3:30 is 20 min after 1:50 and half an hour.
    is("2026-03-29T03:30:00+02:00", "1:50", "2026-03-29T01:50:00+01:00");
    // A time that there never was is no later than now.
    let now: Moment = "2026-03-29T03:10:00+02:00".parse().expect("a moment");
    let never = now.told_in("2:30", &zone()).expect("a time");
    assert!((1.0..90.0).contains(&now.minutes_since(never)), "{never}");
}
