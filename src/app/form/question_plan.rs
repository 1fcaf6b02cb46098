//! What the plan says for the inputs of a question.

use std::rc::Rc;

use crate::app::{Planned, State};
use crate::engine::tint::TintLimits;
use crate::job::{JobText, PlanSays};
use crate::questions::{Input, OfPlan, Question};
use crate::report::tint_limits;

/// Is the plan's heat cycle still being worked out, so that an answer that takes its minutes goes without
/// them so far, or with those of the coarse grid?
pub(crate) fn cycle_to_come(state: &State) -> bool {
    !state.cycle.borrow().at_rest()
}

/// Does a question take the minutes of the plan's heat cycle?
fn takes_cycle(question: &Question) -> bool {
    question.inputs.iter().any(|input| input.of_plan.is_some_and(OfPlan::of_cycle))
}

/// Will the answer of a question change once the plan's heat cycle is worked out? What is typed in place
/// of its minutes holds.
pub(crate) fn is_preliminary(state: &State, question: &Question) -> bool {
    let typed = |input: &Input| {
        let key = format!("{}.{}", question.name, input.key);
        state.session(|session| session.typed.get(&key).is_some_and(|text| !text.trim().is_empty()))
    };
    let minutes = |input: &&Input| input.of_plan.is_some_and(OfPlan::of_cycle);
    takes_cycle(question) && !question.inputs.iter().filter(minutes).any(typed) && cycle_to_come(state)
}

/// A plan, with what only its form knows.
pub(crate) struct PlanFacts {
    planned: Rc<Planned>,
    limits: TintLimits,
    /// The job as typed, with units beside its bare numbers.
    typed: JobText,
    /// Minutes of the flame by the plan's heat cycle.
    flame_min: Option<(f64, f64)>,
}

impl PlanFacts {
    /// The plan as it stands; none while a field can't be read, since the last plan is an old
    /// one.
    pub(crate) fn of(state: &State) -> Option<Self> {
        let planned = state.planned_now()?;
        let limits = tint_limits(&state.pen(), Some(&planned.plan)).held;
        let typed = state.session(|session| session.job.with_units_written(session.units));
        Some(Self { planned, limits, typed, flame_min: None })
    }

    /// The same for a question, with what the plan's heat cycle says where the question asks for that.
    /// The cycle asks for none of it, or it would ask for itself.
    pub(super) fn beside(state: &State, question: &Question) -> Option<Self> {
        let flame_min = takes_cycle(question).then(|| (state.flame_min.get())(state)).flatten();
        Some(Self { flame_min, ..Self::of(state)? })
    }

    /// The plan's minimum preheat as shown, °C.
    pub(crate) fn minimum_c(&self) -> Option<f64> {
        self.limits.minimum_c
    }

    /// What it says.
    pub(crate) fn says(&self) -> PlanSays<'_> {
        PlanSays {
            read: &self.planned.read,
            plan: &self.planned.plan,
            limits: self.limits,
            typed: &self.typed,
            flame_min: self.flame_min,
        }
    }

    /// The steel in words.
    pub(super) fn steel_name(&self, state: &State) -> String {
        let member = self.planned.read.job.members.get(self.says().governing());
        let grade = member.and_then(|member| member.steel.grade());
        grade.map_or_else(|| state.words.get("steel-by-certificate"), |grade| grade.designation.clone())
    }
}
