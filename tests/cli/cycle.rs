//! The heat cycle of a plan: the same figures as the question gives, what is asked for, what it refuses.

use serde_json::Value;

use super::{json_of, run};

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/data/demo.ron");
const TORCH: [&str; 3] =
    ["heat-cycle.fuel-flow=100 ft3/h", "heat-cycle.plate-width=160", "heat-cycle.plate-length=400"];

fn cycle(more: &[&str]) -> Value {
    let ran = run(&[&["plan", DEMO, "--json"], more].concat());
    assert_eq!(ran.status, 0, "{}{}", ran.out, ran.err);
    json_of(&ran)["heat_cycle"].clone()
}

/// A plan asks what a person would type for the question by hand.
#[test]
fn a_plan_and_the_question_give_the_same_figures() {
    let of_plan = cycle(&TORCH);
    let asked = run(&[
        "ask",
        "heat-cycle",
        "--json",
        "joint=boss-through",
        "first-thickness=30",
        "second-thickness=90",
        "leg=8",
        "measuring-distance=75",
        "fuel-flow=100 ft3/h",
        "plate-width=160",
        "plate-length=400",
        "minimum-preheat=300",
        "interpass-most=350",
        "ceiling=510",
        "runs=1",
        "heat-input=1.2",
        "process=smaw-basic",
        "root-heat-input=1.0",
        "root-process=gtaw",
        "hydrogen=4",
        "hold-hours=4",
        "hold-temperature=300",
        "room-temperature=15",
    ]);
    assert_eq!(asked.status, 0, "{}{}", asked.out, asked.err);
    let asked = json_of(&asked);
    let (one, other) =
        (of_plan["answers"].as_array().expect("answers"), asked["answers"].as_array().expect("answers"));
    assert_eq!(one.len(), other.len());
    for (one, other) in one.iter().zip(other) {
        assert_eq!(one["name"], other["name"]);
        for key in ["value", "low", "high"] {
            let (one, other) = (one[key].as_f64(), other[key].as_f64());
            let near = one
                .zip(other)
                .map_or(one == other, |(one, other)| (one - other).abs() < 1e-6 * one.abs().max(1.0));
            assert!(near, "{key}: {one:?} of the plan, {other:?} asked");
        }
    }
    assert_eq!(of_plan["notes"], asked["notes"]);
    assert_eq!(of_plan["runs"].as_array().map(Vec::len), Some(4), "a root and a run on each face");
}

/// Nothing is made up for a torch that nobody told.
#[test]
fn a_torch_that_is_not_told_is_asked_for() {
    let open = cycle(&[]);
    assert_eq!(open["asks"], serde_json::json!(["fuel-flow"]));
    assert_eq!(open["answers"], serde_json::json!([]));
    let text = run(&["plan", DEMO]).out;
    assert!(text.contains("Give the gas flow of your torch to get minutes."), "{text}");
    assert!(!text.contains("with this torch"), "{text}");
    let told = run(&[&["plan", DEMO][..], &TORCH].concat()).out;
    assert!(
        told.contains("with this torch") && told.contains("to weld before you must heat again"),
        "{told}"
    );
    assert!(told.contains("4 h at 300 °C: ") && told.contains("of 4 ml/100 g hydrogen left"), "{told}");
    // A range, since nobody timed the first part; one figure once somebody has.
    let minutes = |cycle: &Value| cycle["answers"][0].clone();
    let (open, known) = (cycle(&TORCH), cycle(&[&TORCH[..], &["heat-cycle.flame-share=0.3"]].concat()));
    assert!(minutes(&open)["low"].is_number() && minutes(&known)["low"].is_null());
}

/// Every joint has its cycle, and what heats is that of the job: a furnace is asked for its temperature.
#[test]
fn a_cycle_follows_the_job() {
    let lap = cycle(&[&TORCH[..], &["joint=lap"]].concat());
    assert!(lap["answers"][0]["name"].is_string(), "{lap}");
    let open = cycle(&["heat-source=furnace"]);
    assert_eq!(open["asks"], serde_json::json!(["set-temperature"]));
    let told = ["heat-source=furnace", "heat-cycle.set-temperature=345 °C"];
    let text = run(&[&["plan", DEMO][..], &told].concat()).out;
    assert!(text.contains("in this furnace") && text.contains("out of the furnace"), "{text}");
    assert!(!text.contains("after the flame is off"), "{text}");
}

/// One wait stands in the step that measures: the rule's, or the joint's own where that is longer.
#[test]
fn one_wait_stands_in_a_step() {
    let measuring = |more: &[&str]| {
        let text = run(&[&["plan", DEMO][..], more].concat()).out.replace('\u{a0}', " ");
        let from = text.find("Measure at the coldest point").expect("it is measured");
        let to = text[from..].find("Tack hotter").expect("then it is tacked");
        text[from..from + to].to_owned()
    };
    let rule = measuring(&[]);
    assert!(
        rule.contains("take the flame away and wait") && !rule.contains("after the flame is off"),
        "{rule}"
    );
    // The usual plate, and the small one of the demo.
    for torch in [&["heat-cycle.fuel-flow=100 ft3/h"][..], &TORCH] {
        let step = measuring(torch);
        let waits = [step.contains("take the flame away and wait"), step.contains("after the flame is off")];
        assert_eq!(waits.iter().filter(|stands| **stands).count(), 1, "{step}");
    }
}

/// What cannot be worked out says so: no source of heat, a flame too weak, a text that is no flow.
#[test]
fn what_has_no_cycle_says_why() {
    let why = |more: &[&str]| cycle(&[&TORCH[..], more].concat())["why_not"].as_str().map(str::to_owned);
    assert!(why(&["heat-source=none"]).is_some_and(|why| why.contains("nothing heats")));
    let weak =
        cycle(&["heat-cycle.fuel-flow=8 ft3/h", "heat-cycle.plate-width=160", "heat-cycle.plate-length=400"]);
    assert!(weak["refused"].as_array().is_some_and(|values| !values.is_empty()), "{weak}");
    let bad = run(&["plan", DEMO, "heat-cycle.fuel-flow=much"]);
    assert!(bad.status == 2 && bad.err.contains("heat-cycle.fuel-flow"), "{}{}", bad.out, bad.err);
    let unknown = run(&["plan", DEMO, "heat-cycle.torch=3"]);
    assert!(
        unknown.status == 2 && unknown.err.contains("heat-cycle.torch"),
        "{}{}",
        unknown.out,
        unknown.err
    );
    // Steel that needs no preheat is heated by nothing.
    let mild = run(&["plan", "steel=S235JR", "thickness=8", "joint=butt", "process=tig", "--json"]);
    assert!(json_of(&mild)["heat_cycle"].is_null(), "{}", mild.out);
}

/// Two readings of the joint count in the plan's cycle, in whatever unit they are typed, and it says so.
#[test]
fn two_readings_recalibrate_the_cycle_of_a_plan() {
    let read = |first: &str, second: &str| {
        let texts = [
            format!("heat-cycle.first-reading={first}"),
            format!("heat-cycle.second-reading={second}"),
            "heat-cycle.minutes-between=2".to_owned(),
        ];
        let more: Vec<&str> = TORCH.into_iter().chain(texts.iter().map(String::as_str)).collect();
        cycle(&more)
    };
    let figure = |cycle: &Value, name: &str| {
        let answers = cycle["answers"].as_array().expect("answers").clone();
        answers.into_iter().find(|answer| answer["name"] == name).and_then(|answer| answer["value"].as_f64())
    };
    let (metric, inch) = (read("325 °C", "311 °C"), read("617 °F", "591.8 °F"));
    let times = figure(&metric, "heat-losses").unwrap_or_else(|| panic!("{metric}"));
    assert!((0.5..=2.5).contains(&times));
    assert!((figure(&inch, "heat-losses").expect("the same") - times).abs() < 1e-6);
    let notes = |cycle: &Value| cycle["notes"].to_string();
    let plain = cycle(&TORCH);
    assert!(notes(&metric).contains("heat-by-readings") && !notes(&plain).contains("heat-by-readings"));
    let left = |cycle: &Value| figure(cycle, "heat-weld-by").expect("minutes");
    assert!((left(&metric) - left(&plain)) * (times - 1.0) < 0.0, "more losses leave less: {times}");
    // Half a reading is asked for like any open input.
    let half = cycle(&[&TORCH[..], &["heat-cycle.first-reading=325 °C"]].concat());
    assert_eq!(half["asks"], serde_json::json!(["second-reading", "minutes-between"]), "{half}");
}

/// When the steel turns is told of the plan's own cooling, with what its formula leaves open.
#[test]
fn a_plan_says_when_its_steel_turns() {
    let turns = cycle(&TORCH)["turns"].as_array().expect("turns").clone();
    assert_eq!(turns.iter().map(|turn| turn["name"].as_str()).collect::<Vec<_>>(), [Some("ms"), Some("m90")]);
    for turn in &turns {
        let figure = |key: &str| turn[key].as_f64().unwrap_or_else(|| panic!("{key} of {turn}"));
        assert!(figure("low_c") < figure("at_c") && figure("at_c") < figure("high_c"), "{turn}");
        assert!(figure("from_min") <= figure("to_min"), "{turn}");
    }
}
