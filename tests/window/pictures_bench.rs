//! Pictures of the Bench: its list, a plain question, a shrink fit.

use crate::screen::compare::{DESKTOP, DESKTOP_RESULTS, PHONE, check, check_part};
use crate::screen::{live_with, mock_elapsed_time};
use slint::ComponentHandle;
use strawblue::app::{refresh_all, ui};
use strawblue::job::{Session, Theme, demo_job};

/// The Bench on the demo job, with something typed, and a question open where one is named.
fn drawn(size: (u32, u32), theme: Theme, typed: &[(&str, &str)], name: Option<&str>) -> ui::AppWindow {
    let mut session = Session { theme, job: demo_job(), place: "bench".to_owned(), ..Session::default() };
    for (key, text) in typed {
        let kept = if key.ends_with(".fit") { &mut session.choices } else { &mut session.typed };
        kept.insert((*key).to_owned(), (*text).to_owned());
    }
    let (window, state) = live_with(size, session, None);
    if let Some(name) = name {
        window.global::<ui::BenchAdapter>().invoke_question_asked(name.into());
    }
    state.finish_answers();
    refresh_all(&window, &state);
    mock_elapsed_time(50);
    window
}

const BOSS: [(&str, &str); 2] = [("shrink-fit.diameter", "90"), ("shrink-fit.fit", "h7-s6")];

#[test]
fn the_list() {
    check(&drawn(PHONE, Theme::Dark, &BOSS, None), "bench-list-phone-dark");
    let wide = drawn(DESKTOP, Theme::Light, &BOSS, None);
    check_part(&wide, (0, 0, 1280, 420), "bench-list-desktop-light");
}

#[test]
fn a_shrink_fit() {
    check(&drawn((360, 1640), Theme::Light, &BOSS, Some("shrink-fit")), "bench-shrink-fit-phone-light");
    let wide = drawn(DESKTOP, Theme::Dark, &BOSS, Some("shrink-fit"));
    check_part(&wide, DESKTOP_RESULTS, "bench-shrink-fit-desktop-dark");
}

#[test]
fn a_plain_question() {
    check(&drawn(PHONE, Theme::Dark, &[], Some("method-b")), "bench-method-b-phone-dark");
}
