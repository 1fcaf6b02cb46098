//! Writes the unit beside every bare number of a session, before the units of the screen change.
//!
//! A bare number takes the unit that its field shows. Were the shown unit changed under
//! it, 30 (mm) would silently become 30 in; so it becomes "30 mm" first.

use super::read_answers::shown_unit;
use super::{Field, JobText, Session};
use crate::questions::{self, Kind};
use crate::units::Units;

/// What kind of figure a field of the job holds; `None` where units of the screen don't matter.
const fn kind_of(field: Field) -> Option<Kind> {
    Some(match field {
        Field::Thickness
        | Field::ThicknessB
        | Field::Diameter
        | Field::DiameterB
        | Field::Leg
        | Field::RunLength => Kind::Length,
        Field::Yield | Field::YieldB | Field::WeldStrength => Kind::Stress,
        Field::HeatInput | Field::ArcEnergy => Kind::HeatInput,
        Field::Travel => Kind::Speed,
        Field::Condition
        | Field::ConditionB
        | Field::Shop
        | Field::DemandPreheat
        | Field::DemandInterpass
        | Field::DemandCeiling => Kind::Temperature,
        _ => return None,
    })
}

/// The kind of figure that is kept as `QUESTION.INPUT`; `None` where units don't matter.
fn kind_of_answer(key: &str) -> Option<Kind> {
    let (name, input) = key.split_once('.')?;
    let kind = questions::find(name)?.input(input)?.kind;
    let changes = [Kind::Length, Kind::Stress, Kind::HeatInput, Kind::Speed, Kind::Temperature];
    changes.contains(&kind).then_some(kind)
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
        for field in Field::ALL {
            let (Some(kind), Some(text)) = (kind_of(*field), self.get(*field)) else { continue };
            let unit = shown_unit(kind, units);
            let parts: Vec<String> = text.split('+').map(|part| written(part, unit)).collect();
            made.set(*field, Some(parts.join(" + ")));
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
        self.job.units = None;
    }
}
