//! The answer of a plan: the biggest thing on the screen.

use super::asks::{asks, without_window};
use super::beside::no_room_to_butter;
use super::evidence::{governs_key, name};
use super::figure::{BasisMark, Figure, basis_mark, maximum, minimum, printed_range, source_line};
use super::remarks::remarks;
use super::status;
use super::steel::published_spans;
use super::{Pen, distinct_members, member_name};
use crate::engine::evidence::{Evidence, Standing};
use crate::engine::job::Job;
use crate::engine::plan::{Action, Ceiling, Limit, Plan, Verdict};
use crate::engine::treatment::{Ask, Refusal};
use crate::reference::{Basis, IronRoute};
use crate::words::List;

/// What kind of answer it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum AnswerKind {
    /// A window.
    Window,
    /// No preheat: dry.
    Dry,
    /// No usable window.
    NoWindow,
    /// Must not be welded.
    Refused,
    /// Two routes.
    Routes,
    /// No method covers the steel.
    #[default]
    Uncovered,
}

/// One of two routes that are never blended.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Route {
    /// Stable id.
    pub id: String,
    /// Name.
    pub title: String,
    /// Its preheat span.
    pub figure: String,
    /// In the other unit.
    pub second: String,
    /// What else it asks for.
    pub text: String,
    /// What it rests on.
    pub basis: BasisMark,
}

/// The answer.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Answer {
    /// Its kind.
    pub kind: AnswerKind,
    /// What speaks where there is no figure.
    pub title: String,
    /// Lines under it.
    pub lines: Vec<String>,
    /// "At least", or nothing.
    pub qualifier: String,
    /// Minimum preheat.
    pub minimum: Figure,
    /// Maximum interpass.
    pub maximum: Figure,
    /// Ceiling.
    pub ceiling: Figure,
    /// How the governing evidence stands; `None` when nothing governs.
    pub standing: Option<Standing>,
    /// Who governs, in one sentence.
    pub sentence: String,
    /// What the other member alone needs.
    pub note: String,
    /// Routes, for iron.
    pub routes: Vec<Route>,
}

/// Writes the answer of a plan.
#[must_use]
pub fn answer(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Answer {
    let kind = match plan.verdict {
        Verdict::Window => AnswerKind::Window,
        Verdict::NoPreheat => AnswerKind::Dry,
        Verdict::TwoRoutes => AnswerKind::Routes,
        Verdict::NoWindow => AnswerKind::NoWindow,
        Verdict::Refused(_) => AnswerKind::Refused,
        Verdict::NoMethod | Verdict::Asks => AnswerKind::Uncovered,
    };
    let governing = plan.governing();
    let (title, mut lines) = title_and_lines(pen, job, plan);
    lines.splice(0..0, asks(pen, job, plan).into_iter().chain(remarks(pen, job, plan)));
    lines.extend(status::demands(pen, job, plan));
    if kind == AnswerKind::Routes {
        lines.extend(published_spans(pen, job));
        // Each route has its own limits; none of them holds for both.
        return Answer {
            kind,
            title,
            lines,
            routes: plan.routes.iter().map(|route| route_line(pen, route)).collect(),
            ..Answer::default()
        };
    }
    Answer {
        kind,
        title,
        lines,
        qualifier: if plan.minimum.as_ref().is_some_and(|limit| limit.at_least) {
            pen.words.get("answer-at-least")
        } else {
            String::new()
        },
        minimum: minimum_figure(pen, job, plan),
        maximum: maximum_figure(pen, plan),
        ceiling: ceiling_figure(pen, job, plan),
        standing: governing.map(stands),
        sentence: governing
            .map_or_else(String::new, |item| status::with_shift(pen, item, sentence(pen, item))),
        note: note(pen, job, plan),
        routes: Vec::new(),
    }
}

/// What stands beside who governs; a plan without preheat names the buttering above.
fn note(pen: &Pen<'_>, job: &Job, plan: &Plan) -> String {
    let mut parts = vec![others(pen, job, plan)];
    if plan.verdict != Verdict::NoPreheat {
        parts.extend(layers(pen, job, plan));
    }
    if plan.actions.contains(&Action::Buttering) && plan.members.iter().all(|member| member.layer.is_none()) {
        parts.push(pen.words.get("answer-lay-buttering"));
    }
    parts.extend(status::rounded_pairs(pen, plan));
    parts.retain(|part| !part.is_empty());
    pen.words.list(List::Sentences, &parts)
}

fn stands(item: &Evidence) -> Standing {
    Standing::of(&item.outcome)
}

fn sentence(pen: &Pen<'_>, item: &Evidence) -> String {
    pen.words.with(governs_key(item), &[("method", &name(pen, item))])
}

fn minimum_figure(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Figure {
    let label = pen.words.get("answer-minimum");
    match &plan.minimum {
        Some(limit) => {
            let both = minimum(pen, limit.exact_c, limit.printed);
            let mut figure = Figure::new("minimum", label, both, basis_mark(pen, &limit.basis));
            if let Some(member) = limit.member.filter(|_| distinct_members(job).len() > 1) {
                figure.note = member_name(pen, job, member);
            }
            figure
        }
        // "None" is an answer to weld by; where there is no answer there is no figure either.
        None if !plan.verdict.answers() => Figure { label, ..Figure::default() },
        None => Figure {
            id: "minimum".to_owned(),
            label,
            figure: pen.words.get("answer-none"),
            basis: plan
                .governing()
                .map(|item| basis_mark(pen, item.outcome.basis(&pen.reference.methods)))
                .unwrap_or_default(),
            ..Figure::default()
        },
    }
}

fn maximum_figure(pen: &Pen<'_>, plan: &Plan) -> Figure {
    let label = pen.words.get("answer-maximum");
    plan.interpass.as_ref().map_or_else(
        || Figure { id: "maximum".to_owned(), label: label.clone(), ..Figure::default() },
        |limit| limit_figure(pen, "maximum", label.clone(), limit),
    )
}

fn limit_figure(pen: &Pen<'_>, id: &str, label: String, limit: &Limit) -> Figure {
    let both = maximum(pen, limit.exact_c, limit.printed);
    let mut figure = Figure::new(id, label, both, basis_mark(pen, &limit.basis));
    figure.note = pen.words.get(&format!("limit-{}", limit.by));
    figure
}

fn ceiling_figure(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Figure {
    let label = pen.words.get("answer-ceiling");
    match &plan.ceiling {
        _ if !plan.verdict.answers() && plan.interpass.is_none() => Figure { label, ..Figure::default() },
        Ceiling::At(limit) => {
            let mut figure = limit_figure(pen, "ceiling", label, limit);
            if plan.actions.contains(&Action::AskTemper) {
                figure.note = pen.words.with("answer-ceiling-asked", &[("by", &figure.note)]);
            }
            figure
        }
        Ceiling::AskTemper { member } => Figure::in_words(
            "ceiling",
            label,
            pen.words.get("answer-ask-temper"),
            member_name(pen, job, *member),
            BasisMark::default(),
        ),
        Ceiling::BelowTransformation => Figure::in_words(
            "ceiling",
            label,
            pen.words.get("answer-no-ceiling"),
            pen.words.get("answer-no-ceiling.note"),
            basis_mark(pen, &Basis::Practice),
        ),
    }
}

/// What speaks where there is no figure.
fn title_and_lines(pen: &Pen<'_>, job: &Job, plan: &Plan) -> (String, Vec<String>) {
    let get = |key: &str| pen.words.get(key);
    match plan.verdict {
        Verdict::Window => (String::new(), Vec::new()),
        Verdict::NoPreheat => {
            let least = plan.dry_from.map(|least| minimum(pen, least.exact_c, least.printed).main);
            let least = least.unwrap_or_default();
            let mut lines = vec![pen.words.with("answer-dry.line", &[("figure", &least)])];
            lines.extend(layers(pen, job, plan));
            (get("answer-dry"), lines)
        }
        Verdict::TwoRoutes => (get("answer-routes"), vec![get("answer-routes.line")]),
        // With too much hydrogen it is not the steel that is open.
        Verdict::Asks if plan.asks.iter().all(|asked| asked.ask == Ask::LowHydrogen) => {
            (get("answer-asks"), Vec::new())
        }
        Verdict::Asks => (get("answer-asks"), vec![get("answer-asks.line")]),
        Verdict::NoMethod => (get("answer-uncovered"), vec![get("answer-uncovered.line")]),
        Verdict::Refused(refusal) => {
            let id = match refusal {
                Refusal::Lead => "lead",
                Refusal::Sulphur => "sulphur",
                Refusal::HighSpeed => "high-speed",
            };
            let key = format!("answer-refused-{id}");
            (get("answer-refused"), vec![get(&key), get(&format!("{key}.instead"))])
        }
        Verdict::NoWindow
            if plan.members.iter().any(|member| member.layer.is_some_and(|layer| !layer.usable)) =>
        {
            (get("answer-no-window"), layers(pen, job, plan))
        }
        Verdict::NoWindow => {
            let low = plan
                .minimum
                .as_ref()
                .map_or_else(String::new, |limit| minimum(pen, limit.exact_c, limit.printed).main);
            let high = plan
                .interpass
                .as_ref()
                .map_or_else(String::new, |limit| maximum(pen, limit.exact_c, limit.printed).main);
            let key = if plan.minimum.is_some() { "answer-no-window.line" } else { "answer-no-window.none" };
            let line = pen.words.with(key, &[("low", &low), ("high", &high)]);
            let room_k = plan
                .minimum
                .as_ref()
                .zip(plan.interpass.as_ref())
                .map_or(0.0, |(low, high)| high.exact_c - low.exact_c);
            if plan.too_slow {
                let mut lines = vec![if plan.minimum.is_some() {
                    pen.words.with("answer-no-window.too-slow", &[("low", &low)])
                } else {
                    get("answer-no-window.too-slow-cold")
                }];
                lines.extend(without_window(pen, job, plan));
                return (get("answer-no-window"), lines);
            }
            let leaves = if room_k > 0.0 { "answer-no-window.little" } else { "answer-no-window.nothing" };
            let mut lines = vec![if plan.minimum.is_some() {
                pen.words.list(List::Sentences, &[line, get(leaves)])
            } else {
                line
            }];
            let by_demand =
                |limit: &Option<Limit>| limit.as_ref().is_some_and(|limit| limit.by == "demanded");
            if by_demand(&plan.minimum) || by_demand(&plan.interpass) {
                lines.push(get("answer-no-window.demanded"));
            } else if plan.levers.is_empty() {
                lines.push(get("answer-no-window.no-lever"));
            }
            lines.extend(status::by_parts(pen, job, plan));
            lines.extend(without_window(pen, job, plan));
            (get("answer-no-window"), lines)
        }
    }
}

/// What laying a buttering asks for, where the buttering takes its steel out of the joint.
fn layers(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Vec<String> {
    let distinct = distinct_members(job);
    let asked = plan.members.iter().enumerate().filter(|(index, _)| distinct.contains(index));
    asked
        .filter_map(|(index, member)| {
            let layer = member.layer.filter(|layer| layer.exact_c > 0.0 || !layer.usable)?;
            let name = member_name(pen, job, index);
            if !layer.usable {
                return Some(no_room_to_butter(pen, &name, &layer));
            }
            let figure = minimum(pen, layer.exact_c, None).main;
            Some(pen.words.with("answer-layer", &[("member", &name), ("figure", &figure)]))
        })
        .collect()
}

/// "The arm alone needs 115 °C": what each member that does not govern asks for.
fn others(pen: &Pen<'_>, job: &Job, plan: &Plan) -> String {
    let distinct = distinct_members(job);
    let governing = plan.minimum.as_ref().and_then(|limit| limit.member);
    let lines: Vec<String> = plan
        .members
        .iter()
        .enumerate()
        .filter(|(index, _)| Some(*index) != governing && distinct.len() > 1 && distinct.contains(index))
        .filter_map(|(index, member)| {
            let minimum_c = member.exact_c?;
            let name = member_name(pen, job, index);
            Some(if minimum_c > 0.0 {
                let figure = minimum(pen, minimum_c, member.printed).main;
                pen.words.with("answer-other-needs", &[("member", &name), ("figure", &figure)])
            } else {
                pen.words.with("answer-other-none", &[("member", &name)])
            })
        })
        .collect();
    pen.words.list(List::Sentences, &lines)
}

pub(super) fn route_line(pen: &Pen<'_>, route: &IronRoute) -> Route {
    let preheat = printed_range(pen, route.preheat_low_c, route.preheat_high_c);
    let mut text = vec![pen.words.get(&format!("iron-{}.text", route.id))];
    if let Some(interpass_c) = route.interpass_c {
        let figure = maximum(pen, interpass_c, None).main;
        text.push(pen.words.with("iron-interpass", &[("figure", &figure)]));
    }
    if let Some(bead_mm) = route.bead_mm {
        text.push(pen.words.with("iron-bead", &[("length", &pen.show.rule_length(bead_mm).main)]));
    }
    if let Some(cooling_k_per_h) = route.cooling_k_per_h {
        let rate = pen.show.rate_per_hour(cooling_k_per_h).main;
        text.push(pen.words.with("iron-cooling", &[("rate", &rate)]));
    }
    text.push(source_line(pen, &route.basis));
    Route {
        id: route.id.clone(),
        title: pen.words.get(&format!("iron-{}", route.id)),
        figure: preheat.main,
        second: preheat.second,
        text: pen.words.list(List::Sentences, &text),
        basis: basis_mark(pen, &route.basis),
    }
}
