//! Which fillers fit this weld, and in which order?

use super::matching::{MatchVerdict, WeldKind, WeldLoad, verdict};
use crate::engine::error::Domain;
use crate::engine::{EngineError, Outcome, Unit};
use crate::reference::{
    DepositKind, DepositState, Element, Filler, FillerKind, Method, Process, Reference, WeldStrength,
};

/// Under a flux a bare wire of another process may be laid, and none is recommended for it.
const SUBMERGED: &str = "saw";

/// The electrode whose metal is nickel.
const NICKEL_ELECTRODE: &str = "smaw-nickel";

/// How many are offered.
pub const OFFERED: [&str; 5] =
    ["filler-first", "filler-second", "filler-third", "filler-fourth", "filler-fifth"];

/// What is asked of the fillers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OfferQuery<'a> {
    /// The process.
    pub process: &'a Process,
    /// The weld.
    pub kind: WeldKind,
    /// Its load.
    pub load: WeldLoad,
    /// Tensile strength of the weaker part, MPa.
    pub base_mpa: f64,
    /// Least tensile strength that the load takes, where it is known, MPa.
    pub least_mpa: Option<f64>,
    /// The most hydrogen, ml in 100 g.
    pub hydrogen_ml: f64,
    /// Does a heat treatment of 550 to 750 °C follow?
    pub heat_treated: bool,
    /// Is the part hardened and tempered anew afterwards?
    pub hardened_again: bool,
    /// Is it a free-cutting steel, oily or galvanised?
    pub free_cutting: bool,
    /// Are austenitic and nickel fillers wanted beside the ferritic ones?
    pub austenitic: bool,
    /// Chromium that a ferritic filler may have, %, where the alloy of the parts is known.
    pub chromium: Option<(f64, f64)>,
}

/// Why a filler is not offered.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr)]
#[strum(prefix = "filler-", serialize_all = "kebab-case")]
pub enum Dropped {
    /// It is not made for the process.
    WrongProcess,
    /// Its alloy is another than that of the parts.
    OtherAlloy,
    /// It brings too much hydrogen.
    TooWet,
    /// It bears no heat treatment.
    NoHeatTreatment,
    /// It can't be hardened with the part.
    NotHardened,
    /// It cracks hot on free-cutting steel.
    CracksHot,
    /// It is too weak by the rules.
    TooWeak,
    /// It is too weak for the load.
    TooWeakForLoad,
    /// Its strength is known only after a heat treatment that does not follow.
    NeedsTreatment,
    /// It is for cast iron or for brazing.
    NotForSteel,
    /// It is not asked for.
    NotAsked,
}

impl Dropped {
    /// Id of its note.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// Why a filler is not offered; none where it fits.
#[must_use]
pub fn dropped(strength: &WeldStrength, asked: &OfferQuery<'_>, filler: &Filler) -> Option<Dropped> {
    let ferritic = matches!(filler.deposit, DepositKind::Ferritic | DepositKind::Martensitic);
    if !laid_by(asked.process, filler) {
        return Some(Dropped::WrongProcess);
    }
    if matches!(filler.deposit, DepositKind::CastIron | DepositKind::Copper) {
        return Some(Dropped::NotForSteel);
    }
    if ferritic && asked.chromium.is_some_and(|range| !alloyed_alike(filler, range)) {
        return Some(Dropped::OtherAlloy);
    }
    if ferritic && driest_ml(filler).is_some_and(|ml| ml > asked.hydrogen_ml) {
        return Some(Dropped::TooWet);
    }
    if filler.deposit == DepositKind::Austenitic && asked.heat_treated {
        return Some(Dropped::NoHeatTreatment);
    }
    if asked.hardened_again && filler.state != DepositState::HardenedWithPart {
        return Some(Dropped::NotHardened);
    }
    if filler.deposit == DepositKind::Nickel && asked.free_cutting {
        return Some(Dropped::CracksHot);
    }
    if !ferritic && !asked.austenitic {
        return Some(Dropped::NotAsked);
    }
    let treated = matches!(filler.state, DepositState::HeatTreated { .. });
    if treated && !asked.heat_treated
        || filler.state == DepositState::HardenedWithPart && !asked.hardened_again
    {
        return Some(Dropped::NeedsTreatment);
    }
    let Some(filler_mpa) = filler.tensile_min_mpa else { return Some(Dropped::TooWeak) };
    if verdict(strength, asked.kind, asked.load, asked.base_mpa, filler_mpa, None).refused() {
        return Some(Dropped::TooWeak);
    }
    asked.least_mpa.is_some_and(|least| filler_mpa < least).then_some(Dropped::TooWeakForLoad)
}

/// Has the filler as much chromium as the parts take? One whose analysis is not known has what its strength
/// alone says: it is left to the strength where the parts need none.
fn alloyed_alike(filler: &Filler, (low, high): (f64, f64)) -> bool {
    match filler.nominal() {
        Some(made) => (low..=high).contains(&made.get(Element::Cr)),
        None => low <= 0.0,
    }
}

/// Hydrogen of the driest class that a filler is sold in, ml in 100 g; without classes, as wet as it gets.
fn driest_ml(filler: &Filler) -> Option<f64> {
    let hydrogen = filler.hydrogen.as_ref()?;
    let class = |text: &String| {
        let digits: String = text.chars().filter(char::is_ascii_digit).collect();
        digits.parse::<f64>().ok()
    };
    hydrogen.designators.iter().filter_map(class).reduce(f64::min).or(hydrogen.high_ml)
}

/// Is the filler one that the process lays?
fn laid_by(process: &Process, filler: &Filler) -> bool {
    // A nickel electrode is told by its metal: iron and steel are welded with several of them.
    if process.id == NICKEL_ELECTRODE {
        let nickel = matches!(filler.deposit, DepositKind::Nickel | DepositKind::CastIron);
        return nickel && filler.arcs.contains(&process.arc);
    }
    process.lays.iter().any(|arc| filler.arcs.contains(arc))
        && covered_alike(process, filler)
        && shielded_alike(process, filler)
}

/// A covered electrode belongs to its covering: E7018 is basic, E6010 is not.
fn covered_alike(process: &Process, filler: &Filler) -> bool {
    if process.covering.is_empty() || filler.deposit != DepositKind::Ferritic {
        return true;
    }
    let class = filler.classification.split('-').next().unwrap_or_default();
    process.covering.iter().any(|end| class.ends_with(end.as_str()))
}

fn cored(filler: &Filler) -> bool {
    filler.classification.starts_with('E') && !filler.classification.starts_with("ER")
}

/// A flux-cored wire is made for gas, or to be laid without.
fn shielded_alike(process: &Process, filler: &Filler) -> bool {
    match process.id.as_str() {
        "fcaw" => filler.self_shielded != Some(true),
        "fcaw-self" => filler.self_shielded != Some(false),
        // AWS A5.18 and A5.28 write ER for solid wire, and E with a C for metal-cored wire.
        "gmaw" | "gtaw" => filler.deposit != DepositKind::Ferritic || !cored(filler),
        "mcaw" => filler.deposit != DepositKind::Ferritic || cored(filler),
        _ => true,
    }
}

/// The fillers that fit, in their order: ferritic before austenitic before nickel, the weakest that
/// fits first, then less hydrogen, then the order of the file.
#[must_use]
pub fn offered<'a>(reference: &'a Reference, asked: &OfferQuery<'_>) -> Vec<&'a Filler> {
    let strength = &reference.welding.strength;
    let mut fit: Vec<&Filler> = reference
        .fillers
        .iter()
        .filter(|filler| filler.kind == FillerKind::Filler && dropped(strength, asked, filler).is_none())
        .filter(|filler| asked.process.id != SUBMERGED || filler.arcs.contains(&asked.process.arc))
        .collect();
    let kind = |filler: &Filler| match filler.deposit {
        DepositKind::Ferritic | DepositKind::Martensitic => 0,
        DepositKind::Austenitic => 1,
        _ => 2,
    };
    let mpa = |filler: &Filler| filler.tensile_min_mpa.unwrap_or(f64::MAX);
    let wet = |filler: &Filler| driest_ml(filler).unwrap_or(f64::MAX);
    fit.sort_by(|a, b| {
        let by_strength = || mpa(a).total_cmp(&mpa(b));
        kind(a).cmp(&kind(b)).then_with(by_strength).then_with(|| wet(a).total_cmp(&wet(b)))
    });
    fit
}

/// The first fillers that fit, each with its strength, and what the rules say of the first.
///
/// # Errors
/// `filler-none` where none fits; a strength that no steel has.
pub fn offer(
    reference: &Reference,
    asked: &OfferQuery<'_>,
) -> Result<(Vec<Outcome>, MatchVerdict), EngineError> {
    Domain::new("base-strength", 200.0, 2500.0).check(asked.base_mpa)?;
    Domain::new("hydrogen", 0.0, 200.0).check(asked.hydrogen_ml)?;
    let fit = offered(reference, asked);
    let weakest = fit.first().and_then(|filler| filler.tensile_min_mpa);
    let weakest = weakest.ok_or(EngineError::NoAnswer { reason: "filler-none" })?;
    let strength = &reference.welding.strength;
    let outcomes = OFFERED.iter().zip(&fit).filter_map(|(name, filler)| {
        let made = Outcome::new(Method::FillerMatch, filler.tensile_min_mpa?, Unit::Megapascal);
        Some(made.named(name).of_row(filler.classification.as_str()).resting_on(&filler.mechanics_basis))
    });
    let found = verdict(strength, asked.kind, asked.load, asked.base_mpa, weakest, None);
    Ok((outcomes.collect(), found))
}
