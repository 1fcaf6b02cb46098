//! What the window works on: the session, and what is open on the screen.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::rc::Rc;
use std::time::Duration;

use slint::{SharedString, Timer, TimerMode};

use super::bench::kept::Kept;
use super::cycle::work::CycleWork;
use super::form::desk::Desk;
use super::form::question_steel;
use super::log::desk::LogDesk;
use super::notice::Notice;
use super::open::{ChosenFor, Open};
use super::planned::Planned;
use super::tint::photo_read::Photo;
use super::{Page, System, ui};
use crate::engine::job::Job;
use crate::job::{
    FieldProblem, JobText, News, OwnSteel, Reading, Saved, Saver, Seat, Session, Slot, Store, read_job,
};
use crate::questions::Reply;
use crate::reference::{Reference, embedded};
use crate::report::Pen;
use crate::units::{Mark, Show, Units};
use crate::words::Words;

/// What a plan reads of the session.
fn read_by_a_plan(session: &Session) -> (&JobText, &[OwnSteel], Units, &str) {
    (&session.job, &session.own_steels, session.units, &session.language)
}

/// How often it is asked whether another window has written the file: a look at its date.
const LISTENS_EVERY: Duration = Duration::from_millis(700);
/// When it is asked whether a change is on the disk.
const ASKED_AFTER: Duration = Duration::from_millis(150);

type FlameMin = fn(&State) -> Option<(f64, f64)>;
/// What fills the models of a page.
type Fills = fn(&ui::AppWindow, &State, Page);

/// The state of the app. One per window.
pub struct State {
    /// The dataset.
    pub reference: &'static Reference,
    /// The words.
    pub words: Words,
    /// What the person's system is set to: it holds until something else is chosen.
    pub(super) system: System,
    session: RefCell<Session>,
    saver: Option<Saver>,
    /// The number of the window, its own while it runs.
    seat: Seat,
    /// What stands open.
    pub open: RefCell<Open>,
    /// The last plan that could be made; shown grey while something can't be read.
    planned: RefCell<Option<Rc<Planned>>>,
    /// Problems of the fields as they stand.
    problems: RefCell<Vec<FieldProblem>>,
    /// Where questions are answered.
    pub(super) desk: Desk,
    /// The last answer of each question, shown grey while something can't be read.
    replies: RefCell<BTreeMap<&'static str, Reply>>,
    /// How often a plan was made, and a save asked for.
    made: Cell<(usize, usize)>,
    /// What was heard of the saves.
    heard: Cell<Saved>,
    asks_saver: RefCell<Rc<dyn Fn()>>,
    asking: Timer,
    listening: Timer,
    /// What the person must know about what is kept.
    notice: Notice,
    /// The photo of the Tint place.
    pub(super) photo: RefCell<Photo>,
    /// What the Bench keeps.
    pub(super) bench: RefCell<Kept>,
    /// The heat cycle of the plan.
    pub(super) cycle: RefCell<CycleWork>,
    /// The log.
    pub(super) log: RefCell<LogDesk>,
    fills: Cell<Fills>,
    /// Minutes of the plan's flame, from the strongest to the weakest, once its heat cycle is worked out.
    pub(super) flame_min: Cell<FlameMin>,
}

impl State {
    /// A state on a session, for a system that speaks a language; without a store nothing is kept.
    #[must_use]
    pub fn new(mut session: Session, store: Option<Store>, system: impl Into<System>) -> Self {
        let system = system.into();
        let words = Words::of(session.speaks(system.language));
        let begun = session.clone();
        // A phone has one window, and may make it anew in a process that goes on.
        let shared = store.as_ref().filter(|_| cfg!(not(target_os = "android")));
        let seat = shared.map(Store::seat).unwrap_or_default();
        session.take_over_drafts(seat.number, |number| {
            store.as_ref().is_some_and(|store| store.is_seated(number))
        });
        words.write_in(session.units.scales());
        let state = Self {
            reference: embedded(),
            words,
            system,
            session: RefCell::new(session),
            saver: store.map(|store| Saver::new(store, begun)),
            seat,
            open: RefCell::new(Open::default()),
            planned: RefCell::new(None),
            problems: RefCell::new(Vec::new()),
            desk: Desk::default(),
            replies: RefCell::default(),
            made: Cell::default(),
            heard: Cell::default(),
            asks_saver: RefCell::new(Rc::new(|| {})),
            asking: Timer::default(),
            listening: Timer::default(),
            notice: Notice::default(),
            photo: RefCell::default(),
            bench: RefCell::default(),
            cycle: RefCell::default(),
            log: RefCell::default(),
            fills: Cell::new(|_, _, _| {}),
            flame_min: Cell::new(|_| None),
        };
        state.replan();
        state
    }

    /// A look at the session.
    pub fn session<T>(&self, look: impl FnOnce(&Session) -> T) -> T {
        look(&self.session.borrow())
    }

    /// Changes the session. What changed is saved, and planned anew where a plan reads it.
    pub fn change(&self, change: impl FnOnce(&mut Session)) {
        self.change_upon(change, None);
    }

    fn change_upon(&self, change: impl FnOnce(&mut Session), found: Option<Session>) {
        let before = self.session.borrow().clone();
        change(&mut self.session.borrow_mut());
        let after = self.session.borrow();
        if *after == before {
            return;
        }
        self.words.speak(after.speaks(self.system.language));
        self.words.write_in(after.units.scales());
        let (plans, saves) = self.made.get();
        self.made.set((plans, saves + 1));
        if let Some(saver) = &self.saver {
            match found {
                Some(found) => saver.save_upon(after.clone(), found),
                None => saver.save(after.clone()),
            }
            self.ask_saver();
        }
        if after.job_mark != before.job_mark {
            // Another job begins: the last plan is none of it, not even an old one.
            *self.planned.borrow_mut() = None;
            self.open.borrow_mut().begin_job();
            self.bench.borrow_mut().begin_job();
        } else if read_by_a_plan(&after) == read_by_a_plan(&before) {
            return;
        }
        drop(after);
        self.replan();
    }

    /// How often a plan was made, and a save asked for.
    #[must_use]
    pub const fn made(&self) -> (usize, usize) {
        self.made.get()
    }

    /// Waits until what changed is on the disk.
    pub fn flush(&self) {
        if let Some(saver) = &self.saver {
            saver.flush();
        }
    }

    /// Sets what asks, a moment after a change, whether it could be saved.
    pub(super) fn on_saving(&self, ask: impl Fn() + 'static) {
        *self.asks_saver.borrow_mut() = Rc::new(ask);
    }

    /// Sets what asks, again and again, what another window has changed.
    pub(super) fn on_news(&self, ask: impl Fn() + 'static) {
        // A phone has one window, and need not be woken.
        if self.saver.is_some() && cfg!(not(target_os = "android")) {
            self.listening.start(TimerMode::Repeated, LISTENS_EVERY, ask);
        }
    }

    /// Says it where a change can't be saved, and takes it back where the next one can.
    pub(super) fn hear_saver(&self) {
        let Some(saved) = self.saver.as_ref().map(Saver::saved) else { return };
        let heard = self.heard.replace(saved);
        if saved.failures > heard.failures {
            let why = if saved.waiting { "shell-not-saved-yet" } else { "shell-not-saved" };
            self.tell(move |words| words.get(why));
        } else if heard.failing && !saved.failing {
            self.tell(|_| String::new());
        }
        if saved.done < saved.told {
            self.ask_saver();
        }
    }

    /// Takes what another window on the same folder has changed; says whether there was anything.
    /// The place stays: each window is where its person is.
    pub(super) fn hear_news(&self) -> bool {
        let Some(saver) = &self.saver else { return false };
        saver.look();
        // What waits for the disk is put upon what the other one changed as it is saved.
        let saved = saver.saved();
        if saved.done < saved.told {
            return false;
        }
        let Some(News { told, found }) = saver.news() else { return false };
        let before = self.session.borrow().clone();
        let place = before.place.clone();
        let found = Session { place: place.clone(), ..found };
        let mut made = Session { place, ..Session::merged(told, before.clone(), found.clone()) };
        self.follow_steel(&before, &mut made);
        self.change_upon(|session| *session = made, Some(found));
        *self.session.borrow() != before
    }

    /// The steel whose certificate stands open got another name in the other window: it is the same
    /// one, and what is typed of it goes with it.
    fn follow_steel(&self, before: &Session, made: &mut Session) {
        let Some(name) = self.open.borrow().certificate_of.clone() else { return };
        if let Some(now) = made.renamed_since(before, &name) {
            made.rename_drafts(|steel| steel == name, &now);
            self.open.borrow_mut().certificate_of = Some(now);
        }
    }

    /// The number of this window among those that run.
    pub(super) const fn window(&self) -> u32 {
        self.seat.number
    }

    fn ask_saver(&self) {
        let ask = self.asks_saver.borrow().clone();
        self.asking.start(TimerMode::SingleShot, ASKED_AFTER, move || ask());
    }

    /// Another job takes the place of the one in the form.
    pub(super) fn exchange_job(&self, job: JobText) {
        self.change(|session| session.exchange_job(job));
    }

    /// Changes the job of the plan.
    pub fn change_job(&self, change: impl FnOnce(&mut JobText)) {
        self.change(|session| change(&mut session.job));
    }

    /// Says something about what is kept, wherever the person is; nothing takes it away.
    pub fn tell(&self, says: impl Fn(&Words) -> String + 'static) {
        self.notice.tell(&self.words, says);
    }

    /// Says the same line again: the language has changed.
    pub(super) fn tell_anew(&self) {
        self.notice.say_anew(&self.words);
    }

    /// Sets what shows such a line, from now on.
    pub(super) fn on_notice(&self, show: impl Fn(&str) + 'static) {
        self.notice.shown_by(&self.words, show);
    }

    /// Sets what fills a page.
    pub(super) fn fill_with(&self, fills: Fills) {
        self.fills.set(fills);
    }

    /// Fills the models of a page anew.
    pub(super) fn fill(&self, window: &ui::AppWindow, page: Page) {
        (self.fills.get())(window, self, page);
    }

    /// The page on the screen: the one opened last, or the place.
    pub(super) fn page(&self) -> Page {
        let top = self.open.borrow().pages.last().copied();
        top.unwrap_or_else(|| self.session(|session| Page::place(&session.place)))
    }

    /// Puts a steel where one is chosen for: a part of the job, or a question. What was said of
    /// the steel before goes with it.
    pub(super) fn take_steel(&self, steel: &str) {
        let chosen_for = self.open.borrow().chosen_for;
        self.change(|session| match chosen_for {
            ChosenFor::Nth(nth) => session.job.take_steel(nth, steel),
            ChosenFor::Question(question) => question_steel::take_steel(session, question, steel),
        });
    }

    fn replan(&self) {
        let (plans, saves) = self.made.get();
        self.made.set((plans + 1, saves));
        let session = self.session.borrow();
        let (own_steels, units) = (&session.own_steels, session.units);
        let mark = Mark::of(self.words.decimal_mark());
        let reading = Reading { reference: self.reference, own_steels, units, mark };
        match read_job(&session.job, &reading) {
            Ok(read) => {
                let plan = crate::engine::plan::plan(self.reference, &read.job);
                *self.planned.borrow_mut() = Some(Rc::new(Planned { read, plan }));
                self.problems.borrow_mut().clear();
            }
            Err(problems) => *self.problems.borrow_mut() = problems,
        }
    }

    /// The last plan that could be made.
    #[must_use]
    pub fn planned(&self) -> Option<Rc<Planned>> {
        self.planned.borrow().clone()
    }

    /// The last plan, where it is that of what is typed now: no field is in the way of it.
    pub fn planned_now(&self) -> Option<Rc<Planned>> {
        self.planned().filter(|_| self.problems().is_empty())
    }

    /// Keeps the answer of a question, or forgets it.
    pub(super) fn keep_reply(&self, question: &'static str, reply: Option<Reply>) {
        let mut replies = self.replies.borrow_mut();
        match reply {
            Some(reply) => {
                replies.insert(question, reply);
            }
            None => {
                replies.remove(question);
            }
        }
    }

    /// The last answer of a question.
    pub(super) fn last_reply(&self, question: &str) -> Option<Reply> {
        self.replies.borrow().get(question).cloned()
    }

    /// Waits until every question that was asked has its answer.
    pub fn finish_answers(&self) {
        self.desk.finish();
    }

    /// The problems of the fields as they stand.
    #[must_use]
    pub fn problems(&self) -> Vec<FieldProblem> {
        self.problems.borrow().clone()
    }

    /// The problem of one field, in words.
    pub(super) fn problem_of(&self, slot: impl Into<Slot>) -> Option<String> {
        let slot = slot.into();
        self.problems
            .borrow()
            .iter()
            .find(|problem| problem.slot == slot)
            .map(|problem| problem.say(&self.words))
    }

    /// Units and number format.
    #[must_use]
    pub fn show(&self) -> Show {
        Show::new(self.session(|session| session.units), &self.words)
    }

    /// What lines are written with.
    #[must_use]
    pub fn pen(&self) -> Pen<'_> {
        Pen { reference: self.reference, words: &self.words, show: self.show() }
    }

    /// A message.
    #[must_use]
    pub fn word(&self, key: &str) -> SharedString {
        self.words.get(key).into()
    }

    /// Is the heat cycle of the plan worked out, as far as the page on the screen wants it?
    #[must_use]
    pub fn cycle_at_rest(&self) -> bool {
        self.cycle.borrow().at_rest()
    }

    /// The job of the last plan.
    #[must_use]
    pub fn job(&self) -> Option<Job> {
        self.planned().map(|planned| planned.read.job.clone())
    }
}
