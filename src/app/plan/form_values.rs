//! What the rows of the form of the Plan place share: values as they are typed and kept.

use crate::app::State;
use crate::job::{Field, JobText};

/// Hydrogen classes of EN 1011-2, driest first, as they are typed and kept.
pub(super) const CLASSES: [&str; 5] = ["EN E", "EN D", "EN C", "EN B", "EN A"];

/// What is typed in one place of a list joined by `+`.
pub(crate) fn at(job: &JobText, field: Field, place: usize) -> String {
    let text = job.get(field).unwrap_or_default();
    let parts: Vec<&str> = text.split('+').map(str::trim).collect();
    parts
        .get(place)
        .or_else(|| parts.first().filter(|_| parts.len() == 1))
        .map_or_else(String::new, |part| (*part).to_owned())
}

/// Puts a text in one place of a list of `count`, and leaves the others.
pub(super) fn put_at(job: &mut JobText, field: Field, place: usize, count: usize, text: &str) {
    let mut parts: Vec<String> = (0..count.max(place + 1)).map(|place| at(job, field, place)).collect();
    text.trim_matches('+').clone_into(&mut parts[place]);
    let joined = if parts.iter().all(|part| part.trim().is_empty()) { None } else { Some(parts.join(" + ")) };
    job.set(field, joined);
}

/// How many processes are typed.
pub(super) fn processes(job: &JobText) -> usize {
    job.get(Field::Process).map_or(1, |text| text.split('+').count().max(1))
}

const fn length_unit_of(unit: crate::units::LengthUnit) -> &'static str {
    match unit {
        crate::units::LengthUnit::Mm => "mm",
        crate::units::LengthUnit::Inch => "in",
    }
}

/// The unit that a bare length takes.
pub(super) fn length_unit(state: &State) -> &'static str {
    length_unit_of(state.show().units.length)
}
