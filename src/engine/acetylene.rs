//! How fast may acetylene be drawn from a cylinder, and how many belong together?

use super::error::Domain;
use super::torch::FLOW;
use super::{EngineError, Outcome, Unit};
use crate::reference::{AcetyleneDraw, Method};

/// The draw of a torch from its cylinder.
#[derive(Debug, Clone, PartialEq)]
pub struct Draw {
    /// The most that may be drawn, the most by the older rule, and the cylinders that are needed.
    pub outcomes: Vec<Outcome>,
    /// Does the draw go on and on?
    pub continuous: bool,
    /// Is more drawn than may be?
    pub too_fast: bool,
    /// Is even more drawn than the older rule allows?
    pub far_too_fast: bool,
}

/// The most that may be drawn from one cylinder: its content over 10 in an hour, over 15 where the
/// draw goes on for half an hour or more; beside it the older rule, over 7.
///
/// Source: CGA G-1; the older rule as a trade page prints it.
///
/// # Errors
/// A figure that is not a number, or that no cylinder has.
pub fn acetylene_draw(
    rules: &AcetyleneDraw,
    content_m3: f64,
    flow_m3_per_h: Option<f64>,
    minutes: Option<f64>,
) -> Result<Draw, EngineError> {
    Domain::new("cylinder", 0.01, 100.0).check(content_m3)?;
    flow_m3_per_h.map(|flow| FLOW.check(flow)).transpose()?;
    minutes.map(|minutes| Domain::new("minutes", 0.0, 100_000.0).check(minutes)).transpose()?;
    // A draw that nobody has timed may go on.
    let continuous = minutes.is_none_or(|minutes| minutes >= rules.continuous_from_min);
    let most = content_m3 / if continuous { rules.continuous } else { rules.intermittent };
    let older = content_m3 / rules.older;
    let answer = |name, value, unit| Outcome::new(Method::AcetyleneDraw, value, unit).named(name);
    let mut outcomes = vec![answer("draw-most", most, Unit::CubicMetrePerHour).resting_on(&rules.basis)];
    if let Some(flow) = flow_m3_per_h {
        // The dust of a unit conversion must not cost a cylinder.
        let needed = (flow / most - 1e-9).ceil().max(1.0);
        outcomes.push(answer("draw-cylinders", needed, Unit::One).resting_on(&rules.basis));
    }
    outcomes.push(answer("draw-older", older, Unit::CubicMetrePerHour).resting_on(&rules.older_basis));
    let above = |limit: f64| flow_m3_per_h.is_some_and(|flow| flow > limit * (1.0 + 1e-9));
    Ok(Draw { outcomes, continuous, too_fast: above(most), far_too_fast: above(older) })
}

/// Id of the fuel in `data/fuels.ron`.
const ACETYLENE: &str = "acetylene";

/// How many usual large cylinders a flame draws from at once, where it is more than one can give: a flame
/// counts as going on and on, since a batch lights it again and again.
#[must_use]
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of cylinders")]
pub fn cylinders_at_once(rules: &AcetyleneDraw, fuel: &str, flow_m3_per_h: f64) -> Option<usize> {
    let needed = (flow_m3_per_h * rules.continuous / rules.usual_m3 - 1e-9).ceil();
    (fuel == ACETYLENE && needed > 1.0).then_some(needed as usize)
}
