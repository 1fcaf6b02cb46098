//! The form as a new user meets it: from an empty page on, with slips on the way.

use crate::screen::compare::{DESKTOP, PHONE};
use crate::screen::hand::{fill, found, labelled, press, says, tap, texts};
use crate::screen::{live, mock_elapsed_time, typed_at};
use i_slint_backend_testing::AccessibleRole;
use slint::platform::Key;
use slint::{ComponentHandle, Model};
use strawblue::app::ui;
use strawblue::engine::plan::Deed;
use strawblue::job::{Field, Session, demo_job};

fn demo() -> Session {
    Session { job: demo_job(), ..Session::default() }
}

fn page(window: &ui::AppWindow) -> String {
    window.global::<ui::Shell>().get_page().to_string()
}

fn typed(window: &ui::AppWindow, field: &str, text: &str) {
    window.global::<ui::FormEvents>().invoke_field_edited(field.into(), text.into());
    mock_elapsed_time(20);
}

fn row(window: &ui::AppWindow, id: &str) -> ui::FormRow {
    let rows = window.global::<ui::PlanAdapter>().get_rows();
    rows.iter().find(|row| row.id == id).unwrap_or_else(|| panic!("there is no row {id}"))
}

fn field(window: &ui::AppWindow, row_id: &str, id: &str) -> ui::FieldRow {
    let parts = row(window, row_id).parts;
    let mut fields = parts.iter().flat_map(|part| part.fields.iter().collect::<Vec<_>>());
    fields.find(|field| field.id == id).unwrap_or_else(|| panic!("there is no field {id}"))
}

/// On a phone what was scrolled away comes back by a tap on the bar.
fn step(window: &ui::AppWindow, label: &str) {
    if labelled(window, AccessibleRole::Button, "Back to the answer").is_some() {
        tap(window, AccessibleRole::Button, "Back to the answer");
    }
    tap(window, AccessibleRole::Button, label);
    mock_elapsed_time(50);
    // What came into being is made when the whole tree is walked.
    assert!(!says(window, "nothing says this"));
    // And takes the keyboard a moment later.
    mock_elapsed_time(20);
}

/// The four lines of an empty plan lead to where each is typed or chosen.
#[test]
fn each_line_of_an_empty_plan_leads_to_its_field() {
    for size in [PHONE, DESKTOP] {
        let (window, state) = live(size, Session::default());
        step(&window, "Choose the steel");
        assert_eq!(page(&window), "steels", "{size:?}");
        fill(&window, "Find a steel", "42CrMo4");
        tap(&window, AccessibleRole::ListItem, "42CrMo4");
        step(&window, "Type the thickness");
        "38".chars().for_each(|letter| press(&window, slint::SharedString::from(letter)));
        assert_eq!(typed_at(&state, Field::Thickness).as_deref(), Some("38"), "{size:?}: typed at once");
        press(&window, Key::Escape);
        step(&window, "Choose the joint");
        press(&window, " ");
        assert_eq!(
            typed_at(&state, Field::Joint).as_deref(),
            Some("butt"),
            "{size:?}: chosen by the keyboard"
        );
        step(&window, "Choose the process");
        press(&window, Key::Return);
        assert!(typed_at(&state, Field::Process).is_some(), "{size:?}");
        assert!(state.planned().is_some(), "{size:?}: four things make a plan");
    }
}

#[test]
fn a_round_asks_for_its_diameter() {
    for size in [PHONE, DESKTOP] {
        let (window, _state) = live(size, Session::default());
        assert!(labelled(&window, AccessibleRole::Button, "Type the thickness").is_some());
        window.global::<ui::FormEvents>().invoke_choice_made("shape".into(), 1);
        mock_elapsed_time(20);
        assert!(labelled(&window, AccessibleRole::Button, "Type the thickness").is_none(), "{size:?}");
        assert!(labelled(&window, AccessibleRole::Button, "Type the diameter").is_some(), "{size:?}");
    }
}

/// An example to look at; a new job; and the one put away comes back as it was.
#[test]
fn an_example_a_new_job_and_the_last_one_back() {
    for size in [PHONE, DESKTOP] {
        let (window, state) = live((size.0, 7000), Session::default());
        step(&window, "Fill in an example");
        assert_eq!(state.session(|session| session.job.clone()), demo_job(), "{size:?}");
        assert!(state.planned().is_some());
        typed(&window, "shop", "5");
        step(&window, "New job");
        assert!(state.session(|session| session.job.typed().is_empty()), "{size:?}");
        let answer = window.global::<ui::PlanAdapter>().get_answer();
        assert!(answer.kind == ui::AnswerKind::Empty && !answer.stale, "nothing of the old plan is left");
        assert_eq!(answer.lines.row_count(), 4);
        assert!(labelled(&window, AccessibleRole::Button, "New job").is_none(), "there is none to put away");
        // Units in between: what was typed bare keeps its size.
        window.global::<ui::Shell>().invoke_unit_picked(1);
        step(&window, "Bring back: Screen bell crank");
        assert_eq!(typed_at(&state, Field::Shop).as_deref(), Some("5 °C"), "{size:?}");
        assert!(state.planned().is_some());
    }
}

/// A beginning that has no answer yet, and the untouched example, are less than the job put away.
#[test]
fn new_job_pressed_twice_keeps_the_first_job() {
    for size in [PHONE, DESKTOP] {
        let (window, state) = live((size.0, 7000), demo());
        typed(&window, "shop", "5");
        let first = state.session(|session| session.job.clone());
        step(&window, "New job");
        typed(&window, "thickness", "38");
        step(&window, "New job");
        step(&window, "Fill in an example");
        step(&window, "New job");
        step(&window, "Bring back: Screen bell crank");
        let back = state.session(|session| session.job.clone());
        assert_eq!(back, first.with_units_written(state.session(|session| session.units)), "{size:?}");
    }
}

/// What stood open of one job, and which methods were shown, is not carried into the next.
#[test]
fn a_new_job_begins_with_nothing_open() {
    let (window, state) = live((DESKTOP.0, 7000), demo());
    window.global::<ui::PlanAdapter>().invoke_evidence_set_picked(1);
    window.global::<ui::PlanAdapter>().invoke_cautions_all_asked();
    window.global::<ui::FormEvents>().invoke_row_toggled("safety".into());
    step(&window, "New job");
    let open = state.open.borrow();
    assert_eq!(open.evidence_set, None);
    assert!(open.rows.is_empty() && !open.all_cautions);
}

#[test]
fn a_search_that_finds_nothing_leads_to_the_test_of_an_unmarked_steel() {
    for size in [PHONE, DESKTOP] {
        let (window, _state) = live(size, demo());
        window.global::<ui::FormEvents>().invoke_pick_asked("steel".into());
        mock_elapsed_time(50);
        fill(&window, "Find a steel", "zebra");
        step(&window, "Unmarked steel");
        assert_eq!(page(&window), "unmarked");
    }
}

/// 1-1/2 in is 38.1 mm exactly (ISO 80000-3: 1 in = 25.4 mm); 1000 °F is 537.8 °C; 100 ksi is 689 MPa.
#[test]
fn what_was_understood_stands_beside_what_was_typed() {
    let (window, _state) = live(DESKTOP, demo());
    let at = |row: &str, id: &str, text: &str| {
        typed(&window, id, text);
        field(&window, row, id).unit.to_string()
    };
    assert_eq!(at("member-a", "thickness", "1-1/2 in"), "= 38.1\u{a0}mm");
    assert_eq!(at("member-a", "thickness", "38"), "mm", "a bare figure takes the unit that it stands beside");
    assert_eq!(at("member-a", "thickness", "38 mm"), "", "the text says its unit itself");
    assert_eq!(at("member-a", "thickness", "thick"), "mm", "nothing is understood");
    at("member-a", "thickness", "30");
    assert_eq!(at("member-b", "temper:1", "1000 °F"), "= 538\u{a0}°C");
    assert_eq!(at("demands", "demand-preheat", "500F"), "= 260\u{a0}°C");
    assert_eq!(at("weld", "weld-strength", "100 ksi"), "= 689\u{a0}MPa");
    assert_eq!(at("process", "hydrogen", "H5"), "= 5\u{a0}ml/100\u{a0}g");
    // A bare yield strength is asked for its unit, and never understood in that of the screen.
    assert_eq!(at("member-a", "yield", "100"), "MPa, ksi");
}

#[test]
fn what_may_stay_empty_says_so_and_a_default_says_what_counts() {
    let (window, state) = live(DESKTOP, demo());
    let hint = |row: &str, id: &str| field(&window, row, id).hint.to_string();
    for (row, id) in [
        ("member-a", "hardness"),
        ("member-a", "yield"),
        ("joint", "leg"),
        ("weld", "weld-strength"),
        ("weld", "weld-cet"),
        ("demands", "demand-preheat"),
        ("demands", "demand-ceiling"),
    ] {
        assert_eq!(hint(row, id), "Optional", "{row} {id}");
    }
    state.change_job(|job| job.set(Field::Shop, None));
    typed(&window, "shop", "");
    assert_eq!(hint("shop", "shop"), "20 assumed");
    assert_eq!(hint("member-a", "thickness"), "", "what is needed is not called optional");
}

#[test]
fn a_summary_has_its_units() {
    let (window, _state) = live(DESKTOP, demo());
    typed(&window, "demand-preheat", "300");
    assert!(row(&window, "demands").value.contains("300\u{a0}°C"), "{}", row(&window, "demands").value);
    typed(&window, "demand-preheat", "500 F");
    assert!(row(&window, "demands").value.contains("500 F"), "{}", row(&window, "demands").value);
    typed(&window, "temper:1", "540");
    assert!(row(&window, "member-b").note.contains("540\u{a0}°C"), "{}", row(&window, "member-b").note);
    typed(&window, "thickness", "30");
    assert!(row(&window, "member-a").value.contains("30\u{a0}mm"), "{}", row(&window, "member-a").value);
}

/// With two processes every field says whose it is: over it, and to a screen reader.
#[test]
fn the_fields_of_each_run_are_named_by_the_run() {
    let (window, state) = live(DESKTOP, demo());
    assert_eq!(state.job().expect("a job").runs.len(), 2, "the example has two");
    for (row, id) in [("heat", "heat-input"), ("weld", "runs"), ("process", "hydrogen")] {
        let spoken = [id.to_owned(), format!("{id}-2")].map(|id| field(&window, row, &id).spoken);
        assert!(spoken[0].contains("GTAW (TIG)"), "{id}: {}", spoken[0]);
        assert!(spoken[1].contains("SMAW"), "{id}: {}", spoken[1]);
    }
    for id in ["heat", "weld"] {
        let heads: Vec<_> =
            row(&window, id).parts.iter().filter(|part| part.id.starts_with("run-head")).collect();
        assert_eq!(heads.len(), 2, "{id}");
        assert!(heads[0].label.contains("GTAW"), "{}", heads[0].label);
    }
    // Two runs of one process are told apart.
    typed(&window, "process-2", "gtaw");
    let spoken = ["heat-input", "heat-input-2"].map(|id| field(&window, "heat", id).spoken);
    assert_ne!(spoken[0], spoken[1]);
    // One process alone needs no name.
    state.change_job(|job| job.runs.truncate(1));
    typed(&window, "shop", "19");
    assert_eq!(field(&window, "heat", "heat-input").spoken, "");
}

#[test]
fn enter_reads_a_certificate_line_and_names_what_is_no_element() {
    for size in [PHONE, DESKTOP] {
        let (window, state) = live((size.0, 2000), demo());
        window.global::<ui::FormEvents>().invoke_pick_asked("steel".into());
        mock_elapsed_time(50);
        tap(&window, AccessibleRole::Button, "Type in a certificate");
        fill(&window, "Paste a line", "C 0.34 Mn 0.78 Xx 0.2");
        press(&window, Key::Return);
        let problem = window.global::<ui::CertificateAdapter>().get_line().problem;
        assert!(problem.contains("“Xx”"), "{size:?}: {problem}");
        assert!(!problem.contains("0.34"), "what is right is not quoted: {problem}");
        fill(&window, "Paste a line", "C 0.34 Mn 0.78");
        press(&window, Key::Return);
        assert_eq!(window.global::<ui::CertificateAdapter>().get_line().problem, "");
        let carbon = found(&window, AccessibleRole::TextInput, "C").accessible_value();
        assert_eq!(carbon.as_deref(), Some("0.34"), "{size:?}");
        drop(state);
    }
}

/// Each error quotes what was typed in its field, and that once.
#[test]
fn errors_quote_only_what_was_typed_and_once() {
    // So high that every field is in view: what is wrong is said beside it, and nowhere else.
    let (window, _state) = live((DESKTOP.0, 7000), demo());
    let said = |field: &str, text: &str| {
        typed(&window, field, text);
        let drawn = texts(&window).into_iter().map(|(said, ..)| said);
        let mut errors = drawn.filter(|said| said.contains(&format!("“{text}”")));
        let why = errors.next().unwrap_or_else(|| panic!("{field} {text} is no problem"));
        assert_eq!(errors.next(), None, "said twice");
        let quoted: Vec<&str> =
            why.split('“').skip(1).map(|rest| rest.split('”').next().unwrap_or_default()).collect();
        assert_eq!(quoted.first().copied(), Some(text), "{why}");
        assert_eq!(why.matches(&format!("“{text}”")).count(), 1, "{why}");
        why
    };
    for text in ["54o", "blue", "9000"] {
        let why = said("temper:1", text);
        assert!(!why.contains("tempered blue") && !why.contains("tempered 9"), "{why}");
    }
    typed(&window, "temper:1", "540");
    said("thickness", "thick");
    said("thickness", "9000 mm");
    typed(&window, "thickness", "30");
    said("heat-input", "much");
}

/// The arrow down leads from a search into its hits; Enter there takes one.
#[test]
fn the_arrow_down_enters_a_list_of_hits() {
    let (window, state) = live(DESKTOP, demo());
    window.global::<ui::FormEvents>().invoke_pick_asked("steel".into());
    mock_elapsed_time(50);
    fill(&window, "Find a steel", "S355J2");
    press(&window, Key::DownArrow);
    press(&window, Key::Return);
    assert_eq!(typed_at(&state, Field::Steel).as_deref(), Some("S355J2"));
    window.global::<ui::FormEvents>().invoke_pick_asked("filler".into());
    mock_elapsed_time(50);
    fill(&window, "Find a filler", "70S-6");
    press(&window, Key::DownArrow);
    press(&window, Key::Return);
    assert_eq!(typed_at(&state, Field::Filler).as_deref(), Some("ER70S-6"));
    assert!(!says(&window, "Find a filler"));
}

/// A repair says what it finds, in a row that other joints have not; each is a step of the plan.
#[test]
fn a_repair_tells_what_it_finds() {
    let (window, state) = live((DESKTOP.0, 9000), demo());
    let rows = || window.global::<ui::PlanAdapter>().get_rows();
    assert!(rows().iter().all(|row| row.id != "repair"), "a boss is none");
    let joint = |id: &str| {
        state.change_job(|job| job.set(Field::Joint, Some(id.to_owned())));
        window.global::<ui::FormEvents>().invoke_row_toggled("shop".into());
    };
    joint("repair");
    assert!(rows().iter().any(|row| row.id == "repair"));
    window.global::<ui::FormEvents>().invoke_choice_made("crack".into(), 2);
    assert_eq!(typed_at(&state, Field::Crack).as_deref(), Some("yes"));
    let planned = state.planned_now().expect("a plan");
    assert!(planned.read.job.repair.crack);
    assert!(planned.plan.sequence.steps.iter().any(|step| step.deed == Deed::TraceCrack));
    // Told once, it stays to be seen with any joint; "not told" takes it back.
    joint("butt");
    assert!(rows().iter().any(|row| row.id == "repair"));
    window.global::<ui::FormEvents>().invoke_choice_made("crack".into(), 0);
    assert_eq!(typed_at(&state, Field::Crack), None);
}
