//! What happens on the way, minute by minute: where a slider goes from moment to moment.

use super::work::Seen;
use crate::engine::heat_cycle::Phase;

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
