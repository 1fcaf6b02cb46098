//! What is said, and the rules that every file of the house keeps.

mod access;
mod contrast;
mod figures;
mod house;
mod languages;
mod messages;
mod safety_search;
mod style;
mod terms;
mod whole_file;
