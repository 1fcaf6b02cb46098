//! What stands in an answer: never an old figure without a mark, never an error twice, what is of no use
//! first and large, what is preliminary said so, and the answer in view wherever the hand is.

use std::rc::Rc;

use crate::bench::{answer, entries, open};
use crate::journeys_cycle::{rest, told};
use crate::journeys_tint::on_tint;
use crate::screen::compare::{DESKTOP, PHONE};
use crate::screen::hand::{fill, found, labelled, press, tap, texts, with};
use crate::screen::{live, mock_elapsed_time};
use crate::typed_job;
use i_slint_backend_testing::{AccessibleRole, ElementQuery};
use slint::platform::Key;
use slint::{ComponentHandle, Model};
use strawblue::app::{State, ui};
use strawblue::job::{Field, OwnSteel, Session, demo_job};

const LONG: [(u32, u32); 2] = [(360, 9000), (1280, 6000)];

fn tint(window: &ui::AppWindow) -> ui::ReplyView {
    window.global::<ui::TintAdapter>().get_answer()
}

fn plan(window: &ui::AppWindow) -> ui::AnswerView {
    window.global::<ui::PlanAdapter>().get_answer()
}

fn edited(window: &ui::AppWindow, field: &str, text: &str) {
    window.global::<ui::FormEvents>().invoke_field_edited(field.into(), text.into());
    mock_elapsed_time(20);
}

/// How often a text is drawn.
fn times(window: &ui::AppWindow, words: &str) -> usize {
    let words = words.to_owned();
    ElementQuery::from_root(window)
        .match_predicate(move |element| element.accessible_label().is_some_and(|said| said.contains(&words)))
        .find_all()
        .len()
}

/// A temperature that is taken back or can't be read leaves no answer that looks like its own.
#[test]
fn an_awaited_temperature_that_is_gone_leaves_no_answer() {
    for size in LONG {
        let session = Session { place: "tint".to_owned(), ..Session::default() };
        let (window, _state) = live(size, session);
        let empty = tint(&window).title;
        fill(&window, "Awaited temperature", "280");
        assert!(tint(&window).figured && tint(&window).figure.label.contains("280"), "{size:?}");
        edited(&window, "tint.wait-typed", "");
        assert_eq!((tint(&window).title, tint(&window).figured), (empty.clone(), false), "{size:?}: emptied");
        // What can't be read marks the answer as an old one; the strip marks nothing of it.
        edited(&window, "tint.wait-typed", "280");
        edited(&window, "tint.wait-typed", "28x");
        let old = tint(&window);
        assert!(old.stale && old.sentence.is_empty() && old.stale_note.starts_with("Old figures"));
        let strip = window.global::<ui::TintAdapter>().get_strip();
        assert!(!strip.framed && !strip.pointed && strip.marks.iter().all(|mark| !mark.chosen));
        // Without an answer before it there is none to be old.
        edited(&window, "tint.wait-typed", "");
        edited(&window, "tint.wait-typed", "warm");
        assert_eq!((tint(&window).title, tint(&window).stale), (empty, false), "{size:?}: never answered");
        // A colour that is picked takes its place.
        tap(&window, AccessibleRole::RadioButton, "Blue");
        let field = window.global::<ui::TintAdapter>().get_wait_field();
        assert!(field.text.is_empty() && field.problem.is_empty() && !tint(&window).stale, "{}", field.text);
    }
}

/// With a plan an empty field means its minimum again, and a pull stands beside it.
#[test]
fn an_emptied_field_takes_back_its_own_alone() {
    let (window, _state) = on_tint(DESKTOP);
    edited(&window, "tint.wait-typed", "280");
    edited(&window, "tint.wait-typed", "");
    assert!(tint(&window).figure.label.contains("300"), "{}", tint(&window).figure.label);
    window.global::<ui::TintAdapter>().invoke_strip_pulled(260.0);
    mock_elapsed_time(20);
    // The keyboard that only passes through the field asks nothing.
    window.global::<ui::FormEvents>().invoke_field_committed("tint.wait-typed".into(), "".into());
    mock_elapsed_time(20);
    assert!(tint(&window).figure.label.contains("260"), "{}", tint(&window).figure.label);
}

/// A mirror fools the gun: that stands before the fields of its row, and first in the answer.
#[test]
fn what_a_mirror_tells_stands_first() {
    for size in LONG {
        let (window, _state) = on_tint(size);
        tap(&window, AccessibleRole::Button, "IR gun: true temperature");
        fill(&window, "Reading of the IR gun", "305");
        tap(&window, AccessibleRole::Button, "Surface at the spot");
        tap(&window, AccessibleRole::RadioButton, "Bright, ground or tinted");
        let rows = window.global::<ui::TintAdapter>().get_rows();
        let row = rows.iter().find(|row| row.id == "ask:ir-true-temperature").expect("its row");
        assert_eq!(row.parts.row_data(0).expect("a part").kind, ui::PartKind::Verdict);
        let first = tint(&window).first.row_data(0).expect("what stands first");
        assert_eq!(first.label, "IR gun: true temperature");
        assert_eq!(first.text, "The steel is hotter than the reading. By how much is unknown.");
        let figure = tint(&window).figure.label;
        let figure = found(&window, AccessibleRole::Button, &figure).absolute_position();
        let above = texts(&window).into_iter().any(|(said, at, _)| {
            said == first.text.as_str() && at.y < figure.y && (at.x - figure.x).abs() < 60.0
        });
        assert!(above, "{size:?}: over the figure of the answer");
        // Another spot, and it is gone.
        tap(&window, AccessibleRole::Button, "Surface at the spot");
        tap(&window, AccessibleRole::RadioButton, "Dull black spot, soot or paint");
        assert_eq!(tint(&window).first.row_count(), 0);
    }
}

/// A finger on a colour moves nothing under it, and the answer stays in view.
#[test]
fn a_colour_that_is_picked_leaves_the_answer_in_view() {
    for size in [PHONE, DESKTOP, (1024, 640)] {
        let (window, _state) = on_tint(size);
        let adapter = || window.global::<ui::TintAdapter>();
        let name = "Reddish purple";
        // As far down as the colour needs to be touched; only what is in view is an element.
        let high = window.window().size().height as f32;
        let reached = |place: Option<f32>| place.is_some_and(|y| y > 180.0 && y < high - 200.0);
        let place =
            || labelled(&window, AccessibleRole::RadioButton, name).map(|tile| tile.absolute_position().y);
        while !reached(place()) && adapter().get_scroll_results() > -1500.0 {
            adapter().set_scroll_results(adapter().get_scroll_results() - 40.0);
            mock_elapsed_time(20);
        }
        let before = found(&window, AccessibleRole::RadioButton, name).absolute_position();
        // At the top of the page the answer itself may take a line more or less; scrolled, nothing moves.
        let most = if adapter().get_scroll_results() > -80.0 { 22.0 } else { 1.0 };
        tap(&window, AccessibleRole::RadioButton, name);
        let swatch = found(&window, AccessibleRole::RadioButton, name);
        let moved = swatch.absolute_position().y - before.y;
        assert!(moved.abs() < most, "{size:?}: it jumps by {moved} px");
        assert!(swatch.absolute_position().y > 64.0, "{size:?}");
        let figure = tint(&window).figure.figure;
        let band = labelled(&window, AccessibleRole::Button, &tint(&window).figure.label);
        let bar = with(&window, |element| element.accessible_id().is_some_and(|id| id == "reply-bar"));
        let shown = bar.as_ref().and_then(|bar| bar.accessible_value());
        assert!(
            shown.is_some_and(|shown| shown.starts_with(figure.as_str()))
                || band.is_some_and(|band| band.absolute_position().y >= 50.0),
            "{size:?}: {figure} is out of view"
        );
        if bar.is_some() {
            tap(&window, AccessibleRole::Button, "Back to the answer");
            assert!(adapter().get_scroll_results().abs() < 1.0, "{size:?}");
        }
    }
}

/// The answer names what can't be used and how much of it; what is wrong is said once, at its field.
#[test]
fn an_error_is_said_once() {
    for size in LONG {
        let (window, _state) = live(size, Session { job: demo_job(), ..Session::default() });
        edited(&window, "shop", "cold");
        let why = plan(&window).stale_why;
        assert_eq!(why, "One entry cannot be used: Shop temperature");
        // Folded or open, its own place says what is wrong; the answer does not say it again.
        assert_eq!(times(&window, "“cold”"), 1, "{size:?}: folded");
        tap(&window, AccessibleRole::Button, "Shop and edges");
        assert_eq!(times(&window, "“cold”"), 1, "{size:?}: open");
        edited(&window, "heat-input", "hot");
        edited(&window, "thickness", "thick");
        let why = plan(&window).stale_why;
        assert!(why.starts_with("3 entries cannot be used: ") && !why.contains('“'), "{why}");
        // The same on a page that never had an answer.
        let (window, _state) = live(size, Session::default());
        edited(&window, "thickness", "thick");
        edited(&window, "shop", "cold");
        let answer = plan(&window);
        assert_eq!(answer.title, "2 entries cannot be used: Thickness, Shop temperature");
        assert_eq!(times(&window, "“thick”"), 1, "{size:?}");
    }
}

/// The same on the Bench.
#[test]
fn a_question_counts_what_it_cannot_use() {
    for size in LONG {
        let (window, state) = live(size, Session { place: "bench".to_owned(), ..Session::default() });
        open(&window, &state, "shrink-fit");
        edited(&window, "ask:shrink-fit.diameter", "wide");
        assert_eq!(answer(&window).title, "One entry cannot be used", "{:?}", answer(&window));
        edited(&window, "ask:shrink-fit.interference", "tight");
        let said = answer(&window);
        assert_eq!(said.title, "2 entries cannot be used");
        assert_eq!(
            said.lines.row_data(0).expect("their names"),
            "Diameter of the fit, Interference, measured"
        );
        assert_eq!(times(&window, "“wide”"), 1, "{size:?}");
    }
}

/// Until the plan's minutes of flame are there, whatever will change with them says so in words.
#[test]
fn what_waits_for_the_heat_cycle_is_called_preliminary() {
    let mut session = Session { place: "bench".to_owned(), ..told("100 ft3/h") };
    for (key, id) in [("colour", "blue"), ("looked", "flame-on")] {
        session.choices.insert(format!("peak-from-tint.{key}"), id.to_owned());
    }
    session.typed.insert("tint-flame-on.peak".to_owned(), "300".to_owned());
    let (window, state) = live(LONG[0], session);
    let line = |id: &str| entries(&window).into_iter().find(|entry| entry.id == id).expect("a line");
    let said = "Preliminary: the plan’s minutes of flame are still being calculated.";
    let lines = |view: ui::ReplyView| view.lines.iter().any(|line| line == said);
    assert!(!state.cycle_at_rest(), "it is still worked out");
    // What has an answer without them is marked, and what has none does not ask for them.
    let marked = |entry: &ui::BenchEntry| entry.answer.contains("Preliminary");
    let peak = line("peak-from-tint");
    assert!(marked(&peak) || peak.note.starts_with("Calculating"), "{peak:?}");
    assert!(line("tint-flame-on").note.starts_with("Calculating"), "{:?}", line("tint-flame-on"));
    tap(&window, AccessibleRole::Tab, "Tint");
    assert!(lines(tint(&window)), "{:?}", tint(&window));
    rest(&state);
    assert!(!lines(tint(&window)));
    tap(&window, AccessibleRole::Tab, "Bench");
    assert!(!entries(&window).iter().any(|entry| marked(entry) || entry.note.starts_with("Calculating")));
    assert!(!line("tint-flame-on").answer.is_empty(), "{:?}", line("tint-flame-on"));
    // On the cycle's own page the coarse figures stand while the fine ones are worked out, and say so.
    window.global::<ui::CycleAdapter>().invoke_open_asked();
    let cycle = || window.global::<ui::CycleAdapter>();
    edited(&window, "leg", "12 mm");
    while !state.cycle_at_rest() {
        assert!(cycle().get_busy(), "it is still worked out");
        let known = cycle().get_kind() == ui::CycleKind::Known;
        let said = cycle().get_busy_text();
        assert!(!known || said.starts_with("Preliminary figures"), "{said}");
        mock_elapsed_time(50);
    }
    rest(&state);
    assert!(!cycle().get_busy());
}

fn row_value(window: &ui::AppWindow, id: &str) -> String {
    let rows = window.global::<ui::PlanAdapter>().get_rows();
    let row = rows.iter().find(|row| row.id == id).unwrap_or_else(|| panic!("there is no row {id}"));
    row.value.replace('\u{a0}', " ")
}

/// A folded row with several figures says which is which.
#[test]
fn a_folded_row_names_its_figures() {
    let two = [
        ("demand-preheat", "150 °C"),
        ("demand-interpass", "250"),
        ("heat-input", "1 kJ/mm"),
        ("heat-input-2", "1.2 kJ/mm"),
        ("filler-2", "E7018"),
    ];
    let job = typed_job::over(demo_job(), &two);
    let (window, _state) = live(LONG[0], Session { job, ..Session::default() });
    assert_eq!(row_value(&window, "demands"), "Minimum 150 °C · Maximum 250 °C");
    let heat = row_value(&window, "heat");
    assert!(heat.contains("GTAW (TIG): 1 kJ/mm net + SMAW"), "{heat}");
    let weld = row_value(&window, "weld");
    assert!(weld.starts_with("GTAW (TIG): Filler not known + ") && weld.ends_with(": E7018"), "{weld}");
}

/// The status line names the certificate that the figures come from.
#[test]
fn a_certificate_is_named_beside_who_governs() {
    let own = OwnSteel {
        name: "Bar 7731".to_owned(),
        composition: "C 0.42 Si 0.25 Mn 0.7 Cr 1.0 Mo 0.2".to_owned(),
        grade: String::new(),
    };
    let job = typed_job::over(demo_job(), &[("steel-b", "Bar 7731")]);
    let session = Session { job, own_steels: vec![own], ..Session::default() };
    let (window, _state) = live(LONG[0], session);
    let answer = plan(&window);
    assert!(answer.note.contains("Second part: certificate of Bar 7731."), "{answer:?}");
    let (window, _state) = live(LONG[0], Session { job: demo_job(), ..Session::default() });
    assert!(!plan(&window).note.contains("certificate"), "{}", plan(&window).note);
}

/// Home and End lead to the ends of a slider.
#[test]
fn a_slider_is_led_to_its_ends() {
    let (window, _state) = on_tint((360, 4200));
    let at = || window.global::<ui::TintAdapter>().get_minutes_at();
    tap(&window, AccessibleRole::Slider, &window.global::<ui::TintAdapter>().get_minutes_label());
    press(&window, Key::Home);
    assert!(at() < 0.001, "{}", at());
    press(&window, Key::End);
    assert!(at() > 0.999, "{}", at());
    tap(&window, AccessibleRole::Slider, "Colours by temperature");
    press(&window, Key::Home);
    let low = window.global::<ui::TintAdapter>().get_strip();
    assert!((low.pointer_c - low.from_c).abs() < 6.0, "{} of {}", low.pointer_c, low.from_c);
    press(&window, Key::End);
    let high = window.global::<ui::TintAdapter>().get_wait_field().hint;
    assert!(high.parse::<f32>().is_ok_and(|high| (high - low.to_c).abs() < 6.0), "{high} of {}", low.to_c);
}

fn begun(window: &ui::AppWindow) -> bool {
    labelled(window, AccessibleRole::Button, "Bring back: Screen bell crank").is_some()
}

/// The job that was put away stays at hand whatever is typed, and takes the place of what stands there,
/// which then is at hand itself.
#[test]
fn the_last_job_stays_at_hand() {
    for size in LONG {
        let (window, state): (_, Rc<State>) = live(size, Session { job: demo_job(), ..Session::default() });
        edited(&window, "shop", "5");
        tap(&window, AccessibleRole::Button, "New job");
        assert!(begun(&window), "{size:?}: at once");
        edited(&window, "thickness", "40");
        assert!(begun(&window), "{size:?}: after the first entry");
        let buttons = ElementQuery::from_root(&window).match_predicate(|element| {
            element.accessible_role() == Some(AccessibleRole::Button)
                && element.accessible_label().is_some_and(|said| said == "Bring back: Screen bell crank")
        });
        assert_eq!(buttons.find_all().len(), 1, "{size:?}: once");
        for (field, text) in [("steel", "42CrMo4"), ("joint", "butt"), ("process", "smaw basic")] {
            state.change_job(|job| *job = typed_job::over(job.clone(), &[(field, text)]));
        }
        edited(&window, "thickness", "45");
        assert!(state.planned().is_some() && begun(&window), "{size:?}: beside a plan of its own");
        tap(&window, AccessibleRole::Button, "Bring back: Screen bell crank");
        assert_eq!(
            state.session(|session| session.job.get(Field::Name).map(str::to_owned)),
            demo_job().get(Field::Name).map(str::to_owned)
        );
        tap(&window, AccessibleRole::Button, "Bring back: 42CrMo4, 45 mm");
        let back = state.session(|session| session.job.get(Field::Thickness).map(str::to_owned));
        assert_eq!(back.as_deref(), Some("45 mm"), "{size:?}: nothing is lost");
    }
}

/// Without a preheat the strip over a plan that is scrolled down keeps its maximum.
#[test]
fn the_strip_of_a_plan_without_preheat_has_its_maximum() {
    let job =
        typed_job::job(&[("steel", "S235JR"), ("thickness", "8 mm"), ("joint", "butt"), ("process", "gmaw")]);
    for size in [PHONE, DESKTOP] {
        let (window, _state) = live(size, Session { job: job.clone(), ..Session::default() });
        assert_eq!(plan(&window).kind, ui::AnswerKind::Dry);
        window.global::<ui::PlanAdapter>().set_scroll_results(-600.0);
        mock_elapsed_time(50);
        let bar = found(&window, AccessibleRole::Button, "Back to the answer").absolute_position().y;
        let maximum = plan(&window).maximum.figure;
        assert!(!maximum.is_empty());
        let in_bar = texts(&window)
            .into_iter()
            .any(|(said, at, _)| said == maximum.as_str() && (bar..bar + 64.0).contains(&at.y));
        assert!(in_bar, "{size:?}: {maximum} is in the strip");
    }
}
