//! What a plan says of its weld: filler, runs, current and order by the functions of the questions, beads
//! that are the leg, tacks inside the range, and no filler that the job's own reading refuses.

use std::cell::Cell;

use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};
use strawblue::engine::job::{Job, Joint, Process, Restraint};
use strawblue::engine::plan::{Verdict, plan};
use strawblue::engine::weld::hydrogen_need::{HydrogenJoint, hydrogen_need};
use strawblue::engine::weld_of_job::{
    Chosen, JobWeld, Laid, LayerNote, Laying, NoLayers, RunTold, WeldTold, weld_of_job,
};
use strawblue::questions::{self, Answers, Given};
use strawblue::reference::embedded;

use crate::jobs::said;
use crate::laws::a_job;
use crate::typed_job::{read, small};

const JOBS: u32 = 6000;

/// A job with a fillet that is told, often round.
fn a_fillet() -> impl Strategy<Value = (Job, WeldTold)> {
    let told = (
        prop_oneof![2 => Just(None), 1 => (1..12usize).prop_map(Some)],
        prop_oneof![2 => Just(None), 1 => (20.0..400.0f64).prop_map(Some)],
        prop_oneof![1 => Just(None), 3 => (0..embedded().fillers.len()).prop_map(Some)],
    );
    let second = prop_oneof![1 => Just(None), 1 => (0..Process::ALL.len()).prop_map(Some)];
    (a_job(), 1.0..40.0f64, any::<bool>(), told, second).prop_map(
        |(mut job, leg_mm, round, (passes, amps, filler), second)| {
            job.weld.thickness_mm = Some(leg_mm * std::f64::consts::FRAC_1_SQRT_2);
            if let Some(member) = job.members.last_mut().filter(|_| round) {
                member.round = true;
            }
            if let Some(second) = second {
                job.runs.push(strawblue::engine::job::Run { process: Process::ALL[second], ..job.runs[0] });
            }
            let filler = filler.map(|at| embedded().fillers.rows()[at].id.clone());
            let told = RunTold { passes, amps, filler, ..RunTold::default() };
            (job, WeldTold { runs: vec![RunTold::default(), told], ..WeldTold::default() })
        },
    )
}

fn whole(weld: &JobWeld<'_>) -> Result<(), TestCaseError> {
    let Ok(layers) = &weld.layers else { return Ok(()) };
    let planned: f64 = layers.beads.iter().map(|bead| bead.area_mm2).sum();
    prop_assert!((planned / layers.need_mm2 - 1.0).abs() < 1e-9, "{planned} of {}", layers.need_mm2);
    let section = weld.section();
    let drawn: f64 = section.iter().map(|bead| bead.bead.area_mm2()).sum();
    let Laid::Fillet(fillet) = layers.laid else { return Ok(()) };
    let flat = fillet.flat_mm2();
    prop_assert!((drawn / flat - 1.0).abs() < 0.02, "{drawn} of {flat}");
    prop_assert!(section.iter().all(|bead| bead.bead.area_mm2() > 0.0));
    let mut numbers: Vec<usize> = section.iter().map(|bead| bead.number).collect();
    prop_assert!(numbers.first() == Some(&1), "the root is first");
    numbers.sort_unstable();
    prop_assert!(numbers.iter().copied().eq(1..=layers.beads.len()), "{numbers:?}");
    Ok(())
}

#[test]
fn beads_are_the_leg_and_tacks_are_inside_the_range() {
    let mut runner = TestRunner::new(Config { failure_persistence: None, ..Config::with_cases(JOBS) });
    let (planned, layered) = (Cell::new(0), Cell::new(0));
    let law = |(job, told): (Job, WeldTold)| {
        let made = plan(embedded(), &job);
        let weld = weld_of_job(embedded(), &job, &told, &made);
        prop_assert_eq!(weld.is_some(), made.verdict.answers() && made.verdict != Verdict::TwoRoutes);
        let Some(weld) = weld else { return Ok(()) };
        planned.set(planned.get() + 1);
        layered.set(layered.get() + u32::from(weld.layers.is_ok()));
        whole(&weld)?;
        if let Some((low_c, high_c)) = weld.tack_c {
            let least_c = made.minimum.as_ref().map_or(low_c, |limit| limit.exact_c);
            prop_assert!(low_c >= least_c && low_c <= high_c, "tacks {low_c} to {high_c}");
            prop_assert!(Some(high_c) <= made.interpass_c, "tacks up to {high_c}");
        }
        for run in &weld.runs {
            let fillers = &run.fillers;
            for filler in &fillers.offered {
                let told = RunTold { filler: Some(filler.id.clone()), ..RunTold::default() };
                let told = WeldTold { runs: vec![told], ..WeldTold::default() };
                let mut alone = job.clone();
                alone.runs.retain(|other| other.process == run.process);
                let again = weld_of_job(embedded(), &alone, &told, &made).expect("as before");
                let verdict = again.runs[0].fillers.chosen.as_ref().expect("it is chosen").verdict;
                prop_assert!(matches!(verdict, Chosen::Fits(found) if !found.refused()), "{verdict:?}");
            }
            // What a joint takes and the plan counts with bounds every packet.
            prop_assert!(fillers.hydrogen_ml <= run.hydrogen_ml);
        }
        Ok(())
    };
    runner.run(&a_fillet(), law).unwrap_or_else(|wrong| panic!("{wrong}"));
    let (planned, layered) = (planned.get(), layered.get());
    assert!(planned > JOBS / 4 && layered > JOBS / 20, "{planned} planned, {layered} with runs");
}

#[test]
fn a_larger_leg_never_takes_fewer_runs() {
    let count = |leg: usize, process: &str| {
        let leg = format!("{leg} mm");
        let pairs = [("joint", "lap"), ("leg", leg.as_str()), ("process", process)];
        let read = small(&pairs).expect("a job");
        let made = plan(embedded(), &read.job);
        let weld = weld_of_job(embedded(), &read.job, &read.told, &made).expect("a weld");
        weld.layers.map(|layers| layers.beads.len())
    };
    for process in ["gtaw", "smaw basic", "gmaw", "fcaw", "saw"] {
        let mut before = 1;
        for leg in 3..40 {
            let Ok(runs) = count(leg, process) else { break };
            assert!(runs >= before, "{process}: {runs} runs for {leg} mm, {before} for less");
            before = runs;
        }
        assert!(before > 3, "{process}");
    }
}

/// Each filler that is offered is one that the job takes when it is typed.
#[test]
fn what_is_offered_can_be_typed() {
    let mut offers = 0;
    for steel in ["S355J2", "4140", "42CrMo4", "S690QL", "1045", "P22", "304", "EN-GJL-200", "1.3401", "H13"]
    {
        for condition in ["hardened and tempered 600 °C", "normalised", "not known"] {
            for process in Process::ALL {
                for joint in ["butt", "lap", "repair"] {
                    let pairs = [
                        ("steel", steel),
                        ("condition", condition),
                        ("process", process.id()),
                        ("joint", joint),
                    ];
                    let Ok(read) = small(&pairs) else { continue };
                    let made = plan(embedded(), &read.job);
                    let Some(weld) = weld_of_job(embedded(), &read.job, &read.told, &made) else { continue };
                    for filler in &weld.runs[0].fillers.offered {
                        offers += 1;
                        let class = filler.classification.as_str();
                        let typed = small(&[&pairs[..], &[("filler", class)]].concat());
                        assert!(typed.is_ok(), "{class} on {steel} by {}: {typed:?}", process.id());
                    }
                }
            }
        }
    }
    assert!(offers > 100, "{offers} offers");
}

pub(crate) fn asked(
    name: &str,
    numbers: &[(&'static str, f64)],
    choices: &[(&'static str, &str)],
) -> questions::Reply {
    let given =
        numbers.iter().fold(Answers::new(), |all, (key, value)| all.with(*key, Given::Number(*value)));
    let given = choices.iter().fold(given, |all, (key, id)| all.with(*key, Given::Choice((*id).to_owned())));
    questions::find(name).expect("a question").ask(&given).expect("an answer")
}

/// The plan's runs, current and fillers are those of the questions, asked with the same figures.
#[test]
fn plan_and_questions_agree() {
    let pairs = [
        ("steel", "42CrMo4"),
        ("condition", "hardened and tempered 600 °C"),
        ("thickness", "40 mm"),
        ("joint", "lap"),
        ("leg", "8 mm"),
        ("process", "gtaw"),
        ("heat-input", "0.8 kJ/mm"),
    ];
    let read = read(&pairs).expect("a job");
    let made = plan(embedded(), &read.job);
    let weld = weld_of_job(embedded(), &read.job, &read.told, &made).expect("a weld");
    let process = ("process", "gtaw");
    let figure = |reply: &questions::Reply, name: &str| reply.answer(name).cloned().expect("an answer");

    let runs =
        asked("fillet-runs", &[("leg", 8.0), ("arc-energy", 0.8 / 0.6), ("thicker-part", 40.0)], &[process]);
    let layers = weld.layers.as_ref().expect("runs");
    assert_eq!(layers.outcomes, runs.answers);
    assert_eq!(layers.beads.len() as f64, figure(&runs, "runs-count").value.expect("a count"));

    let current = asked(
        "tig-settings",
        &[("thinner-part", 40.0), ("part-temperature", made.interpass_c.expect("a maximum"))],
        &[],
    );
    assert_eq!(weld.runs[0].settings.outcomes, current.answers);

    let base = weld.base.expect("a strength");
    let choice = asked(
        "filler-choice",
        &[("base-strength", base.tensile_mpa), ("hydrogen", weld.need.most_ml)],
        &[process, ("weld-type", "fillet")],
    );
    let first = choice.answers.first().and_then(|outcome| outcome.row.clone());
    assert_eq!(first, weld.runs[0].fillers.offered.first().map(|filler| filler.classification.clone()));

    let strong = weld.runs[0].fillers.first.as_ref().expect("an offer");
    assert!(strong.weaker && strong.as_part.is_none(), "no load is known for a lap");
}

/// AISC 360 Table J2.5: a full-penetration groove in tension takes matching filler; a fillet any, where it
/// carries the load. A pin's fillets are as strong in torsion as the pin from some leg on.
#[test]
fn a_weaker_filler_is_shown_enough_or_not() {
    let boss = |leg: &str, filler: &str| {
        let pairs = [
            ("steel", "S355J2"),
            ("thickness", "30 mm"),
            ("steel-b", "42CrMo4"),
            ("condition-b", "hardened and tempered 600 °C"),
            ("hardness-b", "300 HV"),
            ("diameter-b", "50 mm"),
            ("hardness", "300 HV"),
            ("yield-b", "650 MPa"),
            ("joint", "boss-through"),
            ("process", "gtaw"),
            ("leg", leg),
            ("filler", filler),
        ];
        let read = read(&pairs).expect("a job");
        let made = plan(embedded(), &read.job);
        let weld = weld_of_job(embedded(), &read.job, &read.told, &made);
        let chosen = weld.and_then(|weld| weld.runs.into_iter().next()?.fillers.chosen);
        chosen.map(|chosen| (chosen.weaker, chosen.as_part.map(|part| (part.leg.value, part.enough))))
    };
    // weld-filler.md A7: Ø50, Fy 650, F 485, both sides: throat 5.58, leg 7.9 (computed there).
    let (weaker, part) = boss("8 mm", "ER70S-6").expect("a filler");
    let (leg, enough) = part.expect("a pin");
    assert!(weaker && enough, "{leg:?}");
    assert!((leg.expect("a leg") - 7.9).abs() < 0.05, "{leg:?}");
    assert!(!boss("6 mm", "ER70S-6").and_then(|(_, part)| part).expect("a pin").1);
}

/// A part is stronger than its yield: in a full groove no filler matches it until its hardness is typed, and one
/// below the yield is refused all the same.
#[test]
fn a_yield_alone_shows_no_filler_to_match() {
    let chosen = |more: &[(&str, &str)]| {
        let pairs = [
            ("certificate", "C 0.18 Si 0.4 Mn 1.5 Cr 0.3 Mo 0.3 Ni 0.2"),
            ("condition", "quenched and tempered 620 °C"),
            ("yield", "690 MPa"),
            ("thickness", "30 mm"),
            ("joint", "butt"),
            ("process", "smaw basic"),
            ("hydrogen", "4"),
        ];
        let read = read(&[&pairs[..], more].concat()).expect("a job");
        let made = plan(embedded(), &read.job);
        let weld = weld_of_job(embedded(), &read.job, &read.told, &made).expect("a weld");
        assert!(!weld.strength_is_open() || weld.runs[0].fillers.offered.is_empty(), "offered unseen");
        weld.runs[0].fillers.chosen.as_ref().expect("a filler").verdict
    };
    assert_eq!(chosen(&[("filler", "E10018-M")]), Chosen::StrengthOpen);
    assert!(matches!(chosen(&[("filler", "E7018")]), Chosen::Refused(_)));
    // 270 HV is about 865 MPa (ISO 18265), too much for a weld metal of 690 MPa.
    assert!(matches!(chosen(&[("filler", "E10018-M"), ("hardness", "270 HV")]), Chosen::Refused(_)));
}

#[test]
fn what_is_not_told_is_asked() {
    let of = |pairs: &[(&str, &str)]| {
        let read = small(pairs).expect("a job");
        let made = plan(embedded(), &read.job);
        let weld = weld_of_job(embedded(), &read.job, &read.told, &made).expect("a weld");
        (weld.layers.map(|layers| (layers.beads.len(), layers.notes)), weld.laying)
    };
    assert_eq!(of(&[("joint", "lap")]).0, Err(NoLayers::NoLeg));
    assert_eq!(of(&[]).0, Err(NoLayers::Groove));
    assert_eq!(of(&[("joint", "lap"), ("leg", "8 mm"), ("process", "plasma")]).0, Err(NoLayers::Process(0)));
    assert_eq!(of(&[("joint", "boss-through"), ("shape", "plate")]).1, Ok(Laying::NoDiameter));
    // Twelve runs for 8 mm are none of 1.2 kJ/mm, and one is not enough.
    let told = [("joint", "lap"), ("leg", "8 mm"), ("heat-input", "1.2 kJ/mm"), ("process", "smaw basic")];
    let (runs, notes) = of(&[&told[..], &[("runs", "12")]].concat()).0.expect("runs");
    assert!(runs == 12 && matches!(notes[..], [LayerNote::Colder { told: true, .. }, ..]), "{notes:?}");
    let (runs, notes) = of(&[&told[..], &[("runs", "1")]].concat()).0.expect("runs");
    assert!(runs == 1 && matches!(notes[..], [LayerNote::TooFew { needed: 2, .. }, ..]), "{notes:?}");
}

/// A filler that is told for all processes is that of the one that lays it.
#[test]
fn one_filler_for_two_processes_belongs_to_one_of_them() {
    let pairs = [("joint", "lap"), ("leg", "8 mm"), ("process", "gtaw + smaw basic"), ("filler", "E7018")];
    let read = small(&pairs).expect("a job");
    let made = plan(embedded(), &read.job);
    let weld = weld_of_job(embedded(), &read.job, &read.told, &made).expect("a weld");
    let chosen: Vec<bool> = weld.runs.iter().map(|run| run.fillers.chosen.is_some()).collect();
    assert_eq!(chosen, [false, true]);
}

/// One tack holds a boss that is shrunk in, two one that is not (common practice).
#[test]
fn a_shrunk_boss_has_one_tack() {
    let boss = |assembly: &str| {
        let pairs = [
            ("joint", "boss-through"),
            ("shape-b", "round"),
            ("steel-b", "34CrMo4"),
            ("thickness-b", "90 mm"),
            ("assembly", assembly),
        ];
        let read = small(&pairs).expect("a job");
        let made = plan(embedded(), &read.job);
        match weld_of_job(embedded(), &read.job, &read.told, &made).expect("a weld").laying {
            Ok(Laying::Ring(ring)) => (ring.tacks.at, ring.segments, ring.both),
            other => panic!("{other:?}"),
        }
    };
    assert_eq!(boss("hot-hub"), (vec![0.0], vec![0, 2, 1, 3], true));
    assert_eq!(boss("none").0, [0.0, 180.0]);
}

/// No line of the steps says another length of a tack than the one beside it.
#[test]
fn tacks_have_one_length() {
    let read = small(&[("joint", Joint::Lap.id())]).expect("a job");
    let made = plan(embedded(), &read.job);
    assert!(!said(&read.job, &made).contains("50 mm long"), "{}", said(&read.job, &made));
}

/// How little hydrogen a joint needs (common practice, no source): the strictest row that holds.
#[test]
fn a_richer_joint_needs_less_hydrogen() {
    let need = |ce: f64, carbon: f64, thickness_mm: f64, restraint: Restraint| {
        let joint = HydrogenJoint { ce, carbon, thickness_mm, restraint, hardness_hv: None };
        let found = hydrogen_need(&embedded().welding.strength.hydrogen, &joint);
        (found.most_ml, found.driest_process)
    };
    for (joint, is) in [
        ((0.40, 0.18, 12.0, Restraint::Low), (16.0, false)),
        ((0.40, 0.18, 20.0, Restraint::Low), (10.0, false)),
        ((0.45, 0.18, 12.0, Restraint::Low), (10.0, false)),
        ((0.61, 0.18, 12.0, Restraint::Low), (5.0, false)),
        ((0.40, 0.31, 12.0, Restraint::Low), (5.0, false)),
        ((0.40, 0.18, 12.0, Restraint::High), (5.0, false)),
        ((0.40, 0.46, 12.0, Restraint::Low), (5.0, true)),
    ] {
        let (ce, carbon, thickness_mm, restraint) = joint;
        assert_eq!(need(ce, carbon, thickness_mm, restraint), is, "{joint:?}");
    }
}
