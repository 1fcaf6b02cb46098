//! The window as a phone has it: margins that belong to the system, a keyboard that rises, a
//! back key. The system is played here; the window is the real one.

use std::cell::Cell;
use std::rc::Rc;

use crate::screen::compare::{PHONE, check_drawn, drawn};
use crate::screen::{live, mock_elapsed_time};
use i_slint_backend_testing::{ElementHandle, ElementQuery};
use i_slint_core::InternalToken;
use i_slint_core::lengths::LogicalEdges;
use i_slint_core::window::WindowInner;
use image::{Rgba, RgbaImage};
use slint::platform::{Key, PointerEventButton, WindowEvent};
use slint::{ComponentHandle, LogicalPosition, LogicalSize, SharedString};
use strawblue::app::{State, refresh_all, ui};
use strawblue::job::{Session, demo_job};

/// Margins of an upright phone with a camera at the top and a gesture line at the foot, px.
const UPRIGHT: [f32; 4] = [36.0, 0.0, 24.0, 0.0];
/// Margins of the same phone on its side: top, right, bottom, left, px.
const SIDEWAYS: [f32; 4] = [0.0, 44.0, 20.0, 36.0];
/// Height of the keyboard, px.
const KEYBOARD: f32 = 290.0;
/// The header and the answer, which stay above the form; the places below it, px.
const ABOVE: f32 = 52.0 + 64.0;
const BELOW: f32 = 64.0;
/// The colour that the system's own areas are painted in for the eye; in no theme.
const SYSTEM: Rgba<u8> = Rgba([128, 96, 160, 255]);

/// A phone: the real window, and what its system has taken of it.
struct Phone {
    window: ui::AppWindow,
    state: Rc<State>,
    size: (u32, u32),
    margins: [f32; 4],
    keyboard: f32,
}

impl Phone {
    fn new(size: (u32, u32), margins: [f32; 4]) -> Self {
        let (window, state) = live(size, Session { job: demo_job(), ..Session::default() });
        window.global::<ui::Theme>().set_look(ui::Look::Dark);
        let [top, right, bottom, left] = margins;
        WindowInner::from_pub(window.window()).set_window_item_safe_area(LogicalEdges {
            top,
            bottom,
            left,
            right,
        });
        mock_elapsed_time(50);
        Self { window, state, size, margins, keyboard: 0.0 }
    }

    fn raise_keyboard(&mut self, height: f32) {
        self.keyboard = height;
        let (width, full) = (self.size.0 as f32, self.size.1 as f32);
        self.window.window().set_virtual_keyboard(
            LogicalPosition::new(0.0, full - height),
            LogicalSize::new(width, height),
            InternalToken,
        );
        mock_elapsed_time(50);
    }

    fn open_row(&self, id: &str) {
        self.state.open.borrow_mut().rows.insert(id.to_owned());
        refresh_all(&self.window, &self.state);
        mock_elapsed_time(50);
    }

    fn press(&self, key: impl Into<SharedString>) {
        let text = key.into();
        self.window.window().dispatch_event(WindowEvent::KeyPressed { text: text.clone() });
        self.window.window().dispatch_event(WindowEvent::KeyReleased { text });
        mock_elapsed_time(50);
    }

    /// A control of the plan, which is scrolled down until the whole control is in sight.
    fn find(&self, id: &str) -> ElementHandle {
        let id = id.to_owned();
        let query = || {
            let id = id.clone();
            ElementQuery::from_root(&self.window)
                .match_predicate(move |element| element.accessible_id().is_some_and(|found| found == id))
                .find_first()
        };
        let plan = self.window.global::<ui::PlanAdapter>();
        let (_, top, _, bottom) = self.free();
        let sight = top + ABOVE..bottom - if self.keyboard > 0.0 { 0.0 } else { BELOW };
        for _ in 0..40 {
            let whole = |found: &ElementHandle| {
                let (y, height) = (found.absolute_position().y, found.size().height);
                y >= sight.start && y + height <= sight.end
            };
            if let Some(found) = query().filter(whole) {
                return found;
            }
            plan.set_scroll_results(plan.get_scroll_results() - 60.0);
            mock_elapsed_time(50);
        }
        panic!("the plan has no {id}");
    }

    fn named(&self, label: &str) -> ElementHandle {
        ElementHandle::find_by_accessible_label(&self.window, label).next().expect("it is on the screen")
    }

    fn tap(&self, element: &ElementHandle) {
        element.mock_single_click(PointerEventButton::Left);
        mock_elapsed_time(50);
    }

    /// Left, top, right and bottom of what the system leaves to the app.
    fn free(&self) -> (f32, f32, f32, f32) {
        let [top, right, bottom, left] = self.margins;
        let (width, height) = (self.size.0 as f32, self.size.1 as f32);
        (left, top, width - right, height - bottom.max(self.keyboard))
    }

    fn is_free(&self, x: u32, y: u32) -> bool {
        let (left, top, right, bottom) = self.free();
        let (x, y) = (x as f32, y as f32);
        (left..right).contains(&x) && (top..bottom).contains(&y)
    }

    /// The picture, with the system's areas painted over. Fails if the app drew there anything
    /// but its ground.
    fn picture(&self) -> RgbaImage {
        let mut picture = drawn(&self.window);
        let ground = self.window.global::<ui::Theme>().get_bg();
        let ground = Rgba([ground.red(), ground.green(), ground.blue(), ground.alpha()]);
        let mut under = 0_usize;
        for (x, y, pixel) in picture.enumerate_pixels_mut() {
            if !self.is_free(x, y) {
                under += usize::from(*pixel != ground);
                *pixel = SYSTEM;
            }
        }
        assert_eq!(under, 0, "pixels that lie under the system's areas");
        picture
    }
}

#[test]
fn margins_of_the_system_are_left_alone() {
    check_drawn(&Phone::new(PHONE, UPRIGHT).picture(), "phone-upright-dark");
    check_drawn(&Phone::new((PHONE.1, PHONE.0), SIDEWAYS).picture(), "phone-sideways-dark");
}

#[test]
fn the_field_stays_in_sight_while_the_keyboard_is_up() {
    let mut phone = Phone::new(PHONE, UPRIGHT);
    phone.open_row("member-a");
    phone.tap(&phone.find("thickness-edt"));
    phone.raise_keyboard(KEYBOARD);
    let field = phone.find("thickness-edt");
    let (at, size) = (field.absolute_position(), field.size());
    let (_, top, _, bottom) = phone.free();
    assert!(at.y >= top && at.y + size.height <= bottom, "{at:?} {size:?}, free {top} to {bottom}");
    check_drawn(&phone.picture(), "phone-typing-dark");

    // With the keyboard away the places are back at the foot.
    phone.raise_keyboard(0.0);
    let foot = phone.named("Plan");
    assert!(foot.absolute_position().y + foot.size().height <= phone.free().3);
    assert!(foot.absolute_position().y > phone.free().3 - 70.0);
}

/// Whatever people write: nothing is thrown away on its way into the field.
#[test]
fn a_field_for_a_figure_takes_what_a_keyboard_sends() {
    let phone = Phone::new(PHONE, UPRIGHT);
    phone.open_row("member-a");
    for typed in ["-1,5", "1-1/2 in", "1 1/2\"", "Ø38", "2.5 cm", "1½"] {
        // What stands above the form grows shorter when a field is emptied.
        phone.find("thickness-edt").set_accessible_value("");
        phone.tap(&phone.find("thickness-edt"));
        for letter in typed.chars() {
            phone.press(letter);
        }
        assert_eq!(phone.find("thickness-edt").accessible_value().unwrap_or_default(), typed);
    }
}

/// How often the window was left.
fn count_leaving(phone: &Phone) -> Rc<Cell<u32>> {
    let left = Rc::new(Cell::new(0));
    phone.window.global::<ui::Shell>().on_leave({
        let left = left.clone();
        move || left.set(left.get() + 1)
    });
    left
}

#[test]
fn back_goes_back_and_then_leaves() {
    let phone = Phone::new(PHONE, UPRIGHT);
    let left = count_leaving(&phone);
    let page = || phone.window.global::<ui::Shell>().get_page();
    phone.tap(&phone.named("Settings"));
    assert_eq!(page(), "settings");
    phone.press(Key::Back);
    assert_eq!((page().as_str(), left.get()), ("plan", 0));
    phone.press(Key::Back);
    assert_eq!((page().as_str(), left.get()), ("plan", 1));
}

/// What is done before, in words and in deed.
type Before<'a> = (&'a str, &'a dyn Fn(&Phone));

/// The key is heard after everything that may have taken the keyboard with it.
#[test]
fn back_is_always_heard() {
    let first: [Before<'_>; 6] = [
        ("nothing touched", &|_| {}),
        ("typing", &|phone| {
            phone.open_row("member-a");
            phone.tap(&phone.find("thickness-edt"));
            phone.press('4');
        }),
        ("a field left by Escape", &|phone| {
            phone.open_row("member-a");
            phone.tap(&phone.find("thickness-edt"));
            phone.press(Key::Escape);
        }),
        ("a row that is shut over its field", &|phone| {
            phone.open_row("member-a");
            phone.tap(&phone.find("thickness-edt"));
            // The head of a row may be out of sight above its field.
            phone.window.global::<ui::PlanAdapter>().set_scroll_results(0.0);
            phone.tap(&phone.find("member-a-btn"));
        }),
        ("another place", &|phone| phone.tap(&phone.named("Safety"))),
        ("units changed", &|phone| phone.window.global::<ui::Shell>().invoke_unit_picked(1)),
    ];
    for (what, before) in first {
        let phone = Phone::new(PHONE, UPRIGHT);
        let left = count_leaving(&phone);
        before(&phone);
        mock_elapsed_time(50);
        phone.press(Key::Back);
        assert_eq!(left.get(), 1, "{what}");
    }
}
