//! What the dataset holds against what is printed: every case of `tests/dataset/printed/`, its
//! source beside it. The figures were taken from the sources, not from the dataset.

use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;

use crate::printed_facts::{Case, Fact};
use strawblue::reference::search::Match;
use strawblue::reference::{
    CodeCase, CodeEdition, ConditionKind, FigureKind, Grade, GradeCondition, HardnessScale, PNumber, Printed,
    Reference, embedded,
};

fn files() -> Vec<(String, Vec<Case>)> {
    let folder: PathBuf = [env!("CARGO_MANIFEST_DIR"), "tests", "dataset", "printed"].iter().collect();
    let mut paths: Vec<PathBuf> = fs::read_dir(folder)
        .expect("the folder is there")
        .map(|entry| entry.expect("it can be read").path())
        .collect();
    paths.sort();
    paths
        .iter()
        .map(|path| {
            let text = fs::read_to_string(path).expect("it can be read");
            let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
            assert!(text.starts_with("// Source: "), "{name}: line 1 names no source");
            let cases = ron::from_str(&text).unwrap_or_else(|error| panic!("{name}: {error}"));
            (name, cases)
        })
        .collect()
}

fn grade<'a>(reference: &'a Reference, id: &str) -> Result<&'a Grade, String> {
    reference.grade(id).ok_or_else(|| format!("{id} is missing"))
}

fn condition(grade: &Grade, kind: ConditionKind, mm: f64) -> Result<&GradeCondition, String> {
    grade.condition_at(kind, mm).ok_or_else(|| format!("{} has no {kind:?} at {mm} mm", grade.id))
}

fn same(what: &str, found: Option<f64>, printed: Option<f64>, within: f64) -> Result<(), String> {
    let agree = match (found, printed) {
        (_, None) => true,
        (Some(found), Some(printed)) => (found - printed).abs() <= within,
        (None, Some(_)) => false,
    };
    if agree { Ok(()) } else { Err(format!("{what} is {found:?}, printed {printed:?}")) }
}

fn all(checks: impl IntoIterator<Item = Result<(), String>>) -> Result<(), String> {
    let wrong: Vec<String> = checks.into_iter().filter_map(Result::err).collect();
    if wrong.is_empty() { Ok(()) } else { Err(wrong.join("; ")) }
}

fn fahrenheit(printed: Option<Printed>) -> Option<f64> {
    printed.and_then(|printed| printed.f)
}

fn of_grade(reference: &Reference, fact: &Fact) -> Result<(), String> {
    match fact {
        Fact::Strength { grade: id, condition: kind, mm, yield_mpa, tensile_min_mpa, tensile_max_mpa } => {
            let row = condition(grade(reference, id)?, *kind, *mm)?;
            all([
                same("yield", row.yield_mpa, *yield_mpa, 0.0),
                same("tensile, low", row.tensile_min_mpa, *tensile_min_mpa, 0.0),
                same("tensile, high", row.tensile_max_mpa, *tensile_max_mpa, 0.0),
            ])
        }
        Fact::Brinell { grade: id, condition: kind, mm, low, high } => {
            let row = condition(grade(reference, id)?, *kind, *mm)?;
            let hardness = row.hardness.filter(|one| one.scale == HardnessScale::Hb);
            all([
                same("HB, low", hardness.and_then(|one| one.low), Some(*low), 0.0),
                same("HB, high", hardness.and_then(|one| one.high), *high, 0.0),
            ])
        }
        Fact::BrinellAt { grade: id, condition: kind, is } => {
            let hardness = condition(grade(reference, id)?, *kind, 25.0)?.hardness;
            let hardness = hardness.filter(|one| one.scale == HardnessScale::Hb);
            same("HB", hardness.and_then(|one| one.at), Some(*is), 0.0)
        }
        Fact::Usual { grade: id, condition: kind, yield_mpa, tensile_mpa } => {
            let row = condition(grade(reference, id)?, *kind, 25.0)?;
            let typical = row.figures == FigureKind::Typical;
            all([
                same("yield", row.yield_mpa, Some(*yield_mpa), 0.01 * yield_mpa),
                same("tensile", row.tensile_min_mpa, Some(*tensile_mpa), 0.01 * tensile_mpa),
                if typical { Ok(()) } else { Err("it stands as demanded".to_owned()) },
            ])
        }
        Fact::Temper { grade: id, low_c, high_c } => {
            let temper = grade(reference, id)?.temper_of(ConditionKind::HardenedTempered);
            all([
                same("temper, low", temper.map(|one| one.low_c), Some(*low_c), 0.0),
                same("temper, high", temper.and_then(|one| one.high_c), Some(*high_c), 0.0),
            ])
        }
        Fact::SheetPreheat { grade: id, c } => {
            let row = grade(reference, id)?;
            let sheet = row.data_sheet.as_ref().or(row.maker_sheet.as_ref());
            same("preheat", sheet.and_then(|sheet| sheet.low_c), Some(*c), 0.0)
        }
        Fact::Transformation { grade: id, ms_c, mf_c, ac1_c, ac3_c } => {
            let printed = grade(reference, id)?.transformation.as_ref().ok_or("none is held")?;
            all([
                same("Ms", Some(printed.ms_c), Some(*ms_c), 0.0),
                same("Mf", printed.mf_c, Some(*mf_c), 0.0),
                same("Ac1", printed.ac1_c, Some(*ac1_c), 0.0),
                same("Ac3", printed.ac3_c, Some(*ac3_c), 0.0),
            ])
        }
        Fact::MsPrinted { grade: id, ms_c } => {
            let printed = grade(reference, id)?.transformation.as_ref();
            same("Ms", printed.map(|printed| printed.ms_c), Some(*ms_c), 1.0)
        }
        Fact::Limits { grade: id, mm, element, min, max } => {
            let limits = grade(reference, id)?.composition_at(*mm);
            let one = limits.get(element).ok_or("the element has no limits")?;
            all([same("lowest", one.min, *min, 1e-9), same("highest", one.max, Some(*max), 1e-9)])
        }
        Fact::D11 { grade: id, category } => {
            let held = grade(reference, id)?.d11_category;
            if held == Some(*category) { Ok(()) } else { Err(format!("it is {held:?}")) }
        }
        Fact::Name { typed, grade: id } => {
            let found = reference.search(typed);
            let row = found.hits.iter().find(|hit| reference.grade_of(hit).is_some_and(|row| row.id == *id));
            match row.map(|hit| hit.how) {
                Some(how) if how < Match::Neighbour => Ok(()),
                how => Err(format!("{id} is found as {how:?}")),
            }
        }
        Fact::NotName { typed, grade: id } => {
            let found = reference.search(typed);
            let named =
                found.exact().iter().any(|hit| reference.grade_of(hit).is_some_and(|row| row.id == *id));
            if named { Err(format!("{typed} is a name of {id}")) } else { Ok(()) }
        }
        other => Err(format!("{other:?} is no fact of a grade")),
    }
}

fn of_table(reference: &Reference, fact: &Fact) -> Result<(), String> {
    match fact {
        Fact::Code { edition, number, mm, tensile, c, cr, at_c, at_f } => {
            let case = CodeCase { thickness_mm: *mm, tensile_mpa: *tensile, c: *c, cr: *cr };
            let row = reference.code_rows.hardest(*edition, *number, &case).ok_or("no row holds")?;
            all([same("°C", row.at.c, Some(*at_c), 0.0), same("°F", row.at.f, Some(*at_f), 0.0)])
        }
        Fact::Naval { row: id, at_f, interpass_f } => {
            let row = reference.code_rows.naval.iter().find(|row| row.id == *id).ok_or("no such row")?;
            all([
                same("°F", fahrenheit(row.at), *at_f, 0.0),
                same("interpass", fahrenheit(row.interpass), *interpass_f, 0.0),
            ])
        }
        Fact::NavalGroup { group: id, raised, at_f, interpass_f } => {
            let group = reference.own_sheets.group(id).ok_or("no such group")?;
            let found = if *raised { group.raised } else { Some(group.base) };
            all([
                same("°F", fahrenheit(found), Some(*at_f), 0.0),
                same("interpass", fahrenheit(group.interpass), *interpass_f, 0.0),
            ])
        }
        Fact::FillerStrength { filler: id, tensile_mpa, yield_mpa } => {
            let row = reference.filler(id).ok_or("no such filler")?;
            all([
                same("tensile", row.tensile_min_mpa, Some(*tensile_mpa), 16.0),
                same("yield", row.yield_min_mpa, *yield_mpa, 5.0),
                match row.tensile_min_mpa {
                    Some(held) if held <= tensile_mpa + 3.0 => Ok(()),
                    held => Err(format!("{held:?} is more than {tensile_mpa}")),
                },
            ])
        }
        Fact::FillerLimits { filler: id, element, min, max } => {
            let row = reference.filler(id).ok_or("no such filler")?;
            let limits = row.composition.get(element).ok_or("the element has no limits")?;
            all([same("lowest", limits.min, Some(*min), 1e-9), same("highest", limits.max, Some(*max), 1e-9)])
        }
        Fact::Bolt { class, c } => {
            let found = reference.practice.bolt_classes.iter().find(|one| one.class == *class);
            same("lowest temper", found.map(|one| one.temper_min_c), Some(*c), 0.0)
        }
        Fact::Hydrogen { process: id, reaches_ml } => {
            let process = reference.process(id).ok_or("no such process")?;
            let holds = process.hydrogen_high_ml >= *reaches_ml;
            if holds { Ok(()) } else { Err(format!("it ends at {} ml", process.hydrogen_high_ml)) }
        }
        Fact::Curve { grade: id, temper_c, hv, within } => {
            let curve = reference.practice.temper_curve_of(Some(id)).ok_or("no curve")?;
            all([
                same("HV", curve.hardness_hv(*temper_c), Some(*hv), *within),
                same(
                    "°C",
                    curve.hardness_hv(*temper_c).and_then(|hv| curve.temper_c(hv)),
                    Some(*temper_c),
                    0.01,
                ),
            ])
        }
        Fact::MsBand { c, too_low_k, too_high_k, within } => {
            let band = reference.transformation.ms_scatter.band(*c).ok_or("no band")?;
            all([
                same("too low", Some(band.too_low_k), *too_low_k, *within),
                same("too high", Some(band.too_high_k), *too_high_k, *within),
                if band.usable { Ok(()) } else { Err("no formula is to be used".to_owned()) },
            ])
        }
        Fact::NoFormula { c } => {
            let usable = reference.transformation.ms_scatter.band(*c).is_none_or(|band| band.usable);
            if usable { Err("a formula is used".to_owned()) } else { Ok(()) }
        }
        Fact::ThinTube { below_mm, at_f } => {
            let tube = &reference.practice.thin_tube;
            all([
                same("thickness", Some(tube.up_to_mm), Some(*below_mm), 1e-9),
                same("°F", tube.minimum.f, Some(*at_f), 0.0),
            ])
        }
        other => of_grade(reference, other),
    }
}

#[test]
fn every_printed_figure_is_held() {
    let mut asked = 0;
    let mut wrong = Vec::new();
    for (file, cases) in files() {
        let mut names = BTreeSet::new();
        for Case { name, source, fact } in &cases {
            asked += 1;
            assert!(source.len() > 6, "{file}, {name}: who prints it?");
            assert!(names.insert(name), "{file}, {name}: the name is used twice");
            if let Err(said) = of_table(embedded(), fact) {
                wrong.push(format!("{file}, {name} ({source}): {said}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{} of {asked} disagree:\n{}", wrong.len(), wrong.join("\n"));
    assert!(asked >= 350, "only {asked} figures were compared");
}

// What isn't known of a part counts as the harder case.
#[test]
fn an_unknown_strength_or_analysis_takes_the_harder_row() {
    let rows = &embedded().code_rows;
    let unknown = CodeCase { thickness_mm: 10.0, tensile_mpa: None, c: None, cr: None };
    let at = |number, case: &CodeCase| {
        rows.hardest(CodeEdition::B313Of2014, number, case).and_then(|row| row.at.c)
    };
    assert_eq!(at(PNumber::P5A, &unknown), Some(200.0));
    assert_eq!(at(PNumber::P3, &unknown), Some(95.0));
    assert_eq!(at(PNumber::P1, &CodeCase { thickness_mm: 25.1, ..unknown }), Some(95.0));
    assert_eq!(at(PNumber::P1, &CodeCase { thickness_mm: 25.0, ..unknown }), Some(10.0));
}

// AWS D1.1, older editions, for A514; naval practice for HY-80; wear plate: all from memory.
#[test]
fn a_document_that_prints_both_ends_gives_its_own_pair() {
    let pair = |id: &str, mm: f64| {
        let pair = embedded().grade(id)?.own_pair(mm)?;
        Some((pair.minimum.c?, pair.minimum_high.and_then(|high| high.c), pair.maximum.c?))
    };
    assert_eq!(pair("A514F", 25.0), Some((52.0, None, 205.0)));
    assert_eq!(pair("A514F", 80.0), Some((107.0, None, 230.0)));
    assert_eq!(pair("HY-80", 25.0), Some((52.0, Some(93.0), 149.0)));
    assert_eq!(pair("AR400", 25.0), Some((20.0, Some(150.0), 200.0)));
    assert_eq!(pair("4140", 25.0), None);
}

// Printed curves: what is softer was tempered hotter. Under the first point of a curve its first
// hardness shows the temper as well; above the last, no hardness does.
#[test]
fn a_hardness_shows_the_least_temper() {
    let practice = &embedded().practice;
    for curve in &practice.temper_curves {
        let first = curve.points.first().expect("it has points");
        let last = curve.points.last().expect("it has points");
        assert_eq!(curve.hardness_that_shows(first.temper_c - 50.0), Some(first.hv), "{}", curve.grade);
        assert_eq!(curve.hardness_that_shows(last.temper_c + 1.0), None, "{}", curve.grade);
        assert_eq!(curve.temper_c(first.hv + 1.0), None, "{}", curve.grade);
    }
    // A grade without a curve of its own takes that of 4140.
    let own = |id| practice.temper_curve_of(Some(id)).map(|curve| curve.grade.as_str());
    assert_eq!((own("4140"), own("4150"), own("C35")), (Some("4140"), Some("4140"), Some("C35")));
}
