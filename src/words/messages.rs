//! The messages of one language file, each read when it is first asked for: there are four thousand, a day's
//! work asks for some hundreds, and all of them would take 4 MB.

use std::cell::RefCell;
use std::ops::Range;
use std::sync::Arc;

use fluent::{FluentArgs, FluentBundle, FluentResource};
use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};

use super::figures::{SharedScales, add_to};

/// The message that is the decimal mark of its language.
pub(crate) const DECIMAL_MARK: &str = "decimal-mark";

/// The messages of a language.
pub(super) struct Messages {
    text: Box<str>,
    /// Where each message or term stands in the text, in the order of their ids.
    places: Vec<Range<usize>>,
    read: RefCell<Read>,
}

/// What has been read of them.
struct Read {
    bundle: FluentBundle<FluentResource>,
    /// Which of the places.
    places: Vec<bool>,
}

impl Messages {
    /// The messages of one file. A line that can't be read is left out: the check of the language
    /// files names it.
    pub(super) fn of(tag: &str, text: String, scales: &Arc<SharedScales>) -> Self {
        let text = text.into_boxed_str();
        let places = places(&text);
        let mut bundle = FluentBundle::new(vec![tag.parse().unwrap_or_default()]);
        // Isolation marks break tabular figures and copied text; all insertions are left-to-right here.
        bundle.set_use_isolating(false);
        let read = Read { bundle, places: vec![false; places.len()] };
        let messages = Self { text, places, read: RefCell::new(read) };
        let mark = messages.say(DECIMAL_MARK, None).and_then(|mark| mark.chars().next());
        add_to(&mut messages.read.borrow_mut().bundle, scales, mark.unwrap_or('.'));
        messages
    }

    /// The message of a key, or of `key.attribute`, with values put in.
    pub(super) fn say(&self, key: &str, values: Option<&FluentArgs>) -> Option<String> {
        self.pattern(key, |bundle, pattern| {
            bundle.format_pattern(pattern, values, &mut Vec::new()).into_owned()
        })
    }

    /// Is there such a message, or such an attribute?
    pub(super) fn has(&self, key: &str) -> bool {
        self.pattern(key, |_, _| ()).is_some()
    }

    fn pattern<T>(
        &self,
        key: &str,
        take: impl FnOnce(&FluentBundle<FluentResource>, &Pattern<&str>) -> T,
    ) -> Option<T> {
        let (id, attribute) =
            key.split_once('.').map_or((key, None), |(id, attribute)| (id, Some(attribute)));
        self.read(id);
        let read = self.read.borrow();
        let message = read.bundle.get_message(id)?;
        let pattern = match attribute {
            None => message.value(),
            Some(name) => message.get_attribute(name).map(|found| found.value()),
        };
        pattern.map(|pattern| take(&read.bundle, pattern))
    }

    /// Reads a message, and what it is put together of.
    fn read(&self, id: &str) {
        let Ok(nth) = self.places.binary_search_by(|place| id_at(&self.text[place.clone()]).cmp(id)) else {
            return;
        };
        let others = {
            let mut read = self.read.borrow_mut();
            if std::mem::replace(&mut read.places[nth], true) {
                return;
            }
            let resource = match FluentResource::try_new(self.text[self.places[nth].clone()].to_owned()) {
                Ok(resource) | Err((resource, _)) => resource,
            };
            let mut others = Vec::new();
            resource.entries().for_each(|entry| entry_needs(entry, &mut others));
            read.bundle.add_resource_overriding(resource);
            others
        };
        others.iter().for_each(|other| self.read(other));
    }
}

/// Where each message or term stands, by its id: from a line that begins with a name up to the next, or to
/// a comment. The last of one id counts.
fn places(text: &str) -> Vec<Range<usize>> {
    let mut places: Vec<Range<usize>> = Vec::new();
    let mut open = false;
    let mut at = 0;
    for line in text.split_inclusive('\n') {
        let end = at + line.len();
        match line.as_bytes()[0] {
            b'#' => open = false,
            b'-' | b'a'..=b'z' | b'A'..=b'Z' => {
                places.push(at..end);
                open = true;
            }
            _ if open => {
                if let Some(last) = places.last_mut() {
                    last.end = end;
                }
            }
            _ => {}
        }
        at = end;
    }
    // Stable, so that of equal ids the last stays last.
    places.sort_by(|one, other| id_at(&text[one.clone()]).cmp(id_at(&text[other.clone()])));
    places.dedup_by(|later, earlier| {
        let same = id_at(&text[later.clone()]) == id_at(&text[earlier.clone()]);
        if same {
            *earlier = later.clone();
        }
        same
    });
    places.shrink_to_fit();
    places
}

/// The id that an entry begins with; a term's with its hyphen.
fn id_at(entry: &str) -> &str {
    let end = entry.find(|letter: char| !(letter.is_ascii_alphanumeric() || matches!(letter, '-' | '_')));
    &entry[..end.unwrap_or(entry.len())]
}

/// The ids of messages and terms that an entry puts in.
fn entry_needs(entry: &Entry<&str>, needed: &mut Vec<String>) {
    let (value, attributes) = match entry {
        Entry::Message(message) => (message.value.as_ref(), &message.attributes),
        Entry::Term(term) => (Some(&term.value), &term.attributes),
        _ => return,
    };
    let attributes = attributes.iter().map(|attribute| &attribute.value);
    value.into_iter().chain(attributes).for_each(|pattern| pattern_needs(pattern, needed));
}

fn pattern_needs(pattern: &Pattern<&str>, needed: &mut Vec<String>) {
    for element in &pattern.elements {
        if let PatternElement::Placeable { expression } = element {
            expression_needs(expression, needed);
        }
    }
}

fn expression_needs(expression: &Expression<&str>, needed: &mut Vec<String>) {
    match expression {
        Expression::Inline(inline) => inline_needs(inline, needed),
        Expression::Select { selector, variants } => {
            inline_needs(selector, needed);
            variants.iter().for_each(|variant| pattern_needs(&variant.value, needed));
        }
    }
}

fn inline_needs(inline: &InlineExpression<&str>, needed: &mut Vec<String>) {
    let arguments = match inline {
        InlineExpression::MessageReference { id, .. } => {
            needed.push(id.name.to_owned());
            None
        }
        InlineExpression::TermReference { id, arguments, .. } => {
            needed.push(format!("-{}", id.name));
            arguments.as_ref()
        }
        InlineExpression::FunctionReference { arguments, .. } => Some(arguments),
        InlineExpression::Placeable { expression } => {
            expression_needs(expression, needed);
            None
        }
        InlineExpression::StringLiteral { .. }
        | InlineExpression::NumberLiteral { .. }
        | InlineExpression::VariableReference { .. } => None,
    };
    if let Some(arguments) = arguments {
        arguments.positional.iter().for_each(|argument| inline_needs(argument, needed));
        arguments.named.iter().for_each(|argument| inline_needs(&argument.value, needed));
    }
}
