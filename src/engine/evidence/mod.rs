//! Each preheat method by itself: its formula or table, and its word on a member of a
//! job. The plan weighs them.

pub mod alone;
mod case;
pub mod chart_index;
pub mod d11;
pub mod dearden_oneill;
pub mod grade_rows;
pub mod heat_affected;
pub mod ito_bessyo;
pub mod method_b;
pub mod multi_run;
pub mod practice;
pub mod seferian;
pub mod shown;
pub mod table_c1;
pub mod weld_metal;

pub use case::{Case, held, method};
