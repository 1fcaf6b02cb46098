//! A message is read when it is first asked for; what it says is what Fluent's own bundle of the whole file
//! says (outside reference: the `fluent` crate).

#![allow(clippy::unwrap_used, reason = "a file that can't be read fails the test")]

use std::fs;

use fluent::{FluentArgs, FluentBundle, FluentResource, FluentValue};
use fluent_syntax::ast::{Entry, Pattern};
use strawblue::words::Words;

use crate::house::root;

/// Every message and attribute of a file, as the whole file says it with 42 for whatever may be put in.
fn said_by_the_whole(tag: &str, text: &str, names: &[&str]) -> Vec<(String, String)> {
    let resource = FluentResource::try_new(text.to_owned()).unwrap_or_else(|(resource, _)| resource);
    let keys: Vec<(String, Option<String>)> = resource.entries().flat_map(keys_of).collect();
    let mut bundle = FluentBundle::new(vec![tag.parse().unwrap()]);
    bundle.set_use_isolating(false);
    bundle.add_resource_overriding(resource);
    let args: FluentArgs = names.iter().map(|name| (*name, FluentValue::from("42"))).collect();
    keys.into_iter()
        .filter_map(|(id, attribute)| {
            let message = bundle.get_message(&id)?;
            let pattern: &Pattern<&str> = match &attribute {
                None => message.value()?,
                Some(name) => message.get_attribute(name)?.value(),
            };
            let said = bundle.format_pattern(pattern, Some(&args), &mut Vec::new()).into_owned();
            let key = attribute.map_or(id.clone(), |name| format!("{id}.{name}"));
            // Our own functions are held to their figures in figures.rs.
            (!said.contains("()")).then_some((key, said))
        })
        .collect()
}

fn keys_of(entry: &Entry<&str>) -> Vec<(String, Option<String>)> {
    let Entry::Message(message) = entry else { return Vec::new() };
    let id = message.id.name.to_owned();
    let value = message.value.as_ref().map(|_| (id.clone(), None));
    let attributes =
        message.attributes.iter().map(|attribute| (id.clone(), Some(attribute.id.name.to_owned())));
    value.into_iter().chain(attributes).collect()
}

fn names(text: &str) -> Vec<&str> {
    let mut names: Vec<&str> = text
        .split('$')
        .skip(1)
        .map(|after| {
            after.split(|letter: char| !letter.is_ascii_alphanumeric() && letter != '-').next().unwrap()
        })
        .collect();
    names.sort_unstable();
    names.dedup();
    names
}

fn agree(words: &Words, tag: &str, text: &str) -> usize {
    let names = names(text);
    let values: Vec<(&str, &str)> = names.iter().map(|name| (*name, "42")).collect();
    let whole = said_by_the_whole(tag, text, &names);
    for (key, said) in &whole {
        assert_eq!(&words.with(key, &values), said, "{tag}: {key}");
        assert!(words.has(key), "{tag}: {key}");
    }
    whole.len()
}

#[test]
fn a_message_says_what_its_whole_file_says() {
    for tag in Words::languages() {
        let text = fs::read_to_string(root().join(format!("data/{tag}.ftl"))).unwrap();
        let compared = agree(&Words::of(tag), tag, &text);
        assert!(compared > 4_000, "{tag}: {compared}");
    }
}

/// What a file may hold besides: comments between, an id twice, a message of others in a row, a term, a brace
/// at the line's start, lines of another system, a line that can't be read, and no end of the last line.
#[test]
fn an_odd_file_is_read_as_the_whole_is() {
    let text = "\
### odd
-firm = Our firm
a = first
# between
b = { c } of { -firm }
    .more = and { b }
c = { d }, c
d = { $count ->
    [one] one
   *[other] { e }
}
e =
    two
    lines

 not = a line of a message
?
f = f\r\ng = g\r\n    .more = g more\r\na = last
long-id = long
long = short
z = no end";
    let words = Words::of_file("eo", text);
    let compared = agree(&words, "eo", text);
    assert_eq!(compared, 13);
    assert_eq!(words.get("a"), "last");
    let more = words.get("b.more");
    assert!(more.starts_with("and ") && more.ends_with("c of Our firm"), "{more}");
    for absent in ["not", "-firm", "b.none", "none", ""] {
        assert!(!words.has(absent), "{absent}");
    }
}
