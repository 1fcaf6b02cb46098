//! The basis of a carbon equivalent of a composition.

use super::Pen;
use super::basis_sheet::{BasisSheet, lines_of, source_paragraph};
use super::figure::{Figure, basis_mark};
use super::outcome::{StepLine, range_lines};
use crate::engine::carbon_equivalent::{Equivalent, carbon_equivalent};
use crate::reference::{Composition, Element};
use crate::units::Both;

/// The basis sheet of one carbon equivalent; `None` where the composition has none.
#[must_use]
pub fn equivalent_sheet(pen: &Pen<'_>, which: Equivalent, steel: &Composition) -> Option<BasisSheet> {
    let methods = &pen.reference.methods;
    let outcome = carbon_equivalent(which, methods.row(which.method()), steel).ok()?;
    let value = pen.show.number(outcome.value?, 3);
    let basis = basis_mark(pen, outcome.basis(methods));
    let label = pen.words.get(&format!("answer-{}", which.id()));
    let mut steps: Vec<StepLine> = Element::ALL
        .iter()
        .copied()
        .filter(|&element| steel.get(element) > 0.0)
        .map(|element| (element, which.of(&Composition::new(&[(element, steel.get(element))]))))
        .filter(|(_, share)| *share > 0.0)
        .map(|(element, share)| StepLine {
            text: format!("{} {}", element.symbol(), pen.show.number(steel.get(element), 4)),
            value: pen.show.number(share, 4),
        })
        .collect();
    steps.push(StepLine { text: label.clone(), value: value.clone() });
    let sentence = if outcome.in_range() { "certificate-in-range" } else { "certificate-beyond-range" };
    let both = Both { main: value, second: String::new() };
    Some(BasisSheet {
        figure: Figure::new(which.id(), label.clone(), both, basis.clone()),
        label,
        standing: None,
        sentence: pen.words.get(sentence),
        formula: lines_of(pen, &format!("certificate-formula-{}", which.id())),
        steps,
        ranges: range_lines(pen, &outcome),
        paragraphs: vec![source_paragraph(pen, outcome.basis(methods))],
        basis,
    })
}
