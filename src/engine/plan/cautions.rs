//! Which cautions does this job bring up, and in which order?
//!
//! First what this very job does, then what every such job brings with it, so that the second
//! never hides the first. Each of the two is ranked by severity, then by how directly the job
//! triggers them, then by the order of the work. Source: `data/cautions.ron`.

use super::{Action, Plan, Verdict};
use crate::engine::family::Family;
use crate::engine::job::{Job, Joint};
use crate::engine::part::Part;
use crate::engine::treatment::{self, Refusal};
use crate::reference::{ArcKind, ConditionKind, Element, Reference, Trigger};

/// A caution that the job brings up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Raised {
    /// Where the caution stands among the rows of the dataset.
    pub place: usize,
    /// How directly: 3 the job does just this, 2 likely, 1 good to know.
    pub directness: u8,
}

impl Raised {
    /// Only good to know, in every job of this kind?
    #[must_use]
    pub const fn of_every_job(&self) -> bool {
        self.directness < 2
    }
}

/// The cautions of a job: its own, worst first, then those of every such job, worst first.
#[must_use]
pub(super) fn cautions(reference: &Reference, job: &Job, parts: &[Part<'_>], plan: &Plan) -> Vec<Raised> {
    let scene = Scene { reference, job, plan, parts };
    let rows = reference.cautions.rows();
    let mut raised: Vec<Raised> = (0..rows.len())
        .filter_map(|place| {
            let fired = rows[place].triggers.iter().filter(|triggered| scene.has(triggered.when));
            Some(Raised { place, directness: fired.map(|triggered| triggered.directness).max()? })
        })
        .collect();
    raised.sort_by(|a, b| {
        let (one, other) = (&rows[a.place], &rows[b.place]);
        (a.of_every_job().cmp(&b.of_every_job()))
            .then(one.severity.cmp(&other.severity))
            .then(b.directness.cmp(&a.directness))
            .then(one.step.cmp(&other.step))
            .then(one.id.cmp(&other.id))
    });
    raised
}

struct Scene<'a> {
    reference: &'a Reference,
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
            Trigger::AnyPreheat => preheat_c > 0.0,
            Trigger::FlamePreheat => preheat_c > 0.0 || self.arc(|arc| arc == ArcKind::OxyFuel),
            Trigger::PreheatAbove(limit_c) => preheat_c > limit_c,
            Trigger::AnyArc => !refused && self.arc(|arc| arc != ArcKind::OxyFuel),
            Trigger::Process(kind) => self.arc(|arc| arc == kind),
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
            Trigger::LeadedSteel => self.refusal(Refusal::Lead),
            Trigger::SulphurSteel => self.refusal(Refusal::Sulphur),
            Trigger::Stainless => self.parts.iter().any(|part| part.family.stainless()),
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
            Trigger::HighFrequencyStart => self.arc(|arc| arc == ArcKind::Gtaw),
            // No question of the job asks for these; the Safety place lists them.
            Trigger::FrozenPin | Trigger::BrazeFiller | Trigger::TightPlace => false,
        }
    }

    /// Is there a process with such a source of heat?
    fn arc(&self, wanted: impl Fn(ArcKind) -> bool) -> bool {
        let of = |id| self.reference.process(id).map(|process| process.arc);
        self.job.runs.iter().filter_map(|run| of(run.process.id())).any(wanted)
    }

    fn action(&self, wanted: Action) -> bool {
        self.plan.actions.contains(&wanted)
    }

    fn family(&self, wanted: &[Family]) -> bool {
        self.parts.iter().any(|part| wanted.contains(&part.family))
    }

    fn refusal(&self, wanted: Refusal) -> bool {
        self.parts.iter().any(|part| treatment::refusal(part.member, &part.chemistry) == Some(wanted))
    }

    fn condition(&self, wanted: ConditionKind) -> bool {
        self.parts.iter().any(|part| part.member.condition.kind == wanted)
    }

    fn percent_above(&self, element: Element, limit: f64) -> bool {
        self.parts.iter().any(|part| part.chemistry.nominal.get(element) > limit)
    }
}
