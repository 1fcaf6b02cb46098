//! How a heated joint falls with no arc on it: the quickest and the slowest that it may.

use std::ops::ControlFlow;

use super::clock::{AT_ONCE_S, Stride};
use super::flames::{Flamed, Flames};
use super::query::HeatCycle;
use super::record::Phase;
use super::refusal::Refusal;
use super::run::{Run, Setup, Watch};
use super::step::Heat;
use crate::engine::reading::{Fall, Falls};
use crate::reference::Reference;

/// So far below its limit each fall goes on, K: readings below it still tell how quick it is.
const ON_BELOW_K: f64 = 60.0;
/// And never nearer to the shop, K.
const ABOVE_SHOP_K: f64 = 15.0;
/// The slow fall begins so far above the maximum, K.
const ABOVE_MAXIMUM_K: f64 = 150.0;
/// A part that is as hot all through is evened out anew after so much, K.
const EVEN_STEP_K: f64 = 5.0;
/// No fall is followed longer, h.
const LONGEST_H: f64 = 48.0;
/// A fall has no more points.
const MOST_POINTS: usize = 60;
/// No part of a plan is hotter, °C.
const HOTTEST_C: f64 = 640.0;

impl Flames {
    /// The two falls of the joint. The quick one begins straight after the flame whose heat lasts least,
    /// with all losses that the readings on the joint allow; the slow one from a part that is as hot all
    /// through, with the least.
    ///
    /// # Errors
    /// What [`Refusal`] says of the likely flame.
    pub fn falls(
        &self,
        reference: &Reference,
        found: &Flamed,
        watch: &mut dyn FnMut(f64, Phase) -> ControlFlow<()>,
    ) -> Result<Falls, Refusal> {
        let [low, likely, high] = self.shares(reference)?;
        let (most, least) = found.losses.map_or((1.0, 1.0), |losses| (losses.most, losses.least));
        let plain = |share: f64| HeatCycle { passes: Vec::new(), ..self.with(share) };
        let each =
            [(Some(&found.cycle.preheat), likely), (Some(&found.strong), high), (found.weak.as_ref(), low)];
        let shortest = each
            .into_iter()
            .filter_map(|(preheat, share)| preheat.map(|preheat| (preheat.weld_by_min, share)))
            .min_by(|one, other| one.0.total_cmp(&other.0))
            .map_or(likely, |(_, share)| share);
        let quick = quick(reference, &plain(shortest).losing(most.max(1.0)), &mut |minute, phase| {
            watch(minute, phase)
        })?;
        let mut slow = slow(reference, &plain(likely).losing(least.min(1.0)), &mut |minute, phase| {
            watch(minute, phase)
        })?;
        let mut shares = vec![low, likely, high];
        shares.dedup();
        for share in shares {
            let query = plain(share).losing(least.min(1.0));
            // A flame that is too weak heats nothing that one has to wait for.
            let fed = after_flame(reference, &query, &mut |minute, phase| watch(minute, phase));
            match fed {
                Ok(fed) => slow = slower(&slow, &fed),
                Err(Refusal::Stopped) => return Err(Refusal::Stopped),
                Err(_) => {}
            }
        }
        Ok(Falls { quick, slow })
    }
}

/// The coldest place that must have the minimum, from the end of the flame on.
fn quick(reference: &Reference, query: &HeatCycle, watch: &mut Watch<'_>) -> Result<Fall, Refusal> {
    let setup = Setup::of(reference, query)?;
    let mut run = Run::cold(&setup, watch);
    run.heat_up()?;
    let end_c = (query.minimum_c - ON_BELOW_K).max(query.shop_c + ABOVE_SHOP_K);
    follow(&mut run, end_c, Run::coldest_c)
}

/// Weld and heat-affected zone of a part that is as hot all through, over and over again: at each step it is
/// evened out anew, so that no colder place beside draws on it. What an arc left on one spot falls quicker.
fn slow(reference: &Reference, query: &HeatCycle, watch: &mut Watch<'_>) -> Result<Fall, Refusal> {
    let setup = Setup::of(reference, query)?;
    let mut run = Run::cold(&setup, watch);
    let most_c = query.interpass_c.unwrap_or(query.minimum_c);
    let from_c = (most_c.max(query.minimum_c + query.reserve_k) + ABOVE_MAXIMUM_K).min(HOTTEST_C);
    let end_c = (most_c - ON_BELOW_K).max(query.shop_c + ABOVE_SHOP_K);
    let mut points = vec![(0.0, from_c)];
    let mut at_c = from_c;
    while at_c > end_c {
        let next_c = (at_c - EVEN_STEP_K).max(end_c);
        run.state.heat = Heat::even(&setup.body, at_c);
        let piece = follow(&mut run, next_c, Run::hottest_c)?;
        let Some(minutes) = piece.passes_min(next_c) else { break };
        let before = points.last().map_or(0.0, |(minute, _)| *minute);
        points.push((before + minutes, next_c));
        at_c = next_c;
    }
    Ok(Fall { points: thinned(&points) })
}

/// Weld and heat-affected zone after a flame, whose hot zone beside still feeds them.
fn after_flame(reference: &Reference, query: &HeatCycle, watch: &mut Watch<'_>) -> Result<Fall, Refusal> {
    let setup = Setup::of(reference, query)?;
    let mut run = Run::cold(&setup, watch);
    run.heat_up()?;
    let most_c = query.interpass_c.unwrap_or(query.minimum_c);
    let end_c = (most_c - ON_BELOW_K).max(query.shop_c + ABOVE_SHOP_K);
    follow(&mut run, end_c, Run::hottest_c)
}

/// The first, each stretch of it as long as the other has it where that is longer.
fn slower(fall: &Fall, other: &Fall) -> Fall {
    let Some(first) = fall.points.first() else { return fall.clone() };
    let mut minute = first.0;
    let mut points = vec![*first];
    for pair in fall.points.windows(2) {
        let own = pair[1].0 - pair[0].0;
        // What the other has of this stretch, at the pace that it has there.
        let hot_c = other.points.first().map_or(f64::NEG_INFINITY, |(_, hot_c)| hot_c.min(pair[0].1));
        let share = (pair[0].1 - pair[1].1) / (hot_c - pair[1].1);
        let there = (hot_c > pair[1].1).then(|| other.minutes(hot_c, pair[1].1)).flatten();
        let fed = there.map_or(0.0, |minutes| minutes * share.max(1.0));
        minute += own.max(fed);
        points.push((minute, pair[1].1));
    }
    Fall { points: thinned(&points) }
}

/// The figure from its highest on, until it is at the end.
fn follow<'s, 'w>(
    run: &mut Run<'s, 'w>,
    end_c: f64,
    figure: fn(&Run<'s, 'w>) -> f64,
) -> Result<Fall, Refusal> {
    let pace = run.setup.pace;
    let mut stride = Stride::new(AT_ONCE_S, pace.change_k);
    let began = run.state.time;
    let mut points = vec![(0.0, figure(run))];
    while figure(run) > end_c && run.state.time - began < LONGEST_H * 3600.0 {
        let change = run.advance(stride.next(pace.cool_s), Phase::Even, 0.0)?;
        stride.adapt(change, pace.cool_s);
        points.push(((run.state.time - began) / 60.0, figure(run)));
    }
    // While the flame's heat still runs into a place it rises, and that is no fall.
    let highest = points.iter().enumerate().max_by(|one, other| one.1.1.total_cmp(&other.1.1));
    let from = highest.map_or(0, |(nth, _)| nth);
    let begins = points[from].0;
    let mut falling: Vec<(f64, f64)> = Vec::new();
    for (minute, at_c) in points.drain(from..) {
        if falling.last().is_none_or(|(_, before_c)| at_c < *before_c) {
            falling.push((minute - begins, at_c));
        }
    }
    Ok(Fall { points: thinned(&falling) })
}

/// As many points as are kept, evenly over the fall, both ends among them, in thousandths of a minute and of
/// a degree.
fn thinned(points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let step = points.len().div_ceil(MOST_POINTS).max(1);
    let last = points.len().saturating_sub(1);
    let kept = points.iter().enumerate().filter(|(nth, _)| nth % step == 0 || *nth == last);
    let fine = |value: f64, parts: f64| (value * parts).round() / parts;
    kept.map(|(_, (minute, at_c))| (fine(*minute, 1000.0), fine(*at_c, 1000.0))).collect()
}
