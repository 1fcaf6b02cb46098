//! Is a heat-affected zone too hard for the hydrogen of its weld?

use super::Check;
use crate::engine::error::Domain;
use crate::engine::family::Family;
use crate::engine::{EngineError, Outcome, Says, Step, Unit};
use crate::reference::{Method, Restraint, WeldCracks};

/// The limit for the hydrogen, and what a hardness estimate says against it with its scatter.
///
/// Source: limits from memory; the scatter as counted by Nicholas and Abson; 25 HV less under high restraint
/// is common practice. A deep-hardening steel has no figure: its zone is hard whatever is done.
///
/// # Errors
/// A hardness or a hydrogen that no weld has.
pub fn hydrogen_hardness(
    data: &WeldCracks,
    hv: f64,
    hydrogen_ml: f64,
    restraint: Restraint,
    family: Family,
) -> Result<(Vec<Outcome>, Check), EngineError> {
    let hv = Domain::new("zone-hardness", 50.0, 1000.0).check(hv)?;
    let hydrogen = Domain::new("hydrogen", 0.0, 200.0).check(hydrogen_ml)?;
    let row = data.hydrogen.iter().find(|row| row.up_to_ml.is_none_or(|up_to| hydrogen <= up_to));
    let less = if restraint == Restraint::High { data.high_restraint_less_hv } else { 0.0 };
    let limit = row.map_or(0.0, |row| row.most_hv) - less;
    let counted = hv + data.estimate_off_hv;
    let answer = |name, value| {
        Outcome::new(Method::HydrogenHardness, value, Unit::Vickers)
            .named(name)
            .resting_on(&data.hydrogen_basis)
    };
    let named = family == Family::Hardenable;
    let limited = answer("crack-hv-limit", limit);
    let outcomes = vec![
        if named { limited.saying(Says::NoFigure) } else { limited },
        answer("crack-hv-counted", counted).resting_on(&data.estimate_basis).worked(vec![Step::new(
            "estimate",
            hv,
            Unit::Vickers,
        )]),
    ];
    Ok((outcomes, if named { Check::NoFigure } else { Check::passes(counted <= limit) }))
}
