//! The facts that would change a limit, asked above the figure; and what stands until they are known.

use super::figure::{maximum, minimum, source_line};
use super::{Pen, distinct_members, member_name};
use crate::engine::job::Job;
use crate::engine::plan::{Asked, Plan};
use crate::engine::treatment::{Ask, stainless_kinds};
use crate::words::List;

/// One line for each fact, and the condition that the window stands under.
pub(super) fn asks(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Vec<String> {
    let distinct = distinct_members(job);
    let mut lines: Vec<String> = plan
        .asks
        .iter()
        .filter(|asked| distinct.contains(&asked.member))
        // The condition of the window names the temper with its figure.
        .filter(|asked| {
            asked.ask != Ask::Temper || plan.needs.is_none_or(|needs| needs.member != asked.member)
        })
        .map(|asked| ask(pen, job, plan, *asked))
        .collect();
    if let Some(needs) = plan.needs {
        let member = member_name(pen, job, needs.member);
        let temper = minimum(pen, needs.temper_c, None).main;
        lines.push(match needs.hardness_hv {
            Some(hv) => {
                let hardness = pen.show.number(hv.floor(), 0);
                let values = [("member", member.as_str()), ("temper", &temper), ("hardness", &hardness)];
                pen.words.with("needs-temper", &values)
            }
            None => pen.words.with("needs-temper.no-hardness", &[("member", &member), ("temper", &temper)]),
        });
    }
    lines
}

fn ask(pen: &Pen<'_>, job: &Job, plan: &Plan, asked: Asked) -> String {
    let member = member_name(pen, job, asked.member);
    let key = format!("ask-{}", asked.ask.id());
    if asked.ask == Ask::StainlessKind {
        let kinds = stainless_kinds(&plan.members[asked.member].chemistry.nominal);
        let kinds: Vec<String> =
            kinds.iter().map(|kind| pen.words.get(&format!("kind-{}", kind.id()))).collect();
        return pen.words.with(&key, &[("member", &member), ("kinds", &pen.words.list(List::Comma, &kinds))]);
    }
    pen.words.with(&key, &[("member", &member)])
}

/// Where there is no window: the least bad way, and what a document prints as its own.
pub(super) fn without_window(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(way) = plan.least_bad {
        let (low, high) = (minimum(pen, way.low_c, None).main, maximum(pen, way.high_c, None).main);
        lines.push(pen.words.with("answer-least-bad", &[("low", &low), ("high", &high)]));
    }
    if let Some(own) = &plan.documented {
        let low = minimum(pen, own.least.as_minimum_c(), Some(own.least)).main;
        let high = maximum(pen, own.most.as_maximum_c(), Some(own.most)).main;
        let source = source_line(pen, &own.basis);
        let member = member_name(pen, job, own.member);
        let values = [("member", member.as_str()), ("low", &low), ("high", &high), ("source", &source)];
        lines.push(pen.words.with("answer-documented", &values));
    }
    lines
}
