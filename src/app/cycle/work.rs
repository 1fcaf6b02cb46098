//! The heat cycle is worked out off the screen's thread: first on the coarse grid, then on the fine one.
//! What is kept belongs to one query; another query forgets it.

use std::ops::ControlFlow;
use std::rc::Rc;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, TryRecvError, channel};

use slint::Timer;

use super::field::Places;
use super::section::{self, Section};
use super::seen::Seen;
use crate::engine::heat_cycle::{Fineness, Flames, FlowLever, Keep, Refusal, drawing, flow_levers};
use crate::reference::embedded;
use crate::units::TemperatureUnit;

/// Holds whose outcome is shown beside the planned one, h.
const SHOWN_H: [f64; 3] = [1.0, 2.0, 4.0];

/// What the work tells.
enum News {
    /// So many minutes of the cycle are through.
    Minute(f64),
    /// It is worked out.
    Seen(Box<Seen>),
    /// There is no answer, and what would give one.
    Refused(Refusal, Vec<FlowLever>),
}

/// Work that goes on.
struct Work {
    news: Receiver<News>,
    stop: Arc<AtomicBool>,
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
    /// What would help.
    levers: Vec<FlowLever>,
    /// Did the work come to an end without an answer?
    lost: bool,
    work: Option<Work>,
    /// The minute that the section is drawn at; none for the end of the wait.
    pub(crate) at_min: Option<f64>,
    /// The section that is on the screen.
    drawn: Option<Rc<Section>>,
    /// Rises with every change of the cycle that is drawn.
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

    /// What would help where it has none.
    pub(super) fn levers(&self) -> &[FlowLever] {
        &self.levers
    }

    /// Did the work on this query end without an answer?
    pub(super) fn lost(&self, asked: &Flames) -> bool {
        self.lost && self.asked.as_ref() == Some(asked) && self.seen.is_none() && self.refused.is_none()
    }

    /// The section at a minute, made once for each moment that is kept.
    pub(super) fn section(
        &mut self,
        seen: &Rc<Seen>,
        minute: f64,
        unit: TemperatureUnit,
    ) -> Option<Rc<Section>> {
        let at = section::nearest(seen, minute)?;
        if !self.drawn.as_ref().is_some_and(|drawn| drawn.is(seen, at, unit)) {
            self.drawn = Section::of(seen, at, unit).map(Rc::new);
        }
        self.drawn.clone()
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
    pub(super) fn keep_up(&mut self, asked: &Flames) {
        if self.asked.as_ref() != Some(asked) {
            self.forget();
            self.asked = Some(asked.clone());
        }
        let done = self.refused.is_some()
            || self.lost
            || self.seen.as_ref().is_some_and(|seen| seen.is_fine())
            || self.work.is_some();
        if done {
            return;
        }
        let flames = asked.clone();
        self.begin(move |news, stop| work_out(&flames, news, stop));
    }

    /// Begins work on a thread of its own.
    fn begin(&mut self, work: impl FnOnce(&Sender<News>, &AtomicBool) + Send + 'static) {
        let (sender, news) = channel();
        let stop = Arc::new(AtomicBool::new(false));
        let stopped = stop.clone();
        std::thread::spawn(move || work(&sender, &stopped));
        self.work = Some(Work { news, stop, minute: 0.0 });
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
                Ok(News::Refused(refusal, levers)) => {
                    self.refused = Some(refusal);
                    self.levers = levers;
                }
                Err(TryRecvError::Empty) => break,
                Err(TryRecvError::Disconnected) => {
                    // Whoever ends with less than was wanted never comes to it: once is enough.
                    let got = self.seen.as_ref().is_some_and(|seen| seen.is_fine());
                    self.lost = !got && self.refused.is_none();
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

fn work_out(asked: &Flames, news: &Sender<News>, stop: &AtomicBool) {
    // The coarse grid errs to either side: its figures are shown as preliminary ones, and never stay.
    for fineness in [Fineness::Live, Fineness::Fine] {
        let mut flames = asked.clone();
        flames.cycle.fineness = fineness;
        flames.cycle.keep = Keep::Fields;
        if fineness == Fineness::Fine {
            // The page alone shows what other holds would leave.
            flames.cycle.post_heat.beside_h.extend(SHOWN_H);
        }
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
                Ok(drawing) => {
                    let places = Places::of(&drawing);
                    News::Seen(Box::new(Seen { flames, found, drawing, places }))
                }
                Err(refusal) => News::Refused(refusal, Vec::new()),
            },
            Err(Refusal::Stopped) => return,
            Err(refusal) => News::Refused(refusal, flow_levers(embedded(), &flames, &refusal)),
        };
        let refused = matches!(told, News::Refused(..));
        if news.send(told).is_err() || refused {
            return;
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::app::cycle::work::{CycleWork, News};
    use crate::engine::heat_cycle::Refusal;

    /// A worker that dies says nothing more, and is waited for no longer.
    #[test]
    fn work_that_dies_is_not_waited_for() {
        let mut cycle = CycleWork::default();
        cycle.begin(|_, _| panic!("on purpose"));
        while !cycle.at_rest() {
            cycle.hear();
            std::thread::yield_now();
        }
        assert!(cycle.lost && cycle.seen.is_none() && cycle.refused.is_none());
    }

    /// What ends with its answer is not lost.
    #[test]
    fn work_that_is_refused_is_not_lost() {
        let mut cycle = CycleWork::default();
        cycle.begin(|news, _| {
            let told = News::Refused(Refusal::Stopped, Vec::new());
            news.send(told).ok();
        });
        while !cycle.at_rest() {
            cycle.hear();
            std::thread::yield_now();
        }
        assert!(!cycle.lost && cycle.refused.is_some());
    }
}
