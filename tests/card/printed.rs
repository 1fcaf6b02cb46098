//! The PDF, read back by libraries that did not make it.

use std::collections::BTreeMap;
use std::process::Command;

use lopdf::{Dictionary, Document, Object};
use strawblue::card::{Paper, pdf};
use strawblue::log::demo_log;
use strawblue::units::Units;

use crate::made::{bare, card, now};

fn made(units: Units, paper: Paper) -> Vec<u8> {
    let bytes = pdf(&card(&demo_log(), units, paper), now()).expect("both validators pass it");
    // To be looked at, page by page.
    if let Ok(folder) = std::env::var("STRAWBLUE_CARDS") {
        std::fs::write(format!("{folder}/card-{}-{paper:?}.pdf", units.id()), &bytes).expect("a folder");
    }
    bytes
}

fn opened(bytes: &[u8]) -> Document {
    Document::load_mem(bytes).expect("a PDF")
}

fn dictionary<'a>(document: &'a Document, object: &'a Object) -> Option<&'a Dictionary> {
    document.dereference(object).ok()?.1.as_dict().ok()
}

/// Every element of the structure, as a general reader finds it: role and dictionary.
fn elements(document: &Document) -> Vec<(String, Dictionary)> {
    let all = document.objects.values().filter_map(|object| object.as_dict().ok());
    let of = |dictionary: &Dictionary| {
        let role = dictionary.get(b"S").ok()?.as_name().ok()?;
        dictionary.has(b"P").then(|| (String::from_utf8_lossy(role).into_owned(), dictionary.clone()))
    };
    all.filter_map(of).collect()
}

#[test]
fn its_text_is_read_back() {
    for (units, paper) in [(Units::C_MM, Paper::A4), (Units::F_IN, Paper::Letter)] {
        let bytes = made(units, paper);
        let document = opened(&bytes);
        let pages: Vec<u32> = document.get_pages().keys().copied().collect();
        let drawn = card(&demo_log(), units, paper);
        assert_eq!(pages.len(), drawn.pages.len());
        for page in pages {
            let text = bare(&document.extract_text(&[page]).expect("text"));
            for (_, run) in crate::made::runs(&drawn, page as usize - 1) {
                assert!(text.contains(&bare(&run.text)), "page {page} lacks {:?}", run.text);
            }
        }
    }
}

/// Debian's reader finds the same, where it is there.
#[test]
fn another_reader_reads_the_same() {
    let bytes = made(Units::C_MM, Paper::A4);
    let file = tempfile::NamedTempFile::new().expect("a file");
    std::fs::write(file.path(), &bytes).expect("written");
    let ran = Command::new("pdftotext").args(["-layout"]).arg(file.path()).arg("-").output();
    let Ok(ran) = ran else {
        println!("pdftotext is not here");
        return;
    };
    let text = bare(&String::from_utf8_lossy(&ran.stdout));
    for said in ["Screen bell crank", "at least 300 °C", "Minimum preheat, at least", "Above the maximum"] {
        assert!(text.contains(&bare(said)), "{said}");
    }
    if let Ok(ran) = Command::new("qpdf").arg("--check").arg(file.path()).output() {
        assert!(ran.status.success(), "{}", String::from_utf8_lossy(&ran.stderr));
    }
}

/// What PDF/UA-1 (ISO 14289-1) asks for and PDF/A-2a (ISO 19005-2): tags, title shown, language, both
/// standards named in the metadata.
#[test]
fn it_is_tagged_and_says_what_it_is() {
    let bytes = made(Units::C_MM, Paper::A4);
    let document = opened(&bytes);
    let catalog = document.catalog().expect("a catalog");
    let marked = dictionary(&document, catalog.get(b"MarkInfo").expect("marked")).expect("marks");
    assert!(marked.get(b"Marked").expect("marked").as_bool().expect("yes or no"));
    let language = catalog.get(b"Lang").expect("a language").as_str().expect("a text");
    assert_eq!(language, b"en");
    let shown =
        dictionary(&document, catalog.get(b"ViewerPreferences").expect("how it opens")).expect("them");
    assert!(shown.get(b"DisplayDocTitle").expect("the title is shown").as_bool().expect("yes or no"));
    assert!(catalog.has(b"StructTreeRoot") && catalog.has(b"Outlines"));
    let metadata = catalog.get(b"Metadata").expect("metadata");
    let (_, metadata) = document.dereference(metadata).expect("metadata");
    let stream = metadata.as_stream().expect("a stream");
    let content = stream.get_plain_content().unwrap_or_else(|_| stream.content.clone());
    let text = String::from_utf8_lossy(&content).into_owned();
    for said in ["pdfuaid:part>1<", "pdfaid:part>2<", "pdfaid:conformance>A<", "Screen bell crank, job card"]
    {
        assert!(text.contains(said), "{said}: {text}");
    }
}

#[test]
fn its_parts_have_their_roles() {
    let bytes = made(Units::C_MM, Paper::A4);
    let document = opened(&bytes);
    let elements = elements(&document);
    let mut count: BTreeMap<&str, usize> = BTreeMap::new();
    for (role, _) in &elements {
        *count.entry(role).or_default() += 1;
    }
    assert_eq!(count.get("H1"), Some(&1), "{count:?}");
    for role in
        ["H2", "H3", "P", "L", "LI", "Lbl", "LBody", "Table", "THead", "TBody", "TR", "TH", "TD", "Figure"]
    {
        assert!(count.contains_key(role), "{role}: {count:?}");
    }
    // No part is empty: a screen reader would stop at it and say nothing.
    let empty = elements.iter().filter(|(_, element)| element.get(b"K").is_err()).count();
    assert_eq!(empty, 0);
    // A picture says what it shows, a head what it is the head of.
    for (role, element) in &elements {
        match role.as_str() {
            "Figure" => {
                let says = element.get(b"Alt").expect("what it shows").as_str().expect("a text");
                assert!(says.len() > 20, "{says:?}");
            }
            "TH" => {
                let told = element.get(b"A").expect("attributes");
                let told = document.dereference(told).expect("attributes").1;
                assert!(format!("{told:?}").contains("Scope"), "{told:?}");
            }
            _ => {}
        }
    }
    // The rows of the tables are those of the readings and more.
    let log = demo_log();
    assert!(count["TR"] > log.standing().readings.len(), "{count:?}");
}

/// Fonts are embedded, with no more letters than are used.
#[test]
fn its_fonts_are_in_it() {
    let bytes = made(Units::C_MM, Paper::A4);
    let document = opened(&bytes);
    let descriptors: Vec<&Dictionary> = document
        .objects
        .values()
        .filter_map(|object| object.as_dict().ok())
        .filter(|dictionary| {
            dictionary
                .get(b"Type")
                .is_ok_and(|kind| kind.as_name().is_ok_and(|name| name == b"FontDescriptor"))
        })
        .collect();
    assert_eq!(descriptors.len(), 2);
    for descriptor in descriptors {
        let name = descriptor.get(b"FontName").expect("a name").as_name().expect("a name");
        let name = String::from_utf8_lossy(name).into_owned();
        assert!(name.as_bytes()[6] == b'+' && name.contains("IBMPlexSans"), "{name}");
        assert!(descriptor.has(b"FontFile2") || descriptor.has(b"FontFile3"), "{name}");
    }
    assert!(bytes.len() < 400_000, "{} bytes", bytes.len());
}

/// The same log gives the same file.
#[test]
fn it_is_made_the_same_again() {
    assert_eq!(made(Units::C_MM, Paper::A4), made(Units::C_MM, Paper::A4));
}
