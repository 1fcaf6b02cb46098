//! The briefing of a job: which cautions does it bring up, in which order, and what was not told?
//!
//! Five fixed lines first, then at most ten of the job's own: what must be off the part before anything
//! touches it, then what kills today, what injures, what kills in years. Of each, what the job says comes
//! before what such a job is likely to have, and then the rank counts that is written by hand in
//! `data/cautions.ron`. A job without a safe way to weld it has the five alone. What the job states and
//! finds no place in the list is named all the same: nothing that was told is dropped in silence.

use super::{Action, Plan};
use crate::engine::job::{Job, Joint, Process};
use crate::engine::part::Part;
use crate::engine::safety_facts::Fact;
use crate::reference::{Element, Grinder, HeatSource, Reference, Role, Trigger, WorkPlace};

/// The most cautions of its own that a job is told.
const OWN_MOST: usize = 10;
/// The briefing's line on gas, which is left out where something else heats.
const GAS: &str = "brief-gas";
/// Above this a part is too hot for a web sling or a magnet, °C.
const HOT_TO_LIFT_C: f64 = 60.0;
/// After a day of heating and welding a post-heat of these hours goes on when the shift is over.
const LONG_POST_HEAT_H: f64 = 4.0;
/// From this share on chromium and manganese make the fume worse, %.
const ALLOYED_PCT: f64 = 3.0;

/// What is told before work starts. Rows are named by their places in the dataset.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Briefing {
    /// The lines of every hot job, in their fixed order.
    pub always: Vec<usize>,
    /// Is the line on gas there although nobody said what heats?
    pub gas_untold: bool,
    /// The cautions of this job.
    pub own: Vec<usize>,
    /// Cautions of what the job states that found no place among them: named by their titles.
    pub left_out: Vec<usize>,
    /// The facts that would bring up others and were not told.
    pub not_told: Vec<Fact>,
}

/// The briefing of a job.
#[must_use]
pub(super) fn briefing(reference: &Reference, job: &Job, parts: &[Part<'_>], plan: &Plan) -> Briefing {
    let scene = Scene { job, plan, parts };
    let rows = reference.cautions.rows();
    let mut always: Vec<usize> = (0..rows.len())
        .filter(|place| rows[*place].role == Role::Briefing)
        .filter(|place| rows[*place].id != GAS || scene.flame() || scene.heat_untold())
        .collect();
    always.sort_by_key(|place| rows[*place].rank);
    let gas_untold = !scene.flame() && scene.heat_untold();
    let mut own: Vec<(bool, usize)> = (0..rows.len())
        .filter_map(|place| {
            let has = |triggers: &[Trigger]| triggers.iter().any(|trigger| scene.has(*trigger));
            let stated = has(&rows[place].stated);
            (stated || has(&rows[place].assumed)).then_some((!stated, place))
        })
        .collect();
    // Where there are more than fit, a danger that was stated is the last to give way.
    let told = |(assumed, place): &(bool, usize)| (rows[*place].harm, *assumed, rows[*place].rank);
    own.sort_by_key(|row| (row.0, rows[row.1].severity, told(row)));
    let answers = plan.verdict.answers();
    let rest = own.split_off(own.len().min(if answers { OWN_MOST } else { 0 }));
    own.sort_by_key(told);
    let stated = rest.into_iter().filter(|(assumed, _)| !assumed);
    Briefing {
        always,
        gas_untold,
        own: own.into_iter().map(|(_, place)| place).collect(),
        left_out: stated.map(|(_, place)| place).collect(),
        not_told: if answers { scene.not_told() } else { Vec::new() },
    }
}

struct Scene<'a> {
    job: &'a Job,
    plan: &'a Plan,
    parts: &'a [Part<'a>],
}

impl Scene<'_> {
    fn has(&self, trigger: Trigger) -> bool {
        let told = &self.job.safety;
        match trigger {
            Trigger::HeatSource(source) => told.heat_source == Some(source) || self.torch_welds(source),
            Trigger::SeveralCylinders => told.cylinders.is_some_and(|count| count > 1),
            Trigger::FlameInClosedRoom => {
                self.flame() && matches!(told.place, Some(WorkPlace::ClosedRoom | WorkPlace::Confined))
            }
            Trigger::ArcInConfinedSpace => self.arc() && told.place == Some(WorkPlace::Confined),
            Trigger::FlameInConfinedSpace => self.flame() && told.place == Some(WorkPlace::Confined),
            Trigger::Coating(coating) => told.coating == Some(coating),
            Trigger::Stainless => {
                self.job.weld.chromium_fume || self.parts.iter().any(|part| part.family.stainless())
            }
            Trigger::HighChromium => self.percent_above(Element::Cr, ALLOYED_PCT),
            Trigger::HighManganese => self.percent_above(Element::Mn, ALLOYED_PCT),
            Trigger::LeadedSteel => self.parts.iter().any(Part::is_leaded),
            Trigger::CopperAlloy => told.copper_alloy == Some(true),
            Trigger::Cleaner(cleaner) => told.cleaner == Some(cleaner),
            Trigger::Seals => told.seals == Some(true),
            Trigger::Cavity(cavity) => told.cavity == Some(cavity),
            Trigger::CavityLikely => told.cavity.is_none() && self.job.joint == Joint::BossThrough,
            Trigger::Assembly(assembly) => told.assembly == Some(assembly),
            Trigger::SpringLikely => told.assembly.is_none() && self.spring_steel(),
            Trigger::Battery => told.battery == Some(true),
            Trigger::Place(place) => told.place == Some(place),
            Trigger::Alone => told.alone == Some(true),
            Trigger::Grinder(grinder) => told.grinder == Some(grinder),
            Trigger::GrindingPlanned => told.grinder.is_none() && self.grinding_planned(),
            Trigger::LightMetal => told.light_metal == Some(true) && told.grinder != Some(Grinder::None),
            Trigger::Lifted => told.lifted == Some(true),
            Trigger::LiftedHot => told.lifted == Some(true) && self.preheat_c() > HOT_TO_LIFT_C,
            Trigger::PreheatAbove(limit_c) => self.preheat_c() > limit_c,
            Trigger::Overnight => told.overnight == Some(true),
            Trigger::LongPostHeat => told.overnight.is_none() && self.post_heat_h() >= LONG_POST_HEAT_H,
            Trigger::Inspection(inspection) => told.inspection == Some(inspection),
        }
    }

    /// What matters in this job and was not told, in the order in which it is asked.
    fn not_told(&self) -> Vec<Fact> {
        let told = &self.job.safety;
        let fitted = matches!(self.job.joint, Joint::BossThrough | Joint::Repair) || self.spring_steel();
        let used = self.job.joint == Joint::Repair;
        [
            (Fact::Coating, told.coating.is_none()),
            (Fact::Cavity, told.cavity.is_none()),
            (Fact::Cleaner, told.cleaner.is_none()),
            (Fact::Place, told.place.is_none()),
            (Fact::HeatSource, told.heat_source.is_none() && !self.flame() && self.preheat_c() > 0.0),
            (Fact::Assembly, told.assembly.is_none() && fitted),
            (Fact::Seals, told.seals.is_none() && used),
            (Fact::CopperAlloy, told.copper_alloy.is_none() && used),
        ]
        .into_iter()
        .filter_map(|(fact, open)| open.then_some(fact))
        .collect()
    }

    /// How hot the part is made; of the ways for iron the hottest counts.
    fn preheat_c(&self) -> f64 {
        let ways = self.plan.routes.iter().map(|route| route.preheat_high_c);
        ways.fold(self.plan.minimum_c.unwrap_or(0.0), f64::max)
    }

    /// Is there an arc, or is a flame all that welds?
    fn arc(&self) -> bool {
        self.job.runs.iter().any(|run| run.process != Process::OxyFuel)
    }

    /// Is a gas flame in use?
    fn flame(&self) -> bool {
        [HeatSource::Acetylene, HeatSource::Propane]
            .into_iter()
            .any(|source| self.has(Trigger::HeatSource(source)))
    }

    fn heat_untold(&self) -> bool {
        // Who needs a preheat and heats with nothing has not said how it is done.
        let nothing = self.job.safety.heat_source == Some(HeatSource::None) && self.preheat_c() > 0.0;
        (self.job.safety.heat_source.is_none() || nothing) && !self.flame()
    }

    /// Oxy-fuel gas welding is done with acetylene.
    fn torch_welds(&self, source: HeatSource) -> bool {
        source == HeatSource::Acetylene && self.job.runs.iter().any(|run| run.process == Process::OxyFuel)
    }

    /// Hours that the part is kept hot after the last run, by a post-heat or by a rate of cooling.
    fn post_heat_h(&self) -> f64 {
        let held = self.plan.side.as_ref().and_then(|side| side.post_heat.as_ref());
        let held_h = held.and_then(|held| held.answer.main.as_ref()).map_or(0.0, |hold| hold.shown_h());
        let cooled =
            self.plan.routes.iter().filter_map(|route| Some(route.preheat_low_c / route.cooling_k_per_h?));
        cooled.fold(held_h, f64::max)
    }

    fn grinding_planned(&self) -> bool {
        [Action::RemoveCase, Action::RemoveHardSkin, Action::CutEdges]
            .iter()
            .any(|action| self.plan.actions.contains(action))
    }

    fn spring_steel(&self) -> bool {
        let of = |part: &Part<'_>| part.member.steel.grade().is_some_and(|grade| grade.group == "spring");
        self.parts.iter().any(of)
    }

    fn percent_above(&self, element: Element, limit: f64) -> bool {
        self.parts.iter().any(|part| part.chemistry.nominal.get(element) > limit)
    }
}
