//! Steels with figures of their own, and rows of a code beside them: where sources differ the safe side
//! governs and the other is shown.

use crate::jobs::said;
use crate::typed_job::read;
use strawblue::engine::job::Job;
use strawblue::engine::part::LOW_HYDROGEN_ML;
use strawblue::engine::plan::{Action, Deed, Note, Plan, StepFigure, plan};
use strawblue::reference::{Method, embedded};

fn job(steel: &str, condition: &str, thickness: &str, process: &str, more: &[(&str, &str)]) -> Job {
    let mut pairs = vec![
        ("steel", steel),
        ("condition", condition),
        ("thickness", thickness),
        ("joint", "butt"),
        ("process", process),
    ];
    pairs.extend(more);
    read(&pairs).unwrap_or_else(|problems| panic!("{pairs:?}: {problems:?}")).job
}

fn made(steel: &str, condition: &str, thickness: &str, process: &str, more: &[(&str, &str)]) -> Plan {
    plan(embedded(), &job(steel, condition, thickness, process, more))
}

const TEMPERED: &str = "normalised and tempered 700 C";

/// ASME B31.3 Table 330.1.1, P-No. 4: 120 °C (2014), 149 °C (2010), both required; the naval table
/// (NAVSEA S9074-AR-GIB-010/278, Table IV S-4) prints 60 °F for thin and weak parts.
#[test]
fn the_piping_code_speaks_for_creep_resisting_steel() {
    for steel in ["P11", "P12", "A387-11", "A182-F11", "13CrMo4-5"] {
        let plan = made(steel, TEMPERED, "8", "gtaw", &[]);
        assert!(plan.minimum_c.is_some_and(|minimum_c| minimum_c >= 149.0), "{steel}: {:?}", plan.minimum_c);
        let shown: Vec<f64> = plan
            .evidence
            .iter()
            .filter(|item| item.outcome.method == Method::PipingRow && item.member == Some(0))
            .filter_map(|item| item.outcome.value)
            .collect();
        assert_eq!(shown, [120.0, 149.0], "{steel}");
        assert!(plan.evidence.iter().any(|item| item.outcome.method == Method::OwnSheet), "{steel}");
    }
    // 60 °F of the naval table, 10 °C of the code: carbon-molybdenum steel needs none, and is that warm.
    let thin = made("P1", "normalised", "6", "gtaw", &[]);
    assert_eq!(thin.minimum_c, Some(0.0));
    let dry_c = thin.dry_from.expect("a least").exact_c;
    assert!((15.5..=20.0).contains(&dry_c), "{dry_c}");
}

/// A part that needs no preheat isn't put into the furnace from it (common practice, no source).
#[test]
fn nothing_goes_into_the_furnace_from_a_preheat_that_is_none() {
    for (steel, none) in [("P1", true), ("P22", false)] {
        let plan = made(steel, "normalised", "6", "gtaw", &[]);
        assert_eq!(plan.minimum.is_none(), none, "{steel}");
        let from_preheat = plan.sequence.ways().flatten().any(|step| step.notes.contains(&Note::FromPreheat));
        assert_eq!(from_preheat, !none, "{steel}");
    }
}

/// Bulletin of electrode makers on 4130: tube under 0.120 in at 70 °F or warmer, no preheat.
#[test]
fn thin_tube_is_as_warm_as_printed_in_any_shop() {
    for shop in ["", "20", "19", "5"] {
        let more = [("hydrogen", "2 ml"), ("restraint", "low"), ("shop", shop)];
        let plan = made("4130", "normalised", "2", "gtaw", &more[..if shop.is_empty() { 2 } else { 3 }]);
        assert_eq!((plan.minimum_c, plan.verdict.id()), (Some(0.0), "no-preheat"), "shop {shop}");
        assert_eq!(plan.dry_from.map(|least| least.exact_c.floor()), Some(21.0), "shop {shop}");
    }
    let cold = made(
        "4130",
        "normalised",
        "2",
        "gtaw",
        &[("hydrogen", "2 ml"), ("restraint", "low"), ("shop", "-5")],
    );
    assert_eq!(cold.minimum_c, Some(21.0));
    // A plate that Table C.1 or a category clears is dry and at 5 °C (EN 1011-2; AWS D1.1).
    let plate = made("S355J2", "as rolled", "12", "gmaw", &[]);
    assert_eq!(plate.dry_from.map(|least| least.exact_c), Some(5.0));
}

/// H11 is preheated as H13 (common practice, no source).
#[test]
fn h11_is_treated_as_h13() {
    let figures = |steel| {
        let plan = made(steel, "quenched and tempered 600 C", "40", "gtaw", &[]);
        (plan.minimum_c, plan.interpass_c, plan.ceiling_c)
    };
    assert_eq!(figures("H11"), figures("H13"));
    assert_eq!(figures("H11").0, Some(320.0));
}

/// A tool steel whose analysis the methods know needs no less than a steel of that analysis, within the
/// span of its sheet (common practice, no source).
#[test]
fn a_tool_steel_is_no_easier_than_its_analysis() {
    for steel in ["P20", "40CrMnMo7", "W1", "L6", "O1"] {
        let grade = embedded().grades.get(steel).expect("a tool steel");
        for thickness in ["10", "60", "250"] {
            for hydrogen in ["2 ml", "10 ml"] {
                let named = job(steel, "annealed", thickness, "gmaw", &[("hydrogen", hydrogen)]);
                let mut alone = named.clone();
                for member in &mut alone.members {
                    member.steel = strawblue::engine::job::Steel::Certificate {
                        composition: grade.nominal(),
                        grade: None,
                    };
                }
                let (named, alone) = (plan(embedded(), &named), plan(embedded(), &alone));
                let what =
                    format!("{steel} {thickness} mm {hydrogen}: {:?} {:?}", named.minimum_c, alone.minimum_c);
                assert!(
                    named.usable_window && named.minimum_c.is_some_and(|c| (200.0..=375.0).contains(&c)),
                    "{what}"
                );
                let enough =
                    named.minimum_c >= alone.minimum_c || named.minimum.is_some_and(|limit| limit.at_least);
                assert!(enough, "{what}");
            }
        }
    }
    let most = made("P20", "quenched and tempered 550 C", "250", "gmaw", &[("hydrogen", "10 ml")]);
    let least = made("P20", "quenched and tempered 550 C", "25", "gtaw", &[]);
    assert!(most.minimum_c > least.minimum_c);
}

/// Steel that hardens in air is not welded with rutile or cellulosic rods; a sheet with one figure is made
/// for low hydrogen and an easy joint (common practice, no source).
#[test]
fn a_sheet_says_what_it_presumes() {
    assert!((LOW_HYDROGEN_ML - embedded().d11.low_hydrogen_ml).abs() < 1e-9);
    for (steel, condition) in [
        ("P22", TEMPERED),
        ("P91", TEMPERED),
        ("410", "annealed"),
        ("P20", "quenched and tempered 550 C"),
        ("H13", "annealed"),
    ] {
        for process in ["smaw cellulosic", "smaw rutile"] {
            let wet = made(steel, condition, "25", process, &[]);
            assert!(wet.asks.iter().any(|asked| asked.ask.id() == "low-hydrogen"), "{steel} {process}");
            assert!(!wet.verdict.answers() && wet.minimum_c.is_none(), "{steel} {process}");
        }
        let easy = job(steel, condition, "25", "gtaw", &[]);
        let plan_of_easy = plan(embedded(), &easy);
        assert!(said(&easy, &plan_of_easy).contains("assumes low hydrogen"), "{steel}");
        for more in [("restraint", "high"), ("shop", "-20"), ("damp", "yes")] {
            let hard = made(steel, condition, "25", "gtaw", &[more]);
            assert!(hard.minimum.is_some_and(|limit| limit.at_least), "{steel} {more:?}");
        }
    }
    assert!(made("P22", TEMPERED, "150", "gtaw", &[]).minimum.is_some_and(|limit| limit.at_least));
    assert!(made("P22", TEMPERED, "25", "gtaw", &[]).minimum.is_some_and(|limit| !limit.at_least));
}

/// A rail is preheated to 350–400 °C, cools slowly and is not tempered (common practice of rail welding, no
/// source).
#[test]
fn a_rail_cools_slowly_and_is_not_tempered() {
    let plan = made("R260", "as rolled", "40", "smaw basic", &[("hydrogen", "5 ml")]);
    assert_eq!((plan.minimum_c, plan.interpass_c), (Some(350.0), Some(400.0)));
    assert!(
        !plan.actions.contains(&Action::HeatTreatStraightAfter) && plan.actions.contains(&Action::CoolSlowly)
    );
    let deeds: Vec<Deed> = plan.sequence.ways().flatten().map(|step| step.deed).collect();
    assert!(!deeds.contains(&Deed::TemperNow) && !deeds.contains(&Deed::PostHeat), "{deeds:?}");
}

/// ASME B31.3-2014 Table 330.1.1, P-No. 1, up to 25 mm: 10 °C. A105 and A106 Gr C belong to it with up to
/// 0.35 % of carbon: the row is shown, Method B (EN 1011-2 C.3.3) knows their carbon and governs.
#[test]
fn thin_carbon_steel_of_the_piping_code_is_weighed_by_method_b() {
    for steel in ["A105", "A106C"] {
        for (thickness, process) in [("6", "gtaw"), ("25", "gmaw")] {
            let condition = if steel == "A105" { "normalised" } else { "as rolled" };
            let plan = made(steel, condition, thickness, process, &[]);
            let rows: Vec<Option<f64>> = plan
                .evidence
                .iter()
                .filter(|item| item.outcome.method == Method::PipingRow && item.member == Some(0))
                .map(|item| item.outcome.value)
                .collect();
            assert_eq!(rows, [Some(10.0)], "{steel} {thickness}");
            assert_eq!(plan.governing().map(|item| item.outcome.method), Some(Method::MethodB), "{steel}");
            let names = plan.evidence.iter().filter_map(|item| item.outcome.row.as_deref());
            assert_eq!(names.filter(|name| *name == "4340").count(), 0, "{steel}");
        }
        // What the row isn't made for: restraint, much hydrogen, more than 25 mm.
        let easy = made(steel, "as rolled", "20", "gtaw", &[]).minimum_c;
        for more in [("restraint", "high"), ("hydrogen", "16 ml")] {
            let process = if more.0 == "hydrogen" { "fcaw" } else { "gtaw" };
            let hard = made(steel, "as rolled", "20", process, &[more]);
            assert!(hard.minimum_c > easy, "{steel} {more:?}");
        }
    }
}

/// 9 % chromium steel is tempered at 730 °C or more (from memory of ASTM A335): 300 °C is a figure for
/// runs. API RP 934-C as quoted: chromium-molybdenum steel is held at 300 °C or more for an hour.
#[test]
fn creep_resisting_steel_has_a_ceiling_by_its_temper_and_a_post_heat() {
    let modified = made("P91", "normalised and tempered", "25", "gtaw", &[]);
    assert_eq!((modified.interpass_c, modified.ceiling_c), (Some(300.0), Some(700.0)));
    for steel in ["P91", "P22", "P11"] {
        let plan = made(steel, TEMPERED, "25", "gtaw", &[]);
        let most_c = plan.interpass_c.expect("a maximum");
        let step =
            plan.sequence.ways().flatten().find(|step| step.deed == Deed::PostHeatBySheet).expect("a hold");
        assert_eq!(step.figure, Some(StepFigure::Hours(1.0)), "{steel}");
        let held = step.notes.iter().find_map(|note| match note {
            Note::HeldAt { low, high } => Some((low.exact_c, high.exact_c)),
            _ => None,
        });
        assert!(
            held.is_some_and(|(low, high)| low >= 300.0 && high <= most_c && low <= high),
            "{steel} {held:?}"
        );
        assert_eq!(step.notes.contains(&Note::TurnBefore), steel == "P91", "{steel}");
    }
    // Nothing is printed for 13 % chromium steel, and none fits under a lower maximum.
    for plan in [
        made("410", "annealed", "25", "gtaw", &[]),
        made("P22", TEMPERED, "25", "gtaw", &[("demand-interpass", "280")]),
    ] {
        let step =
            plan.sequence.ways().flatten().find(|step| step.deed == Deed::PostHeatBySheet).expect("a step");
        assert!(step.figure.is_none() && step.notes.contains(&Note::HoursBySheet));
    }
}
