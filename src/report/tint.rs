//! A colour of the steel and its peak in words.

use super::Pen;
use super::basis_sheet::{BasisSheet, lines_of, source_paragraph};
use super::figure::{BasisMark, Figure, band, of_unit};
use super::outcome::{StepLine, range_lines};
use super::tint_wait::{WaitHeld, colour_past_limit};
use crate::engine::Outcome;
use crate::engine::plan::{Ceiling, Limit, Plan, Verdict};
use crate::engine::tint::{
    ColourAtPeak, Held, Mode, Pace, PeakFromTint, Proof, Span, Stage, TintError, TintLimits, TintNote,
    judge_tint,
};
use crate::units::{Both, Side, limit_value};
use crate::words::List;

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

/// The limits of a plan as they are shown, and in words: a colour is judged at the figure that
/// the reader sees, in the reader's unit.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ShownLimits {
    /// What a colour is held against.
    pub held: TintLimits,
    /// The minimum in words.
    pub minimum: String,
    /// The maximum in words.
    pub maximum: String,
    /// The ceiling in words.
    pub ceiling: String,
    /// Each of them as the plan shows it in both units, by its value.
    both: Vec<(f64, Both)>,
}

impl ShownLimits {
    /// This temperature as the plan shows it, where it is one of its limits.
    #[must_use]
    pub fn as_shown(&self, celsius: f64) -> Option<&Both> {
        self.both.iter().find(|(at_c, _)| (at_c - celsius).abs() < 1e-6).map(|(_, both)| both)
    }
}

/// The limits of a plan: the minimum where it has a window, the others wherever they are known.
#[must_use]
pub fn tint_limits(pen: &Pen<'_>, plan: Option<&Plan>) -> ShownLimits {
    let Some(plan) = plan else { return ShownLimits::default() };
    let unit = pen.show.units.temperature;
    let shown = |side: Side, limit: &Limit| {
        let both = pen.show.limit(side, limit.exact_c, limit.printed);
        (unit.to_c(limit_value(side, limit.exact_c, limit.printed, unit)), both)
    };
    let minimum = plan.minimum.as_ref().filter(|_| plan.verdict == Verdict::Window);
    let ceiling = match &plan.ceiling {
        Ceiling::At(limit) => Some(limit),
        Ceiling::AskTemper { .. } | Ceiling::BelowTransformation => None,
    };
    let minimum = minimum.map(|limit| shown(Side::Minimum, limit)).unzip();
    let maximum = plan.interpass.as_ref().map(|limit| shown(Side::Maximum, limit)).unzip();
    let ceiling = ceiling.map(|limit| shown(Side::Maximum, limit)).unzip();
    let main = |both: &Option<Both>| both.as_ref().map_or_else(String::new, |both| both.main.clone());
    ShownLimits {
        held: TintLimits { minimum_c: minimum.0, maximum_c: maximum.0, ceiling_c: ceiling.0 },
        minimum: main(&minimum.1),
        maximum: main(&maximum.1),
        ceiling: main(&ceiling.1),
        both: [minimum, maximum, ceiling].into_iter().filter_map(|(at_c, both)| at_c.zip(both)).collect(),
    }
}

/// The name of a colour in a sentence.
#[must_use]
pub fn stage_name(pen: &Pen<'_>, stage: Stage) -> String {
    pen.words.get(&format!("tint-stage-{}.short", stage.id()))
}

/// The name of a colour by itself: on a tile, in a list, as a heading.
#[must_use]
pub fn stage_head(pen: &Pen<'_>, stage: Stage) -> String {
    pen.words.get(&format!("tint-stage-{}.head", stage.id()))
}

/// Minutes in words: one figure, or a span.
#[must_use]
pub fn minutes(pen: &Pen<'_>, span: Span) -> String {
    let shown = |minutes: f64| pen.show.number(minutes, 1);
    let (low, high) = (shown(span.low), shown(span.high));
    if span.low < span.high {
        pen.words.with("unit-minutes.range", &[("low", &low), ("high", &high)])
    } else {
        pen.words.with("unit-minutes.figure", &[("figure", &low)])
    }
}

/// Which way of heating a label speaks of, and its minutes where there are any.
pub(super) fn heating(pen: &Pen<'_>, mode: &Mode) -> (&'static str, String) {
    match mode {
        Mode::FlameOn(flame) => match &flame.pace {
            Pace::Minutes(span) => ("flame", minutes(pen, *span)),
            Pace::KelvinPerMin(_) | Pace::Curve(_) => ("curve", String::new()),
        },
        Mode::Afterwards(look) => ("after", minutes(pen, look.near_peak_min)),
    }
}

/// What may fool the eye, in words.
pub(super) fn notes(pen: &Pen<'_>, notes: &[TintNote]) -> Vec<String> {
    let mut said: Vec<String> =
        notes.iter().map(|note| pen.words.get(&format!("note-{}", note.id()))).collect();
    // The place can't know the reader's eyes.
    said.extend(["tint-colour-vision", "tint-no-independent-row"].map(|key| pen.words.get(key)));
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

/// Which peak left the colour that is seen, or the colours from one to another?
#[must_use]
pub fn peak_line(
    pen: &Pen<'_>,
    mode: &Mode,
    (first, last): (Stage, Stage),
    peak: &PeakFromTint,
    limits: &ShownLimits,
) -> TintLine {
    let (way, minutes) = heating(pen, mode);
    let colour = if first == last {
        stage_name(pen, first)
    } else {
        let names = [stage_name(pen, first), stage_name(pen, last)];
        pen.words.with("tint-between", &[("first", &names[0]), ("last", &names[1])])
    };
    // Chromium shifts every colour, so that the figure holds under a condition.
    let condition = if peak.notes.contains(&TintNote::ChromiumUnknown) { ".low-alloy" } else { "" };
    let key = format!("tint-label-{way}{condition}");
    let label = pen.words.with(&key, &[("colour", &colour), ("minutes", &minutes)]);
    let (sign, sentence) = verdict(pen, mode, peak, limits);
    let mut note: Vec<String> = Vec::new();
    if peak.notes.contains(&TintNote::ChromiumUnknown) {
        note.push(pen.words.get("note-tint-chromium-unknown"));
    }
    match sign {
        Sign::Unsure => note.push(pen.words.get("tint-prove")),
        Sign::Inside => note.push(pen.words.get("tint-inside-note")),
        Sign::None | Sign::Under | Sign::Over => {}
    }
    // The model is this program's own: none of the three kinds of source speaks for it.
    let mut figure = Figure::new("tint", label, peak_figures(pen, peak), BasisMark::default());
    figure.note = pen.words.get("tint-basis");
    TintLine {
        figure,
        sign,
        sentence,
        note: pen.words.list(List::Sentences, &note),
        notes: notes(pen, &peak.notes),
        ..TintLine::default()
    }
}

/// Where a band lies, in words; the worst first, and a ceiling that may be past always.
fn verdict(pen: &Pen<'_>, mode: &Mode, peak: &PeakFromTint, limits: &ShownLimits) -> (Sign, String) {
    let held = judge_tint(peak, &limits.held);
    let say = |key: &str| {
        let values =
            [("minimum", &limits.minimum), ("maximum", &limits.maximum), ("ceiling", &limits.ceiling)];
        pen.words.with(key, &values.map(|(name, value)| (name, value.as_str())))
    };
    let after = matches!(mode, Mode::Afterwards(_));
    let unsure = |limit: Option<Held>| limit == Some(Held::Unsure);
    let (sign, key) = if held.ceiling == Some(Held::Missed) {
        (Sign::Over, "tint-verdict-past-ceiling")
    } else if held.maximum == Some(Held::Missed) {
        (Sign::Over, "tint-verdict-over")
    } else if held.minimum == Some(Held::Missed) {
        (Sign::Under, if after { "tint-verdict-was-below" } else { "tint-verdict-below" })
    } else {
        match (unsure(held.minimum), unsure(held.maximum), unsure(held.ceiling)) {
            (true, true, _) => (Sign::Unsure, "tint-verdict-may-both"),
            (true, false, _) => (Sign::Unsure, "tint-verdict-may-below"),
            (false, true, _) => (Sign::Unsure, "tint-verdict-may-over"),
            (false, false, true) => return (Sign::Unsure, say("tint-verdict-may-ceiling")),
            (false, false, false) => match (held.minimum, held.maximum.or(held.ceiling)) {
                (None, None) => (Sign::None, "tint-verdict-no-plan"),
                (None, Some(_)) if held.maximum.is_none() => (Sign::None, "tint-verdict-under-ceiling"),
                (None, Some(_)) => (Sign::None, "tint-verdict-under-maximum"),
                (Some(_), _) if after => (Sign::Inside, "tint-verdict-was-inside"),
                (Some(_), _) => (Sign::Inside, "tint-verdict-inside"),
            },
        }
    };
    let mut sentences = vec![say(key)];
    if unsure(held.ceiling) {
        sentences.push(say("tint-verdict-may-ceiling"));
    }
    (sign, pen.words.list(List::Sentences, &sentences))
}

/// Why a colour says nothing, and what does better.
#[must_use]
pub fn refusal_line(pen: &Pen<'_>, error: &TintError) -> TintLine {
    let values = crate::engine::EngineError::from(*error).values().into_iter();
    let values: Vec<_> = values.map(|(name, value)| (name, pen.words.value(&value))).collect();
    let values: Vec<(&str, &str)> = values.iter().map(|(name, value)| (*name, value.as_str())).collect();
    let mut lines = vec![pen.words.with(&error.key(), &values)];
    if let TintError::Refused(refusal) = error {
        let better: Vec<String> = refusal
            .better()
            .iter()
            .map(|instrument| pen.words.get(&format!("instrument-{}.short", instrument.id())))
            .collect();
        lines.push(pen.words.with("tint-better", &[("instruments", &pen.words.list(List::Comma, &better))]));
    }
    TintLine { title: pen.words.get("tint-says-nothing"), lines, ..TintLine::default() }
}

/// What shows that the plan's minimum is reached at one moment, in one sentence and a note.
#[must_use]
pub fn moment_words(
    pen: &Pen<'_>,
    colour: &ColourAtPeak,
    proof: &Proof,
    minimum: &str,
    held: &WaitHeld<'_>,
) -> (String, String) {
    let middle = stage_name(pen, colour.stage);
    let mut note = pen.words.with("tint-moment-middle", &[("figure", minimum), ("colour", &middle)]);
    if colour.notes.contains(&TintNote::ByCoupon) {
        note = pen.words.list(List::Sentences, &[note, pen.words.get("tint-moment-coupon")]);
    }
    match proof.reached_from {
        Some(stage) => {
            let values = [("figure", minimum), ("colour", &stage_name(pen, stage))];
            let mut said = vec![pen.words.with("tint-moment", &values.map(|(name, value)| (name, value)))];
            // The colour that shows the minimum may come too late.
            said.extend(colour_past_limit(pen, proof, held));
            (pen.words.list(List::Sentences, &said), note)
        }
        None => (pen.words.with("tint-moment-no-proof", &[("figure", minimum)]), note),
    }
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
pub fn outcome_sheet(pen: &Pen<'_>, outcome: &Outcome, line: &TintLine) -> BasisSheet {
    let mut paragraphs = vec![source_paragraph(pen, outcome.basis(&pen.reference.methods))];
    paragraphs.push((pen.words.get("sheet-not-known"), pen.words.get("tint-no-independent-row")));
    BasisSheet {
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
        ranges: range_lines(pen, outcome),
        paragraphs,
        basis: line.figure.basis.clone(),
    }
}
