//! The real window on a testing backend: journeys through it, pictures of it, its controls,
//! and its start. Only with the feature `testing`.

mod access;
mod bench;
mod bench_pages;
mod controls;
mod journeys_answers;
mod journeys_coupon;
mod journeys_cycle;
mod journeys_cycle_read;
mod journeys_desktop;
mod journeys_flame;
mod journeys_form;
mod journeys_hand;
mod journeys_in_view;
mod journeys_kept;
mod journeys_keyboard;
mod journeys_log;
mod journeys_log_crayon;
mod journeys_log_typed;
mod journeys_log_work;
mod journeys_main_job;
mod journeys_new_steel;
mod journeys_pages;
mod journeys_phone;
mod journeys_plan;
mod journeys_sources;
mod journeys_tint;
mod journeys_two_windows;
mod journeys_unmarked;
mod journeys_user;
mod journeys_welcome;
mod journeys_weld;
mod kept_pictures;
mod languages;
mod looks;
mod pages_bench;
mod pages_log;
mod pictures;
mod pictures_bench;
mod pictures_pages;
mod pictures_phone;
mod pictures_steps;
mod pictures_tint;
mod places;
mod question_forms;
mod rows;
mod screen;
mod sheets;
#[cfg(target_os = "linux")]
mod start;
mod text_sizes;
#[path = "../shared/typed_job.rs"]
mod typed_job;
