//! What a piece of evidence is asked about.

use crate::engine::RangeCheck;
use crate::engine::job::{Job, Member};
use crate::engine::plan::{Chemistry, Evidence, Obligation, Says};
use crate::reference::{Basis, Method, Reference};

/// One member of a job, with what every method needs of the job.
#[derive(Debug, Clone, Copy)]
pub struct Case<'a> {
    /// The dataset.
    pub reference: &'a Reference,
    /// The whole job.
    pub job: &'a Job,
    /// The member.
    pub member: &'a Member,
    /// Its index.
    pub index: usize,
    /// Its analysis.
    pub chemistry: &'a Chemistry,
    /// Worst hydrogen of the job, ml/100 g.
    pub hydrogen_ml: f64,
    /// Lowest net heat input of the job, kJ/mm.
    pub net_heat_kj_per_mm: f64,
}

impl Case<'_> {
    /// Is every process of the job low in hydrogen, and the content at most 10 ml/100 g?
    #[must_use]
    pub fn low_hydrogen(&self) -> bool {
        self.hydrogen_ml <= 10.0 && self.job.runs.iter().all(|run| run.process.low_hydrogen())
    }

    /// The row of a method.
    #[must_use]
    pub fn method(&self, id: &'static str) -> &Method {
        method(self.reference, id)
    }

    /// Evidence on this member's heat-affected zone, in range and not yet weighed.
    #[must_use]
    pub fn evidence(&self, id: &'static str, says: Says, basis: Basis) -> Evidence {
        Evidence { member: Some(self.index), ..Evidence::new(id, Obligation::HeatAffectedZone, says, basis) }
    }
}

/// The row of a method that the engine is built on.
///
/// # Panics
/// Never with the embedded dataset: `tests/dataset/rules.rs` checks that each id that the
/// engine names is there.
#[must_use]
pub fn method<'a>(reference: &'a Reference, id: &str) -> &'a Method {
    reference.methods.get(id).expect("the dataset has a row for each method of the engine")
}

/// A value put at the limits that a method states for it, with the check beside it.
pub fn held(method: &Method, symbol: &'static str, value: f64, range: &mut Vec<RangeCheck>) -> f64 {
    let (low, high) = method.limit(symbol).map_or((None, None), |limit| (limit.low, limit.high));
    range.push(RangeCheck { symbol, value, low, high });
    let value = low.map_or(value, |low| value.max(low));
    high.map_or(value, |high| value.min(high))
}
