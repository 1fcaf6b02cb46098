//! Pictures of the real window, drawn by the software renderer without a display, compared
//! with those in `tests/pictures/`.
#![cfg(feature = "testing")]

#[path = "screen/compare.rs"]
mod compare;
mod screen;

use compare::{DESKTOP, PHONE, check, check_all};
use screen::{rows, window};
use slint::{ComponentHandle, Model, SharedString};
use strawblue::app::ui;
use strawblue::words::Words;

/// Changes the answer of the preview.
fn answer(window: &ui::AppWindow, change: impl FnOnce(&mut ui::AnswerView)) {
    let plan = window.global::<ui::PlanAdapter>();
    let mut view = plan.get_answer();
    change(&mut view);
    plan.set_answer(view);
}

/// Takes everything that follows from an answer off the page.
fn without_results(window: &ui::AppWindow) {
    let plan = window.global::<ui::PlanAdapter>();
    plan.set_evidence(rows([]));
    plan.set_levers(rows([]));
    plan.set_then(rows([]));
    let mut line = plan.get_window_line();
    line.shown = false;
    plan.set_window_line(line);
}

/// An answer that has no figure.
fn verdict(window: &ui::AppWindow, kind: ui::AnswerKind, title: &str, lines: &[&str]) {
    let lines: Vec<SharedString> = lines.iter().map(|line| (*line).into()).collect();
    answer(window, |view| {
        *view = ui::AnswerView { kind, title: title.into(), lines: rows(lines), ..ui::AnswerView::default() };
    });
}

/// Changes one input row of the preview.
fn input(window: &ui::AppWindow, id: &str, change: impl FnOnce(&mut ui::FormRow)) {
    let model = window.global::<ui::PlanAdapter>().get_rows();
    let index = model.iter().position(|row| row.id == id).expect("the preview has this row");
    let mut row = model.row_data(index).expect("the row was found");
    change(&mut row);
    model.set_row_data(index, row);
}

#[test]
fn plan() {
    check_all("plan", |_| {});
}

/// Everything that a phone shows when one scrolls to the end.
#[test]
fn plan_to_its_end() {
    check(&window((360, 2900), ui::Look::Dark, |_| {}), "plan-end-phone-dark");
}

/// The smallest phone, scrolled: the answer stays in view.
#[test]
fn plan_scrolled() {
    let shown = window((360, 640), ui::Look::Dark, |_| {});
    shown.global::<ui::PlanAdapter>().set_scroll_results(-1120.0);
    check(&shown, "plan-scrolled-phone-dark");
}

/// A narrow desktop: evidence and levers one under another.
#[test]
fn plan_narrow_desktop() {
    check(&window((1024, 768), ui::Look::Light, |_| {}), "plan-1024-light");
}

#[test]
fn plan_inputs_open() {
    let shown = window((360, 2600), ui::Look::Light, |window| {
        for id in ["member-a", "joint", "process", "heat", "restraint"] {
            input(window, id, |row| row.open = true);
        }
    });
    check(&shown, "plan-inputs-phone-light");
}

#[test]
fn plan_before_anything_is_typed() {
    let fill = |window: &ui::AppWindow| {
        without_results(window);
        let plan = window.global::<ui::PlanAdapter>();
        plan.set_has_critical(false);
        plan.set_cautions(rows([]));
        let lines = ["Steel, thickness, joint, process and hydrogen class: five answers make a plan."];
        verdict(window, ui::AnswerKind::Empty, "Start with the steel", &lines);
    };
    check(&window(PHONE, ui::Look::Dark, fill), "plan-empty-phone-dark");
}

#[test]
fn plan_without_a_window() {
    check_all("plan-no-window", |window| {
        let lines = ["The boss needs 285 °C (540 °F) at least.", "Its ceiling is 220 °C (420 °F)."];
        verdict(window, ui::AnswerKind::NoWindow, "No usable window", &lines);
        let plan = window.global::<ui::PlanAdapter>();
        let mut line = plan.get_window_line();
        line.inverted = true;
        (line.from_c, line.to_c, line.low_c, line.high_c) = (150.0, 350.0, 285.0, 220.0);
        line.low_label = "minimum 285".into();
        line.high_label = "ceiling 220".into();
        line.words = "Ceiling: boss tempered at 250 °C, less 30.".into();
        line.ticks = rows(
            [150, 200, 250, 300, 350]
                .map(|at| ui::AxisTick { at_c: at as f32, label: at.to_string().into() }),
        );
        plan.set_window_line(line);
        plan.set_levers_note("what would open one".into());
        let lever = |what: &str, note: &str, result: &str, effect| ui::LeverRow {
            id: what.into(),
            what: what.into(),
            note: note.into(),
            result: result.into(),
            effect,
        };
        plan.set_levers(rows([
            lever(
                "Weld first, harden after",
                "The ceiling goes; 285–335 °C opens.",
                "opens",
                ui::LeverEffect::Opens,
            ),
            lever(
                "Butter the boss, softer filler",
                "Takes stress off; the minimum stays.",
                "not alone",
                ui::LeverEffect::NotAlone,
            ),
        ]));
    });
}

#[test]
fn plan_that_needs_no_heat() {
    let fill = |window: &ui::AppWindow| {
        without_results(window);
        let maximum = window.global::<ui::PlanAdapter>().get_answer().maximum;
        let lines = ["At least 5 °C (40 °F), and no water, oil or paint on it."];
        verdict(window, ui::AnswerKind::Dry, "No preheat. Dry\u{a0}it.", &lines);
        answer(window, |view| {
            view.maximum = ui::FigureView { figure: "250".into(), second: "480 °F".into(), ..maximum };
            view.standing = ui::Standing::Inside;
            view.sentence = "Table C.1 clears it.".into();
        });
    };
    check(&window(PHONE, ui::Look::Light, fill), "plan-dry-phone-light");
    check(&window(DESKTOP, ui::Look::Dark, fill), "plan-dry-desktop-dark");
}

#[test]
fn plan_refused() {
    let fill = |window: &ui::AppWindow| {
        without_results(window);
        let lines = [
            "Leaded free-cutting steel: the weld cracks hot, whatever the preheat.",
            "Bolt it, pin it, or remake the part from a steel without lead and sulphur.",
        ];
        verdict(window, ui::AnswerKind::Refused, "Do not weld this steel", &lines);
    };
    check(&window(PHONE, ui::Look::Dark, fill), "plan-refused-phone-dark");
}

#[test]
fn plan_of_iron_has_two_routes() {
    let fill = |window: &ui::AppWindow| {
        without_results(window);
        let lines = ["Choose one and stay with it. They are never mixed on one part."];
        verdict(window, ui::AnswerKind::Routes, "Cast iron: two ways", &lines);
        let route = |id: &str, title: &str, figure: &str, second: &str, text: &str| ui::RouteRow {
            id: id.into(),
            title: title.into(),
            figure: figure.into(),
            second: second.into(),
            text: text.into(),
            basis_kind: ui::BasisKind::Practice,
            basis_label: "common practice".into(),
        };
        answer(window, |view| {
            view.routes = rows([
                route(
                    "cold",
                    "Cold",
                    "20–40 °C",
                    "70–100 °F",
                    "Nickel filler, beads of 25 mm, peened; under 70 °C between beads.",
                ),
                route(
                    "hot",
                    "Hot",
                    "500–650 °C",
                    "930–1200 °F",
                    "The whole part, evenly; slow cooling in the furnace or under sand.",
                ),
            ]);
        });
    };
    check(&window(PHONE, ui::Look::Dark, fill), "plan-routes-phone-dark");
}

#[test]
fn plan_that_no_method_covers() {
    let fill = |window: &ui::AppWindow| {
        without_results(window);
        let lines = ["What the methods would say is drawn below; none may govern. Weld a trial piece."];
        verdict(window, ui::AnswerKind::Uncovered, "No method covers this steel", &lines);
    };
    check(&window(PHONE, ui::Look::Dark, fill), "plan-uncovered-phone-dark");
}

/// A band of figures is a size smaller, and its second unit is never cut.
#[test]
fn plan_with_a_band_of_figures() {
    let fill = |window: &ui::AppWindow| {
        answer(window, |view| {
            view.ranged = true;
            view.qualifier = SharedString::new();
            view.minimum.figure = "1025–1145".into();
            view.minimum.unit = "°F".into();
            view.minimum.second = "550–620 °C".into();
            view.maximum.figure = "1200".into();
            view.maximum.unit = "°F".into();
            view.maximum.second = "650 °C".into();
        });
    };
    check(&window((320, 640), ui::Look::Dark, fill), "plan-band-phone-dark");
}

/// What was typed stays, the field says what it would take, and the last answer goes grey.
#[test]
fn plan_with_a_field_that_cannot_be_read() {
    check_all("plan-stale", |window| {
        answer(window, |view| {
            view.stale = true;
            view.stale_title = "Old answer, for an arm of 30 mm".into();
            view.stale_why = "Don’t heat by it: the thickness can’t be read.".into();
        });
        input(window, "member-b", |row| {
            row.open = true;
            row.problem = "thickness".into();
            let index = row.parts.iter().position(|part| part.kind == ui::PartKind::Fields).expect("a field");
            let part = row.parts.row_data(index).expect("the part was found");
            let mut field = part.fields.row_data(0).expect("one field");
            field.text = "1-1/".into();
            field.unit = "in or mm".into();
            field.problem = "Can’t read it. Try 1-1/2\", 1.5 in or 38 mm".into();
            part.fields.set_row_data(0, field);
        });
    });
}

#[test]
fn basis() {
    check_all("basis", |window| window.global::<ui::BasisAdapter>().set_open(true));
}

/// The keyboard is always seen where it is.
#[test]
fn focus_ring() {
    let shown = window(DESKTOP, ui::Look::Dark, |_| {});
    for _ in 0..5 {
        shown.window().dispatch_event(slint::platform::WindowEvent::KeyPressed {
            text: slint::platform::Key::Tab.into(),
        });
        screen::mock_elapsed_time(50);
    }
    check(&shown, "focus-desktop-dark");
}

/// Words of other languages are up to 40 % longer.
#[test]
fn plan_in_a_longer_language() {
    let shown = window((360, 3400), ui::Look::Light, |window| {
        let words = Words::english();
        window.global::<ui::I18n>().on_translate(move |key, _| longer(&words.get(&key)).into());
        window.global::<ui::I18n>().set_rev(2);
        answer(window, |view| {
            for figure in [&mut view.minimum, &mut view.maximum, &mut view.ceiling] {
                figure.label = longer(&figure.label).into();
                figure.basis_label = longer(&figure.basis_label).into();
            }
            view.sentence = longer(&view.sentence).into();
        });
        let evidence = window.global::<ui::PlanAdapter>().get_evidence();
        for (index, mut row) in evidence.iter().enumerate() {
            row.name = longer(&row.name).into();
            row.note = longer(&row.note).into();
            row.basis_label = longer(&row.basis_label).into();
            evidence.set_row_data(index, row);
        }
        for id in ["joint", "process"] {
            input(window, id, |row| {
                row.open = true;
                row.label = longer(&row.label).into();
                for part in row.parts.iter() {
                    for (index, mut choice) in part.choices.iter().enumerate() {
                        if choice.label.len() > 4 {
                            choice.label = longer(&choice.label).into();
                        }
                        part.choices.set_row_data(index, choice);
                    }
                }
            });
        }
    });
    check(&shown, "plan-longer-phone-light");
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
