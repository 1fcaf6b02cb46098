//! A log that the person brings along is offered to be taken in, as if its file had been named there.

use std::path::Path;

use super::kept::LogKept;
use crate::app::{Page, State};

/// Opens the page that takes logs in, with this file named.
pub(crate) fn bring(state: &State, file: &Path) {
    LogKept::File.set(state, Some(&file.display().to_string()));
    state.log.borrow_mut().handed.import_anew();
    state.open.borrow_mut().pages.push(Page::LogImport);
}
