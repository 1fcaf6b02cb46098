//! Pictures of the Tint place, filled as the app fills it, and of the plan's strips.

use crate::screen::compare::{DESKTOP, DESKTOP_RESULTS, PHONE, check, check_part};
use crate::screen::{live_with, mock_elapsed_time};
use strawblue::app::{BasisOf, State, refresh_all, ui};
use strawblue::job::{Session, Theme, demo_job};

const SMALL_PHONE: (u32, u32) = (360, 640);
const SMALL_DESKTOP: (u32, u32) = (1024, 768);
const LONG_PHONE: (u32, u32) = (360, 2600);
const LONG_DESKTOP: (u32, u32) = (1280, 1500);

/// The Tint place over the demo's plan, with these choices and minutes.
fn drawn(size: (u32, u32), theme: Theme, set: impl Fn(&State)) -> ui::AppWindow {
    let session = Session { theme, job: demo_job(), place: "tint".to_owned(), ..Session::default() };
    let (window, state) = live_with(size, session, None);
    set(&state);
    refresh_all(&window, &state);
    mock_elapsed_time(50);
    window
}

fn choose(state: &State, key: &str, id: &str) {
    state.change(|session| {
        session.choices.insert(key.to_owned(), id.to_owned());
    });
}

fn type_in(state: &State, key: &str, text: &str) {
    state.change(|session| {
        session.typed.insert(key.to_owned(), text.to_owned());
    });
}

fn open(state: &State, rows: &[&str]) {
    state.open.borrow_mut().rows.extend(rows.iter().map(|row| (*row).to_owned()));
}

/// Purple-blue, looked at after three minutes near the peak.
fn purple_afterwards(state: &State) {
    choose(state, "tint.mode", "afterwards");
    choose(state, "tint.asked", "seen");
    choose(state, "tint.seen", "bluish-purple");
    type_in(state, "tint.near-minutes", "3");
}

fn check_all(name: &str, set: impl Fn(&State)) {
    for (shape, size) in [("phone", PHONE), ("desktop", DESKTOP)] {
        for (look, theme) in [("dark", Theme::Dark), ("light", Theme::Light)] {
            check(&drawn(size, theme, &set), &format!("{name}-{shape}-{look}"));
        }
    }
}

/// A colour is seen: which peak does it mean?
#[test]
fn tint_seen() {
    check_all("tint", purple_afterwards);
    check(&drawn(SMALL_PHONE, Theme::Dark, purple_afterwards), "tint-small-phone");
    check(&drawn(SMALL_DESKTOP, Theme::Light, purple_afterwards), "tint-small-desktop");
    check(&drawn(LONG_PHONE, Theme::Dark, purple_afterwards), "tint-phone-long");
}

/// Where the band comes from: one tap on it.
#[test]
fn tint_basis() {
    let basis = |state: &State| {
        purple_afterwards(state);
        state.open.borrow_mut().basis = Some(BasisOf::Tint);
    };
    check(&drawn((360, 1200), Theme::Dark, basis), "tint-basis-phone-dark");
    check_part(&drawn(DESKTOP, Theme::Light, basis), DESKTOP_RESULTS, "tint-basis-desktop-light");
}

/// Until something is asked the place says what the plan's minimum looks like.
#[test]
fn tint_waited_for() {
    let timed = |state: &State| type_in(state, "tint.flame-minutes", "5");
    check(&drawn(PHONE, Theme::Light, timed), "tint-wait-phone-light");
    check(&drawn(DESKTOP, Theme::Dark, timed), "tint-wait-desktop-dark");
    check(&drawn(PHONE, Theme::Dark, |_| {}), "tint-wait-unknown-phone-dark");
}

/// In °F and inches, with no plan.
#[test]
fn tint_without_a_plan() {
    let empty = |theme, size, units| {
        let session = Session { theme, place: "tint".to_owned(), units, ..Session::default() };
        live_with(size, session, None).0
    };
    check(&empty(Theme::Dark, PHONE, strawblue::units::Units::F_IN), "tint-empty-phone-dark");
    check(&empty(Theme::Light, DESKTOP, strawblue::units::Units::F_IN), "tint-empty-desktop-light");
}

/// Where a colour says nothing it says why, and what does better.
#[test]
fn tint_refused() {
    let stainless = |state: &State| {
        choose(state, "tint.steel", "stainless");
        open(state, &["tint-stainless"]);
    };
    check(&drawn(LONG_PHONE, Theme::Dark, stainless), "tint-refused-phone-long");
    check(&drawn(DESKTOP, Theme::Light, stainless), "tint-refused-desktop-light");
}

/// The IR gun on bright steel, on a black spot, and the crayons about the plan's window.
#[test]
fn tint_instruments() {
    let tools = |state: &State| {
        purple_afterwards(state);
        type_in(state, "ir-true-temperature.reading", "138");
        choose(state, "ir-true-temperature.surface", "bright");
        choose(state, "ir-expected-reading.surface", "black-spot");
        open(
            state,
            &["ask:ir-true-temperature", "ask:ir-expected-reading", "ask:crayon-pair", "ask:measuring-place"],
        );
    };
    let (phone, desktop) = (drawn((360, 4400), Theme::Dark, tools), drawn((1280, 2600), Theme::Light, tools));
    check_part(&phone, (0, 1690, 360, 1600), "tint-instruments-phone-long");
    check_part(&desktop, (88, 290, 392, 1500), "tint-instruments-desktop-long");
}

/// Red heat, what each instrument can say, and how far handbooks differ.
#[test]
fn tint_lists() {
    let lists = |state: &State| {
        purple_afterwards(state);
        open(state, &["tint-steel", "tint-before", "tint-red-heat", "tint-instruments", "tint-lists"]);
    };
    let (phone, desktop) = (drawn((360, 5200), Theme::Light, lists), drawn(LONG_DESKTOP, Theme::Dark, lists));
    check_part(&phone, (0, 2750, 360, 1000), "tint-lists-phone-long");
    check_part(&desktop, (88, 290, 392, 1210), "tint-lists-desktop-dark");
}
