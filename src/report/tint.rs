//! A colour of the steel and its peak in words.

use super::Pen;
use super::figure::{BasisMark, Figure, band, of_unit};
use super::sheet::{Sheet, StepLine, lines_of, range_line, source_paragraph};
use crate::engine::Outcome;
use crate::engine::plan::{Plan, Verdict};
use crate::engine::tint::{
    ColourAtPeak, Held, Mode, Pace, PeakFromTint, Span, Stage, TintError, TintLimits, TintNote, judge_tint,
};
use crate::units::Both;

/// Which way a reading lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Sign {
    /// Nothing to hold it against.
    #[default]
    None,
    /// Inside the window.
    Inside,
    /// Below the minimum.
    Under,
    /// Over the maximum or the ceiling.
    Over,
    /// It can't tell.
    Unsure,
}

/// An answer about a colour. Without a figure the title and the lines say why there is none.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct TintLine {
    /// The band, or the name of a colour.
    pub figure: Figure,
    /// Is the figure a name?
    pub wordy: bool,
    /// How it lies to the plan.
    pub sign: Sign,
    /// What it means for the plan.
    pub sentence: String,
    /// What to do about it.
    pub note: String,
    /// Why there is no figure.
    pub title: String,
    /// The same at length, and the better instruments.
    pub lines: Vec<String>,
    /// What may fool the eye right now.
    pub notes: Vec<String>,
}

/// The limits of a plan with a window, as shown.
#[must_use]
pub fn tint_limits(plan: Option<&Plan>) -> TintLimits {
    plan.filter(|plan| plan.verdict == Verdict::Window).map_or_else(TintLimits::default, |plan| TintLimits {
        minimum_c: plan.minimum_c,
        maximum_c: plan.interpass_c,
        ceiling_c: plan.ceiling_c,
    })
}

/// The short name of a colour, for a tile.
#[must_use]
pub fn stage_name(pen: &Pen<'_>, stage: Stage) -> String {
    pen.words.get(&format!("tint-stage-{}.short", stage.id()))
}

/// Minutes in words: one figure, or a span.
#[must_use]
pub fn minutes(pen: &Pen<'_>, span: Span) -> String {
    let shown = |minutes: f64| pen.show.number(minutes, 1);
    let unit = pen.words.get("unit-minutes");
    if span.low < span.high {
        format!("{}–{}\u{a0}{unit}", shown(span.low), shown(span.high))
    } else {
        format!("{}\u{a0}{unit}", shown(span.low))
    }
}

/// How long the heat took, or how long the skin was near its peak.
fn times(pen: &Pen<'_>, mode: &Mode) -> String {
    match mode {
        Mode::FlameOn(flame) => match &flame.pace {
            Pace::Minutes(span) => minutes(pen, *span),
            Pace::KelvinPerMin(_) | Pace::Curve(_) => pen.words.get("tint-by-curve"),
        },
        Mode::Afterwards(look) => minutes(pen, look.near_peak_min),
    }
}

/// A name as it begins a line.
fn headed(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

fn notes(pen: &Pen<'_>, notes: &[TintNote]) -> Vec<String> {
    let mut said: Vec<String> =
        notes.iter().map(|note| pen.words.get(&format!("note-{}", note.id()))).collect();
    said.push(pen.words.get("tint-no-independent-row"));
    said
}

/// The band of a peak as figures: without a lower end it is "at most".
#[must_use]
pub fn peak_figures(pen: &Pen<'_>, peak: &PeakFromTint) -> Both {
    match peak.band_c {
        (Some(low_c), high_c) => band(pen, low_c, high_c),
        (None, high_c) => {
            let most = pen.show.minimum(high_c, None);
            let at_most = |figure: &str| pen.words.with("tint-at-most", &[("figure", figure)]);
            Both { main: at_most(&most.main), second: at_most(&most.second) }
        }
    }
}

/// Which peak left the colour that is seen?
#[must_use]
pub fn peak_line(
    pen: &Pen<'_>,
    mode: &Mode,
    seen: Stage,
    peak: &PeakFromTint,
    limits: &TintLimits,
) -> TintLine {
    let key = match mode {
        Mode::FlameOn(_) => "tint-label-flame",
        Mode::Afterwards(_) => "tint-label-after",
    };
    let colour = stage_name(pen, seen);
    let label = pen.words.with(key, &[("colour", &colour), ("minutes", &times(pen, mode))]);
    let (sign, sentence) = verdict(pen, mode, peak, limits);
    let note = match sign {
        Sign::Unsure => pen.words.get("tint-prove"),
        Sign::Inside => pen.words.get("tint-inside-note"),
        Sign::None | Sign::Under | Sign::Over => String::new(),
    };
    // The model is this program's own: none of the three kinds of source speaks for it.
    let mut figure = Figure::new("tint", label, peak_figures(pen, peak), BasisMark::default());
    figure.note = pen.words.get("tint-basis");
    TintLine { figure, sign, sentence, note, notes: notes(pen, &peak.notes), ..TintLine::default() }
}

/// Where a band lies, in one sentence; the worst first.
fn verdict(pen: &Pen<'_>, mode: &Mode, peak: &PeakFromTint, limits: &TintLimits) -> (Sign, String) {
    let held = judge_tint(peak, limits);
    let most = |limit_c: Option<f64>| pen.show.maximum(limit_c.unwrap_or(0.0), None).main;
    let least = pen.show.minimum(limits.minimum_c.unwrap_or(0.0), None).main;
    let (maximum, ceiling) = (most(limits.maximum_c), most(limits.ceiling_c));
    let say =
        |key: &str| pen.words.with(key, &[("minimum", &least), ("maximum", &maximum), ("ceiling", &ceiling)]);
    if held.ceiling == Some(Held::Missed) {
        return (Sign::Over, say("tint-verdict-past-ceiling"));
    }
    if held.maximum == Some(Held::Missed) {
        return (Sign::Over, say("tint-verdict-over"));
    }
    if held.minimum == Some(Held::Missed) {
        return (Sign::Under, say("tint-verdict-below"));
    }
    let unsure = |limit: Option<Held>| limit == Some(Held::Unsure);
    match (unsure(held.minimum), unsure(held.maximum), unsure(held.ceiling)) {
        (true, true, _) => (Sign::Unsure, say("tint-verdict-may-both")),
        (true, false, _) => (Sign::Unsure, say("tint-verdict-may-below")),
        (false, true, _) => (Sign::Unsure, say("tint-verdict-may-over")),
        (false, false, true) => (Sign::Unsure, say("tint-verdict-may-ceiling")),
        (false, false, false) if held.minimum.is_none() && held.maximum.is_none() => {
            (Sign::None, pen.words.get("tint-verdict-no-plan"))
        }
        (false, false, false) => match mode {
            Mode::FlameOn(_) => (Sign::Inside, say("tint-verdict-inside")),
            Mode::Afterwards(_) => (Sign::Inside, say("tint-verdict-was-inside")),
        },
    }
}

/// Which colour is there to wait for at a heat?
#[must_use]
pub fn colour_line(pen: &Pen<'_>, mode: &Mode, colour: &ColourAtPeak) -> TintLine {
    let figure = pen.show.temperature(colour.peak_c);
    let key = match mode {
        Mode::FlameOn(_) => "tint-wait-label-flame",
        Mode::Afterwards(_) => "tint-wait-label-after",
    };
    let both = format!("{} ({})", figure.main, figure.second);
    let label = pen.words.with(key, &[("figure", &both), ("minutes", &times(pen, mode))]);
    let (first, last) = colour.stages;
    let spread = if first == last {
        pen.words.get("tint-basis")
    } else {
        pen.words
            .with("tint-wait-spread", &[("first", &stage_name(pen, first)), ("last", &stage_name(pen, last))])
    };
    let (sign, sentence) = if last == Stage::Later {
        (Sign::Unsure, pen.words.get("tint-wait-no-proof"))
    } else {
        (Sign::None, pen.words.with("tint-wait-proof", &[("last", &stage_name(pen, last))]))
    };
    let note = if first == Stage::Bright {
        pen.words.get("tint-wait-bright")
    } else {
        pen.words.with("tint-wait-not-yet", &[("first", &stage_name(pen, first))])
    };
    let name = headed(&stage_name(pen, colour.stage));
    TintLine {
        figure: Figure::in_words("tint", label, name, spread, BasisMark::default()),
        wordy: true,
        sign,
        sentence,
        note,
        notes: notes(pen, &colour.notes),
        ..TintLine::default()
    }
}

/// Why a colour says nothing, and what does better.
#[must_use]
pub fn refusal_line(pen: &Pen<'_>, error: &TintError) -> TintLine {
    let values = crate::engine::EngineError::from(*error).values();
    let values: Vec<(&str, &str)> = values.iter().map(|(name, value)| (*name, value.as_str())).collect();
    let mut lines = vec![pen.words.with(&error.key(), &values)];
    if let TintError::Refused(refusal) = error {
        let better: Vec<String> = refusal
            .better()
            .iter()
            .map(|instrument| pen.words.get(&format!("instrument-{}", instrument.id())))
            .collect();
        lines.push(pen.words.with("tint-better", &[("instruments", &better.join(", "))]));
    }
    TintLine { title: pen.words.get("tint-says-nothing"), lines, ..TintLine::default() }
}

/// What the plan's minimum and maximum look like at one moment, in one sentence and a note.
#[must_use]
pub fn moment_words(pen: &Pen<'_>, low: &ColourAtPeak, low_c: f64) -> (String, String) {
    let figure = pen.show.minimum(low_c, None).main;
    let (first, last) = low.stages;
    let values = [
        ("figure", figure),
        ("colour", stage_name(pen, low.stage)),
        ("first", stage_name(pen, first)),
        ("last", stage_name(pen, last)),
    ];
    let values: Vec<(&str, &str)> = values.iter().map(|(name, value)| (*name, value.as_str())).collect();
    let note = if last == Stage::Later { "tint-wait-no-proof" } else { "tint-wait-proof" };
    (pen.words.with("tint-moment", &values), pen.words.with(note, &values))
}

/// A step in words.
fn step_name(pen: &Pen<'_>, symbol: &str) -> String {
    pen.words.get(match symbol {
        "T" => "tint-step-t",
        "d low" => "tint-step-d-low",
        "d high" => "tint-step-d-high",
        _ => "tint-step-sigma",
    })
}

/// Everything about one answer of a question: formula, numbers, range, source.
#[must_use]
pub fn outcome_sheet(pen: &Pen<'_>, outcome: &Outcome, line: &TintLine) -> Sheet {
    let mut paragraphs = vec![source_paragraph(pen, &outcome.basis)];
    paragraphs.push((pen.words.get("sheet-not-known"), pen.words.get("tint-no-independent-row")));
    Sheet {
        figure: line.figure.clone(),
        label: line.figure.label.clone(),
        standing: None,
        sentence: line.sentence.clone(),
        formula: lines_of(pen, "formula-tint"),
        steps: outcome
            .steps
            .iter()
            .map(|step| StepLine {
                text: step_name(pen, step.symbol),
                value: of_unit(step.value, step.unit, &pen.show),
            })
            .collect(),
        ranges: outcome.range.iter().filter_map(|check| range_line(pen, check)).collect(),
        paragraphs,
        basis: line.figure.basis.clone(),
    }
}
