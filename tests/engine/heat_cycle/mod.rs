//! The heat cycle: figures of others, laws, refusals, convergence.

mod histories;
mod joints;
