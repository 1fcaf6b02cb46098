//! The shop: torch and gas, the rhythm of a batch, electrodes in open air, cooling, the air of a room.

use super::{Answers, Input, Kind, OfPlan, Preset, Problem, Question, Reply, Work};
use crate::engine::EngineError;
use crate::engine::acetylene::acetylene_draw;
use crate::engine::electrode_exposure::{ElectrodeFate, OutOfOven, electrode_exposure};
use crate::engine::lumped::Shape;
use crate::engine::rhythm::{Batch, batch_rhythm};
use crate::engine::room_air::room_air;
use crate::engine::slow_cooling::{CoolingPart, Wrapped, part_cooling, slow_cooling};
use crate::engine::torch::{Flame, torch_heating};
use crate::reference::{FactorRange, embedded};
use crate::units::CUBIC_METRES_PER_CUBIC_FOOT;
use crate::units::Quantity;

pub(super) const ACETYLENE: &str = "acetylene";
/// Rows of `data/fuels.ron`.
pub(super) const FUELS: &[&str] = &[ACETYLENE, "propane", "propylene", "natural-gas"];
const TIPS: &[&str] = &["small", "light", "medium", "large", "extra-large", "heaviest"];

const MASS: Input = Input::new("mass", Kind::Mass).required().within(0.01, 100_000.0);
const SHOP: Input = Input::new("room-temperature", Kind::Temperature)
    .or(Preset::Number(20.0))
    .within(-40.0, 60.0)
    .of(OfPlan::Shop);
pub(super) const FLOW: Input = Input::new("fuel-flow", Kind::GasFlow).within(0.01, 100.0);
const CYLINDER: Input = Input::new("cylinder", Kind::Volume).within(0.05, 100.0);
const PIECES: Input =
    Input::new("pieces", Kind::Number).whole().or(Preset::Number(1.0)).within(1.0, 10_000.0);

/// Minutes of flame and gas.
pub(super) static TORCH_HEATING: Question = Question {
    name: "torch-heating",
    work: Work::Heat,
    inputs: &[
        MASS,
        Input::new("wanted-temperature", Kind::Temperature)
            .required()
            .within(-40.0, 1000.0)
            .of(OfPlan::Minimum),
        Input::new("fuel", Kind::Choice(FUELS)).or(Preset::Choice(ACETYLENE)),
        Input::new("tip", Kind::Choice(TIPS)).any_of("flow"),
        FLOW.any_of("flow"),
        Input::new("thickness", Kind::Length).within(0.5, 2000.0).of(OfPlan::Thickness),
        Input::new("flame-share", Kind::Number).within(0.05, 0.9),
        PIECES,
        CYLINDER,
        SHOP,
    ],
    answers: &["torch-minutes", "torch-energy", "torch-fuel", "torch-fuel-batch", "torch-cylinders"],
    notes: &[
        "torch-not-sure",
        "draw-too-fast",
        "draw-far-too-fast",
        "torch-no-losses",
        "torch-whole-part",
        "torch-tip-card",
        "torch-efficiency",
    ],
    answer: answer_torch,
};

fn answer_torch(given: &Answers) -> Result<Reply, Problem> {
    let fuels = &embedded().fuels;
    let fuel_id = given.maybe_choice("fuel").unwrap_or(ACETYLENE);
    let fuel = fuels.fuel(fuel_id).ok_or(Problem::WrongKind { key: "fuel" })?;
    let own_flow = given.maybe_number("fuel-flow");
    let flow = match (own_flow, given.maybe_choice("tip")) {
        (Some(flow), _) => FactorRange { low: flow, high: flow },
        // No class of tips is told for natural gas.
        (None, Some(_)) if fuel_id == "natural-gas" => {
            return Err(Problem::Missing { keys: vec!["fuel-flow"] });
        }
        (None, Some(id)) => {
            let tip = fuels.tip(id).ok_or(Problem::WrongKind { key: "tip" })?;
            let cubic_feet =
                if fuel_id == ACETYLENE { tip.acetylene_ft3_per_h } else { tip.propane_ft3_per_h };
            let cubic_metres = |flow: f64| flow * CUBIC_METRES_PER_CUBIC_FOOT;
            FactorRange { low: cubic_metres(cubic_feet.low), high: cubic_metres(cubic_feet.high) }
        }
        (None, None) => return Err(Problem::Missing { keys: vec!["tip", "fuel-flow"] }),
    };
    let own_share = given.maybe_number("flame-share");
    let share = fuels.efficiency;
    let shop_c = given.number("room-temperature")?;
    let asked = Flame {
        mass_kg: given.number("mass")?,
        thickness_mm: given.maybe_number("thickness"),
        from_c: shop_c,
        to_c: given.number("wanted-temperature")?,
        shop_c,
        fuel,
        flow_m3_per_h: flow,
        flow_basis: own_flow.is_none().then_some(&fuels.tips_basis),
        efficiency: FactorRange {
            low: own_share.unwrap_or(share.low),
            high: own_share.unwrap_or(share.high),
        },
        efficiency_basis: own_share.is_none().then_some(&fuels.efficiency_basis),
        likely: own_share.unwrap_or(share.likely),
        parts: given.number("pieces")?,
        cylinder_m3: given.maybe_number("cylinder"),
    };
    let found = torch_heating(&embedded().heat_cycle, &asked)?;
    let longest = found.outcomes[0].high.or(found.outcomes[0].value);
    // One flame after another is drawn on and on long before this, and no longer is told of it.
    let minutes = longest.map(|one| (one * asked.parts).min(fuels.draw.continuous_from_min));
    let drawn = asked.cylinder_m3.filter(|_| fuel_id == ACETYLENE);
    let drawn = drawn.map(|content| acetylene_draw(&fuels.draw, content, Some(flow.high), minutes));
    let drawn = drawn.transpose()?;
    let far = drawn.as_ref().is_some_and(|draw| draw.far_too_fast);
    Ok(Reply::of(found.outcomes)
        .note_if(found.weakest_fails, "torch-not-sure")
        .note_if(far, "draw-far-too-fast")
        .note_if(!far && drawn.is_some_and(|draw| draw.too_fast), "draw-too-fast")
        .note_if(asked.thickness_mm.is_none(), "torch-no-losses")
        .note_if(true, "torch-whole-part")
        .note_if(own_flow.is_none(), "torch-tip-card")
        .note_if(own_share.is_none(), "torch-efficiency"))
}

/// Draw of acetylene.
pub(super) static ACETYLENE_DRAW: Question = Question {
    name: "acetylene-draw",
    work: Work::Heat,
    inputs: &[
        CYLINDER.required(),
        FLOW,
        Input::new("draw-minutes", Kind::Of(Quantity::Minutes)).within(0.0, 10_000.0),
    ],
    answers: &["draw-most", "draw-cylinders", "draw-older"],
    notes: &["draw-far-too-fast", "draw-too-fast", "draw-goes-on"],
    answer: |given| {
        let draw = acetylene_draw(
            &embedded().fuels.draw,
            given.number("cylinder")?,
            given.maybe_number("fuel-flow"),
            given.maybe_number("draw-minutes"),
        )?;
        Ok(Reply::of(draw.outcomes)
            .note_if(draw.far_too_fast, "draw-far-too-fast")
            .note_if(draw.too_fast && !draw.far_too_fast, "draw-too-fast")
            .note_if(draw.continuous, "draw-goes-on"))
    },
};

/// Rhythm of a batch.
pub(super) static BATCH_RHYTHM: Question = Question {
    name: "batch-rhythm",
    work: Work::Heat,
    inputs: &[
        Input::new("heating-minutes", Kind::Of(Quantity::Minutes)).required().within(0.01, 10_000.0),
        Input::new("heating-minutes-most", Kind::Of(Quantity::Minutes)).within(0.01, 10_000.0),
        Input::new("soak-minutes", Kind::Of(Quantity::Minutes)).or(Preset::Number(0.0)).within(0.0, 10_000.0),
        Input::new("weld-minutes", Kind::Of(Quantity::Minutes)).required().within(0.01, 10_000.0),
        Input::new("pieces", Kind::Number).whole().required().within(1.0, 10_000.0),
        Input::new("weld-by-minutes", Kind::Of(Quantity::Minutes)).within(0.0, 10_000.0),
    ],
    answers: &["rhythm-piece", "rhythm-batch", "rhythm-light", "rhythm-idle"],
    notes: &["rhythm-cools-again", "rhythm-flame-slower", "rhythm-measure"],
    answer: |given| {
        let (quickest, weld_min) = (given.number("heating-minutes")?, given.number("weld-minutes")?);
        let rhythm = batch_rhythm(Batch {
            heat_min: quickest,
            heat_most_min: given.maybe_number("heating-minutes-most").unwrap_or(quickest),
            soak_min: given.number("soak-minutes")?,
            weld_min,
            pieces: given.number("pieces")?,
        })?;
        // The last run, not only the first, is laid on a part that is hot enough.
        let cools =
            given.maybe_number("weld-by-minutes").is_some_and(|by| rhythm.ready_early_min + weld_min > by);
        Ok(Reply::of(rhythm.outcomes)
            .note_if(cools, "rhythm-cools-again")
            .note_if(rhythm.flame_is_slower, "rhythm-flame-slower")
            .note_if(true, "rhythm-measure"))
    },
};

/// Rows of `data/electrode_exposure.ron`.
const CLASSES: &[&str] = &["e70", "e80", "e90", "e100"];

/// Electrodes in open air.
pub(super) static ELECTRODE_EXPOSURE: Question = Question {
    name: "electrode-exposure",
    work: Work::Weld,
    inputs: &[
        Input::new("electrode-class", Kind::Choice(CLASSES)).required(),
        Input::new("hours-out", Kind::Hours).required().within(0.0, 1000.0),
        Input::new("moisture-resistant", Kind::Flag).or(Preset::Flag(false)),
        Input::new("been-wet", Kind::Flag).or(Preset::Flag(false)),
        Input::new("rebaked", Kind::Flag).or(Preset::Flag(false)),
        Input::new("back-to-oven", Kind::Flag).or(Preset::Flag(false)),
    ],
    answers: &[
        "exposure-left",
        "exposure-limit",
        "exposure-oven-temperature",
        "exposure-oven-hours",
        "exposure-tested",
    ],
    notes: &[
        "exposure-use",
        "exposure-oven",
        "exposure-rebake",
        "exposure-scrap",
        "exposure-maker-tests",
        "exposure-read-box",
        "exposure-low-hydrogen",
    ],
    answer: |given| {
        let out = OutOfOven {
            class: given.maybe_choice("electrode-class").unwrap_or_default(),
            moisture_resistant: given.flag("moisture-resistant"),
            hours: given.number("hours-out")?,
            wet: given.flag("been-wet"),
            rebaked: given.flag("rebaked"),
            back_to_oven: given.flag("back-to-oven"),
        };
        let found = electrode_exposure(&embedded().electrode_exposure, &out)?;
        Ok(Reply::of(found.outcomes)
            .note_if(true, found.fate.id())
            .note_if(found.fate == ElectrodeFate::Rebake, "exposure-maker-tests")
            .note_if(found.read_box, "exposure-read-box")
            .note_if(true, "exposure-low-hydrogen"))
    },
};

/// Rows of `data/slow_cooling.ron`.
const FAMILIES: &[&str] = &[
    "structural",
    "quenched-tempered",
    "plain-carbon",
    "hardenable",
    "iron",
    "tool",
    "stainless-martensitic",
    "stainless-ferritic",
    "stainless-austenitic",
    "stainless-duplex",
    "manganese",
];

/// Slow cooling by family.
pub(super) static SLOW_COOLING: Question = Question {
    name: "slow-cooling",
    work: Work::Cool,
    inputs: &[Input::new("family", Kind::Choice(FAMILIES)).required().of(OfPlan::Family)],
    answers: &["slow-rate", "slow-until"],
    notes: &["slow-wrap", "slow-still-air", "slow-no-blanket", "slow-turn-first", "slow-never-quench"],
    answer: |given| {
        let id = given.maybe_choice("family").unwrap_or_default();
        let row = embedded().slow_cooling.get(id).ok_or(Problem::WrongKind { key: "family" })?;
        let slow = row.at_most_k_per_h.is_some();
        Ok(Reply::of(slow_cooling(row))
            .note_if(slow, "slow-wrap")
            .note_if(!slow && !row.no_blanket && row.first_to_c.is_none(), "slow-still-air")
            .note_if(row.no_blanket, "slow-no-blanket")
            .note_if(row.first_to_c.is_some(), "slow-turn-first")
            .note_if(true, "slow-never-quench"))
    },
};

const SHAPES: [&str; 2] = ["plate", "bar"];
const WRAPS: [&str; 3] = ["still-air", "draught", "blanket"];

/// Cooling of a part.
pub(super) static PART_COOLING: Question = Question {
    name: "part-cooling",
    work: Work::Cool,
    inputs: &[
        MASS,
        Input::new("shape", Kind::Choice(&SHAPES)).or(Preset::Choice(SHAPES[0])),
        Input::new("size", Kind::Length).required().within(0.5, 2000.0).of(OfPlan::Thickness),
        Input::new("from-temperature", Kind::Temperature).required().within(0.0, 1000.0).of(OfPlan::Maximum),
        Input::new("to-temperature", Kind::Temperature).required().within(0.0, 1000.0).of(OfPlan::Minimum),
        Input::new("wrapped", Kind::Choice(&WRAPS)).or(Preset::Choice(WRAPS[0])),
        Input::new("blanket", Kind::Length).or(Preset::Number(25.0)).within(1.0, 500.0),
        Input::new("wanted-rate", Kind::Of(Quantity::HourRate)).within(1.0, 10_000.0),
        SHOP,
    ],
    answers: &["cooling-minutes", "cooling-rate", "cooling-blanket"],
    notes: &["cooling-uneven", "cooling-halved", "cooling-no-blanket-needed"],
    answer: |given| {
        let size_mm = given.number("size")?;
        let bar = given.maybe_choice("shape") == Some(SHAPES[1]);
        let wrapped = match given.maybe_choice("wrapped") {
            Some(id) if id == WRAPS[1] => Wrapped::Draught,
            Some(id) if id == WRAPS[2] => Wrapped::Blanket(given.number("blanket")?),
            _ => Wrapped::StillAir,
        };
        let part = CoolingPart {
            mass_kg: given.number("mass")?,
            shape: if bar {
                Shape::Bar { diameter_mm: size_mm }
            } else {
                Shape::Plate { thickness_mm: size_mm }
            },
            from_c: given.number("from-temperature")?,
            to_c: given.number("to-temperature")?,
            shop_c: given.number("room-temperature")?,
            wrapped,
            wanted_k_per_h: given.maybe_number("wanted-rate"),
        };
        let found = part_cooling(&embedded().heat_cycle, part)?;
        let reply = Reply::of(found.outcomes);
        let none = reply.answer("cooling-blanket").is_some_and(|found| found.value == Some(0.0));
        Ok(reply
            .note_if(found.uneven, "cooling-uneven")
            .note_if(true, "cooling-halved")
            .note_if(none, "cooling-no-blanket-needed"))
    },
};

/// The air of a room.
pub(super) static ROOM_AIR: Question = Question {
    name: "room-air",
    work: Work::Fit,
    inputs: &[
        Input::new("room-volume", Kind::Volume).required().within(1.0, 100_000.0),
        Input::new("nitrogen-litres", Kind::Of(Quantity::Liquid)).any_of("frozen").within(0.0, 1000.0),
        Input::new("dry-ice", Kind::Mass).any_of("frozen").within(0.0, 1000.0),
    ],
    answers: &["air-oxygen", "air-carbon-dioxide"],
    notes: &["air-oxygen-low", "air-carbon-dioxide-deadly", "air-carbon-dioxide-high", "air-lies-low"],
    answer: |given| {
        let fits = &embedded().fits;
        let amount = |key| given.maybe_number(key).unwrap_or(0.0);
        let answers =
            room_air(fits, given.number("room-volume")?, amount("nitrogen-litres"), amount("dry-ice"))?;
        let value = |at: usize| answers[at].value.ok_or(EngineError::NoAnswer { reason: "table-has-no-row" });
        let (oxygen, dioxide) = (value(0)?, value(1)?);
        Ok(Reply::of(answers)
            .note_if(oxygen < fits.oxygen_least_percent, "air-oxygen-low")
            .note_if(dioxide >= fits.carbon_dioxide_deadly_ppm, "air-carbon-dioxide-deadly")
            .note_if(dioxide > fits.carbon_dioxide_most_ppm, "air-carbon-dioxide-high")
            .note_if(true, "air-lies-low"))
    },
};
