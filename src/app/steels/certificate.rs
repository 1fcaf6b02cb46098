//! A mill certificate typed in: a steel of one's own.

use std::rc::Rc;

use slint::{ComponentHandle, SharedString};

use super::certificate_draft::{self as draft, ReadDraft, get, set};
use super::detail::{EQUIVALENTS, limits_text};
use crate::app::calls::{calls, calls_pair, calls_plain};
use crate::app::rows::model;
use crate::app::rows::put;
use crate::app::screen_values::basis_kind;
use crate::app::shell::{back, open_page};
use crate::app::{BasisOf, ChosenFor, Page, State, basis, ui};
use crate::engine::carbon_equivalent::{Equivalent, carbon_equivalent};
use crate::job::LOOKED_FOR;
use crate::job::typed::{Improbable, composition};
use crate::reference::{Composition, Element};
use crate::report::{basis_mark, equivalent_sheet, source_line};
use crate::words::List;

/// Wires the editor.
pub(crate) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let adapter = window.global::<ui::CertificateAdapter>();
    adapter.set_elements(model(Vec::new()));
    adapter.set_readout(model(Vec::new()));
    adapter.on_field_edited(calls_pair(
        window,
        state,
        |window, state, field: SharedString, text: SharedString| {
            if field == "line" {
                state.open.borrow_mut().certificate_line_asked = false;
            }
            set(state, &field, &text);
            refresh(window, state);
        },
    ));
    // Every letter was kept as it was typed. A field that goes with its page must not write
    // into a draft that has just been saved.
    adapter.on_field_committed(|_, _| {});
    adapter.on_line_asked(calls(window, state, |window, state, text: SharedString| {
        read_line(state, &text);
        refresh(window, state);
    }));
    adapter.on_figure_asked(calls(window, state, |window, state, id: SharedString| {
        let which = EQUIVALENTS.into_iter().find(|which| id == which.id());
        state.open.borrow_mut().basis = which.map(BasisOf::Certificate);
        refresh(window, state);
    }));
    let plain = |act: fn(&ui::AppWindow, &Rc<State>)| calls_plain(window, state, act);
    adapter.on_grade_asked(plain(|window, state| open_page(window, state, Page::Steels)));
    adapter.on_grade_cleared(plain(|window, state| {
        set(state, "grade", "");
        refresh(window, state);
    }));
    adapter.on_save_asked(plain(|window, state| draft::save(window, state)));
    adapter.on_discard_asked(plain(|window, state| {
        state.open.borrow_mut().certificate_line_asked = false;
        draft::discard(state);
        refresh(window, state);
    }));
    adapter.on_delete_confirmed(plain(|window, state| {
        let name = state.open.borrow().certificate_of.clone();
        if let Some(name) = name {
            draft::delete(state, &name);
        }
        state.open.borrow_mut().steel_detail = None;
        back(window, state);
    }));
}

/// Opens the editor: for an own steel, or for a new one.
pub(crate) fn open(window: &ui::AppWindow, state: &State, name: Option<&str>) {
    {
        let mut open = state.open.borrow_mut();
        open.certificate_of = name.map(str::to_owned);
        open.certificate_line_asked = false;
    }
    open_page(window, state, Page::Certificate);
}

/// Puts the figures of a pasted line into their fields; what can't be read stays as it is.
fn read_line(state: &State, text: &str) {
    state.open.borrow_mut().certificate_line_asked = true;
    let mut typed = vec![("line".to_owned(), text.to_owned())];
    if let Ok(line) = composition(text) {
        let figures = line.stated.iter().map(|&element| {
            (element.symbol().to_owned(), draft::share(state, line.composition.get(element)))
        });
        typed.extend(figures);
    }
    draft::set_all(state, &typed);
}

/// Fills the editor.
pub(crate) fn refresh(window: &ui::AppWindow, state: &State) {
    let adapter = window.global::<ui::CertificateAdapter>();
    let read = draft::read(state);
    adapter.set_editing(read.editing);
    adapter.set_name(ui::FieldRow {
        id: "name".into(),
        label: state.word("certificate-name"),
        text: get(state, "name").into(),
        hint: state.word("certificate-name-hint"),
        ..ui::FieldRow::default()
    });
    adapter.set_grade(read.grade.map_or("", |grade| grade.designation.as_str()).into());
    adapter.set_grade_note(state.word("certificate-grade-note"));
    fill_line(&adapter, state);
    let odd = read.improbable();
    put(
        &adapter.get_elements(),
        read.elements.iter().map(|typed| element_row(state, &read, typed, &odd)).collect(),
    );
    // A slip of the decimal mark gives figures that look like answers.
    let found = read.composition().filter(|_| odd.is_empty());
    put(&adapter.get_readout(), readout(state, found.as_ref().map(|(steel, _)| steel)));
    adapter.set_readout_note(if odd.is_empty() {
        readout_note(state, &read, found.as_ref()).into()
    } else {
        state.word("certificate-has-improbable")
    });
    let refusal = read.refusal(state);
    adapter.set_can_save(refusal.is_none());
    let chosen_for = state.open.borrow().chosen_for;
    let saved = match chosen_for {
        _ if read.editing => "certificate-changes-everywhere",
        ChosenFor::Question(_) => "certificate-goes-into-question",
        ChosenFor::Nth(_) => "certificate-goes-into-job",
    };
    adapter.set_save_note(state.word(refusal.unwrap_or(saved)));
    adapter.set_can_discard(draft::is_unsaved(state));
    fill_basis(window, state, found.as_ref().map(|(steel, _)| steel));
}

fn fill_line(adapter: &ui::CertificateAdapter<'_>, state: &State) {
    let text = get(state, "line");
    let asked = state.open.borrow().certificate_line_asked;
    let (problem, note) = match (asked, composition(&text)) {
        (false, _) => (SharedString::default(), SharedString::default()),
        (true, Err(problem)) => (problem.say(&state.words).into(), SharedString::default()),
        (true, Ok(line)) => {
            let mut note = state.words.count("certificate-line-read", line.stated.len(), &[]);
            if !line.unused.is_empty() {
                let unused = state.words.list(List::Comma, &line.unused);
                note.push(' ');
                note.push_str(&state.words.with("certificate-line-unused", &[("unused", &unused)]));
            }
            (SharedString::default(), note.into())
        }
    };
    adapter.set_line(ui::FieldRow {
        id: "line".into(),
        label: state.word("certificate-line"),
        text: text.into(),
        hint: state.word("certificate-line-hint"),
        problem,
        ..ui::FieldRow::default()
    });
    adapter.set_line_note(note);
}

fn element_row(
    state: &State,
    read: &ReadDraft<'_>,
    typed: &draft::Typed,
    odd: &[Improbable],
) -> ui::FieldRow {
    let symbol = typed.element.symbol();
    // What counts where nothing is typed stands in the empty field.
    let limits = read.grade.and_then(|grade| grade.composition.get(&typed.element));
    let problem = typed.read.as_ref().err().map(|problem| {
        state.words.with("certificate-problem", &[("symbol", symbol), ("said", &problem.say(&state.words))])
    });
    let slip = || odd.iter().find(|odd| odd.element == typed.element).map(|odd| odd.say(&state.words));
    let problem = problem.or_else(slip);
    ui::FieldRow {
        id: symbol.into(),
        label: symbol.into(),
        text: typed.text.as_str().into(),
        hint: limits.map_or_else(|| "–".into(), |limits| limits_text(&state.show(), *limits).into()),
        problem: problem.unwrap_or_default().into(),
        ..ui::FieldRow::default()
    }
}

fn readout(state: &State, steel: Option<&Composition>) -> Vec<ui::FigureView> {
    let pen = state.pen();
    let figure = |which: Equivalent| {
        let row = pen.reference.methods.row(which.method());
        let basis = &row.basis;
        let found =
            steel.and_then(|steel| carbon_equivalent(which, row, steel).ok()).and_then(|found| found.value);
        // What there is not rests on nothing.
        let mark = found.map(|_| basis_mark(&pen, basis));
        ui::FigureView {
            id: which.id().into(),
            label: state.word(&format!("answer-{}", which.id())),
            figure: found.map_or_else(|| "–".into(), |value| pen.show.number(value, 3).into()),
            basis_kind: mark.as_ref().map_or(ui::BasisKind::None, basis_kind),
            basis_label: mark.map(|mark| mark.label).unwrap_or_default().into(),
            note: source_line(&pen, basis).into(),
            ..ui::FigureView::default()
        }
    };
    EQUIVALENTS.into_iter().map(figure).collect()
}

/// What was assumed for the figures, and which of them lie outside their range.
fn readout_note(state: &State, read: &ReadDraft<'_>, found: Option<&(Composition, Vec<Element>)>) -> String {
    let symbols = |elements: &[Element]| {
        let symbols: Vec<&str> = elements.iter().map(|element| element.symbol()).collect();
        state.words.list(List::Comma, &symbols)
    };
    let with = |key: &str, elements: &[Element]| state.words.with(key, &[("elements", &symbols(elements))]);
    let unread = read.unread();
    let mut notes = Vec::new();
    match found {
        None if !unread.is_empty() => notes.push(with("certificate-no-figure-unread", &unread)),
        None => notes.push(state.words.get("certificate-no-figure")),
        Some((steel, filled)) => {
            if !unread.is_empty() {
                notes.push(with("certificate-unread-at-maximum", &unread));
            }
            let untyped: Vec<Element> =
                filled.iter().copied().filter(|element| !unread.contains(element)).collect();
            if !untyped.is_empty() {
                notes.push(with("certificate-at-maximum", &untyped));
            }
            // Without a grade to fill them the gaps weigh nothing, and the sums come out low.
            let gaps: Vec<Element> = read
                .elements
                .iter()
                .filter(|typed| typed.text.trim().is_empty() && LOOKED_FOR.contains(&typed.element))
                // They are in none of these sums.
                .filter(|typed| !matches!(typed.element, Element::P | Element::S))
                .map(|typed| typed.element)
                .collect();
            if read.grade.is_none() && !gaps.is_empty() {
                notes.push(with("certificate-at-zero", &gaps));
            }
            let outside = EQUIVALENTS.into_iter().filter_map(|which| outside(state, which, steel));
            let outside: Vec<String> = outside.collect();
            if !outside.is_empty() {
                let list = state.words.list(List::Semicolon, &outside);
                notes.push(state.words.with("certificate-out-of-range", &[("list", &list)]));
            }
        }
    }
    state.words.list(List::Sentences, &notes)
}

/// An equivalent and the elements that lie outside its range; none where all lie inside.
fn outside(state: &State, which: Equivalent, steel: &Composition) -> Option<String> {
    let range = which.range(state.reference.methods.row(which.method()), steel);
    // The sum of CE (IIW) is no element.
    let outside = range.into_iter().filter(|check| check.symbol != "CE" && !check.inside());
    let symbols: Vec<&str> = outside.map(|check| check.symbol).collect();
    if symbols.is_empty() {
        return None;
    }
    let name = state.words.get(&format!("answer-{}", which.id()));
    let elements = state.words.list(List::Comma, &symbols);
    Some(state.words.with("certificate-outside", &[("name", &name), ("elements", &elements)]))
}

/// The basis of a figure of this page, where it is asked for.
fn fill_basis(window: &ui::AppWindow, state: &State, steel: Option<&Composition>) {
    let Some(BasisOf::Certificate(which)) = state.open.borrow().basis else { return };
    let sheet = steel.and_then(|steel| equivalent_sheet(&state.pen(), which, steel));
    basis::show(window, sheet.as_ref().map(|sheet| (which.id(), sheet)));
    // Without a figure there is nothing to ask.
    if sheet.is_none() {
        state.open.borrow_mut().basis = None;
    }
}
