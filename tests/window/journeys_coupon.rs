//! A coupon of the bar in the Tint place.

use crate::journeys_tint::{PHONE, ends, on_tint};
use crate::screen::compare::check_rows;
use crate::screen::hand::tap;
use crate::screen::mock_elapsed_time;
use i_slint_backend_testing::AccessibleRole;
use slint::{ComponentHandle, Model};
use strawblue::app::{refresh_all, ui};
use strawblue::engine::tint::Stage;
use strawblue::job::Field;

/// A coupon of the bar: typed as it was heated, read and seen. It narrows what a colour tells, says
/// so in Tint and in the plan, counts for no other steel, and can be thrown away.
#[test]
fn a_coupon_narrows_the_colours_of_its_bar_alone() {
    let (window, state) = on_tint(PHONE);
    let form = || window.global::<ui::FormEvents>();
    tap(&window, AccessibleRole::RadioButton, "2.5\u{a0}min");
    tap(&window, AccessibleRole::RadioButton, "Purple-blue");
    let plain = ends(&window);
    let typed = |key: &str, text: &str| {
        form().invoke_field_edited(format!("ask:tint-coupon.{key}").into(), text.into());
    };
    form().invoke_choice_made("ask:tint-coupon.looked".into(), 0);
    let blue = Stage::Blue as i32;
    form().invoke_choice_made("ask:tint-coupon.colour".into(), blue);
    form().invoke_choice_made("ask:tint-coupon.coupon-instrument".into(), 1);
    typed("coupon-minutes", "3");
    typed("coupon-read", "hot");
    mock_elapsed_time(50);
    assert_eq!(ends(&window), plain, "what cannot be read teaches nothing");
    typed("coupon-read", "340");
    mock_elapsed_time(50);
    let taught = ends(&window);
    assert!(taught.1 - taught.0 < plain.1 - plain.0, "{taught:?} is narrower than {plain:?}");
    let said = "Your coupon of this bar counts.";
    let notes = || window.global::<ui::TintAdapter>().get_notes();
    assert!(Model::iter(&notes()).any(|note| note.starts_with(said)), "the coupon is named where it counts");
    let of_plan = || {
        let moments = window.global::<ui::PlanAdapter>().get_moments();
        Model::iter(&moments).any(|moment| moment.note.contains("Your coupon counts."))
    };
    assert!(of_plan(), "and in the plan");

    state.open.borrow_mut().rows.insert("ask:tint-coupon".to_owned());
    refresh_all(&window, &state);
    mock_elapsed_time(50);
    check_rows(
        &window,
        (0, 360),
        ("Coupon of the same bar", "In the Tint place it moves"),
        "tint-coupon-phone-dark",
    );

    // Another steel in the plan: it counts no longer, and its row says why.
    let first = state.session(|session| session.job.clone());
    state.change_job(|job| {
        for nth in 0..2 {
            job.set(Field::Steel.nth(nth), Some("42CrMo4".to_owned()));
        }
    });
    refresh_all(&window, &state);
    assert!(!of_plan() && !Model::iter(&notes()).any(|note| note.starts_with(said)));
    state.change_job(|job| *job = first);
    refresh_all(&window, &state);
    assert!(of_plan());

    // Thrown away.
    form().invoke_action_asked("ask:tint-coupon".into());
    mock_elapsed_time(50);
    assert!(!of_plan());
    assert_eq!(ends(&window), plain);
}
