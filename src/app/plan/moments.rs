//! What shows on bright steel that the plan's minimum is reached: while the flame is on, and
//! after the wait.

use crate::app::screen_values::float;
use crate::app::tint::ask::{
    Ask, ask, chromium_of_part, governing, minutes as flame_minutes, mode_of, plan_limits, wait_min,
};
use crate::app::tint::coupon;
use crate::app::tint::view::picture;
use crate::app::{Planned, State, ui};
use crate::engine::tint::{
    Afterwards, Circumstances, Mode, Pace, Span, Stage, TintError, colour_on_colour, peak_on_colour, proof_of,
};
use crate::report::{ShownLimits, WaitHeld, minutes, moment_words, refusal_line};

/// Both moments of a plan with a window; none where there is no minimum to look for.
pub(super) fn moments(state: &State, planned: &Planned, axis: &ui::WindowView) -> Vec<ui::TintMoment> {
    let limits = plan_limits(state);
    let Some(minimum_c) = limits.held.minimum_c else { return Vec::new() };
    let set = ask(state);
    // The steel is that of the plan, whatever was looked at last; spot and air are as they are set.
    let chromium_pct = chromium_of_part(state, governing(state).unwrap_or(0));
    let coupon = coupon::of_part(state, governing(state).unwrap_or(0));
    let set = Ask { steel: Circumstances { chromium_pct, coupon, ..set.steel }, ..set };
    let (flame, flame_words) = flame_on(state, planned);
    let (after, after_words) = after_wait(state, planned);
    [(flame, flame_words), (after, after_words)]
        .into_iter()
        .map(|(mode, label)| moment(state, &set, &mode, label, (minimum_c, &limits), axis))
        .collect()
}

/// While the flame is on, for the minutes that the Tint place is set to, or else those of the heat cycle.
fn flame_on(state: &State, planned: &Planned) -> (Mode, String) {
    let mode = mode_of(state, true, flame_minutes(state, true, true), planned.read.job.shop_c);
    let span = match &mode {
        Mode::FlameOn(flame) => match flame.pace {
            Pace::Minutes(span) => span,
            Pace::KelvinPerMin(_) | Pace::Curve(_) => Span::exactly(0.0),
        },
        Mode::Afterwards(look) => look.near_peak_min,
    };
    let words = state.words.with("tint-moment-flame", &[("minutes", &minutes(&state.pen(), span))]);
    (mode, words)
}

/// After the wait that evens out the thickest part: its minutes and the flanks of 20 K.
fn after_wait(state: &State, planned: &Planned) -> (Mode, String) {
    let wait_min = wait_min(state).unwrap_or(0.0);
    let usual = Afterwards::default();
    let near_peak_min = Span::exactly(usual.near_peak_min.low + wait_min);
    let mode = Mode::Afterwards(Afterwards { start_c: planned.read.job.shop_c, near_peak_min, ..usual });
    let wait = minutes(&state.pen(), Span::exactly(wait_min));
    (mode, state.words.with("tint-moment-after", &[("wait", &wait)]))
}

fn moment(
    state: &State,
    set: &Ask,
    mode: &Mode,
    label: String,
    (minimum_c, shown): (f64, &ShownLimits),
    axis: &ui::WindowView,
) -> ui::TintMoment {
    let minimum = shown.minimum.as_str();
    let found = colour_on_colour(mode, set.before, minimum_c, &set.steel);
    let middle = mode.heatings(&set.steel).ok().and_then(|mut heatings| {
        let at = heatings.len() / 2;
        (at < heatings.len()).then(|| heatings.swap_remove(at))
    });
    match (found, middle) {
        (Ok(colour), Some(heating)) if colour.stage != Stage::Bright && colour.stage != Stage::Later => {
            let proof = proof_of(mode, set.before, minimum_c, &set.steel);
            let peak_on = |stage| peak_on_colour(mode, set.before, (stage, stage), &set.steel).ok();
            let shown_by = proof.reached_from.and_then(peak_on);
            let held = WaitHeld { limits: shown, shown_by: shown_by.as_ref() };
            let (words, note) = moment_words(&state.pen(), &colour, &proof, minimum, &held);
            ui::TintMoment {
                label: label.into(),
                words: words.into(),
                note: note.into(),
                tint: picture(&heating, f64::from(axis.from_c), f64::from(axis.to_c)),
                tinted: true,
                hatch_from_c: float(heating.peak_c(Stage::Later.from_nm()).unwrap_or(f64::MAX)),
            }
        }
        (found, _) => ui::TintMoment {
            label: label.into(),
            words: state.word("tint-moment-none"),
            note: warning(state, found.map(|colour| colour.stage), minimum).into(),
            ..ui::TintMoment::default()
        },
    }
}

/// Why a colour can't serve at this heat.
fn warning(state: &State, found: Result<Stage, TintError>, minimum: &str) -> String {
    match found {
        Err(error) => refusal_line(&state.pen(), &error).lines.into_iter().next().unwrap_or_default(),
        Ok(Stage::Bright) => state.words.with("tint-moment-cold", &[("figure", minimum)]),
        Ok(_) => state.words.with("tint-moment-late", &[("figure", minimum)]),
    }
}
