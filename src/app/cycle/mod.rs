//! The heat cycle of the plan's joint: its lines in the steps, and its page with the picture and the
//! section.

mod canvas;
mod chart;
mod chart_words;
mod events;
mod field;
mod figures;
mod inks;
mod moment_words;
mod section;
mod section_marks;
mod seen;
mod view;
pub(crate) mod work;

use std::rc::Rc;
use std::time::Duration;

use slint::{ComponentHandle, Image, ModelRc, SharedString, TimerMode};

use self::chart::Chart;
use self::inks::Inks;
use self::section::Section;
use self::seen::Seen;
use crate::app::calls::{calls, calls_plain};
use crate::app::form::question::{answers, inputs_row};
use crate::app::form::question_plan::PlanFacts;
use crate::app::rows::{model, put};
use crate::app::shell::{open_page, refresh_screen};
use crate::app::{BasisOf, Page, Planned, State, basis, ui};
use crate::engine::heat_cycle::{Flames, NoCycle};
use crate::job::cycle_of_answers;
use crate::questions::HEAT_CYCLE;
use crate::report::{CycleTold, StepRow, clock_span, put_cycle};
use crate::units::TemperatureUnit;

/// The torch is what most decides the minutes, and what a plan does not know.
const FIRST_INPUT: &str = "fuel";
/// How often the window asks for news of the work.
const NEWS: Duration = Duration::from_millis(40);

/// Wires the page, and what asks for news.
pub(crate) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let adapter = window.global::<ui::CycleAdapter>();
    adapter.set_rows(model(Vec::new()));
    state.flame_min.set(flame_min);
    adapter.set_shown(model(Vec::new()));
    adapter.set_figures(model(Vec::new()));
    adapter.on_open_asked(calls_plain(window, state, |window, state| {
        // It is opened for its answer, not for where it was left.
        let adapter = window.global::<ui::CycleAdapter>();
        adapter.set_scroll_inputs(0.0);
        adapter.set_scroll_results(0.0);
        open_page(window, state, Page::Cycle);
    }));
    adapter.on_basis_asked(calls(window, state, |window, state, name: SharedString| {
        state.open.borrow_mut().basis = Some(BasisOf::Cycle(name.to_string()));
        refresh(window, state);
    }));
    adapter.on_moment_pulled(calls(window, state, |window, state, at: f32| {
        if let Ok(seen) = shown(state) {
            let minute = Chart::of(&seen, unit(state)).axis.minute(f64::from(at));
            set_minute(window, state, &seen, minute);
        }
    }));
    adapter.on_moment_stepped(calls(window, state, |window, state, by: i32| {
        if let Ok(seen) = shown(state) {
            let now = minute(state, &seen);
            set_minute(window, state, &seen, events::beside(&events::of(&seen), now, by > 0));
        }
    }));
    adapter.on_shown_asked(calls(window, state, |window, state, place: i32| {
        if let Ok(seen) = shown(state) {
            let chosen =
                usize::try_from(place).ok().and_then(|place| events::shown(&seen).get(place).copied());
            if let Some(chosen) = chosen {
                set_minute(window, state, &seen, chosen.minute);
            }
        }
    }));
    connect_pictures(window, state);
    let cycle = state.cycle.borrow();
    cycle.timer.start(TimerMode::Repeated, NEWS, {
        let (weak, heard) = (window.as_weak(), Rc::downgrade(state));
        move || {
            let (Some(window), Some(state)) = (weak.upgrade(), heard.upgrade()) else { return };
            let changed = state.cycle.borrow_mut().hear();
            if changed {
                refresh_screen(&window, &state);
            }
        }
    });
    if cycle.at_rest() {
        cycle.timer.stop();
    }
}

/// The pictures and what stands on them: asked for by the window, once for each width, look and moment.
fn connect_pictures(window: &ui::AppWindow, state: &Rc<State>) {
    let adapter = window.global::<ui::CycleAdapter>();
    adapter.on_chart({
        let (weak, state) = (window.as_weak(), state.clone());
        move |width, _, _| {
            let (Some(window), Ok(seen)) = (weak.upgrade(), shown(&state)) else { return Image::default() };
            let scale = f64::from(window.window().scale_factor());
            Chart::of(&seen, unit(&state)).image(f64::from(width), scale, &Inks::of(&window))
        }
    });
    adapter.on_chart_labels({
        let state = state.clone();
        move |width, _| {
            let Ok(seen) = shown(&state) else { return ModelRc::default() };
            let chart = Chart::of(&seen, unit(&state));
            model(chart_words::labels(&state.pen(), &seen, &chart, f64::from(width)))
        }
    });
    adapter.on_section({
        let (weak, state) = (window.as_weak(), state.clone());
        move |width, _, _, _| {
            let (Some(window), Some(section)) = (weak.upgrade(), drawn(&state)) else {
                return Image::default();
            };
            let scale = f64::from(window.window().scale_factor());
            section.image((f64::from(width), section::HEIGHT), scale, &Inks::of(&window))
        }
    });
    adapter.on_section_marks({
        let state = state.clone();
        move |width, _, _| {
            let Some(section) = drawn(&state) else { return ModelRc::default() };
            model(moment_words::section_marks(&state.pen(), &section, f64::from(width)))
        }
    });
    adapter.on_shown_section({
        let (weak, state) = (window.as_weak(), state.clone());
        move |place, width, _, _| {
            let (Some(window), Ok(seen)) = (weak.upgrade(), shown(&state)) else { return Image::default() };
            let moments = events::shown(&seen);
            let moment = usize::try_from(place).ok().and_then(|place| moments.get(place));
            let section = moment
                .and_then(|moment| section::nearest(&seen, moment.minute))
                .and_then(|at| Section::of(&seen, at, unit(&state)));
            let scale = f64::from(window.window().scale_factor());
            section.map_or_else(Image::default, |section| {
                section.image((f64::from(width), section::SMALL_HEIGHT), scale, &Inks::of(&window))
            })
        }
    });
}

fn unit(state: &State) -> TemperatureUnit {
    state.pen().show.units.temperature
}

/// Another moment: only what is of the moment is filled anew.
fn set_minute(window: &ui::AppWindow, state: &State, seen: &Rc<Seen>, minute: f64) {
    state.cycle.borrow_mut().at_min = Some(minute);
    fill_moment(window, state, seen);
}

/// What the slider says, and the section at its moment.
fn fill_moment(window: &ui::AppWindow, state: &State, seen: &Rc<Seen>) {
    let minute = minute(state, seen);
    let section = state.cycle.borrow_mut().section(seen, minute, unit(state));
    let Some(section) = section else { return };
    let adapter = window.global::<ui::CycleAdapter>();
    moment_words::fill(&adapter, &state.pen(), &section, Chart::of(seen, unit(state)).axis.x(minute));
}

/// The query of the plan as it stands, or why it has none.
fn asked(state: &State) -> Result<Flames, NoCycle> {
    let facts = PlanFacts::of(state).ok_or(NoCycle::NoPlan)?;
    let answers = answers(state, &HEAT_CYCLE);
    cycle_of_answers(answers, &facts.says())
}

/// The cycle on the screen: that of the plan as it stands, never another's.
fn shown(state: &State) -> Result<Rc<Seen>, NoCycle> {
    let asked = asked(state)?;
    state.cycle.borrow().seen(&asked).ok_or(NoCycle::Unread)
}

/// Minutes of the plan's flame; none while they are worked out, or where the weakest never gets there.
fn flame_min(state: &State) -> Option<(f64, f64)> {
    let seen = shown(state).ok()?;
    // Colours under a flame are asked of a flame.
    seen.flames.heat.flame()?;
    seen.found.flame_min().map(clock_span)
}

/// The section on the screen.
fn drawn(state: &State) -> Option<Rc<Section>> {
    let seen = shown(state).ok()?;
    let minute = minute(state, &seen);
    state.cycle.borrow_mut().section(&seen, minute, unit(state))
}

/// The minute that the section is drawn at: of itself, where the first run may start.
fn minute(state: &State, seen: &Seen) -> f64 {
    let first = || events::before_run(seen, 0).unwrap_or(seen.found.cycle.preheat.heated.minutes);
    state.cycle.borrow().at_min.unwrap_or_else(first)
}

/// Begins to work out the cycle of the plan as it stands, where that is another than before; says
/// what a plan knows of it, and puts it beside its steps.
pub(crate) fn put_lines(state: &State, planned: &Planned, rows: &mut [StepRow]) -> view::RowLine {
    let asked = asked(state);
    match &asked {
        Ok(asked) => state.cycle.borrow_mut().keep_up(asked),
        Err(_) => state.cycle.borrow_mut().forget(),
    }
    let pen = state.pen();
    let (seen, why) = found(state, asked);
    let told = match (&seen, &why) {
        (Some(seen), _) => CycleTold::Known(&seen.flames, &seen.found),
        (None, Some(why)) => CycleTold::None(why),
        (None, None) => CycleTold::Working,
    };
    put_cycle(&pen, &planned.read.job, &planned.plan, told, rows);
    view::row_line(&pen, told)
}

/// What is worked out, or why there is nothing; neither while it is worked out.
fn found(state: &State, asked: Result<Flames, NoCycle>) -> (Option<Rc<Seen>>, Option<NoCycle>) {
    match asked {
        Ok(asked) => {
            let cycle = state.cycle.borrow();
            let lost = cycle.lost(&asked).then_some(NoCycle::Lost);
            (cycle.seen(&asked), cycle.refused(&asked).map(NoCycle::Refused).or(lost))
        }
        Err(why) => (None, Some(why)),
    }
}

/// Fills the page anew.
pub(crate) fn refresh(window: &ui::AppWindow, state: &State) {
    let adapter = window.global::<ui::CycleAdapter>();
    let (seen, why) = found(state, asked(state));
    let needed: &[&str] = if let Some(NoCycle::Open(keys)) = &why { keys } else { &[] };
    put(&adapter.get_rows(), vec![inputs_row(state, &HEAT_CYCLE, FIRST_INPUT, needed)]);
    let (progress, turn) = {
        let cycle = state.cycle.borrow();
        (cycle.progress(), cycle.turn)
    };
    adapter.set_busy(progress.is_some());
    adapter.set_progress(progress.map_or(0.0, |share| share as f32));
    view::fill(&adapter, state, seen.as_deref(), why.as_ref());
    if let Some(seen) = &seen {
        view::fill_pictures(&adapter, state, seen);
        fill_moment(window, state, seen);
    }
    adapter.set_turn(turn);
    fill_basis(window, state, seen.as_deref());
}

/// The basis sheet of a figure, where it is asked for.
fn fill_basis(window: &ui::AppWindow, state: &State, seen: Option<&Seen>) {
    let wanted = match &state.open.borrow().basis {
        Some(BasisOf::Cycle(name)) => name.clone(),
        _ => return,
    };
    let sheet = seen.and_then(|seen| figures::sheet(state, seen, &wanted));
    basis::show(window, sheet.as_ref().map(|sheet| (wanted.as_str(), sheet)));
}
