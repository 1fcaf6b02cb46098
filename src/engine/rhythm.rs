//! How does a batch run when the next piece heats while this one is welded?

use super::error::Domain;
use super::{EngineError, Outcome, Unit};
use crate::reference::Method;

/// Minutes of each piece, and how many there are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Batch {
    /// Minutes of flame, the quickest.
    pub heat_min: f64,
    /// Minutes of flame, the slowest.
    pub heat_most_min: f64,
    /// Minutes that the piece then lies until it is equally hot.
    pub soak_min: f64,
    /// Minutes from the end of that to the end of the last run, with all handling.
    pub weld_min: f64,
    /// How many pieces.
    pub pieces: f64,
}

/// The rhythm.
#[derive(Debug, Clone, PartialEq)]
pub struct Rhythm {
    /// Minutes from piece to piece, of the batch, from the first run to the next flame, and idle.
    pub outcomes: [Outcome; 4],
    /// Minutes that a piece may be ready too soon, where the flame is quick.
    pub ready_early_min: f64,
    /// Does the welder wait for the flame?
    pub flame_is_slower: bool,
}

/// One piece heats while another is welded: each takes the longer of the two,
/// `max(heat + soak, weld)`; the first is heated with nothing beside it.
///
/// The next flame is lit so that even the slowest is done when the weld is.
///
/// # Errors
/// A figure that is not a number, or that no work takes; `rhythm-swapped` where the slowest flame is
/// the quicker one.
pub fn batch_rhythm(batch: Batch) -> Result<Rhythm, EngineError> {
    let minutes = Domain::new("minutes", 0.0, 10_000.0);
    for span in [batch.heat_min, batch.heat_most_min, batch.soak_min, batch.weld_min] {
        minutes.check(span)?;
    }
    Domain::new("parts", 1.0, 10_000.0).check(batch.pieces)?;
    if batch.heat_most_min < batch.heat_min {
        return Err(EngineError::NoAnswer { reason: "rhythm-swapped" });
    }
    let ready = |heat: f64| heat + batch.soak_min;
    let (quick, slow) = (ready(batch.heat_min), ready(batch.heat_most_min));
    let piece = |ready: f64| ready.max(batch.weld_min);
    let whole = |ready: f64| ready + batch.weld_min + (batch.pieces - 1.0) * piece(ready);
    let answer = |name, low: f64, high: f64| {
        let made = Outcome::new(Method::BatchRhythm, high, Unit::Minute).named(name);
        if low == high { made } else { made.spread(low, high) }
    };
    Ok(Rhythm {
        outcomes: [
            answer("rhythm-piece", piece(quick), piece(slow)),
            answer("rhythm-batch", whole(quick), whole(slow)),
            answer("rhythm-light", (batch.weld_min - slow).max(0.0), (batch.weld_min - slow).max(0.0)),
            answer("rhythm-idle", (quick - batch.weld_min).max(0.0), (slow - batch.weld_min).max(0.0)),
        ],
        ready_early_min: if slow <= batch.weld_min {
            slow - quick
        } else {
            (batch.weld_min - quick).max(0.0)
        },
        flame_is_slower: slow > batch.weld_min,
    })
}
