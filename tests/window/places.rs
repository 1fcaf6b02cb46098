//! No message is longer than its place, on a phone of 360 px and beside the results of a desktop:
//! what is cut there is cut where a welder reads it.

use crate::screen::live;
use crate::screen::measure::{Measure, Weight};
use slint::{ComponentHandle, Model};
use strawblue::app::{Page, State, open_page, ui};
use strawblue::job::{Field, Session, demo_job};
use strawblue::questions;
use strawblue::words::Words;

/// The width that a form has: a phone, and the column of inputs of a desktop.
const FORMS: [((u32, u32), f64); 2] = [((360, 740), 360.0 - 32.0), ((1280, 800), 392.0 - 32.0)];
const GUTTER: f64 = 8.0;

struct Fonts {
    regular: Measure,
    medium: Measure,
    strong: Measure,
}

impl Fonts {
    fn new() -> Self {
        let of = Measure::new;
        Self { regular: of(Weight::Regular), medium: of(Weight::Medium), strong: of(Weight::SemiBold) }
    }

    /// What of a part of a form is wider than its place.
    fn cut(&self, part: &ui::PartRow, room: f64) -> Vec<String> {
        let mut cut = Vec::new();
        let fields: Vec<ui::FieldRow> = part.fields.iter().collect();
        let each = (room - (fields.len().max(1) - 1) as f64 * GUTTER) / fields.len().max(1) as f64;
        for field in &fields {
            let unit = self.regular.width(&field.unit, 15.0);
            let inside = each - 24.0 - if field.unit.is_empty() { 0.0 } else { unit + 8.0 };
            // A field alone writes its label in as many lines as it takes; two and three share one.
            let lines = if fields.len() == 1 { 3 } else { 1 };
            if self.regular.lines(&field.label, 13.0, each) > lines {
                cut.push(format!("label “{}” in {each}", field.label));
            }
            if self.regular.width(&field.hint, 15.0) > inside {
                cut.push(format!("hint “{}” beside “{}” in {inside}", field.hint, field.unit));
            }
            if self.medium.width(&field.text, 17.0) > inside && field.text.chars().count() < 12 {
                cut.push(format!("text “{}” beside “{}” in {inside}", field.text, field.unit));
            }
        }
        let choices: Vec<ui::ChoiceRow> = part.choices.iter().collect();
        let count = choices.len().max(1) as f64;
        for choice in &choices {
            let (width, lines, size) = match part.kind {
                ui::PartKind::Segments => {
                    (room / count - 8.0, if choice.note.is_empty() { 2 } else { 1 }, 15.0)
                }
                ui::PartKind::Tiles => ((room - 2.0 * GUTTER) / 3.0 - 8.0, 3, 13.0),
                _ => continue,
            };
            if self.strong.lines(&choice.label, size, width) > lines {
                cut.push(format!("choice “{}” in {width}", choice.label));
            }
            if self.regular.lines(&choice.note, 12.0, width) > 1 {
                cut.push(format!("note “{}” in {width}", choice.note));
            }
        }
        cut
    }

    fn cut_in(&self, rows: &slint::ModelRc<ui::FormRow>, room: f64) -> Vec<String> {
        let mut cut = Vec::new();
        for row in rows.iter() {
            for part in row.parts.iter() {
                cut.extend(self.cut(&part, room).into_iter().map(|what| format!("{}: {what}", row.id)));
            }
        }
        cut
    }
}

/// Jobs that show every field there is.
fn jobs() -> Vec<Session> {
    let mut full = demo_job();
    full.set(Field::Thickness, Some("1-1/2 in".into()));
    let mut way = full.clone();
    for nth in 0..2 {
        way.set(Field::HeatInput.nth(nth), None);
        way.set(Field::Volts.nth(nth), Some("24".into()));
    }
    let session = |job| Session { job, ..Session::default() };
    let inches = Session { units: strawblue::units::Units::F_IN, ..session(demo_job()) };
    vec![Session::default(), session(full), session(way), inches]
}

/// The longest of them in every other language.
fn jobs_in_other_languages() -> Vec<Session> {
    let fullest = jobs().swap_remove(1);
    let speaks = |tag: &str| Session { language: tag.to_owned(), ..fullest.clone() };
    Words::languages().filter(|tag| *tag != "en").map(speaks).collect()
}

#[test]
fn no_label_hint_or_choice_of_a_form_is_cut() {
    let fonts = Fonts::new();
    let mut cut = Vec::new();
    for (size, room) in FORMS {
        for session in jobs().into_iter().chain(jobs_in_other_languages()) {
            for units in if session.language.is_empty() { 0..2 } else { 0..1 } {
                let (window, state) = live(size, session.clone());
                window.global::<ui::Shell>().invoke_unit_picked(units);
                every_list_open(&window, &state);
                let spoken = state.words.language();
                let mut keep = |found: Vec<String>| {
                    cut.extend(found.into_iter().map(|what| format!("{spoken} {what}")));
                };
                keep(fonts.cut_in(&window.global::<ui::PlanAdapter>().get_rows(), room));
                state.open.borrow_mut().questions = questions::ALL.to_vec();
                window.global::<ui::Shell>().invoke_place_chosen("tint".into());
                keep(fonts.cut_in(&window.global::<ui::TintAdapter>().get_rows(), room));
            }
        }
    }
    cut.sort();
    cut.dedup();
    assert!(cut.is_empty(), "cut:\n{}", cut.join("\n"));
}

fn every_list_open(window: &ui::AppWindow, state: &State) {
    let rows = window.global::<ui::PlanAdapter>().get_rows();
    for row in rows.iter() {
        for part in row.parts.iter().filter(|part| part.id.starts_with("list:")) {
            state.open.borrow_mut().rows.insert(part.id.to_string());
        }
    }
    open_page(window, state, Page::Settings);
    window.global::<ui::Shell>().invoke_back_asked();
}

/// The bar of places, 72 px each, and the words over the figures that stay in view.
#[test]
fn places_and_the_bar_of_figures_are_read_whole_on_a_phone() {
    let fonts = Fonts::new();
    let mut cut = Vec::new();
    for tag in Words::languages() {
        cut.extend(cut_in_the_bar(&fonts, tag));
    }
    assert!(cut.is_empty(), "cut:\n{}", cut.join("\n"));
}

fn cut_in_the_bar(fonts: &Fonts, tag: &str) -> Vec<String> {
    let mut cut = Vec::new();
    let session = Session { job: demo_job(), language: tag.to_owned(), ..Session::default() };
    let (window, state) = live(FORMS[0].0, session);
    let places = window.global::<ui::Shell>().get_places();
    let each = 360.0 / places.row_count() as f64 - 4.0;
    for place in places.iter() {
        let needed = fonts.strong.width(&place.label, 12.0);
        if needed > each.min(68.0) {
            cut.push(format!("{tag}: place “{}” needs {needed:.0} px and has {each:.0}", place.label));
        }
    }
    let answer = window.global::<ui::PlanAdapter>().get_answer();
    let figures = [&answer.minimum, &answer.maximum, &answer.ceiling];
    let words = ["plan-minimum-short", "plan-maximum-short", "plan-ceiling-short"];
    let mut taken = 16.0 + 4.0 + 40.0 + 3.0 * 10.0 + 2.0 * 11.0;
    for (figure, word) in figures.iter().zip(words) {
        let shown = fonts.strong.width(&figure.figure, 28.0) + 4.0 + fonts.regular.width(&figure.unit, 13.0);
        let needed = fonts.regular.width(&state.words.get(word), 13.0);
        if needed > shown {
            cut.push(format!("{tag}: {word} needs {needed:.0} px and has the {shown:.0} of its figure"));
        }
        taken += shown;
    }
    assert!(taken <= 360.0, "{taken}");
    cut
}
