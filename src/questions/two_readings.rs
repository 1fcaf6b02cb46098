//! Two readings of a part that cools, and the minutes between them.

use super::{Input, Kind, OfPlan, Preset, Problem, Question, Reply, Work};
use crate::engine::two_readings::TwoReadings;
use crate::reference::embedded;
use crate::reference::tint::TintData;
use crate::units::Quantity;

/// What a reading is taken with. A crayon gives none.
const READ_WITH: [&str; 3] = ["contact-probe", "thermocouple", "black-spot-gun"];

/// How long is left?
pub(super) static TWO_READINGS: Question = Question {
    name: "two-readings",
    work: Work::Measure,
    inputs: &[
        Input::new("first-reading", Kind::Temperature).required().within(20.0, 900.0),
        Input::new("second-reading", Kind::Temperature).required().within(20.0, 900.0),
        Input::new("minutes-between", Kind::Of(Quantity::Minutes)).required().within(0.05, 600.0),
        Input::new("read-with", Kind::Choice(&READ_WITH)).or(Preset::Choice(READ_WITH[0])),
        Input::new("minimum", Kind::Temperature).within(0.0, 700.0).of(OfPlan::Minimum),
        Input::new("maximum", Kind::Temperature).within(0.0, 700.0).of(OfPlan::Maximum),
        Input::new("room-temperature", Kind::Temperature)
            .or(Preset::Number(20.0))
            .within(-40.0, 60.0)
            .of(OfPlan::Shop),
    ],
    answers: &["readings-left", "readings-wait"],
    notes: &["readings-heat-again", "readings-same-place", "readings-evening-out"],
    answer: |given| {
        let (first_c, second_c) = (given.number("first-reading")?, given.number("second-reading")?);
        let with = given.maybe_choice("read-with").unwrap_or(READ_WITH[0]);
        let off = |at_c: f64| {
            let found = TintData::embedded().off_k(with, at_c);
            found.map(|(off_k, _)| off_k).ok_or(Problem::WrongKind { key: "read-with" })
        };
        let readings = TwoReadings {
            first_c,
            second_c,
            minutes: given.number("minutes-between")?,
            off_k: (off(first_c)?, off(second_c)?),
            shop_c: given.number("room-temperature")?,
        };
        readings.check()?;
        let (minimum_c, maximum_c) = (given.maybe_number("minimum"), given.maybe_number("maximum"));
        if minimum_c.or(maximum_c).is_none() {
            return Err(Problem::Missing { keys: vec!["minimum", "maximum"] });
        }
        let losses = &embedded().heat_cycle;
        let left = minimum_c.and_then(|minimum_c| readings.left(losses, minimum_c));
        let wait = maximum_c.and_then(|maximum_c| readings.wait(losses, maximum_c));
        let cold = left.as_ref().is_some_and(|left| left.value == Some(0.0));
        if left.is_none() && wait.is_none() {
            return Err(crate::engine::EngineError::NoAnswer { reason: "cooling-below-shop" }.into());
        }
        Ok(Reply::of(left.into_iter().chain(wait).collect::<Vec<_>>())
            .note_if(cold, "readings-heat-again")
            .note_if(true, "readings-same-place")
            .note_if(true, "readings-evening-out"))
    },
};
