//! One job gives way to another, whole: an example, a new one, the one that was put away.

use std::process;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{SystemTime, UNIX_EPOCH};

use super::job_text::JobText;
use super::session::Session;
use crate::questions::{self, OfPlan};

/// What the job that was put away is kept under, as text.
const PUT_AWAY: &str = "plan.last-job";

impl Session {
    /// Another job takes the place of the one in the form. Nothing that another window types into
    /// the old one comes into it.
    pub fn exchange_job(&mut self, job: JobText) {
        self.forget_what_stood_for_the_job();
        self.job = job;
        self.job_mark = new_mark();
    }

    /// What was typed or chosen for a question in place of a figure of the old job goes with that job. The
    /// fuel and the shop stay: they are the welder's own.
    fn forget_what_stood_for_the_job(&mut self) {
        let of_job = |key: &str| {
            let input = key.split_once('.').and_then(|(name, key)| questions::find(name)?.input(key));
            let facts = input.and_then(|input| input.of_plan);
            facts.is_some_and(|fact| !matches!(fact, OfPlan::Fuel | OfPlan::Shop))
        };
        self.typed.retain(|key, _| !of_job(key));
        self.choices.retain(|key, _| !of_job(key));
    }

    /// The job that was put away.
    #[must_use]
    pub fn put_away(&self) -> Option<JobText> {
        JobText::from_ron(self.typed.get(PUT_AWAY)?).ok()
    }

    /// Puts a job away in place of the one before, or takes that away.
    pub fn set_put_away(&mut self, job: Option<&JobText>) {
        match job {
            Some(job) => self.typed.insert(PUT_AWAY.to_owned(), job.to_ron()),
            None => self.typed.remove(PUT_AWAY),
        };
    }
}

/// A mark that no other exchange has, of this window or another: a moment may be the same in two.
fn new_mark() -> String {
    static COUNT: AtomicU64 = AtomicU64::new(0);
    let count = COUNT.fetch_add(1, Ordering::Relaxed);
    let at = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |since| since.as_nanos());
    format!("{at:x}-{:x}-{count:x}", process::id())
}
