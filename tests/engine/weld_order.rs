//! The order of tacks, segments and faces: worked once by a second program from the same rules (common practice,
//! no source), and laws.

use proptest::prelude::*;
use strawblue::engine::weld::order::{
    Deed, Face, faces, line, line_order, line_tacks, ring, ring_order, ring_tacks, segments,
};

/// Whole orders, one deed a line.
const ORDERS: &str = include_str!("weld_orders.txt");

fn near(found: f64, is: f64, within: f64) {
    assert!((found - is).abs() <= within, "{found} is not {is} within {within}");
}

fn said(deed: &Deed) -> String {
    let face = |face: Face| if face == Face::A { "A" } else { "B" };
    match *deed {
        Deed::Preheat => "preheat".to_owned(),
        Deed::Tack(at) => format!("tack {at:.0}"),
        Deed::Feather => "feather".to_owned(),
        Deed::Turn(to) => format!("turn {}", face(to)),
        Deed::Measure(on, pass) => format!("measure {} {pass}", face(on)),
        Deed::Run { face: on, pass, segment, from, to } => {
            format!("run {} {pass} {segment} {from:.1} {to:.1}", face(on))
        }
        Deed::CleanLook(on, pass) => format!("clean-look {} {pass}", face(on)),
        Deed::PostHeat => "post-heat".to_owned(),
        Deed::Cover => "cover".to_owned(),
        Deed::Inspect => "inspect".to_owned(),
    }
}

#[test]
fn whole_orders_as_they_were_worked() {
    let made = [
        ring(90.0, 3, true, false).expect("an order"),
        ring(60.0, 2, false, true).expect("an order"),
        line(400.0, 10.0, 355.0, 60.0, 1).expect("an order"),
        line(250.0, 20.0, 355.0, 100.0, 2).expect("an order"),
    ];
    let expected: Vec<Vec<&str>> = ORDERS
        .split("= ")
        .skip(1)
        .map(|order| order.lines().skip(1).filter(|line| !line.is_empty()).collect())
        .collect();
    assert_eq!(expected.len(), made.len());
    for (made, expected) in made.iter().zip(expected) {
        assert_eq!(made.iter().map(said).collect::<Vec<_>>(), expected);
    }
}

#[test]
fn rings_by_diameter() {
    for (d, shrunk, count, segment_mm, order, tack_mm, at) in [
        (20.0, false, 2, 31.4, vec![0, 1], 20.0, vec![0.0, 180.0]),
        (50.0, true, 4, 39.3, vec![0, 2, 1, 3], 20.0, vec![0.0]),
        (90.0, false, 4, 70.7, vec![0, 2, 1, 3], 35.3, vec![0.0, 180.0]),
        (127.0, false, 4, 99.7, vec![0, 2, 1, 3], 49.9, vec![0.0, 180.0]),
        (130.0, false, 6, 68.1, vec![0, 3, 2, 5, 1, 4], 50.0, vec![0.0, 180.0]),
        (200.0, false, 8, 78.5, vec![0, 4, 2, 6, 1, 5, 3, 7], 50.0, vec![0.0, 180.0]),
        (300.0, false, 10, 94.2, vec![0, 5, 2, 7, 4, 9, 1, 6, 3, 8], 50.0, vec![0.0, 180.0, 90.0, 270.0]),
    ] {
        assert_eq!(segments(d), count);
        #[allow(clippy::cast_precision_loss, reason = "a small count")]
        let each = std::f64::consts::PI * d / count as f64;
        near(each, segment_mm, 0.06);
        assert_eq!(ring_order(count), order);
        let tacks = ring_tacks(d, shrunk).expect("tacks");
        near(tacks.length_mm, tack_mm, 0.06);
        assert_eq!(tacks.at, at);
    }
    assert!(ring_tacks(f64::NAN, false).is_err() && ring_tacks(4.0, false).is_err());
}

#[test]
fn lines_by_length() {
    for (length, thickness, yield_mpa, step, tack_mm, runs, centres, order) in [
        (60.0, 20.0, 355.0, 100.0, 50.0, 1, vec![30.0], vec![0]),
        (250.0, 20.0, 355.0, 100.0, 50.0, 1, vec![50.0, 200.0], vec![0, 1, 2]),
        (400.0, 10.0, 355.0, 60.0, 40.0, 1, vec![45.0, 355.0, 200.0], vec![3, 4, 2, 5, 1, 6, 0]),
        (
            1000.0,
            60.0,
            355.0,
            100.0,
            75.0,
            2,
            vec![62.5, 937.5, 500.0, 281.2, 718.8],
            vec![4, 5, 3, 6, 2, 7, 1, 8, 0, 9],
        ),
        (700.0, 25.0, 900.0, 100.0, 75.0, 2, vec![62.5, 637.5, 254.2, 445.8], vec![3, 4, 2, 5, 1, 6, 0]),
    ] {
        let tacks = line_tacks(length, thickness, yield_mpa).expect("tacks");
        near(tacks.length_mm, tack_mm, 1e-9);
        assert_eq!(tacks.runs, runs);
        assert_eq!(tacks.at.len(), centres.len());
        tacks.at.iter().zip(&centres).for_each(|(found, is)| near(*found, *is, 0.06));
        assert_eq!(line_order(length, step), order);
    }
}

/// One turn for each pass, and both faces get as many.
#[test]
fn faces_take_turns() {
    for (passes, expected) in
        [(1, "A1 B1"), (2, "A1 B1 B2 A2"), (3, "A1 B1 B2 A2 A3 B3"), (4, "A1 B1 B2 A2 A3 B3 B4 A4")]
    {
        let order: Vec<String> = (1..=passes)
            .flat_map(|pass| faces(pass, true).iter().map(move |face| format!("{face:?}{pass}")))
            .collect();
        assert_eq!(order.join(" "), expected);
        let deeds = ring(90.0, passes, true, false).expect("an order");
        let turns = deeds.iter().filter(|deed| matches!(deed, Deed::Turn(_))).count();
        assert_eq!(turns, passes);
    }
}

proptest! {
    /// Each segment and step stands once; tacks lie inside the line and never overlap; a ring never has fewer
    /// segments when it is larger, and none is longer than 100 mm.
    #[test]
    fn each_stands_once(d in 10.0..1500.0f64, more in 0.0..300.0f64, length in 60.0..5000.0f64, t in 3.0..100.0f64, step in 40.0..200.0f64) {
        let mut order = ring_order(segments(d));
        order.sort_unstable();
        prop_assert_eq!(order, (0..segments(d)).collect::<Vec<_>>());
        prop_assert!(segments(d + more) >= segments(d));
        let mut steps = line_order(length, step);
        steps.sort_unstable();
        prop_assert_eq!(steps.clone(), (0..steps.len()).collect::<Vec<_>>());
        let tacks = line_tacks(length, t, 355.0).expect("tacks");
        let mut at = tacks.at.clone();
        at.sort_by(f64::total_cmp);
        let half = tacks.length_mm / 2.0;
        prop_assert!(at[0] - half >= -1e-9 && at[at.len() - 1] + half <= length + 1e-9);
        prop_assert!(at.windows(2).all(|pair| pair[1] - pair[0] >= tacks.length_mm));
    }
}
