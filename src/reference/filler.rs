//! A filler metal: a row of `data/fillers.ron`.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{ArcKind, Basis, Composition, Element, Limits, Row, middle_of};

/// What kind of weld metal a filler leaves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum DepositKind {
    /// Ferritic steel: it can be weighed by its carbon equivalent.
    Ferritic,
    /// Martensitic stainless steel.
    Martensitic,
    /// Austenitic, or duplex with much ferrite: tolerates hydrogen, matches no Q&T strength.
    Austenitic,
    /// Nickel alloy: tolerates hydrogen.
    Nickel,
    /// Nickel or nickel-iron for cast iron.
    CastIron,
    /// Copper alloy: a braze weld, the base stays unmelted.
    Copper,
}

/// Is the row a filler that one buys, or a strength symbol of a standard?
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum FillerKind {
    /// An electrode, a wire or a rod.
    Filler,
    /// The strength symbol of a classification standard, for any filler that bears it.
    StrengthSymbol,
}

/// The state that the strengths hold for.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum DepositState {
    /// As welded.
    AsWelded,
    /// After heat treatment, at the temperature given.
    HeatTreated {
        /// Lower end, °C, where the classification states one.
        low_c: Option<f64>,
        /// Upper end, °C.
        high_c: Option<f64>,
    },
    /// Hardened and tempered together with the part.
    HardenedWithPart,
}

/// Typical diffusible hydrogen of the filler as it is bought.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FillerHydrogen {
    /// Lower end, ml in 100 g, where a number is stated.
    pub low_ml: Option<f64>,
    /// Upper end, ml in 100 g, where a number is stated.
    pub high_ml: Option<f64>,
    /// Designators that it is usually sold with: `H4`, `H4R`, `H8` …
    #[serde(default)]
    pub designators: Vec<String>,
    /// What they rest on.
    pub basis: Basis,
}

/// One filler.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Filler {
    /// Stable id in kebab-case.
    pub id: String,
    /// Classification as its standard writes it.
    pub classification: String,
    /// A filler, or a strength symbol.
    pub kind: FillerKind,
    /// Other designations: ISO classes and second names.
    #[serde(default)]
    pub also: Vec<String>,
    /// The standard that classifies it.
    pub spec: String,
    /// The processes that it is used with.
    pub arcs: Vec<ArcKind>,
    /// What weld metal it leaves.
    pub deposit: DepositKind,
    /// The state that the strengths hold for.
    pub state: DepositState,
    /// Lowest tensile strength, MPa.
    pub tensile_min_mpa: Option<f64>,
    /// Highest tensile strength, MPa, where the class caps it.
    pub tensile_max_mpa: Option<f64>,
    /// Lowest yield strength, MPa.
    pub yield_min_mpa: Option<f64>,
    /// Highest yield strength, MPa, where the class caps it.
    pub yield_max_mpa: Option<f64>,
    /// Least elongation, %. Kept for reading.
    pub elongation_min_percent: Option<f64>,
    /// Impact demand as printed. Kept for reading.
    pub impact: Option<String>,
    /// What the strengths rest on.
    pub mechanics_basis: Basis,
    /// Composition limits, weight percent; empty where the class sets none that is known.
    #[serde(default)]
    pub composition: BTreeMap<Element, Limits>,
    /// Is the composition that of the wire before it meets its flux? Kept for reading: the weld
    /// metal is weighed by the wire, whose alloy the flux may change.
    #[serde(default)]
    pub wire_only: bool,
    /// Is a main alloying element missing from what is known?
    #[serde(default)]
    pub partial: bool,
    /// What the composition rests on.
    pub composition_basis: Basis,
    /// Typical hydrogen; `None` where it is not asked (copper, cast iron).
    pub hydrogen: Option<FillerHydrogen>,
    /// Is a flux-cored wire laid without gas? `None` for any other filler.
    #[serde(default)]
    pub self_shielded: Option<bool>,
    /// Polarity and gas. Kept for reading.
    pub polarity: Option<String>,
    /// Fluent messages on use and limits.
    pub notes: Vec<String>,
}

impl Filler {
    /// The middle composition of the weld metal, by the same rule as for a grade:
    /// `None` where the composition, or a main part of it, isn't known. A partial one
    /// would make the weld metal look softer than it is.
    #[must_use]
    pub fn nominal(&self) -> Option<Composition> {
        (!self.composition.is_empty() && !self.partial).then(|| middle_of(&self.composition))
    }

    /// Is the weld metal one that tolerates hydrogen (austenitic or nickel)?
    #[must_use]
    pub const fn tolerates_hydrogen(&self) -> bool {
        matches!(self.deposit, DepositKind::Austenitic | DepositKind::Nickel | DepositKind::CastIron)
    }

    /// Is it one for cast iron: nickel, nickel-iron, or a copper alloy that leaves the iron unmelted?
    #[must_use]
    pub const fn suits_iron(&self) -> bool {
        matches!(self.deposit, DepositKind::Nickel | DepositKind::CastIron | DepositKind::Copper)
    }

    /// Has it so much chromium that its fume holds the hexavalent kind: stainless, or more than 3 %?
    /// A nickel alloy or a stainless class whose composition is not known counts as one.
    #[must_use]
    pub fn chromium_fume(&self) -> bool {
        match self.nominal() {
            Some(composition) => composition.get(Element::Cr) > 3.0,
            None => {
                matches!(
                    self.deposit,
                    DepositKind::Austenitic | DepositKind::Nickel | DepositKind::Martensitic
                )
            }
        }
    }
}

impl Row for Filler {
    fn id(&self) -> &str {
        &self.id
    }
}
