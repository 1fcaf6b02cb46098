//! The heat cycle of the plan's joint: its lines in the steps, and its page with the picture and the
//! section.

pub mod axis;
mod canvas;
mod chart;
mod events;
mod field;
mod inks;
mod section;
mod view;
pub(crate) mod work;

use std::rc::Rc;
use std::time::Duration;

use slint::{ComponentHandle, Image, ModelRc, TimerMode};

use self::chart::Chart;
use self::inks::Inks;
use self::section::Section;
use self::work::Seen;
use crate::app::calls::{calls, calls_plain};
use crate::app::form::question::{answers, inputs_row};
use crate::app::form::question_plan::PlanFacts;
use crate::app::rows::{model, put};
use crate::app::shell::{open_page, refresh_screen};
use crate::app::{Page, Planned, State, ui};
use crate::engine::heat_cycle::{Flames, NoCycle};
use crate::job::cycle_of_answers;
use crate::questions::HEAT_CYCLE;
use crate::report::{CycleTold, StepRow, put_cycle};

/// The torch is what most decides the minutes, and what a plan does not know.
const FIRST_INPUT: &str = "fuel";
/// How often the window asks for news of the work.
const NEWS: Duration = Duration::from_millis(40);

/// Wires the page, and what asks for news.
pub(crate) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let adapter = window.global::<ui::CycleAdapter>();
    adapter.set_rows(model(Vec::new()));
    state.flame_min.set(flame_min);
    adapter.on_open_asked(calls_plain(window, state, |window, state| {
        open_page(window, state, Page::Cycle);
    }));
    adapter.on_moment_pulled(calls(window, state, |window, state, at: f32| {
        if let Ok(seen) = shown(state) {
            let minute = Chart::of(&seen).axis.minute(f64::from(at));
            set_minute(window, state, minute);
        }
    }));
    adapter.on_moment_stepped(calls(window, state, |window, state, by: i32| {
        if let Ok(seen) = shown(state) {
            let now = minute(state, &seen);
            set_minute(window, state, events::beside(&events::of(&seen), now, by > 0));
        }
    }));
    adapter.on_chart({
        let (weak, state) = (window.as_weak(), state.clone());
        move |width, _, _| {
            let (Some(window), Ok(seen)) = (weak.upgrade(), shown(&state)) else { return Image::default() };
            let scale = f64::from(window.window().scale_factor());
            let at_min = minute(&state, &seen);
            Chart::of(&seen).image(f64::from(width), scale, &Inks::of(&window), at_min)
        }
    });
    adapter.on_section({
        let (weak, state) = (window.as_weak(), state.clone());
        move |width, _, _| {
            let (Some(window), Ok(seen)) = (weak.upgrade(), shown(&state)) else { return Image::default() };
            let scale = f64::from(window.window().scale_factor());
            let section = Section::of(&seen, minute(&state, &seen));
            section.map_or_else(Image::default, |section| {
                section.image(f64::from(width), scale, &Inks::of(&window))
            })
        }
    });
    adapter.on_section_marks({
        let state = state.clone();
        move |width, _| {
            let Ok(seen) = shown(&state) else { return ModelRc::default() };
            let section = Section::of(&seen, minute(&state, &seen));
            model(section.map_or_else(Vec::new, |section| {
                view::section_marks(
                    &state.pen(),
                    &section.marks(f64::from(width)),
                    seen.flames.cycle.minimum_c,
                )
            }))
        }
    });
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

fn set_minute(window: &ui::AppWindow, state: &State, minute: f64) {
    {
        let mut cycle = state.cycle.borrow_mut();
        cycle.at_min = Some(minute);
        cycle.turn += 1;
    }
    refresh(window, state);
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
    seen.found.flame_min()
}

/// Just before an arc, the section still is that of the wait, min.
const BEFORE_ARC_MIN: f64 = 0.3;

/// The minute that the section is drawn at: of itself, where the first run may start.
fn minute(state: &State, seen: &Seen) -> f64 {
    let cycle = &seen.found.cycle;
    let start =
        cycle.passes.first().map_or(cycle.preheat.heated.minutes, |pass| pass.start_min - BEFORE_ARC_MIN);
    state.cycle.borrow().at_min.unwrap_or(start)
}

/// Begins to work out the cycle of the plan as it stands, where that is another than before; says
/// what a plan knows of it, and puts it beside its steps.
pub(crate) fn put_lines(state: &State, planned: &Planned, rows: &mut [StepRow]) -> view::RowLine {
    let asked = asked(state);
    let fine = state.page() == Page::Cycle;
    match &asked {
        Ok(asked) => state.cycle.borrow_mut().keep_up(asked, fine),
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
            (cycle.seen(&asked), cycle.refused(&asked).map(NoCycle::Refused))
        }
        Err(why) => (None, Some(why)),
    }
}

/// Fills the page anew.
pub(crate) fn refresh(window: &ui::AppWindow, state: &State) {
    let adapter = window.global::<ui::CycleAdapter>();
    put(&adapter.get_rows(), vec![inputs_row(state, &HEAT_CYCLE, FIRST_INPUT)]);
    let asked = asked(state);
    let flames = asked.as_ref().ok().cloned();
    let (seen, why) = found(state, asked);
    let (progress, turn) = {
        let cycle = state.cycle.borrow();
        (cycle.progress(), cycle.turn)
    };
    adapter.set_busy(progress.is_some());
    adapter.set_progress(progress.map_or(0.0, |share| share as f32));
    view::fill(&adapter, state, seen.as_deref(), why.as_ref(), flames.as_ref());
    if let Some(seen) = &seen {
        view::fill_pictures(&adapter, state, seen, minute(state, seen));
    }
    adapter.set_turn(turn);
}
