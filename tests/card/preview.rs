//! The preview: what is drawn of a page stands where the page has it, and is what the PDF shows.

use std::process::Command;

use strawblue::card::{Drawn, Paper, Sheet, pdf, sheet};
use strawblue::log::demo_log;
use strawblue::units::Units;

use crate::made::{card, now, runs};

/// Pixels in a box of the page that are not paper.
fn inked(sheet: &Sheet, scale: f64, ((left, top), (right, bottom)): ((f64, f64), (f64, f64))) -> usize {
    let span = |from: f64, to: f64, most: u32| {
        let at = |value: f64| (value * scale).clamp(0.0, f64::from(most));
        at(from).floor() as usize..at(to).ceil() as usize
    };
    let (columns, rows) = (span(left, right, sheet.width), span(top, bottom, sheet.height));
    let dark = |x: usize, y: usize| {
        let at = (y * sheet.width as usize + x) * 3;
        sheet.pixels[at..at + 3].iter().any(|lane| *lane < 200)
    };
    rows.map(|y| columns.clone().filter(|x| dark(*x, y)).count()).sum()
}

/// Every text, line and mark of each page leaves ink in its own place, and its margins stay white.
#[test]
fn everything_is_drawn_in_its_place() {
    for paper in Paper::ALL {
        let pages = card(&demo_log(), Units::C_MM, paper);
        let (wide, high) = paper.size();
        for nth in [0, pages.pages.len() - 1] {
            let drawn = sheet(&pages, nth, 900).expect("a page");
            let scale = 900.0 / wide;
            assert_eq!((drawn.width, drawn.height), (900, (high * scale).round() as u32));
            for (_, run) in runs(&pages, nth).filter(|(_, run)| !run.text.trim().is_empty()) {
                let place = Drawn::Text(run.clone()).bounds();
                assert!(inked(&drawn, scale, place) > 0, "{paper:?} page {nth}: {:?} is not drawn", run.text);
            }
            let edges =
                [((0.0, 0.0), (wide, 20.0)), ((0.0, 0.0), (20.0, high)), ((wide - 20.0, 0.0), (wide, high))];
            for edge in edges {
                assert_eq!(inked(&drawn, scale, edge), 0, "{paper:?} page {nth}: a margin is not white");
            }
        }
        assert_eq!(sheet(&pages, pages.pages.len(), 300), None);
        let narrow = sheet(&pages, 0, 0).expect("a page");
        assert_eq!(narrow.width, 1, "no width is too small for it");
    }
}

/// Debian's own reader draws the PDF with the ink in the same places, where it is there.
#[test]
fn it_shows_what_the_pdf_shows() {
    let folder = tempfile::tempdir().expect("a folder");
    let pages = card(&demo_log(), Units::C_MM, Paper::A4);
    let (file, stem) = (folder.path().join("card.pdf"), folder.path().join("page"));
    std::fs::write(&file, pdf(&pages, now()).expect("a PDF")).expect("written");
    let ran = Command::new("pdftoppm")
        .args(["-r", "72", "-f", "1", "-l", "1", "-scale-to-x", "595", "-scale-to-y", "841"])
        .args([&file, &stem])
        .status();
    let Ok(status) = ran else { return eprintln!("pdftoppm is not here; nothing was compared") };
    assert!(status.success());
    let there = std::fs::read_dir(folder.path()).expect("it is there").flatten();
    let picture =
        there.map(|entry| entry.path()).find(|path| path.extension().is_some_and(|end| end == "ppm"));
    let bytes = std::fs::read(picture.expect("it drew a page")).expect("read");
    // P6, width, height, greatest value, then three bytes a pixel.
    let theirs = Sheet { width: 595, height: 841, pixels: bytes[bytes.len() - 595 * 841 * 3..].to_vec() };
    let ours = sheet(&pages, 0, 595).expect("a page");
    assert_eq!((ours.width, ours.height), (theirs.width, theirs.height));
    // Of squares of 8 pixels nearly all are as dark here as there.
    let grey = |of: &Sheet, x: usize, y: usize| {
        let rows = (0..8).flat_map(|down| (0..8).map(move |right| ((y + down) * 595 + x + right) * 3));
        rows.map(|at| of.pixels[at..at + 3].iter().map(|lane| f64::from(*lane)).sum::<f64>() / 3.0)
            .sum::<f64>()
            / 64.0
    };
    let squares: Vec<(usize, usize)> =
        (0..841 / 8).flat_map(|y| (0..595 / 8).map(move |x| (x * 8, y * 8))).collect();
    let off =
        squares.iter().filter(|(x, y)| (grey(&ours, *x, *y) - grey(&theirs, *x, *y)).abs() > 40.0).count();
    assert!(off * 100 < squares.len(), "{off} of {} squares differ", squares.len());
}

/// For whoever wants to look: `STRAWBLUE_CARDS=FOLDER` writes the first pages as pictures.
#[test]
fn pages_to_be_looked_at() {
    let Ok(folder) = std::env::var("STRAWBLUE_CARDS") else { return };
    let pages = card(&demo_log(), Units::C_MM, Paper::A4);
    for (nth, width) in (0..pages.pages.len()).flat_map(|nth| [(nth, 328), (nth, 900)]) {
        let drawn = sheet(&pages, nth, width).expect("a page");
        let path = format!("{folder}/sheet-{width}-{}.png", nth + 1);
        image::save_buffer(path, &drawn.pixels, drawn.width, drawn.height, image::ColorType::Rgb8)
            .expect("a folder");
    }
}
