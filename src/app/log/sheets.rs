//! The pages of a job card as the window shows them: laid out off the screen's thread, drawn one at a time.

use std::sync::mpsc::{Receiver, TryRecvError, channel};

use slint::{Image, Rgb8Pixel, SharedPixelBuffer};

use crate::card::{Lost, Pages, Paper, Role, content, pages, sheet};
use crate::log::{Id, Log, Moment};
use crate::reference::embedded;
use crate::report::Pen;
use crate::units::{Show, Units};
use crate::words::Words;

/// What a card is made of: where one of these is another, its pages are.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct CardOf {
    pub(super) job: Id,
    /// How many records the log had.
    pub(super) records: usize,
    /// What of its files could not be read.
    pub(super) lost: Lost,
    pub(super) paper: Paper,
    pub(super) units: Units,
    pub(super) language: String,
}

impl CardOf {
    /// Does something with what is written with, in the language and units of the card.
    pub(super) fn with_pen<T>(&self, act: impl FnOnce(&Pen<'_>) -> T) -> T {
        let words = Words::of(&self.language);
        words.write_in(self.units.scales());
        act(&Pen { reference: embedded(), words: &words, show: Show::new(self.units, &words) })
    }

    /// The pages at a moment; none where no job stands in the log.
    pub(super) fn pages(&self, log: &Log, now: Moment) -> Option<Pages> {
        self.with_pen(|pen| {
            let content = content(pen, &log.standing(), now, self.lost)?;
            Some(pages(&content, self.paper, pen.words))
        })
    }
}

/// A page as it was last drawn.
struct Drawn {
    nth: usize,
    turn: i32,
    width: u32,
    image: Image,
}

/// The card on the screen.
#[derive(Default)]
pub(crate) struct CardWork {
    asked: Option<CardOf>,
    pages: Option<Pages>,
    work: Option<Receiver<Option<Pages>>>,
    /// Did the work end without pages?
    pub(super) lost: bool,
    /// The page that is looked at, from 0.
    pub(super) nth: usize,
    /// Rises with all that changes what is drawn.
    pub(super) turn: i32,
    drawn: Option<Drawn>,
}

impl CardWork {
    /// Has this card laid out, where it is not the one on hand. Pages of another paper or in other units
    /// stay until the new ones come, those of another job go at once.
    pub(super) fn ask(&mut self, of: &CardOf, log: impl FnOnce() -> Log) {
        if self.asked.as_ref() == Some(of) {
            return;
        }
        if self.asked.as_ref().is_none_or(|asked| asked.job != of.job) {
            *self = Self { turn: self.turn + 1, ..Self::default() };
        }
        let (log, made) = (log(), of.clone());
        let (sender, work) = channel();
        std::thread::spawn(move || {
            // Nobody may wait for it any more.
            let _ = sender.send(made.pages(&log, Moment::now()));
        });
        (self.asked, self.work, self.lost) = (Some(of.clone()), Some(work), false);
    }

    /// Takes in the pages, once they are there; is anything new?
    pub(super) fn hear(&mut self) -> bool {
        let told = match self.work.as_ref().map(Receiver::try_recv) {
            None | Some(Err(TryRecvError::Empty)) => return false,
            Some(Ok(pages)) => pages,
            Some(Err(TryRecvError::Disconnected)) => None,
        };
        self.work = None;
        self.put(told);
        true
    }

    /// These pages are shown from now on.
    fn put(&mut self, pages: Option<Pages>) {
        self.lost = pages.is_none();
        self.turn += 1;
        if let Some(pages) = pages {
            self.nth = self.nth.min(pages.pages.len().saturating_sub(1));
            self.pages = Some(pages);
        }
    }

    /// The pages that a file was made of are those that are shown, where they are of this card.
    pub(super) fn take(&mut self, of: &CardOf, pages: Pages) {
        if self.asked.as_ref() == Some(of) && self.work.is_none() {
            self.put(Some(pages));
        }
    }

    /// Is a card being laid out?
    pub(super) const fn works(&self) -> bool {
        self.work.is_some()
    }

    /// How many pages it has; none while there are none.
    pub(super) fn count(&self) -> usize {
        self.pages.as_ref().map_or(0, |pages| pages.pages.len())
    }

    /// How high a page is, of its width.
    pub(super) fn shape(&self) -> f64 {
        let paper = self.pages.as_ref().map(|pages| pages.paper).unwrap_or_default();
        let (wide, high) = paper.size();
        high / wide
    }

    /// Looks so many pages further.
    pub(super) fn turn_by(&mut self, by: i32) {
        let last = self.count().saturating_sub(1);
        let by_pages = usize::try_from(by.unsigned_abs()).unwrap_or(usize::MAX);
        self.nth = if by < 0 { self.nth.saturating_sub(by_pages) } else { self.nth.saturating_add(by_pages) };
        self.nth = self.nth.min(last);
        self.turn += 1;
    }

    /// The headings that stand on the page.
    pub(super) fn headings(&self) -> Vec<String> {
        let Some(pages) = &self.pages else { return Vec::new() };
        let Some(page) = pages.pages.get(self.nth) else { return Vec::new() };
        let mut seen: Vec<usize> = page.items.iter().filter_map(|item| item.node).collect();
        seen.sort_unstable();
        seen.dedup();
        let heading = |node: usize| match &pages.nodes.get(node)?.role {
            Role::Heading { text, .. } => Some(text.clone()),
            _ => None,
        };
        seen.into_iter().filter_map(heading).collect()
    }

    /// The page that is looked at, so many pixels wide; drawn once.
    pub(super) fn image(&mut self, width: u32) -> Image {
        if let Some(drawn) = &self.drawn
            && (drawn.nth, drawn.turn, drawn.width) == (self.nth, self.turn, width)
        {
            return drawn.image.clone();
        }
        let made = self.pages.as_ref().and_then(|pages| sheet(pages, self.nth, width));
        let image = made.map_or_else(Image::default, |made| {
            Image::from_rgb8(SharedPixelBuffer::<Rgb8Pixel>::clone_from_slice(
                &made.pixels,
                made.width,
                made.height,
            ))
        });
        self.drawn = Some(Drawn { nth: self.nth, turn: self.turn, width, image: image.clone() });
        image
    }
}
