//! The curve of a heat cycle that a log keeps: no moment that matters is lost for the sake of few points.

use proptest::prelude::*;
use strawblue::engine::heat_cycle::{Moment, Phase};
use strawblue::report::curve_points;

fn moment(minute: f64, phase: Phase, coldest_c: f64, hottest_c: f64) -> Moment {
    Moment {
        minute,
        phase,
        flame: 0.0,
        weld_c: hottest_c,
        hottest_c,
        coldest_c,
        core_c: coldest_c,
        far_face_c: coldest_c,
        required_point_c: coldest_c,
        skin_c: None,
        hydrogen_ml: None,
    }
}

/// Runs of an arc with pauses between, so many moments each; the arc's own moment is one in each run.
fn cycle(runs: usize, each: usize) -> Vec<Moment> {
    let mut made = Vec::new();
    let mut put = |phase, coldest_c, hottest_c| {
        let minute = made.len() as f64 * 0.25;
        made.push(moment(minute, phase, coldest_c, hottest_c));
    };
    (0..each).for_each(|at| put(Phase::Heating, 20.0 + 300.0 * at as f64 / each as f64, 330.0));
    for run in 0..runs {
        for at in 0..each {
            let burns = if at == each / 2 { 1200.0 + run as f64 } else { 400.0 };
            put(Phase::Arc(run), 310.0 - run as f64, burns);
        }
        for at in 0..each {
            put(Phase::Pause, 310.0 - run as f64 + 3.0 * (at as f64 / each as f64), 400.0 - at as f64);
        }
    }
    (0..each * 4).for_each(|at| put(Phase::Cooling, 300.0 * (-(at as f64) / 40.0).exp(), 300.0));
    made
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    /// The highest and the lowest moment of each phase are there, its ends too, and nothing is made up.
    #[test]
    fn what_matters_is_kept(runs in 1..30_usize, each in 3..60_usize) {
        let moments = cycle(runs, each);
        let points = curve_points(&moments);
        prop_assert!(points.windows(2).all(|pair| pair[0].minute < pair[1].minute));
        for point in &points {
            let same = moments.iter().any(|moment| {
                (moment.minute - point.minute).abs() < 0.006 && (moment.coldest_c - point.coldest_c).abs() < 0.06
            });
            prop_assert!(same, "{point:?}");
        }
        let has = |moment: &Moment| points.iter().any(|point| (point.minute - moment.minute).abs() < 0.006);
        prop_assert!(moments.first().is_some_and(has) && moments.last().is_some_and(has));
        for pair in moments.windows(2).filter(|pair| pair[0].phase != pair[1].phase) {
            prop_assert!(has(&pair[0]) && has(&pair[1]), "the end of a phase at {}", pair[0].minute);
        }
        for moment in moments.iter().filter(|moment| moment.hottest_c > 1000.0) {
            prop_assert!(has(moment), "the arc at {}", moment.minute);
        }
    }

    /// Whatever the line does, its highest and lowest moments are there.
    #[test]
    fn extremes_are_kept(line in prop::collection::vec(0.0..900.0_f64, 2..400)) {
        let moments: Vec<Moment> = line
            .iter()
            .enumerate()
            .map(|(at, at_c)| moment(at as f64, Phase::Cooling, *at_c, 1000.0 - *at_c))
            .collect();
        let points = curve_points(&moments);
        let ends = |of: fn(f64, f64) -> f64| line.iter().copied().reduce(of).expect("some");
        for wanted in [ends(f64::max), ends(f64::min)] {
            prop_assert!(points.iter().any(|point| (point.coldest_c - wanted).abs() < 0.06), "{wanted}");
        }
    }
}

/// A smooth cooling is drawn with few points and missed by none of them.
#[test]
fn a_smooth_line_takes_few_points() {
    let at_c = |minute: f64| 20.0 + 280.0 * (-minute / 60.0).exp();
    let moments: Vec<Moment> = (0..4000)
        .map(|at| f64::from(at) / 10.0)
        .map(|minute| moment(minute, Phase::Cooling, at_c(minute), at_c(minute) + 5.0))
        .collect();
    let points = curve_points(&moments);
    assert!(points.len() < 40, "{}", points.len());
    for pair in points.windows(2) {
        let minute = f64::midpoint(pair[0].minute, pair[1].minute);
        let drawn = f64::midpoint(pair[0].coldest_c, pair[1].coldest_c);
        assert!((drawn - at_c(minute)).abs() < 1.0, "at {minute} min it misses by {}", drawn - at_c(minute));
    }
    assert!(curve_points(&[]).is_empty());
}
