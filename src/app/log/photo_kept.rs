//! The pictures of trial pieces that are on the screen, and the work that reads them.

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::mpsc::Receiver;

use slint::{Image, Rgba8Pixel, SharedPixelBuffer, Timer};

use crate::log::{Id, LogStoreError, PhotoFile};

/// A picture as it comes from the work.
pub(super) type Pixels = SharedPixelBuffer<Rgba8Pixel>;

/// What the work brings.
pub(super) enum Done {
    /// A picture of the job, small and larger; none where it can't be read.
    Shown(PathBuf, Option<(Pixels, Pixels)>),
    /// A picture that is to be kept with a trial piece.
    Taken(Id, Result<PhotoFile, LogStoreError>),
}

/// The pictures of the job that is open.
#[derive(Default)]
pub(super) struct Photos {
    /// By their file: small; none where a file is missing or can't be read.
    pub(super) small: BTreeMap<PathBuf, Option<Image>>,
    pub(super) large: Vec<(PathBuf, Image)>,
    /// The trial piece that gets a picture.
    pub(super) wanted: Option<Id>,
    /// Why it got none.
    pub(super) problem: String,
    pub(super) work: Option<Receiver<Done>>,
    pub(super) timer: Timer,
}
