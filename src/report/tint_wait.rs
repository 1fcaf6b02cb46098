//! The colour that is waited for at a temperature, in words, and how the two lie to the plan.

use super::Pen;
use super::figure::{BasisMark, Figure, in_both};
use super::tint::{ShownLimits, Sign, TintLine, heating, notes, stage_head, stage_name};
use crate::engine::tint::{ColourAtPeak, Held, Mode, PeakFromTint, Proof, Stage, judge_tint};
use crate::words::List;

/// Which colour is there to wait for at a heat? The figure is the first colour that shows it,
/// never the likely one: that would be a cold part half of the time.
#[must_use]
pub fn colour_line(
    pen: &Pen<'_>,
    mode: &Mode,
    colour: &ColourAtPeak,
    proof: &Proof,
    held: &WaitHeld<'_>,
) -> TintLine {
    // A limit of the plan reads as the plan has it, not as its rounded figure would in the other unit.
    let figure = held.limits.as_shown(colour.peak_c).cloned();
    let figure = figure.unwrap_or_else(|| pen.show.temperature(colour.peak_c));
    let (way, minutes) = heating(pen, mode);
    let values = [("figure", &*in_both(pen, &figure)), ("minutes", &minutes)];
    let label = pen.words.with(&format!("tint-wait-label-{way}"), &values);
    let (first, last) = colour.stages;
    let names = [stage_name(pen, first), stage_name(pen, last), stage_name(pen, colour.stage)];
    let spread = pen
        .words
        .with("tint-wait-spread", &[("first", &names[0]), ("last", &names[1]), ("middle", &names[2])]);
    let (mut sign, title, mut sentence) = proof_words(pen, proof);
    if let Some((lies, against)) = wait_verdict(pen, colour.peak_c, proof, held) {
        sign = lies;
        sentence = pen.words.list(List::Sentences, &[against, sentence]);
    }
    let mut words = Figure::in_words("tint", label, title, spread, BasisMark::default());
    words.second = String::new();
    let below = proof.below_up_to.map_or_else(
        || pen.words.get("tint-wait-bright"),
        |stage| match stage {
            Stage::Bright => pen.words.get("tint-wait-not-bright"),
            stage => pen.words.with("tint-wait-not-yet", &[("colour", &stage_name(pen, stage))]),
        },
    );
    TintLine {
        figure: words,
        wordy: true,
        sign,
        sentence,
        note: below,
        notes: notes(pen, &colour.notes),
        ..TintLine::default()
    }
}

/// What a temperature that is waited for is held against.
#[derive(Debug, Clone, Copy)]
pub struct WaitHeld<'a> {
    /// The limits of the plan.
    pub limits: &'a ShownLimits,
    /// What the colour that shows the temperature means when it is seen; none where no colour
    /// shows it.
    pub shown_by: Option<&'a PeakFromTint>,
}

/// How a temperature that is waited for lies to the plan: the figure itself first, then the colour
/// that shows it, which may come late. The worst first; none where all is kept.
fn wait_verdict(pen: &Pen<'_>, peak_c: f64, proof: &Proof, held: &WaitHeld<'_>) -> Option<(Sign, String)> {
    let limits = held.limits;
    let say = |key: &str| {
        let figure = pen.show.temperature(peak_c).main;
        let values = [
            ("figure", figure.as_str()),
            ("minimum", &limits.minimum),
            ("maximum", &limits.maximum),
            ("ceiling", &limits.ceiling),
        ];
        pen.words.with(key, &values)
    };
    let above = |limit: Option<f64>| limit.is_some_and(|limit_c| peak_c > limit_c + 1e-6);
    let figure = if above(limits.held.ceiling_c) {
        Some((Sign::Over, "tint-wait-over-ceiling"))
    } else if above(limits.held.maximum_c) {
        Some((Sign::Over, "tint-wait-over-maximum"))
    } else if limits.held.minimum_c.is_some_and(|minimum_c| peak_c < minimum_c - 1e-6) {
        Some((Sign::Under, "tint-wait-below-minimum"))
    } else {
        None
    };
    let colour = colour_past_limit(pen, proof, held);
    match (figure, colour) {
        (Some((sign, key)), Some(colour)) if sign == Sign::Under => {
            Some((sign, pen.words.list(List::Sentences, &[say(key), colour])))
        }
        (Some((sign, key)), _) => Some((sign, say(key))),
        (None, Some(colour)) => Some((Sign::Unsure, colour)),
        (None, None) => None,
    }
}

/// Which limit the colour that shows a heat may already have passed.
pub(super) fn colour_past_limit(pen: &Pen<'_>, proof: &Proof, held: &WaitHeld<'_>) -> Option<String> {
    let (stage, peak) = proof.reached_from.zip(held.shown_by)?;
    let lies = judge_tint(peak, &held.limits.held);
    let past = |limit: Option<Held>| limit.is_some_and(|held| held != Held::Kept);
    let key = if past(lies.ceiling) {
        "tint-wait-colour-ceiling"
    } else if past(lies.maximum) {
        "tint-wait-colour-maximum"
    } else {
        return None;
    };
    let colour = stage_name(pen, stage);
    let limits = held.limits;
    let values = [("colour", &*colour), ("maximum", &limits.maximum), ("ceiling", &limits.ceiling)];
    Some(pen.words.with(key, &values))
}

/// The colour that shows a heat, as a heading and a sentence.
fn proof_words(pen: &Pen<'_>, proof: &Proof) -> (Sign, String, String) {
    match proof.reached_from {
        Some(stage) => {
            let colour = stage_name(pen, stage);
            (Sign::None, stage_head(pen, stage), pen.words.with("tint-wait-proof", &[("colour", &colour)]))
        }
        None => (Sign::Unsure, pen.words.get("tint-wait-none"), pen.words.get("tint-wait-no-proof")),
    }
}
