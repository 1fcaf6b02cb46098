//! What a piece of evidence is asked about.

use super::{Evidence, Obligation};
use crate::engine::Outcome;
use crate::engine::chemistry::Chemistry;
use crate::engine::job::{Job, Member};
use crate::engine::part::Part;
use crate::reference::{Method, MethodRow, Reference, Restraint};

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

impl<'a> Case<'a> {
    /// A part of a job.
    #[must_use]
    pub fn of(reference: &'a Reference, job: &'a Job, part: &'a Part<'_>, index: usize) -> Self {
        Self {
            reference,
            job,
            member: part.member,
            index,
            chemistry: &part.chemistry,
            hydrogen_ml: job.hydrogen_ml(),
            net_heat_kj_per_mm: job.net_heat_kj_per_mm(),
        }
    }

    /// Is every process of the job low in hydrogen, and the content at most what the
    /// low-hydrogen categories are made for?
    #[must_use]
    pub fn low_hydrogen(&self) -> bool {
        self.hydrogen_ml <= self.reference.d11.low_hydrogen_ml
            && self.job.runs.iter().all(|run| self.reference.low_hydrogen(run.process.id()))
    }

    /// Is the joint highly restrained?
    #[must_use]
    pub fn high_restraint(&self) -> bool {
        self.job.restraint == Restraint::High
    }

    /// The row of a method.
    #[must_use]
    pub fn row(&self, method: Method) -> &'a MethodRow {
        self.reference.methods.row(method)
    }

    /// An answer as evidence on this member's heat-affected zone.
    #[must_use]
    pub fn evidence(&self, outcome: Outcome) -> Evidence {
        Evidence { member: Some(self.index), ..Evidence::new(outcome, Obligation::HeatAffectedZone) }
    }
}
