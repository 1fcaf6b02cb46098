//! Packs the words of the languages, compiles the window's `.slint` files, and tells the linker what makes
//! the program smaller.

use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::{env, fs};

/// How hard the words are packed: the best that is still quick without optimisation.
const PACKING: u8 = 9;

fn main() {
    println!("cargo::rerun-if-changed=src/build.rs");
    pack_languages();
    #[cfg(feature = "window")]
    {
        // Element ids, by which tests find controls, survive only with debug information.
        let release = env::var("PROFILE").is_ok_and(|profile| profile == "release");
        let config = slint_build::CompilerConfiguration::new().with_debug_info(!release);
        slint_build::compile_with_config("ui/app.slint", config).expect("every .slint file compiles");
    }
    if loader_unpacks() {
        println!("cargo::rustc-link-arg-bins=-Wl,-z,pack-relative-relocs");
    }
}

/// A loader of glibc 2.36 or newer reads the table packed, which saves 1.5 MB. It is asked for where
/// the program is made on the system that it is made for.
fn loader_unpacks() -> bool {
    let is = |key: &str, value: &str| env::var(key).is_ok_and(|found| found == value);
    let here = env::var("HOST").is_ok_and(|host| is("TARGET", &host));
    if !here || !is("CARGO_CFG_TARGET_OS", "linux") || !is("CARGO_CFG_TARGET_ENV", "gnu") {
        return false;
    }
    let said = Command::new("getconf").arg("GNU_LIBC_VERSION").output();
    let version = said.ok().and_then(|said| {
        let text = String::from_utf8(said.stdout).ok()?;
        let (major, minor) = text.trim().strip_prefix("glibc ")?.split_once('.')?;
        Some((major.parse::<u32>().ok()?, minor.parse::<u32>().ok()?))
    });
    version.is_some_and(|version| version >= (2, 36))
}

/// Every `data/LANGUAGE.ftl` but the English one, packed, and a list of them for `words`.
fn pack_languages() {
    let made = PathBuf::from(env::var_os("OUT_DIR").expect("cargo names it"));
    let mut files: Vec<PathBuf> = fs::read_dir("data")
        .expect("the data is there")
        .map(|entry| entry.expect("it reads").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "ftl") && tag(path) != "en")
        .collect();
    files.sort();
    let mut list = String::from("&[\n");
    for file in files {
        // Not the whole folder: a change of the dataset must not compile the window anew.
        println!("cargo::rerun-if-changed={}", file.display());
        let tag = tag(&file);
        let text = fs::read_to_string(&file).expect("a language file is text");
        let packed = made.join(format!("{tag}.ftl.z"));
        fs::write(&packed, miniz_oxide::deflate::compress_to_vec(spoken(&text).as_bytes(), PACKING))
            .expect("it can be written");
        let _ = writeln!(list, "    ({tag:?}, include_bytes!({packed:?})),");
    }
    list.push(']');
    fs::write(made.join("languages.rs"), list).expect("it can be written");
}

fn tag(file: &Path) -> &str {
    file.file_stem().and_then(|stem| stem.to_str()).unwrap_or_default()
}

/// What is said, without what only translators read.
fn spoken(text: &str) -> String {
    text.lines().filter(|line| !line.starts_with('#')).fold(String::new(), |made, line| made + line + "\n")
}
