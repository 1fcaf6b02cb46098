//! The heat of a joint from the flame to cold: one conduction of the joint, and the hydrogen in it.

use std::ops::ControlFlow;

use super::{Answers, Input, Kind, OfPlan, Preset, Problem, Question, Reply, shared, shop};
use crate::engine::heat_cycle::{
    Fineness, FlameShare, Flamed, Flames, HeatCycle, JointShape, Keep, Pass, PostHeat, REACH_MM, Reached,
    Source, Surface, Surfaces, TeeKind, WELD_LENGTH_MM,
};
use crate::engine::measuring::distance_mm;
use crate::engine::{EngineError, Outcome, Unit};
use crate::reference::{Basis, Method, Reference, embedded};

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
/// Heated past the minimum by so much, K: without it no time is left to weld.
const RESERVE_K: f64 = 30.0;
/// The heated zone goes so far past the place where the minimum must be, mm.
const BEYOND_MM: f64 = 25.0;
/// Cold, °C.
const COLD_C: f64 = 50.0;

/// The heat cycle.
pub static HEAT_CYCLE: Question = Question {
    name: "heat-cycle",
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
        Input::new("runs", Kind::Number).or(Preset::Number(1.0)).within(1.0, 12.0).of(OfPlan::FillRuns),
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
        "torch-not-sure",
        "heat-again",
        "heat-usual-sizes",
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
        reserve_k: RESERVE_K,
        ceiling_c,
        interpass_c: given.maybe_number("interpass-most"),
        passes: passes(given, reference, welds)?,
        pause_s: 120.0,
        post_heat: PostHeat {
            at_c: hold_c,
            hours: 0.0,
            beside_h: vec![given.number("hold-hours")?],
            shares: Vec::new(),
        },
        marks_c: Vec::new(),
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
        cycle,
        fuel_w: given.number("fuel-flow")? * fuel.net_mj_per_m3 / 3.6 * 1e3,
        share,
        carbon_steel: given.flag("carbon-steel"),
        size_assumed: given.maybe_number("plate-width").is_none()
            || given.maybe_number("plate-length").is_none(),
        hold_h: given.number("hold-hours")?,
    })
}

fn answer_heat_cycle(given: &Answers) -> Result<Reply, Problem> {
    let flames = flames(given)?;
    let found = flames.run(embedded(), &mut |_, _| ControlFlow::Continue(())).map_err(EngineError::from)?;
    Ok(reply(&flames, &found))
}

/// The answers of a cycle that was worked out.
#[must_use]
pub fn reply(flames: &Flames, found: &Flamed) -> Reply {
    let reference = embedded();
    let minimum_c = flames.cycle.minimum_c;
    let lost = found.cycle.passes.iter().any(|pass| pass.reheat.is_some() || pass.coldest_end_c < minimum_c);
    let basis = reference.heat_cycle.still_air().basis.weaker(&reference.fuels.efficiency_basis);
    Reply::of(outcomes(flames, found, basis))
        .note_if(found.left_min()[0] <= 0.0, "heat-no-time")
        .note_if(found.weak.is_none(), "torch-not-sure")
        .note_if(lost, "heat-again")
        .note_if(flames.size_assumed, "heat-usual-sizes")
        .note_if(!found.known, "torch-efficiency")
        .note_if(!flames.carbon_steel, "heat-steel-alloyed")
        .note_if(true, "heat-measure")
        .note_if(true, "heat-hydrogen-informs")
}

fn outcomes(flames: &Flames, found: &Flamed, basis: &Basis) -> Vec<Outcome> {
    let open = |name, unit| Outcome::open(Method::HeatCycle, unit).named(name).resting_on(basis);
    let figure = |name, value, unit| Outcome { value: Some(value), ..open(name, unit) };
    let likely = &found.cycle.preheat;
    let minutes = figure("heat-minutes", likely.heated.minutes, Unit::Minute);
    let minutes = match (found.known, found.weak) {
        (true, _) => minutes,
        (false, Some(weak)) => minutes.spread(found.strong.heated.minutes, weak.heated.minutes),
        // How long the weakest one takes nobody can say.
        (false, None) => Outcome { value: None, low: Some(found.strong.heated.minutes), ..minutes },
    };
    let [least_min, left_min, most_min] = found.left_min();
    let weld_by = figure("heat-weld-by", left_min, Unit::Minute);
    let weld_by = if found.known { weld_by } else { weld_by.spread(least_min, most_min) };
    let cold = |hours| found.held(hours).and_then(|cooled| cooled.mark(COLD_C)).copied();
    let hydrogen = |name, hours| {
        let put_in_ml = flames.cycle.hydrogen_ml();
        let [least, middle, most] =
            found.hydrogen_ml(flames, hours, COLD_C)?.map(|peak_ml| 100.0 * peak_ml / put_in_ml);
        // A tenth of a percent is as much as it can say, and what is left is never none.
        let (up, down) = (|share: f64| (10.0 * share).ceil() / 10.0, (10.0 * least).floor() / 10.0);
        Some(figure(name, up(middle), Unit::Percent).spread(down, up(most)))
    };
    [
        Some(minutes),
        Some(figure("heat-wait", found.wait_min(), Unit::Minute)),
        Some(weld_by),
        Some(figure("heat-surface", found.hottest_surface_c(), Unit::Celsius)),
        cold(0.0).map(|found| figure("heat-cooling", found.minutes, Unit::Minute)),
        hydrogen("heat-hydrogen-none", 0.0),
        hydrogen("heat-hydrogen-held", flames.hold_h),
    ]
    .into_iter()
    .flatten()
    .collect()
}
