//! Answers that take longer than the window may stand still: they are worked out on a thread of their
//! own, the latest question first.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::time::Duration;

use slint::{Timer, TimerMode};

use crate::engine::EngineError;
use crate::questions::{Answers, Problem, Question, Reply};

/// How often the window looks whether an answer is there.
const LOOKS_EVERY: Duration = Duration::from_millis(15);

/// A question, and what is given for it.
#[derive(Clone)]
struct Task {
    question: &'static Question,
    given: Answers,
}

impl Task {
    fn is(&self, question: &Question, given: &Answers) -> bool {
        self.question.name == question.name && self.given == *given
    }
}

/// What hears that an answer is there.
type Tell = Rc<dyn Fn()>;
/// What comes of it.
type Answered = Result<Reply, Problem>;

/// The work that goes on, what waits for it, and what was done.
#[derive(Default)]
struct Tasks {
    now: Option<(Task, Receiver<Answered>)>,
    next: Option<Task>,
    /// The last answer of each question.
    done: BTreeMap<&'static str, (Answers, Answered)>,
}

impl Tasks {
    /// Takes what has come in, and begins what waits. Says whether something came in.
    fn go_on(&mut self, wait: bool) -> bool {
        let mut came = false;
        if let Some((task, answer)) = self.now.take() {
            let answered = if wait { answer.recv().ok() } else { None };
            match answered.map_or_else(|| answer.try_recv(), Ok) {
                Ok(answered) => {
                    self.done.insert(task.question.name, (task.given, answered));
                    came = true;
                }
                Err(TryRecvError::Empty) => self.now = Some((task, answer)),
                // The thread came to nothing, and would come to nothing again.
                Err(TryRecvError::Disconnected) => {
                    let lost = Problem::Engine(EngineError::NoAnswer { reason: "lost" });
                    self.done.insert(task.question.name, (task.given, Err(lost)));
                    came = true;
                }
            }
        }
        if self.now.is_none()
            && let Some(task) = self.next.take()
        {
            let (sender, answer) = channel();
            let asked = task.clone();
            std::thread::spawn(move || {
                // Nobody may wait for it any more.
                let _ = sender.send(asked.question.ask_finely(&asked.given));
            });
            self.now = Some((task, answer));
        }
        came
    }
}

/// Where slow questions are answered.
#[derive(Default)]
pub(crate) struct Desk {
    tasks: Rc<RefCell<Tasks>>,
    timer: Rc<Timer>,
    told: Rc<RefCell<Option<Tell>>>,
}

impl Desk {
    /// Sets what is told once an answer is there.
    pub(crate) fn on_answer(&self, tell: impl Fn() + 'static) {
        *self.told.borrow_mut() = Some(Rc::new(tell));
    }

    /// The answer to a question; `None` while it is being worked out.
    pub(crate) fn answer(&self, question: &'static Question, given: &Answers) -> Option<Answered> {
        if !question.is_slow() {
            return Some(question.ask_finely(given));
        }
        // What can't even be begun is said at once.
        if let Err(problem) = question.filled(given) {
            return Some(Err(problem));
        }
        let mut tasks = self.tasks.borrow_mut();
        if let Some((of, answered)) = tasks.done.get(question.name)
            && of == given
        {
            return Some(answered.clone());
        }
        if !tasks.now.as_ref().is_some_and(|(task, _)| task.is(question, given)) {
            tasks.next = Some(Task { question, given: given.clone() });
            tasks.go_on(false);
        }
        drop(tasks);
        self.look();
        None
    }

    /// Works until nothing is left to be answered.
    pub(crate) fn finish(&self) {
        while self.tasks.borrow().now.is_some() {
            self.tasks.borrow_mut().go_on(true);
        }
    }

    fn look(&self) {
        if self.timer.running() {
            return;
        }
        let (tasks, told) = (self.tasks.clone(), self.told.clone());
        let timer = Rc::downgrade(&self.timer);
        self.timer.start(TimerMode::Repeated, LOOKS_EVERY, move || {
            let came = tasks.borrow_mut().go_on(false);
            if tasks.borrow().now.is_none()
                && let Some(timer) = timer.upgrade()
            {
                timer.stop();
            }
            let tell = told.borrow().clone();
            if let Some(tell) = tell.filter(|_| came) {
                tell();
            }
        });
    }
}

#[cfg(test)]
mod tests {
    use crate::app::form::desk::{Task, Tasks};
    use crate::engine::EngineError;
    use crate::questions::{Answers, Problem, Question, Work};

    static DIES: Question = Question {
        name: "dies",
        work: Work::Heat,
        inputs: &[],
        answers: &[],
        notes: &[],
        answer: |_| panic!("on purpose"),
    };

    /// A thread that dies leaves an answer: that there is none.
    #[test]
    fn work_that_dies_is_not_waited_for() {
        let task = Task { question: &DIES, given: Answers::default() };
        let mut tasks = Tasks { next: Some(task), ..Tasks::default() };
        tasks.go_on(false);
        while tasks.now.is_some() {
            tasks.go_on(true);
        }
        let (_, answered) = &tasks.done["dies"];
        assert!(matches!(answered, Err(Problem::Engine(EngineError::NoAnswer { reason: "lost" }))));
    }
}
