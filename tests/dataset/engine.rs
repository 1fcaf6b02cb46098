//! Where the engine writes a figure down that the dataset holds too, the two are one.

use crate::jobs::{Known, MemberRow, RunRow, job};
use strawblue::engine::hydrogen::{COE_MORETON_ROWS, HydrogenScale as Letter};
use strawblue::engine::inspection::{WeldToInspect, nsss_h, wait_rules};
use strawblue::engine::job::{Job, Joint, Process, Restraint};
use strawblue::engine::plan::{Family, Obligation, Standing, plan};
use strawblue::engine::source_ids;
use strawblue::reference::{Basis, Composition, ConditionKind, GradeFamily, HydrogenScale, embedded};
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
    };
    let run = RunRow { process: Process::SmawBasic, hydrogen_ml: 5.0, net_heat_kj_per_mm: 1.5 };
    job(embedded(), &[member], Joint::Butt, &[run], Restraint::Medium)
}

#[test]
fn every_source_of_a_formula_has_its_row() {
    for id in source_ids::ALL {
        assert!(embedded().source(id).is_some(), "data/sources.ron lacks {id}");
    }
    for source in embedded().sources.iter().filter(|source| source.in_engine) {
        assert!(source_ids::ALL.contains(&source.id.as_str()), "{} is not named by the engine", source.id);
    }
}

#[test]
fn diffusion_points_agree() {
    let mut points: Vec<(f64, f64)> =
        embedded().own_sheets.diffusion.points.iter().map(|point| (point.at_c, point.cm2_per_s)).collect();
    points.sort_by(|a, b| a.0.total_cmp(&b.0));
    assert_eq!(points, COE_MORETON_ROWS);
}

#[test]
fn nsss_waits_agree() {
    let mut rows = 0;
    for rule in embedded().inspection.iter().filter(|rule| rule.id.starts_with("nsss-")) {
        rows += 1;
        let size = rule.size_up_to_mm.unwrap_or(100.0);
        let heats = match (rule.heat_input_above, rule.heat_input_up_to) {
            (Some(above), _) => vec![above + 0.01, above + 2.0],
            (None, Some(up_to)) => vec![up_to, up_to - 1.0],
            (None, None) => vec![1.0, 5.0],
        };
        for heat in heats {
            assert_eq!(nsss_h(size, heat), rule.hours, "{} at {size} mm, {heat} kJ/mm", rule.id);
            if let Some(above) = rule.size_above_mm {
                assert_eq!(nsss_h(above + 0.01, heat), rule.hours, "{} just above {above} mm", rule.id);
            }
        }
    }
    assert_eq!(rows, 5, "all rows of the table are compared");
}

#[test]
fn every_other_wait_agrees() {
    let plain = WeldToInspect {
        family: Family::Structural,
        thickness_mm: 25.0,
        size_mm: None,
        yield_mpa: None,
        net_heat_kj_per_mm: 1.5,
        restraint: Restraint::Medium,
        heat_treated: false,
    };
    let rule = |weld: WeldToInspect, name: &str| {
        wait_rules(&weld)
            .into_iter()
            .find(|rule| rule.name == name)
            .unwrap_or_else(|| panic!("no rule {name}"))
    };
    let quenched = WeldToInspect { family: Family::QuenchedTempered, ..plain };
    let mut rows = 0;
    for row in embedded().inspection.iter().filter(|row| !row.id.starts_with("nsss-")) {
        rows += 1;
        let name = match row.id.as_str() {
            "en-1011-2-18" => "wait-en-1011-2",
            "eemua-158" => "wait-eemua-158",
            "d11-quenched-tempered" => "wait-d1-1",
            "csa-w59" => "wait-csa-w59",
            other => panic!("the engine knows no {other}"),
        };
        let asked = if row.quenched_tempered { quenched } else { plain };
        assert_eq!(rule(asked, name).wait_h, row.hours, "{}", row.id);
        if row.quenched_tempered {
            assert!(rule(quenched, name).applies && !rule(plain, name).applies, "{}", row.id);
        }
        if row.none_after_heat {
            let treated = WeldToInspect { heat_treated: true, ..plain };
            assert_eq!(rule(treated, name).wait_h, 0.0, "{}", row.id);
        }
        // Where a text asks for more and leaves open how much, a longer rule comes in there and not before.
        let longer = |weld| {
            let longer = rule(weld, "wait-eemua-158");
            longer.applies && longer.wait_h > row.hours
        };
        if let Some(above_mm) = row.longer_above_mm {
            assert!(!longer(WeldToInspect { thickness_mm: above_mm, ..plain }), "{}", row.id);
            assert!(longer(WeldToInspect { thickness_mm: above_mm + 0.1, ..plain }), "{}", row.id);
        }
        if let Some(above_mpa) = row.longer_above_yield_mpa {
            assert!(!longer(WeldToInspect { yield_mpa: Some(above_mpa), ..plain }), "{}", row.id);
            assert!(longer(WeldToInspect { yield_mpa: Some(above_mpa + 1.0), ..plain }), "{}", row.id);
        }
    }
    assert_eq!(rows, 4, "all rows beside the table are compared");
}

#[test]
fn cold_steel_is_warmed_as_the_row_says() {
    let cold = &embedded().d11.cold_start;
    let at = |shop_c: f64| {
        let mut job = one_part("S355J2", 20.0, ConditionKind::AsRolled);
        job.shop_c = shop_c;
        let plan = plan(embedded(), &job);
        let warmed = plan.evidence.iter().find(|item| item.id == "cold-shop");
        warmed.map(|item| (item.obligation, item.printed.and_then(|printed| printed.c)))
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
                let Some(method) = embedded().method(item.id).filter(|method| method.shown_only) else {
                    continue;
                };
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
    assert!(ductile.contains("Pearlitic or hardened ductile iron: 250 °C at least. TWI"), "{ductile}");
    assert_eq!(ductile.lines().count(), 1 + embedded().own_sheets.spans_of(GradeFamily::DuctileIron).count());
    assert!(lines("GREY").contains("Grey iron, hot method: 260–650 °C"), "{}", lines("GREY"));
    assert!(!lines("GREY").contains("ductile"));
}

#[test]
fn hydrogen_letters_agree() {
    let mut letters = 0;
    for row in embedded().designators.iter().filter(|row| row.scale == HydrogenScale::Letter) {
        letters += 1;
        let letter = Letter::ALL.into_iter().find(|letter| letter.letter() == row.text).unwrap();
        let (low, high) = letter.band_ml();
        assert_eq!((row.above_ml.unwrap_or(0.0), row.up_to_ml), (low, high), "letter {}", row.text);
    }
    assert_eq!(letters, 5);
}

/// A formula names one source, whoever asks it: the text in which it was really seen.
#[test]
fn a_formula_has_one_basis() {
    use strawblue::engine::carbon_equivalent::Equivalent;
    use strawblue::questions::{self, Answers, Given};
    let method =
        |id: &str| embedded().methods.get(id).unwrap_or_else(|| panic!("no method {id}")).basis.clone();
    for which in Equivalent::ALL {
        let id = if which == Equivalent::CeqBands { "ceq-s49" } else { which.id() };
        assert_eq!(which.basis(), method(id), "{id}");
    }
    let given: &[(&'static str, f64)] = &[
        ("cet", 0.3),
        ("c-chem", 0.5),
        ("pcm", 0.3),
        ("ce", 0.5),
        ("thickness", 30.0),
        ("hydrogen", 5.0),
        ("heat-input", 1.0),
        ("weld-thickness", 30.0),
        ("strength", 700.0),
        ("volts", 25.0),
        ("amps", 150.0),
        ("travel-speed", 2.5),
        ("efficiency", 0.8),
        ("preheat", 100.0),
        ("cooling-time", 10.0),
        ("f3", 0.9),
    ];
    for (name, id) in [
        ("method-b", "method-b"),
        ("seferian", "seferian"),
        ("ito-bessyo", "ito-bessyo"),
        ("multi-run", "multi-run"),
        ("dearden-oneill", "dearden-oneill"),
        ("table-c1", "table-c1"),
        ("heat-input", "heat-input"),
        ("cooling-time", "t85"),
        ("preheat-for-cooling-time", "t85"),
    ] {
        let question = questions::find(name).unwrap();
        let mut answers = Answers::new();
        for (key, value) in given.iter().filter(|(key, _)| question.input(key).is_some()) {
            answers.set(*key, Given::Number(*value));
        }
        let reply = question.ask(&answers).unwrap_or_else(|problem| panic!("{name}: {problem}"));
        assert_eq!(reply.answers[0].basis, method(id), "{name}");
    }
    assert_eq!(embedded().practice.dearden_oneill.basis, method("dearden-oneill"));
}

/// The shape factors of a joint are from memory or common practice: an answer that takes
/// them says so, and is not called published.
#[test]
fn a_cooling_time_is_as_weak_as_its_shape_factors() {
    use strawblue::questions::{self, Answers, Given};
    for joint in Joint::ALL {
        let row = embedded().joint(joint.id()).unwrap();
        let given = Answers::new()
            .with("heat-input", Given::Number(1.0))
            .with("preheat", Given::Number(100.0))
            .with("joint", Given::Choice(joint.id().to_owned()));
        let question = questions::find("cooling-time").unwrap();
        let by_joint = question.ask(&given).unwrap();
        assert_eq!(by_joint.answers[0].basis, row.factors_basis, "{}", row.id);
        assert_ne!(by_joint.answers[0].basis.kind(), "published", "{}", row.id);
        assert!(by_joint.notes.contains(&"shape-factors-memory"));
        let own = given.with("f2", Given::Number(0.9)).with("f3", Given::Number(0.9));
        assert_eq!(question.ask(&own).unwrap().answers[0].basis.kind(), "published");
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
        assert_eq!(row.efficiency, process.efficiency(), "{}", process.id());
        assert_eq!(row.low_hydrogen, process.low_hydrogen(), "{}", process.id());
    }
}
