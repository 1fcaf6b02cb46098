//! What the person typed and chose, kept over a kill and a restart.

use std::collections::BTreeMap;
use std::path::PathBuf;

use ron::extensions::Extensions;
use ron::value::RawValue;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

use super::fields::Slot;
use super::job_file::ron_options;
use super::job_text::JobText;
use super::own_steel::OwnSteel;
use super::read_answers::choices_without_keys;
use super::store::{Store, StoreError};
use crate::units::Units;
use crate::words::{List, Words};

/// Dark, light, or as the system.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum Theme {
    /// As the system says.
    #[default]
    System,
    /// Dark.
    Dark,
    /// Light.
    Light,
}

/// How large text is, in percent: one of [`TextSize::ALL`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "u16", into = "u16")]
pub struct TextSize(u16);

impl TextSize {
    /// The sizes that are offered, smallest first.
    pub const ALL: [Self; 6] = [Self(100), Self(115), Self(130), Self(150), Self(175), Self(200)];

    /// Percent of the usual size.
    #[must_use]
    pub fn percent(self) -> u16 {
        self.0
    }
}

impl Default for TextSize {
    fn default() -> Self {
        Self::ALL[0]
    }
}

impl TryFrom<u16> for TextSize {
    type Error = String;

    fn try_from(percent: u16) -> Result<Self, String> {
        let known = Self::ALL.into_iter().find(|size| size.0 == percent);
        known.ok_or_else(|| format!("text is not drawn at {percent} %"))
    }
}

impl From<TextSize> for u16 {
    fn from(size: TextSize) -> Self {
        size.0
    }
}

/// How large what a finger hits is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum Controls {
    /// For a bare hand.
    #[default]
    Normal,
    /// For a hand in a thick glove.
    Gloves,
}

/// Everything that the person typed and chose.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub struct Session {
    /// Language tag; empty follows the system.
    pub language: String,
    /// Theme.
    pub theme: Theme,
    /// Size of text.
    pub text_size: TextSize,
    /// Size of controls.
    pub controls: Controls,
    /// Units.
    pub units: Units,
    /// The place that was open: its id.
    pub place: String,
    /// The job of the plan, field by field.
    pub job: JobText,
    /// What tells this job from the one before it: a mark that no other exchange has. Empty until
    /// there is one.
    pub job_mark: String,
    /// What is typed elsewhere: `QUESTION.FIELD` to text.
    pub typed: BTreeMap<String, String>,
    /// What is chosen elsewhere: the id of the choice to the id of what is chosen.
    pub choices: BTreeMap<String, String>,
    /// Steels of the reader's own.
    pub own_steels: Vec<OwnSteel>,
}

/// A session as it was found.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Found {
    /// What could be read; the rest is at its default.
    pub session: Session,
    /// The fields that could not be read; `session` stands for the whole file.
    pub lost: Vec<String>,
    /// Where the file with them is kept.
    pub kept_aside: Option<PathBuf>,
    /// There is no file: no window has saved here yet.
    pub first: bool,
}

impl Found {
    /// What could not be read and where it is kept, in one plain line; empty where all was read.
    #[must_use]
    pub fn say(&self, words: &Words) -> String {
        let Some(aside) = &self.kept_aside else { return String::new() };
        let name = |id: &String| {
            if let Some(slot) = Slot::from_id(id) {
                return slot.name(words);
            }
            let key = format!("field-{id}");
            if words.has(&key) { words.get(&key) } else { words.get("store-kept-whole") }
        };
        let mut names: Vec<String> = self.lost.iter().map(name).collect();
        names.dedup();
        words.with(
            "store-kept-aside",
            &[("fields", &words.list(List::Semicolon, &names)), ("path", &aside.display().to_string())],
        )
    }
}

/// Each field unread, so that one bad field can't take the others with it.
#[derive(Deserialize, Default)]
#[serde(default)]
struct Raw {
    language: Option<Box<RawValue>>,
    theme: Option<Box<RawValue>>,
    text_size: Option<Box<RawValue>>,
    controls: Option<Box<RawValue>>,
    units: Option<Box<RawValue>>,
    place: Option<Box<RawValue>>,
    job: Option<Box<RawValue>>,
    job_mark: Option<Box<RawValue>>,
    typed: Option<Box<RawValue>>,
    choices: Option<Box<RawValue>>,
    own_steels: Option<Box<RawValue>>,
}

impl Session {
    /// The tag of the language that is spoken: the one that was chosen, or else the system's.
    #[must_use]
    pub fn speaks<'a>(&'a self, system: &'a str) -> &'a str {
        if self.language.is_empty() { system } else { &self.language }
    }

    /// The file of the session.
    pub(super) const FILE: &str = "session.ron";

    /// The session of a text: what is missing or can't be read is at its default, what is
    /// not known is left out. With it the fields that could not be read.
    #[must_use]
    pub fn from_ron(text: &str) -> (Self, Vec<String>) {
        let Ok(raw) = ron_options().from_str::<Raw>(text) else {
            return (Self::default(), vec!["session".to_owned()]);
        };
        let mut lost = Vec::new();
        let mut session = Self {
            language: field("language", raw.language, &mut lost),
            theme: field("theme", raw.theme, &mut lost),
            text_size: field("text_size", raw.text_size, &mut lost),
            controls: field("controls", raw.controls, &mut lost),
            units: field("units", raw.units, &mut lost),
            place: field("place", raw.place, &mut lost),
            job: job(raw.job, &mut lost),
            job_mark: field("job_mark", raw.job_mark, &mut lost),
            typed: field("typed", raw.typed, &mut lost),
            choices: field("choices", raw.choices, &mut lost),
            own_steels: field("own_steels", raw.own_steels, &mut lost),
        };
        choices_without_keys(&mut session.choices);
        (session, lost)
    }

    /// The session as text.
    #[must_use]
    pub fn to_ron(&self) -> String {
        let config = ron::ser::PrettyConfig::new().extensions(Extensions::IMPLICIT_SOME);
        ron::ser::to_string_pretty(self, config).expect("texts and choices always write as RON")
    }

    /// The session of a store. A file with anything unreadable in it is kept aside first.
    ///
    /// # Errors
    /// [`StoreError`] if the file is there and can't be read or kept aside; a caller that
    /// goes on with a default session must not save over it.
    pub fn load(store: &Store) -> Result<Found, StoreError> {
        let Some(text) = store.read(Self::FILE)? else {
            return Ok(Found { first: true, ..Found::default() });
        };
        let (session, lost) = Self::from_ron(&text);
        let kept_aside = if lost.is_empty() { None } else { Some(store.keep_aside(Self::FILE)?) };
        Ok(Found { session, lost, kept_aside, first: false })
    }

    /// Saves the session, whole or not at all.
    ///
    /// # Errors
    /// [`StoreError`] if it can't be written; the last saved one is then still there.
    pub fn save(&self, store: &Store) -> Result<(), StoreError> {
        store.write(Self::FILE, &self.to_ron())
    }

    /// The session of a store as it is now; none where there is none, or where it can't be read
    /// whole: a window that finds it so at its start keeps it aside.
    pub(super) fn peek(store: &Store) -> Result<Option<Self>, StoreError> {
        let Some(text) = store.read(Self::FILE)? else { return Ok(None) };
        let (session, lost) = Self::from_ron(&text);
        Ok(lost.is_empty().then_some(session))
    }
}

/// The job with what can be read of it.
fn job(raw: Option<Box<RawValue>>, lost: &mut Vec<String>) -> JobText {
    let Some(raw) = raw else { return JobText::default() };
    let (job, bad) = JobText::lenient(raw.get_ron()).unwrap_or_else(|| {
        lost.push("job".to_owned());
        (JobText::default(), Vec::new())
    });
    lost.extend(bad);
    job
}

/// One field, or its default with its name noted.
fn field<T: DeserializeOwned + Default>(
    name: &'static str,
    raw: Option<Box<RawValue>>,
    lost: &mut Vec<String>,
) -> T {
    let Some(raw) = raw else { return T::default() };
    ron_options().from_str(raw.get_ron()).unwrap_or_else(|_| {
        lost.push(name.to_owned());
        T::default()
    })
}
