//! Does the weld metal crack as it freezes?

use super::Check;
use crate::engine::error::{Domain, check_composition};
use crate::engine::{Checked, Ends, EngineError, Outcome, Unit};
use crate::reference::{Composition, Element, Method, Methods, WeldCracks};

/// What is asked of the weld metal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SolidQuery {
    /// The part.
    pub base: Composition,
    /// The filler as it deposits.
    pub filler: Composition,
    /// Share of the part in the weld metal.
    pub dilution: f64,
    /// A butt weld rather than a fillet?
    pub butt: bool,
    /// Depth of a run over its width, where it is measured.
    pub depth_width: Option<f64>,
}

/// Weld metal of a part and a filler: `x = D xb + (1 - D) xf` for each element.
#[must_use]
pub fn mixed(base: &Composition, filler: &Composition, dilution: f64) -> Composition {
    let pair = |element: Element| dilution * base.get(element) + (1.0 - dilution) * filler.get(element);
    Element::ALL.iter().fold(Composition::default(), |made, &element| made.with(element, pair(element)))
}

/// `UCS = 230 C + 190 S + 75 P + 45 Nb - 12.3 Si - 5.4 Mn - 1`, C no lower than 0.08.
#[must_use]
pub fn ucs(data: &WeldCracks, weld: &Composition) -> f64 {
    230.0 * weld.get(Element::C).max(data.least_carbon)
        + 190.0 * weld.get(Element::S)
        + 75.0 * weld.get(Element::P)
        + 45.0 * weld.get(Element::Nb)
        - 12.3 * weld.get(Element::Si)
        - 5.4 * weld.get(Element::Mn)
        - 1.0
}

/// The limit of UCS; none for a run deeper than wide.
#[must_use]
pub fn limit(data: &WeldCracks, butt: bool, depth_width: f64) -> Option<f64> {
    let base = if butt { data.ucs_butt } else { data.ucs_fillet };
    let shallow = data.ucs_shallow * (1.0 - depth_width.max(data.ucs_shallow_to));
    (depth_width <= 1.0).then_some(base + shallow)
}

/// Manganese over sulphur that weld metal of a carbon needs; none outside the table.
#[must_use]
pub fn mn_s_needed(data: &WeldCracks, carbon: f64) -> Option<f64> {
    let first = data.mn_s.first()?;
    let row = data.mn_s.iter().find(|row| carbon <= row.up_to)?;
    (carbon >= first.over).then_some(row.ratio)
}

/// The checks of the weld metal as it freezes.
#[derive(Debug, Clone, PartialEq)]
pub struct Solidified {
    /// UCS, its limit, sulphur and phosphorus, manganese over sulphur.
    pub outcomes: Vec<Outcome>,
    /// UCS against its limit.
    pub ucs: Check,
    /// Is a run deeper than wide?
    pub deep: bool,
    /// Sulphur and phosphorus.
    pub sulphur: Check,
    /// Sulphur of the part.
    pub base_sulphur: Check,
    /// Manganese over sulphur.
    pub manganese: Check,
}

/// The solidification index of the weld metal with dilution, an indicator, and the elements that make it crack.
///
/// Source: TWI for the index, its limits and S + P; from memory what a shallow bead adds, the range of
/// submerged-arc weld metal and manganese over sulphur. Outside its range the index is drawn on.
///
/// # Errors
/// A composition that no steel has; a share outside 0 to 1.
pub fn solidification(
    data: &WeldCracks,
    methods: &Methods,
    asked: &SolidQuery,
) -> Result<Solidified, EngineError> {
    check_composition(&asked.base)?;
    check_composition(&asked.filler)?;
    let dilution = Domain::new("dilution", 0.0, 1.0).check(asked.dilution)?;
    let ratio = asked.depth_width.map(|own| Domain::new("depth-width", 0.1, 5.0).check(own)).transpose()?;
    let weld = mixed(&asked.base, &asked.filler, dilution);
    Domain::new("C", 0.0, 2.0).check(weld.get(Element::C))?;
    let index = ucs(data, &weld);
    let row = methods.row(Method::SolidIndex);
    let inputs = ["C", "S", "P", "Si", "Mn", "Nb"].into_iter().map(|symbol| {
        let element = Element::from_symbol(symbol).unwrap_or(Element::C);
        Checked::of(row, symbol, weld.get(element), Ends::Drawn)
    });
    let limit = limit(data, asked.butt, ratio.unwrap_or(1.0));
    let answer = |name, value, unit| Outcome::new(Method::SolidIndex, value, unit).named(name);
    let dirt = weld.get(Element::S) + weld.get(Element::P);
    let mut outcomes = vec![answer("crack-ucs", index, Unit::One).from_inputs(inputs.collect())];
    outcomes.extend(limit.map(|limit| {
        let shallow = ratio.is_some_and(|ratio| ratio < 1.0);
        let made = answer("crack-ucs-limit", limit, Unit::One);
        if shallow { made.resting_on(&data.ucs_shallow_basis) } else { made }
    }));
    outcomes.push(answer("crack-s-plus-p", dirt, Unit::Percent));
    let needed = mn_s_needed(data, weld.get(Element::C));
    let sulphur = weld.get(Element::S);
    let manganese = match needed {
        Some(needed) if sulphur > 0.0 => {
            let have = weld.get(Element::Mn) / sulphur;
            outcomes.push(answer("crack-mn-s", have, Unit::One).resting_on(&data.mn_s_basis));
            outcomes.push(answer("crack-mn-s-needed", needed, Unit::One).resting_on(&data.mn_s_basis));
            Check::passes(have >= needed)
        }
        Some(_) => Check::Pass,
        None => Check::NoFigure,
    };
    Ok(Solidified {
        outcomes,
        ucs: Check::passes(limit.is_some_and(|limit| index < limit)),
        deep: limit.is_none(),
        sulphur: Check::passes(dirt <= data.s_plus_p_most),
        base_sulphur: Check::passes(asked.base.get(Element::S) <= data.base_s_most),
        manganese,
    })
}
