//! Whole jobs: what is planned, by which laws, with which cautions.

mod agree;
mod cases;
mod cautions;
mod contradictions;
mod grade_table;
mod laws;
mod never_panics;
mod own_sheets;
mod promises;
mod range;
mod sequence;
mod shown_only;
mod trade;
mod windows;

#[path = "../shared/jobs.rs"]
mod jobs;
#[path = "../shared/typed_job.rs"]
mod typed_job;
