//! The job card: its pages, what they say, its PDF, its table of readings.

mod made;
mod pages;
mod preview;
mod printed;
mod table;
mod told;
