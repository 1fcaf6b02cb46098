//! Two readings and a clock: against a part whose cooling is known, a printed time, and laws.

use proptest::prelude::*;
use strawblue::engine::lumped::{Around, Body, Shape, seconds_between};
use strawblue::engine::two_readings::TwoReadings;
use strawblue::reference::embedded;

fn sharp(first_c: f64, second_c: f64, minutes: f64) -> TwoReadings {
    TwoReadings { first_c, second_c, minutes, off_k: (0.0, 0.0), shop_c: 20.0 }
}

fn reason(readings: &TwoReadings) -> String {
    readings.check().expect_err("it is refused").key()
}

/// Newton's law of cooling has the closed form `t = Δt ln((T2-Ta)/(T-Ta)) / ln((T1-Ta)/(T2-Ta))`
/// (textbooks of heat transfer). The heat content of steel rises with temperature and glow takes more
/// from a hot part: at 300 °C the two pull against each other, so the closed form lies in the span or
/// within a tenth of it.
#[test]
fn newtons_law_lies_close() {
    let readings = sharp(340.0, 325.0, 6.0);
    let (low, high) = readings.minutes_to(&embedded().heat_cycle, 300.0).expect("it cools that far");
    let newton = 6.0 * (305.0_f64 / 280.0).ln() / (320.0_f64 / 305.0).ln();
    assert!(low * 0.9 < newton && newton < high * 1.1, "{low}–{high} and {newton} min");
}

/// Where surface and mass are known, the same body is read twice: what is left of its own time to the
/// target lies in the span, whatever the surface is.
#[test]
fn a_part_that_is_known_is_foretold() {
    let data = embedded();
    for id in ["still-air", "draught", "blanket", "machined"] {
        let around = Around::of(data.heat_cycle.surface(id).expect("a surface"), 20.0);
        let body = Body::of(8.0, Shape::Plate { thickness_mm: 40.0 });
        let minutes =
            |from_c, to_c| seconds_between(body, 0.0, around, from_c, to_c).expect("it cools") / 60.0;
        let readings = sharp(380.0, 350.0, minutes(380.0, 350.0));
        for target_c in [340.0, 300.0, 200.0, 100.0] {
            let truth = minutes(350.0, target_c);
            let (low, high) = readings.minutes_to(&data.heat_cycle, target_c).expect("it cools that far");
            let inside = low * (1.0 - 1e-6) <= truth && truth <= high * (1.0 + 1e-6);
            assert!(inside, "{id} to {target_c}: {truth} in {low}–{high}");
        }
    }
}

#[test]
fn what_tells_nothing_is_refused() {
    assert_eq!(reason(&sharp(300.0, 310.0, 5.0)), "error-readings-not-falling");
    assert_eq!(
        reason(&TwoReadings { off_k: (6.0, 6.0), ..sharp(310.0, 300.0, 5.0) }),
        "error-readings-close"
    );
    assert_eq!(reason(&sharp(60.0, 15.0, 5.0)), "error-cooling-below-shop");
    assert!(sharp(f64::NAN, 300.0, 5.0).check().is_err() && sharp(320.0, 300.0, f64::NAN).check().is_err());
    assert!(sharp(320.0, 300.0, 5.0).minutes_to(&embedded().heat_cycle, 15.0).is_none());
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(200) })]

    /// The minimum counts at the fewest minutes, the maximum at the most; an instrument that may be
    /// further off never lengthens the one nor shortens the other; a colder target takes longer; twice
    /// the minutes between mean twice the minutes left.
    #[test]
    fn less_is_known_the_safer_it_is(
        second_c in 120.0..500.0_f64, fall_k in 20.0..80.0_f64, minutes in 0.5..60.0_f64,
        below_k in 1.0..90.0_f64, off_k in 0.0..8.0_f64,
    ) {
        let losses = &embedded().heat_cycle;
        let readings = sharp(second_c + fall_k, second_c, minutes);
        let blurred = TwoReadings { off_k: (off_k, off_k), ..readings };
        let target_c = second_c - below_k;
        let of = |readings: &TwoReadings, at_c: f64| readings.minutes_to(losses, at_c).expect("it cools");
        let (sharp_span, blurred_span) = (of(&readings, target_c), of(&blurred, target_c));
        prop_assert!(sharp_span.0 <= sharp_span.1);
        prop_assert!(blurred_span.0 <= sharp_span.0 && sharp_span.1 <= blurred_span.1);
        let left = blurred.left(losses, target_c).expect("an answer");
        let wait = blurred.wait(losses, target_c).expect("an answer");
        prop_assert_eq!(left.value, Some(blurred_span.0));
        prop_assert_eq!(wait.value, Some(blurred_span.1));
        let colder = of(&readings, target_c - 5.0);
        prop_assert!(colder.0 > sharp_span.0 && colder.1 > sharp_span.1);
        let twice = of(&TwoReadings { minutes: 2.0 * minutes, ..readings }, target_c);
        prop_assert!((twice.0 / sharp_span.0 - 2.0).abs() < 1e-9);
    }
}
