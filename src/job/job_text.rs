//! A job as it is typed, as text: of the whole job, of each part, of each run. The window, a
//! file and the command line fill the same one.

use std::collections::BTreeMap;

use serde::ser::SerializeStruct;
use serde::{Serialize, Serializer};

use super::fields::{Field, Of, Slot};

/// What is typed for the whole job, for one part or for one run, by field.
pub type Texts = BTreeMap<Field, String>;

/// A job as it is typed. A field that is absent and an empty text are both "not stated".
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct JobText {
    /// Of the whole job: joint, restraint, weld metal, shop, demands.
    pub whole: Texts,
    /// Of each part.
    pub parts: Vec<Texts>,
    /// Of the runs of each process.
    pub runs: Vec<Texts>,
}

impl JobText {
    /// What is typed in a field, that of the first part or run unless another one is named;
    /// `None` where it is nothing but space.
    #[must_use]
    pub fn get(&self, slot: impl Into<Slot>) -> Option<&str> {
        let Slot { field, nth } = slot.into();
        let texts = match field.of() {
            Of::Job => Some(&self.whole),
            Of::Part => self.parts.get(nth),
            Of::Run => self.runs.get(nth),
        };
        texts?.get(&field).map(String::as_str).filter(|text| !text.trim().is_empty())
    }

    /// Sets or clears a field. A part or run that is not yet there is made for a text.
    pub fn set(&mut self, slot: impl Into<Slot>, text: Option<String>) {
        let Slot { field, nth } = slot.into();
        let texts = match field.of() {
            Of::Job => &mut self.whole,
            // Only a text makes a part, were it an empty one.
            _ if text.is_none() && nth >= self.count(field.of()) => return,
            of => {
                self.make(of, nth + 1);
                let all = if of == Of::Part { &mut self.parts } else { &mut self.runs };
                &mut all[nth]
            }
        };
        match text.filter(|text| !text.is_empty()) {
            Some(text) => texts.insert(field, text),
            None => texts.remove(&field),
        };
    }

    /// How many parts or runs there are; 1 for the whole job.
    #[must_use]
    pub fn count(&self, of: Of) -> usize {
        match of {
            Of::Job => 1,
            Of::Part => self.parts.len(),
            Of::Run => self.runs.len(),
        }
    }

    /// Makes empty parts or runs until there are so many.
    pub fn make(&mut self, of: Of, count: usize) {
        let all = match of {
            Of::Job => return,
            Of::Part => &mut self.parts,
            Of::Run => &mut self.runs,
        };
        all.resize(all.len().max(count), Texts::new());
    }

    /// Another steel stands in a part. What was said of the one before, its certificate, its
    /// condition with the tempering temperature, its strength and its buttering, goes with it.
    pub fn take_steel(&mut self, nth: usize, steel: &str) {
        let same = self.get(Field::Steel.nth(nth)) == Some(steel);
        self.set(Field::Steel.nth(nth), Some(steel.to_owned()));
        self.set(Field::Certificate.nth(nth), None);
        if !same {
            for field in OF_STEEL {
                self.set(field.nth(nth), None);
            }
        }
    }

    /// What is typed, in the order in which the fields are asked.
    #[must_use]
    pub fn typed(&self) -> BTreeMap<Slot, &str> {
        let slots = Field::ALL.iter().flat_map(|field| (0..self.count(field.of())).map(|nth| field.nth(nth)));
        slots.filter_map(|slot| self.get(slot).map(|text| (slot, text))).collect()
    }
}

/// What is said of a part's steel, and of no other: it goes with the steel.
pub(super) const OF_STEEL: [Field; 4] = [Field::Condition, Field::Hardness, Field::Yield, Field::Buttered];

/// The version of what is written: a file that states none is of the first, whose fields
/// stand in one flat list (`flat.rs`).
pub(super) const SCHEMA: u32 = 2;

impl Serialize for JobText {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut made = serializer.serialize_struct("Job", self.whole.len() + 3)?;
        made.serialize_field("schema", &SCHEMA)?;
        for (field, text) in &self.whole {
            made.serialize_field(field.name_in_file(), text)?;
        }
        for (name, all) in [("parts", &self.parts), ("runs", &self.runs)] {
            if !all.is_empty() {
                made.serialize_field(name, &all.iter().map(Written).collect::<Vec<_>>())?;
            }
        }
        made.end()
    }
}

/// The texts of one part or run as a file has them.
struct Written<'a>(&'a Texts);

impl Serialize for Written<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut made = serializer.serialize_struct("Of", self.0.len())?;
        for (field, text) in self.0 {
            made.serialize_field(field.name_in_file(), text)?;
        }
        made.end()
    }
}
