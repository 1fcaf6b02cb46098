//! What the plan says for the inputs of a question.

use std::rc::Rc;

use crate::app::{Planned, State};
use crate::engine::tint::TintLimits;
use crate::job::{DefaultValue, Field, JobText, Reading, read_answer};
use crate::questions::{AT_GRADE_MAXIMUM, Given, Input, NOT_STATED, OfPlan};
use crate::report::tint_limits;

/// A plan, with what only its form knows.
pub(crate) struct PlanFacts {
    planned: Rc<Planned>,
    limits: TintLimits,
    /// The job as typed, with units beside its bare numbers.
    typed: JobText,
}

impl PlanFacts {
    /// The plan as it stands; none while a field can't be read, since the last plan is an old
    /// one.
    pub(crate) fn of(state: &State) -> Option<Self> {
        let planned = state.planned_now()?;
        let limits = tint_limits(&state.pen(), Some(&planned.plan)).held;
        let typed = state.session(|session| session.job.with_units_written(session.units));
        Some(Self { planned, limits, typed })
    }

    /// The plan's minimum preheat as shown, °C.
    pub(crate) fn minimum_c(&self) -> Option<f64> {
        self.limits.minimum_c
    }

    /// The part that governs the minimum; the first where none does.
    fn governing(&self) -> usize {
        self.planned.plan.minimum.as_ref().and_then(|limit| limit.member).unwrap_or(0)
    }

    /// What the plan says for an input, where that is something the input takes.
    pub(super) fn given(&self, state: &State, input: &Input) -> Option<Given> {
        let (job, plan) = (&self.planned.read.job, &self.planned.plan);
        let number = |value: Option<f64>| value.map(Given::Number);
        let choice = |id: &str| Some(Given::Choice(id.to_owned()));
        let thickness = |index: usize| number(job.members.get(index).map(|member| member.thickness_mm));
        let given = match input.of_plan? {
            OfPlan::Steel => {
                job.members.get(self.governing()).map(|member| Given::Steel(Box::new(member.steel.clone())))
            }
            OfPlan::Thickness => number(Some(job.thickest_mm())),
            OfPlan::FirstThickness => thickness(0),
            OfPlan::SecondThickness => thickness(1),
            OfPlan::CombinedThickness => number(Some(plan.combined_mm)),
            OfPlan::WeldSize => number(job.weld.thickness_mm),
            OfPlan::WeldThickness => number(job.weld.thickness_mm.or(Some(job.thickest_mm()))),
            OfPlan::WeldStrength => number(job.weld.tensile_mpa),
            OfPlan::WeldCet => number(job.weld.cet),
            OfPlan::Hydrogen => number(Some(job.hydrogen_ml())),
            OfPlan::NetHeat => number(Some(job.net_heat_kj_per_mm())),
            OfPlan::Process => choice(job.runs.first()?.process.id()),
            OfPlan::Volts => self.typed(state, input, Field::Volts),
            OfPlan::Amps => self.typed(state, input, Field::Amps),
            OfPlan::Travel => self.typed(state, input, Field::Travel),
            OfPlan::ArcTime => self.typed(state, input, Field::ArcTime),
            OfPlan::RunLength => self.typed(state, input, Field::RunLength),
            OfPlan::Joint => choice(job.joint.id()),
            OfPlan::Restraint => choice(job.restraint.id()),
            OfPlan::Family => choice(plan.family()?.id()),
            OfPlan::Yield => {
                number(job.members.iter().filter_map(|member| member.yield_mpa).reduce(f64::max))
            }
            OfPlan::Minimum => number(self.limits.minimum_c),
            OfPlan::Maximum => number(self.limits.maximum_c),
            OfPlan::Ceiling => number(self.limits.ceiling_c),
            OfPlan::Shop => number(Some(job.shop_c)),
        };
        given.filter(|given| input.takes(given))
    }

    /// What is read at the machine, of the first process.
    fn typed(&self, state: &State, input: &Input, field: Field) -> Option<Given> {
        let first = self.typed.get(field)?.split('+').next()?;
        let units = self.planned.read.units;
        read_answer(input, first, &Reading { reference: state.reference, own_steels: &[], units }).ok()
    }

    /// What must be said of the steel beside every figure that rests on it.
    pub(super) fn steel_notes(&self) -> Vec<&'static str> {
        let of = |value: &DefaultValue| match value {
            DefaultValue::GradeMaximum(_) => Some(AT_GRADE_MAXIMUM),
            DefaultValue::NotStated(_) => Some(NOT_STATED),
            _ => None,
        };
        self.planned.read.defaulted.iter().filter_map(|found| of(&found.value)).collect()
    }

    /// The steel in words.
    pub(super) fn steel_name(&self, state: &State) -> String {
        let member = self.planned.read.job.members.get(self.governing());
        let grade = member.and_then(|member| member.steel.grade());
        grade.map_or_else(|| state.words.get("steel-by-certificate"), |grade| grade.designation.clone())
    }
}
