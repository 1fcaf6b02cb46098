//! Names that are one slip away from what was typed.

use super::spelling::one_slip;

/// The letters of all names in one buffer, the shortest name first: a slip changes the
/// length by one at most, and a look at each name of about that length follows no pointer.
#[derive(Debug, Clone, Default)]
pub(super) struct Slips {
    letters: Vec<char>,
    names: Vec<Name>,
}

#[derive(Debug, Clone, Copy)]
struct Name {
    /// Where it begins among the letters.
    start: usize,
    length: usize,
    /// Its place among the keys.
    place: usize,
}

impl Slips {
    /// Names in the form in which they are compared, each with its place among the keys.
    pub(super) fn of<'a>(names: impl Iterator<Item = (&'a str, usize)>) -> Self {
        let mut sized: Vec<_> = names.map(|(name, place)| (name.chars().count(), place, name)).collect();
        sized.sort_unstable();
        let mut made = Self::default();
        for (length, place, name) in sized {
            made.names.push(Name { start: made.letters.len(), length, place });
            made.letters.extend(name.chars());
        }
        made
    }

    /// The places of longer names whose beginning is one slip away: `S335` begins so many as `S355` does.
    pub(super) fn beginning_near(&self, asked: &str) -> Vec<usize> {
        let asked: Vec<char> = asked.chars().collect();
        let from = self.names.partition_point(|name| name.length <= asked.len());
        let begins = |name: &&Name| one_slip(&asked, &self.letters[name.start..name.start + asked.len()]);
        let mut places: Vec<usize> =
            self.names[from..].iter().filter(begins).map(|name| name.place).collect();
        places.sort_unstable();
        places
    }

    /// The places of those one slip away, in the order of the keys.
    pub(super) fn near(&self, asked: &str) -> Vec<usize> {
        let asked: Vec<char> = asked.chars().collect();
        let from = self.names.partition_point(|name| name.length + 1 < asked.len());
        let about = self.names[from..].iter().take_while(|name| name.length <= asked.len() + 1);
        let mut places: Vec<usize> = about
            .filter(|name| one_slip(&asked, &self.letters[name.start..name.start + name.length]))
            .map(|name| name.place)
            .collect();
        places.sort_unstable();
        places
    }
}
