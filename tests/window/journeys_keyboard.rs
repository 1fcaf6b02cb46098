//! The keyboard goes on where the hand was: nothing that unfolds, folds or opens loses it.

use crate::screen::hand::{found, press, with};
use crate::screen::{live, typed_at};
use i_slint_backend_testing::AccessibleRole;
use slint::ComponentHandle;
use slint::platform::{Key, PointerEventButton};
use strawblue::app::ui;
use strawblue::job::{Field, Session, demo_job};

const DESKTOP: (u32, u32) = (1280, 800);

fn demo() -> Session {
    Session { job: demo_job(), ..Session::default() }
}

fn tap_id(window: &ui::AppWindow, id: &str) {
    let wanted = id.to_owned();
    with(window, move |element| element.accessible_id().is_some_and(|found| found == wanted))
        .unwrap_or_else(|| panic!("there is no {id}"))
        .mock_single_click(PointerEventButton::Left);
}

#[test]
fn a_list_that_unfolds_is_chosen_from_and_folded_by_keyboard_alone() {
    let (window, state) = live(DESKTOP, demo());
    let condition = || typed_at(&state, Field::Condition);
    let unfolded = || state.open.borrow().rows.contains("list:condition");
    let before = condition();
    tap_id(&window, "list:condition-btn");
    assert!(unfolded(), "a tap unfolds it");
    // Escape folds it and changes nothing, and the box has the keyboard again.
    press(&window, Key::Escape);
    assert!(!unfolded() && condition() == before, "Escape folds it");
    press(&window, Key::Return);
    assert!(unfolded(), "the box that it folds back to has the keyboard");
    // The list has it now: an arrow moves, Return chooses, and the box has it again.
    press(&window, Key::DownArrow);
    press(&window, Key::Return);
    assert!(!unfolded(), "a choice folds it");
    let chosen = condition();
    assert_ne!(chosen, before, "the next one is chosen");
    press(&window, Key::Return);
    press(&window, Key::UpArrow);
    press(&window, Key::Return);
    assert_eq!(condition(), before, "and the one before it again");
}

#[test]
fn a_search_page_takes_what_is_typed_and_gives_the_keyboard_back() {
    let (window, state) = live(DESKTOP, demo());
    tap_id(&window, "steel-btn");
    assert_eq!(window.global::<ui::Shell>().get_page(), "steels");
    for letter in "4140".chars() {
        press(&window, slint::SharedString::from(letter));
    }
    assert_eq!(state.open.borrow().steel_query, "4140", "typed without a tap on the search");
    press(&window, Key::Escape);
    assert_eq!(window.global::<ui::Shell>().get_page(), "plan");
    press(&window, Key::Return);
    assert_eq!(window.global::<ui::Shell>().get_page(), "steels", "the box that opened it has the keyboard");
}

#[test]
fn a_place_that_is_chosen_begins_at_its_beginning() {
    let (window, _state) = live(DESKTOP, demo());
    found(&window, AccessibleRole::Tab, "Safety").mock_single_click(PointerEventButton::Left);
    assert_eq!(window.global::<ui::Shell>().get_page(), "safety");
    // The first thing of the page, and not the rail beside it, comes next.
    press(&window, Key::Tab);
    press(&window, slint::SharedString::from("z"));
    assert_eq!(window.global::<ui::Shell>().get_page(), "safety", "no place was chosen");
    press(&window, Key::Escape);
    assert_eq!(window.global::<ui::Shell>().get_page(), "safety", "a place has nothing to go back to");
}
