//! `ask`: one question of the registry at a time.

use serde_json::Value;

use super::{json_of, run};

/// CET .2840, 31.5 mm, 5 ml, 1.3 kJ/mm: 71 °C (engineer's worksheet on EN 1011-2 C.3.3).
#[test]
fn a_question_is_answered_in_any_unit() {
    let metric = run(&["ask", "method-b", "cet=0.2840", "thickness=31.5", "hydrogen=H5", "heat-input=1.3"]);
    assert_eq!(metric.status, 0, "{}", metric.err);
    assert!(metric.out.contains("71.4 °C"), "{}", metric.out);
    assert!(metric.out.contains("[Published] "), "{}", metric.out);
    let inch = run(&[
        "ask",
        "method-b",
        "cet=0,284",
        "thickness=1.2402",
        "hydrogen=5 ml",
        "heat-input=33.02",
        "--units",
        "f-in",
        "--json",
    ]);
    let read: Value = serde_json::from_str(&inch.out).expect("JSON");
    let answer = &read["answers"][0];
    assert!((answer["value"].as_f64().expect("a number") - 71.4).abs() < 0.1, "{answer}");
    assert_eq!(answer["unit"], "°C");
    assert_eq!(answer["in_range"], true);
}

/// A question takes a steel as a plan does: what is not stated beside a grade counts at its
/// maximum, and a composition alone must state carbon and manganese.
#[test]
fn a_question_takes_a_steel_as_a_plan_does() {
    let joint = ["thickness=40", "hydrogen=5", "heat-input=1"];
    let asked = |more: &[&str]| run(&[&["ask", "method-b", "--json"], more, &joint].concat());
    let value = |more: &[&str]| {
        let ran = asked(more);
        assert_eq!(ran.status, 0, "{more:?}: {}{}", ran.out, ran.err);
        json_of(&ran)["answers"][0]["value"].as_f64().expect("a figure")
    };
    let planned = |more: &[&str]| {
        let job = ["joint=butt", "process=gmaw", "restraint=medium", "condition=annealed"];
        let ran = run(&[&["plan", "--json"], more, &joint, &job].concat());
        let read = json_of(&ran);
        let of_method = |item: &&Value| item["method"] == "method-b" && item["obligation"] != "weld-metal";
        let item =
            read["evidence"].as_array().expect("a list").iter().find(of_method).expect("method B").clone();
        item["raw"].as_f64().or(item["value_c"].as_f64()).expect("a figure")
    };
    for steel in [&["steel=4140", "C=0.30"][..], &["steel=4130"], &["steel=A572-50"], &["steel=S690QL"]] {
        let (one, other) = (value(steel), planned(steel));
        assert!((one - other).abs() < 0.01, "{steel:?}: {one} asked, {other} planned");
    }
    assert!(asked(&["steel=4140", "C=0.30"]).out.contains("certificate-at-maximum"));
    assert!(asked(&["C=0.30", "Mn=0.8"]).out.contains("certificate-not-stated"));
    let twice = asked(&["cet=0.3", "steel=4140"]);
    assert!(twice.status == 2 && twice.out.contains("composition, cet"), "{}", twice.out);
    for question in
        [vec!["ask", "carbon-equivalent", "C=.4"], vec!["ask", "carbon-equivalent", "composition=C .4"]]
    {
        let ran = run(&question);
        assert!(ran.status == 2 && ran.err.contains("C and Mn"), "{}", ran.err);
    }
    let number = run(&["ask", "carbon-equivalent", "steel=g41400"]);
    assert!(number.status == 0 && number.out.contains("“g41400” is read as SAE 4140"), "{}", number.out);
    let several = run(&["ask", "carbon-equivalent", "steel=1.7225"]);
    assert!(several.status == 2 && several.err.contains("is the name of 3 steels"), "{}", several.err);
}

/// S355J2 at the cap of its carbon equivalent: 60 mm combined are not cleared at 5 ml and
/// 1 kJ/mm (EN 1011-2 Table C.1, row CE 0.49: 50 mm), asked or planned.
#[test]
fn a_table_is_read_at_the_grade_s_upper_end() {
    let asked =
        run(&["ask", "table-c1", "steel=S355J2", "hydrogen=5", "heat-input=1", "combined=60", "--json"]);
    let notes = json_of(&asked)["notes"].clone();
    let said = |note: &str| notes.as_array().expect("a list").iter().any(|found| found == note);
    assert!(said("table-c1-does-not-clear") && said("grade-upper") && !said("table-c1-clears"), "{notes}");
    let middle = run(&["ask", "seferian", "steel=4130", "thickness=25", "--json"]);
    assert!(middle.out.contains("grade-middle"), "{}", middle.out);
}

/// "No preheat" is an answer; an input that is given twice is not understood.
#[test]
fn the_exit_status_tells_an_answer_from_a_slip() {
    let lean = ["thickness=10", "hydrogen=3", "heat-input=2"];
    let none = run(&[&["ask", "method-b", "cet=0.2"], &lean[..]].concat());
    assert_eq!(none.status, 0, "{}{}", none.out, none.err);
    assert_eq!(run(&["ask", "seferian", "c-chem=0.1", "thickness=10"]).status, 0);
    assert_eq!(run(&["ask", "dearden-oneill", "ce=0.3"]).status, 1, "no figure is no clearance");
    let arc = ["ask", "heat-input", "volts=25", "amps=150", "process=gmaw", "arc-time=80", "run-length=200"];
    let twice = run(&[&arc[..], &["travel-speed=150"]].concat());
    assert!(twice.status == 2 && twice.err.contains("travel speed"), "{}", twice.err);
    let annex =
        |restraint: &str| run(&["ask", "d11-annex", "pcm=.3", "hydrogen=10", "thickness=25", restraint]);
    assert_eq!(annex("restraint=high").out, annex("restraint=almost no freedom").out);
    assert_eq!(annex("restraint=high").status, 0);
    let with_key = annex("restraint=restraint-high");
    assert!(with_key.status == 2 && with_key.err.contains("low, medium, high"), "{}", with_key.err);
    assert_eq!(annex("restraint=none").status, 2, "it may mean that none is stated");
    assert_eq!(run(&["ask", "combined-thickness", "joint=t both sides", "thickness=20"]).status, 0);
}

/// Past +60 K the shift for hydrogen is held, and what it moves reads "at least" (our rule;
/// common practice, no source).
#[test]
fn a_held_hydrogen_shift_is_at_least() {
    let plan = |hydrogen: &str| {
        let job = [
            "plan",
            "steel=4140",
            "thickness=1 in",
            "joint=butt",
            "process=smaw rutile",
            "condition=annealed",
        ];
        json_of(&run(&[&job[..], &[hydrogen, "heat-input=1.2 kJ/mm", "restraint=medium", "--json"]].concat()))
    };
    for hydrogen in ["hydrogen=30", "hydrogen=60"] {
        let read = plan(hydrogen);
        assert_eq!(read["preheat_at_least"], true, "{hydrogen}");
        for item in read["evidence"].as_array().expect("a list") {
            let held = ["practice-low-h", "ceq-bands"].iter().any(|id| item["method"] == *id);
            assert!(!held || item["at_least"] == true, "{hydrogen}: {item}");
        }
    }
    let inside = plan("hydrogen=16");
    let row = |item: &&Value| item["method"] == "practice-low-h";
    let item = inside["evidence"].as_array().expect("a list").iter().find(row).expect("a row").clone();
    assert_eq!(item["at_least"], false, "{item}");
    for question in [
        vec!["ask", "practice-rows", "grade=4140", "thickness=25", "hydrogen=30"],
        vec!["ask", "ceq-bands", "ceq=0.8", "hydrogen=30"],
        vec!["ask", "carbon-line", "carbon=0.45", "thickness=25", "hydrogen=60"],
    ] {
        let ran = run(&[&question[..], &["--json"]].concat());
        assert!(ran.out.contains("table-end-at-least"), "{question:?}: {}", ran.out);
    }
}

/// Outside the range of the method (EN 1011-2 C.3: C up to 0.32 %): said, not clipped.
#[test]
fn out_of_range_is_said() {
    let ran = run(&["ask", "method-b", "steel=4140", "thickness=30", "hydrogen=5", "heat-input=1"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(ran.out.contains("Outside the range"), "{}", ran.out);
}

#[test]
fn questions_that_are_not_understood() {
    for (arguments, says) in [
        (vec!["ask", "metod-b"], "method-b"),
        (vec!["ask", "method-b", "thickness=thick"], "thickness"),
        (vec!["ask", "method-b", "thickness=30", "hydrogen=H3", "heat-input=1", "cet=.3"], "hydrogen"),
        (vec!["ask", "method-b", "thickness=30"], "hydrogen"),
        (vec!["ask", "method-b", "width=30"], "width"),
        (vec!["ask", "method-b", "thickness=30", "thickness=31"], "thickness"),
        (vec!["ask", "method-b", "steel=4141", "thickness=30"], "SAE 4140"),
        (vec!["ask", "method-b", "thickness"], "thickness"),
    ] {
        let ran = run(&arguments);
        assert_eq!(ran.status, 2, "{arguments:?}: {}", ran.out);
        assert!(ran.err.contains(says), "{arguments:?}: {}", ran.err);
    }
}

#[test]
fn every_question_can_be_listed_and_described() {
    let list = run(&["ask"]);
    assert_eq!(list.status, 0);
    for question in strawblue::questions::ALL {
        assert!(list.out.contains(question.name), "{}", question.name);
        let about = run(&["ask", question.name]);
        assert_eq!(about.status, 0);
        for input in question.inputs {
            assert!(about.out.contains(input.key), "{} {}", question.name, input.key);
        }
        assert!(!about.out.contains("input-") && !about.out.contains(".about"), "{}", about.out);
    }
    let read: Value = serde_json::from_str(&run(&["ask", "--json"]).out).expect("JSON");
    assert_eq!(read["questions"].as_array().map(Vec::len), Some(strawblue::questions::ALL.len()));
}

/// A decimal mark that slipped is asked about by a question as by a plan: 4.1 % is iron, and 0.41 was meant.
#[test]
fn a_slip_of_the_decimal_mark_is_asked_about() {
    for asked in [
        &["ask", "carbon-equivalent", "C=4.1", "Mn=0.8"][..],
        &["ask", "method-b", "composition=C 4.1 Mn 0.8", "thickness=40", "hydrogen=5", "heat-input=1"],
        &["ask", "carbon-equivalent", "steel=4140", "Mn=8.5"],
        &[
            "ask",
            "method-b",
            "composition=unmarked Mn 8.5 C 0.3",
            "thickness=40",
            "hydrogen=5",
            "heat-input=1",
        ],
    ] {
        let ran = run(asked);
        assert_eq!(ran.status, 2, "{asked:?}: {}", ran.out);
        assert!(ran.err.contains("Did you mean 0."), "{}", ran.err);
    }
    let iron = run(&["ask", "carbon-equivalent", "C=3.4", "Si=2.2", "Mn=0.7"]);
    assert_eq!(iron.status, 0, "cast iron is no slip: {}", iron.err);
}

/// A figure is taken with the unit that a shop writes beside it.
#[test]
fn a_figure_comes_with_its_unit() {
    let status = |asked: &[&str]| run(asked).status;
    let plate =
        |hardness: &str| run(&["ask", "cut-preheat", &format!("hardness-hb={hardness}"), "thickness=30"]);
    assert_eq!(plate("400 HB").out + &plate("HBW 400").err, plate("400").out + &plate("400").err);
    assert_eq!(status(&["ask", "cut-preheat", "hardness-hb=42 HRC", "thickness=30"]), 2);
    let minutes = |text: &str| {
        let ran = run(&[
            "ask",
            "acetylene-draw",
            "cylinder=6",
            "fuel-flow=1",
            &format!("draw-minutes={text}"),
            "--json",
        ]);
        assert_eq!(ran.status, 0, "{}{}", ran.out, ran.err);
        ran.out
    };
    assert_eq!(minutes("80"), minutes("1 h 20"));
    assert_eq!(minutes("80"), minutes("80 min"));
}
