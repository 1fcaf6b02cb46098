//! The Plan place in its states, on real jobs, drawn by the software renderer without a display
//! and compared with `tests/pictures/`. The demo itself and the states that a journey passes are
//! drawn in `journeys_plan`.

use std::rc::Rc;

use crate::screen::compare::{DESKTOP, DESKTOP_RESULTS, PHONE, check, check_part, check_rows};
use crate::screen::{live, mock_elapsed_time};
use crate::typed_job::{self, over};
use slint::platform::{Key, WindowEvent};
use slint::{ComponentHandle, Model};
use strawblue::app::{State, refresh_all, ui};
use strawblue::job::{Field, JobText, Session, Theme, demo_job};
use strawblue::units::Units;
use strawblue::words::Words;

/// A wide window that leaves the answer little room beside the inputs.
const NARROW: (u32, u32) = (900, 800);

/// A phone in both looks, and a desktop: its dark colours are the phone's.
const ALL: [(&str, (u32, u32), &str, ui::Look); 3] = [
    ("phone", PHONE, "dark", ui::Look::Dark),
    ("phone", PHONE, "light", ui::Look::Light),
    ("desktop", DESKTOP, "light", ui::Look::Light),
];

/// A job in the window, in these units.
fn shown(size: (u32, u32), look: ui::Look, units: Units, job: JobText) -> (ui::AppWindow, Rc<State>) {
    let theme = if look == ui::Look::Light { Theme::Light } else { Theme::Dark };
    live(size, Session { units, job, theme, ..Session::default() })
}

fn metric(size: (u32, u32), look: ui::Look, job: JobText) -> (ui::AppWindow, Rc<State>) {
    shown(size, look, Units::C_MM, job)
}

fn job(steel: &str, thickness: &str, joint: &str, process: &str) -> JobText {
    typed_job::job(&[("steel", steel), ("thickness", thickness), ("joint", joint), ("process", process)])
}

fn scroll(window: &ui::AppWindow, to: f32) {
    window.global::<ui::PlanAdapter>().set_scroll_results(-to);
    mock_elapsed_time(50);
}

/// A hardenable steel of which nobody knows how it was tempered.
fn temper_unknown() -> JobText {
    job("4140", "2 in", "butt", "gtaw")
}

/// The minimum a little below the most that may be: no room to work in.
fn too_narrow() -> JobText {
    over(demo_job(), &[("demand-interpass", "310 C")])
}

/// The minimum above the most that may be.
fn wrong_way_round() -> JobText {
    over(demo_job(), &[("demand-interpass", "250 C")])
}

/// What a part is must be told first: the question stands where the figure would.
#[test]
fn plan_that_asks_what_the_steel_is() {
    let duplex = typed_job::job(&[
        ("certificate", "C 0.02 Cr 22.5 Ni 5.5 Mo 3.1 Mn 1.5 N 0.17"),
        ("thickness", "20"),
        ("joint", "butt"),
        ("process", "gtaw"),
    ]);
    check(&metric(PHONE, ui::Look::Light, duplex).0, "plan-asks-phone-light");
}

/// What a phone shows when one scrolls on: evidence, levers, what is found out first, the first steps.
#[test]
fn plan_to_its_end() {
    let (window, _state) = metric((360, 7000), ui::Look::Dark, demo_job());
    // Below what the picture of the demo shows.
    check_rows(&window, (0, 360), ("Methods compared", "Filler, runs and current"), "plan-end-phone-dark");
}

/// The smallest phone, scrolled: the answer stays in view.
#[test]
fn plan_scrolled() {
    let (window, _state) = metric((360, 640), ui::Look::Dark, demo_job());
    scroll(&window, 1120.0);
    check(&window, "plan-scrolled-phone-dark");
}

/// A desktop with less room: evidence and levers one under another.
#[test]
fn plan_on_a_smaller_desktop() {
    let (window, _state) = metric((1024, 768), ui::Look::Light, demo_job());
    check(&window, "plan-1024-light");
    scroll(&window, 560.0);
    check(&window, "plan-1024-scrolled-light");
}

#[test]
fn plan_inputs_open() {
    let (window, state) = metric((360, 3200), ui::Look::Light, demo_job());
    let rows = ["member-a", "member-b", "joint", "process", "heat", "restraint"];
    state.open.borrow_mut().rows.extend(rows.map(str::to_owned));
    refresh_all(&window, &state);
    mock_elapsed_time(50);
    check_part(&window, (0, 0, 360, 2600), "plan-inputs-phone-light");
}

#[test]
fn plan_without_a_window() {
    for (shape, size, name, look) in ALL {
        let (window, _state) = metric(size, look, wrong_way_round());
        check(&window, &format!("plan-no-window-{shape}-{name}"));
    }
    let (window, _state) = metric(PHONE, ui::Look::Dark, too_narrow());
    check(&window, "plan-too-narrow-phone-dark");
}

#[test]
fn plan_that_needs_no_heat() {
    let easy = || over(job("S355J2", "12", "t-fillet-one-side", "gmaw"), &[("condition", "as rolled")]);
    check(&metric(PHONE, ui::Look::Light, easy()).0, "plan-dry-phone-light");
    check(&metric(DESKTOP, ui::Look::Dark, easy()).0, "plan-dry-desktop-dark");
}

#[test]
fn plan_that_is_refused() {
    let (window, _state) = metric(DESKTOP, ui::Look::Light, job("12L14", "30", "butt", "gtaw"));
    check(&window, "plan-refused-desktop-light");
}

#[test]
fn plan_of_iron_has_two_routes() {
    let iron = over(job("GREY", "20", "repair", "smaw-nickel"), &[("condition", "as cast")]);
    check(&metric(DESKTOP, ui::Look::Light, iron).0, "plan-routes-desktop-light");
}

/// What was typed stays, the field says what it would take, and the last answer goes grey.
#[test]
fn plan_with_a_field_that_cannot_be_read() {
    for (shape, size, name, look) in ALL {
        let (window, state) = metric(size, look, demo_job());
        state.open.borrow_mut().rows.insert("member-a".into());
        state.change_job(|job| job.set(Field::Thickness, Some("1-1/".into())));
        refresh_all(&window, &state);
        mock_elapsed_time(50);
        check(&window, &format!("plan-stale-{shape}-{name}"));
    }
}

#[test]
fn a_temper_to_ask_for_fits_wherever_it_stands() {
    for (name, size) in [("phone", PHONE), ("narrow", NARROW), ("desktop", DESKTOP)] {
        let (window, _state) = shown(size, ui::Look::Dark, Units::F_IN, temper_unknown());
        check(&window, &format!("plan-temper-unknown-{name}-dark"));
        if size == PHONE {
            scroll(&window, 500.0);
            check(&window, "plan-temper-unknown-scrolled-phone-dark");
        }
    }
}

#[test]
fn the_briefing_stands_in_two_groups() {
    let (window, state) = metric((360, 11000), ui::Look::Light, temper_unknown());
    state.change_job(|job| {
        for (field, text) in
            [(Field::HeatSource, "acetylene"), (Field::Coating, "zinc"), (Field::Lifted, "yes")]
        {
            job.set(field, Some(text.to_owned()));
        }
    });
    state.open.borrow_mut().all_cautions = true;
    refresh_all(&window, &state);
    mock_elapsed_time(50);
    // Where the lines of every job end and those of this one begin, to the end.
    check_rows(&window, (0, 360), ("Eyes and skin", "Not given: "), "plan-briefing-phone-light");
}

/// What a job can tell for the sake of safety, one row at the end of the form.
#[test]
fn the_safety_facts_are_one_folded_row() {
    let (window, state) = metric((360, 3600), ui::Look::Dark, demo_job());
    state.change_job(|job| {
        job.set(Field::HeatSource, Some("acetylene".to_owned()));
        job.set(Field::Alone, Some("no".to_owned()));
    });
    state.open.borrow_mut().rows.insert("safety".to_owned());
    refresh_all(&window, &state);
    mock_elapsed_time(50);
    check_rows(&window, (0, 360), ("Safety facts", "Working alone"), "plan-safety-facts-phone-dark");
}

/// What nobody stated stands at the end of the page.
#[test]
fn what_was_assumed_is_told() {
    for (shape, size, across) in [("phone", (360, 11000), (0, 360)), ("desktop", (1280, 8500), (480, 800))] {
        let (window, _state) = metric(size, ui::Look::Light, temper_unknown());
        let ends = ("Assumed: you did not state it", "Local codes, the drawing");
        check_rows(&window, across, ends, &format!("plan-assumed-{shape}-light"));
    }
}

#[test]
fn basis() {
    for (shape, size, name, look) in ALL {
        let (window, _state) = metric(size, look, demo_job());
        window.global::<ui::PlanAdapter>().invoke_basis_asked("minimum".into());
        mock_elapsed_time(50);
        let name = format!("basis-{shape}-{name}");
        if shape == "desktop" {
            check_part(&window, DESKTOP_RESULTS, &name);
        } else {
            check(&window, &name);
        }
    }
}

/// The keyboard is always seen where it is.
#[test]
fn focus_ring() {
    let (window, _state) = metric(DESKTOP, ui::Look::Dark, demo_job());
    for _ in 0..8 {
        window.window().dispatch_event(WindowEvent::KeyPressed { text: Key::Tab.into() });
        mock_elapsed_time(50);
    }
    check_part(&window, (88, 270, 392, 100), "focus-desktop-dark");
}

/// Words of other languages are up to 40 % longer.
#[test]
fn plan_in_a_longer_language() {
    let (window, state) = metric((360, 4600), ui::Look::Light, demo_job());
    state.open.borrow_mut().rows.extend(["joint", "process"].map(str::to_owned));
    refresh_all(&window, &state);
    let words = Words::english();
    window.global::<ui::I18n>().on_translate(move |key, _| longer(&words.get(&key)).into());
    window.global::<ui::I18n>().set_rev(99);
    let plan = window.global::<ui::PlanAdapter>();
    let mut view = plan.get_answer();
    for figure in [&mut view.minimum, &mut view.maximum, &mut view.ceiling] {
        figure.label = longer(&figure.label).into();
        figure.basis_label = longer(&figure.basis_label).into();
    }
    view.sentence = longer(&view.sentence).into();
    plan.set_answer(view);
    let evidence = plan.get_evidence();
    for (index, mut row) in evidence.iter().enumerate() {
        row.name = longer(&row.name).into();
        row.note = longer(&row.note).into();
        row.basis_label = longer(&row.basis_label).into();
        evidence.set_row_data(index, row);
    }
    let rows = plan.get_rows();
    for (index, mut row) in rows.iter().enumerate() {
        row.label = longer(&row.label).into();
        for part in row.parts.iter() {
            for (index, mut choice) in part.choices.iter().enumerate().filter(|(_, row)| row.label.len() > 4)
            {
                choice.label = longer(&choice.label).into();
                part.choices.set_row_data(index, choice);
            }
        }
        rows.set_row_data(index, row);
    }
    mock_elapsed_time(50);
    check_part(&window, (0, 0, 360, 2300), "plan-longer-phone-light");
}

/// The same words with two of five letters doubled.
fn longer(text: &str) -> String {
    text.chars()
        .enumerate()
        .flat_map(|(index, c)| {
            let twice = c.is_alphabetic() && matches!(index % 5, 1 | 3);
            std::iter::repeat_n(c, if twice { 2 } else { 1 })
        })
        .collect()
}
