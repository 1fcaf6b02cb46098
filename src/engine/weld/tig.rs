//! Which current, tungsten, cup, gas and rod does TIG take?

use crate::engine::error::Domain;
use crate::engine::{Checked, EngineError, Outcome, Step, Unit};
use crate::reference::{FactorRange, Method, RodRow, TungstenRow, WeldCurrent};

/// What is known of a TIG run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum TigBy {
    /// The thinner part, mm; is it a fillet or lap?
    Thickness {
        /// Thickness.
        mm: f64,
        /// Fillet or lap, rather than butt or corner.
        fillet: bool,
        /// How hot the part is, °C.
        part_c: f64,
    },
    /// The current, A.
    Current(f64),
}

/// Current by thickness, A: straight between rows, the end rows outside them.
#[must_use]
pub fn amps_for(current: &WeldCurrent, thickness_mm: f64, fillet: bool) -> FactorRange {
    let of = |row: &crate::reference::TigRow| if fillet { row.fillet_a } else { row.butt_a };
    let after = current.gtaw.iter().position(|row| row.thickness_mm >= thickness_mm);
    let rows = &current.gtaw;
    match after {
        Some(0) => of(&rows[0]),
        None => rows.last().map_or(FactorRange { low: 0.0, high: 0.0 }, of),
        Some(at) => {
            let (below, above) = (&rows[at - 1], &rows[at]);
            let share = (thickness_mm - below.thickness_mm) / (above.thickness_mm - below.thickness_mm);
            let between = |low: f64, high: f64| low + share * (high - low);
            FactorRange {
                low: between(of(below).low, of(above).low),
                high: between(of(below).high, of(above).high),
            }
        }
    }
}

/// The smallest tungsten that burns well up to a current.
#[must_use]
pub fn tungsten_for(current: &WeldCurrent, amps: f64) -> Option<&TungstenRow> {
    current.tungsten.iter().find(|row| amps <= row.comfortable_a.high)
}

/// The largest rod whose range has a current; in the gap of the table the one below it.
#[must_use]
pub fn rod_for(current: &WeldCurrent, amps: f64) -> Option<&RodRow> {
    let held = current.rods.iter().rev().find(|row| (row.amps.low..=row.amps.high).contains(&amps));
    held.or_else(|| current.rods.iter().rev().find(|row| row.amps.low <= amps)).or(current.rods.first())
}

/// Included angle of a tip that is ground over so many diameters, °.
#[must_use]
pub fn tip_deg(diameters: f64) -> f64 {
    2.0 * (0.5 / diameters).atan().to_degrees()
}

/// The settings.
#[derive(Debug, Clone, PartialEq)]
pub struct TigSettings {
    /// Current, tungsten, cup, argon, rod, tip.
    pub outcomes: Vec<Outcome>,
    /// Is the current more than any tungsten of the table burns well with?
    pub no_tungsten: bool,
    /// Does the thickness pass the table, so that a thick cold part may take more?
    pub thick: bool,
    /// Is the current below any rod's range or in the gap of the table?
    pub rod_by_gap: bool,
}

/// Current by thickness, and tungsten, cup, argon and rod by current. The tungsten is for the upper end of
/// the current, the rod for its middle.
///
/// Source: guides of five TIG machines, of a torch and of a tungsten manual; less current on a hot part is
/// common practice.
///
/// # Errors
/// A thickness or a current that no TIG run has.
pub fn tig_settings(current: &WeldCurrent, by: TigBy) -> Result<TigSettings, EngineError> {
    let answer = |name, value, unit| Outcome::new(Method::TigSettings, value, unit).named(name);
    let mut outcomes = Vec::new();
    let (middle, high, thick) = match by {
        TigBy::Current(amps) => {
            let amps = Domain::new("amps", 3.0, 500.0).check(amps)?;
            (amps, amps, false)
        }
        TigBy::Thickness { mm, fillet, part_c } => {
            let mm = Domain::new("thickness", 0.5, 500.0).check(mm)?;
            let part_c = Domain::new("part-temperature", -50.0, 700.0).check(part_c)?;
            let range = amps_for(current, mm, fillet);
            let hot = current.hot_part.iter().rev().find(|row| part_c >= row.from_c);
            let share = 1.0 - hot.map_or(0.0, |row| row.less_share);
            let last = current.gtaw.last().map_or(0.0, |row| row.thickness_mm);
            let first = current.gtaw.first().map_or(0.0, |row| row.thickness_mm);
            let thick = mm > last;
            // A thick cold part takes more than the last row.
            let high = if thick { current.gtaw_most_a } else { range.high } * share;
            let low = range.low * share;
            let basis = if share < 1.0 || thick { &current.hot_part_basis } else { &current.gtaw_basis };
            let shown = f64::midpoint(low, range.high * share);
            outcomes.push(
                answer("tig-amps", shown, Unit::Ampere)
                    .spread(low, high)
                    .resting_on(basis)
                    .from_inputs(vec![Checked::between("d", mm, Unit::Millimetre, first, last.max(mm))]),
            );
            (shown, high, thick)
        }
    };
    let tungsten = tungsten_for(current, high);
    if let Some(row) = tungsten {
        let composite = row.composite_a;
        let comfortable = row.comfortable_a;
        outcomes.push(
            answer("tig-tungsten", row.diameter_mm, Unit::Millimetre)
                .resting_on(&current.tungsten_basis)
                .worked(vec![
                    Step::new("comfortable from", comfortable.low, Unit::Ampere),
                    Step::new("comfortable to", comfortable.high, Unit::Ampere),
                    Step::new("composite to", composite.high, Unit::Ampere),
                ]),
        );
        let ranged = |name, range: FactorRange, unit| {
            Outcome::open(Method::TigSettings, unit)
                .named(name)
                .spread(range.low, range.high)
                .resting_on(&current.cup_basis)
        };
        outcomes.extend(row.cup.map(|cup| ranged("tig-cup", cup, Unit::One)));
        outcomes.extend(row.argon_l_per_min.map(|flow| ranged("tig-argon", flow, Unit::LitrePerMinute)));
        let taper = current.taper_diameters;
        outcomes.push(
            answer("tig-taper", taper * row.diameter_mm, Unit::Millimetre)
                .resting_on(&current.taper_basis)
                .worked(vec![Step::new("angle", tip_deg(taper), Unit::Degree)]),
        );
    }
    let rod = rod_for(current, middle);
    let in_range = rod.is_some_and(|row| (row.amps.low..=row.amps.high).contains(&middle));
    if let Some(row) = rod {
        outcomes.push(answer("tig-rod", row.diameter_mm, Unit::Millimetre).resting_on(&current.rods_basis));
    }
    Ok(TigSettings { outcomes, no_tungsten: tungsten.is_none(), thick, rod_by_gap: !in_range })
}
