//! What does the old preheating chart by steel group print for a grade?

use super::{Case, Evidence, Standing};
use crate::engine::{EngineError, Outcome, Says};
use crate::reference::{Grade, Method, Unit};

/// The chart row that names the grade, else the one that the dataset assigns to it: a printed
/// span that knows neither hydrogen nor thickness. Source: `data/grades.ron`.
///
/// # Errors
/// A grade that has no row of the chart.
pub fn sae_chart(grade: &Grade) -> Result<Outcome, EngineError> {
    worked(grade).ok_or(EngineError::NoAnswer { reason: "table-has-no-row" })
}

fn worked(grade: &Grade) -> Option<Outcome> {
    let published = grade.published_preheat.as_ref().filter(|published| published.sae_chart)?;
    let (low_c, high_c) = (published.low_c?, published.high_c?);
    let outcome = Outcome::new(Method::SaeChart, low_c, Unit::Celsius)
        .of_row(grade.id.as_str())
        .spread(low_c, high_c)
        .resting_on(&published.basis);
    Some(Outcome { says: Says::Span, ..outcome })
}

/// The chart's word on a member, shown only.
#[must_use]
pub fn on(case: &Case<'_>) -> Option<Evidence> {
    let outcome = worked(case.member.steel.grade()?)?;
    Some(Evidence { standing: Standing::ShownOnly, ..case.evidence(outcome) })
}
