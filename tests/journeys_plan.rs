//! Journeys of a welder through the real window: from an empty screen to a plan, with
//! wrong entries on the way, and pictures of what is seen.
#![cfg(feature = "testing")]

#[path = "screen/compare.rs"]
mod compare;
mod screen;

use compare::{DESKTOP, PHONE, check};
use screen::live;
use slint::ComponentHandle;
use strawblue::app::ui;
use strawblue::log::{Session, demo_job};

fn demo() -> Session {
    Session { job: demo_job(), ..Session::default() }
}

#[test]
fn the_demo_as_pictures() {
    for (size, shape) in [(PHONE, "phone"), (DESKTOP, "desktop")] {
        for (look, name) in [(ui::Look::Dark, "dark"), (ui::Look::Light, "light")] {
            let (window, _state) = live(size, demo());
            window.global::<ui::Theme>().set_look(look);
            check(&window, &format!("demo-plan-{shape}-{name}"));
        }
    }
}
