//! The heat cycle of a plan in words: a line or two for each step that it speaks of.

use super::figure::range;
use super::{Pen, StepRow};
use crate::engine::EngineError;
use crate::engine::heat_cycle::{Fineness, Flamed, Flames, HeatedBy, NoCycle};
use crate::engine::job::Job;
use crate::engine::plan::{Deed, Note, Plan};
use crate::words::List;

/// What is cold, °C.
const COLD_C: f64 = 50.0;
/// No wait is shorter than this on a shop's clock, min.
const CLOCK_MIN: f64 = 0.5;

/// One line of the heat cycle beside a step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CycleLine {
    /// What it says.
    pub text: String,
    /// Does it say that a limit is not kept?
    pub stops: bool,
}

/// What a plan knows of its heat cycle.
#[derive(Debug, Clone, Copy)]
pub enum CycleTold<'a> {
    /// Why there is none.
    None(&'a NoCycle),
    /// It is being worked out.
    Working,
    /// It is worked out.
    Known(&'a Flames, &'a Flamed),
}

/// The message of what heats: that of a torch, or its own of mats and of a furnace.
#[must_use]
pub fn by_heat(flames: &Flames, key: &str) -> String {
    match flames.heat {
        HeatedBy::Torch { .. } => key.to_owned(),
        HeatedBy::Mats { .. } | HeatedBy::Furnace { .. } => format!("{key}.{}", flames.heat.id()),
    }
}

/// Minutes, up or down to what a clock shows.
fn on_clock(minutes: f64, up: bool) -> f64 {
    let step = if minutes < 10.0 { CLOCK_MIN } else { 1.0 };
    let parts = minutes / step;
    // A hair above a figure is that figure.
    let whole = if up { (parts - 1e-6).ceil() } else { (parts + 1e-6).floor() };
    whole * step
}

/// The same in words.
fn clock(pen: &Pen<'_>, minutes: f64, up: bool) -> String {
    pen.show.with_unit(on_clock(minutes, up), 1, &pen.words.get("unit-minutes"))
}

/// A span of minutes, outwards to what a clock shows: so it stands wherever it is told.
#[must_use]
pub fn clock_span((low, high): (f64, f64)) -> (f64, f64) {
    (on_clock(low, false).max(low.min(CLOCK_MIN)), on_clock(high, true))
}

/// A wait, up to what a clock shows.
#[must_use]
pub fn longest_minutes(pen: &Pen<'_>, minutes: f64) -> String {
    clock(pen, minutes, true)
}

/// Minutes that are left, down to what a clock shows.
#[must_use]
pub fn shortest_minutes(pen: &Pen<'_>, minutes: f64) -> String {
    clock(pen, minutes, false)
}

/// A span of minutes, outwards to what a clock shows.
#[must_use]
pub fn minutes_between(pen: &Pen<'_>, low: f64, high: f64) -> String {
    range(pen, &clock(pen, low, false), &clock(pen, high, true))
}

/// The minutes of flame: what is sure of them, and whether the weakest flame gets there.
#[must_use]
pub fn flame_minutes(pen: &Pen<'_>, found: &Flamed) -> (String, bool) {
    let likely = found.cycle.preheat.heated.minutes;
    let strong = found.strong.heated.minutes;
    match found.weak {
        Some(_) if found.known => (clock(pen, likely, true), true),
        Some(weak) => (minutes_between(pen, strong, weak.heated.minutes), true),
        None => (clock(pen, strong, false), false),
    }
}

/// The minutes that are left to weld in, down to what a clock shows; none where there may be none.
#[must_use]
pub fn minutes_left(pen: &Pen<'_>, found: &Flamed) -> Option<String> {
    let [least, likely, most] = found.left_min();
    if least < CLOCK_MIN {
        return None;
    }
    let (low, high) = if found.known { (likely, likely) } else { (least, most) };
    Some(range(pen, &clock(pen, low, false), &clock(pen, high, false)))
}

/// Hydrogen left when it is cold, of what each run brings, after so many hours of post-heat.
#[must_use]
pub fn hydrogen_left(pen: &Pen<'_>, flames: &Flames, found: &Flamed, hours: f64) -> Option<String> {
    let [low, _, high] = found.hydrogen_ml(flames, hours, COLD_C)?;
    let step = 0.01;
    let shown = |ml: f64| pen.show.with_unit(ml, 2, "ml/100\u{a0}g");
    let (low, high) = ((low / step).floor() * step, ((high / step).ceil() * step).max(step));
    // What is left is never none.
    if low < step / 2.0 {
        return Some(pen.words.with("then-figure-most", &[("figure", &shown(high))]));
    }
    Some(range(pen, &shown(low), &shown(high)))
}

/// Why there is no cycle; nothing where a plan needs none.
#[must_use]
pub fn no_cycle_words(pen: &Pen<'_>, why: &NoCycle) -> Option<String> {
    let get = |key: &str| Some(pen.words.get(key));
    match why {
        NoCycle::NothingToHeat => None,
        NoCycle::NoPlan => get("cycle-no-plan"),
        NoCycle::NoSource => get("cycle-no-source"),
        NoCycle::Unread => get("cycle-unread"),
        NoCycle::Lost => get("cycle-lost"),
        NoCycle::Open(keys) if keys == &["fuel-flow"] => get("cycle-ask-torch"),
        NoCycle::Open(keys) => {
            let names: Vec<String> = keys.iter().map(|key| pen.words.get(&format!("input-{key}"))).collect();
            let names = pen.words.list(List::Comma, &names);
            Some(pen.words.with("cycle-open", &[("fields", &names)]))
        }
        NoCycle::Refused(refusal) => get(&EngineError::from(*refusal).key()),
        NoCycle::NoAnswer(error @ EngineError::NoAnswer { .. }) => get(&error.key()),
        NoCycle::NoAnswer(_) => get("cycle-unread"),
    }
}

/// Are these figures of the coarse grid, which the fine one will put right to either side?
#[must_use]
pub fn is_preliminary(flames: &Flames) -> bool {
    flames.cycle.fineness == Fineness::Live
}

/// Puts the lines of a cycle beside their steps.
pub fn put_cycle(pen: &Pen<'_>, job: &Job, plan: &Plan, told: CycleTold<'_>, rows: &mut [StepRow]) {
    for (row, (_, _, step)) in rows.iter_mut().zip(plan.sequence.numbered()) {
        let deed = step.deed;
        // One wait stands in a step: of the rule's and the joint's own the longer one.
        let rule = step.notes.iter().enumerate().find_map(|(at, note)| match note {
            Note::FarFace { wait_min } => Some((at, *wait_min)),
            _ => None,
        });
        let own_min = if let CycleTold::Known(_, found) = told { found.wait_min() } else { 0.0 };
        let longer = rule.is_some_and(|(_, rule_min)| rule_min > own_min);
        if let Some((at, _)) = rule.filter(|_| own_min > 0.0 && !longer) {
            row.notes[at] = pen.words.get("then-note-far-face-after-wait");
        }
        row.cycle = match told {
            CycleTold::Known(..) if longer => Vec::new(),
            CycleTold::Known(flames, found) => step_lines(pen, (job, plan), flames, found, deed),
            CycleTold::Working if deed == Deed::Preheat => vec![says(pen.words.get("cycle-working"))],
            CycleTold::None(why) if deed == Deed::Preheat => {
                let stops = matches!(why, NoCycle::Refused(_) | NoCycle::NoAnswer(_) | NoCycle::Lost);
                no_cycle_words(pen, why).map(|text| CycleLine { text, stops }).into_iter().collect()
            }
            CycleTold::Working | CycleTold::None(_) => Vec::new(),
        };
    }
}

fn says(text: String) -> CycleLine {
    CycleLine { text, stops: false }
}

fn stops(text: String) -> CycleLine {
    CycleLine { text, stops: true }
}

fn step_lines(
    pen: &Pen<'_>,
    (job, plan): (&Job, &Plan),
    flames: &Flames,
    found: &Flamed,
    deed: Deed,
) -> Vec<CycleLine> {
    match deed {
        Deed::Preheat => heating(pen, flames, found),
        Deed::Measure => {
            let minutes = longest_minutes(pen, found.wait_min());
            let longer = found.interpass_wait_min() + 1e-9 >= found.wait_min();
            let key = if longer { "cycle-wait-maximum" } else { "cycle-wait" };
            vec![says(pen.words.with(&by_heat(flames, key), &[("minutes", &minutes)]))]
        }
        Deed::Tack => {
            let goal_c = flames.cycle.minimum_c + flames.cycle.reserve_k;
            let low_c = plan.side.as_ref().and_then(|side| side.tack).map(|(low_c, _)| low_c);
            low_c
                .filter(|low_c| *low_c > goal_c)
                .map(|_| says(pen.words.get("cycle-heat-on")))
                .into_iter()
                .collect()
        }
        Deed::Weld => welding(pen, flames, found),
        Deed::PostHeat | Deed::PostHeatIfHot | Deed::LongerWait if !job.weld.austenitic => {
            let held = hydrogen_line(pen, flames, found, flames.hold_h);
            held.into_iter().chain(hydrogen_line(pen, flames, found, 0.0)).map(says).collect()
        }
        Deed::CoolStill => {
            let cold = found.held(flames.cycle.post_heat.hours).and_then(|cooled| cooled.mark(COLD_C));
            let time = cold.map(|mark| pen.show.duration(mark.minutes * 60.0));
            let cooling = time.map(|time| pen.words.with("cycle-cooling", &[("time", &time)]));
            let none = flames.cycle.post_heat.hours <= 0.0 && !job.weld.austenitic;
            let left = none.then(|| hydrogen_line(pen, flames, found, 0.0)).flatten();
            cooling.into_iter().chain(left).map(says).collect()
        }
        _ => Vec::new(),
    }
}

fn heating(pen: &Pen<'_>, flames: &Flames, found: &Flamed) -> Vec<CycleLine> {
    let (minutes, sure) = flame_minutes(pen, found);
    let goal_c = flames.cycle.minimum_c + flames.cycle.reserve_k;
    let goal = pen.show.minimum(goal_c, None).main;
    let values = [("minutes", minutes.as_str()), ("goal", goal.as_str())];
    let to_come = is_preliminary(flames).then(|| says(pen.words.get("cycle-working-finer")));
    let mut lines: Vec<CycleLine> = to_come.into_iter().collect();
    lines.push(if sure {
        says(pen.words.with(&by_heat(flames, "cycle-flame"), &values))
    } else {
        stops(pen.words.with("cycle-flame-not-sure", &values))
    });
    let much = flames.draws_much(&pen.reference.fuels);
    lines.extend(much.then(|| stops(pen.words.get("note-heat-acetylene-draw"))));
    let usual = flames.notes.contains(&"heat-usual-sizes");
    lines.extend(usual.then(|| says(pen.words.get("cycle-size-assumed"))));
    if let Some(from) = found.strong.heated.throttled_min.or(found.cycle.preheat.heated.throttled_min) {
        let minutes = clock(pen, from, false);
        lines.push(says(pen.words.with("cycle-flame-back", &[("minutes", &minutes)])));
    }
    lines
}

fn welding(pen: &Pen<'_>, flames: &Flames, found: &Flamed) -> Vec<CycleLine> {
    let passes = &found.cycle.passes;
    let mut lines = vec![match minutes_left(pen, found) {
        Some(minutes) => says(pen.words.with("cycle-left", &[("minutes", &minutes)])),
        None => stops(pen.words.get("cycle-left-none")),
    }];
    lines.extend(found.losses.map(|_| says(pen.words.get("cycle-by-readings"))));
    let waits = passes.iter().skip(1).map(|pass| pass.interpass_min).fold(0.0, f64::max);
    if waits > 0.0 {
        let minutes = longest_minutes(pen, waits + flames.cycle.pause_s / 60.0);
        lines.push(says(pen.words.with("cycle-next-run", &[("minutes", &minutes)])));
    }
    let again: Vec<usize> = (0..passes.len()).filter(|&run| passes[run].reheat.is_some()).collect();
    let minutes = |run: &usize| passes[*run].reheat.map_or(0.0, |heated| heated.minutes);
    if !again.is_empty() {
        let longest = longest_minutes(pen, again.iter().map(minutes).fold(0.0, f64::max));
        let values = [("runs", &*runs(pen, &again)), ("minutes", &*longest)];
        lines.push(says(pen.words.count("cycle-again", again.len(), &values)));
    }
    let minimum_c = flames.cycle.minimum_c;
    let below: Vec<usize> =
        (0..passes.len()).filter(|&run| passes[run].coldest_end_c < minimum_c - 0.5).collect();
    if !below.is_empty() {
        let lowest_c = below.iter().map(|&run| passes[run].coldest_end_c).fold(f64::INFINITY, f64::min);
        let low = pen.show.temperature(lowest_c.floor()).main;
        let values = [("runs", &*runs(pen, &below)), ("low", &*low)];
        lines.push(stops(pen.words.count("cycle-below", below.len(), &values)));
    }
    lines
}

/// The numbers of runs, from 1; neighbours as a span.
fn runs(pen: &Pen<'_>, places: &[usize]) -> String {
    let mut spans: Vec<(usize, usize)> = Vec::new();
    for &place in places {
        match spans.last_mut() {
            Some(last) if last.1 + 1 == place => last.1 = place,
            _ => spans.push((place, place)),
        }
    }
    let shown = |(first, last): (usize, usize)| {
        let figure = |place: usize| pen.show.number((place + 1) as f64, 0);
        if first == last { figure(first) } else { format!("{}–{}", figure(first), figure(last)) }
    };
    pen.words.list(List::And, &spans.into_iter().map(shown).collect::<Vec<_>>())
}

pub(super) fn hydrogen_line(pen: &Pen<'_>, flames: &Flames, found: &Flamed, hours: f64) -> Option<String> {
    let left = hydrogen_left(pen, flames, found, hours)?;
    let put_in = pen.show.hydrogen(flames.cycle.hydrogen_ml());
    if hours <= 0.0 {
        return Some(pen.words.with("cycle-hydrogen-none", &[("left", &left), ("put", &put_in)]));
    }
    let time = pen.show.with_unit(hours, 1, "h");
    let temperature = pen.show.minimum(flames.cycle.post_heat.at_c, None).main;
    let values = [("time", &*time), ("temperature", &*temperature), ("left", &*left), ("put", &*put_in)];
    Some(pen.words.with("cycle-hydrogen-held", &values))
}
