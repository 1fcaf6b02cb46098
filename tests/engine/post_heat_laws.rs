//! Laws of post-heat, the borders of its rules sampled on purpose.

use proptest::prelude::*;
use strawblue::engine::post_heat::{Curve, PostHeatQuery, Way, WeldPath};

use super::post_heat::{ask, d};

/// Sizes, the borders of rules and the step beside them often.
fn size() -> impl Strategy<Value = f64> {
    let borders = [0.5, 5.0, 10.0, 20.0, 25.0, 25.4, 30.0, 50.8, 1000.0];
    prop_oneof![
        prop::sample::select(borders.to_vec()),
        prop::sample::select(borders.to_vec()).prop_map(|border: f64| (border * 1.0001).min(1000.0)),
        0.5..60.0_f64,
        0.5..1000.0_f64,
    ]
}

fn temperature() -> impl Strategy<Value = f64> {
    let borders: Vec<f64> =
        [20.0, 44.0, 60.0, 100.0, 150.0, 155.0, 160.0, 199.999, 200.0, 210.0, 225.0, 249.0, 250.0]
            .into_iter()
            .chain([250.001, 300.0, 310.0, 350.0, 350.001, 395.0, 650.0])
            .collect();
    prop_oneof![prop::sample::select(borders), 0.0..400.0_f64, 0.0..650.0_f64]
}

fn weld(kind: usize, size_mm: f64) -> WeldPath {
    match kind {
        0 => WeldPath::Fillet { throat_mm: size_mm },
        1 => WeldPath::BuildUp { depth_mm: size_mm },
        2 => WeldPath::Repair { depth_mm: size_mm },
        3 => WeldPath::PartGroove { depth_mm: size_mm },
        4 => WeldPath::FullButt { thickness_mm: size_mm, one_face_closed: false },
        5 => WeldPath::FullButt { thickness_mm: size_mm, one_face_closed: true },
        _ => WeldPath::BarToBar { diameter_mm: size_mm },
    }
}

prop_compose! {
    fn joints()(
        kind in 0_usize..7, size_mm in size(), hydrogen_ml in 0.0..30.0_f64,
        one in temperature(), other in temperature(), m90_c in prop::option::of(temperature()),
        chromium in prop::option::of(prop::sample::select(vec![0.0, 0.499, 0.5, 1.1])),
    ) -> (usize, PostHeatQuery) {
        (kind, PostHeatQuery {
            weld: weld(kind, size_mm), hydrogen_ml, minimum_c: one.min(other), most_c: one.max(other), m90_c,
            chromium_percent: chromium, vanadium_percent: Some(0.0), austenitic_weld_metal: false,
        })
    }
}

/// Hours of the one figure; without one the wait has no end.
fn hours(asked: &PostHeatQuery) -> f64 {
    ask(asked).main.map_or(f64::INFINITY, |hold| hold.hours)
}

/// So little is rounding.
fn no_longer(one: f64, other: f64) -> bool {
    one <= other * (1.0 + 1e-9)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4000))]

    #[test]
    fn hotter_is_never_slower(one in temperature(), other in temperature()) {
        for &curve in Curve::ALL {
            prop_assert!(d(curve, one.min(other)) <= d(curve, one.max(other)));
        }
        prop_assert!(d(Curve::Slow, one) <= d(Curve::Middle, one) && d(Curve::Middle, one) <= d(Curve::Fast, one));
    }

    #[test]
    fn a_thinner_weld_never_asks_longer((kind, asked) in joints(), other in size()) {
        let (thin, thick) = (asked.weld.size_mm().min(other), asked.weld.size_mm().max(other));
        let of = |size_mm| hours(&PostHeatQuery { weld: weld(kind, size_mm), ..asked });
        prop_assert!(no_longer(of(thin), of(thick)), "{} {}", of(thin), of(thick));
        let below = |size_mm| ask(&PostHeatQuery { weld: weld(kind, size_mm), ..asked }).below_m90;
        if let (Some(thin), Some(thick)) = (below(thin), below(thick)) {
            prop_assert!(no_longer(thin.hold.hours, thick.hold.hours));
        }
    }

    #[test]
    fn a_hotter_minimum_never_asks_longer((_, asked) in joints(), share in 0.0..1.0_f64) {
        let hotter = PostHeatQuery { minimum_c: asked.minimum_c + share * (asked.most_c - asked.minimum_c), ..asked };
        prop_assert!(no_longer(hours(&hotter), hours(&asked)));
    }

    #[test]
    fn less_hydrogen_never_asks_longer((_, asked) in joints(), share in 0.0..1.0_f64) {
        let less = PostHeatQuery { hydrogen_ml: asked.hydrogen_ml * share, ..asked };
        prop_assert!(no_longer(hours(&less), hours(&asked)));
        prop_assert!(ask(&less).left_ml <= ask(&asked).left_ml);
    }

    #[test]
    fn the_hours_hold_anywhere_in_the_span((_, asked) in joints(), share in 0.0..=1.0_f64) {
        let Some(main) = ask(&asked).main else { return Ok(()) };
        let at_c = main.low_c + share * (main.high_c - main.low_c);
        let there = PostHeatQuery { minimum_c: at_c, most_c: at_c, ..asked };
        prop_assert!(no_longer(hours(&there), main.hours), "{} at {at_c}, {main:?}", hours(&there));
    }

    #[test]
    fn a_closed_face_and_traps_never_ask_less((_, asked) in joints(), size_mm in size()) {
        let open = PostHeatQuery { weld: weld(4, size_mm), ..asked };
        let closed = PostHeatQuery { weld: weld(5, size_mm), ..asked };
        prop_assert!(no_longer(hours(&open), hours(&closed)));
        let found = ask(&asked);
        if let (Some(main), Some(trapped)) = (&found.main, &found.trapped) {
            prop_assert!(no_longer(main.hours, trapped.hours));
        }
        if let (Some(main), Some(hot)) = (&found.main, &found.hot_end) {
            prop_assert!(no_longer(hot.hours, main.hours));
        }
    }

    #[test]
    fn spans_stay_where_they_may((_, asked) in joints()) {
        let found = ask(&asked);
        if let Some(main) = &found.main {
            prop_assert!(main.low_c <= main.high_c && main.high_c <= asked.most_c && main.low_c >= asked.minimum_c);
            prop_assert!(main.hours.is_finite() && main.hours > 0.0 && main.shown_h() >= main.hours - 1e-6);
            prop_assert!((found.way == Way::PostHeat) == (main.low_c >= 200.0 && asked.most_c >= 200.0));
            prop_assert!(main.turning_h == 0.0 || asked.m90_c.is_some_and(|m90_c| m90_c < main.high_c));
            // Wholly above M90 the hour is always counted.
            prop_assert!(asked.m90_c.is_none_or(|m90_c| m90_c >= main.low_c) || main.turning_h > 0.0);
        }
        if let Some(below) = &found.below_m90 {
            let m90_c = asked.m90_c.expect("its way is below it");
            let hold = &below.hold;
            prop_assert!(m90_c >= 160.0 && hold.low_c >= 150.0 && hold.low_c <= hold.high_c);
            prop_assert!(hold.high_c <= m90_c - 10.0 + 1e-9 && hold.high_c <= asked.most_c && hold.turning_h == 0.0);
            prop_assert!(below.drops == (hold.low_c < asked.minimum_c));
        }
    }
}
