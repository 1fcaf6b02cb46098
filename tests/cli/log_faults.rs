//! A disk that is full, a folder that can't be written: each is said plainly, and nothing that was acknowledged
//! is lost.

use std::path::Path;
use std::process::{Command, Output};

use serde_json::Value;

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/data/demo.ron");
const JOB: &str = "Screen bell crank";

/// Runs it behind some lines of a shell.
fn behind(lines: &str, folder: &Path, arguments: &[&str]) -> Output {
    let mut command = Command::new("sh");
    command
        .args(["-c", &format!("{lines} exec \"$0\" \"$@\"")])
        .arg(env!("CARGO_BIN_EXE_strawblue"))
        .args(arguments);
    command.env_remove("LANGUAGE").env("LC_ALL", "C");
    command.env("XDG_DATA_HOME", folder).env("HOME", folder).output().expect("runs")
}

fn run(folder: &Path, arguments: &[&str]) -> Output {
    behind("", folder, arguments)
}

fn err(ran: &Output) -> String {
    String::from_utf8_lossy(&ran.stderr).into_owned()
}

fn readings(folder: &Path) -> u64 {
    let ran = run(folder, &["log", "--json"]);
    let read: Value = serde_json::from_slice(&ran.stdout).expect("JSON");
    read["jobs"][0]["readings"].as_u64().expect("a count")
}

const READ: [&str; 7] = ["log", "read", JOB, "piece=1", "part=1", "when=before-tack", "probe=320"];

/// Writes readings until the disk is full; how many were acknowledged.
fn until_full(folder: &Path, lines: &str) -> u64 {
    let mut kept = readings(folder);
    for _ in 0..400 {
        let ran = behind(lines, folder, &READ);
        let said = err(&ran);
        assert!(!said.contains("panicked"), "{said}");
        match ran.status.code() {
            Some(0) => kept += 1,
            Some(2) => {
                assert!(said.contains("cannot be") && said.trim_end().ends_with('.'), "{said}");
                return kept;
            }
            other => panic!("ended with {other:?}: {said}"),
        }
    }
    panic!("the disk is never full");
}

/// A limit on the size of a file stands for a full disk where no small disk can be had.
#[test]
fn a_file_that_may_not_grow_is_said_and_nothing_is_lost() {
    let folder = tempfile::tempdir().expect("a folder");
    assert!(run(folder.path(), &["log", "new", DEMO, "pieces=1"]).status.success());
    // The first file, and some readings more: in blocks of 512 bytes.
    let lines = "trap '' XFSZ; ulimit -f 40;";
    let kept = until_full(folder.path(), lines);
    assert!(kept > 2, "{kept}");
    assert_eq!(readings(folder.path()), kept);
    // With room again it goes on.
    assert!(run(folder.path(), &READ).status.success());
    assert_eq!(readings(folder.path()), kept + 1);
}

/// A small disk of its own, where one may be mounted.
struct SmallDisk(tempfile::TempDir);

impl SmallDisk {
    fn new(size: &str) -> Option<Self> {
        let folder = tempfile::tempdir().expect("a folder");
        let done = Command::new("mount")
            .args(["-t", "tmpfs", "-o", &format!("size={size}"), "tmpfs"])
            .arg(folder.path())
            .output();
        done.is_ok_and(|done| done.status.success()).then_some(Self(folder))
    }

    fn again(&self, option: &str) {
        let done =
            Command::new("mount").args(["-o", &format!("remount,{option}")]).arg(self.0.path()).status();
        assert!(done.expect("runs").success());
    }
}

impl Drop for SmallDisk {
    fn drop(&mut self) {
        let _ = Command::new("umount").arg("-l").arg(self.0.path()).status();
    }
}

#[test]
fn a_full_disk_is_said_and_nothing_is_lost() {
    let Some(disk) = SmallDisk::new("128k") else {
        println!("no disk can be mounted here");
        return;
    };
    let folder = disk.0.path();
    assert!(run(folder, &["log", "new", DEMO, "pieces=1"]).status.success());
    let kept = until_full(folder, "");
    assert!(kept > 2, "{kept}");
    assert_eq!(readings(folder), kept);
    disk.again("size=1m");
    assert!(run(folder, &READ).status.success());
    assert_eq!(readings(folder), kept + 1);
}

#[test]
fn a_disk_that_is_read_only_is_said_and_can_be_read() {
    let Some(disk) = SmallDisk::new("1m") else {
        println!("no disk can be mounted here");
        return;
    };
    let folder = disk.0.path();
    assert!(run(folder, &["log", "new", DEMO, "pieces=1"]).status.success());
    assert!(run(folder, &READ).status.success());
    disk.again("ro");
    let ran = run(folder, &READ);
    assert_eq!(ran.status.code(), Some(2), "{}", err(&ran));
    assert!(err(&ran).contains("cannot be written"), "{}", err(&ran));
    assert_eq!(readings(folder), 1, "what is there is shown all the same");
    assert!(run(folder, &["log", "show", JOB]).status.success());
}
