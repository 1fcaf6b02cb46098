//! The heat cycle: figures of others, laws, refusals, convergence.

mod all_joints;
mod analytic;
mod closed;
mod convergence;
mod histories;
mod joints;
mod laws;
mod oracle;
mod question;
mod readings;
mod refusals;
mod sources;
