//! Does a heat-affected zone crack when it is heated again?

use super::Check;
use crate::engine::error::check_composition;
use crate::engine::{Checked, Ends, EngineError, Outcome, Unit};
use crate::reference::Element::{C, Cr, Cu, Mo, Nb, Ti, V};
use crate::reference::{Composition, Method, Methods};

/// `ΔG = Cr + 3.3 Mo + 8.1 V - 2`.
#[must_use]
pub fn delta_g(steel: &Composition) -> f64 {
    steel.get(Cr) + 3.3 * steel.get(Mo) + 8.1 * steel.get(V) - 2.0
}

/// `PSR = Cr + Cu + 2 Mo + 10 V + 7 Nb + 5 Ti - 2`.
#[must_use]
pub fn psr(steel: &Composition) -> f64 {
    steel.get(Cr)
        + steel.get(Cu)
        + 2.0 * steel.get(Mo)
        + 10.0 * steel.get(V)
        + 7.0 * steel.get(Nb)
        + 5.0 * steel.get(Ti)
        - 2.0
}

/// Both indicators, with what each says. Below zero passes; PSR says nothing outside its range.
///
/// Source: a gas supplier's sheet for both formulas and their zero; the range of PSR is from memory.
///
/// # Errors
/// A composition that no steel has.
pub fn reheat(methods: &Methods, steel: &Composition) -> Result<([Outcome; 2], [Check; 2]), EngineError> {
    check_composition(steel)?;
    let (first, second) = (delta_g(steel), psr(steel));
    let row = methods.row(Method::ReheatPsr);
    let inputs: Vec<Checked> =
        [("C", C), ("Cr", Cr), ("Cu", Cu), ("Mo", Mo), ("V", V), ("Nb", Nb), ("Ti", Ti)]
            .into_iter()
            .map(|(symbol, element)| Checked::of(row, symbol, steel.get(element), Ends::Drawn))
            .collect();
    let inside = inputs.iter().all(Checked::inside);
    let checks =
        [Check::passes(first < 0.0), if inside { Check::passes(second < 0.0) } else { Check::NoFigure }];
    Ok((
        [
            Outcome::new(Method::ReheatDg, first, Unit::One).named("crack-dg"),
            Outcome::new(Method::ReheatPsr, second, Unit::One).named("crack-psr").from_inputs(inputs),
        ],
        checks,
    ))
}
