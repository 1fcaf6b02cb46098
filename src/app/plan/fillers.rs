//! Which filler: search, take one, or say what is known of the weld metal.

use std::rc::Rc;

use slint::{ComponentHandle, SharedString};

use crate::app::calls::{calls, calls_pair, calls_plain};
use crate::app::rows::model;
use crate::app::rows::put;
use crate::app::screen_values::basis_kind;
use crate::app::shell::back;
use crate::app::{State, ui};
use crate::job::{Field, Slot, find_filler};
use crate::reference::search::Match;
use crate::reference::{ArcKind, Basis, DepositState, Filler, FillerKind};
use crate::report::{basis_mark, printed_range, source_line};
use crate::units::LengthUnit;
use crate::words::List;

/// The figures of the weld metal that can be typed.
const TYPED: [Field; 2] = [Field::WeldStrength, Field::WeldCet];

/// Wires the list.
pub(crate) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let adapter = window.global::<ui::FillersAdapter>();
    adapter.set_entries(model(Vec::new()));
    adapter.set_typed(model(Vec::new()));
    adapter.on_query_edited(calls(window, state, |window, state, text: SharedString| {
        state.open.borrow_mut().filler_query = text.to_string();
        refresh(window, state);
    }));
    adapter.on_filler_chosen(calls(window, state, |window, state, id: SharedString| {
        if let Some(filler) = state.reference.filler(&id) {
            state.change_job(|job| job.set(slot(state), Some(filler.classification.clone())));
            back(window, state);
        }
    }));
    adapter.on_unknown_picked(calls_plain(window, state, |window, state| {
        state.change_job(|job| job.set(slot(state), None));
        back(window, state);
    }));
    adapter.on_field_edited(calls_pair(window, state, typed));
    adapter.on_field_committed(calls_pair(window, state, typed));
}

/// The filler that is chosen: that of one process.
fn slot(state: &State) -> Slot {
    Field::Filler.nth(state.open.borrow().chosen_for.nth())
}

/// A figure of the weld metal was typed.
fn typed(window: &ui::AppWindow, state: &Rc<State>, id: SharedString, text: SharedString) {
    if let Some(field) = Field::from_id(&id) {
        let text = Some(text.to_string()).filter(|text| !text.trim().is_empty());
        let same = state.session(|session| session.job.get(field) == text.as_deref());
        if !same {
            state.change_job(|job| job.set(field, text));
        }
        refresh(window, state);
    }
}

/// Fills the list.
pub(crate) fn refresh(window: &ui::AppWindow, state: &State) {
    let adapter = window.global::<ui::FillersAdapter>();
    let query = state.open.borrow().filler_query.clone();
    let typed = state.session(|session| session.job.get(slot(state)).unwrap_or_default().to_owned());
    let chosen = find_filler(&typed, state.reference).ok();
    let mut entries = vec![
        ui::FillerEntry { kind: ui::FillerEntryKind::Unknown, ..ui::FillerEntry::default() },
        ui::FillerEntry { kind: ui::FillerEntryKind::Typed, ..ui::FillerEntry::default() },
    ];
    entries.extend(if query.trim().is_empty() {
        browse(state, chosen)
    } else {
        found(state, &query, chosen)
    });
    adapter.set_query(query.as_str().into());
    adapter.set_unknown_chosen(typed.trim().is_empty());
    adapter.set_unknown_note(state.word("fillers-unknown-note"));
    adapter.set_typed_note(state.word("fillers-typed-note"));
    let nothing = state.words.with("fillers-nothing", &[("query", query.trim())]);
    adapter.set_empty_title(nothing.into());
    adapter.set_empty_text(state.word("fillers-nothing-try"));
    put(&adapter.get_typed(), TYPED.into_iter().map(|field| field_row(state, field)).collect());
    put(&adapter.get_entries(), entries);
}

fn field_row(state: &State, field: Field) -> ui::FieldRow {
    let label = state.words.get(&field.key());
    let inches = state.show().units.length == LengthUnit::Inch;
    let unit = match field {
        Field::WeldStrength if inches => "ksi",
        Field::WeldStrength => "MPa",
        _ => "%",
    };
    let text = state.session(|session| session.job.get(field).unwrap_or_default().to_owned());
    let problem = state
        .problem_of(field)
        .map(|said| state.words.with("certificate-problem", &[("symbol", &label), ("said", &said)]));
    ui::FieldRow {
        id: field.id().into(),
        label: label.into(),
        text: text.into(),
        unit: unit.into(),
        hint: "–".into(),
        problem: problem.unwrap_or_default().into(),
        ..ui::FieldRow::default()
    }
}

/// Kinds of arc, those of the job first.
fn arcs(state: &State) -> Vec<ArcKind> {
    let mut arcs = Vec::new();
    if let Some(job) = state.job() {
        for run in &job.runs {
            arcs.extend(state.reference.process(run.process.id()).map(|process| process.arc));
        }
    }
    arcs.extend(ArcKind::ALL);
    let mut seen = std::collections::BTreeSet::new();
    arcs.retain(|arc| seen.insert(*arc));
    arcs
}

/// Nothing typed: every filler under the first arc that it is used with.
fn browse(state: &State, chosen: Option<&Filler>) -> Vec<ui::FillerEntry> {
    let arcs = arcs(state);
    let first = |filler: &Filler| arcs.iter().find(|arc| filler.arcs.contains(arc)).copied();
    let mut entries = Vec::new();
    for arc in &arcs {
        let under: Vec<&Filler> = state
            .reference
            .fillers
            .iter()
            .filter(|filler| filler.kind == FillerKind::Filler && first(filler) == Some(*arc))
            .collect();
        if !under.is_empty() {
            entries.push(head(state, &format!("fillers-for-{}", arc.id()), "fillers-strength-note"));
            entries.extend(under.into_iter().map(|filler| filler_row(state, filler, chosen)));
        }
    }
    entries.push(head(state, "fillers-symbols", "fillers-symbols-note"));
    let symbols = state.reference.fillers.iter().filter(|filler| filler.kind == FillerKind::StrengthSymbol);
    entries.extend(symbols.map(|filler| filler_row(state, filler, chosen)));
    entries
}

/// What a query finds.
fn found(state: &State, query: &str, chosen: Option<&Filler>) -> Vec<ui::FillerEntry> {
    let answer = state.reference.search(query);
    let hits =
        answer.hits.iter().filter_map(|hit| state.reference.filler_of(hit).map(|filler| (hit, filler)));
    let mut entries = Vec::new();
    let mut near = false;
    for (hit, filler) in hits {
        if hit.how == Match::Neighbour && !near {
            near = true;
            entries.push(head(state, "steels-did-you-mean", "fillers-did-you-mean-note"));
        }
        entries.push(filler_row(state, filler, chosen));
    }
    if entries.is_empty() {
        entries.push(ui::FillerEntry { kind: ui::FillerEntryKind::Empty, ..ui::FillerEntry::default() });
    }
    entries
}

fn head(state: &State, title: &str, note: &str) -> ui::FillerEntry {
    ui::FillerEntry {
        kind: ui::FillerEntryKind::Head,
        id: title.into(),
        title: state.word(title),
        also: state.word(note),
        ..ui::FillerEntry::default()
    }
}

fn filler_row(state: &State, filler: &Filler, chosen: Option<&Filler>) -> ui::FillerEntry {
    let pen = state.pen();
    let strength =
        filler.tensile_min_mpa.map_or_else(SharedString::default, |mpa| pen.show.strength(mpa).main.into());
    let also: Vec<&str> = std::iter::once(&filler.spec).chain(&filler.also).map(String::as_str).collect();
    let mut notes: Vec<String> = filler.notes.iter().map(|note| state.words.get(note)).collect();
    match filler.state {
        DepositState::AsWelded => {}
        DepositState::HeatTreated { low_c, high_c } => {
            let shown = |point_c: f64| pen.show.temperature(point_c).main;
            let span = match (low_c, high_c) {
                (Some(low_c), Some(high_c)) if low_c != high_c => {
                    Some(printed_range(&pen, low_c, high_c).main)
                }
                (Some(point_c), _) | (None, Some(point_c)) => Some(shown(point_c)),
                (None, None) => None,
            };
            notes.insert(
                0,
                match span {
                    Some(span) => state.words.with("fillers-heat-treated-at", &[("span", &span)]),
                    None => state.words.get("fillers-heat-treated"),
                },
            );
        }
        DepositState::HardenedWithPart => notes.insert(0, state.words.get("fillers-hardened-with-part")),
    }
    let (basis, mark) = bases(state, filler);
    ui::FillerEntry {
        kind: ui::FillerEntryKind::Filler,
        id: filler.id.as_str().into(),
        title: filler.classification.as_str().into(),
        strength,
        also: state.words.list(List::Names, &also).into(),
        notes: state.words.list(List::Sentences, &notes).into(),
        chosen: chosen.is_some_and(|one| one.id == filler.id),
        basis_kind: basis_kind(&basis_mark(&pen, mark)),
        basis_label: basis.into(),
    }
}

/// What strength and composition of a filler rest on, in words, and the weaker of the two.
fn bases<'a>(state: &State, filler: &'a Filler) -> (String, &'a Basis) {
    let said =
        |key: &str, basis: &Basis| state.words.with(key, &[("source", &source_line(&state.pen(), basis))]);
    let (of_strength, of_metal) = (&filler.mechanics_basis, &filler.composition_basis);
    match (filler.tensile_min_mpa.is_some(), !filler.composition.is_empty()) {
        (true, true) if of_strength == of_metal => {
            (said("fillers-strength-and-composition", of_metal), of_metal)
        }
        (true, true) => {
            let each = [said("fillers-strength", of_strength), said("fillers-composition", of_metal)];
            (state.words.list(List::Sentences, &each), of_strength.weaker(of_metal))
        }
        (false, true) => (said("fillers-composition", of_metal), of_metal),
        (true, false) => {
            let each = [said("fillers-strength", of_strength), state.words.get("fillers-no-composition")];
            (state.words.list(List::Sentences, &each), of_strength)
        }
        (false, false) => (state.words.get("fillers-no-composition"), of_metal),
    }
}
