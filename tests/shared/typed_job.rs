//! A job as typed, for the tests of its reading.

#![allow(dead_code, reason = "each test file takes what it needs")]

use strawblue::job::{Fault, Field, FieldProblem, JobText, ReadJob, Reading, read_job};
use strawblue::reference::embedded;
use strawblue::units::Units;

pub(crate) fn job(pairs: &[(&str, &str)]) -> JobText {
    let mut made = JobText::default();
    for (id, text) in pairs {
        made.set(Field::from_id(id).unwrap_or_else(|| panic!("field {id}")), Some((*text).to_owned()));
    }
    made
}

pub(crate) fn read(pairs: &[(&str, &str)]) -> Result<ReadJob, Vec<FieldProblem>> {
    read_job(&job(pairs), &Reading { reference: embedded(), own_steels: &[], units: Units::C_MM })
}

/// A whole small job, with some fields changed.
pub(crate) fn small(changed: &[(&str, &str)]) -> Result<ReadJob, Vec<FieldProblem>> {
    let mut text = job(&[("steel", "4140"), ("thickness", "25"), ("joint", "butt"), ("process", "gtaw")]);
    for (id, value) in changed {
        text.set(Field::from_id(id).expect("a field"), Some((*value).to_owned()));
    }
    read_job(&text, &Reading { reference: embedded(), own_steels: &[], units: Units::C_MM })
}

pub(crate) fn faults(pairs: &[(&str, &str)]) -> Vec<(&'static str, Fault)> {
    small(pairs).expect_err("a problem").into_iter().map(|found| (found.field.id(), found.fault)).collect()
}
