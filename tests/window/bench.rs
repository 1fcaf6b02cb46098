//! The Bench in the real window: every question is on its list and opens; the search, the way back, the
//! keyboard; what comes out of the plan and what goes into it.

use std::collections::BTreeSet;
use std::rc::Rc;

use crate::screen::hand::{fill, found, labelled, press, says, tap};
use crate::screen::{live_with, mock_elapsed_time};
use i_slint_backend_testing::AccessibleRole;
use slint::platform::{Key, PointerEventButton};
use slint::{ComponentHandle, Model};
use strawblue::app::{State, questions_with, refresh_all, ui};
use strawblue::job::{Session, demo_job};
use strawblue::questions::{self, Work};
use strawblue::words::Words;
use strum::IntoEnumIterator;

pub(crate) const PHONE: (u32, u32) = (360, 740);
pub(crate) const DESKTOP: (u32, u32) = (1280, 800);

pub(crate) fn on_demo() -> Session {
    Session { job: demo_job(), place: "bench".to_owned(), ..Session::default() }
}

pub(crate) fn bench(size: (u32, u32), session: Session) -> (ui::AppWindow, Rc<State>) {
    let (window, state) = live_with(size, session, None);
    state.finish_answers();
    refresh_all(&window, &state);
    mock_elapsed_time(50);
    (window, state)
}

/// A question opened from the list.
pub(crate) fn open(window: &ui::AppWindow, state: &State, name: &str) {
    window.global::<ui::BenchAdapter>().invoke_question_asked(name.into());
    state.finish_answers();
    refresh_all(window, state);
    mock_elapsed_time(50);
}

pub(crate) fn entries(window: &ui::AppWindow) -> Vec<ui::BenchEntry> {
    window.global::<ui::BenchAdapter>().get_entries().iter().collect()
}

pub(crate) fn ids(window: &ui::AppWindow) -> Vec<String> {
    let questions = entries(window).into_iter().filter(|entry| entry.kind == ui::BenchEntryKind::Question);
    questions.map(|entry| entry.id.to_string()).collect()
}

pub(crate) fn page(window: &ui::AppWindow) -> String {
    window.global::<ui::Shell>().get_page().to_string()
}

pub(crate) fn answer(window: &ui::AppWindow) -> ui::ReplyView {
    window.global::<ui::BenchAdapter>().get_answer()
}

/// Every question of the registry is listed once, under the part of the work that it declares, and each
/// part has some.
#[test]
fn every_question_is_on_the_list_in_the_order_of_the_work() {
    let (window, state) = bench(PHONE, on_demo());
    let mut at = Vec::new();
    let mut listed = Vec::new();
    for entry in entries(&window) {
        match entry.kind {
            ui::BenchEntryKind::Head => at.push(entry.id.to_string()),
            _ => {
                let question = questions::find(&entry.id).expect("a question");
                assert_eq!(at.last().map(String::as_str), Some(question.work.id()), "{}", entry.id);
                listed.push(entry.id.to_string());
            }
        }
        assert!(!entry.text.is_empty() && !entry.text.contains("question-"), "{}", entry.text);
    }
    assert_eq!(at, Work::iter().map(|work| work.id().to_owned()).collect::<Vec<_>>());
    let all: BTreeSet<&str> = questions::ALL.iter().map(|question| question.name).collect();
    assert_eq!(listed.iter().map(String::as_str).collect::<BTreeSet<_>>(), all);
    assert_eq!(listed.len(), all.len(), "none stands twice");
    assert!(at.windows(2).all(|pair| pair[0] != pair[1]));
    // Each says something beside its name: an answer or what it takes.
    for entry in entries(&window).iter().filter(|entry| entry.kind == ui::BenchEntryKind::Question) {
        assert!(entry.answer.is_empty() != entry.note.is_empty(), "{}: {entry:?}", entry.id);
        assert!(!entry.of_plan || !entry.answer.is_empty(), "{}", entry.id);
    }
    let line = |name: &str| entries(&window).into_iter().find(|entry| entry.id == name).expect("listed");
    // Method B has all that it needs in the plan; a shrink fit needs its diameter.
    assert!(line("method-b").of_plan && line("method-b").answer.contains("°C"), "{:?}", line("method-b"));
    assert!(line("shrink-fit").note.starts_with("Needs: Diameter of the fit"), "{:?}", line("shrink-fit"));
    // Without a plan nothing claims to be its.
    state.change(|session| session.job = strawblue::job::JobText::default());
    refresh_all(&window, &state);
    assert!(entries(&window).iter().all(|entry| !entry.of_plan));
}

/// A journey over all of them at 360 px: each opens from its row, shows what is asked, its inputs and an
/// answer or what it takes, and the way back leads to the list.
#[test]
fn every_question_opens_and_leads_back() {
    let (window, state) = bench((360, 740), on_demo());
    for question in questions::ALL {
        open(&window, &state, question.name);
        // This one is asked test by test on a page of its own.
        if question.name == "unmarked-steel" {
            assert_eq!(page(&window), "unmarked");
            tap(&window, AccessibleRole::Button, "Back");
            assert_eq!(page(&window), "bench");
            continue;
        }
        let asked = state.words.get(&format!("question-{}.asked", question.name));
        assert_eq!(page(&window), "question");
        assert!(says(&window, &asked), "{asked}");
        assert_eq!(
            window.global::<ui::Shell>().get_title(),
            state.words.get(&format!("work-{}", question.work.id())).as_str()
        );
        let band = answer(&window);
        assert!(band.problem.is_empty() && !band.stale, "{}: {}", question.name, band.problem);
        assert!(band.figured || !band.title.is_empty(), "{} shows nothing", question.name);
        let inputs = window.global::<ui::BenchAdapter>().get_inputs();
        let parts = inputs.row_data(0).expect("the row of inputs").parts;
        assert!(parts.row_count() > 0, "{} has no inputs", question.name);
        tap(&window, AccessibleRole::Button, "Back");
        assert_eq!(page(&window), "bench");
    }
}

/// Words of the shop, and both spellings: common practice, no source.
#[test]
fn a_question_is_found_by_everyday_words() {
    let words = Words::english();
    for (query, wanted) in [
        ("hub", "shrink-fit"),
        ("bushing", "shrink-fit"),
        ("dry ice", "shrink-fit"),
        ("gas bottle", "acetylene-draw"),
        ("rosebud", "torch-heating"),
        ("color", "peak-from-tint"),
        ("colour", "peak-from-tint"),
        ("straw", "tint-flame-on"),
        ("file", "file-test"),
        ("scrap bar", "unmarked-steel"),
        ("Rockwell", "hardness-conversion"),
        ("rods", "electrode-exposure"),
        ("bake", "hydrogen-removal"),
        ("ash", "slow-cooling"),
        ("volts", "heat-input"),
        ("t8/5", "cooling-time"),
        ("laser", "ir-true-temperature"),
        ("cherry", "red-heat"),
        ("48 hours", "inspection-wait"),
        ("Seferian", "seferian"),
        ("method b", "method-b"),
        ("suffocate", "room-air"),
        ("Post-heat", "post-heat"),
    ] {
        let found: Vec<&str> = questions_with(&words, query).iter().map(|question| question.name).collect();
        assert!(found.iter().take(4).any(|name| *name == wanted), "{query}: {found:?}");
    }
    assert!(questions_with(&words, "zebra").is_empty() && questions_with(&words, "  ").is_empty());
    // Each is found by its own name, and by what is asked.
    for question in questions::ALL {
        let key = format!("question-{}", question.name);
        for said in [words.get(&key), words.get(&format!("{key}.asked"))] {
            let plain: String = said
                .chars()
                .map(|sign| {
                    if sign.is_alphanumeric() || sign == '.' || sign == '-' || sign == '/' {
                        sign
                    } else {
                        ' '
                    }
                })
                .collect();
            let found = questions_with(&words, plain.trim());
            assert!(found.iter().any(|other| other.name == question.name), "{said}");
        }
    }
    // Spelling never decides.
    let groups = words.get("bench-same-words");
    for group in groups.split(';') {
        let all: Vec<Vec<&str>> = group
            .split(',')
            .map(|word| questions_with(&words, word).iter().map(|question| question.name).collect())
            .collect();
        assert!(!all[0].is_empty() && all.windows(2).all(|pair| pair[0] == pair[1]), "{group}: {all:?}");
    }
}

#[test]
fn the_search_narrows_the_list_and_says_when_nothing_is_found() {
    let (window, _state) = bench(PHONE, on_demo());
    fill(&window, "Find a question", "bushing");
    assert!(ids(&window).contains(&"shrink-fit".to_owned()) && ids(&window).len() < 20, "{:?}", ids(&window));
    fill(&window, "Find a question", "zebra");
    assert_eq!(ids(&window), [""; 0]);
    assert!(says(&window, "No question on “zebra”"));
    let empty = entries(&window);
    assert!(empty[0].note.contains("everyday word"), "{}", empty[0].note);
    tap(&window, AccessibleRole::Button, "Show all questions");
    assert_eq!(ids(&window).len(), questions::ALL.len());
}

/// Back from a question the list stands where it stood, to the pixel.
#[test]
fn the_way_back_leads_to_the_same_place_of_the_list() {
    let (window, _state) = bench(PHONE, on_demo());
    let adapter = || window.global::<ui::BenchAdapter>();
    adapter().set_scroll_list(-1500.0);
    mock_elapsed_time(50);
    let asked = |name: &str| Words::english().get(&format!("question-{name}.asked"));
    let in_view = |row: &String| {
        let seen = labelled(&window, AccessibleRole::Button, row).map(|seen| seen.absolute_position().y);
        seen.is_some_and(|top| (200.0..500.0).contains(&top))
    };
    let row =
        questions::ALL.iter().map(|question| asked(question.name)).find(in_view).expect("a row in view");
    let row = row.as_str();
    let before = found(&window, AccessibleRole::Button, row).absolute_position();
    tap(&window, AccessibleRole::Button, row);
    assert_eq!(page(&window), "question");
    press(&window, Key::Escape);
    mock_elapsed_time(50);
    assert_eq!(page(&window), "bench");
    let after = found(&window, AccessibleRole::Button, row).absolute_position();
    assert_eq!(before.y, after.y);
    assert!(adapter().get_scroll_list() < -1400.0);
}

/// Arrows move in the list, Enter opens, Escape leads back to the row and never leaves.
#[test]
fn the_list_is_worked_by_keyboard_alone() {
    let (window, _state) = bench(DESKTOP, on_demo());
    let adapter = || window.global::<ui::BenchAdapter>();
    let on = || adapter().get_entries().row_data(adapter().get_at() as usize).expect("a row").id;
    found(&window, AccessibleRole::TextInput, "Find a question").mock_single_click(PointerEventButton::Left);
    press(&window, Key::DownArrow);
    assert_eq!(on(), questions::ALL[0].name, "the first question, and not its head");
    for _ in 0..8 {
        press(&window, Key::DownArrow);
    }
    let ninth = on();
    assert!(questions::find(&ninth).is_some(), "{ninth} is no question");
    press(&window, Key::Return);
    assert_eq!(page(&window), "question");
    assert_eq!(adapter().get_question(), ninth);
    press(&window, Key::Escape);
    assert_eq!(page(&window), "bench");
    mock_elapsed_time(50);
    press(&window, Key::DownArrow);
    press(&window, Key::UpArrow);
    press(&window, Key::Return);
    assert_eq!(adapter().get_question(), ninth, "the keyboard is on the row that it left");
    press(&window, Key::Escape);
    press(&window, Key::Escape);
    press(&window, Key::Escape);
    assert_eq!(page(&window), "bench", "Escape never leaves the place");
    // To the end and past it.
    for _ in 0..80 {
        press(&window, Key::DownArrow);
    }
    assert_eq!(on(), "inspection-wait");
    let last = found(&window, AccessibleRole::Button, "How long before the inspection?");
    assert!(last.absolute_position().y + last.size().height <= 800.0, "it is in view");
}
