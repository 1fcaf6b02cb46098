//! What is typed in the Log belongs to one piece, and nothing is offered that cannot be kept.

use i_slint_backend_testing::AccessibleRole;
use slint::{ComponentHandle, Model};
use strawblue::app::ui;
use strawblue::job::{Session, demo_job};

use crate::journeys_log::{BUTTON, VALUE, adapter, copy, example, open_piece, page};
use crate::screen::compare::PHONE;
use crate::screen::hand::{fill, found, says, tap};
use crate::screen::{live, live_in, mock_elapsed_time};

/// Where nothing can be kept nothing is offered that would have to be kept.
#[test]
fn without_a_folder_no_button_promises_a_log() {
    let (window, _state) = live(PHONE, Session { job: demo_job(), ..Session::default() });
    tap(&window, AccessibleRole::Tab, "Log");
    assert!(says(&window, "There is no folder to keep a log in. Nothing can be logged."));
    for button in ["Make a job of this plan", "Import a job file", "Load the example"] {
        let found = found(&window, BUTTON, button);
        assert_eq!(found.accessible_enabled(), Some(false), "{button}");
        found.invoke_accessible_default_action();
        mock_elapsed_time(50);
        assert_eq!(page(&window), "log", "{button}");
    }
}

/// What is half typed stays with its piece: its job is opened there again, and another piece begins empty, in
/// this run and after a start from another place.
#[test]
fn a_half_typed_reading_never_moves_to_another_piece() {
    let folder = tempfile::tempdir().expect("a folder");
    let after = tempfile::tempdir().expect("a folder");
    let (window, state) = example(PHONE, folder.path());
    open_piece(&window, "3");
    tap(&window, BUTTON, "Add a reading");
    fill(&window, VALUE, "180");
    to_list(&window);
    let log = adapter(&window);
    let job = log.get_jobs().row_data(0).expect("the example").id;
    log.invoke_job_asked(job.clone());
    mock_elapsed_time(50);
    assert_eq!((log.get_piece_title().as_str(), log.get_typed().as_str()), ("Piece 3", "180"));
    to_list(&window);
    tap(&window, AccessibleRole::Tab, "Plan");
    state.flush();
    copy(folder.path(), after.path());
    open_at(&window, "7");
    assert_eq!(log.get_typed(), "", "piece 7 was never read");
    let (window, _state) = live_in(PHONE, after.path());
    assert_eq!(page(&window), "plan");
    to_list(&window);
    let log = adapter(&window);
    log.invoke_job_asked(job);
    mock_elapsed_time(50);
    assert_eq!(log.get_piece_title(), "Piece 3");
    open_at(&window, "7");
    assert_eq!(log.get_typed(), "", "piece 7 was never read");
}

/// Back to the list of jobs, from wherever.
fn to_list(window: &ui::AppWindow) {
    let shell = window.global::<ui::Shell>();
    if !page(window).starts_with("log") {
        tap(window, AccessibleRole::Tab, "Log");
    }
    while page(window) != "log" {
        shell.invoke_back_asked();
        mock_elapsed_time(50);
    }
}

/// The entry of the piece of this number, from anywhere.
fn open_at(window: &ui::AppWindow, number: &str) {
    to_list(window);
    adapter(window).invoke_job_asked(adapter(window).get_jobs().row_data(0).expect("the example").id);
    mock_elapsed_time(50);
    open_piece(window, number);
    tap(window, BUTTON, "Add a reading");
}
