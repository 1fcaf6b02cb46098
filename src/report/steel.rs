//! The words and figures of a grade row: its forms, its hardness, its tempers, and the heat
//! that its sources ask for.

use std::collections::BTreeSet;

use super::figure::range;
use super::{Pen, printed_range, source_line};
use crate::engine::job::Job;
use crate::reference::{Basis, FigureKind, Grade, GradeCondition, GradeHardness, TemperKind};
use crate::words::List;

/// The forms that a grade comes in: "bar, forging".
#[must_use]
pub fn forms_words(pen: &Pen<'_>, grade: &Grade) -> String {
    let forms: Vec<String> =
        grade.forms.iter().map(|form| pen.words.get(&format!("grade-form-{form}"))).collect();
    pen.words.list(List::Comma, &forms)
}

/// The hardness of a condition, what else there is to say of it, and whether its figures are only
/// typical; each where known.
#[must_use]
pub fn hardness_words(pen: &Pen<'_>, condition: &GradeCondition) -> Vec<String> {
    let hardness = condition.hardness.map(|GradeHardness { at, low, high, scale }| {
        let figure = |value: f64| pen.show.with_unit(value, 0, scale.symbol());
        match (at, low, high) {
            (Some(at), _, _) => figure(at),
            (_, Some(low), Some(high)) => range(pen, &figure(low), &figure(high)),
            (_, Some(low), None) => pen.words.with("range-from", &[("low", &figure(low))]),
            (_, None, Some(high)) => pen.words.with("range-up-to", &[("high", &figure(high))]),
            (None, None, None) => String::new(),
        }
    });
    let state = condition.state.as_ref().map(|state| pen.words.get(state));
    let typical = (condition.figures == FigureKind::Typical).then(|| pen.words.get("steels-figures-typical"));
    hardness.into_iter().chain(state).chain(typical).filter(|words| !words.is_empty()).collect()
}

/// The temper of a condition; empty where there is none. A temper that is remembered beside
/// strengths that were seen says so.
#[must_use]
pub fn temper_words(pen: &Pen<'_>, condition: &GradeCondition) -> String {
    let Some(temper) = condition.temper else { return String::new() };
    let span = printed_range(pen, temper.low_c, temper.high_c.unwrap_or(temper.low_c)).main;
    let key = match temper.kind {
        TemperKind::Typical => "steels-temper-typical",
        TemperKind::Minimum => "steels-temper-minimum",
        TemperKind::Case => "steels-temper-case",
    };
    let words = pen.words.with(key, &[("span", &span)]);
    match &condition.temper_basis {
        Some(Basis::Memory { .. }) => pen.words.with("steels-temper-memory", &[("temper", &words)]),
        _ => words,
    }
}

/// A preheat or a heat treatment of a grade: in words of its own, which carry the figures, or
/// as the figures alone.
#[must_use]
pub fn heat_words(pen: &Pen<'_>, low_c: Option<f64>, high_c: Option<f64>, wording: Option<&str>) -> String {
    if let Some(wording) = wording {
        return pen.words.get(wording);
    }
    let figure = |point_c: f64| pen.show.temperature(point_c).main;
    match (low_c, high_c) {
        (Some(low_c), Some(high_c)) => printed_range(pen, low_c, high_c).main,
        (Some(low_c), None) => pen.words.with("steels-heat-from", &[("low", &figure(low_c))]),
        (None, Some(high_c)) => pen.words.with("steels-heat-up-to", &[("high", &figure(high_c))]),
        (None, None) => String::new(),
    }
}

/// What texts print for the kinds of iron of the job: the routes are practice, these are not.
#[must_use]
pub(super) fn published_spans(pen: &Pen<'_>, job: &Job) -> Vec<String> {
    let irons: BTreeSet<&str> = job
        .members
        .iter()
        .filter_map(|member| member.steel.grade())
        .flat_map(|grade| pen.reference.own_sheets.spans_of(grade.family))
        .map(|span| span.id.as_str())
        .collect();
    let spans = pen.reference.own_sheets.iron_spans.iter().filter(|span| irons.contains(span.id.as_str()));
    spans
        .map(|span| {
            let name = pen.words.get(&format!("iron-{}", span.id));
            let figure = heat_words(pen, Some(span.low_c), span.high_c, None);
            let source = source_line(pen, &span.basis);
            pen.words.with("answer-routes.span", &[("name", &name), ("figure", &figure), ("source", &source)])
        })
        .collect()
}
