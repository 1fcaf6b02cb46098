//! The heat cycle: its axis, its page by keyboard, its lines that never belong to another job, its
//! pictures.

use std::time::{Duration, Instant};

use i_slint_backend_testing::AccessibleRole;
use proptest::prelude::*;
use slint::platform::{Key, PointerEventButton};
use slint::{ComponentHandle, Model};
use strawblue::app::{Page, State, open_page, refresh_all, ui};
use strawblue::job::{Session, Theme, demo_job};
use strawblue::report::cycle_axis::Axis;
use strawblue::units::TemperatureUnit;

use crate::screen::compare::{check_part, drawn, write};
use crate::screen::hand::{found, press, tap, with};
use crate::screen::{live, mock_elapsed_time};

const DESKTOP: (u32, u32) = (1280, 800);

/// The demo with a torch and its plate.
pub(crate) fn told(flow: &str) -> Session {
    let typed = [("fuel-flow", flow), ("plate-width", "160"), ("plate-length", "400")];
    let typed = typed.map(|(key, text)| (format!("heat-cycle.{key}"), text.to_owned()));
    Session { job: demo_job(), typed: typed.into_iter().collect(), ..Session::default() }
}

/// Until the cycle of what is on the screen is worked out.
pub(crate) fn rest(state: &State) {
    let from = Instant::now();
    mock_elapsed_time(50);
    while !state.cycle_at_rest() {
        assert!(from.elapsed() < Duration::from_secs(240), "the cycle is never worked out");
        std::thread::sleep(Duration::from_millis(20));
        mock_elapsed_time(50);
    }
    mock_elapsed_time(50);
}

fn lines(window: &ui::AppWindow) -> String {
    let steps = window.global::<ui::PlanAdapter>().get_steps();
    steps
        .iter()
        .map(|step| format!("{}\n{}\n", step.cycle, step.low))
        .collect::<String>()
        .replace('\u{a0}', " ")
}

proptest! {
    /// Later is never farther left, and a place leads back to its minute.
    #[test]
    fn the_axis_goes_one_way_and_back(
        spans in prop::collection::vec((0.5_f64..2000.0, 0.05_f64..1.0), 1..5),
        shares in prop::collection::vec(0.0_f64..=1.0, 2..20),
    ) {
        let axis = Axis::of(&spans);
        let mut minutes: Vec<f64> = shares.iter().map(|share| share * axis.end_min()).collect();
        minutes.sort_by(f64::total_cmp);
        let places: Vec<f64> = minutes.iter().map(|minute| axis.x(*minute)).collect();
        prop_assert!(places.windows(2).all(|pair| pair[0] <= pair[1] + 1e-12));
        prop_assert!(places.iter().all(|place| (-1e-9..=1.0 + 1e-9).contains(place)));
        for (minute, place) in minutes.iter().zip(&places) {
            prop_assert!((axis.minute(*place) - minute).abs() < 1e-6 * axis.end_min());
        }
        prop_assert!(axis.x(0.0).abs() < 1e-9 && (axis.x(axis.end_min()) - 1.0).abs() < 1e-9);
    }
}

/// From the row of the plan into the page, from event to event by keyboard, and back.
#[test]
fn the_page_is_opened_walked_through_by_keyboard_and_left() {
    let (window, state) = live((360, 2400), told("100 ft3/h"));
    rest(&state);
    assert!(lines(&window).contains("with this torch"), "{}", lines(&window));
    window.global::<ui::CycleAdapter>().invoke_open_asked();
    rest(&state);
    assert_eq!(window.global::<ui::Shell>().get_page(), "cycle");
    let adapter = || window.global::<ui::CycleAdapter>();
    assert_eq!(adapter().get_figures().row_count(), 4);
    let slider = with(&window, |element| element.accessible_role() == Some(AccessibleRole::Slider));
    slider.expect("the moment is a slider").mock_single_click(PointerEventButton::Left);
    let at = || adapter().get_moment_at();
    let moment = || adapter().get_moment().replace('\u{a0}', " ");
    press(&window, Key::LeftArrow);
    let (before, was) = (at(), moment());
    press(&window, Key::RightArrow);
    assert!(at() > before && moment() != was, "{was} and then {}", moment());
    (0..40).for_each(|_| press(&window, Key::LeftArrow));
    assert!(at() < 1e-6 && adapter().get_counted(), "the first event is the first flame");
    assert!(adapter().get_section_line().contains("Below the minimum"), "{}", adapter().get_section_line());
    (0..60).for_each(|_| press(&window, Key::RightArrow));
    assert!(at() > 0.999 && !adapter().get_counted(), "the last event is cold");
    let spoken = adapter().get_section_spoken().replace('\u{a0}', " ");
    assert!(spoken.contains("Point 1: ") && spoken.contains("cooling"), "{spoken}");
    press(&window, Key::Escape);
    assert_eq!(window.global::<ui::Shell>().get_page(), "plan");
}

/// Another job's minutes are never shown, not even while its own are worked out.
#[test]
fn no_line_outlives_its_job() {
    let (window, state) = live(DESKTOP, told("100 ft3/h"));
    rest(&state);
    let first = lines(&window);
    assert!(first.contains("with this torch") && first.contains("to weld before"), "{first}");
    state.change_job(|job| job.set(strawblue::job::Field::Leg, Some("10 mm".to_owned())));
    refresh_all(&window, &state);
    let between = lines(&window);
    assert!(!between.contains("with this torch") && between.contains("Calculating"), "{between}");
    rest(&state);
    let second = lines(&window);
    assert!(second.contains("with this torch") && second != first, "{second}");
    // A field that can't be read takes all lines with the plan's own figures.
    state.change_job(|job| job.set(strawblue::job::Field::Leg, Some("thick".to_owned())));
    refresh_all(&window, &state);
    assert!(window.global::<ui::PlanAdapter>().get_answer().stale);
    assert!(!lines(&window).contains("with this torch"), "{}", lines(&window));
    // No torch, no minutes.
    state.change(|session| session.typed.clear());
    state.change_job(|job| job.set(strawblue::job::Field::Leg, Some("8 mm".to_owned())));
    refresh_all(&window, &state);
    assert!(lines(&window).contains("Give the gas flow") && state.cycle_at_rest(), "{}", lines(&window));
}

fn page(size: (u32, u32), theme: Theme, flow: &str) -> (ui::AppWindow, std::rc::Rc<State>) {
    let (window, state) = live(size, Session { theme, ..told(flow) });
    open_page(&window, &state, Page::Cycle);
    rest(&state);
    (window, state)
}

/// What the labels of the chart say, on a plot so wide.
fn said(window: &ui::AppWindow, width: f32) -> Vec<(f32, String, ui::LabelSide)> {
    let labels = window.global::<ui::CycleAdapter>().invoke_chart_labels(width, 0);
    labels.iter().map(|label| (label.x, label.text.replace('\u{a0}', " "), label.side)).collect()
}

/// Every figure says what it rests on, and goes back to the page that it was asked on.
#[test]
fn a_figure_is_asked_for_its_basis() {
    let (window, _state) = page((1280, 2100), Theme::Light, "100 ft3/h");
    let open = || window.global::<ui::BasisAdapter>().get_open();
    for label in ["Flame", "Wait", "Weld within", "Left when cold", "Post-heat of this plan"] {
        let cell = found(&window, AccessibleRole::Button, label);
        assert!(cell.accessible_description().is_some_and(|mark| mark.ends_with("From memory")), "{label}");
        tap(&window, AccessibleRole::Button, label);
        let view = window.global::<ui::BasisAdapter>().get_view();
        assert!(open() && view.label == label && view.paragraphs.row_count() > 0, "{label}");
        press(&window, Key::Escape);
        assert!(!open() && window.global::<ui::Shell>().get_page() == "cycle", "{label}");
    }
}

/// A small section takes slider and large section to its moment.
#[test]
fn a_moment_is_one_tap_away() {
    let (window, _state) = page((1280, 2100), Theme::Dark, "100 ft3/h");
    let adapter = window.global::<ui::CycleAdapter>();
    assert_eq!(adapter.get_shown().row_count(), 5);
    let mut last = -1.0;
    let said = [
        ("Heating ends", "evening out"),
        ("Before run 1", "waiting"),
        ("Before run 4", "waiting"),
        ("End of post-heat", "cooling"),
        ("At 100\u{a0}°C", "cooling"),
    ];
    for (label, phase) in said {
        tap(&window, AccessibleRole::Button, label);
        let moment = adapter.get_moment();
        assert!(moment.contains(phase), "{label}: {moment}");
        assert!(adapter.get_moment_at() > last, "{label} comes later");
        last = adapter.get_moment_at();
    }
}

/// The chart says when the steel turns, in round figures of the reader's unit, and numbers the runs
/// as far as there is room.
#[test]
fn the_words_of_the_chart() {
    let (window, state) = page((360, 2300), Theme::Dark, "100 ft3/h");
    let texts = |width: f32| said(&window, width).into_iter().map(|(_, text, _)| text).collect::<Vec<_>>();
    for text in ["Ms 355", "M90 252", "300", "350", "100", "200"] {
        assert!(texts(284.0).iter().any(|found| found == text), "{text} in {:?}", texts(284.0));
    }
    let spoken = window.global::<ui::CycleAdapter>().get_chart_spoken().replace('\u{a0}', " ");
    assert!(spoken.contains("cools through M90, 252 °C ±40 °C: "), "{spoken}");
    assert_eq!(window.global::<ui::CycleAdapter>().get_held().row_count(), 4, "none, 1, 2 and 4 h");
    for width in [90.0, 140.0, 284.0, 700.0] {
        let runs: Vec<(f32, String)> = said(&window, width)
            .into_iter()
            .filter(|(_, _, side)| matches!(side, ui::LabelSide::Under | ui::LabelSide::OnInk))
            .map(|(x, text, _)| (x * width, text))
            .collect();
        assert!(runs.first().is_some_and(|(_, first)| first == "1"), "{runs:?}");
        assert!(runs.windows(2).all(|pair| pair[1].0 - pair[0].0 >= 12.0), "{width}: {runs:?}");
    }
    state.change(|session| session.units.temperature = TemperatureUnit::F);
    refresh_all(&window, &state);
    rest(&state);
    let texts = texts(284.0);
    for text in ["200", "400", "800", "Ms 671", "M90 485"] {
        assert!(texts.iter().any(|found| found == text), "{text} in {texts:?}");
    }
    assert!(!texts.iter().any(|found| found == "212" || found == "392"), "{texts:?}");
}

/// A flame that is too weak says what would do, with the minutes.
#[test]
fn a_refusal_says_what_would_help() {
    let (window, _state) = page((360, 740), Theme::Dark, "8 ft3/h");
    let adapter = window.global::<ui::CycleAdapter>();
    assert_eq!(adapter.get_kind(), ui::CycleKind::Refused);
    let levers: Vec<(String, String)> =
        adapter.get_levers().iter().map(|lever| (lever.label.to_string(), lever.value.to_string())).collect();
    assert_eq!(levers.len(), 2, "{levers:?}");
    assert!(levers.iter().all(|(what, _)| what.contains("m³/h")), "{levers:?}");
    let slowest = |value: &str| -> f64 {
        value.split(['–', '\u{a0}']).nth(1).and_then(|text| text.parse().ok()).expect("a range of minutes")
    };
    assert!(slowest(&levers[0].1) <= 120.0 && slowest(&levers[1].1) < slowest(&levers[0].1), "{levers:?}");
}

#[test]
fn the_cycle_as_it_looks() {
    let (window, _state) = page((360, 2300), Theme::Dark, "100 ft3/h");
    check_part(&window, (0, 486, 360, 396), "cycle-phone-dark");
    let (window, _state) = page((360, 2300), Theme::Light, "100 ft3/h");
    check_part(&window, (0, 1370, 360, 330), "cycle-held-phone-light");
    check_part(&window, (0, 1766, 360, 272), "cycle-section-phone-light");
    let (window, _state) = page((1280, 2100), Theme::Light, "100 ft3/h");
    check_part(&window, (480, 56, 800, 236), "cycle-desktop-light");
    let (window, _state) = page((1280, 2100), Theme::Dark, "100 ft3/h");
    check_part(&window, (596, 1436, 570, 270), "cycle-section-desktop-dark");
    check_part(&window, (496, 1884, 768, 152), "cycle-moments-desktop-dark");
    let (window, _state) = page((360, 740), Theme::Dark, "8 ft3/h");
    check_part(&window, (0, 52, 360, 336), "cycle-refused-phone-dark");
    let found = found(&window, AccessibleRole::Text, "Coldest point after 2\u{a0}h of heating");
    assert!(found.accessible_value().is_some_and(|value| value.contains("°C")));
}

/// A shaft lies level, is measured on its sides and is called a bar; every joint has its section.
#[test]
fn a_shaft_lies_and_every_joint_is_drawn() {
    let job = |joint: &str| {
        let mut job = demo_job();
        job.set(strawblue::job::Field::Joint, Some(joint.to_owned()));
        job.set(strawblue::job::Field::Leg, (joint != "run-on-shaft").then(|| "8 mm".to_owned()));
        job
    };
    for (joint, bar) in [("run-on-shaft", true), ("lap", false), ("corner", false)] {
        let typed = [("fuel-flow", "100 ft3/h"), ("first-thickness", "90"), ("groove-depth", "4")];
        let typed = typed.iter().filter(|(key, _)| *key == "fuel-flow" || bar);
        let typed = typed.map(|(key, text)| (format!("heat-cycle.{key}"), (*text).to_owned())).collect();
        let session = Session { job: job(joint), typed, theme: Theme::Light, ..Session::default() };
        let (window, state) = live((360, 1900), session);
        open_page(&window, &state, Page::Cycle);
        rest(&state);
        let adapter = window.global::<ui::CycleAdapter>();
        assert_eq!(adapter.get_kind(), ui::CycleKind::Known, "{joint}");
        let places: Vec<String> = adapter.get_measure().iter().map(|row| row.place.to_string()).collect();
        assert_eq!(places.len(), 2, "{joint}: {places:?}");
        assert!(places.iter().all(|place| place.contains("Bar") == bar), "{joint}: {places:?}");
        if let Some(folder) = std::env::var_os("STRAWBLUE_PAGES") {
            write(&drawn(&window), &std::path::Path::new(&folder).join(format!("cycle-{joint}.png")));
        }
    }
}
