//! Which picture is it that these bytes hold?

use std::io::{BufRead, Seek};

use image::{DynamicImage, ImageDecoder, ImageReader};
use thiserror::Error;

/// A picture is at most so many pixels wide or high.
const SIDE_MAX: u32 = 20_000;
/// It has at most so many pixels.
const PIXELS_MAX: u64 = 64 << 20;
/// They take at most so much memory, bytes.
const MEMORY_MAX: u64 = 4 * PIXELS_MAX;
/// What reading it takes beside its pixels is at most so long, bytes.
const BESIDE_MAX: u64 = 64 << 20;

/// Why bytes are no picture.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum PhotoUnread {
    /// They are no picture, or a damaged one.
    #[error("{0}")]
    NoPicture(String),
    /// It is larger than what is read.
    #[error("too large")]
    TooLarge,
}

/// Reads a PNG, JPEG or WebP picture, upright. What it takes is bounded by 64 million pixels, and asked of the
/// head of the picture before any memory is.
///
/// # Errors
/// [`PhotoUnread`] with the reason.
pub fn read_photo(from: impl BufRead + Seek) -> Result<DynamicImage, PhotoUnread> {
    let unread = |error: &dyn std::fmt::Display| PhotoUnread::NoPicture(error.to_string());
    let mut limits = image::Limits::default();
    limits.max_image_width = Some(SIDE_MAX);
    limits.max_image_height = Some(SIDE_MAX);
    limits.max_alloc = Some(MEMORY_MAX + BESIDE_MAX);
    let mut reader = ImageReader::new(from).with_guessed_format().map_err(|error| unread(&error))?;
    reader.limits(limits);
    let mut decoder = reader.into_decoder().map_err(|error| match error {
        image::ImageError::Limits(_) => PhotoUnread::TooLarge,
        error => unread(&error),
    })?;
    let (width, height) = decoder.dimensions();
    let pixels = u64::from(width) * u64::from(height);
    if width.max(height) > SIDE_MAX || pixels > PIXELS_MAX || decoder.total_bytes() > MEMORY_MAX {
        return Err(PhotoUnread::TooLarge);
    }
    let turned = decoder.orientation();
    let mut photo = DynamicImage::from_decoder(decoder).map_err(|error| match error {
        image::ImageError::Limits(_) => PhotoUnread::TooLarge,
        error => unread(&error),
    })?;
    if let Ok(turned) = turned {
        photo.apply_orientation(turned);
    }
    Ok(photo)
}
