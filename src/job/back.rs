//! A session of a backup, put beside the one that stands.

use std::path::PathBuf;

use super::fields::Field;
use super::job_text::JobText;
use super::session::Session;
use super::store::{Store, StoreError};

/// The session as it stood before another one was put beside it.
const BEFORE: &str = "before-restore";

/// What became of a session that came back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SessionBack {
    /// All of it stood already.
    Same,
    /// What was missing is there now.
    Merged {
        /// The session as it stood.
        aside: PathBuf,
    },
}

impl Session {
    /// This session, put beside the one of a store. What stands stays: the job of the plan, what is typed and
    /// set. What is missing comes in: steels, and jobs that were put away; the other job is put away too. Of two steels of
    /// one name each is kept, the one that stood under a new name. Where nothing stands all of it is taken.
    ///
    /// # Errors
    /// [`StoreError`] if it can't be read or written; what stood is then still there.
    pub fn back_into(self, store: &Store) -> Result<SessionBack, StoreError> {
        let _alone = store.alone()?;
        let Some(text) = store.read(Self::FILE)? else {
            self.save(store)?;
            return Ok(SessionBack::Same);
        };
        let (stood, lost) = Self::from_ron(&text);
        let made = stood.clone().beside(self);
        if made == stood && lost.is_empty() {
            return Ok(SessionBack::Same);
        }
        let aside = store.keep_as(Self::FILE, BEFORE)?;
        made.save(store)?;
        Ok(SessionBack::Merged { aside })
    }

    /// What stands, with what the other one has and this one lacks. Answers to questions stay as they are here:
    /// they may belong to the job.
    fn beside(self, mut other: Self) -> Self {
        let empty = |job: &JobText| job.typed().is_empty();
        if empty(&self.job) && self.own_steels.is_empty() && self.typed.is_empty() {
            return other;
        }
        // As it was typed: what is put away has its units written out.
        let away = other.job.with_units_written(other.units);
        if other.units != self.units {
            other.switch_units(self.units);
        }
        let (job, mark) = (other.job.clone(), other.job_mark.clone());
        // Which units a job states is nothing where each figure has its own.
        let bare = |mut job: JobText| {
            job.set(Field::Units, None);
            job
        };
        let known = empty(&job) || bare(self.job.with_units_written(self.units)) == bare(away.clone());
        let away_keys: Vec<String> = other.put_away().into_iter().map(|away| away.key).collect();
        other.typed.retain(|key, _| away_keys.contains(key));
        let base = Self { units: self.units, ..Self::default() };
        let other = Self {
            language: self.language.clone(),
            theme: self.theme,
            text_size: self.text_size,
            controls: self.controls,
            place: self.place.clone(),
            job: self.job.clone(),
            job_mark: self.job_mark.clone(),
            choices: self.choices.clone(),
            ..other
        };
        let takes_job = empty(&self.job);
        let mut made = Self::merged(base, self, other);
        if takes_job {
            (made.job, made.job_mark) = (job, mark);
        } else if !known && !made.put_away().iter().any(|kept| kept.job == away) {
            made.put_job_away(&away);
        }
        made
    }
}
