//! Rules that the dataset keeps. All broken ones are reported at once, each with its
//! file, its row and the rule.

mod cautions;
mod codes;
mod fit;
mod grade_heat;
mod grades;
mod heat_cycle;
mod post_heat;
mod repair;
mod resting;
mod shop;
mod sources;
mod tables;
mod unmarked;
mod welding;
mod words;

use std::collections::HashSet;
use std::fmt;

pub use resting::{Resting, RowsOfSources, rows_of_sources};

use super::{Printed, Reference, Row, Table};

/// A rule of the dataset.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Rule {
    /// The file can be read.
    Readable,
    /// Ids are unique within a file, and not empty.
    UniqueId,
    /// Lower ends are not above upper ends; steps rise; figures are physically possible.
    RangeOrdered,
    /// A source that is named exists in `sources.ron`.
    SourceExists,
    /// A source in `sources.ron` is named somewhere.
    SourceUsed,
    /// A row that is named in another file exists there.
    RowExists,
    /// Each method of the engine has its row.
    EachMethod,
    /// A row has its words in the Fluent file.
    WordsExist,
    /// A message of the dataset belongs to a row.
    WordsUsed,
    /// A caution has a place, a trigger with a directness of 1 to 3, an action and a source.
    CautionComplete,
    /// A grade has carbon, a condition, and a temper only where there is one.
    GradeComplete,
    /// The D1.1 category, the grade's own rows and the sheet of its family fit together.
    GradeTreatment,
    /// A figure printed in °C and °F is one temperature.
    PrintedAgree,
    /// Words that stand for the figures of a row carry those figures.
    FiguresAgree,
    /// A table has all its cells and moves the way that the physics moves.
    TableWhole,
}

/// A broken rule.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The file in `data/`.
    pub file: &'static str,
    /// The id of the row, or the line.
    pub row: String,
    /// The rule that is broken.
    pub rule: Rule,
    /// What is wrong: the values found and the limits.
    pub detail: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "data/{}, {}: {:?}: {}", self.file, self.row, self.rule, self.detail)
    }
}

/// Collects faults of one file.
struct Faults<'a> {
    file: &'static str,
    list: &'a mut Vec<Fault>,
}

impl Faults<'_> {
    fn add(&mut self, row: &str, rule: Rule, detail: impl Into<String>) {
        self.list.push(Fault { file: self.file, row: row.to_owned(), rule, detail: detail.into() });
    }

    fn check(&mut self, holds: bool, row: &str, rule: Rule, detail: impl FnOnce() -> String) {
        if !holds {
            self.add(row, rule, detail());
        }
    }

    /// A range with both ends, where both are given, inside what is possible.
    fn range(&mut self, row: &str, name: &str, low: Option<f64>, high: Option<f64>, possible: (f64, f64)) {
        for value in [low, high].into_iter().flatten() {
            self.check((possible.0..=possible.1).contains(&value), row, Rule::RangeOrdered, || {
                format!("{name} {value} is outside {}..{}", possible.0, possible.1)
            });
        }
        if let (Some(low), Some(high)) = (low, high) {
            self.check(low <= high, row, Rule::RangeOrdered, || {
                format!("{name}: low {low} is above high {high}")
            });
        }
    }

    /// Thickness borders (or any borders) that rise, with only the last one open.
    fn rising(&mut self, row: &str, name: &str, borders: &[Option<f64>]) {
        for pair in borders.windows(2) {
            let rises = match (pair[0], pair[1]) {
                (Some(first), Some(second)) => first < second,
                (Some(_), None) => true,
                (None, _) => false,
            };
            self.check(rises, row, Rule::RangeOrdered, || {
                format!("{name}: {:?} is not followed by a higher border: {:?}", pair[0], pair[1])
            });
        }
    }

    fn printed(&mut self, row: &str, printed: Printed) {
        self.check(printed.c.is_some() || printed.f.is_some(), row, Rule::PrintedAgree, || {
            "a printed temperature has neither °C nor °F".to_owned()
        });
        if let (Some(c), Some(f)) = (printed.c, printed.f) {
            // Printed pairs are rounded: 5 °F beside 5 °C.
            self.check(((f - 32.0) / 1.8 - c).abs() <= 5.0, row, Rule::PrintedAgree, || {
                format!("{f} °F is not {c} °C")
            });
        }
    }
}

/// Every broken rule of a dataset, with the English messages that belong to it.
#[must_use]
pub fn faults(reference: &Reference, words: &str) -> Vec<Fault> {
    let mut list = Vec::new();
    unique(&reference.sources, "sources.ron", &mut list);
    unique(&reference.grades, "grades.ron", &mut list);
    unique(&reference.fillers, "fillers.ron", &mut list);
    unique(&reference.cautions, "cautions.ron", &mut list);
    unique_rows(reference.methods.rows(), "methods.ron", &mut list);
    unique(&reference.processes, "processes.ron", &mut list);
    unique(&reference.designators, "processes.ron", &mut list);
    unique(&reference.joints, "joints.ron", &mut list);
    unique(&reference.inspection, "inspection.ron", &mut list);
    unique(&reference.everyday_words, "everyday_words.ron", &mut list);
    unique(&reference.metals, "expansion.ron", &mut list);
    unique(&reference.slow_cooling, "slow_cooling.ron", &mut list);
    grades::check(reference, &mut list);
    grades::check_fillers(reference, &mut list);
    cautions::check(reference, &mut list);
    tables::check(reference, &mut list);
    post_heat::check(&reference.post_heat, &mut list);
    fit::check(reference, &mut list);
    shop::check(reference, &mut list);
    heat_cycle::check(reference, &mut list);
    welding::check(&reference.welding, &mut list);
    unmarked::check(&reference.unmarked, &mut list);
    repair::check(&reference.repair, &mut list);
    codes::check(reference, &mut list);
    sources::check(reference, &mut list);
    words::check(reference, words, &mut list);
    list
}

fn unique<T: Row>(table: &Table<T>, file: &'static str, list: &mut Vec<Fault>) {
    unique_rows(table.rows(), file, list);
}

fn unique_rows<T: Row>(table: &[T], file: &'static str, list: &mut Vec<Fault>) {
    let mut faults = Faults { file, list };
    let mut seen = HashSet::new();
    for row in table {
        faults.check(!row.id().trim().is_empty(), row.id(), Rule::UniqueId, || "the id is empty".to_owned());
        faults.check(seen.insert(row.id()), row.id(), Rule::UniqueId, || "the id occurs twice".to_owned());
    }
}
