//! The embedded dataset keeps every rule, and every rule bites.

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
    // File, what is replaced, by what; then file, row and rule of a fault that must be reported.
    let broken: &[(&str, &str, &str, &str, &str, Rule)] = &[
        (
            "grades",
            "designation: \"SAE 1008\",",
            "designation: SAE 1008,",
            "grades.ron",
            "line 5",
            Rule::Readable,
        ),
        (
            "grades",
            "weldability: 'A',",
            "weldability: 'A', colour: 3,",
            "grades.ron",
            "line 24",
            Rule::Readable,
        ),
        ("grades", "id: \"1010\"", "id: \"1008\"", "grades.ron", "1008", Rule::UniqueId),
        ("practice", "id: \"sae-1340\"", "id: \"sae-1330\"", "practice.ron", "sae-1330", Rule::UniqueId),
        (
            "grades",
            "Mn: (min: 0.3, max: 0.5)",
            "Mn: (min: 0.5, max: 0.3)",
            "grades.ron",
            "1008",
            Rule::RangeOrdered,
        ),
        ("grades", "yield_mpa: 170.0", "yield_mpa: 17.0", "grades.ron", "1008", Rule::RangeOrdered),
        ("grades", "C: (max: 0.1)", "C: (max: 110.0)", "grades.ron", "1008", Rule::RangeOrdered),
        (
            "grades",
            "(up_to_mm: 19.05, at: (f: 50.0, c: 10.0))",
            "(up_to_mm: 59.05, at: (f: 50.0, c: 10.0))",
            "grades.ron",
            "A709-HPS100W",
            Rule::RangeOrdered,
        ),
        (
            "fillers",
            "yield_min_mpa: 400.0",
            "yield_min_mpa: 600.0",
            "fillers.ron",
            "er70s-2",
            Rule::RangeOrdered,
        ),
        (
            "methods",
            "low: 0.05, high: 0.25",
            "low: 0.25, high: 0.05",
            "methods.ron",
            "ce-iiw",
            Rule::RangeOrdered,
        ),
        (
            "joints",
            "f2: (low: 0.45, high: 0.67)",
            "f2: (low: 0.67, high: 0.45)",
            "joints.ron",
            "t-fillet-one-side",
            Rule::RangeOrdered,
        ),
        (
            "processes",
            "hydrogen_low_ml: 1.0, hydrogen_high_ml: 3.0",
            "hydrogen_low_ml: 3.0, hydrogen_high_ml: 1.0",
            "processes.ron",
            "gtaw",
            Rule::RangeOrdered,
        ),
        ("grades", "source: \"astm-a29\"", "source: \"astm-a92\"", "grades.ron", "1008", Rule::SourceExists),
        (
            "grades",
            "composition_seen: [\"astm-a576\"]",
            "composition_seen: [\"nowhere\"]",
            "grades.ron",
            "1008",
            Rule::SourceExists,
        ),
        (
            "red_heat",
            "source: \"stove-wiki\"",
            "source: \"oven-wiki\"",
            "red_heat.ron",
            "stove-wiki",
            Rule::SourceExists,
        ),
        ("grades", "clause: \"grade table\"", "clause: \" \"", "grades.ron", "1008", Rule::SourceExists),
        ("cautions", "see: [\"or-osha\"]", "see: []", "sources.ron", "or-osha", Rule::SourceUsed),
        (
            "methods",
            "symbol: \"d\", unit: \"mm\"",
            "symbol: \"d\", unit: \"furlong\"",
            "methods.ron",
            "method-b",
            Rule::UnitKnown,
        ),
        ("practice", "grade: \"4130\"", "grade: \"4131\"", "practice.ron", "low-h-4130", Rule::RowExists),
        (
            "everyday_words",
            "grades: [\"4130\", \"4140\"",
            "grades: [\"4130\", \"4141\"",
            "everyday_words.ron",
            "chromoly",
            Rule::RowExists,
        ),
        (
            "everyday_words",
            "fillers: [\"e7018\"",
            "fillers: [\"e7081\"",
            "everyday_words.ron",
            "stick",
            Rule::RowExists,
        ),
        ("grades", "own_sheet: \"s-3\"", "own_sheet: \"s-9\"", "grades.ron", "P1", Rule::RowExists),
        ("words", "grade-note-leaded =", "grade-note-laden =", "grades.ron", "12L14", Rule::WordsExist),
        ("words", "method-cet =", "method-sect =", "methods.ron", "cet", Rule::WordsExist),
        ("words", "grade-note-leaded =", "grade-note-laden =", "en.ftl", "grade-note-laden", Rule::WordsUsed),
        (
            "cautions",
            "triggers: [(when: GrindingFirst, directness: 1)]",
            "triggers: []",
            "cautions.ron",
            "c001",
            Rule::CautionComplete,
        ),
        ("cautions", "directness: 1", "directness: 4", "cautions.ron", "c001", Rule::CautionComplete),
        ("cautions", "places: [Grind]", "places: []", "cautions.ron", "c001", Rule::CautionComplete),
        (
            "words",
            "    .do = Look it over.",
            "    .done = Look it over.",
            "cautions.ron",
            "c001",
            Rule::CautionComplete,
        ),
        (
            "cautions",
            "source: \"cfr-1910-215\", clause: \"(d)(1)\"",
            "source: \"cfr-1910-512\", clause: \"(d)(1)\"",
            "cautions.ron",
            "c001",
            Rule::SourceExists,
        ),
        (
            "grades",
            "high_c: 230.0, kind: Case",
            "high_c: 230.0, kind: Typical",
            "grades.ron",
            "4023",
            Rule::GradeComplete,
        ),
        (
            "grades",
            "(kind: AsRolled, yield_mpa: 170.0",
            "(kind: AsRolled, temper: (low_c: 200.0, kind: Typical), yield_mpa: 170.0",
            "grades.ron",
            "1008",
            Rule::GradeComplete,
        ),
        (
            "grades",
            "composition_usual: [Si]",
            "composition_usual: [Zr]",
            "grades.ron",
            "1008",
            Rule::GradeComplete,
        ),
        (
            "grades",
            "family: DoNotWeldLead",
            "family: ByAnalysis",
            "grades.ron",
            "12L14",
            Rule::GradeTreatment,
        ),
        (
            "grades",
            "family: DoNotWeldSulphur",
            "family: ByAnalysis",
            "grades.ron",
            "1117",
            Rule::GradeTreatment,
        ),
        ("grades", "family: GreyIron", "family: ByAnalysis", "grades.ron", "GREY", Rule::GradeTreatment),
        ("grades", "family: ToolSteel", "family: ByAnalysis", "grades.ron", "O1", Rule::GradeTreatment),
        (
            "tint_tables",
            "note: \"tint-column-steeper\"",
            "note: \"tint-column-deeper\"",
            "tint_tables.ron",
            "anvil",
            Rule::WordsExist,
        ),
        (
            "own_sheets",
            "iron: DuctileIron, low_c: 100.0",
            "iron: ToolSteel, low_c: 100.0",
            "own_sheets.ron",
            "ductile-ferritic-thick",
            Rule::GradeTreatment,
        ),
        (
            "grades",
            "(kind: HardenedTempered, temper: (low_c: 150.0, high_c: 200.0, kind: Typical)",
            "(kind: CaseHardened, temper: (low_c: 150.0, high_c: 200.0, kind: Case)",
            "grades.ron",
            "52100",
            Rule::GradeTreatment,
        ),
        ("grades", "d11_category: D,", "d11_category: C,", "grades.ron", "A913-50", Rule::GradeTreatment),
        (
            "grades",
            "preheat_rows: (rows:",
            "d11_category: C, preheat_rows: (rows:",
            "grades.ron",
            "A709-HPS100W",
            Rule::GradeTreatment,
        ),
        // A strength between the least and the highest tensile; one above the only tensile that is stated.
        (
            "grades",
            "yield_mpa: 170.0, tensile_min_mpa: 303.0",
            "yield_mpa: 310.0, tensile_min_mpa: 303.0",
            "grades.ron",
            "1008",
            Rule::RangeOrdered,
        ),
        ("grades", "hardness: (at: 86.0", "hardness: (at: 8.6", "grades.ron", "1008", Rule::RangeOrdered),
        (
            "grades",
            "hardness: (at: 86.0",
            "hardness: (at: 86.0, low: 80.0",
            "grades.ron",
            "1008",
            Rule::GradeComplete,
        ),
        (
            "grades",
            "basis: Memory(of: \"SAE J1397, estimated minimum values\")",
            "basis: Practice",
            "grades.ron",
            "1008",
            Rule::GradeComplete,
        ),
        (
            "grades",
            "basis: Memory(of: \"common heat treatment of carburised parts\")",
            "basis: Practice",
            "grades.ron",
            "4023",
            Rule::GradeComplete,
        ),
        (
            "grades",
            "fit: Memory, basis: Memory(of: \"textbooks\")",
            "fit: Memory, basis: Practice",
            "grades.ron",
            "52100",
            Rule::GradeComplete,
        ),
        (
            "grades",
            "fit: Memory, basis: Memory(of: \"textbooks\")",
            "fit: Analogy, basis: Memory(of: \"textbooks\")",
            "grades.ron",
            "52100",
            Rule::GradeComplete,
        ),
        (
            "grades",
            "pwht: (low_c: 593.0, high_c: 677.0, wording: \"grade-heat-relief-hour\", basis: Published(source: \"navsea-010-278\", clause: \"Table VI S-1\"))",
            "pwht: (low_c: 593.0, high_c: 677.0, basis: Practice)",
            "grades.ron",
            "1030",
            Rule::GradeComplete,
        ),
        (
            "grades",
            "pwht: (wording: \"grade-heat-not-required\", ",
            "pwht: (",
            "grades.ron",
            "1008",
            Rule::GradeComplete,
        ),
        // Carbon in percent must not turn into degrees, and words and row say one thing.
        (
            "words",
            "with 0.10–0.20 % carbon",
            "with { TEMP(0.10, 0.20) }",
            "en.ftl",
            "grade-heat-chart-c-mo-020",
            Rule::FiguresAgree,
        ),
        (
            "words",
            "with 0.10–0.20 % carbon",
            "with 0.10–0.20 °C",
            "en.ftl",
            "grade-heat-chart-c-mo-020",
            Rule::FiguresAgree,
        ),
        (
            "words",
            "grade-heat-chart-c-mo-020 = { TEMP(149, 260) }",
            "grade-heat-chart-c-mo-020 = { TEMP(149, 270) }",
            "grades.ron",
            "4118",
            Rule::FiguresAgree,
        ),
        (
            "grades",
            "low_c: 204.0, high_c: 316.0, wording: \"grade-heat-chart-c-mo-030\"",
            "low_c: 240.0, high_c: 316.0, wording: \"grade-heat-chart-c-mo-030\"",
            "grades.ron",
            "4027",
            Rule::FiguresAgree,
        ),
        (
            "grades",
            "wording: \"grade-heat-s-6\"",
            "wording: \"grade-heat-s-9\"",
            "grades.ron",
            "410",
            Rule::WordsExist,
        ),
        (
            "grades",
            "forms: [\"bar\", \"plate\"",
            "forms: [\"bar\", \"plait\"",
            "grades.ron",
            "1008",
            Rule::WordsExist,
        ),
        ("grades", "grade-state-skin", "grade-state-kin", "grades.ron", "1045", Rule::WordsExist),
        ("d11", "(f: 140.0, c: 60.0)", "(f: 140.0, c: 140.0)", "d11.ron", "annex", Rule::PrintedAgree),
        ("table_c1", "combined_mm: 30.0", "combined_mm: 20.0", "table_c1.ron", "table", Rule::TableWhole),
        (
            "d11",
            "(f: 300.0, c: 150.0, seen: true)",
            "(f: 100.0, c: 40.0, seen: true)",
            "d11.ron",
            "annex",
            Rule::TableWhole,
        ),
        (
            "d11",
            "(level: H2, groups: [B, C, D, E, F])",
            "(level: H2, groups: [B, C, D, E])",
            "d11.ron",
            "groups",
            Rule::TableWhole,
        ),
        (
            "practice",
            "(up_to: 0.50, preheat_c: 150.0)",
            "(up_to: 0.50, preheat_c: 90.0)",
            "practice.ron",
            "ceq_bands",
            Rule::TableWhole,
        ),
        (
            "joints",
            "ways: (first: 2, second: 1)",
            "ways: (first: 2, second: 0)",
            "joints.ron",
            "t-fillet-one-side",
            Rule::TableWhole,
        ),
    ];
    for (file, from, to, at, row, rule) in broken {
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
    let page = include_str!("../data/README.md");
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
    let page = include_str!("../data/README.md");
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
