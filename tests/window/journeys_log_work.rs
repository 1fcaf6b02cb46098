//! The Log around its readings: steps of the job, pieces added later, heat numbers, amounts, photos, colours,
//! two windows that change the same, and a whole piece by keyboard alone.

use std::path::Path;
use std::rc::Rc;

use crate::screen::compare::DESKTOP;
use crate::screen::hand::{fill, found, labelled, press, tap, with};
use crate::screen::{live_in, mock_elapsed_time, soon};
use i_slint_backend_testing::{AccessibleRole, ElementHandle, ElementQuery};
use slint::platform::Key;
use slint::{ComponentHandle, Model, SharedString};
use strawblue::app::{State, ui};
use strawblue::engine::tint::Stage;

type Live = (ui::AppWindow, Rc<State>);

const BUTTON: AccessibleRole = AccessibleRole::Button;
const SHAFT: &str = "34CrMo4 Ø90\u{a0}mm";
const HEAT: &str = "Heat number, 34CrMo4 Ø90\u{a0}mm";
/// A phone on which a whole page stands.
const LONG: (u32, u32) = (360, 3200);

fn log(window: &ui::AppWindow) -> ui::LogAdapter<'_> {
    window.global::<ui::LogAdapter>()
}

fn work(window: &ui::AppWindow) -> ui::LogWork<'_> {
    window.global::<ui::LogWork>()
}

fn example(size: (u32, u32), folder: &Path) -> Live {
    let (window, state) = live_in(size, folder);
    tap(&window, AccessibleRole::Tab, "Log");
    log(&window).invoke_example_asked();
    mock_elapsed_time(50);
    assert_eq!(window.global::<ui::Shell>().get_page(), "log-job");
    (window, state)
}

fn open_piece(window: &ui::AppWindow, number: &str, wide: bool) {
    let cells = log(window).get_pieces();
    let cell = cells.iter().find(|cell| cell.number == number).expect("the piece is there");
    log(window).invoke_piece_asked(cell.id, wide);
    mock_elapsed_time(50);
}

fn edited(window: &ui::AppWindow, field: &str, text: &str) {
    window.global::<ui::FormEvents>().invoke_field_edited(field.into(), text.into());
    mock_elapsed_time(20);
}

fn committed(window: &ui::AppWindow, field: &str, text: &str) {
    window.global::<ui::FormEvents>().invoke_field_committed(field.into(), text.into());
    mock_elapsed_time(20);
}

fn unfold(window: &ui::AppWindow, row: &str) {
    window.global::<ui::FormEvents>().invoke_row_toggled(row.into());
    mock_elapsed_time(20);
}

/// The place is made safe once a day for all pieces: each piece begins with a step of its own.
#[test]
fn steps_of_the_job_are_not_those_of_each_piece() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, _state) = example(LONG, folder.path());
    let steps = || work(&window).get_steps().iter().collect::<Vec<_>>();
    let said: Vec<(String, bool)> = steps().iter().map(|step| (step.what.to_string(), step.done)).collect();
    // The example was safe on its own day, which is not this one; its trial pieces stay welded.
    let expected =
        [("Make the place safe", false), ("Weld a trial piece of the same bar or heat number", true)];
    assert_eq!(said, expected.map(|(what, done)| (what.to_owned(), done)));
    assert_eq!(steps()[0].figure, "Each day");
    open_piece(&window, "7", false);
    assert_eq!(log(&window).get_next_step_button(), "Step 3 is done");
    assert!(log(&window).get_steps().iter().all(|step| step.phase != "make-safe"));
    tap(&window, AccessibleRole::Checkbox, "1. Make the place safe");
    assert_eq!(work(&window).get_today().row_count(), 0, "it is told once");
    open_piece(&window, "8", false);
    assert_eq!(work(&window).get_today().row_count(), 0, "for all pieces");
    assert!(steps()[0].done);
    window.global::<ui::Shell>().invoke_back_asked();
    tap(&window, AccessibleRole::Checkbox, "1. Make the place safe");
    assert!(!steps()[0].done, "it is taken back where it was a slip");
}

/// Two more pieces of another heat, then the heat number of one of the first, told later.
#[test]
fn pieces_and_what_is_known_of_them_come_later() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, _state) = example(LONG, folder.path());
    let numbers = || log(&window).get_pieces().iter().map(|cell| cell.number.to_string()).collect::<Vec<_>>();
    tap(&window, BUTTON, "More pieces");
    fill(&window, "Number of pieces", "x");
    assert_eq!(found(&window, BUTTON, "Add 1 piece").accessible_enabled(), Some(false));
    fill(&window, "Number of pieces", "2");
    fill(&window, HEAT, "H 77");
    tap(&window, BUTTON, "Add 2 pieces");
    assert_eq!(numbers(), ["1", "2", "3", "4", "5", "6", "7", "8", "9", "10"]);
    tap(&window, BUTTON, "Undo: Piece");
    assert_eq!(numbers().len(), 8);
    tap(&window, BUTTON, "Put back: Piece");
    assert_eq!(numbers().len(), 10);
    open_piece(&window, "10", false);
    let value = || log(&window).get_piece_rows().row_data(0).expect("a row").value;
    assert_eq!(value(), "H 77");
    open_piece(&window, "7", false);
    unfold(&window, "log-told");
    fill(&window, HEAT, "H 12");
    press(&window, Key::Return);
    assert!(value().ends_with(", H 12"), "{}", value());
    // The part that a reading was of is told later too.
    open_piece(&window, "2", false);
    let reading = log(&window).get_readings().row_data(0).expect("the example has readings");
    let other = 1 - reading.part.max(0);
    work(&window).invoke_part_told(reading.id.clone(), other);
    let now = log(&window).get_readings().iter().find(|row| row.id == reading.id).expect("it stands");
    assert_eq!(now.part, other);
    assert_ne!(now.place, reading.place);
    tap(&window, BUTTON, &format!("Undo: Reading {}", reading.shown));
    let now = log(&window).get_readings().iter().find(|row| row.id == reading.id).expect("it stands");
    assert_eq!(now.place, reading.place);
}

/// What another window wrote while this one typed is not lost, and not written over in silence.
#[test]
fn a_heat_number_of_another_window_is_kept() {
    let folder = tempfile::tempdir().expect("a folder");
    let (first, _at_first) = example(LONG, folder.path());
    let (second, _at_second) = live_in(DESKTOP, folder.path());
    tap(&second, AccessibleRole::Tab, "Log");
    log(&second).invoke_job_asked(log(&second).get_jobs().row_data(0).expect("it is listed").id);
    open_piece(&first, "7", false);
    open_piece(&second, "7", true);
    let value = |window: &ui::AppWindow| log(window).get_piece_rows().row_data(0).expect("a row");
    edited(&first, "log.heat-b", "FIRST");
    committed(&second, "log.heat-b", "SECOND");
    soon("the other's number is said beside what is typed", || {
        value(&first).problem == "Meanwhile somebody wrote “SECOND” here."
    });
    committed(&first, "log.heat-b", "FIRST");
    let conflicts = |window: &ui::AppWindow| {
        let all = log(window).get_conflicts();
        all.iter()
            .flat_map(|one| one.versions.iter().map(|of| of.text.to_string()).collect::<Vec<_>>())
            .collect::<Vec<_>>()
    };
    let both = conflicts(&first);
    assert_eq!(both.len(), 2, "{both:?}");
    assert!(["FIRST", "SECOND"].iter().all(|heat| both.iter().any(|text| text.contains(heat))), "{both:?}");
    soon("the other window sees both", || conflicts(&second).len() == 2);
    let kept = log(&first).get_conflicts().row_data(0).expect("one");
    let kept = kept.versions.iter().find(|of| of.text.contains("SECOND")).expect("it is offered");
    log(&first).invoke_version_kept(kept.id);
    assert!(value(&first).value.ends_with(", SECOND"), "{}", value(&first).value);
    assert!(conflicts(&first).is_empty());
    // Each window types a figure of its own, and neither takes the other's.
    for window in [&first, &second] {
        log(window).invoke_reading_new_asked();
        mock_elapsed_time(20);
    }
    log(&first).invoke_value_edited("311".into());
    log(&second).invoke_value_edited("322".into());
    mock_elapsed_time(2000);
    assert_eq!([log(&first).get_typed(), log(&second).get_typed()], ["311", "322"]);
}

#[test]
fn amounts_stand_beside_the_estimate() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, _state) = example(LONG, folder.path());
    let used = window.global::<ui::LogUsed>();
    let value = |nth: usize| used.get_lines().row_data(nth).expect("a line").value.replace('\u{a0}', " ");
    assert_eq!(value(0), "0.18 kg of about 0.56 kg");
    tap(&window, BUTTON, "Add an amount used");
    let save = || found(&window, BUTTON, "Save the amount").accessible_enabled();
    assert_eq!(save(), Some(false));
    fill(&window, "Amount", "x");
    assert_eq!(save(), Some(false));
    // Another unit of weight than the estimate's, and a piece that it was used on.
    fill(&window, "Amount", "50 g");
    window.global::<ui::FormEvents>().invoke_choice_made("log.used-piece".into(), 3);
    tap(&window, BUTTON, "Save the amount");
    assert_eq!(value(0), "0.23 kg of about 0.56 kg");
    let line = used.get_lines().row_data(0).expect("a line");
    used.invoke_toggled(line.id);
    let entries = used.get_lines().row_data(0).expect("a line").entries;
    assert_eq!(entries.row_count(), 2);
    let last = entries.row_data(1).expect("the new one");
    assert!(last.text.contains("Piece 3"), "{}", last.text);
    used.invoke_removed(last.id);
    assert_eq!(value(0), "0.18 kg of about 0.56 kg");
    tap(&window, BUTTON, "Undo: Amount used");
    assert_eq!(value(0), "0.23 kg of about 0.56 kg");
    // What the plan has no estimate of.
    let lines = used.get_lines().row_count();
    tap(&window, BUTTON, "Add an amount used");
    let needs = i32::try_from(lines).expect("few");
    window.global::<ui::FormEvents>().invoke_choice_made("log.used-what".into(), needs);
    fill(&window, "Name", "Argon");
    fill(&window, "Amount", "120");
    fill(&window, "Unit", "l");
    tap(&window, BUTTON, "Save the amount");
    assert_eq!(used.get_lines().row_count(), lines + 1);
    assert_eq!(value(lines), "120 l");
}

#[test]
fn a_trial_piece_gets_a_photo() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, _state) = example(LONG, folder.path());
    let photos = window.global::<ui::LogPhotos>();
    let first = log(&window).get_trials().row_data(0).expect("the example has trial pieces");
    let (trial, photo) = (first.id, format!("Photo of {}", first.name));
    let row = || photos.get_photos().row_data(0).expect("one for each");
    log(&window).invoke_trial_toggled(trial.clone());
    tap(&window, BUTTON, "Add a photo");
    let broken = folder.path().join("broken.jpg");
    std::fs::write(&broken, b"\xff\xd8\xff no picture").expect("it can be written");
    let asked = |path: &Path| committed(&window, "log.photo", &path.display().to_string());
    asked(&broken);
    soon("it is refused", || row().problem.contains("is no picture"));
    asked(&folder.path().join("nothing.png"));
    assert!(row().problem.starts_with("No such file"), "{}", row().problem);
    assert!(!row().has);
    let good = folder.path().join("cut.png");
    image::RgbImage::from_fn(1600, 800, |x, y| image::Rgb([(x / 8) as u8, (y / 4) as u8, 90]))
        .save(&good)
        .expect("it can be written");
    asked(&good);
    soon("it is shown", || row().shown && row().large.size().width == 1200);
    assert_eq!(row().small.size().width, 160, "small in its row");
    assert!(row().problem.is_empty() && !row().wanted);
    assert!(labelled(&window, AccessibleRole::Image, &photo).is_some());
    // It lies with the job, and is missed where somebody took it away.
    std::fs::remove_file(&good).expect("it was copied");
    let kept: Vec<_> = walk(folder.path()).into_iter().filter(|file| file.ends_with(".png")).collect();
    assert_eq!(kept.len(), 1, "{kept:?}");
    photos.invoke_removed(trial);
    assert!(!row().has);
}

fn walk(folder: &Path) -> Vec<String> {
    let all = std::fs::read_dir(folder).expect("it is there").flatten();
    let of = all.map(|entry| entry.path());
    of.flat_map(|path| if path.is_dir() { walk(&path) } else { vec![path.display().to_string()] }).collect()
}

/// A range of colours says what both of its ends may say.
#[test]
fn two_colours_are_one_reading() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, _state) = example(LONG, folder.path());
    open_piece(&window, "7", false);
    let events = window.global::<ui::FormEvents>();
    let choose = |field: &str, at: usize| {
        events.invoke_choice_made(field.into(), i32::try_from(at).expect("few"));
        mock_elapsed_time(20);
    };
    log(&window).invoke_reading_new_asked();
    choose("log.with", 5);
    assert_eq!(log(&window).get_save_why(), "Choose the colour that you see.");
    log(&window).invoke_part_picked(1);
    let said = || log(&window).get_reasons().to_string();
    let one = |at: usize| {
        choose("log.colour", at);
        said()
    };
    let (low, high) = (4, 7);
    let (cold, hot) = (one(low), one(high));
    assert_ne!(cold, hot);
    // Told in either order; the first choice of the second list is none.
    choose("log.colour-to", low + 1);
    let both = said();
    let figures = |text: &str| {
        let line = text.split(". ").next().unwrap_or_default().to_owned();
        let digits: String =
            line.chars().map(|sign| if sign.is_ascii_digit() { sign } else { ' ' }).collect();
        digits.split_whitespace().filter_map(|word| word.parse().ok()).collect::<Vec<u32>>()
    };
    assert_eq!(figures(&both)[0], figures(&cold)[0], "{cold} {both}");
    assert_eq!(figures(&both).get(1), figures(&hot).get(1), "{hot} {both}");
    log(&window).invoke_save_asked();
    let row = log(&window).get_readings().row_data(0).expect("it is logged");
    let names = [low, high].map(|at| Stage::ALL[at]);
    assert!(row.shown.contains(" to "), "{}: {names:?}", row.shown);
    // The next one begins with none.
    log(&window).invoke_reading_new_asked();
    assert_eq!(log(&window).get_save_why(), "Choose the colour that you see.");
}

/// The chart of a piece's readings says what it shows.
#[test]
fn readings_are_drawn_against_the_limits() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, _state) = example(LONG, folder.path());
    let plot = || window.global::<ui::LogPlot>().get_view();
    open_piece(&window, "7", false);
    assert!(!plot().shown, "a piece without a reading has no chart");
    open_piece(&window, "2", false);
    let view = plot();
    let rows = log(&window).get_readings().row_count();
    assert!(view.shown && view.dots.row_count() >= rows);
    assert!(view.maximum_at >= 0.0 && view.maximum_at < view.minimum_at && view.minimum_at <= 1.0);
    assert!(view.spoken.contains("Minimum 300") && view.spoken.contains("Before a tack"), "{}", view.spoken);
    let label = "Readings against the limits";
    let chart = found(&window, AccessibleRole::Image, label);
    assert_eq!(chart.accessible_description().as_deref(), Some(view.spoken.as_str()));
    // A crayon that melted leaves the upper end open.
    open_piece(&window, "7", false);
    log(&window).invoke_reading_new_asked();
    window.global::<ui::FormEvents>().invoke_choice_made("log.with".into(), 4);
    log(&window).invoke_part_picked(1);
    log(&window).invoke_value_edited("315".into());
    log(&window).invoke_way_picked(0);
    log(&window).invoke_save_asked();
    let dot = plot().dots.row_data(0).expect("one");
    assert!(dot.open_high && !dot.open_low && dot.high == 0.0, "{dot:?}");
    assert!(plot().note.contains("Arrow"), "{}", plot().note);
}

/// Where the keyboard is: the ring around it.
fn ring(window: &ui::AppWindow) -> Option<ElementHandle> {
    ElementQuery::from_root(window).match_inherits("FocusRing").find_first()
}

/// Tab leads to a control, and Return or Space acts on it.
fn by_tab(window: &ui::AppWindow, role: AccessibleRole, label: &str, key: impl Into<SharedString>) {
    for _ in 0..90 {
        press(window, Key::Tab);
        let wanted = label.to_owned();
        let there = with(window, move |element| {
            element.accessible_role() == Some(role)
                && element.accessible_label().is_some_and(|found| found == wanted)
        });
        let (Some(there), Some(ring)) = (there, ring(window)) else { continue };
        let middle = |element: &ElementHandle| {
            let (at, size) = (element.absolute_position(), element.size());
            (at.x + size.width / 2.0, at.y + size.height / 2.0)
        };
        let (one, other) = (middle(&there), middle(&ring));
        if (one.0 - other.0).abs() < 4.0 && (one.1 - other.1).abs() < 4.0 {
            return press(window, key);
        }
    }
    panic!("Tab does not lead to {role:?} “{label}”");
}

/// A piece from its first step to its end, and no hand on the screen.
#[test]
fn a_piece_is_logged_by_keyboard_alone() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, _state) = example(LONG, folder.path());
    let cell = log(&window).get_pieces().iter().find(|cell| cell.number == "7").expect("it is there");
    by_tab(&window, BUTTON, &cell.spoken, Key::Return);
    assert_eq!(window.global::<ui::Shell>().get_page(), "log-piece");
    by_tab(&window, AccessibleRole::Checkbox, "1. Make the place safe", " ");
    by_tab(&window, BUTTON, "Step 3 is done", Key::Return);
    assert_eq!(log(&window).get_next_step_button(), "Step 4 is done");
    for figure in ["318", "335"] {
        by_tab(&window, BUTTON, "Add a reading", Key::Return);
        assert_eq!(window.global::<ui::Shell>().get_page(), "log-entry");
        // The figure has no ring of its own: what is typed tells that the keyboard is in it.
        let mut tabs = 0;
        while log(&window).get_typed().is_empty() {
            tabs += 1;
            assert!(tabs < 40, "Tab leads to the figure");
            press(&window, Key::Tab);
            press(&window, &figure[..1]);
        }
        figure.chars().skip(1).for_each(|digit| press(&window, SharedString::from(digit)));
        assert_eq!(log(&window).get_typed(), figure);
        if log(&window).get_part() < 0 {
            // One control for all parts: an arrow moves within it, Space chooses.
            let mut tabs = 0;
            while log(&window).get_part() != 1 {
                tabs += 1;
                assert!(tabs < 40, "Tab and an arrow lead to {SHAFT}");
                press(&window, Key::Tab);
                press(&window, Key::RightArrow);
                press(&window, " ");
            }
        }
        by_tab(&window, BUTTON, "Save the reading", Key::Return);
        assert_eq!(window.global::<ui::Shell>().get_page(), "log-piece", "{}", log(&window).get_save_why());
    }
    assert_eq!(log(&window).get_readings().row_count(), 2);
    by_tab(&window, BUTTON, "This piece is finished", Key::Return);
    assert!(log(&window).get_finished());
}
