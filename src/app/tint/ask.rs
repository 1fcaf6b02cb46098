//! What the Tint place is asked: read from the session, where it is kept.

use super::coupon;
use super::kept::Kept;
use crate::app::State;
use crate::engine::job::Steel;
use crate::engine::measuring::{HeatedBy, PartToMeasure, measuring_place};
use crate::engine::tint::{Afterwards, Circumstances, FlameOn, Mode, Pace, Span, SpotState, Stage};
use crate::job::Field;
use crate::reference::Element;
use crate::report::{ShownLimits, tint_limits};

/// Steels to choose from; the first two stand for the parts of the plan.
const STEELS: [&str; 6] = ["plan-a", "plan-b", "low-alloy", "unknown", "chromium", "stainless"];
/// Free air or not.
pub(super) const AIRS: [&str; 2] = ["free", "shielded"];
/// Modes in the order in which they are offered.
pub(super) const MODES: [&str; 2] = ["flame-on", "afterwards"];

/// Minutes that the slider stops at.
const STOPS: [f64; 34] = [
    0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.2, 1.5, 1.8, 2.0, 2.5, 3.0, 3.5, 4.0, 4.5, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0,
    12.0, 14.0, 16.0, 18.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 55.0, 60.0,
];
/// Minutes of heating from a quick torch on a thin part to a slow one on a thick part: what is
/// reckoned with until the minutes are set.
const FLAME_MIN: Span = Span { low: 1.0, high: 30.0 };

/// Which way the question goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Asked {
    /// Which peak left this colour, or the colours from the first to the second?
    Seen(Stage, Stage),
    /// Which colour shows at this heat, °C?
    Wait(f64),
}

/// Where minutes come from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Minutes {
    /// They are set.
    Set(f64),
    /// The heat cycle of the plan has them, of the flame alone.
    OfPlan(Span),
    /// Nobody knows.
    NotKnown,
}

impl Minutes {
    /// From how many to how many.
    pub(super) const fn span(self) -> Option<Span> {
        match self {
            Self::Set(minutes) => Some(Span::exactly(minutes)),
            Self::OfPlan(span) => Some(span),
            Self::NotKnown => None,
        }
    }
}

/// Everything that is set on the Tint place.
pub(crate) struct Ask {
    /// When one looks, and how long the heat took.
    pub(crate) mode: Mode,
    /// Is the flame on?
    pub(crate) flame: bool,
    /// Where the minutes come from.
    pub(crate) minutes: Minutes,
    /// The steel, the spot, the air.
    pub(crate) steel: Circumstances,
    /// The colour before this heating; bright for none.
    pub(crate) before: Stage,
    /// The question, once there is one.
    pub(crate) asked: Option<Asked>,
}

/// Where minutes stand on the slider, 0 to 1: `ln(t/0.5) / ln(60/0.5)`.
pub(crate) fn place(minutes: f64) -> f64 {
    let (first, last) = (STOPS[0], STOPS[STOPS.len() - 1]);
    ((minutes / first).ln() / (last / first).ln()).clamp(0.0, 1.0)
}

/// The stop nearest to a place on the slider.
pub(super) fn stop_at(at: f64) -> f64 {
    let away = |stop: &f64| (place(*stop) - at).abs();
    STOPS.iter().copied().min_by(|a, b| away(a).total_cmp(&away(b))).unwrap_or(STOPS[0])
}

/// So many stops further.
pub(super) fn stepped(minutes: f64, by: i32) -> f64 {
    let at = STOPS.iter().position(|stop| *stop >= minutes - 1e-9).unwrap_or(STOPS.len() - 1);
    let to = at.saturating_add_signed(by.signum() as isize);
    STOPS[to.min(STOPS.len() - 1)]
}

/// What keeps the minutes of a mode.
pub(super) const fn minutes_of(flame: bool) -> Kept {
    if flame { Kept::FlameMinutes } else { Kept::NearMinutes }
}

/// A colour is seen, or the colours from one to another: it takes the place of a temperature that was
/// typed.
pub(super) fn see(state: &State, first: Stage, last: Stage) {
    let seen = [(Kept::Asked, "seen"), (Kept::Seen, first.id()), (Kept::SeenLast, last.id())];
    state.change(|session| {
        session.choices.extend(seen.map(|(key, id)| (key.to_string(), id.to_owned())));
        session.typed.remove(&Kept::WaitTyped.to_string());
    });
}

/// The steels that are offered: a part of the plan only where the plan has it.
pub(crate) fn steels(state: &State) -> Vec<&'static str> {
    let parts = state.job().map_or(0, |job| job.members.len());
    let two =
        state.job().is_some_and(|job| job.members.len() > 1 && job.members[0].steel != job.members[1].steel);
    STEELS
        .into_iter()
        .filter(|id| match *id {
            "plan-a" => parts > 0,
            "plan-b" => two,
            _ => true,
        })
        .collect()
}

/// The steel that is chosen: until one is, that part of the plan which governs it, or "not known".
pub(super) fn steel_id(state: &State) -> &'static str {
    let offered = steels(state);
    let same_plan = Kept::SteelOf.choice(state).is_none_or(|steels| steels == steels_of_plan(state));
    let kept = Kept::Steel.choice(state).filter(|_| same_plan);
    let fallback = match governing(state) {
        Some(1) if offered.contains(&"plan-b") => "plan-b",
        _ if offered.contains(&"plan-a") => "plan-a",
        _ => "unknown",
    };
    offered.into_iter().find(|id| Some(*id) == kept.as_deref()).unwrap_or(fallback)
}

/// What the steel that is looked at is known by.
pub(super) fn steel_key(state: &State) -> String {
    match steel_id(state) {
        "plan-a" => coupon::part_key(state, 0),
        "plan-b" => coupon::part_key(state, 1),
        other => coupon::in_this_job(state, other),
    }
}

/// The steels of the plan as typed.
pub(super) fn steels_of_plan(state: &State) -> String {
    state.session(|session| {
        let of = |nth: usize| session.job.get(Field::Steel.nth(nth)).unwrap_or_default();
        format!("{} + {}", of(0), of(1))
    })
}

/// The part that governs the plan's minimum.
pub(crate) fn governing(state: &State) -> Option<usize> {
    state.planned().and_then(|planned| planned.plan.minimum.as_ref()?.member)
}

/// The chromium of a part of the plan, percent.
pub(crate) fn chromium_of_part(state: &State, index: usize) -> Option<f64> {
    let job = state.job()?;
    Some(match &job.members.get(index)?.steel {
        Steel::Grade(grade) => grade.nominal().get(Element::Cr),
        Steel::Certificate { composition, .. } | Steel::Unmarked { composition, .. } => {
            composition.get(Element::Cr)
        }
    })
}

fn chromium_pct(state: &State) -> Option<f64> {
    match steel_id(state) {
        "plan-a" => chromium_of_part(state, 0),
        "plan-b" => chromium_of_part(state, 1),
        "low-alloy" => Some(0.0),
        "chromium" => Some(5.0),
        "stainless" => Some(18.0),
        _ => None,
    }
}

/// Everything that is set.
pub(crate) fn ask(state: &State) -> Ask {
    let flame = Kept::Mode.chosen(state, &MODES) == 0;
    let minutes = minutes(state, flame, steel_id(state).starts_with("plan-"));
    let start_c = state.job().map_or(20.0, |job| job.shop_c);
    let mode = mode_of(state, flame, minutes, start_c);
    let steel = Circumstances {
        chromium_pct: chromium_pct(state),
        spot: SpotState::ALL[Kept::Spot.chosen(state, <SpotState as strum::VariantNames>::VARIANTS)],
        shielded_from_air: Kept::Air.chosen(state, &AIRS) == 1,
        coupon: coupon::of(state, &steel_key(state)),
    };
    let before = Kept::Before.choice(state).and_then(|id| Stage::from_id(&id)).unwrap_or(Stage::Bright);
    Ask { mode, flame, minutes, steel, before, asked: asked(state) }
}

/// The minutes of a mode: as they are set, or else by the plan's heat cycle where it is that of the part
/// that is looked at.
pub(crate) fn minutes(state: &State, flame: bool, of_plan: bool) -> Minutes {
    let typed = minutes_of(flame).typed(state);
    let set = typed.as_ref().and_then(|text| text.parse::<f64>().ok());
    match (set.filter(|minutes| (0.1..=600.0).contains(minutes)), typed) {
        (Some(minutes), _) => Minutes::Set(minutes),
        (None, None) if flame && of_plan => of_cycle(state).map_or(Minutes::NotKnown, Minutes::OfPlan),
        (None, _) => Minutes::NotKnown,
    }
}

/// Minutes of the flame by the plan's heat cycle.
pub(super) fn of_cycle(state: &State) -> Option<Span> {
    (state.flame_min.get())(state).map(|(low, high)| Span { low, high })
}

/// A mode of looking.
pub(crate) fn mode_of(state: &State, flame: bool, minutes: Minutes, start_c: f64) -> Mode {
    if flame {
        let pace = Pace::Minutes(minutes.span().unwrap_or(FLAME_MIN));
        Mode::FlameOn(FlameOn { start_c, pace, film_before_nm: 0.0 })
    } else {
        let plausible = Afterwards::default();
        // The wait that the plan's thickest part asks for is plausible too.
        let usual = plausible.near_peak_min;
        let waited = usual.low + wait_min(state).unwrap_or(0.0);
        let unknown = Span { low: usual.low, high: usual.high.max(waited) };
        let near_peak_min = minutes.span().unwrap_or(unknown);
        Mode::Afterwards(Afterwards { start_c, near_peak_min, ..plausible })
    }
}

/// Minutes of evening out that the plan's thickest part asks for after a flame.
pub(crate) fn wait_min(state: &State) -> Option<f64> {
    let part = PartToMeasure {
        thickest_mm: state.job()?.thickest_mm(),
        heated_by: HeatedBy::Flame,
        far_face_reached: false,
    };
    measuring_place(part).ok()?.wait.value
}

/// What is asked; until the person asks, what the plan's minimum looks like.
pub(super) fn asked(state: &State) -> Option<Asked> {
    let wait = Kept::Wait.typed(state).and_then(|text| text.parse().ok());
    let seen = Kept::Seen.choice(state).and_then(|id| Stage::from_id(&id));
    match Kept::Asked.choice(state).as_deref() {
        Some("seen") => {
            let last = Kept::SeenLast.choice(state).and_then(|id| Stage::from_id(&id));
            seen.map(|first| Asked::Seen(first, last.unwrap_or(first)))
        }
        Some("wait") => wait.map(Asked::Wait),
        _ => plan_minimum_c(state).map(Asked::Wait),
    }
}

/// The limits of the plan; none while a field can't be read, since the last plan is an old one.
pub(crate) fn plan_limits(state: &State) -> ShownLimits {
    let planned = state.planned().filter(|_| state.problems().is_empty());
    tint_limits(&state.pen(), planned.as_ref().map(|planned| &planned.plan))
}

/// The plan's minimum as shown, where it has a window.
pub(super) fn plan_minimum_c(state: &State) -> Option<f64> {
    plan_limits(state).held.minimum_c
}
