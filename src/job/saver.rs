//! Saves the session beside the screen: a save waits for the disk, and the screen does not.

use std::cell::Cell;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use super::session::Session;
use super::store::Store;

/// Changes that follow each other within this are saved at once. With the time that a disk
/// takes the file is never more than 100 ms behind the screen.
const GATHERED: Duration = Duration::from_millis(40);

enum Told {
    Save(Box<Session>),
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
}

/// Saves sessions on a thread of its own, the newest only. Dropped, it saves what it was told.
#[derive(Debug)]
pub struct Saver {
    /// `None` only while it is dropped.
    inbox: Option<Sender<Told>>,
    thread: Option<JoinHandle<()>>,
    saved: Arc<Mutex<Saved>>,
    told: Cell<usize>,
}

impl Saver {
    /// A saver into a store.
    #[must_use]
    pub fn new(store: Store) -> Self {
        let (inbox, told) = channel();
        let saved = Arc::default();
        let thread = std::thread::spawn({
            let saved = Arc::clone(&saved);
            move || work(&store, &told, &saved)
        });
        Self { inbox: Some(inbox), thread: Some(thread), saved, told: Cell::new(0) }
    }

    /// Saves a session soon.
    pub fn save(&self, session: Session) {
        self.told.set(self.told.get() + 1);
        self.tell(Told::Save(Box::new(session)));
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
        let saved = *self.saved.lock().unwrap_or_else(PoisonError::into_inner);
        Saved { told: self.told.get(), ..saved }
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

fn work(store: &Store, inbox: &Receiver<Told>, saved: &Mutex<Saved>) {
    while let Ok(first) = inbox.recv() {
        let until = Instant::now() + GATHERED;
        let (mut newest, mut waiting, mut gathered) = (None, None, 0);
        let mut told = Some(first);
        while let Some(next) = told {
            match next {
                Told::Save(session) => {
                    newest = Some(session);
                    gathered += 1;
                }
                Told::Flush(done) => {
                    waiting = Some(done);
                    break;
                }
            }
            told = inbox.recv_timeout(until.saturating_duration_since(Instant::now())).ok();
        }
        if let Some(session) = newest {
            let failing = session.save(store).is_err();
            let mut saved = saved.lock().unwrap_or_else(PoisonError::into_inner);
            saved.failing = failing;
            *(if failing { &mut saved.failures } else { &mut saved.written }) += 1;
            saved.done += gathered;
        }
        if let Some(done) = waiting {
            let _ = done.send(());
        }
    }
}
