//! The page of one question: its answer, its inputs, its picture, what it rests on.

use slint::{ComponentHandle, Model};

use super::{curves, fit_chart, fit_picture, push};
use crate::app::form::parts::{based, text_part};
use crate::app::form::question::{self, Found, Stands};
use crate::app::form::question_inputs;
use crate::app::form::question_plan::{PlanFacts, is_preliminary};
use crate::app::form::question_results::{self, Results};
use crate::app::rows::{model, put};
use crate::app::screen_values::figure;
use crate::app::{BasisOf, State, basis, ui};
use crate::engine::tint::Stage;
use crate::engine::{Outcome, Unit};
use crate::questions::{self, OUTSIDE_RANGE, Question, Reply};
use crate::report::{
    Figure, Pen, answer_sheet, basis_mark, both_of_unit, large_answer, source_line, stage_head,
};
use crate::units::Both;
use crate::words::List;

/// The question that has a picture.
const WITH_PICTURE: &str = "shrink-fit";

/// Fills the page.
pub(super) fn refresh(window: &ui::AppWindow, state: &State) {
    let asked = state.open.borrow().question;
    let Some(question) = asked else { return };
    let adapter = window.global::<ui::BenchAdapter>();
    let found = question::find(state, question);
    let key = format!("question-{}", question.name);
    adapter.set_question(question.name.into());
    adapter.set_asked(state.word(&format!("{key}.asked")));
    adapter.set_about(state.word(&format!("{key}.about")));
    let mut inputs = found.inputs(state);
    let first = inputs.first().and_then(|part| part.fields.row_data(0));
    adapter.set_first_field(first.map(|field| field.id).unwrap_or_default());
    inputs.extend(question_inputs::clear_part(state, question));
    put(&adapter.get_inputs(), vec![open_row("bench-inputs", inputs)]);
    adapter.set_can_take(!question::over_the_plan(state, question).is_empty());
    put(&adapter.get_pushes(), push::rows(state, question, &found));
    adapter.set_answer(band(state, question, &found));
    let reply = shown_reply(&found);
    let (more, notes, sources) =
        reply.map_or_else(Default::default, |(reply, stale)| beside(state, question, reply, stale));
    put(&adapter.get_more(), more);
    put(&adapter.get_notes(), [("bench-notes", notes), ("bench-sources", sources)].map(in_row).into());
    fill_picture(&adapter, state, question, &found);
    fill_basis(window, state, &found);
}

/// A row of a form that stands open by itself.
fn open_row(id: &str, parts: Vec<ui::PartRow>) -> ui::FormRow {
    ui::FormRow { id: id.into(), pinned: true, open: true, parts: model(parts), ..ui::FormRow::default() }
}

fn in_row((id, parts): (&str, Vec<ui::PartRow>)) -> ui::FormRow {
    open_row(id, parts)
}

/// The answer that is drawn, and whether it is an old one.
fn shown_reply(found: &Found) -> Option<(&Reply, bool)> {
    match &found.stands {
        Stands::Answered(reply) => Some((reply, false)),
        _ => found.last.as_ref().map(|last| (last, true)),
    }
}

/// The band of the answer: a figure, or words in its place.
fn band(state: &State, question: &'static Question, found: &Found) -> ui::ReplyView {
    let words = |title: &str, line: String| ui::ReplyView {
        title: state.word(title),
        lines: model(vec![line.into()]),
        ..ui::ReplyView::default()
    };
    let now = match &found.stands {
        Stands::Answered(reply) => return answered(state, question, reply),
        Stands::Missing(_) if is_preliminary(state, question) => ui::ReplyView {
            title: state.word("cycle-working"),
            lines: model(Vec::new()),
            ..ui::ReplyView::default()
        },
        Stands::Missing(each) => words("bench-ask-first", question::missing(state, question, each)),
        Stands::Refused(why) => ui::ReplyView { refused: true, ..words("bench-none", why.clone()) },
        Stands::Wrong(why) => {
            ui::ReplyView { problem: why.into(), lines: model(Vec::new()), ..ui::ReplyView::default() }
        }
        Stands::Unread => {
            let bad = found.bad_fields(state);
            let names = state.words.list(List::Comma, &bad);
            let title = state.words.count("bench-unread", bad.len().max(1), &[]).into();
            ui::ReplyView { title, lines: model(vec![names.into()]), ..ui::ReplyView::default() }
        }
        Stands::Working => ui::ReplyView {
            title: state.word("bench-working"),
            lines: model(Vec::new()),
            ..ui::ReplyView::default()
        },
    };
    match &found.last {
        Some(last) if last.answers.first().is_some_and(question_results::has_figure) => ui::ReplyView {
            figured: last.no_use.is_none(),
            stale: true,
            figure: figure(&first_figure(&state.pen(), last)),
            stale_note: state.word("bench-stale"),
            ..now
        },
        // What never was a figure is no old one.
        _ => now,
    }
}

fn answered(state: &State, question: &'static Question, reply: &Reply) -> ui::ReplyView {
    let pen = state.pen();
    let verdict = reply.no_use.map(|note| {
        let said = reply.notes.iter().copied().find(|note| *note == "ir-hotter").unwrap_or(note);
        state.word(&format!("note-{said}"))
    });
    let shown = first_figure(&pen, reply);
    let notes = question_results::of(state, question, reply).notes;
    let mut warnings: Vec<_> =
        notes.into_iter().filter(|part| !part.problem.is_empty()).map(|part| part.problem).collect();
    // A figure past its method's range is no figure to work by, and says so where it stands.
    let first = reply.answers.first();
    let rough = first.is_some_and(|outcome| !outcome.at_least && !outcome.in_range());
    let qualifier = match first {
        Some(outcome) if outcome.at_least => state.word("answer-at-least"),
        _ if rough => state.word("bench-rough"),
        _ => slint::SharedString::default(),
    };
    if rough {
        warnings.push(state.word(&format!("note-{OUTSIDE_RANGE}")));
    }
    let to_come = is_preliminary(state, question).then(|| state.word("bench-preliminary"));
    ui::ReplyView {
        qualifier,
        rough,
        figured: verdict.is_none(),
        title: verdict.unwrap_or_default(),
        refused: reply.no_use.is_some(),
        figure: figure(&shown),
        lines: model(to_come.into_iter().collect()),
        warnings: model(warnings),
        ..ui::ReplyView::default()
    }
}

/// The figure that is asked for, large: a leading step, or else the first answer.
fn first_figure(pen: &Pen<'_>, reply: &Reply) -> Figure {
    let Some(outcome) = reply.answers.first() else { return Figure::default() };
    let mark = basis_mark(pen, outcome.basis(&pen.reference.methods));
    let led = reply.leading.first().and_then(|symbol| {
        let step = outcome.steps.iter().find(|step| step.symbol == *symbol)?;
        let label = pen.words.get(&format!("leading-{symbol}"));
        let both = both_of_unit(step.value.round(), step.unit, &pen.show);
        Some(Figure::new(outcome.name, label, both, mark.clone()))
    });
    led.unwrap_or_else(|| large(pen, outcome))
}

/// An answer as a large figure with its range under it.
fn large(pen: &Pen<'_>, outcome: &Outcome) -> Figure {
    let mark = basis_mark(pen, outcome.basis(&pen.reference.methods));
    let row = outcome.row.as_deref().unwrap_or_default();
    let label = pen.words.with(&format!("answer-{}", outcome.name), &[("row", row)]);
    match large_answer(pen, outcome) {
        // Nobody sees nanometres: what is looked for is named.
        (_, note) if outcome.unit == Unit::Nanometre => {
            Figure::in_words(outcome.name, label, colours(pen, outcome), note, mark)
        }
        (both, note) if outcome.value.is_some() || is_plain(&both) => {
            Figure { note, ..Figure::new(outcome.name, label, both, mark) }
        }
        (both, note) => Figure::in_words(outcome.name, label, both.main, note, mark),
    }
}

/// The colours that a thickness of the film may have, from the thinnest to the thickest.
fn colours(pen: &Pen<'_>, outcome: &Outcome) -> String {
    let stage = |end: Option<f64>| Stage::of(end.or(outcome.value).unwrap_or_default());
    let (first, last) = (stage(outcome.low), stage(outcome.high));
    let head = stage_head(pen, first);
    if first == last {
        return head;
    }
    let last = pen.words.get(&format!("tint-stage-{}.short", last.id()));
    pen.words.with("bench-colours", &[("first", &head), ("last", &last)])
}

/// Is it one number or range with its unit, and not words around one?
fn is_plain(both: &Both) -> bool {
    both.main.starts_with(|first: char| first.is_ascii_digit() || first == '\u{2212}')
}

/// The other figures; what must be said; what all of it rests on.
fn beside(
    state: &State,
    question: &'static Question,
    reply: &Reply,
    stale: bool,
) -> (Vec<ui::PartRow>, Vec<ui::PartRow>, Vec<ui::PartRow>) {
    if stale {
        let (_, figures) = question_results::stale(state, question, reply);
        return (figures.into_iter().skip(1).collect(), Vec::new(), Vec::new());
    }
    let Results { figures, taken, mut notes, .. } = question_results::of(state, question, reply);
    // What says no stands with the answer.
    notes.retain(|part| part.problem.is_empty());
    let more =
        if reply.no_use.is_some() { Vec::new() } else { figures.into_iter().skip(1).chain(taken).collect() };
    (more, notes, sources(&state.pen(), reply))
}

/// The sources of all answers, each once.
fn sources(pen: &Pen<'_>, reply: &Reply) -> Vec<ui::PartRow> {
    let mut parts: Vec<ui::PartRow> = Vec::new();
    for outcome in &reply.answers {
        let rests_on = outcome.basis(&pen.reference.methods);
        let line = source_line(pen, rests_on);
        if !parts.iter().any(|part| part.label == line.as_str()) {
            let part = text_part(&format!("source-{}", parts.len()), String::new());
            parts.push(ui::PartRow { label: line.into(), ..based(pen, rests_on, part) });
        }
    }
    parts
}

fn fill_picture(adapter: &ui::BenchAdapter<'_>, state: &State, question: &'static Question, found: &Found) {
    // An old answer has no picture: it would be that of something else.
    let given = found.asked.given.as_ref().filter(|_| matches!(found.stands, Stands::Answered(_)));
    let pen = state.pen();
    let minimum_c = PlanFacts::of(state).and_then(|plan| plan.minimum_c());
    let fit = given
        .filter(|_| question.name == WITH_PICTURE)
        .and_then(|given| questions::fit_drawing(given, minimum_c).ok());
    let chart = match &fit {
        Some(fit) => Some(fit_chart::chart(&pen, fit)),
        None => given.and_then(|given| curves::chart(&pen, question, given)),
    };
    adapter.set_has_fit(fit.is_some());
    if let Some(fit) = fit {
        adapter.set_fit(fit_picture::picture(&pen, &fit));
    }
    adapter.set_has_chart(chart.is_some());
    if let Some(chart) = chart {
        adapter.set_chart(chart);
    }
}

/// The basis sheet of an answer, where it is asked for.
fn fill_basis(window: &ui::AppWindow, state: &State, found: &Found) {
    let wanted = match &state.open.borrow().basis {
        Some(BasisOf::Answer(name)) => name.clone(),
        _ => return,
    };
    let pen = state.pen();
    let sheet = match &found.stands {
        Stands::Answered(reply) => reply.answer(&wanted).map(|outcome| {
            let mut figure = large(&pen, outcome);
            if let Some(note) = reply.no_use {
                let short = pen.words.get(&format!("note-{note}.short"));
                figure = Figure::in_words(outcome.name, figure.label, short, String::new(), figure.basis);
            }
            answer_sheet(&pen, outcome, figure)
        }),
        _ => None,
    };
    basis::show(window, sheet.as_ref().map(|sheet| (wanted.as_str(), sheet)));
}
