//! The plan: evidence weighed into a minimum preheat, a maximum interpass and a ceiling.

mod types;

pub use types::{Evidence, Family, Limit, Obligation, Says, Standing};
