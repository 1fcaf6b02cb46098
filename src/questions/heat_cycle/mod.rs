//! The heat of a joint from the flame to cold: one conduction of the joint, and the hydrogen in it.

mod found;

use std::ops::ControlFlow;

use found::outcomes;

use super::{Answers, Input, Kind, OfPlan, Preset, Problem, Question, Reply, Work, shared, shop};
use crate::engine::EngineError;
use crate::engine::heat_cycle::{
    Fineness, FlameShare, Flamed, Flames, HeatCycle, JointShape, Keep, Pass, PostHeat, REACH_MM, Reached,
    Source, Surface, Surfaces, TeeKind, WELD_LENGTH_MM,
};
use crate::engine::measuring::distance_mm;
use crate::reference::{Reference, embedded};

const BOSS: &str = "boss-through";
/// The joints whose section follows from two sizes and a leg.
const JOINTS: &[&str] = &[BOSS, "t-fillet-both-sides", "t-fillet-one-side"];
const GTAW: &str = "gtaw";
const STICK: &str = "smaw-basic";
/// Rows of arcs in `data/heat_cycle.ron`.
const ARCS: &[&str] = &[
    GTAW,
    "paw",
    STICK,
    "smaw-rutile",
    "smaw-cellulosic",
    "smaw-nickel",
    "gmaw",
    "mcaw",
    "fcaw",
    "fcaw-self",
    "saw",
];
/// Key of the minimum.
pub const MINIMUM: &str = "minimum-preheat";
const SHARE: &str = "flame-share";
const FIRST_PART: &str = "first-part-minutes";
/// Heated past the minimum by so much, K: without it no time is left to weld. In a narrower range to
/// its maximum.
const RESERVE_K: f64 = 30.0;
/// The heated zone goes so far past the place where the minimum must be, mm.
const BEYOND_MM: f64 = 25.0;
/// Between the end of a run and whatever is next, s: common practice, no source.
const PAUSE_S: f64 = 120.0;
/// Cold, °C.
const COLD_C: f64 = 50.0;

/// The heat cycle.
pub static HEAT_CYCLE: Question = Question {
    name: "heat-cycle",
    work: Work::Heat,
    inputs: &[
        Input::new("joint", Kind::Choice(JOINTS)).required().of(OfPlan::Joint),
        Input::new("first-thickness", Kind::Length).required().within(3.0, 200.0).of(OfPlan::FirstThickness),
        Input::new("second-thickness", Kind::Length)
            .required()
            .within(3.0, 200.0)
            .of(OfPlan::SecondThickness),
        Input::new("leg", Kind::Length).required().within(2.0, 60.0).of(OfPlan::Leg),
        Input::new("plate-width", Kind::Length).within(50.0, 1500.0),
        Input::new("plate-length", Kind::Length).within(50.0, 1500.0),
        Input::new("measuring-distance", Kind::Length).within(25.0, 250.0).of(OfPlan::MeasuringDistance),
        Input::new("fuel", Kind::Choice(shop::FUELS)).or(Preset::Choice(shop::ACETYLENE)).of(OfPlan::Fuel),
        shop::FLOW.required().within(0.1, 20.0),
        Input::new(SHARE, Kind::Number).within(0.05, 0.9),
        Input::new(FIRST_PART, Kind::Number).within(0.1, 60.0),
        Input::new(MINIMUM, Kind::Temperature).required().within(40.0, 550.0).of(OfPlan::Minimum),
        Input::new("interpass-most", Kind::Temperature).within(50.0, 650.0).of(OfPlan::Maximum),
        Input::new("ceiling", Kind::Temperature).within(100.0, 1600.0).of(OfPlan::Ceiling),
        Input::new("runs", Kind::Number)
            .whole()
            .or(Preset::Number(1.0))
            .within(1.0, 12.0)
            .of(OfPlan::FillRuns),
        shared::NET_HEAT.required().of(OfPlan::FillHeat),
        Input::new("process", Kind::Choice(ARCS)).or(Preset::Choice(STICK)).of(OfPlan::FillProcess),
        Input::new("root-heat-input", Kind::HeatInput).within(0.01, 50.0).of(OfPlan::RootHeat),
        Input::new("root-process", Kind::Choice(ARCS)).or(Preset::Choice(GTAW)).of(OfPlan::RootProcess),
        shared::HYDROGEN.or(Preset::Number(5.0)),
        Input::new("hold-hours", Kind::Hours)
            .or(Preset::Number(2.0))
            .within(0.1, 24.0)
            .of(OfPlan::PostHeatHours),
        Input::new("hold-temperature", Kind::Temperature).within(100.0, 650.0).of(OfPlan::PostHeatLeast),
        Input::new("carbon-steel", Kind::Flag).or(Preset::Flag(false)),
        Input::new("room-temperature", Kind::Temperature)
            .or(Preset::Number(20.0))
            .within(-40.0, 40.0)
            .of(OfPlan::Shop),
    ],
    answers: &[
        "heat-minutes",
        "heat-wait",
        "heat-weld-by",
        "heat-surface",
        "heat-cooling",
        "heat-hydrogen-none",
        "heat-hydrogen-held",
    ],
    notes: &[
        "heat-no-time",
        "heat-runs-do-not-fill",
        "heat-ceiling-not-told",
        "torch-not-sure",
        "heat-again",
        "heat-usual-sizes",
        "heat-usual-boss",
        "heat-usual-web",
        "heat-usual-length",
        "heat-pause",
        "torch-efficiency",
        "heat-steel-alloyed",
        "heat-measure",
        "heat-hydrogen-informs",
    ],
    answer: answer_heat_cycle,
};

/// The joint, and the length of a flat part along its weld where that is known.
fn shape(given: &Answers) -> Result<(JointShape, Option<f64>), Problem> {
    let (first_mm, second_mm) = (given.number("first-thickness")?, given.number("second-thickness")?);
    let leg_mm = given.number("leg")?;
    let (width_mm, along_mm) = (given.maybe_number("plate-width"), given.maybe_number("plate-length"));
    let joint = given.maybe_choice("joint").unwrap_or(BOSS);
    if joint == BOSS {
        let boss = JointShape::BossThrough {
            plate_mm: first_mm,
            diameter_mm: second_mm,
            boss_length_mm: first_mm + 2.0 * (second_mm / 2.0).max(40.0),
            plate_width_mm: width_mm.unwrap_or(2.0 * REACH_MM),
            plate_length_mm: along_mm.unwrap_or(2.0 * REACH_MM),
            leg_mm,
        };
        return Ok((boss, None));
    }
    let tee = JointShape::Tee {
        kind: if joint == JOINTS[1] { TeeKind::BothSides } else { TeeKind::OneSide },
        plate_mm: first_mm,
        web_mm: second_mm,
        leg_mm,
        half_width_mm: width_mm.map_or(REACH_MM, |width_mm| width_mm / 2.0),
        web_height_mm: REACH_MM,
        length_mm: along_mm.unwrap_or(WELD_LENGTH_MM),
    };
    Ok((tee, along_mm))
}

/// The passes: a root of each weld where one is stated, then the runs in layers over all welds.
fn passes(given: &Answers, reference: &Reference, welds: usize) -> Result<Vec<Pass>, Problem> {
    let hydrogen_ml = given.number("hydrogen")?;
    let pass = |weld, net_kj_per_mm, key: &'static str| {
        let arc = given.maybe_choice(key).and_then(|id| reference.heat_cycle.arc(id));
        let arc_net_w = arc.ok_or(Problem::WrongKind { key })?.net_w;
        Ok(Pass { weld, net_kj_per_mm, arc_net_w, hydrogen_ml })
    };
    let layer = |heat: f64, key| (0..welds).map(move |weld| pass(weld, heat, key));
    let mut all = Vec::new();
    if let Some(root) = given.maybe_number("root-heat-input") {
        all.extend(layer(root, "root-process").collect::<Result<Vec<_>, Problem>>()?);
    }
    let (runs, heat) = (given.number("runs")?.round() as usize, given.number("heat-input")?);
    for _ in 0..runs {
        all.extend(layer(heat, "process").collect::<Result<Vec<_>, Problem>>()?);
    }
    Ok(all)
}

fn query(given: &Answers, reference: &Reference) -> Result<HeatCycle, Problem> {
    let (shape, part_length_mm) = shape(given)?;
    let minimum_c = given.number(MINIMUM)?;
    let shop_c = given.number("room-temperature")?;
    if minimum_c <= shop_c {
        return Err(EngineError::NoAnswer { reason: "torch-not-hotter" }.into());
    }
    let hold_c = given.maybe_number("hold-temperature").unwrap_or(minimum_c);
    let ceiling_c = given.maybe_number("ceiling");
    if ceiling_c.is_some_and(|ceiling_c| hold_c > ceiling_c) {
        return Err(EngineError::NoAnswer { reason: "post-heat-above-ceiling" }.into());
    }
    let air = Surfaces::all(Surface::of(reference.heat_cycle.still_air()));
    let steel = if given.flag("carbon-steel") { 1.0 } else { reference.heat_cycle.alloyed_conductivity };
    let by_rule = || distance_mm(shape.thickness_mm()).0;
    let required_mm = given.maybe_number("measuring-distance").unwrap_or_else(by_rule);
    let welds = if given.maybe_choice("joint") == Some(JOINTS[2]) { 1 } else { 2 };
    let interpass_c = given.maybe_number("interpass-most");
    Ok(HeatCycle {
        shape,
        part_length_mm,
        conductivity: [steel; 3],
        gap_w_per_m2_k: None,
        shop_c,
        surfaces: air,
        cooling: air,
        source: Source::Torch { power_w: 1.0 },
        reached: Reached::All,
        zone_mm: required_mm + BEYOND_MM,
        required_mm,
        minimum_c,
        reserve_k: interpass_c.map_or(RESERVE_K, |most_c| RESERVE_K.min((most_c - minimum_c).max(0.0))),
        ceiling_c,
        interpass_c,
        passes: passes(given, reference, welds)?,
        pause_s: PAUSE_S,
        post_heat: PostHeat {
            at_c: hold_c,
            hours: 0.0,
            beside_h: vec![given.number("hold-hours")?],
            shares: Vec::new(),
        },
        fusion_closed: false,
        fineness: Fineness::Live,
        keep: Keep::Figures,
    })
}

/// The cycle that is asked for, and its flame.
///
/// # Errors
/// What can't be used of what is given, or what the engine refuses.
pub fn flames(given: &Answers) -> Result<Flames, Problem> {
    let reference = embedded();
    let cycle = query(given, reference)?;
    let fuel_id = given.maybe_choice("fuel").unwrap_or(shop::ACETYLENE);
    let fuel = reference.fuels.fuel(fuel_id).ok_or(Problem::WrongKind { key: "fuel" })?;
    let share = match (given.maybe_number(SHARE), given.maybe_number(FIRST_PART)) {
        (Some(_), Some(_)) => return Err(Problem::OnlyOne { keys: vec![SHARE, FIRST_PART] }),
        (Some(share), None) => FlameShare::Known(share),
        (None, Some(minutes)) => FlameShare::FirstPart { minutes },
        (None, None) => FlameShare::NotKnown,
    };
    Ok(Flames {
        fuel: fuel_id.to_owned(),
        fuel_w: given.number("fuel-flow")? * fuel.net_mj_per_m3 / 3.6 * 1e3,
        share,
        carbon_steel: given.flag("carbon-steel"),
        hold_h: given.number("hold-hours")?,
        turns: None,
        notes: assumed(given, &cycle, reference)?,
        cycle,
    })
}

/// What must be said of what was given and of what was not.
fn assumed(given: &Answers, cycle: &HeatCycle, reference: &Reference) -> Result<Vec<&'static str>, Problem> {
    let boss = given.maybe_choice("joint").unwrap_or(BOSS) == BOSS;
    let no_length = given.maybe_number("plate-length").is_none();
    let usual = given.maybe_number("plate-width").is_none() || (boss && no_length);
    let notes = [
        (!fills(given, reference)?, "heat-runs-do-not-fill"),
        (cycle.ceiling_c.is_none(), "heat-ceiling-not-told"),
        (usual, "heat-usual-sizes"),
        (boss, "heat-usual-boss"),
        (!boss, "heat-usual-web"),
        (!boss && no_length, "heat-usual-length"),
        (cycle.passes.len() > 1, "heat-pause"),
    ];
    Ok(notes.into_iter().filter(|(yes, _)| *yes).map(|(_, note)| note).collect())
}

fn answer_heat_cycle(given: &Answers) -> Result<Reply, Problem> {
    let flames = flames(given)?;
    let found = flames.run(embedded(), &mut |_, _| ControlFlow::Continue(())).map_err(EngineError::from)?;
    Ok(reply(&flames, &found))
}

/// The answers of a cycle that was worked out.
#[must_use]
pub fn reply(flames: &Flames, found: &Flamed) -> Reply {
    let minimum_c = flames.cycle.minimum_c;
    let lost = found.cycle.passes.iter().any(|pass| pass.reheat.is_some() || pass.coldest_end_c < minimum_c);
    let mut reply = Reply::of(outcomes(embedded(), flames, found))
        .note_if(found.left_min()[0] <= 0.0, "heat-no-time")
        .note_if(found.weak.is_none(), "torch-not-sure")
        .note_if(lost, "heat-again");
    for note in &flames.notes {
        reply = reply.note_if(true, note);
    }
    reply
        .note_if(!found.known, "torch-efficiency")
        .note_if(!flames.carbon_steel, "heat-steel-alloyed")
        .note_if(true, "heat-measure")
        .note_if(true, "heat-hydrogen-informs")
}

/// Can the heat of all runs of one weld melt what its leg asks for? Half the square of the leg is what
/// has to be laid.
fn fills(given: &Answers, reference: &Reference) -> Result<bool, Problem> {
    let (leg_mm, data) = (given.number("leg")?, &reference.heat_cycle);
    let laid_kj_per_mm = given.number("runs")? * given.number("heat-input")?
        + given.maybe_number("root-heat-input").unwrap_or(0.0);
    Ok(laid_kj_per_mm * data.melting_share >= data.melting_kj_per_mm3 * leg_mm * leg_mm / 2.0)
}
