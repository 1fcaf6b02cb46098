//! The first start, and its settings again: what is guessed of a person until they have said otherwise.

use super::session::Session;
use crate::units::Units;

/// What the session keeps while nobody has answered the welcome.
const WELCOME: &str = "window.welcome";
/// What stands there.
const OPEN: &str = "open";

impl Session {
    /// The session of a folder that no window has saved in: it has a welcome before it.
    #[must_use]
    pub fn first(units: Units) -> Self {
        let choices = [(WELCOME.to_owned(), OPEN.to_owned())].into();
        Self { units, choices, ..Self::default() }
    }

    /// Has nobody answered the welcome yet? It may have been open when the program ended.
    #[must_use]
    pub fn is_to_be_welcomed(&self) -> bool {
        self.choices.contains_key(WELCOME)
    }

    /// The person goes on to the work, and is not welcomed again.
    pub fn end_welcome(&mut self) {
        self.choices.remove(WELCOME);
    }

    /// Every setting is as it was at the first start; what was typed, made and kept stays. A bare number keeps the
    /// unit that it was typed in.
    pub fn reset_settings(&mut self, units: Units) {
        if units != self.units {
            self.switch_units(units);
        }
        let kept = std::mem::take(self);
        *self = Self {
            units,
            place: kept.place,
            job: kept.job,
            job_mark: kept.job_mark,
            typed: kept.typed,
            choices: kept.choices,
            own_steels: kept.own_steels,
            ..Self::default()
        };
    }
}
