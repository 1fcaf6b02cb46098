//! The dataset: its rules, its facts, its spellings and its search.

mod breakages;
mod designations;
mod engine;
mod facts;
mod rules;
mod search;

#[path = "../shared/jobs.rs"]
mod jobs;
