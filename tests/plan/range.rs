//! Nothing that lies outside its range stands as in range, and an input that is put at its
//! upper end makes the figure "at least".

use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::TestRunner;
use strawblue::engine::evidence::Standing;
use strawblue::engine::plan::plan;
use strawblue::reference::embedded;

use crate::laws::a_job;

/// Jobs in each of two lanes: 60,000 in all.
const JOBS_A_LANE: usize = 30_000;

fn lane(seed: u8) {
    let mut runner = TestRunner::new_with_rng(
        proptest::test_runner::Config::default(),
        proptest::test_runner::TestRng::from_seed(proptest::test_runner::RngAlgorithm::ChaCha, &[seed; 32]),
    );
    let (mut outside, mut held) = (0, 0);
    for _ in 0..JOBS_A_LANE {
        let job = a_job().new_tree(&mut runner).expect("a job").current();
        for item in plan(embedded(), &job).evidence {
            let outcome = &item.outcome;
            if !outcome.in_range() {
                outside += 1;
                assert_ne!(item.standing, Standing::InRange, "{item:?}");
            }
            let at_upper_end = outcome.inputs.iter().any(|input| input.above() && input.used < input.value);
            if at_upper_end {
                held += 1;
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
    assert!(outside > 10_000 && held > 10_000, "only {outside} outside, {held} held");
}

#[test]
fn what_lies_outside_its_range_says_so_first_lane() {
    lane(3);
}

#[test]
fn what_lies_outside_its_range_says_so_second_lane() {
    lane(11);
}
