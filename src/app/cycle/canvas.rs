//! A picture that is drawn here pixel by pixel: lines, areas, patterns, in logical pixels.

use slint::{Color, Image, Rgba8Pixel, SharedPixelBuffer};

/// A picture on its way.
pub(super) struct Canvas {
    width: usize,
    height: usize,
    scale: f64,
    /// Colours that are not yet multiplied, with what covers them, 0 to 1.
    pixels: Vec<[f32; 4]>,
}

/// A place, logical pixels.
pub(super) type Point = (f64, f64);

/// No picture is larger: a window of a wall.
const LARGEST: f64 = 8000.0;

impl Canvas {
    /// An empty one.
    pub(super) fn new(width: f64, height: f64, scale: f64) -> Self {
        let pixels = |length: f64| (length * scale).round().clamp(1.0, LARGEST) as usize;
        let (width, height) = (pixels(width), pixels(height));
        Self { width, height, scale, pixels: vec![[0.0; 4]; width * height] }
    }

    /// Physical pixels.
    pub(super) const fn size(&self) -> (usize, usize) {
        (self.width, self.height)
    }

    /// Logical place of the middle of a physical pixel.
    pub(super) fn place(&self, x: usize, y: usize) -> Point {
        ((x as f64 + 0.5) / self.scale, (y as f64 + 0.5) / self.scale)
    }

    /// Puts a colour over one physical pixel.
    pub(super) fn over(&mut self, x: usize, y: usize, colour: Color, share: f64) {
        if x >= self.width || y >= self.height || share <= 0.0 {
            return;
        }
        let under = &mut self.pixels[y * self.width + x];
        let over = (share.min(1.0) * f64::from(colour.alpha()) / 255.0) as f32;
        let left = under[3] * (1.0 - over);
        let whole = over + left;
        for (lane, part) in [colour.red(), colour.green(), colour.blue()].into_iter().enumerate() {
            under[lane] = (f32::from(part) * over + under[lane] * left) / whole.max(1e-6);
        }
        under[3] = whole;
    }

    /// Physical pixels that a logical box covers.
    fn covered(&self, from: Point, to: Point) -> (std::ops::Range<usize>, std::ops::Range<usize>) {
        let span = |from: f64, to: f64, most: usize| {
            let at = |value: f64| (value * self.scale).clamp(0.0, most as f64);
            at(from.min(to)).floor() as usize..at(from.max(to)).ceil() as usize
        };
        (span(from.0, to.0, self.width), span(from.1, to.1, self.height))
    }

    /// A box on whole pixels.
    pub(super) fn fill(&mut self, from: Point, to: Point, colour: Color, share: f64) {
        let scale = self.scale;
        let whole = |value: f64| (value * scale).round().max(0.0) as usize;
        for y in whole(from.1)..whole(to.1).max(whole(from.1) + 1) {
            for x in whole(from.0)..whole(to.0).max(whole(from.0) + 1) {
                self.over(x, y, colour, share);
            }
        }
    }

    /// A box of slanted lines, each so wide and so far apart.
    pub(super) fn hatch(&mut self, from: Point, to: Point, colour: Color, (wide, apart): (f64, f64)) {
        let (columns, rows) = self.covered(from, to);
        for y in rows {
            for x in columns.clone() {
                let (px, py) = self.place(x, y);
                self.over(x, y, colour, slanted(px + py, wide, apart));
            }
        }
    }

    /// A line through points; dashes on and off by turns.
    pub(super) fn line(&mut self, points: &[Point], width: f64, colour: Color, dash: Option<(f64, f64)>) {
        let Some((on, off)) = dash else {
            points.windows(2).for_each(|pair| self.stroke(pair[0], pair[1], width, colour));
            return;
        };
        let mut gone = 0.0;
        for pair in points.windows(2) {
            let (from, to) = (pair[0], pair[1]);
            let length = (to.0 - from.0).hypot(to.1 - from.1);
            let at = |share: f64| (from.0 + share * (to.0 - from.0), from.1 + share * (to.1 - from.1));
            let mut along = 0.0;
            while along < length {
                let in_dash = (gone + along) % (on + off);
                let left = if in_dash < on { on - in_dash } else { on + off - in_dash };
                let next = (along + left.max(0.05)).min(length);
                if in_dash < on {
                    self.stroke(at(along / length), at(next / length), width, colour);
                }
                along = next;
            }
            gone += length;
        }
    }

    fn stroke(&mut self, from: Point, to: Point, width: f64, colour: Color) {
        let half = width / 2.0;
        let reach = half + 1.0;
        let low = (from.0.min(to.0) - reach, from.1.min(to.1) - reach);
        let high = (from.0.max(to.0) + reach, from.1.max(to.1) + reach);
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let square = (dx * dx + dy * dy).max(1e-12);
        let (columns, rows) = self.covered(low, high);
        for y in rows {
            for x in columns.clone() {
                let (px, py) = self.place(x, y);
                let along = (((px - from.0) * dx + (py - from.1) * dy) / square).clamp(0.0, 1.0);
                let away = (px - from.0 - along * dx).hypot(py - from.1 - along * dy);
                self.over(x, y, colour, ((half - away) * self.scale + 0.5).clamp(0.0, 1.0));
            }
        }
    }

    /// The area between two lines over the same places.
    pub(super) fn between(&mut self, upper: &[Point], lower: &[Point], colour: Color, share: f64) {
        for pair in upper.windows(2).zip(lower.windows(2)) {
            let ((up, down), (left, right)) = (pair, (pair.0[0].0, pair.0[1].0));
            let (columns, _) = self.covered((left, 0.0), (right, 0.0));
            for x in columns {
                let at = (self.place(x, 0).0 - left) / (right - left).max(1e-9);
                if !(0.0..1.0).contains(&at) {
                    continue;
                }
                let level = |pair: &[Point]| pair[0].1 + at * (pair[1].1 - pair[0].1);
                let (_, rows) = self.covered((0.0, level(up)), (0.0, level(down)));
                for y in rows {
                    self.over(x, y, colour, share);
                }
            }
        }
    }

    /// A triangle that points down, its top in the middle at a place.
    pub(super) fn pointer_down(&mut self, at: Point, size: f64, colour: Color) {
        let (columns, rows) = self.covered((at.0 - size, at.1), (at.0 + size, at.1 + size));
        for y in rows {
            for x in columns.clone() {
                let (px, py) = self.place(x, y);
                let half = (size - (py - at.1)) * 0.6;
                self.over(x, y, colour, ((half - (px - at.0).abs()) * self.scale + 0.5).clamp(0.0, 1.0));
            }
        }
    }

    /// A ring.
    pub(super) fn ring(&mut self, at: Point, radius: f64, width: f64, colour: Color) {
        let reach = radius + width;
        let (columns, rows) = self.covered((at.0 - reach, at.1 - reach), (at.0 + reach, at.1 + reach));
        for y in rows {
            for x in columns.clone() {
                let (px, py) = self.place(x, y);
                let away = ((px - at.0).hypot(py - at.1) - radius).abs();
                self.over(x, y, colour, ((width / 2.0 - away) * self.scale + 0.5).clamp(0.0, 1.0));
            }
        }
    }

    /// The picture.
    pub(super) fn image(&self) -> Image {
        let mut buffer = SharedPixelBuffer::<Rgba8Pixel>::new(self.width as u32, self.height as u32);
        for (pixel, drawn) in buffer.make_mut_slice().iter_mut().zip(&self.pixels) {
            let lane = |value: f32| value.round().clamp(0.0, 255.0) as u8;
            *pixel = Rgba8Pixel::new(lane(drawn[0]), lane(drawn[1]), lane(drawn[2]), lane(drawn[3] * 255.0));
        }
        Image::from_rgba8(buffer)
    }
}

/// How much of a slanted line of a width lies here, the lines so far apart.
pub(super) fn slanted(across: f64, wide: f64, apart: f64) -> f64 {
    let at = across.rem_euclid(apart);
    let away = (at - apart / 2.0).abs();
    (wide / 2.0 - away + 0.5).clamp(0.0, 1.0)
}
