//! Where the data comes from: every source, how it was read, and what rests on memory or on practice.

use crate::app::rows::put;
use crate::app::{State, ui};
use crate::reference::check::{Resting, rows_of_sources};
use crate::reference::{Row as _, Source, SourceRead};
use crate::words::{List, Wanted};

/// So many of them are shown at once: a phone's renderer draws nothing that is higher than 32,767 of its
/// pixels, three to ours, and letters may be twice as large.
const PART: usize = 20;

/// Fills the list.
pub(super) fn fill(adapter: &ui::SourcesAdapter<'_>, state: &State) {
    let count = state.reference.sources.iter().count();
    adapter.set_note(state.words.count("settings-sources-note", count, &[]).into());
    let open = state.open.borrow();
    adapter.set_open(open.sources);
    adapter.set_query(open.sources_query.as_str().into());
    let mut found = if open.sources { rows(state, &open.sources_query) } else { Vec::new() };
    adapter.set_none(open.sources && found.is_empty());
    let count = found.len();
    // The last part is followed by the first.
    let parts = i32::try_from(count.div_ceil(PART).max(1)).unwrap_or(1);
    let part = usize::try_from(open.sources_part.rem_euclid(parts)).unwrap_or(0);
    let (from, to) = (part * PART, count.min((part + 1) * PART));
    let line = || {
        let numbers = [("from", from + 1), ("to", to), ("count", count)];
        state.words.numbers("settings-sources-shown", &numbers, &[])
    };
    adapter.set_shown(if count > PART { line() } else { String::new() }.into());
    put(&adapter.get_rows(), found.drain(from..to).collect());
}

/// What stands in the list for a query: all of it for a query of nothing.
fn rows(state: &State, query: &str) -> Vec<ui::SourceRow> {
    let wanted = Wanted::of(&state.words, query, &[]);
    let resting = rows_of_sources(state.reference);
    let says = |key: &str| state.words.get(key);
    let used = |rows: usize| state.words.count("settings-source-rows", rows, &[]);
    let nowhere = |id: &str, key: &str, seen: &str, rows: usize, kind: ui::BasisKind| ui::SourceRow {
        id: id.into(),
        title: state.word(key),
        seen: state.word(seen),
        rows: used(rows).into(),
        basis_kind: kind,
    };
    let (memory, practice) = (ui::BasisKind::Memory, ui::BasisKind::Practice);
    let nothing_seen = [
        nowhere("memory", "basis-memory", "settings-source-recalled", resting.memory, memory),
        nowhere("practice", "basis-practice", "basis-practice-line", resting.practice, practice),
    ];
    let sources = state.reference.sources.iter().map(|source| {
        source_row(state, source, resting.sources.get(source.id()).copied().unwrap_or_default())
    });
    let works = resting.works.iter().map(|(work, rows)| ui::SourceRow {
        // No source has a space in its id.
        id: state.words.list(List::Names, &["memory", work]).into(),
        title: (*work).into(),
        seen: says("basis-memory").into(),
        rows: used(*rows).into(),
        basis_kind: ui::BasisKind::Memory,
    });
    let all = nothing_seen.into_iter().chain(sources).chain(works);
    let mut found: Vec<(usize, ui::SourceRow)> = all
        .filter_map(|row| {
            let rest = [row.id.as_str(), &row.seen, &row.rows].join("\n");
            let missing = wanted.missing(&row.title, &rest);
            (missing.anywhere == 0).then_some((missing.in_title, row))
        })
        .collect();
    // What bears the words in its title comes first.
    found.sort_by_key(|(missing, _)| *missing);
    found.into_iter().map(|(_, row)| row).collect()
}

fn source_row(state: &State, source: &Source, resting: Resting) -> ui::SourceRow {
    let title = match &source.edition {
        Some(edition) => state.words.list(List::Comma, &[&source.title, edition]),
        None => source.title.clone(),
    };
    let mut said = vec![state.words.count("settings-source-rows", resting.rows, &[])];
    if resting.partly_memory > 0 {
        said.push(state.words.count("settings-source-partly", resting.partly_memory, &[]));
    }
    said.extend(source.note.clone());
    ui::SourceRow {
        id: source.id.as_str().into(),
        title: title.into(),
        seen: state
            .words
            .with(&format!("settings-source-{}", source.read.id()), &[("seen", &source.seen)])
            .into(),
        rows: state.words.list(List::Sentences, &said).into(),
        // The disc stands for a text that was seen itself.
        basis_kind: match source.read {
            SourceRead::Text => ui::BasisKind::Published,
            SourceRead::Summary | SourceRead::Quoted => ui::BasisKind::None,
            SourceRead::Unread => ui::BasisKind::Memory,
        },
    }
}
