//! The rows of the pages beside the plan: which of them are the same thing on the screen.

use slint::{Model, ModelRc, SharedString, VecModel};

use super::rows::{Row, sync};
use super::{State, ui};

impl Row for ui::SteelEntry {
    fn same(&self, other: &Self) -> bool {
        self.kind == other.kind && self.id == other.id
    }

    fn adopt(&mut self, shown: &Self) {
        // The columns of twins follow from the number that they share, which is their id.
        self.names = shown.names.clone();
        self.figures = shown.figures.clone();
    }
}

impl Row for ui::FillerEntry {
    fn same(&self, other: &Self) -> bool {
        self.kind == other.kind && self.id == other.id
    }
}

impl Row for ui::CautionRow {
    fn same(&self, other: &Self) -> bool {
        self.id == other.id
    }
}

impl Row for ui::SafetyPlace {
    fn same(&self, other: &Self) -> bool {
        self.id == other.id
    }

    fn adopt(&mut self, shown: &Self) {
        if let Some(kept) = shown.rows.as_any().downcast_ref::<VecModel<ui::CautionRow>>() {
            let fresh = self.rows.iter().collect();
            self.rows = shown.rows.clone();
            sync(kept, fresh);
        }
    }
}

impl Row for ui::FigureView {
    fn same(&self, other: &Self) -> bool {
        self.id == other.id
    }
}

impl Row for ui::LicenceRow {
    fn same(&self, other: &Self) -> bool {
        self.id == other.id
    }
}

/// Brings a model that `connect` has put there to fresh rows.
pub(super) fn put<T: Row>(shown: &ModelRc<T>, fresh: Vec<T>) {
    let shown = shown.as_any().downcast_ref::<VecModel<T>>().expect("connect puts a VecModel there");
    sync(shown, fresh);
}

/// A count in words: the message KEY, or KEY-one for just one.
pub(super) fn counted(state: &State, key: &str, count: usize) -> SharedString {
    let one = format!("{key}-one");
    let key = if count == 1 { one.as_str() } else { key };
    state.words.with(key, &[("count", &count.to_string())]).into()
}

/// A toggle of a set of ids.
pub(super) fn toggle(set: &mut std::collections::BTreeSet<String>, id: &str) {
    if !set.remove(id) {
        set.insert(id.to_owned());
    }
}
