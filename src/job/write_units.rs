//! Writes the unit beside every bare number of a session, before the units of the screen change.
//!
//! A bare number takes the unit that its field shows. Were the shown unit changed under
//! it, 30 (mm) would silently become 30 in; so it becomes "30 mm" first.

use super::read_answers::shown_unit;
use super::{Field, JobText, Of, Session};
use crate::questions::{self, Kind};
use crate::units::{Accepts, Units};

/// What kind of figure a field takes; `None` where units of the screen don't matter.
#[must_use]
pub const fn kind_of(field: Field) -> Option<Kind> {
    if matches!(field, Field::Yield) {
        // A bare one is asked for its unit, which the screen must not answer in its place.
        return None;
    }
    Some(match field.accepts() {
        Accepts::Length | Accepts::RunLength => Kind::Length,
        Accepts::Strength => Kind::Stress,
        Accepts::Heat | Accepts::ArcEnergy => Kind::HeatInput,
        Accepts::Travel => Kind::Speed,
        Accepts::Condition | Accepts::Temperature => Kind::Temperature,
        _ => return None,
    })
}

/// The kind of figure that is kept as `QUESTION.INPUT`; `None` where units don't matter.
fn kind_of_answer(key: &str) -> Option<Kind> {
    let (name, input) = key.split_once('.')?;
    let kind = questions::find(name)?.input(input)?.kind;
    (shown_unit(kind, Units::C_MM) != shown_unit(kind, Units::F_IN)).then_some(kind)
}

/// One value with its unit, if it is a bare number.
fn written(text: &str, unit: &str) -> String {
    let text = text.trim();
    let bare = text.chars().next_back().is_some_and(|last| last.is_ascii_digit() || "½¼¾⅛⅜⅝⅞".contains(last));
    if bare { format!("{text} {unit}") } else { text.to_owned() }
}

impl JobText {
    /// The job with the unit written beside every bare number. `units` are those of the
    /// screen; a job that states its own keeps to them.
    #[must_use]
    pub fn with_units_written(&self, units: Units) -> Self {
        let units = self.get(Field::Units).and_then(|text| Units::read(text).ok()).unwrap_or(units);
        let mut made = self.clone();
        for (slot, text) in self.typed() {
            if let Some(kind) = kind_of(slot.field) {
                let unit = shown_unit(kind, units);
                // A list that does not fit the processes stands in one run.
                let text = match slot.field.of() {
                    Of::Run => {
                        text.split('+').map(|text| written(text, unit)).collect::<Vec<_>>().join(" + ")
                    }
                    _ => written(text, unit),
                };
                made.set(slot, Some(text));
            }
        }
        made
    }
}

impl Session {
    /// Changes the units of the screen. What was typed bare, in the job or for a question, keeps
    /// the unit that it was typed in.
    pub fn switch_units(&mut self, units: Units) {
        self.job = self.job.with_units_written(self.units);
        for (key, text) in &mut self.typed {
            if let Some(kind) = kind_of_answer(key) {
                *text = written(text, shown_unit(kind, self.units));
            }
        }
        self.units = units;
        self.job.set(Field::Units, None);
    }
}
