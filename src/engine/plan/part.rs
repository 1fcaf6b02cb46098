//! A member with its analysis and family settled.

use super::{Chemistry, Family, family, minimum};
use crate::engine::evidence::Case;
use crate::engine::job::{Job, Member};
use crate::reference::{Element, Reference};

/// A member as the plan treats it.
#[derive(Debug, Clone, PartialEq)]
pub struct Part<'a> {
    /// The member.
    pub member: &'a Member,
    /// Its analysis.
    pub chemistry: Chemistry,
    /// Its family.
    pub family: Family,
}

impl<'a> Part<'a> {
    /// The parts of a job.
    #[must_use]
    pub fn all(job: &'a Job) -> Vec<Self> {
        job.members
            .iter()
            .map(|member| {
                let chemistry = Chemistry::of(&member.steel);
                Self { member, chemistry, family: family::family(member, &chemistry) }
            })
            .collect()
    }

    /// Is it weighed by methods?
    #[must_use]
    pub const fn by_methods(&self) -> bool {
        minimum::by_methods(self.family)
    }

    /// Could a part of this steel be hardened and tempered without our knowing?
    #[must_use]
    pub fn may_be_hardened(&self) -> bool {
        self.chemistry.nominal.get(Element::C) > family::HARDENING_CARBON
            || self.family == Family::QuenchedTempered
    }

    /// What evidence on this part is asked about.
    #[must_use]
    pub fn case(&'a self, reference: &'a Reference, job: &'a Job, index: usize) -> Case<'a> {
        Case {
            reference,
            job,
            member: self.member,
            index,
            chemistry: &self.chemistry,
            hydrogen_ml: job.hydrogen_ml(),
            net_heat_kj_per_mm: job.net_heat_kj_per_mm(),
        }
    }
}
