//! The engine reads its limits, bases and conditions from the dataset.

use crate::jobs::{Known, MemberRow, RunRow, job};
use strawblue::engine::evidence::{Obligation, Standing};
use strawblue::engine::job::{Job, Joint, Process, Restraint};
use strawblue::engine::plan::plan;
use strawblue::reference::{Basis, Composition, ConditionKind, GradeFamily, Method, embedded};
use strawblue::report::{Pen, answer};
use strawblue::units::{Show, Units};
use strawblue::words::Words;

/// One part of a grade, welded by a basic electrode.
fn one_part(grade: &str, thickness_mm: f64, condition: ConditionKind) -> Job {
    let member = MemberRow {
        grade: Some(grade.to_owned()),
        known: Known::ByGrade,
        certificate: Composition::default(),
        thickness_mm,
        condition,
        temper_c: None,
        round: false,
        hardness_hv: None,
        yield_mpa: None,
    };
    let run = RunRow { process: Process::SmawBasic, hydrogen_ml: 5.0, net_heat_kj_per_mm: 1.5 };
    job(embedded(), &[member], Joint::Butt, &[run], Restraint::Medium)
}

#[test]
fn cold_steel_is_warmed_as_the_row_says() {
    let cold = &embedded().d11.cold_start;
    let at = |shop_c: f64| {
        let mut job = one_part("S355J2", 20.0, ConditionKind::AsRolled);
        job.shop_c = shop_c;
        let plan = plan(embedded(), &job);
        let warmed = plan.evidence.iter().find(|item| item.outcome.method == Method::ColdShop);
        warmed.map(|item| (item.obligation, item.outcome.printed.and_then(|printed| printed.c)))
    };
    assert_eq!(at(cold.below_c - 0.1), Some((Obligation::DryAndWarm, Some(cold.warm_to_c))));
    assert_eq!(at(cold.below_c), None);
}

#[test]
fn what_a_row_marks_as_shown_only_never_governs() {
    let mut met = std::collections::BTreeSet::new();
    for (id, condition) in [
        ("S355J2", ConditionKind::AsRolled),
        ("1045", ConditionKind::AsRolled),
        ("4140", ConditionKind::Normalised),
        ("4340", ConditionKind::Annealed),
        ("8620", ConditionKind::Normalised),
        ("S690QL", ConditionKind::HardenedTempered),
    ] {
        for thickness_mm in [5.0, 25.0, 80.0] {
            for item in plan(embedded(), &one_part(id, thickness_mm, condition)).evidence {
                let method = embedded().methods.row(item.outcome.method);
                if !method.shown_only {
                    continue;
                }
                met.insert(method.id.clone());
                assert_eq!(item.standing, Standing::ShownOnly, "{} for {id} {thickness_mm} mm", method.id);
            }
        }
    }
    assert!(met.len() >= 4, "only {met:?} were met");
}

// TWI, answers on welding nodular iron: pearlitic iron from 250 °C.
#[test]
fn published_spans_for_iron_stand_beside_the_routes() {
    let words = Words::english();
    let pen = Pen { reference: embedded(), words: &words, show: Show::new(Units::C_MM, &words) };
    let lines = |id: &str| {
        let job = one_part(id, 30.0, ConditionKind::AsCast);
        answer(&pen, &job, &plan(embedded(), &job)).lines.join("\n").replace('\u{a0}', " ")
    };
    let ductile = lines("DUCT");
    assert!(
        ductile.contains("Pearlitic or hardened ductile iron, for comparison: At least 250 °C. TWI"),
        "{ductile}"
    );
    // One line on the methods, and one that asks for the filler.
    assert_eq!(ductile.lines().count(), 2 + embedded().own_sheets.spans_of(GradeFamily::DuctileIron).count());
    assert!(lines("GREY").contains("Grey iron, hot method, for comparison: 260–650 °C"), "{}", lines("GREY"));
    assert!(!lines("GREY").contains("ductile"));
}

/// The shape factors of a joint are from memory or common practice: an answer that takes
/// them says so, and is not called published.
#[test]
fn a_cooling_time_is_as_weak_as_its_shape_factors() {
    use strawblue::questions::{self, Answers, Given};
    fn basis_of(reply: &questions::Reply) -> &Basis {
        reply.answers[0].basis(&embedded().methods)
    }
    for joint in Joint::ALL {
        let row = embedded().joint(joint.id()).unwrap();
        let given = Answers::new()
            .with("heat-input", Given::Number(1.0))
            .with("preheat", Given::Number(100.0))
            .with("joint", Given::Choice(joint.id().to_owned()));
        let question = questions::find("cooling-time").unwrap();
        let by_joint = question.ask(&given).unwrap();
        assert_eq!(*basis_of(&by_joint), row.factors_basis, "{}", row.id);
        assert_ne!(basis_of(&by_joint).kind(), "published", "{}", row.id);
        assert!(by_joint.notes.contains(&"shape-factors-memory"));
        let own = given.with("f2", Given::Number(0.9)).with("f3", Given::Number(0.9));
        assert_eq!(basis_of(&question.ask(&own).unwrap()).kind(), "published");
    }
}

#[test]
fn joints_and_processes_have_their_rows() {
    for joint in Joint::ALL {
        let row = embedded().joint(joint.id()).unwrap_or_else(|| panic!("no row for {}", joint.id()));
        assert!(row.ways.first > 0 && row.f2.low <= row.f2.high && row.f3.low <= row.f3.high, "{}", row.id);
        assert!(!matches!(&row.ways_basis, Basis::Published { .. }), "{}: no public text was opened", row.id);
    }
    for process in Process::ALL {
        let row = embedded().process(process.id()).unwrap_or_else(|| panic!("no row for {}", process.id()));
        assert!((0.2..=1.0).contains(&row.efficiency), "{}", process.id());
    }
}
