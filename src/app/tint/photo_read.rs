//! Reading a photo off the screen's thread: what is told meanwhile, and what comes of it.

use std::fs::File;
use std::io::{BufReader, Read, Seek, SeekFrom};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender};

use image::DynamicImage;
use slint::{Image, Rgba8Pixel, SharedPixelBuffer, Timer};

use crate::engine::photo::{PhotoError, PhotoMatch, PhotoUnread, Region, read_photo};
use crate::words::Words;

/// Longest side of the picture that is shown.
const SHOWN: u32 = 1200;
/// Side of a spot as a share of the shorter side of the photo.
pub(super) const SPOT: f64 = 0.04;

/// What the work tells.
pub(super) enum News {
    /// So much is done, 0 to 1.
    Progress(f64),
    /// The photo was read, or why not.
    Loaded(Result<Box<Loaded>, PhotoUnread>),
    /// The photo was matched, or why not.
    Matched(Result<PhotoMatch, PhotoError>),
}

/// Work that goes on.
pub(super) struct Work {
    pub(super) news: Receiver<News>,
    pub(super) stop: Arc<AtomicBool>,
    pub(super) progress: f64,
}

impl Drop for Work {
    /// Work that nobody waits for any more stops.
    fn drop(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
    }
}

/// What went wrong with a photo: its message, and the value of that by name.
pub(crate) struct Trouble(pub(super) &'static str, pub(super) Option<(&'static str, String)>);

impl Trouble {
    /// The same in words.
    pub(super) fn say(&self, words: &Words) -> String {
        let values = self.1.iter().map(|(name, value)| (*name, value.as_str()));
        words.with(self.0, &values.collect::<Vec<_>>())
    }
}

/// The photo on the screen and what is known of it.
#[derive(Default)]
pub(crate) struct Photo {
    pub(crate) file: Option<PathBuf>,
    pub(crate) photo: Option<Arc<DynamicImage>>,
    pub(super) picture: Image,
    pub(super) spot: Option<(f64, f64)>,
    pub(super) bright: Option<(f64, f64)>,
    pub(super) turn: usize,
    pub(crate) problem: Option<Trouble>,
    pub(crate) found: Option<Result<PhotoMatch, PhotoError>>,
    pub(super) work: Option<Work>,
    pub(super) timer: Option<Timer>,
}

/// A photo that was read.
pub(super) struct Loaded {
    /// Upright, in full.
    pub(crate) photo: Arc<DynamicImage>,
    /// Smaller, to be shown.
    pub(crate) shown: SharedPixelBuffer<Rgba8Pixel>,
}

/// A file that tells how much of it is read, and stops when it is told to.
struct Counted<'a> {
    file: File,
    size: f64,
    news: &'a Sender<News>,
    stop: &'a AtomicBool,
}

impl Read for Counted<'_> {
    #[allow(clippy::cast_precision_loss, reason = "a share of a file needs no more digits")]
    fn read(&mut self, into: &mut [u8]) -> std::io::Result<usize> {
        if self.stop.load(Ordering::Relaxed) {
            return Err(std::io::Error::other("stopped"));
        }
        let count = self.file.read(into)?;
        let at = self.file.stream_position().unwrap_or(0) as f64;
        let _ = self.news.send(News::Progress((at / self.size).min(1.0) * 0.9));
        Ok(count)
    }
}

impl Seek for Counted<'_> {
    fn seek(&mut self, to: SeekFrom) -> std::io::Result<u64> {
        self.file.seek(to)
    }
}

/// Reads a photo, upright, with a smaller one to show.
pub(super) fn read(path: &Path, news: &Sender<News>, stop: &AtomicBool) -> Result<Loaded, PhotoUnread> {
    let file = File::open(path).map_err(|error| PhotoUnread::NoPicture(error.to_string()))?;
    #[allow(clippy::cast_precision_loss, reason = "a share of a file needs no more digits")]
    let size = file.metadata().map_or(1.0, |about| about.len() as f64).max(1.0);
    let counted = BufReader::with_capacity(1 << 16, Counted { file, size, news, stop });
    let photo = read_photo(counted)?;
    let small =
        if photo.width().max(photo.height()) > SHOWN { photo.thumbnail(SHOWN, SHOWN) } else { photo.clone() };
    let small = small.into_rgba8();
    let shown = SharedPixelBuffer::clone_from_slice(small.as_raw(), small.width(), small.height());
    Ok(Loaded { photo: Arc::new(photo), shown })
}

/// Why a photo can't be read.
pub(super) fn unread(why: PhotoUnread) -> Trouble {
    match why {
        PhotoUnread::NoPicture(why) => Trouble("photo-unreadable", Some(("why", why))),
        PhotoUnread::TooLarge => Trouble("photo-too-large", None),
    }
}

/// The square about a point, inside the photo.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "inside the photo, whose sides are u32"
)]
pub(super) fn region_at(photo: &DynamicImage, (x, y): (f64, f64)) -> Region {
    let (width, height) = (f64::from(photo.width()), f64::from(photo.height()));
    let side = (width.min(height) * SPOT).max(6.0).min(width.min(height));
    let from = |at: f64, whole: f64| (at * whole - side / 2.0).clamp(0.0, whole - side);
    Region { x: from(x, width) as u32, y: from(y, height) as u32, width: side as u32, height: side as u32 }
}
