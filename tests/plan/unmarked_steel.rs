//! What the guided test of a steel without a mark ends in makes a plan at least as hot as that of any steel
//! that its answers allow.

use std::collections::BTreeMap;

use strawblue::engine::job::{Condition, Job, Member, Steel};
use strawblue::engine::plan::{Action, Remark, plan};
use strawblue::engine::unmarked::{Alloy, End};
use strawblue::job::typed::{UnmarkedLine, composition};
use strawblue::job::{OwnSteel, Reading, read_job};
use strawblue::questions::{Answers, BenchTest, Given, Kind, find, walk};
use strawblue::reference::{Composition, ConditionKind, Element, Grade, GradeFamily, embedded};
use strawblue::units::Units;
use strum::IntoEnumIterator;

use crate::typed_job;

/// The demo's joint between two parts of one steel, 30 mm thick.
fn job(steel: &Steel) -> Job {
    let reading = Reading {
        reference: embedded(),
        own_steels: &[],
        units: Units::C_MM,
        mark: strawblue::units::Mark::Point,
    };
    let text = typed_job::job(&[
        ("joint", "bar-to-bar"),
        ("process", "gtaw"),
        ("hydrogen", "5"),
        ("heat-input", "1.2"),
        ("steel", "S355J2"),
        ("diameter", "30"),
    ]);
    let base = read_job(&text, &reading).expect("a job").job;
    let member = Member {
        steel: steel.clone(),
        condition: Condition { kind: ConditionKind::Unknown, temper_c: None },
        thickness_mm: 30.0,
        round: true,
        yield_mpa: None,
        hardness_hv: None,
        buttered: false,
    };
    Job { members: vec![member.clone(), member], ..base }
}

/// The richest that a grade may be.
fn worst(grade: &Grade) -> Composition {
    Element::ALL.iter().fold(Composition::default(), |made, &element| {
        let limits = grade.composition.get(&element);
        made.with(element, limits.and_then(|limits| limits.max.or(limits.min)).unwrap_or(0.0))
    })
}

/// Is it a plain or low-alloy steel? Those with a family of their own end elsewhere, or are asked.
fn is_steel(grade: &Grade) -> bool {
    let own = [
        GradeFamily::ToolSteel,
        GradeFamily::GreyIron,
        GradeFamily::DuctileIron,
        GradeFamily::AusteniticManganese,
        GradeFamily::StainlessAustenitic,
        GradeFamily::StainlessFerritic,
        GradeFamily::StainlessDuplex,
        GradeFamily::StainlessMartensitic,
        GradeFamily::DoNotWeldLead,
        GradeFamily::DoNotWeldSulphur,
        GradeFamily::DoNotWeldHighSpeed,
    ];
    // What has more than 3 % chromium or manganese is no low-alloy steel, and 9 % nickel no steel of a bench.
    let most = |element| grade.max_of(element).unwrap_or(0.0);
    !own.contains(&grade.family)
        && most(Element::Cr) <= 3.0
        && most(Element::Mn) <= 2.5
        && most(Element::Ni) <= 2.5
}

/// Has it as little alloy as a test can show?
fn is_lean(grade: &Grade) -> bool {
    let lean = &embedded().unmarked.lean.composition;
    let elements = [Element::Mn, Element::Cr, Element::Mo, Element::Ni, Element::V, Element::Cu];
    elements.iter().all(|&element| grade.max_of(element).unwrap_or(0.0) <= lean.get(element) + 1e-9)
        && grade.max_of(Element::B).unwrap_or(0.0) < 0.0005
}

/// The minimum of a plan, °C; none where it has no figure.
fn minimum_c(steel: &Steel) -> Option<f64> {
    plan(embedded(), &job(steel)).minimum_c
}

/// As the page hands it to the plan and a file keeps it.
fn handed(counted: &Composition, alloy: Alloy, maybe_tool: bool) -> Steel {
    let own = OwnSteel::of_test("bar".to_owned(), UnmarkedLine { alloy, maybe_tool }, counted);
    let line = composition(&own.composition).expect("a line");
    line.unmarked_steel(&embedded().unmarked).expect("it says that it is unmarked")
}

/// Every answer of every test of the page, with the one that nobody gave; the first figure of each hardness.
fn choices() -> Vec<Vec<Option<(&'static str, Given)>>> {
    let question = find("unmarked-steel").expect("a question");
    let of = |key: &'static str| {
        let mut all = vec![None];
        match question.input(key).expect("an input").kind {
            Kind::Choice(ids) => {
                all.extend(ids.iter().map(|id| Some((key, Given::Choice((*id).to_owned())))));
            }
            Kind::Flag => all.push(Some((key, Given::Flag(true)))),
            _ => all.extend([24.0, 38.0, 52.0, 60.0].map(|hrc| Some((key, Given::Number(hrc))))),
        }
        all
    };
    let keys = ["file-bite", "spark", "known-bar", "magnet", "was", "cut-edge", "air-coupon", "quench-hrc"];
    keys.into_iter().map(of).collect()
}

/// All paths of the page: what each counts with covers each steel of the data that its answers allow.
#[test]
fn no_path_ends_in_a_plan_that_is_too_cool() {
    let choices = choices();
    let paths: usize = choices.iter().map(Vec::len).product();
    // Most paths end alike: each end is planned once.
    let mut ends: BTreeMap<String, (Composition, Alloy, bool, f64)> = BTreeMap::new();
    let mut walked = 0;
    for path in 0..paths {
        let mut left = path;
        let given = choices.iter().fold(Answers::new(), |answers, some| {
            let at = left % some.len();
            left /= some.len();
            match &some[at] {
                Some((key, value)) => answers.with(*key, value.clone()),
                None => answers,
            }
        });
        walked += 1;
        let found = walk(&given, &[]).expect("the answers go together");
        let Some(steel) = found.steel else { continue };
        let reading = &found.reading;
        assert!(steel.get(Element::C) >= reading.carbon.1 - 1e-9);
        let tool = reading.end == End::AtLeast;
        let key = format!("{:?} {} {}", reading.alloy, reading.carbon.1, tool);
        ends.entry(key).or_insert((steel, reading.alloy, tool, reading.carbon.1));
    }
    assert!(walked > 250_000 && ends.len() >= 8, "{walked} {:?}", ends.keys());
    let mut checked = 0;
    for (counted, alloy, tool, top) in ends.values() {
        let steel = handed(counted, *alloy, *tool);
        let own_c = minimum_c(&steel).unwrap_or_else(|| panic!("no figure for {steel:?}"));
        let allowed = embedded().grades.iter().filter(|grade| {
            let carbon = grade.max_of(Element::C).unwrap_or(0.0);
            is_steel(grade) && carbon <= top + 1e-9 && (*alloy == Alloy::Rich || is_lean(grade))
        });
        for grade in allowed {
            let as_grade = Steel::Grade(std::sync::Arc::new(grade.clone()));
            let as_worst = Steel::Certificate { composition: worst(grade), grade: None };
            for (which, other) in [("grade", as_grade), ("richest", as_worst)] {
                let Some(other_c) = minimum_c(&other) else { continue };
                assert!(
                    own_c >= other_c - 1e-9,
                    "{} as {which} needs {other_c} °C, {alloy:?} with carbon to {top} % gives {own_c} °C",
                    grade.id
                );
                checked += 1;
            }
        }
    }
    assert!(checked > 500, "only {checked}");
}

/// The plan knows what it has before it: no certificate, but the worst that a test left.
#[test]
fn the_plan_says_that_it_is_unmarked() {
    for (text, alloy, tool) in [
        ("unmarked C 0.6", Alloy::Rich, false),
        ("Unmarked lean C 0.3", Alloy::Lean, false),
        ("unmarked tool C 1.4", Alloy::Rich, true),
        ("unmarked", Alloy::Rich, false),
    ] {
        let steel = composition(text).expect("a line").unmarked_steel(&embedded().unmarked).expect("a steel");
        let Steel::Unmarked { alloy: read, maybe_tool, .. } = &steel else { panic!("{text}") };
        assert_eq!((*read, *maybe_tool), (alloy, tool), "{text}");
        let plan = plan(embedded(), &job(&steel));
        let minimum = plan.minimum.as_ref().unwrap_or_else(|| panic!("{text}: no minimum"));
        assert!(minimum.at_least, "{text}");
        assert!(plan.actions.contains(&Action::TrialPiece), "{text}");
        let said = plan.remarks.iter().filter(|remark| matches!(remark, Remark::Unmarked { .. })).count();
        assert_eq!(said, 1, "{text}: two parts of one bar are spoken of once");
        // What nobody measured is no measure.
        assert!(!plan.remarks.iter().any(|remark| matches!(remark, Remark::HotShort { .. })), "{text}");
    }
}

/// Each test that can be passed over leaves the path no leaner.
#[test]
fn a_test_that_is_passed_over_leaves_the_worst() {
    let given = |pairs: &[(&str, &str)]| {
        pairs.iter().fold(Answers::new(), |made, (key, id)| made.with(*key, Given::Choice((*id).to_owned())))
    };
    let drawn = given(&[("file-bite", "easy"), ("spark", "more-forks"), ("magnet", "strong")]);
    let open = walk(&drawn, &[]).expect("answers");
    assert_eq!(open.next, Some(BenchTest::Alloy), "it is asked before the end whether it is alloyed");
    let passed = walk(&drawn, &[BenchTest::Alloy]).expect("answers");
    assert_eq!((passed.next, passed.reading.alloy), (None, Alloy::Rich));
    let all: Vec<BenchTest> = BenchTest::iter().collect();
    let nothing = walk(&Answers::new(), &all).expect("answers");
    assert_eq!((nothing.next, nothing.steel), (None, None));
    let skates = walk(&given(&[("file-bite", "skates"), ("spark", "few-forks"), ("magnet", "strong")]), &[]);
    assert_eq!(skates.expect("answers").next, Some(BenchTest::Ground), "a case is asked for");
}

/// No test of the bench finds boron, so a lean steel may be a quenched and tempered one until its condition
/// is told: the plan asks, and its upper side is that of such a plate.
#[test]
fn a_lean_unmarked_steel_may_be_quenched_and_tempered() {
    let data = &embedded().unmarked;
    let steel = Steel::Unmarked {
        composition: data.lean.composition.with(Element::C, 0.20),
        alloy: Alloy::Lean,
        maybe_tool: false,
    };
    let asked = job(&steel);
    let open = plan(embedded(), &asked);
    assert!(!open.asks.is_empty(), "the condition is asked");
    assert!(open.ceiling_c.is_some() || !open.ask_temper.is_empty(), "{:?}", open.ceiling);
    assert!(open.interpass_c.expect("a maximum") <= 200.0, "{:?}", open.interpass_c);
    // 145 HV is some 465 MPa of tensile strength (ISO 18265): no quenched and tempered plate is that soft.
    let mut soft = asked.clone();
    soft.members.iter_mut().for_each(|member| member.hardness_hv = Some(145.0));
    assert!(plan(embedded(), &soft).interpass_c > open.interpass_c, "a soft one is none");
    let mut rolled = asked;
    for member in &mut rolled.members {
        member.condition.kind = ConditionKind::AsRolled;
    }
    let told = plan(embedded(), &rolled);
    assert!(told.interpass_c > open.interpass_c, "{:?} beside {:?}", told.interpass_c, open.interpass_c);
}
