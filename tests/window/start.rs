//! What a Linux desktop lacks is said before the window is made, and not met as a panic.
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use strawblue::app::StartError;
use strawblue::app::desktop::{Display, any_font, missing_library};
use strawblue::words::Words;

/// A folder with these files, empty.
fn folder_of(files: &[&str]) -> (tempfile::TempDir, Vec<PathBuf>) {
    let folder = tempfile::tempdir().expect("a folder");
    for file in files {
        let path = folder.path().join(file);
        fs::create_dir_all(path.parent().expect("below the folder")).expect("makes");
        fs::write(path, "").expect("writes");
    }
    let folders = vec![PathBuf::from("/nowhere/at/all"), folder.path().to_owned()];
    (folder, folders)
}

#[test]
fn a_missing_library_is_named_with_its_package() {
    let named = |display, files: &[&str], cache: &[u8]| {
        let (_folder, folders) = folder_of(files);
        missing_library(display, &folders, cache).map(|library| (library.file, library.package))
    };
    let x11 = ("libxkbcommon-x11.so.0", "libxkbcommon-x11-0");
    let both = ("libxkbcommon.so.0", "libxkbcommon0");
    let bare = ["libc.so.6"];
    let wayland_only = ["libc.so.6", "libxkbcommon.so.0"];
    let whole = ["libc.so.6", "libxkbcommon.so.0", "libxkbcommon-x11.so.0"];
    assert_eq!(named(Display::X11, &bare, b""), Some(x11));
    assert_eq!(named(Display::X11, &wayland_only, b""), Some(x11));
    assert_eq!(named(Display::Wayland, &bare, b""), Some(both));
    assert_eq!(named(Display::Wayland, &wayland_only, b""), None);
    assert_eq!(named(Display::X11, &whole, b""), None);
    assert_eq!(named(Display::None, &bare, b""), None);
    // The loader knows of it elsewhere.
    let listed = b"\0libxkbcommon.so.0\0/opt/a/libxkbcommon-x11.so.0\0";
    assert_eq!(named(Display::X11, &bare, listed), None);
    // Not even the library that every program has: this machine keeps them elsewhere.
    assert_eq!(named(Display::X11, &[], b""), None);
}

#[test]
fn a_font_is_a_file_that_the_window_can_draw_with() {
    let any = |files: &[&str]| {
        let (_folder, folders) = folder_of(files);
        any_font(&folders)
    };
    assert!(any(&["a.ttf"]) && any(&["truetype/plex/A.TTF"]) && any(&["x/y/z.otf"]) && any(&["b.ttc"]));
    assert!(!any(&[]) && !any(&["readme.txt", "X11/misc/7x13.pcf.gz", "type1/n019003l.pfb"]));
    // A circle of links ends.
    let (folder, folders) = folder_of(&[]);
    std::os::unix::fs::symlink(folder.path(), folder.path().join("round")).expect("links");
    assert!(!any_font(&folders));
}

#[test]
fn each_reason_has_words() {
    let words = Words::english();
    let font = StartError::NoFont.say(&words);
    assert!(font.contains("font") && font.contains("package"), "{font}");
    let library = StartError::NoLibrary { file: "libxkbcommon-x11.so.0", package: "libxkbcommon-x11-0" };
    let library = library.say(&words);
    assert!(
        library.contains("libxkbcommon-x11.so.0") && library.contains("libxkbcommon-x11-0."),
        "{library}"
    );
}

/// The program on an X server that is not there, with this setting of fontconfig.
fn run(home: &Path, fonts: &str) -> Output {
    let conf = home.join("fonts.conf");
    fs::write(&conf, format!("<?xml version=\"1.0\"?><fontconfig>{fonts}</fontconfig>")).expect("writes");
    Command::new(env!("CARGO_BIN_EXE_strawblue"))
        .env_remove("WAYLAND_DISPLAY")
        .env_remove("WAYLAND_SOCKET")
        .env_remove("SLINT_DEFAULT_FONT")
        .env_remove("LANGUAGE")
        .env("LC_ALL", "C")
        .env("DISPLAY", ":4711")
        .env("HOME", home)
        .env("XDG_DATA_HOME", home)
        .env("FONTCONFIG_FILE", conf)
        .output()
        .expect("runs")
}

#[test]
fn without_a_font_the_program_says_so_and_prints_the_demo() {
    let home = tempfile::tempdir().expect("a folder");
    let ran = run(home.path(), "");
    let (out, err) = (String::from_utf8_lossy(&ran.stdout), String::from_utf8_lossy(&ran.stderr));
    assert_eq!(ran.status.code(), Some(0), "{err}");
    assert!(err.contains("no font") && err.contains("fonts-dejavu-core"), "{err}");
    assert!(out.contains("Minimum preheat: ") && !err.contains("panicked"), "{err}");
    // With one it goes on, and meets the missing X server.
    let fonts = Path::new(env!("CARGO_MANIFEST_DIR")).join("ui/fonts");
    let ran = run(home.path(), &format!("<dir>{}</dir>", fonts.display()));
    let err = String::from_utf8_lossy(&ran.stderr);
    assert!(err.contains("The program cannot open its window here") && !err.contains("no font"), "{err}");
}
