//! What the device around the window does for it, beyond what a window can do anywhere.

use std::path::Path;

/// A phone has a size of text of its own, keeps its screen lit, and hands files to other programs. A desktop does
/// none of it: each has its default here.
pub trait Device {
    /// The screen stays lit while a clock on it runs out, and may go dark again after that.
    fn keep_lit(&self, _lit: bool) {}

    /// How large the person wants the letters of all programs, of the usual size.
    fn text_scale(&self) -> f32 {
        1.0
    }

    /// Can a file be handed to another program here?
    fn shares(&self) -> bool {
        false
    }

    /// Lets the person choose which program a file of a kind (its media type) is handed to, under a title.
    ///
    /// # Errors
    /// What the system has against it, in its own words.
    fn share(&self, _file: &Path, _kind: &str, _title: &str) -> Result<(), String> {
        Err(String::new())
    }
}

/// A desktop.
#[derive(Debug, Clone, Copy)]
pub struct Desktop;

impl Device for Desktop {}

impl Default for Box<dyn Device> {
    fn default() -> Self {
        Box::new(Desktop)
    }
}
