//! A reading before a tack keeps the minimum, and the step of the tack asks for more.

use strawblue::engine::reading::{Band, When, judge};
use strawblue::reference::embedded;
use strawblue::report::{Pen, reading_reasons};
use strawblue::units::{Show, Units};
use strawblue::words::Words;

use crate::demo::plan_of_demo;

#[test]
fn a_reading_before_a_tack_is_held_to_the_step_too() {
    let (plan, words) = (plan_of_demo(), Words::english());
    let pen = Pen { reference: embedded(), words: &words, show: Show::new(Units::C_MM, &words) };
    let said = |when, low_c, high_c| {
        let band = Band::from_to(low_c, high_c);
        let judged = judge(&band, when, &plan.limits());
        reading_reasons(&pen, &plan, &judged, when, &band).join(" ").replace('\u{a0}', " ")
    };
    // The demo is welded at 300 to 350 °C and tacked 40 K above its minimum: common practice, no source.
    let asked = said(When::BeforeTack, 328.0, 332.0);
    assert_eq!(asked, "Heat to 340–350 °C before you tack.");
    assert_eq!(said(When::BeforeTack, 341.0, 345.0), "");
    assert_eq!(said(When::BeforeRun(1), 328.0, 332.0), "");
    // Too cool for any arc is said by the minimum alone.
    assert_eq!(said(When::BeforeTack, 280.0, 284.0), "Below the minimum of 300 °C.");
}
