//! What a log command takes: a time of last evening and none to come, the part where parts are told apart, one
//! piece and not two of a number, figures with their unit.

use serde_json::Value;
use strawblue::log::Moment;

use super::log::{Device, JOB};

const READ: [&str; 5] = ["read", JOB, "piece=1", "part=2", "when=before-tack"];

fn wrong(device: &Device, arguments: &[&str]) -> String {
    let ran = device.run(&[&["log"], arguments].concat());
    assert_eq!(ran.status, 2, "{arguments:?}: {}", ran.out);
    ran.err
}

fn last(found: &Value) -> Value {
    found["pieces"][0]["readings"].as_array().expect("readings").last().expect("one").clone()
}

/// The clock of the device is set to UTC.
#[test]
fn a_time_is_never_one_to_come() {
    let device = Device::new();
    device.begin();
    // Five minutes ahead is a time of yesterday; where that is past midnight, of this day.
    let now = Moment::new(Moment::now().utc_s, 0);
    let time = format!("time={}", now.plus_min(5.0).day_and_time().1);
    device.json(&[&READ[..], &["probe=325", &time]].concat());
    let found = device.json(&["show", JOB]);
    let at: Moment = last(&found)["at"].as_str().expect("a time").parse().expect("a moment");
    let gone_min = now.minutes_since(at);
    assert!((1430.0..1441.0).contains(&gone_min), "{gone_min}");
    let said = wrong(&device, &[&READ[..], &["probe=325", "time=2199-03-17 7:30"]].concat());
    assert!(said.contains("time: This time is still to come."), "{said}");
    let said = wrong(&device, &[&READ[..], &["probe=325", "time=soon"]].concat());
    assert!(said.contains("time: Write a time"), "{said}");
}

#[test]
fn the_part_is_asked_where_parts_are_told_apart() {
    let device = Device::new();
    device.begin();
    for action in
        [&["read", JOB, "piece=1", "when=before-tack", "probe=325"][..], &["trial", JOB, "probe=340"]]
    {
        let said = wrong(&device, action);
        assert!(said.contains("part: Missing"), "{said}");
    }
    assert_eq!(device.json(&["show", JOB])["trials"], serde_json::json!([]));
}

/// Both devices add a piece, each the next number: by hand here, as a window does it.
#[test]
fn a_number_of_two_pieces_picks_neither() {
    let (one, other) = (Device::new(), Device::new());
    one.begin();
    let (file, back) = (one.path("job.ron"), one.path("back.ron"));
    let (file, back) = (file.to_str().expect("text"), back.to_str().expect("text"));
    one.log(&["export", JOB, file]);
    other.log(&["import", file]);
    // Each gives another of its pieces the same new number.
    one.log(&["piece", JOB, "piece=1", "number=21"]);
    other.log(&["piece", JOB, "piece=2", "number=21"]);
    let said = wrong(&other, &["piece", JOB, "piece=1", "number=21"]);
    assert!(said.contains("number: Another piece has this number."), "{said}");
    other.log(&["export", JOB, back]);
    one.log(&["import", back]);
    let found = one.json(&["show", JOB]);
    assert_eq!(
        (&found["same_numbers"], &found["conflicts"]),
        (&serde_json::json!([21]), &serde_json::json!([]))
    );
    assert_eq!(one.log(&["show", JOB]).out.matches("Two pieces have this number.").count(), 2);
    let said = wrong(&one, &["piece", JOB, "piece=21", "note=x"]);
    let ids: Vec<String> = found["pieces"]
        .as_array()
        .expect("pieces")
        .iter()
        .filter(|piece| piece["same_number"] == true)
        .map(|piece| piece["id"].as_str().expect("an id").to_owned())
        .collect();
    assert!(ids.len() == 2 && ids.iter().all(|id| said.contains(id)), "{said}");
    // By its id it is found, and gets a number of its own.
    let found = one.json(&["piece", JOB, &format!("piece={}", ids[1]), "number=2"]);
    assert_eq!(found["same_numbers"], serde_json::json!([]));
    assert!(!wrong(&one, &["piece", JOB, "piece=9", "note=x"]).is_empty());
}

#[test]
fn what_was_typed_keeps_its_unit_and_a_colour_no_id() {
    let device = Device::new();
    device.begin();
    let typed = |more: &[&str]| {
        let found = device.json(&[&READ[..], more].concat());
        last(&found)["typed"].as_str().expect("text").replace('\u{a0}', " ")
    };
    assert_eq!(typed(&["probe=600", "--units", "f-in"]), "600 °F");
    assert_eq!(typed(&["probe=325°"]), "325 °C");
    assert_eq!(typed(&["probe=617 F"]), "617 F");
    assert_eq!(typed(&["melted=316", "stayed=650 °F"]), "316 °C; 650 °F");
    assert_eq!(typed(&["colour=light-straw", "colour-to=reddish-purple"]), "");
}

/// A crayon that melted, alone: it may have been far hotter.
#[test]
fn a_trial_with_an_open_hot_end_is_never_flattered() {
    let device = Device::new();
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/data/demo.ron");
    device.log(&["new", demo, "name=Our cranks", "pieces=1"]);
    let trial = |outcome: &str| device.json(&["trial", "Our cranks", "part=2", "melted=150", outcome]);
    let found = trial("outcome=sound");
    assert_eq!(found["taught"][0]["coldest_sound_c"], Value::Null);
    let found = trial("outcome=cracked");
    assert_eq!(found["taught"][0]["cracked_hot_end_open"], true, "{}", found["taught"]);
    let warns = found["taught_warns"][0].as_str().expect("the plan of this job lies no higher");
    assert!(warns.contains("a trial piece cracked, perhaps above it"), "{warns}");
    let plan = device.run(&["plan", demo]);
    assert!(plan.out.contains("a trial piece cracked, perhaps above it"), "{}", plan.out);
}
