//! Journeys of a welder through the real window: from an empty screen to a plan, with
//! wrong entries on the way, and pictures of what is seen.

use std::rc::Rc;
use std::time::{Duration, Instant};

use crate::screen::compare::{DESKTOP, PHONE, check};
use crate::screen::{live, live_with, mock_elapsed_time, typed_at};
use crate::typed_job::job;
use i_slint_backend_testing::{ElementHandle, ElementQuery};
use slint::{ComponentHandle, Model};
use strawblue::app::{State, refresh_all, ui};
use strawblue::job::{Field, OwnSteel, Session, Store, demo_job};
use strawblue::reference::Method;

fn demo() -> Session {
    Session { job: demo_job(), ..Session::default() }
}

/// The first element of an accessible id.
fn by_id(window: &ui::AppWindow, id: &str) -> ElementHandle {
    let wanted = id.to_owned();
    ElementQuery::from_root(window)
        .match_predicate(move |element| element.accessible_id().is_some_and(|found| found == wanted.as_str()))
        .find_first()
        .unwrap_or_else(|| panic!("nothing on the screen is called {id}"))
}

fn press(window: &ui::AppWindow, id: &str) {
    by_id(window, id).invoke_accessible_default_action();
    mock_elapsed_time(20);
}

fn form(window: &ui::AppWindow) -> ui::FormEvents<'_> {
    window.global::<ui::FormEvents>()
}

fn typed(window: &ui::AppWindow, field: &str, text: &str) {
    form(window).invoke_field_edited(field.into(), text.into());
}

fn answer(window: &ui::AppWindow) -> ui::AnswerView {
    window.global::<ui::PlanAdapter>().get_answer()
}

fn set(window: &ui::AppWindow, state: &Rc<State>, change: impl FnOnce(&mut Session)) {
    state.change(change);
    refresh_all(window, state);
}

#[test]
fn the_demo_as_pictures() {
    for (size, shape) in [(PHONE, "phone"), (DESKTOP, "desktop")] {
        for (look, name) in [(ui::Look::Dark, "dark"), (ui::Look::Light, "light")] {
            let (window, _state) = live(size, demo());
            window.global::<ui::Theme>().set_look(look);
            check(&window, &format!("demo-plan-{shape}-{name}"));
        }
    }
}

#[test]
fn from_an_empty_screen_to_a_plan_in_five_inputs() {
    let (window, state) = live(PHONE, Session::default());
    assert_eq!(answer(&window).kind, ui::AnswerKind::Empty);
    assert_eq!(answer(&window).lines.row_count(), 4, "it says what is wanted");
    check(&window, "empty-plan-phone-dark");
    // 1 the steel, chosen on its page
    form(&window).invoke_pick_asked("steel".into());
    assert_eq!(window.global::<ui::Shell>().get_page(), "steels");
    set(&window, &state, |session| session.job.set(Field::Steel, Some("4140".into())));
    window.global::<ui::Shell>().invoke_back_asked();
    assert_eq!(window.global::<ui::Shell>().get_page(), "plan");
    // 2 the thickness, as a fraction
    typed(&window, "thickness", "2 in");
    // 3 the joint
    form(&window).invoke_choice_made("joint".into(), 0);
    // 4 the process
    form(&window).invoke_choice_made("process".into(), 0);
    assert_eq!(answer(&window).kind, ui::AnswerKind::Window, "hydrogen has a stated default");
    // 5 the hydrogen
    typed(&window, "hydrogen", "3 ml");
    assert_eq!(answer(&window).minimum.figure, "280");
    assert_eq!(answer(&window).minimum.unit, "°C");
    assert_eq!(state.problems().len(), 0);
}

/// What is wrong in a row of the form.
fn problem(window: &ui::AppWindow, id: &str) -> String {
    let row = window.global::<ui::PlanAdapter>().get_rows().iter().find(|row| row.id == id);
    row.unwrap_or_else(|| panic!("there is no row {id}")).problem.to_string()
}

/// Which letter of the hydrogen scale is marked, for each process.
fn letters(window: &ui::AppWindow) -> Vec<i32> {
    let rows = window.global::<ui::PlanAdapter>().get_rows();
    let row = rows.iter().find(|row| row.id == "process").expect("the row of processes");
    row.parts.iter().filter(|part| part.id.starts_with("class:")).map(|part| part.chosen).collect()
}

#[test]
fn a_wrong_entry_stays_and_the_last_answer_goes_grey() {
    let (window, state) = live(PHONE, demo());
    let before = answer(&window).minimum.figure;
    let marked = letters(&window);
    assert_eq!(marked.len(), 2, "one for each process");
    assert!(marked.iter().all(|chosen| *chosen >= 0), "{marked:?}");
    typed(&window, "thickness", "thick");
    let shown = answer(&window);
    assert!(shown.stale, "the old answer is marked");
    assert_eq!(shown.minimum.figure, before, "and kept");
    assert_eq!(shown.stale_why, "One entry cannot be used: Thickness (first part)");
    assert!(problem(&window, "member-a").contains("“thick”"), "{}", problem(&window, "member-a"));
    assert_eq!(typed_at(&state, Field::Thickness).as_deref(), Some("thick"), "what was typed stays");
    assert_eq!(letters(&window), marked, "nothing is wrong with these");
    check(&window, "stale-plan-phone-dark");
    typed(&window, "thickness", "30");
    assert!(!answer(&window).stale);
}

#[test]
fn traps_are_asked_not_guessed() {
    let (window, _state) = live(PHONE, demo());
    typed(&window, "hydrogen", "H3");
    let why = problem(&window, "process");
    assert!(why.contains("D1.1 H3") && why.contains("3 ml"), "both readings are offered: {why}");
}

#[test]
fn units_switch_everywhere_at_once_and_never_loosen_a_limit() {
    let (window, state) = live(DESKTOP, demo());
    typed(&window, "thickness", "30");
    typed(&window, "shop", "15");
    let before = state.job().expect("a job");
    let celsius: f64 = answer(&window).minimum.figure.parse().expect("a figure");
    window.global::<ui::Shell>().invoke_unit_picked(1);
    assert_eq!(state.job().expect("a job"), before, "a bare number keeps the unit that it was typed in");
    let shown = answer(&window);
    assert_eq!(shown.minimum.unit, "°F");
    let fahrenheit: f64 = shown.minimum.figure.parse().expect("a figure");
    let exact_c =
        state.planned().and_then(|planned| planned.plan.minimum.clone()).expect("a minimum").exact_c;
    assert!(fahrenheit >= exact_c * 1.8 + 32.0 - 1e-6 && celsius >= exact_c - 1e-6);
    assert!(window.global::<ui::PlanAdapter>().get_evidence().iter().all(|row| !row.figure.contains("°C")));
}

#[test]
fn a_tap_on_a_figure_opens_its_basis_and_back_closes_it() {
    let (window, _state) = live(PHONE, demo());
    press(&window, "minimum-btn");
    let basis = window.global::<ui::BasisAdapter>();
    assert!(basis.get_open());
    let view = basis.get_view();
    assert!(view.formula.row_count() > 0 && view.ranges.row_count() > 0 && view.paragraphs.row_count() > 0);
    check(&window, "basis-phone-dark");
    basis.invoke_close_asked();
    assert!(!basis.get_open());
}

fn key(window: &ui::AppWindow, key: slint::platform::Key) {
    use slint::platform::WindowEvent;
    window.window().dispatch_event(WindowEvent::KeyPressed { text: key.into() });
    window.window().dispatch_event(WindowEvent::KeyReleased { text: key.into() });
    mock_elapsed_time(5);
}

#[test]
fn the_basis_is_opened_and_left_by_keyboard_alone() {
    // On a phone the figures come right after the header: units, settings, minimum.
    let reached = (1..=8).find(|tabs| {
        let (window, _state) = live(PHONE, demo());
        for _ in 0..*tabs {
            key(&window, slint::platform::Key::Tab);
        }
        key(&window, slint::platform::Key::Return);
        let opened = window.global::<ui::BasisAdapter>().get_open();
        if opened {
            key(&window, slint::platform::Key::Escape);
            assert!(!window.global::<ui::BasisAdapter>().get_open(), "Escape closes it");
        }
        opened
    });
    assert!(reached.is_some(), "Tab and Return reach a figure");
}

#[test]
fn leaded_steel_is_refused_before_any_number() {
    let (window, state) = live(PHONE, demo());
    set(&window, &state, |session| session.job.set(Field::Steel, Some("12L14".into())));
    let shown = answer(&window);
    assert_eq!(shown.kind, ui::AnswerKind::Refused);
    assert!(state.planned().is_some_and(|planned| planned.plan.minimum.is_none()));
    assert!(shown.lines.row_count() >= 2, "a reason and what to do instead");
    check(&window, "refused-plan-phone-dark");
}

#[test]
fn grey_iron_has_two_routes_and_no_carbon_equivalent() {
    let session = Session {
        job: job(&[
            ("steel", "GREY"),
            ("condition", "as cast"),
            ("thickness", "20"),
            ("joint", "repair"),
            ("process", "smaw-nickel"),
        ]),
        ..Session::default()
    };
    let (window, state) = live(PHONE, session);
    assert_eq!(answer(&window).kind, ui::AnswerKind::Routes);
    assert_eq!(answer(&window).routes.row_count(), 2);
    let planned = state.planned().expect("a plan");
    assert!(planned.plan.evidence.iter().all(|item| item.outcome.method == Method::OwnSheet));
    check(&window, "iron-plan-phone-dark");
}

#[test]
fn no_usable_window_says_so_and_names_a_lever() {
    let mut job = demo_job();
    job.set(Field::DemandInterpass, Some("316".into()));
    let (window, _state) = live(PHONE, Session { job, ..Session::default() });
    let shown = answer(&window);
    assert_eq!(shown.kind, ui::AnswerKind::NoWindow);
    let levers = window.global::<ui::PlanAdapter>().get_levers();
    assert!(levers.iter().any(|lever| lever.effect == ui::LeverEffect::Opens), "something opens it");
    check(&window, "no-window-plan-phone-dark");
}

#[test]
fn a_certificate_steel_of_ones_own_makes_a_plan() {
    let own = OwnSteel {
        name: "Rack 7".into(),
        composition: "C .405 Si .25 Mn .875 Cr .95 Mo .20".into(),
        ..OwnSteel::default()
    };
    let mut job = demo_job();
    job.set(Field::Steel.nth(1), Some("Rack 7".into()));
    let (window, state) = live(PHONE, Session { job, own_steels: vec![own], ..Session::default() });
    assert!(!answer(&window).stale, "{}", answer(&window).stale_why);
    let planned = state.planned().expect("a plan");
    assert!(
        planned.plan.evidence.iter().any(|item| item.outcome.row.as_deref() == Some("4140")),
        "the practice row covers it"
    );
}

#[test]
fn an_easy_steel_says_dry_as_large_as_a_figure() {
    let session = Session {
        job: job(&[
            ("steel", "S355J2"),
            ("condition", "as rolled"),
            ("thickness", "12"),
            ("joint", "t-fillet-one-side"),
            ("process", "gmaw"),
            ("hydrogen", "5 ml"),
        ]),
        ..Session::default()
    };
    let (window, _state) = live(PHONE, session);
    assert_eq!(answer(&window).kind, ui::AnswerKind::Dry);
    check(&window, "dry-plan-phone-dark");
}

#[test]
fn a_kill_at_any_moment_loses_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("the folder can be used");
    let (window, _state) = live_with(PHONE, demo(), Some(store));
    typed(&window, "thickness", "1-1/");
    form(&window).invoke_choice_made("restraint".into(), 0);
    // No goodbye: the process is gone. What is on the disk after a moment is what comes back.
    let store = Store::open(folder.path()).expect("the folder can be used");
    let start = Instant::now();
    let found = loop {
        let found = Session::load(&store).expect("the session reads");
        if found.session.job.get(Field::Restraint) == Some("low") || start.elapsed() > Duration::from_secs(20)
        {
            break found;
        }
        std::thread::sleep(Duration::from_millis(5));
    };
    assert_eq!(found.session.job.get(Field::Thickness), Some("1-1/"));
    assert_eq!(found.session.job.get(Field::Restraint), Some("low"));
}

#[test]
fn the_form_unfolds_in_place_on_a_phone() {
    let (window, _state) = live((360, 1900), demo());
    form(&window).invoke_row_toggled("member-b".into());
    form(&window).invoke_row_toggled("process".into());
    mock_elapsed_time(50);
    check(&window, "unfolded-plan-phone-dark");
}

/// 25 V and 150 A over 200 mm in 80 s, k 0.6 for TIG: 0.9 kJ/mm (EN 1011-1; plain arithmetic).
#[test]
fn a_run_is_timed_with_a_watch() {
    // A phone so long that the row is in view.
    let (window, state) = live((360, 1800), demo());
    set(&window, &state, |session| session.job.runs.truncate(1));
    form(&window).invoke_row_toggled("heat".into());
    let net = typed_at(&state, Field::HeatInput).expect("the demo states it");
    form(&window).invoke_choice_made("heat-way".into(), 2);
    for (field, text) in [("volts", "25"), ("amps", "150"), ("arc-time", "1:20")] {
        typed(&window, field, text);
    }
    let why = answer(&window).stale_why;
    assert!(why.contains("Run length") && why.contains("Arc time"), "it says what is missing: {why}");
    typed(&window, "run-length", "200");
    assert!(!answer(&window).stale, "{}", answer(&window).stale_why);
    let heat = state.planned().expect("a plan").read.job.runs[0].net_heat_kj_per_mm;
    assert!((heat - 0.9).abs() < 1e-12, "{heat}");
    let travel = || {
        let row = window.global::<ui::PlanAdapter>().get_rows().iter().find(|row| row.id == "heat");
        let parts = row.expect("a heat row").parts;
        let fields: Vec<ui::FieldRow> =
            parts.iter().flat_map(|part| part.fields.iter().collect::<Vec<_>>()).collect();
        fields.into_iter().find(|field| field.id == "travel").expect("a travel field")
    };
    assert!(travel().derived && travel().text == "150\u{a0}mm/min", "the speed that follows: {:?}", travel());
    check(&window, "heat-timed-phone-dark");
    // The run gives way to a speed that is typed.
    typed(&window, "arc-time", "");
    assert!(!travel().derived);
    typed(&window, "travel", "150");
    assert!(problem(&window, "heat").contains("given twice"), "{}", problem(&window, "heat"));
    typed(&window, "run-length", "");
    assert!(!answer(&window).stale && travel().text == "150");
    // Another way of stating it leaves nothing of this one behind.
    form(&window).invoke_choice_made("heat-way".into(), 0);
    assert!([Field::Travel, Field::ArcTime].iter().all(|field| typed_at(&state, *field).is_none()));
    // Nothing typed is lost: each way has its own again.
    assert_eq!(typed_at(&state, Field::HeatInput), Some(net));
    form(&window).invoke_choice_made("heat-way".into(), 2);
    let again = [Field::Volts, Field::Travel].map(|field| typed_at(&state, field));
    assert_eq!(again, [Some("25".to_owned()), Some("150".to_owned())]);
    assert_eq!(typed_at(&state, Field::HeatInput), None);
}

/// Runs come and go; what is typed for one stays with it.
#[test]
fn a_process_is_added_and_taken_away() {
    let (window, state) = live(PHONE, demo());
    form(&window).invoke_action_asked("button:add-process".into());
    assert_eq!(typed_at(&state, Field::Process.nth(2)).as_deref(), Some("smaw-basic"));
    for (field, text) in
        [("hydrogen-3", "H5"), ("heat-input-3", "1.5"), ("filler-3", "E7018"), ("runs-3", "2")]
    {
        typed(&window, field, text);
    }
    assert!(!answer(&window).stale, "{}", answer(&window).stale_why);
    assert_eq!(state.planned().expect("a plan").read.job.runs.len(), 3);
    // A choice behind the last process leaves the second one out.
    let none = i32::try_from(strawblue::engine::job::Process::ALL.len()).expect("a few");
    form(&window).invoke_choice_made("process-2".into(), none);
    let of = |nth: usize| {
        [Field::Process, Field::Hydrogen, Field::HeatInput, Field::Passes]
            .map(|field| typed_at(&state, field.nth(nth)))
    };
    assert_eq!(of(0), ["gtaw", "3 ml", "1.0", "1"].map(|text| Some(text.to_owned())));
    assert_eq!(of(1), ["smaw-basic", "H5", "1.5", "2"].map(|text| Some(text.to_owned())));
    assert_eq!(typed_at(&state, Field::Filler.nth(1)).as_deref(), Some("E7018"));
    assert_eq!(of(2), [const { None }; 4]);
    assert!(!answer(&window).stale, "{}", answer(&window).stale_why);
    // The second part comes as the first and goes whole.
    form(&window).invoke_action_asked("button:remove-part".into());
    assert_eq!(typed_at(&state, Field::Steel.nth(1)), None);
    form(&window).invoke_action_asked("button:add-part".into());
    assert_eq!(typed_at(&state, Field::Steel.nth(1)), typed_at(&state, Field::Steel));
}

/// One thing done is one plan and one save; what no plan reads makes none.
#[test]
fn a_choice_plans_once_and_a_tint_not_at_all() {
    let (window, state) = live(PHONE, demo());
    let made = |act: &dyn Fn()| {
        let before = state.made();
        act();
        let after = state.made();
        (after.0 - before.0, after.1 - before.1)
    };
    for (row, index) in
        [("joint", 0), ("restraint", 1), ("condition", 2), ("shape-b", 0), ("class:1", 3), ("heat-way", 1)]
    {
        let once = made(&|| form(&window).invoke_choice_made(row.into(), index));
        assert_eq!(once, (1, 1), "{row}");
        // The same once more changes nothing.
        let again = made(&|| form(&window).invoke_choice_made(row.into(), index));
        assert!(again == (0, 0), "{row}: {again:?}");
    }
    assert_eq!(made(&|| typed(&window, "thickness", "31")), (1, 1));
    assert_eq!(made(&|| form(&window).invoke_field_committed("thickness".into(), "31".into())), (0, 0));
    assert_eq!(made(&|| form(&window).invoke_row_toggled("heat".into())), (0, 0));
    assert_eq!(made(&|| form(&window).invoke_choice_made("tint.air".into(), 1)), (0, 1));
}
