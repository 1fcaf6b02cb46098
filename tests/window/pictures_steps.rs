//! What to do, in order, where its way parts: two ways by a furnace, two methods for iron. One way from
//! end to end stands in the picture of the whole plan.

use crate::screen::compare::check_rows;
use crate::screen::live;
use crate::typed_job;
use strawblue::job::{JobText, Session, Theme};

/// So high that the whole plan stands in the window.
const PHONE_WHOLE: (u32, u32) = (360, 9000);
const DESKTOP_WHOLE: (u32, u32) = (1280, 6000);

fn job(typed: &[(&str, &str)]) -> JobText {
    typed_job::job(typed)
}

/// The rows from one label to another, as they are drawn.
fn rows(size: (u32, u32), theme: Theme, job: JobText, ends: (&str, &str), name: &str) {
    let (window, _state) = live(size, Session { job, theme, ..Session::default() });
    let across = if size.0 > 360 { (480, 800) } else { (0, 360) };
    check_rows(&window, across, ends, name);
}

#[test]
fn two_ways_by_a_furnace() {
    let p91 = [("steel", "P91"), ("thickness", "30 mm"), ("joint", "butt"), ("process", "smaw basic")];
    let ends = ("10. If you must stop, keep the joint hot", "14. Inspect, this long after the weld is cold");
    rows(PHONE_WHOLE, Theme::Light, job(&p91), ends, "steps-furnace-phone-light");
}

#[test]
fn two_methods_for_iron() {
    let iron = [("steel", "GREY"), ("thickness", "20 mm"), ("joint", "repair"), ("process", "smaw nickel")];
    let ends = ("1. Make the place safe", "8. Inspect when it is cold");
    rows(DESKTOP_WHOLE, Theme::Light, job(&iron), ends, "steps-iron-desktop-light");
}
