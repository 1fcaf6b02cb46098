//! A job as typed, for the tests of its reading.

#![allow(dead_code, reason = "each test file takes what it needs")]

use strawblue::job::{Fault, Field, FieldProblem, JobText, Of, ReadJob, Reading, Slot, read_job};
use strawblue::reference::embedded;
use strawblue::units::Units;

/// Every field of a job with two parts and three processes.
pub(crate) fn every_slot() -> Vec<Slot> {
    let count = |field: &Field| match field.of() {
        Of::Job => 1,
        Of::Part => 2,
        Of::Run => 3,
    };
    Field::ALL.iter().flat_map(|field| (0..count(field)).map(|nth| field.nth(nth))).collect()
}

pub(crate) fn job(pairs: &[(&str, &str)]) -> JobText {
    over(JobText::default(), pairs)
}

/// A job with some fields changed, as the command line would.
pub(crate) fn over(mut job: JobText, pairs: &[(&str, &str)]) -> JobText {
    let slot = |id: &str| Slot::from_id(id).unwrap_or_else(|| panic!("field {id}"));
    job.put_keys(pairs.iter().map(|(id, text)| (slot(id), (*text).to_owned())));
    job
}

pub(crate) fn read(pairs: &[(&str, &str)]) -> Result<ReadJob, Vec<FieldProblem>> {
    read_job(
        &job(pairs),
        &Reading {
            reference: embedded(),
            own_steels: &[],
            units: Units::C_MM,
            mark: strawblue::units::Mark::Point,
        },
    )
}

/// A whole small job, with some fields changed.
pub(crate) fn small(changed: &[(&str, &str)]) -> Result<ReadJob, Vec<FieldProblem>> {
    let text = job(&[("steel", "4140"), ("thickness", "25"), ("joint", "butt"), ("process", "gtaw")]);
    let text = over(text, changed);
    read_job(
        &text,
        &Reading {
            reference: embedded(),
            own_steels: &[],
            units: Units::C_MM,
            mark: strawblue::units::Mark::Point,
        },
    )
}

pub(crate) fn faults(pairs: &[(&str, &str)]) -> Vec<(&'static str, Fault)> {
    let found = small(pairs).expect_err("a problem").into_iter();
    found.map(|found| (&*found.slot.id().into_owned().leak(), found.fault)).collect()
}
