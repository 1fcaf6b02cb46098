//! One job gives way to another, whole: an example, a new one, the one that was put away.

use std::process;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{SystemTime, UNIX_EPOCH};

use super::job_text::JobText;
use super::session::Session;

/// What the job that was put away is kept under, as text.
const PUT_AWAY: &str = "plan.last-job";

impl Session {
    /// Another job takes the place of the one in the form. Nothing that another window types into
    /// the old one comes into it.
    pub fn exchange_job(&mut self, job: JobText) {
        self.job = job;
        self.job_mark = new_mark();
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
