//! Readings, clocks and pieces of a log in words: window, command line and job card read them here.

use super::cycle::{longest_minutes, shortest_minutes};
use super::{Pen, stage_name, step_what};
use crate::engine::plan::tack_from_c;
use crate::engine::reading::{Band, Judged, Look, Seen, Verdict, When};
use crate::engine::tint::{Held, Stage};
use crate::log::{Clock, ClockWhy, Face, MemberCopy, Moment, PieceStatus, PieceView, PlanCopy, ReadingView};
use crate::units::TemperatureUnit;
use crate::words::List;

/// A reading in words.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ReadingLine {
    /// The day, `2026-03-17`.
    pub day: String,
    /// The time of day.
    pub time: String,
    /// Where: part, face, distance.
    pub place: String,
    /// When in the work.
    pub when: String,
    /// The instrument.
    pub instrument: String,
    /// What it showed, in the reader's unit.
    pub shown: String,
    /// The temperatures that the steel can have had.
    pub steel: String,
    /// The verdict; none where no limit counts.
    pub verdict: Option<Verdict>,
    /// In words.
    pub verdict_word: String,
    /// How it stands to each limit that is not kept, in sentences.
    pub reasons: Vec<String>,
    /// What was written to it.
    pub note: String,
}

/// A reading in words.
#[must_use]
pub fn reading_line(pen: &Pen<'_>, plan: &PlanCopy, reading: &ReadingView<'_>) -> ReadingLine {
    let taken = reading.thing.now;
    let (day, time) = taken.at.day_and_time();
    let member = taken.member.and_then(|nth| plan.members.get(usize::try_from(nth).ok()?));
    ReadingLine {
        day,
        time,
        place: place_words(pen, member, taken.face, taken.away_mm),
        when: when_words(pen, taken.when),
        instrument: instrument_words(pen, &taken.seen),
        shown: seen_words(pen, &taken.seen),
        steel: band_words(pen, &taken.band),
        verdict: reading.judged.verdict,
        verdict_word: verdict_words(pen, reading.judged.verdict),
        reasons: reading_reasons(pen, plan, &reading.judged, taken.when, &taken.band),
        note: taken.note.clone(),
    }
}

/// A verdict in words.
#[must_use]
pub fn verdict_words(pen: &Pen<'_>, verdict: Option<Verdict>) -> String {
    verdict.map_or_else(
        || pen.words.get("log-not-judged"),
        |verdict| pen.words.get(&format!("log-verdict-{}", verdict.id())),
    )
}

/// Where it was measured, in words.
#[must_use]
pub fn place_words(pen: &Pen<'_>, member: Option<&MemberCopy>, face: Face, away_mm: Option<f64>) -> String {
    let face = (face != Face::NotTold).then(|| pen.words.get(&format!("log-face-{}", face.id())));
    let away = away_mm.map(|mm| pen.words.with("log-away", &[("distance", &pen.show.rule_length(mm).main)]));
    let parts: Vec<String> =
        member.map(|member| member.name.clone()).into_iter().chain(face).chain(away).collect();
    pen.words.list(List::Comma, &parts)
}

/// When in the work, in words.
#[must_use]
pub fn when_words(pen: &Pen<'_>, when: When) -> String {
    let key = format!("log-when-{}", when.id());
    match when {
        When::BeforeRun(number) => pen.words.with(&key, &[("number", &number.to_string())]),
        _ => pen.words.get(&key),
    }
}

/// The instrument in words.
#[must_use]
pub fn instrument_words(pen: &Pen<'_>, seen: &Seen) -> String {
    let key = format!("log-with-{}", seen.instrument());
    match seen {
        Seen::Gun(gun) => {
            let surface = pen.words.get(&format!("surface-{}", gun.surface));
            let set = pen.show.number(gun.emissivity, 2);
            pen.words.with(&key, &[("setting", &set), ("surface", &surface)])
        }
        Seen::Colour { look, .. } => {
            let look = match look {
                Look::FlameOn => "flame-on",
                Look::Afterwards => "afterwards",
            };
            pen.words.get(&format!("{key}.{look}"))
        }
        Seen::Touched { .. } | Seen::Crayons { .. } => pen.words.get(&key),
    }
}

/// What the instrument showed, in words.
#[must_use]
pub fn seen_words(pen: &Pen<'_>, seen: &Seen) -> String {
    let at = |at_c: f64| pen.show.temperature(at_c).main;
    match seen {
        Seen::Gun(gun) => at(gun.shows_c),
        Seen::Touched { shows_c, .. } => at(*shows_c),
        Seen::Crayons { melted_c, stayed_c } => {
            let melted = melted_c.map(|at_c| pen.words.with("log-melted", &[("figure", &at(at_c))]));
            let stayed = stayed_c.map(|at_c| pen.words.with("log-stayed", &[("figure", &at(at_c))]));
            pen.words.list(List::Comma, &melted.into_iter().chain(stayed).collect::<Vec<_>>())
        }
        Seen::Colour { from, to, .. } => {
            let name = |id: &str| Stage::from_id(id).map(|stage| stage_name(pen, stage)).unwrap_or_default();
            if from == to {
                return name(from);
            }
            pen.words.with("log-colours", &[("from", &name(from)), ("to", &name(to))])
        }
    }
}

/// The temperatures that the steel can have, outwards to whole degrees.
#[must_use]
pub fn band_words(pen: &Pen<'_>, band: &Band) -> String {
    let unit: TemperatureUnit = pen.show.units.temperature;
    // A unit conversion leaves dust, which must not cost a degree.
    let low = band.low_c.map(|at_c| (unit.from_c(at_c) + 1e-6).floor());
    let high = band.high_c.map(|at_c| (unit.from_c(at_c) - 1e-6).ceil());
    let shown = |at: f64| pen.show.with_unit(at, 0, unit.symbol());
    match (low, high) {
        (Some(low), Some(high)) => super::range(pen, &shown(low), &shown(high)),
        (Some(low), None) => pen.words.with("then-figure-least", &[("figure", &shown(low))]),
        (None, Some(high)) => pen.words.with("then-figure-most", &[("figure", &shown(high))]),
        (None, None) => pen.words.get("log-band-open"),
    }
}

/// How a reading stands to each limit that it does not surely keep, and to what the plan asks of a tack.
#[must_use]
pub fn reading_reasons(
    pen: &Pen<'_>,
    plan: &PlanCopy,
    judged: &Judged,
    when: When,
    band: &Band,
) -> Vec<String> {
    let each = [
        (judged.minimum, &plan.minimum, "log-minimum"),
        (judged.maximum, &plan.maximum, "log-maximum"),
        (judged.ceiling, &plan.ceiling, "log-ceiling"),
    ];
    let line = |(held, limit, key): (Option<Held>, &Option<crate::log::LimitCopy>, &str)| {
        let how = match held? {
            Held::Kept => return None,
            Held::Missed => "missed",
            Held::Unsure => "unsure",
        };
        let figure = pen.show.temperature(limit.as_ref()?.at_c).main;
        Some(pen.words.with(&format!("{key}.{how}"), &[("figure", &figure)]))
    };
    let hotter = (when == When::BeforeTack).then(|| tack_hotter(pen, plan, band)).flatten();
    each.into_iter().filter_map(line).chain(hotter).collect()
}

/// What the plan asks of a tack, where a reading keeps the minimum and not that.
fn tack_hotter(pen: &Pen<'_>, plan: &PlanCopy, band: &Band) -> Option<String> {
    let (minimum, maximum) = (plan.minimum.as_ref()?, plan.maximum.as_ref()?);
    let step = plan.steps.iter().find(|step| step.phase == "tack" && !step.figure.is_empty())?;
    let least_c = band.least_c()?;
    (minimum.at_c <= least_c && least_c < tack_from_c(minimum.exact_c, maximum.exact_c))
        .then(|| pen.words.with("log-tack-hotter", &[("figure", &step.figure)]))
}

/// A clock in words.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ClockLine {
    /// The minutes left; empty where nothing says.
    pub left: String,
    /// What to do, or what is left, in one sentence; empty where there is nothing to say.
    pub says: String,
    /// The wait for the next run, in one sentence; empty where there is none.
    pub wait: String,
    /// What it rests on, or why it shows nothing.
    pub why: String,
}

/// Who comes back after a day needs no count of the hours, min.
const A_DAY_MIN: f64 = 24.0 * 60.0;

/// A clock in words: minutes left downwards, a wait upwards.
#[must_use]
pub fn clock_line(pen: &Pen<'_>, clock: &Clock) -> ClockLine {
    let mut why = pen.words.get(&format!("log-clock-{}", clock.why.id()));
    if clock.why == ClockWhy::NoCycle {
        why = pen.words.list(List::Sentences, &[why, pen.words.get("log-clock-two-how")]);
    }
    let left_min = clock.left_min.filter(|_| !clock.too_hot);
    let left = left_min.map(|minutes| shortest_minutes(pen, minutes)).unwrap_or_default();
    // Neither to heat nor to wait is told of what may be too cold and too hot, or too cold and warm.
    if clock.must_be_measured() {
        let says = pen.words.get(if clock.may_be_hot { "log-measure" } else { "log-measure.cold" });
        return ClockLine { left, says, wait: String::new(), why };
    }
    let wait = clock.wait_min.filter(|minutes| *minutes > 0.0);
    let wait = wait.map(|minutes| longest_minutes(pen, minutes));
    let wait = wait.map(|minutes| pen.words.with("log-wait", &[("minutes", &minutes)])).unwrap_or_default();
    // A wait that is over by the model alone is no reading that shows it.
    let unknown = clock.may_be_hot && clock.wait_min.is_none() || clock.too_hot && wait.is_empty();
    let wait = if unknown { pen.words.get("log-wait-unknown") } else { wait };
    let says = match (left_min, clock.overdue_min) {
        (Some(left_min), _) if left_min > 0.0 => pen.words.with("log-left", &[("minutes", &left)]),
        (Some(_), Some(over)) if clock.why != ClockWhy::SetBack && (1.0..A_DAY_MIN).contains(&over) => {
            pen.words.with("log-left.overdue", &[("time", &long_time(pen, over))])
        }
        (Some(_), _) => pen.words.get("log-left.none"),
        (None, _) => String::new(),
    };
    ClockLine { left, says, wait, why }
}

/// Minutes, or hours where they are many.
fn long_time(pen: &Pen<'_>, minutes: f64) -> String {
    if minutes >= 120.0 {
        pen.show.with_unit((minutes / 60.0).floor(), 0, "h")
    } else {
        pen.show.with_unit(minutes.floor(), 0, &pen.words.get("unit-minutes"))
    }
}

/// How a piece stands, in a word or two.
#[must_use]
pub fn piece_words(pen: &Pen<'_>, status: PieceStatus) -> String {
    pen.words.get(&format!("log-piece-{}", status.id()))
}

/// A piece as a list has it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct PieceLine {
    /// Its number.
    pub number: u32,
    /// How it stands.
    pub status: String,
    /// The minutes, in one sentence; empty where there is nothing to say.
    pub clock: String,
    /// The next step of the plan; empty where none is left.
    pub next: String,
    /// What must be looked at: a passed ceiling, a conflict.
    pub alarms: Vec<String>,
}

/// A piece in words.
#[must_use]
pub fn piece_line(pen: &Pen<'_>, plan: &PlanCopy, piece: &PieceView<'_>) -> PieceLine {
    let clock = clock_line(pen, &piece.clock);
    let ceiling = piece.ceiling_passed.then(|| pen.words.get("log-ceiling-passed"));
    let others = piece.thing.in_conflict()
        || piece.readings.iter().any(|reading| reading.thing.in_conflict())
        || piece.steps.iter().any(crate::log::Thing::in_conflict);
    let next = piece.next_step(plan).map(|step| {
        let number = step.number.to_string();
        let what = step_what(pen.words, plan, step);
        pen.words.with("log-next-step", &[("number", &number), ("what", &what)])
    });
    let done = piece.thing.now.finished;
    let same = piece.same_number.then(|| pen.words.get("log-same-number"));
    // A wait whose end nobody knows does not hide the minutes.
    let both = piece.clock.wait_min.is_none() && !clock.wait.is_empty() && !clock.says.is_empty();
    let said = match clock {
        ClockLine { says, wait, .. } if both => pen.words.list(List::Sentences, &[says, wait]),
        ClockLine { says, wait, .. } if wait.is_empty() => says,
        ClockLine { wait, .. } => wait,
    };
    PieceLine {
        number: piece.thing.now.number,
        status: piece_words(pen, piece.status),
        clock: said,
        next: next.filter(|_| !done).unwrap_or_default(),
        alarms: ceiling
            .into_iter()
            .chain(same)
            .chain(others.then(|| pen.words.get("log-in-conflict")))
            .collect(),
    }
}

/// A day and a time as they are written: in the list of a log, on its card.
#[must_use]
pub fn day_and_time(pen: &Pen<'_>, at: Moment) -> String {
    let (day, time) = at.day_and_time();
    pen.words.with("log-day-time", &[("day", &day), ("time", &time)])
}
