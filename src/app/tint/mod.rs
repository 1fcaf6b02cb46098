//! The Tint place: what is set and asked becomes a band, a strip and tiles.

pub(crate) mod ask;
pub(crate) mod coupon;
pub(crate) mod form;
pub(crate) mod kept;
mod lists;
pub(crate) mod photo;
pub(crate) mod photo_read;
mod photo_view;
pub(crate) mod view;
pub(crate) mod waited;

use std::rc::Rc;

use slint::{ComponentHandle, SharedString};

use self::ask::{Ask, Asked, MODES, Minutes, ask, minutes_of, place, plan_minimum_c, see, stepped, stop_at};
use self::kept::Kept;
use crate::app::calls::{calls, calls_plain};
use crate::app::rows::{model, put};
use crate::app::screen_values::{choice, float, picked, place_of};
use crate::app::{BasisOf, State, basis, ui};
use crate::engine::tint::{Mode, Pace, Span, Stage};
use crate::report::minutes;

/// What is kept where the minutes of the flame are not known, though a plan has some. No number.
const NOT_KNOWN: &str = "not-known";

/// Wires the place.
pub(crate) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let adapter = window.global::<ui::TintAdapter>();
    adapter.set_rows(model(Vec::new()));
    adapter.set_photo_rows(model(Vec::new()));
    adapter.set_swatches(model(Vec::new()));
    adapter.on_basis_asked(calls(window, state, |window, state, _: SharedString| {
        state.open.borrow_mut().basis = Some(BasisOf::Tint);
        refresh(window, state);
    }));
    adapter.on_mode_picked(calls(window, state, |window, state, index: i32| {
        let mode = picked(&MODES, index).unwrap_or(MODES[0]);
        Kept::choose(state, &[(Kept::Mode, mode)]);
        refresh(window, state);
    }));
    adapter.on_minutes_pulled(calls(window, state, |window, state, at: f32| {
        set_minutes(state, Some(stop_at(f64::from(at))));
        refresh(window, state);
    }));
    adapter.on_minutes_stepped(calls(window, state, |window, state, by: i32| {
        let now = minutes_of_mode(&ask(state).mode);
        set_minutes(state, Some(stepped(now.low.midpoint(now.high), by)));
        refresh(window, state);
    }));
    adapter.on_minutes_common_picked(calls(window, state, |window, state, index: i32| {
        let (_, times) = view::common(state, &ask(state));
        match picked(&times, index) {
            Some(Minutes::Set(minutes)) => set_minutes(state, Some(minutes)),
            // Without a plan that knows better, nothing set says the same.
            Some(Minutes::NotKnown) if times.iter().any(|time| matches!(time, Minutes::OfPlan(_))) => {
                Kept::FlameMinutes.type_in(state, Some(NOT_KNOWN.to_owned()));
            }
            _ => set_minutes(state, None),
        }
        refresh(window, state);
    }));
    adapter.on_swatch_picked(calls(window, state, |window, state, index: i32| {
        if let Some(stage) = picked(Stage::ALL, index) {
            see(state, stage, stage);
            refresh(window, state);
        }
    }));
    adapter.on_strip_pulled(calls(window, state, |window, state, celsius: f32| {
        waited::pulled(state, f64::from(celsius));
        refresh(window, state);
    }));
    adapter.on_strip_stepped(calls(window, state, |window, state, by: i32| {
        let now = match ask(state).asked {
            Some(Asked::Wait(celsius)) => celsius,
            _ => plan_minimum_c(state).unwrap_or(250.0),
        };
        waited::pulled(state, now + f64::from(by) * waited::step_k(state));
        refresh(window, state);
    }));
    adapter.on_wait_asked(calls_plain(window, state, |window, state| {
        if let Some(minimum_c) = plan_minimum_c(state) {
            waited::exactly(state, minimum_c);
        }
        refresh(window, state);
    }));
    photo::connect(window, state);
}

fn set_minutes(state: &State, minutes: Option<f64>) {
    let kept = minutes_of(ask(state).flame);
    let text = minutes.map(|minutes| format!("{minutes}"));
    if kept.typed(state) != text {
        kept.type_in(state, text);
    }
}

/// The minutes of a mode, as they are set or plausible.
fn minutes_of_mode(mode: &Mode) -> Span {
    match mode {
        Mode::FlameOn(flame) => match flame.pace {
            Pace::Minutes(span) => span,
            Pace::KelvinPerMin(_) | Pace::Curve(_) => Span::exactly(1.0),
        },
        Mode::Afterwards(look) => look.near_peak_min,
    }
}

/// Fills the place anew.
pub(crate) fn refresh(window: &ui::AppWindow, state: &State) {
    let adapter = window.global::<ui::TintAdapter>();
    let ask = ask(state);
    let answer = view::answer(state, &ask);
    adapter.set_answer(view::answer_view(state, &answer, form::verdicts(state)));
    adapter.set_notes(model(answer.line.notes.iter().map(SharedString::from).collect()));
    let strip = view::strip_view(state, &ask, &answer);
    adapter.set_has_strip(strip.is_some());
    adapter.set_strip(strip.unwrap_or_default());
    adapter.set_wait_field(waited::field(state));
    fill_times(&adapter, state, &ask);
    put(&adapter.get_swatches(), view::swatches(state, &ask));
    let seen = match ask.asked {
        Some(Asked::Seen(first, last)) if first == last => {
            Stage::ALL.iter().position(|known| *known == first)
        }
        _ => None,
    };
    adapter.set_swatch(place_of(seen));
    adapter.set_steel(form::steel_words(state).into());
    adapter.set_can_wait(
        plan_minimum_c(state).is_some_and(|minimum_c| ask.asked != Some(Asked::Wait(minimum_c))),
    );
    adapter.set_wait_label(state.word("tint-wait-plan"));
    put(&adapter.get_rows(), form::rows(state));
    photo_view::refresh(window, state, &ask);
    fill_basis(window, state, &answer);
}

fn fill_times(adapter: &ui::TintAdapter<'_>, state: &State, ask: &Ask) {
    let modes = MODES
        .iter()
        .map(|id| {
            choice(
                id,
                state.word(&format!("tint-mode-{id}")),
                state.word(&format!("tint-mode-{id}-note")),
                "",
            )
        })
        .collect();
    adapter.set_modes(model(modes));
    adapter.set_mode(i32::from(!ask.flame));
    let span = minutes_of_mode(&ask.mode);
    let shown = minutes(&state.pen(), span);
    let open = !matches!(ask.minutes, Minutes::Set(_));
    adapter.set_minutes(match ask.minutes {
        Minutes::NotKnown => state.words.with("tint-minutes-unknown", &[("minutes", &shown)]).into(),
        Minutes::OfPlan(_) => state.words.with("tool-of-plan", &[("figure", &shown)]).into(),
        Minutes::Set(_) => shown.into(),
    });
    adapter.set_minutes_label(state.word(match (ask.flame, ask.minutes) {
        (true, Minutes::OfPlan(_)) => "tint-minutes-flame-plan",
        (true, _) => "tint-minutes-flame",
        (false, _) => "tint-minutes-after",
    }));
    let (low, high) = (place(span.low), place(span.high));
    adapter.set_minutes_at(float(low.midpoint(high)));
    adapter.set_minutes_from(if open { float(low) } else { 0.0 });
    adapter.set_minutes_to(float(high));
    adapter.set_minutes_open(open);
    adapter.set_minutes_ticks(model(view::minute_ticks(state)));
    let (rows, times) = view::common(state, ask);
    adapter.set_minutes_common(model(rows));
    let at = times.iter().position(|time| *time == ask.minutes);
    adapter.set_minutes_chosen(place_of(at));
}

/// The basis sheet of the answer, where it is asked for.
fn fill_basis(window: &ui::AppWindow, state: &State, answer: &view::Answer) {
    let asked = state.open.borrow().basis == Some(BasisOf::Tint);
    let sheet = asked.then(|| answer.sheet(&state.pen())).flatten();
    basis::show(window, sheet.as_ref().map(|sheet| ("tint", sheet)));
}
