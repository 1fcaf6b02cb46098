//! Each published preheat formula by itself; the plan weighs them.

pub mod chart_index;
pub mod dearden_oneill;
pub mod ito_bessyo;
pub mod method_b;
pub mod multi_run;
pub mod seferian;
