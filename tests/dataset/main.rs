//! The dataset: its rules, its facts, its spellings and its search.

mod breakages;
mod breakages_heat;
mod breakages_shop;
mod designations;
mod engine;
mod facts;
mod material_cards;
mod printed;
mod printed_facts;
mod rules;
mod search;
mod sources;

#[path = "../shared/jobs.rs"]
mod jobs;
