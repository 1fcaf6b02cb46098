//! How long the answers take that a person waits for, each beside its target.
//! Measures and prints; nothing here fails for being slow.

use std::sync::Arc;
#[path = "../shared/card_log.rs"]
mod card_log;
#[path = "../shared/jobs.rs"]
mod jobs;

use std::collections::BTreeMap;
use std::hint::black_box;
use std::ops::ControlFlow;
use std::path::Path;
use std::time::Instant;

use image::{DynamicImage, ImageFormat, Rgb, RgbImage};
use jobs::{MemberRow, RunRow, job};
use serde::Deserialize;
use strawblue::card::{Lost, Paper, content, pages, pdf};
use strawblue::engine::heat_cycle::{
    Fineness, Flames, HeatCycle, JointShape, Keep, Pass, PostHeat, Reached, Source, Surface, Surfaces,
    plain_run,
};
use strawblue::engine::job::{Job, Joint, Restraint, Steel};
use strawblue::engine::photo::{PhotoQuestion, PhotoReference, Region, match_photo};
use strawblue::engine::plan::plan;
use strawblue::engine::tint::{Circumstances, Course, Heating, colour, strip};
use strawblue::job::{PlanSays, Reading, cycle_of_plan, demo_job, read_job};
use strawblue::log::Moment;
use strawblue::questions::{self, Answers, COMPOSITION, Given};
use strawblue::reference::search::Index;
use strawblue::reference::{Composition, Filler, Grade, Table, embedded};
use strawblue::report::{Pen, tint_limits};
use strawblue::units::{Show, Units};
use strawblue::words::Words;

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

/// Plans with their levers: of all windows, or of one many times over.
fn plans(only: Option<&str>) {
    let windows: Vec<Window> = ron::from_str(include_str!("../plan/windows.ron")).expect("windows.ron reads");
    let reference = embedded();
    let mut slowest_us = 0.0_f64;
    let mut all_us = Vec::new();
    for row in windows.iter().filter(|row| only.is_none_or(|id| row.id == id)) {
        let job: Job = job(reference, &row.members, row.joint, &row.runs, row.restraint);
        let taken_us = middle_us(if only.is_some() { 40_001 } else { 201 }, || {
            black_box(plan(reference, black_box(&job)));
        });
        println!("  {} {taken_us:.1} µs", row.id);
        slowest_us = slowest_us.max(taken_us);
        all_us.push(taken_us);
    }
    all_us.sort_by(f64::total_cmp);
    line("a plan with its levers, middle of the jobs", all_us[all_us.len() / 2], 60.0, "µs");
    line("a plan with its levers, slowest of the jobs", slowest_us, 60.0, "µs");
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

/// What is given for a question, as the tables of `tests/published/` have it.
#[derive(Deserialize)]
struct Case {
    question: String,
    #[serde(default)]
    grade: Option<String>,
    #[serde(default)]
    composition: Composition,
    #[serde(default)]
    given: BTreeMap<String, Value>,
}

#[derive(Deserialize)]
enum Value {
    N(f64),
    Id(String),
    Yes,
}

impl Case {
    fn answers(&self) -> Answers {
        let mut given = Answers::new();
        if self.composition != Composition::default() {
            given.set(COMPOSITION, Given::Composition(self.composition));
        }
        if let Some(grade) = self.grade.as_ref().and_then(|id| embedded().grade(id)) {
            given.set(COMPOSITION, Given::Steel(Box::new(Steel::Grade(Arc::new(grade.clone())))));
        }
        for (key, value) in &self.given {
            let value = match value {
                Value::N(number) => Given::Number(*number),
                Value::Id(id) => Given::Choice(id.clone()),
                Value::Yes => Given::Flag(true),
            };
            given.set(key, value);
        }
        given
    }
}

/// Every question of the registry but the heat cycle, on all that is published of it.
fn registry() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/published");
    let mut slowest: BTreeMap<&'static str, f64> = BTreeMap::new();
    for entry in std::fs::read_dir(folder).expect("the tables are there") {
        let text = std::fs::read_to_string(entry.expect("it reads").path()).expect("it reads");
        let cases: Vec<Case> = ron::from_str(&text).expect("a table of cases");
        for case in cases {
            let question = questions::find(&case.question).expect("a question");
            if question.is_slow() {
                continue;
            }
            let given = case.answers();
            let taken_us = middle_us(11, || {
                let _ = black_box(question.ask(black_box(&given)));
            });
            let most = slowest.entry(question.name).or_default();
            *most = most.max(taken_us);
        }
    }
    let mut slowest: Vec<_> = slowest.into_iter().collect();
    slowest.sort_by(|one, other| other.1.total_cmp(&one.1));
    let slow = questions::ALL.iter().filter(|question| question.is_slow()).count();
    assert_eq!(slowest.len() + slow, questions::ALL.len(), "every question is timed");
    for (name, taken_us) in slowest.iter().take(3) {
        line(&format!("a question, the slowest: {name}"), *taken_us, 5000.0, "µs");
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

/// How long this thread has been on a processor, s: other work on the machine counts in no timing. By the
/// clock where the system does not tell.
fn worked_s(begun: Instant) -> f64 {
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").ok();
    let told = told.and_then(|text| text.split(' ').next()?.parse::<f64>().ok());
    told.map_or_else(|| begun.elapsed().as_secs_f64(), |ns| ns * 1e-9)
}

/// The mean of some runs, ms. What the system tells is late by a tick of its clock at most.
fn mean_ms(times: u32, mut work: impl FnMut()) -> f64 {
    work();
    let begun = Instant::now();
    let before = worked_s(begun);
    (0..times).for_each(|_| work());
    (worked_s(begun) - before) * 1e3 / f64::from(times)
}

/// The cycle of the demo's plan as the window asks for it: its post-heat, and its cooling without one.
fn demo_flames(fineness: Fineness) -> Flames {
    let reading = Reading {
        reference: embedded(),
        own_steels: &[],
        units: Units::C_MM,
        mark: strawblue::units::Mark::Point,
    };
    let job = demo_job();
    let read = read_job(&job, &reading).expect("the demo reads");
    let planned = plan(embedded(), &read.job);
    let words = Words::english();
    let pen = Pen { reference: embedded(), words: &words, show: Show::new(Units::C_MM, &words) };
    let typed = job.with_units_written(read.units);
    let limits = tint_limits(&pen, Some(&planned)).held;
    let says = PlanSays { read: &read, plan: &planned, limits, typed: &typed, flame_min: None };
    let pairs = [("fuel-flow", "100 ft3/h"), ("plate-width", "160"), ("plate-length", "400")];
    let pairs = pairs.map(|(key, text)| (key.to_owned(), text.to_owned()));
    let mut flames = cycle_of_plan(&pairs, &says, &reading).expect("the demo has a cycle");
    flames.cycle.fineness = fineness;
    flames.cycle.keep = Keep::Fields;
    flames
}

fn heat_cycles() {
    let share = embedded().fuels.efficiency.likely;
    for (grid, fineness, target_ms) in [("live", Fineness::Live, 25.0), ("fine", Fineness::Fine, 120.0)] {
        let query = demo_cycle(fineness);
        let whole = |query: &HeatCycle| {
            mean_ms(11, || {
                black_box(plain_run(embedded(), black_box(query), &mut |_, _| ControlFlow::Continue(())))
                    .expect("the demo runs");
            })
        };
        line(&format!("a whole heat cycle under one flame, {grid} grid"), whole(&query), target_ms, "ms");
        let flames = demo_flames(fineness);
        let held = flames.cycle.post_heat.hours;
        let beside = |what: String, taken_ms: f64| {
            println!("{what:<66} {taken_ms:>9.1} ms  (on a thread beside the window)");
        };
        let taken_ms = whole(&flames.with(share));
        beside(format!("the plan's, cooled after {held} h of post-heat and without, {grid}"), taken_ms);
        let taken_ms = mean_ms(5, || {
            black_box(flames.run(embedded(), &mut |_, _| ControlFlow::Continue(()))).expect("the demo runs");
        });
        beside(format!("the same and the heating by two more flames, {grid}"), taken_ms);
    }
}

/// A card of at least 500 pages: what it says, its pages, its PDF.
fn cards() {
    let log = card_log::large_log(640, 20);
    let words = Words::english();
    let pen = Pen { reference: embedded(), words: &words, show: Show::new(Units::C_MM, &words) };
    let now = Moment::new(1_780_000_000, 60);
    let begun = Instant::now();
    let standing = log.standing();
    let said = content(&pen, &standing, now, Lost::default()).expect("a job stands");
    let said_ms = begun.elapsed().as_secs_f64() * 1e3;
    let drawn = pages(&said, Paper::A4, &words);
    let drawn_ms = begun.elapsed().as_secs_f64() * 1e3;
    let bytes = pdf(&drawn, now).expect("both validators pass it").len();
    let whole_ms = begun.elapsed().as_secs_f64() * 1e3;
    let count = drawn.pages.len();
    println!("  said {said_ms:.0} ms, laid out by {drawn_ms:.0} ms, {bytes} bytes");
    line(&format!("a job card of {count} pages"), whole_ms, 5000.0 * count as f64 / 500.0, "ms");
}

/// All, or the sections named behind `--`; a name of a window times its plan alone.
fn main() {
    let asked: Vec<String> = std::env::args().skip(1).filter(|word| !word.starts_with('-')).collect();
    let section = |name: &str| asked.is_empty() || asked.iter().any(|word| word == name);
    let window = asked.iter().find(|word| word.starts_with('W'));
    if section("heat") {
        heat_cycles();
    }
    if section("plans") || window.is_some() {
        plans(window.map(String::as_str));
    }
    if section("questions") {
        registry();
    }
    if section("search") {
        searches();
    }
    if section("tints") {
        strips();
    }
    if section("photos") {
        photos();
    }
    if section("cards") {
        cards();
    }
}
