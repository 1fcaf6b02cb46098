//! Forms: rows that unfold, whatever place they stand in.

pub(crate) mod echo;
pub(crate) mod events;
pub(crate) mod parts;
pub(crate) mod question;
mod question_asked;
mod question_inputs;
pub(crate) mod question_plan;
mod question_results;
pub(crate) mod question_steel;
pub(crate) mod row_id;
