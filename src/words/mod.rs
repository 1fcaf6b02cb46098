//! Every word that a person reads, from Fluent: one `data/LANGUAGE.ftl` per language.
//!
//! Every language is packed, and unpacked when it is spoken. Only the language that is spoken, and English
//! behind it, are in memory, and of their messages only those that were asked for are read.

mod figures;
mod language;
mod messages;
mod search;
mod terms;

use std::cell::RefCell;
use std::sync::Arc;

use fluent::{FluentArgs, FluentValue};

pub use figures::Scales;
use figures::SharedScales;
pub(crate) use figures::whole_fahrenheit;
use language::ENGLISH;
pub(crate) use messages::DECIMAL_MARK;
use messages::Messages;
pub use search::{Missing, Wanted};
pub use terms::{Term, TermSource, terms, terms_with};

/// How several texts stand in one line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum List {
    /// Words or figures: “bar, forging”.
    Comma,
    /// Words or figures that all hold: “250 °C, 300 °C and 316 °C”.
    And,
    /// Words of which one is enough: “Surface or Emissivity”.
    Or,
    /// Texts that may hold a comma: “EN 1011-2, 2001; AWS D1.1”.
    Semicolon,
    /// Names of one thing: “42CrMo4 · 1.7225”.
    Names,
    /// What is joined to one whole: “3 ml/100 g + 5 ml/100 g”.
    Plus,
    /// Whole sentences of one paragraph.
    Sentences,
}

impl List {
    /// The message that puts the next one, or the last one, behind what stands before it.
    const fn message(self, last: bool) -> &'static str {
        match self {
            Self::And if last => "list-and",
            Self::Or if last => "list-or",
            Self::Comma | Self::And | Self::Or => "list-comma",
            Self::Semicolon => "list-semicolon",
            Self::Names => "list-names",
            Self::Plus => "list-plus",
            Self::Sentences => "list-sentences",
        }
    }
}

/// What is spoken now.
struct Spoken {
    tag: String,
    /// The messages of the language, and behind them English for what it lacks. Each language stands by
    /// itself, so that a message of the one is never counted by the rules of the other.
    languages: Vec<Messages>,
}

/// The messages of one language, with English behind them.
pub struct Words {
    spoken: RefCell<Spoken>,
    scales: Arc<SharedScales>,
}

impl Words {
    /// The tag of the language that stands behind all others.
    pub const ENGLISH: &'static str = ENGLISH;

    /// The English messages.
    #[must_use]
    pub fn english() -> Self {
        Self::of(ENGLISH)
    }

    /// The messages of the language of a tag (`de`, `pt-BR`). A tag that there are no messages for
    /// gives its language of another region, and else English.
    #[must_use]
    pub fn of(tag: &str) -> Self {
        let scales = Arc::default();
        Self { spoken: RefCell::new(known(tag, &scales)), scales }
    }

    /// The messages of a language file at hand, with English behind them.
    #[must_use]
    pub fn of_file(tag: &str, text: &str) -> Self {
        let scales = Arc::default();
        Self { spoken: RefCell::new(spoken(tag, text.to_owned(), &scales)), scales }
    }

    /// The tags of the languages that there are messages of, English first.
    pub fn languages() -> impl Iterator<Item = &'static str> {
        language::tags()
    }

    /// The tag of the language that there are messages of for a tag, as [`Words::of`] takes it.
    #[must_use]
    pub fn known(tag: &str) -> Option<&'static str> {
        language::known(tag)
    }

    /// The tag of the language that the person's system speaks, as far as there are messages of it.
    #[must_use]
    pub fn of_system() -> &'static str {
        language::first_known(sys_locale::get_locales())
    }

    /// From now on messages are of this language; see [`Words::of`].
    pub fn speak(&self, tag: &str) {
        let tag = language::known(tag).unwrap_or(ENGLISH);
        if self.spoken.borrow().tag != tag {
            *self.spoken.borrow_mut() = known(tag, &self.scales);
        }
    }

    /// The tag of the language that messages are of.
    #[must_use]
    pub fn language(&self) -> String {
        self.spoken.borrow().tag.clone()
    }

    /// From now on sentences write their figures so. At first in °C and mm.
    pub fn write_in(&self, scales: Scales) {
        self.scales.set(scales);
    }

    /// The message of a key, or of `key.attribute`. An unknown key comes back as it
    /// is, so that it is seen on the screen and in a test.
    #[must_use]
    pub fn get(&self, key: &str) -> String {
        self.with(key, &[])
    }

    /// The message of a key with values put in: texts, or figures with their units.
    #[must_use]
    pub fn with(&self, key: &str, values: &[(&str, &str)]) -> String {
        self.say(key, values.iter().map(|(name, value)| (*name, FluentValue::from(*value))))
    }

    /// The message of a key with values put in, and with a whole number as its `$count`: a language
    /// chooses its words by it.
    #[must_use]
    pub fn count(&self, key: &str, count: usize, values: &[(&str, &str)]) -> String {
        self.numbers(key, &[("count", count)], values)
    }

    /// The message of a key with values put in, and with whole numbers under names of their own.
    #[must_use]
    pub fn numbers(&self, key: &str, numbers: &[(&str, usize)], values: &[(&str, &str)]) -> String {
        let texts = values.iter().map(|(name, value)| (*name, FluentValue::from(*value)));
        let numbers = numbers.iter().map(|(name, number)| (*name, FluentValue::from(*number)));
        self.say(key, texts.chain(numbers))
    }

    fn say<'a>(&self, key: &str, values: impl Iterator<Item = (&'a str, FluentValue<'a>)>) -> String {
        let values: FluentArgs = values.collect();
        let spoken = self.spoken.borrow();
        let said = spoken.languages.iter().find_map(|messages| messages.say(key, Some(&values)));
        said.unwrap_or_else(|| key.to_owned())
    }

    /// The decimal mark of the language.
    #[must_use]
    pub fn decimal_mark(&self) -> char {
        self.get(DECIMAL_MARK).chars().next().unwrap_or('.')
    }

    /// A value that a problem names, as the language writes it: a number with its decimal mark, words as
    /// they are.
    #[must_use]
    pub fn value(&self, plain: &str) -> String {
        if plain.parse::<f64>().is_err() {
            return plain.to_owned();
        }
        plain.replace('-', "\u{2212}").replace('.', self.decimal_mark().encode_utf8(&mut [0; 4]))
    }

    /// Several texts as one, in the way of the language.
    #[must_use]
    pub fn list(&self, list: List, items: &[impl AsRef<str>]) -> String {
        let last = items.len().saturating_sub(1);
        let texts = items.iter().map(AsRef::as_ref).enumerate();
        texts.fold(String::new(), |before, (at, next)| match at {
            0 => next.to_owned(),
            _ => self.with(list.message(at == last), &[("before", &before), ("next", next)]),
        })
    }

    /// What a message can be found by: as the language says it, and as English does, whose words many know.
    #[must_use]
    pub fn searched(&self, key: &str) -> Vec<String> {
        self.spoken.borrow().languages.iter().filter_map(|messages| messages.say(key, None)).collect()
    }

    /// Is there such a message, or such an attribute?
    #[must_use]
    pub fn has(&self, key: &str) -> bool {
        self.spoken.borrow().languages.iter().any(|messages| messages.has(key))
    }
}

fn known(tag: &str, scales: &Arc<SharedScales>) -> Spoken {
    let tag = language::known(tag).unwrap_or(ENGLISH);
    spoken(tag, language::messages(tag), scales)
}

fn spoken(tag: &str, text: String, scales: &Arc<SharedScales>) -> Spoken {
    let mut languages = vec![Messages::of(tag, text, scales)];
    if tag != ENGLISH {
        languages.push(Messages::of(ENGLISH, language::messages(ENGLISH), scales));
    }
    Spoken { tag: tag.to_owned(), languages }
}
