//! The list of all questions: each as it is asked, with what the plan answers or what it takes.

use std::collections::BTreeMap;

use slint::{ComponentHandle, SharedString};
use strum::IntoEnumIterator;

use super::kept::Line;
use super::search::questions_with;
use crate::app::form::question::{self, Stands};
use crate::app::form::question_plan::{cycle_to_come, is_preliminary};
use crate::app::form::question_results;
use crate::app::rows::put;
use crate::app::{State, ui};
use crate::engine::Unit;
use crate::job::Session;
use crate::questions::{self, Question, Work};
use crate::report::minutes_between;

/// Fills the list.
pub(super) fn refresh(window: &ui::AppWindow, state: &State) {
    let adapter = window.global::<ui::BenchAdapter>();
    let query = state.open.borrow().bench_query.clone();
    let query = query.trim();
    let searching = !query.is_empty();
    let found = if searching { questions_with(&state.words, query) } else { questions::ALL.to_vec() };
    make_lines(state, &found);
    let rows = |wanted: &dyn Fn(&&'static Question) -> bool| -> Vec<ui::BenchEntry> {
        found.iter().copied().filter(wanted).map(|question| row(state, question)).collect()
    };
    let mut entries = Vec::new();
    if searching {
        let key = if found.is_empty() { "bench-found-none" } else { "bench-found" };
        let said = state.words.count(key, found.len(), &[("query", query)]);
        let kind = if found.is_empty() { ui::BenchEntryKind::Empty } else { ui::BenchEntryKind::Head };
        entries.push(ui::BenchEntry {
            note: if found.is_empty() { state.word("bench-found-none-try") } else { SharedString::default() },
            ..entry(kind, "found", said.into())
        });
        entries.extend(rows(&|_| true));
    } else {
        for work in Work::iter() {
            let head = state.word(&format!("work-{}", work.id()));
            entries.push(entry(ui::BenchEntryKind::Head, work.id(), head));
            entries.extend(rows(&|question| question.work == work));
        }
    }
    // A query of nothing but space looks for nothing.
    adapter.set_query(if searching { state.open.borrow().bench_query.as_str().into() } else { "".into() });
    put(&adapter.get_entries(), entries);
}

fn entry(kind: ui::BenchEntryKind, id: &str, text: SharedString) -> ui::BenchEntry {
    ui::BenchEntry { kind, id: id.into(), text, ..ui::BenchEntry::default() }
}

fn row(state: &State, question: &'static Question) -> ui::BenchEntry {
    let asked = state.word(&format!("question-{}.asked", question.name));
    let kept = state.bench.borrow();
    let line = kept.lines.as_ref().and_then(|(_, lines)| lines.get(question.name));
    let row = entry(ui::BenchEntryKind::Question, question.name, asked);
    match line {
        Some(line) => ui::BenchEntry {
            answer: line.answer.as_str().into(),
            note: line.note.as_str().into(),
            of_plan: line.of_plan,
            rough: line.rough,
            ..row
        },
        None => ui::BenchEntry { note: state.word("bench-working"), ..row },
    }
}

/// Makes the lines of these questions that are not there yet: a line holds until something is typed.
fn make_lines(state: &State, wanted: &[&'static Question]) {
    let session = state.session(|session| Session { place: String::new(), ..session.clone() });
    let now = (session, (state.flame_min.get())(state), cycle_to_come(state));
    let old = state.bench.borrow_mut().lines.take();
    let mut lines = old.filter(|(of, _)| *of == now).map_or_else(BTreeMap::new, |(_, lines)| lines);
    for question in wanted {
        if !lines.contains_key(question.name)
            && let Some(line) = line(state, question)
        {
            lines.insert(question.name, line);
        }
    }
    state.bench.borrow_mut().lines = Some((now, lines));
}

/// What a question says; `None` while its answer is being worked out.
fn line(state: &State, question: &'static Question) -> Option<Line> {
    let (asked, replied) = question::ask(state, question);
    let note = |note: String| Some(Line { answer: String::new(), note, of_plan: false, rough: false });
    match question::stands(state, question, replied) {
        Stands::Answered(reply) => {
            let of_plan = !asked.touched && asked.begun.iter().any(|begun| begun.of_plan);
            let results = question_results::of(state, question, &reply);
            // An answer that is no figure is said as its page says it, and does not read as one.
            if reply.answers.first().is_some_and(|first| !question_results::has_figure(first)) {
                return if asked.touched {
                    let said = reply.notes.first().map(|said| state.words.get(&format!("note-{said}")));
                    Some(Line {
                        answer: said.unwrap_or_default(),
                        note: String::new(),
                        of_plan,
                        rough: false,
                    })
                } else {
                    note(state.words.get("bench-no-figure-yet"))
                };
            }
            let named = |label: &str, figure: &str| {
                state.words.with("bench-answer", &[("answer", label), ("figure", figure)])
            };
            let label = results.figures.first().map_or_else(String::new, |part| part.label.to_string());
            let said = if results.verdict.is_some() || label.is_empty() {
                results.first.clone()
            } else if reply.leading.is_empty() {
                // Of minutes the whole span is told: nobody has the middle of it.
                let minutes = reply.answers.first().filter(|first| first.unit == Unit::Minute);
                let span = minutes.and_then(|first| first.low.zip(first.high));
                let span = span.map(|(low, high)| minutes_between(&state.pen(), low, high));
                named(&label, span.as_ref().unwrap_or(&results.first))
            } else {
                results.summary(state, &reply)
            };
            let said = if is_preliminary(state, question) {
                state.words.with("bench-answer-preliminary", &[("said", &said)])
            } else {
                said
            };
            Some(Line { answer: said, note: String::new(), of_plan, rough: results.is_rough() })
        }
        // What the plan's heat cycle will give is not asked for.
        Stands::Missing(_) if is_preliminary(state, question) => note(state.words.get("cycle-working")),
        Stands::Missing(each) => {
            let fields = question::missing(state, question, &each);
            note(state.words.with("bench-needs", &[("fields", &fields)]))
        }
        Stands::Working => None,
        Stands::Refused(_) => note(state.words.get("bench-no-answer")),
        Stands::Wrong(_) | Stands::Unread => {
            note(state.words.count("bench-typed", asked.bad_fields(&state.words).len().max(1), &[]))
        }
    }
}
