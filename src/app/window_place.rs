//! Where the window stands and how large it is, kept for the next start.
//!
//! The first window of a folder keeps its place; others are where the system puts them. A place that no screen shows any
//! more, because a screen was taken away, is left for one that does.

use std::fmt;

use slint::{ComponentHandle, PhysicalPosition, PhysicalSize};

use super::{State, ui};

/// What the session keeps it under.
const KEPT: &str = "window.place";
/// Whether the window filled its screen, behind its place.
const FILLED: &str = " filled";
/// The first window of a folder.
const FIRST: u32 = 1;
/// So much of the window's upper edge must be on a screen, so that it can be taken hold of.
const HOLD: (i64, i64) = (120, 24);
/// No window is smaller, and no screen is larger.
const SIDES: std::ops::RangeInclusive<u32> = 200..=32_000;

/// A rectangle on the desktop, in its own points.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Area {
    /// Left edge.
    pub x: i32,
    /// Upper edge.
    pub y: i32,
    /// Width.
    pub width: u32,
    /// Height.
    pub height: u32,
}

impl Area {
    /// Width and height of what two of them share.
    fn shared(self, other: Self) -> (i64, i64) {
        let side = |at: i32, long: u32, other_at: i32, other_long: u32| {
            let end = (i64::from(at) + i64::from(long)).min(i64::from(other_at) + i64::from(other_long));
            (end - i64::from(at.max(other_at))).max(0)
        };
        (side(self.x, self.width, other.x, other.width), side(self.y, self.height, other.y, other.height))
    }

    /// The same window where one of the screens shows it: no larger than all of them, and with enough of its upper
    /// edge on one of them to be taken hold of. As it is where there is no screen to compare with.
    #[must_use]
    pub fn fitted(self, screens: &[Self]) -> Self {
        let most = |side: fn(&Self) -> (i32, u32)| {
            let low = screens.iter().map(|screen| i64::from(side(screen).0)).min().unwrap_or(0);
            let high =
                screens.iter().map(|screen| i64::from(side(screen).0) + i64::from(side(screen).1)).max();
            u32::try_from(high.unwrap_or(0) - low).unwrap_or(u32::MAX)
        };
        if screens.is_empty() {
            return self;
        }
        let mut fitted = Self {
            width: self.width.min(most(|screen| (screen.x, screen.width))),
            height: self.height.min(most(|screen| (screen.y, screen.height))),
            ..self
        };
        let hold = |screen: &&Self| {
            let edge = Self { height: fitted.height.min(HOLD.1 as u32), ..fitted };
            let (wide, high) = edge.shared(**screen);
            wide >= HOLD.0 && high >= HOLD.1
        };
        if screens.iter().any(|screen| hold(&screen)) {
            return fitted;
        }
        // The screen that shows most of it, or else the first.
        let most = screens.iter().rev().max_by_key(|screen| {
            let (wide, high) = fitted.shared(**screen);
            wide * high
        });
        let Some(screen) = most else { return fitted };
        fitted.width = fitted.width.min(screen.width);
        fitted.height = fitted.height.min(screen.height);
        let into = |at: i32, long: u32, screen_at: i32, screen_long: u32| {
            let last = i64::from(screen_at) + i64::from(screen_long) - i64::from(long);
            i32::try_from(i64::from(at).clamp(i64::from(screen_at), last)).unwrap_or(screen_at)
        };
        fitted.x = into(fitted.x, fitted.width, screen.x, screen.width);
        fitted.y = into(fitted.y, fitted.height, screen.y, screen.height);
        fitted
    }
}

/// Where a window stands, and whether it fills its screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WindowPlace {
    /// Where it stands while it does not fill the screen.
    pub area: Area,
    /// Does it?
    pub filled: bool,
}

impl fmt::Display for WindowPlace {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Area { x, y, width, height } = self.area;
        write!(to, "{width} {height} {x} {y}{}", if self.filled { FILLED } else { "" })
    }
}

impl WindowPlace {
    /// The place of a text; none where it is none.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let (text, filled) = text.strip_suffix(FILLED).map_or((text, false), |text| (text, true));
        let parts: Vec<&str> = text.split(' ').collect();
        let [width, height, x, y] = parts.as_slice() else { return None };
        let area = Area {
            x: x.parse().ok()?,
            y: y.parse().ok()?,
            width: width.parse().ok()?,
            height: height.parse().ok()?,
        };
        let sound = SIDES.contains(&area.width) && SIDES.contains(&area.height);
        sound.then_some(Self { area, filled })
    }

    /// What the session keeps.
    fn kept(state: &State) -> Option<Self> {
        state.session(|session| session.choices.get(KEPT).and_then(|text| Self::read(text)))
    }
}

/// Puts the window where it stood, before it is shown.
pub fn put_back(window: &ui::AppWindow, state: &State) {
    let Some(place) = WindowPlace::kept(state).filter(|_| state.window() == FIRST) else { return };
    put(window, place.area);
    window.window().set_maximized(place.filled);
}

fn put(window: &ui::AppWindow, area: Area) {
    window.window().set_size(PhysicalSize::new(area.width, area.height));
    window.window().set_position(PhysicalPosition::new(area.x, area.y));
}

/// Moves the window where one of these screens shows it.
pub fn fit(window: &ui::AppWindow, screens: &[Area]) {
    let now = area_of(window);
    let fitted = now.fitted(screens);
    if fitted != now {
        put(window, fitted);
    }
}

/// Keeps where the window stands.
pub fn note(window: &ui::AppWindow, state: &State) {
    if state.window() != FIRST {
        return;
    }
    let now = window.window();
    let before = WindowPlace::kept(state);
    // What fills the screen has another place to come back to.
    let place = match before {
        _ if now.is_minimized() || now.is_fullscreen() => return,
        Some(before) if now.is_maximized() => WindowPlace { filled: true, ..before },
        _ => WindowPlace { area: area_of(window), filled: now.is_maximized() },
    };
    let sound = WindowPlace::read(&place.to_string()).is_some();
    if sound && before != Some(place) {
        state.change(|session| {
            session.choices.insert(KEPT.to_owned(), place.to_string());
        });
    }
}

fn area_of(window: &ui::AppWindow) -> Area {
    let (size, at) = (window.window().size(), window.window().position());
    Area { x: at.x, y: at.y, width: size.width, height: size.height }
}
