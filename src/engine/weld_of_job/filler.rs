//! Which filler does each process of the job lay, and does the chosen one fit?

use super::base::{BaseStrength, is_open};
use super::{AsPart, RunTold};
use crate::engine::family::Family;
use crate::engine::job::{Job, Joint, Process, Run};
use crate::engine::plan::{Action, Plan};
use crate::engine::treatment;
use crate::engine::weld::hydrogen_need::{HydrogenJoint, HydrogenNeed, hydrogen_need};
use crate::engine::weld::matching::{MatchVerdict, WeldKind, WeldLoad, verdict};
use crate::engine::weld::offered::{Dropped, OfferQuery, dropped, offered};
use crate::engine::weld::plate::{AsStrong, AsStrongQuery, as_strong};
use crate::engine::weld::unfit::{is_stainless, unfit_metal};
use crate::reference::{Coating, Element, Filler, Reference};

/// So many fillers are offered.
const OFFERED: usize = 3;
/// Chromium from which creep-resisting steel takes a filler of its alloy, %.
const CREEP_CHROMIUM: f64 = 0.5;
/// So much of it the filler has at least, and so much more at most, %.
const LEANER_SHARE: f64 = 0.75;
const RICHER: f64 = 1.0;
/// Sulphur and lead of a steel on which nickel cracks hot, %.
const FREE_CUTTING: (f64, f64) = (0.05, 0.05);

/// What is said of the filler that was chosen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Chosen {
    /// It fits, as the rules say.
    Fits(MatchVerdict),
    /// It fits process and hydrogen; how strong the part is, nobody knows.
    StrengthOpen,
    /// It is refused.
    Refused(Dropped),
}

/// The filler that was chosen for a process.
#[derive(Debug, Clone, PartialEq)]
pub struct ChosenFiller<'a> {
    /// Its row.
    pub filler: &'a Filler,
    /// What is said of it.
    pub verdict: Chosen,
    /// Is it weaker than the weaker part?
    pub weaker: bool,
    /// Is its yield strength lower than that of a part, where the strength decides?
    pub yield_lower: bool,
    /// The fillet that is as strong as its part with this filler, where that can be told.
    pub as_part: Option<AsPart>,
}

/// The fillers of one process.
#[derive(Debug, Clone, PartialEq)]
pub struct Fillers<'a> {
    /// The chosen one.
    pub chosen: Option<ChosenFiller<'a>>,
    /// The first that fit.
    pub offered: Vec<&'a Filler>,
    /// What is said of the first that is offered.
    pub first: Option<ChosenFiller<'a>>,
    /// The most hydrogen that it may bring, ml in 100 g: what the joint bears, and what the plan counts with.
    pub hydrogen_ml: f64,
}

impl Fillers<'_> {
    /// The chosen one, or else the first that is offered.
    #[must_use]
    pub fn lead(&self) -> Option<&ChosenFiller<'_>> {
        self.chosen.as_ref().or(self.first.as_ref())
    }
}

/// What the filler of every process is asked by.
pub(super) struct Asked<'a> {
    pub(super) reference: &'a Reference,
    pub(super) job: &'a Job,
    pub(super) plan: &'a Plan,
    pub(super) base: Option<BaseStrength>,
    pub(super) need: HydrogenNeed,
    pub(super) kind: WeldKind,
    pub(super) load: WeldLoad,
}

/// The weld as the matching rules know it. A build-up joins nothing, so that its strength is for its wear.
pub(super) const fn kind(joint: Joint, groove: bool) -> WeldKind {
    match joint {
        _ if groove => WeldKind::FullGroove,
        Joint::Butt | Joint::BarToBar | Joint::Repair => WeldKind::FullGroove,
        Joint::RunOnShaft => WeldKind::PartGroove,
        _ => WeldKind::Fillet,
    }
}

/// The hydrogen that the joint bears.
pub(super) fn need(reference: &Reference, job: &Job, plan: &Plan) -> HydrogenNeed {
    let most = |of: &dyn Fn(usize) -> f64| (0..plan.members.len()).map(of).fold(0.0, f64::max);
    let joint = HydrogenJoint {
        ce: most(&|member| plan.members[member].chemistry.ce()),
        carbon: most(&|member| plan.members[member].chemistry.composition.get(Element::C)),
        thickness_mm: job.thickest_mm(),
        restraint: job.restraint,
        hardness_hv: job.members.iter().filter_map(|member| member.hardness_hv).reduce(f64::max),
    };
    hydrogen_need(&reference.welding.strength.hydrogen, &joint)
}

impl<'a> Asked<'a> {
    /// Is any part of a metal that takes no filler of these rules?
    pub(super) fn other_metal(&self) -> bool {
        let members = || self.job.members.iter().filter(|member| !member.buttered);
        members().any(|member| unfit_metal(member).is_some() || is_stainless(member))
    }

    /// Chromium that a ferritic filler may have, %: of creep-resisting steel nearly that of the leaner part,
    /// since the weld must creep no sooner; and little more than the richer part has, since such a filler
    /// hardens in air (common practice, no source).
    fn chromium(&self) -> Option<(f64, f64)> {
        let members = || self.plan.members.iter();
        let of = |note: &crate::engine::plan::MemberNote| note.chemistry.nominal.get(Element::Cr);
        let least = members().map(of).fold(f64::INFINITY, f64::min);
        let most = members().map(of).fold(0.0, f64::max);
        let creep = members().all(|note| note.family == Family::Creep) && least >= CREEP_CHROMIUM;
        Some((if creep { LEANER_SHARE * least } else { 0.0 }, most + RICHER))
    }

    fn free_cutting(&self) -> bool {
        let rich = |element, most| {
            self.plan.members.iter().any(|note| note.chemistry.composition.get(element) > most)
        };
        rich(Element::S, FREE_CUTTING.0)
            || rich(Element::Pb, FREE_CUTTING.1)
            || self.job.safety.coating == Some(Coating::Zinc)
    }

    fn query(&self, run: &Run) -> Option<OfferQuery<'a>> {
        let process = self.reference.process(run.process.id())?;
        let treated = [Action::HeatTreatAfter, Action::HeatTreatStraightAfter];
        Some(OfferQuery {
            process,
            kind: self.kind,
            load: self.load,
            base_mpa: self.base.map_or(0.0, |base| base.tensile_mpa),
            least_mpa: None,
            // On lean steel a wet electrode is weighed by the preheat, which counts with its hydrogen.
            hydrogen_ml: if self.need.lean && !process.low_hydrogen {
                self.need.most_ml.max(process.hydrogen_high_ml)
            } else {
                self.need.most_ml
            },
            heat_treated: treated.iter().any(|action| self.plan.actions.contains(action)),
            hardened_again: false,
            free_cutting: self.free_cutting(),
            austenitic: run.process == Process::SmawNickel,
            chromium: self.chromium(),
        })
    }

    /// The fillers of one process.
    pub(super) fn of_run(&self, run: &Run, told: &RunTold) -> Fillers<'a> {
        let Some(query) = self.query(run) else {
            return Fillers { chosen: None, offered: Vec::new(), first: None, hydrogen_ml: run.hydrogen_ml };
        };
        let offers = !is_open(self.base, self.kind, self.load) && !self.other_metal();
        let mut offered = if offers { offered(self.reference, &query) } else { Vec::new() };
        offered.truncate(OFFERED);
        let filler = told.filler.as_ref().and_then(|id| self.reference.fillers.get(id));
        // One filler that is told for all processes is that of those which lay it.
        let filler = filler.filter(|filler| self.lays(run, filler) || !self.laid_by_another(run, filler));
        Fillers {
            chosen: filler.map(|filler| self.said(&query, filler)),
            first: offered.first().map(|filler| self.said(&query, filler)),
            offered,
            hydrogen_ml: query.hydrogen_ml.min(run.hydrogen_ml),
        }
    }

    /// Is the filler made for a process?
    fn lays(&self, run: &Run, filler: &Filler) -> bool {
        let strength = &self.reference.welding.strength;
        self.query(run).is_some_and(|query| dropped(strength, &query, filler) != Some(Dropped::WrongProcess))
    }

    fn laid_by_another(&self, run: &Run, filler: &Filler) -> bool {
        self.job.runs.iter().any(|other| other.process != run.process && self.lays(other, filler))
    }

    /// What is said of one filler.
    fn said(&self, query: &OfferQuery<'a>, filler: &'a Filler) -> ChosenFiller<'a> {
        let strength = &self.reference.welding.strength;
        let whole = OfferQuery { austenitic: true, ..*query };
        let found = match (dropped(strength, &whole, filler), self.base, filler.tensile_min_mpa) {
            (Some(why), _, _) => Chosen::Refused(why),
            (None, base, _) if is_open(base, query.kind, query.load) => Chosen::StrengthOpen,
            (None, Some(base), Some(mpa)) => {
                Chosen::Fits(verdict(strength, query.kind, query.load, base.tensile_mpa, mpa, None))
            }
            (None, _, _) => Chosen::StrengthOpen,
        };
        let weaker = filler.tensile_min_mpa.is_some_and(|mpa| mpa < query.base_mpa);
        let yields = self.job.members.iter().filter_map(treatment::yield_mpa).reduce(f64::min);
        let yield_lower = query.kind == WeldKind::FullGroove
            && filler.yield_min_mpa.zip(yields).is_some_and(|(own, base)| own < base);
        let as_part = weaker.then(|| self.as_part(filler)).flatten();
        ChosenFiller { filler, verdict: found, weaker, yield_lower, as_part }
    }

    /// The fillet that is as strong as its part: a pin in torsion, a plate between two fillets.
    fn as_part(&self, filler: &Filler) -> Option<AsPart> {
        let (part, rings) = match self.job.joint {
            Joint::BossThrough => (AsStrong::PinTorsion, 2.0),
            Joint::TFilletBothSides => (AsStrong::PlateAcross, 1.0),
            _ => return None,
        };
        let member = match part {
            AsStrong::PinTorsion => self.job.members.iter().find(|member| member.round),
            // The second part of the sketch stands on the first.
            _ => self.job.members.get(1),
        }?;
        let asked = AsStrongQuery {
            part,
            size_mm: member.thickness_mm,
            yield_mpa: treatment::yield_mpa(member)?,
            tensile_mpa: treatment::tensile_mpa(member),
            filler_mpa: filler.tensile_min_mpa?,
            rings,
            correlation: None,
        };
        let leg = as_strong(&self.reference.welding.strength, &asked).ok()?.into_iter().next()?;
        let enough = self.job.leg_mm().zip(leg.value).is_some_and(|(own, needed)| own >= needed);
        Some(AsPart { part, leg, enough })
    }
}
