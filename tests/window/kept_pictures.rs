//! The kept pictures stay small: the history of the project carries each of them for ever.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use crate::screen::compare::{BLESS, write};

/// All of them together, in bytes.
const MOST: u64 = 8_500_000;
/// Where the header of a PNG says how a pixel is stored, and what stands there for three channels.
const COLOUR_AT: usize = 25;
const THREE_CHANNELS: u8 = 2;

fn pictures(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("the pictures are there") {
        let path = entry.expect("the folder reads").path();
        if path.is_dir() {
            pictures(&path, found);
        } else if path.to_str().is_some_and(|name| name.ends_with(".png") && !name.ends_with(".new.png")) {
            found.push(path);
        }
    }
}

/// Each was written by the writer of the tests, with all together in a few megabytes; what
/// came from elsewhere is packed anew with `STRAWBLUE_BLESS=1`.
#[test]
fn kept_pictures_are_small() {
    let mut paths = Vec::new();
    pictures(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/pictures"), &mut paths);
    let mut together = 0;
    for path in paths {
        let mut file = fs::read(&path).expect("the picture reads");
        if std::env::var_os(BLESS).is_some() && file[COLOUR_AT] != THREE_CHANNELS {
            write(&image::load_from_memory(&file).expect("is a picture").to_rgba8(), &path);
            file = fs::read(&path).expect("the picture reads");
        }
        assert_eq!(file[COLOUR_AT], THREE_CHANNELS, "{} is not packed", path.display());
        together += file.len() as u64;
    }
    assert!(together > 0 && together <= MOST, "{together} bytes of pictures: cut them to what they are for");
}

#[test]
fn no_picture_is_kept_twice() {
    let mut paths = Vec::new();
    pictures(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/pictures"), &mut paths);
    let mut seen: BTreeMap<Vec<u8>, PathBuf> = BTreeMap::new();
    for path in paths {
        let file = fs::read(&path).expect("the picture reads");
        if let Some(other) = seen.insert(file, path.clone()) {
            panic!("{} and {} are one picture", other.display(), path.display());
        }
    }
}
