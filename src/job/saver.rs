//! Saves the session beside the screen: a save waits for the disk, and the screen does not.
//!
//! Another window may work on the same file. Each save reads what is there and puts its own
//! changes upon it, and what the other one changed is news for the screen.

use std::cell::Cell;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use super::session::Session;
use super::store::{Stamp, Store, StoreError};

/// Changes that follow each other within this are saved at once. With the time that a disk
/// takes the file is never more than 100 ms behind the screen.
const GATHERED: Duration = Duration::from_millis(40);
/// How often a save that finds another file than it read begins anew.
const ANEW: u32 = 20;

enum Told {
    /// A session, and what was taken over from another window to make it: that is no change of ours.
    Save(Box<Session>, Option<Box<Session>>),
    /// Has another window written the file?
    Look,
    /// Everything told so far must be on the disk; then this is answered.
    Flush(Sender<()>),
}

/// What came of the saves that were told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Saved {
    /// Sessions that were told.
    pub told: usize,
    /// Those that were written or failed; several are written at once.
    pub done: usize,
    /// How often the file was written.
    pub written: usize,
    /// How often it could not be.
    pub failures: usize,
    /// Did the last one fail?
    pub failing: bool,
    /// Does it wait for another window that is writing? It is tried again and again.
    pub waiting: bool,
}

/// What another window changed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct News {
    /// What we had told when it was found.
    pub told: Session,
    /// The same with the changes of the other window.
    pub found: Session,
}

/// What thread and screen share.
#[derive(Debug, Default)]
struct Shared {
    saved: Saved,
    news: Option<Box<News>>,
}

/// Saves sessions on a thread of its own, the newest only. Dropped, it saves what it was told.
#[derive(Debug)]
pub struct Saver {
    /// `None` only while it is dropped.
    inbox: Option<Sender<Told>>,
    thread: Option<JoinHandle<()>>,
    shared: Arc<Mutex<Shared>>,
    told: Cell<usize>,
}

impl Saver {
    /// A saver into a store, from the session that was read from it.
    #[must_use]
    pub fn new(store: Store, begun: Session) -> Self {
        let (inbox, told) = channel();
        let shared = Arc::default();
        let thread = std::thread::spawn({
            let shared = Arc::clone(&shared);
            move || work(&mut Desk { store, told: begun, stamp: None }, &told, &shared)
        });
        Self { inbox: Some(inbox), thread: Some(thread), shared, told: Cell::new(0) }
    }

    /// Saves a session soon.
    pub fn save(&self, session: Session) {
        self.told.set(self.told.get() + 1);
        self.tell(Told::Save(Box::new(session), None));
    }

    /// Saves a session that was made of what another window has changed.
    pub fn save_upon(&self, session: Session, found: Session) {
        self.told.set(self.told.get() + 1);
        self.tell(Told::Save(Box::new(session), Some(Box::new(found))));
    }

    /// Looks soon whether another window has written the file.
    pub fn look(&self) {
        self.tell(Told::Look);
    }

    /// What another window changed since this was asked last.
    #[must_use]
    pub fn news(&self) -> Option<News> {
        lock(&self.shared).news.take().map(|news| *news)
    }

    /// Waits until everything is on the disk, or could not be written.
    pub fn flush(&self) {
        let (done, answer) = channel();
        self.tell(Told::Flush(done));
        // An error is a thread that has ended: then nothing is left to wait for.
        let _ = answer.recv();
    }

    /// What came of the saves so far.
    #[must_use]
    pub fn saved(&self) -> Saved {
        Saved { told: self.told.get(), ..lock(&self.shared).saved }
    }

    fn tell(&self, told: Told) {
        if let Some(inbox) = &self.inbox {
            let _ = inbox.send(told);
        }
    }
}

impl Drop for Saver {
    fn drop(&mut self) {
        self.inbox = None;
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
    }
}

fn lock(shared: &Mutex<Shared>) -> MutexGuard<'_, Shared> {
    shared.lock().unwrap_or_else(PoisonError::into_inner)
}

/// What the thread works on.
struct Desk {
    store: Store,
    /// The session that we told last: our next changes are the difference to it.
    told: Session,
    /// When the file was written and how long it is, as it was seen last.
    stamp: Option<Stamp>,
}

impl Desk {
    /// Puts our changes upon what is there, while every other window is kept out. The last save of
    /// all goes on where one does not let go: upon what is there, and never over what it writes.
    fn save(&mut self, ours: &Session, last: bool) -> Result<Option<News>, StoreError> {
        let _alone = match self.store.alone() {
            Err(StoreError::Busy { .. }) if last => None,
            alone => alone?,
        };
        for _ in 0..ANEW {
            let seen = self.store.stamp(Session::FILE);
            let there = Session::peek(&self.store)?;
            // What can't be read whole is kept aside before it is written over.
            if there.is_none() && seen.is_some() {
                self.store.keep_aside(Session::FILE)?;
            }
            let theirs = there.clone().unwrap_or_else(|| self.told.clone());
            let found = Session::merged(self.told.clone(), ours.clone(), theirs);
            if there.as_ref() == Some(&found)
                || self.store.write_upon(Session::FILE, &found.to_ron(), seen)?
            {
                self.stamp = self.store.stamp(Session::FILE);
                self.told = ours.clone();
                return Ok((found != *ours).then(|| News { told: ours.clone(), found }));
            }
        }
        Err(StoreError::Busy { folder: self.store.folder().to_owned() })
    }

    /// What the other window has changed, if the file is another one than we saw.
    fn look(&mut self) -> Option<News> {
        let stamp = self.store.stamp(Session::FILE)?;
        if self.stamp.replace(stamp) == Some(stamp) {
            return None;
        }
        let found = Session::peek(&self.store).ok()??;
        (found != self.told).then(|| News { told: self.told.clone(), found })
    }
}

/// What was told and is not yet on the disk.
#[derive(Default)]
struct Pile {
    newest: Option<Session>,
    /// How many were told.
    count: usize,
    /// Was it said that it has to wait?
    said: bool,
}

impl Pile {
    /// Takes what is told in a moment, from the first of it on; says who waits for an answer, and
    /// whether another window is looked for.
    fn gather(&mut self, desk: &mut Desk, first: Told, inbox: &Receiver<Told>) -> (Option<Sender<()>>, bool) {
        let until = Instant::now() + GATHERED;
        let mut looks = false;
        let mut told = Some(first);
        while let Some(next) = told {
            match next {
                Told::Save(session, upon) => {
                    if let Some(upon) = upon {
                        desk.told = *upon;
                    }
                    self.newest = Some(*session);
                    self.count += 1;
                }
                Told::Look => looks = true,
                Told::Flush(done) => return (Some(done), looks),
            }
            // Nothing to save is nothing to wait for.
            let wait = if self.count == 0 {
                Duration::ZERO
            } else {
                until.saturating_duration_since(Instant::now())
            };
            told = inbox.recv_timeout(wait).ok();
        }
        (None, looks)
    }

    /// Saves the newest. Where another window is writing it stays on the pile, and that is said once.
    fn save(&mut self, desk: &mut Desk, last: bool, shared: &Mutex<Shared>) {
        let Some(newest) = &self.newest else { return };
        let outcome = desk.save(newest, last);
        let shared = &mut *lock(shared);
        let saved = &mut shared.saved;
        saved.failing = outcome.is_err();
        saved.waiting = matches!(outcome, Err(StoreError::Busy { .. }));
        if saved.waiting {
            saved.failures += usize::from(!std::mem::replace(&mut self.said, true));
            return;
        }
        *(if saved.failing { &mut saved.failures } else { &mut saved.written }) += 1;
        saved.done += self.count;
        *self = Self::default();
        // What was found before is part of what is on the disk now; after a failure it is looked for anew.
        if saved.failing {
            desk.stamp = None;
        }
        shared.news = outcome.ok().flatten().map(Box::new);
    }
}

fn work(desk: &mut Desk, inbox: &Receiver<Told>, shared: &Mutex<Shared>) {
    let mut pile = Pile::default();
    loop {
        let first = match pile.newest {
            Some(_) => inbox.recv_timeout(GATHERED),
            None => inbox.recv().map_err(|_| RecvTimeoutError::Disconnected),
        };
        let last = matches!(first, Err(RecvTimeoutError::Disconnected));
        let (waiting, looks) = match first {
            Ok(first) => pile.gather(desk, first, inbox),
            Err(_) => (None, false),
        };
        pile.save(desk, last, shared);
        if last {
            return;
        }
        if looks
            && lock(shared).news.is_none()
            && let Some(news) = desk.look()
        {
            lock(shared).news = Some(Box::new(news));
        }
        if let Some(done) = waiting {
            let _ = done.send(());
        }
    }
}
