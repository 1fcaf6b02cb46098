//! A calculation method: a row of `data/methods.ron`. Where it stands beside others as evidence, its
//! name is the Fluent message `evidence-ID`.

use serde::{Deserialize, Serialize};
use strum::{EnumCount, EnumIter, IntoEnumIterator, IntoStaticStr};

use super::{Basis, Row, Unit};

/// Every method that the engine works by. Each has just one row, which alone says what the
/// method rests on and where it holds.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    Hash,
    PartialOrd,
    Ord,
    EnumCount,
    EnumIter,
    IntoStaticStr,
    Serialize,
    Deserialize,
)]
#[strum(serialize_all = "kebab-case")]
#[allow(missing_docs, reason = "each is told by its row and by the function that works it")]
pub enum Method {
    CeIiw,
    CeSi6,
    Cet,
    Pcm,
    Cen,
    CeWes,
    CeqS49,
    MethodB,
    #[strum(serialize = "sew-088")]
    Sew088,
    TableC1,
    D11Annex,
    D11Category,
    PracticeLowH,
    GradeRows,
    DataSheet,
    CeqBands,
    CarbonLine,
    MultiRun,
    Seferian,
    DeardenOneill,
    ItoBessyo,
    SaeChart,
    NavseaRows,
    PipingRow,
    ThinTube,
    OwnSheet,
    ColdShop,
    CoolOrDamp,
    Demanded,
    HeatInput,
    T85,
    HvYurioka,
    HvDuren,
    HvMaynier,
    HvWes,
    AstmE140,
    #[strum(serialize = "iso-18265")]
    Iso18265,
    FileTest,
    StevenHaynes,
    StevenHaynesParts,
    Andrews,
    AndrewsMs,
    Grange,
    Eldis,
    EldisAe3,
    SteelmakerSet,
    KoistinenMarburger,
    #[strum(serialize = "yurioka-1983")]
    Yurioka1983,
    #[strum(serialize = "yurioka-1983-time")]
    Yurioka1983Time,
    CombinedThickness,
    TaperedThickness,
    HydrogenScale,
    HydrogenPpm,
    HydrogenJis,
    HydrogenDiffusion,
    HydrogenArrhenius,
    HydrogenOwn,
    PostHeat,
    InspectionDelay,
    MeasuringDistance,
    MeasuringZone,
    MeasuringWait,
    CrayonPair,
    InfraredPlanck,
    RedHeat,
    TintFit,
    FitTable,
    ShrinkFit,
    LocalBore,
    LameGrip,
    FitTime,
    FitAtPreheat,
    EvenTemperature,
    TorchHeating,
    HeatCycle,
    AcetyleneDraw,
    BatchRhythm,
    ElectrodeExposure,
    SlowCooling,
    LumpedCooling,
    RoomAir,
    TwoReadings,
    FilletSize,
    GrooveArea,
    WeldRuns,
    WeldAmount,
    RunDeposit,
    FilletAisc,
    FilletEn,
    FillerMatch,
    TigSettings,
    TorchClass,
    ElectrodeCurrent,
    UnmarkedSteel,
    SolidIndex,
    RunShape,
    ReheatDg,
    ReheatPsr,
    HydrogenHardness,
    Lamellar,
    CutPreheat,
    ColdBent,
    Buttering,
    Tempering,
    StressRelief,
    Schaeffler,
}

impl Method {
    /// Id of its row, as printed in JSON.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// The limits that a method states for one of its inputs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct InputLimit {
    /// The symbol in the equation: `C`, `CET`, `d`, `HD`, `Q` …
    pub symbol: String,
    /// Its unit.
    pub unit: Unit,
    /// Lower limit, where stated.
    pub low: Option<f64>,
    /// Upper limit, where stated.
    pub high: Option<f64>,
}

/// One method with its basis and its range.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MethodRow {
    /// Stable id in kebab-case.
    pub id: String,
    /// What the equation or table rests on.
    pub basis: Basis,
    /// The range of each input; empty where the source states none.
    #[serde(default)]
    pub limits: Vec<InputLimit>,
    /// What the range rests on, where that differs from the equation.
    pub limits_basis: Option<Basis>,
    /// How far measured figures lie from its answer; of a conversion table, from the strength.
    pub scatter: Option<Scatter>,
    /// Is it shown beside the plan without ever governing?
    #[serde(default)]
    pub shown_only: bool,
    /// Further sources.
    #[serde(default)]
    pub see: Vec<String>,
}

/// How far measured figures lie from a method's answer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Scatter {
    /// Either way.
    pub by: ScatterBy,
    /// What it was counted from.
    pub basis: Basis,
}

/// A scatter in the unit of the answer, or as a share of it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum ScatterBy {
    /// So much.
    Amount(f64),
    /// Such a share.
    Share(f64),
}

impl ScatterBy {
    /// The span about a value.
    #[must_use]
    pub fn about(self, value: f64) -> (f64, f64) {
        let by = match self {
            Self::Amount(by) => by,
            Self::Share(share) => share * value,
        };
        (value - by, value + by)
    }
}

impl MethodRow {
    /// The limits of one input.
    #[must_use]
    pub fn limit(&self, symbol: &str) -> Option<&InputLimit> {
        self.limits.iter().find(|limit| limit.symbol == symbol)
    }
}

impl Row for MethodRow {
    fn id(&self) -> &str {
        &self.id
    }
}

/// The rows of all methods.
#[derive(Debug, Clone, PartialEq)]
pub struct Methods {
    /// In the order of the file.
    rows: Vec<MethodRow>,
    /// Where the row of each method stands.
    places: [usize; Method::COUNT],
}

impl Methods {
    /// The rows of a file; the ids of methods that have none, where some lack.
    pub(super) fn new(rows: Vec<MethodRow>) -> Result<Self, Vec<&'static str>> {
        let mut places = [0; Method::COUNT];
        let mut lacking = Vec::new();
        for method in Method::iter() {
            match rows.iter().position(|row| row.id == method.id()) {
                Some(place) => places[method as usize] = place,
                None => lacking.push(method.id()),
            }
        }
        if lacking.is_empty() { Ok(Self { rows, places }) } else { Err(lacking) }
    }

    /// The row of a method.
    #[must_use]
    pub fn row(&self, method: Method) -> &MethodRow {
        &self.rows[self.places[method as usize]]
    }

    /// All rows in the order of the file.
    pub fn iter(&self) -> std::slice::Iter<'_, MethodRow> {
        self.rows.iter()
    }

    /// All rows in the order of the file.
    #[must_use]
    pub fn rows(&self) -> &[MethodRow] {
        &self.rows
    }
}

impl<'a> IntoIterator for &'a Methods {
    type Item = &'a MethodRow;
    type IntoIter = std::slice::Iter<'a, MethodRow>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}
