//! What a Linux desktop must have before a window can be made on it.
//!
//! The toolkit ends the program where a library of the keyboard or every font is missing,
//! so both are looked for first. Where the look can't be sure it lets the start go on.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::{env, fs};

use fontique::{Collection, CollectionOptions};

/// What shows windows here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Display {
    /// Nothing.
    None,
    /// An X server.
    X11,
    /// A Wayland compositor, which comes first where both are there.
    Wayland,
}

/// A library that is loaded while the window is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Library {
    /// Its file.
    pub file: &'static str,
    /// The package of Debian that brings it.
    pub package: &'static str,
}

const KEYBOARD: Library = Library { file: "libxkbcommon.so.0", package: "libxkbcommon0" };
const KEYBOARD_X11: Library = Library { file: "libxkbcommon-x11.so.0", package: "libxkbcommon-x11-0" };
/// No program runs without it: where it is not found, the libraries are kept elsewhere.
const ALWAYS: &str = "libc.so.6";
/// The loader's own list of libraries.
const LOADER_CACHE: &str = "/etc/ld.so.cache";
/// Fonts that the window can draw with.
const FONT_ENDINGS: [&str; 4] = ["ttf", "otf", "ttc", "otc"];
/// Folders below a folder of fonts are followed so deep, so that a circle of links ends.
const FONT_DEPTH: usize = 6;
/// Set by this program where it begins itself anew to ask fontconfig.
const ASKS_FONTCONFIG: &str = "STRAWBLUE_ASKS_FONTCONFIG";

/// The library that is surely missing: it is neither in a folder nor in the loader's list,
/// while others are.
#[must_use]
pub fn missing_library(display: Display, folders: &[PathBuf], loader_cache: &[u8]) -> Option<Library> {
    let wanted: &[Library] = match display {
        Display::None => &[],
        Display::Wayland => &[KEYBOARD],
        // The first one comes along with the second.
        Display::X11 => &[KEYBOARD_X11, KEYBOARD],
    };
    let in_folder = |file: &str| folders.iter().any(|folder| folder.join(file).exists());
    let listed = |file: &str| loader_cache.windows(file.len()).any(|part| part == file.as_bytes());
    if !in_folder(ALWAYS) {
        return None;
    }
    wanted.iter().copied().find(|library| !in_folder(library.file) && !listed(library.file))
}

/// Is there a font in these folders, or below?
#[must_use]
pub fn any_font(folders: &[PathBuf]) -> bool {
    folders.iter().any(|folder| font_below(folder, FONT_DEPTH))
}

fn font_below(folder: &Path, depth: usize) -> bool {
    let Ok(entries) = fs::read_dir(folder) else { return false };
    let paths: Vec<PathBuf> = entries.flatten().map(|entry| entry.path()).collect();
    let is_font = |path: &PathBuf| {
        let ending = path.extension().and_then(OsStr::to_str).unwrap_or_default().to_lowercase();
        FONT_ENDINGS.contains(&ending.as_str())
    };
    paths.iter().any(is_font) || depth > 0 && paths.iter().any(|path| font_below(path, depth - 1))
}

/// What shows windows, by what the system has set for this program.
pub(super) fn display() -> Display {
    let set = |name: &str| env::var_os(name).is_some_and(|value| !value.is_empty());
    if set("WAYLAND_DISPLAY") || set("WAYLAND_SOCKET") {
        Display::Wayland
    } else if set("DISPLAY") {
        Display::X11
    } else {
        Display::None
    }
}

/// The library that is surely missing on this machine.
pub(super) fn missing_here(display: Display) -> Option<Library> {
    let mut folders: Vec<PathBuf> =
        env::var_os("LD_LIBRARY_PATH").map_or_else(Vec::new, |list| env::split_paths(&list).collect());
    for top in ["/usr/local/lib", "/lib", "/usr/lib", "/lib64", "/usr/lib64"] {
        folders.push(top.into());
        // Debian keeps the libraries of each kind of machine in a folder of its own.
        let own = |name: &str| name.starts_with(env::consts::ARCH) && name.contains("-linux-");
        let below = fs::read_dir(top).into_iter().flatten().flatten();
        folders.extend(
            below.filter(|entry| entry.file_name().to_str().is_some_and(own)).map(|entry| entry.path()),
        );
    }
    missing_library(display, &folders, &fs::read(LOADER_CACHE).unwrap_or_default())
}

/// Has this machine a font? A file in the usual folders answers at once; else fontconfig
/// is asked, which may know other folders, or be told to leave these out.
pub(super) fn has_font() -> bool {
    let told = ["FONTCONFIG_FILE", "FONTCONFIG_PATH", "FONTCONFIG_SYSROOT"];
    let by_itself = told.iter().all(|name| env::var_os(name).is_none());
    let home = directories::BaseDirs::new();
    let own = home.iter().flat_map(|home| [home.data_dir().join("fonts"), home.home_dir().join(".fonts")]);
    let folders: Vec<PathBuf> =
        ["/usr/share/fonts", "/usr/local/share/fonts"].into_iter().map(PathBuf::from).chain(own).collect();
    by_itself && any_font(&folders)
        // The toolkit takes a font of its own from here.
        || env::var_os("SLINT_DEFAULT_FONT").is_some()
        || fontconfig_has_font()
}

/// Does fontconfig, with whatever it is told, know a font? The library that asks it panics where it
/// knows none, and takes its process with it: so a process of its own does the asking.
fn fontconfig_has_font() -> bool {
    let Ok(program) = env::current_exe() else { return true };
    let mut asking = Command::new(program);
    asking.env(ASKS_FONTCONFIG, "1").stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    asking.status().is_ok_and(|status| status.success())
}

/// The answer to the process that began this one to ask fontconfig; nothing in any other process.
pub(crate) fn asked_for_fonts() -> Option<bool> {
    env::var_os(ASKS_FONTCONFIG)?;
    let options = CollectionOptions { shared: false, system_fonts: true };
    Some(Collection::new(options).family_names().next().is_some())
}
