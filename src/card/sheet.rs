//! A page of a card as a picture, for whoever looks at it before it is printed: the draw list that the PDF
//! is made of, in pixels.

use std::collections::HashMap;

use skrifa::outline::{DrawSettings, OutlinePen};
use skrifa::prelude::{LocationRef, Size};
use skrifa::{GlyphId, MetadataProvider};
use zeno::{Cap, Command, Join, Mask, Placement, Stroke, Style, Vector};

use super::draw::{Drawn, Ink, Pages, Point, Run, Weight};
use super::face;
use super::pdf::ROUND;

/// No line is drawn thinner than so many pixels: it would fade.
const THINNEST: f64 = 0.7;
/// Letters stand at so many places within a pixel.
const PLACES: f64 = 4.0;
/// No page is drawn wider, pixels.
const WIDEST: u32 = 4096;

/// A page in pixels.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    /// How wide it is.
    pub width: u32,
    /// How high.
    pub height: u32,
    /// Red, green and blue of each pixel, row by row from the top.
    pub pixels: Vec<u8>,
}

/// A page, so many pixels wide; none where there is no such page.
#[must_use]
pub fn sheet(pages: &Pages, nth: usize, width: u32) -> Option<Sheet> {
    let page = pages.pages.get(nth)?;
    let (wide, high) = pages.paper.size();
    let width = width.clamp(1, WIDEST);
    let scale = f64::from(width) / wide;
    let height = (high * scale).round().max(1.0) as u32;
    let mut press = Press {
        sheet: Sheet { width, height, pixels: vec![255; width as usize * height as usize * 3] },
        scale,
        letters: HashMap::new(),
    };
    page.in_order().into_iter().for_each(|item| press.draw(&item.drawn));
    Some(press.sheet)
}

/// A letter at a place within a pixel: weight, number in the font, size, place.
type Letter = (Weight, u32, u64, u8);

/// A page being drawn.
struct Press {
    sheet: Sheet,
    scale: f64,
    letters: HashMap<Letter, (Vec<u8>, Placement)>,
}

impl Press {
    fn at(&self, (x, y): Point) -> Vector {
        Vector::new((x * self.scale) as f32, (y * self.scale) as f32)
    }

    fn draw(&mut self, drawn: &Drawn) {
        match drawn {
            Drawn::Text(run) => self.text(run),
            Drawn::Line { points, width, ink, dash } => {
                self.stroke(&self.path(points, false), *width, *ink, *dash);
            }
            Drawn::Area { points, ink } => self.fill(&self.path(points, true), *ink),
            Drawn::Disc { centre, radius, ink } => self.fill(&self.circle(*centre, *radius), *ink),
            Drawn::Ring { centre, radius, width, ink } => {
                self.stroke(&self.circle(*centre, *radius), *width, *ink, None);
            }
        }
    }

    fn path(&self, points: &[Point], closed: bool) -> Vec<Command> {
        let mut made: Vec<Command> = points.iter().map(|point| Command::LineTo(self.at(*point))).collect();
        if let Some(first) = points.first() {
            made[0] = Command::MoveTo(self.at(*first));
        }
        if closed && !made.is_empty() {
            made.push(Command::Close);
        }
        made
    }

    fn circle(&self, (x, y): Point, radius: f64) -> Vec<Command> {
        let at = |right: f64, down: f64| self.at((x + right * radius, y + down * radius));
        let mut made = vec![Command::MoveTo(at(1.0, 0.0))];
        let mut from = (1.0, 0.0);
        for _ in 0..4 {
            let to = (-from.1, from.0);
            made.push(Command::CurveTo(
                at(from.0 + ROUND * to.0, from.1 + ROUND * to.1),
                at(to.0 + ROUND * from.0, to.1 + ROUND * from.1),
                at(to.0, to.1),
            ));
            from = to;
        }
        made.push(Command::Close);
        made
    }

    fn fill(&mut self, path: &[Command], ink: Ink) {
        let (mask, placed) = Mask::new(path).render();
        self.put(&mask, placed, (0, 0), ink);
    }

    fn stroke(&mut self, path: &[Command], width: f64, ink: Ink, dash: Option<(f64, f64)>) {
        let width = (width * self.scale).max(THINNEST) as f32;
        let dashes = dash.map(|(on, off)| [(on * self.scale) as f32, (off * self.scale) as f32]);
        let mut stroke = Stroke::new(width);
        stroke.cap(Cap::Butt).join(Join::Round);
        if let Some(dashes) = &dashes {
            stroke.dash(dashes, 0.0);
        }
        let (mask, placed) = Mask::new(path).style(Style::Stroke(stroke)).render();
        self.put(&mask, placed, (0, 0), ink);
    }

    fn text(&mut self, run: &Run) {
        let size = run.size * self.scale;
        // Letters on whole pixels of height are the sharpest.
        let down = (run.at.1 * self.scale).round() as i32;
        let mut x = run.at.0 * self.scale;
        for (_, _, glyph) in face::glyphs(&run.text, run.weight) {
            let place = (x * PLACES).round() / PLACES;
            let whole = place.floor();
            let part = ((place - whole) * PLACES).round() as u8;
            let key = (run.weight, glyph.id, size.to_bits(), part);
            let (mask, placed) = self.letters.remove(&key).unwrap_or_else(|| letter(key, size));
            self.put(&mask, placed, (whole as i32, down), run.ink);
            self.letters.insert(key, (mask, placed));
            x += glyph.advance * size;
        }
    }

    /// Lays a colour over the page where a mask covers it.
    fn put(&mut self, mask: &[u8], placed: Placement, (right, down): (i32, i32), ink: Ink) {
        let (red, green, blue) = ink.rgb();
        let wide = placed.width as usize;
        if wide == 0 {
            return;
        }
        for (row, covers) in mask.chunks_exact(wide).enumerate() {
            let y = i64::from(placed.top) + i64::from(down) + row as i64;
            let Ok(y) = u32::try_from(y) else { continue };
            if y >= self.sheet.height {
                break;
            }
            for (column, cover) in covers.iter().enumerate().filter(|(_, cover)| **cover > 0) {
                let x = i64::from(placed.left) + i64::from(right) + column as i64;
                let Some(x) = u32::try_from(x).ok().filter(|x| *x < self.sheet.width) else { continue };
                let at = (y as usize * self.sheet.width as usize + x as usize) * 3;
                for (lane, part) in self.sheet.pixels[at..at + 3].iter_mut().zip([red, green, blue]) {
                    let mixed =
                        u32::from(*lane) * (255 - u32::from(*cover)) + u32::from(part) * u32::from(*cover);
                    *lane = u8::try_from((mixed + 127) / 255).unwrap_or(u8::MAX);
                }
            }
        }
    }
}

/// Draws one letter.
fn letter((weight, id, _, part): Letter, size: f64) -> (Vec<u8>, Placement) {
    let mut pen = Outline { path: Vec::new(), right: f32::from(part) / PLACES as f32 };
    let outlines = face::font(weight).outline_glyphs();
    if let Some(glyph) = outlines.get(GlyphId::new(id)) {
        let settings = DrawSettings::unhinted(Size::new(size as f32), LocationRef::default());
        // A letter without an outline leaves its place empty, as a space does.
        let _ = glyph.draw(settings, &mut pen);
    }
    Mask::new(&pen.path[..]).render()
}

/// Takes an outline whose heights grow upwards.
struct Outline {
    path: Vec<Command>,
    right: f32,
}

impl Outline {
    fn at(&self, x: f32, y: f32) -> Vector {
        Vector::new(x + self.right, -y)
    }
}

impl OutlinePen for Outline {
    fn move_to(&mut self, x: f32, y: f32) {
        self.path.push(Command::MoveTo(self.at(x, y)));
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.path.push(Command::LineTo(self.at(x, y)));
    }

    fn quad_to(&mut self, cx: f32, cy: f32, x: f32, y: f32) {
        self.path.push(Command::QuadTo(self.at(cx, cy), self.at(x, y)));
    }

    fn curve_to(&mut self, cx: f32, cy: f32, dx: f32, dy: f32, x: f32, y: f32) {
        self.path.push(Command::CurveTo(self.at(cx, cy), self.at(dx, dy), self.at(x, y)));
    }

    fn close(&mut self) {
        self.path.push(Command::Close);
    }
}
