//! Keeps a model in step with fresh rows without replacing it: a field that is being typed
//! into stays the same field, and keeps the keyboard.

use slint::{Model, ModelRc, VecModel};

use super::ui;

/// A row that may hold further models, which are kept and brought up to date in place.
pub trait Row: Clone + PartialEq + 'static {
    /// Is this the same thing on the screen, perhaps with other contents?
    fn same(&self, other: &Self) -> bool;

    /// Gives `self`, which is fresh, the inner models of the row that is on the screen.
    fn adopt(&mut self, _shown: &Self) {}
}

/// Rows that are the same thing on the screen where these fields are equal.
macro_rules! same_by {
    ($($row:ty: $($field:ident),+;)*) => {$(
        impl Row for $row {
            fn same(&self, other: &Self) -> bool {
                $(self.$field == other.$field)&&+
            }
        }
    )*};
}

same_by! {
    ui::FieldRow: id;
    ui::FillerEntry: kind, id;
    ui::CautionRow: id;
    ui::FigureView: id;
    ui::LicenceRow: id;
    ui::SourceRow: id;
    ui::SwatchRow: name;
    ui::BenchEntry: kind, id;
    ui::BenchPush: id;
    ui::CycleFigure: id;
    ui::LastJob: key;
    ui::ShownMoment: label;
    ui::TestCell: id;
    ui::TestLine: kind, id, text;
    ui::LogJobRow: id;
    ui::LogPieceCell: id;
    ui::LogTrialRow: id;
    ui::LogConflict: id;
    ui::LogReadingRow: id;
    ui::LogStepRow: id;
    ui::LogPhotoRow: id;
    ui::LogUsedEntry: id;
}

impl Row for ui::PartRow {
    fn same(&self, other: &Self) -> bool {
        self.id == other.id && self.kind == other.kind
    }

    fn adopt(&mut self, shown: &Self) {
        self.fields = adopted(&self.fields, &shown.fields);
        if self.choices.iter().eq(shown.choices.iter()) {
            self.choices = shown.choices.clone();
        }
    }
}

impl Row for ui::FormRow {
    fn same(&self, other: &Self) -> bool {
        self.id == other.id
    }

    fn adopt(&mut self, shown: &Self) {
        self.parts = adopted(&self.parts, &shown.parts);
    }
}

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

impl Row for ui::LogUsedLine {
    fn same(&self, other: &Self) -> bool {
        self.id == other.id
    }

    fn adopt(&mut self, shown: &Self) {
        self.entries = adopted(&self.entries, &shown.entries);
    }
}

impl Row for ui::SafetyPlace {
    fn same(&self, other: &Self) -> bool {
        self.id == other.id
    }

    fn adopt(&mut self, shown: &Self) {
        self.rows = adopted(&self.rows, &shown.rows);
    }
}

/// A model of these rows, ready for [`sync`].
#[must_use]
pub fn model<T: Clone + 'static>(rows: Vec<T>) -> ModelRc<T> {
    ModelRc::new(VecModel::from(rows))
}

/// Brings a model that `connect` has put there to fresh rows.
pub(super) fn put<T: Row>(shown: &ModelRc<T>, fresh: Vec<T>) {
    let shown = shown.as_any().downcast_ref::<VecModel<T>>().expect("connect puts a VecModel there");
    sync(shown, fresh);
}

/// The shown model with the fresh rows in it; the fresh model where the shown one isn't ours.
fn adopted<T: Row>(fresh: &ModelRc<T>, shown: &ModelRc<T>) -> ModelRc<T> {
    match shown.as_any().downcast_ref::<VecModel<T>>() {
        Some(kept) => {
            sync(kept, fresh.iter().collect());
            shown.clone()
        }
        None => model(fresh.iter().collect()),
    }
}

/// Brings `shown` to `fresh`. Rows that are the same keep their place and their inner models;
/// others come and go one by one.
pub fn sync<T: Row>(shown: &VecModel<T>, fresh: Vec<T>) {
    let count = fresh.len();
    for (index, mut row) in fresh.into_iter().enumerate() {
        // Rows that left stand in the way of those that stayed.
        let later =
            (index..shown.row_count()).find(|at| shown.row_data(*at).is_some_and(|old| old.same(&row)));
        let Some(later) = later else {
            row.adopt(&row.clone());
            shown.insert(index, row);
            continue;
        };
        for _ in index..later {
            shown.remove(index);
        }
        if let Some(old) = shown.row_data(index) {
            row.adopt(&old);
            if row != old {
                shown.set_row_data(index, row);
            }
        }
    }
    while shown.row_count() > count {
        shown.remove(count);
    }
}
