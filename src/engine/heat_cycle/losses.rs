//! What a joint loses by two readings on it, as a multiple of what the model has it lose.

use roots::{SimpleConvergency, find_root_brent};

use super::clock::{AT_ONCE_S, Stride};
use super::query::HeatCycle;
use super::record::Phase;
use super::refusal::Refusal;
use super::run::{Run, Setup, State, Watch};
use super::sites::read;
use crate::engine::EngineError;
use crate::engine::two_readings::TwoReadings;
use crate::reference::Reference;

/// Losses as a multiple of those of the model.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Losses {
    /// By the readings as they were read.
    pub times: f64,
    /// Where the first is too high and the second too low by all that they may be off.
    pub least: f64,
    /// The other way round.
    pub most: f64,
}

/// Heated past the first reading by so much, where the flame of the plan ends below it, K.
const PAST_K: f64 = 20.0;
/// So often is it heated further.
const HEATINGS: u32 = 6;
/// The multiple is found to this.
const NEAR: f64 = 1e-4;
/// Longer than any part takes to fall to the first reading, s.
const LONGEST_S: f64 = 200.0 * 3600.0;

/// The multiple of its losses with which the model falls as the two readings say.
///
/// The joint is heated and evens out as in the cycle. From there it cools without flame and arc; the place
/// that is measured, at the required distance, passes the first reading at some minute, and the minutes
/// between the two lead to the second: `T(t1 + minutes; k) = T2` with `T(t1; k) = T1`. Heat transfer and
/// glow of every face are taken k times. In a part that is equally hot all through, the minutes of one fall
/// go with 1/k.
///
/// # Errors
/// Readings that tell nothing; a multiple that neither bright steel in still air nor a strong draught
/// explains; what else [`Refusal`] says.
pub fn losses_by_readings(
    reference: &Reference,
    query: &HeatCycle,
    readings: &TwoReadings,
    watch: &mut Watch<'_>,
) -> Result<Losses, Refusal> {
    readings.check()?;
    let likely = heated(reference, query, readings.first_c, watch)?;
    let setup = Setup::of(reference, &likely.query)?;
    let bounds = reference.heat_cycle.losses.bounds();
    let mut found = |first_c: f64, second_c: f64| {
        times(&setup, &likely.state, bounds, (first_c, second_c, 60.0 * readings.minutes), watch)
    };
    let (first_off_k, second_off_k) = readings.off_k;
    let times = match found(readings.first_c, readings.second_c)? {
        Found::Times(times) => times,
        Found::TooSlow => return Err(EngineError::NoAnswer { reason: "readings-too-slow" }.into()),
        Found::TooQuick => return Err(EngineError::NoAnswer { reason: "readings-too-quick" }.into()),
    };
    let end = |found: Found| match found {
        Found::Times(times) => times,
        Found::TooSlow => bounds.0,
        Found::TooQuick => bounds.1,
    };
    let least = end(found(readings.first_c - first_off_k, readings.second_c + second_off_k)?);
    let most = end(found(readings.first_c, readings.second_c - second_off_k - first_off_k)?);
    Ok(Losses { times, least: least.min(times), most: most.max(times) })
}

/// A joint that was heated and has evened out.
struct Hot {
    query: HeatCycle,
    state: State,
}

/// Heats as the cycle does; further where the place that is measured would still be below the reading.
fn heated(
    reference: &Reference,
    query: &HeatCycle,
    first_c: f64,
    watch: &mut Watch<'_>,
) -> Result<Hot, Refusal> {
    let mut query = HeatCycle { passes: Vec::new(), ..query.clone() };
    for _ in 0..HEATINGS {
        let (state, reached_c) = {
            let setup = Setup::of(reference, &query)?;
            let mut stop = |minute, phase| watch(minute, phase);
            let mut run = Run::cold(&setup, &mut stop);
            run.heat_up()?;
            run.wait_even()?;
            let reached_c = read(&setup.sites.required_point, &run.state.heat.at_c);
            (run.state, reached_c)
        };
        if reached_c >= first_c {
            return Ok(Hot { query, state });
        }
        query.reserve_k += first_c - reached_c + PAST_K;
        // Whoever read this has heated so far, whatever was planned.
        query.ceiling_c = None;
    }
    Err(EngineError::NoAnswer { reason: "readings-never-there" }.into())
}

/// What explains a fall.
enum Found {
    Times(f64),
    /// Even the least losses let it fall more.
    TooSlow,
    /// Even the most let it fall less.
    TooQuick,
}

/// The multiple with which it falls from the first to the second in so many seconds.
fn times(
    setup: &Setup<'_>,
    hot: &State,
    (least, most): (f64, f64),
    (first_c, second_c, seconds): (f64, f64, f64),
    watch: &mut Watch<'_>,
) -> Result<Found, Refusal> {
    let mut second_at = |times: f64| fallen(setup, hot, times, first_c, seconds, watch);
    if second_at(least)? <= second_c {
        return Ok(Found::TooSlow);
    }
    if second_at(most)? >= second_c {
        return Ok(Found::TooQuick);
    }
    let mut refused = None;
    let mut near = SimpleConvergency { eps: NEAR, max_iter: 60 };
    let root = find_root_brent(
        least,
        most,
        |times: f64| match second_at(times) {
            Ok(at_c) => at_c - second_c,
            Err(refusal) => {
                refused = Some(refusal);
                f64::NAN
            }
        },
        &mut near,
    );
    match (refused, root) {
        (Some(refusal), _) => Err(refusal),
        (None, Ok(times)) => Ok(Found::Times(times)),
        (None, Err(_)) => Err(EngineError::NoAnswer { reason: "readings-close" }.into()),
    }
}

/// The temperature of the measured place so long after it was at the first reading, with losses taken so
/// many times. Straight between steps.
fn fallen(
    setup: &Setup<'_>,
    hot: &State,
    times: f64,
    first_c: f64,
    seconds: f64,
    watch: &mut Watch<'_>,
) -> Result<f64, Refusal> {
    let mut stop = |minute, phase| watch(minute, phase);
    let mut run = Run::cold(setup, &mut stop);
    run.state = hot.clone();
    run.meets = setup.meets(&setup.query.surfaces.times(times));
    let place_c = |run: &Run<'_, '_>| read(&setup.sites.required_point, &run.state.heat.at_c);
    let (pace, began) = (setup.pace, hot.time);
    let mut stride = Stride::new(AT_ONCE_S, pace.change_k);
    let (mut before, mut passed) = ((began, place_c(&run)), None);
    loop {
        let now = (run.state.time, place_c(&run));
        let along = |share: f64| (now.0 - before.0).mul_add(share, before.0);
        if passed.is_none() && now.1 <= first_c {
            let fall = before.1 - now.1;
            passed =
                Some(if fall > 0.0 { along(((before.1 - first_c) / fall).clamp(0.0, 1.0)) } else { now.0 });
        }
        if let Some(end) = passed.map(|passed| passed + seconds).filter(|end| now.0 >= *end) {
            let span = now.0 - before.0;
            let share = if span > 0.0 { ((end - before.0) / span).clamp(0.0, 1.0) } else { 1.0 };
            return Ok((now.1 - before.1).mul_add(share, before.1));
        }
        if now.0 - began > LONGEST_S {
            return Err(Refusal::NeverCool { at_c: now.1, hours: LONGEST_S / 3600.0 });
        }
        before = now;
        let change = run.advance(stride.next(pace.wait_s), Phase::Even, 0.0)?;
        stride.adapt(change, pace.wait_s);
    }
}
