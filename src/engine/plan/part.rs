//! A member with its analysis and family settled.

use super::{Chemistry, Family, family, minimum, sheets};
use crate::engine::evidence::Case;
use crate::engine::job::{Job, Member};
use crate::reference::{Element, Reference};

/// Chromium, molybdenum and nickel above which a low-carbon steel may come quenched and
/// tempered or case-hardened, % together.
const ALLOY_THAT_HARDENS: f64 = 0.5;
/// Boron from which a low-carbon steel may come quenched and tempered, %.
const BORON_THAT_HARDENS: f64 = 0.0005;

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
                let chemistry = Chemistry::of(&member.steel, member.thickness_mm);
                Self { member, chemistry, family: family::family(member, &chemistry) }
            })
            .collect()
    }

    /// Is it weighed by methods?
    #[must_use]
    pub const fn by_methods(&self) -> bool {
        minimum::by_methods(self.family)
    }

    /// Could a part of this steel have been tempered without our knowing? A grade comes in
    /// the conditions that it is listed with; a steel that is known by certificate alone
    /// could be anything that its analysis allows.
    #[must_use]
    pub fn may_be_tempered(&self) -> bool {
        if !self.hardens() {
            return false;
        }
        let percent = |element| self.chemistry.nominal.get(element);
        if percent(Element::C) > family::HARDENING_CARBON || self.family == Family::QuenchedTempered {
            return true;
        }
        let alloy = || percent(Element::Cr) + percent(Element::Mo) + percent(Element::Ni);
        self.member.steel.grade().map_or_else(
            || {
                !self.by_methods()
                    || alloy() > ALLOY_THAT_HARDENS
                    || percent(Element::B) >= BORON_THAT_HARDENS
            },
            |grade| grade.conditions.iter().any(|row| family::has_temper(row.kind)),
        )
    }

    /// Can the steel harden as it cools? Iron is treated by its own routes; austenitic,
    /// ferritic and high-manganese steels do not harden, nor do they crack from hydrogen.
    #[must_use]
    pub fn hardens(&self) -> bool {
        match self.family {
            Family::Iron => false,
            Family::Stainless | Family::HighAlloy => sheets::hardens(self),
            _ => true,
        }
    }

    /// Has it a sheet of its own and hardens as it cools: tool, creep-resisting and
    /// martensitic stainless steel?
    #[must_use]
    pub fn hardens_by_its_sheet(&self) -> bool {
        !self.by_methods() && self.family != Family::DoNotWeld && self.hardens()
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
