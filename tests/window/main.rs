//! The real window on a testing backend: journeys through it, pictures of it, its controls,
//! and its start. Only with the feature `testing`.

mod controls;
mod journeys_kept;
mod journeys_keyboard;
mod journeys_pages;
mod journeys_plan;
mod journeys_tint;
mod kept_pictures;
mod pictures;
mod pictures_pages;
mod pictures_phone;
mod pictures_steps;
mod pictures_tint;
mod question_forms;
mod rows;
mod screen;
#[cfg(target_os = "linux")]
mod start;
#[path = "../shared/typed_job.rs"]
mod typed_job;
