//! Writes the unit beside every bare number of a job, before the units of the screen change.
//!
//! A bare number takes the unit that its field shows. Were the shown unit changed under
//! it, 30 (mm) would silently become 30 in; so it becomes "30 mm" first.

use super::{Field, JobText};
use crate::units::{LengthUnit, TemperatureUnit, Units};

/// The unit that a bare number of a field takes; `None` where units of the screen don't matter.
const fn unit_of(field: Field, units: Units) -> Option<&'static str> {
    let inch = matches!(units.length, LengthUnit::Inch);
    let fahrenheit = matches!(units.temperature, TemperatureUnit::F);
    Some(match field {
        Field::Thickness
        | Field::ThicknessB
        | Field::Diameter
        | Field::DiameterB
        | Field::Leg
        | Field::RunLength => {
            if inch {
                "in"
            } else {
                "mm"
            }
        }
        Field::Yield | Field::YieldB | Field::WeldStrength => {
            if inch {
                "ksi"
            } else {
                "MPa"
            }
        }
        Field::HeatInput | Field::ArcEnergy => {
            if inch {
                "kJ/in"
            } else {
                "kJ/mm"
            }
        }
        Field::Travel => {
            if inch {
                "in/min"
            } else {
                "mm/min"
            }
        }
        Field::Condition
        | Field::ConditionB
        | Field::Shop
        | Field::DemandPreheat
        | Field::DemandInterpass
        | Field::DemandCeiling => {
            if fahrenheit {
                "°F"
            } else {
                "°C"
            }
        }
        _ => return None,
    })
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
            let (Some(unit), Some(text)) = (unit_of(*field, units), self.get(*field)) else { continue };
            let parts: Vec<String> = text.split('+').map(|part| written(part, unit)).collect();
            made.set(*field, Some(parts.join(" + ")));
        }
        made
    }
}
