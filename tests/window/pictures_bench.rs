//! Pictures of the Bench: its list, a plain question, a shrink fit.

use crate::screen::compare::{DESKTOP, DESKTOP_RESULTS, PHONE, check, check_part};
use crate::screen::{live_with, mock_elapsed_time};
use slint::{ComponentHandle, Model};
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

/// No word lies on a line of the demo's fit where it can lie beside it, nor on another word.
#[test]
fn words_keep_off_the_lines() {
    let window = drawn(DESKTOP, Theme::Dark, &BOSS, Some("shrink-fit"));
    let adapter = window.global::<ui::BenchAdapter>();
    let chart = adapter.get_chart();
    for (width, height) in [(276.0, 200.0), (400.0, 200.0), (690.0, 240.0)] {
        let words: Vec<_> = adapter.invoke_chart_words(chart.clone(), width, height).iter().collect();
        assert!(words.len() >= 4, "{words:?}");
        let points: Vec<_> = chart.first_points.iter().chain(chart.second_points.iter()).collect();
        for (at, word) in words.iter().enumerate() {
            #[allow(clippy::cast_precision_loss, reason = "a word has few letters")]
            let wide = 6.0 * word.text.chars().count() as f32;
            let on =
                |x: f32, y: f32| (word.x..word.x + wide).contains(&x) && (word.y..word.y + 18.0).contains(&y);
            let under = points.iter().find(|point| on(point.x * width, point.y * height));
            assert!(under.is_none(), "{} at {width}: {under:?}", word.text);
            let over = words.iter().skip(at + 1).find(|other| on(other.x + 1.0, other.y + 1.0));
            assert!(over.is_none(), "{} at {width}: {over:?}", word.text);
        }
    }
}

#[test]
fn a_plain_question() {
    check(&drawn(PHONE, Theme::Dark, &[], Some("method-b")), "bench-method-b-phone-dark");
}
