//! `help json`: the keys of what is answered as JSON.

use std::fmt::Write;

use crate::words::Words;

/// The keys of a plan, in the order in which they are written.
const PLAN: [&str; 39] = [
    "verdict",
    "family",
    "preheat_min_c",
    "preheat_min_exact_c",
    "preheat_at_least",
    "dry_from_c",
    "interpass_max_c",
    "interpass_max_exact_c",
    "ceiling_c",
    "ceiling",
    "usable_window",
    "asks",
    "remarks",
    "trial_warnings",
    "needs_temper_c",
    "needs_hardness_hv_max",
    "documented_window",
    "least_bad",
    "governed_by",
    "combined_thickness_mm",
    "members",
    "evidence",
    "actions",
    "levers",
    "routes",
    "cautions",
    "cautions_left_out",
    "not_told",
    "cooling",
    "post_heat",
    "inspection_wait_h",
    "tack_low_c",
    "tack_high_c",
    "warm_zone_mm",
    "find_first",
    "sequence",
    "weld",
    "heat_cycle",
    "assumed",
];
/// The keys of a question's answer.
const ASK: [&str; 4] = ["question", "answers", "notes", "taken_for"];
/// The keys of an outcome, wherever it stands.
const OUTCOME: [&str; 15] = [
    "method", "name", "says", "row", "value", "unit", "low", "high", "raw", "printed", "at_least",
    "in_range", "inputs", "steps", "basis",
];
/// The keys of a job's log.
const LOG: [&str; 9] =
    ["jobs", "pieces", "readings", "left_min", "overdue_min", "wait_min", "taught", "used", "conflicts"];
/// The keys of what was not understood.
const PROBLEMS: [&str; 1] = ["problems"];

/// All keys with what they are.
pub(super) fn help(words: &Words) -> String {
    let mut made = words.get("cli-help-json") + "\n";
    for (title, keys) in [
        ("cli-json-plan", PLAN.as_slice()),
        ("cli-json-ask", ASK.as_slice()),
        ("cli-json-outcome", OUTCOME.as_slice()),
        ("cli-json-log", LOG.as_slice()),
        ("cli-json-problems", PROBLEMS.as_slice()),
    ] {
        let _ = writeln!(made, "\n{}", words.get(title));
        for key in keys {
            let what = words.get(&format!("json-{}", key.replace('_', "-")));
            let _ = writeln!(made, "  {key:<22} {what}");
        }
    }
    made
}
