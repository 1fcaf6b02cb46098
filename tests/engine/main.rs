//! Each physical question by itself: published figures, limits, laws.

mod asking;
mod cracks;
mod fit;
mod fit_metals;
mod heat_cycle;
mod limits;
mod post_heat;
mod post_heat_laws;
mod printed;
mod properties;
mod published;
mod questions;
mod scatter;
mod shop;
mod shop_safety;
mod thermal;
mod two_readings;
mod unmarked;
mod weld;
mod weld_fillers;
mod weld_laws;
mod weld_order;
