//! What is done, in the order of time: numbered steps that never go back, one way on for each
//! fact that parts them (with a furnace at hand, without; iron cold or hot), no two that contradict.
//!
//! What must be found out first stands apart from the steps: it is asked, not done at the part.
//! A plan without an answer to weld by has no steps.

mod after;
mod before;
mod iron;
mod note;
mod repair;
mod step;

pub use note::Note;
pub use step::{Branch, Deed, Edge, Phase, Step, StepFigure};

use strum::IntoStaticStr;

use super::temper::{Known, known, rolled};
use super::{Action, Ceiling, Plan, Verdict};
use crate::engine::family::Family;
use crate::engine::job::{Job, Joint};
use crate::engine::measuring::HeatedBy;
use crate::engine::part::Part;
use crate::reference::{Element, HeatSource, Reference};

/// What must be settled before the first step; its words are the Fluent message `then-find-ID`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Find {
    /// How a part was tempered.
    Temper,
    /// The same of a part that is harder than it was stated to be.
    TooHard,
    /// Whether oil has soaked a part that is repaired.
    Oil,
    /// Whether it has a crack.
    Crack,
    /// The mill certificate.
    Certificate,
    /// The filler.
    Filler,
    /// The hydrogen class of the consumable.
    Hydrogen,
    /// The size of the weld, which sets the hours of the post-heat.
    WeldSize,
    /// A procedure that is qualified by test.
    Procedure,
    /// A place for the heat treatment that this steel needs.
    HeatTreatment,
    /// This steel needs a heat treatment that the filler can't take.
    OtherFiller,
    /// One part needs a heat treatment that the other can't take.
    OneTreatment,
}

impl Find {
    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// The steps of a plan.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Sequence {
    /// What must be settled first.
    pub find: Vec<Find>,
    /// The steps that every way has.
    pub steps: Vec<Step>,
    /// The ways on from there, each to its end; none where there is one way only.
    pub branches: Vec<(Branch, Vec<Step>)>,
}

impl Sequence {
    /// Every whole way from the first step to the last.
    pub fn ways(&self) -> impl Iterator<Item = Vec<&Step>> {
        let alone = self.branches.is_empty().then(|| self.steps.iter().collect());
        let parted = self.branches.iter().map(|(_, on)| self.steps.iter().chain(on).collect());
        alone.into_iter().chain(parted)
    }

    /// Every step once, with its number and the branch that it stands in.
    pub fn numbered(&self) -> impl Iterator<Item = (usize, Option<Branch>, &Step)> {
        let shared = self.steps.iter().enumerate().map(|(at, step)| (at + 1, None, step));
        let first = self.steps.len() + 1;
        let parted = self.branches.iter().flat_map(move |(branch, on)| {
            on.iter().enumerate().map(move |(at, step)| (first + at, Some(*branch), step))
        });
        shared.chain(parted)
    }
}

/// What the steps are drawn from.
struct Scene<'a> {
    reference: &'a Reference,
    job: &'a Job,
    parts: &'a [Part<'a>],
    plan: &'a Plan,
}

/// Chromium of the steels that must turn to martensite before they are heat-treated, %: the modified
/// 9 % steels begin at 8.
const TURNS_FIRST: std::ops::RangeInclusive<f64> = 8.0..=14.0;

/// Carbon-molybdenum steel: chromium at most, molybdenum at least, % (ASTM A204, from memory).
const NO_CHROMIUM: f64 = 0.3;
/// See above.
const SOME_MOLYBDENUM: f64 = 0.4;

impl Scene<'_> {
    fn has(&self, action: Action) -> bool {
        self.plan.actions.contains(&action)
    }

    fn austenitic(&self) -> bool {
        self.has(Action::AusteniticFiller)
    }

    fn preheated(&self) -> bool {
        self.plan.minimum.is_some()
    }

    /// Is a part a steel whose arc strikes and craters, and burns under the return clamp, start cracks?
    fn hardens(&self) -> bool {
        self.parts.iter().any(|part| part.hardens() && part.family != Family::Structural)
    }

    fn all_iron(&self) -> bool {
        self.parts.iter().all(|part| part.family == Family::Iron)
    }

    fn turns_first(&self) -> bool {
        let chromium = |part: &Part<'_>| part.chemistry.nominal.get(Element::Cr);
        self.parts.iter().any(|part| part.hardens_by_its_sheet() && TURNS_FIRST.contains(&chromium(part)))
    }

    /// A creep-resisting steel without chromium, which codes spare where it is thin.
    fn carbon_molybdenum(&self) -> bool {
        let percent = |part: &Part<'_>, element| part.chemistry.nominal.get(element);
        self.has(Action::HeatTreatAfter)
            && self.parts.iter().any(|part| {
                percent(part, Element::Cr) <= NO_CHROMIUM && percent(part, Element::Mo) >= SOME_MOLYBDENUM
            })
    }

    /// The ceiling; a figure of a sheet is made for the welding, and ends before a heat treatment that
    /// the sheet prints hotter.
    fn ceiling(&self) -> Option<Note> {
        let Ceiling::At(limit) = &self.plan.ceiling else { return None };
        let edge = Edge::of(limit);
        let ends = after::printed(self).iter().any(|note| {
            matches!(note, Note::PrintedTreatment { member }
            if self.hottest_treatment_c(*member).is_some_and(|hottest_c| hottest_c > limit.exact_c))
        });
        Some(if ends { Note::CeilingOfWelding(edge) } else { Note::Ceiling(edge) })
    }

    /// The hottest that is printed for the heat treatment of a part, °C.
    fn hottest_treatment_c(&self, member: usize) -> Option<f64> {
        let printed = self.job.members[member].steel.grade()?.pwht.as_ref()?;
        printed.high_c.or(printed.low_c)
    }

    /// How the parts are heated; by a flame where nobody said.
    fn heated_by(&self) -> HeatedBy {
        match self.job.safety.heat_source {
            Some(HeatSource::Furnace | HeatSource::Mats | HeatSource::Induction) => HeatedBy::Soaking,
            Some(HeatSource::None | HeatSource::Acetylene | HeatSource::Propane) | None => HeatedBy::Flame,
        }
    }

    /// May the part turn in a bearing, or sit in a fit?
    fn turns(&self) -> bool {
        matches!(self.job.joint, Joint::BossThrough | Joint::RunOnShaft | Joint::Repair)
    }

    /// A heat treatment must follow, by the steel or by the temperature that it is welded at.
    fn must_be_treated(&self) -> bool {
        self.has(Action::HeatTreatAfter) || self.has(Action::HeatTreatStraightAfter)
    }

    /// Must it be kept from a heat treatment: a part never has one, or one loses its strength in what
    /// another one needs?
    fn no_treatment(&self) -> bool {
        self.has(Action::NoPwht) || self.has(Action::HeatTreatAfter) && self.one_spoils_the_other()
    }

    /// Begins what is printed for a steel with a sheet of its own above what another part may see?
    fn one_spoils_the_other(&self) -> bool {
        let least_c = |(index, part): (usize, &Part<'_>)| {
            let member = &self.job.members[index];
            member.steel.grade()?.pwht.as_ref()?.low_c.filter(|_| part.hardens_by_its_sheet())
        };
        let hottest_c = self.parts.iter().enumerate().filter_map(least_c).reduce(f64::max);
        let spoilt = |(index, part): (usize, &Part<'_>), treated_c: f64| {
            let tempered = match known(self.reference, part, index) {
                Known::At(limit) if after::loses_strength(&limit) => Some(limit),
                _ => None,
            };
            let mut limits = rolled(self.reference, part, index).into_iter().chain(tempered);
            limits.any(|limit| !part.hardens_by_its_sheet() && limit.exact_c < treated_c)
        };
        hottest_c.is_some_and(|treated_c| self.parts.iter().enumerate().any(|each| spoilt(each, treated_c)))
    }

    /// Where every part is buttered the figures are those of the buttering.
    fn for_buttering(&self) -> Option<Note> {
        let all = self.plan.members.iter().all(|member| member.layer.is_none());
        (self.has(Action::Buttering) && all).then_some(Note::ForButtering)
    }

    /// Would the size of the weld, which nobody told, change the hours of the post-heat?
    fn size_is_open(&self) -> bool {
        let held = self.plan.side.as_ref().and_then(|side| side.post_heat.as_ref());
        held.is_some_and(|held| held.size_matters)
    }

    fn hydrogen_is_open(&self) -> bool {
        self.job.weld.hydrogen_open && self.parts.iter().any(Part::by_methods)
    }

    fn find(&self) -> Vec<Find> {
        let treated = self.must_be_treated();
        let clash = treated && (self.austenitic() || self.no_treatment());
        [
            (self.has(Action::TooHard), Find::TooHard),
            (self.has(Action::AskTemper) && !self.has(Action::TooHard), Find::Temper),
            (self.job.repair.oil_open, Find::Oil),
            (self.job.repair.crack_open, Find::Crack),
            (self.hydrogen_is_open(), Find::Hydrogen),
            (self.has(Action::GradeOnly), Find::Certificate),
            (self.has(Action::FillerUnknown), Find::Filler),
            (self.size_is_open(), Find::WeldSize),
            (self.has(Action::QualifyProcedure), Find::Procedure),
            (treated && !clash, Find::HeatTreatment),
            (treated && self.austenitic(), Find::OtherFiller),
            (treated && self.no_treatment(), Find::OneTreatment),
        ]
        .into_iter()
        .filter_map(|(wanted, find)| wanted.then_some(find))
        .collect()
    }
}

/// The steps of a plan whose figures and side questions are known.
#[must_use]
pub(super) fn sequence(reference: &Reference, job: &Job, parts: &[Part<'_>], plan: &Plan) -> Sequence {
    let scene = Scene { reference, job, parts, plan };
    let find = scene.find();
    if !plan.verdict.answers() {
        return Sequence { find, ..Sequence::default() };
    }
    let mut steps = before::before(&scene);
    if scene.all_iron() {
        let mut ways = iron::ways(&scene);
        // One way that a demand leaves open is the plan.
        if plan.verdict != Verdict::TwoRoutes
            && let Some((_, way)) = ways.pop()
        {
            steps.extend(way);
        }
        return Sequence { find, steps, branches: ways };
    }
    steps.extend(before::welding(&scene));
    let branches = after::after(&scene, &mut steps);
    Sequence { find, steps, branches }
}
