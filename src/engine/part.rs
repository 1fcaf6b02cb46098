//! A member with its analysis and family settled.

use super::chemistry::Chemistry;
use super::family::Family;
use super::job::{Job, Member};
use super::treatment;
use crate::reference::Element;

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
                Self { member, chemistry, family: treatment::family(member, &chemistry) }
            })
            .collect()
    }

    /// Is it weighed by methods?
    #[must_use]
    pub const fn by_methods(&self) -> bool {
        self.family.by_methods()
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
        if percent(Element::C) > treatment::HARDENING_CARBON || self.family == Family::QuenchedTempered {
            return true;
        }
        let alloy = || percent(Element::Cr) + percent(Element::Mo) + percent(Element::Ni);
        self.member.steel.grade().map_or_else(
            || {
                !self.by_methods()
                    || alloy() > ALLOY_THAT_HARDENS
                    || percent(Element::B) >= BORON_THAT_HARDENS
            },
            |grade| grade.conditions.iter().any(|row| treatment::has_temper(row.kind)),
        )
    }

    /// Can the steel harden as it cools? Iron is treated by its own routes; austenitic,
    /// ferritic and high-manganese steels do not harden, nor do they crack from hydrogen.
    #[must_use]
    pub const fn hardens(&self) -> bool {
        self.family.traits().hardens
    }

    /// Has it a sheet of its own and hardens as it cools: tool, creep-resisting and
    /// martensitic stainless steel?
    #[must_use]
    pub fn hardens_by_its_sheet(&self) -> bool {
        !self.by_methods() && self.family != Family::DoNotWeld && self.hardens()
    }
}
