//! The screen stays lit while a weld-by clock runs on it: nobody taps it with a torch in the hand.

use super::desk::LogDesk;
use crate::app::Page;
use crate::log::{Moment, OpenLog, PieceStatus, PieceView};
use crate::reference::Reference;

/// After its minutes have run out a piece is shown for so long, so that the word is seen; after that a phone
/// that was left on the bench goes dark.
const SEEN_MIN: f64 = 10.0;

impl LogDesk {
    /// Keeps the screen lit while a page of the Log is on it and a clock of what it shows runs, or ran out
    /// just now.
    pub(crate) fn light(&mut self, page: Page, reference: &Reference) {
        let lit = self.clock_runs(page, reference, Moment::now());
        if self.lit != lit {
            self.lit = lit;
            self.device.keep_lit(lit);
        }
    }

    /// Of the open job, or in the list of the jobs of the last day.
    fn clock_runs(&self, page: Page, reference: &Reference, now: Moment) -> bool {
        let runs = |open: &OpenLog| {
            let standing = open.log().standing();
            standing.overview(reference, now).is_some_and(|all| all.pieces.iter().any(piece_runs))
        };
        match page {
            Page::Log | Page::LogNew | Page::LogImport => self.fresh.values().any(runs),
            page => page.is_log() && self.open.as_ref().is_some_and(runs),
        }
    }
}

fn piece_runs(piece: &PieceView<'_>) -> bool {
    match piece.status {
        PieceStatus::Warm | PieceStatus::Wait => true,
        PieceStatus::Overdue => piece.clock.overdue_min.is_some_and(|minutes| minutes < SEEN_MIN),
        _ => false,
    }
}
