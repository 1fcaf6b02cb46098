//! A strip of a page: what is never parted by the end of a page.

use std::rc::Rc;

use super::draw::{Drawn, Ink, Item, Node, Point, Role, Run, Weight};
use super::face;

/// The size of what is read, of notes, and of what stands on an axis.
pub(super) const BODY: f64 = 9.0;
pub(super) const NOTE: f64 = 8.0;
pub(super) const AXIS: f64 = 7.5;
/// The size of headings.
pub(super) const HEAD: f64 = 12.0;
pub(super) const SUBHEAD: f64 = 10.0;

/// How far one line is below the one before, of the size of its letters.
const LEADING: f64 = 1.38;

/// How high a line is.
pub(super) fn line_height(size: f64) -> f64 {
    size * LEADING
}

/// A strip; its items are placed from its upper left corner.
#[derive(Debug, Clone, Default)]
pub(super) struct Strip {
    /// How high it is.
    pub(super) height: f64,
    /// How much room there is before it, but at the top of a page.
    pub(super) before: f64,
    /// What stands on it.
    pub(super) items: Vec<Item>,
    /// Does it stay on one page with what follows?
    pub(super) with_next: bool,
    /// Is there a line over it, but at the top of a page, where one stands already? From where to where.
    pub(super) rule: Option<Point>,
    /// What is drawn again above it where a page begins with it.
    pub(super) head: Option<Rc<Self>>,
}

impl Strip {
    pub(super) fn of(height: f64) -> Self {
        Self { height, ..Self::default() }
    }

    pub(super) fn put(&mut self, node: Option<usize>, drawn: Drawn) {
        self.items.push(Item { node, drawn });
    }

    /// The same with nothing on it that is read: it was read before.
    pub(super) fn repeated(&self) -> Self {
        let items = self.items.iter().map(|item| Item { node: None, drawn: item.drawn.clone() });
        Self { items: items.collect(), head: None, rule: None, with_next: true, ..self.clone() }
    }
}

/// How a text is written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Style {
    pub(super) size: f64,
    pub(super) weight: Weight,
    pub(super) ink: Ink,
}

impl Style {
    pub(super) const fn new(size: f64, weight: Weight, ink: Ink) -> Self {
        Self { size, weight, ink }
    }

    pub(super) const BODY: Self = Self::new(BODY, Weight::Regular, Ink::Ink);
    pub(super) const STRONG: Self = Self::new(BODY, Weight::Strong, Ink::Ink);
    pub(super) const NOTE: Self = Self::new(NOTE, Weight::Regular, Ink::Soft);
    pub(super) const AXIS: Self = Self::new(AXIS, Weight::Regular, Ink::Soft);

    pub(super) fn width(self, text: &str) -> f64 {
        face::width(text, self.size, self.weight)
    }

    pub(super) fn lines(self, text: &str, most: f64) -> Vec<String> {
        face::lines(text, self.size, self.weight, most)
    }

    pub(super) fn height(self) -> f64 {
        line_height(self.size)
    }

    /// A text whose line has its top at `top`.
    pub(super) fn text(self, text: impl Into<String>, left: f64, top: f64) -> Drawn {
        // The letters stand in the middle of their line.
        let down = (self.height() - self.size * (face::ABOVE + face::BELOW)) / 2.0 + self.size * face::ABOVE;
        self.on_line(text, (left, top + down))
    }

    /// A text on the line that its letters stand on.
    pub(super) fn on_line(self, text: impl Into<String>, at: Point) -> Drawn {
        let Self { size, weight, ink } = self;
        Drawn::Text(Run { at, text: text.into(), size, weight, ink })
    }

    /// The same with its right end at `right`.
    pub(super) fn text_to(self, text: impl Into<String>, right: f64, top: f64) -> Drawn {
        let text = text.into();
        let left = right - self.width(text.trim_end());
        self.text(text, left, top)
    }

    /// The same with its middle at `middle`.
    pub(super) fn text_about(self, text: impl Into<String>, middle: f64, top: f64) -> Drawn {
        let text = text.into();
        let left = middle - self.width(text.trim_end()) / 2.0;
        self.text(text, left, top)
    }
}

/// One of several texts that stand side by side.
#[derive(Debug, Clone)]
pub(super) struct Beside {
    pub(super) node: usize,
    pub(super) style: Style,
    pub(super) lines: Vec<String>,
    /// Its left end, or its right end.
    pub(super) at: f64,
    pub(super) to_right: bool,
}

impl Beside {
    pub(super) const fn new(node: usize, style: Style, lines: Vec<String>, at: f64) -> Self {
        Self { node, style, lines, at, to_right: false }
    }
}

/// The strips of a card, and its parts in the order of reading.
#[derive(Debug, Default)]
pub(super) struct Strips {
    pub(super) strips: Vec<Strip>,
    pub(super) nodes: Vec<Node>,
    /// Was a letter met that the font lacks?
    pub(super) lacks: bool,
}

impl Strips {
    pub(super) fn node(&mut self, role: Role, within: Option<usize>) -> usize {
        self.nodes.push(Node { role, within });
        self.nodes.len() - 1
    }

    /// A text as it can be drawn.
    pub(super) fn drawable(&mut self, text: &str) -> String {
        let (drawn, lacks) = face::drawable(text);
        self.lacks |= lacks;
        drawn
    }

    /// Texts side by side, line by line: a strip for each line of the longest. Up to so many lines stay
    /// on one page. With them comes where the first strip lies.
    pub(super) fn side_by_side(&mut self, cells: Vec<Beside>, line: f64, before: f64) -> usize {
        const TOGETHER: usize = 12;
        let count = cells.iter().map(|cell| cell.lines.len()).max().unwrap_or(0);
        let first = self.strips.len();
        for at in 0..count {
            let mut strip = Strip::of(line);
            strip.before = if at == 0 { before } else { 0.0 };
            strip.with_next = at + 1 < count && (count <= TOGETHER || at == 0 || at + 2 == count);
            self.strips.push(strip);
        }
        for cell in cells {
            for (strip, text) in self.strips[first..].iter_mut().zip(cell.lines) {
                // Letters of two sizes stand on one line.
                let down = line - (line - cell.style.height()) / 2.0 - cell.style.height();
                let drawn = if cell.to_right {
                    cell.style.text_to(text, cell.at, down)
                } else {
                    cell.style.text(text, cell.at, down)
                };
                strip.put(Some(cell.node), drawn);
            }
        }
        first
    }

    /// The last strip stays with what follows.
    pub(super) fn keep_with_next(&mut self) {
        if let Some(strip) = self.strips.last_mut() {
            strip.with_next = true;
        }
    }

    /// A paragraph: a strip for each line, its first two and its last two together.
    pub(super) fn lines(&mut self, node: usize, text: &str, style: Style, (left, right): Point, before: f64) {
        let text = self.drawable(text);
        let lines = style.lines(&text, right - left);
        let count = lines.len();
        for (at, line) in lines.into_iter().enumerate() {
            let mut strip = Strip::of(style.height());
            strip.before = if at == 0 { before } else { 0.0 };
            strip.with_next = at + 1 < count && (at == 0 || at + 2 == count);
            strip.put(Some(node), style.text(line, left, 0.0));
            self.strips.push(strip);
        }
    }
}
