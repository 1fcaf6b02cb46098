//! Laws of the pages: nothing outside the paper, nothing lost, nothing over another, rows in their order.

use proptest::prelude::*;
use strawblue::card::{
    Block, Cell, Column, Content, Drawn, Limit, MARGIN, Pages, Paper, Role, Sign, Step, Table, Weight, face,
    pages,
};
use strawblue::log::demo_log;
use strawblue::units::Units;
use strawblue::words::Words;

use crate::made::{bare, card, read, runs};

fn all_is_inside(pages: &Pages) -> Result<(), TestCaseError> {
    let (width, height) = pages.paper.size();
    for (nth, page) in pages.pages.iter().enumerate() {
        for item in &page.items {
            let ((left, top), (right, bottom)) = item.drawn.bounds();
            // A space at the end of a line shows nothing.
            let right = match &item.drawn {
                Drawn::Text(run) => {
                    right - face::width(&run.text, run.size, run.weight)
                        + face::width(run.text.trim_end(), run.size, run.weight)
                }
                _ => right,
            };
            let inside = left >= MARGIN - 3.0
                && top >= MARGIN - 6.0
                && right <= width - MARGIN + 3.0
                && bottom <= height - MARGIN + 3.0;
            prop_assert!(inside, "page {nth}: {:?}", item.drawn);
        }
    }
    Ok(())
}

/// No text lies on another one.
fn no_text_is_over_another(pages: &Pages) -> Result<(), TestCaseError> {
    for page in 0..pages.pages.len() {
        let boxes: Vec<_> = runs(pages, page)
            .filter(|(_, run)| !run.text.trim().is_empty())
            .map(|(_, run)| {
                let wide = face::width(run.text.trim_end(), run.size, run.weight);
                let (x, y) = run.at;
                // From the foot of the small letters to the top of the capitals.
                (x + 0.2, y - 0.6 * run.size, x + wide - 0.2, y - 0.1, &run.text)
            })
            .collect();
        for (at, one) in boxes.iter().enumerate() {
            for other in &boxes[at + 1..] {
                let apart = one.2 <= other.0 || other.2 <= one.0 || one.3 <= other.1 || other.3 <= one.1;
                prop_assert!(apart, "page {page}: {:?} and {:?}", one.4, other.4);
            }
        }
    }
    Ok(())
}

/// Rows and entries follow each other down the pages.
fn rows_are_in_order(pages: &Pages) -> Result<(), TestCaseError> {
    let mut place: Vec<Option<(usize, f64)>> = vec![None; pages.nodes.len()];
    for (nth, page) in pages.pages.iter().enumerate() {
        for item in &page.items {
            let Some(mut node) = item.node else { continue };
            let (_, top) = item.drawn.bounds().0;
            loop {
                let here = place[node].get_or_insert((nth, top));
                if here.0 == nth {
                    here.1 = here.1.min(top);
                }
                match pages.nodes[node].within {
                    Some(above) => node = above,
                    None => break,
                }
            }
        }
    }
    let mut last: Option<(Option<usize>, (usize, f64))> = None;
    for (at, node) in pages.nodes.iter().enumerate().filter(|(_, node)| node.role == Role::Row) {
        let Some(here) = place[at] else { continue };
        if let Some((within, before)) = last.filter(|(within, _)| *within == node.within) {
            prop_assert!((before.0, before.1) <= (here.0, here.1 + 1e-6), "{within:?}: {before:?}, {here:?}");
        }
        last = Some((node.within, here));
    }
    Ok(())
}

/// What a block says, in the order of reading.
fn said(block: &Block) -> Vec<String> {
    match block {
        Block::Title { over, name, aside } => [vec![over.clone(), name.clone()], aside.clone()].concat(),
        Block::Heading { text, aside, .. } => vec![text.clone(), aside.clone()],
        Block::Text(text) | Block::Strong(text) | Block::Note(text) | Block::Danger(text) => {
            vec![text.clone()]
        }
        Block::Blanks(blanks) => blanks
            .iter()
            .flat_map(|(label, value)| [label.clone(), value.clone().unwrap_or_default()])
            .collect(),
        Block::Limits(limits) => limits
            .iter()
            .flat_map(|limit| [&limit.label, &limit.figure, &limit.basis].map(Clone::clone))
            .collect(),
        Block::Facts(facts) | Block::Cautions(facts) => {
            facts.iter().flat_map(|(label, text)| [label.clone(), text.clone()]).collect()
        }
        Block::Order(steps) => steps
            .iter()
            .flat_map(|step| [&step.number, &step.way, &step.what, &step.figure].map(Clone::clone))
            .collect(),
        Block::Steps(steps) => steps
            .iter()
            .flat_map(|step| {
                let head = [&step.number, &step.way, &step.what, &step.figure].map(Clone::clone);
                head.into_iter().chain(step.notes.clone())
            })
            .collect(),
        Block::Table(table) => {
            let heads = table.columns.iter().map(|column| column.head.clone());
            heads.chain(table.rows.iter().flatten().map(|cell| cell.text.clone())).collect()
        }
        Block::Signatures(names) => names.clone(),
        Block::Picture { .. } => Vec::new(),
    }
}

fn nothing_is_lost(content: &Content, pages: &Pages) -> Result<(), TestCaseError> {
    let all = bare(&read(pages));
    let mut rest = all.as_str();
    for text in content.blocks.iter().flat_map(said) {
        let wanted = bare(&face::drawable(&text).0);
        let found = rest.find(&wanted);
        prop_assert!(found.is_some(), "{wanted:?} is not read after what stands before it");
        rest = &rest[found.unwrap_or(0) + wanted.len()..];
    }
    Ok(())
}

fn laws(content: &Content, paper: Paper) -> Result<Pages, TestCaseError> {
    let made = pages(content, paper, &Words::english());
    all_is_inside(&made)?;
    no_text_is_over_another(&made)?;
    rows_are_in_order(&made)?;
    nothing_is_lost(content, &made)?;
    Ok(made)
}

fn text() -> impl Strategy<Value = String> {
    prop_oneof![
        4 => "[a-zØµ0-9]{1,9}( [A-Za-z°]{1,12}){0,6}",
        2 => "[a-z]{1,9}( [a-z]{1,9}){20,60}",
        1 => "[A-Za-z/_]{60,200}",
        1 => "\\PC{0,30}",
        1 => Just(String::new()),
    ]
}

fn block() -> impl Strategy<Value = Block> {
    let pair = || (text(), text());
    let step =
        (text(), 1..40_u32, text(), prop_oneof!["", "300–350 °C"], prop::collection::vec(text(), 0..4));
    let step = step.prop_map(|(way, number, what, figure, notes)| Step {
        way: if number % 5 == 0 { way } else { String::new() },
        number: number.to_string(),
        what,
        figure,
        notes,
    });
    let step = step.boxed();
    let sign = prop::option::of(prop_oneof![Just(Sign::Inside), Just(Sign::Below), Just(Sign::CannotTell)]);
    let cell = (sign, text()).prop_map(|(sign, text)| Cell { sign, text }).boxed();
    let table = (2..7_usize).prop_flat_map(move |columns| {
        let rows = prop::collection::vec(prop::collection::vec(cell.clone(), columns), 0..60);
        rows.prop_map(move |rows| Table {
            summary: String::new(),
            columns: (0..columns).map(|nth| Column { head: format!("Head {nth}"), share: 1.0 }).collect(),
            rows,
        })
    });
    let limit = (text(), prop_oneof!["300", "Not known", "None"], text());
    let limit = limit.prop_map(|(label, figure, basis)| Limit {
        label: label.chars().take(20).collect(),
        figure,
        unit: "°C".to_owned(),
        sign: Some(Sign::Practice),
        basis,
    });
    prop_oneof![
        3 => text().prop_map(Block::Text),
        2 => text().prop_map(Block::Note),
        1 => text().prop_map(Block::Danger),
        2 => (2..4_u8, text()).prop_map(|(level, text)| Block::Heading { level, text, aside: String::new() }),
        1 => prop::collection::vec(pair(), 0..12).prop_map(Block::Facts),
        1 => prop::collection::vec(pair(), 0..5).prop_map(Block::Cautions),
        1 => prop::collection::vec((text(), prop::option::of(text())), 1..5).prop_map(Block::Blanks),
        1 => prop::collection::vec(limit, 3).prop_map(Block::Limits),
        2 => prop::collection::vec(step.clone(), 0..20).prop_map(Block::Steps),
        1 => prop::collection::vec(step, 0..40).prop_map(Block::Order),
        3 => table.prop_map(Block::Table),
        1 => prop::collection::vec("[A-Z][a-z]{3,9}", 1..4).prop_map(Block::Signatures),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    #[test]
    fn whatever_a_card_says_its_pages_keep_the_laws(
        title in text(),
        blocks in prop::collection::vec(block(), 1..14),
        letter in any::<bool>(),
    ) {
        let over = "Job card".to_owned();
        let head = Block::Title { over, name: title.clone(), aside: vec!["2026-03-17 16:06".to_owned()] };
        let blocks = std::iter::once(head).chain(blocks).collect();
        let content = Content { title, foot: "Local codes come first.".to_owned(), blocks };
        laws(&content, if letter { Paper::Letter } else { Paper::A4 })?;
    }

    /// Lines hold the width, and together they are the text again.
    #[test]
    fn lines_are_the_text_again(text in text(), width in 20.0..500.0_f64) {
        let text = face::drawable(&text).0;
        let lines = face::lines(&text, 9.0, Weight::Regular, width);
        prop_assert_eq!(lines.concat(), text);
        for line in &lines {
            let bare = face::width(line.trim_end(), 9.0, Weight::Regular);
            prop_assert!(bare <= width + 1e-9 || line.trim_end().chars().count() == 1, "{} in {}", bare, width);
        }
    }
}

/// The example on both papers, in every units.
#[test]
fn the_example_keeps_the_laws() -> Result<(), TestCaseError> {
    for paper in Paper::ALL {
        for units in Units::ALL {
            let made = card(&demo_log(), units, paper);
            all_is_inside(&made)?;
            no_text_is_over_another(&made)?;
            rows_are_in_order(&made)?;
        }
    }
    Ok(())
}

/// A table that goes on has its head again, and it is read once.
#[test]
fn the_head_of_a_table_stands_on_each_of_its_pages() {
    let row = |nth: usize| vec![Cell::from(format!("row {nth}")), Cell::from("text".to_owned())];
    let column = |head: &str| Column { head: head.to_owned(), share: 1.0 };
    let table = Table {
        summary: "Rows".to_owned(),
        columns: vec![column("Number"), column("What")],
        rows: (0..300).map(row).collect(),
    };
    let content = Content { title: "T".to_owned(), foot: "F".to_owned(), blocks: vec![Block::Table(table)] };
    let made = pages(&content, Paper::A4, &Words::english());
    assert!(made.pages.len() > 3, "{} pages", made.pages.len());
    for page in 0..made.pages.len() {
        let heads: Vec<Option<usize>> =
            runs(&made, page).filter(|(_, run)| run.text.trim() == "Number").map(|(node, _)| node).collect();
        assert_eq!(heads.len(), 1, "page {page}");
        assert_eq!(heads[0].is_some(), page == 0, "page {page}");
    }
}

/// A heading is never the last thing of a page, and no row is alone on the last one.
#[test]
fn a_heading_stays_with_what_it_is_over() {
    for count in 0..90 {
        let filler = (0..count).map(|nth| Block::Text(format!("line {nth}")));
        let heading = Block::Heading { level: 2, text: "Heading".to_owned(), aside: String::new() };
        let row = |nth: usize| vec![Cell::from(format!("row {nth}"))];
        let column = Column { head: "Head".to_owned(), share: 1.0 };
        let rows: Vec<_> = (0..3).map(row).collect();
        let table = Block::Table(Table { summary: String::new(), columns: vec![column], rows });
        let blocks = filler.chain([heading, table]).collect();
        let content = Content { title: String::new(), foot: String::new(), blocks };
        let made = pages(&content, Paper::A4, &Words::english());
        let page_of = |text: &str| {
            (0..made.pages.len()).find(|page| runs(&made, *page).any(|(_, run)| run.text.trim() == text))
        };
        assert_eq!(page_of("Heading"), page_of("row 0"), "{count} lines before");
        assert_eq!(page_of("row 1"), page_of("row 2"), "{count} lines before");
    }
}

/// The bundled fonts have every letter that the messages are written with, and the sign for one that
/// they lack.
#[test]
fn the_fonts_have_the_letters_of_the_messages() {
    let all = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/data/en.ftl")).expect("reads");
    let (drawn, lacks) = face::drawable(&all);
    let lost: Vec<(char, char)> = all
        .chars()
        .filter(|sign| !sign.is_control())
        .zip(drawn.chars())
        .filter(|(one, other)| *other == face::LACKING && one != other)
        .take(5)
        .collect();
    assert!(!lacks || lost.is_empty(), "{lost:?}");
    assert!(face::drawable("中").1 && !face::drawable("Ø90 mm → 300–350 °C").1);
}
