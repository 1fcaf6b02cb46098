//! What every answer of the engine carries.

use crate::reference::{Basis, Method, MethodRow, Methods, Printed, Unit};

/// Are the inputs taken as they are, or put at the ends of the method's range first?
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Ends {
    /// As they are: what lies outside is marked, and the figure is extrapolated.
    Drawn,
    /// Put at the limit that they pass.
    Held,
}

/// One input: what was given, what counted, and the limits that its method states for it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Checked {
    /// The symbol of the input: `C`, `CET`, `d`, `HD`, `Q` …
    pub symbol: &'static str,
    /// What was given.
    pub value: f64,
    /// What the figure was worked out with.
    pub used: f64,
    /// The unit of all four figures.
    pub unit: Unit,
    /// Lower limit, where one is stated.
    pub low: Option<f64>,
    /// Upper limit, where one is stated.
    pub high: Option<f64>,
}

impl Checked {
    /// An input for which no limits are stated.
    #[must_use]
    pub const fn free(symbol: &'static str, value: f64, unit: Unit) -> Self {
        Self { symbol, value, used: value, unit, low: None, high: None }
    }

    /// An input up to a limit, taken as it is.
    #[must_use]
    pub const fn up_to(symbol: &'static str, value: f64, unit: Unit, high: Option<f64>) -> Self {
        Self { symbol, value, used: value, unit, low: None, high }
    }

    /// An input between limits, taken as it is.
    #[must_use]
    pub const fn between(symbol: &'static str, value: f64, unit: Unit, low: f64, high: f64) -> Self {
        Self { symbol, value, used: value, unit, low: Some(low), high: Some(high) }
    }

    /// The input of a method beside the limits of its row.
    ///
    /// # Panics
    /// Never with the embedded dataset: `tests/dataset` asks every question and plans every
    /// kind of job on it.
    #[must_use]
    pub fn of(row: &MethodRow, symbol: &'static str, value: f64, ends: Ends) -> Self {
        let limit = row.limit(symbol).expect("the row states the limits of this input");
        let drawn = Self { symbol, value, used: value, unit: limit.unit, low: limit.low, high: limit.high };
        match ends {
            Ends::Drawn => drawn,
            Ends::Held => drawn.held(),
        }
    }

    /// The same put at the limit that it passes.
    #[must_use]
    pub fn held(mut self) -> Self {
        self.used = self.low.map_or(self.value, |low| self.value.max(low));
        self.used = self.high.map_or(self.used, |high| self.used.min(high));
        self
    }

    /// Does what was given lie inside its limits, both ends counted?
    #[must_use]
    pub fn inside(&self) -> bool {
        self.low.is_none_or(|low| self.value >= low) && !self.above()
    }

    /// Does what was given lie above the upper limit?
    #[must_use]
    pub fn above(&self) -> bool {
        self.high.is_some_and(|high| self.value > high)
    }

    /// Was it put at a limit?
    #[must_use]
    pub fn was_held(&self) -> bool {
        self.used.total_cmp(&self.value).is_ne()
    }
}

/// One step of a calculation: a symbol and its value, in the order of working.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// The symbol, as in the equation.
    pub symbol: &'static str,
    /// Its value in this job.
    pub value: f64,
    /// Its unit.
    pub unit: Unit,
}

impl Step {
    /// A step.
    #[must_use]
    pub const fn new(symbol: &'static str, value: f64, unit: Unit) -> Self {
        Self { symbol, value, unit }
    }
}

/// What an answer says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Says {
    /// A figure, or a range where there is no one figure.
    Figure,
    /// A printed span, for checking.
    Span,
    /// No preheat is needed by this method.
    Clears,
    /// It does not clear; the amount is unknown.
    DoesNotClear,
    /// The method has no figure here.
    NoFigure,
}

impl Says {
    /// Stable id, as printed in JSON.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// One answer: a value with its unit, its basis, and how its inputs lie in the range that
/// the method was made for.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome {
    /// The method that answers.
    pub method: Method,
    /// Which of the method's answers it is; its words are the Fluent message `answer-NAME`.
    pub name: &'static str,
    /// What it says.
    pub says: Says,
    /// The row within the method that answered, where it has rows: a grade, a group.
    pub row: Option<String>,
    /// The value; `None` where the method has no one figure here.
    pub value: Option<f64>,
    /// Unit of value, low, high and raw.
    pub unit: Unit,
    /// Lower end, where the answer is a range.
    pub low: Option<f64>,
    /// Upper end, where the answer is a range.
    pub high: Option<f64>,
    /// The figure with no input put at its limit, where that differs.
    pub raw: Option<f64>,
    /// As the source prints it, where it prints one and nothing was added.
    pub printed: Option<Printed>,
    /// Does it read "at least": an input was put at its upper limit, or the table ends?
    pub at_least: bool,
    /// Each input; empty when the method states no limits and the steps say it all.
    pub inputs: Vec<Checked>,
    /// The steps with symbols.
    pub steps: Vec<Step>,
    /// What the value rests on, where that is not the method's own row: [`Outcome::basis`].
    pub own_basis: Option<Basis>,
}

impl Outcome {
    /// A bare value of a method.
    #[must_use]
    pub fn new(method: Method, value: f64, unit: Unit) -> Self {
        Self {
            method,
            name: method.id(),
            says: Says::Figure,
            row: None,
            value: Some(value),
            unit,
            low: None,
            high: None,
            raw: None,
            printed: None,
            at_least: false,
            inputs: Vec::new(),
            steps: Vec::new(),
            own_basis: None,
        }
    }

    /// An answer without one value: a range, or nothing yet.
    #[must_use]
    pub fn open(method: Method, unit: Unit) -> Self {
        Self { value: None, ..Self::new(method, 0.0, unit) }
    }

    /// What the value rests on: the basis of the row of a table that answered, else what the
    /// method's own row says.
    #[must_use]
    pub fn basis<'a>(&'a self, methods: &'a Methods) -> &'a Basis {
        self.own_basis.as_ref().unwrap_or_else(|| &methods.row(self.method).basis)
    }

    /// The same resting on a row of a table.
    #[must_use]
    pub fn resting_on(mut self, basis: &Basis) -> Self {
        self.own_basis = Some(basis.clone());
        self
    }

    /// The same under the name of one of several answers of its method.
    #[must_use]
    pub const fn named(mut self, name: &'static str) -> Self {
        self.name = name;
        self
    }

    /// The same as a range.
    #[must_use]
    pub const fn spread(mut self, low: f64, high: f64) -> Self {
        self.low = Some(low);
        self.high = Some(high);
        self
    }

    /// The same with its inputs.
    #[must_use]
    pub fn from_inputs(mut self, inputs: Vec<Checked>) -> Self {
        self.inputs = inputs;
        self
    }

    /// The same with its steps.
    #[must_use]
    pub fn worked(mut self, steps: Vec<Step>) -> Self {
        self.steps = steps;
        self
    }

    /// The same from one row of the method's table.
    #[must_use]
    pub fn of_row(mut self, row: impl Into<String>) -> Self {
        self.row = Some(row.into());
        self
    }

    /// The same saying something else than a figure; only a figure and a span keep a value.
    #[must_use]
    pub fn saying(mut self, says: Says) -> Self {
        self.says = says;
        if !matches!(says, Says::Figure | Says::Span) {
            self.value = None;
        }
        self
    }

    /// Are all inputs inside the method's stated range?
    #[must_use]
    pub fn in_range(&self) -> bool {
        self.inputs.iter().all(Checked::inside)
    }

    /// Is the figure worked out with an input put at its limit, or open at its table's end?
    #[must_use]
    pub fn at_limit(&self) -> bool {
        self.at_least || self.inputs.iter().any(Checked::was_held)
    }

    /// The input of a symbol.
    #[must_use]
    pub fn input(&self, symbol: &str) -> Option<&Checked> {
        self.inputs.iter().find(|input| input.symbol == symbol)
    }

    /// The preheat that it asks for, °C, where it has one; a clearance counts as 0.
    #[must_use]
    pub fn preheat_c(&self) -> Option<f64> {
        match self.says {
            Says::Figure => self.value.filter(|_| self.unit == Unit::Celsius),
            Says::Span => self.low.filter(|_| self.unit == Unit::Celsius),
            Says::Clears => Some(0.0),
            Says::DoesNotClear | Says::NoFigure => None,
        }
    }
}
