//! What the window works on: the session, and what is open on the screen.

use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;
use std::time::Duration;

use slint::{SharedString, Timer, TimerMode};

use super::form::question_steel;
use super::tint::photo_read::Photo;
use super::{Page, ui};
use crate::engine::carbon_equivalent::Equivalent;
use crate::engine::job::Job;
use crate::engine::plan::Plan;
use crate::job::{
    Field, FieldProblem, JobText, OwnSteel, ReadJob, Reading, Saved, Saver, Session, Slot, Store, read_job,
};
use crate::questions::{Question, Reply};
use crate::reference::{Reference, embedded};
use crate::report::Pen;
use crate::units::{Show, Units};
use crate::words::Words;

/// A job that was read, with its plan.
pub struct Planned {
    /// The job as read, with what was put where nothing was typed.
    pub read: ReadJob,
    /// Its plan.
    pub plan: Plan,
}

/// What a steel or a filler is chosen for.
#[derive(Debug, Clone, Copy)]
pub enum ChosenFor {
    /// A part of the joint, or a process: which of them.
    Nth(usize),
    /// A question.
    Question(&'static Question),
}

impl ChosenFor {
    /// Which part or process; the first where it is a question.
    #[must_use]
    pub const fn nth(self) -> usize {
        match self {
            Self::Nth(nth) => nth,
            Self::Question(_) => 0,
        }
    }
}

impl Default for ChosenFor {
    fn default() -> Self {
        Self::Nth(0)
    }
}

/// A figure that can be asked for its basis.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum BasisOf {
    /// A figure of the plan, by its id.
    Plan(String),
    /// The answer of the Tint place.
    Tint,
    /// An equivalent of the certificate.
    Certificate(Equivalent),
}

/// What stands open on the screen; it is not kept over a restart.
#[derive(Default)]
pub struct Open {
    /// Rows of the form.
    pub rows: BTreeSet<String>,
    /// Which set of evidence is shown; until one is picked, the one that governs.
    pub evidence_set: Option<usize>,
    /// Are all cautions of the job shown?
    pub all_cautions: bool,
    /// Cautions that are open.
    pub cautions: BTreeSet<String>,
    /// The figure whose basis is open.
    pub basis: Option<BasisOf>,
    /// Pages opened above the place, the last one on top.
    pub pages: Vec<Page>,
    /// What a steel or a filler is being chosen for.
    pub chosen_for: ChosenFor,
    /// Further questions that the Tint place shows after its own instruments.
    pub questions: Vec<&'static Question>,
    /// What is looked for among the steels.
    pub steel_query: String,
    /// Groups of steels that are unfolded.
    pub steel_groups: BTreeSet<String>,
    /// The steel that is looked at.
    pub steel_detail: Option<String>,
    /// The own steel that is being changed; none for a new one.
    pub certificate_of: Option<String>,
    /// Was the pasted line asked to be read?
    pub certificate_line_asked: bool,
    /// What is looked for among the fillers.
    pub filler_query: String,
    /// What is looked for among the cautions.
    pub safety_query: String,
    /// Places of the cautions that are unfolded.
    pub safety_places: BTreeSet<String>,
    /// Cautions that are open in the list of all.
    pub safety_cautions: BTreeSet<String>,
    /// Is first aid unfolded?
    pub first_aid: bool,
    /// Are temperature and length chosen apart, whatever they are?
    pub units_mixed: bool,
    /// Is the list of sources unfolded?
    pub sources: bool,
    /// Is the list of licences unfolded?
    pub licences: bool,
    /// Licences whose text is unfolded.
    pub licence_texts: BTreeSet<String>,
}

/// What a plan reads of the session.
fn read_by_a_plan(session: &Session) -> (&JobText, &[OwnSteel], Units) {
    (&session.job, &session.own_steels, session.units)
}

/// A toggle of a set of ids.
pub(super) fn toggle(set: &mut BTreeSet<String>, id: &str) {
    if !set.remove(id) {
        set.insert(id.to_owned());
    }
}

/// What is shut opens; what is open shuts.
pub(super) const fn flip(open: &mut bool) {
    *open = !*open;
}

/// When it is asked whether a change is on the disk.
const ASKED_AFTER: Duration = Duration::from_millis(150);

/// What puts a notice on the screen.
type ShowsNotice = Box<dyn Fn(&str)>;
/// What fills the models of a page.
type Fills = fn(&ui::AppWindow, &State, Page);

/// The state of the app. One per window.
pub struct State {
    /// The dataset.
    pub reference: &'static Reference,
    /// The words.
    pub words: Words,
    session: RefCell<Session>,
    saver: Option<Saver>,
    /// What stands open.
    pub open: RefCell<Open>,
    /// The last plan that could be made; shown grey while something can't be read.
    planned: RefCell<Option<Rc<Planned>>>,
    /// Problems of the fields as they stand.
    problems: RefCell<Vec<FieldProblem>>,
    /// The last answer of each question, shown grey while something can't be read.
    replies: RefCell<BTreeMap<&'static str, Reply>>,
    /// How often a plan was made, and a save asked for.
    made: Cell<(usize, usize)>,
    /// What was heard of the saves.
    heard: Cell<Saved>,
    asks_saver: RefCell<Rc<dyn Fn()>>,
    asking: Timer,
    /// What the person must know about what is kept; empty for nothing.
    notice: RefCell<String>,
    /// What shows it.
    notice_shown: RefCell<ShowsNotice>,
    /// The photo of the Tint place.
    pub(super) photo: RefCell<Photo>,
    fills: Cell<Fills>,
}

impl State {
    /// A state on a session; without a store nothing is kept.
    #[must_use]
    pub fn new(session: Session, store: Option<Store>) -> Self {
        let words = Words::of(&session.language);
        words.write_in(session.units.scales());
        let state = Self {
            reference: embedded(),
            words,
            session: RefCell::new(session),
            saver: store.map(Saver::new),
            open: RefCell::new(Open::default()),
            planned: RefCell::new(None),
            problems: RefCell::new(Vec::new()),
            replies: RefCell::default(),
            made: Cell::default(),
            heard: Cell::default(),
            asks_saver: RefCell::new(Rc::new(|| {})),
            asking: Timer::default(),
            notice: RefCell::new(String::new()),
            notice_shown: RefCell::new(Box::new(|_| {})),
            photo: RefCell::default(),
            fills: Cell::new(|_, _, _| {}),
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
        let before = self.session.borrow().clone();
        change(&mut self.session.borrow_mut());
        let after = self.session.borrow();
        if *after == before {
            return;
        }
        self.words.speak(&after.language);
        self.words.write_in(after.units.scales());
        let (plans, saves) = self.made.get();
        self.made.set((plans, saves + 1));
        if let Some(saver) = &self.saver {
            saver.save(after.clone());
            self.ask_saver();
        }
        if read_by_a_plan(&after) != read_by_a_plan(&before) {
            drop(after);
            self.replan();
        }
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

    /// Says it where a change can't be saved, and takes it back where the next one can.
    pub(super) fn hear_saver(&self) {
        let Some(saved) = self.saver.as_ref().map(Saver::saved) else { return };
        let heard = self.heard.replace(saved);
        if saved.failures > heard.failures {
            self.tell(self.words.get("shell-not-saved"));
        } else if heard.failing && !saved.failing {
            self.tell(String::new());
        }
        if saved.done < saved.told {
            self.ask_saver();
        }
    }

    fn ask_saver(&self) {
        let ask = self.asks_saver.borrow().clone();
        self.asking.start(TimerMode::SingleShot, ASKED_AFTER, move || ask());
    }

    /// Changes the job of the plan.
    pub fn change_job(&self, change: impl FnOnce(&mut JobText)) {
        self.change(|session| change(&mut session.job));
    }

    /// Says something about what is kept, wherever the person is; nothing takes it away.
    pub fn tell(&self, notice: String) {
        (self.notice_shown.borrow())(&notice);
        *self.notice.borrow_mut() = notice;
    }

    /// Sets what shows such a line, from now on.
    pub(super) fn on_notice(&self, show: impl Fn(&str) + 'static) {
        show(&self.notice.borrow());
        *self.notice_shown.borrow_mut() = Box::new(show);
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

    /// Puts a steel where one is chosen for: a part of the job, or a question. A certificate
    /// that was typed for the steel before goes with it.
    pub(super) fn take_steel(&self, steel: &str) {
        let chosen_for = self.open.borrow().chosen_for;
        self.change(|session| match chosen_for {
            ChosenFor::Nth(nth) => {
                session.job.set(Field::Steel.nth(nth), Some(steel.to_owned()));
                session.job.set(Field::Certificate.nth(nth), None);
            }
            ChosenFor::Question(question) => question_steel::take_steel(session, question, steel),
        });
    }

    fn replan(&self) {
        let (plans, saves) = self.made.get();
        self.made.set((plans + 1, saves));
        let session = self.session.borrow();
        let reading =
            Reading { reference: self.reference, own_steels: &session.own_steels, units: session.units };
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

    /// The job of the last plan.
    #[must_use]
    pub fn job(&self) -> Option<Job> {
        self.planned().map(|planned| planned.read.job.clone())
    }
}
