//! Finding a steel or a filler by what people type. Search lists and never selects:
//! each hit says how it was found.

use std::collections::{HashMap, HashSet};

use super::names::{Key, parts, push, without_hydrogen};
use super::slips::Slips;
use super::spelling::normal;
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

    /// How close the closest hit is; nothing found is further than any.
    fn closest(&self) -> (bool, Option<Match>) {
        (self.hits.is_empty(), self.hits.first().map(|hit| hit.how))
    }
}

/// The index, made once for a dataset.
#[derive(Debug, Clone, Default)]
pub struct Index {
    /// Names, sorted by the normal form, then by how near they are.
    keys: Vec<Key>,
    /// Product standards, sorted alike. Apart, since the names then end where the list is full.
    standards: Vec<Key>,
    /// Names that a slip may lead to.
    slips: Slips,
    /// Everyday words in normal form, with the word's row, sorted.
    words: Vec<(String, String, usize)>,
    rows: Vec<WordRow>,
}

/// An answer while it is filled, the closest hits first: each row once, and no more of
/// them than are listed.
#[derive(Debug, Default)]
struct Listing {
    answer: Answer,
    seen: HashSet<Item>,
}

impl Listing {
    fn is_full(&self) -> bool {
        self.answer.more
    }

    fn add(&mut self, item: Item, how: Match, written: &str) {
        if self.is_full() || !self.seen.insert(item) {
            return;
        }
        if self.answer.hits.len() == LISTED {
            self.answer.more = true;
        } else {
            self.answer.hits.push(Hit { item, how, written: written.to_owned() });
        }
    }

    /// Adds keys in their order until the list is full.
    fn add_keys<'a>(&mut self, keys: impl Iterator<Item = &'a Key>, how: impl Fn(&Key) -> Match) {
        for key in keys {
            if self.is_full() {
                break;
            }
            self.add(key.item, how(key), &key.written);
        }
    }
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
        let (keys, standards): (Vec<Key>, Vec<Key>) =
            keys.into_iter().partition(|key| key.how != Match::Standard);
        let names = keys.iter().enumerate().filter(|(_, key)| key.how <= Match::CrossReference);
        let slips = Slips::of(names.map(|(place, key)| (key.normal.as_str(), place)));
        let mut index = Self { keys, standards, slips, ..Self::default() };
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
            let pieces = query.split_whitespace().collect::<String>();
            let joined = if pieces == query { Answer::default() } else { self.find_whole(&pieces) };
            if joined.closest() < whole.closest() {
                whole = joined;
            }
        }
        if whole.exact().is_empty()
            && let Some(bare) = without_hydrogen(query)
        {
            let named = self.find_whole(bare);
            if named.hits.iter().any(|hit| hit.how <= Match::Part && matches!(hit.item, Item::Filler(_))) {
                whole = named;
            }
        }
        let words: Vec<&str> = query.split_whitespace().filter(|word| word.len() >= 2).collect();
        let answered = whole.hits.iter().any(|hit| hit.how != Match::Neighbour)
            || !whole.groups.is_empty()
            || !whole.notes.is_empty();
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
        let mut list = Listing::default();
        if asked.is_empty() {
            return list.answer;
        }
        // The closest way of finding comes first; within one, the order of the keys or of the
        // word's list stays.
        let (whole, longer) = beginning(&self.keys, &asked);
        let near = whole.partition_point(|key| key.how < Match::Word);
        list.add_keys(whole[..near].iter(), |key| key.how);
        self.add_words_found(&asked, &mut list);
        list.add_keys(whole[near..].iter(), |key| key.how);
        list.add_keys(longer, |_| Match::Prefix);
        let (whole, longer) = beginning(&self.standards, &asked);
        list.add_keys(whole.iter(), |key| key.how);
        // A short run of digits would list half a standard's grades.
        if asked.len() >= 5 {
            list.add_keys(longer, |key| key.how);
        }
        let digits = asked.contains(|letter: char| letter.is_ascii_digit());
        // A word that says that it is no steel here has answered.
        let said = !list.answer.notes.is_empty();
        if list.answer.hits.is_empty() && !said && asked.len() >= 3 && digits {
            let mut near = self.slips.near(&asked);
            // Three letters begin too many names.
            if near.is_empty() && asked.len() >= 4 {
                near = self.slips.beginning_near(&asked);
            }
            list.add_keys(near.iter().map(|&place| &self.keys[place]), |_| Match::Neighbour);
        }
        list.answer
    }

    fn add_words_found(&self, asked: &str, list: &mut Listing) {
        let from = self.words.partition_point(|(word, _, _)| word.as_str() < asked);
        let mut rows = HashSet::new();
        for (word, written, row) in &self.words[from..] {
            if !word.starts_with(asked) {
                break;
            }
            // Two letters begin too many words; a whole word may be as short as it likes.
            if (word.len() > asked.len() && asked.len() < 3) || !rows.insert(*row) {
                continue;
            }
            let meant = &self.rows[*row];
            for &item in &meant.items {
                list.add(item, Match::Word, written);
            }
            for group in &meant.groups {
                if !list.answer.groups.contains(group) {
                    list.answer.groups.push(group.clone());
                }
            }
            if let Some(note) = &meant.note
                && !list.answer.notes.contains(note)
            {
                list.answer.notes.push(note.clone());
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

/// The keys that are what is asked, and after them those that only begin so.
fn beginning<'a>(keys: &'a [Key], asked: &'a str) -> (&'a [Key], impl Iterator<Item = &'a Key>) {
    let from = &keys[keys.partition_point(|key| key.normal.as_str() < asked)..];
    let (whole, after) = from.split_at(from.partition_point(|key| key.normal == asked));
    (whole, after.iter().take_while(move |key| key.normal.starts_with(asked)))
}

fn places<T: Row>(table: &Table<T>) -> HashMap<&str, usize> {
    table.iter().enumerate().map(|(place, row)| (row.id(), place)).collect()
}
