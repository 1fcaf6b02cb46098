//! The minutes of the flame are typed once: the Tint place and the questions about colours take them from
//! the heat cycle of the plan, never from another job's and never before they are worked out.

use crate::bench::{answer, entries, open};
use crate::journeys_cycle::{rest, told};
use crate::screen::hand::{fill, labelled, tap};
use crate::screen::live;
use i_slint_backend_testing::AccessibleRole;
use slint::{ComponentHandle, Model};
use strawblue::app::{State, refresh_all, ui};
use strawblue::job::{Field, Session};

const PLAN: &str = "Plan";

fn tint(window: &ui::AppWindow) -> ui::TintAdapter<'_> {
    window.global::<ui::TintAdapter>()
}

fn minutes(window: &ui::AppWindow) -> String {
    tint(window).get_minutes().replace('\u{a0}', " ")
}

/// The cycle's own range on its page: "4.3–8.4".
fn of_cycle(window: &ui::AppWindow) -> (f64, f64) {
    let figure =
        window.global::<ui::CycleAdapter>().get_figures().row_data(0).expect("minutes of flame").figure;
    let (low, high) = figure.split_once('–').unwrap_or_else(|| panic!("“{figure}” is a range"));
    (low.parse().expect("a figure"), high.parse().expect("a figure"))
}

fn range(text: &str) -> (f64, f64) {
    let figures = text.split(' ').next().unwrap_or_default();
    let (low, high) = figures.split_once('–').unwrap_or_else(|| panic!("“{text}” is a range"));
    (low.parse().expect("a figure"), high.parse().expect("a figure"))
}

fn common(window: &ui::AppWindow) -> Vec<String> {
    tint(window).get_minutes_common().iter().map(|row| row.label.to_string()).collect()
}

/// Nothing stands while they are worked out; then the plan's stand, and say so; what is set comes first.
#[test]
fn the_tint_place_takes_its_minutes_from_the_cycle() {
    let (window, state) = live((360, 4200), Session { place: "tint".to_owned(), ..told("100 ft3/h") });
    assert!(minutes(&window).contains("assumed"), "nothing yet: {}", minutes(&window));
    rest(&state);
    let taken = minutes(&window);
    assert!(taken.ends_with("min (plan)"), "{taken}");
    assert!(tint(&window).get_minutes_label().contains("plan’s heat cycle"));
    assert!(tint(&window).get_minutes_open(), "a range is no sharp value");
    let (low, high) = range(&taken);
    window.global::<ui::CycleAdapter>().invoke_open_asked();
    rest(&state);
    let of_cycle = of_cycle(&window);
    assert!(
        (low - of_cycle.0).abs() <= 0.6 && (high - of_cycle.1).abs() <= 0.6,
        "{taken} beside {of_cycle:?}"
    );
    strawblue::app::back(&window, &state);
    // The place with these minutes has an answer, and the plan says them where it speaks of colours.
    tap(&window, AccessibleRole::RadioButton, "Purple-blue");
    let label = tint(&window).get_answer().figure.label.replace('\u{a0}', " ");
    assert!(label.contains(taken.trim_end_matches(" (plan)")), "{label}");
    assert_eq!(common(&window), ["Plan", "Not known", "5\u{a0}min", "10\u{a0}min", "30\u{a0}min"]);
    let moments = window.global::<ui::PlanAdapter>().get_moments();
    let first = moments.row_data(0).expect("the flame").label.replace('\u{a0}', " ");
    assert!(first.contains(taken.trim_end_matches(" (plan)")), "{first} and {taken}");
    // What is set comes first, and goes again with one tap.
    tap(&window, AccessibleRole::RadioButton, "10\u{a0}min");
    assert_eq!(minutes(&window), "10 min");
    tap(&window, AccessibleRole::RadioButton, "Not known");
    assert!(minutes(&window).contains("assumed"), "{}", minutes(&window));
    refresh_all(&window, &state);
    assert!(minutes(&window).contains("assumed"), "it is kept");
    tap(&window, AccessibleRole::RadioButton, PLAN);
    assert_eq!(minutes(&window), taken);
}

/// Another job, a piece that is no part of the plan, a field that can't be read: no minutes of the plan.
#[test]
fn minutes_of_another_job_never_stand() {
    let (window, state) = live((360, 4200), Session { place: "tint".to_owned(), ..told("100 ft3/h") });
    rest(&state);
    let first = minutes(&window);
    assert!(first.ends_with("(plan)"), "{first}");
    let change = |field: Field, text: &str| {
        state.change_job(|job| job.set(field, Some(text.to_owned())));
        refresh_all(&window, &state);
    };
    change(Field::Leg, "14 mm");
    assert!(minutes(&window).contains("assumed"), "still of the other job: {}", minutes(&window));
    rest(&state);
    assert!(minutes(&window).ends_with("(plan)"), "{}", minutes(&window));
    change(Field::Leg, "thick");
    assert!(minutes(&window).contains("assumed"), "{}", minutes(&window));
    change(Field::Leg, "8 mm");
    rest(&state);
    assert_eq!(minutes(&window), first, "the same joint again");
    // A bar of another steel was not heated with the joint.
    state.change(|session| {
        session.choices.insert("tint.steel".to_owned(), "low-alloy".to_owned());
        let of_plan = format!(
            "{} + {}",
            session.job.get(Field::Steel.nth(0)).unwrap_or_default(),
            session.job.get(Field::Steel.nth(1)).unwrap_or_default()
        );
        session.choices.insert("tint.steel-of".to_owned(), of_plan);
    });
    refresh_all(&window, &state);
    assert!(minutes(&window).contains("assumed"), "{}", minutes(&window));
    assert_eq!(common(&window)[0], "Not known");
}

fn field(window: &ui::AppWindow, key: &str) -> ui::FieldRow {
    let id = format!("ask:tint-flame-on.{key}");
    let rows = window.global::<ui::BenchAdapter>().get_inputs();
    let parts = rows.iter().flat_map(|row| row.parts.iter().collect::<Vec<_>>()).collect::<Vec<_>>();
    let mut fields = parts.iter().flat_map(|part| part.fields.iter().collect::<Vec<_>>());
    fields.find(|field| field.id == id.as_str()).unwrap_or_else(|| panic!("no field {id}"))
}

fn on_bench(state: &State, window: &ui::AppWindow) {
    open(window, state, "tint-flame-on");
    rest(state);
}

/// So do the questions of the Bench, and what is typed for the heating in any way comes first.
#[test]
fn the_questions_about_colours_take_them_too() {
    let (window, state) = live((360, 3000), Session { place: "bench".to_owned(), ..told("100 ft3/h") });
    let needs = |window: &ui::AppWindow| {
        let all = entries(window);
        all.into_iter().find(|entry| entry.id == "tint-flame-on").expect("its entry").note.to_string()
    };
    rest(&state);
    refresh_all(&window, &state);
    let list = needs(&window);
    assert!(
        list.contains("temperature") && !list.contains("Heating time"),
        "only the peak is needed: {list}"
    );
    on_bench(&state, &window);
    let (least, most) = (field(&window, "heating-minutes"), field(&window, "heating-minutes-most"));
    assert!(
        least.hint.ends_with("(plan)") && most.hint.ends_with("(plan)"),
        "{} and {}",
        least.hint,
        most.hint
    );
    let (low, high) = (range(&format!("{}–1", least.hint.trim_end_matches(" (plan)"))).0, most.hint);
    assert!(high.split(' ').next().and_then(|text| text.parse::<f64>().ok()).is_some_and(|high| high > low));
    fill(&window, "Surface temperature", "300");
    assert!(answer(&window).figured, "{:?}", answer(&window));
    let of_plan = answer(&window).figure.figure;
    // One typed figure takes the place of both, and so does a rate.
    fill(&window, &least.label, "30");
    assert!(!field(&window, "heating-minutes-most").hint.contains("plan"), "no end of another range");
    assert_ne!(answer(&window).figure.figure, of_plan);
    assert!(labelled(&window, AccessibleRole::Button, "Take from the plan").is_some());
    tap(&window, AccessibleRole::Button, "Take from the plan");
    assert_eq!(answer(&window).figure.figure, of_plan);
    // Without a torch the question asks for them again.
    state.change(|session| session.typed.retain(|key, _| !key.starts_with("heat-cycle.")));
    refresh_all(&window, &state);
    assert_eq!(answer(&window).title, "Type these first");
}
