//! Every question of the registry as a form in the real window, its figures those of a published
//! case; and what a form takes from the plan, from the list of steels, from a slip.

use std::collections::BTreeMap;
use std::path::Path;
use std::rc::Rc;

use crate::screen::compare::{check_drawn, drawn};
use crate::screen::hand::{fill, found, labelled, press, says, tap};
use crate::screen::{live_with, mock_elapsed_time};
use i_slint_backend_testing::AccessibleRole;
use image::imageops::crop_imm;
use serde::Deserialize;
use slint::{ComponentHandle, Model};
use strawblue::app::{State, refresh_all, ui};
use strawblue::job::{Field, JobText, OwnSteel, STEEL, Session, Theme, demo_job};
use strawblue::questions::{self, COMPOSITION, Kind, Question};
use strawblue::reference::{Composition, Element, Method};
use strawblue::words::Words;

const TALL_PHONE: (u32, u32) = (360, 5200);

#[derive(Debug, Clone, Deserialize)]
enum Value {
    N(f64),
    Id(String),
    Yes,
}

/// What a case of `tests/published/` gives.
#[derive(Debug, Clone, Deserialize)]
struct Case {
    question: String,
    #[serde(default)]
    composition: Composition,
    #[serde(default)]
    grade: Option<String>,
    #[serde(default)]
    given: BTreeMap<String, Value>,
}

fn cases() -> Vec<Case> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/published");
    let mut paths: Vec<_> =
        std::fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("an entry").path()).collect();
    paths.sort();
    let read = |path: &std::path::PathBuf| -> Vec<Case> {
        let text = std::fs::read_to_string(path).expect("a text");
        ron::from_str(&text).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
    };
    paths.iter().flat_map(read).collect()
}

/// A composition as a certificate's line.
fn line(composition: &Composition) -> String {
    let of = |element: &Element| {
        let share = composition.get(*element);
        let stated = share > 0.0 || [Element::C, Element::Mn].contains(element);
        stated.then(|| format!("{} {share}", element.symbol()))
    };
    Element::ALL.iter().filter_map(of).collect::<Vec<_>>().join("; ")
}

/// Types a case into the session as a person would, each figure with its unit.
fn type_case(session: &mut Session, question: &Question, case: &Case) {
    if case.composition != Composition::default() {
        session.typed.insert(format!("{}.{COMPOSITION}", question.name), line(&case.composition));
    }
    if let Some(grade) = &case.grade {
        session.typed.insert(format!("{}.{STEEL}", question.name), grade.clone());
    }
    for (key, value) in &case.given {
        let kept = format!("{}.{key}", question.name);
        let kind = question.input(key).expect("a case asks what there is").kind;
        match value {
            Value::N(number) => {
                let text = format!("{number} {}", kind.unit().unwrap_or_default());
                session.typed.insert(kept, text.trim().to_owned());
            }
            Value::Id(id) => {
                session.choices.insert(kept, id.clone());
            }
            Value::Yes => {
                session.choices.insert(kept, "yes".to_owned());
            }
        }
    }
}

/// The Tint place with this question in it, unfolded.
fn with_question(size: (u32, u32), session: Session, name: &str) -> (ui::AppWindow, Rc<State>) {
    let (window, state) = live_with(size, Session { place: "tint".to_owned(), ..session }, None);
    show_question(&window, &state, name);
    (window, state)
}

fn show_question(window: &ui::AppWindow, state: &State, name: &str) {
    {
        let mut open = state.open.borrow_mut();
        open.questions = vec![questions::find(name).expect("a question")];
        open.rows = [format!("ask:{name}")].into();
    }
    refresh_all(window, state);
    // What is slow is worked out beside the window.
    state.finish_answers();
    refresh_all(window, state);
    mock_elapsed_time(50);
}

fn row(window: &ui::AppWindow, name: &str) -> ui::FormRow {
    let id = format!("ask:{name}");
    let rows = window.global::<ui::TintAdapter>().get_rows();
    rows.iter().find(|row| row.id == id.as_str()).expect("the question is drawn")
}

fn results(row: &ui::FormRow) -> Vec<ui::PartRow> {
    row.parts.iter().filter(|part| part.kind == ui::PartKind::Result).collect()
}

fn on_demo() -> Session {
    Session { job: demo_job(), ..Session::default() }
}

/// All of them: built, given the figures of a published case, drawn, read. None panics, none is
/// blank, and none asks for something that it doesn't draw.
#[test]
fn every_question_is_drawn_and_answered() {
    let cases = cases();
    let (window, state) = live_with(TALL_PHONE, Session { place: "tint".to_owned(), ..on_demo() }, None);
    let mut drawn_questions = 0;
    for question in questions::ALL {
        let name = question.name;
        let of_question: Vec<&Case> = cases.iter().filter(|case| case.question == name).collect();
        assert!(!of_question.is_empty(), "no published case asks {name}");
        // Beside the plan first, with nothing typed: it asks or answers, and nothing is wrong.
        show_question(&window, &state, name);
        let begun = row(&window, name);
        assert!(begun.problem.is_empty(), "{name} with nothing typed: {}", begun.problem);
        every_input_is_drawn(question, &begun);
        let answered = of_question.iter().any(|case| {
            state.change(|session| {
                session.typed.retain(|key, _| !key.starts_with(&format!("{name}.")));
                session.choices.retain(|key, _| !key.starts_with(&format!("{name}.")));
                session.job = JobText::default();
                type_case(session, question, case);
            });
            show_question(&window, &state, name);
            let shown = row(&window, name);
            assert!(shown.problem.is_empty(), "{name}, {case:?}: {}", shown.problem);
            every_input_is_drawn(question, &shown);
            let figures = results(&shown);
            let said = |part: &ui::PartRow| !part.value.is_empty() && part.value != "no figure";
            figures.iter().any(said) && !shown.value.is_empty() && !shown.stale
        });
        assert!(answered, "{name} shows no figure for any of its published cases");
        // It stands on the screen, and not only in the model.
        let shown = row(&window, name);
        let label = state.words.get(&format!("answer-{}", question.answers[0]));
        let seen = results(&shown).iter().any(|part| {
            part.label != label.as_str() || labelled(&window, AccessibleRole::Text, &label).is_some()
        });
        assert!(seen, "{name} draws no “{label}”");
        let unfolded = drawn(&window);
        state.open.borrow_mut().rows.clear();
        refresh_all(&window, &state);
        mock_elapsed_time(50);
        assert!(unfolded != drawn(&window), "{name} unfolds into nothing");
        state.change(|session| session.job = demo_job());
        drawn_questions += 1;
    }
    assert_eq!(drawn_questions, questions::ALL.len());
}

fn every_input_is_drawn(question: &Question, row: &ui::FormRow) {
    let mut ids: Vec<String> = row.parts.iter().map(|part| part.id.to_string()).collect();
    ids.extend(
        row.parts
            .iter()
            .flat_map(|part| part.fields.iter().map(|field| field.id.to_string()).collect::<Vec<_>>()),
    );
    // What belongs to one choice stands only beside it: see `an_input_stands_beside_its_choice`.
    for input in question.inputs.iter().filter(|input| input.only.is_none()) {
        let key = if input.kind == Kind::Composition { STEEL } else { input.key };
        let id = format!("ask:{}.{key}", question.name);
        let drawn = ids.iter().any(|found| *found == id || *found == format!("list:{id}"));
        assert!(drawn, "{} doesn't draw {key}: {ids:?}", question.name);
    }
    assert!(!row.label.is_empty() && !row.label.starts_with("question-"), "{}", row.label);
    for part in row.parts.iter() {
        for text in [&part.label, &part.value, &part.note] {
            let raw = ["input-", "option-", "note-", "answer-", "tool-", "taken-", "leading-"];
            assert!(!raw.iter().any(|start| text.starts_with(start)), "{}: {text}", question.name);
        }
    }
}

/// An input that belongs to one choice stands beside that choice, and beside no other.
#[test]
fn an_input_stands_beside_its_choice() {
    let (window, state) =
        live_with(TALL_PHONE, Session { place: "bench".to_owned(), ..Session::default() }, None);
    let drawn_ids = |joint: &str, heating: &str| {
        state.change(|session| {
            session.choices.insert("heat-cycle.joint".to_owned(), joint.to_owned());
            session.choices.insert("heat-cycle.heating".to_owned(), heating.to_owned());
        });
        window.global::<ui::BenchAdapter>().invoke_question_asked("heat-cycle".into());
        refresh_all(&window, &state);
        let rows = window.global::<ui::BenchAdapter>().get_inputs();
        let parts: Vec<ui::PartRow> =
            rows.iter().flat_map(|row| row.parts.iter().collect::<Vec<_>>()).collect();
        let mut ids: Vec<String> = parts.iter().map(|part| part.id.to_string()).collect();
        ids.extend(
            parts
                .iter()
                .flat_map(|part| part.fields.iter().map(|field| field.id.to_string()).collect::<Vec<_>>()),
        );
        ids
    };
    let question = questions::find("heat-cycle").expect("it is asked");
    for (joint, heating) in [("boss-through", "torch"), ("repair", "mats"), ("run-on-shaft", "furnace")] {
        let ids = drawn_ids(joint, heating);
        for input in question.inputs {
            let Some((key, of)) = input.only else { continue };
            let id = format!("ask:heat-cycle.{}", input.key);
            let drawn = ids.iter().any(|found| *found == id || *found == format!("list:{id}"));
            let chosen = if key == "joint" { joint } else { heating };
            assert_eq!(drawn, of.contains(&chosen), "{joint} {heating}: {} in {ids:?}", input.key);
        }
    }
}

/// A form beside a plan begins with what the plan has, says so, and gives the plan's own figure:
/// Method B of the governing part (EN 1011-2 C.3). The plan adds 25 K to it for high restraint,
/// which is no part of the method.
#[test]
fn a_question_begins_with_what_the_plan_has() {
    let mut session = on_demo();
    session.job.set(Field::Restraint, Some("medium".to_owned()));
    let (window, state) = with_question(TALL_PHONE, session, "method-b");
    let begun = row(&window, "method-b");
    let steel = begun.parts.iter().find(|part| part.id == "ask:method-b.steel").expect("a steel");
    assert!(steel.value.contains("34CrMo4") && steel.note == "Taken from the plan", "{steel:?}");
    let hints: Vec<String> = begun
        .parts
        .iter()
        .flat_map(|part| part.fields.iter().map(|field| field.hint.to_string()).collect::<Vec<_>>())
        .collect();
    assert!(hints.contains(&"90 (plan)".to_owned()), "{hints:?}");
    let planned = state.planned().expect("the demo has a plan");
    let evidence = planned.plan.evidence.iter().find(|item| {
        item.outcome.method == Method::MethodB
            && item.member == planned.plan.minimum.as_ref().and_then(|limit| limit.member)
    });
    let exact = evidence.and_then(|item| item.outcome.raw.or(item.value_c())).expect("Method B has a figure");
    let figure = begun.value.trim_start_matches("Rough guide: ").split('\u{a0}').next().unwrap_or_default();
    let figure: f64 = figure.parse().expect("a figure");
    assert!((0.0..1.0).contains(&(figure - exact)), "{figure} asked, {exact} planned: up to a whole degree");
    // A figure of one's own comes first; cleared, the plan's is back.
    fill(&window, "Thickness", "20");
    let own = row(&window, "method-b");
    assert!(own.value != begun.value && !own.stale, "{}", own.value);
    tap(&window, AccessibleRole::Button, "Clear what you typed");
    assert_eq!(row(&window, "method-b").value, begun.value);
    assert!(state.session(|session| session.typed.keys().all(|key| !key.starts_with("method-b."))));
    // CET says what the steel says: it takes the place of the plan's steel.
    fill(&window, "CET", "0.35");
    let by_figure = row(&window, "method-b");
    assert!(by_figure.problem.is_empty() && by_figure.value != begun.value, "{}", by_figure.problem);
}

/// The plan's choices stand chosen, and are marked; another choice is one's own.
#[test]
fn a_choice_of_the_plan_stands_chosen() {
    let (window, state) = with_question(TALL_PHONE, on_demo(), "d11-annex");
    let part = |window: &ui::AppWindow| {
        row(window, "d11-annex").parts.iter().find(|part| part.id.contains("restraint")).expect("a restraint")
    };
    let planned = state.job().expect("a job").restraint.id();
    tap(&window, AccessibleRole::Button, "Restraint");
    let begun = part(&window);
    let at = usize::try_from(begun.chosen).expect("one is chosen");
    assert_eq!(begun.choices.row_data(at).expect("a choice").id, planned);
    assert_eq!(begun.note, "Taken from the plan");
    tap(&window, AccessibleRole::RadioButton, &state.words.get("option-restraint-low"));
    assert_eq!(part(&window).note, "");
    let kept = state.session(|session| session.choices.get("d11-annex.restraint").cloned());
    assert_eq!(kept.as_deref(), Some("low"));
}

/// The steel of a question is chosen where the plan's is: by name from the list, or as a
/// certificate of one's own, which goes into the question and not into the plan.
#[test]
fn a_steel_is_chosen_in_the_list_of_steels() {
    let (window, state) = with_question(TALL_PHONE, Session::default(), "carbon-equivalent");
    let shell = || window.global::<ui::Shell>();
    assert!(says(&window, "Still needed: Steel."), "nothing is guessed");
    tap(&window, AccessibleRole::Button, "Steel");
    assert_eq!(shell().get_page(), "steels");
    fill(&window, "Find a steel", "4140");
    tap(&window, AccessibleRole::ListItem, "SAE 4140");
    assert_eq!(shell().get_page(), "tint");
    assert_eq!(
        state.session(|session| session.job.get(Field::Steel).map(str::to_owned)),
        None,
        "the plan is left alone"
    );
    let chosen = row(&window, "carbon-equivalent");
    assert_eq!(results(&chosen).len(), 7, "all equivalents");
    // The steel of one's own: its certificate, with its grade.
    state.change(|session| {
        session.own_steels.push(OwnSteel {
            name: "spindle bar".to_owned(),
            composition: "C 0.38 Mn 0.8 Cr 1".to_owned(),
            grade: String::new(),
        });
    });
    tap(&window, AccessibleRole::Button, "Steel");
    fill(&window, "Find a steel", "spindle");
    tap(&window, AccessibleRole::ListItem, "spindle bar");
    let own = row(&window, "carbon-equivalent");
    // CE (IIW) = C + Mn/6 + (Cr + Mo + V)/5 + (Ni + Cu)/15 = 0.38 + 0.8/6 + 1/5 = 0.713 %.
    assert_eq!(own.value, "Rough guide: 0.713\u{a0}%", "a rough guide beside so much carbon");
    assert!(says(&window, &state.words.get("note-certificate-not-stated")), "what is left out is said");
}

/// What can't be read stays in its field with one line, and the last answer stands grey.
#[test]
fn a_slip_leaves_the_last_answer_grey() {
    let (window, state) = with_question(TALL_PHONE, on_demo(), "heat-input");
    for (label, text) in [("Arc voltage", "25"), ("Current", "150"), ("Travel speed", "150")] {
        fill(&window, label, text);
    }
    let good = row(&window, "heat-input");
    assert!(good.problem.is_empty() && !good.value.is_empty(), "{good:?}");
    let amps = "ask:heat-input.amps";
    window.global::<ui::FormEvents>().invoke_field_edited(amps.into(), "15o".into());
    mock_elapsed_time(50);
    let slipped = row(&window, "heat-input");
    assert!(slipped.problem.contains("15o") && slipped.stale && slipped.value == good.value, "{slipped:?}");
    assert_eq!(slipped.note, "Old figures: do not weld by them");
    assert!(results(&slipped).iter().all(|part| part.stale), "all figures are grey");
    let kept = state.session(|session| session.typed["heat-input.amps"].clone());
    assert_eq!(kept, "15o", "what is typed stays");
    let described = found(&window, AccessibleRole::Text, "Net heat input").accessible_description();
    assert!(described.is_some_and(|said| said.starts_with("Old figures: do not weld by them")), "heard too");
    fill(&window, "Current", "150");
    assert!(!row(&window, "heat-input").stale);
    // Two ways to say one thing are refused by their names on the screen.
    fill(&window, "Arc time of the run", "80");
    assert!(!row(&window, "heat-input").problem.is_empty());
    press(&window, slint::platform::Key::Escape);
}

/// Compares the form of a question alone, from its own row to the one after it.
fn check_form(window: &ui::AppWindow, label: &str, name: &str) {
    let (row, next) = (
        found(window, AccessibleRole::Button, label),
        found(window, AccessibleRole::Button, &Words::english().get("form-tint-red-heat")),
    );
    let (from, to) = (row.absolute_position(), next.absolute_position());
    let pixels = |length: f32| length.round() as u32;
    let (x, y) = (pixels(from.x), pixels(from.y));
    let (width, height) = (pixels(row.size().width), pixels(to.y) - y);
    check_drawn(&crop_imm(&drawn(window), x, y, width, height).to_image(), name);
}

/// Pictures: a form with a steel, one with a choice and a flag, one with a list.
#[test]
fn pictures_of_question_forms() {
    let looks = [("phone-dark", TALL_PHONE, Theme::Dark), ("desktop-light", (1280, 3200), Theme::Light)];
    for (look, size, theme) in looks {
        let session = || Session { theme, ..on_demo() };
        let (steel, _state) = with_question(size, session(), "method-b");
        check_form(&steel, "Method B", &format!("question-steel-{look}"));

        let (wait, state) = with_question(size, session(), "inspection-wait");
        state.change(|session| {
            session.choices.insert("inspection-wait.heat-treated".to_owned(), "yes".to_owned());
        });
        refresh_all(&wait, &state);
        mock_elapsed_time(50);
        check_form(&wait, "Wait before inspection", &format!("question-flag-{look}"));

        let (list, state) = with_question(size, session(), "combined-thickness");
        state.open.borrow_mut().rows.insert("list:ask:combined-thickness.joint".to_owned());
        state.change(|session| {
            session.typed.insert("combined-thickness.thickness".to_owned(), "30".to_owned());
        });
        refresh_all(&list, &state);
        state.change(|session| {
            session.typed.insert("combined-thickness.thickness".to_owned(), "thirty".to_owned());
        });
        refresh_all(&list, &state);
        mock_elapsed_time(50);
        check_form(&list, "Combined thickness", &format!("question-list-{look}"));
    }
}
