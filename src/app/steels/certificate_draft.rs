//! What is typed of an own steel. It lives in the session until it is saved, so that
//! neither a kill nor a look elsewhere loses it.

use crate::app::shell::{back, refresh_all};
use crate::app::{Page, State, ui};
use crate::engine::carbon_equivalent::{Equivalent, carbon_equivalent};
use crate::job::typed::{CertificateLine, Improbable, UnmarkedLine, composition, improbable};
use crate::job::{Draft, OwnSteel, Session, find_steel};
use crate::reference::{Composition, Element, Grade, Method, embedded};
use crate::units::{Accepts, Problem};

/// Elements that always have a field; the rest have one where they are stated.
const ALWAYS: usize = 15;

/// The draft of this window that is open.
fn draft(state: &State) -> Draft {
    Draft { window: state.window(), steel: state.open.borrow().certificate_of.clone() }
}

/// The own steel that is being changed.
fn edited(state: &State) -> Option<OwnSteel> {
    let name = state.open.borrow().certificate_of.clone()?;
    state.session(|session| session.own_steels.iter().find(|own| own.name == name).cloned())
}

/// What a field holds: what is typed, else what is saved.
pub(crate) fn get(state: &State, field: &str) -> String {
    let key = draft(state).key(field);
    state.session(|session| session.typed.get(&key).cloned()).unwrap_or_else(|| saved(state, field))
}

/// A share as it is typed, with all its digits.
pub(super) fn share(state: &State, percent: f64) -> String {
    percent.to_string().replace('.', state.show().mark.encode_utf8(&mut [0; 4]))
}

fn saved(state: &State, field: &str) -> String {
    let Some(own) = edited(state) else { return String::new() };
    match field {
        "name" => own.name,
        "grade" => own.grade,
        symbol => {
            let element = Element::from_symbol(symbol);
            let line = own.read().unwrap_or_default();
            element
                .filter(|element| line.stated.contains(element))
                .map(|element| share(state, line.composition.get(element)))
                .unwrap_or_default()
        }
    }
}

/// Keeps what is typed in a field.
pub(crate) fn set(state: &State, field: &str, text: &str) {
    set_all(state, &[(field.to_owned(), text.to_owned())]);
}

/// Keeps what is typed in several fields at once.
pub(super) fn set_all(state: &State, typed: &[(String, String)]) {
    let draft = draft(state);
    let typed: Vec<_> =
        typed.iter().map(|(field, text)| (draft.key(field), text, saved(state, field))).collect();
    state.change(|session| {
        for (key, text, saved) in typed {
            // What is as it was is no change to keep.
            if *text == saved {
                session.typed.remove(&key);
            } else {
                session.typed.insert(key, text.clone());
            }
        }
    });
}

/// Is anything typed that isn't saved?
pub(super) fn is_unsaved(state: &State) -> bool {
    let draft = draft(state);
    state.session(|session| session.typed.keys().any(|key| draft.has(key)))
}

/// Throws away what is typed and not saved.
pub(super) fn discard(state: &State) {
    let draft = draft(state);
    state.change(|session| session.typed.retain(|key, _| !draft.has(key)));
}

/// An element, what is typed for it, and what is read of that: nothing where nothing is typed.
pub(crate) struct Typed {
    pub(super) element: Element,
    pub(crate) text: String,
    pub(crate) read: Result<Option<f64>, Problem>,
}

/// A draft, read.
pub(super) struct ReadDraft<'a> {
    pub(crate) name: String,
    pub(crate) grade: Option<&'a Grade>,
    pub(super) elements: Vec<Typed>,
    pub(super) editing: bool,
    /// It is what a test of a steel without a mark ended in.
    pub(super) unmarked: Option<UnmarkedLine>,
}

/// The draft as it stands.
pub(crate) fn read(state: &State) -> ReadDraft<'_> {
    let elements = Element::ALL
        .iter()
        .copied()
        .enumerate()
        .map(|(place, element)| (place, element, get(state, element.symbol())))
        .filter(|(place, _, text)| *place < ALWAYS || !text.is_empty())
        .map(|(_, element, text)| Typed { element, read: read_element(element, &text), text })
        .collect();
    ReadDraft {
        name: get(state, "name").trim().to_owned(),
        grade: find_steel(&get(state, "grade"), state.reference).ok(),
        elements,
        editing: edited(state).is_some(),
        unmarked: edited(state).and_then(|own| own.read().ok()?.unmarked),
    }
}

/// The share of one element as it is typed beside its symbol.
fn read_element(element: Element, text: &str) -> Result<Option<f64>, Problem> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    let lost = || Problem::NotUnderstood { typed: text.to_owned(), accepts: Accepts::Percent };
    match composition(&format!("{} {text}", element.symbol())) {
        Ok(line) if line.stated == [element] && line.unused.is_empty() => {
            Ok(Some(line.composition.get(element)))
        }
        // The symbol stands over the field, and is not what was typed in it.
        Err(Problem::OutOfRange { low, high, unit, accepts, .. }) => {
            Err(Problem::OutOfRange { typed: text.to_owned(), low, high, unit, accepts })
        }
        Ok(_) | Err(_) => Err(lost()),
    }
}

impl ReadDraft<'_> {
    /// What is typed and can be read.
    pub(crate) fn line(&self) -> CertificateLine {
        let mut line = CertificateLine::default();
        for typed in &self.elements {
            if let Ok(Some(percent)) = typed.read {
                line.composition.set(typed.element, percent);
                line.stated.push(typed.element);
            }
        }
        line
    }

    /// Elements whose text can't be read.
    pub(super) fn unread(&self) -> Vec<Element> {
        self.elements.iter().filter(|typed| typed.read.is_err()).map(|typed| typed.element).collect()
    }

    /// What the equivalents are worked out from, and what the grade filled; none where a
    /// figure is missing that nothing stands in for.
    pub(crate) fn composition(&self) -> Option<(Composition, Vec<Element>)> {
        let line = self.line();
        let (steel, filled) =
            self.grade.map_or_else(|| (line.composition, Vec::new()), |grade| line.with_grade(grade));
        let known = |element: &Element| line.stated.contains(element) || filled.contains(element);
        let enough = self.unread().iter().chain(&[Element::C, Element::Mn]).all(known);
        // A share of the whole above 100 % is no steel.
        (enough
            && carbon_equivalent(Equivalent::CeIiw, embedded().methods.row(Method::CeIiw), &steel).is_ok())
        .then_some((steel, filled))
    }

    /// Figures that no steel has beside the others: most likely slips of the decimal mark.
    pub(super) fn improbable(&self) -> Vec<Improbable> {
        let line = self.line();
        improbable(&line.stated, &line.composition, self.grade)
    }

    /// Why it can't be saved: a message; none where it can.
    pub(super) fn refusal(&self, state: &State) -> Option<&'static str> {
        let taken = |own: &OwnSteel| own.is_called(&self.name);
        let edited = state.open.borrow().certificate_of.clone();
        let others = state.session(|session| {
            session.own_steels.iter().any(|own| taken(own) && Some(&own.name) != edited.as_ref())
        });
        let line = self.line();
        if self.name.is_empty() {
            Some("certificate-needs-name")
        } else if others {
            Some("certificate-name-taken")
        } else if find_steel(&self.name, state.reference).is_ok() {
            Some("certificate-name-is-grade")
        } else if !self.unread().is_empty() {
            Some("certificate-has-unread")
        } else if line.stated.is_empty()
            || self.grade.is_none() && ![Element::C, Element::Mn].iter().all(|one| line.stated.contains(one))
        {
            Some("certificate-needs-figures")
        } else if self.composition().is_none() {
            Some("certificate-over-whole")
        } else if !self.improbable().is_empty() {
            Some("certificate-has-improbable")
        } else {
            None
        }
    }

    fn own(&self) -> OwnSteel {
        let line = self.line();
        let stated = line.stated.iter().map(|&one| format!("{} {}", one.symbol(), line.composition.get(one)));
        // Other figures make no certificate of it.
        let words = self.unmarked.map(UnmarkedLine::words).into_iter().chain(stated);
        OwnSteel {
            name: self.name.clone(),
            composition: words.collect::<Vec<_>>().join(" "),
            grade: self.grade.map(|grade| grade.id.clone()).unwrap_or_default(),
        }
    }
}

/// Saves the draft. A new steel goes into the job that it was typed for; a changed one stays
/// where it is used, under its new name.
pub(crate) fn save(window: &ui::AppWindow, state: &State) {
    let read = read(state);
    if read.refusal(state).is_some() {
        return;
    }
    let own = read.own();
    let (draft, before) = (draft(state), state.open.borrow().certificate_of.clone());
    state.change(|session| {
        session.typed.retain(|key, _| !draft.has(key));
        let known = |session: &Session, name: &String| session.own_steels.iter().any(|own| own.name == *name);
        let Some(before) = before.filter(|name| known(session, name)) else {
            session.own_steels.push(own.clone());
            return;
        };
        session.rename_steel(&before, &own.name);
        for known in session.own_steels.iter_mut().filter(|known| known.name == own.name) {
            known.clone_from(&own);
        }
    });
    if read.editing {
        back(window, state);
        return;
    }
    state.take_steel(&own.name);
    state.open.borrow_mut().pages.retain(|page| !matches!(page, Page::Certificate | Page::Steels));
    refresh_all(window, state);
}

/// Deletes an own steel, with what this window has typed of it.
pub(super) fn delete(state: &State, name: &str) {
    let draft = Draft { window: state.window(), steel: Some(name.to_owned()) };
    state.change(|session| {
        session.remove_steel(name);
        session.typed.retain(|key, _| !draft.has(key));
    });
}
