//! What stands on the pages: a list of texts, lines, areas and discs, each with its place and with what
//! it belongs to. A PDF and a preview are made of it alike.
//!
//! Places are in points of 1/72 inch from the upper left corner of the page, down and to the right.

use super::face;

/// A place on a page: to the right, down.
pub type Point = (f64, f64);

/// What a page is printed on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Paper {
    /// ISO 216 A4, 210 × 297 mm.
    #[default]
    A4,
    /// Letter, 8.5 × 11 in.
    Letter,
}

impl Paper {
    /// Both.
    pub const ALL: [Self; 2] = [Self::A4, Self::Letter];

    /// Its id.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::A4 => "a4",
            Self::Letter => "letter",
        }
    }

    /// Its width and height.
    #[must_use]
    pub const fn size(self) -> (f64, f64) {
        match self {
            Self::A4 => (595.276, 841.89),
            Self::Letter => (612.0, 792.0),
        }
    }
}

/// What something is drawn in. [`Ink::rgb`] tells its colour on white paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Ink {
    /// Text, figures, brackets, curves.
    Ink,
    /// Labels, notes, the second unit.
    Soft,
    /// Hairlines.
    Hair,
    /// The limits of the working range, what lies inside.
    Inside,
    /// A limit that is broken or must not be.
    Stop,
    /// The working range itself.
    Range,
    /// While the arc burns, and what a formula leaves open.
    Shade,
    /// The paper.
    Paper,
}

impl Ink {
    /// Every ink.
    pub const ALL: [Self; 8] =
        [Self::Ink, Self::Soft, Self::Hair, Self::Inside, Self::Stop, Self::Range, Self::Shade, Self::Paper];

    /// Its colour: those of the light theme of the window.
    #[must_use]
    pub const fn rgb(self) -> (u8, u8, u8) {
        match self {
            Self::Ink => (0x14, 0x18, 0x1a),
            Self::Soft => (0x45, 0x4e, 0x54),
            Self::Hair => (0xc6, 0xcd, 0xd0),
            Self::Inside => (0x00, 0x68, 0x4a),
            Self::Stop => (0xb4, 0x23, 0x1a),
            Self::Range => (0xdb, 0xe9, 0xe4),
            Self::Shade => (0xe3, 0xe6, 0xe8),
            Self::Paper => (0xff, 0xff, 0xff),
        }
    }
}

/// How strong letters are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Weight {
    /// 400.
    #[default]
    Regular,
    /// 600.
    Strong,
}

/// A text on one line.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// Its left end, on the line that its letters stand on.
    pub at: Point,
    /// What it says.
    pub text: String,
    /// The size of its letters.
    pub size: f64,
    /// How strong they are.
    pub weight: Weight,
    /// What they are drawn in.
    pub ink: Ink,
}

/// One thing that is drawn.
#[derive(Debug, Clone, PartialEq)]
pub enum Drawn {
    /// A text.
    Text(Run),
    /// A line through points.
    Line {
        /// Its points.
        points: Vec<Point>,
        /// How thick it is.
        width: f64,
        /// What it is drawn in.
        ink: Ink,
        /// Strokes and gaps; none for a whole line.
        dash: Option<(f64, f64)>,
    },
    /// A filled area.
    Area {
        /// Its corners.
        points: Vec<Point>,
        /// What fills it.
        ink: Ink,
    },
    /// A filled disc.
    Disc {
        /// Its middle.
        centre: Point,
        /// Its radius.
        radius: f64,
        /// What fills it.
        ink: Ink,
    },
    /// A ring.
    Ring {
        /// Its middle.
        centre: Point,
        /// The radius of the middle of its line.
        radius: f64,
        /// How thick its line is.
        width: f64,
        /// What it is drawn in.
        ink: Ink,
    },
}

impl Drawn {
    /// A filled box.
    #[must_use]
    pub fn filled((left, top): Point, (right, bottom): Point, ink: Ink) -> Self {
        Self::Area { points: vec![(left, top), (right, top), (right, bottom), (left, bottom)], ink }
    }

    /// A straight line.
    #[must_use]
    pub fn straight(from: Point, to: Point, width: f64, ink: Ink) -> Self {
        Self::Line { points: vec![from, to], width, ink, dash: None }
    }

    /// The frame of a box.
    #[must_use]
    pub fn framed((left, top): Point, (right, bottom): Point, width: f64, ink: Ink) -> Self {
        let points = vec![(left, top), (right, top), (right, bottom), (left, bottom), (left, top)];
        Self::Line { points, width, ink, dash: None }
    }

    /// The same, moved.
    #[must_use]
    pub fn moved(mut self, (right, down): Point) -> Self {
        let shift = |point: &mut Point| *point = (point.0 + right, point.1 + down);
        match &mut self {
            Self::Text(run) => shift(&mut run.at),
            Self::Line { points, .. } | Self::Area { points, .. } => points.iter_mut().for_each(shift),
            Self::Disc { centre, .. } | Self::Ring { centre, .. } => shift(centre),
        }
        self
    }

    /// The upper left and the lower right corner of what it covers.
    #[must_use]
    pub fn bounds(&self) -> (Point, Point) {
        let around = |(x, y): Point, by: f64| ((x - by, y - by), (x + by, y + by));
        match self {
            Self::Text(run) => {
                let width = face::width(&run.text, run.size, run.weight);
                let (x, y) = run.at;
                ((x, y - run.size * face::ABOVE), (x + width, y + run.size * face::BELOW))
            }
            Self::Line { points, width, .. } => spread(points, width / 2.0),
            Self::Area { points, .. } => spread(points, 0.0),
            Self::Disc { centre, radius, .. } => around(*centre, *radius),
            Self::Ring { centre, radius, width, .. } => around(*centre, radius + width / 2.0),
        }
    }
}

fn spread(points: &[Point], by: f64) -> (Point, Point) {
    let fold =
        |of: fn(&Point) -> f64, with: fn(f64, f64) -> f64, from: f64| points.iter().map(of).fold(from, with);
    let (left, top) =
        (fold(|point| point.0, f64::min, f64::INFINITY), fold(|point| point.1, f64::min, f64::INFINITY));
    let (right, bottom) = (
        fold(|point| point.0, f64::max, f64::NEG_INFINITY),
        fold(|point| point.1, f64::max, f64::NEG_INFINITY),
    );
    ((left - by, top - by), (right + by, bottom + by))
}

/// What a part of the pages is to one who does not see them.
#[derive(Debug, Clone, PartialEq)]
pub enum Role {
    /// A heading: 1 of the card, 2 of a section, 3 of a piece.
    Heading {
        /// Its level.
        level: u8,
        /// What it says.
        text: String,
    },
    /// A paragraph.
    Paragraph,
    /// A list; its entries follow.
    List {
        /// Do numbers stand before its entries?
        numbered: bool,
    },
    /// An entry of a list.
    Entry,
    /// The number or sign before an entry.
    EntryMark,
    /// What an entry says.
    EntryText,
    /// A table, with what it holds in a few words.
    Table {
        /// What it holds.
        summary: String,
    },
    /// The heads of a table.
    TableHead,
    /// The rows of a table.
    TableBody,
    /// A row.
    Row,
    /// The head of a column.
    ColumnHead,
    /// The head of a row.
    RowHead,
    /// A cell.
    Cell,
    /// A picture, with what it shows in words.
    Picture {
        /// What it shows.
        says: String,
    },
}

/// A part of the pages; what stands before it in the list is read before it.
#[derive(Debug, Clone, PartialEq)]
pub struct Node {
    /// What it is.
    pub role: Role,
    /// The part that it is a part of.
    pub within: Option<usize>,
}

/// One thing on a page.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// The part that it belongs to; none for what is only decoration or said elsewhere.
    pub node: Option<usize>,
    /// What is drawn.
    pub drawn: Drawn,
}

/// A page.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Page {
    /// What stands on it, in the order in which it is drawn.
    pub items: Vec<Item>,
}

impl Page {
    /// What stands on it in the order of reading, decoration below it all: a part whose lines stand beside
    /// those of others is one piece of the page.
    #[must_use]
    pub fn in_order(&self) -> Vec<&Item> {
        let mut items: Vec<&Item> = self.items.iter().collect();
        items.sort_by_key(|item| item.node);
        items
    }
}

/// A card, page by page.
#[derive(Debug, Clone, PartialEq)]
pub struct Pages {
    /// What it is printed on.
    pub paper: Paper,
    /// Its title.
    pub title: String,
    /// The tag of its language.
    pub language: String,
    /// Its pages.
    pub pages: Vec<Page>,
    /// Its parts, in the order of reading.
    pub nodes: Vec<Node>,
}
