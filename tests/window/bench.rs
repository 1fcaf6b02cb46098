//! The Bench in the real window: every question is on its list and opens; the search, the way back, the
//! keyboard; what comes out of the plan and what goes into it.

use std::collections::BTreeSet;
use std::rc::Rc;
use std::time::{Duration, Instant};

use crate::screen::hand::{fill, found, labelled, press, says, tap, with};
use crate::screen::{live_with, mock_elapsed_time, typed_at};
use i_slint_backend_testing::AccessibleRole;
use slint::platform::{Key, PointerEventButton};
use slint::{ComponentHandle, Model};
use strawblue::app::{State, questions_with, refresh_all, ui};
use strawblue::job::{Field, Session, demo_job};
use strawblue::questions::{self, Work};
use strawblue::words::Words;
use strum::IntoEnumIterator;

const PHONE: (u32, u32) = (360, 740);
const DESKTOP: (u32, u32) = (1280, 800);

fn on_demo() -> Session {
    Session { job: demo_job(), place: "bench".to_owned(), ..Session::default() }
}

fn bench(size: (u32, u32), session: Session) -> (ui::AppWindow, Rc<State>) {
    let (window, state) = live_with(size, session, None);
    state.finish_answers();
    refresh_all(&window, &state);
    mock_elapsed_time(50);
    (window, state)
}

/// A question opened from the list.
fn open(window: &ui::AppWindow, state: &State, name: &str) {
    window.global::<ui::BenchAdapter>().invoke_question_asked(name.into());
    state.finish_answers();
    refresh_all(window, state);
    mock_elapsed_time(50);
}

fn entries(window: &ui::AppWindow) -> Vec<ui::BenchEntry> {
    window.global::<ui::BenchAdapter>().get_entries().iter().collect()
}

fn ids(window: &ui::AppWindow) -> Vec<String> {
    let questions = entries(window).into_iter().filter(|entry| entry.kind == ui::BenchEntryKind::Question);
    questions.map(|entry| entry.id.to_string()).collect()
}

fn page(window: &ui::AppWindow) -> String {
    window.global::<ui::Shell>().get_page().to_string()
}

fn answer(window: &ui::AppWindow) -> ui::BenchAnswer {
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
        ("scrap bar", "file-test"),
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

/// One tap drops what is typed over the plan's values, and nothing else.
#[test]
fn the_plan_is_taken_back_with_one_tap() {
    let (window, state) = bench((360, 3000), on_demo());
    open(&window, &state, "method-b");
    let of_plan = answer(&window);
    assert!(of_plan.figured);
    assert!(labelled(&window, AccessibleRole::Button, "Take from the plan").is_none(), "nothing to take");
    fill(&window, "Thickness", "20");
    assert_ne!(answer(&window).figure.figure, of_plan.figure.figure);
    tap(&window, AccessibleRole::Button, "Take from the plan");
    assert_eq!(answer(&window).figure.figure, of_plan.figure.figure);
    // What the plan does not know stays as it is typed.
    open(&window, &state, "shrink-fit");
    fill(&window, "Diameter of the fit", "90");
    fill(&window, "Ceiling of the hub", "200");
    tap(&window, AccessibleRole::Button, "Take from the plan");
    let kept = |key: &str| state.session(|session| session.typed.get(key).cloned());
    assert_eq!(kept("shrink-fit.diameter").as_deref(), Some("90"));
    assert_eq!(kept("shrink-fit.hub-ceiling"), None);
    // A CET typed in place of the plan's steel stands in its way too.
    open(&window, &state, "method-b");
    fill(&window, "CET", "0.35");
    tap(&window, AccessibleRole::Button, "Take from the plan");
    assert_eq!(answer(&window).figure.figure, of_plan.figure.figure);
}

/// An answer goes into a field of the plan as if it were typed there, and comes out again with all that
/// it took the place of: 25 V × 150 A ÷ 2.5 mm/s × 0.8 = 1.2 kJ/mm (EN 1011-1, covered electrode).
#[test]
fn an_answer_goes_into_the_plan_and_out_again() {
    let (window, state) = bench((360, 3000), on_demo());
    open(&window, &state, "heat-input");
    assert!(
        labelled(&window, AccessibleRole::Button, "Add to the plan").is_none(),
        "there is no answer to be added yet"
    );
    for (label, text) in [("Arc voltage", "25"), ("Current", "150"), ("Travel speed", "2 mm/s")] {
        fill(&window, label, text);
    }
    let pushes: Vec<ui::BenchPush> = window.global::<ui::BenchAdapter>().get_pushes().iter().collect();
    assert_eq!(pushes.len(), 2, "one for each process: {pushes:?}");
    let slot = Field::HeatInput.nth(1);
    let before = typed_at(&state, slot);
    assert_eq!(before.as_deref(), Some("1.2 kJ/mm"));
    let planned = || state.planned_now().expect("a plan").read.job.clone();
    let old = planned();
    tap(&window, AccessibleRole::Button, &pushes[1].label);
    let text = typed_at(&state, slot).expect("it is typed there");
    assert!(text.ends_with("kJ/mm") && text != "1.2 kJ/mm", "{text}");
    assert_ne!(planned(), old, "and the plan reads it");
    let shown = window.global::<ui::PlanAdapter>().get_rows();
    let typed = shown
        .iter()
        .flat_map(|row| row.parts.iter().collect::<Vec<_>>())
        .flat_map(|part| part.fields.iter().collect::<Vec<_>>())
        .any(|field| field.id == slot.id().as_ref() && field.text == text.as_str());
    assert!(typed, "the form shows it as typed");
    let back = window.global::<ui::BenchAdapter>().get_pushes().row_data(1).expect("a button");
    assert!(back.label.starts_with("Take back") && back.note.contains(&text), "{back:?}");
    tap(&window, AccessibleRole::Button, &back.label);
    assert_eq!(typed_at(&state, slot), before);
    assert_eq!(planned(), old);
    // What stood in its place by the meters comes back too.
    state.change_job(|job| {
        job.set(slot, None);
        job.set(Field::Volts.nth(1), Some("24".to_owned()));
        job.set(Field::Amps.nth(1), Some("140".to_owned()));
        job.set(Field::Travel.nth(1), Some("150 mm/min".to_owned()));
    });
    refresh_all(&window, &state);
    tap(&window, AccessibleRole::Button, &pushes[1].label);
    assert_eq!(typed_at(&state, Field::Volts.nth(1)), None);
    assert!(state.planned_now().is_some(), "nothing is given twice");
    tap(&window, AccessibleRole::Button, &back.label);
    assert_eq!(typed_at(&state, Field::Volts.nth(1)).as_deref(), Some("24"));
    assert_eq!(typed_at(&state, slot), None);
}

/// Each answer that a plan takes is read by its field as it is written.
#[test]
fn every_answer_that_a_plan_takes_is_read_by_it() {
    for units in [strawblue::units::Units::C_MM, strawblue::units::Units::F_IN] {
        for (name, typed, chosen, slot) in [
            ("hardness-conversion", vec![("hardness", "30")], vec![("scale", "hrc")], Field::Hardness.nth(1)),
            (
                "acetylene-draw",
                vec![("cylinder", "4 m³"), ("fuel-flow", "2 m³/h")],
                vec![],
                Field::Cylinders.nth(0),
            ),
            ("preheat-for-cooling-time", vec![("cooling-time", "20")], vec![], Field::DemandPreheat.nth(0)),
            (
                "carbon-equivalent",
                vec![("composition", "C 0.1 Mn 1.4 Cr 0.5 Mo 0.5")],
                vec![],
                Field::WeldCet.nth(0),
            ),
        ] {
            let (window, state) = bench((360, 3000), Session { units, ..on_demo() });
            state.change(|session| {
                for (key, text) in &typed {
                    session.typed.insert(format!("{name}.{key}"), (*text).to_owned());
                }
                for (key, id) in &chosen {
                    session.choices.insert(format!("{name}.{key}"), (*id).to_owned());
                }
            });
            open(&window, &state, name);
            let pushes = window.global::<ui::BenchAdapter>().get_pushes();
            let id = pushes.iter().map(|push| push.id).find(|id| id.ends_with(&*slot.id()));
            let id = id.unwrap_or_else(|| panic!("{name} offers nothing: {:?}", answer(&window)));
            window.global::<ui::BenchAdapter>().invoke_push_asked(id);
            assert!(typed_at(&state, slot).is_some(), "{name}");
            assert!(state.problems().is_empty(), "{name}: {:?}", state.problems());
        }
    }
}

/// The basis of an answer is one tap away.
#[test]
fn an_answer_is_asked_for_its_basis() {
    let (window, state) = bench((360, 3000), on_demo());
    open(&window, &state, "method-b");
    let label = answer(&window).figure.label;
    tap(&window, AccessibleRole::Button, &label);
    let sheet = window.global::<ui::BasisAdapter>();
    assert!(sheet.get_open());
    assert!(sheet.get_view().steps.row_count() > 0 && sheet.get_view().ranges.row_count() > 0);
    press(&window, Key::Escape);
    assert!(!sheet.get_open() && page(&window) == "question", "Escape shuts the sheet first");
}

/// The picture says in words what it shows: the tightest pair of Ø90 H7/s6 is 93 µm too tight (ISO 286:
/// s6 of 80 to 100 mm is +71 to +93 µm), and the three moments follow the order of the work.
#[test]
fn the_picture_of_a_shrink_fit_is_in_words_too() {
    let (window, state) = bench(DESKTOP, on_demo());
    open(&window, &state, "shrink-fit");
    let adapter = || window.global::<ui::BenchAdapter>();
    assert!(!adapter().get_has_fit(), "nothing to draw yet");
    state.change(|session| {
        session.typed.insert("shrink-fit.diameter".to_owned(), "90".to_owned());
        session.typed.insert("shrink-fit.hub-ceiling".to_owned(), "580".to_owned());
        session.choices.insert("shrink-fit.fit".to_owned(), "h7-s6".to_owned());
    });
    refresh_all(&window, &state);
    mock_elapsed_time(50);
    assert!(adapter().get_has_fit());
    let fit = adapter().get_fit();
    assert!(fit.spoken.contains("15\u{a0}°C: 93\u{a0}µm too tight"), "{}", fit.spoken);
    let moments: Vec<ui::FitMoment> = fit.moments.iter().collect();
    assert!(moments[0].raised && moments[0].gap < 0.0, "too tight while cold");
    assert!(!moments[1].raised && moments[1].gap > 0.0, "room while the hub is hot");
    assert!(moments[2].tight, "tight again");
    let image = with(&window, |element| {
        element.accessible_role() == Some(AccessibleRole::Image)
            && element.accessible_description().is_some_and(|said| said.contains("Tightest pair"))
    });
    assert!(image.is_some(), "the chart says it too");
    let chart = adapter().get_chart();
    assert!(chart.below_at > 0.0 && chart.below_at < 1.0 && chart.mark_at > 0.0 && chart.mark_at < 1.0);
    // What is drawn is what is answered.
    let needed: f64 = answer(&window).figure.figure.parse().expect("a figure");
    assert!(chart.mark_label.starts_with(&format!("{}", needed.round())), "{}", chart.mark_label);
}

/// A curve ends where the answer is: minutes of cooling, and hours of the hydrogen.
#[test]
fn a_curve_says_what_the_answer_says() {
    let (window, state) = bench((360, 2400), on_demo());
    let adapter = || window.global::<ui::BenchAdapter>();
    state.change(|session| {
        session.typed.insert("part-cooling.mass".to_owned(), "8 kg".to_owned());
        session.typed.insert("hydrogen-removal.temperature".to_owned(), "250 °C".to_owned());
    });
    for (name, said) in [("part-cooling", "minutes"), ("hydrogen-removal", "250\u{a0}°C")] {
        open(&window, &state, name);
        assert!(
            adapter().get_has_chart() && !adapter().get_has_fit(),
            "{name} has no curve: {:?}",
            answer(&window)
        );
        let chart = adapter().get_chart();
        assert!(chart.first.starts_with("M ") && chart.second.starts_with("M "), "{name}");
        assert!(chart.spoken.contains(said), "{}", chart.spoken);
        assert!(chart.x_ticks.row_count() > 2 && chart.y_ticks.row_count() > 2, "{name}");
    }
    open(&window, &state, "part-cooling");
    assert!(adapter().get_chart().spoken.contains(answer(&window).figure.figure.as_str()));
    open(&window, &state, "method-b");
    assert!(!adapter().get_has_chart());
}

/// What takes longer than a picture stands is worked out beside the window: it says so, and takes what
/// is typed meanwhile.
#[test]
fn a_slow_answer_never_stops_the_window() {
    let (window, state) = bench(PHONE, on_demo());
    open(&window, &state, "heat-cycle");
    state.change(|session| {
        for (key, text) in [("fuel-flow", "100 ft³/h"), ("runs", "3"), ("leg", "8 mm")] {
            session.typed.insert(format!("heat-cycle.{key}"), text.to_owned());
        }
    });
    refresh_all(&window, &state);
    if answer(&window).title == "Type these first" {
        panic!("still needed: {:?}", answer(&window).lines.iter().collect::<Vec<_>>());
    }
    let flow = "ask:heat-cycle.fuel-flow";
    for text in ["90 ft³/h", "95 ft³/h", "98 ft³/h"] {
        let begun = Instant::now();
        window.global::<ui::FormEvents>().invoke_field_edited(flow.into(), text.into());
        // A whole cycle takes a debug build seconds; a keystroke only begins it.
        assert!(begun.elapsed() < Duration::from_millis(700), "{:?}", begun.elapsed());
    }
    assert_eq!(answer(&window).title, "Working …");
    state.finish_answers();
    refresh_all(&window, &state);
    assert!(answer(&window).figured && !answer(&window).stale, "{:?}", answer(&window));
}
