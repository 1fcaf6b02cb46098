//! What a question is: declared once, asked from the command line, the Bench and the tests.

use super::{Answers, Input, Problem, Work, heat_cycle};
use crate::engine::Outcome;
use crate::reference::Basis;

/// What a question answers: outcomes in the order of use, and ids of notes whose words
/// are the Fluent messages `note-ID`.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Reply {
    /// The answers, the one asked for first.
    pub answers: Vec<Outcome>,
    /// What must be said beside them.
    pub notes: Vec<&'static str>,
    /// Symbols of steps that are what is asked for, before the figures that follow from
    /// them; their words are the Fluent messages `leading-SYMBOL`.
    pub leading: &'static [&'static str],
    /// The note that says why the figures are of no use; its attribute `.short` stands in
    /// their place on a screen.
    pub no_use: Option<&'static str>,
    /// What the dataset gave for something that was chosen.
    pub taken: Vec<Taken>,
}

/// A figure of the dataset that stood in for a choice.
#[derive(Debug, Clone, PartialEq)]
pub struct Taken {
    /// What it is; its words are the Fluent message `taken-NAME`.
    pub name: &'static str,
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// What it rests on.
    pub basis: Basis,
}

impl Reply {
    /// A reply without notes.
    #[must_use]
    pub fn of(answers: impl Into<Vec<Outcome>>) -> Self {
        Self { answers: answers.into(), ..Self::default() }
    }

    /// The same with a note where the condition is true.
    #[must_use]
    pub fn note_if(mut self, condition: bool, note: &'static str) -> Self {
        if condition && !self.notes.contains(&note) {
            self.notes.push(note);
        }
        self
    }

    /// The same with a note where there is one.
    #[must_use]
    pub fn note_of(self, note: Option<&'static str>) -> Self {
        match note {
            Some(note) => self.note_if(true, note),
            None => self,
        }
    }

    /// The same with figures that are of no use where the condition is true, and the note that
    /// says why.
    #[must_use]
    pub fn no_use_if(mut self, condition: bool, note: &'static str) -> Self {
        if condition {
            self.no_use = Some(note);
        }
        self.note_if(condition, note)
    }

    /// The same with these steps as what is asked for.
    #[must_use]
    pub const fn led_by(mut self, symbols: &'static [&'static str]) -> Self {
        self.leading = symbols;
        self
    }

    /// The same with what was taken from the dataset.
    #[must_use]
    pub fn taking(mut self, taken: Option<Taken>) -> Self {
        self.taken.extend(taken);
        self
    }

    /// The answer of a name.
    #[must_use]
    pub fn answer(&self, name: &str) -> Option<&Outcome> {
        self.answers.iter().find(|outcome| outcome.name == name)
    }
}

/// Said by every question where an input lies outside its method's range.
pub const OUTSIDE_RANGE: &str = "outside-range";
/// The note that a figure is held at the end of its table, and reads "at least".
pub(super) const HELD: &str = "table-end-at-least";

/// Notes that say no: a limit is not kept, a table does not clear. A screen draws them as it
/// draws what is wrong.
pub const SAYING_NO: [&str; 49] = [
    "ir-minimum-missed",
    "ir-maximum-missed",
    "table-c1-does-not-clear",
    "no-figure-no-clearance",
    "fit-above-ceiling",
    "fit-no-way",
    "fit-local-above-ceiling",
    "fit-hub-yields",
    "fit-pin-yields",
    "fit-loosest-slips",
    "fit-comes-loose",
    "draw-far-too-fast",
    "draw-too-fast",
    "torch-not-sure",
    "heat-no-time",
    "heat-runs-do-not-fill",
    "exposure-rebake",
    "exposure-scrap",
    "air-oxygen-low",
    "air-carbon-dioxide-deadly",
    "air-carbon-dioxide-high",
    "rhythm-cools-again",
    "fillet-too-small",
    "weld-too-weak",
    "as-strong-too-large",
    "match-too-weak-tension",
    "match-too-weak-compression",
    "runs-small-first",
    "torch-enough-none",
    "fillet-base-weaker",
    "unmarked-again",
    "unmarked-ask",
    "unmarked-hss",
    "unmarked-stop",
    "unmarked-spring",
    "unmarked-never-for",
    "crack-ucs-warn",
    "crack-deep",
    "crack-dirty",
    "crack-base-sulphur",
    "crack-shape-narrow",
    "crack-dg-warn",
    "crack-psr-warn",
    "crack-hv-warn",
    "crack-z-beyond",
    "bent-too-thick",
    "relief-above-ceiling",
    "cut-no-figure",
    "austenite-expected",
];

/// Questions whose answer takes longer than a picture on the screen stands.
const SLOW: [&str; 1] = ["heat-cycle"];

/// A physical question, declared once.
#[derive(Debug, Clone, Copy)]
pub struct Question {
    /// Name on the command line; its words are the Fluent message `question-NAME`, its
    /// one-line description the attribute `.about`, the question as it is asked at the bench
    /// `.asked`, and further words by which it is found `.words`.
    pub name: &'static str,
    /// The part of the work in which it is asked.
    pub work: Work,
    /// Inputs in the order in which they are asked.
    pub inputs: &'static [Input],
    /// Names of all answers that it may give.
    pub answers: &'static [&'static str],
    /// Ids of all notes that it may make, `outside-range` apart.
    pub notes: &'static [&'static str],
    /// The work.
    pub answer: fn(&Answers) -> Result<Reply, Problem>,
}

impl Question {
    /// The input of a key.
    #[must_use]
    pub fn input(&self, key: &str) -> Option<&'static Input> {
        self.inputs.iter().find(|input| input.key == key)
    }

    /// The inputs of a group.
    fn group(&self, name: &str) -> impl Iterator<Item = &'static str> {
        let of = move |input: &&Input| input.group.is_some_and(|group| group.name == name);
        self.inputs.iter().filter(of).map(|input| input.key).collect::<Vec<_>>().into_iter()
    }

    /// All that is still missing, each with the keys of which any will do.
    fn missing(&self, given: &Answers) -> Vec<Vec<&'static str>> {
        let mut missing: Vec<Vec<&'static str>> = Vec::new();
        for input in self.inputs {
            let keys: Vec<&'static str> = match input.group.filter(|group| group.needed) {
                Some(group) => self.group(group.name).collect(),
                None if input.required && input.default.is_none() => vec![input.key],
                None => continue,
            };
            if keys.iter().all(|key| given.get(key).is_none()) && !missing.contains(&keys) {
                missing.push(keys);
            }
        }
        missing
    }

    /// The inputs that say one thing and are given more than once.
    fn doubled(&self, given: &Answers) -> Option<Vec<&'static str>> {
        self.inputs.iter().filter_map(|input| input.group.filter(|group| group.exclusive)).find_map(|group| {
            let keys: Vec<&'static str> =
                self.group(group.name).filter(|key| given.get(key).is_some()).collect();
            (keys.len() > 1).then_some(keys)
        })
    }

    /// Does its answer take longer than the window may stand still? It is then worked out off the
    /// screen's thread.
    #[must_use]
    pub fn is_slow(&self) -> bool {
        SLOW.contains(&self.name)
    }

    /// What is given, checked, with the defaults put in.
    ///
    /// # Errors
    /// A key that the question doesn't have, all required inputs that are missing, two that
    /// say one thing, a value of the wrong kind, outside its limits or not offered.
    pub fn filled(&self, given: &Answers) -> Result<Answers, Problem> {
        if let Some(key) = given.keys().find(|key| self.input(key).is_none()) {
            return Err(Problem::UnknownInput { key: key.to_owned() });
        }
        let mut full = given.clone();
        for input in self.inputs {
            match (given.get(input.key), input.default) {
                (Some(value), _) => input.check(value)?,
                (None, Some(preset)) => full.set(input.key, preset.given()),
                (None, None) => {}
            }
        }
        if let Some(keys) = self.doubled(given) {
            return Err(Problem::OnlyOne { keys });
        }
        let mut missing = self.missing(given);
        match (missing.pop(), missing.is_empty()) {
            (None, _) => Ok(full),
            (Some(keys), true) => Err(Problem::Missing { keys }),
            (Some(keys), false) => {
                missing.push(keys);
                Err(Problem::MissingSeveral { each: missing })
            }
        }
    }

    /// Checks what is given, puts in the defaults and answers.
    ///
    /// # Errors
    /// What [`Self::filled`] says, or what the engine refuses.
    pub fn ask(&self, given: &Answers) -> Result<Reply, Problem> {
        self.ask_by(given, self.answer)
    }

    /// The same for a person to read: the heat cycle on its fine grid, as a plan ends with it.
    ///
    /// # Errors
    /// As [`Self::ask`].
    pub fn ask_finely(&self, given: &Answers) -> Result<Reply, Problem> {
        let cycle = self.name == heat_cycle::HEAT_CYCLE.name;
        self.ask_by(given, if cycle { heat_cycle::answer_finely } else { self.answer })
    }

    fn ask_by(
        &self,
        given: &Answers,
        answer: fn(&Answers) -> Result<Reply, Problem>,
    ) -> Result<Reply, Problem> {
        let full = self.filled(given)?;
        let mut reply = answer(&full)?;
        for note in given.notes() {
            reply = reply.note_if(true, note);
        }
        // What is held at the end of its range is not drawn beyond it.
        let held = reply.answers.iter().any(|outcome| outcome.at_least);
        let outside = !held && reply.answers.iter().any(|outcome| !outcome.in_range());
        Ok(reply.note_if(held && self.notes.contains(&HELD), HELD).note_if(outside, OUTSIDE_RANGE))
    }
}
