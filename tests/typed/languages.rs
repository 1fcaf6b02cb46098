//! Every language types with its own decimal mark, and what it gives as an example is understood.

use strawblue::units::{Mark, Units};
use strawblue::words::Words;

use crate::tables::answer;

/// Fields whose examples are figures alone, by the reader of each.
const READERS: [&str; 18] = [
    "length",
    "temperature",
    "difference",
    "heat",
    "voltage",
    "current",
    "travel",
    "strength",
    "gas-flow",
    "volume",
    "force",
    "torque",
    "power",
    "area",
    "density",
    "deposit-rate",
    "hardness",
    "run-length",
];

/// The examples that a language gives for a field, behind the colon.
fn examples(words: &Words, reader: &str) -> Vec<String> {
    let said = words.get(&format!("accepts-{reader}")).replace('\u{a0}', " ");
    let (_, listed) = said.split_once(':').unwrap_or_else(|| panic!("{reader}: {said}"));
    listed.trim().trim_end_matches('.').split(", ").map(|one| one.trim().to_owned()).collect()
}

/// They mean the same in each language: they are the same figures.
#[test]
fn every_example_is_understood_in_its_language() {
    let english = Words::english();
    for tag in Words::languages() {
        let words = Words::of(tag);
        let read = |words: &Words, reader: &str| -> Vec<String> {
            let mark = Mark::of(words.decimal_mark());
            let read = |text: &String| mark.read(text, |text| answer(reader, text, Units::C_MM));
            let said = |text: &String| read(text).unwrap_or_else(|found| found.say(words));
            examples(words, reader).iter().map(said).collect()
        };
        for reader in READERS {
            assert_eq!(read(&words, reader), read(&english, reader), "{tag}, {reader}");
        }
    }
}

/// A composition and a percentage are read with either mark.
#[test]
fn every_composition_is_understood_in_its_language() {
    use strawblue::job::typed::composition;
    let of = |words: &Words| {
        let said = words.get("accepts-composition");
        let (_, line) = said.split_once(':').expect("an example");
        composition(line.trim().trim_end_matches('.')).expect("it is understood").composition
    };
    let english = of(&Words::english());
    for tag in Words::languages() {
        assert_eq!(of(&Words::of(tag)), english, "{tag}");
    }
}
