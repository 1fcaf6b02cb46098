//! One input of a question: what is typed for it, within which limits, and what it begins with.

use super::{Given, OfPlan, Problem};
use crate::engine::EngineError;
use crate::units::Quantity;

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
    /// A mass, kg.
    Mass,
    /// A flow of gas, m³/h.
    GasFlow,
    /// A volume of gas or of a room, m³.
    Volume,
    /// What only questions ask, in its own units.
    Of(Quantity),
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
            Self::Mass => Some("kg"),
            Self::GasFlow => Some("m³/h"),
            Self::Volume => Some("m³"),
            Self::Of(quantity) => Some(quantity.own_unit()),
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
    /// Is it a count, of which nobody has a half?
    pub whole: bool,
    /// Must it be given?
    pub required: bool,
    /// The group of inputs that it belongs to.
    pub group: Option<Group>,
    /// What a plan may say for it: a form that stands beside a plan begins with that.
    pub of_plan: Option<OfPlan>,
    /// What a form begins with besides, where the plan doesn't say.
    pub in_form: Option<Preset>,
    /// The choice that it belongs to, by its key and ids: beside another choice it says nothing.
    pub only: Option<(&'static str, &'static [&'static str])>,
}

/// A group of inputs that belong together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Group {
    /// Its name.
    pub name: &'static str,
    /// Do they say the same thing, so that two of them may contradict each other?
    pub exclusive: bool,
    /// Must one of them be given?
    pub needed: bool,
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
            whole: false,
            required: false,
            group: None,
            of_plan: None,
            in_form: None,
            only: None,
        }
    }

    /// The same, required.
    #[must_use]
    pub const fn required(mut self) -> Self {
        self.required = true;
        self
    }

    /// The same as a count.
    #[must_use]
    pub const fn whole(mut self) -> Self {
        self.whole = true;
        self
    }

    /// The same as one of a group that all say one thing: just one of them must be given.
    #[must_use]
    pub const fn one_of(mut self, name: &'static str) -> Self {
        self.group = Some(Group { name, exclusive: true, needed: true });
        self
    }

    /// The same as one of a group of which at least one must be given.
    #[must_use]
    pub const fn any_of(mut self, name: &'static str) -> Self {
        self.group = Some(Group { name, exclusive: false, needed: true });
        self
    }

    /// The same as one of a group that tell one thing in several ways, of which none need be given: what
    /// is typed for one of them takes the place of what a plan says for any.
    #[must_use]
    pub const fn kin(mut self, name: &'static str) -> Self {
        self.group = Some(Group { name, exclusive: false, needed: false });
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

    /// The same, which says something only beside one of these choices of another input.
    #[must_use]
    pub const fn only(mut self, key: &'static str, ids: &'static [&'static str]) -> Self {
        self.only = Some((key, ids));
        self
    }

    /// Would this be taken?
    #[must_use]
    pub fn takes(&self, given: &Given) -> bool {
        self.check(given).is_ok()
    }

    /// Passes a given value of the right kind and inside the limits.
    pub(super) fn check(&self, given: &Given) -> Result<(), Problem> {
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
                } else if self.whole && value.fract() != 0.0 {
                    Err(Problem::NotWhole { key: self.key, value })
                } else {
                    Ok(())
                }
            }
            _ => Err(Problem::WrongKind { key: self.key }),
        }
    }
}
