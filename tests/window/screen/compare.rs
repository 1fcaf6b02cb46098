//! Compares the window with the pictures kept in `tests/pictures/`.
//!
//! `STRAWBLUE_BLESS=1` writes them anew; a mismatch leaves `NAME.new.png` beside the old one.

use std::path::{Path, PathBuf};

use image::RgbaImage;
use slint::ComponentHandle;
use strawblue::app::ui;

use super::window;

/// A pixel counts as different when one channel is off by more than this (of 255).
const CHANNEL_TOLERANCE: u8 = 24;
/// So many different pixels in a million are still the same picture.
const PIXELS_PER_MILLION: usize = 200;

/// The two shapes of the window that every page is looked at in.
pub(crate) const PHONE: (u32, u32) = (360, 740);
/// The other shape.
pub(crate) const DESKTOP: (u32, u32) = (1280, 800);

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

/// Compares a picture with the kept one.
pub(crate) fn check_drawn(drawn: &RgbaImage, name: &str) {
    let kept = picture_path(name);
    if std::env::var_os("STRAWBLUE_BLESS").is_some() {
        drawn.save(&kept).expect("the picture folder can be written");
        return;
    }
    let fresh = picture_path(&format!("{name}.new"));
    let Ok(old) = image::open(&kept) else {
        drawn.save(&fresh).expect("the picture folder can be written");
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
        drawn.save(&fresh).expect("the picture folder can be written");
        panic!("{name}: {different} pixels differ, {allowed} may; look at {name}.new.png");
    }
    // A picture that is right again takes its complaint away.
    let _ = std::fs::remove_file(&fresh);
}

/// Draws the same content on a phone and on a desktop, dark and light.
pub(crate) fn check_all(name: &str, fill: impl Fn(&ui::AppWindow)) {
    for (shape, size) in [("phone", PHONE), ("desktop", DESKTOP)] {
        for (look_name, look) in [("dark", ui::Look::Dark), ("light", ui::Look::Light)] {
            check(&window(size, look, &fill), &format!("{name}-{shape}-{look_name}"));
        }
    }
}
