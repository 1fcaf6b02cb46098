//! Temper colours, IR readings, crayons, measuring places and red heat.

use super::{Answers, Input, Kind, OfPlan, Preset, Problem, Question, Reply, Taken, Work, shared};
use crate::engine::EngineError;
use crate::engine::crayon::crayon_pair;
use crate::engine::infrared::{
    GunSetting, IrLimit, IrReading, IrVerdict, ir_expected_reading, ir_true_temperature, judge,
};
use crate::engine::measuring::{HeatedBy, MeasuringRule, PartToMeasure, measuring_place};
use crate::engine::red_heat::red_heat_range;
use crate::engine::tint::{
    Afterwards, Circumstances, FlameOn, Mode, Pace, Span, SpotState, Stage, TintError, TintNote,
    colour_at_peak, peak_from_stages,
};
use crate::reference::tint::{Light, RedHeat, SurfaceState, TintData};
use crate::units::Quantity;

pub(super) const STAGES: &[&str] = <Stage as strum::VariantNames>::VARIANTS;
const GLOWS: &[&str] = <RedHeat as strum::VariantNames>::VARIANTS;
const LIGHTS: &[&str] = <Light as strum::VariantNames>::VARIANTS;
const TINT_NOTES: &[&str] = <TintNote as strum::VariantNames>::VARIANTS;
const RULES: &[&str] = <MeasuringRule as strum::VariantNames>::VARIANTS;
const SPOTS: &[&str] = <SpotState as strum::VariantNames>::VARIANTS;
/// Surfaces of `data/tint.ron`.
const SURFACES: [&str; 7] =
    ["bright", "cold-rolled", "rolled-sheet", "mill-scale", "rusted", "oxidised", "black-spot"];
pub(super) const LOOKED: [&str; 2] = ["flame-on", "afterwards"];
const HEATED_BY: &[&str] = <HeatedBy as strum::VariantNames>::VARIANTS;

const PEAK: Input = Input::new("peak", Kind::Temperature).required().within(0.0, 700.0);
pub(super) const START: Input = Input::new("start-temperature", Kind::Temperature)
    .or(Preset::Number(20.0))
    .within(-60.0, 500.0)
    .of(OfPlan::Shop);
/// All that tells how quickly it is heated.
const HEATING: &str = "heating";
const MINUTES: Input = Input::new("heating-minutes", Kind::Of(Quantity::Minutes))
    .kin(HEATING)
    .within(0.01, 10_000.0)
    .of(OfPlan::FlameLeast);
const MINUTES_MOST: Input = Input::new("heating-minutes-most", Kind::Of(Quantity::Minutes))
    .kin(HEATING)
    .within(0.01, 10_000.0)
    .of(OfPlan::FlameMost);
const HEATING_RATE: Input =
    Input::new("heating-rate", Kind::Of(Quantity::MinuteRate)).kin(HEATING).within(0.05, 5000.0);
const COOLING_RATE: Input =
    Input::new("cooling-rate", Kind::Of(Quantity::MinuteRate)).or(Preset::Number(10.0)).within(0.05, 5000.0);
const NEAR_PEAK: Input = Input::new("near-peak-minutes", Kind::Of(Quantity::Minutes)).within(0.01, 10_000.0);
const NEAR_PEAK_MOST: Input =
    Input::new("near-peak-minutes-most", Kind::Of(Quantity::Minutes)).within(0.01, 10_000.0);
const FILM_BEFORE: Input =
    Input::new("film-before", Kind::Of(Quantity::Film)).or(Preset::Number(0.0)).within(0.0, 1000.0);
pub(super) const CHROMIUM: Input = Input::new("chromium", Kind::Percent).within(0.0, 100.0);
const SPOT: Input = Input::new("spot", Kind::Choice(SPOTS)).or(Preset::Choice("bright"));
const SHIELDED: Input = Input::new("shielded-from-air", Kind::Flag);
const SURFACE: Input = Input::new("surface", Kind::Choice(&SURFACES)).required();
const GUN: Input = Input::new("gun-emissivity", Kind::Number).or(Preset::Number(0.95)).within(0.01, 1.0);
const GUN_SURROUNDINGS: Input = Input::new("gun-surroundings", Kind::Temperature).within(-60.0, 500.0);
const SURROUNDINGS: Input =
    Input::new("surroundings", Kind::Temperature).or(Preset::Number(20.0)).within(-60.0, 500.0);
/// Hot parts and flames about are plausible: a minimum is judged with the hottest of them.
const SURROUNDINGS_MOST: Input =
    Input::new("surroundings-most", Kind::Temperature).within(-60.0, 500.0).in_form(Preset::Number(60.0));
const MINIMUM: Input = Input::new("minimum", Kind::Temperature).within(0.0, 700.0).of(OfPlan::Minimum);
const MAXIMUM: Input = Input::new("maximum", Kind::Temperature).within(0.0, 700.0).of(OfPlan::Maximum);

pub(super) fn refused(error: TintError) -> Problem {
    Problem::Engine(EngineError::from(error))
}

/// A figure that may be given as a range.
fn span(given: &Answers, least: &str, most: &str) -> Option<Span> {
    let low = given.maybe_number(least).or_else(|| given.maybe_number(most))?;
    Some(Span { low, high: given.maybe_number(most).unwrap_or(low) })
}

fn steel(given: &Answers) -> Result<Circumstances, Problem> {
    Ok(Circumstances {
        chromium_pct: given.maybe_number("chromium"),
        spot: given.choice("spot", SpotState::ALL, SpotState::id)?,
        shielded_from_air: given.flag("shielded-from-air"),
        coupon: None,
    })
}

fn flame_on(given: &Answers) -> Result<Mode, Problem> {
    let pace =
        match (given.maybe_number("heating-rate"), span(given, "heating-minutes", "heating-minutes-most")) {
            (_, Some(minutes)) => Pace::Minutes(minutes),
            (Some(rate), None) => Pace::KelvinPerMin(Span::exactly(rate)),
            (None, None) => return Err(Problem::Missing { keys: vec!["heating-minutes", "heating-rate"] }),
        };
    Ok(Mode::FlameOn(FlameOn {
        start_c: given.number("start-temperature")?,
        pace,
        film_before_nm: given.number("film-before")?,
    }))
}

fn afterwards(given: &Answers) -> Result<Mode, Problem> {
    let plausible = Afterwards::default();
    Ok(Mode::Afterwards(Afterwards {
        start_c: given.number("start-temperature")?,
        near_peak_min: span(given, "near-peak-minutes", "near-peak-minutes-most")
            .unwrap_or(plausible.near_peak_min),
        up_k_per_min: given.maybe_number("heating-rate").unwrap_or(plausible.up_k_per_min),
        down_k_per_min: given.number("cooling-rate")?,
        film_before_nm: given.number("film-before")?,
    }))
}

fn noted(mut reply: Reply, notes: &[TintNote]) -> Reply {
    for note in notes {
        reply = reply.note_if(true, note.id());
    }
    reply
}

/// Which colour appears at a temperature while the flame is on?
pub(super) static TINT_FLAME_ON: Question = Question {
    name: "tint-flame-on",
    work: Work::Measure,
    inputs: &[PEAK, START, MINUTES, MINUTES_MOST, HEATING_RATE, FILM_BEFORE, CHROMIUM, SPOT, SHIELDED],
    answers: &["tint-flame-on"],
    notes: TINT_NOTES,
    answer: |given| {
        let found =
            colour_at_peak(&flame_on(given)?, given.number("peak")?, &steel(given)?).map_err(refused)?;
        Ok(noted(Reply::of([found.outcome]), &found.notes))
    },
};

/// Which colour does a peak leave?
pub(super) static TINT_AFTERWARDS: Question = Question {
    name: "tint-afterwards",
    work: Work::Measure,
    inputs: &[
        PEAK,
        START,
        NEAR_PEAK,
        NEAR_PEAK_MOST,
        HEATING_RATE,
        COOLING_RATE,
        FILM_BEFORE,
        CHROMIUM,
        SPOT,
        SHIELDED,
    ],
    answers: &["tint-afterwards"],
    notes: TINT_NOTES,
    answer: |given| {
        let found =
            colour_at_peak(&afterwards(given)?, given.number("peak")?, &steel(given)?).map_err(refused)?;
        Ok(noted(Reply::of([found.outcome]), &found.notes))
    },
};

/// Which peak left a colour?
pub(super) static PEAK_FROM_TINT: Question = Question {
    name: "peak-from-tint",
    work: Work::Measure,
    inputs: &[
        Input::new("colour", Kind::Choice(STAGES)).required(),
        Input::new("colour-last", Kind::Choice(STAGES)),
        Input::new("looked", Kind::Choice(&LOOKED)).required(),
        START,
        MINUTES,
        MINUTES_MOST,
        NEAR_PEAK,
        NEAR_PEAK_MOST,
        HEATING_RATE,
        COOLING_RATE,
        FILM_BEFORE,
        CHROMIUM,
        SPOT,
        SHIELDED,
    ],
    answers: &["peak-from-tint"],
    notes: TINT_NOTES,
    answer: |given| {
        let first = given.choice("colour", Stage::ALL, Stage::id)?;
        let last = match given.maybe_choice("colour-last") {
            Some(_) => given.choice("colour-last", Stage::ALL, Stage::id)?,
            None => first,
        };
        let mode = if given.maybe_choice("looked") == Some(LOOKED[0]) {
            flame_on(given)?
        } else {
            afterwards(given)?
        };
        let found = peak_from_stages(&mode, first, last, &steel(given)?).map_err(refused)?;
        Ok(noted(Reply::of([found.outcome]), &found.notes))
    },
};

fn surface(given: &Answers) -> Option<&'static SurfaceState> {
    given.maybe_choice("surface").and_then(|id| TintData::embedded().surface(id))
}

/// Emissivity of the chosen surface.
fn emissivity(given: &Answers) -> Result<Span, Problem> {
    surface(given)
        .map(|surface| Span { low: surface.low, high: surface.high })
        .ok_or(Problem::WrongKind { key: "surface" })
}

/// The emissivity that was reckoned with, and where it comes from.
fn emissivity_taken(given: &Answers) -> Option<Taken> {
    let surface = surface(given)?;
    Some(Taken { name: "emissivity", low: surface.low, high: surface.high, basis: surface.basis.clone() })
}

fn surroundings(given: &Answers) -> Result<Span, Problem> {
    let low = given.number("surroundings")?;
    Ok(Span { low, high: given.maybe_number("surroundings-most").unwrap_or(low) })
}

/// The gun assumes the true surroundings, at their coldest, unless its own are given.
fn gun(given: &Answers) -> Result<GunSetting, Problem> {
    let surroundings_c = match given.maybe_number("gun-surroundings") {
        Some(own) => own,
        None => given.number("surroundings")?,
    };
    Ok(GunSetting { emissivity: given.number("gun-emissivity")?, surroundings_c })
}

/// Which temperatures can the steel have when a gun shows this?
pub(super) static IR_TRUE_TEMPERATURE: Question = Question {
    name: "ir-true-temperature",
    work: Work::Measure,
    inputs: &[
        Input::new("reading", Kind::Temperature).required().within(-100.0, 1600.0),
        SURFACE,
        GUN,
        GUN_SURROUNDINGS,
        SURROUNDINGS,
        SURROUNDINGS_MOST,
        MINIMUM,
        MAXIMUM,
    ],
    answers: &["ir-true-temperature"],
    notes: &[
        "ir-hotter",
        "ir-no-use",
        "ir-black-spot",
        "ir-minimum-kept",
        "ir-minimum-ask-another",
        "ir-minimum-not-shown",
        "ir-minimum-missed",
        "ir-maximum-kept",
        "ir-maximum-not-shown",
        "ir-maximum-missed",
    ],
    answer: |given| {
        let reading = IrReading {
            reading_c: given.number("reading")?,
            gun: gun(given)?,
            emissivity: emissivity(given)?,
            surroundings_c: surroundings(given)?,
        };
        let range = ir_true_temperature(&reading)?;
        let range_useful = range.useful;
        // A mirror shows what it reflects: which way the reading lies is known, and how far is not.
        let hotter = !range_useful && range.low_c.is_some_and(|low_c| low_c > reading.reading_c);
        let mut reply = Reply::of([range.outcome])
            .note_if(hotter, "ir-hotter")
            .no_use_if(!range_useful, "ir-no-use")
            .taking(emissivity_taken(given));
        let mut unsure = !range_useful;
        // What is surely above the maximum is not asked about the minimum.
        let maximum_c = given.maybe_number("maximum");
        let past = match maximum_c {
            Some(maximum_c) => judge(&reading, IrLimit::Maximum(maximum_c))?.verdict == IrVerdict::Missed,
            None => false,
        };
        if let Some(minimum_c) = given.maybe_number("minimum").filter(|_| !past) {
            let verdict = judge(&reading, IrLimit::Minimum(minimum_c))?.verdict;
            unsure |= matches!(verdict, IrVerdict::AskAnother | IrVerdict::NotShown);
            reply = reply.note_if(
                true,
                match verdict {
                    // Beside "no use" nothing is called kept.
                    IrVerdict::Kept if range_useful => "ir-minimum-kept",
                    IrVerdict::AskAnother if range_useful => "ir-minimum-ask-another",
                    IrVerdict::Kept | IrVerdict::AskAnother | IrVerdict::NotShown => "ir-minimum-not-shown",
                    IrVerdict::Missed => "ir-minimum-missed",
                },
            );
        }
        if let Some(maximum_c) = maximum_c {
            let verdict = judge(&reading, IrLimit::Maximum(maximum_c))?.verdict;
            unsure |= verdict == IrVerdict::NotShown;
            reply = reply.note_if(
                true,
                match verdict {
                    IrVerdict::Kept if range_useful => "ir-maximum-kept",
                    IrVerdict::Kept | IrVerdict::AskAnother | IrVerdict::NotShown => "ir-maximum-not-shown",
                    IrVerdict::Missed => "ir-maximum-missed",
                },
            );
        }
        Ok(reply.note_if(unsure, "ir-black-spot"))
    },
};

/// What will the gun show at a temperature?
pub(super) static IR_EXPECTED_READING: Question = Question {
    name: "ir-expected-reading",
    work: Work::Measure,
    inputs: &[
        Input::new("steel-temperature", Kind::Temperature)
            .required()
            .within(-60.0, 1600.0)
            .of(OfPlan::Minimum),
        SURFACE,
        GUN,
        GUN_SURROUNDINGS,
        SURROUNDINGS,
        SURROUNDINGS_MOST,
    ],
    answers: &["ir-expected-reading"],
    notes: &["ir-above-upper"],
    answer: |given| {
        let celsius = given.number("steel-temperature")?;
        let outcome = ir_expected_reading(celsius, gun(given)?, emissivity(given)?, surroundings(given)?)?;
        Ok(Reply::of([outcome]).note_if(true, "ir-above-upper").taking(emissivity_taken(given)))
    },
};

/// Which two crayons bracket a window?
pub(super) static CRAYON_PAIR: Question = Question {
    name: "crayon-pair",
    work: Work::Measure,
    inputs: &[MINIMUM.required(), MAXIMUM.required()],
    answers: &["crayon-pair"],
    notes: &[],
    answer: |given| {
        let crayons = &TintData::embedded().crayons;
        let pair = crayon_pair(crayons, given.number("minimum")?, given.number("maximum")?)?;
        // A pair is what is asked for; the range that it proves comes after.
        Ok(Reply::of([pair.outcome]).led_by(&["melts", "stays"]))
    },
};

/// Where and when to measure?
pub(super) static MEASURING_PLACE: Question = Question {
    name: "measuring-place",
    work: Work::Measure,
    inputs: &[
        shared::THICKNESS.required(),
        Input::new("heated-by", Kind::Choice(HEATED_BY)).or(Preset::Choice(HEATED_BY[0])),
        Input::new("far-face", Kind::Flag),
    ],
    answers: &["measuring-distance", "measuring-zone", "measuring-wait"],
    notes: RULES,
    answer: |given| {
        let place = measuring_place(PartToMeasure {
            thickest_mm: given.number("thickness")?,
            heated_by: given.choice("heated-by", HeatedBy::ALL, HeatedBy::id)?,
            far_face_reached: given.flag("far-face"),
        })?;
        let mut reply = Reply::of([place.distance, place.zone, place.wait]);
        for rule in place.rules {
            reply = reply.note_if(true, rule.id());
        }
        Ok(reply)
    },
};

/// Which temperatures do lists give a glow?
pub(super) static RED_HEAT: Question = Question {
    name: "red-heat",
    work: Work::Measure,
    inputs: &[
        Input::new("glow", Kind::Choice(GLOWS)).required(),
        Input::new("light", Kind::Choice(LIGHTS)).or(Preset::Choice("daylight")),
    ],
    answers: &["red-heat"],
    notes: &[],
    answer: |given| {
        let glow = given.choice("glow", RedHeat::ALL, RedHeat::id)?;
        let light = given.choice("light", Light::ALL, Light::id)?;
        Ok(Reply::of([red_heat_range(&TintData::embedded().red_heat, glow, light)?.outcome]))
    },
};
