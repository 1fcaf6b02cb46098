//! What a person does on the pages beside the plan, in the real window on the real data:
//! finding a steel, typing a certificate, looking for a caution, changing the settings.

use std::rc::Rc;

use crate::screen::hand::{fill, labelled, press, tap, with};
use crate::screen::{live_with, mock_elapsed_time, typed_at};
use i_slint_backend_testing::{AccessibleRole, ElementHandle, ElementQuery};
use slint::ComponentHandle;
use slint::platform::Key;
use strawblue::app::{ChosenFor, Page, State, open_page, ui};
use strawblue::job::{Field, Session, Store, Theme, demo_job};
use strawblue::units::Units;

const PHONE: (u32, u32) = (360, 2400);
const DESKTOP: (u32, u32) = (1280, 800);

fn demo() -> Session {
    Session { job: demo_job(), ..Session::default() }
}

fn on(page: Page, size: (u32, u32)) -> (ui::AppWindow, Rc<State>) {
    let (window, state) = live_with(size, demo(), None);
    open_page(&window, &state, page);
    mock_elapsed_time(50);
    (window, state)
}

fn button(window: &ui::AppWindow, label: &str) {
    tap(window, AccessibleRole::Button, label);
}

fn value(window: &ui::AppWindow, label: &str) -> String {
    labelled(window, AccessibleRole::TextInput, label)
        .and_then(|field| field.accessible_value())
        .unwrap_or_default()
        .to_string()
}

fn steel_rows(window: &ui::AppWindow) -> Vec<String> {
    mock_elapsed_time(20);
    ElementQuery::from_root(window)
        .match_predicate(|element| element.accessible_role() == Some(AccessibleRole::ListItem))
        .find_all()
        .iter()
        .filter_map(|row| row.accessible_label())
        .map(|label| label.to_string())
        .collect()
}

fn steel_of(state: &State) -> String {
    typed_at(state, Field::Steel).unwrap_or_default()
}

/// EN 10083-3 numbers 42CrMo4 as 1.7225; trade cross-references put SAE 4140 and 4142 beside it.
#[test]
fn a_steel_is_taken_by_its_number() {
    let (window, state) = on(Page::Steels, PHONE);
    fill(&window, "Find a steel", "1.7225");
    let rows = steel_rows(&window);
    assert_eq!(rows.first().map(String::as_str), Some("42CrMo4"));
    assert!(rows.contains(&"SAE 4140".to_owned()) && rows.contains(&"SAE 4142".to_owned()), "{rows:?}");
    assert!(
        with(&window, |element| element
            .accessible_label()
            .is_some_and(|label| label == "1.7225 is the name of 3 steels. They differ in:"))
        .is_some(),
        "steels that share a number are told apart"
    );
    assert_eq!(steel_of(&state), demo_job().get(Field::Steel).unwrap_or_default(), "searching takes none");
    press(&window, Key::Return);
    assert_eq!(
        steel_of(&state),
        demo_job().get(Field::Steel).unwrap_or_default(),
        "Enter goes to the list and takes none"
    );
    press(&window, Key::Return);
    assert_eq!(steel_of(&state), "42CrMo4");
    let job = state.job().expect("the job still reads");
    assert_eq!(job.members[0].steel.grade().map(|grade| grade.designation.as_str()), Some("42CrMo4"));
    assert_eq!(window.global::<ui::Shell>().get_page(), "plan");
}

#[test]
fn a_steel_is_taken_for_the_second_part() {
    let (window, state) = on(Page::Steels, PHONE);
    state.open.borrow_mut().chosen_for = ChosenFor::Nth(1);
    fill(&window, "Find a steel", "s355j2");
    tap(&window, AccessibleRole::ListItem, "S355J2");
    assert_eq!(typed_at(&state, Field::Steel.nth(1)).as_deref(), Some("S355J2"));
    assert_eq!(steel_of(&state), demo_job().get(Field::Steel).unwrap_or_default());
}

#[test]
fn a_slip_lists_neighbours_and_takes_none() {
    let (window, state) = on(Page::Steels, DESKTOP);
    fill(&window, "Find a steel", "4144");
    let rows = steel_rows(&window);
    assert!(rows.contains(&"SAE 4140".to_owned()), "{rows:?}");
    assert!(labelled(&window, AccessibleRole::Text, "Did you mean").is_some());
    press(&window, Key::Return);
    let chosen = ElementQuery::from_root(&window)
        .match_predicate(|element| element.accessible_item_selected() == Some(true))
        .find_all();
    assert!(chosen.iter().all(|row| row.accessible_role() != Some(AccessibleRole::ListItem)));
    assert_eq!(steel_of(&state), demo_job().get(Field::Steel).unwrap_or_default());
}

#[test]
fn nothing_found_says_what_to_do_next() {
    let (window, _state) = on(Page::Steels, PHONE);
    fill(&window, "Find a steel", "zebra");
    button(&window, "Type in a certificate");
    assert_eq!(window.global::<ui::Shell>().get_page(), "certificate");
}

/// Types a certificate with one bad figure, up to where it could be saved but for that.
fn type_certificate(window: &ui::AppWindow) {
    button(window, "Type in a certificate");
    fill(window, "Name", "Boss bar");
    for (symbol, text) in [("C", "0,34"), ("Si", "0.27"), ("Mn", "0.78"), ("Cr", "1.0.5"), ("Mo", "0.21")] {
        fill(window, symbol, text);
    }
}

fn save_allowed(window: &ui::AppWindow, label: &str) -> bool {
    labelled(window, AccessibleRole::Button, label)
        .and_then(|save| save.accessible_enabled())
        .unwrap_or(false)
}

#[test]
fn a_certificate_is_typed_saved_used_changed_and_deleted() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = || Store::open(folder.path()).expect("makes it");
    let (window, state) = live_with(PHONE, demo(), Some(store()));
    open_page(&window, &state, Page::Steels);
    type_certificate(&window);
    assert_eq!(value(&window, "Cr"), "1.0.5", "what is typed stays");
    let said =
        labelled(&window, AccessibleRole::TextInput, "Cr").and_then(|field| field.accessible_description());
    assert!(said.is_some_and(|said| said.contains("1.0.5") && said.contains("cannot be read")));
    assert!(!save_allowed(&window, "Save as a steel of my own"));

    // A kill in the middle, a tenth of a second after the last key: everything typed is there again.
    state.flush();
    window.hide().expect("hides");
    drop((window, state));
    let found = Session::load(&store()).expect("reads").session;
    let (window, state) = live_with(PHONE, found, Some(store()));
    open_page(&window, &state, Page::Steels);
    button(&window, "Type in a certificate");
    assert_eq!((value(&window, "C").as_str(), value(&window, "Cr").as_str()), ("0,34", "1.0.5"));

    fill(&window, "Cr", "1.05");
    // C + Mn/6 + (Cr + Mo + V)/5 = 0.34 + 0.13 + 0.252, the IIW formula by hand.
    let ce =
        labelled(&window, AccessibleRole::Button, "CE (IIW)").and_then(|figure| figure.accessible_value());
    assert_eq!(ce.as_deref(), Some("0.722"));
    button(&window, "Save as a steel of my own");
    assert_eq!(steel_of(&state), "Boss bar", "a new steel goes into the job");
    assert_eq!(window.global::<ui::Shell>().get_page(), "plan");

    state.flush();
    let found = Session::load(&store()).expect("reads").session;
    assert!(!found.typed.keys().any(|key| key.starts_with("certificate.")), "a saved draft is none any more");
    let (window, state) = live_with(PHONE, found, Some(store()));
    let job = state.job().expect("the job reads with the own steel");
    assert!(job.members[0].steel.grade().is_none());
    open_page(&window, &state, Page::Steels);
    assert_eq!(steel_rows(&window).first().map(String::as_str), Some("Boss bar"));
    window.global::<ui::SteelsAdapter>().invoke_detail_toggled("own:Boss bar".into());
    button(&window, "Change its figures");
    fill(&window, "Mo", "2.1");
    fill(&window, "V", "0.1");
    button(&window, "Discard unsaved changes");
    assert_eq!((value(&window, "Mo").as_str(), value(&window, "V").as_str()), ("0.21", ""));
    fill(&window, "Mo", "0.25");
    fill(&window, "Name", "Boss bar, heat 2");
    button(&window, "Save the change");
    assert_eq!(window.global::<ui::Shell>().get_page(), "steels");
    assert_eq!(steel_of(&state), "Boss bar, heat 2", "the job follows the name");
    let own = state.session(|session| session.own_steels.clone());
    assert_eq!(own.len(), 1);
    assert_eq!(own[0].composition, "C 0.34 Si 0.27 Mn 0.78 Cr 1.05 Mo 0.25");

    window.global::<ui::SteelsAdapter>().invoke_detail_toggled("own:Boss bar, heat 2".into());
    button(&window, "Delete this steel");
    assert_eq!(state.session(|session| session.own_steels.len()), 1, "the first tap only asks");
    button(&window, "Delete for good");
    state.flush();
    let left = Session::load(&store()).expect("reads").session;
    assert!(left.own_steels.is_empty());
    assert_eq!(
        left.job.get(Field::Certificate),
        Some("C 0.34 Si 0.27 Mn 0.78 Cr 1.05 Mo 0.25"),
        "the job keeps its copy"
    );
    assert!(state.problems().is_empty(), "{:?}", state.problems());
}

#[test]
fn a_pasted_line_fills_the_fields_and_a_grade_the_gaps() {
    let (window, state) = on(Page::Steels, PHONE);
    button(&window, "Type in a certificate");
    fill(&window, "Paste a line", "C=0.34 Mn=0.78 Cr=1.05 Sn=0.01 W=0.02");
    button(&window, "Read");
    assert_eq!((value(&window, "C").as_str(), value(&window, "W").as_str()), ("0.34", "0.02"));
    button(&window, "Grade that the certificate names");
    assert!(
        labelled(&window, AccessibleRole::Button, "Type in a certificate").is_none(),
        "a certificate names a grade only"
    );
    fill(&window, "Find a steel", "1.7220");
    tap(&window, AccessibleRole::ListItem, "34CrMo4");
    assert_eq!(window.global::<ui::Shell>().get_page(), "certificate");
    assert_eq!(window.global::<ui::CertificateAdapter>().get_grade(), "34CrMo4");
    // 34CrMo4 to EN 10083-3 has up to 0.30 % Mo: CE = 0.34 + 0.13 + (1.05 + 0.30)/5.
    let ce =
        labelled(&window, AccessibleRole::Button, "CE (IIW)").and_then(|figure| figure.accessible_value());
    assert_eq!(ce.as_deref(), Some("0.74"));
    button(&window, "CE (IIW)");
    assert!(window.global::<ui::BasisAdapter>().get_open(), "a figure is asked for its basis");
    button(&window, "Back");
    assert!(!window.global::<ui::BasisAdapter>().get_open());
    fill(&window, "Name", "34CrMo4");
    assert!(!save_allowed(&window, "Save as a steel of my own"), "a grade's name is not to be had");
    fill(&window, "Name", "Arm");
    button(&window, "Save as a steel of my own");
    assert_eq!(steel_of(&state), "Arm");
    let job = state.job().expect("the job reads");
    assert_eq!(job.members[0].steel.grade().map(|grade| grade.id.as_str()), Some("34CrMo4"));
}

#[test]
fn a_filler_is_taken_and_its_figures_are_typed() {
    let (window, state) = on(Page::Fillers, DESKTOP);
    fill(&window, "Weld metal CET", "0.3l");
    assert_eq!(value(&window, "Weld metal CET"), "0.3l");
    assert!(!state.problems().is_empty());
    fill(&window, "Weld metal CET", "0.31");
    assert!(state.problems().is_empty());
    fill(&window, "Find a filler", "70S-6");
    tap(&window, AccessibleRole::ListItem, "ER70S-6");
    assert_eq!(typed_at(&state, Field::Filler).as_deref(), Some("ER70S-6"));
    assert!(state.problems().is_empty(), "what was taken is read: {:?}", state.problems());
    open_page(&window, &state, Page::Fillers);
    tap(&window, AccessibleRole::ListItem, "Filler not known");
    assert_eq!(typed_at(&state, Field::Filler), None);
    assert_eq!(typed_at(&state, Field::WeldCet).as_deref(), Some("0.31"));
}

#[test]
fn a_caution_is_found_by_a_word() {
    let (window, state) = live_with(PHONE, demo(), None);
    tap(&window, AccessibleRole::Tab, "Safety");
    fill(&window, "Find a safety note", "acetylene");
    let found = window.global::<ui::SafetyAdapter>();
    let first = slint::Model::row_data(&found.get_found(), 0).expect("there are some");
    assert_eq!(first.word, "Danger", "the worst comes first");
    button(&window, &format!("{} {}", first.word, first.title));
    assert!(
        slint::Model::row_data(&found.get_found(), 0).is_some_and(|row| row.open && !row.r#do.is_empty())
    );
    fill(&window, "Find a safety note", "argon");
    assert_eq!(slint::Model::row_count(&found.get_found()), 1, "a gas is found by its name");
    for (query, id) in
        [("galvanized", "c044"), ("gas bottle", "c014"), ("earth clamp", "c121"), ("drum", "c076")]
    {
        fill(&window, "Find a safety note", query);
        let found = found.get_found();
        let mut ids = slint::Model::iter(&found).map(|row| row.id.to_string());
        assert!(ids.any(|found| found == id), "{query}");
    }
    fill(&window, "Find a safety note", "zebra");
    assert_eq!(found.get_found_note(), "“zebra” is not listed");
    fill(&window, "Find a safety note", "");
    button(&window, "First aid");
    assert!(found.get_first_aid().open);
    assert!(state.open.borrow().first_aid);
}

/// A fact told in the form brings its note up, and taken back it goes: "not told" is no "no".
#[test]
fn safety_facts_told_in_the_form_bring_their_notes_up() {
    let (window, state) = live_with(PHONE, demo(), None);
    let plan = window.global::<ui::PlanAdapter>();
    let there = |id: &str| {
        let rows = plan.get_cautions();
        (0..slint::Model::row_count(&rows))
            .filter_map(|at| slint::Model::row_data(&rows, at))
            .any(|row| row.id == id)
    };
    let chosen = |field: &str, index: i32| {
        window.global::<ui::FormEvents>().invoke_choice_made(field.into(), index);
    };
    assert!(!there("c044") && plan.get_not_told().contains("coating"));
    // Behind "not told" stand bare metal and zinc.
    chosen("coating", 2);
    assert!(there("c044") && !plan.get_not_told().contains("coating"));
    assert_eq!(typed_at(&state, Field::Coating).as_deref(), Some("zinc"));
    chosen("coating", 0);
    assert!(!there("c044") && plan.get_not_told().contains("coating"));
    chosen("alone", 2);
    assert!(there("c126"));
    chosen("alone", 1);
    assert!(!there("c126"));
    assert_eq!(typed_at(&state, Field::Alone).as_deref(), Some("no"));
}

#[test]
fn units_and_look_are_switched() {
    let (window, state) = live_with(PHONE, demo(), None);
    button(&window, "Settings");
    tap(&window, AccessibleRole::RadioButton, "Mixed");
    tap(&window, AccessibleRole::RadioButton, "°C");
    tap(&window, AccessibleRole::RadioButton, "in");
    assert_eq!(state.session(|session| session.units), Units::C_IN);
    tap(&window, AccessibleRole::RadioButton, "°F, in");
    assert_eq!(state.session(|session| session.units), Units::F_IN);
    tap(&window, AccessibleRole::RadioButton, "Light");
    assert_eq!(state.session(|session| session.theme), Theme::Light);
    assert!(!window.global::<ui::Theme>().get_dark());
    tap(&window, AccessibleRole::RadioButton, "Dark");
    assert!(window.global::<ui::Theme>().get_dark());
}

/// The toolkit's royalty-free licence asks for its badge on a screen that can be reached.
#[test]
fn about_shows_whose_work_is_in_it() {
    let (window, _state) = live_with(PHONE, demo(), None);
    button(&window, "Settings");
    button(&window, "About Strawblue");
    assert_eq!(window.global::<ui::Shell>().get_page(), "about");
    assert!(ElementHandle::find_by_element_type_name(&window, "AboutSlint").next().is_some());
    assert!(
        with(&window, |element| element
            .accessible_label()
            .is_some_and(|label| label.contains("not a qualified procedure")))
        .is_some()
    );
}

/// Whatever the lists offer, the job reads it as just that row.
#[test]
fn every_row_that_can_be_taken_is_read_as_itself() {
    let reference = strawblue::reference::embedded();
    for grade in &reference.grades {
        let read = strawblue::job::find_steel(&grade.id, reference).map(|found| found.id.as_str());
        assert_eq!(read, Ok(grade.id.as_str()));
    }
    for filler in &reference.fillers {
        let read =
            strawblue::job::find_filler(&filler.classification, reference).map(|found| found.id.as_str());
        assert_eq!(read, Ok(filler.id.as_str()));
    }
}
