//! At which temperatures does a steel transform?

use super::carbon_equivalent::within;
use super::error::{Domain, TEMPERATURE, check_composition};
use super::{EngineError, Outcome, Step, Unit};
use crate::reference::Element::{Al, B, C, Cr, Cu, Mn, Mo, Nb, Ni, P, Si, Ti, V, W};
use crate::reference::{Composition, Method, Methods};
use crate::units::TemperatureUnit;

/// Ae1 by Andrews: `723 - 10.7 Mn - 16.9 Ni + 29.1 Si + 16.9 Cr + 6.38 W`, °C (arsenic is not asked).
#[must_use]
pub fn ae1_andrews_c(steel: &Composition) -> f64 {
    723.0 - 10.7 * steel.get(Mn) - 16.9 * steel.get(Ni)
        + 29.1 * steel.get(Si)
        + 16.9 * steel.get(Cr)
        + 6.38 * steel.get(W)
}

/// Ae3 by Andrews, °C (arsenic is not asked):
/// `910 - 203 sqrt C - 15.2 Ni + 44.7 Si + 104 V + 31.5 Mo + 13.1 W - X`, with
/// `X = 30 Mn + 11 Cr + 20 Cu - 700 P - 400 Al - 400 Ti`.
#[must_use]
pub fn ae3_andrews_c(steel: &Composition) -> f64 {
    910.0 - 203.0 * steel.get(C).sqrt() - 15.2 * steel.get(Ni)
        + 44.7 * steel.get(Si)
        + 104.0 * steel.get(V)
        + 31.5 * steel.get(Mo)
        + 13.1 * steel.get(W)
        - (30.0 * steel.get(Mn) + 11.0 * steel.get(Cr) + 20.0 * steel.get(Cu))
        + 700.0 * steel.get(P)
        + 400.0 * steel.get(Al)
        + 400.0 * steel.get(Ti)
}

/// Ms by Andrews: `539 - 423 C - 30.4 Mn - 17.7 Ni - 12.1 Cr - 7.5 Mo`, °C. From memory.
#[must_use]
pub fn ms_andrews_c(steel: &Composition) -> f64 {
    539.0
        - 423.0 * steel.get(C)
        - 30.4 * steel.get(Mn)
        - 17.7 * steel.get(Ni)
        - 12.1 * steel.get(Cr)
        - 7.5 * steel.get(Mo)
}

/// Ae1 by Grange: `1333 - 25 Mn + 40 Si + 42 Cr - 26 Ni` °F, given in °C.
#[must_use]
pub fn ae1_grange_c(steel: &Composition) -> f64 {
    TemperatureUnit::F.to_c(
        1333.0 - 25.0 * steel.get(Mn) + 40.0 * steel.get(Si) + 42.0 * steel.get(Cr) - 26.0 * steel.get(Ni),
    )
}

/// Ae3 by Grange: `1570 - 323 C - 25 Mn + 80 Si - 3 Cr - 32 Ni` °F, given in °C.
#[must_use]
pub fn ae3_grange_c(steel: &Composition) -> f64 {
    TemperatureUnit::F.to_c(
        1570.0 - 323.0 * steel.get(C) - 25.0 * steel.get(Mn) + 80.0 * steel.get(Si)
            - 3.0 * steel.get(Cr)
            - 32.0 * steel.get(Ni),
    )
}

/// Ae1 by Eldis: `712 - 17.8 Mn - 19.1 Ni + 20.1 Si + 11.9 Cr + 9.8 Mo`, °C.
#[must_use]
pub fn ae1_eldis_c(steel: &Composition) -> f64 {
    712.0 - 17.8 * steel.get(Mn) - 19.1 * steel.get(Ni)
        + 20.1 * steel.get(Si)
        + 11.9 * steel.get(Cr)
        + 9.8 * steel.get(Mo)
}

/// Ae3 by Eldis: `871 - 254.4 sqrt C - 14.2 Ni + 51.7 Si`, °C; the root is from memory.
#[must_use]
pub fn ae3_eldis_c(steel: &Composition) -> f64 {
    871.0 - 254.4 * steel.get(C).sqrt() - 14.2 * steel.get(Ni) + 51.7 * steel.get(Si)
}

/// Start of martensite by Steven and Haynes: `561 - 474 C - 33 Mn - 17 Cr - 17 Ni - 21 Mo`, °C.
#[must_use]
pub fn ms_steven_haynes_c(steel: &Composition) -> f64 {
    561.0
        - 474.0 * steel.get(C)
        - 33.0 * steel.get(Mn)
        - 17.0 * steel.get(Cr)
        - 17.0 * steel.get(Ni)
        - 21.0 * steel.get(Mo)
}

/// Half martensite, °C: Ms - 47. From memory of Steven and Haynes.
#[must_use]
pub fn m50_c(steel: &Composition) -> f64 {
    ms_steven_haynes_c(steel) - 47.0
}

/// M90 lies this far under Ms, K. From memory of Steven and Haynes.
pub const M90_UNDER_MS_K: f64 = 103.0;

/// Nine tenths martensite, °C: Ms - 103. From memory of Steven and Haynes.
#[must_use]
pub fn m90_c(steel: &Composition) -> f64 {
    ms_steven_haynes_c(steel) - M90_UNDER_MS_K
}

/// End of martensite by the convention Ms - 215, °C. From memory of Steven and Haynes.
#[must_use]
pub fn mf_c(steel: &Composition) -> f64 {
    ms_steven_haynes_c(steel) - 215.0
}

/// Start of bainite by Steven and Haynes: `830 - 270 C - 90 Mn - 37 Ni - 70 Cr - 83 Mo`, °C. From memory.
#[must_use]
pub fn bs_c(steel: &Composition) -> f64 {
    830.0
        - 270.0 * steel.get(C)
        - 90.0 * steel.get(Mn)
        - 37.0 * steel.get(Ni)
        - 70.0 * steel.get(Cr)
        - 83.0 * steel.get(Mo)
}

/// Ac1, Ac3 and Ms by a steelmaker's set, °C. Ac3 is `None` where the set gives it below
/// Ac1, which it does for high carbon.
#[must_use]
pub fn steelmaker_c(steel: &Composition) -> (f64, Option<f64>, f64) {
    let get = |element| steel.get(element);
    let ac1 = 750.8 - 26.6 * get(C) + 17.6 * get(Si) - 11.6 * get(Mn) - 22.9 * get(Cu) - 23.0 * get(Ni)
        + 24.1 * get(Cr)
        + 22.5 * get(Mo)
        - 39.7 * get(V)
        - 5.7 * get(Ti)
        + 232.4 * get(Nb)
        - 169.4 * get(Al)
        - 894.7 * get(B);
    let ac3 = 937.2 - 436.5 * get(C) + 56.0 * get(Si)
        - 19.7 * get(Mn)
        - 16.3 * get(Cu)
        - 26.6 * get(Ni)
        - 4.9 * get(Cr)
        + 38.1 * get(Mo)
        + 124.8 * get(V)
        + 136.3 * get(Ti)
        - 19.1 * get(Nb)
        + 198.4 * get(Al)
        + 3315.0 * get(B);
    let ms = 521.0
        - 353.0 * get(C)
        - 22.0 * get(Si)
        - 24.3 * get(Mn)
        - 7.7 * get(Cu)
        - 17.3 * get(Ni)
        - 17.7 * get(Cr)
        - 25.8 * get(Mo);
    (ac1, (ac3 >= ac1).then_some(ac3), ms)
}

/// Share of martensite at a temperature: `f = 1 - exp[-0.011 (Ms - T)]`, 0 at Ms and above.
///
/// Source: Koistinen and Marburger, from memory.
#[must_use]
pub fn martensite_share(ms_c: f64, temperature_c: f64) -> f64 {
    if temperature_c >= ms_c { 0.0 } else { 1.0 - (-0.011 * (ms_c - temperature_c)).exp() }
}

/// Every transformation temperature of a composition, °C, by its author.
///
/// Names: `ms`, `m50`, `m90`, `mf`, `bs` (Steven and Haynes, which the plan uses),
/// `ms-andrews`, `ae1-andrews`, `ae3-andrews`, `ae1-grange`, `ae3-grange`, `ae1-eldis`,
/// `ae3-eldis`, `ac1-steelmaker`, `ac3-steelmaker` (empty where it falls below Ac1) and
/// `ms-steelmaker`.
///
/// # Errors
/// A composition that is not a number, negative, above 100 %, or with more than 2 % C.
pub fn transformation_temperatures(
    methods: &Methods,
    steel: &Composition,
) -> Result<Vec<Outcome>, EngineError> {
    check_composition(steel)?;
    Domain::new("C", 0.0, 2.0).check(steel.get(C))?;
    let (ac1, ac3, ms) = steelmaker_c(steel);
    let point = |name, method, value| {
        Outcome::new(method, value, Unit::Celsius).named(name).from_inputs(within(methods.row(method), steel))
    };
    let ms_step = || vec![Step::new("Ms", ms_steven_haynes_c(steel), Unit::Celsius)];
    let mut ac3_outcome = point("ac3-steelmaker", Method::SteelmakerSet, 0.0);
    ac3_outcome.value = ac3;
    Ok(vec![
        point("ms", Method::StevenHaynes, ms_steven_haynes_c(steel)),
        point("m50", Method::StevenHaynesParts, m50_c(steel)).worked(ms_step()),
        point("m90", Method::StevenHaynesParts, m90_c(steel)).worked(ms_step()),
        point("mf", Method::StevenHaynesParts, mf_c(steel)).worked(ms_step()),
        point("bs", Method::StevenHaynesParts, bs_c(steel)),
        point("ms-andrews", Method::AndrewsMs, ms_andrews_c(steel)),
        point("ae1-andrews", Method::Andrews, ae1_andrews_c(steel)),
        point("ae3-andrews", Method::Andrews, ae3_andrews_c(steel)),
        point("ae1-grange", Method::Grange, ae1_grange_c(steel)),
        point("ae3-grange", Method::Grange, ae3_grange_c(steel)),
        point("ae1-eldis", Method::Eldis, ae1_eldis_c(steel)),
        point("ae3-eldis", Method::EldisAe3, ae3_eldis_c(steel)),
        point("ac1-steelmaker", Method::SteelmakerSet, ac1),
        ac3_outcome,
        point("ms-steelmaker", Method::SteelmakerSet, ms),
    ])
}

/// Share of martensite at a temperature, from 0 to 1.
///
/// # Errors
/// A temperature that is not a number or that no part has.
pub fn martensite(ms_c: f64, temperature_c: f64) -> Result<Outcome, EngineError> {
    let ms = Domain::new("Ms", -273.15, 1000.0).check(ms_c)?;
    let t = TEMPERATURE.check(temperature_c)?;
    Ok(Outcome::new(Method::KoistinenMarburger, martensite_share(ms, t), Unit::One)
        .named("martensite-share")
        .worked(vec![Step::new("Ms - T", ms - t, Unit::Kelvin)]))
}
