//! A member with its analysis and family settled.

use super::chemistry::Chemistry;
use super::contradiction;
use super::family::Family;
use super::job::{Job, Member};
use super::treatment::{self, Ask, Kin};
use crate::reference::{ConditionKind, Element};

/// Chromium, molybdenum and nickel above which a low-carbon steel may come quenched and
/// tempered or case-hardened, % together.
const ALLOY_THAT_HARDENS: f64 = 0.5;
/// Yield from which thermomechanical rolling makes the strength, MPa.
const THERMOMECHANICAL_FROM_MPA: f64 = 500.0;
/// Lead from which a steel fumes of it and its weld may crack hot, weight percent (common practice, no
/// source: no steel has so much by chance).
pub const SOME_LEAD: f64 = 0.05;
/// The same of sulphur and of phosphorus (common practice, no source: standards of ordinary steel end
/// here, product tolerance with it).
pub const MUCH_SULPHUR_OR_PHOSPHORUS: f64 = 0.05;
/// Boron from which a low-carbon steel may come quenched and tempered, %.
const BORON_THAT_HARDENS: f64 = 0.0005;

/// Chromium from which a creep-resisting steel is not welded with much hydrogen, %.
const CREEP_CHROMIUM: f64 = 0.5;
/// Hydrogen up to which a sheet holds, ml/100 g: that of the low-hydrogen categories of AWS D1.1. No
/// rutile, cellulosic or gas weld has so little.
pub const LOW_HYDROGEN_ML: f64 = 10.0;

/// Sheets of steel that hardens in air print one figure, and it is made for low hydrogen (common
/// practice, no source).
fn presumes_low_hydrogen(family: Family, chromium: f64) -> bool {
    match family {
        Family::Tool | Family::StainlessMartensitic => true,
        Family::Creep => chromium >= CREEP_CHROMIUM,
        _ => false,
    }
}

/// Austenitic weld metal keeps its hydrogen.
fn high_in_hydrogen(job: &Job) -> bool {
    job.hydrogen_ml() > LOW_HYDROGEN_ML && !job.weld.austenitic
}

/// A member as the plan treats it.
#[derive(Debug, Clone, PartialEq)]
pub struct Part<'a> {
    /// The member.
    pub member: &'a Member,
    /// Its analysis.
    pub chemistry: Chemistry,
    /// Its family.
    pub family: Family,
    /// What it may be as well: in doubt both are weighed.
    pub also: Vec<Family>,
    /// The facts that would settle it.
    pub asks: Vec<Ask>,
}

impl<'a> Part<'a> {
    /// The parts of a job.
    #[must_use]
    pub fn all(job: &'a Job) -> Vec<Self> {
        job.members
            .iter()
            .map(|member| {
                let chemistry = Chemistry::of(&member.steel, member.thickness_mm);
                let Kin { family, also, mut asks } = treatment::kin(member, &chemistry);
                asks.extend(contradiction::asks(member, family, chemistry.nominal.get(Element::C)));
                if presumes_low_hydrogen(family, chemistry.nominal.get(Element::Cr)) && high_in_hydrogen(job)
                {
                    asks.push(Ask::LowHydrogen);
                }
                Self { member, chemistry, family, also, asks }
            })
            .collect()
    }

    /// Is the weld metal beside it one that Method B is asked about: low-alloy steel, the
    /// creep-resisting ones among it?
    pub(in crate::engine) fn weld_metal_is_weighed(&self) -> bool {
        let chromium = self.chemistry.nominal.get(Element::Cr);
        self.may_go_by_methods() || (self.family == Family::Creep && chromium <= treatment::LOW_ALLOY_UP_TO)
    }

    /// The same part as each family that it may be.
    pub(in crate::engine) fn readings(&self) -> impl Iterator<Item = Self> {
        std::iter::once(self.family).chain(self.also.iter().copied()).map(|family| Self {
            family,
            also: Vec::new(),
            asks: Vec::new(),
            ..self.clone()
        })
    }

    /// Is what it is asked before any figure stands: its kind, its grade, a tool's temper?
    #[must_use]
    pub fn must_be_told(&self) -> bool {
        self.family == Family::Unsettled
            || (self.family == Family::Tool && self.asks.contains(&Ask::Temper))
            || self.asks.contains(&Ask::LowHydrogen)
    }

    /// Does its sheet presume low hydrogen, which it doesn't say?
    #[must_use]
    pub fn presumes_low_hydrogen(&self) -> bool {
        presumes_low_hydrogen(self.family, self.chemistry.nominal.get(Element::Cr))
    }

    /// Has a steel that is known by its certificate lead in it?
    #[must_use]
    pub fn is_leaded(&self) -> bool {
        !self.chemistry.grade_only && self.chemistry.composition.get(Element::Pb) >= SOME_LEAD
    }

    /// Is it weighed by methods?
    #[must_use]
    pub const fn by_methods(&self) -> bool {
        self.family.by_methods()
    }

    /// May it be a steel that is weighed by methods?
    #[must_use]
    pub fn may_go_by_methods(&self) -> bool {
        self.by_methods() || self.also.iter().any(|family| family.by_methods())
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
        let by_analysis = || {
            !self.by_methods() || alloy() > ALLOY_THAT_HARDENS || percent(Element::B) >= BORON_THAT_HARDENS
        };
        self.member.steel.grade().map_or_else(by_analysis, |grade| {
            grade.conditions.iter().any(|row| treatment::has_temper(row.kind))
                || (treatment::has_left_its_name(self.member) && by_analysis())
        })
    }

    /// Can the steel harden as it cools? Iron is treated by its own routes; austenitic,
    /// ferritic and high-manganese steels do not harden, nor do they crack from hydrogen.
    #[must_use]
    pub const fn hardens(&self) -> bool {
        self.family.traits().hardens
    }

    /// Does a long cooling time take its strength or toughness: steel that is, or may be, quenched
    /// and tempered or is thermomechanically rolled?
    #[must_use]
    pub fn minds_cooling_time(&self) -> bool {
        self.family == Family::QuenchedTempered
            || self.also.contains(&Family::QuenchedTempered)
            || self.thermomechanical()
    }

    /// Is it thermomechanically rolled, to any yield? A heat treatment takes its strength.
    #[must_use]
    pub fn rolled_to_strength(&self) -> bool {
        treatment::listed_kind(self.member) == ConditionKind::Thermomechanical
    }

    /// Is it thermomechanically rolled to a yield of 500 MPa or more?
    #[must_use]
    pub fn thermomechanical(&self) -> bool {
        self.rolled_to_strength()
            && treatment::yield_mpa(self.member).is_none_or(|mpa| mpa >= THERMOMECHANICAL_FROM_MPA)
    }

    /// Has it a sheet of its own and hardens as it cools: tool, creep-resisting and
    /// martensitic stainless steel?
    #[must_use]
    pub fn hardens_by_its_sheet(&self) -> bool {
        !self.by_methods() && self.family != Family::DoNotWeld && self.hardens()
    }
}
