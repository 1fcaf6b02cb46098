//! From strips to pages: what stays together, what is repeated, and what stands at the edges of each.

use super::draw::{Drawn, Ink, Item, Page, Pages, Paper, Weight};
use super::strip::{AXIS, BODY, Strip, Strips, Style};
use crate::words::Words;

/// What stays free at each edge of the paper.
pub const MARGIN: f64 = 36.0;
/// The head of later pages, with the room below it.
const RUNNING: f64 = 24.0;
/// The foot of each page, with the room above it.
const FOOT: f64 = 26.0;

/// The left and the right end of what is written.
pub(super) fn sides(paper: Paper) -> (f64, f64) {
    (MARGIN, paper.size().0 - MARGIN)
}

/// The top and the foot of what is written on a page.
fn body(paper: Paper, page: usize) -> (f64, f64) {
    let top = if page == 0 { MARGIN } else { MARGIN + RUNNING };
    (top, paper.size().1 - MARGIN - FOOT)
}

/// The height that is left for strips on a page with a running head.
pub(super) fn tallest(paper: Paper) -> f64 {
    let (top, foot) = body(paper, 1);
    foot - top
}

/// Where the next strip goes.
struct Flow {
    paper: Paper,
    pages: Vec<Page>,
    down: f64,
}

impl Flow {
    fn fits(&self, height: f64) -> bool {
        self.down + height <= body(self.paper, self.pages.len() - 1).1 + 1e-6
    }

    fn at_top(&self) -> bool {
        self.down <= body(self.paper, self.pages.len() - 1).0
    }

    fn turn(&mut self) {
        self.pages.push(Page::default());
        self.down = body(self.paper, self.pages.len() - 1).0;
    }

    fn put(&mut self, strip: &Strip) {
        let top = self.down;
        let items = strip
            .items
            .iter()
            .map(|item| Item { node: item.node, drawn: item.drawn.clone().moved((0.0, top)) });
        if let Some(page) = self.pages.last_mut() {
            page.items.extend(items);
        }
        self.down += strip.height;
    }

    /// Puts strips that stay together, on a new page where they don't fit on this one; what is higher
    /// than a page is parted.
    fn chain(&mut self, chain: &[Strip]) {
        let first = chain.first();
        let whole: f64 = chain.iter().map(|strip| strip.before + strip.height).sum();
        let repeated = first.and_then(|strip| strip.head.as_ref()).map_or(0.0, |head| head.height);
        let before = first.map_or(0.0, |strip| strip.before);
        if !self.fits(whole) && !self.at_top() && whole - before + repeated <= tallest(self.paper) {
            self.turn();
        }
        for strip in chain {
            if !self.fits(strip.before + strip.height) && !self.at_top() {
                self.turn();
            }
            let fresh = self.at_top();
            if !fresh {
                self.down += strip.before;
                if let (Some((left, right)), Some(page)) = (strip.rule, self.pages.last_mut()) {
                    let y = self.down - 5.0;
                    let drawn = Drawn::straight((left, y), (right, y), 0.5, Ink::Hair);
                    page.items.push(Item { node: None, drawn });
                }
            } else if let Some(head) = &strip.head {
                self.put(&head.repeated());
            }
            self.put(strip);
        }
    }
}

/// The pages of strips.
pub(super) fn pages(strips: Strips, paper: Paper, title: &str, foot: &str, words: &Words) -> Pages {
    let mut flow = Flow { paper, pages: vec![Page::default()], down: body(paper, 0).0 };
    let mut rest = strips.strips.as_slice();
    while !rest.is_empty() {
        let more = rest.iter().take_while(|strip| strip.with_next).count();
        let (chain, after) = rest.split_at((more + 1).min(rest.len()));
        flow.chain(chain);
        rest = after;
    }
    let mut pages = flow.pages;
    let count = pages.len();
    for (at, page) in pages.iter_mut().enumerate() {
        edges(page, paper, (at, count), (title, foot), words);
    }
    Pages { paper, title: title.to_owned(), language: words.language(), pages, nodes: strips.nodes }
}

/// The head of a later page, and the foot of each.
fn edges(
    page: &mut Page,
    paper: Paper,
    (at, count): (usize, usize),
    (title, foot): (&str, &str),
    words: &Words,
) {
    let (left, right) = sides(paper);
    let mut put = |drawn: Drawn| page.items.push(Item { node: None, drawn });
    let number = words.numbers("card-page", &[("page", at + 1), ("pages", count)], &[]);
    if at > 0 {
        let style = Style::new(BODY, Weight::Strong, Ink::Ink);
        let room = right - left - 12.0;
        let name = style.lines(title, room).into_iter().next().unwrap_or_default();
        put(style.text(name, left, MARGIN));
        put(Drawn::straight((left, MARGIN + 15.0), (right, MARGIN + 15.0), 0.75, Ink::Ink));
    }
    let top = paper.size().1 - MARGIN - FOOT + 8.0;
    let style = Style::new(AXIS, Weight::Regular, Ink::Soft);
    put(Drawn::straight((left, top), (right, top), 0.5, Ink::Hair));
    let room = right - left - style.width(&number) - 12.0;
    // One line: the sentence is ours, and a test holds it to that.
    let foot = style.lines(foot, room).into_iter().next().unwrap_or_default();
    put(style.text(foot, left, top + 4.0));
    put(style.text_to(number, right, top + 4.0));
}
