//! What the eye sees is heard, and heard once; no answer rests on a colour alone.

use std::rc::Rc;

use i_slint_backend_testing::{AccessibleRole, ElementHandle, ElementQuery};
use slint::platform::{Key, PointerEventButton};
use slint::{ComponentHandle, Model};
use strawblue::app::{Page, State, open_page, ui};
use strawblue::job::{Session, demo_job};

use crate::journeys_cycle::{rest, told};
use crate::journeys_tint::on_tint;
use crate::screen::compare::drawn;
use crate::screen::hand::{found, press, says, tap, texts, with};
use crate::screen::{live, live_in, mock_elapsed_time};

const LONG: (u32, u32) = (360, 9000);
const WIDE: (u32, u32) = (1280, 6000);

fn everything(window: &ui::AppWindow) -> Vec<ElementHandle> {
    mock_elapsed_time(20);
    ElementQuery::from_root(window).match_predicate(|element| element.accessible_role().is_some()).find_all()
}

/// All that a screen reader says of an element.
fn heard_of(element: &ElementHandle) -> Vec<String> {
    let said = [
        element.accessible_label(),
        element.accessible_value(),
        element.accessible_description(),
        element.accessible_placeholder_text(),
    ];
    said.into_iter().flatten().map(|said| said.to_string()).filter(|said| !said.is_empty()).collect()
}

fn holds(element: &ElementHandle, x: f32, y: f32) -> bool {
    let (at, size) = (element.absolute_position(), element.size());
    (at.x - 1.0..=at.x + size.width + 1.0).contains(&x)
        && (at.y - 1.0..=at.y + size.height + 1.0).contains(&y)
}

/// A figure on an axis, in the smallest letters: a chart says its figures in words.
fn is_tick(said: &str, height: f32) -> bool {
    height < 17.0 && said.trim_end_matches(['°', 'C', 'F', '%', '\u{a0}']).parse::<f64>().is_ok()
}

/// What is drawn and not heard. A chart, a strip and a slider say in one sentence what stands along them.
fn silent(window: &ui::AppWindow) -> Vec<String> {
    let bottom = window.window().size().height as f32;
    let elements = everything(window);
    let heard: Vec<String> = elements.iter().flat_map(heard_of).collect();
    let told_whole = |element: &&ElementHandle| {
        matches!(element.accessible_role(), Some(AccessibleRole::Image | AccessibleRole::Slider))
    };
    let charts: Vec<&ElementHandle> = elements.iter().filter(told_whole).collect();
    let mut silent = Vec::new();
    for (said, at, size) in texts(window) {
        let (x, y) = (at.x + size.width / 2.0, at.y + size.height / 2.0);
        let said = said.trim();
        // A state of a row, what stands for nothing, a unit that a button of its own name stands on, and the
        // number of a tab.
        let sign = ["In use", "–", "", "°F", "3"].contains(&said) || is_tick(said, size.height);
        let in_chart = charts.iter().any(|chart| holds(chart, x, y));
        let is_heard = said.split(" · ").all(|part| heard.iter().any(|heard| heard.contains(part)));
        if y < bottom - 80.0 && !sign && !in_chart && !is_heard {
            silent.push(format!("{said} at {x:.0}, {y:.0}"));
        }
    }
    silent
}

type Visit = (&'static str, fn(&ui::AppWindow, &State));

const PLACES: &[Visit] = &[
    ("plan", |_, _| {}),
    ("tint", |window, _| tap(window, AccessibleRole::Tab, "Tint")),
    ("bench", |window, _| tap(window, AccessibleRole::Tab, "Bench")),
    ("log", |window, _| tap(window, AccessibleRole::Tab, "Log")),
    ("safety", |window, _| tap(window, AccessibleRole::Tab, "Safety")),
    ("settings", |window, state| {
        open_page(window, state, Page::Settings);
        window.global::<ui::SourcesAdapter>().invoke_wanted("1011".into());
        window.global::<ui::SourcesAdapter>().invoke_toggled();
    }),
    ("about", |window, state| open_page(window, state, Page::About)),
    ("steels", |window, state| open_page(window, state, Page::Steels)),
    ("fillers", |window, state| open_page(window, state, Page::Fillers)),
    ("certificate", |window, state| open_page(window, state, Page::Certificate)),
    ("unmarked", |window, state| open_page(window, state, Page::Unmarked)),
    ("cycle", |window, state| {
        open_page(window, state, Page::Cycle);
        rest(state);
    }),
    ("open cycle", |window, state| open_page(window, state, Page::Cycle)),
    ("basis", |window, _| window.global::<ui::PlanAdapter>().invoke_basis_asked("minimum".into())),
];

/// The demo; with a torch where the page is that of its heat cycle.
fn shown(size: (u32, u32), (name, visit): &Visit) -> ui::AppWindow {
    let demo = || Session { job: demo_job(), ..Session::default() };
    let session = if *name == "cycle" { told("100 ft3/h") } else { demo() };
    let (window, state) = live(size, session);
    visit(&window, &state);
    mock_elapsed_time(50);
    window
}

#[test]
fn all_that_is_drawn_is_heard() {
    let mut wrong = Vec::new();
    let beside = PLACES.iter().filter(|(name, _)| ["plan", "tint", "log"].contains(name));
    for (size, visit) in PLACES.iter().map(|visit| (LONG, visit)).chain(beside.map(|visit| (WIDE, visit))) {
        let window = shown(size, visit);
        wrong.extend(silent(&window).into_iter().map(|said| format!("{} {}: {said}", size.0, visit.0)));
    }
    assert!(wrong.is_empty(), "{} texts are drawn and not heard:\n{}", wrong.len(), wrong.join("\n"));
}

fn log(size: (u32, u32)) -> (ui::AppWindow, Rc<State>, tempfile::TempDir) {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, state) = live_in(size, folder.path());
    tap(&window, AccessibleRole::Tab, "Log");
    tap(&window, AccessibleRole::Button, "Load the example");
    (window, state, folder)
}

/// So in the log: the job, a piece with its readings, a reading that is typed.
#[test]
fn all_that_is_drawn_in_the_log_is_heard() {
    let mut wrong = Vec::new();
    for size in [LONG, WIDE] {
        let (window, _state, _folder) = log(size);
        let mut look = |name: &str, window: &ui::AppWindow| {
            wrong.extend(silent(window).into_iter().map(|said| format!("{} {name}: {said}", size.0)));
        };
        look("job", &window);
        let adapter = || window.global::<ui::LogAdapter>();
        let read =
            adapter().get_pieces().iter().find(|cell| !cell.figure.is_empty()).expect("one with a reading");
        adapter().invoke_piece_asked(read.id, false);
        mock_elapsed_time(50);
        look("piece", &window);
        tap(&window, AccessibleRole::Button, "Add a reading");
        look("entry", &window);
    }
    assert!(wrong.is_empty(), "{} texts are drawn and not heard:\n{}", wrong.len(), wrong.join("\n"));
}

/// Every colour has its name, its range and its lightness in words beside it; the answer is words and
/// figures; and a reader who doesn't see every colour is told what to use.
#[test]
fn no_answer_of_the_tint_place_rests_on_a_colour() {
    for size in [LONG, WIDE] {
        let (window, _state) = on_tint(size);
        tap(&window, AccessibleRole::RadioButton, "2.5\u{a0}min");
        let adapter = || window.global::<ui::TintAdapter>();
        let swatches: Vec<ui::SwatchRow> = adapter().get_swatches().iter().collect();
        let drawn: Vec<String> = texts(&window).into_iter().map(|(said, ..)| said).collect();
        let mut names = Vec::new();
        for swatch in &swatches {
            let tile = found(&window, AccessibleRole::RadioButton, &swatch.name);
            let told = tile.accessible_description().unwrap_or_default();
            assert!(
                told.contains(swatch.figure.as_str()) && told.contains(swatch.lightness.as_str()),
                "{told}"
            );
            for said in [&swatch.name, &swatch.figure, &swatch.lightness] {
                assert!(
                    !said.is_empty() && drawn.iter().any(|text| text == said.as_str()),
                    "{said} is drawn"
                );
            }
            names.push(swatch.name.clone());
        }
        names.sort();
        names.dedup();
        assert_eq!(names.len(), swatches.len(), "no two colours share a name");
        // On the strip too, where there is room for all names; along it the reader hears what is asked.
        let marks: Vec<_> = adapter().get_strip().marks.iter().collect();
        assert!(marks.len() >= 8 && marks.iter().all(|mark| !mark.label.is_empty()));
        if size == WIDE {
            assert!(marks.iter().all(|mark| drawn.iter().any(|text| *text == mark.label.as_str())));
        }
        tap(&window, AccessibleRole::RadioButton, "Purple-blue");
        let strip = found(&window, AccessibleRole::Slider, "Colours by temperature");
        let spoken = strip.accessible_value().unwrap_or_default().to_lowercase();
        assert!(spoken.contains("purple-blue") && spoken.contains("°c"), "{spoken}");
        assert!(adapter().get_answer().figure.figure.contains('–'), "the answer is figures");
        let told = "If you are colour-blind, even in part, do not judge by colour. Use a contact probe or a temperature crayon.";
        assert!(says(&window, told));
    }
}

/// Where the keyboard is: the name of the field within its ring.
fn field_in_ring(window: &ui::AppWindow) -> Option<String> {
    let rings = ElementQuery::from_root(window).match_inherits("FocusRing").find_all();
    if rings.is_empty() {
        return None;
    }
    let fields = ElementQuery::from_root(window).match_accessible_role(AccessibleRole::TextInput).find_all();
    fields
        .into_iter()
        .filter(|field| {
            let (at, size) = (field.absolute_position(), field.size());
            let (x, y) = (at.x + size.width / 2.0, at.y + size.height / 2.0);
            rings.iter().any(|ring| ring.size().height < 80.0 && holds(ring, x, y))
        })
        .find_map(|field| field.accessible_label())
        .map(|label| label.to_string())
}

/// Tab leads to every field of a page, also to those that are scrolled out of view.
#[test]
fn no_field_is_passed_over_by_the_keyboard() {
    for (name, visit) in PLACES.iter().filter(|(name, _)| ["plan", "open cycle"].contains(name)) {
        let whole = shown(WIDE, &(name, *visit));
        let mut fields: Vec<String> = everything(&whole)
            .iter()
            .filter(|element| element.accessible_role() == Some(AccessibleRole::TextInput))
            .filter_map(|element| element.accessible_label())
            .map(|label| label.to_string())
            .collect();
        assert!(fields.len() > 4, "{name}: {fields:?}");
        let window = shown((1280, 640), &(name, *visit));
        let mut tabs = 0;
        while !fields.is_empty() && tabs < 70 {
            tabs += 1;
            press(&window, Key::Tab);
            if let Some(found) = field_in_ring(&window) {
                fields.retain(|field| *field != found);
            }
        }
        assert!(fields.is_empty(), "{name}: Tab passes over {fields:?}");
    }
}

/// The accent is not told from what is chosen: there the ring has the colour of its word.
#[test]
fn the_ring_is_seen_on_what_is_chosen() {
    for look in [ui::Look::Dark, ui::Look::Light] {
        let (window, _state) = live((1280, 800), Session { job: demo_job(), ..Session::default() });
        let theme = || window.global::<ui::Theme>();
        theme().set_look(look);
        let row =
            with(&window, |element| element.accessible_id().is_some_and(|id| id == "list:condition-btn"));
        row.expect("the list").mock_single_click(PointerEventButton::Left);
        press(&window, Key::Escape);
        press(&window, Key::Return);
        let ring =
            || ElementQuery::from_root(&window).match_inherits("FocusRing").find_first().expect("a ring");
        let seen = || {
            let (at, size) = (ring().absolute_position(), ring().size());
            // The left side of a ring that lies 1 to 4 px within its row.
            drawn(&window).get_pixel(at.x as u32 + 2, (at.y + size.height / 2.0) as u32).0
        };
        let ink = |colour: slint::Color| [colour.red(), colour.green(), colour.blue(), 255];
        assert_eq!(seen(), ink(theme().get_on_sel()), "on what is chosen");
        press(&window, Key::DownArrow);
        assert_eq!(seen(), ink(theme().get_accent()), "on what isn't");
    }
}
