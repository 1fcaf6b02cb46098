//! The heat cycle of every joint, as the question asks it: what is taken where nothing is told, what is
//! asked for, how much metal a weld holds.
#![allow(clippy::unwrap_used, reason = "a question that is gone fails the test")]

use strawblue::engine::EngineError;
use strawblue::engine::heat_cycle::JointShape;
use strawblue::engine::job::Joint;
use strawblue::questions::{self, Answers, Given, Problem, Reply};

/// Thickness of a plate, diameter of a bar, mm.
fn size_mm(joint: Joint) -> f64 {
    if matches!(joint, Joint::RunOnShaft | Joint::BarToBar) { 90.0 } else { 30.0 }
}

/// A joint of such parts under a large tip: invented.
fn given(joint: Joint, more: &[(&str, f64)]) -> Answers {
    let base = [
        ("first-thickness", size_mm(joint)),
        ("fuel-flow", 2.83),
        ("minimum-preheat", 150.0),
        ("interpass-most", 250.0),
        ("heat-input", 1.5),
    ];
    let kept = base.iter().filter(|(key, _)| more.iter().all(|(other, _)| other != key));
    let start = Answers::new().with("joint", Given::Choice(joint.id().to_owned()));
    kept.chain(more).fold(start, |all, (key, value)| all.with(*key, Given::Number(*value)))
}

fn ask(given: &Answers) -> Result<Reply, Problem> {
    questions::find("heat-cycle").unwrap().ask(given)
}

fn shape(given: &Answers) -> JointShape {
    let full = questions::find("heat-cycle").unwrap().filled(given).unwrap();
    questions::flames(&full).unwrap().cycle.shape
}

/// What has to be told of a joint beside its first part.
fn told(joint: Joint) -> Vec<(&'static str, f64)> {
    match joint {
        Joint::Repair => vec![("groove-depth", 10.0)],
        Joint::RunOnShaft => vec![("groove-depth", 3.0)],
        Joint::Butt | Joint::BarToBar => vec![("second-thickness", size_mm(joint))],
        _ => vec![("second-thickness", 30.0), ("leg", 8.0)],
    }
}

/// Where only what must be told is told, the usual joint of the engine's own vectors is asked.
#[test]
fn every_joint_answers_and_says_what_it_assumes() {
    for &joint in Joint::ALL {
        let given = given(joint, &told(joint));
        let leg_mm = if joint.has_fillet() { 8.0 } else { 0.0 };
        assert_eq!(
            shape(&given),
            JointShape::usual(joint, size_mm(joint), size_mm(joint), leg_mm),
            "{joint:?}"
        );
        let reply = ask(&given).unwrap_or_else(|problem| panic!("{joint:?}: {problem:?}"));
        let minutes = reply.answer("heat-minutes").unwrap();
        assert!(minutes.value.unwrap() > 0.1 && minutes.low <= minutes.high, "{joint:?}: {minutes:?}");
        let usual = reply.notes.iter().filter(|note| note.starts_with("heat-usual")).count();
        assert!(usual >= 1, "{joint:?}: {:?}", reply.notes);
    }
}

/// Nothing of a joint that decides its heat is taken in silence: without it there is a question.
#[test]
fn what_a_joint_needs_is_asked_for() {
    for &joint in Joint::ALL {
        for (key, _) in told(joint) {
            let kept: Vec<(&str, f64)> = told(joint).into_iter().filter(|(other, _)| *other != key).collect();
            let problem = ask(&given(joint, &kept)).unwrap_err();
            assert_eq!(problem, Problem::Missing { keys: vec![key] }, "{joint:?}");
        }
    }
}

/// A weld that does not fit on its part is refused in words that need no letters.
#[test]
fn sizes_that_do_not_fit_are_refused() {
    for (joint, key, mm) in [
        (Joint::Butt, "plate-width", 50.0),
        (Joint::Repair, "groove-depth", 40.0),
        (Joint::RunOnShaft, "groove-depth", 80.0),
        (Joint::Lap, "leg", 50.0),
        (Joint::Corner, "leg", 60.0),
    ] {
        let kept: Vec<(&str, f64)> = told(joint).into_iter().filter(|(other, _)| *other != key).collect();
        let mut given = given(joint, &[kept, vec![(key, mm)]].concat());
        if matches!(joint, Joint::Butt | Joint::Corner) {
            given.set("first-thickness", Given::Number(90.0));
            given.set("second-thickness", Given::Number(90.0));
            given.set("plate-width", Given::Number(60.0));
        }
        let problem = ask(&given).unwrap_err();
        let reason = "heat-sizes-do-not-fit";
        assert_eq!(problem, Problem::Engine(EngineError::NoAnswer { reason }), "{joint:?} {key}");
    }
}

/// What is told takes the place of what is usual, and is called usual no more.
#[test]
fn a_size_that_is_told_is_not_assumed() {
    for (joint, key, mm, note) in [
        (Joint::Repair, "groove-width", 30.0, "heat-usual-cavity"),
        (Joint::RunOnShaft, "groove-width", 80.0, "heat-usual-band"),
        (Joint::RunOnShaft, "plate-length", 900.0, "heat-usual-shaft"),
        (Joint::BarToBar, "plate-length", 700.0, "heat-usual-bar-length"),
        (Joint::Butt, "groove-width", 25.0, "heat-usual-groove"),
        (Joint::Butt, "plate-length", 500.0, "heat-usual-length"),
        (Joint::Lap, "plate-width", 300.0, "heat-usual-sizes"),
        (Joint::Corner, "plate-length", 500.0, "heat-usual-length"),
    ] {
        let usual = given(joint, &told(joint));
        let stated = usual.clone().with(key, Given::Number(mm));
        assert!(ask(&usual).unwrap().notes.contains(&note), "{joint:?} {key}");
        assert!(!ask(&stated).unwrap().notes.contains(&note), "{joint:?} {key}");
        assert_ne!(shape(&usual), shape(&stated), "{joint:?} {key}");
    }
}

/// A V of 60° in 20 mm with a gap of 3 mm is 3 · 20 + 20² · tan 30° = 290.9 mm²; 3 mm over 40 mm is
/// laid in five beads of 24 mm² (plane geometry). A width at the top gives the same V back.
#[test]
fn a_weld_holds_what_its_geometry_says() {
    let butt = JointShape::usual(Joint::Butt, 20.0, 25.0, 0.0);
    assert!((butt.laid_mm2() - 290.94).abs() < 0.01, "{}", butt.laid_mm2());
    let shaft = JointShape::usual(Joint::RunOnShaft, 60.0, 60.0, 0.0);
    assert_eq!((shaft.beads(), shaft.laid_mm2()), (Some(5.0), 24.0));
    let tee = JointShape::usual(Joint::TFilletOneSide, 20.0, 20.0, 8.0);
    assert_eq!((tee.beads(), tee.laid_mm2()), (None, 32.0));
    let top_mm = 3.0 + 2.0 * 30.0 * 30.0_f64.to_radians().tan();
    let told = given(Joint::Butt, &[("second-thickness", 30.0), ("groove-width", top_mm)]);
    let JointShape::Butt { angle_deg, .. } = shape(&told) else { panic!("a butt") };
    assert!((angle_deg - 60.0).abs() < 1e-9, "{angle_deg}");
}

/// Joined runs bring the heat of all of them, and say that they are joined.
#[test]
fn more_runs_than_are_gone_through_bring_their_heat() {
    let many = |runs: f64| given(Joint::Butt, &[("second-thickness", 30.0), ("runs", runs)]);
    let flames = |given: &Answers| {
        questions::flames(&questions::find("heat-cycle").unwrap().filled(given).unwrap()).unwrap()
    };
    for (runs, passes) in [(11.0, 11), (12.0, 12), (13.0, 12), (30.0, 12)] {
        let found = flames(&many(runs));
        assert_eq!(found.cycle.passes.len(), passes, "{runs}");
        let heat: f64 = found.cycle.passes.iter().map(|pass| pass.net_kj_per_mm).sum();
        assert!((heat - 1.5 * runs).abs() < 1e-9, "{runs}: {heat}");
        assert_eq!(found.notes.contains(&"heat-runs-joined"), runs > 12.0);
    }
    // The beads of a layer are one length, however many passes they are told as.
    let shaft = |runs: f64| flames(&given(Joint::RunOnShaft, &[("groove-depth", 3.0), ("runs", runs)]));
    assert!((shaft(30.0).cycle.passes[0].net_kj_per_mm - 1.5).abs() < 1e-12);
}

/// What a form shows for a joint is just what the joint takes.
#[test]
fn an_input_belongs_to_the_joints_that_take_it() {
    let question = questions::find("heat-cycle").unwrap();
    for &joint in Joint::ALL {
        let belongs = |key: &str| question.input(key).unwrap().only.unwrap().1.contains(&joint.id());
        assert_eq!(belongs("leg"), joint.has_fillet(), "{joint:?}");
        for (key, _) in told(joint) {
            assert!(belongs(key), "{joint:?} {key}");
        }
        for (key, mm) in [
            ("second-thickness", 45.0),
            ("leg", 9.0),
            ("groove-depth", 12.0),
            ("groove-width", 21.0),
            ("plate-width", 310.0),
        ] {
            let all = told(joint);
            let kept: Vec<(&str, f64)> = all.iter().copied().filter(|(other, _)| *other != key).collect();
            let usual = shape(&given(joint, &all));
            let stated = shape(&given(joint, &[kept, vec![(key, mm)]].concat()));
            assert_eq!(belongs(key), usual != stated, "{joint:?} {key}");
        }
    }
}
