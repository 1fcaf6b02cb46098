//! Which cautions does this job bring up, and in which order?
//!
//! First what this very job does, then what every such job brings with it, so that the second
//! never hides the first. Each of the two is ranked by severity, then by how directly the job
//! triggers them, then by the order of the work. Source: `data/cautions.ron`.

use super::types::Family;
use super::{Action, Part, Plan, Verdict};
use crate::engine::job::{Job, Joint, Process};
use crate::reference::{ArcKind, Caution, ConditionKind, Element, Reference, Trigger};

/// A caution that the job brings up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Raised<'a> {
    /// The caution.
    pub caution: &'a Caution,
    /// How directly: 3 the job does just this, 2 likely, 1 good to know.
    pub directness: u8,
}

impl Raised<'_> {
    /// Only good to know, in every job of this kind?
    #[must_use]
    pub const fn of_every_job(&self) -> bool {
        self.directness < 2
    }
}

/// The cautions of a job: its own, worst first, then those of every such job, worst first.
#[must_use]
pub fn cautions<'a>(reference: &'a Reference, job: &Job, plan: &Plan) -> Vec<Raised<'a>> {
    let parts = Part::all(job);
    let scene = Scene { job, plan, parts: &parts };
    let mut raised: Vec<Raised<'a>> = reference
        .cautions
        .iter()
        .filter_map(|caution| {
            let directness = caution
                .triggers
                .iter()
                .filter(|triggered| scene.has(triggered.when))
                .map(|triggered| triggered.directness)
                .max()?;
            Some(Raised { caution, directness })
        })
        .collect();
    raised.sort_by(|a, b| {
        (a.of_every_job().cmp(&b.of_every_job()))
            .then(a.caution.severity.cmp(&b.caution.severity))
            .then(b.directness.cmp(&a.directness))
            .then(a.caution.step.cmp(&b.caution.step))
            .then(a.caution.id.cmp(&b.caution.id))
    });
    raised
}

struct Scene<'a> {
    job: &'a Job,
    plan: &'a Plan,
    parts: &'a [Part<'a>],
}

impl Scene<'_> {
    fn has(&self, trigger: Trigger) -> bool {
        let refused = matches!(self.plan.verdict, Verdict::Refused(_));
        let preheat_c = self.plan.minimum_c.unwrap_or(0.0);
        match trigger {
            Trigger::Always => true,
            Trigger::AnyPreheat | Trigger::FlamePreheat => preheat_c > 0.0,
            Trigger::PreheatAbove(limit_c) => preheat_c > limit_c,
            Trigger::AnyArc => !refused,
            Trigger::Process(kind) => self.job.runs.iter().any(|run| arc_kind(run.process) == kind),
            Trigger::GrindingFirst => {
                self.job.joint == Joint::Repair
                    || self.job.thermal_cut
                    || self.action(Action::RemoveCase)
                    || self.action(Action::RemoveHardSkin)
            }
            // A part that must not be welded brings no caution for its weld.
            Trigger::HardenableSteel | Trigger::HydrogenDelay => {
                !refused && self.family(&[Family::Hardenable, Family::PlainCarbon, Family::QuenchedTempered])
            }
            Trigger::TemperedPart => super::tempered(self.parts),
            Trigger::LeadedSteel => self.refusal(super::Refusal::Lead),
            Trigger::SulphurSteel => self.refusal(super::Refusal::Sulphur),
            Trigger::Stainless => self.family(&[Family::Stainless]),
            Trigger::HighChromium => self.percent_above(Element::Cr, 3.0),
            Trigger::HighManganese => self.percent_above(Element::Mn, 3.0),
            Trigger::CastIron => self.family(&[Family::Iron]),
            Trigger::CoatedPossible | Trigger::Repair => self.job.joint == Joint::Repair,
            Trigger::CaseHardenedRemoval => {
                self.condition(ConditionKind::CaseHardened)
                    || self.condition(ConditionKind::InductionHardened)
            }
            Trigger::BossOrPinThrough | Trigger::ShrinkFit => self.job.joint == Joint::BossThrough,
            Trigger::PostHeat => {
                self.action(Action::PostHeatBeforeCold)
                    || self.action(Action::PostHeatAboveM90)
                    || self.action(Action::HeatTreatStraightAfter)
            }
            Trigger::OvernightSlowCool => self.action(Action::CoolSlowly),
            Trigger::ThermalCutEdge => self.job.thermal_cut,
            Trigger::ColdShop => self.job.shop_c < 5.0 || self.job.damp,
            Trigger::AusteniticFiller => self.job.weld.austenitic,
            Trigger::HighFrequencyStart => {
                self.job.runs.iter().any(|run| arc_kind(run.process) == ArcKind::Gtaw)
            }
            // No question of the job asks for these; the Safety place lists them.
            Trigger::FrozenPin | Trigger::BrazeFiller | Trigger::TightPlace => false,
        }
    }

    fn action(&self, wanted: Action) -> bool {
        self.plan.actions.contains(&wanted)
    }

    fn family(&self, wanted: &[Family]) -> bool {
        self.parts.iter().any(|part| wanted.contains(&part.family))
    }

    fn refusal(&self, wanted: super::Refusal) -> bool {
        self.parts.iter().any(|part| super::family::refusal(part.member, &part.chemistry) == Some(wanted))
    }

    fn condition(&self, wanted: ConditionKind) -> bool {
        self.parts.iter().any(|part| part.member.condition.kind == wanted)
    }

    fn percent_above(&self, element: Element, limit: f64) -> bool {
        self.parts.iter().any(|part| part.chemistry.nominal.get(element) > limit)
    }
}

const fn arc_kind(process: Process) -> ArcKind {
    match process {
        Process::Gtaw => ArcKind::Gtaw,
        Process::Paw => ArcKind::Paw,
        Process::Gmaw | Process::Mcaw => ArcKind::Gmaw,
        Process::Fcaw | Process::FcawSelf => ArcKind::Fcaw,
        Process::SmawBasic | Process::SmawRutile | Process::SmawCellulosic | Process::SmawNickel => {
            ArcKind::Smaw
        }
        Process::Saw => ArcKind::Saw,
    }
}
