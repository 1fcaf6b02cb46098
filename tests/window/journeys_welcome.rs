//! The first minute: a welcome in an empty folder, what it sets, where it leads, and that it comes once. And the
//! settings put back to it.

use std::fs;
use std::path::Path;
use std::rc::Rc;

use crate::screen::compare::{DESKTOP, PHONE};
use crate::screen::hand::{found, labelled, press, says, tap, texts};
use crate::screen::{live_first, live_in, mock_elapsed_time, typed_at};
use i_slint_backend_testing::AccessibleRole::{Button, RadioButton, Tab};
use slint::ComponentHandle;
use slint::platform::Key;
use strawblue::app::{State, System, open_with, ui};
use strawblue::job::{Field, Session, Store, Theme, demo_job};
use strawblue::units::Units;
use strawblue::words::Words;

const EXAMPLE: &str = "Look at an example";
const OWN: &str = "Start your own job";
const MARK: &str = "Example: an invented job, not real work.";
const METRIC: System = System { language: "en", units: Units::C_MM };
const US: System = System { language: "en", units: Units::F_IN };

type Live = (ui::AppWindow, Rc<State>);

fn page(window: &ui::AppWindow) -> String {
    window.global::<ui::Shell>().get_page().to_string()
}

/// The minimum of the plan, and its unit.
fn minimum(window: &ui::AppWindow) -> String {
    let figure = window.global::<ui::PlanAdapter>().get_answer().minimum;
    format!("{} {}", figure.figure, figure.unit)
}

fn is_chosen(window: &ui::AppWindow, choice: &str) -> bool {
    found(window, RadioButton, choice).accessible_checked() == Some(true)
}

/// The next start of the program on a folder.
fn again(folder: &Path, before: Live) -> Live {
    before.1.flush();
    drop(before);
    live_first(DESKTOP, folder, US)
}

#[test]
fn a_first_start_asks_units_and_language_and_says_who_decides() {
    for (system, units) in [(METRIC, "°C, mm"), (US, "°F, in")] {
        let folder = tempfile::tempdir().expect("a folder");
        let (window, state) = live_first(PHONE, folder.path(), system);
        assert_eq!(page(&window), "welcome");
        assert!(is_chosen(&window, units) && is_chosen(&window, "English"), "{units}");
        assert_eq!(state.session(|session| session.units), system.units);
        assert!(says(&window, &Words::english().get("about-isnt.text")), "who decides");
        assert!(labelled(&window, Tab, "Plan").is_none(), "nobody has been anywhere yet");
    }
    let folder = tempfile::tempdir().expect("a folder");
    let german = System { language: "de", ..METRIC };
    let (window, state) = live_first(DESKTOP, folder.path(), german);
    assert!(is_chosen(&window, "Deutsch") && says(&window, "Ein Beispiel ansehen"));
    assert_eq!(state.session(|session| session.language.clone()), "", "the system’s is followed");
}

/// What is set is kept and said at once, and a program that ends before the answer asks again.
#[test]
fn another_language_says_the_welcome_anew_and_a_kill_loses_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, state) = live_first(PHONE, folder.path(), US);
    tap(&window, RadioButton, "Deutsch");
    let german = Words::of("de");
    assert!(says(&window, "Ein Beispiel ansehen") && says(&window, &german.get("about-isnt.text")));
    assert!(says(&window, "Einheiten") && !says(&window, EXAMPLE));
    assert!(is_chosen(&window, "Deutsch") && is_chosen(&window, "°F, in"));
    tap(&window, RadioButton, "°C, mm");
    assert!(is_chosen(&window, "°C, mm"));
    let (window, state) = again(folder.path(), (window, state));
    assert_eq!(page(&window), "welcome");
    assert!(is_chosen(&window, "Deutsch") && is_chosen(&window, "°C, mm"));
    tap(&window, Button, "Eigenen Auftrag beginnen");
    let (window, state) = again(folder.path(), (window, state));
    assert_eq!(page(&window), "plan");
    assert_eq!(
        state.session(|session| (session.language.clone(), session.units)),
        ("de".into(), Units::C_MM)
    );
}

#[test]
fn the_example_is_a_plan_that_says_so_until_it_has_another_name() {
    for size in [PHONE, DESKTOP] {
        let folder = tempfile::tempdir().expect("a folder");
        let (window, state) = live_first(size, folder.path(), US);
        tap(&window, Button, EXAMPLE);
        assert_eq!(page(&window), "plan");
        assert_eq!(minimum(&window), "570 °F");
        // At the top of the plan, before the figure is read.
        let top = |said: &str| texts(&window).iter().find(|(text, ..)| text == said).map(|(_, at, _)| at.y);
        let figure = window.global::<ui::PlanAdapter>().get_answer().minimum.figure.to_string();
        assert!(top(MARK) < top(&figure) && top(MARK) > Some(0.0), "{:?} {:?}", top(MARK), top(&figure));
        assert!(labelled(&window, Tab, "Plan").is_some(), "the places are there");
        state.change_job(|job| job.set(Field::Leg, Some("10 mm".into())));
        strawblue::app::refresh_all(&window, &state);
        assert!(says(&window, MARK), "a figure that was changed makes no work of it");
        state.change_job(|job| job.set(Field::Name, Some("Loader arm".into())));
        strawblue::app::refresh_all(&window, &state);
        assert!(!says(&window, MARK));
        let (window, _state) = again(folder.path(), (window, state));
        assert_eq!(page(&window), "plan", "it comes once");
    }
}

/// The mark leads on: beside it the person begins a job of their own.
#[test]
fn from_the_example_to_ones_own_job_is_one_tap() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, state) = live_first(PHONE, folder.path(), METRIC);
    tap(&window, Button, EXAMPLE);
    // The first of its name is the one at the top.
    tap(&window, Button, "New job");
    assert!(state.session(|session| session.job.typed().is_empty()));
    assert!(!says(&window, MARK) && says(&window, "Choose the steel"));
}

#[test]
fn ones_own_job_is_an_empty_plan_and_the_next_start_goes_there() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, state) = live_first(DESKTOP, folder.path(), US);
    tap(&window, Button, OWN);
    assert_eq!(page(&window), "plan");
    assert!(says(&window, "Four things make a plan") && !says(&window, MARK));
    assert!(!window.global::<ui::Shell>().get_can_go_back(), "nothing is behind it");
    let (window, state) = again(folder.path(), (window, state));
    assert_eq!(page(&window), "plan");
    assert_eq!(state.session(|session| session.units), Units::F_IN);
}

#[test]
fn escape_begins_ones_own_job_and_the_keyboard_alone_reaches_all() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, state) = live_first(DESKTOP, folder.path(), METRIC);
    press(&window, Key::Escape);
    assert!(page(&window) == "plan" && says(&window, "Four things make a plan"));
    assert!(!state.session(Session::is_to_be_welcomed));

    let folder = tempfile::tempdir().expect("a folder");
    let (window, state) = live_first(PHONE, folder.path(), METRIC);
    // Language, then units, then the two ways on.
    press(&window, Key::Tab);
    press(&window, Key::RightArrow);
    press(&window, Key::Return);
    assert_eq!(state.words.language(), Words::languages().nth(1).expect("a second one"));
    press(&window, Key::LeftArrow);
    press(&window, Key::Return);
    assert_eq!(state.words.language(), "en");
    press(&window, Key::Tab);
    press(&window, Key::RightArrow);
    press(&window, Key::Return);
    assert_eq!(state.session(|session| session.units), Units::F_IN);
    press(&window, Key::Tab);
    press(&window, Key::Return);
    assert_eq!((page(&window).as_str(), minimum(&window).as_str()), ("plan", "570 °F"));
}

/// On a phone both ways on are in reach, and who decides is read, with no scrolling, in every language.
#[test]
fn a_phone_shows_the_whole_welcome_at_once() {
    for tag in Words::languages() {
        let folder = tempfile::tempdir().expect("a folder");
        let (window, _state) = live_first(PHONE, folder.path(), System { language: tag, ..METRIC });
        let words = Words::of(tag);
        let mut foot = PHONE.1 as f32;
        for key in ["welcome-own", "welcome-example"] {
            let button = found(&window, Button, &words.get(key));
            let (at, size) = (button.absolute_position(), button.size());
            assert!(size.height >= 48.0 && at.y + size.height <= foot, "{tag} {key}");
            foot = at.y;
        }
        let decides = words.get("about-isnt.text");
        let read = texts(&window).into_iter().find(|(said, ..)| *said == decides);
        let (_, at, size) = read.unwrap_or_else(|| panic!("{tag}: who decides"));
        assert!(at.y + size.height <= foot, "{tag}: it ends at {} of {foot}", at.y + size.height);
    }
}

/// A file that is brought is what the person wants to see; and whoever has worked here needs no welcome.
#[test]
fn nobody_is_welcomed_who_has_something_before_them() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, state) = live_first(DESKTOP, folder.path(), US);
    open_with(&window, &state, &Path::new(env!("CARGO_MANIFEST_DIR")).join("data/demo.ron"));
    mock_elapsed_time(50);
    assert_eq!((page(&window).as_str(), minimum(&window).as_str()), ("plan", "570 °F"));
    let (window, _state) = again(folder.path(), (window, state));
    assert_eq!(page(&window), "plan");

    let kept = tempfile::tempdir().expect("a folder");
    let before = Session { job: demo_job(), place: "tint".into(), ..Session::default() };
    before.save(&Store::open(kept.path()).expect("opens")).expect("saves");
    let (window, state) = live_first(PHONE, kept.path(), US);
    assert_eq!(page(&window), "tint");
    assert_eq!(state.session(|session| session.units), Units::C_MM, "what was chosen is not guessed anew");

    // What can't be read is somebody's work.
    let broken = tempfile::tempdir().expect("a folder");
    fs::create_dir(broken.path().join("session.ron")).expect("makes");
    let (window, _state) = live_first(PHONE, broken.path(), US);
    assert_eq!(page(&window), "plan");
    let aside = tempfile::tempdir().expect("a folder");
    fs::write(aside.path().join("session.ron"), "(theme: Purple)").expect("writes");
    let (window, _state) = live_first(PHONE, aside.path(), US);
    assert_eq!(page(&window), "plan");
}

/// A second window may have been opened before the first was answered: its answer takes nothing away.
#[test]
fn an_answer_in_the_one_window_loses_nothing_of_the_other() {
    let folder = tempfile::tempdir().expect("a folder");
    let (first, at_first) = live_first(DESKTOP, folder.path(), METRIC);
    let (second, at_second) = live_first(PHONE, folder.path(), METRIC);
    assert_eq!(page(&second), "welcome");
    tap(&first, Button, OWN);
    first.global::<ui::FormEvents>().invoke_field_edited("thickness".into(), "38".into());
    at_first.flush();
    let from = std::time::Instant::now();
    while typed_at(&at_second, Field::Thickness).is_none() {
        assert!(from.elapsed().as_secs() < 10, "the second window hears of it");
        std::thread::sleep(std::time::Duration::from_millis(10));
        mock_elapsed_time(1000);
    }
    tap(&second, Button, EXAMPLE);
    assert!(says(&second, MARK));
    let away = at_second.session(Session::put_away);
    assert_eq!(away.first().and_then(|away| away.job.get(Field::Thickness)), Some("38 mm"));
}

#[test]
fn settings_are_put_back_after_they_were_asked_for_twice() {
    // Screens so high that nothing has to be scrolled to.
    for size in [(360, 2600), (1280, 1600)] {
        let folder = tempfile::tempdir().expect("a folder");
        let before = Session {
            language: "de".into(),
            theme: Theme::Light,
            units: Units::C_IN,
            job: demo_job(),
            ..Session::default()
        };
        before.save(&Store::open(folder.path()).expect("opens")).expect("saves");
        let (window, state) = live_first(size, folder.path(), US);
        strawblue::app::open_page(&window, &state, strawblue::app::Page::Settings);
        let set =
            |state: &State| state.session(|session| (session.language.clone(), session.theme, session.units));
        tap(&window, Button, "Einstellungen zurücksetzen");
        tap(&window, Button, "Nicht zurücksetzen");
        assert_eq!(set(&state), ("de".into(), Theme::Light, Units::C_IN));
        tap(&window, Button, "Einstellungen zurücksetzen");
        tap(&window, Button, "Zurücksetzen");
        assert_eq!(set(&state), (String::new(), Theme::System, Units::F_IN), "as the system is set");
        assert!(says(&window, "The settings are as at the first start."));
        assert!(
            is_chosen(&window, "English") && is_chosen(&window, "°F, in") && is_chosen(&window, "System")
        );
        // The figures of the job are the same ones.
        let mut job = demo_job().with_units_written(Units::C_MM);
        job.set(Field::Units, None);
        assert_eq!(state.session(|session| session.job.clone()), job);
        // It is said once.
        press(&window, Key::Escape);
        strawblue::app::open_page(&window, &state, strawblue::app::Page::Settings);
        assert!(!says(&window, "The settings are as at the first start."));
        state.flush();
        drop((window, state));
        let (window, state) = live_in(size, folder.path());
        assert_eq!((page(&window).as_str(), set(&state).2), ("plan", Units::F_IN), "no welcome either");
    }
}
