//! What the status line and the lines at the top say beside a figure: a row that was shifted, a
//! drawing that sets a figure, two parts that leave no room, a pair that looks wrong side by side.

use super::figure::{maximum, minimum};
use super::{Pen, distinct_members, member_name};
use crate::engine::evidence::Evidence;
use crate::engine::family::Family;
use crate::engine::job::Job;
use crate::engine::plan::{Ceiling, Limit, Plan, Verdict};
use crate::reference::{IronRouteKind, Method};
use crate::units::{Both, Side, TemperatureUnit, limit_value};
use crate::words::List;

/// A shift that is none, K.
const NO_SHIFT_K: f64 = 0.5;
/// Two readings of one limit look wrong side by side from here on, K: 5 °F, since the tens of °F next to a
/// figure in °C never lie farther from it.
const LOOKS_WRONG_K: f64 = 25.0 / 9.0;

/// Who governs; and, of a row that was moved, its own figure and by how much.
pub(super) fn with_shift(pen: &Pen<'_>, item: &Evidence, sentence: String) -> String {
    let outcome = &item.outcome;
    let step = |symbol: &str| outcome.steps.iter().find(|step| step.symbol == symbol).map(|step| step.value);
    let hydrogen = outcome.inputs.iter().find(|input| input.symbol == "HD");
    let (Some(printed_c), Some(by_k), Some(hydrogen)) = (step("printed"), step("ΔH"), hydrogen) else {
        return sentence;
    };
    // A sheet that something else holds up is not explained by its shift.
    let explained = outcome.value.is_some_and(|value| (value - printed_c - by_k).abs() < NO_SHIFT_K);
    if by_k.abs() < NO_SHIFT_K || !explained {
        return sentence;
    }
    let key = if by_k < 0.0 { "answer-row-lowered" } else { "answer-row-raised" };
    let printed = pen.show.temperature(printed_c).main;
    let values = [
        ("printed", printed.as_str()),
        ("by", &pen.show.difference(by_k.abs()).main),
        ("hydrogen", &pen.show.hydrogen(hydrogen.used)),
    ];
    pen.words.list(List::Sentences, &[sentence, pen.words.with(key, &values)])
}

/// What a drawing or procedure does to the figures: it is said above them.
pub(super) fn demands(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Vec<String> {
    let mut lines = Vec::new();
    let Some(own) = &plan.undemanded else { return lines };
    let shown = |limit: &Limit| minimum(pen, limit.exact_c, limit.printed).main;
    let most = |limit: &Limit| maximum(pen, limit.exact_c, limit.printed).main;
    let by_drawing = |limit: &Limit| limit.by == Method::Demanded.id();
    lines.extend(allowed_more(pen, job, plan));
    // Another method for iron is no margin on the one that stands without the drawing.
    if plan.members.iter().any(|member| member.family == Family::Iron) && job.demands.preheat_c.is_some() {
        lines.extend(iron_method(pen, job, plan));
        return lines;
    }
    if let (Some(demanded_c), Some(limit)) = (job.demands.preheat_c, &plan.minimum) {
        let demanded = pen.show.temperature(demanded_c).main;
        if by_drawing(limit) {
            lines.push(match &own.minimum {
                Some(own) => pen.words.with("answer-by-drawing", &[("own", &shown(own))]),
                None => pen.words.get("answer-by-drawing.none"),
            });
        } else if demanded_c < limit.exact_c {
            let values = [("demanded", demanded.as_str()), ("minimum", &shown(limit))];
            lines.push(pen.words.with("answer-above-drawing", &values));
        }
    }
    // Room above a higher minimum raises what practice gives between runs: never in silence.
    if let Some(limit) = plan.interpass.as_ref().filter(|limit| limit.exact_c > own.interpass.exact_c) {
        let values = [("own", most(&own.interpass)), ("raised", most(limit))];
        let values = values.each_ref().map(|(name, value)| (*name, value.as_str()));
        lines.push(pen.words.with("answer-maximum-raised", &values));
    }
    lines
}

/// The method for iron that a drawing's preheat means.
fn iron_method(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Option<String> {
    let [route] = plan.routes.as_slice() else { return None };
    let key = match route.kind {
        IronRouteKind::Cold => return None,
        IronRouteKind::SemiHot => "answer-iron-by-drawing.semi-hot",
        IronRouteKind::Hot => "answer-iron-by-drawing.hot",
    };
    Some(pen.words.with(key, &[("demanded", &pen.show.temperature(job.demands.preheat_c?).main)]))
}

/// A drawing that allows more than the steel takes: the lower figure stays, and that is said.
fn allowed_more(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Vec<String> {
    let ceiling = match &plan.ceiling {
        Ceiling::At(limit) => Some(limit),
        Ceiling::AskTemper { .. } | Ceiling::BelowTransformation => None,
    };
    let ends = [
        (job.demands.interpass_c, plan.interpass.as_ref(), "answer-below-drawing"),
        (job.demands.ceiling_c, ceiling, "answer-below-drawing.ceiling"),
    ];
    let more = ends.into_iter().filter_map(|(demanded_c, limit, key)| {
        let (demanded_c, limit) = (demanded_c?, limit?);
        let demanded = pen.show.temperature(demanded_c).main;
        if limit.exact_c >= demanded_c {
            return None;
        }
        // Each method for iron has a limit of its own.
        if plan.verdict == Verdict::TwoRoutes {
            return Some(pen.words.with("answer-below-drawing.methods", &[("demanded", &demanded)]));
        }
        let most = maximum(pen, limit.exact_c, limit.printed).main;
        Some(pen.words.with(key, &[("demanded", &demanded), ("maximum", &most)]))
    });
    more.collect()
}

/// Which part sets which end, where two of them leave no room.
pub(super) fn by_parts(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Option<String> {
    let (low, high) = (plan.minimum.as_ref(), plan.interpass.as_ref()?);
    let limits = high.member?;
    let distinct = distinct_members(job);
    let needs = low.and_then(|low| low.member).filter(|needs| *needs != limits && distinct.len() > 1);
    Some(match (low, needs) {
        (Some(low), Some(needs)) => {
            let values = [
                ("needs", member_name(pen, job, needs)),
                ("low", minimum(pen, low.exact_c, low.printed).main),
                ("limits", member_name(pen, job, limits)),
                ("high", maximum(pen, high.exact_c, high.printed).main),
            ];
            let values = values.each_ref().map(|(name, value)| (*name, value.as_str()));
            pen.words.with("answer-no-window.parts", &values)
        }
        _ => pen.words.with("answer-no-window.by", &[("member", &member_name(pen, job, limits))]),
    })
}

/// Said of each limit whose two readings look wrong beside each other.
pub(super) fn rounded_pairs(pen: &Pen<'_>, plan: &Plan) -> Option<String> {
    let ceiling = match &plan.ceiling {
        Ceiling::At(limit) => Some(limit),
        Ceiling::AskTemper { .. } | Ceiling::BelowTransformation => None,
    };
    let (low, high) = (plan.minimum.as_ref(), plan.interpass.as_ref());
    let ends = [(Side::Minimum, low), (Side::Maximum, high), (Side::Maximum, ceiling)];
    let wrong = |(side, limit): (Side, Option<&Limit>)| {
        let limit = limit?;
        let read_c = |unit: TemperatureUnit| unit.to_c(limit_value(side, limit.exact_c, limit.printed, unit));
        let unit = pen.show.units.temperature;
        let apart_k = (read_c(unit) - read_c(unit.other())).abs();
        (apart_k > LOOKS_WRONG_K).then(|| pen.show.limit(side, limit.exact_c, limit.printed))
    };
    let mut pairs: Vec<_> = ends.into_iter().filter_map(wrong).collect();
    pairs.dedup();
    let said =
        |key: &str, pair: &Both| pen.words.with(key, &[("main", &pair.main), ("second", &pair.second)]);
    match pairs.as_slice() {
        [] => None,
        [pair] => Some(said("answer-rounded", pair)),
        several => {
            let each: Vec<String> = several.iter().map(|pair| said("answer-rounded.pair", pair)).collect();
            let list = pen.words.list(List::Comma, &each);
            Some(pen.words.with("answer-rounded.several", &[("pairs", &list)]))
        }
    }
}
