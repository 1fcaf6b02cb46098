//! How long the answers take that a person waits for, each beside its target.
//! Measures and prints; nothing here fails for being slow.

#[path = "../shared/jobs.rs"]
mod jobs;

use std::hint::black_box;
use std::ops::ControlFlow;
use std::time::Instant;

use image::{DynamicImage, ImageFormat, Rgb, RgbImage};
use jobs::{MemberRow, RunRow, job};
use serde::Deserialize;
use strawblue::engine::heat_cycle::{
    Fineness, HeatCycle, JointShape, Keep, Pass, PostHeat, Reached, Source, Surface, Surfaces, run,
};
use strawblue::engine::job::{Job, Joint, Restraint};
use strawblue::engine::photo::{PhotoQuestion, PhotoReference, Region, match_photo};
use strawblue::engine::plan::plan;
use strawblue::engine::tint::{Circumstances, Course, Heating, colour, strip};
use strawblue::questions::{self, Answers, Given};
use strawblue::reference::search::Index;
use strawblue::reference::{Filler, Grade, Table, embedded};

/// The part of a row of `tests/plan/windows.ron` that makes a job.
#[derive(Debug, Deserialize)]
struct Window {
    id: String,
    members: Vec<MemberRow>,
    joint: Joint,
    runs: Vec<RunRow>,
    restraint: Restraint,
}

/// The middle of many timings, µs. The middle, since other work on the machine disturbs some.
fn middle_us(times: usize, mut work: impl FnMut()) -> f64 {
    work();
    let mut taken_us: Vec<f64> = (0..times)
        .map(|_| {
            let begun = Instant::now();
            work();
            begun.elapsed().as_secs_f64() * 1e6
        })
        .collect();
    taken_us.sort_by(f64::total_cmp);
    taken_us[times / 2]
}

fn line(what: &str, taken: f64, target: f64, unit: &str) {
    let verdict = if taken <= target { "kept" } else { "MISSED" };
    println!("{what:<58} {taken:>9.1} {unit:<3} target {target:>7.0} {unit}  {verdict}");
}

fn plans() {
    let windows: Vec<Window> = ron::from_str(include_str!("../plan/windows.ron")).expect("windows.ron reads");
    let reference = embedded();
    let mut slowest_us = 0.0_f64;
    let mut all_us = Vec::new();
    for row in &windows {
        let job: Job = job(reference, &row.members, row.joint, &row.runs, row.restraint);
        let taken_us = middle_us(201, || {
            black_box(plan(reference, black_box(&job)));
        });
        println!("  {} {taken_us:.1} µs", row.id);
        slowest_us = slowest_us.max(taken_us);
        all_us.push(taken_us);
    }
    all_us.sort_by(f64::total_cmp);
    line("a plan with its levers, middle of the jobs", all_us[all_us.len() / 2], 200.0, "µs");
    line("a plan with its levers, slowest of the jobs", slowest_us, 200.0, "µs");
}

/// The rows many times over, each copy under designations of its own.
fn grown(times: usize) -> Index {
    let reference = embedded();
    let named = |name: &str, copy: usize| if copy == 0 { name.to_owned() } else { format!("{name}x{copy}") };
    let mut grades: Vec<Grade> = Vec::new();
    let mut fillers: Vec<Filler> = Vec::new();
    for copy in 0..times {
        grades.extend(reference.grades.iter().cloned().map(|mut grade| {
            grade.id = named(&grade.id, copy);
            grade.designation = named(&grade.designation, copy);
            grade.also.iter_mut().for_each(|name| *name = named(name, copy));
            grade
        }));
        fillers.extend(reference.fillers.iter().cloned().map(|mut filler| {
            filler.id = named(&filler.id, copy);
            filler.classification = named(&filler.classification, copy);
            filler
        }));
    }
    Index::build(&Table::new(grades), &Table::new(fillers), &reference.everyday_words)
}

/// The last is a slip among the copies, where there are the most names of its length.
const TYPED: [&str; 13] = [
    "4", "41", "414", "4140", "4141", "1", "1.7225", "a514", "42crmo4", "chromoly", "e7018", "zz9", "4141x51",
];

fn slowest_keystroke_us(index: &Index) -> f64 {
    TYPED
        .iter()
        .map(|query| {
            middle_us(51, || {
                black_box(index.find(black_box(query)));
            })
        })
        .fold(0.0, f64::max)
}

fn searches() {
    let one_us = slowest_keystroke_us(&grown(1));
    let hundred_us = slowest_keystroke_us(&grown(100));
    line("a keystroke in the search, slowest", one_us, 1000.0, "µs");
    line("the same on 100 times the rows, as a multiple", hundred_us / one_us, 100.0, "×");
}

fn strips() {
    colour::prepare();
    let course =
        Course::Afterwards { start_c: 20.0, near_peak_min: 4.0, up_k_per_min: 96.0, down_k_per_min: 10.0 };
    let heating = Heating::new(course).expect("a heating that can be");
    let taken_us = middle_us(51, || {
        black_box(strip(&heating, 150.0, 380.0, 600));
    });
    line("a strip of tints, 600 columns", taken_us, 500.0, "µs");
}

fn photos() {
    let steel = |x: u32, _| if x < 2000 { Rgb([190, 190, 190]) } else { Rgb([140, 108, 66]) };
    let photo = DynamicImage::ImageRgb8(RgbImage::from_fn(4000, 3000, steel));
    let half = |x: u32| Region { x, y: 0, width: 2000, height: 3000 };
    let question = PhotoQuestion {
        spot: half(2000),
        reference: PhotoReference::BrightSteel(half(0)),
        steel: Circumstances::BRIGHT,
    };
    let taken_us = middle_us(5, || {
        match_photo(&photo, &question, &mut |_| ControlFlow::Continue(())).expect("an even photo is read");
    });
    line("a photo of 12 megapixels matched", taken_us / 1e3, 1000.0, "ms");
    let mut file = std::io::Cursor::new(Vec::new());
    photo.write_to(&mut file, ImageFormat::Jpeg).expect("memory can be written");
    let taken_us = middle_us(5, || {
        let read = image::load_from_memory(file.get_ref()).expect("what was written can be read");
        match_photo(&read, &question, &mut |_| ControlFlow::Continue(())).expect("an even photo is read");
    });
    line("the same, read from its JPEG file first", taken_us / 1e3, 1000.0, "ms");
}

/// The questions of the shop that add up the most steps.
fn shop() {
    type Asked<'a> = (&'a str, &'a [(&'a str, f64)], &'a [(&'a str, &'a str)]);
    let asked: [Asked<'_>; 3] = [
        ("shrink-fit", &[("diameter", 50.0), ("hub-ceiling", 400.0)], &[("fit", "h7-s6")]),
        (
            "torch-heating",
            &[("mass", 8.0), ("wanted-temperature", 300.0), ("thickness", 25.0)],
            &[("tip", "large")],
        ),
        (
            "part-cooling",
            &[("mass", 8.0), ("size", 25.0), ("from-temperature", 300.0), ("to-temperature", 50.0)],
            &[],
        ),
    ];
    for (name, numbers, choices) in asked {
        let question = questions::find(name).expect("a question");
        let given =
            numbers.iter().fold(Answers::new(), |all, (key, value)| all.with(*key, Given::Number(*value)));
        let given =
            choices.iter().fold(given, |all, (key, id)| all.with(*key, Given::Choice((*id).to_owned())));
        let taken_us = middle_us(51, || {
            black_box(question.ask(black_box(&given)).expect("it answers"));
        });
        line(&format!("the question {name}"), taken_us, 5000.0, "µs");
    }
}

/// The demo's cycle as its forms begin it, without its post-heat.
fn demo_cycle(fineness: Fineness) -> HeatCycle {
    let air = Surfaces::all(Surface::new(10.0, 0.8));
    let pass = |weld, net_kj_per_mm, arc_net_w| Pass { weld, net_kj_per_mm, arc_net_w, hydrogen_ml: 4.0 };
    HeatCycle {
        shape: JointShape::BossThrough {
            plate_mm: 30.0,
            diameter_mm: 90.0,
            boss_length_mm: 120.0,
            plate_width_mm: 160.0,
            plate_length_mm: 400.0,
            leg_mm: 8.0,
        },
        part_length_mm: None,
        conductivity: [1.0; 3],
        gap_w_per_m2_k: None,
        shop_c: 15.0,
        surfaces: air,
        cooling: air,
        source: Source::Torch { power_w: 12_722.0 },
        reached: Reached::All,
        zone_mm: 75.0,
        required_mm: 50.0,
        minimum_c: 300.0,
        reserve_k: 30.0,
        ceiling_c: Some(510.0),
        interpass_c: Some(400.0),
        passes: vec![pass(0, 1.0, 1100.0), pass(1, 1.0, 1100.0), pass(0, 1.2, 2800.0), pass(1, 1.2, 2800.0)],
        pause_s: 120.0,
        post_heat: PostHeat::NONE,
        fusion_closed: false,
        fineness,
        keep: Keep::Curves,
    }
}

fn heat_cycles() {
    for (what, fineness, target_ms) in [
        ("a heat cycle, live grid", Fineness::Live, 25.0),
        ("a heat cycle, fine grid", Fineness::Fine, 120.0),
    ] {
        let query = demo_cycle(fineness);
        let taken_us = middle_us(11, || {
            black_box(run(embedded(), black_box(&query), &mut |_, _| ControlFlow::Continue(())))
                .expect("the demo runs");
        });
        line(what, taken_us / 1e3, target_ms, "ms");
    }
}

fn main() {
    if std::env::args().any(|argument| argument == "heat") {
        return heat_cycles();
    }
    heat_cycles();
    plans();
    shop();
    searches();
    strips();
    photos();
}
