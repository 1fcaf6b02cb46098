//! How far handbooks differ, from each other and from the model.

use crate::app::form::parts::{based, plain_row};
use crate::app::form::parts::{result_part, text_part};
use crate::app::{State, ui};
use crate::engine::tint::Stage;
use crate::engine::tint::tables::{Coverage, TableCell, cells, column_coverage, set_coverage};
use crate::reference::tint::{CoverageSet, TintColumn, TintData};
use crate::report::{printed_range, source_line, stage_head};
use crate::words::List;

/// Sets in the order in which they grow, with the end of their key.
const SETS: [(CoverageSet, &str); 3] =
    [(CoverageSet::S1, "others"), (CoverageSet::S2, "ten-degree"), (CoverageSet::S3, "unfitted")];

/// Every list for low-alloy steel beside the model.
pub(super) fn handbooks_row(state: &State) -> ui::FormRow {
    let tables = &TintData::embedded().tables;
    let mut parts = vec![text_part("lists-no-row", state.words.get("tint-no-independent-row"))];
    let all: Vec<TableCell> =
        tables.columns.iter().filter_map(|column| cells(column).ok()).flatten().collect();
    parts.extend(Stage::ALL.iter().copied().filter_map(|stage| stage_part(state, stage, &all)));
    let practice = &tables.practice;
    let both = printed_range(&state.pen(), practice.low_c, practice.high_c);
    let part = result_part(
        &practice.id,
        state.words.get("tint-lists-practice"),
        both.main,
        state.words.get("tint-lists-practice-note"),
    );
    parts.push(based(&state.pen(), &practice.basis, part));
    for (set, end) in SETS {
        if let Ok(coverage) = set_coverage(set) {
            let label = state.words.get(&format!("tint-lists-set-{end}"));
            parts.push(result_part(&format!("lists-{end}"), label, String::new(), within(state, coverage)));
        }
    }
    parts.extend(tables.columns.iter().map(|column| column_part(state, column)));
    plain_row(state, "tint-lists", String::new(), parts)
}

/// All figures that are printed for a colour, beside the model.
fn stage_part(state: &State, stage: Stage, all: &[TableCell]) -> Option<ui::PartRow> {
    let pen = state.pen();
    let of_stage: Vec<&TableCell> = all.iter().filter(|cell| cell.stage == stage).collect();
    let first = of_stage.first()?;
    let columns = &TintData::embedded().tables.columns;
    let rows = columns.iter().flat_map(|column| &column.rows);
    let rows = rows.filter(|row| row.stage.as_deref() == Some(stage.id()));
    let (low_c, high_c) = rows.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), row| {
        (row.low_c.min(low), row.high_c.max(high))
    });
    // Printed figures are shown as they stand in the lists, not rounded to a safe side.
    let printed = printed_range(&pen, low_c, high_c).main;
    let (model, sigma) = (pen.show.temperature(first.model_c).main, pen.show.difference(first.sigma_k).main);
    let note = pen.words.with("tint-lists-model", &[("model", &model), ("sigma", &sigma)]);
    Some(result_part(stage.id(), stage_head(&pen, stage), printed, note))
}

fn within(state: &State, coverage: Coverage) -> String {
    let counts = [("count", coverage.count), ("within", coverage.two_sigma), ("one", coverage.one_sigma)];
    state.words.numbers("tint-lists-column", &counts, &[])
}

fn column_part(state: &State, column: &TintColumn) -> ui::PartRow {
    let pen = state.pen();
    let mut note: Vec<String> = Vec::new();
    note.extend(column_coverage(column).ok().map(|coverage| within(state, coverage) + "."));
    if column.fitted {
        note.push(state.words.get("tint-lists-fitted"));
    }
    note.extend(column.note.as_ref().map(|key| state.words.get(key)));
    let part = result_part(
        &column.id,
        source_line(&pen, &column.basis),
        String::new(),
        state.words.list(List::Sentences, &note),
    );
    based(&pen, &column.basis, part)
}

/// The lists for stainless steel, as they are printed.
pub(super) fn stainless_row(state: &State) -> ui::FormRow {
    let pen = state.pen();
    let mut parts = vec![text_part("stainless-note", state.words.get("tint-stainless-note"))];
    for column in &TintData::embedded().tables.stainless {
        let part = result_part(&column.id, source_line(&pen, &column.basis), String::new(), String::new());
        parts.push(based(&pen, &column.basis, part));
        parts.extend(column.rows.iter().map(|row| {
            let both = pen.show.temperature(row.middle_c());
            result_part(&format!("{}-{}", column.id, row.name), row.name.clone(), both.main, both.second)
        }));
    }
    plain_row(state, "tint-stainless", String::new(), parts)
}
