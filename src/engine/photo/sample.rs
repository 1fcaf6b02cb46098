//! What light does a region of a photo hold, on average and in its parts?

use std::ops::ControlFlow;

use image::{DynamicImage, GenericImageView};

use super::PhotoError;
use crate::engine::tint::colour::LINEAR;

/// A rectangle in a photo, in pixels from its upper left corner.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Region {
    /// Left edge.
    pub x: u32,
    /// Upper edge.
    pub y: u32,
    /// Width.
    pub width: u32,
    /// Height.
    pub height: u32,
}

/// Parts of a region along each side.
const PARTS: u32 = 3;
/// Smallest side of a region.
const SIDE_MIN: u32 = 6;
/// Pixels that are read along each side at most: more only take time.
const READ_MAX: u32 = 480;
/// Bytes that a camera clips at.
const BRIGHTEST: u8 = 252;
const DARKEST: u8 = 2;
/// Share of pixels left out at each end of a channel: glints, scratches and dust.
const TRIMMED: f64 = 0.05;

/// The light of a region.
pub(super) struct Sample {
    /// Trimmed mean of linear light, per channel.
    pub(super) linear: [f64; 3],
    /// The same for each of nine parts.
    pub(super) parts: Vec<[f64; 3]>,
    /// Share of pixels with a channel at the upper end.
    pub(super) too_bright: f64,
    /// Share of pixels with two channels or more at the lower end.
    pub(super) too_dark: f64,
    /// Standard deviation of green light within the parts and between them, over its mean.
    pub(super) unevenness: f64,
}

/// How often each byte occurs in each channel.
#[derive(Clone)]
struct Counts([[u32; 256]; 3]);

impl Counts {
    const fn new() -> Self {
        Self([[0; 256]; 3])
    }

    fn add(&mut self, pixel: [u8; 3]) {
        for (channel, byte) in self.0.iter_mut().zip(pixel) {
            channel[usize::from(byte)] += 1;
        }
    }

    fn merge(&mut self, other: &Self) {
        for (channel, more) in self.0.iter_mut().zip(&other.0) {
            for (count, more) in channel.iter_mut().zip(more) {
                *count += more;
            }
        }
    }

    /// Mean of linear light without the trimmed ends.
    fn trimmed_mean(&self) -> [f64; 3] {
        self.0.map(|channel| {
            let total: f64 = channel.iter().copied().map(f64::from).sum();
            let (first, last) = (total * TRIMMED, total * (1.0 - TRIMMED));
            let (mut passed, mut sum, mut kept) = (0.0, 0.0, 0.0);
            for (count, light) in channel.iter().zip(LINEAR.iter()) {
                let count = f64::from(*count);
                let inside = ((passed + count).min(last) - passed.max(first)).max(0.0);
                passed += count;
                sum += inside * light;
                kept += inside;
            }
            if kept > 0.0 { sum / kept } else { 0.0 }
        })
    }

    /// Standard deviation over mean of green light.
    fn unevenness(&self) -> f64 {
        let (mut total, mut sum, mut squares) = (0.0, 0.0, 0.0);
        for (count, light) in self.0[1].iter().zip(LINEAR.iter()) {
            let count = f64::from(*count);
            total += count;
            sum += count * light;
            squares += count * light * light;
        }
        if sum <= 0.0 {
            return 0.0;
        }
        let mean = sum / total;
        (squares / total - mean * mean).max(0.0).sqrt() / mean
    }
}

/// Reads a region on a grid of at most 480 by 480 pixels.
pub(super) fn sample(
    photo: &DynamicImage,
    region: Region,
    progress: &mut dyn FnMut(f64) -> ControlFlow<()>,
) -> Result<Sample, PhotoError> {
    let (width, height) = photo.dimensions();
    let inside =
        |from: u32, length: u32, whole: u32| from.checked_add(length).is_some_and(|end| end <= whole);
    let large = region.width >= SIDE_MIN && region.height >= SIDE_MIN;
    if !large || !inside(region.x, region.width, width) || !inside(region.y, region.height, height) {
        return Err(PhotoError::Region);
    }
    let (columns, rows) = (region.width.min(READ_MAX), region.height.min(READ_MAX));
    let mut parts = vec![Counts::new(); (PARTS * PARTS) as usize];
    let (mut bright, mut dark) = (0_u32, 0_u32);
    for row in 0..rows {
        let y = region.y + place(row, rows, region.height);
        for column in 0..columns {
            let x = region.x + place(column, columns, region.width);
            let [red, green, blue, _] = photo.get_pixel(x, y).0;
            let pixel = [red, green, blue];
            bright += u32::from(pixel.iter().any(|&byte| byte >= BRIGHTEST));
            dark += u32::from(pixel.iter().filter(|&&byte| byte <= DARKEST).count() >= 2);
            let part = (row * PARTS / rows) * PARTS + column * PARTS / columns;
            parts[part as usize].add(pixel);
        }
        if row % 32 == 0 && progress(f64::from(row) / f64::from(rows)).is_break() {
            return Err(PhotoError::Stopped);
        }
    }
    let mut all = Counts::new();
    for part in &parts {
        all.merge(part);
    }
    let pixels = f64::from(columns) * f64::from(rows);
    Ok(Sample {
        linear: all.trimmed_mean(),
        parts: parts.iter().map(Counts::trimmed_mean).collect(),
        too_bright: f64::from(bright) / pixels,
        too_dark: f64::from(dark) / pixels,
        unevenness: all.unevenness(),
    })
}

/// The middle of a step when a length is read in so many steps.
#[allow(clippy::cast_possible_truncation, reason = "the result is smaller than the length, a u32")]
fn place(step: u32, steps: u32, length: u32) -> u32 {
    ((u64::from(step) * 2 + 1) * u64::from(length) / (u64::from(steps) * 2)) as u32
}
