//! The embedded dataset keeps every rule, and every rule bites.

use crate::breakages::BREAKAGES;
use strawblue::engine::Unit;
use strawblue::reference::{Fault, Files, Reference, Rule, embedded};

/// The faults of a dataset in which one piece of text of one file is replaced.
fn faults_with(changes: &[(&str, &str, &str)]) -> Vec<Fault> {
    let text = |name: &str, embedded: &str| {
        changes.iter().filter(|(file, _, _)| *file == name).fold(
            embedded.to_owned(),
            |text, (_, from, to)| {
                assert!(text.contains(from), "{name} does not contain {from}");
                text.replacen(from, to, 1)
            },
        )
    };
    let own = Files::EMBEDDED;
    let (sources, grades) = (text("sources", own.sources), text("grades", own.grades));
    let (fillers, cautions) = (text("fillers", own.fillers), text("cautions", own.cautions));
    let (methods, practice) = (text("methods", own.methods), text("practice", own.practice));
    let (d11, table_c1) = (text("d11", own.d11), text("table_c1", own.table_c1));
    let (processes, joints) = (text("processes", own.processes), text("joints", own.joints));
    let (inspection, own_sheets) = (text("inspection", own.inspection), text("own_sheets", own.own_sheets));
    let (everyday_words, words) = (text("everyday_words", own.everyday_words), text("words", own.words));
    let (optics, tint_tables) = (text("optics", own.optics), text("tint_tables", own.tint_tables));
    let (red_heat, surfaces) = (text("red_heat", own.red_heat), text("surfaces", own.surfaces));
    let crayons = text("crayons", own.crayons);
    let files = Files {
        sources: &sources,
        grades: &grades,
        fillers: &fillers,
        cautions: &cautions,
        methods: &methods,
        practice: &practice,
        d11: &d11,
        table_c1: &table_c1,
        processes: &processes,
        joints: &joints,
        inspection: &inspection,
        own_sheets: &own_sheets,
        everyday_words: &everyday_words,
        optics: &optics,
        tint_tables: &tint_tables,
        red_heat: &red_heat,
        surfaces: &surfaces,
        crayons: &crayons,
        words: &words,
    };
    Reference::parse(&files).err().unwrap_or_default()
}

#[test]
fn the_embedded_dataset_keeps_every_rule() {
    let lines: Vec<String> = faults_with(&[]).iter().map(ToString::to_string).collect();
    assert!(lines.is_empty(), "{} faults:\n{}", lines.len(), lines.join("\n"));
}

#[test]
fn every_rule_bites_and_names_file_row_and_rule() {
    for (file, from, to, at, row, rule) in BREAKAGES {
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
        ("cautions", "directness: 1", "directness: 0"),
        ("methods", "unit: \"mm\"", "unit: \"ell\""),
    ]);
    for rule in [Rule::UniqueId, Rule::CautionComplete, Rule::UnitKnown] {
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
    assert!(reference.grades.len() >= 193 && reference.fillers.len() >= 70 && reference.cautions.len() >= 97);
    let methods = "ce-iiw ce-si6 cet pcm cen ce-wes ceq-s49 method-b table-c1 d11-annex d11-band d11-category \
        practice-low-h grade-rows data-sheet ceq-bands carbon-line hydrogen-shift thickness-credit multi-run seferian \
        dearden-oneill ito-bessyo sae-chart heat-input t85 hv-yurioka hv-duren hv-maynier hv-wes andrews grange eldis \
        steven-haynes steelmaker-set koistinen-marburger hydrogen-diffusion post-heat inspection-delay yurioka-1983";
    for id in methods.split_whitespace() {
        assert!(reference.method(id).is_some(), "{id}");
    }
}

#[test]
fn units_of_limits_are_units_of_the_engine() {
    let engine = [
        Unit::Celsius,
        Unit::Kelvin,
        Unit::Millimetre,
        Unit::Second,
        Unit::KilojoulePerMm,
        Unit::MlPer100g,
        Unit::Ppm,
        Unit::Percent,
        Unit::Vickers,
        Unit::Megapascal,
        Unit::One,
    ];
    for method in &embedded().methods {
        for limit in &method.limits {
            // 1 kgf/mm2 is 9.80665 MPa: the multi-run formula is printed in it.
            let known = limit.unit == "kgf/mm2" || engine.iter().any(|unit| unit.symbol() == limit.unit);
            assert!(known, "{} of {}", limit.unit, method.id);
        }
    }
}
