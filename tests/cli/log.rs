//! The log on the command line: a job begun, read, undone, handed over and merged; a trial piece that warns
//! the next plan.

use std::path::PathBuf;
use std::process::Command;

use serde_json::Value;

use super::Ran;

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/data/demo.ron");
const TORCH: [&str; 3] =
    ["heat-cycle.fuel-flow=2.8 m³/h", "heat-cycle.plate-width=160", "heat-cycle.plate-length=400"];

/// A device with a folder of its own.
pub(crate) struct Device {
    folder: tempfile::TempDir,
}

impl Device {
    pub(crate) fn new() -> Self {
        Self { folder: tempfile::tempdir().expect("a folder") }
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    pub(crate) fn run(&self, arguments: &[&str]) -> Ran {
        let ran = Command::new(env!("CARGO_BIN_EXE_strawblue"))
            .args(arguments)
            .env("XDG_DATA_HOME", self.folder.path())
            .env("HOME", self.folder.path())
            .env("TZ", "UTC")
            .env_remove("LANGUAGE")
            .env("LC_ALL", "C")
            .output()
            .expect("runs");
        Ran {
            out: String::from_utf8(ran.stdout).expect("text").replace('\u{a0}', " "),
            err: String::from_utf8(ran.stderr).expect("text").replace('\u{a0}', " "),
            status: ran.status.code().expect("ends by itself"),
        }
    }

    pub(crate) fn log(&self, arguments: &[&str]) -> Ran {
        let ran = self.run(&[&["log"], arguments].concat());
        assert_eq!(ran.status, 0, "{arguments:?}: {}{}", ran.out, ran.err);
        ran
    }

    pub(crate) fn json(&self, arguments: &[&str]) -> Value {
        let ran = self.log(&[arguments, &["--json"]].concat());
        serde_json::from_str(&ran.out).expect("JSON")
    }

    pub(crate) fn begin(&self) {
        self.log(&[&["new", DEMO, "pieces=3", "welder=A", "drawing=B 12"], &TORCH[..]].concat());
    }
}

pub(crate) const JOB: &str = "Screen bell crank";

#[test]
fn a_piece_is_read_and_its_clock_runs() {
    let device = Device::new();
    assert!(device.log(&[]).out.contains("No job is logged yet"));
    device.begin();
    let read = ["read", JOB, "piece=2", "when=before-tack", "part=2", "probe=325 C"];
    let found = device.json(&read);
    let piece = &found["pieces"][1];
    assert_eq!(piece["readings"][0]["verdict"], "in", "{piece}");
    assert_eq!((&piece["status"], &piece["clock"]), (&"warm".into(), &"by-cycle".into()), "{piece}");
    let left_min = piece["left_min"].as_f64().expect("minutes");
    assert!((1.0..15.0).contains(&left_min), "{left_min}");
    // So much later none is left, and it is the first in the list.
    let early = device.json(&[
        "read",
        JOB,
        "piece=3",
        "when=before-tack",
        "part=2",
        "probe=325",
        "time=2026-01-01 7:30",
    ]);
    assert_eq!(early["urgent"][0], 3, "{early}");
    assert_eq!(early["pieces"][2]["left_min"], 0.0);
    let said = device.log(&["show", JOB]).out;
    assert!(said.contains("Piece 3: Heat again") && said.contains("No time left"), "{said}");
    assert!(said.contains("Minimum preheat: at least 300 °C (570 °F)"), "{said}");
    // The other unit system.
    let said = device.log(&["show", JOB, "piece=2", "--units", "f-in"]).out;
    assert!(said.contains("Minimum preheat: at least 570 °F (300 °C)"), "{said}");
    assert!(said.contains("Contact probe: 617 °F") && said.contains("Steel 605–629 °F"), "{said}");
}

#[test]
fn each_instrument_is_read_as_the_bench_reads_it() {
    let device = Device::new();
    device.begin();
    let read = |more: &[&str]| {
        let found =
            device.json(&[&["read", JOB, "piece=1", "when=before-run", "run=1", "part=2"], more].concat());
        found["pieces"][0]["readings"].as_array().expect("readings").last().expect("one").clone()
    };
    // Two crayons one per cent either way (makers’ lists, from memory): 316 °C and 343 °C.
    let crayons = read(&["melted=316", "stayed=343"]);
    assert_eq!(crayons["verdict"], "in", "{crayons}");
    let near = |value: &Value, wanted: f64| (value.as_f64().expect("a figure") - wanted).abs() < 0.05;
    assert!(
        near(&crayons["steel"]["low_c"], 312.84) && near(&crayons["steel"]["high_c"], 346.43),
        "{crayons}"
    );
    // One that melted shows the minimum kept, and no maximum.
    let melted = read(&["melted=316"]);
    assert_eq!(
        (&melted["verdict"], &melted["minimum"], &melted["maximum"]),
        (&"cannot-tell".into(), &"kept".into(), &"unsure".into())
    );
    // Bright steel fools a gun: it shows far less than the steel has.
    let gun = read(&["ir-gun=140", "surface=bright"]);
    assert_eq!(gun["verdict"], "cannot-tell", "{gun}");
    // A colour afterwards tells of a peak: no minimum is kept by it.
    let colour = read(&["colour=blue", "look=afterwards"]);
    assert_eq!(
        (&colour["verdict"], &colour["minimum"]),
        (&"cannot-tell".into(), &"unsure".into()),
        "{colour}"
    );
    let wrong =
        device.run(&["log", "read", JOB, "piece=9", "probe=hot", "when=later", "colour=pink", "odd=1"]);
    assert_eq!(wrong.status, 2);
    for key in ["piece: ", "probe: ", "when: ", "colour: ", "odd: "] {
        assert!(wrong.err.contains(key), "{key}{}", wrong.err);
    }
}

#[test]
fn what_was_done_is_undone_and_what_was_removed_comes_back() {
    let device = Device::new();
    device.begin();
    let count = |device: &Device| device.json(&[])["jobs"][0]["readings"].as_u64().expect("a count");
    device.log(&["read", JOB, "piece=1", "part=1", "when=heating", "probe=200"]);
    assert_eq!(count(&device), 1);
    device.log(&["undo", JOB]);
    assert_eq!(count(&device), 0);
    device.log(&["undo", JOB]);
    assert_eq!(count(&device), 1, "an undoing is undone");
    device.log(&["step", JOB, "piece=1", "step=1"]);
    assert_eq!(device.json(&["show", JOB])["pieces"][0]["steps"], serde_json::json!([1]));
    device.log(&["piece", JOB, "piece=1", "heat-numbers=A 1; B 2", "finished=yes"]);
    let found = device.json(&["show", JOB]);
    assert_eq!(found["pieces"][0]["status"], "done");
    assert_eq!(found["pieces"][0]["heat_numbers"], serde_json::json!(["A 1", "B 2"]));
    device.log(&["used", JOB, "what=filler-gtaw", "amount=0.2"]);
    assert_eq!(device.json(&["show", JOB])["used"][0]["told"], 0.2);
    device.log(&["remove", JOB]);
    assert!(device.log(&[]).out.contains("Removed."));
    device.log(&["back", JOB]);
    assert_eq!(count(&device), 1);
}

#[test]
fn two_devices_hand_a_job_over_and_nothing_is_lost() {
    let (one, other) = (Device::new(), Device::new());
    one.begin();
    let file = one.path("job.ron");
    let file = file.to_str().expect("a path");
    one.log(&["export", JOB, file]);
    // Nothing is written over.
    assert_eq!(one.run(&["log", "export", JOB, file]).status, 2);
    other.log(&["import", file]);
    one.log(&["read", JOB, "piece=1", "part=1", "when=before-tack", "probe=320"]);
    one.log(&["piece", JOB, "piece=1", "note=from one"]);
    other.log(&["read", JOB, "piece=2", "part=1", "when=before-tack", "probe=310"]);
    other.log(&["piece", JOB, "piece=1", "note=from the other"]);
    let back = one.path("back.ron");
    other.log(&["export", JOB, back.to_str().expect("a path")]);
    let done = one.json(&["import", back.to_str().expect("a path")]);
    assert_eq!((&done["new"], &done["conflicts"]), (&2.into(), &1.into()), "{done}");
    let again = one.json(&["import", back.to_str().expect("a path")]);
    assert_eq!(again["new"], 0);
    let found = one.json(&["show", JOB]);
    let records = found["conflicts"][0]["records"].as_array().expect("two").clone();
    assert_eq!(records.len(), 2);
    assert_eq!(found["pieces"][0]["readings"].as_array().expect("readings").len(), 1);
    assert_eq!(found["pieces"][1]["readings"].as_array().expect("readings").len(), 1);
    let keep = format!("keep={}", records[0]["record"].as_str().expect("an id"));
    let settled = one.json(&["settle", JOB, &keep]);
    assert_eq!(settled["conflicts"], serde_json::json!([]));
}

#[test]
fn a_trial_piece_that_cracked_warns_the_next_plan() {
    let device = Device::new();
    let plan = |device: &Device| {
        let ran = device.run(&["plan", DEMO, "--json"]);
        assert_eq!(ran.status, 0, "{}", ran.err);
        serde_json::from_str::<Value>(&ran.out).expect("JSON")
    };
    assert_eq!(plan(&device)["trial_warnings"], serde_json::json!([]));
    // The example is no work and warns nobody, nor does a job that is begun from it under its name.
    device.log(&["example"]);
    device.begin();
    let all = device.json(&[])["jobs"].clone();
    assert!(all.as_array().expect("jobs").iter().all(|job| job["example"] == true), "{all}");
    device.log(&["new", DEMO, "name=Our cranks", "pieces=3"]);
    let job = device.json(&[])["jobs"]
        .as_array()
        .expect("jobs")
        .iter()
        .find(|job| job["example"] == false)
        .expect("own")["id"]
        .clone();
    let job = job.as_str().expect("an id");
    device.log(&["trial", job, "part=2", "outcome=cracked", "probe=120", "cooled=fast", "place=toe"]);
    assert_eq!(plan(&device)["trial_warnings"], serde_json::json!([]), "colder than the minimum");
    let photo = concat!("photo=", env!("CARGO_MANIFEST_DIR"), "/tests/pictures/about-phone-dark.png");
    let found = device.json(&["trial", job, "part=2", "outcome=cracked", "probe=340", photo]);
    let kept = found["trials"][1]["photo"].as_str().expect("a name");
    assert!(device.path("strawblue/log").join(job).join(kept).is_file(), "{kept}");
    let wrong = device.run(&["log", "trial", job, "part=2", "probe=340", &format!("photo={DEMO}")]);
    assert!(wrong.status == 2 && wrong.err.contains("is no picture"), "{}", wrong.err);
    assert_eq!(found["taught"][0]["coldest_sound_c"], Value::Null);
    let warned = plan(&device);
    let said = warned["trial_warnings"][0].as_str().expect("a warning");
    assert!(said.contains("a trial piece cracked at 347") && said.contains("34CrMo4"), "{said}");
    let text = device.run(&["plan", DEMO]).out;
    assert!(text.contains("a trial piece cracked at 347 °C"), "{text}");
    // Another steel is not warned.
    let other = device.run(&["plan", "steel=S355J2", "thickness=40", "joint=butt", "process=tig"]);
    assert!(!other.out.contains("trial piece cracked"), "{}", other.out);
    // A harder steel of its family is, without its grade.
    let family = device.run(&[
        "plan",
        "steel=42CrMo4",
        "thickness=20",
        "joint=butt",
        "process=tig",
        "condition=Q&T 540",
    ]);
    assert!(family.out.contains("a trial piece cracked"), "{}", family.out);
}

#[test]
fn a_folder_that_cannot_be_written_is_said_plainly() {
    let device = Device::new();
    std::fs::write(device.path("strawblue"), "no folder").expect("writes");
    let ran = device.run(&["log"]);
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("cannot be written"), "{}", ran.err);
    // A plan needs no log.
    assert_eq!(device.run(&["plan", DEMO]).status, 0);
}

/// A card is made of a job by its name or a part of its id, as the log itself takes it.
#[test]
fn a_card_of_a_job_is_made_by_its_name() {
    let device = Device::new();
    let nothing = device.run(&["card", JOB, "--csv"]);
    assert_eq!(nothing.status, 2);
    assert!(nothing.err.contains("no such file and no such job"), "{}", nothing.err);
    device.begin();
    device.log(&["read", JOB, "piece=2", "when=before-tack", "part=2", "probe=325 C"]);
    let id = device.json(&["show", JOB])["id"].as_str().expect("an id").to_owned();
    for named in [JOB, &id, &id[id.len() - 8..]] {
        let table = device.run(&["card", named, "--csv"]);
        assert_eq!((table.status, table.err.as_str()), (0, ""), "{named}");
        assert_eq!(table.out.lines().count(), 2, "{}", table.out);
    }
    let file = device.path("card.pdf");
    let ran = device.run(&["card", JOB, "-o", file.to_str().expect("text")]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(std::fs::read(&file).expect("the card").starts_with(b"%PDF"));
    // Two jobs of one name: neither is picked.
    device.begin();
    let two = device.run(&["card", JOB, "--csv"]);
    assert!(two.status == 2 && two.err.contains(&id), "{}", two.err);
}
