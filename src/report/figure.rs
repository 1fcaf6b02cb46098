//! One figure as it is shown, with what it rests on.

use super::Pen;
use crate::reference::Basis;
use crate::units::{Both, Printed, Side};

/// What a figure rests on, as a mark and its words.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct BasisMark {
    /// `published`, `practice` or `memory`; empty when there is none.
    pub kind: &'static str,
    /// The kind in words.
    pub label: String,
}

/// A figure to be shown large.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Figure {
    /// What is asked for its basis.
    pub id: String,
    /// What it is.
    pub label: String,
    /// The number.
    pub figure: String,
    /// Its unit.
    pub unit: String,
    /// In the other unit, with it.
    pub second: String,
    /// A short note.
    pub note: String,
    /// What it rests on.
    pub basis: BasisMark,
}

impl Figure {
    /// A figure from a shown pair: number and unit are joined by a no-break space.
    #[must_use]
    pub fn new(id: &str, label: String, both: Both, basis: BasisMark) -> Self {
        let (figure, unit) = match both.main.split_once('\u{a0}') {
            Some((figure, unit)) => (figure.to_owned(), unit.to_owned()),
            None => (both.main, String::new()),
        };
        Self { id: id.to_owned(), label, figure, unit, second: both.second, note: String::new(), basis }
    }

    /// A figure that is words.
    #[must_use]
    pub fn in_words(id: &str, label: String, figure: String, note: String, basis: BasisMark) -> Self {
        Self { id: id.to_owned(), label, figure, unit: String::new(), second: String::new(), note, basis }
    }
}

/// The mark of a basis.
#[must_use]
pub fn basis_mark(pen: &Pen<'_>, basis: &Basis) -> BasisMark {
    let kind = basis.kind();
    BasisMark { kind, label: pen.words.get(&format!("basis-{kind}")) }
}

/// The source of a basis in one line: title and clause, or what it is remembered from.
#[must_use]
pub fn source_line(pen: &Pen<'_>, basis: &Basis) -> String {
    match basis {
        Basis::Published { source, clause } => {
            let title = pen.reference.sources.get(source).map_or(source.as_ref(), |row| row.title.as_str());
            let seen = pen.reference.sources.get(source).map_or("", |row| row.seen.as_str());
            pen.words.with("basis-published-line", &[("title", title), ("clause", clause), ("seen", seen)])
        }
        Basis::Practice => pen.words.get("basis-practice-line"),
        Basis::Memory { of } => pen.words.with("basis-memory-line", &[("of", of)]),
    }
}

/// A minimum as shown.
#[must_use]
pub(super) fn minimum(pen: &Pen<'_>, exact_c: f64, printed: Option<Printed>) -> Both {
    pen.show.limit(Side::Minimum, exact_c, printed)
}

/// A maximum as shown.
#[must_use]
pub(super) fn maximum(pen: &Pen<'_>, exact_c: f64, printed: Option<Printed>) -> Both {
    pen.show.limit(Side::Maximum, exact_c, printed)
}
