//! The embedded dataset keeps every rule, and every rule bites.

use crate::breakages::BREAKAGES;
use crate::{breakages_heat, breakages_shop};
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
    let (crayons, post_heat) = (text("crayons", own.crayons), text("post_heat", own.post_heat));
    let (fits, expansion, fuels) =
        (text("fits", own.fits), text("expansion", own.expansion), text("fuels", own.fuels));
    let electrode_exposure = text("electrode_exposure", own.electrode_exposure);
    let slow_cooling = text("slow_cooling", own.slow_cooling);
    let (code_rows, transformation) =
        (text("code_rows", own.code_rows), text("transformation", own.transformation));
    let heat_cycle = text("heat_cycle", own.heat_cycle);
    let (weld_runs, weld_strength) =
        (text("weld_runs", own.weld_runs), text("weld_strength", own.weld_strength));
    let (weld_current, unmarked) = (text("weld_current", own.weld_current), text("unmarked", own.unmarked));
    let repair = text("repair", own.repair);
    let (weld_cracks, weld_treatment) =
        (text("weld_cracks", own.weld_cracks), text("weld_treatment", own.weld_treatment));
    let files = Files {
        sources: &sources,
        grades: &grades,
        fillers: &fillers,
        cautions: &cautions,
        methods: &methods,
        practice: &practice,
        d11: &d11,
        table_c1: &table_c1,
        code_rows: &code_rows,
        transformation: &transformation,
        processes: &processes,
        joints: &joints,
        inspection: &inspection,
        own_sheets: &own_sheets,
        post_heat: &post_heat,
        fits: &fits,
        expansion: &expansion,
        fuels: &fuels,
        electrode_exposure: &electrode_exposure,
        slow_cooling: &slow_cooling,
        heat_cycle: &heat_cycle,
        everyday_words: &everyday_words,
        optics: &optics,
        tint_tables: &tint_tables,
        red_heat: &red_heat,
        surfaces: &surfaces,
        crayons: &crayons,
        weld_runs: &weld_runs,
        weld_strength: &weld_strength,
        weld_current: &weld_current,
        weld_cracks: &weld_cracks,
        weld_treatment: &weld_treatment,
        unmarked: &unmarked,
        repair: &repair,
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
