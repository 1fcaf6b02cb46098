//! Every row has its words, and every word of the dataset has its row.

use std::collections::{BTreeMap, BTreeSet};

use fluent_syntax::ast::Entry;
use fluent_syntax::parser;

use super::{Fault, Faults, Rule};
use crate::reference::{Place, Reference};

/// Messages that begin so belong to rows of the dataset and to nothing else.
const OURS: [&str; 8] = [
    "group-",
    "grade-note-",
    "filler-note-",
    "method-",
    "joint-note-",
    "inspection-",
    "word-note-",
    "caution-c",
];
/// Attributes of a caution that hold its words.
const CAUTION: [&str; 3] = ["trigger", "why", "do"];

pub(super) fn check(reference: &Reference, words: &str, list: &mut Vec<Fault>) {
    let resource = match parser::parse(words) {
        Ok(resource) => resource,
        Err((resource, errors)) => {
            let mut faults = Faults { file: "en.ftl", list };
            for error in errors {
                faults.add(&format!("byte {}", error.pos.start), Rule::Readable, error.to_string());
            }
            resource
        }
    };
    let mut messages: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for entry in &resource.body {
        if let Entry::Message(message) = entry {
            let attributes = message.attributes.iter().map(|attribute| attribute.id.name).collect();
            messages.insert(message.id.name, attributes);
        }
    }
    let asked = asked(reference);
    for (file, row, key) in &asked {
        let mut faults = Faults { file, list };
        faults.check(messages.contains_key(key.as_str()), row, Rule::WordsExist, || {
            format!("the message {key} is not in en.ftl")
        });
    }
    let mut faults = Faults { file: "cautions.ron", list };
    for caution in &reference.cautions {
        let Some(attributes) = messages.get(caution.message().as_str()) else { continue };
        for attribute in CAUTION {
            faults.check(attributes.contains(attribute), &caution.id, Rule::CautionComplete, || {
                format!("its words have no .{attribute}")
            });
        }
        faults.check(
            attributes.contains("memory") == caution.memory_part,
            &caution.id,
            Rule::CautionComplete,
            || "memory_part and the words .memory go together".to_owned(),
        );
    }
    let used: BTreeSet<&str> = asked.iter().map(|(_, _, key)| key.as_str()).collect();
    let mut faults = Faults { file: "en.ftl", list };
    for message in messages.keys().filter(|message| OURS.iter().any(|ours| message.starts_with(ours))) {
        faults.check(used.contains(message), message, Rule::WordsUsed, || {
            "no row of the dataset has it".to_owned()
        });
    }
}

/// Every message that the dataset asks for: file, row, key.
fn asked(reference: &Reference) -> Vec<(&'static str, String, String)> {
    let mut keys = Vec::new();
    let mut ask = |file, row: &str, key: String| keys.push((file, row.to_owned(), key));
    for grade in &reference.grades {
        ask("grades.ron", &grade.id, format!("group-{}", grade.group));
        grade.notes.iter().for_each(|note| ask("grades.ron", &grade.id, note.clone()));
    }
    for filler in &reference.fillers {
        filler.notes.iter().for_each(|note| ask("fillers.ron", &filler.id, note.clone()));
    }
    reference.methods.iter().for_each(|row| ask("methods.ron", &row.id, format!("method-{}", row.id)));
    reference.processes.iter().for_each(|row| ask("processes.ron", &row.id, format!("process-{}", row.id)));
    for joint in &reference.joints {
        ask("joints.ron", &joint.id, format!("joint-{}", joint.id));
        ask("joints.ron", &joint.id, joint.note.clone());
    }
    reference
        .inspection
        .iter()
        .for_each(|row| ask("inspection.ron", &row.id, format!("inspection-{}", row.id)));
    let sheets = &reference.own_sheets;
    let irons = sheets.iron.iter().map(|row| &row.id).chain(sheets.iron_spans.iter().map(|row| &row.id));
    irons.for_each(|id| ask("own_sheets.ron", id, format!("iron-{id}")));
    let families = sheets.groups.iter().map(|row| &row.id).chain(sheets.sheets.iter().map(|row| &row.id));
    families.for_each(|id| ask("own_sheets.ron", id, format!("sheet-{id}")));
    reference
        .practice
        .shown_spans
        .iter()
        .for_each(|row| ask("practice.ron", &row.id, format!("span-{}", row.id)));
    for word in &reference.everyday_words {
        word.note.iter().for_each(|note| ask("everyday_words.ron", &word.word, note.clone()));
        word.groups.iter().for_each(|group| ask("everyday_words.ron", &word.word, format!("group-{group}")));
    }
    reference.cautions.iter().for_each(|row| ask("cautions.ron", &row.id, row.message()));
    Place::ALL.iter().for_each(|place| ask("cautions.ron", place.id(), format!("care-place-{}", place.id())));
    keys
}
