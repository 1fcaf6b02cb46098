//! The heat of a joint from the flame to cold: one conduction of the joint, and the hydrogen in it.

mod found;
mod heat;
mod readings;
mod shape;

use std::ops::ControlFlow;

use found::outcomes;
use heat::HEATED_BY;
use readings::{READINGS, readings};
use shape::Told;

use super::{Answers, Input, Kind, OfPlan, Preset, Problem, Question, Reply, Work, shared, shop};
use crate::engine::EngineError;
use crate::engine::heat_cycle::{
    Fineness, Flamed, Flames, HeatCycle, HeatedBy, JointShape, Keep, Pass, PostHeat, Reached, Source,
    Surface, Surfaces,
};
use crate::engine::measuring::distance_mm;
use crate::reference::{Reference, embedded};
use crate::units::Quantity;

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
const DISTANCE: &str = "measuring-distance";
/// Heated past the minimum by so much, K: without it no time is left to weld. In a narrower range to
/// its maximum.
const RESERVE_K: f64 = 30.0;
/// The heated zone goes so far past the place where the minimum must be, mm.
const BEYOND_MM: f64 = 25.0;
/// Between the end of a run and whatever is next, s: common practice, no source.
const PAUSE_S: f64 = 120.0;
/// The model goes through so many runs of a weld one by one.
const MOST_RUNS: f64 = 12.0;
/// Cold, °C.
const COLD_C: f64 = 50.0;

/// The heat cycle.
pub static HEAT_CYCLE: Question = Question {
    name: "heat-cycle",
    work: Work::Heat,
    inputs: &[
        Input::new(shape::JOINT, Kind::Choice(shape::JOINTS)).required().of(OfPlan::Joint),
        Input::new(shape::FIRST, Kind::Length).required().within(3.0, 400.0).of(OfPlan::FirstThickness),
        Input::new(shape::SECOND, Kind::Length)
            .within(3.0, 400.0)
            .of(OfPlan::SecondThickness)
            .only(shape::JOINT, shape::TWO_PARTS),
        Input::new(shape::LEG, Kind::Length)
            .within(2.0, 60.0)
            .of(OfPlan::Leg)
            .only(shape::JOINT, shape::FILLETS),
        Input::new(shape::DEPTH, Kind::Length)
            .within(1.0, 300.0)
            .of(OfPlan::WeldDepth)
            .only(shape::JOINT, shape::WITH_DEPTH),
        Input::new(shape::WIDTH, Kind::Length).within(2.0, 300.0).only(shape::JOINT, shape::WITH_WIDTH),
        Input::new(shape::PLATE_WIDTH, Kind::Length).within(50.0, 3000.0).only(shape::JOINT, shape::FLAT),
        Input::new(shape::PLATE_LENGTH, Kind::Length).within(50.0, 3000.0),
        Input::new(DISTANCE, Kind::Length).within(25.0, 250.0).of(OfPlan::MeasuringDistance),
        Input::new(HEATED_BY, Kind::Choice(heat::SOURCES))
            .or(Preset::Choice(heat::TORCH))
            .of(OfPlan::HeatedBy),
        Input::new(heat::FUEL, Kind::Choice(shop::FUELS))
            .or(Preset::Choice(shop::ACETYLENE))
            .of(OfPlan::Fuel)
            .only(HEATED_BY, &[heat::TORCH]),
        shop::FLOW.within(0.1, 20.0).only(HEATED_BY, &[heat::TORCH]),
        Input::new(heat::SHARE, Kind::Number).within(0.05, 0.9).only(HEATED_BY, &[heat::TORCH]),
        Input::new(heat::FIRST_PART, Kind::Of(Quantity::Minutes))
            .within(0.1, 60.0)
            .only(HEATED_BY, &[heat::TORCH]),
        Input::new(heat::POWER, Kind::Of(Quantity::Power)).within(0.05, 200.0).only(HEATED_BY, &[heat::MATS]),
        Input::new(heat::SET_C, Kind::Temperature).within(60.0, 650.0).only(HEATED_BY, heat::SET),
        Input::new(READINGS[0], Kind::Temperature).within(20.0, 900.0),
        Input::new(READINGS[1], Kind::Temperature).within(20.0, 900.0),
        Input::new(READINGS[2], Kind::Of(Quantity::Minutes)).within(0.05, 600.0),
        Input::new(MINIMUM, Kind::Temperature).required().within(40.0, 550.0).of(OfPlan::Minimum),
        Input::new("interpass-most", Kind::Temperature).within(50.0, 650.0).of(OfPlan::Maximum),
        Input::new("ceiling", Kind::Temperature).within(100.0, 1600.0).of(OfPlan::Ceiling),
        Input::new("runs", Kind::Number)
            .whole()
            .or(Preset::Number(1.0))
            .within(1.0, 99.0)
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
        "heat-losses",
        "heat-cooling",
        "heat-hydrogen-none",
        "heat-hydrogen-held",
    ],
    notes: &[
        "heat-no-time",
        "heat-by-readings",
        "heat-runs-do-not-fill",
        "heat-ceiling-not-told",
        "torch-not-sure",
        "heat-again",
        "heat-usual-sizes",
        "heat-usual-distance",
        "heat-usual-boss",
        "heat-usual-web",
        "heat-usual-lap",
        "heat-usual-groove",
        "heat-usual-gap",
        "heat-usual-cavity",
        "heat-usual-cavity-length",
        "heat-usual-band",
        "heat-usual-shaft",
        "heat-usual-bars",
        "heat-usual-bar-length",
        "heat-usual-length",
        "heat-runs-joined",
        "heat-pause",
        "torch-efficiency",
        "heat-acetylene-draw",
        "heat-power-in-full",
        "heat-steel-alloyed",
        "heat-measure",
        "heat-readings-again",
        "heat-hydrogen-informs",
    ],
    answer: answer_heat_cycle,
};

/// The passes: a root of each weld where one is stated, then the runs in layers over all welds. Where
/// there are more than the model goes through one by one, they are joined with the same heat in all.
fn passes(given: &Answers, reference: &Reference, told: &Told) -> Result<Vec<Pass>, Problem> {
    let hydrogen_ml = given.number("hydrogen")?;
    let pass = |weld, net_kj_per_mm, key: &'static str| {
        let arc = given.maybe_choice(key).and_then(|id| reference.heat_cycle.arc(id));
        let arc_net_w = arc.ok_or(Problem::WrongKind { key })?.net_w;
        Ok(Pass { weld, net_kj_per_mm, arc_net_w, hydrogen_ml })
    };
    let layer = |heat: f64, key| (0..told.welds).map(move |weld| pass(weld, heat, key));
    let mut all = Vec::new();
    if let Some(root) = given.maybe_number("root-heat-input") {
        all.extend(layer(root, "root-process").collect::<Result<Vec<_>, Problem>>()?);
    }
    let (runs, heat) = (given.number("runs")?.round(), given.number("heat-input")?);
    let counted = runs.min(MOST_RUNS);
    // The beads of a layer share one length, however many passes they are told as.
    let joined = if told.shape.beads().is_some() { 1.0 } else { runs / counted };
    for _ in 0..counted as usize {
        all.extend(layer(heat * joined, "process").collect::<Result<Vec<_>, Problem>>()?);
    }
    Ok(all)
}

fn query(given: &Answers, told: &Told, reference: &Reference) -> Result<HeatCycle, Problem> {
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
    // By the plate of a boss, whose diameter is no thickness; a plan goes by its thickest part.
    let by_rule = || distance_mm(told.shape.thickness_mm()).0;
    let required_mm = given.maybe_number(DISTANCE).unwrap_or_else(by_rule);
    let interpass_c = given.maybe_number("interpass-most");
    Ok(HeatCycle {
        shape: told.shape,
        part_length_mm: told.part_length_mm,
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
        passes: passes(given, reference, told)?,
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
    let told = shape::told(given)?;
    let cycle = query(given, &told, reference)?;
    let heat = heat::heat(given, reference)?;
    heat.check(&cycle)?;
    Ok(Flames {
        heat,
        carbon_steel: given.flag("carbon-steel"),
        hold_h: given.number("hold-hours")?,
        readings: readings(given, cycle.shop_c)?,
        turns: None,
        notes: assumed(given, &told, &cycle, reference)?,
        cycle,
    })
}

/// What must be said of what was given and of what was not.
fn assumed(
    given: &Answers,
    told: &Told,
    cycle: &HeatCycle,
    reference: &Reference,
) -> Result<Vec<&'static str>, Problem> {
    let mut said = Vec::new();
    let mut note_if = |yes: bool, note| said.extend(yes.then_some(note));
    note_if(!fills(given, &told.shape, reference)?, "heat-runs-do-not-fill");
    note_if(cycle.ceiling_c.is_none(), "heat-ceiling-not-told");
    note_if(given.maybe_number(DISTANCE).is_none(), "heat-usual-distance");
    told.notes.iter().for_each(|note| note_if(true, note));
    note_if(given.number("runs")? > MOST_RUNS, "heat-runs-joined");
    note_if(cycle.passes.len() > 1, "heat-pause");
    Ok(said)
}

fn answer_heat_cycle(given: &Answers) -> Result<Reply, Problem> {
    answer_on(given, Fineness::Live)
}

/// The answer that is read: the coarse grid errs to either side.
pub(super) fn answer_finely(given: &Answers) -> Result<Reply, Problem> {
    answer_on(given, Fineness::Fine)
}

fn answer_on(given: &Answers, fineness: Fineness) -> Result<Reply, Problem> {
    let mut flames = flames(given)?;
    flames.cycle.fineness = fineness;
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
        .note_if(found.losses.is_some(), "heat-by-readings")
        .note_if(found.weak.is_none(), "torch-not-sure")
        .note_if(lost, "heat-again");
    for note in &flames.notes {
        reply = reply.note_if(true, note);
    }
    reply
        .note_if(flames.draws_much(&embedded().fuels), "heat-acetylene-draw")
        .note_if(!found.known, "torch-efficiency")
        .note_if(matches!(flames.heat, HeatedBy::Mats { .. }), "heat-power-in-full")
        .note_if(!flames.carbon_steel, "heat-steel-alloyed")
        .note_if(true, "heat-measure")
        .note_if(found.losses.is_some(), "heat-readings-again")
        .note_if(true, "heat-hydrogen-informs")
}

/// Can the heat of all runs of one weld melt what has to be laid for its size? Each bead of a layer
/// lays its own.
fn fills(given: &Answers, shape: &JointShape, reference: &Reference) -> Result<bool, Problem> {
    let data = &reference.heat_cycle;
    let (runs, heat) = (given.number("runs")?, given.number("heat-input")?);
    let times = if shape.beads().is_some() { 1.0 } else { runs };
    let laid_kj_per_mm = times * heat + given.maybe_number("root-heat-input").unwrap_or(0.0);
    Ok(laid_kj_per_mm * data.melting_share >= data.melting_kj_per_mm3 * shape.laid_mm2())
}
