//! Heat input and cooling time.

use super::{Answers, Input, Kind, OfPlan, Problem, Question, Reply, Work, shared};
use crate::engine::Outcome;
use crate::engine::cooling_time::{Cooling, cooling_time, preheat_for_cooling_time};
use crate::engine::heat_input::{ArcRun, Travel, heat_input};
use crate::engine::job::Process;
use crate::reference::{FactorRange, embedded};

const PROCESSES: &[&str] = <Process as strum::VariantNames>::VARIANTS;

/// Arc energy and net heat input.
pub(super) static HEAT_INPUT: Question = Question {
    name: "heat-input",
    work: Work::Weld,
    inputs: &[
        Input::new("volts", Kind::Voltage).required().within(1.0, 200.0).of(OfPlan::Volts),
        Input::new("amps", Kind::Current).required().within(1.0, 5000.0).of(OfPlan::Amps),
        Input::new("travel-speed", Kind::Speed).any_of("travel").within(0.05, 500.0).of(OfPlan::Travel),
        Input::new("arc-time", Kind::Seconds).any_of("travel").within(0.1, 1e5).of(OfPlan::ArcTime),
        Input::new("run-length", Kind::Length).any_of("travel").within(1.0, 1e6).of(OfPlan::RunLength),
        Input::new("process", Kind::Choice(PROCESSES)).any_of("efficiency").of(OfPlan::Process),
        Input::new("efficiency", Kind::Number).any_of("efficiency").within(0.1, 1.0),
    ],
    answers: &["arc-energy", "net-heat-input"],
    notes: &["two-heat-inputs"],
    answer: answer_heat_input,
};

fn answer_heat_input(given: &Answers) -> Result<Reply, Problem> {
    let travel = match (
        given.maybe_number("travel-speed"),
        given.maybe_number("arc-time"),
        given.maybe_number("run-length"),
    ) {
        (Some(speed), None, None) => Travel::SpeedMmPerS(speed),
        (None, Some(arc_time_s), Some(run_mm)) => Travel::Run { arc_time_s, run_mm },
        // Two speeds may differ, and the question can't know which is meant.
        (Some(_), _, _) => return Err(Problem::TravelTwice),
        (None, Some(_), None) => return Err(Problem::Missing { keys: vec!["run-length"] }),
        (None, None, Some(_)) => return Err(Problem::Missing { keys: vec!["arc-time"] }),
        (None, None, None) => return Err(Problem::Missing { keys: vec!["travel-speed", "arc-time"] }),
    };
    let efficiency = match given.maybe_number("efficiency") {
        Some(own) => own,
        None if given.maybe_choice("process").is_none() => {
            return Err(Problem::Missing { keys: vec!["process", "efficiency"] });
        }
        None => embedded().efficiency(given.choice("process", Process::ALL, Process::id)?.id()),
    };
    let run = ArcRun { volts: given.number("volts")?, amps: given.number("amps")?, travel, efficiency };
    Ok(Reply::of(heat_input(run)?).note_if(true, "two-heat-inputs"))
}

const F2: Input = Input::new("f2", Kind::Number).within(0.1, 2.0);
const F3: Input = Input::new("f3", Kind::Number).any_of("factor").within(0.1, 2.0);

/// The weld at the lower end (the fast one) and at the upper end of its shape factors.
fn welds(given: &Answers) -> Result<[Cooling; 2], Problem> {
    let joint = if given.maybe_choice("joint").is_some() { Some(given.joint()?) } else { None };
    let own = |key| given.maybe_number(key).map(|value| FactorRange { low: value, high: value });
    let missing = || Problem::Missing { keys: vec!["joint", "f3"] };
    let f3 = own("f3").or(joint.map(|joint| joint.f3)).ok_or_else(missing)?;
    let f2 = own("f2").or(joint.map(|joint| joint.f2)).unwrap_or(f3);
    let net_heat_kj_per_mm = given.number("heat-input")?;
    let thickness_mm = given.maybe_number("thickness");
    let weld = |f2, f3| Cooling { net_heat_kj_per_mm, thickness_mm, f2, f3 };
    Ok([weld(f2.low, f3.low), weld(f2.high, f3.high)])
}

/// Lets the answer rest on the joint's shape factors too, where one is taken; says whether.
fn rest_on_factors(outcome: &mut Outcome, given: &Answers) -> bool {
    let all_own = given.maybe_number("f2").is_some() && given.maybe_number("f3").is_some();
    let Some(joint) = given.joint().ok().filter(|_| !all_own) else { return false };
    let weaker = outcome.basis(&embedded().methods).weaker(&joint.factors_basis).clone();
    outcome.own_basis = Some(weaker);
    true
}

/// Cooling time from 800 to 500 °C.
pub(super) static COOLING_TIME: Question = Question {
    name: "cooling-time",
    work: Work::Weld,
    inputs: &[
        shared::NET_HEAT.required(),
        Input::new("preheat", Kind::Temperature).required().within(-50.0, 450.0).of(OfPlan::Minimum),
        shared::THICKNESS,
        shared::JOINT.any_of("factor"),
        F2,
        F3,
    ],
    answers: &["cooling-time"],
    notes: &["thick-plate-taken", "shape-factors-memory", "shape-factor-range"],
    answer: answer_cooling_time,
};

fn answer_cooling_time(given: &Answers) -> Result<Reply, Problem> {
    let [fast, slow] = welds(given)?;
    let t0_c = given.number("preheat")?;
    let mut outcome = cooling_time(fast, t0_c)?;
    let slow_s = cooling_time(slow, t0_c)?.value;
    let spread = slow_s != outcome.value;
    if spread {
        (outcome.low, outcome.high) = (outcome.value, slow_s);
    }
    let by_joint = rest_on_factors(&mut outcome, given);
    Ok(Reply::of([outcome])
        .note_if(fast.thickness_mm.is_none(), "thick-plate-taken")
        .note_if(by_joint, "shape-factors-memory")
        .note_if(spread, "shape-factor-range"))
}

/// The preheat for a wanted cooling time.
pub(super) static PREHEAT_FOR_COOLING_TIME: Question = Question {
    name: "preheat-for-cooling-time",
    work: Work::Weld,
    inputs: &[
        shared::NET_HEAT.required(),
        Input::new("cooling-time", Kind::Seconds).required().within(0.01, 10_000.0),
        shared::THICKNESS,
        shared::JOINT.any_of("factor"),
        F2,
        F3,
    ],
    answers: &["preheat-for-cooling-time"],
    notes: &["thick-plate-taken", "shape-factors-memory", "shape-factor-range", "cooling-time-no-cracking"],
    answer: answer_preheat_for,
};

fn answer_preheat_for(given: &Answers) -> Result<Reply, Problem> {
    // The smaller factor cools faster and so needs the hotter preheat: that one is the answer.
    let [fast, slow] = welds(given)?;
    let target_s = given.number("cooling-time")?;
    let mut outcome = preheat_for_cooling_time(fast, target_s)?;
    let cooler = slow.preheat_for_c(target_s);
    let spread = cooler != outcome.value;
    if spread {
        (outcome.low, outcome.high) = (cooler, outcome.value);
    }
    let by_joint = rest_on_factors(&mut outcome, given);
    Ok(Reply::of([outcome])
        .note_if(fast.thickness_mm.is_none(), "thick-plate-taken")
        .note_if(by_joint, "shape-factors-memory")
        .note_if(spread, "shape-factor-range")
        .note_if(true, "cooling-time-no-cracking"))
}
