//! Steps that belong to the whole job and not to one piece: the work place is made safe on each day of work,
//! a trial piece is welded before the batch.

use super::entry::StepDone;
use super::{Entry, Hand, Id, Moment, Record, Standing, StepCopy, Thing};

/// The phase that is done anew each day.
const DAILY: &str = "make-safe";
/// The phase that is done for the batch.
const FOR_THE_BATCH: &str = "trial";

impl StepCopy {
    /// Is it a step of the job, and not of each piece?
    #[must_use]
    pub fn is_of_job(&self) -> bool {
        self.is_daily() || self.phase == FOR_THE_BATCH
    }

    /// Is it done anew on each day of work?
    #[must_use]
    pub fn is_daily(&self) -> bool {
        self.phase == DAILY
    }
}

/// A step of the job.
#[derive(Debug, Clone, PartialEq)]
pub struct JobStep<'a> {
    /// The step.
    pub step: &'a StepCopy,
    /// Where it was marked as done, as far as that counts at the moment: of a daily step, on that day.
    pub done: Vec<Thing<'a, StepDone>>,
}

impl<'a> Standing<'a> {
    /// The steps of the job, as they are at a moment.
    #[must_use]
    pub fn job_steps(&self, now: Moment) -> Vec<JobStep<'a>> {
        let Some(job) = &self.job else { return Vec::new() };
        let plan = &job.now.plan;
        let counts = |step: &StepCopy, done: &StepDone| {
            let same = done.number == step.number && done.branch == step.branch;
            // The day is that of the clock on which it is asked.
            let day = Moment::new(done.at.utc_s, now.offset_min).day_and_time().0;
            same && (!step.is_daily() || day == now.day_and_time().0)
        };
        // Marks that an earlier program put on a piece count too.
        let of = |step: &'a StepCopy| JobStep {
            step,
            done: self.steps.iter().filter(|done| counts(step, done.now)).cloned().collect(),
        };
        plan.steps.iter().filter(|step| step.is_of_job()).map(of).collect()
    }
}

impl Hand {
    /// The records that mark a step of the job as done, or take that back where it is.
    #[must_use]
    pub fn turn_job_step(&self, job: Id, step: &JobStep<'_>) -> Vec<Record> {
        if step.done.is_empty() {
            let (number, branch, note) = (step.step.number, step.step.branch.clone(), String::new());
            return vec![self.begin(Entry::Step(StepDone { piece: job, number, branch, at: self.at, note }))];
        }
        step.done.iter().map(|done| self.withdraw(done)).collect()
    }
}
