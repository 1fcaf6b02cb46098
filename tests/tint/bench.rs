//! Crayons, measuring places and red heat.

use proptest::prelude::*;
use strawblue::engine::EngineError;
use strawblue::engine::crayon::crayon_pair;
use strawblue::engine::measuring::{HeatedBy, MeasuringRule, PartToMeasure, measuring_place};
use strawblue::engine::red_heat::{red_heat_names, red_heat_range, visible_from_c};
use strawblue::reference::tint::{Light, RedHeat, TintData};

use crate::near;

#[test]
fn crayons_about_a_window() {
    let crayons = &TintData::embedded().crayons;
    let pair = crayon_pair(crayons, 200.0, 315.0).unwrap();
    assert_eq!((pair.melts_c, pair.stays_c), (204.0, 288.0), "316 °C less than 1 % above 315 would not do");
    assert_eq!(
        crayon_pair(crayons, 205.0, 231.0).unwrap_err(),
        EngineError::NoAnswer { reason: "crayon-no-pair" }
    );
    assert_eq!(
        crayon_pair(crayons, 250.0, 200.0).unwrap_err(),
        EngineError::NoAnswer { reason: "crayon-window" }
    );
    assert!(crayon_pair(crayons, f64::NAN, 200.0).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_pair_proves_the_window(minimum in 20.0..320.0_f64, width in 0.0..200.0_f64) {
        let crayons = &TintData::embedded().crayons;
        if let Ok(pair) = crayon_pair(crayons, minimum, minimum + width) {
            prop_assert!(pair.outcome.low.unwrap() >= minimum);
            prop_assert!(pair.outcome.high.unwrap() <= minimum + width);
            prop_assert!(pair.melts_c < pair.stays_c);
            prop_assert!(crayons.steps_c.contains(&pair.melts_c) && crayons.steps_c.contains(&pair.stays_c));
        }
    }
}

#[test]
fn where_and_when_to_measure() {
    // ISO 13916: 4t from the groove edge, at most 50 mm, up to 50 mm thick; at least 75 mm
    // above. The wait of 2 min per 25 mm is from memory of the same. AWS D1.1: preheat over
    // the thickest part, at least 75 mm.
    for (thick_mm, distance_mm, at_least, zone_mm, wait_min) in [
        (6.0, 24.0, false, 75.0, 0.48),
        (12.5, 50.0, false, 75.0, 1.0),
        (50.0, 50.0, false, 75.0, 4.0),
        (50.1, 75.0, true, 75.0, 4.008),
        (90.0, 75.0, true, 90.0, 7.2),
    ] {
        let part =
            PartToMeasure { thickest_mm: thick_mm, heated_by: HeatedBy::Flame, far_face_reached: false };
        let place = measuring_place(part).unwrap();
        near(place.distance.value.unwrap(), distance_mm, 1e-9, "distance");
        assert_eq!(place.at_least, at_least, "{thick_mm}");
        near(place.zone.value.unwrap(), zone_mm, 1e-9, "zone");
        near(place.wait.value.unwrap(), wait_min, 1e-9, "wait");
        assert_eq!(place.rules[0], MeasuringRule::HeatedFaceAfterWait);
        let far = measuring_place(PartToMeasure { far_face_reached: true, ..part }).unwrap();
        near(far.wait.value.unwrap(), 0.0, 1e-9, "the far face needs no wait");
        assert_eq!(far.rules[0], MeasuringRule::FarFace);
    }
    let part = PartToMeasure { thickest_mm: -1.0, heated_by: HeatedBy::Soaking, far_face_reached: false };
    assert!(measuring_place(part).is_err());
}

#[test]
fn red_heat_by_name_and_by_temperature() {
    let heats = &TintData::embedded().red_heat;
    // Lists from Stirling 1905 to a Russian table differ by 130 K on plain cherry.
    let cherry = red_heat_range(heats, RedHeat::Cherry, Light::Daylight).unwrap();
    assert_eq!((cherry.outcome.low, cherry.outcome.high), (Some(770.0), Some(902.0)));
    assert_eq!(cherry.lines.len(), 5);
    assert!(cherry.outcome.value.is_none());
    for (light, from_c) in
        [(Light::Dark, 500.0), (Light::Twilight, 500.0), (Light::Daylight, 525.0), (Light::Sunlight, 581.0)]
    {
        near(visible_from_c(heats, light).unwrap(), from_c, 1e-9, light.id());
    }
    let cold = EngineError::NoAnswer { reason: "red-heat-too-cold" };
    assert_eq!(red_heat_names(heats, 499.0, Light::Dark).unwrap_err(), cold);
    let names = red_heat_names(heats, 700.0, Light::Daylight).unwrap();
    assert_eq!(names.len(), 5);
    assert!(names.iter().all(|line| line.row.name == RedHeat::DarkRed), "{names:?}");
    for &name in RedHeat::ALL {
        let range = red_heat_range(heats, name, Light::Daylight).unwrap();
        assert!(range.outcome.low.unwrap() >= 500.0, "{name:?}");
    }
}
