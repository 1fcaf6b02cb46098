//! IR readings: published figures, and the rule that a reading is never flattered.

use proptest::prelude::*;
use strawblue::engine::EngineError;
use strawblue::engine::infrared::{
    CORRECTION_MAX_K, GunSetting, IrLimit, IrReading, IrVerdict, Spot, band_radiance, ir_expected_reading,
    ir_true_temperature, judge, reading_c, true_temperature_c,
};
use strawblue::engine::tint::Span;
use strawblue::reference::tint::TintData;

use crate::near;

const ROOM: Span = Span { low: 20.0, high: 20.0 };

fn reading(celsius: f64, surface: &str, surroundings_c: Span) -> IrReading {
    let surface = TintData::embedded().surface(surface).unwrap();
    IrReading {
        reading_c: celsius,
        gun: GunSetting::USUAL,
        emissivity: Span { low: surface.low, high: surface.high },
        surroundings_c,
    }
}

#[test]
fn a_gun_set_to_dull_paint_reads_low_on_steel() {
    let truth = |gun: GunSetting, emissivity: f64, surroundings_c: f64| {
        true_temperature_c(150.0, gun, Spot { emissivity, surroundings_c }).unwrap()
    };
    near(truth(GunSetting::USUAL, 0.35, 20.0), 282.4, 0.2, "ε 0.35");
    near(truth(GunSetting::USUAL, 0.8, 20.0), 167.0, 0.5, "ε 0.8");
    near(truth(GunSetting { emissivity: 1.0, surroundings_c: 20.0 }, 0.35, 20.0), 291.8, 0.1, "set to 1.0");
    near(truth(GunSetting::USUAL, 0.35, 60.0), 253.8, 0.1, "surroundings 60 °C");
}

#[test]
fn what_the_gun_shows_at_260() {
    for (emissivity, shown) in
        [(0.1, 64.0), (0.2, 97.0), (0.35, 138.0), (0.6, 194.0), (0.8, 233.0), (0.9, 251.0)]
    {
        let spot = Spot { emissivity, surroundings_c: 20.0 };
        near(reading_c(260.0, GunSetting::USUAL, spot).unwrap(), shown, 0.51, &format!("ε {emissivity}"));
        let outcome = ir_expected_reading(260.0, GunSetting::USUAL, Span::exactly(emissivity), ROOM).unwrap();
        near(outcome.low.unwrap(), shown, 0.51, "the same as an outcome");
        assert!(outcome.value.is_none());
    }
}

#[test]
fn bright_steel_is_no_use() {
    let bright = ir_true_temperature(&reading(150.0, "bright", ROOM)).unwrap();
    near(bright.low_c.unwrap(), 268.0, 0.6, "coldest");
    near(bright.high_c.unwrap(), 1063.0, 1.0, "hottest");
    assert!(!bright.useful);
    let spot = ir_true_temperature(&reading(150.0, "black-spot", ROOM)).unwrap();
    assert!(spot.useful);
    assert!(spot.low_c.unwrap() < 150.0 && spot.high_c.unwrap() > 150.0);
}

#[test]
fn readings_without_a_solution_are_refused() {
    let spot = Spot { emissivity: 0.2, surroundings_c: 20.0 };
    let refused = |celsius: f64| true_temperature_c(celsius, GunSetting::USUAL, spot).unwrap_err();
    assert_eq!(refused(5.0), EngineError::NoAnswer { reason: "ir-no-solution" });
    // Steel at absolute zero would still show about 5.8 °C by reflection.
    assert_eq!(refused(6.5), EngineError::NoAnswer { reason: "ir-below-surroundings" });
    assert_eq!(refused(19.0), EngineError::NoAnswer { reason: "ir-below-surroundings" });
    near(true_temperature_c(20.0, GunSetting::USUAL, spot).unwrap(), 20.0, 1e-6, "all at one temperature");
    assert!(true_temperature_c(f64::NAN, GunSetting::USUAL, spot).is_err());
    assert!(ir_true_temperature(&reading(10.0, "bright", ROOM)).is_err());
    let hot_shop = ir_true_temperature(&reading(40.0, "bright", Span { low: 20.0, high: 60.0 })).unwrap();
    assert_eq!(hot_shop.low_c, None, "what is seen may be reflection alone");
    assert!(!hot_shop.useful);
}

#[test]
fn verdicts_on_a_window() {
    let scale = |celsius: f64| reading(celsius, "mill-scale", Span { low: 20.0, high: 40.0 });
    let verdict = |reading: &IrReading, limit| judge(reading, limit).unwrap().verdict;
    assert_eq!(verdict(&scale(210.0), IrLimit::Minimum(200.0)), IrVerdict::Kept);
    assert_eq!(verdict(&scale(160.0), IrLimit::Minimum(200.0)), IrVerdict::NotShown);
    assert_eq!(verdict(&scale(120.0), IrLimit::Minimum(200.0)), IrVerdict::Missed);
    assert_eq!(verdict(&scale(120.0), IrLimit::Maximum(200.0)), IrVerdict::Kept);
    assert_eq!(verdict(&scale(180.0), IrLimit::Maximum(200.0)), IrVerdict::NotShown);
    assert_eq!(verdict(&scale(230.0), IrLimit::Maximum(200.0)), IrVerdict::Missed);
    // Bright steel that reads 150 °C is at 268 °C or more, but only by correction.
    assert_eq!(verdict(&reading(150.0, "bright", ROOM), IrLimit::Minimum(200.0)), IrVerdict::AskAnother);
    assert_eq!(verdict(&reading(150.0, "bright", ROOM), IrLimit::Maximum(250.0)), IrVerdict::Missed);
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(400) })]

    #[test]
    fn a_verdict_never_flatters(
        truth in 60.0..400.0_f64, limit in 60.0..400.0_f64,
        low in 0.05..0.9_f64, width in 0.0..0.4_f64, where_e in 0.0..1.0_f64,
        cold in 0.0..30.0_f64, warm in 0.0..30.0_f64, where_s in 0.0..1.0_f64, set in 0.5..1.0_f64,
    ) {
        let emissivity = Span { low, high: (low + width).min(1.0) };
        let surroundings_c = Span { low: cold, high: cold + warm };
        let gun = GunSetting { emissivity: set, surroundings_c: 20.0 };
        let spot = Spot {
            emissivity: low + (emissivity.high - low) * where_e,
            surroundings_c: cold + warm * where_s,
        };
        let Ok(shown) = reading_c(truth, gun, spot) else { return Ok(()) };
        let case = IrReading { reading_c: shown, gun, emissivity, surroundings_c };
        let range = ir_true_temperature(&case).unwrap();
        prop_assert!(range.low_c.is_none_or(|low| low <= truth + 1e-6));
        prop_assert!(range.high_c.is_none_or(|high| high >= truth - 1e-6));
        let minimum = judge(&case, IrLimit::Minimum(limit)).unwrap();
        let maximum = judge(&case, IrLimit::Maximum(limit)).unwrap();
        match minimum.verdict {
            IrVerdict::Kept => {
                prop_assert!(truth >= limit - 1e-6);
                prop_assert!(shown >= limit || minimum.correction_k.unwrap() <= CORRECTION_MAX_K);
            }
            IrVerdict::AskAnother => prop_assert!(shown < limit && minimum.correction_k.unwrap() > CORRECTION_MAX_K),
            IrVerdict::Missed => prop_assert!(truth < limit + 1e-6),
            IrVerdict::NotShown => {}
        }
        match maximum.verdict {
            IrVerdict::Kept => prop_assert!(truth <= limit + 1e-6),
            IrVerdict::Missed => prop_assert!(truth > limit - 1e-6),
            IrVerdict::NotShown => {}
            IrVerdict::AskAnother => prop_assert!(false, "a maximum is not kept by correction"),
        }
    }

    #[test]
    fn reading_and_truth_are_inverse(truth in 30.0..900.0_f64, emissivity in 0.05..1.0_f64, set in 0.3..1.0_f64) {
        let gun = GunSetting { emissivity: set, surroundings_c: 20.0 };
        let spot = Spot { emissivity, surroundings_c: 20.0 };
        // A gun set far too low shows more than 1600 °C, which it can't.
        let Ok(shown) = reading_c(truth, gun, spot) else {
            prop_assert!(set < emissivity && truth > 500.0);
            return Ok(());
        };
        prop_assert!((true_temperature_c(shown, gun, spot).unwrap() - truth).abs() < 0.1);
    }

    #[test]
    fn radiance_rises(celsius in -50.0..1500.0_f64, more in 0.01..50.0_f64) {
        prop_assert!(band_radiance(celsius + more) > band_radiance(celsius));
    }
}
