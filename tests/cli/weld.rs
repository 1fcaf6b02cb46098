//! From a drawing to filler and bead order, as a person types it.

use super::{Ran, json_of, run};
use serde_json::Value;

/// A called-out leg of 8 mm round a pin, in eight inputs.
const DRAWING: [&str; 9] = [
    "plan",
    "steel=S355J2",
    "thickness=30",
    "steel-b=34CrMo4",
    "condition-b=hardened and tempered 540",
    "diameter-b=90",
    "joint=boss-through",
    "leg=8",
    "process=gtaw",
];

/// The lines of a part of the text.
fn under<'a>(ran: &'a Ran, head: &str) -> Vec<&'a str> {
    ran.out
        .lines()
        .skip_while(|line| !line.starts_with(head))
        .skip(1)
        .take_while(|line| !line.is_empty())
        .collect()
}

#[test]
fn from_a_drawing_to_filler_and_bead_order_in_eight_inputs() {
    assert!(DRAWING.len() <= 1 + 8);
    let ran = run(&DRAWING);
    assert_eq!(ran.status, 0, "{}", ran.err);
    let weld = under(&ran, "Filler, runs and current").join("\n");
    for said in [
        "Filler: ER70S-2",
        "Runs on each side: 3",
        "Current: ",
        "Arc energy: 1.67 kJ/mm",
        "A1, B1, B2, A2, A3, B3",
    ] {
        assert!(weld.contains(said), "{said}: {weld}");
    }
    let steps = under(&ran, "What to do, in order").join("\n");
    for said in ["2 tacks, each 35 mm long, at 0° and 180°", "4 segments of 71 mm in the order 1, 3, 2, 4"]
    {
        assert!(steps.contains(said), "{said}: {steps}");
    }
    // The beads are the leg, and are counted in the order of work.
    let json = json_of(&run(&[&DRAWING[..], &["--json"]].concat()));
    let weld = &json["weld"];
    let beads = weld["layers"]["beads"].as_array().expect("beads");
    let area: f64 = beads.iter().filter_map(|bead| bead["area_mm2"].as_f64()).sum();
    // 0.5667 z² with a convexity of 5 % of the face: 8 mm take 36.27 mm² (worked by hand).
    assert!((area / 36.27 - 1.0).abs() < 0.001, "{area}");
    let numbers: Vec<u64> = beads.iter().filter_map(|bead| bead["number"].as_u64()).collect();
    assert_eq!(numbers, [1, 2, 3]);
    let tack_high = weld["order"]["tack_high_c"].as_f64().expect("a temperature");
    assert!(tack_high <= json["interpass_max_c"].as_f64().expect("a maximum"));
    let deeds = weld["order"]["deeds"].as_array().expect("deeds");
    let runs = deeds.iter().filter(|deed| deed["deed"] == "run").count();
    assert_eq!(runs, 3 * 2 * 4, "three runs on two faces, four segments each");
}

#[test]
fn a_filler_that_the_process_cannot_use_is_refused_with_what_takes_it() {
    let ran = run(&[&DRAWING[..], &["filler=E7018"]].concat());
    assert_eq!(ran.status, 2, "{}", ran.out);
    assert!(ran.err.contains("E7018") && ran.err.contains("SMAW, basic"), "{}", ran.err);
}

fn filler(more: &[&str]) -> (String, Value) {
    let groove = ["plan", "steel=42CrMo4", "thickness=25", "joint=butt"];
    let all = [&groove[..], &["process=gtaw"], more].concat();
    (
        under(&run(&all), "Filler, runs and current").join("\n"),
        json_of(&run(&[&all[..], &["--json"]].concat())),
    )
}

#[test]
fn a_groove_takes_a_matching_filler_or_says_that_none_fits() {
    // 900 MPa is above every filler here; 690 takes ER100S-1 (AISC 360 Table J2.5: matching in tension).
    let (said, json) = filler(&["filler=ER70S-6", "condition=hardened and tempered 600"]);
    assert!(said.contains("Do not use ER70S-6") && said.contains("full-penetration groove"), "{said}");
    assert_eq!(json["weld"]["runs"][0]["filler"]["verdict"], "filler-too-weak");
    let (said, json) = filler(&["hardness=215 HV", "condition=annealed"]);
    assert!(said.contains("Filler: ER100S-1"), "{said}");
    assert!(said.contains("follows from its hardness"), "{said}");
    assert_eq!(json["weld"]["base_strength_from"], "hardness");
}

#[test]
fn what_is_not_told_is_asked_for_and_a_refusal_has_no_weld() {
    let no_leg = ["plan", "steel=4140", "thickness=25", "joint=lap", "process=gtaw"];
    let ran = run(&no_leg);
    assert!(ran.out.contains("Leg not given") && ran.out.contains("at least 8 mm"), "{}", ran.out);
    assert_eq!(json_of(&run(&[&no_leg[..], &["--json"]].concat()))["weld"]["asks"][0], "leg");
    let refused = ["plan", "steel=12L14", "thickness=25", "joint=lap", "process=gtaw", "leg=6"];
    let ran = run(&refused);
    assert!(!ran.out.contains("Filler, runs"), "{}", ran.out);
    assert!(json_of(&run(&[&refused[..], &["--json"]].concat()))["weld"].is_null());
}
