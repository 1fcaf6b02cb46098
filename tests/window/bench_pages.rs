//! A page of the Bench: what it takes from the plan and gives back, its pictures in words, and an answer
//! that takes long.

use std::time::{Duration, Instant};

use crate::bench::{DESKTOP, PHONE, answer, bench, on_demo, open, page};
use crate::screen::hand::{fill, labelled, press, tap, with};
use crate::screen::{mock_elapsed_time, typed_at};
use i_slint_backend_testing::AccessibleRole;
use slint::platform::Key;
use slint::{ComponentHandle, Model};
use strawblue::app::{refresh_all, ui};
use strawblue::job::{Field, Session};

/// One tap drops what is typed over the plan's values, and nothing else.
#[test]
fn the_plan_is_taken_back_with_one_tap() {
    let (window, state) = bench((360, 3000), on_demo());
    open(&window, &state, "method-b");
    let of_plan = answer(&window);
    assert!(of_plan.figured);
    assert!(labelled(&window, AccessibleRole::Button, "Take from the plan").is_none(), "nothing to take");
    fill(&window, "Thickness", "20");
    assert_ne!(answer(&window).figure.figure, of_plan.figure.figure);
    tap(&window, AccessibleRole::Button, "Take from the plan");
    assert_eq!(answer(&window).figure.figure, of_plan.figure.figure);
    // What the plan does not know stays as it is typed.
    open(&window, &state, "shrink-fit");
    fill(&window, "Diameter of the fit", "90");
    fill(&window, "Ceiling of the hub", "200");
    tap(&window, AccessibleRole::Button, "Take from the plan");
    let kept = |key: &str| state.session(|session| session.typed.get(key).cloned());
    assert_eq!(kept("shrink-fit.diameter").as_deref(), Some("90"));
    assert_eq!(kept("shrink-fit.hub-ceiling"), None);
    // A CET typed in place of the plan's steel stands in its way too.
    open(&window, &state, "method-b");
    fill(&window, "CET", "0.35");
    tap(&window, AccessibleRole::Button, "Take from the plan");
    assert_eq!(answer(&window).figure.figure, of_plan.figure.figure);
}

/// An answer goes into a field of the plan as if it were typed there, and comes out again with all that
/// it took the place of: 25 V × 150 A ÷ 2.5 mm/s × 0.8 = 1.2 kJ/mm (EN 1011-1, covered electrode).
#[test]
fn an_answer_goes_into_the_plan_and_out_again() {
    let (window, state) = bench((360, 3000), on_demo());
    open(&window, &state, "heat-input");
    assert!(
        labelled(&window, AccessibleRole::Button, "Add to the plan").is_none(),
        "there is no answer to be added yet"
    );
    for (label, text) in [("Arc voltage", "25"), ("Current", "150"), ("Travel speed", "2 mm/s")] {
        fill(&window, label, text);
    }
    let pushes: Vec<ui::BenchPush> = window.global::<ui::BenchAdapter>().get_pushes().iter().collect();
    assert_eq!(pushes.len(), 2, "one for each process: {pushes:?}");
    let slot = Field::HeatInput.nth(1);
    let before = typed_at(&state, slot);
    assert_eq!(before.as_deref(), Some("1.2 kJ/mm"));
    let planned = || state.planned_now().expect("a plan").read.job.clone();
    let old = planned();
    tap(&window, AccessibleRole::Button, &pushes[1].label);
    let text = typed_at(&state, slot).expect("it is typed there");
    assert!(text.ends_with("kJ/mm") && text != "1.2 kJ/mm", "{text}");
    assert_ne!(planned(), old, "and the plan reads it");
    let shown = window.global::<ui::PlanAdapter>().get_rows();
    let typed = shown
        .iter()
        .flat_map(|row| row.parts.iter().collect::<Vec<_>>())
        .flat_map(|part| part.fields.iter().collect::<Vec<_>>())
        .any(|field| field.id == slot.id().as_ref() && field.text == text.as_str());
    assert!(typed, "the form shows it as typed");
    let back = window.global::<ui::BenchAdapter>().get_pushes().row_data(1).expect("a button");
    assert!(back.label.starts_with("Take back") && back.note.contains(&text), "{back:?}");
    tap(&window, AccessibleRole::Button, &back.label);
    assert_eq!(typed_at(&state, slot), before);
    assert_eq!(planned(), old);
    // What stood in its place by the meters comes back too.
    state.change_job(|job| {
        job.set(slot, None);
        job.set(Field::Volts.nth(1), Some("24".to_owned()));
        job.set(Field::Amps.nth(1), Some("140".to_owned()));
        job.set(Field::Travel.nth(1), Some("150 mm/min".to_owned()));
    });
    refresh_all(&window, &state);
    tap(&window, AccessibleRole::Button, &pushes[1].label);
    assert_eq!(typed_at(&state, Field::Volts.nth(1)), None);
    assert!(state.planned_now().is_some(), "nothing is given twice");
    tap(&window, AccessibleRole::Button, &back.label);
    assert_eq!(typed_at(&state, Field::Volts.nth(1)).as_deref(), Some("24"));
    assert_eq!(typed_at(&state, slot), None);
}

/// Each answer that a plan takes is read by its field as it is written.
#[test]
fn every_answer_that_a_plan_takes_is_read_by_it() {
    for units in [strawblue::units::Units::C_MM, strawblue::units::Units::F_IN] {
        for (name, typed, chosen, slot) in [
            ("hardness-conversion", vec![("hardness", "30")], vec![("scale", "hrc")], Field::Hardness.nth(1)),
            (
                "acetylene-draw",
                vec![("cylinder", "4 m³"), ("fuel-flow", "2 m³/h")],
                vec![],
                Field::Cylinders.nth(0),
            ),
        ] {
            let (window, state) = bench((360, 3000), Session { units, ..on_demo() });
            state.change(|session| {
                for (key, text) in &typed {
                    session.typed.insert(format!("{name}.{key}"), (*text).to_owned());
                }
                for (key, id) in &chosen {
                    session.choices.insert(format!("{name}.{key}"), (*id).to_owned());
                }
            });
            open(&window, &state, name);
            let pushes = window.global::<ui::BenchAdapter>().get_pushes();
            let id = pushes.iter().map(|push| push.id).find(|id| id.ends_with(&*slot.id()));
            let id = id.unwrap_or_else(|| panic!("{name} offers nothing: {:?}", answer(&window)));
            window.global::<ui::BenchAdapter>().invoke_push_asked(id);
            assert!(typed_at(&state, slot).is_some(), "{name}");
            assert!(state.problems().is_empty(), "{name}: {:?}", state.problems());
        }
    }
}

/// The basis of an answer is one tap away.
#[test]
fn an_answer_is_asked_for_its_basis() {
    let (window, state) = bench((360, 3000), on_demo());
    open(&window, &state, "method-b");
    let label = answer(&window).figure.label;
    tap(&window, AccessibleRole::Button, &label);
    let sheet = window.global::<ui::BasisAdapter>();
    assert!(sheet.get_open());
    assert!(sheet.get_view().steps.row_count() > 0 && sheet.get_view().ranges.row_count() > 0);
    press(&window, Key::Escape);
    assert!(!sheet.get_open() && page(&window) == "question", "Escape shuts the sheet first");
}

/// The picture says in words what it shows: the tightest pair of Ø90 H7/s6 is 93 µm too tight (ISO 286:
/// s6 of 80 to 100 mm is +71 to +93 µm), and the three moments follow the order of the work.
#[test]
fn the_picture_of_a_shrink_fit_is_in_words_too() {
    let (window, state) = bench(DESKTOP, on_demo());
    open(&window, &state, "shrink-fit");
    let adapter = || window.global::<ui::BenchAdapter>();
    assert!(!adapter().get_has_fit(), "nothing to draw yet");
    state.change(|session| {
        session.typed.insert("shrink-fit.diameter".to_owned(), "90".to_owned());
        session.typed.insert("shrink-fit.hub-ceiling".to_owned(), "580".to_owned());
        session.choices.insert("shrink-fit.fit".to_owned(), "h7-s6".to_owned());
    });
    refresh_all(&window, &state);
    mock_elapsed_time(50);
    assert!(adapter().get_has_fit());
    let fit = adapter().get_fit();
    assert!(fit.spoken.contains("15\u{a0}°C: 93\u{a0}µm too tight"), "{}", fit.spoken);
    let moments: Vec<ui::FitMoment> = fit.moments.iter().collect();
    assert!(moments[0].raised && moments[0].gap < 0.0, "too tight while cold");
    assert!(!moments[1].raised && moments[1].gap > 0.0, "room while the hub is hot");
    assert!(moments[2].tight, "tight again");
    let image = with(&window, |element| {
        element.accessible_role() == Some(AccessibleRole::Image)
            && element.accessible_description().is_some_and(|said| said.contains("Tightest pair"))
    });
    assert!(image.is_some(), "the chart says it too");
    let chart = adapter().get_chart();
    assert!(chart.below_at > 0.0 && chart.below_at < 1.0 && chart.mark_at > 0.0 && chart.mark_at < 1.0);
    // What is drawn is what is answered.
    let entry = adapter().get_more().iter().find(|part| part.id == "fit-hub-temperature").expect("the entry");
    assert!(entry.value.starts_with(chart.mark_label.as_str()), "{} and {}", entry.value, chart.mark_label);
    // The figure to heat to leads, and lies above the one at the entry.
    let (heated, entry): (f64, f64) = (
        answer(&window).figure.figure.parse().expect("a figure"),
        entry.value.split('\u{a0}').next().and_then(|text| text.parse().ok()).expect("a figure"),
    );
    assert!(heated > entry && entry >= 175.1, "{heated} before the entry at {entry}");
}

/// A hub that is heated round its bore alone has a line of its own, in dashes, with its name and in words; half of
/// what it takes is asked for.
#[test]
fn a_bore_that_is_heated_alone_is_drawn_in_dashes() {
    let (window, state) = bench(DESKTOP, on_demo());
    open(&window, &state, "shrink-fit");
    let adapter = || window.global::<ui::BenchAdapter>();
    let typed = |pairs: &[(&str, &str)]| {
        state.change(|session| {
            session.choices.insert("shrink-fit.fit".to_owned(), "h7-s6".to_owned());
            for (key, text) in pairs {
                session.typed.insert(format!("shrink-fit.{key}"), (*text).to_owned());
            }
        });
        refresh_all(&window, &state);
        mock_elapsed_time(50);
    };
    typed(&[("diameter", "90"), ("hub-ceiling", "580")]);
    assert_eq!(adapter().get_chart().third, "", "all of it is hot");
    typed(&[("heated-diameter", "150")]);
    assert_eq!(answer(&window).title, "Type these first");
    typed(&[("outer-diameter", "200")]);
    let chart = adapter().get_chart();
    assert!(chart.third.matches('M').count() > 10, "{}", chart.third);
    assert!(chart.third_label.contains("hot zone") && chart.spoken.contains("hot zone"), "{}", chart.spoken);
    let locally = adapter().get_more().iter().find(|part| part.id == "fit-hub-local").expect("its figure");
    let degrees = |text: &str| text.split('\u{a0}').next().and_then(|text| text.parse::<f64>().ok());
    let whole = adapter().get_more().iter().find(|part| part.id == "fit-hub-temperature").expect("a figure");
    assert!(degrees(&locally.value) > degrees(&whole.value), "{} and {}", locally.value, whole.value);
}

/// A curve ends where the answer is: minutes of cooling, and hours of the hydrogen.
#[test]
fn a_curve_says_what_the_answer_says() {
    let (window, state) = bench((360, 2400), on_demo());
    let adapter = || window.global::<ui::BenchAdapter>();
    state.change(|session| {
        session.typed.insert("part-cooling.mass".to_owned(), "8 kg".to_owned());
        session.typed.insert("hydrogen-removal.temperature".to_owned(), "250 °C".to_owned());
    });
    for (name, said) in [("part-cooling", "minutes"), ("hydrogen-removal", "250\u{a0}°C")] {
        open(&window, &state, name);
        assert!(
            adapter().get_has_chart() && !adapter().get_has_fit(),
            "{name} has no curve: {:?}",
            answer(&window)
        );
        let chart = adapter().get_chart();
        assert!(chart.first.starts_with("M ") && chart.second.starts_with("M "), "{name}");
        assert!(chart.spoken.contains(said), "{}", chart.spoken);
        assert!(chart.x_ticks.row_count() > 2 && chart.y_ticks.row_count() > 2, "{name}");
    }
    open(&window, &state, "part-cooling");
    assert!(adapter().get_chart().spoken.contains(answer(&window).figure.figure.as_str()));
    open(&window, &state, "method-b");
    assert!(!adapter().get_has_chart());
}

/// What takes longer than a picture stands is worked out beside the window: it says so, and takes what
/// is typed meanwhile.
#[test]
fn a_slow_answer_never_stops_the_window() {
    let (window, state) = bench(PHONE, on_demo());
    open(&window, &state, "heat-cycle");
    state.change(|session| {
        for (key, text) in [("fuel-flow", "100 ft³/h"), ("runs", "3"), ("leg", "8 mm")] {
            session.typed.insert(format!("heat-cycle.{key}"), text.to_owned());
        }
    });
    refresh_all(&window, &state);
    if answer(&window).title == "Type these first" {
        panic!("still needed: {:?}", answer(&window).lines.iter().collect::<Vec<_>>());
    }
    let flow = "ask:heat-cycle.fuel-flow";
    for text in ["90 ft³/h", "95 ft³/h", "98 ft³/h"] {
        let begun = Instant::now();
        window.global::<ui::FormEvents>().invoke_field_edited(flow.into(), text.into());
        // A whole cycle takes a debug build seconds; a keystroke only begins it.
        assert!(begun.elapsed() < Duration::from_millis(700), "{:?}", begun.elapsed());
    }
    assert_eq!(answer(&window).title, "Working …");
    state.finish_answers();
    refresh_all(&window, &state);
    assert!(answer(&window).figured && !answer(&window).stale, "{:?}", answer(&window));
}
