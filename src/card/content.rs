//! What a card says, part by part, before it has pages.

use super::cycle_picture::CyclePicture;
use super::pieces_picture::PiecesPicture;

/// A shape that goes with a word, so that no colour tells anything alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Sign {
    /// Inside the limits: a disc.
    Inside,
    /// Below the minimum: a triangle that points down.
    Below,
    /// Above the maximum: a triangle that points up.
    Over,
    /// It cannot be told: a square with a bar.
    CannotTell,
    /// No limit counts: a ring.
    NoLimit,
    /// A crack: a square, split.
    Cracked,
    /// No crack: a square with a tick.
    NotCracked,
    /// What must not be missed: a full diamond.
    Caution,
    /// A caution: an outlined diamond.
    Heed,
    /// A published method: a full disc.
    Published,
    /// Common practice: a half disc.
    Practice,
    /// Recalled: a ring.
    Memory,
}

/// One of the limits.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Limit {
    /// What it is.
    pub label: String,
    /// Its figure, or a word.
    pub figure: String,
    /// Its unit, and the figure in the other one.
    pub unit: String,
    /// What it rests on.
    pub sign: Option<Sign>,
    /// The same in words.
    pub basis: String,
}

/// A step of the weld sequence.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Step {
    /// The way that begins with it; empty where none does.
    pub way: String,
    /// Its number.
    pub number: String,
    /// What is done.
    pub what: String,
    /// Its figure; empty where it has none.
    pub figure: String,
    /// How it is done, and why.
    pub notes: Vec<String>,
}

/// A cell of a table.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Cell {
    /// The shape before its words.
    pub sign: Option<Sign>,
    /// What it says.
    pub text: String,
}

impl From<String> for Cell {
    fn from(text: String) -> Self {
        Self { sign: None, text }
    }
}

/// A column of a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Its head.
    pub head: String,
    /// Its share of the width.
    pub share: f64,
}

/// A table.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Table {
    /// What it holds, for one who does not see it.
    pub summary: String,
    /// Its columns; the first one names the row.
    pub columns: Vec<Column>,
    /// Its rows.
    pub rows: Vec<Vec<Cell>>,
}

/// A picture.
#[derive(Debug, Clone, PartialEq)]
pub enum Picture {
    /// The heat cycle, with the limits drawn in.
    Cycle(Box<CyclePicture>),
    /// The readings of some pieces against the limits.
    Pieces(PiecesPicture),
}

/// One part of a card.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// The head of the card.
    Title {
        /// What it is.
        over: String,
        /// Its name.
        name: String,
        /// Lines at the right.
        aside: Vec<String>,
    },
    /// The head of a section (2) or of a piece (3).
    Heading {
        /// Its level.
        level: u8,
        /// What it says.
        text: String,
        /// What stands at its right end; empty for nothing.
        aside: String,
    },
    /// A paragraph.
    Text(String),
    /// A paragraph that must not be missed.
    Strong(String),
    /// A paragraph in small letters.
    Note(String),
    /// Labels, each with a text or with a line to write on.
    Blanks(Vec<(String, Option<String>)>),
    /// The limits.
    Limits(Vec<Limit>),
    /// Labels and texts in two columns.
    Facts(Vec<(String, String)>),
    /// The steps at a glance.
    Order(Vec<Step>),
    /// The steps with their notes.
    Steps(Vec<Step>),
    /// Cautions: title and what to do.
    Cautions(Vec<(String, String)>),
    /// What must not be missed before work begins.
    Danger(String),
    /// A table.
    Table(Table),
    /// A picture, with what it shows in words.
    Picture {
        /// What it shows.
        says: String,
        /// The picture.
        picture: Picture,
    },
    /// Lines to sign on.
    Signatures(Vec<String>),
}

/// A card in words.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Content {
    /// Its title, for the file and the heads of later pages.
    pub title: String,
    /// What stands at the foot of each page.
    pub foot: String,
    /// Its parts.
    pub blocks: Vec<Block>,
}
