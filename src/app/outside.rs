//! What comes to the window from the desktop: a file is dropped on it, it is moved, its screen goes away.

use std::cell::Cell;
use std::rc::Rc;
use std::time::Duration;

use i_slint_backend_winit::winit::event::WindowEvent;
use i_slint_backend_winit::{EventResult, WinitWindowAccessor};
use slint::{ComponentHandle, Timer, TimerMode};

use super::arrival::open_with;
use super::calls::calls_plain;
use super::window_place::{Area, fit, note, put_back};
use super::{State, ui};

/// A window that was moved stands still for so long before its place is kept.
const STANDS: Duration = Duration::from_millis(400);

/// Puts the window where it stood, and listens from now on.
pub(super) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    put_back(window, state);
    let (weak, heard) = (window.as_weak(), Rc::downgrade(state));
    let stands = Timer::default();
    let fitted = Cell::new(false);
    window.window().on_winit_window_event(move |_, event| {
        let (Some(window), Some(state)) = (weak.upgrade(), heard.upgrade()) else {
            return EventResult::Propagate;
        };
        // The screens are known once the window is there.
        if !fitted.get()
            && let Some(screens) = screens(&window)
        {
            fitted.set(true);
            fit(&window, &screens);
        }
        match event {
            WindowEvent::DroppedFile(file) => open_with(&window, &state, file),
            WindowEvent::Moved(_) | WindowEvent::Resized(_) => {
                stands.start(
                    TimerMode::SingleShot,
                    STANDS,
                    calls_plain(&window, &state, |window, state| {
                        note(window, state);
                    }),
                );
            }
            WindowEvent::CloseRequested => note(&window, &state),
            _ => {}
        }
        EventResult::Propagate
    });
}

/// The screens of the desktop; none while there is no window on it.
fn screens(window: &ui::AppWindow) -> Option<Vec<Area>> {
    window.window().with_winit_window(|window| {
        let area = |screen: i_slint_backend_winit::winit::monitor::MonitorHandle| {
            let (at, size) = (screen.position(), screen.size());
            Area { x: at.x, y: at.y, width: size.width, height: size.height }
        };
        window.available_monitors().map(area).collect()
    })
}
