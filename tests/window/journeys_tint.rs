//! What a person does in the Tint place, in the real window: naming a colour, pulling the strip,
//! setting the minutes, reading an IR gun, opening a photo.

use std::path::PathBuf;
use std::rc::Rc;

use crate::screen::compare::check_part;
use crate::screen::hand::{fill, found, labelled, press, says, tap};
use crate::screen::{live_with, mock_elapsed_time, soon};
use i_slint_backend_testing::AccessibleRole;
use image::{Rgb, RgbImage};
use slint::platform::Key;
use slint::{ComponentHandle, Model};
use strawblue::app::{State, ui};
use strawblue::engine::tint::colour::film_swatch;
use strawblue::job::{Session, Store, Theme, demo_job};

pub(crate) const PHONE: (u32, u32) = (360, 4200);
const DESKTOP: (u32, u32) = (1280, 2600);

pub(crate) fn on_tint(size: (u32, u32)) -> (ui::AppWindow, Rc<State>) {
    let session = Session { job: demo_job(), ..Session::default() };
    let (window, state) = live_with(size, session, None);
    tap(&window, AccessibleRole::Tab, "Tint");
    (window, state)
}

fn figure(window: &ui::AppWindow) -> String {
    window.global::<ui::TintAdapter>().get_answer().figure.figure.to_string()
}

fn sentence(window: &ui::AppWindow) -> String {
    window.global::<ui::TintAdapter>().get_answer().sentence.to_string()
}

/// Two figures of a band.
pub(crate) fn ends(window: &ui::AppWindow) -> (f64, f64) {
    let text = figure(window);
    let (low, high) = text.split_once('–').unwrap_or_else(|| panic!("“{text}” is a band"));
    (low.parse().expect("a figure"), high.parse().expect("a figure"))
}

/// Cold start with a plan: the place says what the plan's minimum looks like; a tap on a
/// colour turns the question round, and more minutes mean a lower peak.
#[test]
fn a_colour_is_named_and_the_minutes_are_set() {
    let (window, _state) = on_tint(PHONE);
    assert_eq!(figure(&window), "Colour cannot show it", "while the minutes are not known");
    tap(&window, AccessibleRole::RadioButton, "2.5\u{a0}min");
    // The figure is the first colour that shows it, not the likely one.
    assert_eq!(figure(&window), "Light blue");
    assert!(sentence(&window).contains("may still be too cold"), "{}", sentence(&window));

    tap(&window, AccessibleRole::RadioButton, "Purple-blue");
    let flame = ends(&window);
    assert!(flame.0 < 330.0 && 330.0 < flame.1, "purple-blue under a flame is about 330 °C: {flame:?}");

    // One tap on the band says where it comes from, one more leads back.
    let label = window.global::<ui::TintAdapter>().get_answer().figure.label;
    tap(&window, AccessibleRole::Button, &label);
    let basis = window.global::<ui::BasisAdapter>();
    assert!(basis.get_open() && slint::Model::row_count(&basis.get_view().formula) > 0);
    press(&window, Key::Escape);
    assert!(!basis.get_open());

    tap(&window, AccessibleRole::RadioButton, "Afterwards");
    let unknown = ends(&window);
    tap(&window, AccessibleRole::RadioButton, "1\u{a0}min");
    let short = ends(&window);
    tap(&window, AccessibleRole::RadioButton, "60\u{a0}min");
    let long = ends(&window);
    assert!(long.1 < short.1 && long.0 < short.0, "{long:?} under {short:?}");
    assert!(unknown.1 - unknown.0 > short.1 - short.0, "not knowing the time widens the band");
    assert!(
        sentence(&window).starts_with("The surface did not reach the minimum of 300"),
        "{}",
        sentence(&window)
    );
}

/// The strip is pulled and stepped by keys; a figure stays a round one.
#[test]
fn the_strip_is_pulled_and_stepped() {
    let (window, _state) = on_tint(DESKTOP);
    let adapter = window.global::<ui::TintAdapter>();
    adapter.invoke_strip_pulled(261.7);
    mock_elapsed_time(20);
    let label = |adapter: &ui::TintAdapter<'_>| adapter.get_answer().figure.label.to_string();
    assert!(label(&adapter).contains("enough for 260\u{a0}°C"), "{}", label(&adapter));
    let strip = found(&window, AccessibleRole::Slider, "Colours by temperature");
    strip.invoke_accessible_increment_action();
    mock_elapsed_time(20);
    assert!(label(&adapter).contains("enough for 265\u{a0}°C"), "{}", label(&adapter));
    // Hotter never shows an earlier colour.
    adapter.invoke_strip_pulled(340.0);
    mock_elapsed_time(20);
    assert!(adapter.get_strip().pointer_c > 339.0);
    adapter.invoke_strip_pulled(-1e9);
    adapter.invoke_strip_pulled(f32::NAN);
    adapter.invoke_strip_pulled(1e9);
    mock_elapsed_time(20);
    assert!(adapter.get_answer().title.contains("cannot be used here"), "far past every colour");
}

/// With the keyboard alone: Tab leads to the colours, an arrow moves along, Space chooses.
#[test]
fn colours_are_chosen_by_keys() {
    let seen_after = |tabs: usize| {
        let (window, state) = on_tint(PHONE);
        (0..tabs).for_each(|_| press(&window, Key::Tab));
        press(&window, Key::RightArrow);
        press(&window, " ");
        state.session(|session| session.choices.get("tint.seen").cloned())
    };
    let seen = (1..20).find_map(seen_after);
    assert_eq!(seen.as_deref(), Some("faint-yellow"));
}

/// Stainless steel is refused with the better instruments, and its lists are at hand.
#[test]
fn stainless_steel_is_refused() {
    let (window, state) = on_tint(PHONE);
    tap(&window, AccessibleRole::Button, "Steel and surface");
    tap(&window, AccessibleRole::Button, "Steel");
    tap(&window, AccessibleRole::RadioButton, "Stainless");
    let answer = window.global::<ui::TintAdapter>().get_answer();
    assert_eq!(answer.title, "Colour cannot be used here");
    assert!(!window.global::<ui::TintAdapter>().get_has_strip());
    assert!(labelled(&window, AccessibleRole::RadioButton, "Purple-blue").is_none(), "no colour to pick");
    tap(&window, AccessibleRole::Button, "Stainless steel: its own lists");
    assert!(says(&window, "dark purple"));
    assert_eq!(
        state.session(|session| session.choices.get("tint.steel").cloned()).as_deref(),
        Some("stainless")
    );
}

/// Bright steel makes a gun useless; a dull black spot makes it useful, and the minimum is
/// judged by the cold end.
#[test]
fn an_ir_reading_never_flatters() {
    let (window, _state) = on_tint(PHONE);
    tap(&window, AccessibleRole::Button, "IR gun: true temperature");
    fill(&window, "Reading of the IR gun", "305");
    tap(&window, AccessibleRole::Button, "Surface at the spot");
    tap(&window, AccessibleRole::RadioButton, "Bright, ground or tinted");
    assert!(says(&window, "Temperature of the steel"));
    assert!(value_of(&window, "Temperature of the steel").contains("Hotter than it shows"));
    // What is known of a mirror stands first, and larger than any figure.
    let row = tint_row(&window, "ask:ir-true-temperature");
    assert_eq!(row.value, "Hotter than it shows");
    let results: Vec<ui::PartRow> = Model::iter(&row.parts).collect();
    let verdict = results.iter().position(|part| part.kind == ui::PartKind::Verdict).expect("a verdict");
    let first = results.iter().position(|part| part.kind == ui::PartKind::Result).expect("a figure");
    assert!(verdict < first);
    assert_eq!(results[verdict].label, "The steel is hotter than the reading. By how much is unknown.");
    tap(&window, AccessibleRole::Button, "Surface at the spot");
    tap(&window, AccessibleRole::RadioButton, "Dull black spot, soot or paint");
    assert_eq!(value_of(&window, "Temperature of the steel"), "295–325\u{a0}°C");
    // The unit of the screen changes, the reading does not: 305 °C stays 305 °C.
    window.global::<ui::Shell>().invoke_unit_picked(1);
    mock_elapsed_time(20);
    assert_eq!(value_of(&window, "Temperature of the steel"), "560–620\u{a0}°F");
    window.global::<ui::Shell>().invoke_unit_picked(0);
    fill(&window, "Reading of the IR gun", "three hundred");
    assert!(
        labelled(&window, AccessibleRole::Text, "Temperature of the steel").is_none(),
        "no silent figure"
    );
}

fn tint_row(window: &ui::AppWindow, id: &str) -> ui::FormRow {
    let rows = window.global::<ui::TintAdapter>().get_rows();
    Model::iter(&rows).find(|row| row.id == id).unwrap_or_else(|| panic!("there is no row {id}"))
}

/// A temperature that is waited for is judged as a colour that is seen: against minimum, maximum
/// and ceiling; by itself, and by the colour that would show it, which may come too late.
#[test]
fn a_temperature_waited_for_is_judged_against_the_plan() {
    for size in [PHONE, DESKTOP] {
        let (window, state) = on_tint(size);
        tap(&window, AccessibleRole::RadioButton, "2.5\u{a0}min");
        let answer = || window.global::<ui::TintAdapter>().get_answer();
        let limits = state.planned().expect("a plan").plan.clone();
        let at = |text: &str| {
            fill(&window, "Awaited temperature", text);
            answer()
        };
        let low = at("150");
        assert!(low.figure.label.contains("150\u{a0}°C"), "{}", low.figure.label);
        assert_eq!(low.sign, ui::TintSign::Under, "{}", low.sentence);
        assert!(low.sentence.contains("below the plan’s minimum"), "{}", low.sentence);
        let maximum = limits.interpass.as_ref().expect("a maximum").exact_c;
        let over = at(&format!("{:.0}", maximum + 20.0));
        assert_eq!(over.sign, ui::TintSign::Over, "{}", over.sentence);
        assert!(over.sentence.contains("above the plan’s maximum"), "{}", over.sentence);
        let ceiling = limits.ceiling_c.expect("a ceiling");
        assert!(ceiling < 590.0, "a ceiling that can be waited for");
        let past = at(&format!("{:.0}", ceiling + 10.0));
        assert!(past.sign == ui::TintSign::Over || !past.title.is_empty(), "{}", past.sentence);
        // Inside the plan’s range, yet the first colour that shows it can be past its maximum.
        let inside = at(&format!("{:.0}", maximum - 5.0));
        assert_eq!(inside.sign, ui::TintSign::Unsure, "{}", inside.sentence);
        // The mark on the strip is the colour that the words name; where they name none, nothing is marked.
        let marked = || -> Vec<String> {
            let strip = window.global::<ui::TintAdapter>().get_strip();
            Model::iter(&strip.marks).filter(|mark| mark.chosen).map(|mark| mark.label.to_string()).collect()
        };
        assert_eq!(answer().figure.figure, "Colour cannot show it");
        assert!(marked().is_empty(), "{:?}", marked());
        let shown = at("200");
        assert_eq!(marked(), [shown.figure.figure.to_string()]);
        let strip = window.global::<ui::TintAdapter>().get_strip();
        assert!(strip.note.starts_with("Frame: the colours possible at"), "{}", strip.note);
    }
}

/// Typed beside the pull: in any unit, with a slip that stays, and one that takes turns with the strip.
#[test]
fn a_temperature_is_typed_beside_the_strip() {
    let (window, state) = on_tint(DESKTOP);
    let label = || window.global::<ui::TintAdapter>().get_answer().figure.label.to_string();
    let typed = |text: &str| {
        window.global::<ui::FormEvents>().invoke_field_edited("tint.wait-typed".into(), text.into());
        mock_elapsed_time(20);
    };
    let field = || window.global::<ui::TintAdapter>().get_wait_field();
    typed("500 F");
    assert!(label().starts_with("First colour that is enough for 260\u{a0}°C"), "{}", label());
    assert_eq!(field().unit, "= 260\u{a0}°C", "what was understood");
    typed("warm");
    assert!(field().problem.contains("“warm”"), "{}", field().problem);
    assert!(
        label().starts_with("First colour that is enough for 260\u{a0}°C"),
        "a slip asks nothing: {}",
        label()
    );
    typed("280");
    assert_eq!((field().text.as_str(), field().problem.as_str()), ("280", ""));
    // 280 °C stays 280 °C in the other unit: 536 °F (ISO 80000-5).
    window.global::<ui::Shell>().invoke_unit_picked(1);
    mock_elapsed_time(20);
    assert_eq!((field().text.as_str(), field().unit.as_str()), ("536", "°F"));
    window.global::<ui::Shell>().invoke_unit_picked(0);
    window.global::<ui::TintAdapter>().invoke_strip_pulled(300.0);
    mock_elapsed_time(20);
    assert_eq!((field().text.as_str(), field().hint.as_str()), ("", "300"), "the pull takes its place");
    assert!(state.session(|session| session.typed.contains_key("tint.wait")));
}

fn value_of(window: &ui::AppWindow, label: &str) -> String {
    found(window, AccessibleRole::Text, label).accessible_value().unwrap_or_default().to_string()
}

/// What is set comes back after a kill.
#[test]
fn what_is_set_is_kept() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = || Store::open(folder.path().to_owned()).expect("a store");
    let (window, state) = live_with(PHONE, Session::default(), Some(store()));
    tap(&window, AccessibleRole::Tab, "Tint");
    tap(&window, AccessibleRole::RadioButton, "Blue");
    tap(&window, AccessibleRole::RadioButton, "5\u{a0}min");
    let before = figure(&window);
    state.flush();
    drop(window);
    let session = Session::load(&store()).expect("it was saved").session;
    let (again, _state) = live_with(PHONE, session, Some(store()));
    assert_eq!(figure(&again), before);
    assert_eq!(again.global::<ui::Shell>().get_place(), "tint");
}

/// A made photo: bright steel with a tinted spot of a known film, under lamp light.
fn made_photo(folder: &std::path::Path) -> PathBuf {
    let light = [1.1, 0.95, 0.7];
    let lit = |film_nm: f64| -> Rgb<u8> {
        let linear = film_swatch(film_nm).linear;
        let bytes: [u8; 3] = strawblue::engine::tint::colour::screen(std::array::from_fn(|part| {
            (linear[part] * light[part]).clamp(0.0, 1.0)
        }));
        Rgb(bytes)
    };
    let photo = RgbImage::from_fn(900, 600, |x, _| if x < 450 { lit(0.0) } else { lit(38.0) });
    let path = folder.join("part.png");
    photo.save(&path).expect("the folder can be written");
    path
}

/// A photo is opened by name, touched twice, and gives the colour; a file that is none says so.
#[test]
fn a_photo_is_matched() {
    let session =
        Session { job: demo_job(), theme: Theme::Dark, place: "tint".to_owned(), ..Session::default() };
    let (window, state) = live_with((1280, 2500), session, None);
    let folder = tempfile::tempdir().expect("a folder");
    let adapter = || window.global::<ui::TintAdapter>();
    fill(&window, "File of the photo", "/no/such/file.jpg");
    press(&window, Key::Return);
    assert!(adapter().get_photo().problem.contains("No such file"), "{}", adapter().get_photo().problem);

    let text = folder.path().join("notes.txt");
    std::fs::write(&text, "not a photo").expect("the folder can be written");
    fill(&window, "File of the photo", &text.display().to_string());
    press(&window, Key::Return);
    soon("the photo is read", || !adapter().get_photo().busy);
    assert!(adapter().get_photo().problem.contains("cannot be read"), "{}", adapter().get_photo().problem);

    fill(&window, "File of the photo", &made_photo(folder.path()).display().to_string());
    press(&window, Key::Return);
    soon("the photo is there", || adapter().get_photo().loaded);
    adapter().invoke_photo_touched(0.75, 0.5);
    adapter().invoke_photo_touched(0.25, 0.5);
    soon("the photo is matched", || adapter().get_photo().matched);
    let photo = adapter().get_photo();
    assert!(photo.best_label.ends_with("purple-blue"), "{}", photo.best_label);
    // The folder of a test has another name each time; the picture has not.
    let named = |name: &str| {
        state.change(|session| {
            session.typed.insert("photo.path".to_owned(), name.to_owned());
        });
        strawblue::app::refresh_all(&window, &state);
        mock_elapsed_time(50);
    };
    let kept = state.session(|session| session.typed["photo.path"].clone());
    named("part.png");
    check_part(&window, (480, 1020, 800, 1110), "tint-photo-desktop-dark");
    named(&kept);
    tap(&window, AccessibleRole::Button, "Use this colour");
    let label = adapter().get_answer().figure.label;
    assert!(label.contains("colour seen: reddish purple to blue"), "{label}");

    // The other way round the reference is the darker one: no answer, and it says why.
    adapter().invoke_photo_turn_picked(0);
    adapter().invoke_photo_touched(0.25, 0.5);
    adapter().invoke_photo_turn_picked(1);
    adapter().invoke_photo_touched(0.75, 0.5);
    soon("the photo is told", || !adapter().get_photo().busy && !adapter().get_photo().title.is_empty());
    assert_eq!(adapter().get_photo().title, "No answer from this photo");
}

/// The plan shows what its minimum looks like at both moments, or why a colour can't serve.
#[test]
fn the_plan_has_both_moments() {
    let session = Session { job: demo_job(), ..Session::default() };
    let (window, state) = live_with(PHONE, session, None);
    let moments = window.global::<ui::PlanAdapter>().get_moments();
    let rows: Vec<ui::TintMoment> = slint::Model::iter(&moments).collect();
    assert_eq!(rows.len(), 2);
    assert!(rows[0].tinted && rows[0].label.starts_with("Flame on"), "{:?}", rows[0].label);
    assert!(rows[1].label.contains("7.2\u{a0}min"), "2 min for each 25 mm of 90 mm: {:?}", rows[1].label);
    state.change(|session| {
        session.choices.insert("tint.spot".to_owned(), "mill-scale".to_owned());
    });
    strawblue::app::refresh_all(&window, &state);
    let rows: Vec<ui::TintMoment> =
        slint::Model::iter(&window.global::<ui::PlanAdapter>().get_moments()).collect();
    assert!(rows.iter().all(|row| !row.tinted && row.note.contains("Mill scale")));
}
