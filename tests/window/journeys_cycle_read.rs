//! The heat cycle as a new user reads it: figures that are the last word, alike wherever they stand and in
//! view, what is still wanted, what was understood.

use i_slint_backend_testing::AccessibleRole;
use slint::platform::Key;
use slint::{ComponentHandle, Model};
use strawblue::app::{refresh_all, ui};
use strawblue::job::{Field, Session, demo_job};

use crate::journeys_cycle::{rest, told};
use crate::screen::compare::{DESKTOP, PHONE};
use crate::screen::hand::{press, tap, texts, with};
use crate::screen::{live, mock_elapsed_time};
use crate::typed_job;

const LONG: [(u32, u32); 2] = [(360, 9000), (1280, 6000)];

fn plain(text: &str) -> String {
    text.replace('\u{a0}', " ")
}

fn cycle_row(window: &ui::AppWindow) -> String {
    plain(&window.global::<ui::PlanAdapter>().get_cycle_note())
}

/// The figures of the coarse grid never stand as if they were the last word, and the fine ones come
/// without the page being opened; what the page then shows is what the row has said.
#[test]
fn the_row_of_the_heat_cycle_ends_with_the_fine_figures() {
    let (window, state) = live(LONG[0], told("100 ft3/h"));
    while !state.cycle_at_rest() {
        let row = cycle_row(&window);
        assert!(!row.contains("Flame") || row.starts_with("Preliminary figures"), "{row}");
        mock_elapsed_time(50);
    }
    rest(&state);
    let row = cycle_row(&window);
    assert!(row.starts_with("Flame ") && !row.contains("Preliminary"), "{row}");
    window.global::<ui::CycleAdapter>().invoke_open_asked();
    mock_elapsed_time(20);
    let cycle = window.global::<ui::CycleAdapter>();
    assert!(!cycle.get_busy(), "nothing finer is to come");
    for figure in cycle.get_figures().iter().take(3) {
        let said = plain(&[figure.figure.as_str(), figure.unit.as_str()].join(" "));
        assert!(row.contains(&said), "“{said}” of the page in the row: {row}");
    }
}

fn of_cycle(window: &ui::AppWindow) -> String {
    plain(&window.global::<ui::CycleAdapter>().get_figures().row_data(0).expect("minutes of flame").figure)
}

/// The minutes of the flame read alike wherever they stand.
#[test]
fn the_minutes_of_the_flame_read_alike_everywhere() {
    let (window, state) = live(LONG[1], told("100 ft3/h"));
    rest(&state);
    let moments = window.global::<ui::PlanAdapter>().get_moments();
    let strip = plain(&moments.row_data(0).expect("flame on").label);
    tap(&window, AccessibleRole::Tab, "Tint");
    let tint = plain(&window.global::<ui::TintAdapter>().get_minutes());
    window.global::<ui::CycleAdapter>().invoke_open_asked();
    mock_elapsed_time(20);
    let minutes = format!("{} min", of_cycle(&window));
    assert!(strip.contains(&minutes) && tint.contains(&minutes), "{minutes}: {strip}; {tint}");
}

fn cycle_field(window: &ui::AppWindow, key: &str) -> ui::FieldRow {
    let id = format!("ask:heat-cycle.{key}");
    let rows = window.global::<ui::CycleAdapter>().get_rows();
    let parts: Vec<ui::PartRow> = rows.iter().flat_map(|row| row.parts.iter().collect::<Vec<_>>()).collect();
    let mut fields = parts.iter().flat_map(|part| part.fields.iter().collect::<Vec<_>>());
    fields.find(|field| field.id == id.as_str()).unwrap_or_else(|| panic!("no field {id}"))
}

/// The page of the heat cycle opens at its top, keeps its figures in view, and says what it still wants.
#[test]
fn the_page_of_the_heat_cycle_keeps_its_figures_in_view() {
    for size in [PHONE, DESKTOP] {
        let (window, state) = live(size, told("100 ft3/h"));
        rest(&state);
        let cycle = || window.global::<ui::CycleAdapter>();
        cycle().invoke_open_asked();
        rest(&state);
        cycle().set_scroll_results(-500.0);
        mock_elapsed_time(50);
        let bar = with(&window, |element| element.accessible_id().is_some_and(|id| id == "cycle-bar"));
        let said = bar.as_ref().and_then(|bar| bar.accessible_value()).unwrap_or_default();
        assert!(said.contains(&of_cycle(&window)), "{size:?}: {said}");
        // No word of it is cut.
        let shown = texts(&window).into_iter().filter(|(_, at, _)| at.y < 120.0);
        assert!(shown.map(|(said, ..)| said).any(|said| said == "Weld within"), "{size:?}");
        press(&window, Key::Escape);
        cycle().invoke_open_asked();
        mock_elapsed_time(50);
        assert!(cycle().get_scroll_results().abs() < 0.5, "{size:?}: it opens at its top");
    }
    let (window, state) = live(LONG[0], Session { job: demo_job(), ..Session::default() });
    window.global::<ui::CycleAdapter>().invoke_open_asked();
    rest(&state);
    assert_eq!(cycle_field(&window, "fuel-flow").hint, "Needed");
}

/// The heat cycle goes through as many runs as the plan says that the weld takes.
#[test]
fn the_heat_cycle_has_the_runs_of_the_plan() {
    let mut session = told("100 ft3/h");
    session.job = typed_job::over(session.job, &[("leg", "12 mm")]);
    session.job.set(Field::Passes, None);
    session.job.set(Field::Passes.nth(1), None);
    let (window, state) = live(LONG[0], session);
    let runs = window.global::<ui::PlanAdapter>().get_weld();
    let planned = runs.iter().find(|row| row.id == "runs").expect("the runs").value;
    window.global::<ui::CycleAdapter>().invoke_open_asked();
    rest(&state);
    let hint = cycle_field(&window, "runs").hint;
    let counted = hint.trim_end_matches(" (plan)").trim_end_matches("\u{a0}(plan)");
    assert!(hint.contains("plan") && plain(&planned).contains(counted), "{hint} of {planned}");
}

/// A question says what it understood of another unit, and writes no unit twice.
#[test]
fn a_question_says_what_it_understood() {
    let (window, state) = live(LONG[0], told("400 l/h"));
    window.global::<ui::CycleAdapter>().invoke_open_asked();
    assert_eq!(plain(&cycle_field(&window, "fuel-flow").unit), "= 0.4 m³/h");
    for (typed, shown) in [("0.4 m³/h", ""), ("0.4", "m³/h"), ("much", "m³/h")] {
        state.change(|session| {
            session.typed.insert("heat-cycle.fuel-flow".to_owned(), typed.to_owned());
        });
        refresh_all(&window, &state);
        assert_eq!(cycle_field(&window, "fuel-flow").unit, shown, "{typed}");
    }
}

/// Every axis of temperatures says its unit, and a summary of two runs says of each what it is.
#[test]
fn an_axis_says_its_unit_and_a_summary_what_it_sums_up() {
    let (window, state) = live(LONG[0], told("100 ft3/h"));
    let plan = window.global::<ui::PlanAdapter>();
    let last = |ticks: slint::ModelRc<ui::AxisTick>| {
        ticks.iter().filter(|tick| !tick.label.is_empty()).last().expect("a mark").label
    };
    assert!(last(plan.get_window_line().ticks).ends_with("°C"));
    let rows = plan.get_rows();
    let row = |id: &str| plain(&rows.iter().find(|row| row.id == id).expect("a row").value);
    assert_eq!(row("heat").matches(" net").count(), 2, "{}", row("heat"));
    assert!(row("member-a").contains('Ø') || row("member-b").contains('Ø'), "{}", row("member-b"));
    window.global::<ui::CycleAdapter>().invoke_open_asked();
    rest(&state);
    assert!(window.global::<ui::CycleAdapter>().get_axes().contains("°C"));
    tap(&window, AccessibleRole::Tab, "Tint");
    assert!(last(window.global::<ui::TintAdapter>().get_strip().ticks).ends_with("°C"));
}
