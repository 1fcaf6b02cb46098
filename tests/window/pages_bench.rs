//! Every question's page of the Bench, on a phone and on a desktop, in both looks: it answers or asks for what
//! it needs, and nothing on it is wider than its place.
//!
//! `STRAWBLUE_PAGES=FOLDER` writes each page there, and sheets of them side by side, to be looked at.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::rc::Rc;

use image::imageops::{FilterType, overlay, resize};
use image::{Rgba, RgbaImage};
use serde::Deserialize;
use slint::ComponentHandle;
use strawblue::app::{State, refresh_all, ui};
use strawblue::job::{Session, Theme, demo_job};
use strawblue::questions::{self, Question};

use crate::screen::compare::{drawn, write};
use crate::screen::hand::texts;
use crate::screen::measure::{Measure, Weight};
use crate::screen::{live_with, mock_elapsed_time};

/// The variable that names the folder.
const FOLDER: &str = "STRAWBLUE_PAGES";
/// Width, the height that is looked at, and the height of a picture in which hardly a page scrolls.
const PHONE: (u32, u32, u32) = (360, 1500, 3400);
const DESKTOP: (u32, u32, u32) = (1280, 1000, 2600);
const LOOKS: [(&str, Theme); 2] = [("dark", Theme::Dark), ("light", Theme::Light)];
/// Roles of text by the height of one line of them: their size, the smaller where two have one line.
const ROLES: [(f32, f64); 4] = [(16.0, 12.0), (18.0, 13.0), (22.0, 15.0), (24.0, 17.0)];

/// The part of a case of `tests/published/` that says what is given.
#[derive(Deserialize)]
struct Case {
    question: String,
    #[serde(default)]
    given: BTreeMap<String, Value>,
}

#[derive(Deserialize)]
enum Value {
    N(f64),
    Id(String),
    Yes,
}

/// What is typed and chosen for each question, as a published case gives it: the fullest of each.
fn given() -> BTreeMap<String, BTreeMap<String, Value>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/published");
    let files = std::fs::read_dir(folder).expect("the cases are there");
    let mut paths: Vec<PathBuf> = files.map(|entry| entry.expect("it reads").path()).collect();
    paths.sort();
    let mut given: BTreeMap<String, BTreeMap<String, Value>> = BTreeMap::new();
    for path in paths {
        let text = std::fs::read_to_string(path).expect("it reads");
        let cases: Vec<Case> = ron::from_str(&text).expect("a table of cases");
        for case in cases {
            let kept = given.entry(case.question).or_default();
            if kept.len() < case.given.len() {
                *kept = case.given;
            }
        }
    }
    given
}

/// The demo with what a case gives for a question.
fn typed(session: &mut Session, question: &Question, given: &BTreeMap<String, Value>) {
    for (key, value) in given {
        let kept = format!("{}.{key}", question.name);
        match value {
            Value::N(number) => {
                let unit = question.input(key).and_then(|input| input.kind.unit()).unwrap_or_default();
                session.typed.insert(kept, format!("{number} {unit}"));
            }
            Value::Id(id) => {
                session.choices.insert(kept, id.clone());
            }
            Value::Yes => {
                session.choices.insert(kept, "yes".to_owned());
            }
        }
    }
}

struct Desk {
    window: ui::AppWindow,
    state: Rc<State>,
    size: (u32, u32),
}

impl Desk {
    fn new(size: (u32, u32), theme: Theme) -> Self {
        let session = Session { theme, job: demo_job(), place: "bench".to_owned(), ..Session::default() };
        let (window, state) = live_with(size, session, None);
        Self { window, state, size }
    }

    fn open(&self, question: &'static Question) -> RgbaImage {
        self.window.global::<ui::BenchAdapter>().invoke_question_asked(question.name.into());
        self.state.finish_answers();
        refresh_all(&self.window, &self.state);
        mock_elapsed_time(50);
        drawn(&self.window)
    }

    /// What is drawn where nothing should be: a margin is of one colour from left to right.
    fn torn(&self, picture: &RgbaImage) -> Vec<String> {
        let (wide, high) = self.size;
        // Between what stands at the margin and the bar that shows how far it is scrolled.
        let right = wide - 14..wide - 9;
        let margins = if wide < 800 { vec![1..6, right] } else { vec![right] };
        let torn = |margin: std::ops::Range<u32>| {
            let differs = |y: &u32| {
                let first = picture.get_pixel(margin.start, *y);
                margin.clone().any(|x| picture.get_pixel(x, *y) != first)
            };
            let at = (60..high - 80).find(differs)?;
            Some(format!("something is drawn into the margin at {}, {at}", margin.start))
        };
        margins.into_iter().filter_map(torn).collect()
    }

    /// What is wider than its place.
    fn too_wide(&self, measure: &Measure) -> Vec<String> {
        let wide = self.size.0 as f32;
        let mut faults = Vec::new();
        for (text, at, size) in texts(&self.window) {
            if at.x < -0.5 || at.x + size.width > wide + 0.5 {
                faults.push(format!("“{text}” leaves the window"));
            }
            let Some((_, px)) = ROLES.iter().find(|(line, _)| (size.height - line).abs() < 0.5) else {
                continue;
            };
            let needed = measure.width(&text, *px);
            if needed > f64::from(size.width) + 2.0 {
                faults.push(format!("“{text}” needs {needed:.0} px and has {:.0}", size.width));
            }
        }
        faults
    }
}

/// What a page shows in the place of its answer: a figure, what is asked for, or why there is none.
fn speaks(window: &ui::AppWindow) -> bool {
    let answer = window.global::<ui::BenchAdapter>().get_answer();
    let figure = answer.figured && !answer.figure.figure.is_empty();
    figure || !answer.title.is_empty() || !answer.problem.is_empty()
}

/// Looks at every page in one shape.
fn look_at(shape: &str, (wide, high, whole): (u32, u32, u32), thumb: (u32, u32)) {
    let folder = std::env::var_os(FOLDER).map(PathBuf::from);
    let (given, measure) = (given(), Measure::new(Weight::Regular));
    let mut faults: Vec<String> = Vec::new();
    // Both looks are laid out alike: the second is for whoever looks at the pages.
    let looks = if folder.is_some() { LOOKS.len() } else { 1 };
    for (look, theme) in LOOKS.into_iter().take(looks) {
        let desk = Desk::new((wide, if folder.is_some() { whole } else { high }), theme);
        let mut pages = Vec::new();
        for question in questions::ALL.iter().copied() {
            let mut check = |what: &str, picture: &RgbaImage, texts: bool| {
                let mut found = desk.torn(picture);
                if texts {
                    found.extend(desk.too_wide(&measure));
                }
                if !speaks(&desk.window) {
                    found.push("says nothing".to_owned());
                }
                let name = format!("{} {what} {shape} {look}", question.name);
                faults.extend(found.into_iter().map(|fault| format!("{name}: {fault}")));
            };
            // Words are as wide in one look as in the other.
            let first = theme == LOOKS[0].1;
            if first {
                check("on the demo", &desk.open(question), true);
            }
            let Some(given) = given.get(question.name) else {
                faults.push(format!("{}: no published case", question.name));
                continue;
            };
            desk.state.change(|session| typed(session, question, given));
            let picture = desk.open(question);
            check("answered", &picture, first);
            if let Some(folder) = &folder {
                std::fs::create_dir_all(folder).expect("the folder can be made");
                write(&cut(&picture), &folder.join(format!("{}-{shape}-{look}.png", question.name)));
                pages.push(picture);
            }
            desk.state.change(|session| {
                session.typed.clear();
                session.choices.clear();
            });
        }
        if let Some(folder) = &folder {
            sheets(&pages, thumb, |number, sheet| {
                write(sheet, &folder.join(format!("sheet-{shape}-{look}-{number}.png")));
            });
        }
    }
    assert!(faults.is_empty(), "{} faults:\n{}", faults.len(), faults.join("\n"));
}

#[test]
fn every_page_on_a_phone() {
    look_at("phone", PHONE, (180, 900));
}

#[test]
fn every_page_on_a_desktop() {
    look_at("desktop", DESKTOP, (480, 500));
}

/// Without what is empty under it.
fn cut(picture: &RgbaImage) -> RgbaImage {
    let (wide, high) = picture.dimensions();
    let row = |y: u32| (0..wide).map(move |x| *picture.get_pixel(x, y));
    let end = high - 90;
    let last = (60..end).rev().find(|y| !row(*y).eq(row(end))).unwrap_or(end);
    image::imageops::crop_imm(picture, 0, 0, wide, last + 12).to_image()
}

/// Pages side by side at half their size or less, so many on a sheet as can be looked at.
fn sheets(pages: &[RgbaImage], (across, down): (u32, u32), mut done: impl FnMut(usize, &RgbaImage)) {
    const GAP: u32 = 8;
    let columns = 1440 / (across + GAP);
    let rows = if down > 600 { 1 } else { 3 };
    for (number, pages) in pages.chunks((columns * rows) as usize).enumerate() {
        let (wide, high) = (columns * (across + GAP) + GAP, rows * (down + GAP) + GAP);
        let mut sheet = RgbaImage::from_pixel(wide, high, Rgba([128, 128, 128, 255]));
        for (at, page) in pages.iter().enumerate() {
            let shown = page.height().min(page.width() * down / across);
            let top = image::imageops::crop_imm(page, 0, 0, page.width(), shown).to_image();
            let small = resize(&top, across, shown * across / page.width(), FilterType::Triangle);
            let (column, row) = (at as u32 % columns, at as u32 / columns);
            let place = |nth: u32, size: u32| i64::from(GAP + nth * (size + GAP));
            overlay(&mut sheet, &small, place(column, across), place(row, down));
        }
        done(number + 1, &sheet);
    }
}
