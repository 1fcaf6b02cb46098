//! Whole jobs: what is planned, by which laws, with which cautions.

mod cases;
mod cautions;
mod laws;
mod never_panics;
mod trade;
mod windows;

#[path = "../shared/jobs.rs"]
mod jobs;
#[path = "../shared/typed_job.rs"]
mod typed_job;
