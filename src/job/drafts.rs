//! What is typed of steels of the reader's own and not saved yet: a draft for each steel, of each
//! window. It lives among what is typed, so that neither a kill nor a look elsewhere loses it.
//!
//! Two windows share one folder, and two certificates must not become one steel: each window keeps
//! its drafts under its own number. One that no running window has is taken over at a start.

use std::collections::BTreeMap;

use super::session::Session;

/// What every key of a draft begins with.
const DRAFT: &str = "certificate";
/// What stands for a steel that is made anew, and before the name of one that is changed.
const NEW: &str = "new";
const OWN: &str = "own.";

/// One draft: which window's, and of which steel.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Draft {
    /// The number of the window.
    pub window: u32,
    /// The name of the steel that is changed; none where one is made anew.
    pub steel: Option<String>,
}

impl Draft {
    /// What the session keeps a field under. No field has a slash in its name.
    #[must_use]
    pub fn key(&self, field: &str) -> String {
        // The first window keeps its drafts as they were kept when there was but one.
        let window = if self.window == 1 { String::new() } else { format!("-{}", self.window) };
        let steel = self.steel.as_ref().map_or_else(|| NEW.to_owned(), |name| format!("{OWN}{name}"));
        format!("{DRAFT}{window}.{steel}/{field}")
    }

    /// The draft of a key, and the field; none where it belongs to no draft.
    fn of(key: &str) -> Option<(Self, &str)> {
        let (draft, field) = key.rsplit_once('/')?;
        let (window, steel) = draft.strip_prefix(DRAFT)?.split_once('.')?;
        let window = match window.strip_prefix('-') {
            Some(number) => number.parse().ok()?,
            None if window.is_empty() => 1,
            None => return None,
        };
        let steel = match steel.strip_prefix(OWN) {
            Some(name) => Some(name.to_owned()),
            None if steel == NEW => None,
            None => return None,
        };
        Some((Self { window, steel }, field))
    }

    /// Does a key of what is typed belong to it?
    #[must_use]
    pub fn has(&self, key: &str) -> bool {
        Self::of(key).is_some_and(|(draft, _)| draft == *self)
    }
}

impl Session {
    /// The drafts that stand in the session.
    #[must_use]
    pub fn drafts(&self) -> Vec<Draft> {
        let mut drafts: Vec<_> = self.typed.keys().filter_map(|key| Some(Draft::of(key)?.0)).collect();
        drafts.dedup();
        drafts
    }

    /// Takes over the drafts of windows that run no more, where this one has none of that steel.
    pub fn take_over_drafts(&mut self, window: u32, runs: impl Fn(u32) -> bool) {
        for left in self.drafts().into_iter().filter(|draft| draft.window != window && !runs(draft.window)) {
            let ours = Draft { window, ..left.clone() };
            if !self.drafts().contains(&ours) {
                change_drafts(&mut self.typed, |draft| (*draft == left).then(|| ours.clone()));
            }
        }
    }

    /// The drafts of a steel go with it to its other name.
    pub fn rename_drafts(&mut self, is_it: impl Fn(&str) -> bool, to: &str) {
        change_drafts(&mut self.typed, |draft| {
            draft
                .steel
                .as_deref()
                .is_some_and(&is_it)
                .then(|| Draft { steel: Some(to.to_owned()), ..draft.clone() })
        });
    }

    /// Takes the drafts of a steel away, of every window.
    pub(super) fn remove_drafts(&mut self, is_it: impl Fn(&str) -> bool) {
        self.typed.retain(|key, _| {
            !Draft::of(key).is_some_and(|(draft, _)| draft.steel.as_deref().is_some_and(&is_it))
        });
    }
}

/// Moves what is typed of some drafts to others.
fn change_drafts(typed: &mut BTreeMap<String, String>, other: impl Fn(&Draft) -> Option<Draft>) {
    let moved: Vec<_> = typed
        .keys()
        .filter_map(|key| {
            let (draft, field) = Draft::of(key)?;
            Some((key.clone(), other(&draft)?.key(field)))
        })
        .collect();
    for (from, to) in moved {
        if let Some(text) = typed.remove(&from) {
            typed.insert(to, text);
        }
    }
}
