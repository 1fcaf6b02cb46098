//! What one answer allows.

use super::families::{Families, Family};
use super::martensite::{carbon_of_all, carbon_of_half};
use crate::engine::EngineError;
use crate::engine::error::Domain;
use crate::reference::{TestAnswer, TestFlag, Unmarked};

/// An answered step.
#[derive(Debug, Clone, PartialEq)]
pub struct Answered {
    /// Id of the step.
    pub step: &'static str,
    /// What it allows.
    pub families: Families,
    /// Range of carbon, %, that it allows a steel; none where it says nothing of carbon.
    pub carbon: Option<(f64, f64)>,
    /// What else it tells.
    pub flags: Vec<TestFlag>,
}

impl Answered {
    /// Does it rule anything out?
    #[must_use]
    pub fn narrows(&self) -> bool {
        self.families != Families::ALL || self.carbon.is_some()
    }
}

/// A row of the data as the answer of a step.
///
/// # Errors
/// `table-has-no-row` where the row names an unknown family.
pub fn row(step: &'static str, answer: &TestAnswer) -> Result<Answered, EngineError> {
    let families = Families::of_letters(&answer.families);
    Ok(Answered {
        step,
        families: families.ok_or(EngineError::NoAnswer { reason: "table-has-no-row" })?,
        carbon: answer.low.zip(answer.high),
        flags: answer.flags.clone(),
    })
}

/// A hardness of the quenched coupon, HRC.
///
/// # Errors
/// A hardness outside 0 to 70.
pub fn quenched(data: &Unmarked, hrc: f64) -> Result<Answered, EngineError> {
    let hrc = Domain::new("quench-hrc", 0.0, 70.0).check(hrc)?;
    let letters = if hrc >= data.hardens_from_hrc { "STFH" } else { "SNFMO" };
    let low = (carbon_of_all(data, hrc) - data.carbon_margin).max(0.0);
    let high = match carbon_of_half(data, hrc) {
        Some(half) => (half + data.carbon_margin).max(data.coupon_least_top),
        None => data.top_percent,
    };
    Ok(Answered {
        step: "quench",
        families: Families::of_letters(letters).unwrap_or(Families::ALL),
        carbon: Some((rounded(low), rounded(high))),
        flags: Vec::new(),
    })
}

/// A hardness of the core, below any hard layer, HRC.
///
/// # Errors
/// A hardness outside 0 to 70.
pub fn core(data: &Unmarked, hrc: f64) -> Result<Answered, EngineError> {
    let hrc = Domain::new("core-hrc", 0.0, 70.0).check(hrc)?;
    if hrc < data.core_from_hrc {
        return Ok(Answered { step: "core", families: Families::ALL, carbon: None, flags: Vec::new() });
    }
    let low = (carbon_of_all(data, hrc) - data.carbon_margin).max(0.0);
    Ok(Answered {
        step: "core",
        families: Families::of_letters("STIMFHO").unwrap_or(Families::ALL),
        carbon: Some((rounded(low), data.top_percent)),
        flags: Vec::new(),
    })
}

/// A density by weighing and measuring, kg/dm³.
///
/// # Errors
/// A density outside 1.5 to 20.
pub fn density(data: &Unmarked, kg_per_dm3: f64) -> Result<Answered, EngineError> {
    let found = Domain::new("density", 1.5, 20.0).check(kg_per_dm3)?;
    // The ends of a range count, and a sum of two decimals is a hair off.
    let margin = data.density_margin + 1e-9;
    let near =
        |row: &&crate::reference::FamilyDensity| (row.low - margin..=row.high + margin).contains(&found);
    let families = data
        .densities
        .iter()
        .filter(near)
        .filter_map(|row| Families::of_letters(&row.family))
        .fold(Families::one(Family::Other), Families::or);
    Ok(Answered { step: "density", families, carbon: None, flags: Vec::new() })
}

/// Carbon to the last digit that is told.
fn rounded(percent: f64) -> f64 {
    (1000.0 * percent).round() / 1000.0
}
