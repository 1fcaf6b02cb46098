//! Callbacks of the window that find window and state again.

use std::rc::Rc;

use slint::ComponentHandle;

use super::{State, ui};

/// A callback with one value.
pub(super) fn calls<T: 'static>(
    window: &ui::AppWindow,
    state: &Rc<State>,
    act: impl Fn(&ui::AppWindow, &Rc<State>, T) + 'static,
) -> impl Fn(T) + 'static {
    let (weak, state) = (window.as_weak(), state.clone());
    move |value| act(&weak.upgrade().expect("the window calls while it lives"), &state, value)
}

/// A callback with no value.
pub(super) fn calls_plain(
    window: &ui::AppWindow,
    state: &Rc<State>,
    act: impl Fn(&ui::AppWindow, &Rc<State>) + 'static,
) -> impl Fn() + 'static {
    let call = calls(window, state, move |window, state, (): ()| act(window, state));
    move || call(())
}

/// A callback with two values.
pub(super) fn calls_pair<A: 'static, B: 'static>(
    window: &ui::AppWindow,
    state: &Rc<State>,
    act: impl Fn(&ui::AppWindow, &Rc<State>, A, B) + 'static,
) -> impl Fn(A, B) + 'static {
    let call = calls(window, state, move |window, state, (first, second)| act(window, state, first, second));
    move |first, second| call((first, second))
}
