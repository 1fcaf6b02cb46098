//! A phone is turned, and put away, in the middle of an entry.

use std::time::{Duration, Instant};

use crate::screen::compare::PHONE;
use crate::screen::hand::{fill, found, press, tap};
use crate::screen::{live_in, mock_elapsed_time};
use i_slint_backend_testing::AccessibleRole;
use slint::platform::WindowEvent;
use slint::{ComponentHandle, LogicalSize, PhysicalSize, SharedString};
use strawblue::app::{Device, on_device, ui};

const WELDER: &str = "Welder";

fn turn(window: &ui::AppWindow, width: u32, height: u32) {
    window.window().set_size(PhysicalSize::new(width, height));
    let size = LogicalSize::new(width as f32, height as f32);
    window.window().dispatch_event(WindowEvent::Resized { size });
    mock_elapsed_time(100);
}

fn entered(window: &ui::AppWindow) -> String {
    found(window, AccessibleRole::TextInput, WELDER).accessible_value().unwrap_or_default().to_string()
}

fn go_on(window: &ui::AppWindow, letters: &str) {
    letters.chars().for_each(|letter| press(window, SharedString::from(letter)));
}

/// A phone whose person wants letters of this size in all programs.
struct Letters(f32);

impl Device for Letters {
    fn text_scale(&self) -> f32 {
        self.0
    }
}

#[test]
fn the_size_of_text_of_the_phone_is_followed() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, state) = live_in(PHONE, folder.path());
    let scale = || window.global::<ui::Asked>().get_scale();
    for (system, asked, drawn) in
        [(1.0, 1.0, 1.0), (1.3, 1.0, 1.3), (1.3, 1.5, 1.95), (2.0, 2.0, 2.0), (0.85, 1.0, 1.0)]
    {
        on_device(&window, &state, Letters(system));
        window.global::<ui::Asked>().set_text(asked);
        assert!((scale() - drawn).abs() < 1e-5, "{system} and {asked}: {}", scale());
    }
}

#[test]
fn an_entry_outlives_a_turn_and_a_pocket() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, _first) = live_in(PHONE, folder.path());
    window.global::<ui::PlanAdapter>().invoke_example_asked();
    tap(&window, AccessibleRole::Tab, "Log");
    tap(&window, AccessibleRole::Button, "Make a job of this plan");
    fill(&window, WELDER, "Ni");
    // On its side, and back: the field has the keyboard still, and the next letter comes after the last.
    turn(&window, PHONE.1, PHONE.0);
    go_on(&window, "ght");
    assert_eq!(entered(&window), "Night");
    turn(&window, PHONE.0, PHONE.1);
    go_on(&window, " shift");
    assert_eq!(entered(&window), "Night shift");
    // Unfolded to the width of a desktop and back: what was typed is there.
    turn(&window, 900, 740);
    assert_eq!(entered(&window), "Night shift");
    turn(&window, PHONE.0, PHONE.1);
    assert_eq!(entered(&window), "Night shift");
    // In the pocket the system may end the program without a word: nobody asks it to save.
    let from = Instant::now();
    let kept = || std::fs::read_to_string(folder.path().join("session.ron")).unwrap_or_default();
    while !kept().contains("Night shift") {
        assert!(from.elapsed() < Duration::from_secs(60), "it is saved without being asked");
        std::thread::sleep(Duration::from_millis(20));
        mock_elapsed_time(100);
    }
    // Within one process the first window never goes, so the next start has a folder of its own.
    let next = tempfile::tempdir().expect("a folder");
    std::fs::copy(folder.path().join("session.ron"), next.path().join("session.ron")).expect("copies");
    let (again, _state) = live_in(PHONE, next.path());
    tap(&again, AccessibleRole::Button, "Make a job of this plan");
    assert_eq!(entered(&again), "Night shift");
}
