//! Nothing that lies outside its range stands as in range, and an input that is put at its
//! upper end makes the figure "at least". `promises` asks it of every job.

use strawblue::engine::evidence::Standing;
use strawblue::engine::plan::Plan;

/// Answers outside their range, and inputs put at their upper end.
#[derive(Debug, Default)]
pub(crate) struct RangeCounts {
    outside: usize,
    held: usize,
}

impl RangeCounts {
    /// Did a lane of so many jobs meet enough of them?
    pub(crate) const fn enough(&self, jobs: usize) -> bool {
        self.outside > jobs / 3 && self.held > jobs / 3
    }
}

pub(crate) fn what_lies_outside_its_range_says_so(plan: &Plan, counts: &mut RangeCounts) {
    for item in &plan.evidence {
        let outcome = &item.outcome;
        if !outcome.in_range() {
            counts.outside += 1;
            assert_ne!(item.standing, Standing::InRange, "{item:?}");
        }
        let at_upper_end = outcome.inputs.iter().any(|input| input.above() && input.used < input.value);
        if at_upper_end {
            counts.held += 1;
            assert!(outcome.at_least, "{item:?}");
        }
        // What is said to be put at its limit was put there.
        for input in outcome.inputs.iter().filter(|input| input.was_held()) {
            let at_low = input.low.is_some_and(|low| input.used.total_cmp(&low).is_eq());
            let at_high = input.high.is_some_and(|high| input.used.total_cmp(&high).is_eq());
            assert!(!input.inside() && (at_low || at_high) || input.symbol == "CET", "{item:?}");
        }
    }
}
