//! A job as it is typed: field by field, as text. The window, a file and the command
//! line fill the same one.

use std::fmt;

use ron::extensions::Extensions;
use ron::value::RawValue;
use serde::de::{self, Visitor};
use serde::{Deserialize, Deserializer, Serialize};
use thiserror::Error;

macro_rules! job_text {
    ($($(#[doc = $doc:literal])* $variant:ident $name:ident $id:literal;)*) => {
        /// A field of a job.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum Field {
            $($(#[doc = $doc])* $variant,)*
        }

        impl Field {
            /// All fields in the order in which they are asked.
            pub const ALL: &[Self] = &[$(Self::$variant,)*];

            /// The id: the key on the command line, and with `_` for `-` in a file. Its
            /// words are the Fluent message `field-ID`.
            #[must_use]
            pub const fn id(self) -> &'static str {
                match self { $(Self::$variant => $id,)* }
            }
        }

        /// A job as it is typed. `None` and an empty text are both "not stated".
        #[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
        pub struct JobText {
            $($(#[doc = $doc])* #[serde(skip_serializing_if = "Option::is_none")] pub $name: Option<String>,)*
        }

        impl JobText {
            /// What is typed in a field; `None` where it is nothing but space.
            #[must_use]
            pub fn get(&self, field: Field) -> Option<&str> {
                let text = match field { $(Field::$variant => &self.$name,)* };
                text.as_deref().filter(|text| !text.trim().is_empty())
            }

            /// Sets or clears a field.
            pub fn set(&mut self, field: Field, text: Option<String>) {
                match field { $(Field::$variant => self.$name = text,)* }
            }
        }

        /// Each field unread, so that one bad field can't take the others with it.
        #[derive(Deserialize, Default)]
        #[serde(default)]
        struct Raw {
            $($name: Option<Box<RawValue>>,)*
        }

        impl Raw {
            fn fields(self) -> Vec<(Field, Box<RawValue>)> {
                let all = [$((Field::$variant, self.$name),)*];
                all.into_iter().filter_map(|(field, raw)| raw.map(|raw| (field, raw))).collect()
            }
        }

        /// The same with no field beyond the known ones.
        #[derive(Deserialize, Default)]
        #[serde(default, deny_unknown_fields)]
        struct Strict {
            $($name: Option<Typed>,)*
        }

        impl From<Strict> for JobText {
            fn from(strict: Strict) -> Self {
                Self { $($name: strict.$name.map(|typed| typed.0),)* }
            }
        }
    };
}

job_text! {
    /// Name of the job.
    Name name "name";
    /// Units of bare numbers: `c-mm`, `f-in`, `f-mm`, `c-in`.
    Units units "units";
    /// Steel of the first part.
    Steel steel "steel";
    /// Certificate of the first part.
    Certificate certificate "certificate";
    /// Condition of the first part.
    Condition condition "condition";
    /// Thickness of the first part.
    Thickness thickness "thickness";
    /// Shape of the first part: `plate` or `round`.
    Shape shape "shape";
    /// Diameter of the first part, in place of thickness and shape.
    Diameter diameter "diameter";
    /// Hardness of the first part.
    Hardness hardness "hardness";
    /// Yield strength of the first part.
    Yield yield_strength "yield";
    /// Is the weld zone of the first part buttered?
    Buttered buttered "buttered";
    /// Steel of the second part.
    SteelB steel_b "steel-b";
    /// Certificate of the second part.
    CertificateB certificate_b "certificate-b";
    /// Condition of the second part.
    ConditionB condition_b "condition-b";
    /// Thickness of the second part.
    ThicknessB thickness_b "thickness-b";
    /// Shape of the second part.
    ShapeB shape_b "shape-b";
    /// Diameter of the second part.
    DiameterB diameter_b "diameter-b";
    /// Hardness of the second part.
    HardnessB hardness_b "hardness-b";
    /// Yield strength of the second part.
    YieldB yield_b "yield-b";
    /// Is the weld zone of the second part buttered?
    ButteredB buttered_b "buttered-b";
    /// The joint.
    Joint joint "joint";
    /// Leg of the fillet.
    Leg leg "leg";
    /// Processes, joined by `+`.
    Process process "process";
    /// Diffusible hydrogen: one, or one per process joined by `+`.
    Hydrogen hydrogen "hydrogen";
    /// Net heat input: one, or one per process joined by `+`.
    HeatInput heat_input "heat-input";
    /// Arc energy: one, or one per process joined by `+`.
    ArcEnergy arc_energy "arc-energy";
    /// Arc voltage: one, or one per process joined by `+`.
    Volts volts "volts";
    /// Current: one, or one per process joined by `+`.
    Amps amps "amps";
    /// Travel speed: one, or one per process joined by `+`.
    Travel travel "travel";
    /// Arc time of a timed run, in place of the travel speed: one, or one per process.
    ArcTime arc_time "arc-time";
    /// Length of a timed run: one, or one per process joined by `+`.
    RunLength run_length "run-length";
    /// Restraint.
    Restraint restraint "restraint";
    /// Filler.
    Filler filler "filler";
    /// Tensile strength of the weld metal.
    WeldStrength weld_strength "weld-strength";
    /// CET of the weld metal.
    WeldCet weld_cet "weld-cet";
    /// Number of runs.
    Runs runs "runs";
    /// Shop temperature.
    Shop shop "shop";
    /// Is the air very humid?
    Damp damp "damp";
    /// Code that the job names.
    Code code "code";
    /// Minimum preheat demanded by drawing, procedure or customer.
    DemandPreheat demand_preheat "demand-preheat";
    /// Maximum interpass demanded.
    DemandInterpass demand_interpass "demand-interpass";
    /// Ceiling demanded.
    DemandCeiling demand_ceiling "demand-ceiling";
    /// Are edges cut by flame or plasma?
    ThermalCut thermal_cut "thermal-cut";
}

impl Field {
    /// The field of an id; `-` and `_` are the same, and so are `yield` and `yield-strength`.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        let id = id.trim().to_ascii_lowercase().replace('_', "-");
        let id = if id == "yield-strength" { "yield" } else { id.as_str() };
        Self::ALL.iter().copied().find(|field| field.id() == id)
    }
}

/// A text, or a number or a truth value that stands without quotation marks.
#[derive(Debug)]
struct Typed(String);

impl<'de> Deserialize<'de> for Typed {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Any;
        impl Visitor<'_> for Any {
            type Value = Typed;
            fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
                formatter.write_str("a text or a number")
            }
            fn visit_str<E: de::Error>(self, text: &str) -> Result<Typed, E> {
                Ok(Typed(text.to_owned()))
            }
            fn visit_bool<E: de::Error>(self, yes: bool) -> Result<Typed, E> {
                Ok(Typed(if yes { "yes" } else { "no" }.to_owned()))
            }
            fn visit_i64<E: de::Error>(self, number: i64) -> Result<Typed, E> {
                Ok(Typed(number.to_string()))
            }
            fn visit_u64<E: de::Error>(self, number: u64) -> Result<Typed, E> {
                Ok(Typed(number.to_string()))
            }
            fn visit_f64<E: de::Error>(self, number: f64) -> Result<Typed, E> {
                Ok(Typed(number.to_string()))
            }
        }
        deserializer.deserialize_any(Any)
    }
}

/// Why a job file could not be read.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("line {line}: {detail}")]
pub struct JobFileError {
    /// Line of the file, counted from 1.
    pub line: usize,
    /// What the reader of the file met there.
    pub detail: String,
    /// The field that the file has and a job has not, where that is why.
    pub unknown_field: Option<String>,
}

/// RON as all files of the program write it: a value stands for itself, not as `Some(value)`.
pub(crate) fn ron_options() -> ron::Options {
    ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

impl JobText {
    /// A job from the text of a file; a field that a job has not is an error there.
    ///
    /// # Errors
    /// [`JobFileError`] with the line.
    pub fn from_ron(text: &str) -> Result<Self, JobFileError> {
        ron_options().from_str::<Strict>(text).map(Self::from).map_err(|error| JobFileError {
            line: error.span.start.line,
            detail: error.code.to_string(),
            unknown_field: match error.code {
                ron::Error::NoSuchStructField { found, .. } => Some(found),
                _ => None,
            },
        })
    }

    /// The job as the text of a file.
    #[must_use]
    pub fn to_ron(&self) -> String {
        let config = ron::ser::PrettyConfig::new().extensions(Extensions::IMPLICIT_SOME);
        ron::ser::to_string_pretty(self, config).expect("texts always write as RON")
    }

    /// The fields that are typed, in the order in which they are asked.
    pub fn typed(&self) -> impl Iterator<Item = (Field, &str)> {
        Field::ALL.iter().filter_map(|field| self.get(*field).map(|text| (*field, text)))
    }
}

impl JobText {
    /// The job of a text with what can be read of it, and the fields that can't; a field
    /// that a job has not is passed over. `None` if it is no list of fields at all.
    pub(crate) fn lenient(text: &str) -> Option<(Self, Vec<Field>)> {
        let raw: Raw = ron_options().from_str(text).ok()?;
        let (mut made, mut lost) = (Self::default(), Vec::new());
        for (field, raw) in raw.fields() {
            match ron_options().from_str::<Typed>(raw.get_ron()) {
                Ok(typed) => made.set(field, Some(typed.0)),
                Err(_) => lost.push(field),
            }
        }
        Some((made, lost))
    }
}
