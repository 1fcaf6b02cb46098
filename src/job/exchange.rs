//! One job gives way to another, whole: an example, a new one, the one that was put away.

use std::process;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{SystemTime, UNIX_EPOCH};

use super::job_text::JobText;
use super::session::Session;
use crate::questions::{self, OfPlan};

/// What the jobs that were put away are kept under, as text: with a dot and a mark that grows with time
/// behind it, so that two windows never write over each other's.
const PUT_AWAY: &str = "plan.last-job";
/// How many of them are kept.
const KEPT: usize = 6;

/// A job that was put away.
#[derive(Debug, Clone, PartialEq)]
pub struct PutAway {
    /// What it is kept under.
    pub key: String,
    /// The job, bare figures with their unit.
    pub job: JobText,
}

impl Session {
    /// Another job takes the place of the one in the form. Nothing that another window types into
    /// the old one comes into it.
    pub fn exchange_job(&mut self, job: JobText) {
        self.forget_what_stood_for_the_job();
        self.job = job;
        self.job_mark = mark_after(0);
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

    /// The jobs that were put away, the newest first.
    #[must_use]
    pub fn put_away(&self) -> Vec<PutAway> {
        let kept = self.typed.iter().rev().filter_map(|(key, text)| {
            let of_it =
                key.strip_prefix(PUT_AWAY).is_some_and(|mark| mark.is_empty() || mark.starts_with('.'));
            let job = JobText::from_ron(text).ok().filter(|_| of_it)?;
            Some(PutAway { key: key.clone(), job })
        });
        kept.collect()
    }

    /// Puts a job away beside the ones before. Of more than are kept the oldest goes.
    pub fn put_job_away(&mut self, job: &JobText) {
        let latest = self.put_away().first().and_then(|away| moment_of(&away.key));
        let key = format!("{PUT_AWAY}.{}", mark_after(latest.unwrap_or(0)));
        self.change_put_away(&PutAway { key, job: job.clone() });
        for old in self.put_away().into_iter().skip(KEPT) {
            self.typed.remove(&old.key);
        }
    }

    /// Takes one of them out.
    pub fn take_put_away(&mut self, key: &str) -> Option<JobText> {
        let found = self.put_away().into_iter().find(|away| away.key == key)?;
        self.typed.remove(key);
        Some(found.job)
    }

    /// Another text in the place of one of them.
    pub(super) fn change_put_away(&mut self, away: &PutAway) {
        self.typed.insert(away.key.clone(), away.job.to_ron());
    }
}

/// A mark that no other exchange has, of this window or another: a moment may be the same in two.
/// It is later than another one, whatever the clock says: one that was set back would make the newest the oldest.
fn mark_after(last: u128) -> String {
    static COUNT: AtomicU64 = AtomicU64::new(0);
    let count = COUNT.fetch_add(1, Ordering::Relaxed);
    let now = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |since| since.as_nanos());
    format!("{:016x}-{:x}-{count:x}", now.max(last.saturating_add(1)), process::id())
}

/// The moment in the key of a job that was put away.
fn moment_of(key: &str) -> Option<u128> {
    let mark = key.strip_prefix(PUT_AWAY)?.strip_prefix('.')?;
    u128::from_str_radix(mark.split('-').next()?, 16).ok()
}
