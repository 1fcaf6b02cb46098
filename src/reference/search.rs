//! Finding a steel or a filler by what people type. Search lists and never selects:
//! each hit says how it was found.

use std::collections::{HashMap, HashSet};

use super::spelling::{normal, one_slip};
use super::{EverydayWord, Filler, Grade, Reference, Row, Table};

/// At most this many hits are listed.
const LISTED: usize = 60;

/// What a hit points to: the place of a row in its table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Item {
    /// A row of `data/grades.ron`.
    Grade(usize),
    /// A row of `data/fillers.ron`.
    Filler(usize),
}

/// How a hit was found, the closest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Match {
    /// Its own designation, whole.
    Designation,
    /// Another designation or number of it, whole. Several rows may share it.
    CrossReference,
    /// A part of its designation, whole: `F22`, `WCB`, `7018`.
    Part,
    /// A word of the shop.
    Word,
    /// The designation of a similar grade, whole.
    Similar,
    /// One of its designations begins so.
    Prefix,
    /// The product standard that it is bought to.
    Standard,
    /// A slip away from what was typed: a suggestion to read, not an answer.
    Neighbour,
}

/// One hit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hit {
    /// What was found.
    pub item: Item,
    /// How it was found.
    pub how: Match,
    /// The designation or word by which it was found, as written.
    pub written: String,
}

/// What a query found.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Answer {
    /// Hits, the closest first; each row once.
    pub hits: Vec<Hit>,
    /// Groups of grades that an everyday word means.
    pub groups: Vec<String>,
    /// Fluent messages with warnings that go with an everyday word.
    pub notes: Vec<String>,
    /// Were there more hits than are listed?
    pub more: bool,
}

impl Answer {
    /// The rows that bear just this designation or number. With more than one, the
    /// person has to choose: their figures differ.
    #[must_use]
    pub fn exact(&self) -> Vec<&Hit> {
        self.hits.iter().filter(|hit| hit.how <= Match::CrossReference).collect()
    }
}

/// One way to name a row.
#[derive(Debug, Clone)]
struct Key {
    normal: String,
    written: String,
    item: Item,
    how: Match,
}

/// The index, made once for a dataset.
#[derive(Debug, Clone, Default)]
pub struct Index {
    /// Sorted by the normal form.
    keys: Vec<Key>,
    /// The letters of keys that a slip may lead to, and their place in `keys`.
    letters: Vec<(Vec<char>, usize)>,
    /// Everyday words in normal form, with the word's row, sorted.
    words: Vec<(String, String, usize)>,
    rows: Vec<WordRow>,
}

/// A candidate, before it is written out.
#[derive(Debug, Clone, Copy)]
struct Found {
    how: Match,
    item: Item,
    by: By,
}

/// What led to a candidate: a place in the keys or in the words.
#[derive(Debug, Clone, Copy)]
enum By {
    Key(usize),
    Word(usize),
}

#[derive(Debug, Clone, Default)]
struct WordRow {
    items: Vec<Item>,
    groups: Vec<String>,
    note: Option<String>,
}

impl Index {
    /// An index over grades, fillers and everyday words.
    #[must_use]
    pub fn build(grades: &Table<Grade>, fillers: &Table<Filler>, words: &Table<EverydayWord>) -> Self {
        let mut keys = Vec::new();
        for (place, grade) in grades.iter().enumerate() {
            let item = Item::Grade(place);
            let mut add = |written: &str, how| push(&mut keys, item, written, how);
            add(&grade.designation, Match::Designation);
            add(&grade.id, Match::Designation);
            grade.also.iter().for_each(|written| add(written, Match::CrossReference));
            grade.near.iter().for_each(|written| add(written, Match::Similar));
            grade.standards.iter().for_each(|written| add(written, Match::Standard));
            parts(&grade.designation).for_each(|written| add(written, Match::Part));
        }
        for (place, filler) in fillers.iter().enumerate() {
            let item = Item::Filler(place);
            let mut add = |written: &str, how| push(&mut keys, item, written, how);
            add(&filler.classification, Match::Designation);
            filler.also.iter().for_each(|written| add(written, Match::CrossReference));
            add(&filler.spec, Match::Standard);
            parts(&filler.classification).for_each(|written| add(written, Match::Part));
            // "7018" is how an E7018 is asked for.
            let bare = filler.classification.trim_start_matches("ER").trim_start_matches('E');
            if bare.starts_with(|letter: char| letter.is_ascii_digit()) {
                add(bare, Match::Part);
            }
        }
        keys.sort_by(|left, right| {
            (&left.normal, left.how, left.item).cmp(&(&right.normal, right.how, right.item))
        });
        keys.dedup_by(|later, first| later.normal == first.normal && later.item == first.item);
        let letters = keys
            .iter()
            .enumerate()
            .filter(|(_, key)| key.how <= Match::CrossReference)
            .map(|(place, key)| (key.normal.chars().collect(), place))
            .collect();
        let mut index = Self { keys, letters, words: Vec::new(), rows: Vec::new() };
        index.add_words(grades, fillers, words);
        index
    }

    fn add_words(&mut self, grades: &Table<Grade>, fillers: &Table<Filler>, words: &Table<EverydayWord>) {
        let grade_places = places(grades);
        let filler_places = places(fillers);
        for (row, word) in words.iter().enumerate() {
            let named =
                word.grades.iter().filter_map(|id| grade_places.get(id.as_str()).copied()).map(Item::Grade);
            let used = word
                .fillers
                .iter()
                .filter_map(|id| filler_places.get(id.as_str()).copied())
                .map(Item::Filler);
            self.rows.push(WordRow {
                items: named.chain(used).collect(),
                groups: word.groups.clone(),
                note: word.note.clone(),
            });
            for written in std::iter::once(&word.word).chain(&word.also) {
                self.words.push((normal(written), written.clone(), row));
            }
        }
        self.words.sort();
    }

    /// What a query finds: nothing for an empty one. Where the whole finds nothing, its
    /// words are asked one by one: `4140 shaft`.
    #[must_use]
    pub fn find(&self, query: &str) -> Answer {
        let mut whole = self.find_whole(query);
        if whole.exact().is_empty() {
            // A word that stands around designations may be a piece of one: `gr ey`.
            let joined = self.find_whole(&query.split_whitespace().collect::<String>());
            if !joined.exact().is_empty() {
                whole = joined;
            }
        }
        let words: Vec<&str> = query.split_whitespace().filter(|word| word.len() >= 2).collect();
        let answered = whole.hits.iter().any(|hit| hit.how != Match::Neighbour) || !whole.groups.is_empty();
        if answered || words.len() < 2 {
            return whole;
        }
        let mut answer = Answer::default();
        for word in words {
            let found = self.find_whole(word);
            answer.hits.extend(found.hits);
            answer.groups.extend(found.groups);
            answer.notes.extend(found.notes);
            answer.more |= found.more;
        }
        answer.hits.sort_by_key(|hit| hit.how);
        let mut seen = HashSet::new();
        answer.hits.retain(|hit| seen.insert(hit.item));
        answer.more |= answer.hits.len() > LISTED;
        answer.hits.truncate(LISTED);
        if answer.hits.is_empty() { whole } else { answer }
    }

    fn find_whole(&self, query: &str) -> Answer {
        let asked = normal(query);
        let mut answer = Answer::default();
        if asked.is_empty() {
            return answer;
        }
        let mut found = Vec::new();
        let from = self.keys.partition_point(|key| key.normal.as_str() < asked.as_str());
        for (place, key) in self.keys.iter().enumerate().skip(from) {
            if !key.normal.starts_with(&asked) {
                break;
            }
            let whole = key.normal.len() == asked.len();
            // A short run of digits would list half a standard's grades.
            if key.how == Match::Standard && !whole && asked.len() < 5 {
                continue;
            }
            let how = if whole || key.how == Match::Standard { key.how } else { Match::Prefix };
            found.push(Found { how, item: key.item, by: By::Key(place) });
        }
        self.add_words_found(&asked, &mut found, &mut answer);
        if found.is_empty() && asked.len() >= 3 && asked.contains(|letter: char| letter.is_ascii_digit()) {
            self.add_neighbours(&asked, &mut found);
        }
        // Stable: within one way of finding, the order of the keys, or of the word's list, stays.
        found.sort_by_key(|one| one.how);
        let mut seen = HashSet::new();
        for one in found {
            if !seen.insert(one.item) {
                continue;
            }
            if answer.hits.len() == LISTED {
                answer.more = true;
                break;
            }
            let written = match one.by {
                By::Key(place) => &self.keys[place].written,
                By::Word(place) => &self.words[place].1,
            };
            answer.hits.push(Hit { item: one.item, how: one.how, written: written.clone() });
        }
        answer
    }

    fn add_words_found(&self, asked: &str, found: &mut Vec<Found>, answer: &mut Answer) {
        let from = self.words.partition_point(|(word, _, _)| word.as_str() < asked);
        let mut rows = HashSet::new();
        for (place, (word, _, row)) in self.words.iter().enumerate().skip(from) {
            if !word.starts_with(asked) {
                break;
            }
            // Two letters begin too many words; a whole word may be as short as it likes.
            if (word.len() > asked.len() && asked.len() < 3) || !rows.insert(*row) {
                continue;
            }
            let meant = &self.rows[*row];
            found.extend(meant.items.iter().map(|&item| Found {
                how: Match::Word,
                item,
                by: By::Word(place),
            }));
            for group in &meant.groups {
                if !answer.groups.contains(group) {
                    answer.groups.push(group.clone());
                }
            }
            if let Some(note) = &meant.note
                && !answer.notes.contains(note)
            {
                answer.notes.push(note.clone());
            }
        }
    }

    fn add_neighbours(&self, asked: &str, found: &mut Vec<Found>) {
        let asked: Vec<char> = asked.chars().collect();
        for (letters, place) in &self.letters {
            if one_slip(&asked, letters) {
                found.push(Found {
                    how: Match::Neighbour,
                    item: self.keys[*place].item,
                    by: By::Key(*place),
                });
            }
        }
    }

    /// The rows that share a designation or number with a row, and what they share.
    pub(super) fn sharing(&self, item: Item) -> Vec<(Item, &str)> {
        let own: Vec<&Key> =
            self.keys.iter().filter(|key| key.item == item && key.how <= Match::CrossReference).collect();
        let mut found: Vec<(Item, &str)> = Vec::new();
        for key in own {
            let from = self.keys.partition_point(|other| other.normal < key.normal);
            for other in self.keys[from..].iter().take_while(|other| other.normal == key.normal) {
                if other.item != item
                    && other.how <= Match::CrossReference
                    && !found.iter().any(|(known, _)| *known == other.item)
                {
                    found.push((other.item, &key.written));
                }
            }
        }
        found
    }
}

impl Reference {
    /// What a query finds among grades, fillers and everyday words.
    #[must_use]
    pub fn search(&self, query: &str) -> Answer {
        self.index.find(query)
    }

    /// The grade of a hit.
    #[must_use]
    pub fn grade_of(&self, hit: &Hit) -> Option<&Grade> {
        match hit.item {
            Item::Grade(place) => self.grades.rows().get(place),
            Item::Filler(_) => None,
        }
    }

    /// The filler of a hit.
    #[must_use]
    pub fn filler_of(&self, hit: &Hit) -> Option<&Filler> {
        match hit.item {
            Item::Filler(place) => self.fillers.rows().get(place),
            Item::Grade(_) => None,
        }
    }
}

fn push(keys: &mut Vec<Key>, item: Item, written: &str, how: Match) {
    let form = normal(written);
    if form.is_empty() {
        return;
    }
    // A number typed without its point is still that number.
    if how <= Match::CrossReference && form.contains('.') {
        keys.push(Key {
            normal: form.replace('.', ""),
            written: written.to_owned(),
            item,
            how: Match::Similar,
        });
    }
    keys.push(Key { normal: form, written: written.to_owned(), item, how });
}

/// Parts of a designation that people use alone: with a digit, or three letters and more.
fn parts(designation: &str) -> impl Iterator<Item = &str> {
    designation
        .split([' ', '-', ','])
        .filter(move |part| *part != designation)
        .filter(|part| part.len() >= 2)
        .filter(|part| {
            let digits = part.contains(|letter: char| letter.is_ascii_digit());
            let letters = part.contains(|letter: char| letter.is_alphabetic());
            letters && (digits || part.len() >= 3)
        })
}

fn places<T: Row>(table: &Table<T>) -> HashMap<&str, usize> {
    table.iter().enumerate().map(|(place, row)| (row.id(), place)).collect()
}
