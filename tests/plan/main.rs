//! Whole jobs: what is planned, by which laws, with which cautions.

mod agree;
mod asked_first;
mod cases;
mod cautions;
mod contradictions;
mod grade_table;
mod holds;
mod laws;
mod name_law;
mod never_panics;
mod on_top;
mod own_sheets;
mod pairs;
mod promises;
mod range;
mod sequence;
mod shown_only;
mod trade;
mod units_law;
mod unmarked_steel;
mod weld;
mod weld_told;
mod windows;

#[path = "../shared/jobs.rs"]
mod jobs;
#[path = "../shared/typed_job.rs"]
mod typed_job;
