//! What a temperature crayon did is said by the welder, and no answer stands for him: nothing is written down
//! that does not stand on the screen.

use std::path::Path;
use std::rc::Rc;

use crate::screen::compare::PHONE;
use crate::screen::hand::{found, tap};
use crate::screen::{live_in, mock_elapsed_time};
use i_slint_backend_testing::AccessibleRole;
use slint::{ComponentHandle, Model};
use strawblue::app::{State, ui};

const CRAYON: i32 = 4;
const DIGIT: AccessibleRole = AccessibleRole::Button;

fn log(window: &ui::AppWindow) -> ui::LogAdapter<'_> {
    window.global::<ui::LogAdapter>()
}

/// A new reading in a piece of the example that has none yet.
fn new_reading(folder: &Path) -> (ui::AppWindow, Rc<State>) {
    let (window, state) = live_in(PHONE, folder);
    tap(&window, AccessibleRole::Tab, "Log");
    log(&window).invoke_example_asked();
    mock_elapsed_time(50);
    let cell = log(&window).get_pieces().iter().find(|cell| cell.number == "7").expect("the piece is there");
    log(&window).invoke_piece_asked(cell.id, false);
    log(&window).invoke_reading_new_asked();
    mock_elapsed_time(50);
    (window, state)
}

/// The same of the second part, by crayon.
fn by_crayon(folder: &Path) -> (ui::AppWindow, Rc<State>) {
    let (window, state) = new_reading(folder);
    window.global::<ui::FormEvents>().invoke_choice_made("log.with".into(), CRAYON);
    log(&window).invoke_part_picked(1);
    mock_elapsed_time(50);
    (window, state)
}

fn saved(window: &ui::AppWindow) -> Option<String> {
    log(window).invoke_save_asked();
    mock_elapsed_time(50);
    log(window).get_readings().row_data(0).map(|row| row.shown.replace('\u{a0}', " "))
}

#[test]
fn whether_it_melted_is_asked_and_not_assumed() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, _state) = by_crayon(folder.path());
    assert_eq!(log(&window).get_way(), -1, "neither answer stands there");
    log(&window).invoke_value_edited("310".into());
    assert!(!log(&window).get_can_save() && log(&window).get_verdict() == "");
    assert_eq!(log(&window).get_save_why(), "Did this crayon melt? Choose.");
    assert_eq!(saved(&window), None, "nothing is written down");
    // The figure goes to the answer.
    log(&window).invoke_way_picked(1);
    assert_eq!((log(&window).get_typed(), log(&window).get_way()), ("310".into(), 1));
    assert_eq!(saved(&window).as_deref(), Some("310 °C did not melt"));
}

#[test]
fn a_figure_under_the_other_answer_is_not_written_down_unseen() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, _state) = by_crayon(folder.path());
    log(&window).invoke_value_edited("310".into());
    log(&window).invoke_way_picked(0);
    assert!(log(&window).get_can_save());
    log(&window).invoke_way_picked(1);
    assert!(!log(&window).get_can_save() && log(&window).get_typed() == "");
    let why = log(&window).get_save_why().replace('\u{a0}', " ");
    assert!(why.starts_with("310 °C is under the other answer."), "{why}");
    assert_eq!(saved(&window), None);
    // Two crayons: both are typed, and both are written down.
    log(&window).invoke_value_edited("343".into());
    assert!(log(&window).get_can_save());
    let both = saved(&window).expect("both");
    assert!(both.contains("310") && both.contains("343"), "{both}");
}

/// The keys stand still while a figure is typed: a thumb does not look twice.
#[test]
fn the_keys_stay_where_they_are() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, _state) = new_reading(folder.path());
    let seven = || found(&window, DIGIT, "7").absolute_position().y;
    let before = seven();
    let mut moved = Vec::new();
    for text in ["3", "32", "320", "900"] {
        log(&window).invoke_value_edited(text.into());
        mock_elapsed_time(50);
        moved.push(seven() - before);
    }
    log(&window).invoke_value_edited("320".into());
    log(&window).invoke_part_picked(1);
    mock_elapsed_time(50);
    moved.push(seven() - before);
    assert!(moved.iter().all(|by| by.abs() < 1.0), "{moved:?}");
}
