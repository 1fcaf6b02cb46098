//! The sheet of everything about one figure, above the place that it stands in.

use std::rc::Rc;

use slint::ComponentHandle;

use super::calls::calls_plain;
use super::rows::model;
use super::screen_values::{basis_kind, float, standing};
use super::shell::refresh_screen;
use super::{State, ui};
use crate::report::{BasisSheet, RangeVerdict};

/// Wires the sheet.
pub(super) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    window.global::<ui::BasisAdapter>().on_close_asked(calls_plain(window, state, |window, state| {
        state.open.borrow_mut().basis = None;
        refresh_screen(window, state);
    }));
}

/// Shows the sheet of a figure, or none.
pub(super) fn show(window: &ui::AppWindow, sheet: Option<(&str, &BasisSheet)>) {
    let adapter = window.global::<ui::BasisAdapter>();
    adapter.set_open(sheet.is_some());
    if let Some((id, sheet)) = sheet {
        adapter.set_view(view(id, sheet));
    }
}

/// A basis sheet.
fn view(id: &str, sheet: &BasisSheet) -> ui::BasisView {
    ui::BasisView {
        id: id.into(),
        label: sheet.label.as_str().into(),
        figure: sheet.figure.figure.as_str().into(),
        unit: sheet.figure.unit.as_str().into(),
        second: sheet.figure.second.as_str().into(),
        standing: sheet.standing.map_or(ui::Standing::None, |found| standing(found, false)),
        sentence: sheet.sentence.as_str().into(),
        basis_kind: basis_kind(&sheet.basis),
        basis_label: sheet.basis.label.as_str().into(),
        formula: model(sheet.formula.iter().map(|line| formula_row(line)).collect()),
        steps: model(
            sheet
                .steps
                .iter()
                .map(|step| ui::StepRow {
                    text: step.text.as_str().into(),
                    value: step.value.as_str().into(),
                })
                .collect(),
        ),
        ranges: model(
            sheet
                .ranges
                .iter()
                .map(|range| ui::RangeRow {
                    name: range.name.as_str().into(),
                    value: range.value.as_str().into(),
                    limits: range.limits.as_str().into(),
                    from: float(range.from),
                    to: float(range.to),
                    at: float(range.at),
                    verdict: match range.verdict {
                        RangeVerdict::Inside => ui::RangeVerdict::Inside,
                        RangeVerdict::AtLimit => ui::RangeVerdict::AtLimit,
                        RangeVerdict::Outside => ui::RangeVerdict::Outside,
                        RangeVerdict::NotStated => ui::RangeVerdict::NotStated,
                    },
                    word: range.word.as_str().into(),
                })
                .collect(),
        ),
        paragraphs: model(
            sheet
                .paragraphs
                .iter()
                .map(|(label, text)| ui::ParagraphRow {
                    label: label.as_str().into(),
                    text: text.as_str().into(),
                })
                .collect(),
        ),
    }
}

/// A line of a formula: what follows `^` up to a space or sign is raised.
fn formula_row(line: &str) -> ui::FormulaRow {
    let Some((before, after)) = line.split_once('^') else {
        return ui::FormulaRow { text: line.into(), ..ui::FormulaRow::default() };
    };
    let figure = |(at, sign): (usize, char)| {
        let digit = |sign: Option<char>| sign.is_some_and(|sign| sign.is_ascii_digit());
        // A decimal mark is of the figure, a comma or full stop behind it is not.
        digit(Some(sign)) || matches!(sign, '.' | ',') && digit(after[at + 1..].chars().next())
    };
    let end = after.char_indices().find(|found| !figure(*found)).map_or(after.len(), |(at, _)| at);
    ui::FormulaRow { text: before.into(), superscript: after[..end].into(), rest: after[end..].into() }
}
