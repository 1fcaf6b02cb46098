//! The heat cycle is worked out off the screen's thread: first on the coarse grid, and where its
//! page is open on the fine one. What is kept belongs to one query; another query forgets it.

use std::ops::ControlFlow;
use std::rc::Rc;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, TryRecvError, channel};

use slint::Timer;

use crate::engine::heat_cycle::{Drawing, Fineness, Flamed, Flames, Keep, Refusal, drawing, preheat};
use crate::reference::embedded;

/// A cycle with what its pictures need.
pub(crate) struct Seen {
    pub(crate) flames: Flames,
    pub(crate) found: Flamed,
    pub(crate) drawing: Drawing,
}

impl Seen {
    fn is_fine(&self) -> bool {
        self.flames.cycle.fineness == Fineness::Fine
    }
}

/// What the work tells.
enum News {
    /// So many minutes of the cycle are through.
    Minute(f64),
    /// It is worked out.
    Seen(Box<Seen>),
    /// There is no answer.
    Refused(Refusal),
}

/// Work that goes on.
struct Work {
    news: Receiver<News>,
    stop: Arc<AtomicBool>,
    fine: bool,
    minute: f64,
}

impl Drop for Work {
    /// Work that nobody waits for any more stops.
    fn drop(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
    }
}

/// The heat cycle on the screen.
#[derive(Default)]
pub(crate) struct CycleWork {
    /// What all else here answers.
    asked: Option<Flames>,
    seen: Option<Rc<Seen>>,
    refused: Option<Refusal>,
    work: Option<Work>,
    /// The minute that the section is drawn at; none for the end of the wait.
    pub(crate) at_min: Option<f64>,
    /// Rises with every change of what is drawn.
    pub(crate) turn: i32,
    /// Asks for the news while there is work.
    pub(super) timer: Timer,
}

impl CycleWork {
    /// The cycle of this query; none of another's.
    pub(crate) fn seen(&self, asked: &Flames) -> Option<Rc<Seen>> {
        self.seen.clone().filter(|_| self.asked.as_ref() == Some(asked))
    }

    /// Why this query has no answer.
    pub(crate) fn refused(&self, asked: &Flames) -> Option<Refusal> {
        self.refused.filter(|_| self.asked.as_ref() == Some(asked))
    }

    /// Is anything worked out, and how far is it, from 0 to 1?
    pub(crate) fn progress(&self) -> Option<f64> {
        let work = self.work.as_ref()?;
        let whole = self.seen.as_ref().and_then(|seen| seen.found.cycle.moments.last().map(|end| end.minute));
        Some(whole.map_or(0.0, |whole| (work.minute / whole).clamp(0.0, 1.0)))
    }

    /// Is there nothing more to wait for?
    #[must_use]
    pub(crate) fn at_rest(&self) -> bool {
        self.work.is_none()
    }

    /// Nothing is asked: what was worked out goes.
    pub(super) fn forget(&mut self) {
        if self.asked.is_some() {
            *self = Self { turn: self.turn + 1, timer: std::mem::take(&mut self.timer), ..Self::default() };
            self.timer.stop();
        }
    }

    /// Begins to work out a query, unless it is worked out or on its way.
    pub(super) fn keep_up(&mut self, asked: &Flames, fine: bool) {
        if self.asked.as_ref() != Some(asked) {
            self.forget();
            self.asked = Some(asked.clone());
        }
        let done = self.refused.is_some()
            || self.seen.as_ref().is_some_and(|seen| !fine || seen.is_fine())
            || self.work.as_ref().is_some_and(|work| !fine || work.fine);
        if done {
            return;
        }
        let coarse = self.seen.is_none();
        let (sender, news) = channel();
        let stop = Arc::new(AtomicBool::new(false));
        let (flames, stopped) = (asked.clone(), stop.clone());
        std::thread::spawn(move || work_out(&flames, coarse, fine, &sender, &stopped));
        self.work = Some(Work { news, stop, fine, minute: 0.0 });
        self.timer.restart();
    }

    /// Takes in what the work has told; says whether anything changed.
    pub(super) fn hear(&mut self) -> bool {
        let Some(work) = &mut self.work else {
            self.timer.stop();
            return false;
        };
        let mut changed = false;
        loop {
            match work.news.try_recv() {
                Ok(News::Minute(minute)) => work.minute = minute,
                Ok(News::Seen(seen)) => self.seen = Some(Rc::from(seen)),
                Ok(News::Refused(refusal)) => self.refused = Some(refusal),
                Err(TryRecvError::Empty) => break,
                Err(TryRecvError::Disconnected) => {
                    self.work = None;
                    self.timer.stop();
                    self.turn += 1;
                    return true;
                }
            }
            changed = true;
        }
        self.turn += i32::from(changed);
        changed
    }
}

fn work_out(asked: &Flames, coarse: bool, fine: bool, news: &Sender<News>, stop: &AtomicBool) {
    let grids = [(coarse, Fineness::Live), (fine, Fineness::Fine)];
    for (_, fineness) in grids.into_iter().filter(|(wanted, _)| *wanted) {
        let mut flames = asked.clone();
        flames.cycle.fineness = fineness;
        flames.cycle.keep = Keep::Fields;
        let mut told = 0.0;
        let found = flames.run(embedded(), &mut |minute, _| {
            // A clock hand moves once in ten minutes of the cycle.
            if (minute - told).abs() >= 10.0 {
                told = minute;
                let _ = news.send(News::Minute(minute));
            }
            if stop.load(Ordering::Relaxed) { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
        });
        let told = match found {
            Ok(found) => match drawing(embedded(), &flames.cycle) {
                Ok(drawing) => News::Seen(Box::new(Seen { flames, found, drawing })),
                Err(refusal) => News::Refused(refusal),
            },
            Err(Refusal::Stopped) => return,
            Err(refusal) => News::Refused(with_power(&flames, refusal)),
        };
        let refused = matches!(told, News::Refused(_));
        if news.send(told).is_err() || refused {
            return;
        }
    }
}

/// The same refusal with the power that brings the part there, where there is one.
fn with_power(flames: &Flames, refusal: Refusal) -> Refusal {
    let Refusal::MinimumNotReached { .. } = refusal else { return refusal };
    let likely = embedded().fuels.efficiency.likely;
    let again = preheat(embedded(), &flames.with(likely), &mut |_, _| ControlFlow::Continue(()));
    again.err().unwrap_or(refusal)
}
