//! Grades by group, and grades that share a number although their figures differ.

use std::collections::HashSet;

use super::search::Item;
use super::{Element, Grade, Limits, Reference};

/// A grade that shares a designation or number with another, and where they differ.
#[derive(Debug, Clone, PartialEq)]
pub struct Twin<'a> {
    /// The other grade.
    pub grade: &'a Grade,
    /// The designation or number that both bear.
    pub shared: &'a str,
    /// The elements whose limits differ: of the first grade, of the twin.
    pub differs: Vec<(Element, Limits, Limits)>,
}

impl Reference {
    /// The grades that share a designation or number with this one, each with the
    /// limits that differ.
    #[must_use]
    pub fn twins(&self, id: &str) -> Vec<Twin<'_>> {
        let Some(place) = self.grades.iter().position(|grade| grade.id == id) else { return Vec::new() };
        let one = &self.grades.rows()[place];
        let shared = self.index.sharing(Item::Grade(place));
        shared
            .into_iter()
            .filter_map(|(item, shared)| match item {
                Item::Grade(other) => Some((&self.grades.rows()[other], shared)),
                Item::Filler(_) => None,
            })
            .map(|(grade, shared)| Twin { grade, shared, differs: differences(one, grade) })
            .collect()
    }

    /// The groups that grades are browsed under, in the order of the file.
    #[must_use]
    pub fn groups(&self) -> Vec<&str> {
        let mut seen = HashSet::new();
        self.grades.iter().map(|grade| grade.group.as_str()).filter(|group| seen.insert(*group)).collect()
    }

    /// The grades of a group, in the order of the file.
    #[must_use]
    pub fn browse(&self, group: &str) -> Vec<&Grade> {
        self.grades.iter().filter(|grade| grade.group == group).collect()
    }
}

/// The elements whose limits differ between two grades.
#[must_use]
pub fn differences(one: &Grade, other: &Grade) -> Vec<(Element, Limits, Limits)> {
    let limits = |grade: &Grade, element| grade.composition.get(&element).copied().unwrap_or_default();
    Element::ALL
        .iter()
        .copied()
        .map(|element| (element, limits(one, element), limits(other, element)))
        .filter(|(_, left, right)| left != right)
        .collect()
}
