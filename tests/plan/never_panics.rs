//! Whatever is typed: a problem in words, or a plan whose figures are figures and whose
//! words are words. And every grade, in every condition it comes in.

use crate::typed_job::{every_slot, job};
use proptest::prelude::*;
use std::sync::Arc;
use strawblue::engine::job::{
    Code, Condition, Demands, Job, Joint, Member, Process, Restraint, Run, Steel, WeldMetal,
};
use strawblue::engine::plan::{Plan, plan};
use strawblue::engine::safety_facts::SafetyFacts;
use strawblue::engine::weld_of_job::WeldTold;
use strawblue::job::{JobText, Reading, Slot, demo_job, read_job};
use strawblue::reference::{ConditionKind, embedded};
use strawblue::report::{Pen, Report, basis_sheet, put_weld};
use strawblue::units::{Show, Units};
use strawblue::words::Words;

/// How messages begin that a report asks for by a key put together at run time.
const PREFIXES: &[&str] = &[
    "accepts", "action", "answer", "asked", "basis", "caution", "default", "error", "evidence", "field",
    "formula", "iron", "job", "lever", "limit", "process", "range", "severity", "sheet", "symbol", "then",
    "typed", "weld",
];

/// The words of a text that are an unknown key come back as it is, or a value not put in.
fn bare(text: &str) -> Vec<String> {
    let mut found: Vec<String> = text
        .split(|sign: char| !(sign.is_ascii_alphanumeric() || sign == '-' || sign == '.'))
        .map(|word| word.trim_matches('.'))
        .filter(|word| {
            let Some((first, rest)) = word.split_once('-') else { return false };
            // A field is named as it is typed, and so is the size of the weld that is to be found out.
            let field = Slot::from_id(word).is_some() || *word == "weld-size";
            PREFIXES.contains(&first) && !field && !(first == "evidence" && rest.parse::<usize>().is_ok())
        })
        .map(str::to_owned)
        .collect();
    if text.contains("{$") || text.contains("{ $") {
        found.push(format!("a value is not put in: {text}"));
    }
    found
}

fn not_a_figure(text: &str) -> bool {
    text.split(|sign: char| !sign.is_alphanumeric()).any(|word| matches!(word, "NaN" | "inf"))
}

/// What is wrong with a plan, its report and the sheet of everything in it.
fn faults(job: &Job, told: &WeldTold, made: &Plan, pen: &Pen<'_>) -> Vec<String> {
    let mut report = Report::of(pen, job, made);
    put_weld(pen, job, told, made, &mut report);
    let mut texts = vec![format!("{report:?}")];
    let evidence = (0..made.evidence.len()).map(|index| format!("evidence-{index}"));
    for id in ["minimum", "maximum", "ceiling"].map(str::to_owned).into_iter().chain(evidence) {
        match basis_sheet(pen, job, made, &id) {
            Some(sheet) => texts.push(format!("{sheet:?}")),
            None if id.starts_with("evidence") => texts.push(format!("{{$no sheet of {id}")),
            None => {}
        }
    }
    let mut wrong: Vec<String> = texts.iter().flat_map(|text| bare(text)).collect();
    let figures = format!("{made:?}");
    for text in texts.iter().chain([&figures]).filter(|text| not_a_figure(text)) {
        wrong.push(format!("not a figure in {text}"));
    }
    wrong.sort();
    wrong.dedup();
    wrong
}

/// Texts that people and paste buffers put into fields.
const ODD: &[&str] = &[
    "",
    "   ",
    "NaN",
    "inf",
    "-inf",
    "1e300",
    "-1e300",
    "1e-300",
    "0",
    "-0",
    "-5",
    "−5",
    "1,5",
    "25,4 mm",
    "1.234,5",
    "900 mm",
    "2000 A",
    "2000 °C",
    "-300 °C",
    "1/0",
    "½ in",
    "9999999999999999999999",
    "🔥",
    "Ø",
    "\u{0}\u{7f}",
    "e\u{301}\u{200b}",
    "+",
    "+ + +",
    "{ $value }",
    "action-nothing",
    "C 0.4; C 0.5",
    "C 1e9",
    "C -1, Mn 2",
    "C 40 Mn 70",
    "hardened",
    "tempered 9000 °C",
    "((((((",
    "null",
    "unknown",
];

/// Texts that some field takes.
const RIGHT: &[&str] = &[
    "c-mm",
    "f-in",
    "4140",
    "S355J2",
    "GREY",
    "12L14",
    "H13",
    "304",
    "P22",
    "S690QL",
    "C 0.41, Si 0.25, Mn 0.75, Cr 1.05, Mo 0.22",
    "C 0.001 Mn 0.001",
    "C 1.2 Mn 13",
    "C 3.4 Si 2 Mn 0.6",
    "hardened and tempered 540 °C",
    "normalised",
    "case-hardened",
    "induction hardened",
    "as cast",
    "0.5 mm",
    "25 mm",
    "2 in",
    "300 mm",
    "Ø90",
    "round",
    "plate",
    "yes",
    "no",
    "butt",
    "boss-through",
    "repair",
    "t-fillet-both-sides",
    "gtaw",
    "gtaw + smaw basic",
    "smaw nickel",
    "saw",
    "H4R",
    "3 ml",
    "20 ml + 1 ml",
    "1.2 kJ/mm",
    "0.05 kJ/mm",
    "30 kJ/in",
    "24 V",
    "180 A",
    "300 mm/min",
    "high",
    "low",
    "E7018",
    "E308L",
    "700 MPa",
    "0.45",
    "1",
    "12",
    "-10 °C",
    "50 °F",
    "D1.1",
    "250 °C",
    "600 °C",
    "20 °C",
    "320 HV",
    "45 HRC",
];

fn base() -> impl Strategy<Value = JobText> {
    let small = |steel: &str, thickness: &str| {
        job(&[("steel", steel), ("thickness", thickness), ("joint", "butt"), ("process", "smaw basic")])
    };
    prop_oneof![
        Just(demo_job()),
        Just(small("4140", "40 mm")),
        Just(small("S235JR", "6 mm")),
        Just(small("1045", "25 mm")),
        Just(small("S690QL", "20 mm")),
        Just(small("GREY", "20 mm")),
        Just(JobText::default()),
    ]
}

fn changes() -> impl Strategy<Value = Vec<(Slot, String)>> {
    let text = prop_oneof![
        3 => prop::sample::select(RIGHT).prop_map(str::to_owned),
        2 => prop::sample::select(ODD).prop_map(str::to_owned),
        1 => any::<f64>().prop_map(|value| value.to_string()),
        1 => "\\PC{0,12}",
    ];
    prop::collection::vec((prop::sample::select(every_slot()), text), 0..6)
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(600) })]

    #[test]
    fn any_text_gives_problems_in_words_or_a_plan_in_figures(base in base(), changes in changes()) {
        let mut text = base;
        for (slot, typed) in changes {
            text.set(slot, Some(typed));
        }
        let words = Words::english();
        let reading = Reading { reference: embedded(), own_steels: &[], units: Units::C_MM, mark: strawblue::units::Mark::Point };
        match read_job(&text, &reading) {
            Err(problems) => {
                prop_assert!(!problems.is_empty());
                for problem in problems {
                    let said = problem.say(&words);
                    // What was typed is quoted, and may be anything.
                    let typed = text.get(problem.slot).unwrap_or_default();
let own = typed.contains('{') || !bare(typed).is_empty();
                    prop_assert!(said.len() > 10, "{:?} says {said:?}", problem.slot);
                    prop_assert!(own || bare(&said).is_empty(), "{:?} says {said:?}", problem.slot);
                }
            }
            Ok(read) => {
                let made = plan(embedded(), &read.job);
                let show = Show::new(read.units, &words);
                let wrong = faults(&read.job, &read.told, &made, &Pen { reference: embedded(), words: &words, show });
                prop_assert!(wrong.is_empty(), "{}\n{}", text.to_ron(), wrong.join("\n"));
                for defaulted in &read.defaulted {
                    let said = defaulted.say(&words, &show);
                    prop_assert!(said.len() > 3 && bare(&said).is_empty(), "{said:?}");
                }
            }
        }
    }
}

fn whole_job(steel: Steel, kind: ConditionKind, thickness_mm: f64, joint: Joint) -> Job {
    let member = Member {
        steel,
        condition: Condition { kind, temper_c: None },
        thickness_mm,
        round: false,
        yield_mpa: None,
        hardness_hv: None,
        buttered: false,
    };
    Job {
        members: vec![member.clone(), member],
        joint,
        runs: vec![Run { process: Process::SmawBasic, hydrogen_ml: 5.0, net_heat_kj_per_mm: 1.2 }],
        restraint: Restraint::Medium,
        weld: WeldMetal::default(),
        shop_c: 15.0,
        damp: false,
        code: Code::AwsD11,
        demands: Demands::default(),
        thermal_cut: true,
        repair: strawblue::engine::job::Repair::default(),
        safety: SafetyFacts::default(),
    }
}

#[test]
fn every_grade_in_every_condition_is_written_out() {
    let words = Words::english();
    let mut wrong: Vec<String> = Vec::new();
    let mut plans = 0;
    for grade in &embedded().grades {
        let mut kinds = grade.condition_kinds();
        kinds.push(ConditionKind::Unknown);
        for kind in kinds {
            for (thickness_mm, joint, units) in [
                (3.0, Joint::Butt, Units::C_MM),
                (25.0, Joint::BossThrough, Units::F_IN),
                (120.0, Joint::Repair, Units::C_MM),
            ] {
                let steel = if joint == Joint::Repair {
                    Steel::Certificate { composition: grade.nominal(), grade: Some(Arc::new(grade.clone())) }
                } else {
                    Steel::Grade(Arc::new(grade.clone()))
                };
                let job = whole_job(steel, kind, thickness_mm, joint);
                let made = plan(embedded(), &job);
                let pen = Pen { reference: embedded(), words: &words, show: Show::new(units, &words) };
                let found = faults(&job, &WeldTold::default(), &made, &pen);
                wrong.extend(
                    found.into_iter().map(|said| format!("{} {kind:?} {thickness_mm}: {said}", grade.id)),
                );
                plans += 1;
            }
        }
    }
    assert!(plans > 193 * 3, "{plans} plans");
    wrong.truncate(30);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn an_unknown_key_and_a_value_left_out_are_seen() {
    assert_eq!(bare("Do this: action-nothing.why."), ["action-nothing.why"]);
    assert_eq!(bare("id: \"evidence-3\", name: \"evidence-x\""), ["evidence-x"]);
    assert_eq!(bare("at least {$figure}").len(), 1);
    assert!(bare("Post-heat before it goes cold; low-hydrogen electrodes").is_empty());
    assert!(not_a_figure("value_c: NaN") && not_a_figure("-inf °C") && !not_a_figure("infrared"));
}
