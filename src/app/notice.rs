//! A line about what is kept, above every page: said in the language that is spoken, whenever that changes.

use std::cell::RefCell;

use crate::words::Words;

/// Words that can be said in any language.
type Says = Box<dyn Fn(&Words) -> String>;

/// What puts them on the screen.
type Shows = Box<dyn Fn(&str)>;

/// What the person must know about what is kept.
pub(super) struct Notice {
    says: RefCell<Says>,
    /// What puts it on the screen.
    shows: RefCell<Shows>,
}

impl Default for Notice {
    fn default() -> Self {
        Self { says: RefCell::new(Box::new(|_| String::new())), shows: RefCell::new(Box::new(|_| {})) }
    }
}

impl Notice {
    /// Says something; nothing takes it away.
    pub(super) fn tell(&self, words: &Words, says: impl Fn(&Words) -> String + 'static) {
        *self.says.borrow_mut() = Box::new(says);
        self.say_anew(words);
    }

    /// Says the same again, in the language that is spoken now.
    pub(super) fn say_anew(&self, words: &Words) {
        let said = (self.says.borrow())(words);
        (self.shows.borrow())(&said);
    }

    /// Sets what shows it, from now on.
    pub(super) fn shown_by(&self, words: &Words, shows: impl Fn(&str) + 'static) {
        *self.shows.borrow_mut() = Box::new(shows);
        self.say_anew(words);
    }
}
