//! The Tint place as rows: pure mappers from what is asked to what is drawn.

use slint::{Image, Rgb8Pixel, SharedPixelBuffer, SharedString};

use super::ask::{Ask, Asked, Minutes, minutes_of, of_cycle, place, plan_limits, steel_id};
use super::waited;
use crate::app::form::question_plan::cycle_to_come;
use crate::app::rows::model;
use crate::app::screen_values::{choice, figure, float, ticks, with_unit};
use crate::app::{State, ui};
use crate::engine::Outcome;
use crate::engine::tint::colour::film_swatch;
use crate::engine::tint::{
    Heating, PeakFromTint, Span, Stage, TintError, colour_on_colour, peak_on_colour, proof_of, strip,
};
use crate::report::{
    BasisSheet, Pen, Sign, TintLine, WaitHeld, colour_line, minutes, outcome_sheet, peak_figures, peak_line,
    range, refusal_line, stage_head,
};

/// Columns of a strip: more than any screen of ours shows apart.
const COLUMNS: u16 = 600;
/// Nothing colder is ever of interest on a strip, °C.
const COLDEST_C: f64 = 100.0;

/// An answer with what the strip marks and what the basis sheet shows.
pub(crate) struct Answer {
    /// In words.
    pub(crate) line: TintLine,
    /// The frame on the strip, °C.
    frame_c: Option<(f64, f64)>,
    /// The pointer on the strip, °C, and its words.
    pointer: Option<(f64, String)>,
    /// The colour that the words name, which the strip marks.
    named: Option<Stage>,
    /// What it is of, in short.
    short: String,
    /// It answers what was typed before: the strip marks nothing of it.
    stale: bool,
    /// The minutes of the plan's heat cycle are still to come, and change it.
    preliminary: bool,
    outcome: Option<Outcome>,
}

/// The peak that left a colour, with what was there before.
pub(super) fn peak(ask: &Ask, first: Stage, last: Stage) -> Result<PeakFromTint, TintError> {
    peak_on_colour(&ask.mode, ask.before, (first, last), &ask.steel)
}

/// The heating in the middle of the plausible ones, which the strip is drawn for.
fn middle(ask: &Ask) -> Result<Heating, TintError> {
    let mut heatings = ask.mode.on_film(ask.before.typical_nm()).heatings(&ask.steel)?;
    let at = heatings.len() / 2;
    Ok(heatings.swap_remove(at))
}

/// The answer to what is asked; marked as an old one while what is typed can't be read.
pub(crate) fn answer(state: &State, ask: &Ask) -> Answer {
    let found = current(state, ask);
    let set = matches!(ask.minutes, Minutes::Set(_)) || minutes_of(true).typed(state).is_some();
    let by_plan = ask.flame && !set;
    let to_come = found.outcome.is_some() && by_plan && steel_id(state).starts_with("plan-");
    let found = Answer { preliminary: to_come && cycle_to_come(state), ..found };
    if !waited::is_unread(state) || ask.steel.check().is_err() {
        return found;
    }
    if found.outcome.is_none() {
        return Answer::of(nothing_asked(&state.pen()));
    }
    Answer { frame_c: None, pointer: None, named: None, stale: true, ..found }
}

/// Nothing is asked yet.
fn nothing_asked(pen: &Pen<'_>) -> TintLine {
    TintLine { title: pen.words.get("tint-empty"), ..TintLine::default() }
}

fn current(state: &State, ask: &Ask) -> Answer {
    let pen = state.pen();
    let refused = |error: &TintError| Answer::of(refusal_line(&pen, error));
    // Where a colour says nothing of this steel, no question about one has an answer.
    if let Err(error) = ask.steel.check() {
        return refused(&error);
    }
    match ask.asked {
        None => Answer::of(nothing_asked(&pen)),
        Some(Asked::Seen(first, last)) => match peak(ask, first, last) {
            Ok(peak) => {
                let from_c = peak.band_c.0.unwrap_or(f64::MIN);
                let film_nm = f64::midpoint(first.typical_nm(), last.typical_nm());
                let marked = middle(ask).ok().and_then(|heating| heating.peak_c(film_nm));
                Answer {
                    line: peak_line(&pen, &ask.mode, (first, last), &peak, &plan_limits(state)),
                    frame_c: Some((from_c, peak.band_c.1)),
                    pointer: marked.map(|at_c| (at_c, stage_head(&pen, Stage::of(film_nm)))),
                    named: Some(first).filter(|first| *first == last),
                    short: stages_head(&pen, first, last),
                    stale: false,
                    preliminary: false,
                    outcome: Some(peak.outcome),
                }
            }
            Err(error) => refused(&error),
        },
        Some(Asked::Wait(peak_c)) => match colour_on_colour(&ask.mode, ask.before, peak_c, &ask.steel) {
            Ok(colour) => {
                let at = |film_nm: f64| middle(ask).ok().and_then(|heating| heating.peak_c(film_nm));
                let (from_c, to_c) = (at(colour.band_nm.low), at(colour.band_nm.high));
                let proof = proof_of(&ask.mode, ask.before, peak_c, &ask.steel);
                let shown_by = proof.reached_from.and_then(|stage| peak(ask, stage, stage).ok());
                let held = WaitHeld { limits: &plan_limits(state), shown_by: shown_by.as_ref() };
                Answer {
                    line: colour_line(&pen, &ask.mode, &colour, &proof, &held),
                    named: proof.reached_from,
                    frame_c: Some((from_c.unwrap_or(f64::MIN), to_c.unwrap_or(f64::MAX))),
                    short: pen
                        .words
                        .with("tint-short-wait", &[("figure", &pen.show.temperature(peak_c).main)]),
                    pointer: Some((peak_c, pen.show.temperature(peak_c).main)),
                    stale: false,
                    preliminary: false,
                    outcome: Some(colour.outcome),
                }
            }
            Err(error) => {
                Answer { pointer: Some((peak_c, pen.show.temperature(peak_c).main)), ..refused(&error) }
            }
        },
    }
}

impl Answer {
    /// Words in place of a figure.
    fn of(line: TintLine) -> Self {
        let short = String::new();
        Self {
            line,
            frame_c: None,
            pointer: None,
            named: None,
            short,
            stale: false,
            preliminary: false,
            outcome: None,
        }
    }

    /// Everything about the answer.
    pub(crate) fn sheet(&self, pen: &Pen<'_>) -> Option<BasisSheet> {
        self.outcome.as_ref().map(|outcome| outcome_sheet(pen, outcome, &self.line))
    }
}

/// Which way a reading lies, as its mark.
pub(crate) const fn sign(sign: Sign) -> ui::TintSign {
    match sign {
        Sign::None => ui::TintSign::None,
        Sign::Inside => ui::TintSign::Inside,
        Sign::Under => ui::TintSign::Under,
        Sign::Over => ui::TintSign::Over,
        Sign::Unsure => ui::TintSign::Unsure,
    }
}

/// The word of a sign in short.
fn sign_word(state: &State, sign: Sign) -> SharedString {
    match sign {
        Sign::None => SharedString::default(),
        Sign::Inside => state.word("tint-sign-inside"),
        Sign::Under => state.word("tint-sign-under"),
        Sign::Over => state.word("tint-sign-over"),
        Sign::Unsure => state.word("tint-sign-unsure"),
    }
}

/// The answer band; what an instrument's reading says of the steel stands first in it.
pub(crate) fn answer_view(state: &State, answer: &Answer, first: Vec<ui::ParagraphRow>) -> ui::ReplyView {
    let line = &answer.line;
    let to_come = answer.preliminary.then(|| state.word("bench-preliminary"));
    let lines = line.lines.iter().map(SharedString::from).chain(to_come);
    let view = ui::ReplyView {
        first: model(first),
        figured: line.title.is_empty(),
        figure: figure(&line.figure),
        wordy: line.wordy,
        title: line.title.as_str().into(),
        lines: model(lines.collect()),
        short: answer.short.as_str().into(),
        warnings: model(Vec::new()),
        ..ui::ReplyView::default()
    };
    if answer.stale {
        return ui::ReplyView { stale: true, stale_note: state.word("plan-stale"), ..view };
    }
    ui::ReplyView {
        // The name of a colour in the largest type reads as a word to go.
        muted: line.wordy && answer.named.is_some() && matches!(line.sign, Sign::Over | Sign::Unsure),
        sign: sign(line.sign),
        sign_word: sign_word(state, line.sign),
        sentence: line.sentence.as_str().into(),
        note: line.note.as_str().into(),
        defers: if line.sentence.is_empty() { "".into() } else { state.word("tint-defers") },
        ..view
    }
}

/// One colour by itself, or from one to another.
fn stages_head(pen: &Pen<'_>, first: Stage, last: Stage) -> String {
    let head = stage_head(pen, first);
    if first == last {
        return head;
    }
    let last = pen.words.get(&format!("tint-stage-{}.short", last.id()));
    pen.words.with("tint-between", &[("first", &head), ("last", &last)])
}

/// A colour of the film for the screen.
pub(crate) fn tint(srgb: [u8; 3]) -> slint::Color {
    slint::Color::from_rgb_u8(srgb[0], srgb[1], srgb[2])
}

/// The tiles of all colours, each with the band that it means.
pub(super) fn swatches(state: &State, ask: &Ask) -> Vec<ui::SwatchRow> {
    let pen = state.pen();
    Stage::ALL
        .iter()
        .copied()
        .map(|stage| {
            let swatch = film_swatch(stage.typical_nm());
            let figure = peak(ask, stage, stage)
                .map_or_else(|_| pen.words.get("tint-cannot-judge"), |peak| peak_figures(&pen, &peak).main);
            let lightness = pen.show.number(swatch.lab.l, 0);
            ui::SwatchRow {
                name: stage_head(&pen, stage).into(),
                figure: figure.into(),
                lightness: pen.words.with("tint-lightness", &[("figure", &lightness)]).into(),
                tint: tint(swatch.srgb),
            }
        })
        .collect()
}

/// A strip as a picture one pixel high.
pub(crate) fn picture(heating: &Heating, from_c: f64, to_c: f64) -> Image {
    let mut buffer = SharedPixelBuffer::<Rgb8Pixel>::new(u32::from(COLUMNS), 1);
    for (pixel, column) in buffer.make_mut_slice().iter_mut().zip(strip(heating, from_c, to_c, COLUMNS)) {
        *pixel = Rgb8Pixel { r: column.srgb[0], g: column.srgb[1], b: column.srgb[2] };
    }
    Image::from_rgb8(buffer)
}

/// The strip for this steel and this heating; `None` where a colour says nothing.
pub(super) fn strip_view(state: &State, ask: &Ask, answer: &Answer) -> Option<ui::TintStripView> {
    ask.steel.check().ok()?;
    let pen = state.pen();
    let heating = middle(ask).ok()?;
    let peak_c = |film_nm: f64| heating.peak_c(film_nm);
    let first_c = peak_c(Stage::FaintYellow.from_nm().max(heating.film_before_nm() + 0.1))?;
    let last_c = peak_c(Stage::Later.from_nm())?;
    let limits = plan_limits(state);
    let window = limits.held.minimum_c.zip(limits.held.maximum_c);
    let least_c = window.map_or(first_c, |(low_c, _)| low_c.min(first_c));
    let most_c = window.map_or(last_c, |(_, high_c)| high_c.max(last_c));
    let from_c = (((least_c - 15.0) / 10.0).floor() * 10.0).max(COLDEST_C);
    let to_c = ((most_c + 15.0) / 10.0).ceil() * 10.0;
    let marks = Stage::ALL
        .iter()
        .copied()
        .filter(|stage| !matches!(stage, Stage::Bright | Stage::Later))
        .filter_map(|stage| {
            Some(ui::TintMark {
                at_c: float(peak_c(stage.typical_nm())?),
                label: stage_head(&pen, stage).into(),
                chosen: Some(stage) == answer.named,
            })
        })
        .collect();
    let (frame_from_c, frame_to_c) = answer.frame_c.unwrap_or_default();
    let window_label = window.map_or_else(String::new, |_| {
        let (low, high) = (&limits.minimum, &limits.maximum);
        pen.words.with("tint-window", &[("range", &range(&pen, low, high))])
    });
    let figure = |celsius: f64| pen.show.temperature(celsius).main;
    let spoken = answer.pointer.as_ref().map_or_else(String::new, |(_, what)| what.clone());
    let hatched = last_c < to_c;
    let waited = match ask.asked {
        Some(Asked::Wait(celsius)) => Some(figure(celsius)),
        _ => None,
    };
    let note = match (answer.frame_c.is_some(), hatched, waited.is_some()) {
        (true, true, true) => "tint-strip-hatch-frame-wait",
        (true, false, true) => "tint-strip-frame-wait",
        (true, true, false) => "tint-strip-hatch-frame",
        (false, true, _) => "tint-strip-hatch",
        _ => "tint-strip-frame",
    };
    Some(ui::TintStripView {
        from_c: float(from_c),
        to_c: float(to_c),
        tint: picture(&heating, from_c, to_c),
        hatch_from_c: float(last_c),
        ticks: model(strip_ticks(state, from_c, to_c)),
        marks: model(marks),
        framed: answer.frame_c.is_some(),
        frame_from_c: float(frame_from_c.max(from_c)),
        frame_to_c: float(frame_to_c.min(to_c)),
        pointed: answer.pointer.as_ref().is_some_and(|(at_c, _)| (from_c..=to_c).contains(at_c)),
        pointer_c: float(answer.pointer.as_ref().map_or(0.0, |(at_c, _)| *at_c)),
        windowed: window.is_some(),
        low_c: float(window.map_or(0.0, |(low_c, _)| low_c)),
        high_c: float(window.map_or(0.0, |(_, high_c)| high_c)),
        window_label: window_label.into(),
        spoken: pen
            .words
            .with("tint-strip-spoken", &[("from", &figure(from_c)), ("to", &figure(to_c)), ("what", &spoken)])
            .into(),
        note: pen.words.with(note, &[("figure", waited.as_deref().unwrap_or_default())]).into(),
    })
}

/// A mark every 20 °C, or 40 °F; every other one with its figure, for a phone's width.
fn strip_ticks(state: &State, from_c: f64, to_c: f64) -> Vec<ui::AxisTick> {
    let labelled = ticks(state.show(), from_c, to_c, 40.0);
    let all = ticks(state.show(), from_c, to_c, 20.0).into_iter().map(|tick| {
        let named = labelled.iter().any(|other| other.label == tick.label);
        ui::AxisTick { label: if named { tick.label } else { SharedString::default() }, ..tick }
    });
    with_unit(state.show(), all.collect())
}

/// The marks under the slider.
pub(super) fn minute_ticks(state: &State) -> Vec<ui::SliderTick> {
    [
        (0.5, true),
        (1.0, true),
        (2.0, false),
        (3.0, true),
        (5.0, false),
        (10.0, true),
        (20.0, false),
        (30.0, true),
        (60.0, true),
    ]
    .into_iter()
    .map(|(at, labelled)| ui::SliderTick {
        at: float(place(at)),
        label: if labelled { state.show().number(at, 1).into() } else { "".into() },
    })
    .collect()
}

/// Times that are common, each with its words: first what is taken while nothing is set.
pub(super) fn common(state: &State, ask: &Ask) -> (Vec<ui::ChoiceRow>, Vec<Minutes>) {
    let of_plan = if ask.flame && steel_id(state).starts_with("plan-") { of_cycle(state) } else { None };
    let times = match (ask.flame, of_plan) {
        (true, Some(span)) => {
            vec![
                Minutes::OfPlan(span),
                Minutes::NotKnown,
                Minutes::Set(5.0),
                Minutes::Set(10.0),
                Minutes::Set(30.0),
            ]
        }
        (true, None) => with_not_known([2.5, 5.0, 10.0, 30.0]),
        (false, _) => with_not_known([1.0, 3.0, 10.0, 60.0]),
    };
    let rows = times.iter().map(|time| match time {
        Minutes::Set(time) => choice("", minutes(&state.pen(), Span::exactly(*time)), "", ""),
        Minutes::OfPlan(_) => choice("", state.word("tint-of-plan"), "", ""),
        Minutes::NotKnown => choice("", state.word("tint-unknown"), "", ""),
    });
    (rows.collect(), times)
}

fn with_not_known(set: [f64; 4]) -> Vec<Minutes> {
    std::iter::once(Minutes::NotKnown).chain(set.map(Minutes::Set)).collect()
}
