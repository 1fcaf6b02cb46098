//! Answers whose words or figures need the most room, at the widths where they have the least.
#![cfg(feature = "testing")]

#[path = "screen/compare.rs"]
mod compare;
mod screen;

use compare::{DESKTOP, PHONE, check};
use screen::{live, mock_elapsed_time};
use slint::ComponentHandle;
use strawblue::app::{refresh_all, ui};
use strawblue::log::{JobText, Session};
use strawblue::units::Units;

/// A wide window that leaves the answer little room beside the inputs.
const NARROW: (u32, u32) = (900, 800);

fn session(units: Units, job: JobText) -> Session {
    Session { units, job, ..Session::default() }
}

/// A hardenable steel of which nobody knows how it was tempered.
fn temper_unknown() -> JobText {
    JobText {
        steel: Some("4140".into()),
        thickness: Some("2 in".into()),
        joint: Some("butt".into()),
        process: Some("gtaw".into()),
        ..JobText::default()
    }
}

/// The minimum, a little below the most that may be: no room to work in.
fn too_narrow() -> JobText {
    JobText { demand_interpass: Some("310 C".into()), ..strawblue::log::demo_job() }
}

/// The minimum above the most that may be.
fn wrong_way_round() -> JobText {
    JobText { demand_interpass: Some("250 C".into()), ..strawblue::log::demo_job() }
}

#[test]
fn a_temper_to_ask_for_fits_wherever_it_stands() {
    for (name, size) in [("phone", PHONE), ("narrow", NARROW), ("desktop", DESKTOP)] {
        let (window, _state) = live(size, session(Units::F_IN, temper_unknown()));
        check(&window, &format!("temper-unknown-{name}"));
    }
    let (window, _state) = live(PHONE, session(Units::F_IN, temper_unknown()));
    window.global::<ui::PlanAdapter>().set_scroll_results(-500.0);
    mock_elapsed_time(50);
    check(&window, "temper-unknown-phone-scrolled");
}

#[test]
fn no_window_is_drawn_as_it_is() {
    for (name, job) in [("too-narrow", too_narrow()), ("wrong-way-round", wrong_way_round())] {
        let (window, _state) = live(PHONE, session(Units::C_MM, job));
        check(&window, &format!("{name}-phone"));
    }
}

#[test]
fn all_cautions_stand_in_two_groups() {
    let (window, state) = live(DESKTOP, session(Units::C_MM, temper_unknown()));
    state.open.borrow_mut().all_cautions = true;
    refresh_all(&window, &state);
    window.global::<ui::PlanAdapter>().set_scroll_results(-2900.0);
    mock_elapsed_time(50);
    check(&window, "all-cautions-desktop");
}
