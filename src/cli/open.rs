//! A file by itself: what the window would open, where there is no window.

use super::arguments::Request;
use super::{NOT_UNDERSTOOD, Said, plan};
use crate::log::Brought;
use crate::units::shortened;
use crate::words::Words;

/// Why the window can't be opened; beside it the plan, where the file is a job.
pub(super) fn without_window(file: &str, request: &Request, words: &Words, why: &str) -> Said {
    let mut said = match Brought::read(file.as_ref()) {
        Err(problem) => return Said::problems(&[(shortened(file), problem.say(words))], request.json),
        Ok(Brought::Job(_)) => plan::plan(Some(file), &[], request, words),
        Ok(Brought::Log | Brought::Photo) => Said { status: NOT_UNDERSTOOD, ..Said::default() },
    };
    said.err.insert_str(0, &(words.with("cli-no-window-file", &[("why", why)]) + "\n"));
    said
}
