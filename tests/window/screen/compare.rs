//! Compares the window with the pictures kept in `tests/pictures/`.
//!
//! `STRAWBLUE_BLESS=1` writes them anew; a mismatch leaves `NAME.new.png` beside the old one.
//! A picture shows what it is for and no more: [`part`] cuts the rest away.

use std::path::{Path, PathBuf};

use image::codecs::png::{CompressionType, FilterType, PngEncoder};
use image::{DynamicImage, ExtendedColorType, ImageEncoder, RgbaImage};
use slint::ComponentHandle;
use strawblue::app::ui;

use super::hand::with;

/// The variable that writes the pictures anew.
pub(crate) const BLESS: &str = "STRAWBLUE_BLESS";
/// A pixel counts as different when one channel is off by more than this (of 255).
const CHANNEL_TOLERANCE: u8 = 24;
/// So many different pixels in a million are still the same picture.
const PIXELS_PER_MILLION: usize = 200;

/// The two shapes of the window that every page is looked at in.
pub(crate) const PHONE: (u32, u32) = (360, 740);
/// The other shape.
pub(crate) const DESKTOP: (u32, u32) = (1280, 800);
/// What stands beside the inputs there.
pub(crate) const DESKTOP_RESULTS: (u32, u32, u32, u32) = (480, 56, 800, 744);

fn picture_path(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/pictures").join(format!("{name}.png"))
}

/// The window as it is drawn.
pub(crate) fn drawn(window: &ui::AppWindow) -> RgbaImage {
    let shot = window.window().take_snapshot().expect("the software renderer draws");
    RgbaImage::from_raw(shot.width(), shot.height(), shot.as_bytes().to_vec())
        .expect("a snapshot has four bytes a pixel")
}

/// Draws the window and compares it with the kept picture.
pub(crate) fn check(window: &ui::AppWindow, name: &str) {
    check_drawn(&drawn(window), name);
}

/// A part of what is drawn: from the left, from the top, how wide, how high.
pub(crate) fn part(drawn: &RgbaImage, (left, top, wide, high): (u32, u32, u32, u32)) -> RgbaImage {
    assert!(left + wide <= drawn.width() && top + high <= drawn.height(), "the part lies in the window");
    image::imageops::crop_imm(drawn, left, top, wide, high).to_image()
}

/// Writes a picture small. The window is opaque, so three channels hold all of it, and text on
/// flat grounds packs best without a filter: to less than half of what the encoder does by itself.
pub(crate) fn write(picture: &RgbaImage, path: &Path) {
    let opaque = DynamicImage::ImageRgba8(picture.clone()).to_rgb8();
    let mut file = Vec::new();
    PngEncoder::new_with_quality(&mut file, CompressionType::Best, FilterType::NoFilter)
        .write_image(opaque.as_raw(), opaque.width(), opaque.height(), ExtendedColorType::Rgb8)
        .expect("three bytes a pixel");
    std::fs::write(path, file).expect("the picture folder can be written");
}

/// Draws the window and compares a part of it with the kept picture.
pub(crate) fn check_part(window: &ui::AppWindow, within: (u32, u32, u32, u32), name: &str) {
    check_drawn(&part(&drawn(window), within), name);
}

/// Where words that begin like this stand: their top and their end.
fn place(window: &ui::AppWindow, begin: &str) -> (f32, f32) {
    let own = begin.to_owned();
    let there = with(window, move |element| {
        element.accessible_label().is_some_and(|label| label.starts_with(own.as_str()))
    })
    .unwrap_or_else(|| panic!("“{begin}” is on the screen"));
    let top = there.absolute_position().y;
    (top, top + there.size().height)
}

/// Compares what is drawn from one row to another, both named by how their words begin. The window
/// is high enough to hold both.
pub(crate) fn check_rows(
    window: &ui::AppWindow,
    (left, wide): (u32, u32),
    (first, last): (&str, &str),
    name: &str,
) {
    let (top, _) = place(window, first);
    let (_, bottom) = place(window, last);
    assert!(top < bottom, "“{first}” stands above “{last}”");
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "pixels of a picture")]
    let (top, bottom) = (top.max(0.0) as u32, bottom as u32);
    check_part(window, (left, top, wide, bottom - top), name);
}

/// Compares a picture with the kept one.
pub(crate) fn check_drawn(drawn: &RgbaImage, name: &str) {
    let kept = picture_path(name);
    if std::env::var_os(BLESS).is_some() {
        write(drawn, &kept);
        return;
    }
    let fresh = picture_path(&format!("{name}.new"));
    let Ok(old) = image::open(&kept) else {
        write(drawn, &fresh);
        panic!("there is no picture {name}.png; look at {name}.new.png, then run with STRAWBLUE_BLESS=1");
    };
    let old = old.to_rgba8();
    let different = if old.dimensions() == drawn.dimensions() {
        old.pixels()
            .zip(drawn.pixels())
            .filter(|(a, b)| a.0.iter().zip(b.0).any(|(a, b)| a.abs_diff(b) > CHANNEL_TOLERANCE))
            .count()
    } else {
        usize::MAX
    };
    let allowed = (drawn.width() as usize * drawn.height() as usize) * PIXELS_PER_MILLION / 1_000_000;
    if different > allowed {
        write(drawn, &fresh);
        panic!("{name}: {different} pixels differ, {allowed} may; look at {name}.new.png");
    }
    // A picture that is right again takes its complaint away.
    let _ = std::fs::remove_file(&fresh);
}
