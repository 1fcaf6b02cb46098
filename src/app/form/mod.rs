//! Forms: rows that unfold, whatever place they stand in.

pub(crate) mod events;
pub(crate) mod parts;
pub(crate) mod question;
pub(crate) mod row_id;
