//! What a question is: declared once, asked from the command line, the Bench and the tests.

use super::{Answers, Given, OfPlan, Problem};
use crate::engine::{EngineError, Outcome};
use crate::reference::Basis;

/// What kind of thing an input is: it chooses the parser and the unit shown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Kind {
    /// A bare number, a share or a factor.
    Number,
    /// Weight percent.
    Percent,
    /// A length, mm.
    Length,
    /// A temperature point, °C.
    Temperature,
    /// Net heat input, kJ/mm.
    HeatInput,
    /// Diffusible hydrogen by ISO 3690, ml/100 g.
    Hydrogen,
    /// V.
    Voltage,
    /// A.
    Current,
    /// Travel speed, mm/s.
    Speed,
    /// A short time, s.
    Seconds,
    /// A long time, h.
    Hours,
    /// A strength or stress, MPa.
    Stress,
    /// A composition: a certificate, or a grade as a plan takes it.
    Composition,
    /// One of these ids; the words are the Fluent messages `option-KEY-ID`.
    Choice(&'static [&'static str]),
    /// Yes or no.
    Flag,
    /// Any text.
    Text,
}

impl Kind {
    /// The unit that the value arrives in, where it has one.
    #[must_use]
    pub const fn unit(self) -> Option<&'static str> {
        match self {
            Self::Percent => Some("%"),
            Self::Length => Some("mm"),
            Self::Temperature => Some("°C"),
            Self::HeatInput => Some("kJ/mm"),
            Self::Hydrogen => Some("ml/100 g"),
            Self::Voltage => Some("V"),
            Self::Current => Some("A"),
            Self::Speed => Some("mm/s"),
            Self::Seconds => Some("s"),
            Self::Hours => Some("h"),
            Self::Stress => Some("MPa"),
            Self::Number | Self::Composition | Self::Choice(_) | Self::Flag | Self::Text => None,
        }
    }

    /// Does it arrive as a number?
    #[must_use]
    pub const fn numeric(self) -> bool {
        !matches!(self, Self::Composition | Self::Choice(_) | Self::Flag | Self::Text)
    }
}

/// What an input is when nothing is given.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Preset {
    /// A number in the unit of the kind.
    Number(f64),
    /// An id of the choice.
    Choice(&'static str),
    /// Yes or no.
    Flag(bool),
}

impl Preset {
    /// As it is given.
    #[must_use]
    pub fn given(self) -> Given {
        match self {
            Self::Number(value) => Given::Number(value),
            Self::Choice(id) => Given::Choice(id.to_owned()),
            Self::Flag(on) => Given::Flag(on),
        }
    }
}

/// One input of a question.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Input {
    /// Key on the command line; its words are the Fluent message `input-KEY`.
    pub key: &'static str,
    /// Kind.
    pub kind: Kind,
    /// Value when nothing is given.
    pub default: Option<Preset>,
    /// Lowest number that is taken at all.
    pub low: Option<f64>,
    /// Highest number that is taken at all.
    pub high: Option<f64>,
    /// Must it be given?
    pub required: bool,
    /// The group of inputs of which one must be given.
    pub group: Option<Group>,
    /// What a plan may say for it: a form that stands beside a plan begins with that.
    pub of_plan: Option<OfPlan>,
    /// What a form begins with besides, where the plan doesn't say.
    pub in_form: Option<Preset>,
}

/// A group of inputs of which one must be given.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Group {
    /// Its name.
    pub name: &'static str,
    /// Do they say the same thing, so that two of them may contradict each other?
    pub exclusive: bool,
}

impl Input {
    /// An optional input with no default.
    #[must_use]
    pub const fn new(key: &'static str, kind: Kind) -> Self {
        Self {
            key,
            kind,
            default: None,
            low: None,
            high: None,
            required: false,
            group: None,
            of_plan: None,
            in_form: None,
        }
    }

    /// The same, required.
    #[must_use]
    pub const fn required(mut self) -> Self {
        self.required = true;
        self
    }

    /// The same as one of a group that all say one thing: just one of them must be given.
    #[must_use]
    pub const fn one_of(mut self, name: &'static str) -> Self {
        self.group = Some(Group { name, exclusive: true });
        self
    }

    /// The same as one of a group of which at least one must be given.
    #[must_use]
    pub const fn any_of(mut self, name: &'static str) -> Self {
        self.group = Some(Group { name, exclusive: false });
        self
    }

    /// The same with a default.
    #[must_use]
    pub const fn or(mut self, preset: Preset) -> Self {
        self.default = Some(preset);
        self
    }

    /// The same with the numbers that are taken at all, both ends counted.
    #[must_use]
    pub const fn within(mut self, low: f64, high: f64) -> Self {
        self.low = Some(low);
        self.high = Some(high);
        self
    }

    /// The same, for which a plan may say this.
    #[must_use]
    pub const fn of(mut self, plan: OfPlan) -> Self {
        self.of_plan = Some(plan);
        self
    }

    /// The same, for which no plan speaks.
    #[must_use]
    pub const fn of_no_plan(mut self) -> Self {
        self.of_plan = None;
        self
    }

    /// The same with what a form begins with.
    #[must_use]
    pub const fn in_form(mut self, preset: Preset) -> Self {
        self.in_form = Some(preset);
        self
    }

    /// Would this be taken?
    #[must_use]
    pub fn takes(&self, given: &Given) -> bool {
        self.check(given).is_ok()
    }

    /// Passes a given value of the right kind and inside the limits.
    fn check(&self, given: &Given) -> Result<(), Problem> {
        match (self.kind, given) {
            (Kind::Choice(offered), Given::Choice(id)) => {
                if offered.contains(&id.as_str()) {
                    Ok(())
                } else {
                    Err(Problem::NotOffered { key: self.key, given: id.clone(), offered })
                }
            }
            (Kind::Flag, Given::Flag(_))
            | (Kind::Text, Given::Text(_))
            | (Kind::Composition, Given::Composition(_) | Given::Steel(_)) => Ok(()),
            (kind, Given::Number(value)) if kind.numeric() => {
                let (symbol, value) = (self.key, *value);
                let low = self.low.unwrap_or(f64::MIN);
                let high = self.high.unwrap_or(f64::MAX);
                if value.is_nan() {
                    Err(EngineError::NotANumber { symbol }.into())
                } else if value < 0.0 && low >= 0.0 {
                    Err(EngineError::BelowZero { symbol, value }.into())
                } else if value < low || value > high {
                    Err(EngineError::OutOfDomain { symbol, value, low, high }.into())
                } else {
                    Ok(())
                }
            }
            _ => Err(Problem::WrongKind { key: self.key }),
        }
    }
}

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

/// A physical question, declared once.
#[derive(Debug, Clone, Copy)]
pub struct Question {
    /// Name on the command line; its words are the Fluent message `question-NAME`, its
    /// one-line description the attribute `.about`.
    pub name: &'static str,
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
            let keys: Vec<&'static str> = match input.group {
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

    /// Checks what is given, puts in the defaults and answers.
    ///
    /// # Errors
    /// A key that the question doesn't have, all required inputs that are missing, two that
    /// say one thing, a value of the wrong kind, outside its limits or not offered; or what
    /// the engine refuses.
    pub fn ask(&self, given: &Answers) -> Result<Reply, Problem> {
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
            (None, _) => {}
            (Some(keys), true) => return Err(Problem::Missing { keys }),
            (Some(keys), false) => {
                missing.push(keys);
                return Err(Problem::MissingSeveral { each: missing });
            }
        }
        let mut reply = (self.answer)(&full)?;
        for note in given.notes() {
            reply = reply.note_if(true, note);
        }
        // What is held at the end of its range is not drawn beyond it.
        let held = reply.notes.contains(&HELD);
        let outside = !held && reply.answers.iter().any(|outcome| !outcome.in_range());
        Ok(reply.note_if(outside, OUTSIDE_RANGE))
    }
}
