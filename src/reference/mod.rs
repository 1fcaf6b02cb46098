//! The embedded dataset, typed and checked.
//!
//! Rows live in `data/*.ron`; `data/README.md` tells how to add one.

mod basis;
mod browse;
mod caution;
pub mod check;
mod code_rows;
mod composition;
mod condition;
mod d11;
mod everyday;
mod filler;
mod fit;
mod grade;
mod grade_heat;
mod heat_cycle;
mod inspection;
mod joint;
mod load;
mod method;
mod names;
mod own_sheets;
mod post_heat;
mod practice;
mod practice_tables;
mod process;
mod repair;
mod safety_facts;
pub mod search;
mod shop;
mod slips;
mod source;
pub mod spelling;
mod table;
mod table_c1;
pub mod tint;
mod transformation;
mod unit;
mod unmarked;
mod welding;

pub use crate::units::Printed;
pub use basis::Basis;
pub use browse::{Twin, differences};
pub use caution::{Caution, Harm, Place, Role, Severity, Trigger};
pub use check::{Fault, Rule};
pub use code_rows::{
    CodeCase, CodeEdition, CodeForce, CodeRow, CodeRows, GradeNumber, NavalCase, NavalRow, PNumber,
};
pub use composition::{Composition, Element};
pub use condition::{
    CARBURISED_C_MAX, ConditionKind, FigureKind, GradeCondition, GradeHardness, HardnessScale, Temper,
    TemperKind,
};
pub use d11::{
    AnnexRow, AnnexTable, CategoryRow, Cell, ColdStart, D11, Group, GroupRow, GroupTable, HydrogenLevel,
    LevelLimit, SiBand, SiBands, WarmZone,
};
pub use everyday::EverydayWord;
pub use filler::{DepositKind, DepositState, Filler, FillerHydrogen, FillerKind};
pub use fit::{Coolant, Fit, FitStep, Fits, HotLaw, MeanExpansion, Metal, Shrinkage};
pub use grade::{
    CevCap, D11Category, Grade, GradeFamily, Limits, PublishedFit, PublishedPreheat, Pwht, ThicknessRow,
    ThicknessTable, middle_of, thickness_row,
};
pub use grade_heat::{DocumentedWindow, OwnPair, PrintedTransformation, ThickerLimits, WindowRow};
pub use heat_cycle::{ArcPower, Contact, HeatCycleData, LosingSurface};
pub use inspection::{WaitBook, WaitFor, WaitRule};
pub use joint::{FactorRange, HeatWays, Joint, Restraint};
pub use load::{Files, Reference, embedded};
pub use method::{InputLimit, Method, MethodRow, Methods};
pub use own_sheets::{
    Diffusion, DiffusionPoint, HardnessLimit, HardnessLimits, IronRoute, IronRouteKind, IronSpan, OwnSheets,
    Sheet, SheetCase, SheetGroup,
};
pub use post_heat::{
    AusteniteHold, DiffusivityCurves, DiffusivityPoint, PostHeatData, PostHeatRule, RuleTime, SizeStep,
    Trapping,
};
pub use practice::{
    Band, Bands, CarbonLine, CarbonPoint, Cover, CoverElement, CrackedCase, HydrogenShift, LowHydrogen,
    LowHydrogenRow, Practice, RowUse, SaeRow, ShownSpan, SpanBand, SpanBands, Stretch, ThicknessCredit,
};
pub use practice_tables::{BoltClass, TemperCurve, TemperPoint, Thermomechanical, ThinTube};
pub use process::{ArcKind, Designator, HydrogenScale, Process, ProcessFile};
pub use repair::{Below, BuildUpRow, CrackRow, OilRow, RepairData};
pub use safety_facts::{
    Assembly, Cavity, Cleaner, Coating, Grinder, HeatSource, Inspection, Told, WorkPlace,
};
pub use shop::{AcetyleneDraw, Efficiency, ElectrodeClass, ElectrodeExposure, Fuel, Fuels, SlowCooling, Tip};
pub use source::{Source, SourceKind, SourceRead};
pub use table::{Row, Table, row_at};
pub use table_c1::{C1Cell, TableC1};
pub use transformation::{MsBand, MsScatter, Transformation};
pub use unit::Unit;
pub use unmarked::{FamilyDensity, MartensiteRow, TestAnswer, TestFlag, TestStep, TreatAs, Unmarked};
pub use welding::{
    BentRow, Convexity, Correlation, CoveredElectrode, CutStep, DepositRate, HotLess, HotTorch,
    HydrogenHardness, HydrogenRows, LargestLeg, LeastLeg, LoadLine, LowerHours, MnS, PerEnergy, Position,
    RestraintStrain, RodRow, RunProcess, StrainClass, StrainShape, StrainStep, TigRow, TorchClass,
    TreatmentRate, TungstenRow, UsualRange, WearPlate, WeldCracks, WeldCurrent, WeldRuns, WeldStrength,
    WeldTreatment, Welding, WireRow,
};
