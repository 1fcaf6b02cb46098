//! A job as the engine sees it: parts, joint, processes and demands, all in SI.

use std::f64::consts::SQRT_2;
use std::sync::Arc;

use super::safety_facts::SafetyFacts;
use crate::reference::{Composition, ConditionKind, Grade};

pub use crate::reference::Restraint;

/// The alloy that a steel without a mark counts with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Alloy {
    /// Little of it, which an answer has shown.
    Lean,
    /// As much as any low-alloy steel has.
    Rich,
}

/// The steel of a part.
#[derive(Debug, Clone, PartialEq)]
pub enum Steel {
    /// Known by grade only: its middle composition with the half ranges added. Shared, since a plan
    /// copies its job for each lever.
    Grade(Arc<Grade>),
    /// Known by certificate.
    Certificate {
        /// What the certificate states, weight percent.
        composition: Composition,
        /// The grade that the certificate names, if any; its own rows apply.
        grade: Option<Arc<Grade>>,
    },
    /// Known by nothing but a test at the bench: the worst that its answers leave.
    Unmarked {
        /// What it is treated as, weight percent.
        composition: Composition,
        /// Has a test shown how little alloy it has?
        alloy: Alloy,
        /// May it be tool steel or stainless steel as well?
        maybe_tool: bool,
    },
}

impl Steel {
    /// The analysis of a steel that is not known by its grade alone.
    #[must_use]
    pub const fn analysis(&self) -> Option<&Composition> {
        match self {
            Self::Grade(_) => None,
            Self::Certificate { composition, .. } | Self::Unmarked { composition, .. } => Some(composition),
        }
    }

    /// Is nothing known of it but what a test at the bench left?
    #[must_use]
    pub const fn is_unmarked(&self) -> bool {
        matches!(self, Self::Unmarked { .. })
    }

    /// The grade, where one is known.
    #[must_use]
    pub fn grade(&self) -> Option<&Grade> {
        match self {
            Self::Grade(grade) => Some(grade),
            Self::Certificate { grade, .. } => grade.as_deref(),
            Self::Unmarked { .. } => None,
        }
    }
}

/// The state that a part is in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Condition {
    /// Heat treatment state.
    pub kind: ConditionKind,
    /// The part's stated tempering temperature, °C.
    pub temper_c: Option<f64>,
}

/// One part of the joint.
#[derive(Debug, Clone, PartialEq)]
pub struct Member {
    /// Its steel.
    pub steel: Steel,
    /// Its state.
    pub condition: Condition,
    /// Plate thickness, or the diameter of a solid round, mm.
    pub thickness_mm: f64,
    /// Is it a solid round bar, given by diameter?
    pub round: bool,
    /// Yield strength where the reader knows it, MPa.
    pub yield_mpa: Option<f64>,
    /// Hardness where the reader measured it, HV.
    pub hardness_hv: Option<f64>,
    /// Is the weld zone buttered, so that its heat-affected zone is not heated again?
    pub buttered: bool,
}

/// The joint, as drawn.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    Hash,
    PartialOrd,
    Ord,
    strum::IntoStaticStr,
    strum::VariantNames,
    strum::VariantArray,
    serde::Serialize,
    serde::Deserialize,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Joint {
    /// Butt weld.
    Butt,
    /// T-joint, fillet on one side.
    TFilletOneSide,
    /// T-joint, fillets on both sides.
    TFilletBothSides,
    /// Lap joint.
    Lap,
    /// Corner joint.
    Corner,
    /// Boss or pin through a plate, fillets on both faces.
    BossThrough,
    /// Run on a shaft.
    RunOnShaft,
    /// Repair of a cavity or crack.
    Repair,
    /// Round bar to round bar.
    BarToBar,
}

impl Joint {
    /// All joints in the order of the sketches.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Row id in `data/joints.ron`.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    /// Has it a fillet, whose leg says how thick the weld is?
    #[must_use]
    pub const fn has_fillet(self) -> bool {
        matches!(
            self,
            Self::TFilletOneSide | Self::TFilletBothSides | Self::Lap | Self::Corner | Self::BossThrough
        )
    }

    /// May its edges be cut to a groove: a butt, a tee, a corner?
    #[must_use]
    pub const fn may_have_groove(self) -> bool {
        matches!(self, Self::Butt | Self::TFilletOneSide | Self::TFilletBothSides | Self::Corner)
    }
}

/// A welding process, in the order in which they are offered.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    Hash,
    PartialOrd,
    Ord,
    strum::IntoStaticStr,
    strum::VariantNames,
    strum::VariantArray,
    serde::Serialize,
    serde::Deserialize,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Process {
    /// Gas tungsten arc (TIG).
    Gtaw,
    /// Covered electrode, basic.
    SmawBasic,
    /// Gas metal arc, solid wire.
    Gmaw,
    /// Metal-cored wire.
    Mcaw,
    /// Flux-cored wire, gas-shielded.
    Fcaw,
    /// Flux-cored wire, self-shielded.
    FcawSelf,
    /// Submerged arc.
    Saw,
    /// Plasma arc.
    Paw,
    /// Covered electrode, rutile.
    SmawRutile,
    /// Covered electrode, cellulosic.
    SmawCellulosic,
    /// Covered electrode, nickel (for iron).
    SmawNickel,
    /// Oxy-fuel gas welding.
    OxyFuel,
}

impl Process {
    /// All processes in the order in which they are offered.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Row id in `data/processes.ron`.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// One process of the job with what it brings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Run {
    /// The process.
    pub process: Process,
    /// Diffusible hydrogen, ml/100 g of deposited metal; the upper end of its class.
    pub hydrogen_ml: f64,
    /// Net heat input (k included), kJ/mm.
    pub net_heat_kj_per_mm: f64,
}

/// What is known of the weld metal.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct WeldMetal {
    /// CET of the deposit, %; `None` is "not known" and is said, never guessed.
    pub cet: Option<f64>,
    /// Tensile strength of the deposit, MPa.
    pub tensile_mpa: Option<f64>,
    /// The least that it has by its class, MPa, where `tensile_mpa` is the cap of a class.
    pub least_tensile_mpa: Option<f64>,
    /// Does the weld take two runs or more?
    pub several_runs: bool,
    /// Weld thickness (throat of a fillet, depth of a groove), mm; `None` takes the
    /// thickest member.
    pub thickness_mm: Option<f64>,
    /// Austenitic or nickel filler: hydrogen stays in the weld metal.
    pub austenitic: bool,
    /// Is the hydrogen of a consumable with classes taken as the usual, since nobody told it?
    pub hydrogen_open: bool,
    /// Is every filler one for cast iron: nickel, nickel-iron, or a copper alloy?
    pub for_iron: bool,
    /// Does a filler bring so much chromium that its fume holds the hexavalent kind?
    pub chromium_fume: bool,
}

/// CET up to which weld metal is ordinary for structural steel, % (the wires and rods for it have up to
/// 0.35; common practice, no source).
const ORDINARY_CET: f64 = 0.35;
/// Strength from which weld metal is stronger than that, MPa: the classes of 100 ksi and up (common
/// practice, no source).
const STRONG_FROM_MPA: f64 = 690.0;

impl WeldMetal {
    /// Is it richer or stronger than what structural steel is ordinarily welded with? A table that
    /// spares such steel its preheat is made for ordinary weld metal.
    #[must_use]
    pub fn beyond_ordinary(&self) -> bool {
        let least_mpa = self.least_tensile_mpa.or(self.tensile_mpa);
        self.cet.is_some_and(|cet| cet > ORDINARY_CET)
            || least_mpa.is_some_and(|least_mpa| least_mpa >= STRONG_FROM_MPA)
    }
}

/// The code that the job names.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Code {
    /// None.
    #[default]
    None,
    /// AWS D1.1.
    AwsD11,
}

/// What drawing, procedure or customer demand, °C.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Demands {
    /// Minimum preheat.
    pub preheat_c: Option<f64>,
    /// Maximum interpass.
    pub interpass_c: Option<f64>,
    /// A temperature that no part may pass.
    pub ceiling_c: Option<f64>,
}

/// What a repair has before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Repair {
    /// A crack.
    pub crack: bool,
    /// Metal that oil has soaked.
    pub oil_soaked: bool,
    /// Nobody told whether oil has soaked it; it counts as if.
    pub oil_open: bool,
    /// Nobody told whether there is a crack.
    pub crack_open: bool,
    /// An old weld of a filler that nobody knows.
    pub old_weld: bool,
    /// A hardfacing where the weld goes.
    pub hardfacing: bool,
    /// A worn part that is built up.
    pub build_up: bool,
}

/// A whole job.
#[derive(Debug, Clone, PartialEq)]
pub struct Job {
    /// One or two members.
    pub members: Vec<Member>,
    /// The joint.
    pub joint: Joint,
    /// Its processes.
    pub runs: Vec<Run>,
    /// Restraint.
    pub restraint: Restraint,
    /// Weld metal.
    pub weld: WeldMetal,
    /// Shop temperature, °C.
    pub shop_c: f64,
    /// Very humid air?
    pub damp: bool,
    /// Code named by the job.
    pub code: Code,
    /// Figures demanded.
    pub demands: Demands,
    /// Edges cut by flame or plasma?
    pub thermal_cut: bool,
    /// What a repair has before it.
    pub repair: Repair,
    /// What it tells for the sake of safety.
    pub safety: SafetyFacts,
}

impl Job {
    /// The worst hydrogen of the job's processes, ml/100 g.
    #[must_use]
    pub fn hydrogen_ml(&self) -> f64 {
        self.runs.iter().map(|run| run.hydrogen_ml).fold(0.0, f64::max)
    }

    /// Leg of its fillet, where it is told, mm.
    #[must_use]
    pub fn leg_mm(&self) -> Option<f64> {
        self.weld.thickness_mm.filter(|_| self.joint.has_fillet()).map(|throat| throat * SQRT_2)
    }

    /// The lowest net heat input of the job's processes, kJ/mm.
    #[must_use]
    pub fn net_heat_kj_per_mm(&self) -> f64 {
        self.runs.iter().map(|run| run.net_heat_kj_per_mm).fold(f64::INFINITY, f64::min)
    }

    /// The greatest thickness among the members, mm.
    #[must_use]
    pub fn thickest_mm(&self) -> f64 {
        self.members.iter().map(|member| member.thickness_mm).fold(0.0, f64::max)
    }
}
