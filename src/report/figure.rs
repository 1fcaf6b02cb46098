//! One figure as it is shown, with what it rests on.

use super::Pen;
use crate::reference::{Basis, SourceRead, Unit};
use crate::units::{Both, Printed, Show, Side, TemperatureUnit, parts};

/// The source that is our own model of the tint.
const OWN_MODEL: &str = "tint-fit";
/// What the person typed from drawing, procedure or customer's sheet: no source that was seen.
const OWN_DOCUMENT: &str = "own-document";

/// What a figure rests on, as a mark and its words.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct BasisMark {
    /// `published`, `practice` or `memory`; empty when there is none.
    pub kind: &'static str,
    /// The kind in words.
    pub label: String,
}

/// A figure to be shown large.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Figure {
    /// What is asked for its basis.
    pub id: String,
    /// What it is.
    pub label: String,
    /// The number.
    pub figure: String,
    /// Its unit.
    pub unit: String,
    /// In the other unit, with it.
    pub second: String,
    /// A short note.
    pub note: String,
    /// What it rests on.
    pub basis: BasisMark,
}

impl Figure {
    /// A figure from a shown pair: number and unit are joined by a no-break space.
    #[must_use]
    pub fn new(id: &str, label: String, both: Both, basis: BasisMark) -> Self {
        let (figure, unit) = parts(&both.main);
        Self {
            id: id.to_owned(),
            label,
            figure: figure.to_owned(),
            unit: unit.to_owned(),
            second: both.second,
            note: String::new(),
            basis,
        }
    }

    /// A figure that is words.
    #[must_use]
    pub fn in_words(id: &str, label: String, figure: String, note: String, basis: BasisMark) -> Self {
        Self { id: id.to_owned(), label, figure, unit: String::new(), second: String::new(), note, basis }
    }
}

/// The mark of a basis. A source whose own text was not read proves no more than memory does.
#[must_use]
pub fn basis_mark(pen: &Pen<'_>, basis: &Basis) -> BasisMark {
    // Our own model is none of the three kinds of source, nor is what the person typed.
    if let Basis::Published { source, .. } = basis {
        let own = match source.as_ref() {
            OWN_MODEL => Some("basis-own"),
            OWN_DOCUMENT => Some("basis-demanded"),
            _ => None,
        };
        if let Some(key) = own {
            return BasisMark { kind: "", label: pen.words.get(key) };
        }
    }
    let kind = if is_unread(pen, basis) { Basis::memory("").kind() } else { basis.kind() };
    BasisMark { kind, label: pen.words.get(&format!("basis-{kind}")) }
}

fn is_unread(pen: &Pen<'_>, basis: &Basis) -> bool {
    let Basis::Published { source, .. } = basis else { return false };
    pen.reference.sources.get(source).is_some_and(|row| row.read == SourceRead::Unread)
}

/// The source of a basis in one line: title and clause, or what it is remembered from.
#[must_use]
pub fn source_line(pen: &Pen<'_>, basis: &Basis) -> String {
    match basis {
        Basis::Published { source, clause } => {
            let title = pen.reference.sources.get(source).map_or(source.as_ref(), |row| row.title.as_str());
            let seen = pen.reference.sources.get(source).map_or("", |row| row.seen.as_str());
            pen.words.with("basis-published-line", &[("title", title), ("clause", clause), ("seen", seen)])
        }
        Basis::Practice => pen.words.get("basis-practice-line"),
        Basis::Memory { of } => pen.words.with("basis-memory-line", &[("of", of)]),
    }
}

/// A minimum as shown.
#[must_use]
pub(super) fn minimum(pen: &Pen<'_>, exact_c: f64, printed: Option<Printed>) -> Both {
    pen.show.limit(Side::Minimum, exact_c, printed)
}

/// A maximum as shown.
#[must_use]
pub(super) fn maximum(pen: &Pen<'_>, exact_c: f64, printed: Option<Printed>) -> Both {
    pen.show.limit(Side::Maximum, exact_c, printed)
}

/// A band of temperatures, rounded outwards to the next 5 °C or 10 °F in each unit.
#[must_use]
pub fn band(pen: &Pen<'_>, low_c: f64, high_c: f64) -> Both {
    let (low, high) = (pen.show.maximum(low_c, None), pen.show.minimum(high_c, None));
    both_ranges(pen, &low, &high)
}

/// A range that a source prints, to the nearest whole degree in each unit.
#[must_use]
pub fn printed_range(pen: &Pen<'_>, low_c: f64, high_c: f64) -> Both {
    let (low, high) = (pen.show.temperature(low_c), pen.show.temperature(high_c));
    both_ranges(pen, &low, &high)
}

/// Two figures of one unit as a range, which has that unit once; one figure where both are equal.
#[must_use]
pub fn range(pen: &Pen<'_>, low: &str, high: &str) -> String {
    if low == high {
        return high.to_owned();
    }
    pen.words.with("range-between", &[("low", parts(low).0), ("high", high)])
}

/// A range in the reader's unit and in the other.
fn both_ranges(pen: &Pen<'_>, low: &Both, high: &Both) -> Both {
    Both { main: range(pen, &low.main, &high.main), second: range(pen, &low.second, &high.second) }
}

/// A figure in the reader's unit, with the other one behind it.
#[must_use]
pub fn in_both(pen: &Pen<'_>, both: &Both) -> String {
    pen.words.with("figure-both", &[("figure", &both.main), ("second", &both.second)])
}

/// A figure of a method, exact to the last digit that means something: no limit is made
/// of it here, so that it is not rounded to the safe side. In the other unit too, where it has one.
#[must_use]
pub fn both_of_unit(value: f64, unit: Unit, show: &Show) -> Both {
    let alone = |main: String| Both { main, second: String::new() };
    match unit {
        Unit::Celsius => {
            let shown = |unit: TemperatureUnit| show.with_unit(unit.from_c(value), 1, unit.symbol());
            let main = show.units.temperature;
            Both { main: shown(main), second: shown(main.other()) }
        }
        Unit::Kelvin => show.difference(value),
        Unit::KelvinPerHour => show.rate_per_hour(value),
        Unit::Millimetre => show.alike(show.length(value)),
        Unit::KilojoulePerMm => show.alike(show.heat(value)),
        Unit::Megapascal => show.strength(value),
        Unit::Kilogram => show.mass(value),
        Unit::Micrometre => show.fine(value),
        Unit::Kilonewton => show.force(value),
        Unit::NewtonMetre => show.torque(value),
        Unit::CubicMetre => show.volume(value),
        Unit::CubicMetrePerHour => show.gas_flow(value),
        Unit::MlPer100g => alone(show.hydrogen(value)),
        // Three figures or so: an index knows no more.
        Unit::One => alone(show.number(value, if value.abs() < 1.0 { 4 } else { 2 })),
        Unit::Percent => alone(show.with_unit(value, 3, unit.symbol())),
        Unit::Ppm
        | Unit::Hour
        | Unit::Kilowatt
        | Unit::Megajoule
        | Unit::MillimetrePerSecond
        | Unit::KilogramPerHour => alone(show.with_unit(value, 2, unit.symbol())),
        // The degree of an angle stands close to its figure.
        Unit::Degree => alone(format!("{}{}", show.number(value, 1), unit.symbol())),
        Unit::SquareMillimetrePerHour => alone(show.with_unit(value, 3, "mm²/h")),
        Unit::SquareMillimetre => alone(show.with_unit(value, 1, "mm²")),
        Unit::KgfPerSquareMm => alone(show.with_unit(value, 1, "kgf/mm²")),
        Unit::Second
        | Unit::Minute
        | Unit::Nanometre
        | Unit::KilojoulePerInch
        | Unit::RockwellC
        | Unit::Volt
        | Unit::LitrePerMinute => alone(show.with_unit(value, 1, unit.symbol())),
        Unit::Vickers | Unit::Brinell | Unit::Ampere | Unit::NewtonPerMm | Unit::Litre => {
            alone(show.with_unit(value, 0, unit.symbol()))
        }
    }
}

/// The same on one line, the other unit in brackets.
#[must_use]
pub fn of_unit(value: f64, unit: Unit, show: &Show) -> String {
    let both = both_of_unit(value, unit, show);
    if both.second.is_empty() { both.main } else { format!("{} ({})", both.main, both.second) }
}
