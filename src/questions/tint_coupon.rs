//! A bright piece of the same bar, heated, read with an instrument and looked at.

use super::tint::{CHROMIUM, LOOKED, STAGES, START, refused};
use super::{Answers, Input, Kind, Problem, Question, Reply, Work};
use crate::engine::tint::{
    Afterwards, Circumstances, Coupon, CouponSeen, FlameOn, Mode, Pace, Span, Stage, peak_from_stages,
};
use crate::engine::{Step, Unit};
use crate::reference::tint::TintData;
use crate::units::Quantity;

/// What touches the steel of a coupon; an IR gun sees too little of bright steel.
const TOUCHES: [&str; 3] = ["crayon", "contact-probe", "thermocouple"];
const COUPON_FLAME: Input = Input::new("coupon-minutes", Kind::Of(Quantity::Minutes)).within(0.05, 600.0);
const COUPON_NEAR: Input = Input::new("coupon-near-peak", Kind::Of(Quantity::Minutes)).within(0.05, 600.0);

/// What does a bright piece of the same bar teach about its colours?
pub(super) static TINT_COUPON: Question = Question {
    name: "tint-coupon",
    work: Work::Measure,
    inputs: &[
        Input::new("looked", Kind::Choice(&LOOKED)).required(),
        COUPON_FLAME,
        COUPON_NEAR,
        Input::new("colour", Kind::Choice(STAGES)).required(),
        Input::new("colour-last", Kind::Choice(STAGES)),
        Input::new("coupon-read", Kind::Temperature).required().within(100.0, 600.0),
        Input::new("coupon-read-most", Kind::Temperature).within(100.0, 600.0),
        Input::new("coupon-instrument", Kind::Choice(&TOUCHES)).required(),
        START,
        CHROMIUM,
    ],
    answers: &["tint-coupon"],
    notes: &["tint-coupon-narrows", "tint-coupon-same", "tint-coupon-crayon"],
    answer: |given| {
        let seen = coupon_seen(given)?;
        let coupon = Coupon::learn(&seen).map_err(refused)?;
        let (mode, steel) = (coupon_mode(given)?, coupon_steel(given, None));
        let before = peak_from_stages(&mode, seen.stages.0, seen.stages.1, &steel).map_err(refused)?;
        let taught = coupon_steel(given, Some(coupon.clone()));
        let after = peak_from_stages(&mode, seen.stages.0, seen.stages.1, &taught).map_err(refused)?;
        let crayon_alone = given.maybe_choice("coupon-instrument") == Some(TOUCHES[0])
            && given.maybe_number("coupon-read-most").is_none();
        let mut outcome = after.outcome.named("tint-coupon");
        outcome.steps = vec![
            Step { symbol: "read", value: coupon.read_c(), unit: Unit::Celsius },
            Step { symbol: "earlier", value: coupon.earlier_k(), unit: Unit::Kelvin },
            Step { symbol: "scatter-without", value: before.sigma_k, unit: Unit::Kelvin },
            Step { symbol: "scatter-with", value: after.sigma_k, unit: Unit::Kelvin },
        ];
        Ok(Reply::of([outcome])
            .note_if(true, "tint-coupon-narrows")
            .note_if(true, "tint-coupon-same")
            .note_if(crayon_alone, "tint-coupon-crayon"))
    },
};

/// What the answers to [`TINT_COUPON`] taught.
///
/// # Errors
/// Where the question itself has no answer.
pub fn coupon_taught(given: &Answers) -> Result<Coupon, Problem> {
    Coupon::learn(&coupon_seen(given)?).map_err(refused)
}

fn coupon_steel(given: &Answers, coupon: Option<Coupon>) -> Circumstances {
    Circumstances { chromium_pct: given.maybe_number("chromium"), coupon, ..Circumstances::BRIGHT }
}

fn coupon_mode(given: &Answers) -> Result<Mode, Problem> {
    let start_c = given.number("start-temperature")?;
    let minutes = |key: &'static str| {
        given.maybe_number(key).map(Span::exactly).ok_or(Problem::Missing { keys: vec![key] })
    };
    if given.maybe_choice("looked") == Some(LOOKED[0]) {
        let pace = Pace::Minutes(minutes("coupon-minutes")?);
        return Ok(Mode::FlameOn(FlameOn { start_c, pace, film_before_nm: 0.0 }));
    }
    let near_peak_min = minutes("coupon-near-peak")?;
    Ok(Mode::Afterwards(Afterwards { start_c, near_peak_min, ..Afterwards::default() }))
}

fn coupon_seen(given: &Answers) -> Result<CouponSeen, Problem> {
    coupon_steel(given, None).check().map_err(refused)?;
    let first = given.choice("colour", Stage::ALL, Stage::id)?;
    let last = match given.maybe_choice("colour-last") {
        Some(_) => given.choice("colour-last", Stage::ALL, Stage::id)?,
        None => first,
    };
    let low = given.number("coupon-read")?;
    let high = given.maybe_number("coupon-read-most").unwrap_or(low);
    let instrument = given.maybe_choice("coupon-instrument").unwrap_or(TOUCHES[0]);
    let (instrument_k, _) = TintData::embedded()
        .off_k(instrument, high)
        .ok_or(Problem::WrongKind { key: "coupon-instrument" })?;
    let mut heatings = coupon_mode(given)?.heatings(&Circumstances::BRIGHT)?;
    let heating = heatings.pop().ok_or(Problem::WrongKind { key: "looked" })?;
    let course = heating.course().clone();
    Ok(CouponSeen { course, stages: (first, last), read_c: Span { low, high }, instrument_k })
}
