//! What a card says of the plan: limits with their basis, what was typed, heat cycle, sequence, what the
//! weld takes, cautions. All of it as the plan copy of the log has it.

use super::content::{Block, Cell, Column, Limit, Picture, Step, Table};
use super::cycle_picture::CyclePicture;
use super::degrees::shown;
use super::signs::of_basis;
use crate::engine::plan::Verdict;
use crate::job::Field;
use crate::log::{CautionCopy, LimitCopy, LineCopy, PlanCopy};
use crate::report::{Pen, step_head, step_what, written_in};
use crate::units::parts;
use crate::words::List;

/// More steps than this stand only with their notes.
const AT_A_GLANCE: usize = 40;

/// The names of the limits.
const LIMITS: [&str; 3] = ["answer-minimum", "answer-maximum", "answer-ceiling"];

/// What stands first: is it a plan to weld by, and within which limits?
pub(super) fn answer(pen: &Pen<'_>, plan: &PlanCopy, blocks: &mut Vec<Block>) {
    if !plan.title.is_empty() {
        blocks.push(Block::Strong(plan.title.clone()));
    }
    blocks.extend(written_in(pen.words, plan).map(Block::Text));
    blocks.extend(plan.status.iter().cloned().map(Block::Text));
    let limits = [&plan.minimum, &plan.maximum, &plan.ceiling];
    let known = |limit: &&Option<LimitCopy>| limit.as_ref().is_some_and(|limit| !limit.text.is_empty());
    let dry = plan.verdict == Verdict::NoPreheat.id();
    if plan.verdict == Verdict::TwoRoutes.id() {
        blocks.push(Block::Strong(pen.words.get("card-each-route")));
    } else if dry || limits.iter().any(known) {
        let made =
            LIMITS.into_iter().zip(limits).map(|(key, limit)| self::limit(pen, plan, key, limit.as_ref()));
        blocks.push(Block::Limits(made.collect()));
    }
    let basis = LIMITS.into_iter().zip(limits).filter_map(|(key, limit)| {
        let basis = limit.as_ref().map(|limit| &limit.basis).filter(|basis| !basis.is_empty())?;
        Some(pen.words.with("text-figure", &[("label", &pen.words.get(key)), ("value", basis)]))
    });
    let mut says: Vec<String> = vec![plan.sentence.clone()];
    says.extend(basis);
    says.extend((pen.show.units != plan.units).then(|| pen.words.get("card-units-then")));
    says.retain(|text| !text.is_empty());
    if !says.is_empty() {
        blocks.push(Block::Note(pen.words.list(List::Sentences, &says)));
    }
    // The gravest cautions stand with the figure.
    let grave = plan.cautions.iter().filter(|caution| !caution.word.is_empty());
    let grave: Vec<String> = grave.take(GRAVE).map(|caution| caution_title(pen, caution)).collect();
    if !grave.is_empty() {
        let titles = pen.words.list(List::Semicolon, &grave);
        blocks.push(Block::Danger(pen.words.with("card-cautions-first", &[("titles", &titles)])));
    }
}

/// So many cautions stand with the figure.
const GRAVE: usize = 2;

fn caution_title(pen: &Pen<'_>, caution: &CautionCopy) -> String {
    if caution.word.is_empty() {
        return caution.title.clone();
    }
    let values = [("word", caution.word.as_str()), ("title", &caution.title)];
    pen.words.with("card-caution", &values)
}

/// The parts by name.
pub(super) fn parts_named(pen: &Pen<'_>, plan: &PlanCopy) -> Option<Block> {
    let part = |(nth, member): (usize, &crate::log::MemberCopy)| {
        (pen.words.with("card-part", &[("number", &(nth + 1).to_string())]), member.name.clone())
    };
    let facts: Vec<_> = plan.members.iter().enumerate().map(part).collect();
    (!facts.is_empty()).then_some(Block::Facts(facts))
}

fn limit(pen: &Pen<'_>, plan: &PlanCopy, key: &str, limit: Option<&LimitCopy>) -> Limit {
    let label = pen.words.get(key);
    let Some(limit) = limit.filter(|limit| !limit.text.is_empty()) else {
        // Only what the plan says to be none is none.
        let none = plan.verdict == Verdict::NoPreheat.id() && key == "answer-minimum";
        let word = (key == "answer-ceiling").then(|| plan.ceiling_word.clone());
        let figure = word
            .filter(|word| !word.is_empty())
            .unwrap_or_else(|| pen.words.get(if none { "answer-none" } else { "card-not-known" }));
        return Limit { label, figure, ..Limit::default() };
    };
    let (main, second) = shown(pen, plan, limit);
    let (figure, unit) = parts(main);
    let mark =
        if limit.mark.is_empty() { String::new() } else { pen.words.get(&format!("basis-{}", limit.mark)) };
    let notes: Vec<&str> = [mark.as_str(), &limit.note].into_iter().filter(|text| !text.is_empty()).collect();
    let values = [("label", label.as_str())];
    Limit {
        label: if limit.at_least { pen.words.with("card-limit-at-least", &values) } else { label },
        figure: figure.to_owned(),
        unit: if second.is_empty() {
            unit.to_owned()
        } else {
            pen.words.with("card-unit-second", &[("unit", unit), ("second", second)])
        },
        sign: of_basis(&limit.mark),
        basis: pen.words.list(List::Semicolon, &notes),
    }
}

/// The job as it was typed.
pub(super) fn typed(pen: &Pen<'_>, plan: &PlanCopy, blocks: &mut Vec<Block>) {
    let typed = plan.job.typed();
    let shown = typed.iter().filter(|(slot, _)| !matches!(slot.field, Field::Name | Field::Units));
    let facts: Vec<(String, String)> =
        shown.map(|(slot, text)| (slot.name(pen.words), (*text).to_owned())).collect();
    if !facts.is_empty() {
        blocks.push(heading(pen, "card-typed", String::new()));
        blocks.push(Block::Facts(facts));
    }
}

/// The heat cycle as a picture, or why there is none.
pub(super) fn cycle(pen: &Pen<'_>, plan: &PlanCopy, blocks: &mut Vec<Block>) {
    let Some(picture) = CyclePicture::of(pen, plan) else {
        if !plan.no_cycle.is_empty() {
            blocks.push(heading(pen, "card-cycle", String::new()));
            blocks.push(Block::Text(plan.no_cycle.clone()));
        }
        return;
    };
    blocks.push(heading(pen, "card-cycle", pen.words.get("cycle-chart")));
    let says = pen.words.count("card-cycle-says", picture.runs.len(), &[]);
    let below = picture.runs.iter().filter(|run| run.below).count();
    let says = if below > 0 {
        pen.words.list(List::Sentences, &[says, pen.words.count("card-cycle-below", below, &[])])
    } else {
        says
    };
    blocks.push(Block::Picture { says, picture: Picture::Cycle(Box::new(picture)) });
    let mut says = plan.cycle_says.clone();
    says.push(pen.words.get("cycle-footer"));
    blocks.push(Block::Note(pen.words.list(List::Sentences, &says)));
}

fn steps(pen: &Pen<'_>, plan: &PlanCopy) -> Vec<Step> {
    let step = |step: &crate::log::StepCopy| Step {
        way: step_head(pen.words, plan, step),
        number: step.number.to_string(),
        what: step_what(pen.words, plan, step),
        figure: step.figure.clone(),
        notes: step.notes.clone(),
    };
    plan.steps.iter().map(step).collect()
}

/// The sequence at a glance.
pub(super) fn order(pen: &Pen<'_>, plan: &PlanCopy, blocks: &mut Vec<Block>) {
    let steps = steps(pen, plan);
    if !steps.is_empty() && steps.len() <= AT_A_GLANCE {
        blocks.push(heading(pen, "text-then", pen.words.get("card-order-notes")));
        blocks.push(Block::Order(steps));
    }
}

/// The sequence with its notes, and what goes before and beside it.
pub(super) fn details(pen: &Pen<'_>, plan: &PlanCopy, blocks: &mut Vec<Block>) {
    lines(pen, "text-find", &plan.find, blocks);
    let steps = steps(pen, plan);
    if !steps.is_empty() {
        blocks.push(heading(pen, "card-steps", String::new()));
        blocks.push(Block::Steps(steps));
    }
    lines(pen, "plan-weld", &plan.weld, blocks);
    lines(pen, "text-beside", &plan.beside, blocks);
}

/// Lines of the plan, as a table.
fn lines(pen: &Pen<'_>, key: &str, lines: &[LineCopy], blocks: &mut Vec<Block>) {
    if lines.is_empty() {
        return;
    }
    let column = |key: &str, share| Column { head: pen.words.get(key), share };
    let row = |line: &LineCopy| {
        [&line.label, &line.value, &line.note].into_iter().cloned().map(Cell::from).collect()
    };
    blocks.push(heading(pen, key, String::new()));
    blocks.push(Block::Table(Table {
        summary: pen.words.get(key),
        columns: vec![
            column("card-column-what", 0.24),
            column("card-column-figure", 0.26),
            column("card-column-note", 0.5),
        ],
        rows: lines.iter().map(row).collect(),
    }));
}

/// The cautions, and what was not told.
pub(super) fn cautions(pen: &Pen<'_>, plan: &PlanCopy, blocks: &mut Vec<Block>) {
    if plan.cautions.is_empty() && plan.not_told.is_empty() {
        return;
    }
    blocks.push(heading(pen, "text-cautions", String::new()));
    let caution = |caution: &CautionCopy| {
        let title = caution_title(pen, caution);
        let says: Vec<&str> =
            [caution.why.as_str(), &caution.do_this].into_iter().filter(|text| !text.is_empty()).collect();
        (title, pen.words.list(List::Sentences, &says))
    };
    if !plan.not_told.is_empty() {
        blocks.push(Block::Strong(plan.not_told.clone()));
    }
    blocks.push(Block::Cautions(plan.cautions.iter().map(caution).collect()));
}

/// The head of a section.
pub(super) fn heading(pen: &Pen<'_>, key: &str, aside: String) -> Block {
    Block::Heading { level: 2, text: pen.words.get(key), aside }
}
