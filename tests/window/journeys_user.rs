//! A new user's day at the window: what read wrongly, what the keyboard could not get to, what did not say
//! which part it meant.

use std::rc::Rc;

use i_slint_backend_testing::{AccessibleRole, ElementQuery};
use slint::platform::{Key, WindowEvent};
use slint::{ComponentHandle, LogicalPosition, Model, SharedString};
use strawblue::app::{Page, State, open_page, refresh_all, ui};
use strawblue::job::{Field, OwnSteel, Session, demo_job};

use crate::bench::{answer, bench, entries, on_demo, open, page};
use crate::journeys_tint::on_tint;
use crate::screen::compare::{DESKTOP, PHONE, drawn, part};
use crate::screen::hand::{fill, found, labelled, press, says, tap, with};
use crate::screen::{live, mock_elapsed_time};
use crate::typed_job;

const LONG: [(u32, u32); 2] = [(360, 9000), (1280, 6000)];

fn types(window: &ui::AppWindow, text: &str) {
    text.chars().for_each(|letter| press(window, SharedString::from(letter)));
}

fn edited(window: &ui::AppWindow, field: &str, text: &str) {
    window.global::<ui::FormEvents>().invoke_field_edited(field.into(), text.into());
    mock_elapsed_time(20);
}

fn plain(text: &str) -> String {
    text.replace('\u{a0}', " ")
}

/// A line of the list names each figure by what it is, and calls none what is not.
#[test]
fn a_line_of_the_bench_reads_as_what_it_is() {
    let (window, _state) = bench(LONG[1], on_demo());
    let line = |id: &str| entries(&window).into_iter().find(|entry| entry.id == id).expect("a line");
    let crayons = plain(&line("crayon-pair").answer);
    assert!(crayons.contains("Must melt: 316 °C") && crayons.contains("Must not melt: 343 °C"), "{crayons}");
    let unmarked = line("unmarked-steel");
    assert_eq!((unmarked.answer.as_str(), unmarked.note.as_str()), ("", "No figure yet"));
}

/// It is not the heating that was short: of ten minutes the surface is near its hottest for one.
#[test]
fn a_short_stay_near_the_peak_is_not_called_a_short_heating() {
    let (window, _state) = on_tint(LONG[1]);
    fill(&window, "Awaited temperature", "305");
    tap(&window, AccessibleRole::RadioButton, "5\u{a0}min");
    let notes: Vec<String> = window.global::<ui::TintAdapter>().get_notes().iter().map(Into::into).collect();
    let short = notes.iter().find(|note| note.contains("1.2 minutes")).expect("it is said");
    assert!(!short.contains("heating was shorter") && short.contains("close to this temperature"), "{short}");
}

fn hits(window: &ui::AppWindow) -> Vec<bool> {
    window.global::<ui::SafetyAdapter>().get_found().iter().map(|row| row.open).collect()
}

/// The arrow down and Enter lead from the search into what it found, as they do among the steels.
#[test]
fn the_keyboard_enters_the_safety_notes_that_were_found() {
    for (size, enter) in [(DESKTOP, Key::DownArrow), (PHONE, Key::Return)] {
        let (window, _state) = live(size, Session { place: "safety".to_owned(), ..Session::default() });
        fill(&window, "Find a safety note", "drum");
        press(&window, enter);
        press(&window, Key::Return);
        assert!(hits(&window)[0], "{size:?}: the first unfolds");
        press(&window, Key::DownArrow);
        press(&window, Key::Return);
        assert!(hits(&window)[1], "{size:?}: and the next one");
        press(&window, Key::UpArrow);
        press(&window, Key::Return);
        assert!(!hits(&window)[0], "{size:?}: and the first folds again");
    }
}

fn certificate(size: (u32, u32)) -> (ui::AppWindow, Rc<State>) {
    let (window, state) = live(size, Session { job: demo_job(), ..Session::default() });
    open_page(&window, &state, Page::Certificate);
    mock_elapsed_time(50);
    (window, state)
}

/// A button that goes with its press leaves the keyboard on the page: Escape still leads back.
#[test]
fn escape_is_heard_after_a_button_that_goes() {
    let (window, _state) = certificate(DESKTOP);
    fill(&window, "C", "0.4");
    tap(&window, AccessibleRole::Button, "Discard unsaved changes");
    assert!(labelled(&window, AccessibleRole::Button, "Discard unsaved changes").is_none());
    press(&window, Key::Escape);
    assert_eq!(page(&window), "plan");
    // So on a question, whose button clears what was typed.
    let (window, state) = bench(DESKTOP, on_demo());
    open(&window, &state, "hydrogen-scale");
    fill(&window, "Diffusible hydrogen (ISO 3690)", "8");
    tap(&window, AccessibleRole::Button, "Clear what you typed");
    press(&window, Key::Escape);
    assert_eq!(page(&window), "bench");
}

/// On a desktop a page that is opened to type in begins with the cursor in its first field, and Escape
/// leaves it at once while nothing is typed.
#[test]
fn a_page_to_type_in_begins_in_its_first_field() {
    let (window, _state) = certificate(DESKTOP);
    types(&window, "Bar");
    let name = found(&window, AccessibleRole::TextInput, "Name").accessible_value();
    assert_eq!(name.as_deref(), Some("Bar"));
    // Of a steel that is there the name is seldom what is changed.
    let own =
        OwnSteel { name: "Bar".to_owned(), composition: "C 0.4 Mn 0.7".to_owned(), ..OwnSteel::default() };
    let (window, _state) = live(DESKTOP, Session { own_steels: vec![own], ..Session::default() });
    window.global::<ui::SteelsAdapter>().invoke_edit_asked("own:Bar".into());
    mock_elapsed_time(50);
    types(&window, "0");
    let name = found(&window, AccessibleRole::TextInput, "Name").accessible_value();
    assert_eq!((page(&window), name.as_deref()), ("certificate".to_owned(), Some("Bar")));
    let (window, state) = bench(DESKTOP, Session { job: Session::default().job, ..on_demo() });
    open(&window, &state, "hydrogen-scale");
    types(&window, "8");
    assert!(plain(&answer(&window).figure.figure).starts_with('8'), "{:?}", answer(&window));
    let (window, state) = bench(DESKTOP, on_demo());
    open(&window, &state, "hydrogen-scale");
    press(&window, Key::Escape);
    assert_eq!(page(&window), "bench");
}

/// A list that unfolds low in the pane comes into view, and so does each of its rows as the arrows get there.
#[test]
fn a_list_that_unfolds_low_in_the_pane_comes_into_view() {
    let (window, _state) = live((1280, 640), Session { job: demo_job(), ..Session::default() });
    let plan = || window.global::<ui::PlanAdapter>();
    let box_of =
        || with(&window, |element| element.accessible_id().is_some_and(|id| id == "list:process-btn"));
    while box_of().is_none_or(|box_of| box_of.absolute_position().y > 580.0) {
        plan().set_scroll_inputs(plan().get_scroll_inputs() - 20.0);
        mock_elapsed_time(20);
        assert!(plan().get_scroll_inputs() > -6000.0, "the box is found");
    }
    box_of().expect("its box").mock_single_click(slint::platform::PointerEventButton::Left);
    mock_elapsed_time(50);
    let row = |label: &str| {
        let row = found(&window, AccessibleRole::RadioButton, label);
        (row.absolute_position().y, row.absolute_position().y + row.size().height)
    };
    let (_, low) = row("SMAW, basic (low-hydrogen)");
    assert!(low < 640.0, "what is chosen is in view: {low}");
    for _ in 0..9 {
        press(&window, Key::DownArrow);
    }
    let last = ElementQuery::from_root(&window)
        .match_predicate(|element| {
            element.accessible_role() == Some(AccessibleRole::RadioButton)
                && element.accessible_label().is_some_and(|label| label.starts_with("SAW"))
        })
        .find_first()
        .expect("submerged arc");
    assert!(last.absolute_position().y < 640.0, "{}", last.absolute_position().y);
}

/// A slip of the decimal mark is asked about where it is typed, and is no steel to be saved.
#[test]
fn a_certificate_that_no_steel_has_is_asked_about_where_it_is_typed() {
    let (window, _state) = certificate((360, 2400));
    fill(&window, "Name", "My shaft");
    for (symbol, text) in [("C", "2.5"), ("Si", "0.25"), ("Mn", "0.85"), ("Cr", "1.05"), ("Mo", "0.2")] {
        fill(&window, symbol, text);
    }
    let said = found(&window, AccessibleRole::TextInput, "C").accessible_description().unwrap_or_default();
    assert!(said.contains("Did you mean 0.25\u{a0}%?"), "{said}");
    let save = |window: &ui::AppWindow| {
        let save = found(window, AccessibleRole::Button, "Save as a steel of my own");
        save.accessible_enabled().unwrap_or(false)
    };
    assert!(!save(&window), "no green button");
    let readout = window.global::<ui::CertificateAdapter>().get_readout();
    assert!(readout.iter().all(|figure| figure.figure == "–"), "no figure of a slip");
    fill(&window, "C", "0.25");
    assert!(save(&window) && readout.iter().all(|figure| figure.figure != "–"));
}

/// The refusal of one steel does not stand for another, and what can't be used is named as the form names
/// it, with its part.
#[test]
fn a_faulty_entry_is_named_and_inherits_no_refusal() {
    let own = OwnSteel {
        name: "My shaft".to_owned(),
        composition: "C 2.5 Si 0.25 Mn 0.85 Cr 1.05 Mo 0.2".to_owned(),
        grade: String::new(),
    };
    let job = typed_job::over(demo_job(), &[("steel", "12L14")]);
    let (window, state) = live(LONG[1], Session { job, own_steels: vec![own], ..Session::default() });
    let answer = || window.global::<ui::PlanAdapter>().get_answer();
    assert_eq!(answer().kind, ui::AnswerKind::Refused);
    state.change_job(|job| job.set(Field::Steel, Some("My shaft".to_owned())));
    refresh_all(&window, &state);
    assert_eq!(answer().kind, ui::AnswerKind::Empty, "{:?}", answer());
    assert!(answer().title.contains("Steel"), "{}", answer().title);
    assert!(!says(&window, "Do not weld this"));
    // A round bar has a diameter, and of two parts one is meant.
    let job = typed_job::over(demo_job(), &[("shape", "round"), ("thickness", "60 mm")]);
    let (window, _state) = live(LONG[1], Session { job, ..Session::default() });
    edited(&window, "thickness", "600 ft");
    let why = window.global::<ui::PlanAdapter>().get_answer().stale_why;
    assert!(why.ends_with("Diameter (first part)"), "{why}");
}

/// What an IR gun on a mirror tells is not scrolled out of view.
#[test]
fn what_a_mirror_tells_stays_in_view() {
    let (window, _state) = on_tint(DESKTOP);
    window.global::<ui::FormEvents>().invoke_row_toggled("ask:ir-true-temperature".into());
    edited(&window, "ask:ir-true-temperature.reading", "305");
    window.global::<ui::FormEvents>().invoke_choice_made("ask:ir-true-temperature.surface".into(), 0);
    mock_elapsed_time(20);
    let first = window.global::<ui::TintAdapter>().get_answer().first;
    assert_eq!(first.row_count(), 1, "bright steel is a mirror");
    window.global::<ui::TintAdapter>().set_scroll_results(-300.0);
    mock_elapsed_time(50);
    let bar = with(&window, |element| element.accessible_id().is_some_and(|id| id == "reply-bar"));
    let said = bar.and_then(|bar| bar.accessible_value()).unwrap_or_default();
    assert!(said.starts_with("The steel is hotter than the reading"), "{said}");
    // Beside the fields too the steel is hotter, and not "not on this surface".
    let rows = window.global::<ui::TintAdapter>().get_rows();
    let row = rows.iter().find(|row| row.id == "ask:ir-true-temperature").expect("its row");
    let figure = row.parts.iter().find(|part| part.kind == ui::PartKind::Result).expect("its result");
    assert_eq!(figure.value, "Hotter than it shows");
}

/// A class of a filler lies in the scale over it.
#[test]
fn a_class_of_hydrogen_marks_its_scale() {
    let (window, state) = live(LONG[0], Session { job: demo_job(), ..Session::default() });
    for (typed, scale) in [("H5", 1), ("12 ml", 3), ("EN E", 0), ("wet", -1)] {
        state.change_job(|job| job.set(Field::Hydrogen.nth(1), Some(typed.to_owned())));
        refresh_all(&window, &state);
        let rows = window.global::<ui::PlanAdapter>().get_rows();
        let row = rows.iter().find(|row| row.id == "process").expect("the processes");
        let scales = row.parts.iter().filter(|part| part.id.starts_with("class:"));
        assert_eq!(scales.last().map(|part| part.chosen), Some(scale), "{typed}");
    }
}

/// What the wheel has moved from under the mouse does not stay marked.
#[test]
fn a_frame_under_the_mouse_goes_with_the_wheel() {
    let shot = |hovered: bool| {
        let (window, _state) = live(DESKTOP, Session { job: demo_job(), ..Session::default() });
        let plan = window.global::<ui::PlanAdapter>();
        let tile = || labelled(&window, AccessibleRole::RadioButton, "Repair");
        while tile().is_none_or(|tile| tile.absolute_position().y > 600.0) {
            plan.set_scroll_inputs(plan.get_scroll_inputs() - 40.0);
            mock_elapsed_time(20);
        }
        if hovered {
            let at = tile().expect("a joint").absolute_position();
            let position = LogicalPosition::new(at.x + 20.0, at.y + 20.0);
            window.window().dispatch_event(WindowEvent::PointerMoved { position });
            mock_elapsed_time(20);
        }
        plan.set_scroll_inputs(plan.get_scroll_inputs() - 90.0);
        mock_elapsed_time(20);
        part(&drawn(&window), (88, 60, 380, 700))
    };
    assert!(shot(true) == shot(false), "something is still marked");
}
