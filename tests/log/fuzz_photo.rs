//! The reader of photos, fed with what no camera writes: of a temper colour, of a trial piece. Its memory and
//! its time are bounded, whatever a picture claims of itself.

use std::io::Cursor;
use std::time::{Duration, Instant};

use image::{DynamicImage, ImageFormat, Rgb, RgbImage, Rgba, RgbaImage};
use strawblue::engine::photo::{PhotoUnread, read_photo};

use crate::fuzz::feed_bytes;

/// Nothing of some thousand bytes takes longer, however the tests are built.
const SLOWEST: Duration = Duration::from_secs(5);
/// What the whole of it may take at the most, MB: pixels are asked for in full before they are filled.
const MOST_MB: f64 = 1500.0;

fn written(picture: &DynamicImage, format: ImageFormat) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    picture.write_to(&mut bytes, format).expect("it is written");
    bytes.into_inner()
}

/// Small pictures of each kind.
fn sound() -> Vec<Vec<u8>> {
    let shade = |x: u32, y: u32| [(x * 9) as u8, (y * 11) as u8, (x * y) as u8];
    let plain: DynamicImage = RgbImage::from_fn(24, 17, |x, y| Rgb(shade(x, y))).into();
    let clear: DynamicImage = RgbaImage::from_fn(16, 16, |x, y| {
        let [red, green, blue] = shade(x, y);
        Rgba([red, green, blue, 128])
    })
    .into();
    let deep = DynamicImage::ImageRgb16(plain.to_rgb16());
    vec![
        written(&plain, ImageFormat::Png),
        written(&clear, ImageFormat::Png),
        written(&deep, ImageFormat::Png),
        written(&plain, ImageFormat::Jpeg),
        written(&plain.grayscale(), ImageFormat::Jpeg),
        written(&plain, ImageFormat::WebP),
        written(&clear, ImageFormat::WebP),
    ]
}

/// Sums of a PNG made right again: behind a wrong one nothing is read.
fn summed(mut bytes: Vec<u8>) -> Vec<u8> {
    let mut at = 8;
    while let Some(head) = bytes.get(at..at + 8) {
        let long = u32::from_be_bytes([head[0], head[1], head[2], head[3]]) as usize;
        let end = at.saturating_add(8).saturating_add(long);
        if end.saturating_add(4) > bytes.len() {
            break;
        }
        let sum = crc32fast::hash(&bytes[at + 4..end]);
        bytes[end..end + 4].copy_from_slice(&sum.to_be_bytes());
        at = end + 4;
    }
    bytes
}

/// The same pictures, claiming to be as large as their kind can say.
fn huge() -> Vec<Vec<u8>> {
    let mut all = Vec::new();
    for bytes in sound() {
        let mut made = bytes.clone();
        if bytes.starts_with(b"\x89PNG") {
            for (width, height) in [(0x7fff_ffff_u32, 0x7fff_ffff_u32), (20_001, 1), (19_999, 19_999), (0, 7)]
            {
                made[16..20].copy_from_slice(&width.to_be_bytes());
                made[20..24].copy_from_slice(&height.to_be_bytes());
                all.push(summed(made.clone()));
            }
        } else if bytes.starts_with(b"\xff\xd8") {
            let frame = bytes.windows(2).position(|pair| pair == [0xff, 0xc0]).expect("it has a frame");
            made[frame + 5..frame + 9].copy_from_slice(&[0xff; 4]);
            all.push(made);
        } else {
            // Fourteen bits of width and of height after the mark of a picture without loss.
            let at = bytes.windows(4).position(|four| four == b"VP8L").expect("it has no loss") + 9;
            made[at..at + 4].copy_from_slice(&[0xff, 0xff, 0xff, 0x0f]);
            all.push(made);
        }
    }
    all
}

fn peak_mb() -> Option<f64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    Some(line.trim().trim_end_matches("kB").trim().parse::<f64>().ok()? / 1024.0)
}

/// What a sound picture holds is read; what claims more pixels than are read is refused by its head.
#[test]
fn a_picture_is_read_or_refused() {
    for bytes in sound() {
        let read = read_photo(Cursor::new(&bytes)).expect("a sound picture");
        assert!((16..=24).contains(&read.width()), "{}", read.width());
        let cut = read_photo(Cursor::new(&bytes[..bytes.len() / 3]));
        assert!(cut.is_err(), "a third of a picture is none");
    }
    let all = huge();
    let refused = |bytes: &&Vec<u8>| read_photo(Cursor::new(bytes.as_slice())) == Err(PhotoUnread::TooLarge);
    assert!(all.iter().filter(refused).count() >= all.len() / 2, "most are refused for their size");
    for bytes in &all {
        let from = Instant::now();
        assert!(read_photo(Cursor::new(bytes)).is_err());
        assert!(from.elapsed() < Duration::from_secs(2), "{:?}", from.elapsed());
    }
    for none in [b"".as_slice(), b"GIF89a", b"<svg/>", &[0; 64]] {
        assert!(matches!(read_photo(Cursor::new(none)), Err(PhotoUnread::NoPicture(_))));
    }
}

#[test]
fn the_reader_of_photos() {
    let mut all = sound();
    all.extend(huge());
    all.extend(sound().into_iter().map(|bytes| bytes[..bytes.len() / 2].to_vec()));
    let mut odd = false;
    let mut slowest = Duration::ZERO;
    feed_bytes("photos", &all, |bytes| {
        odd = !odd;
        // Every other one has its sums right, so that what lies behind them is read too.
        let bytes =
            if odd && bytes.starts_with(b"\x89PNG") { summed(bytes.to_vec()) } else { bytes.to_vec() };
        let from = Instant::now();
        if let Ok(photo) = read_photo(Cursor::new(&bytes)) {
            let pixels = u64::from(photo.width()) * u64::from(photo.height());
            assert!(pixels <= 64 << 20, "{pixels}");
        }
        let taken = from.elapsed();
        assert!(taken < SLOWEST, "{taken:?} for {bytes:?}");
        slowest = slowest.max(taken);
    });
    println!("photos: slowest {slowest:?}");
    if let Some(peak_mb) = peak_mb() {
        println!("photos: memory at the most {peak_mb:.0} MB");
        assert!(peak_mb < MOST_MB, "{peak_mb} MB");
    }
}
