//! Keys and values of a log command, each taken once; what is left over is a slip.

use crate::log::Id;
use crate::units::{self, Problem, Units, Within, limits};
use crate::words::{List, Words};

/// Keys and values, and what was wrong with them.
pub(super) struct Keys<'a> {
    pairs: Vec<(String, String)>,
    known: Vec<&'static str>,
    problems: Vec<(String, String)>,
    units: Units,
    words: &'a Words,
}

impl<'a> Keys<'a> {
    /// The pairs of a command line; a key that is given twice is a problem.
    pub(super) fn of(pairs: &[(String, String)], units: Units, words: &'a Words) -> Self {
        let mut keys = Self { pairs: Vec::new(), known: Vec::new(), problems: Vec::new(), units, words };
        for (key, value) in pairs {
            if keys.pairs.iter().any(|(there, _)| there == key) {
                keys.problem(key, words.get("asked-twice"));
            } else {
                keys.pairs.push((key.clone(), value.clone()));
            }
        }
        keys
    }

    pub(super) fn problem(&mut self, key: &str, says: String) {
        self.problems.push((key.to_owned(), says));
    }

    /// The text of a key; `None` where it is not given or empty.
    pub(super) fn text(&mut self, key: &'static str) -> Option<String> {
        self.known.push(key);
        let at = self.pairs.iter().position(|(there, _)| there == key)?;
        Some(self.pairs.remove(at).1.trim().to_owned()).filter(|text| !text.is_empty())
    }

    /// Is a key given?
    pub(super) fn has(&self, key: &str) -> bool {
        self.pairs.iter().any(|(there, _)| there == key)
    }

    /// The temperatures that are typed for some keys, as they were typed, each with the unit that it is read
    /// in: whoever reads it later may read in another.
    pub(super) fn typed(&self, keys: &[&str]) -> String {
        let unit = self.units.temperature.symbol();
        let with_unit = |text: &str| {
            // A degree sign alone is no unit.
            let bare = !text.chars().any(|sign| sign.is_alphabetic() || matches!(sign, '℃' | '℉'));
            let figure = text.trim_end_matches(['°', 'º', ' ']);
            if bare && !figure.is_empty() { format!("{figure}\u{a0}{unit}") } else { text.to_owned() }
        };
        let typed = self.pairs.iter().filter(|(key, _)| keys.contains(&key.as_str()));
        let all: Vec<String> = typed.map(|(_, text)| with_unit(text.trim())).collect();
        self.words.list(List::Semicolon, &all)
    }

    /// The id that is given for a key; nothing is taken where it is none.
    pub(super) fn id(&mut self, key: &'static str) -> Option<Id> {
        let at = self.pairs.iter().position(|(there, _)| there == key)?;
        let id = Id::read(self.pairs[at].1.trim())?;
        self.text(key);
        Some(id)
    }

    /// The file of a picture.
    pub(super) fn photo(&mut self) -> Option<String> {
        if self.has("photo") { self.text("photo") } else { None }
    }

    /// The text of a key, or nothing.
    pub(super) fn any(&mut self, key: &'static str) -> String {
        self.text(key).unwrap_or_default()
    }

    fn read<T>(
        &mut self,
        key: &'static str,
        read: impl FnOnce(&str, Units) -> Result<T, Problem>,
    ) -> Option<T> {
        let text = self.text(key)?;
        match read(&text, self.units) {
            Ok(value) => Some(value),
            Err(problem) => {
                let says = problem.say(self.words);
                self.problem(key, says);
                None
            }
        }
    }

    /// A temperature, °C.
    pub(super) fn temperature(&mut self, key: &'static str) -> Option<f64> {
        self.read(key, |text, units| units::temperature(text, units.temperature, limits::READING_C))
    }

    /// A length, mm.
    pub(super) fn length(&mut self, key: &'static str) -> Option<f64> {
        let read = |text: &str, units: Units| units::length(text, units.length, limits::ANY_LENGTH_MM);
        self.read(key, read).map(|length| length.mm)
    }

    /// A number.
    pub(super) fn number(&mut self, key: &'static str, within: Within) -> Option<f64> {
        self.read(key, |text, _| units::number(text, within))
    }

    /// A whole number.
    pub(super) fn count(&mut self, key: &'static str, within: Within) -> Option<u32> {
        self.read(key, |text, _| units::count(text, within))
    }

    /// Yes or no.
    pub(super) fn yes_no(&mut self, key: &'static str) -> Option<bool> {
        self.read(key, |text, _| crate::job::typed::yes_no(text))
    }

    /// One of several ids.
    pub(super) fn choice<T: Copy>(
        &mut self,
        key: &'static str,
        all: &[T],
        id: fn(T) -> &'static str,
    ) -> Option<T> {
        let text = self.text(key)?.to_ascii_lowercase().replace([' ', '_'], "-");
        let found = all.iter().copied().find(|one| id(*one) == text);
        if found.is_none() {
            let ids: Vec<&str> = all.iter().map(|one| id(*one)).collect();
            let says = self.words.with("cli-log-choice", &[("ids", &self.words.list(List::Comma, &ids))]);
            self.problem(key, says);
        }
        found
    }

    /// A key that must be given.
    pub(super) fn missing(&mut self, key: &str) {
        if !self.problems.iter().any(|(there, _)| there == key) {
            let says = self.words.get("cli-log-missing");
            self.problem(key, says);
        }
    }

    /// What is left is taken, with the keys as they were written.
    pub(super) fn rest(&mut self) -> Vec<(String, String)> {
        std::mem::take(&mut self.pairs)
    }

    /// All problems, what nobody took among them; empty where all is sound.
    pub(super) fn end(mut self) -> Vec<(String, String)> {
        let known = self.words.list(List::Comma, &self.known);
        for (key, _) in std::mem::take(&mut self.pairs) {
            let says = self.words.with("cli-log-unknown-key", &[("known", &known)]);
            self.problem(&key, says);
        }
        self.problems
    }
}
