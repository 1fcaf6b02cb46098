//! What becomes of an austenitic filler on a low-alloy steel?

use crate::engine::crack::solidification::mixed;
use crate::engine::error::{Domain, check_composition};
use crate::engine::{EngineError, Outcome, Step, Unit};
use crate::reference::Element::{C, Cr, Cu, Mn, Mo, N, Nb, Ni, Si};
use crate::reference::{Basis, Composition, Method};

/// Schaeffler's equivalents: `Cr + Mo + 1.5 Si + 0.5 Nb`, `Ni + 30 C + 0.5 Mn`.
#[must_use]
pub fn schaeffler(weld: &Composition) -> (f64, f64) {
    let get = |element| weld.get(element);
    (get(Cr) + get(Mo) + 1.5 * get(Si) + 0.5 * get(Nb), get(Ni) + 30.0 * get(C) + 0.5 * get(Mn))
}

/// Those of WRC-1992: `Cr + Mo + 0.7 Nb`, `Ni + 35 C + 20 N + 0.25 Cu`.
#[must_use]
pub fn wrc(weld: &Composition) -> (f64, f64) {
    let get = |element| weld.get(element);
    (get(Cr) + get(Mo) + 0.7 * get(Nb), get(Ni) + 35.0 * get(C) + 20.0 * get(N) + 0.25 * get(Cu))
}

/// Ferrite by Séférian, %: `3 (Cr - 0.93 Ni - 6.7)` of Schaeffler's equivalents, within 4 either way.
#[must_use]
pub fn ferrite_percent((chromium, nickel): (f64, f64)) -> f64 {
    (3.0 * (chromium - 0.93 * nickel - 6.7)).max(0.0)
}

/// Nickel equivalent above the border of martensite: `Ni - (25 - 0.757 Cr)`, the line read by eye.
#[must_use]
pub fn margin((chromium, nickel): (f64, f64)) -> f64 {
    nickel - (25.0 - 0.757 * chromium)
}

/// Martensite start by Eichelmann and Hull, °C.
#[must_use]
pub fn ms_c(weld: &Composition) -> f64 {
    let get = |element| weld.get(element);
    1302.0 - 42.0 * get(Cr) - 61.0 * get(Ni) - 33.0 * get(Mn) - 28.0 * get(Si) - 1667.0 * (get(C) + get(N))
}

/// Is martensite to be expected?
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, strum::IntoStaticStr)]
#[strum(prefix = "austenite-", serialize_all = "kebab-case")]
pub enum Martensite {
    /// No.
    NoMartensite,
    /// On the border.
    Borderline,
    /// Yes.
    Expected,
}

impl Martensite {
    /// Id of its note.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    /// The worse word of the diagram and of the martensite start.
    #[must_use]
    pub fn of(margin: f64, ms_c: f64) -> Self {
        let by_line = match margin {
            margin if margin >= 1.5 => Self::NoMartensite,
            margin if margin >= -1.5 => Self::Borderline,
            _ => Self::Expected,
        };
        let by_start = match ms_c {
            ms_c if ms_c < -50.0 => Self::NoMartensite,
            ms_c if ms_c <= 20.0 => Self::Borderline,
            _ => Self::Expected,
        };
        by_line.max(by_start)
    }
}

/// The deposit of an austenitic filler.
#[derive(Debug, Clone, PartialEq)]
pub struct Deposit {
    /// Carbon, ferrite, margin, martensite start.
    pub outcomes: Vec<Outcome>,
    /// Is martensite to be expected?
    pub martensite: Martensite,
    /// Ferrite, %.
    pub ferrite_percent: f64,
    /// Manganese of the filler, %.
    pub filler_mn: f64,
}

/// What a layer of an austenitic filler is made of, and whether it stays austenitic.
///
/// Source: Schaeffler's equivalents as a fabrication note prints them; ferrite, border and martensite start
/// from memory. Layer n has the part's share to the power n (common practice).
///
/// # Errors
/// A composition that no steel has; a share outside 0 to 1; a filler without chromium and nickel.
pub fn austenitic(
    base: &Composition,
    filler: &Composition,
    dilution: f64,
    layer: f64,
) -> Result<Deposit, EngineError> {
    check_composition(base)?;
    check_composition(filler)?;
    let dilution = Domain::new("dilution", 0.0, 1.0).check(dilution)?;
    let layer = Domain::new("layer", 1.0, 10.0).check(layer)?;
    Domain::new("filler-cr", 10.0, 40.0).check(filler.get(Cr))?;
    Domain::new("filler-ni", 3.0, 40.0).check(filler.get(Ni))?;
    let share = dilution.powf(layer);
    let weld = mixed(base, filler, share);
    let (of_schaeffler, of_wrc) = (schaeffler(&weld), wrc(&weld));
    let (ferrite, above, start_c) = (ferrite_percent(of_schaeffler), margin(of_schaeffler), ms_c(&weld));
    let memory = |of| Basis::memory(of);
    let made = |name, value, unit| Outcome::new(Method::Schaeffler, value, unit).named(name);
    let step = |symbol, value| Step::new(symbol, value, Unit::One);
    let outcomes = vec![
        made("austenite-margin", above, Unit::One)
            .spread(above - 1.5, above + 1.5)
            .resting_on(&memory("border of martensite in the Schaeffler diagram, read by eye"))
            .worked(vec![
                step("Cr eq", of_schaeffler.0),
                step("Ni eq", of_schaeffler.1),
                step("Cr eq WRC", of_wrc.0),
                step("Ni eq WRC", of_wrc.1),
            ]),
        made("austenite-ms", start_c, Unit::Celsius)
            .resting_on(&memory("Eichelmann and Hull, martensite start")),
        made("austenite-ferrite", ferrite, Unit::Percent)
            .spread((ferrite - 4.0).max(0.0), ferrite + 4.0)
            .resting_on(&memory("Séférian, ferrite of austenitic weld metal")),
        made("austenite-carbon", weld.get(C), Unit::Percent)
            .resting_on(&Basis::Practice)
            .worked(vec![step("share", share)]),
    ];
    Ok(Deposit {
        outcomes,
        martensite: Martensite::of(above, start_c),
        ferrite_percent: ferrite,
        filler_mn: filler.get(Mn),
    })
}
