//! Packs the data and the words, and tells the linker what makes the program smaller.

use std::ffi::OsString;
use std::fmt::Write as _;
use std::io::Write as _;
use std::path::PathBuf;
use std::process::{Command, Stdio};
use std::{env, fs};

/// How hard they are packed: the best that is still quick without optimisation.
const PACKING: u8 = 9;

fn main() {
    println!("cargo::rerun-if-changed=src/build.rs");
    pack_data();
    if env::var("PROFILE").is_ok_and(|profile| profile == "release") {
        for option in smaller() {
            println!("cargo::rustc-link-arg-bins={option}");
        }
    }
}

/// What makes the linked program smaller, each where this system's linker and loader take it.
fn smaller() -> Vec<String> {
    let is = |key: &str, value: &str| env::var(key).is_ok_and(|found| found == value);
    let here = env::var("HOST").is_ok_and(|host| is("TARGET", &host));
    if !here || !is("CARGO_CFG_TARGET_OS", "linux") || !is("CARGO_CFG_TARGET_ENV", "gnu") {
        return Vec::new();
    }
    let mut taken = Vec::new();
    // The table of addresses that the loader fills in, packed: 1.5 MB.
    if loader_unpacks() {
        taken.push("-Wl,-z,pack-relative-relocs".to_owned());
    }
    // What the toolkit writes out for each page is the same code over and over: it is kept once.
    taken.push("-Wl,--icf=all".to_owned());
    // A panic ends a release, so nothing ever unwinds it: 2.7 MB of tables for that. Cargo tells a build
    // script nothing of a profile's panics; where one would unwind, it ends the program all the same.
    let script = made().join("no_unwinding.ld");
    fs::write(&script, NO_UNWINDING).expect("it can be written");
    taken.push(format!("-Wl,-T,{}", script.display()));
    taken.retain(|option| linker_takes(option));
    taken
}

/// Leaves out the tables by which a panic would be unwound.
const NO_UNWINDING: &str = "SECTIONS { /DISCARD/ : { *(.eh_frame) *(.eh_frame_hdr) *(.gcc_except_table*) } } \
    INSERT AFTER .rodata;";

/// Does a program of one line link with this option, and run? Not every linker knows each.
fn linker_takes(option: &str) -> bool {
    let program = made().join("linked");
    let mut rustc = Command::new(env::var_os("RUSTC").expect("cargo names it"));
    rustc.args(["--edition=2024", "--crate-name=linked", "-Cpanic=abort", "-", "-o"]).arg(&program);
    if let Some(linker) = env::var_os("RUSTC_LINKER") {
        let mut named = OsString::from("-Clinker=");
        named.push(linker);
        rustc.arg(named);
    }
    let flags = env::var("CARGO_ENCODED_RUSTFLAGS").unwrap_or_default();
    rustc.args(flags.split('\x1f').filter(|flag| !flag.is_empty()));
    rustc.arg(format!("-Clink-arg={option}"));
    let ran = rustc.stdin(Stdio::piped()).stdout(Stdio::null()).stderr(Stdio::null()).spawn().and_then(
        |mut run| {
            // Dropped at once, so that it comes to the end of the text.
            let written = run.stdin.take().map_or(Ok(()), |mut text| text.write_all(b"fn main() {}"));
            run.wait().map(|status| written.is_ok() && status.success())
        },
    );
    ran.is_ok_and(|linked| linked) && Command::new(&program).status().is_ok_and(|status| status.success())
}

/// Where the build puts what it makes.
fn made() -> PathBuf {
    PathBuf::from(env::var_os("OUT_DIR").expect("cargo names it"))
}

/// A loader of glibc 2.36 or newer reads the table packed.
fn loader_unpacks() -> bool {
    let said = Command::new("getconf").arg("GNU_LIBC_VERSION").output();
    let version = said.ok().and_then(|said| {
        let text = String::from_utf8(said.stdout).ok()?;
        let (major, minor) = text.trim().strip_prefix("glibc ")?.split_once('.')?;
        Some((major.parse::<u32>().ok()?, minor.parse::<u32>().ok()?))
    });
    version.is_some_and(|version| version >= (2, 36))
}

/// Every `data/NAME.ron` and `data/LANGUAGE.ftl`, packed: each is unpacked once, where it is read. And a list of
/// the languages for `words`.
fn pack_data() {
    let made = made();
    let mut files: Vec<PathBuf> = fs::read_dir("data")
        .expect("the data is there")
        .map(|entry| entry.expect("it reads").path())
        .collect();
    files.sort();
    let mut list = String::from("&[\n");
    for file in files {
        let ending = file.extension().and_then(|ending| ending.to_str());
        let name = file.file_name().and_then(|name| name.to_str()).unwrap_or_default();
        if !matches!(ending, Some("ron" | "ftl")) {
            continue;
        }
        // Not the whole folder: a change of a page about the data must not compile the window anew.
        println!("cargo::rerun-if-changed={}", file.display());
        let text = fs::read_to_string(&file).expect("a data file is text");
        let said = if ending == Some("ftl") { spoken(&text) } else { text };
        let packed = made.join(format!("{name}.z"));
        fs::write(&packed, miniz_oxide::deflate::compress_to_vec(said.as_bytes(), PACKING))
            .expect("it can be written");
        if let Some(tag) = name.strip_suffix(".ftl") {
            let _ = writeln!(list, "    ({tag:?}, include_bytes!({packed:?})),");
        }
    }
    list.push(']');
    fs::write(made.join("languages.rs"), list).expect("it can be written");
}

/// What is said, without what only translators read.
fn spoken(text: &str) -> String {
    text.lines().filter(|line| !line.starts_with('#')).fold(String::new(), |made, line| made + line + "\n")
}
