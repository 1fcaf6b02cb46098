//! The whole main job from a cold start, and no hand on the screen: steel, thickness, joint and process to a
//! preheat and why, the heat cycle, a reading in the log, the job card.

use crate::journeys_cycle::rest;
use crate::screen::hand::{press, with};
use crate::screen::{live_in, mock_elapsed_time, soon};
use i_slint_backend_testing::{AccessibleRole, ElementHandle, ElementQuery};
use slint::platform::Key;
use slint::{ComponentHandle, Model, SharedString};
use strawblue::app::ui;

const PHONE: (u32, u32) = (360, 740);
const BUTTON: AccessibleRole = AccessibleRole::Button;
const FIELD: AccessibleRole = AccessibleRole::TextInput;

fn page(window: &ui::AppWindow) -> String {
    window.global::<ui::Shell>().get_page().to_string()
}

fn types(window: &ui::AppWindow, text: &str) {
    text.chars().for_each(|letter| press(window, SharedString::from(letter)));
}

/// Does the ring of the keyboard lie around this?
fn ringed(ring: &ElementHandle, wanted: &ElementHandle) -> bool {
    let (at, size) = (ring.absolute_position(), ring.size());
    let (there, room) = (wanted.absolute_position(), wanted.size());
    let middle = (there.x + room.width / 2.0, there.y + room.height / 2.0);
    (at.x..=at.x + size.width).contains(&middle.0)
        && (at.y..=at.y + size.height).contains(&middle.1)
        && size.width < room.width + 90.0
        && size.height < room.height + 60.0
}

/// Tab leads to what begins so.
fn tab_to(window: &ui::AppWindow, role: AccessibleRole, label: &str) {
    for _ in 0..150 {
        press(window, Key::Tab);
        let begin = label.to_owned();
        // What is scrolled out of sight is not found until the keyboard is near it.
        let wanted = with(window, move |element| {
            element.accessible_role() == Some(role)
                && element.accessible_label().is_some_and(|found| found.starts_with(begin.as_str()))
        });
        let Some(wanted) = wanted else { continue };
        let rings = ElementQuery::from_root(window).match_inherits("FocusRing").find_all();
        if rings.iter().any(|ring| ringed(ring, &wanted)) {
            return;
        }
    }
    let there =
        ElementQuery::from_root(window).match_predicate(|element| element.accessible_label().is_some());
    for element in there.find_all() {
        println!("{:?} {:?}", element.accessible_role(), element.accessible_label());
    }
    panic!("on {} Tab does not lead to {role:?} “{label}”", page(window));
}

fn act(window: &ui::AppWindow, role: AccessibleRole, label: &str) {
    tab_to(window, role, label);
    press(window, Key::Return);
    settle(window);
}

/// What unfolded is made, and takes the keyboard.
fn settle(window: &ui::AppWindow) {
    for _ in 0..3 {
        assert!(with(window, |_| true).is_some());
        mock_elapsed_time(50);
    }
}

fn type_into(window: &ui::AppWindow, label: &str, text: &str) {
    tab_to(window, FIELD, label);
    types(window, text);
}

#[test]
fn the_main_job_goes_by_the_keyboard_alone() {
    let (home, files) = (tempfile::tempdir().expect("a folder"), tempfile::tempdir().expect("a folder"));
    let (window, state) = live_in(PHONE, home.path());
    let plan = || window.global::<ui::PlanAdapter>();
    let log = || window.global::<ui::LogAdapter>();
    state.change(|session| {
        session.typed.insert("log.folder".to_owned(), files.path().display().to_string());
    });

    // Four entries: each button leads the keyboard to where it is typed or chosen.
    act(&window, BUTTON, "Choose the steel");
    assert_eq!(page(&window), "steels");
    type_into(&window, "Find a steel", "42CrMo4");
    press(&window, Key::Return);
    press(&window, Key::Return);
    settle(&window);
    assert_eq!(page(&window), "plan");
    let wanted = || plan().get_answer().lines.iter().map(String::from).collect::<Vec<_>>();
    assert_eq!(wanted().len(), 3, "{:?}", wanted());
    act(&window, BUTTON, "Type the thickness");
    // Half of it can't be read, and the answer grows: the field keeps its place, and the keyboard.
    types(&window, "40 mm");
    assert_eq!(wanted().len(), 2, "{:?}", wanted());
    act(&window, BUTTON, "Choose the joint");
    press(&window, " ");
    assert_eq!(wanted().len(), 1, "{:?}", wanted());
    act(&window, BUTTON, "Choose the process");
    press(&window, " ");
    let answer = plan().get_answer();
    assert_eq!(answer.kind, ui::AnswerKind::Window, "{answer:?}");
    let minimum: f64 = answer.minimum.figure.parse().expect("a figure");
    assert!((150.0..=400.0).contains(&minimum), "{minimum}");

    // Why.
    act(&window, BUTTON, "Minimum preheat");
    let basis = || window.global::<ui::BasisAdapter>();
    assert!(basis().get_open() && basis().get_view().formula.row_count() > 0);
    press(&window, Key::Escape);
    assert!(!basis().get_open());

    // The heat cycle: what is still wanted is typed on its page.
    act(&window, BUTTON, "Heat cycle");
    assert_eq!(page(&window), "cycle");
    for (field, text) in
        [("Flow of fuel gas", "100 ft3/h"), ("Width of the plate", "160"), ("Length of the plate", "400")]
    {
        type_into(&window, field, text);
    }
    rest(&state);
    let cycle = || window.global::<ui::CycleAdapter>();
    assert_eq!(cycle().get_figures().row_count(), 4);
    // The first one leaves the field.
    press(&window, Key::Escape);
    press(&window, Key::Escape);
    assert_eq!(page(&window), "plan");

    // The job, its piece, a reading.
    act(&window, BUTTON, "Make a job of this plan");
    assert_eq!(page(&window), "log-new");
    type_into(&window, "Number of pieces", "1");
    act(&window, BUTTON, "Begin the job");
    soon("the job is begun", || page(&window) == "log-job");
    let cell = log().get_pieces().row_data(0).expect("a piece");
    act(&window, BUTTON, &cell.spoken);
    assert_eq!(page(&window), "log-piece");
    act(&window, BUTTON, "Add a reading");
    let figure = (minimum + 10.0).to_string();
    // The figure has no ring of its own: what is typed tells that the keyboard is in it.
    let mut tabs = 0;
    while log().get_typed().is_empty() {
        tabs += 1;
        assert!(tabs < 40, "Tab leads to the figure");
        press(&window, Key::Tab);
        press(&window, &figure[..1]);
    }
    types(&window, &figure[1..]);
    assert_eq!(log().get_typed(), figure);
    act(&window, BUTTON, "Save the reading");
    assert_eq!(page(&window), "log-piece", "{}", log().get_save_why());
    assert_eq!(log().get_readings().row_count(), 1);

    // The card.
    press(&window, Key::Escape);
    assert_eq!(page(&window), "log-job");
    act(&window, BUTTON, "Job card");
    let hand = || window.global::<ui::HandAdapter>();
    soon("the pages", || hand().get_pages() > 0);
    act(&window, BUTTON, "Save as PDF");
    soon("the card", || !hand().get_saving());
    let saved = std::fs::read_dir(files.path()).expect("the folder").count();
    assert_eq!(saved, 1, "{}", hand().get_not_saved());
}
