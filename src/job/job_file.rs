//! A job from the text of a file, and back.

use std::fmt;

use ron::extensions::Extensions;
use ron::value::RawValue;
use serde::de::{self, MapAccess, Visitor};
use serde::{Deserialize, Deserializer};
use thiserror::Error;

use super::fields::{Field, Of, Slot};
use super::job_text::{JobText, SCHEMA};

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

impl JobFileError {
    fn of(line: usize, error: &ron::Error) -> Self {
        let unknown_field = match error {
            ron::Error::NoSuchStructField { found, .. } => Some(found.clone()),
            _ => None,
        };
        Self { line, detail: error.to_string(), unknown_field }
    }
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
        let mut file = JobFile::read(text)?;
        if file.bad.is_empty() { Ok(file.job) } else { Err(file.bad.swap_remove(0).1) }
    }

    /// The job as the text of a file.
    #[must_use]
    pub fn to_ron(&self) -> String {
        let config = ron::ser::PrettyConfig::new().extensions(Extensions::IMPLICIT_SOME);
        ron::ser::to_string_pretty(self, config).expect("texts always write as RON")
    }

    /// The job of a text with what can be read of it, and the ids of the fields that can't; a
    /// field that a job has not is passed over. `None` if it is no job at all.
    pub(crate) fn lenient(text: &str) -> Option<(Self, Vec<String>)> {
        let file = JobFile::read(text).ok()?;
        let lost = file.bad.into_iter().filter(|(_, why)| why.unknown_field.is_none());
        Some((file.job, lost.map(|(id, _)| id).collect()))
    }
}

/// A file while it is read: one bad field can't take the others with it.
struct JobFile<'a> {
    text: &'a str,
    job: JobText,
    /// Ids of what could not be read, and why.
    bad: Vec<(String, JobFileError)>,
}

impl<'a> JobFile<'a> {
    fn read(text: &'a str) -> Result<Self, JobFileError> {
        let entries: Entries<'a> = ron_options()
            .from_str(text)
            .map_err(|error| JobFileError::of(error.span.start.line, &error.code))?;
        let mut file = Self { text, job: JobText::default(), bad: Vec::new() };
        let stated = entries.0.iter().find(|(name, _)| name == "schema");
        let schema = stated.map_or(Some(1), |(_, raw)| ron_options().from_str(raw.get_ron()).ok());
        match (schema, stated) {
            (Some(1), _) => {
                let pairs = file.texts(entries, &Slot::from_id);
                file.job.put_keys(pairs);
            }
            (Some(SCHEMA), _) => file.lists(entries),
            (_, stated) => {
                let raw = stated.map_or("", |(_, raw)| raw.get_ron());
                let detail = format!("schema {}", raw.trim());
                return Err(JobFileError { line: file.line_of(raw), detail, unknown_field: None });
            }
        }
        Ok(file)
    }

    /// Takes a job whose parts and runs stand in lists.
    fn lists(&mut self, entries: Entries<'a>) {
        let (lists, whole): (Vec<_>, Vec<_>) =
            entries.0.into_iter().partition(|(name, _)| matches!(name.as_str(), "parts" | "runs"));
        self.put(Entries(whole), Of::Job, 0);
        for (name, raw) in lists {
            let of = if name == "parts" { Of::Part } else { Of::Run };
            let all: Vec<&'a RawValue> = match ron_options().from_str(raw.get_ron()) {
                Ok(all) => all,
                Err(error) => {
                    self.note(name, raw.get_ron(), error.span.start.line, &error.code);
                    continue;
                }
            };
            for (nth, raw) in all.into_iter().enumerate() {
                self.job.make(of, nth + 1);
                match ron_options().from_str(raw.get_ron()) {
                    Ok(entries) => self.put(entries, of, nth),
                    Err(error) => self.note(name.clone(), raw.get_ron(), error.span.start.line, &error.code),
                }
            }
        }
    }

    fn put(&mut self, entries: Entries<'a>, of: Of, nth: usize) {
        let known =
            |name: &str| Field::from_id(name).filter(|field| field.of() == of).map(|field| field.nth(nth));
        for (slot, text) in self.texts(entries, &known) {
            self.job.set(slot, Some(text));
        }
    }

    /// What can be read of these entries; the rest is noted.
    fn texts(&mut self, entries: Entries<'a>, known: &dyn Fn(&str) -> Option<Slot>) -> Vec<(Slot, String)> {
        let mut found: Vec<(Slot, String)> = Vec::new();
        for (name, raw) in entries.0.into_iter().filter(|(name, _)| name != "schema") {
            let raw = raw.get_ron();
            let Some(slot) = known(&name) else {
                let error = ron::Error::NoSuchStructField { expected: &[], found: name.clone(), outer: None };
                self.note(name, raw, 1, &error);
                continue;
            };
            if found.iter().any(|(earlier, _)| *earlier == slot) {
                let error =
                    ron::Error::DuplicateStructField { field: slot.field.name_in_file(), outer: None };
                self.note(slot.id().into_owned(), raw, 1, &error);
                continue;
            }
            match ron_options().from_str::<Typed>(raw) {
                Ok(typed) => found.push((slot, typed.0)),
                Err(error) => self.note(slot.id().into_owned(), raw, error.span.start.line, &error.code),
            }
        }
        found
    }

    /// Notes what is bad on this line, counted from 1, of a piece of the text.
    fn note(&mut self, id: String, piece: &str, line: usize, error: &ron::Error) {
        let line = self.line_of(piece) + line - 1;
        self.bad.push((id, JobFileError::of(line, error)));
    }

    /// The line on which a piece of the text begins.
    fn line_of(&self, piece: &str) -> usize {
        let offset = piece.trim_start().as_ptr().addr().saturating_sub(self.text.as_ptr().addr());
        1 + self.text.get(..offset).map_or(0, |before| before.matches('\n').count())
    }
}

/// Names with what stands beside them, unread.
struct Entries<'a>(Vec<(String, &'a RawValue)>);

impl<'de> Deserialize<'de> for Entries<'de> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct All;
        impl<'de> Visitor<'de> for All {
            type Value = Entries<'de>;
            fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
                formatter.write_str("fields in round brackets")
            }
            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Entries<'de>, A::Error> {
                let mut all = Vec::new();
                while let Some(Name(name)) = map.next_key()? {
                    all.push((name, map.next_value()?));
                }
                Ok(Entries(all))
            }
        }
        deserializer.deserialize_struct("Job", &[], All)
    }
}

/// The name of a field in a file.
struct Name(String);

impl<'de> Deserialize<'de> for Name {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Any;
        impl Visitor<'_> for Any {
            type Value = Name;
            fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
                formatter.write_str("a field")
            }
            fn visit_str<E: de::Error>(self, name: &str) -> Result<Name, E> {
                Ok(Name(name.to_owned()))
            }
        }
        deserializer.deserialize_identifier(Any)
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
