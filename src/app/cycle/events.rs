//! What happens on the way, minute by minute: where a slider goes from moment to moment.

use super::seen::Seen;
use crate::engine::heat_cycle::Phase;

/// Just before an arc, the section still is that of the wait, min.
const BEFORE_ARC_MIN: f64 = 0.3;
/// So many moments stand as small sections under the large one.
const SHOWN: usize = 5;
/// The cooling is shown at this, °C; and where there is room, at the end.
const COOLED_C: [f64; 2] = [100.0, 50.0];

/// Just before a run, min.
pub(super) fn before_run(seen: &Seen, run: usize) -> Option<f64> {
    seen.found.cycle.passes.get(run).map(|pass| pass.start_min - BEFORE_ARC_MIN)
}

/// Minutes at which something begins or ends.
pub(super) fn of(seen: &Seen) -> Vec<f64> {
    let (query, cycle) = (&seen.flames.cycle, &seen.found.cycle);
    let flame = cycle.preheat.heated.minutes;
    let mut events = vec![0.0, flame, flame + cycle.preheat.even_s / 60.0];
    for pass in &cycle.passes {
        events.extend([pass.start_min, pass.start_min + pass.arc_min]);
    }
    let cools_from = cycle.end_of_weld_min + query.post_heat.hours * 60.0;
    events.extend([cycle.end_of_weld_min, cools_from]);
    events.extend(cycle.planned.marks.iter().map(|mark| cools_from + mark.minutes));
    events.sort_by(f64::total_cmp);
    events.dedup_by(|one, other| (*one - *other).abs() < 0.05);
    events
}

/// A moment that is shown small.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Shown {
    /// What it is: the key of a message.
    pub(super) key: &'static str,
    /// The number of the run that it is about.
    pub(super) run: usize,
    /// From the first flame, min.
    pub(super) minute: f64,
}

/// The moments that are shown small.
pub(super) fn shown(seen: &Seen) -> Vec<Shown> {
    let (query, cycle) = (&seen.flames.cycle, &seen.found.cycle);
    let runs = cycle.passes.len();
    let held_h = query.post_heat.hours;
    let cools_from = cycle.end_of_weld_min + held_h * 60.0;
    let cold = |at_c: f64| cycle.planned.mark(at_c).map(|mark| cools_from + mark.minutes);
    let at = |key, minute| Shown { key, run: 0, minute };
    let before = |run: usize| {
        before_run(seen, run).map(|minute| Shown { key: "cycle-shown-run", run: run + 1, minute })
    };
    let moments = [
        Some(at("cycle-shown-flame-off", cycle.preheat.heated.minutes)),
        before(0),
        before(runs.saturating_sub(1)).filter(|_| runs > 1),
        (runs == 1 || held_h <= 0.0).then_some(at("cycle-shown-welded", cycle.end_of_weld_min)),
        (held_h > 0.0).then_some(at("cycle-shown-held", cools_from)),
        cold(COOLED_C[0]).map(|minute| at("cycle-shown-cooled", minute)),
        cold(COOLED_C[1]).map(|minute| at("cycle-shown-cold", minute)),
    ];
    moments.into_iter().flatten().take(SHOWN).collect()
}

/// The event before a minute, or after it; the minute itself where there is none.
pub(super) fn beside(events: &[f64], minute: f64, after: bool) -> f64 {
    let found = if after {
        events.iter().copied().find(|&event| event > minute + 0.05)
    } else {
        events.iter().copied().rfind(|&event| event < minute - 0.05)
    };
    found.unwrap_or(minute)
}

/// What is going on at a moment; its words are the message `cycle-phase-ID`.
pub(super) const fn phase_key(phase: Phase) -> &'static str {
    match phase {
        Phase::Heating => "cycle-phase-heating",
        Phase::Even => "cycle-phase-even",
        Phase::Interpass => "cycle-phase-interpass",
        Phase::Arc(_) => "cycle-phase-arc",
        Phase::Pause => "cycle-phase-pause",
        Phase::Hold => "cycle-phase-hold",
        Phase::Cooling => "cycle-phase-cooling",
    }
}
