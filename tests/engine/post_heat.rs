//! Post-heat: the diffusivities and closed forms against vectors, handbook values and a
//! finite-difference integration; the demo joint.

use strawblue::engine::EngineError;
use strawblue::engine::hydrogen::slab_middle_left;
use strawblue::engine::post_heat::{
    Curve, PostHeatAnswer, PostHeatQuery, SetBy, Way, WeldPath, austenite_cm2_per_s, cylinder_axis_left,
    diffusivity_cm2_per_s, hold_after_welding, layer_peak, layer_peak_depth,
};
use strawblue::reference::{Basis, embedded};

pub(super) fn d(curve: Curve, temperature_c: f64) -> f64 {
    diffusivity_cm2_per_s(embedded(), curve, temperature_c)
}

fn near(found: f64, is: f64, share: f64) {
    assert!((found - is).abs() <= share * is.abs(), "{found} is not {is}");
}

const DEMO: PostHeatQuery = PostHeatQuery {
    weld: WeldPath::Fillet { throat_mm: 8.0 * std::f64::consts::FRAC_1_SQRT_2 },
    hydrogen_ml: 4.0,
    minimum_c: 300.0,
    most_c: 350.0,
    m90_c: Some(249.0),
    chromium_percent: Some(1.05),
    vanadium_percent: Some(0.0),
    austenitic_weld_metal: false,
};

pub(super) fn ask(asked: &PostHeatQuery) -> PostHeatAnswer {
    hold_after_welding(embedded(), asked).unwrap_or_else(|error| panic!("{asked:?}: {error}"))
}

/// Coe and Moreton 1969, abstract: overall D of Fe-0.73C, where the slow curve takes it as it is.
#[test]
fn the_slow_curve_has_the_measured_rows() {
    for (at_c, measured) in
        [(44.0, 5.2e-8), (60.0, 2.0e-7), (350.0, 5.1e-5), (395.0, 7.5e-5), (650.0, 9.9e-5)]
    {
        near(d(Curve::Slow, at_c), measured, 1e-9);
    }
    for (at_c, measured) in [(155.0, 4.9e-5), (210.0, 6.2e-5), (250.0, 6.2e-5)] {
        assert!(d(Curve::Slow, at_c) < measured, "the slow curve is no faster at {at_c} °C");
    }
    // The same abstract: lattice D.
    for (at_c, measured) in
        [(155.0, 7.8e-5), (210.0, 8.9e-5), (250.0, 8.9e-5), (310.0, 1.0e-4), (350.0, 1.0e-4)]
    {
        near(d(Curve::Fast, at_c), measured, 1e-9);
    }
}

/// Computed apart from this program: straight in ln D over 1/T; the middle is the geometric mean.
#[test]
fn diffusivities_between_the_rows() {
    for (at_c, slow, middle, fast) in [
        (20.0, 5.2e-9, 6.841_05e-8, 9.0e-7),
        (50.0, 8.753_41e-8, 5.413_63e-7, 3.348_12e-6),
        (100.0, 2.8e-6, 7.236_17e-6, 1.870_08e-5),
        (155.0, 1.2e-5, 3.059_41e-5, 7.8e-5),
        (200.0, 2.9e-5, 5.025_52e-5, 8.708_9e-5),
        (250.0, 5.1e-5, 6.737_21e-5, 8.9e-5),
        (300.0, 5.1e-5, 7.078_41e-5, 9.824_28e-5),
        (350.0, 5.1e-5, 7.141_43e-5, 1.0e-4),
        (400.0, 7.556_2e-5, 9.607_34e-5, 1.221_53e-4),
    ] {
        near(d(Curve::Slow, at_c), slow, 1e-4);
        near(d(Curve::Middle, at_c), middle, 1e-4);
        near(d(Curve::Fast, at_c), fast, 1e-4);
    }
}

/// Perng and Altstetter 1986, as listed in a public library: some 800 times slower at 300 °C.
#[test]
fn austenite_holds_its_hydrogen() {
    near(austenite_cm2_per_s(embedded(), 300.0), 6.4e-8, 0.02);
    near(d(Curve::Slow, 300.0) / austenite_cm2_per_s(embedded(), 300.0), 800.0, 0.02);
}

/// Computed apart from this program by error functions and their greatest value.
#[test]
fn a_charged_layer_on_a_thick_part() {
    for (fourier, peak, depth) in
        [(1.0, 0.111_577, 1.473_81), (5.0, 0.023_799_4, 3.188_69), (20.0, 0.006_024_15, 6.337_74)]
    {
        near(layer_peak(fourier), peak, 1e-3);
        near(layer_peak_depth(fourier), depth, 1e-3);
    }
    // Late: 0.121 a²/(D t), at a depth of √(2 D t).
    near(layer_peak(400.0) * 400.0, 0.121, 3e-3);
    near(layer_peak_depth(400.0), 800.0_f64.sqrt(), 1e-3);
    // Depth in mm, °C, h, what is left.
    for (depth_mm, at_c, hours, peak) in
        [(6.0, 300.0, 1.0, 0.203_281), (6.0, 300.0, 4.0, 0.056_965_7), (10.0, 300.0, 6.0, 0.102_026)]
    {
        near(layer_peak(d(Curve::Slow, at_c) * 100.0 * 3600.0 * hours / (depth_mm * depth_mm)), peak, 1e-4);
    }
    let layer = |depth_mm: f64, left: f64, at_c: f64| {
        WeldPath::BuildUp { depth_mm }.hours(embedded(), left, d(Curve::Slow, at_c))
    };
    near(layer(5.657, 0.1, 300.0), 1.962, 2e-3);
    near(layer(5.657, 0.05, 300.0), 4.071_56, 2e-3);
    near(layer(10.0, 0.1, 250.0), 6.130_94, 2e-3);
}

/// One-term values of heat-conduction handbooks, surface at once at its end temperature (from
/// memory): a slab 1.2732 exp(-2.4674 F) by its half thickness, a cylinder 1.6020 exp(-5.7831 F).
#[test]
fn slab_and_cylinder_by_the_handbook() {
    for fourier in [0.25, 0.5, 0.8] {
        near(cylinder_axis_left(fourier), 1.602_0 * (-5.783_1_f64 * fourier).exp(), 2e-3);
        near(slab_middle_left(fourier / 4.0), 1.273_2 * (-2.467_4_f64 * fourier).exp(), 2e-2);
    }
    // Series computed apart from this program: 25 mm after 4 h at 300 °C.
    let spread = d(Curve::Slow, 300.0) * 100.0 * 3600.0 * 4.0 / 625.0;
    near(slab_middle_left(spread), 0.399_243, 1e-4);
    near(cylinder_axis_left(spread), 0.782_416, 1e-4);
    near(slab_middle_left(spread / 2.0 * 625.0 / 900.0), 0.839_884, 1e-4);
}

/// The greatest content after a time, by finite differences: `cells` of equal width from the
/// middle (or the axis) out to `width`, or from the surface inwards for a layer; implicit in
/// time, second order in space. `charged` says what holds hydrogen at the start.
fn by_differences(
    axis: bool,
    width: f64,
    cells: usize,
    charged: impl Fn(f64) -> bool,
    spread: f64,
    steps: usize,
) -> f64 {
    let h = width / cells as f64;
    let dt = spread / steps as f64;
    let at = |i: usize| (i as f64 + 0.5) * h;
    let face = |i: usize| if axis { i as f64 * h } else { 1.0 };
    let volume = |i: usize| if axis { at(i) * h } else { h };
    let mut content: Vec<f64> = (0..cells).map(|i| f64::from(u8::from(charged(at(i))))).collect();
    // Two backward half steps for one: their difference takes the first order away.
    let step = |content: &[f64], dt: f64| {
        let (mut upper, mut rest) = (vec![0.0; cells], vec![0.0; cells]);
        for i in 0..cells {
            let inner = if i == 0 { 0.0 } else { face(i) / h };
            // The last face is open: half a cell to where nothing is left.
            let outer = if i + 1 == cells { 2.0 * face(cells) / h } else { face(i + 1) / h };
            let own = volume(i) / dt;
            let (before, carried) = if i == 0 { (0.0, 0.0) } else { (upper[i - 1], rest[i - 1]) };
            let pivot = own + inner + outer - inner * before;
            upper[i] = if i + 1 == cells { 0.0 } else { outer / pivot };
            rest[i] = (own * content[i] + inner * carried) / pivot;
        }
        for i in (0..cells - 1).rev() {
            rest[i] += upper[i] * rest[i + 1];
        }
        rest
    };
    for _ in 0..steps {
        let whole = step(&content, dt);
        let half = step(&step(&content, dt / 2.0), dt / 2.0);
        content = half.iter().zip(&whole).map(|(half, whole)| 2.0 * half - whole).collect();
    }
    content.into_iter().fold(0.0, f64::max)
}

/// A tenth is left after the time of each closed form, by an integration that knows none of them.
#[test]
fn an_integration_leaves_a_tenth_too() {
    let spread = |weld: WeldPath| weld.spread_mm2(embedded(), 0.1);
    // A layer of 10 mm on 250 mm; its surface is the last face.
    let layer = by_differences(
        false,
        250.0,
        2500,
        |from_far| from_far > 240.0,
        spread(WeldPath::BuildUp { depth_mm: 10.0 }),
        600,
    );
    near(layer, 0.1, 2e-3);
    let open = WeldPath::FullButt { thickness_mm: 20.0, one_face_closed: false };
    near(by_differences(false, 10.0, 400, |_| true, spread(open), 600), 0.1, 2e-3);
    // One face closed: the closed face is the middle, and the whole thickness lies outside it.
    let closed = WeldPath::FullButt { thickness_mm: 20.0, one_face_closed: true };
    near(by_differences(false, 20.0, 400, |_| true, spread(closed), 600), 0.1, 2e-3);
    let bar = WeldPath::BarToBar { diameter_mm: 60.0 };
    near(by_differences(true, 30.0, 400, |_| true, spread(bar), 600), 0.1, 2e-3);
}

/// The demo joint: 8 mm leg on a boss of 34CrMo4, which at 300 °C is above its M90.
#[test]
fn the_demo_joint_has_one_figure() {
    let found = ask(&DEMO);
    let main = found.main.as_ref().expect("a figure");
    // 7.657 mm of path: 1.962 h · (7.657/5.657)², more than 1.962 h and the hour of austenite.
    near(main.hours, 1.962 * (7.657_f64 / 5.657).powi(2), 3e-3);
    assert_eq!(
        (found.way, main.low_c, main.high_c, main.set_by),
        (Way::PostHeat, 300.0, 350.0, SetBy::Diffusion)
    );
    assert_eq!((main.turning_h, main.shown_h()), (1.0, 4.0));
    let below = found.below_m90.as_ref().expect("the other way");
    assert_eq!((below.hold.low_c, below.hold.high_c, below.drops), (200.0, 239.0, true));
    // Ms 352: exp(-0.011 · 113) of the austenite (Koistinen and Marburger, from memory).
    near(below.austenite_left, 0.2885, 1e-3);
    near(below.hold.hours, 3.594_6 * 5.1 / 2.9, 3e-3);
    let trapped = found.trapped.as_ref().expect("chromium of 1 %");
    near(trapped.hours, 3.0 * main.hours, 1e-9);
    near(found.left_ml.expect("with hydrogen"), 0.4, 1e-12);
}

/// A grid of the same joint in two directions, apart from this program (boss of 90 mm, 8 mm legs,
/// slow diffusivity): a tenth is left after 0.25 h at 300 °C, and a third of that speed takes three
/// times as long. With the hour of austenite the one figure still is the longer.
#[test]
fn the_figure_of_a_fillet_covers_the_grid_and_the_hour_of_austenite() {
    let found = ask(&DEMO);
    let (main, trapped) = (found.main.expect("a figure"), found.trapped.expect("chromium of 1 %"));
    assert!(main.hours > 0.25 + main.turning_h && trapped.hours > 3.0 * 0.25 + trapped.turning_h);
    // Without the margin the closed form has the hour on top.
    assert!(main.hours >= 1.962 + main.turning_h);
}

/// What has no margin has the hour on top: a build-up of the same depth as the fillet's path.
#[test]
fn a_build_up_above_m90_takes_an_hour_more() {
    let weld = WeldPath::BuildUp { depth_mm: 7.657 };
    let above = ask(&PostHeatQuery { weld, ..DEMO }).main.expect("a figure");
    let without = ask(&PostHeatQuery { weld, m90_c: None, ..DEMO }).main.expect("a figure");
    near(above.hours, without.hours + 1.0, 1e-9);
    assert_eq!((above.turning_h, without.turning_h), (1.0, 0.0));
}

/// The hours of a leg on a thick part, as they were far too long: 3 mm and 8 mm are days no more.
#[test]
fn the_part_behind_the_weld_sets_no_time() {
    let leg = |leg_mm: f64| {
        let weld = WeldPath::fillet_of_leg(leg_mm);
        ask(&PostHeatQuery { weld, ..DEMO }).main.map(|hold| hold.hours).expect("a figure")
    };
    assert!(leg(3.0) < 2.1 && leg(3.0) < leg(8.0) && leg(8.0) < 4.0, "{} {}", leg(3.0), leg(8.0));
}

#[test]
fn a_remembered_rule_sets_nothing_and_austenite_rests_on_memory() {
    // 2-4 h per 25 mm is remembered: 8 h for a butt of 50 mm; a full slab takes longer anyway.
    let thin =
        PostHeatQuery { weld: WeldPath::FullButt { thickness_mm: 4.0, one_face_closed: false }, ..DEMO };
    let thin = ask(&PostHeatQuery { m90_c: None, ..thin }).main.expect("a figure");
    assert_eq!((thin.hours, thin.set_by), (1.0, SetBy::Practice));
    assert!(matches!(thin.basis, Basis::Published { .. }), "{:?}", thin.basis);
    let turned = ask(&DEMO).main.expect("a figure");
    assert!(matches!(turned.basis, Basis::Memory { .. }), "{:?}", turned.basis);
}

#[test]
fn traps_are_shown_where_the_steel_may_have_them() {
    let with = |chromium_percent, vanadium_percent| {
        ask(&PostHeatQuery { chromium_percent, vanadium_percent, ..DEMO }).trapped.is_some()
    };
    assert!(with(Some(0.5), Some(0.0)) && with(Some(0.0), Some(0.1)));
    assert!(with(None, Some(0.0)) && with(Some(0.0), None), "what is not known may trap");
    assert!(!with(Some(0.49), Some(0.09)));
}

#[test]
fn what_no_weld_has_is_refused() {
    let refused = |asked: PostHeatQuery| hold_after_welding(embedded(), &asked).unwrap_err();
    let above = refused(PostHeatQuery { most_c: 290.0, ..DEMO });
    assert_eq!(above, EngineError::NoAnswer { reason: "post-heat-above-ceiling" });
    for bad in [f64::NAN, -1.0, f64::INFINITY, 1e300] {
        refused(PostHeatQuery { weld: WeldPath::BuildUp { depth_mm: bad }, ..DEMO });
        refused(PostHeatQuery { weld: WeldPath::Fillet { throat_mm: bad }, ..DEMO });
        refused(PostHeatQuery { hydrogen_ml: bad, ..DEMO });
        refused(PostHeatQuery { minimum_c: bad, ..DEMO });
        refused(PostHeatQuery { most_c: bad, ..DEMO });
        refused(PostHeatQuery { chromium_percent: Some(bad), ..DEMO });
        refused(PostHeatQuery { vanadium_percent: Some(bad), ..DEMO });
    }
    refused(PostHeatQuery { m90_c: Some(f64::NAN), ..DEMO });
}

/// A rule of the data is an answer of the question, and its words carry its temperatures.
#[test]
fn every_rule_is_said_with_its_temperatures() {
    let question = strawblue::questions::find("post-heat").expect("it is asked");
    let words = strawblue::words::Words::english();
    for rule in &embedded().post_heat.rules {
        assert!(question.answers.contains(&rule.id.as_str()), "{} is no answer", rule.id);
        let said = words.get(&format!("answer-{}", rule.id));
        let said_of_any_size = said.contains("any size");
        assert_eq!(said_of_any_size, !rule.time.knows_size(), "{said}");
        if said.contains('°') {
            for at_c in rule.low_c.iter().chain(&rule.high_c) {
                assert!(said.contains(&format!("{at_c}")), "{said} lacks {at_c}");
            }
        }
    }
}
