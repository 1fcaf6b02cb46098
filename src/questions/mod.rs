//! Every physical question, declared once: the command line, the Bench and the tests ask here.
//!
//! ```
//! use strawblue::questions::{self, Answers, Given};
//! let given = Answers::new()
//!     .with("cet", Given::Number(0.2840))
//!     .with("thickness", Given::Number(31.5))
//!     .with("hydrogen", Given::Number(5.0))
//!     .with("heat-input", Given::Number(1.3));
//! let reply = questions::find("method-b").unwrap().ask(&given).unwrap();
//! assert_eq!(reply.answers[0].value.unwrap().round(), 71.0);
//! ```

mod answers;
mod austenite;
mod cracks;
mod equivalents;
mod fit;
mod fit_drawing;
mod formulas;
mod heat;
mod heat_cycle;
mod hydrogen;
mod input;
mod of_plan;
mod post_heat;
mod shape;
mod shop;
mod steel;
mod tables;
mod tempering;
mod tint;
mod tint_coupon;
mod two_readings;
mod types;
mod unmarked;
mod unmarked_walk;
mod weld_current;
mod weld_runs;
mod weld_strength;
mod work;

pub use answers::{AT_GRADE_MAXIMUM, Answers, COMPOSITION, Given, NOT_STATED, Problem, STEEL_NOTES};
pub use fit_drawing::{FitDrawing, fit_drawing};
pub use formulas::NO_PREHEAT;
pub use heat_cycle::{HEAT_CYCLE, MINIMUM as MINIMUM_OF_CYCLE, flames, reply as cycle_reply};
pub use input::{Group, Input, Kind, Preset};
pub use of_plan::OfPlan;
pub use tint_coupon::coupon_taught;
pub use types::{OUTSIDE_RANGE, Question, Reply, SAYING_NO, Taken};
pub use unmarked::step_of;
pub use unmarked_walk::{BenchTest, SECTION, Walk, walk};
pub use work::Work;

/// All questions in the order of the work.
pub static ALL: &[&Question] = &[
    &equivalents::CARBON_EQUIVALENT,
    &steel::HARDNESS_CONVERSION,
    &steel::FILE_TEST,
    &unmarked::UNMARKED_STEEL,
    &steel::TRANSFORMATION_TEMPERATURES,
    &steel::MARTENSITE_SHARE,
    &shape::COMBINED_THICKNESS,
    &shape::TAPERED_THICKNESS,
    &fit::FIT_LIMITS,
    &fit::SHRINK_FIT,
    &fit::LOCAL_BORE,
    &fit::FIT_TIME,
    &fit::FIT_AT_PREHEAT,
    &fit::EVEN_TEMPERATURE,
    &fit::FIT_STRENGTH,
    &shop::ROOM_AIR,
    &shop::TORCH_HEATING,
    &heat_cycle::HEAT_CYCLE,
    &shop::ACETYLENE_DRAW,
    &cracks::CUT_PREHEAT,
    &two_readings::TWO_READINGS,
    &shop::BATCH_RHYTHM,
    &shop::ELECTRODE_EXPOSURE,
    &hydrogen::HYDROGEN_SCALE,
    &tint::MEASURING_PLACE,
    &tint::CRAYON_PAIR,
    &tint::IR_TRUE_TEMPERATURE,
    &tint::IR_EXPECTED_READING,
    &tint::TINT_FLAME_ON,
    &tint::TINT_AFTERWARDS,
    &tint::PEAK_FROM_TINT,
    &tint_coupon::TINT_COUPON,
    &tint::RED_HEAT,
    &weld_strength::FILLER_CHOICE,
    &weld_strength::FILLER_MATCH,
    &weld_strength::FILLET_STRENGTH,
    &weld_strength::RING_STRENGTH,
    &weld_strength::AS_STRONG,
    &weld_runs::FILLET_SIZE,
    &weld_runs::GROOVE_AREA,
    &weld_runs::FILLET_RUNS,
    &weld_runs::RUNS_LEFT,
    &weld_runs::WELD_AMOUNT,
    &weld_current::TIG_SETTINGS,
    &weld_current::TIG_TORCH,
    &weld_current::ELECTRODE_CURRENT,
    &weld_current::WIRE_CURRENT,
    &weld_current::RUN_DEPOSIT,
    &austenite::AUSTENITIC_DEPOSIT,
    &cracks::BUTTER_LAYERS,
    &heat::HEAT_INPUT,
    &formulas::METHOD_B,
    &formulas::SEFERIAN,
    &formulas::ITO_BESSYO,
    &formulas::MULTI_RUN,
    &formulas::DEARDEN_ONEILL,
    &formulas::CRACKING_INDEX,
    &tables::TABLE_C1,
    &tables::D11_ANNEX,
    &tables::D11_CATEGORY,
    &tables::PRACTICE_ROWS,
    &tables::CEQ_BANDS,
    &tables::CARBON_LINE,
    &tables::NAVSEA_ROWS,
    &tables::GRADE_FIGURES,
    &heat::COOLING_TIME,
    &heat::PREHEAT_FOR_COOLING_TIME,
    &steel::HARDNESS_ESTIMATE,
    &hydrogen::HYDROGEN_REMOVAL,
    &post_heat::POST_HEAT,
    &shop::SLOW_COOLING,
    &shop::PART_COOLING,
    &tempering::STRESS_RELIEF,
    &tempering::TEMPER_CYCLES,
    &cracks::HOT_CRACKING,
    &cracks::RUN_SHAPE,
    &cracks::HYDROGEN_HARDNESS,
    &cracks::REHEAT_CRACKING,
    &cracks::LAMELLAR_TEARING,
    &cracks::COLD_BENT,
    &hydrogen::INSPECTION_WAIT,
];

/// The question of a name.
#[must_use]
pub fn find(name: &str) -> Option<&'static Question> {
    ALL.iter().copied().find(|question| question.name == name)
}

/// Inputs that several questions share, so that a key means the same everywhere.
mod shared {
    use super::{COMPOSITION, Input, Kind, OfPlan};
    use crate::engine::job::Joint;
    use crate::reference::Restraint;

    /// Rows of `data/joints.ron`.
    const JOINTS: &[&str] = <Joint as strum::VariantNames>::VARIANTS;
    const RESTRAINTS: &[&str] = <Restraint as strum::VariantNames>::VARIANTS;

    pub(super) const STEEL: Input = Input::new(COMPOSITION, Kind::Composition).of(OfPlan::Steel);
    pub(super) const THICKNESS: Input =
        Input::new("thickness", Kind::Length).within(0.1, 5000.0).of(OfPlan::Thickness);
    /// The steel, or a figure that follows from it.
    pub(super) const STEEL_OR_FIGURE: Input = STEEL.one_of("analysis");
    /// No weld has none, and no method measures less.
    pub(super) const HYDROGEN: Input =
        Input::new("hydrogen", Kind::Hydrogen).within(0.1, 200.0).of(OfPlan::Hydrogen);
    pub(super) const HYDROGEN_JIS: Input = Input::new("hydrogen-jis", Kind::Number).within(0.0, 200.0);
    pub(super) const NET_HEAT: Input =
        Input::new("heat-input", Kind::HeatInput).within(0.01, 50.0).of(OfPlan::NetHeat);
    pub(super) const JOINT: Input = Input::new("joint", Kind::Choice(JOINTS)).of(OfPlan::Joint);
    pub(super) const TEMPERATURE: Input = Input::new("temperature", Kind::Temperature).within(-100.0, 1600.0);
    pub(super) const RESTRAINT: Input =
        Input::new("restraint", Kind::Choice(RESTRAINTS)).of(OfPlan::Restraint);
}
