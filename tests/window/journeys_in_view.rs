//! The answer is never out of view: whatever shortens a page under a view that was scrolled down,
//! something of it stays on the screen, and what is new begins at its top.

use crate::screen::compare::{DESKTOP, PHONE, drawn};
use crate::screen::hand::{fill, found, labelled, tap, with};
use crate::screen::{live, mock_elapsed_time};
use i_slint_backend_testing::{AccessibleRole, ElementHandle};
use slint::platform::{PointerEventButton, WindowEvent};
use slint::{ComponentHandle, LogicalPosition};
use strawblue::app::{State, ui};
use strawblue::job::{Session, demo_job};

fn demo() -> Session {
    Session { job: demo_job(), ..Session::default() }
}

/// Turns the wheel over a place, down to the end.
fn to_the_end(window: &ui::AppWindow, (x, y): (f32, f32)) {
    let position = LogicalPosition::new(x, y);
    window.window().dispatch_event(WindowEvent::PointerMoved { position });
    for _ in 0..80 {
        let scrolled = WindowEvent::PointerScrolled { position, delta_x: 0.0, delta_y: -200.0 };
        window.window().dispatch_event(scrolled);
        mock_elapsed_time(20);
    }
}

/// The results of a wide page, or the middle of a phone.
const fn over_results(size: (u32, u32)) -> (f32, f32) {
    if size.0 < 600 { (180.0, 400.0) } else { (900.0, 400.0) }
}

fn taps(window: &ui::AppWindow, id: &'static str) {
    with(window, move |element| element.accessible_id().is_some_and(|found| found == id))
        .unwrap_or_else(|| panic!("there is no {id}"))
        .mock_single_click(PointerEventButton::Left);
    mock_elapsed_time(20);
}

fn take_steel(window: &ui::AppWindow, state: &State, name: &str, title: &str) {
    window.global::<ui::FormEvents>().invoke_pick_asked("steel".into());
    mock_elapsed_time(50);
    assert_eq!(window.global::<ui::Shell>().get_page(), "steels");
    fill(window, "Find a steel", name);
    tap(window, AccessibleRole::ListItem, title);
    mock_elapsed_time(50);
    assert!(state.planned().is_some());
}

/// Does an element lie in the part of the window that pages are drawn in?
fn in_view(window: &ui::AppWindow, element: &ElementHandle) -> bool {
    let (top, high) = (element.absolute_position().y, element.size().height);
    let window_high = window.window().size().height as f32;
    top >= 40.0 && top + high.min(24.0) <= window_high - 10.0
}

/// How much of what is drawn from `left` on, under the header, is not the ground of the page.
fn drawn_over(window: &ui::AppWindow, left: u32) -> usize {
    let picture = drawn(window);
    let ground = window.global::<ui::Theme>().get_bg().to_argb_u8();
    let ground = [ground.red, ground.green, ground.blue];
    let rows = 70..picture.height() - 80;
    rows.flat_map(|y| (left..picture.width() - 16).map(move |x| (x, y)))
        .filter(|(x, y)| picture.get_pixel(*x, *y).0[..3].iter().zip(ground).any(|(a, b)| a.abs_diff(b) > 30))
        .count()
}

fn left_of_results(size: (u32, u32)) -> u32 {
    if size.0 < 600 { 0 } else { 484 }
}

#[test]
fn a_refusal_is_in_view_however_far_down_the_plan_was_read() {
    for size in [PHONE, DESKTOP] {
        let (window, state) = live(size, demo());
        to_the_end(&window, over_results(size));
        take_steel(&window, &state, "12L14", "SAE 12L14");
        let refusal = found(&window, AccessibleRole::Text, "Do not weld this");
        assert!(in_view(&window, &refusal), "{size:?}: at {:?}", refusal.absolute_position());
    }
}

#[test]
fn a_new_steel_begins_at_the_top_of_its_answer() {
    for size in [PHONE, DESKTOP] {
        let (window, state) = live(size, demo());
        to_the_end(&window, over_results(size));
        take_steel(&window, &state, "42CrMo4", "42CrMo4");
        let figure = with(&window, |element| {
            element.accessible_id().is_some_and(|id| id == "minimum-btn" || id == "minimum-wide-btn")
        });
        let figure = figure.expect("a minimum");
        assert!(in_view(&window, &figure), "{size:?}: at {:?}", figure.absolute_position());
    }
}

#[test]
fn no_pane_is_empty_when_its_contents_get_shorter() {
    for size in [PHONE, DESKTOP] {
        let (window, _state) = live(size, demo());
        to_the_end(&window, over_results(size));
        // An entry that can't be read takes strip, evidence and everything under them away.
        window.global::<ui::FormEvents>().invoke_field_edited("thickness".into(), "thick".into());
        mock_elapsed_time(100);
        let seen = drawn_over(&window, left_of_results(size));
        assert!(seen > 2000, "{size:?}: {seen} pixels of a page");
        // And the same after a look at another place.
        tap(&window, AccessibleRole::Tab, "Safety");
        tap(&window, AccessibleRole::Tab, "Plan");
        mock_elapsed_time(100);
        let seen = drawn_over(&window, left_of_results(size));
        assert!(seen > 2000, "{size:?}: {seen} pixels of a page after a look elsewhere");
    }
}

#[test]
fn a_search_among_steels_shows_its_first_hit() {
    for size in [PHONE, DESKTOP] {
        let (window, state) = live(size, demo());
        window.global::<ui::FormEvents>().invoke_pick_asked("steel".into());
        for group in state.reference.groups() {
            state.open.borrow_mut().steel_groups.insert(group.to_owned());
        }
        window.global::<ui::SteelsAdapter>().invoke_query_edited("".into());
        mock_elapsed_time(50);
        to_the_end(&window, (180.0, 400.0));
        fill(&window, "Find a steel", "S355J2");
        let hit = labelled(&window, AccessibleRole::ListItem, "S355J2");
        assert!(hit.is_some_and(|hit| in_view(&window, &hit)), "{size:?}");
        // Another search begins at the top too, where both lists are long.
        fill(&window, "Find a steel", "cr");
        to_the_end(&window, (180.0, 400.0));
        fill(&window, "Find a steel", "S355J2");
        let hit = labelled(&window, AccessibleRole::ListItem, "S355J2");
        assert!(hit.is_some_and(|hit| in_view(&window, &hit)), "{size:?}");
    }
}

#[test]
fn a_search_among_safety_notes_shows_something() {
    for size in [PHONE, DESKTOP] {
        let (window, _state) = live(size, demo());
        tap(&window, AccessibleRole::Tab, "Safety");
        let search = with(&window, |element| element.accessible_role() == Some(AccessibleRole::TextInput));
        let label = search.and_then(|field| field.accessible_label()).expect("a search").to_string();
        fill(&window, &label, "a");
        to_the_end(&window, over_results(size));
        fill(&window, &label, "acetylene flashback");
        mock_elapsed_time(100);
        let seen = drawn_over(&window, left_of_results(size));
        assert!(seen > 1000, "{size:?}: {seen} pixels of a page");
    }
}

/// On a desktop as on a phone: the figures stay while the rest is read.
#[test]
fn the_figures_stay_in_view_while_the_rest_is_read() {
    for size in [PHONE, DESKTOP] {
        let (window, _state) = live(size, demo());
        to_the_end(&window, over_results(size));
        let minimum = window.global::<ui::PlanAdapter>().get_answer().minimum;
        let bar = labelled(&window, AccessibleRole::Button, "Back to the answer");
        assert!(bar.is_some_and(|bar| in_view(&window, &bar)), "{size:?}: {}", minimum.figure);
        tap(&window, AccessibleRole::Button, "Back to the answer");
        let figure = with(&window, |element| {
            element.accessible_id().is_some_and(|id| id == "minimum-btn" || id == "minimum-wide-btn")
        });
        assert!(figure.is_some_and(|figure| in_view(&window, &figure)), "{size:?}");
    }
}

/// What was scrolled to is still there after a filler was chosen: form and results keep their place.
#[test]
fn a_filler_that_is_chosen_leaves_the_form_where_it_was() {
    let (window, _state) = live(DESKTOP, demo());
    window.global::<ui::FormEvents>().invoke_row_toggled("weld".into());
    mock_elapsed_time(50);
    let filler = || with(&window, |element| element.accessible_id().is_some_and(|id| id == "filler-btn"));
    for _ in 0..80 {
        if filler().is_some_and(|button| button.absolute_position().y < 700.0) {
            break;
        }
        let position = LogicalPosition::new(280.0, 400.0);
        let scrolled = WindowEvent::PointerScrolled { position, delta_x: 0.0, delta_y: -60.0 };
        window.window().dispatch_event(scrolled);
        mock_elapsed_time(20);
    }
    let place = || -> f32 {
        let row = with(&window, |element| element.accessible_id().is_some_and(|id| id == "weld-btn"));
        row.expect("the row of the filler").absolute_position().y
    };
    let before = place();
    let scrolled = || window.global::<ui::PlanAdapter>().get_scroll_inputs();
    let was = scrolled();
    taps(&window, "filler-btn");
    assert_eq!(window.global::<ui::Shell>().get_page(), "fillers");
    fill(&window, "Find a filler", "70S-6");
    tap(&window, AccessibleRole::ListItem, "ER70S-6");
    mock_elapsed_time(100);
    assert_eq!(window.global::<ui::Shell>().get_page(), "plan");
    assert!((scrolled() - was).abs() < 4.0, "scrolled to {was}, and now to {}", scrolled());
    let after = place();
    assert!((after - before).abs() < 4.0, "the row was at {before} and is at {after}");
}
