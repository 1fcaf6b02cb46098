//! A job as one flat list of keys: as the command line writes it, and as files of the first
//! schema did. The second part has keys of its own (`steel-b`), and what each of several
//! processes has is joined by `+`.

use std::collections::BTreeMap;

use super::fields::{Field, Of, Slot};
use super::job_text::{JobText, Texts};

impl JobText {
    /// Puts texts in. For the first run a text is a list: one for all processes, or one for each.
    /// A list of another length stays whole in the first run, where its reading says so.
    pub fn put_keys(&mut self, pairs: impl IntoIterator<Item = (Slot, String)>) {
        let mut lists: BTreeMap<Field, String> = BTreeMap::new();
        let mut later = Vec::new();
        for (slot, text) in pairs {
            match (slot.field.of(), slot.nth) {
                (Of::Run, 0) => drop(lists.insert(slot.field, text)),
                (Of::Run, _) => later.push((slot, text)),
                _ => self.set(slot, Some(text)),
            }
        }
        if lists.is_empty() && later.is_empty() {
            return;
        }
        for field in Field::ALL.iter().filter(|field| field.of() == Of::Run) {
            if let (false, Some(joined)) = (lists.contains_key(field), self.joined(*field)) {
                lists.insert(*field, joined);
            }
        }
        lists.retain(|_, text| !text.trim().is_empty());
        let length = |text: &String| text.split('+').count();
        let count = match lists.get(&Field::Process) {
            Some(processes) => length(processes),
            None => lists.values().map(length).max().unwrap_or(1),
        };
        let count = later.iter().map(|(slot, _)| slot.nth + 1).fold(count, usize::max);
        self.runs = vec![Texts::new(); count];
        for (field, text) in lists {
            let each: Vec<&str> = text.split('+').map(str::trim).collect();
            match each.as_slice() {
                [one] if field != Field::Process => {
                    self.runs.iter_mut().for_each(|run| drop(run.insert(field, (*one).to_owned())));
                }
                each if field == Field::Process || each.len() == count => {
                    for (run, text) in self.runs.iter_mut().zip(each).filter(|(_, text)| !text.is_empty()) {
                        run.insert(field, (*text).to_owned());
                    }
                }
                _ => self.set(field, Some(text)),
            }
        }
        for (slot, text) in later {
            self.set(slot, Some(text));
        }
    }

    /// What the runs say in a field, as one list: one for all where all say the same.
    fn joined(&self, field: Field) -> Option<String> {
        let each: Vec<&str> =
            (0..self.runs.len()).map(|nth| self.get(field.nth(nth)).unwrap_or_default()).collect();
        let first = *each.iter().find(|text| !text.is_empty())?;
        let alike = field != Field::Process && each.iter().all(|text| *text == first);
        Some(if alike { first.to_owned() } else { each.join(" + ") })
    }
}
