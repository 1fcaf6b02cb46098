//! A question beside a plan: what is typed for it, and what the plan says where nothing is typed.

use super::{AnswerProblem, DefaultValue, Field, JobText, ReadJob, Reading, read_answer, read_answers};
use crate::engine::heat_cycle::{Flames, NoCycle, Turns};
use crate::engine::job::Joint;
use crate::engine::plan::{Deed, Plan, Step, StepFigure, Verdict};
use crate::engine::tint::TintLimits;
use crate::engine::weld_of_job::weld_of_job;
use crate::questions::{
    self, AT_GRADE_MAXIMUM, Answers, Given, HEAT_CYCLE, Input, NOT_STATED, OfPlan, Problem, Question,
};
use crate::reference::HeatSource;

/// A plan, with what only its job knows.
#[derive(Debug, Clone, Copy)]
pub struct PlanSays<'a> {
    /// The job as read.
    pub read: &'a ReadJob,
    /// Its plan.
    pub plan: &'a Plan,
    /// The plan's limits as they are shown.
    pub limits: TintLimits,
    /// The job as typed, with units beside its bare numbers.
    pub typed: &'a JobText,
    /// Minutes of the strongest and of the weakest flame by its heat cycle, once that is worked out.
    pub flame_min: Option<(f64, f64)>,
}

/// What an input is taken to be while nothing is typed or chosen.
#[derive(Debug, Clone, PartialEq)]
pub struct Begun {
    /// Its key.
    pub key: &'static str,
    /// The value.
    pub given: Given,
    /// Is it the plan's?
    pub of_plan: bool,
}

impl PlanSays<'_> {
    /// The part that governs the minimum; the first where none does.
    #[must_use]
    pub fn governing(&self) -> usize {
        self.plan.minimum.as_ref().and_then(|limit| limit.member).unwrap_or(0)
    }

    /// What the plan says for an input, where that is something the input takes.
    #[must_use]
    pub fn given(&self, input: &Input, reading: &Reading<'_>) -> Option<Given> {
        let (job, plan) = (&self.read.job, self.plan);
        let number = |value: Option<f64>| value.map(Given::Number);
        let choice = |id: &str| Some(Given::Choice(id.to_owned()));
        // The sketch of a boss has the plate first, whichever part was told first.
        let round = |index: usize| job.members.get(index).is_some_and(|member| member.round);
        let swapped = job.joint == Joint::BossThrough && round(0) && job.members.len() > 1 && !round(1);
        let thickness = |place: usize| {
            let index = if swapped { 1 - place } else { place };
            number(job.members.get(index).map(|member| member.thickness_mm))
        };
        // With two processes or more the first lays the root.
        let root = (job.runs.len() > 1).then(|| &job.runs[0]);
        let fill = job.runs.last();
        let typed = |field, nth| self.typed(reading, input, field, nth);
        let given = match input.of_plan? {
            OfPlan::Steel => {
                job.members.get(self.governing()).map(|member| Given::Steel(Box::new(member.steel.clone())))
            }
            OfPlan::Thickness => number(Some(job.thickest_mm())),
            OfPlan::FirstThickness => thickness(0),
            // A joint of one part told has the same on its other side; a boss is no second plate.
            OfPlan::SecondThickness => {
                thickness(1).or_else(|| thickness(0).filter(|_| job.joint != Joint::BossThrough))
            }
            OfPlan::CombinedThickness => number(Some(plan.combined_mm)),
            OfPlan::Leg => number(job.leg_mm()),
            OfPlan::WeldDepth => number(job.weld.thickness_mm.filter(|_| !job.joint.has_fillet())),
            OfPlan::MeasuringDistance => {
                plan.sequence.numbered().find_map(|(_, _, step)| match step.figure {
                    Some(StepFigure::Away(mm)) => Some(Given::Number(mm)),
                    _ => None,
                })
            }
            OfPlan::WeldSize => number(job.weld.thickness_mm),
            OfPlan::WeldThickness => number(job.weld.thickness_mm.or(Some(job.thickest_mm()))),
            OfPlan::WeldStrength => number(job.weld.tensile_mpa),
            OfPlan::WeldCet => number(job.weld.cet),
            OfPlan::Hydrogen => number(Some(job.hydrogen_ml())),
            OfPlan::NetHeat => number(Some(job.net_heat_kj_per_mm())),
            OfPlan::FillHeat => number(fill.map(|run| run.net_heat_kj_per_mm)),
            OfPlan::RootHeat => number(root.map(|run| run.net_heat_kj_per_mm)),
            OfPlan::Process => choice(job.runs.first()?.process.id()),
            OfPlan::FillProcess => choice(fill?.process.id()),
            OfPlan::RootProcess => choice(root?.process.id()),
            OfPlan::FillRuns => typed(Field::Passes, job.runs.len().saturating_sub(1))
                .or_else(|| number(self.planned_runs(reading))),
            OfPlan::Volts => typed(Field::Volts, 0),
            OfPlan::Amps => typed(Field::Amps, 0),
            OfPlan::Travel => typed(Field::Travel, 0),
            OfPlan::ArcTime => typed(Field::ArcTime, 0),
            OfPlan::RunLength => typed(Field::RunLength, 0),
            OfPlan::Joint => choice(job.joint.id()),
            OfPlan::Restraint => choice(job.restraint.id()),
            OfPlan::Family => choice(plan.family()?.id()),
            OfPlan::Yield => {
                number(job.members.iter().filter_map(|member| member.yield_mpa).reduce(f64::max))
            }
            OfPlan::Minimum => number(self.limits.minimum_c),
            OfPlan::Maximum => number(self.limits.maximum_c),
            OfPlan::Ceiling => number(self.limits.ceiling_c),
            OfPlan::PostHeatHours => match post_heat(plan)?.figure? {
                StepFigure::Hours(hours) => number(Some(hours)),
                _ => None,
            },
            OfPlan::PostHeatLeast => {
                post_heat(plan)?;
                let held = plan.side.as_ref()?.post_heat.as_ref()?.answer.main.as_ref()?;
                number(Some(held.low_c))
            }
            OfPlan::HeatedBy => match job.safety.heat_source? {
                HeatSource::None => None,
                HeatSource::Acetylene | HeatSource::Propane => choice("torch"),
                HeatSource::Mats | HeatSource::Induction => choice("mats"),
                HeatSource::Furnace => choice("furnace"),
            },
            OfPlan::Fuel => match job.safety.heat_source? {
                HeatSource::Acetylene => choice("acetylene"),
                _ => None,
            },
            OfPlan::FlameLeast => number(self.flame_min.map(|(least, _)| least)),
            OfPlan::FlameMost => number(self.flame_min.map(|(_, most)| most)),
            OfPlan::Shop => number(Some(job.shop_c)),
        };
        given.filter(|given| input.takes(given))
    }

    /// Runs of the last process that fill the weld, as the plan tells them.
    fn planned_runs(&self, reading: &Reading<'_>) -> Option<f64> {
        let weld = weld_of_job(reading.reference, &self.read.job, &self.read.told, self.plan)?;
        let of = weld.layers.ok()?.of.last()?.count;
        u32::try_from(of).ok().map(f64::from)
    }

    /// What is read at the machine, of one process.
    fn typed(&self, reading: &Reading<'_>, input: &Input, field: Field, nth: usize) -> Option<Given> {
        let text = self.typed.get(field.nth(nth)).or_else(|| self.typed.get(field.nth(0)))?;
        let mut texts = text.split('+');
        let text = if nth == 0 { texts.next() } else { texts.next_back() };
        let reading = Reading { units: self.read.units, own_steels: &[], ..*reading };
        read_answer(input, text?, &reading).ok()
    }

    /// What must be said of the steel beside every figure that rests on it.
    #[must_use]
    pub fn steel_notes(&self) -> Vec<&'static str> {
        let of = |value: &DefaultValue| match value {
            DefaultValue::GradeMaximum(_) => Some(AT_GRADE_MAXIMUM),
            DefaultValue::NotStated(_) => Some(NOT_STATED),
            _ => None,
        };
        self.read.defaulted.iter().filter_map(|found| of(&found.value)).collect()
    }
}

/// The post-heat of a plan; none where hydrogen has no way out, or no hours are known.
#[must_use]
pub fn post_heat(plan: &Plan) -> Option<&Step> {
    let held = |step: &&Step| matches!(step.deed, Deed::PostHeat | Deed::PostHeatIfHot | Deed::LongerWait);
    plan.sequence.numbered().map(|(_, _, step)| step).find(held)
}

/// What each input is taken to be where nothing is typed for it; what is typed takes the place of all
/// that says the same.
#[must_use]
pub fn begun(
    question: &'static Question,
    typed: &[&'static Input],
    says: Option<&PlanSays<'_>>,
    reading: &Reading<'_>,
) -> Vec<Begun> {
    let open = |input: &&Input| {
        !typed
            .iter()
            .any(|other| std::ptr::eq(*other, *input) || input.group.is_some() && other.group == input.group)
    };
    let taken = |input: &'static Input| {
        let of_plan = says.and_then(|says| says.given(input, reading));
        let in_form = || input.in_form.map(|preset| (preset.given(), false));
        let (given, of_plan) = of_plan.map(|given| (given, true)).or_else(in_form)?;
        Some(Begun { key: input.key, given, of_plan })
    };
    question.inputs.iter().filter(open).filter_map(taken).collect()
}

/// What a question is asked beside a plan: what is typed for it, and the plan's where nothing is.
///
/// # Errors
/// Every input that can't be used.
pub fn beside_plan(
    question: &'static Question,
    pairs: &[(String, String)],
    begun: &[Begun],
    says: Option<&PlanSays<'_>>,
    reading: &Reading<'_>,
) -> Result<Answers, Vec<AnswerProblem>> {
    let mut answers = read_answers(question, pairs, reading)?;
    for taken in begun {
        answers.set(taken.key, taken.given.clone());
        if let (Given::Steel(_), Some(says)) = (&taken.given, says) {
            says.steel_notes().into_iter().for_each(|note| answers.note(note));
        }
    }
    Ok(answers)
}

/// The heat cycle of a plan's joint, from the job, the plan and what is typed for the question.
///
/// # Errors
/// Why the plan has none.
pub fn cycle_of_plan(
    pairs: &[(String, String)],
    says: &PlanSays<'_>,
    reading: &Reading<'_>,
) -> Result<Flames, NoCycle> {
    let typed: Vec<&'static Input> = pairs.iter().filter_map(|(key, _)| HEAT_CYCLE.input(key)).collect();
    let begun = begun(&HEAT_CYCLE, &typed, Some(says), reading);
    let asked = beside_plan(&HEAT_CYCLE, pairs, &begun, Some(says), reading);
    cycle_of_answers(asked.ok(), says)
}

/// The same from what is asked; nothing where it can't be read.
///
/// # Errors
/// Why the plan has none.
pub fn cycle_of_answers(asked: Option<Answers>, says: &PlanSays<'_>) -> Result<Flames, NoCycle> {
    let heated = says.plan.verdict == Verdict::Window && says.limits.minimum_c.is_some();
    let least_c = HEAT_CYCLE.input(questions::MINIMUM_OF_CYCLE).and_then(|input| input.low).unwrap_or(0.0);
    if !heated || says.limits.minimum_c.is_none_or(|minimum_c| minimum_c < least_c) {
        return Err(NoCycle::NothingToHeat);
    }
    let source = says.read.job.safety.heat_source;
    if source == Some(HeatSource::None) {
        return Err(NoCycle::NoSource);
    }
    let asked = asked.ok_or(NoCycle::Unread)?;
    // "Propane or another gas" is not yet a fuel.
    let by_torch = !matches!(asked.get("heating"), Some(Given::Choice(id)) if id != "torch");
    if source == Some(HeatSource::Propane) && by_torch && asked.get("fuel").is_none() {
        return Err(NoCycle::Open(vec!["fuel"]));
    }
    let full = HEAT_CYCLE.filled(&asked).map_err(no_cycle)?;
    let mut flames = questions::flames(&full).map_err(no_cycle)?;
    flames.cycle.post_heat.hours = post_heat(says.plan).map_or(0.0, |_| flames.hold_h);
    flames.cycle.post_heat.beside_h =
        if flames.cycle.post_heat.hours > 0.0 { vec![0.0] } else { vec![flames.hold_h] };
    flames.turns = turns(says.plan);
    Ok(flames)
}

/// Why a plan has no cycle, by what its question says.
fn no_cycle(problem: Problem) -> NoCycle {
    match problem {
        Problem::Missing { keys } => NoCycle::Open(keys),
        Problem::MissingSeveral { each } => NoCycle::Open(each.concat()),
        Problem::Engine(error) => NoCycle::NoAnswer(error),
        _ => NoCycle::Unread,
    }
}

/// When the steel of a plan turns; nothing where none turns, or where the formula holds for none of it.
fn turns(plan: &Plan) -> Option<Turns> {
    let ((ms_c, m90_c), scatter_k) = plan.ms_m90_c.zip(plan.ms_scatter_k)?;
    Some(Turns { ms_c, m90_c, scatter_k })
}
