//! The readings of some pieces against the limits: a column for each piece, its readings in the order in
//! which they were taken.

use super::content::Sign;
use super::draw::{Drawn, Ink, Weight};
use super::signs::sign;
use super::strip::{AXIS, Style};

/// A reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dot {
    /// Its middle, or the one end that is known, °C.
    pub at_c: f64,
    /// The ends of what it leaves open, °C; none where an end is not known.
    pub band_c: (Option<f64>, Option<f64>),
    /// Its verdict.
    pub sign: Sign,
}

/// A piece.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PieceColumn {
    /// Its number or name.
    pub name: String,
    /// How it went, in a few words.
    pub lines: Vec<String>,
    /// Its readings.
    pub dots: Vec<Dot>,
}

/// The readings of some pieces.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PiecesPicture {
    /// The minimum preheat, °C.
    pub minimum_c: Option<f64>,
    /// The maximum interpass, °C.
    pub maximum_c: Option<f64>,
    /// The ceiling, °C.
    pub ceiling_c: Option<f64>,
    /// The temperatures shown, °C.
    pub span_c: (f64, f64),
    /// Figures along the temperatures: °C, as written, is it a limit?
    pub degrees: Vec<(f64, String, bool)>,
    /// So many pieces have room beside each other.
    pub slots: usize,
    /// The pieces.
    pub pieces: Vec<PieceColumn>,
}

impl Dot {
    /// Of a range, of which one end at least is known; none else.
    #[must_use]
    pub fn of(band_c: (Option<f64>, Option<f64>), sign: Sign) -> Option<Self> {
        let at_c = f64::midpoint(band_c.0.or(band_c.1)?, band_c.1.or(band_c.0)?);
        at_c.is_finite().then_some(Self { at_c, band_c, sign })
    }

    /// Is one of its ends not known?
    #[must_use]
    pub const fn is_one_sided(&self) -> bool {
        self.band_c.0.is_none() || self.band_c.1.is_none()
    }
}

/// So many pieces stand in one picture, and have room in one that holds fewer.
pub const PIECES: usize = 10;
pub(super) const FEWEST: usize = 6;
/// Height of the temperatures.
const WARM: f64 = 88.0;
const LEFT: f64 = 34.0;
const APART: f64 = 8.5;
const MARK: f64 = 6.0;
/// How wide and high half an arrow is.
const ARROW: f64 = 2.0;

const STRONG: Style = Style::new(AXIS, Weight::Strong, Ink::Ink);

impl PiecesPicture {
    fn y(&self, at_c: f64) -> f64 {
        let (low, high) = self.span_c;
        WARM * (1.0 - ((at_c - low) / (high - low).max(1e-9)).clamp(0.0, 1.0))
    }
}

/// Draws it as wide as is said; with it comes how high it is.
pub(super) fn draw(of: &PiecesPicture, width: f64) -> (Vec<Drawn>, f64) {
    let mut drawn = Vec::new();
    limits(of, width, &mut drawn);
    let wide = (width - LEFT) / of.slots.max(of.pieces.len()).max(1) as f64;
    let mut deepest = WARM;
    for (at, piece) in of.pieces.iter().enumerate() {
        let from = LEFT + at as f64 * wide;
        if at > 0 {
            drawn.push(Drawn::straight((from, 0.0), (from, WARM), 0.5, Ink::Hair));
        }
        dots(of, piece, (from, wide), &mut drawn);
        let middle = from + wide / 2.0;
        let name = STRONG.lines(&piece.name, wide - 3.0);
        let said = piece.lines.iter().flat_map(|line| Style::AXIS.lines(line, wide - 3.0));
        let rows = name.into_iter().map(|line| (STRONG, line)).chain(said.map(|line| (Style::AXIS, line)));
        let mut down = WARM + 3.0;
        for (style, line) in rows {
            drawn.push(style.text_about(line, middle, down));
            down += style.height();
        }
        deepest = deepest.max(down);
    }
    (drawn, deepest)
}

fn limits(of: &PiecesPicture, width: f64, drawn: &mut Vec<Drawn>) {
    let y = |at_c: f64| of.y(at_c);
    let top = of.maximum_c.map_or(0.0, y);
    let foot = of.minimum_c.map_or(WARM, y);
    if of.minimum_c.is_some() || of.maximum_c.is_some() {
        drawn.push(Drawn::filled((LEFT, top), (width, foot), Ink::Range));
    }
    let mut taken: Vec<f64> = Vec::new();
    for (at_c, written, limit) in &of.degrees {
        let y = y(*at_c);
        if !limit {
            drawn.push(Drawn::straight((LEFT, y), (width, y), 0.5, Ink::Hair));
        }
        if taken.iter().all(|other| (other - y).abs() >= APART) {
            taken.push(y);
            let style = if *limit { STRONG } else { Style::AXIS };
            drawn.push(style.text_to(written.clone(), LEFT - 7.0, y - style.height() / 2.0));
        }
    }
    drawn.push(Drawn::framed((LEFT, 0.0), (width, WARM), 0.6, Ink::Soft));
    for at_c in [of.minimum_c, of.maximum_c].into_iter().flatten() {
        drawn.push(Drawn::straight((LEFT, y(at_c)), (width, y(at_c)), 1.25, Ink::Inside));
    }
    if let Some(ceiling_c) = of.ceiling_c.filter(|at_c| *at_c < of.span_c.1) {
        drawn.push(Drawn::straight((LEFT, y(ceiling_c)), (width, y(ceiling_c)), 1.0, Ink::Stop));
    }
    if of.minimum_c.is_some() && of.maximum_c.is_some() {
        let x = LEFT - 4.5;
        let points = vec![(x + 3.0, top), (x, top), (x, foot), (x + 3.0, foot)];
        drawn.push(Drawn::Line { points, width: 1.25, ink: Ink::Ink, dash: None });
    }
}

fn dots(of: &PiecesPicture, piece: &PieceColumn, (from, wide): (f64, f64), drawn: &mut Vec<Drawn>) {
    let step = wide / (piece.dots.len() + 1) as f64;
    // Many readings of one piece get smaller marks, so that each is seen.
    let size = MARK.min(step.max(2.0) * 1.2);
    for (nth, dot) in piece.dots.iter().enumerate() {
        let x = from + step * (nth + 1) as f64;
        let y = of.y(dot.at_c).clamp(size / 2.0, WARM - size / 2.0);
        // An end that is not known lies anywhere as far as the frame.
        let (low, high) =
            (dot.band_c.0.map_or(WARM, |at_c| of.y(at_c)), dot.band_c.1.map_or(0.0, |at_c| of.y(at_c)));
        // The range above the mark and below it.
        for (from, to) in [(high, y - size / 2.0), (y + size / 2.0, low)] {
            if to - from > 1.2 {
                drawn.push(Drawn::straight((x, from), (x, to), 0.5, Ink::Ink));
            }
        }
        let arrows = [(dot.band_c.1, 0.0, ARROW), (dot.band_c.0, WARM, -ARROW)];
        for (_, tip, back) in arrows.into_iter().filter(|(end, ..)| end.is_none()) {
            let points = vec![(x - ARROW, tip + back), (x, tip), (x + ARROW, tip + back)];
            drawn.push(Drawn::Line { points, width: 0.75, ink: Ink::Ink, dash: None });
        }
        drawn.extend(sign(dot.sign, (x - size / 2.0, y - size / 2.0), size));
    }
}
