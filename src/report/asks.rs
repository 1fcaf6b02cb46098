//! The facts that would change a limit, asked above the figure; and what stands until they are known.

use super::figure::{maximum, minimum, source_line};
use super::{Pen, distinct_members, member_name};
use crate::engine::certificate::{Slip, outside_named_grade, slip};
use crate::engine::family::stainless_kinds;
use crate::engine::job::{Job, Steel};
use crate::engine::part::{LOW_HYDROGEN_ML, Part};
use crate::engine::plan::{Asked, Find, Plan};
use crate::engine::treatment::Ask;
use crate::reference::Element;
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
    let parts = Part::all(job);
    let presumed = |member: &&usize| plan.minimum.is_some() && parts[**member].presumes_low_hydrogen();
    let most = pen.show.hydrogen(LOW_HYDROGEN_ML);
    lines.extend(distinct.iter().filter(presumed).map(|member| {
        let name = member_name(pen, job, *member);
        pen.words.with("presumes-low-hydrogen", &[("member", &name), ("most", &most)])
    }));
    if plan.sequence.find.contains(&Find::Hydrogen) {
        let counted = pen.show.hydrogen(job.hydrogen_ml());
        lines.push(pen.words.with("ask-hydrogen-class", &[("counted", &counted)]));
    }
    lines.extend(distinct.iter().filter_map(|member| odd_certificate(pen, job, *member)));
    if let Some(needs) = plan.needs {
        let member = member_name(pen, job, needs.member);
        let temper = minimum(pen, needs.temper_c, None).main;
        let whole = |hardness: Option<f64>| {
            hardness.map_or_else(String::new, |hardness| pen.show.number(hardness.floor(), 0))
        };
        let key = match (needs.hardness_hv, needs.hardness_hrc) {
            (Some(_), Some(_)) => "needs-temper.hrc",
            (Some(_), None) => "needs-temper",
            (None, _) => "needs-temper.no-hardness",
        };
        let (hv, hrc) = (whole(needs.hardness_hv), whole(needs.hardness_hrc));
        let values = [("member", &*member), ("temper", &*temper), ("hv", &*hv), ("hrc", &*hrc)];
        lines.push(pen.words.with(key, &values));
    }
    lines
}

/// What is odd about a part's certificate: it lies outside the grade named beside it, or without one
/// it is a slip away from a grade.
fn odd_certificate(pen: &Pen<'_>, job: &Job, index: usize) -> Option<String> {
    let member = job.members.get(index)?;
    let Steel::Certificate { composition, grade } = &member.steel else { return None };
    let symbols = |elements: &[Element]| {
        let symbols: Vec<String> = elements.iter().map(|element| element.symbol().to_owned()).collect();
        pen.words.list(List::And, &symbols)
    };
    if let Some(grade) = grade {
        let outside = outside_named_grade(member);
        let values = [("grade", grade.designation.as_str()), ("elements", &symbols(&outside))];
        return (!outside.is_empty()).then(|| pen.words.with("certificate-outside-grade", &values));
    }
    let percent = |value: f64| pen.show.with_unit(value, 4, "%");
    let name = member_name(pen, job, index);
    Some(match slip(pen.reference, composition)? {
        Slip::Decimal { element, percent: stated, likely, grade } => {
            let (stated, likely) = (percent(stated), percent(likely));
            let values = [("member", name.as_str()), ("symbol", element.symbol()), ("value", &stated)];
            let more = [("likely", likely.as_str()), ("grade", &grade)];
            pen.words.with("certificate-slip", &[&values[..], &more].concat())
        }
        Slip::Exchanged { elements, grade } => {
            let values = [("member", name.as_str()), ("elements", &symbols(&elements)), ("grade", &grade)];
            pen.words.with("certificate-exchanged", &values)
        }
    })
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
    let most = pen.show.hydrogen(LOW_HYDROGEN_ML);
    pen.words.with(&key, &[("member", &member), ("most", &most)])
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
        let low = match own.least_high {
            Some(printed) => {
                let thick = minimum(pen, printed.as_minimum_c(), Some(printed)).main;
                pen.words.with("answer-documented.span", &[("low", &low), ("thick", &thick)])
            }
            None => low,
        };
        let high = maximum(pen, own.most.as_maximum_c(), Some(own.most)).main;
        let source = source_line(pen, &own.basis);
        let member = member_name(pen, job, own.member);
        let values = [("member", member.as_str()), ("low", &low), ("high", &high), ("source", &source)];
        lines.push(pen.words.with("answer-documented", &values));
    }
    lines
}
