//! Shrink fits: how tight, how hot, how long, what they hold.

use super::{Answers, Input, Kind, OfPlan, Preset, Problem, Question, Reply, Work};
use crate::engine::fit::Tightness;
use crate::engine::fit::at_preheat::{Pair, WarmFit, even_temperature, fit_at_preheat};
use crate::engine::fit::grip::{Grip, GripQuery, grip};
use crate::engine::fit::local::{HotRing, LocalHeat, local_bore};
use crate::engine::fit::shrink::{ShrinkFit, shrink_fit};
use crate::engine::fit::table::fit_limits;
use crate::engine::fit::time::{HotHub, fit_time};
use crate::reference::{Fit, Metal, embedded};

/// Ids of [`Fit`].
const FITS: &[&str] = &["h7-p6", "h7-r6", "h7-s6", "h7-u6"];
/// Rows of `data/expansion.ron`.
const METALS: &[&str] = &[
    "steel",
    "low-alloy-steel",
    "stainless",
    "stainless-17-4",
    "grey-iron",
    "ductile-iron",
    "aluminium-bronze",
    "bearing-bronze",
    "aluminium",
];
const SURFACES: [&str; 2] = ["dry", "oiled"];

const DIAMETER: Input = Input::new("diameter", Kind::Length).required().within(1.0, 3000.0);
const OUTER: Input = Input::new("outer-diameter", Kind::Length).required().within(1.0, 10_000.0);
/// Measured as pin less hole: at most 3 mm, which even a large fit has not.
const INTERFERENCE: Input = Input::new("interference", Kind::Length).one_of("tightness").within(0.000_1, 3.0);
const FIT: Input = Input::new("fit", Kind::Choice(FITS)).one_of("tightness");
const HUB: Input = Input::new("hub-metal", Kind::Choice(METALS)).or(Preset::Choice("steel"));
const PIN: Input = Input::new("pin-metal", Kind::Choice(METALS)).or(Preset::Choice("steel"));
const SHOP: Input = Input::new("room-temperature", Kind::Temperature)
    .or(Preset::Number(20.0))
    .within(-40.0, 60.0)
    .of(OfPlan::Shop);

/// The interference as measured, or of the table.
pub(super) fn tightness(given: &Answers) -> Result<Tightness, Problem> {
    let diameter_mm = given.number("diameter")?;
    Ok(match given.maybe_number("interference") {
        Some(measured_mm) => Tightness::measured(diameter_mm, 1000.0 * measured_mm)?,
        None => Tightness::of_table(&embedded().fits, diameter_mm, given.choice("fit", Fit::ALL, Fit::id)?)?,
    })
}

fn metal(given: &Answers, key: &'static str) -> Result<&'static Metal, Problem> {
    let id = given.maybe_choice(key).ok_or_else(|| Problem::Missing { keys: vec![key] })?;
    embedded().metals.get(id).ok_or(Problem::WrongKind { key })
}

/// Limits of hole and pin.
pub(super) static FIT_LIMITS: Question = Question {
    name: "fit-limits",
    work: Work::Fit,
    inputs: &[DIAMETER, Input::new("fit", Kind::Choice(FITS)).required()],
    answers: &["fit-interference", "fit-hole", "fit-pin"],
    notes: &["fit-locates-only", "fit-shrink-only"],
    answer: |given| {
        let fit = given.choice("fit", Fit::ALL, Fit::id)?;
        Ok(Reply::of(fit_limits(&embedded().fits, given.number("diameter")?, fit)?)
            .note_if(fit == Fit::P6, "fit-locates-only")
            .note_if(fit == Fit::U6, "fit-shrink-only"))
    },
};

/// Temperatures of hub and pin.
pub(super) static SHRINK_FIT: Question = Question {
    name: "shrink-fit",
    work: Work::Fit,
    inputs: &[
        DIAMETER,
        INTERFERENCE,
        FIT,
        Input::new("hub-ceiling", Kind::Temperature).required().within(20.0, 700.0).of(OfPlan::Ceiling),
        Input::new("room-to-enter", Kind::Length).within(0.0, 5.0),
        HUB,
        PIN,
        Input::new("pin-temperature", Kind::Temperature).within(-196.0, 300.0),
        SHOP,
        Input::new("heated-diameter", Kind::Length).within(1.0, 10_000.0),
        Input::new("outer-diameter", Kind::Length).within(1.0, 10_000.0),
    ],
    answers: &[
        "fit-hub-out-of-heat",
        "fit-hub-temperature",
        "fit-hub-local",
        "fit-hub-freezer",
        "fit-hub-dry-ice",
        "fit-hub-nitrogen",
        "fit-pin-alone",
        "fit-interference",
    ],
    notes: &[
        "fit-above-ceiling",
        "fit-no-way",
        "fit-no-heat-needed",
        "fit-little-reserve",
        "fit-pin-not-frozen",
        "fit-order-push",
        "fit-order-preheat",
        "fit-order-frost",
        "fit-whole-hub",
        "fit-local-above-ceiling",
        "local-ring-yields",
    ],
    answer: answer_shrink,
};

/// What is asked, of a tightness that is already known.
pub(super) fn asked_shrink<'a>(given: &Answers, tightness: &'a Tightness) -> Result<ShrinkFit<'a>, Problem> {
    Ok(ShrinkFit {
        tightness,
        room_um: given.maybe_number("room-to-enter").map(|room_mm| 1000.0 * room_mm),
        hub: metal(given, "hub-metal")?,
        pin: metal(given, "pin-metal")?,
        shop_c: given.number("room-temperature")?,
        pin_c: given.maybe_number("pin-temperature"),
        ceiling_c: given.number("hub-ceiling")?,
        local: hot_ring(given)?,
    })
}

/// What of the hub is hot, where somebody says that it is not all of it.
fn hot_ring(given: &Answers) -> Result<Option<HotRing>, Problem> {
    match (given.maybe_number("outer-diameter"), given.maybe_number("heated-diameter")) {
        (Some(outer_mm), Some(heated_mm)) => Ok(Some(HotRing { outer_mm, heated_mm })),
        (None, Some(_)) => Err(Problem::Missing { keys: vec!["outer-diameter"] }),
        (Some(_), None) => Err(Problem::Missing { keys: vec!["heated-diameter"] }),
        (None, None) => Ok(None),
    }
}

fn answer_shrink(given: &Answers) -> Result<Reply, Problem> {
    let tightness = tightness(given)?;
    let asked = asked_shrink(given, &tightness)?;
    let mut found = shrink_fit(&embedded().fits, &asked)?;
    // What the hub is heated to comes before what it has left when the pin goes in.
    found.outcomes.swap(0, 1);
    let local = asked.local.is_some();
    if let Some(at) = found.outcomes.iter().position(|outcome| outcome.name == "fit-hub-local") {
        // It takes the place of a hub that is hot all over.
        let locally = found.outcomes.remove(at);
        found.outcomes.insert(2, locally);
    }
    let way = !found.above_ceiling || found.by_freezing;
    let frozen = found.pin_freezes && (found.by_freezing || asked.pin_c.is_some_and(|pin_c| pin_c < 0.0));
    Ok(Reply::of(found.outcomes)
        .note_if(found.above_ceiling && found.by_freezing, "fit-above-ceiling")
        .note_if(!way, "fit-no-way")
        .note_if(found.without_heat, "fit-no-heat-needed")
        .note_if(found.reserve_above_ceiling, "fit-little-reserve")
        .note_if(!found.pin_freezes, "fit-pin-not-frozen")
        .note_if(way, "fit-order-push")
        .note_if(way, "fit-order-preheat")
        .note_if(way && frozen, "fit-order-frost")
        .note_if(way, "fit-whole-hub")
        .note_if(found.local_above_ceiling, "fit-local-above-ceiling")
        .note_if(local, "local-ring-yields"))
}

/// A bore that is heated alone.
pub(super) static LOCAL_BORE: Question = Question {
    name: "local-bore",
    work: Work::Fit,
    inputs: &[
        DIAMETER,
        OUTER,
        Input::new("heated-diameter", Kind::Length).required().within(1.0, 10_000.0),
        Input::new("hot-temperature", Kind::Temperature).required().within(30.0, 700.0),
        HUB,
        SHOP,
    ],
    answers: &["local-opening", "local-rise", "local-share"],
    notes: &["local-ring-yields"],
    answer: |given| {
        let shop_c = given.number("room-temperature")?;
        let heat = LocalHeat {
            bore_mm: given.number("diameter")?,
            outer_mm: given.number("outer-diameter")?,
            heated_mm: given.number("heated-diameter")?,
            rise_k: given.number("hot-temperature")? - shop_c,
        };
        let found = local_bore(metal(given, "hub-metal")?, shop_c, heat)?;
        Ok(Reply::of(found).note_if(heat.share() < 1.0, "local-ring-yields"))
    },
};

/// Seconds to carry and to push.
pub(super) static FIT_TIME: Question = Question {
    name: "fit-time",
    work: Work::Fit,
    inputs: &[
        DIAMETER,
        OUTER,
        Input::new("hub-length", Kind::Length).required().within(1.0, 5000.0),
        INTERFERENCE,
        FIT,
        Input::new("hub-temperature", Kind::Temperature).required().within(-40.0, 700.0),
        Input::new("pin-temperature", Kind::Temperature).within(-196.0, 300.0),
        HUB,
        PIN,
        SHOP,
    ],
    answers: &["fit-push", "fit-carry"],
    notes: &["fit-one-push", "fit-stays-open"],
    answer: |given| {
        let tightness = tightness(given)?;
        let shop_c = given.number("room-temperature")?;
        let asked = HotHub {
            tightness: &tightness,
            outer_mm: given.number("outer-diameter")?,
            length_mm: given.number("hub-length")?,
            hub: metal(given, "hub-metal")?,
            pin: metal(given, "pin-metal")?,
            hub_c: given.number("hub-temperature")?,
            pin_c: given.maybe_number("pin-temperature").unwrap_or(shop_c),
            shop_c,
        };
        let found = fit_time(&embedded().fits, &embedded().heat_cycle, &asked)?;
        let open = found[0].value.is_none();
        Ok(Reply::of(found).note_if(true, "fit-one-push").note_if(open, "fit-stays-open"))
    },
};

const MODULUS: Preset = Preset::Number(206_000.0);

/// Pressure, stress, force and torque.
pub(super) static FIT_STRENGTH: Question = Question {
    name: "fit-strength",
    work: Work::Fit,
    inputs: &[
        DIAMETER,
        OUTER,
        Input::new("fit-length", Kind::Length).required().within(1.0, 5000.0),
        INTERFERENCE,
        FIT,
        Input::new("pin-bore", Kind::Length).or(Preset::Number(0.0)).within(0.0, 3000.0),
        Input::new("fit-surface", Kind::Choice(&SURFACES)).or(Preset::Choice(SURFACES[1])),
        Input::new("roughness", Kind::Length).or(Preset::Number(0.0)).within(0.0, 0.5),
        Input::new("hub-yield", Kind::Stress).within(50.0, 3000.0),
        Input::new("pin-yield", Kind::Stress).within(50.0, 3000.0),
        Input::new("hub-modulus", Kind::Stress).or(MODULUS).within(10_000.0, 400_000.0),
        Input::new("pin-modulus", Kind::Stress).or(MODULUS).within(10_000.0, 400_000.0),
    ],
    answers: &["fit-torque", "fit-force", "fit-pressure", "fit-hub-hoop", "fit-hub-mises", "fit-pin-hoop"],
    notes: &[
        "fit-hub-yields",
        "fit-pin-yields",
        "fit-loosest-slips",
        "fit-yield-not-known",
        "fit-modulus-steel",
    ],
    answer: answer_strength,
};

fn answer_strength(given: &Answers) -> Result<Reply, Problem> {
    let fits = &embedded().fits;
    let tightness = tightness(given)?;
    let dry = given.maybe_choice("fit-surface") == Some(SURFACES[0]);
    let asked = GripQuery {
        grip: Grip {
            diameter_mm: given.number("diameter")?,
            outer_mm: given.number("outer-diameter")?,
            pin_bore_mm: given.number("pin-bore")?,
            hub_mpa: given.number("hub-modulus")?,
            pin_mpa: given.number("pin-modulus")?,
            poisson: 0.3,
        },
        tightness: &tightness,
        roughness_um: 1000.0 * given.number("roughness")?,
        length_mm: given.number("fit-length")?,
        friction: if dry { fits.friction_dry } else { fits.friction_oiled },
    };
    let found = grip(fits, &asked)?;
    let (hub, pin) = (given.maybe_number("hub-yield"), given.maybe_number("pin-yield"));
    let past = |limit: Option<f64>, stress: f64| limit.is_some_and(|limit| stress > limit);
    let (hub_mpa, pin_mpa) = (found.hub_mises_mpa, found.pin_mpa);
    Ok(Reply::of(found.outcomes)
        .note_if(past(hub, hub_mpa), "fit-hub-yields")
        .note_if(past(pin, pin_mpa), "fit-pin-yields")
        .note_if(found.loosest_slips, "fit-loosest-slips")
        .note_if(hub.is_none() || pin.is_none(), "fit-yield-not-known")
        .note_if(true, "fit-modulus-steel"))
}

/// The fit at the preheat.
pub(super) static FIT_AT_PREHEAT: Question = Question {
    name: "fit-at-preheat",
    work: Work::Fit,
    inputs: &[
        DIAMETER,
        INTERFERENCE,
        FIT,
        Input::new("both-temperature", Kind::Temperature).required().within(-40.0, 700.0).of(OfPlan::Minimum),
        HUB,
        PIN,
        SHOP,
    ],
    answers: &["fit-at-preheat", "fit-hub-alone"],
    notes: &["fit-comes-loose", "fit-heat-both"],
    answer: |given| {
        let tightness = tightness(given)?;
        let asked = WarmFit {
            tightness: &tightness,
            hub: metal(given, "hub-metal")?,
            pin: metal(given, "pin-metal")?,
            shop_c: given.number("room-temperature")?,
            both_c: given.number("both-temperature")?,
        };
        let found = fit_at_preheat(&asked)?;
        let loose = found[0].value.is_some_and(|left_um| left_um <= 0.0);
        Ok(Reply::of(found).note_if(loose, "fit-comes-loose").note_if(true, "fit-heat-both"))
    },
};

/// Hub and pin once they share their heat.
pub(super) static EVEN_TEMPERATURE: Question = Question {
    name: "even-temperature",
    work: Work::Fit,
    inputs: &[
        Input::new("hub-mass", Kind::Mass).required().within(0.001, 100_000.0),
        Input::new("hub-temperature", Kind::Temperature).required().within(-40.0, 700.0),
        Input::new("pin-mass", Kind::Mass).required().within(0.001, 100_000.0),
        Input::new("pin-temperature", Kind::Temperature).required().within(-196.0, 700.0),
    ],
    answers: &["fit-even-temperature"],
    notes: &["fit-measure-on-pin"],
    answer: |given| {
        let pair = Pair {
            hub_kg: given.number("hub-mass")?,
            hub_c: given.number("hub-temperature")?,
            pin_kg: given.number("pin-mass")?,
            pin_c: given.number("pin-temperature")?,
        };
        Ok(Reply::of([even_temperature(pair)?]).note_if(true, "fit-measure-on-pin"))
    },
};
