//! Steels of the reader's own, and everything in a session that names one.

use serde::{Deserialize, Serialize};

use super::fields::Field;
use super::job_text::{JobText, Texts};
use super::read_answers::STEEL;
use super::session::Session;
use super::typed::{CertificateLine, UnmarkedLine, composition};
use crate::questions::COMPOSITION;
use crate::reference::{Composition, Element};
use crate::units::Problem;

/// A steel of the reader's own: a name and what its certificate says.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct OwnSteel {
    /// The name that it is called by.
    pub name: String,
    /// The composition as typed.
    pub composition: String,
    /// The grade that the certificate names: it fills what isn't stated. Empty for none.
    pub grade: String,
}

impl OwnSteel {
    /// The composition, read.
    ///
    /// # Errors
    /// The [`Problem`] of what is typed.
    pub fn read(&self) -> Result<CertificateLine, Problem> {
        composition(&self.composition)
    }

    /// What a test of a steel without a mark ended in, under a name.
    #[must_use]
    pub fn of_test(name: String, said: UnmarkedLine, counted: &Composition) -> Self {
        let shares = Element::ALL.iter().filter(|element| counted.get(**element) > 0.0);
        let shares = shares.map(|&element| format!("{} {}", element.symbol(), counted.get(element)));
        let words = std::iter::once(said.words()).chain(shares).collect::<Vec<_>>();
        Self { name, composition: words.join(" "), grade: String::new() }
    }

    /// Is it called so? Case and space around it don't count.
    #[must_use]
    pub fn is_called(&self, name: &str) -> bool {
        called(&self.name, name)
    }
}

fn called(one: &str, other: &str) -> bool {
    one.trim().to_lowercase() == other.trim().to_lowercase()
}

impl Session {
    /// Keeps a steel that a test ended in, and says under which name: another steel may bear that already.
    pub fn keep_tested(&mut self, steel: OwnSteel) -> String {
        let names =
            std::iter::once(steel.name.clone()).chain((2_u32..).map(|nth| format!("{} ({nth})", steel.name)));
        for name in names {
            match self.own_steels.iter().find(|own| own.is_called(&name)) {
                None => {
                    self.own_steels.push(OwnSteel { name: name.clone(), ..steel });
                    return name;
                }
                Some(own) if own.composition == steel.composition && own.grade == steel.grade => {
                    return own.name.clone();
                }
                Some(_) => {}
            }
        }
        steel.name
    }

    /// A steel of the reader's own gets another name, in the list and wherever it is used: in the
    /// job, in the one that was put away, for a question, in the drafts.
    pub fn rename_steel(&mut self, name: &str, to: &str) {
        for own in self.own_steels.iter_mut().filter(|own| own.is_called(name)) {
            to.clone_into(&mut own.name);
        }
        self.change_parts(name, |part| {
            part.insert(Field::Steel, to.to_owned());
        });
        for key in self.asked_for(name) {
            self.typed.insert(key, to.to_owned());
        }
        self.rename_drafts(|steel| called(steel, name), to);
    }

    /// A steel of the reader's own goes. What it was used for keeps its figures as a certificate; what
    /// another window has typed of it and not saved stays.
    pub fn remove_steel(&mut self, name: &str) {
        let Some(place) = self.own_steels.iter().position(|own| own.name == name) else { return };
        let OwnSteel { grade, composition, .. } = self.own_steels.remove(place);
        self.change_parts(name, |part| {
            part.insert(Field::Steel, grade.clone());
            part.insert(Field::Certificate, composition.clone());
        });
        for key in self.asked_for(name) {
            let question = key.strip_suffix(STEEL).unwrap_or_default().to_owned();
            self.typed.insert(key, grade.clone());
            self.typed.insert(format!("{question}{COMPOSITION}"), composition.clone());
        }
    }

    /// What a steel is called now that was called `name` in an older session; none where it is called
    /// so still, or is gone.
    #[must_use]
    pub fn renamed_since(&self, before: &Self, name: &str) -> Option<String> {
        let find = |steels: &[OwnSteel]| steels.iter().find(|own| own.name == name).cloned();
        let (old, now) = (find(&before.own_steels)?, find(&self.own_steels));
        let added: Vec<_> = self
            .own_steels
            .iter()
            .filter(|own| before.own_steels.iter().all(|one| one.name != own.name))
            .collect();
        let same = added.iter().find(|own| own.composition == old.composition && own.grade == old.grade);
        match (now, same, added.as_slice()) {
            (Some(now), _, _) if now == old => None,
            // It gave its name to another one.
            (_, Some(same), _) => Some(same.name.clone()),
            (None, None, [only]) => Some(only.name.clone()),
            _ => None,
        }
    }

    /// Changes the parts that are of this steel, in the job and in those that were put away.
    fn change_parts(&mut self, name: &str, change: impl Fn(&mut Texts)) {
        let change_in = |job: &mut JobText| {
            let parts = job.parts.iter_mut();
            let of_it: Vec<_> = parts
                .filter(|part| part.get(&Field::Steel).is_some_and(|steel| called(steel, name)))
                .collect();
            let any = !of_it.is_empty();
            of_it.into_iter().for_each(&change);
            any
        };
        change_in(&mut self.job);
        for mut away in self.put_away() {
            if change_in(&mut away.job) {
                self.change_put_away(&away);
            }
        }
    }

    /// Under which keys it is chosen for a question.
    fn asked_for(&self, name: &str) -> Vec<String> {
        let asked = self.typed.iter().filter(|(key, steel)| {
            key.rsplit_once('.').is_some_and(|(_, key)| key == STEEL) && called(steel, name)
        });
        asked.map(|(key, _)| key.clone()).collect()
    }
}
