//! Every row has its words, and every word of the dataset has its row.

use std::collections::{BTreeMap, BTreeSet};

use fluent_syntax::ast::{Entry, Expression, InlineExpression, PatternElement, Resource};
use fluent_syntax::parser;

use super::{Fault, Faults, Rule};
use crate::reference::{Grade, Place, Reference};

/// Messages that begin so belong to rows of the dataset and to nothing else.
const OURS: [&str; 11] = [
    "group-",
    "grade-form-",
    "grade-heat-",
    "grade-state-",
    "grade-note-",
    "filler-note-",
    "joint-note-",
    "word-note-",
    "tint-column-",
    "caution-c",
    "caution-brief-",
];
/// Temperatures that the words of a preheat or a heat treatment can name, °C.
const HEAT_C: (f64, f64) = (10.0, 1250.0);
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
    figures_in_words(reference, &resource, list);
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

/// A preheat or a heat treatment of a grade, with the words that stand for it.
struct Heat<'a> {
    low_c: Option<f64>,
    high_c: Option<f64>,
    wording: Option<&'a String>,
}

fn heats(grade: &Grade) -> impl Iterator<Item = Heat<'_>> {
    let preheats = grade.data_sheet.iter().chain(&grade.published_preheat);
    let preheats =
        preheats.map(|one| Heat { low_c: one.low_c, high_c: one.high_c, wording: one.wording.as_ref() });
    let relief = grade.pwht.iter();
    preheats.chain(relief.map(|one| Heat {
        low_c: one.low_c,
        high_c: one.high_c,
        wording: one.wording.as_ref(),
    }))
}

/// Words that stand for the figures of a row carry those figures, and say no temperature
/// that the function `TEMP` doesn't know of.
fn figures_in_words(reference: &Reference, resource: &Resource<&str>, list: &mut Vec<Fault>) {
    let mut figures: BTreeMap<&str, Vec<f64>> = BTreeMap::new();
    for entry in &resource.body {
        let Entry::Message(message) = entry else { continue };
        let (id, Some(pattern)) = (message.id.name, &message.value) else { continue };
        if !id.starts_with("grade-heat-") {
            continue;
        }
        let plain = pattern
            .elements
            .iter()
            .any(|element| matches!(element, PatternElement::TextElement { value } if value.contains('°')));
        let mut faults = Faults { file: "en.ftl", list };
        faults.check(!plain, id, Rule::FiguresAgree, || {
            "a temperature stands in the words as text; write { TEMP(260) }".to_owned()
        });
        let points_c: Vec<f64> = pattern.elements.iter().flat_map(points_c).collect();
        for &point_c in &points_c {
            faults.check((HEAT_C.0..=HEAT_C.1).contains(&point_c), id, Rule::FiguresAgree, || {
                format!("{point_c} °C is no heat of a steel: is it a content in percent?")
            });
        }
        figures.insert(id, points_c);
    }
    for grade in &reference.grades {
        for heat in heats(grade) {
            let Some((key, points_c)) = heat.wording.and_then(|key| figures.get_key_value(key.as_str()))
            else {
                continue;
            };
            let mut faults = Faults { file: "grades.ron", list };
            for end_c in [heat.low_c, heat.high_c].into_iter().flatten() {
                faults.check(points_c.contains(&end_c), &grade.id, Rule::FiguresAgree, || {
                    format!("{key} doesn't say {end_c} °C, which the row does")
                });
            }
        }
    }
}

/// The figures that a placeable gives to `TEMP`.
fn points_c(element: &PatternElement<&str>) -> Vec<f64> {
    let PatternElement::Placeable {
        expression: Expression::Inline(InlineExpression::FunctionReference { id, arguments }),
    } = element
    else {
        return Vec::new();
    };
    let number = |argument: &InlineExpression<&str>| match argument {
        InlineExpression::NumberLiteral { value } => value.parse().ok(),
        _ => None,
    };
    if id.name == "TEMP" { arguments.positional.iter().filter_map(number).collect() } else { Vec::new() }
}

/// Every message that the dataset asks for: file, row, key.
fn asked(reference: &Reference) -> Vec<(&'static str, String, String)> {
    let mut keys = Vec::new();
    let mut ask = |file, row: &str, key: String| keys.push((file, row.to_owned(), key));
    for grade in &reference.grades {
        ask("grades.ron", &grade.id, format!("group-{}", grade.group));
        grade.forms.iter().for_each(|form| ask("grades.ron", &grade.id, format!("grade-form-{form}")));
        let heats = heats(grade).filter_map(|heat| heat.wording);
        let states = grade.conditions.iter().filter_map(|condition| condition.state.as_ref());
        for key in heats.chain(states).chain(&grade.notes) {
            ask("grades.ron", &grade.id, key.clone());
        }
    }
    for filler in &reference.fillers {
        filler.notes.iter().for_each(|note| ask("fillers.ron", &filler.id, note.clone()));
    }
    reference.processes.iter().for_each(|row| ask("processes.ron", &row.id, format!("process-{}", row.id)));
    for joint in &reference.joints {
        ask("joints.ron", &joint.id, format!("joint-{}", joint.id));
        ask("joints.ron", &joint.id, joint.note.clone());
    }
    let sheets = &reference.own_sheets;
    let irons = sheets.iron.iter().map(|row| &row.id).chain(sheets.iron_spans.iter().map(|row| &row.id));
    irons.for_each(|id| ask("own_sheets.ron", id, format!("iron-{id}")));
    let families = sheets.groups.iter().map(|row| &row.id).chain(sheets.sheets.iter().map(|row| &row.id));
    families.for_each(|id| ask("own_sheets.ron", id, format!("sheet-{id}")));
    for word in &reference.everyday_words {
        word.note.iter().for_each(|note| ask("everyday_words.ron", &word.word, note.clone()));
        word.groups.iter().for_each(|group| ask("everyday_words.ron", &word.word, format!("group-{group}")));
    }
    for column in reference.tint.tables.columns.iter().chain(&reference.tint.tables.stainless) {
        column.note.iter().for_each(|note| ask("tint_tables.ron", &column.id, note.clone()));
    }
    reference.cautions.iter().for_each(|row| ask("cautions.ron", &row.id, row.message()));
    Place::ALL
        .iter()
        .for_each(|place| ask("cautions.ron", place.id(), format!("safety-place-{}", place.id())));
    keys
}
