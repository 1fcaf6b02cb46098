//! The curve of a heat cycle with few points, as a log keeps it: every moment that matters, and between them
//! as many as it takes to bend where the cycle bends.

use std::collections::BTreeSet;

use crate::engine::heat_cycle::Moment;
use crate::log::CurvePoint;

/// A curve is drawn finer until it has so many points; what matters is kept beyond that.
const ENOUGH_POINTS: usize = 160;
/// What rises and falls by less is no turn of a curve, °C.
const TURNS_BY_K: f64 = 2.0;
/// A line that misses the cycle by less is good enough, °C.
const FINE_K: f64 = 0.5;

/// The two temperatures of a moment that a log keeps: those of the coldest place that counts and the hottest.
fn lanes(moment: &Moment) -> [f64; 2] {
    [moment.coldest_c, moment.hottest_c]
}

/// The curve of these moments: its ends, the ends of each phase, and the highest and the lowest moment of
/// each rise and fall always; then those that a straight line would miss by most.
#[must_use]
pub fn curve_points(moments: &[Moment]) -> Vec<CurvePoint> {
    let fine = |value: f64, parts: f64| (value * parts).round() / parts;
    let point = |at: usize| {
        let moment = &moments[at];
        CurvePoint {
            minute: fine(moment.minute, 100.0),
            phase: <&'static str>::from(moment.phase).to_owned(),
            coldest_c: fine(moment.coldest_c, 10.0),
            hottest_c: fine(moment.hottest_c, 10.0),
        }
    };
    kept(moments).into_iter().map(point).collect()
}

fn kept(moments: &[Moment]) -> BTreeSet<usize> {
    let Some(last) = moments.len().checked_sub(1) else { return BTreeSet::new() };
    let mut kept = BTreeSet::from([0, last]);
    let ends = (1..=last).filter(|&at| moments[at].phase != moments[at - 1].phase);
    kept.extend(ends.flat_map(|at| [at - 1, at]));
    for lane in 0..2 {
        kept.extend(turns(&moments.iter().map(|moment| lanes(moment)[lane]).collect::<Vec<_>>()));
    }
    let stops: Vec<usize> = kept.iter().copied().collect();
    let mut open: Vec<Miss> = stops.windows(2).filter_map(|pair| miss(moments, pair[0], pair[1])).collect();
    while kept.len() < ENOUGH_POINTS {
        let worst = (0..open.len()).max_by(|&one, &other| open[one].by_k.total_cmp(&open[other].by_k));
        let Some(worst) = worst.map(|at| open.swap_remove(at)) else { break };
        kept.insert(worst.at);
        open.extend(miss(moments, worst.from, worst.at));
        open.extend(miss(moments, worst.at, worst.to));
    }
    kept
}

/// The moment between two that a straight line misses by most.
struct Miss {
    from: usize,
    at: usize,
    to: usize,
    by_k: f64,
}

fn miss(moments: &[Moment], from: usize, to: usize) -> Option<Miss> {
    let (first, last) = (&moments[from], &moments[to]);
    let span_min = (last.minute - first.minute).max(1e-9);
    let by_k = |at: &usize| {
        let share = (moments[*at].minute - first.minute) / span_min;
        let (low, high, here) = (lanes(first), lanes(last), lanes(&moments[*at]));
        let of = |lane: usize| (low[lane] + share * (high[lane] - low[lane]) - here[lane]).abs();
        // What has no figure is no bend.
        [of(0), of(1)].into_iter().filter(|by| by.is_finite()).fold(0.0, f64::max)
    };
    let (at, by_k) =
        (from + 1..to).map(|at| (at, by_k(&at))).max_by(|one, other| one.1.total_cmp(&other.1))?;
    (by_k > FINE_K).then_some(Miss { from, at, to, by_k })
}

/// Where a line turns: its highest and lowest places, each higher or lower than its neighbours of this kind
/// by more than what counts as a turn.
fn turns(line: &[f64]) -> Vec<usize> {
    let mut found = Vec::new();
    // The highest and the lowest place since the last turn, and whether the line rises since then.
    let (mut high, mut low, mut rises) = (None::<usize>, None::<usize>, None::<bool>);
    for (at, value) in line.iter().enumerate().filter(|(_, value)| value.is_finite()) {
        if high.is_none_or(|high| *value >= line[high]) {
            high = Some(at);
        }
        if low.is_none_or(|low| *value <= line[low]) {
            low = Some(at);
        }
        let (Some(top), Some(foot)) = (high, low) else { continue };
        if rises != Some(false) && line[top] - value > TURNS_BY_K {
            found.push(top);
            (low, rises) = (Some(at), Some(false));
        } else if rises != Some(true) && value - line[foot] > TURNS_BY_K {
            found.push(foot);
            (high, rises) = (Some(at), Some(true));
        }
    }
    // What it ends with may be its highest or lowest place too.
    let (first, last) = if rises == Some(true) { (low, high) } else { (high, low) };
    found.extend(first.into_iter().chain(last));
    found
}
