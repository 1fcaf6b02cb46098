//! Another steel, and another job: nothing that was said of the old one stays in silence.

use std::rc::Rc;

use crate::screen::compare::{DESKTOP, PHONE};
use crate::screen::hand::{fill, press, tap};
use crate::screen::{live, mock_elapsed_time, typed_at};
use i_slint_backend_testing::AccessibleRole;
use slint::ComponentHandle;
use slint::platform::Key;
use strawblue::app::{State, ui};
use strawblue::job::{Field, Session, demo_job};

fn on_plan(size: (u32, u32)) -> (ui::AppWindow, Rc<State>) {
    let mut job = demo_job();
    job.set(Field::Hardness, Some("30 HRC".into()));
    job.set(Field::Yield, Some("700 MPa".into()));
    job.set(Field::Buttered, Some("yes".into()));
    live(size, Session { job, ..Session::default() })
}

/// Looks the steel up and takes it, as a person does.
fn take(window: &ui::AppWindow, part: &str, name: &str) {
    window.global::<ui::FormEvents>().invoke_pick_asked(part.into());
    mock_elapsed_time(50);
    fill(window, "Find a steel", name);
    tap(window, AccessibleRole::ListItem, name);
    mock_elapsed_time(50);
    assert_eq!(window.global::<ui::Shell>().get_page(), "plan");
}

const SAID_OF_A_STEEL: [Field; 4] = [Field::Condition, Field::Hardness, Field::Yield, Field::Buttered];

#[test]
fn another_steel_takes_what_was_said_of_the_old_one_away() {
    for size in [PHONE, DESKTOP] {
        let (window, state) = on_plan(size);
        let other = typed_at(&state, Field::Condition.nth(1));
        take(&window, "steel", "42CrMo4");
        for field in SAID_OF_A_STEEL {
            assert_eq!(typed_at(&state, field), None, "{field:?} was said of the old steel");
        }
        assert_eq!(typed_at(&state, Field::Condition.nth(1)), other, "the other part is the same steel");
        assert_eq!(typed_at(&state, Field::Thickness), demo_job().get(Field::Thickness).map(str::to_owned));
        // Not known is what counts then, and the form and the answer both say so.
        let rows = window.global::<ui::PlanAdapter>().get_rows();
        let row = slint::Model::row_data(&rows, 0).expect("the first part");
        assert!(row.note.contains("not known"), "{}", row.note);
    }
}

#[test]
fn the_same_steel_once_more_changes_nothing() {
    let (window, state) = on_plan(DESKTOP);
    let before = SAID_OF_A_STEEL.map(|field| typed_at(&state, field));
    let name = typed_at(&state, Field::Steel).expect("a steel");
    take(&window, "steel", &name);
    assert_eq!(SAID_OF_A_STEEL.map(|field| typed_at(&state, field)), before);
}

#[test]
fn escape_leaves_a_field_or_a_sheet_and_never_the_program() {
    for size in [PHONE, DESKTOP] {
        let (window, _state) = on_plan(size);
        let left = Rc::new(std::cell::Cell::new(0));
        window.global::<ui::Shell>().on_leave({
            let left = left.clone();
            move || left.set(left.get() + 1)
        });
        window.global::<ui::FormEvents>().invoke_row_toggled("member-a".into());
        mock_elapsed_time(50);
        for _ in 0..4 {
            press(&window, Key::Escape);
        }
        window.global::<ui::PlanAdapter>().invoke_basis_asked("minimum".into());
        press(&window, Key::Escape);
        assert!(!window.global::<ui::BasisAdapter>().get_open(), "a sheet is left");
        (0..3).for_each(|_| press(&window, Key::Escape));
        assert_eq!(left.get(), 0, "{size:?}: Escape left the program");
        // A phone's own key does, where nothing else is left to leave.
        press(&window, Key::Back);
        assert_eq!(left.get(), 1);
    }
}
