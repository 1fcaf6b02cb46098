//! The Log as a welder works with it: a job of the plan, readings on big keys, undo, a restart in the middle.

use std::cell::RefCell;
use std::path::Path;
use std::rc::Rc;

use crate::screen::compare::{DESKTOP, PHONE};
use crate::screen::hand::{fill, found, labelled, press, says, tap, with};
use crate::screen::{live_in, mock_elapsed_time, soon};
use i_slint_backend_testing::AccessibleRole;
use slint::platform::Key;
use slint::{ComponentHandle, Model};
use strawblue::app::{Device, State, on_device, ui};

pub(crate) type Live = (ui::AppWindow, Rc<State>);

pub(crate) const BUTTON: AccessibleRole = AccessibleRole::Button;
pub(crate) const VALUE: &str = "What the instrument shows";

pub(crate) fn adapter(window: &ui::AppWindow) -> ui::LogAdapter<'_> {
    window.global::<ui::LogAdapter>()
}

pub(crate) fn page(window: &ui::AppWindow) -> String {
    window.global::<ui::Shell>().get_page().to_string()
}

/// Copies a folder with all that lies in it.
pub(crate) fn copy(from: &Path, to: &Path) {
    for entry in std::fs::read_dir(from).expect("it is there") {
        let entry = entry.expect("it reads");
        let there = to.join(entry.file_name());
        if entry.path().is_dir() {
            std::fs::create_dir_all(&there).expect("it can be made");
            copy(&entry.path(), &there);
        } else {
            std::fs::copy(entry.path(), there).expect("it can be copied");
        }
    }
}

/// The Log with the example open in it.
pub(crate) fn example(size: (u32, u32), folder: &Path) -> Live {
    let (window, state) = live_in(size, folder);
    tap(&window, AccessibleRole::Tab, "Log");
    assert!(says(&window, "No job yet"));
    tap(&window, BUTTON, "Load the example");
    assert_eq!(page(&window), "log-job");
    (window, state)
}

/// The piece of this number on its page.
pub(crate) fn open_piece(window: &ui::AppWindow, number: &str) {
    let cells = adapter(window).get_pieces();
    let cell = cells.iter().find(|cell| cell.number == number).expect("the piece is there");
    adapter(window).invoke_piece_asked(cell.id, false);
    mock_elapsed_time(50);
    assert_eq!(page(window), "log-piece");
}

fn shown(window: &ui::AppWindow) -> Vec<String> {
    adapter(window).get_readings().iter().map(|row| row.shown.to_string()).collect()
}

fn key(window: &ui::AppWindow, key: &str) {
    tap(window, BUTTON, key);
}

fn type_on_keys(window: &ui::AppWindow, figure: &str) {
    figure.chars().for_each(|digit| key(window, &digit.to_string()));
}

/// A reading on the boss, in the middle of the work.
fn read(window: &ui::AppWindow, figure: &str) {
    tap(window, BUTTON, "Add a reading");
    assert_eq!(page(window), "log-entry");
    tap(window, AccessibleRole::RadioButton, "34CrMo4 Ø90\u{a0}mm");
    type_on_keys(window, figure);
    tap(window, BUTTON, "Save the reading");
    assert_eq!(page(window), "log-piece", "{}", adapter(window).get_save_why());
}

/// A phone that tells what its screen was asked.
struct Phone(Rc<RefCell<Vec<bool>>>);

impl Device for Phone {
    fn keep_lit(&self, lit: bool) {
        self.0.borrow_mut().push(lit);
    }
}

#[test]
fn a_whole_piece_is_logged() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, state) = live_in(PHONE, folder.path());
    let lit = Rc::new(RefCell::new(Vec::new()));
    on_device(&window, &state, Phone(lit.clone()));
    window.global::<ui::PlanAdapter>().invoke_example_asked();
    // The torch and the plate, without which the plan has no heat cycle and the clock nothing to go by.
    state.change(|session| {
        let typed = [("fuel-flow", "100 ft3/h"), ("plate-width", "160"), ("plate-length", "400")];
        session.typed.extend(typed.map(|(key, text)| (format!("heat-cycle.{key}"), text.to_owned())));
    });
    tap(&window, AccessibleRole::Tab, "Log");
    tap(&window, BUTTON, "Make a job of this plan");
    fill(&window, "Number of pieces", "0");
    tap(&window, BUTTON, "Begin the job");
    assert_eq!(page(&window), "log-new", "no job without a piece");
    fill(&window, "Number of pieces", "2");
    fill(&window, "Welder", "Night shift");
    tap(&window, BUTTON, "Begin the job");
    soon("the job is begun", || page(&window) == "log-job");
    let log = adapter(&window);
    assert_eq!(log.get_pieces().row_count(), 2);
    assert_eq!(log.get_job_notes().row_data(0).as_deref(), Some("Welder: Night shift"));
    let limits: Vec<String> = log.get_limits().iter().map(|limit| limit.figure.to_string()).collect();
    let answer = window.global::<ui::PlanAdapter>().get_answer();
    let plan = [answer.minimum.figure, answer.maximum.figure, answer.ceiling.figure];
    assert_eq!(limits, plan.map(|figure| figure.to_string()), "the limits are those of the plan");
    open_piece(&window, "2");
    assert!(says(&window, "No reading yet. Measure at the coldest point."));
    read(&window, "318");
    assert_eq!(shown(&window), ["318\u{a0}°C"]);
    // The steps up to the measuring are done; the next reading is one before a tack by itself.
    // The first two belong to the job: the place is made safe, a trial piece is welded.
    for number in 3..=7 {
        assert_eq!(log.get_next_step_button(), format!("Step {number} is done"));
        log.invoke_next_step_asked();
    }
    let steps: Vec<bool> = log.get_steps().iter().map(|step| step.done).collect();
    assert_eq!(steps.iter().filter(|done| **done).count(), 5);
    read(&window, "335");
    let rows: Vec<_> = log.get_readings().iter().collect();
    assert_eq!(rows[0].what, "Before a tack");
    assert_eq!(rows[0].sign, ui::LogSign::Inside, "{}", rows[0].reasons);
    assert!(!log.get_clock().figure.is_empty(), "the minutes left run: {}", log.get_clock().why);
    // While they run the screen stays lit, as long as they are on it.
    assert_eq!(*lit.borrow(), [true]);
    tap(&window, AccessibleRole::Tab, "Plan");
    assert_eq!(*lit.borrow(), [true, false]);
    tap(&window, AccessibleRole::Tab, "Log");
    log.invoke_job_asked(log.get_jobs().row_data(0).expect("the job").id);
    open_piece(&window, "2");
    assert_eq!(*lit.borrow(), [true, false, true]);
    tap(&window, BUTTON, "Step 8 is done");
    log.invoke_finished_asked();
    assert_eq!(log.get_clock().sign, ui::LogSign::Done);
    assert_eq!(lit.borrow().last(), Some(&false), "nothing runs out any more");
    window.global::<ui::Shell>().invoke_back_asked();
    assert!(says(&window, "1 piece is not finished."));
}

#[test]
fn a_repeated_reading_takes_four_taps_at_most() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, _state) = example(PHONE, folder.path());
    open_piece(&window, "7");
    read(&window, "310");
    let taps = ["Add a reading", "+5", "Save the reading"];
    for label in taps {
        tap(&window, BUTTON, label);
    }
    assert_eq!(shown(&window), ["315\u{a0}°C", "310\u{a0}°C"]);
    let again = ["Add a reading", "Same as last", "−5", "Save the reading"];
    for label in again {
        tap(&window, BUTTON, label);
    }
    assert_eq!(shown(&window)[0], "310\u{a0}°C");
    let rows: Vec<_> = adapter(&window).get_readings().iter().collect();
    assert!(rows.iter().all(|row| row.place == rows[0].place), "instrument and place are kept");
    assert!(taps.len() <= 4 && again.len() <= 4);
}

#[test]
fn a_wrong_value_stays_where_it_was_typed() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, _state) = example(PHONE, folder.path());
    open_piece(&window, "7");
    tap(&window, BUTTON, "Add a reading");
    let log = adapter(&window);
    let save = || found(&window, BUTTON, "Save the reading").accessible_enabled();
    assert_eq!(save(), Some(false), "an empty figure is no reading");
    fill(&window, VALUE, "31x");
    assert!(log.get_problem().contains("31x"), "{}", log.get_problem());
    assert_eq!(log.get_typed(), "31x");
    assert_eq!(save(), Some(false));
    fill(&window, VALUE, "315");
    assert_eq!(log.get_problem(), "");
    assert_eq!(log.get_save_why(), "Choose the part that you measured.");
    tap(&window, AccessibleRole::RadioButton, "34CrMo4 Ø90\u{a0}mm");
    assert_eq!(save(), Some(true));
    // A time that is still to come is no time of a reading.
    log.invoke_value_edited("315".into());
    window.global::<ui::FormEvents>().invoke_field_edited("log.time".into(), "2999-01-01 7:30".into());
    assert_eq!(save(), Some(false));
    window.global::<ui::FormEvents>().invoke_field_edited("log.time".into(), "".into());
    fill(&window, VALUE, "600F");
    assert_eq!(log.get_second(), "600\u{a0}°F");
    press(&window, Key::Return);
    assert_eq!(shown(&window), ["316\u{a0}°C"]);
}

#[test]
fn what_was_done_last_is_undone_and_put_back() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, _state) = example((360, 1200), folder.path());
    open_piece(&window, "7");
    read(&window, "310");
    tap(&window, BUTTON, "Undo: Reading 310\u{a0}°C");
    assert!(shown(&window).is_empty());
    tap(&window, BUTTON, "Put back: Reading 310\u{a0}°C");
    assert_eq!(shown(&window), ["310\u{a0}°C"]);
    // A reading is taken back by itself too, and that is undone.
    let row = adapter(&window).get_readings().row_data(0).expect("it is there");
    adapter(&window).invoke_reading_toggled(row.id);
    tap(&window, BUTTON, "Take this reading back");
    assert!(shown(&window).is_empty());
    tap(&window, BUTTON, "Undo: Reading 310\u{a0}°C");
    assert_eq!(shown(&window), ["310\u{a0}°C"]);
}

#[test]
fn a_restart_in_the_middle_loses_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    // What is on the disk as another start finds it: this process still has the first window's number.
    let after = tempfile::tempdir().expect("a folder");
    let before = {
        let (window, state) = example(PHONE, folder.path());
        open_piece(&window, "7");
        read(&window, "310");
        tap(&window, BUTTON, "Add a reading");
        type_on_keys(&window, "32");
        state.flush();
        copy(folder.path(), after.path());
        (adapter(&window).get_piece(), shown(&window))
    };
    let (window, _state) = live_in(PHONE, after.path());
    assert_eq!(page(&window), "log-entry");
    let log = adapter(&window);
    assert_eq!((log.get_piece(), shown(&window)), before);
    assert_eq!(log.get_typed(), "32");
    key(&window, "0");
    tap(&window, BUTTON, "Save the reading");
    assert_eq!(shown(&window), ["320\u{a0}°C", "310\u{a0}°C"]);
}

#[test]
fn a_trial_that_cracked_is_told_at_the_job() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, _state) = example((360, 2400), folder.path());
    let count = adapter(&window).get_trials().row_count();
    let warned = || adapter(&window).get_warned().iter().map(|line| line.to_string()).collect::<Vec<_>>();
    assert!(warned().is_empty(), "the example's own cracked far below its minimum: {:?}", warned());
    tap(&window, BUTTON, "Add a trial piece");
    tap(&window, AccessibleRole::RadioButton, "34CrMo4 Ø90\u{a0}mm");
    type_on_keys(&window, "340");
    // The second of three: it has cracked.
    let events = window.global::<ui::FormEvents>();
    let cracked = strawblue::log::CrackOutcome::ALL.iter().position(|outcome| outcome.id() == "cracked");
    events
        .invoke_choice_made("log.outcome".into(), i32::try_from(cracked.expect("one of them")).unwrap_or(0));
    tap(&window, BUTTON, "Save the trial piece");
    assert_eq!(page(&window), "log-job");
    let log = adapter(&window);
    assert_eq!(log.get_trials().row_count(), count + 1);
    let taught: Vec<String> = log.get_taught().iter().map(|line| line.to_string()).collect();
    assert!(taught.iter().any(|line| line.contains("cracked was at 34")), "{taught:?}");
    assert!(warned().iter().any(|line| line.contains("a trial piece cracked at 34")), "{:?}", warned());
    assert!(
        with(&window, |element| {
            element.accessible_label().is_some_and(|label| label.contains("cracked was at 34"))
        })
        .is_some()
    );
}

/// A trial piece of a job of one's own that cracked above the minimum speaks up in the next plan; one of the
/// example does not.
#[test]
fn a_trial_that_cracked_warns_the_next_plan() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, _state) = live_in(PHONE, folder.path());
    window.global::<ui::PlanAdapter>().invoke_example_asked();
    let lines = || {
        let lines = window.global::<ui::PlanAdapter>().get_answer().lines;
        lines.iter().map(|line| line.to_string()).collect::<Vec<String>>()
    };
    let before = lines();
    let events = window.global::<ui::FormEvents>();
    let cracked = strawblue::log::CrackOutcome::ALL.iter().position(|outcome| outcome.id() == "cracked");
    let cracked = i32::try_from(cracked.expect("one of them")).expect("few");
    // Under the example's name it is one still, and teaches nothing.
    for (name, taught) in [("", 0), ("Our cranks", 1)] {
        window.global::<ui::Shell>().invoke_place_chosen("log".into());
        adapter(&window).invoke_new_asked();
        if !name.is_empty() {
            events.invoke_field_edited("log.name".into(), name.into());
        }
        adapter(&window).invoke_begin_asked();
        soon("the job is begun", || page(&window) == "log-job");
        adapter(&window).invoke_trial_new_asked();
        adapter(&window).invoke_part_picked(1);
        adapter(&window).invoke_value_edited("340".into());
        events.invoke_choice_made("log.outcome".into(), cracked);
        adapter(&window).invoke_save_asked();
        window.global::<ui::Shell>().invoke_place_chosen("plan".into());
        let after = lines();
        assert_eq!(after.len(), before.len() + taught, "{name}: {after:?}");
        let warned = after.first().is_some_and(|line| line.contains("a trial piece cracked at"));
        assert_eq!(warned, taught == 1, "{name}: {after:?}");
    }
}

#[test]
fn two_windows_see_each_other() {
    let folder = tempfile::tempdir().expect("a folder");
    let (first, _at_first) = example(PHONE, folder.path());
    let (second, _at_second) = live_in(DESKTOP, folder.path());
    tap(&second, AccessibleRole::Tab, "Log");
    let row = adapter(&second).get_jobs().row_data(0).expect("the example is listed");
    adapter(&second).invoke_job_asked(row.id);
    let cells = adapter(&second).get_pieces();
    let seven = cells.iter().find(|cell| cell.number == "7").expect("it is there").id;
    adapter(&second).invoke_piece_asked(seven, true);
    assert!(shown(&second).is_empty());
    open_piece(&first, "7");
    read(&first, "310");
    soon("the reading in the second window", || shown(&second) == ["310\u{a0}°C"]);
    assert_eq!(page(&second), "log-job", "each window is where its person is");
}

/// Where the disk can't be written it is said, and what was typed stays; nothing is shown as logged.
#[test]
fn what_cannot_be_written_is_said_and_stays_typed() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, _state) = example(PHONE, folder.path());
    open_piece(&window, "7");
    // A file in the way of a folder: even an administrator can't write there.
    let second = folder.path().join("log-second");
    std::fs::remove_dir_all(&second).expect("it is there");
    std::fs::write(&second, "in the way").expect("it can be written");
    tap(&window, BUTTON, "Add a reading");
    tap(&window, AccessibleRole::RadioButton, "34CrMo4 Ø90\u{a0}mm");
    type_on_keys(&window, "310");
    tap(&window, BUTTON, "Save the reading");
    let log = adapter(&window);
    assert_eq!(page(&window), "log-entry");
    assert_eq!(log.get_typed(), "310");
    assert!(shown(&window).is_empty());
    let said: Vec<String> = log.get_troubles().iter().map(|line| line.to_string()).collect();
    assert!(said.iter().any(|line| line.contains("log-second")), "{said:?}");
    std::fs::remove_file(&second).expect("it was in the way");
    tap(&window, BUTTON, "Save the reading");
    assert_eq!(shown(&window), ["310\u{a0}°C"]);
    assert_eq!(log.get_troubles().row_count(), 0);
}

#[test]
fn a_job_is_removed_and_brought_back() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, _state) = example((360, 2400), folder.path());
    tap(&window, BUTTON, "Remove the job");
    tap(&window, BUTTON, "Keep the job");
    tap(&window, BUTTON, "Remove the job");
    tap(&window, BUTTON, "Remove");
    assert!(labelled(&window, BUTTON, "Bring the job back").is_some());
    tap(&window, BUTTON, "Bring the job back");
    assert_eq!(adapter(&window).get_pieces().row_count(), 8);
}
