//! Saves the session beside the screen: a save waits for the disk, and the screen does not.

use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use super::session::Session;
use super::store::Store;

/// Changes that follow each other within this are saved at once. With the time that a disk
/// takes the file is never more than 100 ms behind the screen.
const GATHERED: Duration = Duration::from_millis(40);

enum Told {
    Save(Box<Session>),
    /// Everything told so far must be on the disk; then this is answered, with the number of
    /// saves so far.
    Flush(Sender<usize>),
    /// What hears whether a save failed where the last one did not, or the other way round.
    Report(Box<dyn Fn(bool) + Send>),
}

/// Saves sessions on a thread of its own, the newest only. Dropped, it saves what it was told.
#[derive(Debug)]
pub struct Saver {
    /// `None` only while it is dropped.
    told: Option<Sender<Told>>,
    thread: Option<JoinHandle<()>>,
}

impl Saver {
    /// A saver into a store.
    #[must_use]
    pub fn new(store: Store) -> Self {
        let (told, inbox) = channel();
        let thread = std::thread::spawn(move || work(&store, &inbox));
        Self { told: Some(told), thread: Some(thread) }
    }

    /// Saves a session soon.
    pub fn save(&self, session: Session) {
        self.tell(Told::Save(Box::new(session)));
    }

    /// Waits until everything is on the disk, or could not be written. Gives the number of
    /// times that it was written.
    pub fn flush(&self) -> usize {
        let (done, answer) = channel();
        self.tell(Told::Flush(done));
        // An error is a thread that has ended: then nothing is left to wait for.
        answer.recv().unwrap_or_default()
    }

    /// Sets what hears, on the saver's thread, when saving begins to fail and when it works again.
    pub fn on_change(&self, report: impl Fn(bool) + Send + 'static) {
        self.tell(Told::Report(Box::new(report)));
    }

    fn tell(&self, told: Told) {
        if let Some(sender) = &self.told {
            let _ = sender.send(told);
        }
    }
}

impl Drop for Saver {
    fn drop(&mut self) {
        self.told = None;
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
    }
}

fn work(store: &Store, inbox: &Receiver<Told>) {
    let mut report: Box<dyn Fn(bool) + Send> = Box::new(|_| {});
    let (mut failing, mut saves) = (false, 0);
    while let Ok(first) = inbox.recv() {
        let until = Instant::now() + GATHERED;
        let (mut newest, mut waiting, mut told) = (None, None, Some(first));
        while let Some(next) = told {
            match next {
                Told::Save(session) => newest = Some(session),
                Told::Report(hears) => report = hears,
                Told::Flush(done) => {
                    waiting = Some(done);
                    break;
                }
            }
            told = inbox.recv_timeout(until.saturating_duration_since(Instant::now())).ok();
        }
        if let Some(session) = newest {
            let failed = session.save(store).is_err();
            if failed != failing {
                report(failed);
            }
            failing = failed;
            saves += 1;
        }
        if let Some(done) = waiting {
            let _ = done.send(saves);
        }
    }
}
