//! Backup and restore on the command line, and a file by itself.

use serde_json::Value;

use super::Ran;
use super::log::Device;

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/data/demo.ron");

fn jobs(device: &Device) -> usize {
    device.json(&["list"])["jobs"].as_array().expect("a list").len()
}

#[test]
fn all_that_is_kept_goes_to_another_device() {
    let (one, other) = (Device::new(), Device::new());
    one.begin();
    let file = one.path("all.tar");
    let file = file.to_str().expect("text");
    let ran = one.run(&["backup", file]);
    assert_eq!(
        (ran.status, ran.out.trim()),
        (0, format!("1 job, the steels, photos and settings are in {file}.").as_str())
    );
    let again = one.run(&["backup", file]);
    assert_eq!(again.status, 2);
    assert!(again.err.contains("There is a file of this name"), "{}", again.err);
    let ran = other.run(&["restore", file]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    // The job, its three pieces.
    assert_eq!(ran.out.trim(), "Jobs in the backup: 1. Records that were missing here: 4.");
    assert_eq!(jobs(&other), 1);
    let read: Value = serde_json::from_str(&other.run(&["restore", file, "--json"]).out).expect("JSON");
    assert_eq!((&read["new_records"], &read["jobs"]), (&0.into(), &1.into()));
}

#[test]
fn what_is_no_backup_is_refused_in_plain_words() {
    let device = Device::new();
    let says = |arguments: &[&str], words: &str| {
        let ran = device.run(arguments);
        assert_eq!(ran.status, 2, "{}", ran.out);
        assert!(ran.err.contains(words), "{arguments:?}: {}", ran.err);
    };
    says(&["restore", DEMO], "This is no backup of Strawblue.");
    says(&["restore", "/nowhere/at/all.tar"], "/nowhere/at/all.tar");
    says(&["restore"], "Name one file: strawblue restore FILE.tar");
    says(&["backup", "one.tar", "two.tar"], "Name one file: strawblue backup FILE.tar");
    says(&["backup", "/nowhere/at/all.tar"], "/nowhere/at/all.tar");
}

/// Without a display: what the window would open is told, and what nobody can open is refused before that.
#[test]
fn a_file_by_itself_is_a_job_a_log_or_a_photo() {
    let device = Device::new();
    device.begin();
    let export = device.path("handed.ron");
    let export = export.to_str().expect("text");
    device.log(&["export", "Screen bell crank", export]);
    let photo = device.path("photo.of.no.ending");
    image::RgbImage::new(4, 4).save_with_format(&photo, image::ImageFormat::Png).expect("saves");
    let open = |file: &str| -> Ran { device.run(&[file]) };

    let job = open(DEMO);
    assert_eq!(job.status, 0, "{}", job.err);
    assert!(
        job.out.contains("Minimum preheat: ") && job.err.contains("cannot open its window"),
        "{}",
        job.err
    );
    for file in [export, photo.to_str().expect("text")] {
        let ran = open(file);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{file}");
        assert!(ran.err.contains("cannot open its window"), "{}", ran.err);
    }
    let refused = |file: &str, words: &str| {
        let ran = open(file);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{file}");
        assert!(ran.err.contains(words) && !ran.err.contains("window"), "{file}: {}", ran.err);
    };
    let write = |name: &str, bytes: &[u8]| {
        std::fs::write(device.path(name), bytes).expect("writes");
        device.path(name).to_str().expect("text").to_owned()
    };
    let none = "This is not a job, a log or a photo.";
    refused("no-such-file.ron", "The file cannot be read");
    refused(&write("other.txt", b"Dear welder,"), none);
    refused(&write("empty.ron", b""), none);
    refused(&write("bytes.ron", &[0xff, 0xfe, 0, 1]), none);
    refused(&write("no-fields.ron", b"()"), none);
    refused(&write("field.ron", b"(schema: 2, wood: \"oak\")"), "a job has no field \u{201c}wood\u{201d}");
    let later = std::fs::read_to_string(export).expect("reads").replace("schema: 1", "schema: 99");
    refused(&write("later.ron", later.as_bytes()), "A newer version of this program wrote the file");
    // A word that names nothing is a command that is none.
    let ran = open("paln");
    assert!(ran.err.contains("There is no command"), "{}", ran.err);
    assert!(device.run(&[DEMO, DEMO]).err.contains("second file"));
}
