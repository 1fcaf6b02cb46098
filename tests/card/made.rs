//! Cards of logs, made for the tests.

use strawblue::card::{Content, Drawn, Lost, Pages, Paper, Run, content, pages};
use strawblue::log::{Log, Moment};
use strawblue::reference::embedded;
use strawblue::report::Pen;
use strawblue::units::{Show, Units};
use strawblue::words::Words;

/// 17 March 2026, 16:06 on a clock one hour ahead of UTC.
pub(crate) const NOW: (i64, i16) = (1_773_759_960, 60);

pub(crate) fn now() -> Moment {
    Moment::new(NOW.0, NOW.1)
}

pub(crate) fn words(units: Units) -> Words {
    let words = Words::english();
    words.write_in(units.scales());
    words
}

pub(crate) fn pen(words: &Words, units: Units) -> Pen<'_> {
    Pen { reference: embedded(), words, show: Show::new(units, words) }
}

pub(crate) fn says(log: &Log, units: Units, lost: Lost) -> Content {
    let words = words(units);
    content(&pen(&words, units), &log.standing(), now(), lost).expect("a job stands")
}

pub(crate) fn card(log: &Log, units: Units, paper: Paper) -> Pages {
    pages(&says(log, units, Lost::default()), paper, &words(units))
}

/// The texts of a page.
pub(crate) fn runs(pages: &Pages, page: usize) -> impl Iterator<Item = (Option<usize>, &Run)> {
    pages.pages[page].items.iter().filter_map(|item| match &item.drawn {
        Drawn::Text(run) => Some((item.node, run)),
        _ => None,
    })
}

/// What is read of a card, part by part in the order of reading.
pub(crate) fn read(pages: &Pages) -> String {
    let mut by_node = vec![String::new(); pages.nodes.len()];
    for page in 0..pages.pages.len() {
        for (node, run) in runs(pages, page).filter_map(|(node, run)| Some((node?, run))) {
            by_node[node].push_str(&run.text);
        }
    }
    by_node.join("\n")
}

/// A text without its spaces, for comparing what was wrapped.
pub(crate) fn bare(text: &str) -> String {
    text.chars().filter(|sign| !sign.is_whitespace()).collect()
}
