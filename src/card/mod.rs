//! The job card: what was planned and what was done, on paper.
//!
//! From a log to what the card says ([`Content`]), from that to pages ([`Pages`]: texts, lines and areas
//! with their places), and from pages to a PDF; a preview draws the same pages.

mod blocks;
mod content;
mod csv;
mod cycle_draw;
mod cycle_picture;
mod degrees;
mod draw;
pub mod face;
mod flow;
mod of_log;
mod of_plan;
mod pdf;
mod pictures;
mod pieces_picture;
mod readings;
mod said;
mod sheet;
mod signs;
mod strip;
mod table;

pub use content::{Block, Cell, Column, Content, Limit, Picture, Sign, Step, Table};
pub use csv::csv;
pub use cycle_picture::{CyclePicture, PictureRun};
pub use draw::{Drawn, Ink, Item, Node, Page, Pages, Paper, Point, Role, Run, Weight};
pub use flow::MARGIN;
pub use of_log::{Lost, content};
pub use pdf::{PdfError, pdf};
pub use pieces_picture::{Dot, PIECES, PieceColumn, PiecesPicture};
pub use readings::{Scale, scale};
pub use said::entry as entry_words;
pub use sheet::{Sheet, sheet};
pub use signs::of_basis;

use crate::words::Words;

/// The pages of a card.
#[must_use]
pub fn pages(content: &Content, paper: Paper, words: &Words) -> Pages {
    let mut strips = strip::Strips::default();
    for block in &content.blocks {
        blocks::put(&mut strips, block, paper);
    }
    if strips.lacks {
        let note = words.with("card-lacking", &[("sign", &face::LACKING.to_string())]);
        blocks::put(&mut strips, &Block::Note(note), paper);
    }
    let (title, _) = face::drawable(&content.title);
    flow::pages(strips, paper, &title, &content.foot, words)
}
