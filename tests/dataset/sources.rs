//! Sources: how they were read, and how many rows rest on them.

use std::collections::{BTreeMap, BTreeSet};

use strawblue::reference::check::rows_of_sources;
use strawblue::reference::{SourceRead, embedded};

/// What was seen of a source, in its own words, fits how it is said to have been read.
#[test]
fn what_was_seen_fits_how_it_was_read() {
    let mut read = BTreeMap::new();
    for source in &embedded().sources {
        let says = |words: &[&str]| words.iter().any(|word| source.seen.contains(word));
        let expected = if says(&["not read", "from memory"]) {
            SourceRead::Unread
        } else if says(&["abstract", "summary", "synopsis"]) {
            SourceRead::Summary
        } else if says(&[
            "words of it",
            "fragment",
            "statement in",
            "as listed",
            "that cite",
            "copied by",
            "copies on",
            "trade notes",
            "open optical-constants database",
            "open colour library",
        ]) {
            SourceRead::Quoted
        } else {
            SourceRead::Text
        };
        assert_eq!(source.read, expected, "{}: {}", source.id, source.seen);
        *read.entry(expected.id()).or_insert(0) += 1;
    }
    assert_eq!(read.len(), 4, "{read:?}");
}

/// Counted a second time in the file of the cautions, as text.
#[test]
fn rows_are_counted_as_the_file_has_them() {
    let text = include_str!("../../data/cautions.ron");
    let rows: Vec<&str> = text.split("\n    (\n").skip(1).collect();
    assert_eq!(rows.len(), embedded().cautions.iter().count());
    let counted = rows_of_sources(embedded());
    let mut of_cautions_alone = 0;
    for (source, resting) in &counted.sources {
        let quoted = format!("\"{source}\"");
        let naming: Vec<&&str> = rows.iter().filter(|row| row.contains(&quoted)).collect();
        let elsewhere = ELSEWHERE.iter().any(|file| file.contains(&quoted));
        if naming.is_empty() || elsewhere {
            assert!(resting.rows >= naming.len(), "{source}");
            continue;
        }
        of_cautions_alone += 1;
        let memory = naming.iter().filter(|row| row.contains("Memory(") || row.contains("memory_part: true"));
        assert_eq!((resting.rows, resting.partly_memory), (naming.len(), memory.count()), "{source}");
    }
    assert!(of_cautions_alone > 30, "{of_cautions_alone} sources");
    // A source without a row would be an unused one.
    assert!(embedded().sources.iter().all(|source| counted.sources.contains_key(source.id.as_str())));
}

/// Works that something is remembered from, and rows that rest on no text, are counted too.
#[test]
fn what_is_remembered_is_counted() {
    let counted = rows_of_sources(embedded());
    let works: BTreeSet<String> = FILES
        .iter()
        .chain(ELSEWHERE)
        .flat_map(|text| text.split("Memory(of: \"").skip(1))
        .filter_map(|rest| rest.split('"').next())
        .map(|work| work.replace("\\u{a0}", "\u{a0}"))
        .collect();
    let found: BTreeSet<String> = counted.works.keys().map(|work| (*work).to_owned()).collect();
    let apart: Vec<&String> = works.symmetric_difference(&found).collect();
    assert!(apart.is_empty() && works.len() > 200, "{apart:?}");
    assert!(counted.works.values().all(|rows| *rows > 0));
    assert!(counted.memory >= *counted.works.values().max().unwrap_or(&0) && counted.practice > 0);
}

const FILES: &[&str] = &[include_str!("../../data/cautions.ron")];
/// Every other file whose rows name sources.
const ELSEWHERE: &[&str] = &[
    include_str!("../../data/code_rows.ron"),
    include_str!("../../data/crayons.ron"),
    include_str!("../../data/d11.ron"),
    include_str!("../../data/electrode_exposure.ron"),
    include_str!("../../data/expansion.ron"),
    include_str!("../../data/fillers.ron"),
    include_str!("../../data/fits.ron"),
    include_str!("../../data/fuels.ron"),
    include_str!("../../data/grades.ron"),
    include_str!("../../data/heat_cycle.ron"),
    include_str!("../../data/inspection.ron"),
    include_str!("../../data/joints.ron"),
    include_str!("../../data/methods.ron"),
    include_str!("../../data/optics.ron"),
    include_str!("../../data/own_sheets.ron"),
    include_str!("../../data/post_heat.ron"),
    include_str!("../../data/practice.ron"),
    include_str!("../../data/processes.ron"),
    include_str!("../../data/red_heat.ron"),
    include_str!("../../data/repair.ron"),
    include_str!("../../data/slow_cooling.ron"),
    include_str!("../../data/surfaces.ron"),
    include_str!("../../data/table_c1.ron"),
    include_str!("../../data/tint_tables.ron"),
    include_str!("../../data/transformation.ron"),
    include_str!("../../data/unmarked.ron"),
    include_str!("../../data/weld_cracks.ron"),
    include_str!("../../data/weld_current.ron"),
    include_str!("../../data/weld_runs.ron"),
    include_str!("../../data/weld_strength.ron"),
    include_str!("../../data/weld_treatment.ron"),
];
