//! What the plan's minimum looks like on bright steel: while the flame is on, and after the wait.

use super::map::float;
use super::tint_ask::{Ask, ask, mode_of};
use super::tint_view::picture;
use super::{Planned, State, ui};
use crate::engine::measuring::{HeatedBy, PartToMeasure, measuring_place};
use crate::engine::tint::{
    Afterwards, Circumstances, ColourAtPeak, Mode, Span, Stage, TintError, colour_at_peak,
};
use crate::report::{minutes, moment_words, refusal_line, tint_limits};

/// Both moments of a plan with a window; none where there is no minimum to look for.
pub(super) fn moments(state: &State, planned: &Planned, axis: &ui::WindowView) -> Vec<ui::TintMoment> {
    let Some(minimum_c) = tint_limits(Some(&planned.plan)).minimum_c else { return Vec::new() };
    let set = ask(state);
    let (flame, flame_words) = flame_on(state, &set, planned);
    let (after, after_words) = after_wait(state, planned);
    vec![
        moment(state, &set.steel, &flame, flame_words, minimum_c, axis),
        moment(state, &set.steel, &after, after_words, minimum_c, axis),
    ]
}

/// While the flame is on, for the minutes that the Tint place is set to.
fn flame_on(state: &State, set: &Ask, planned: &Planned) -> (Mode, String) {
    let kept = if set.flame { set.minutes } else { None };
    let mode = mode_of(true, kept, planned.read.job.shop_c);
    let Mode::FlameOn(flame) = &mode else { return (mode, String::new()) };
    let span = match flame.pace {
        crate::engine::tint::Pace::Minutes(span) => span,
        _ => Span::exactly(0.0),
    };
    let words = state.words.with("tint-moment-flame", &[("minutes", &minutes(&state.pen(), span))]);
    (mode, words)
}

/// After the wait that evens out the thickest part: its minutes and the flanks of 20 K.
fn after_wait(state: &State, planned: &Planned) -> (Mode, String) {
    let part = PartToMeasure {
        thickest_mm: planned.read.job.thickest_mm(),
        heated_by: HeatedBy::Flame,
        far_face_reached: false,
    };
    let wait_min = measuring_place(part).ok().and_then(|place| place.wait.value).unwrap_or(0.0);
    let usual = Afterwards::default();
    let near_peak_min = Span::exactly(usual.near_peak_min.low + wait_min);
    let mode = Mode::Afterwards(Afterwards { start_c: planned.read.job.shop_c, near_peak_min, ..usual });
    let wait = minutes(&state.pen(), Span::exactly(wait_min));
    (mode, state.words.with("tint-moment-after", &[("wait", &wait)]))
}

fn moment(
    state: &State,
    steel: &Circumstances,
    mode: &Mode,
    label: String,
    minimum_c: f64,
    axis: &ui::WindowView,
) -> ui::TintMoment {
    let found = colour_at_peak(mode, minimum_c, steel);
    let warned = warning(state, &found, minimum_c);
    // Both moments have one history each: their minutes are set.
    let middle = mode.heatings().ok().and_then(|heatings| heatings.into_iter().next());
    match (found, warned, middle) {
        (Ok(colour), None, Some(heating)) => {
            let (words, note) = moment_words(&state.pen(), &colour, minimum_c);
            ui::TintMoment {
                label: label.into(),
                words: words.into(),
                note: note.into(),
                tint: picture(&heating, f64::from(axis.from_c), f64::from(axis.to_c)),
                tinted: true,
                hatch_from_c: float(heating.peak_c(Stage::Later.from_nm()).unwrap_or(f64::MAX)),
            }
        }
        (_, warned, _) => ui::TintMoment {
            label: label.into(),
            words: state.word("tint-moment-none"),
            note: warned.unwrap_or_default().into(),
            ..ui::TintMoment::default()
        },
    }
}

/// Why a colour can't serve at this heat.
fn warning(state: &State, found: &Result<ColourAtPeak, TintError>, minimum_c: f64) -> Option<String> {
    let figure = state.show().minimum(minimum_c, None).main;
    let say = |key: &str| Some(state.words.with(key, &[("figure", &figure)]));
    match found {
        Err(error) => refusal_line(&state.pen(), error).lines.into_iter().next(),
        Ok(colour) if colour.stages.1 == Stage::Bright => say("tint-moment-cold"),
        Ok(colour) if colour.stage == Stage::Later => say("tint-moment-late"),
        Ok(_) => None,
    }
}
