//! The guided test as an answer.

use super::answered::Answered;
use super::end::{Alloy, End, Reading, read};
use super::families::Family;
use crate::engine::{Outcome, Says, Step, Unit};
use crate::reference::{Composition, Element, Method, Unmarked};

/// What the steel counts as: the top of its carbon, with the alloy that it may have.
#[must_use]
pub fn treat_as(data: &Unmarked, reading: &Reading) -> Composition {
    let row = if reading.alloy == Alloy::Lean { &data.lean } else { &data.rich };
    row.composition.with(Element::C, reading.counted)
}

/// The test and its answers.
#[derive(Debug, Clone, PartialEq)]
pub struct Sorted {
    /// Carbon that counts, and its range.
    pub outcomes: Vec<Outcome>,
    /// What the answers leave.
    pub reading: Reading,
}

/// Carbon that an unknown steel counts with, and the range that its answers leave. There is no number while
/// a family is left that the preheat of a steel harms, or while answers contradict each other.
#[must_use]
pub fn sorted(data: &Unmarked, answers: &[Answered]) -> Sorted {
    let reading = read(data, answers);
    let counts = matches!(reading.end, End::Number | End::AtLeast);
    let made = Outcome::new(Method::UnmarkedSteel, reading.counted, Unit::Percent).named("unmarked-carbon");
    let counted = if counts {
        let steel = treat_as(data, &reading);
        let step = |symbol, element| Step::new(symbol, steel.get(element), Unit::Percent);
        made.worked(vec![
            step("Si", Element::Si),
            step("Mn", Element::Mn),
            step("Cr", Element::Cr),
            step("Mo", Element::Mo),
            step("Ni", Element::Ni),
            step("V", Element::V),
            step("Cu", Element::Cu),
            step("P", Element::P),
            step("S", Element::S),
        ])
    } else {
        made.saying(Says::NoFigure)
    };
    let mut outcomes = vec![counted];
    if reading.families.has(Family::Steel) {
        let (low, high) = reading.carbon;
        outcomes.push(
            Outcome::open(Method::UnmarkedSteel, Unit::Percent)
                .named("unmarked-range")
                .spread(low.min(high), high.max(low)),
        );
    }
    Sorted { outcomes, reading }
}
