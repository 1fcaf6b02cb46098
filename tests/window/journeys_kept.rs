//! Journeys where something can't be kept or read: a line says so, on a phone and on a desktop.

use std::fs;

use crate::screen::compare::{DESKTOP, PHONE, check_part};
use crate::screen::{live, live_in, live_with, mock_elapsed_time, typed_at};
use i_slint_backend_testing::{AccessibleRole, ElementHandle, ElementQuery};
use slint::ComponentHandle;
use strawblue::app::ui;
use strawblue::job::{Field, Session, demo_job};

const AWAY: &str = "Close this message";

fn found(window: &ui::AppWindow, wanted: impl Fn(&ElementHandle) -> bool + 'static) -> Option<ElementHandle> {
    ElementQuery::from_root(window).match_predicate(wanted).find_first()
}

/// Does a text on the screen say this?
fn says(window: &ui::AppWindow, part: &str) -> bool {
    let part = part.to_owned();
    found(window, move |element| {
        element.accessible_role() == Some(AccessibleRole::Text)
            && element.accessible_label().is_some_and(|label| label.contains(&part))
    })
    .is_some()
}

fn put_away(window: &ui::AppWindow) {
    let button = found(window, |element| element.accessible_label().is_some_and(|label| label == AWAY));
    button.expect("a line to put away").invoke_accessible_default_action();
    mock_elapsed_time(20);
}

fn typed(window: &ui::AppWindow, field: &str, text: &str) {
    window.global::<ui::FormEvents>().invoke_field_edited(field.into(), text.into());
    mock_elapsed_time(20);
}

#[test]
fn a_session_that_was_kept_aside_is_said_at_the_start() {
    for size in [PHONE, DESKTOP] {
        let folder = tempfile::tempdir().expect("a folder");
        let file = folder.path().join("session.ron");
        fs::write(&file, "(theme: Purple, job: (thickness: 38, leg: [1, 2]))").expect("writes");
        let (window, state) = live_in(size, folder.path());
        assert!(says(&window, "Leg length. The file is kept as "), "{size:?}");
        assert!(says(&window, "session.ron.broken"), "{size:?}");
        assert_eq!(typed_at(&state, Field::Thickness).as_deref(), Some("38"));
        // It stays while one works, and goes when it is put away.
        typed(&window, "thickness", "40");
        assert!(says(&window, "session.ron.broken"));
        put_away(&window);
        assert!(!says(&window, "session.ron.broken"));
        // What is read whole says nothing.
        state.flush();
        let (window, _state) = live_in(size, folder.path());
        assert_eq!(window.global::<ui::Shell>().get_notice(), "");
    }
}

#[test]
fn a_session_that_cannot_be_read_is_left_alone_and_said() {
    let folder = tempfile::tempdir().expect("a folder");
    // A folder in the place of the file can't be read as one.
    fs::create_dir(folder.path().join("session.ron")).expect("makes");
    let (window, _state) = live_in(PHONE, folder.path());
    assert!(says(&window, "is lost when the program ends"));
    typed(&window, "thickness", "40");
    assert!(folder.path().join("session.ron").is_dir(), "nothing is saved over it");
}

#[test]
fn what_cannot_be_saved_is_said_until_it_can_be() {
    for size in [PHONE, DESKTOP] {
        let folder = tempfile::tempdir().expect("a folder");
        let inner = folder.path().join("kept");
        let (window, state) = live_in(size, &inner);
        let typed = |window: &ui::AppWindow, field: &str, text: &str| {
            typed(window, field, text);
            state.flush();
            mock_elapsed_time(200);
        };
        typed(&window, "thickness", "38");
        assert!(!says(&window, "Not saved"), "{size:?}");
        fs::remove_dir_all(&inner).expect("removes");
        typed(&window, "thickness", "40");
        assert!(says(&window, "Not saved"), "{size:?}");
        // Put away, it comes back with the next loss.
        put_away(&window);
        assert!(!says(&window, "Not saved"), "{size:?}");
        typed(&window, "thickness", "41");
        assert!(says(&window, "Not saved"), "{size:?}");
        fs::create_dir(&inner).expect("makes");
        typed(&window, "thickness", "42");
        assert!(!says(&window, "Not saved"), "{size:?}");
    }
}

#[test]
fn the_line_as_pictures() {
    for (size, high, name) in [(PHONE, 260, "notice-phone-dark"), (DESKTOP, 140, "notice-desktop-light")] {
        let (window, state) = live(size, Session { job: demo_job(), ..Session::default() });
        let look = if size == PHONE { ui::Look::Dark } else { ui::Look::Light };
        window.global::<ui::Theme>().set_look(look);
        let path = ("path", "/home/shop/.local/share/strawblue/session.ron.broken");
        state.tell(move |words| words.with("store-kept-aside", &[("fields", "Leg"), path]));
        mock_elapsed_time(20);
        check_part(&window, (0, 0, size.0, high), name);
    }
}

#[test]
fn a_session_kept_under_the_older_name_of_a_place_opens_there() {
    for (kept, page) in [("care", "safety"), ("safety", "safety"), ("bench", "bench"), ("steels", "plan")] {
        let session = Session { place: kept.to_owned(), ..Session::default() };
        let (window, _state) = live_with(PHONE, session, None);
        assert_eq!(window.global::<ui::Shell>().get_page(), page, "kept: {kept}");
    }
}
