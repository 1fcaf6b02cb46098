//! The answers of a question, and what must be said beside them.

use super::parts::{result_part, text_part};
use crate::app::screen_values::basis_kind;
use crate::app::{State, ui};
use crate::engine::{Outcome, Unit};
use crate::questions::{Question, Reply, SAYING_NO};
use crate::report::{Pen, answer_figure, basis_mark, of_unit, source_line};
use crate::words::List;

/// Does an answer say something yet: a figure, or a row of a table?
pub(crate) fn has_figure(outcome: &Outcome) -> bool {
    let ends = [outcome.value, outcome.low, outcome.high];
    outcome.row.is_some() || ends.iter().any(Option::is_some)
}

/// What came out of a question, drawn.
pub(crate) struct Results {
    /// The figure asked for, in short.
    pub(crate) first: String,
    /// What stands before and larger than any figure.
    pub(crate) verdict: Option<ui::PartRow>,
    /// The figures, the one asked for first.
    pub(crate) figures: Vec<ui::PartRow>,
    /// What the dataset gave for a choice.
    pub(crate) taken: Vec<ui::PartRow>,
    /// What must be said beside them.
    pub(crate) notes: Vec<ui::PartRow>,
}

impl Results {
    /// Is the figure asked for outside the range of its method: to compare, not to weld by?
    pub(crate) fn is_rough(&self) -> bool {
        self.figures.iter().any(|part| part.rough)
    }

    /// The answer in a line: what leads, each with its own figure, or else the figure asked for.
    pub(crate) fn summary(&self, state: &State, reply: &Reply) -> String {
        if self.verdict.is_some() || reply.leading.is_empty() {
            return self.first.clone();
        }
        let named = |part: &ui::PartRow| {
            state
                .words
                .with("bench-answer", &[("answer", part.label.as_str()), ("figure", part.value.as_str())])
        };
        let each: Vec<String> = self.figures.iter().take(reply.leading.len()).map(named).collect();
        state.words.list(List::Names, &each)
    }

    /// All of it, one under another.
    pub(super) fn parts(self) -> Vec<ui::PartRow> {
        let Self { verdict, figures, taken, notes, .. } = self;
        verdict.into_iter().chain(figures).chain(taken).chain(notes).collect()
    }
}

/// What came out of a question.
pub(crate) fn of(state: &State, question: &Question, reply: &Reply) -> Results {
    let pen = state.pen();
    let (mut first, figures) = figures(&pen, reply);
    let verdict = verdict(&pen, question, reply).map(|(short, verdict)| {
        first = short;
        verdict
    });
    // What was asked may be a word, and the figure only what it stands for.
    if let Some(answer) = reply.notes.first().map(|note| format!("note-{note}.answer"))
        && pen.words.has(&answer)
    {
        first = pen.words.with("bench-answer", &[("answer", &pen.words.get(&answer)), ("figure", &first)]);
    }
    let mut taken_rows = Vec::new();
    for taken in &reply.taken {
        let range = format!("{}–{}", pen.show.number(taken.low, 2), pen.show.number(taken.high, 2));
        let mark = basis_mark(&pen, &taken.basis);
        taken_rows.push(ui::PartRow {
            basis_kind: basis_kind(&mark),
            basis_label: mark.label.into(),
            ..result_part(
                &format!("{}-{}", question.name, taken.name),
                pen.words.get(&format!("taken-{}", taken.name)),
                range,
                source_line(&pen, &taken.basis),
            )
        });
    }
    let said_first = verdict_note(reply);
    let said = reply.notes.iter().filter(|note| Some(**note) != said_first);
    let notes = said
        .map(|note| {
            let (id, said) = (format!("{}-{note}", question.name), pen.words.get(&format!("note-{note}")));
            if SAYING_NO.contains(note) {
                ui::PartRow { problem: said.into(), ..text_part(&id, String::new()) }
            } else {
                text_part(&id, said)
            }
        })
        .collect();
    Results { first, verdict, figures, taken: taken_rows, notes }
}

/// What is said before and larger than any figure: that the figures are of no use, and what is
/// known all the same.
fn verdict_note(reply: &Reply) -> Option<&'static str> {
    let no_use = reply.no_use?;
    Some(reply.notes.iter().copied().find(|note| *note == "ir-hotter").unwrap_or(no_use))
}

fn verdict(pen: &Pen<'_>, question: &Question, reply: &Reply) -> Option<(String, ui::PartRow)> {
    let note = verdict_note(reply)?;
    let part = ui::PartRow {
        kind: ui::PartKind::Verdict,
        ..text_part(&format!("{}-{note}", question.name), pen.words.get(&format!("note-{note}")))
    };
    Some((pen.words.get(&format!("note-{note}.short")), part))
}

/// The figures of an answer to what was typed before, grey and with nothing else.
pub(crate) fn stale(state: &State, question: &Question, reply: &Reply) -> (String, Vec<ui::PartRow>) {
    let (first, parts) = figures(&state.pen(), reply);
    let grey = |part: ui::PartRow| ui::PartRow {
        id: format!("{}-stale-{}", question.name, part.id).into(),
        stale: true,
        basis_kind: ui::BasisKind::None,
        basis_label: "".into(),
        ..part
    };
    (first, parts.into_iter().map(grey).collect())
}

fn figures(pen: &Pen<'_>, reply: &Reply) -> (String, Vec<ui::PartRow>) {
    let mut parts = Vec::new();
    let mut first = String::new();
    for outcome in &reply.answers {
        let (main, second) = match verdict_note(reply) {
            Some(note) => (pen.words.get(&format!("note-{note}.short")), String::new()),
            None => {
                let both = answer_figure(pen, outcome);
                (both.main, both.second)
            }
        };
        let leading = reply.leading.iter().filter_map(|symbol| {
            let step = outcome.steps.iter().find(|step| step.symbol == *symbol)?;
            let label = pen.words.get(&format!("leading-{symbol}"));
            let value = of_step(pen, step.value, step.unit);
            Some(result_part(&format!("{}-{symbol}", outcome.name), label, value, String::new()))
        });
        parts.extend(leading);
        let mark = basis_mark(pen, outcome.basis(&pen.reference.methods));
        // A filler is named by its class.
        let row = outcome.row.as_deref().unwrap_or_default();
        let label = pen.words.with(&format!("answer-{}", outcome.name), &[("row", row)]);
        // A figure that no input was put at its limit for lies as far outside as its inputs do.
        let rough = reply.no_use.is_none() && !outcome.at_least && !outcome.in_range();
        if first.is_empty() {
            first = if rough { pen.words.with("tool-rough", &[("figure", &main)]) } else { main.clone() };
        }
        parts.push(ui::PartRow {
            basis_kind: basis_kind(&mark),
            basis_label: mark.label.into(),
            rough,
            ..result_part(outcome.name, label, main, second)
        });
    }
    (first, parts)
}

/// A step that is what is asked for: a temperature to the whole degree, as it is bought.
fn of_step(pen: &Pen<'_>, value: f64, unit: Unit) -> String {
    match unit {
        Unit::Celsius => {
            let both = pen.show.temperature(value);
            format!("{} ({})", both.main, both.second)
        }
        other => of_unit(value, other, &pen.show),
    }
}
