//! What every answer of the engine carries.

use crate::reference::Basis;

/// The unit of a value, always one that the engine works in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Unit {
    /// A temperature point in °C.
    Celsius,
    /// A temperature difference in K.
    Kelvin,
    /// mm.
    Millimetre,
    /// nm, of an oxide film.
    Nanometre,
    /// mm².
    SquareMillimetre,
    /// s.
    Second,
    /// min.
    Minute,
    /// h.
    Hour,
    /// kJ/mm.
    KilojoulePerMm,
    /// ml of diffusible hydrogen in 100 g of deposited metal.
    MlPer100g,
    /// Parts per million by mass.
    Ppm,
    /// Weight percent.
    Percent,
    /// Vickers hardness.
    Vickers,
    /// MPa.
    Megapascal,
    /// kg.
    Kilogram,
    /// A share from 0 to 1, an emissivity, an efficiency, a carbon equivalent.
    One,
}

impl Unit {
    /// The stable symbol, as printed in JSON.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Celsius => "°C",
            Self::Kelvin => "K",
            Self::Millimetre => "mm",
            Self::Nanometre => "nm",
            Self::SquareMillimetre => "mm2",
            Self::Second => "s",
            Self::Minute => "min",
            Self::Hour => "h",
            Self::KilojoulePerMm => "kJ/mm",
            Self::MlPer100g => "ml/100 g",
            Self::Ppm => "ppm",
            Self::Percent => "%",
            Self::Vickers => "HV",
            Self::Megapascal => "MPa",
            Self::Kilogram => "kg",
            Self::One => "1",
        }
    }
}

/// One input beside the limits that its method states for it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RangeCheck {
    /// The symbol of the input: `C`, `CET`, `d`, `HD`, `Q` …
    pub symbol: &'static str,
    /// What this job has.
    pub value: f64,
    /// Lower limit, where one is stated.
    pub low: Option<f64>,
    /// Upper limit, where one is stated.
    pub high: Option<f64>,
}

impl RangeCheck {
    /// Is the value inside its limits, both ends counted?
    #[must_use]
    pub fn inside(&self) -> bool {
        self.low.is_none_or(|low| self.value >= low) && self.high.is_none_or(|high| self.value <= high)
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

/// One answer: a value with its unit, its basis, and whether the inputs lie in
/// the range that the method was made for.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome {
    /// Stable name of the answer; its words are the Fluent message `answer-NAME`.
    pub name: &'static str,
    /// The value; `None` when the method has no figure here.
    pub value: Option<f64>,
    /// Unit of value, low and high.
    pub unit: Unit,
    /// Lower end, where the answer is a range.
    pub low: Option<f64>,
    /// Upper end, where the answer is a range.
    pub high: Option<f64>,
    /// Each input beside its limits; empty when the method states none.
    pub range: Vec<RangeCheck>,
    /// What the value rests on.
    pub basis: Basis,
    /// The steps with symbols.
    pub steps: Vec<Step>,
}

impl Outcome {
    /// A bare value.
    #[must_use]
    pub const fn new(name: &'static str, value: f64, unit: Unit, basis: Basis) -> Self {
        Self {
            name,
            value: Some(value),
            unit,
            low: None,
            high: None,
            range: Vec::new(),
            basis,
            steps: Vec::new(),
        }
    }

    /// The same answer as a range.
    #[must_use]
    pub const fn spread(mut self, low: f64, high: f64) -> Self {
        self.low = Some(low);
        self.high = Some(high);
        self
    }

    /// The same answer with its inputs beside their limits.
    #[must_use]
    pub fn checked(mut self, range: Vec<RangeCheck>) -> Self {
        self.range = range;
        self
    }

    /// The same answer with its steps.
    #[must_use]
    pub fn worked(mut self, steps: Vec<Step>) -> Self {
        self.steps = steps;
        self
    }

    /// Are all inputs inside the method's stated range?
    #[must_use]
    pub fn in_range(&self) -> bool {
        self.range.iter().all(RangeCheck::inside)
    }
}
