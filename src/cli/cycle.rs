//! The heat cycle of a plan, on the command line: what is typed for it, its figures as JSON.

use std::ops::ControlFlow;

use serde::Serialize;

use super::outcome_json::OutcomeJson;
use crate::engine::heat_cycle::{Fineness, Flamed, Flames, NoCycle, Turned};
use crate::engine::plan::Plan;
use crate::job::{JobText, PlanSays, ReadJob, Reading, cycle_of_plan};
use crate::questions::{self, HEAT_CYCLE};
use crate::reference::Methods;
use crate::report::{CycleTold, Pen, no_cycle_words, tint_limits};
use crate::units::Mark;

/// A cycle that was worked out.
pub(super) struct Known {
    flames: Flames,
    found: Flamed,
}

/// The cycle of a plan, or why it has none.
pub(super) type PlanCycle = Result<Known, NoCycle>;

/// Keys with what is typed for them.
type Pairs = Vec<(String, String)>;

/// Takes what is typed for the heat cycle, `heat-cycle.INPUT`, from among the keys of a plan.
pub(super) fn take_pairs(pairs: &[(String, String)]) -> (Pairs, Pairs) {
    let prefix = format!("{}.", HEAT_CYCLE.name);
    let (own, rest): (Vec<_>, Vec<_>) =
        pairs.iter().cloned().partition(|(key, _)| key.starts_with(prefix.as_str()));
    (own.into_iter().map(|(key, text)| (key[prefix.len()..].to_owned(), text)).collect(), rest)
}

/// Works out the cycle of a plan.
pub(super) fn cycle(
    pen: &Pen<'_>,
    job: &JobText,
    read: &ReadJob,
    plan: &Plan,
    pairs: &[(String, String)],
) -> PlanCycle {
    let limits = tint_limits(pen, Some(plan)).held;
    let typed = job.with_units_written(read.units);
    let says = PlanSays { read, plan, limits, typed: &typed, flame_min: None };
    let reading = Reading { reference: pen.reference, own_steels: &[], units: read.units, mark: Mark::Point };
    let mut flames = cycle_of_plan(pairs, &says, &reading)?;
    // As the window ends with: the coarse grid errs to either side.
    flames.cycle.fineness = Fineness::Fine;
    let found = flames.run(pen.reference, &mut |_, _| ControlFlow::Continue(()));
    found.map(|found| Known { flames, found }).map_err(NoCycle::Refused)
}

/// The same for a report.
pub(super) const fn told(cycle: &PlanCycle) -> CycleTold<'_> {
    match cycle {
        Ok(known) => CycleTold::Known(&known.flames, &known.found),
        Err(why) => CycleTold::None(why),
    }
}

/// The cycle as JSON; a plan that heats nothing has none.
#[derive(Debug, Serialize)]
pub(super) struct CycleJson {
    asks: Vec<&'static str>,
    why_not: Option<String>,
    refused: Vec<(&'static str, f64)>,
    fineness: Option<&'static str>,
    answers: Vec<OutcomeJson>,
    notes: Vec<&'static str>,
    measuring_distance_mm: Option<f64>,
    heated_to_c: Option<f64>,
    flame_min: Option<f64>,
    end_of_weld_min: Option<f64>,
    runs: Vec<RunJson>,
    hydrogen: Vec<HydrogenJson>,
    turns: Vec<TurnJson>,
}

/// A run under the likely flame.
#[derive(Debug, Serialize)]
struct RunJson {
    number: usize,
    weld: usize,
    start_min: f64,
    arc_min: f64,
    wait_min: f64,
    flame_min: f64,
    coldest_start_c: f64,
    hottest_start_c: f64,
    coldest_end_c: f64,
    below_minimum: bool,
}

/// The largest hydrogen of weld and heat-affected zone, cold.
#[derive(Debug, Serialize)]
struct HydrogenJson {
    hold_h: f64,
    hold_c: f64,
    of_ml: f64,
    low_ml: f64,
    middle_ml: f64,
    high_ml: f64,
}

/// A point of the transformation in the planned cooling.
#[derive(Debug, Serialize)]
struct TurnJson {
    name: &'static str,
    at_c: f64,
    low_c: f64,
    high_c: f64,
    from_min: Option<f64>,
    to_min: Option<f64>,
}

impl From<Turned> for TurnJson {
    fn from(turned: Turned) -> Self {
        let Turned { turn, at_c, low_c, high_c, from_min, to_min } = turned;
        Self { name: turn.id(), at_c, low_c, high_c, from_min, to_min }
    }
}

/// Makes it.
pub(super) fn cycle_json(pen: &Pen<'_>, cycle: &PlanCycle, methods: &Methods) -> Option<CycleJson> {
    let none = CycleJson {
        asks: Vec::new(),
        why_not: None,
        refused: Vec::new(),
        fineness: None,
        answers: Vec::new(),
        notes: Vec::new(),
        measuring_distance_mm: None,
        heated_to_c: None,
        flame_min: None,
        end_of_weld_min: None,
        runs: Vec::new(),
        hydrogen: Vec::new(),
        turns: Vec::new(),
    };
    match cycle {
        Err(NoCycle::NothingToHeat) => None,
        Err(why) => Some(CycleJson {
            asks: if let NoCycle::Open(keys) = why { keys.clone() } else { Vec::new() },
            refused: if let NoCycle::Refused(refusal) = why { refusal.values() } else { Vec::new() },
            why_not: no_cycle_words(pen, why),
            ..none
        }),
        Ok(Known { flames, found }) => {
            let reply = questions::cycle_reply(flames, found);
            let (query, cycle) = (&flames.cycle, &found.cycle);
            Some(CycleJson {
                fineness: Some(query.fineness.id()),
                answers: reply.answers.iter().map(|outcome| OutcomeJson::of(outcome, methods)).collect(),
                notes: reply.notes,
                measuring_distance_mm: Some(query.required_mm),
                heated_to_c: Some(query.minimum_c + query.reserve_k),
                flame_min: Some(cycle.flame_min),
                end_of_weld_min: Some(cycle.end_of_weld_min),
                runs: runs(flames, found),
                hydrogen: [0.0, flames.hold_h]
                    .iter()
                    .filter_map(|&hold_h| hydrogen(flames, found, hold_h))
                    .collect(),
                turns: found.turned(flames).into_iter().map(TurnJson::from).collect(),
                ..none
            })
        }
    }
}

fn runs(flames: &Flames, found: &Flamed) -> Vec<RunJson> {
    let run = |(place, pass): (usize, &crate::engine::heat_cycle::PassHistory)| RunJson {
        number: place + 1,
        weld: flames.cycle.passes[place].weld,
        start_min: pass.start_min,
        arc_min: pass.arc_min,
        wait_min: pass.interpass_min,
        flame_min: pass.reheat.map_or(0.0, |heated| heated.minutes),
        coldest_start_c: pass.coldest_start_c,
        hottest_start_c: pass.hottest_start_c,
        coldest_end_c: pass.coldest_end_c,
        below_minimum: pass.coldest_end_c < flames.cycle.minimum_c,
    };
    found.cycle.passes.iter().enumerate().map(run).collect()
}

fn hydrogen(flames: &Flames, found: &Flamed, hold_h: f64) -> Option<HydrogenJson> {
    let [low_ml, middle_ml, high_ml] = found.hydrogen_ml(flames, hold_h, 50.0)?;
    let (hold_c, of_ml) = (flames.cycle.post_heat.at_c, flames.cycle.hydrogen_ml());
    Some(HydrogenJson { hold_h, hold_c, of_ml, low_ml, middle_ml, high_ml })
}
