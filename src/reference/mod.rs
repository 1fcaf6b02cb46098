//! The embedded dataset, typed and checked.
//!
//! Rows live in `data/*.ron`; `data/README.md` tells how to add one.

mod basis;
mod composition;
mod grade;
pub mod tint;

pub use basis::Basis;
pub use composition::{Composition, Element};
pub use grade::{
    CevCap, ConditionKind, D11Category, Grade, GradeCondition, GradeFamily, Limits, Printed, PublishedFit,
    PublishedPreheat, Pwht, Temper, TemperKind, ThicknessRow, ThicknessTable,
};
