//! What the heat cycle reckons with: `data/heat_cycle.ron`.

use serde::{Deserialize, Serialize};

use super::{Basis, Row};

/// How a surface loses heat.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LosingSurface {
    /// Stable id.
    pub id: String,
    /// Heat transfer without radiation, W/(m² K).
    pub transfer_w_per_m2_k: f64,
    /// Emissivity.
    pub emissivity: f64,
    /// What it rests on.
    pub basis: Basis,
}

impl Row for LosingSurface {
    fn id(&self) -> &str {
        &self.id
    }
}

/// How heat passes between members that only touch.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Contact {
    /// Stable id.
    pub id: String,
    /// Heat transfer, W/(m² K).
    pub transfer_w_per_m2_k: f64,
    /// What it rests on.
    pub basis: Basis,
}

impl Row for Contact {
    fn id(&self) -> &str {
        &self.id
    }
}

/// The arc of a process.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ArcPower {
    /// Id of the process.
    pub id: String,
    /// Net power, W.
    pub net_w: f64,
    /// What it rests on.
    pub basis: Basis,
}

impl Row for ArcPower {
    fn id(&self) -> &str {
        &self.id
    }
}

/// What a joint may lose, as a multiple of dark steel in still air.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LossBounds {
    /// The least.
    pub least: f64,
    /// The most.
    pub most: f64,
    /// What both rest on.
    pub basis: Basis,
}

impl LossBounds {
    /// The least and the most.
    #[must_use]
    pub const fn bounds(&self) -> (f64, f64) {
        (self.least, self.most)
    }
}

/// The whole file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HeatCycleData {
    /// Surfaces.
    pub surfaces: Vec<LosingSurface>,
    /// What a blanket passes, W/(m K).
    pub blanket_w_per_m_k: f64,
    /// What it rests on.
    pub blanket_basis: Basis,
    /// Share of the minutes of a cooling in still air that a draught, a bench or a clamp leaves.
    pub hindered_share: f64,
    /// What it rests on.
    pub hindered_basis: Basis,
    /// What readings on a joint may say of its losses.
    pub losses: LossBounds,
    /// Nobody holds a flame on one part for longer, min.
    pub longest_flame_min: f64,
    /// What it rests on.
    pub longest_flame_basis: Basis,
    /// Heat of steel from cold to melted, kJ/mm³.
    pub melting_kj_per_mm3: f64,
    /// No arc melts with a greater share of its heat.
    pub melting_share: f64,
    /// What both rest on.
    pub melting_basis: Basis,
    /// Contacts.
    pub contacts: Vec<Contact>,
    /// Arcs.
    pub arcs: Vec<ArcPower>,
    /// Factor on the conductivity of alloyed steel.
    pub alloyed_conductivity: f64,
    /// What it rests on.
    pub alloyed_basis: Basis,
}

impl HeatCycleData {
    /// The surface of an id.
    #[must_use]
    pub fn surface(&self, id: &str) -> Option<&LosingSurface> {
        self.surfaces.iter().find(|row| row.id == id)
    }

    /// Dark steel in still air.
    ///
    /// # Panics
    /// Never with a dataset that was checked: its row is one that must be there.
    #[must_use]
    pub fn still_air(&self) -> &LosingSurface {
        self.surface("still-air").expect("still air has its row")
    }

    /// A part in an oven.
    ///
    /// # Panics
    /// Never with a dataset that was checked: its row is one that must be there.
    #[must_use]
    pub fn oven(&self) -> &LosingSurface {
        self.surface("oven").expect("an oven has its row")
    }

    /// Under a pad.
    ///
    /// # Panics
    /// Never with a dataset that was checked: its row is one that must be there.
    #[must_use]
    pub fn pad(&self) -> &LosingSurface {
        self.surface("pad").expect("a pad has its row")
    }

    /// Dark steel where the air moves.
    ///
    /// # Panics
    /// Never with a dataset that was checked: its row is one that must be there.
    #[must_use]
    pub fn draught(&self) -> &LosingSurface {
        self.surface("draught").expect("a draught has its row")
    }

    /// Net power of a process's arc.
    #[must_use]
    pub fn arc(&self, process: &str) -> Option<&ArcPower> {
        self.arcs.iter().find(|row| row.id == process)
    }
}
