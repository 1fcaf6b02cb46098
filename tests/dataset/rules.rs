//! The embedded dataset keeps every rule, and every rule bites.

use crate::breakages::BREAKAGES;
use crate::{breakages_heat, breakages_shop};
use strawblue::reference::{Fault, Files, Reference, Rule, embedded};

/// The faults of a dataset in which one piece of text of one file is replaced.
fn faults_with(changes: &[(&str, &str, &str)]) -> Vec<Fault> {
    let (mut files, mut words) = (Files::embedded(), include_str!("../../data/en.ftl").to_owned());
    for (name, from, to) in changes {
        let text =
            if *name == "words" { &mut words } else { files.named(name).expect("a file of the dataset") };
        assert!(text.contains(from), "{name} does not contain {from}");
        *text = text.replacen(from, to, 1);
    }
    Reference::parse(&files, &words).err().unwrap_or_default()
}

#[test]
fn the_embedded_dataset_keeps_every_rule() {
    let lines: Vec<String> = faults_with(&[]).iter().map(ToString::to_string).collect();
    assert!(lines.is_empty(), "{} faults:\n{}", lines.len(), lines.join("\n"));
}

#[test]
fn every_rule_bites_and_names_file_row_and_rule() {
    for (file, from, to, at, row, rule) in
        BREAKAGES.iter().chain(breakages_heat::BREAKAGES).chain(breakages_shop::BREAKAGES)
    {
        let faults = faults_with(&[(file, from, to)]);
        assert!(
            faults.iter().any(|fault| fault.file == *at && fault.row == *row && fault.rule == *rule),
            "{file}: {from} -> {to}: {rule:?} at {at} {row} is not among {faults:#?}"
        );
    }
}

/// A row that a reader copies from data/README.md goes into its file as it stands.
#[test]
fn the_rows_of_the_readme_are_rows() {
    let page = include_str!("../../data/README.md");
    let mut seen = Vec::new();
    for row in page.split("```").skip(1).step_by(2).filter(|block| block.starts_with("\n(\n")) {
        let file = [
            ("designation:", "grades"),
            ("classification:", "fillers"),
            ("topic:", "cautions"),
            ("title:", "sources"),
        ]
        .into_iter()
        .find_map(|(field, file)| row.contains(field).then_some(file))
        .unwrap_or_else(|| panic!("a row of which file? {row}"));
        seen.push(file);
        let faults = faults_with(&[(file, "[\n", &format!("[\n{row}"))]);
        // The example's id may be taken, its message isn't written, and nothing names its source.
        let allowed = |rule| matches!(rule, Rule::UniqueId | Rule::WordsExist | Rule::SourceUsed);
        let wrong: Vec<_> = faults.iter().filter(|fault| !allowed(fault.rule)).collect();
        assert!(wrong.is_empty(), "{file}: {wrong:?}");
    }
    assert_eq!(seen, ["sources", "grades", "fillers", "cautions"]);
}

#[test]
fn the_readme_names_every_file() {
    let page = include_str!("../../data/README.md");
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("data");
    for entry in std::fs::read_dir(folder).expect("the folder is there") {
        let name = entry.expect("it can be read").file_name().to_string_lossy().into_owned();
        assert!(
            name == "README.md" || page.contains(&format!("`{name}")),
            "data/README.md leaves out {name}"
        );
    }
}

#[test]
fn all_problems_are_reported_at_once() {
    let faults = faults_with(&[
        ("grades", "id: \"1010\"", "id: \"1008\""),
        ("cautions", "rank: 360", "rank: 350"),
        ("joints", "id: \"butt\"", "id: \"\""),
    ]);
    for rule in [Rule::UniqueId, Rule::CautionComplete] {
        assert!(faults.iter().any(|fault| fault.rule == rule), "{rule:?} in {faults:?}");
    }
    let unreadable =
        faults_with(&[("grades", "id: \"1010\"", "id: 1010"), ("joints", "id: \"butt\"", "id: butt")]);
    assert_eq!(unreadable.len(), 2, "{unreadable:?}");
    assert!(unreadable[0].to_string().starts_with("data/grades.ron, line "), "{}", unreadable[0]);
}

#[test]
fn what_the_engine_names_is_there() {
    let reference = embedded();
    assert!(
        reference.grades.len() >= 193 && reference.fillers.len() >= 70 && reference.cautions.len() >= 100
    );
}

#[test]
fn a_unit_that_the_engine_does_not_know_is_not_read() {
    let faults = faults_with(&[("methods", "symbol: \"d\", unit: \"mm\"", "symbol: \"d\", unit: \"ell\"")]);
    assert!(
        faults.iter().any(|fault| fault.file == "methods.ron" && fault.rule == Rule::Readable),
        "{faults:?}"
    );
}
