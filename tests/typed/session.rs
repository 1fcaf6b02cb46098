//! Nothing typed is lost: over a kill in the middle of a write, a broken file, a folder
//! that can't be written.

use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use crate::typed_job::every_slot;
use proptest::prelude::*;
use strawblue::job::{
    Controls, Fault, Field, JobText, OwnSteel, Reading, Session, Store, TextSize, Theme, read_job,
};
use strawblue::reference::embedded;
use strawblue::units::Units;

pub(crate) fn filled() -> Session {
    let mut job = JobText::default();
    job.set(Field::Thickness, Some("1-1/2\" \u{1f525} \\ \"quoted\"".to_owned()));
    job.set(Field::Steel, Some("34CrMo4".to_owned()));
    Session {
        language: "en".to_owned(),
        theme: Theme::Light,
        text_size: TextSize::try_from(175).expect("a size that is offered"),
        controls: Controls::Gloves,
        units: Units::F_MM,
        place: "bench".to_owned(),
        job,
        job_mark: "1a-2-3".to_owned(),
        typed: [("soak.thickness".to_owned(), "90".to_owned())].into(),
        choices: [("tint.history".to_owned(), "afterwards".to_owned())].into(),
        own_steels: vec![OwnSteel {
            name: "spindle bar".to_owned(),
            composition: "C .38 Mn 1.4".to_owned(),
            grade: "SAE 1541".to_owned(),
        }],
    }
}

#[test]
fn a_session_comes_back_whole() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path().join("not/yet/there")).expect("makes it");
    assert_eq!(Session::load(&store).expect("nothing is a start").session, Session::default());
    filled().save(&store).expect("saves");
    let found = Session::load(&store).expect("reads");
    assert_eq!(found.session, filled());
    assert!(found.lost.is_empty() && found.kept_aside.is_none());
}

/// A size that is not offered is at its default, and the file is kept aside; a file from before there were
/// sizes reads whole.
#[test]
fn a_size_that_is_not_offered_is_the_usual_one() {
    let usual = Session::default();
    assert_eq!((usual.text_size.percent(), usual.controls), (100, Controls::Normal));
    for bad in ["0", "99", "120", "400", "-100", "70000", "1.5", "\"150\"", "Large", "()"] {
        let folder = tempfile::tempdir().expect("a folder");
        let store = Store::open(folder.path()).expect("opens");
        let text = format!("(theme: Light, text_size: {bad}, controls: Mittens, place: \"tint\")");
        fs::write(folder.path().join("session.ron"), &text).expect("writes");
        let found = Session::load(&store).expect("reads");
        assert_eq!(found.lost, ["text_size", "controls"], "{bad}");
        assert_eq!(found.session.text_size, TextSize::default(), "{bad}");
        assert_eq!((found.session.theme, found.session.place.as_str()), (Theme::Light, "tint"), "{bad}");
        assert_eq!(fs::read_to_string(found.kept_aside.expect("kept aside")).expect("reads"), text);
    }
    for size in TextSize::ALL {
        let session = Session { text_size: size, controls: Controls::Gloves, ..Session::default() };
        assert_eq!(Session::from_ron(&session.to_ron()), (session, Vec::new()));
    }
    let (old, lost) = Session::from_ron("(theme: Dark, place: \"plan\")");
    assert_eq!((old.text_size, old.controls, lost.len()), (TextSize::default(), Controls::Normal, 0));
}

#[test]
fn one_bad_field_takes_no_other_with_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("opens");
    let text = r#"(theme: Purple, units: (temperature: F), place: "tint", colour: 3,
        job: (thickness: 38, steel: "34CrMo4", leg: [1, 2], strange: "x"))"#;
    fs::write(folder.path().join("session.ron"), text).expect("writes");
    let found = Session::load(&store).expect("reads");
    assert_eq!(found.lost, ["theme", "leg"]);
    assert_eq!(found.session.theme, Theme::System);
    assert_eq!(found.session.units, Units::F_MM);
    assert_eq!(found.session.place, "tint");
    assert_eq!(found.session.job.get(Field::Thickness), Some("38"));
    assert_eq!(found.session.job.get(Field::Steel), Some("34CrMo4"));
    assert_eq!(found.session.job.get(Field::Leg), None);
    let aside = found.kept_aside.expect("kept aside");
    assert_eq!(fs::read_to_string(aside).expect("reads"), text);
}

/// An older session keeps a choice with its input's key before it: it means the same now, and
/// what only looks like one stays as it is.
#[test]
fn a_choice_with_its_key_before_it_is_carried_over() {
    let text = r#"(choices: {
        "ir-true-temperature.surface": "surface-black-spot",
        "ir-expected-reading.surface": "bright",
        "measuring-place.heated-by": "heated-by-soaking",
        "d11-annex.restraint": "restraint-high",
        "inspection-wait.restraint": "restraint-none",
        "file-test.file": "file-skates",
        "peak-from-tint.spot": "spot-mill-scale",
        "peak-from-tint.colour": "bluish-purple",
        "tint.spot": "spot-bright",
    })"#;
    let (session, lost) = Session::from_ron(text);
    assert!(lost.is_empty());
    for (key, id) in [
        ("ir-true-temperature.surface", "black-spot"),
        ("ir-expected-reading.surface", "bright"),
        ("measuring-place.heated-by", "soaking"),
        ("d11-annex.restraint", "high"),
        ("inspection-wait.restraint", "restraint-none"),
        ("file-test.file", "skates"),
        ("peak-from-tint.spot", "mill-scale"),
        ("peak-from-tint.colour", "bluish-purple"),
        ("tint.spot", "spot-bright"),
    ] {
        assert_eq!(session.choices[key], id, "{key}");
    }
}

#[test]
fn a_corrupted_file_is_kept_aside_each_time() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("opens");
    let file = folder.path().join("session.ron");
    let first: &[u8] = b"(theme: Light, place: \"pl\xff\xfe";
    fs::write(&file, first).expect("writes");
    let found = Session::load(&store).expect("reads");
    assert_eq!((found.session, found.lost), (Session::default(), vec!["session".to_owned()]));
    fs::write(&file, "").expect("writes");
    let again = Session::load(&store).expect("reads");
    assert_eq!(again.lost, ["session"]);
    assert_eq!(fs::read(folder.path().join("session.ron.broken")).expect("reads"), first);
    assert!(folder.path().join("session.ron.broken-2").exists());
}

/// A folder that can't be written: its path leads through a file, which no user may pass,
/// not even the system's own.
#[test]
fn a_folder_that_cannot_be_written_is_said() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("file");
    fs::write(&file, "x").expect("writes");
    let error = Store::open(file.join("below")).expect_err("no folder below a file");
    assert_eq!(error.key(), "store-folder");
    let store = Store::open(folder.path().join("gone")).expect("opens");
    fs::remove_dir(folder.path().join("gone")).expect("removes");
    assert!(filled().save(&store).is_err());
}

#[test]
fn a_failed_save_leaves_the_last_one() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("opens");
    // A folder in the place of the file: the rename fails after the text is written.
    fs::create_dir(folder.path().join("session.ron")).expect("makes");
    fs::write(folder.path().join("session.ron/inside"), "x").expect("writes");
    assert!(filled().save(&store).is_err());
    let left: Vec<_> = fs::read_dir(folder.path()).expect("reads").flatten().collect();
    assert_eq!(left.len(), 1, "nothing half-written stays");
}

const HELPER_FOLDER: &str = "STRAWBLUE_TEST_SAVES_INTO";

/// Not a test by itself: saves two sessions in turn until it is killed.
#[test]
fn helper_saves_until_killed() {
    let Some(folder) = std::env::var_os(HELPER_FOLDER) else { return };
    let store = Store::open(folder).expect("opens");
    let (mut short, mut long) = (filled(), filled());
    short.place = "plan".to_owned();
    for count in 0..400 {
        long.typed.insert(format!("long.{count}"), "x".repeat(200));
    }
    loop {
        short.save(&store).expect("saves");
        long.save(&store).expect("saves");
    }
}

#[test]
fn a_kill_in_the_middle_of_a_write_loses_nothing() {
    for round in 0..12_u64 {
        let folder = tempfile::tempdir().expect("a folder");
        let mut child = Command::new(std::env::current_exe().expect("this test"))
            .args(["--exact", "session::helper_saves_until_killed"])
            .env(HELPER_FOLDER, folder.path())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("starts");
        wait_for(&folder.path().join("session.ron"));
        std::thread::sleep(Duration::from_millis(3 + 7 * round));
        child.kill().expect("kills");
        child.wait().expect("ends");
        let found = Session::load(&Store::open(folder.path()).expect("opens")).expect("reads");
        assert!(found.lost.is_empty(), "{found:?}");
        assert!(matches!(found.session.typed.len(), 1 | 401), "{}", found.session.typed.len());
        assert_eq!(found.session.own_steels.len(), 1);
    }
}

fn wait_for(file: &Path) {
    let start = Instant::now();
    while !file.exists() {
        assert!(start.elapsed() < Duration::from_secs(60), "the helper saves");
        std::thread::sleep(Duration::from_millis(2));
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_comes_back(texts in proptest::collection::vec(".*", 3), units in 0_usize..4) {
        let mut session = filled();
        session.units = Units::ALL[units];
        session.job.set(Field::Certificate, Some(texts[0].clone()));
        session.typed.insert(texts[1].clone(), texts[2].clone());
        let (again, lost) = Session::from_ron(&session.to_ron());
        prop_assert_eq!(lost, Vec::<String>::new());
        prop_assert_eq!(again, session);
    }

    #[test]
    fn any_file_is_survived(text in ".{0,200}", cut in 0_usize..400) {
        let _ = Session::from_ron(&text);
        let whole = filled().to_ron();
        let mut cut = cut.min(whole.len());
        while !whole.is_char_boundary(cut) {
            cut -= 1;
        }
        let _ = Session::from_ron(&whole[..cut]);
        let _ = JobText::from_ron(&text);
    }

    #[test]
    fn a_job_file_reads_back(texts in proptest::collection::vec(proptest::option::of(".{1,20}"), every_slot().len())) {
        let mut job = JobText::default();
        for (slot, text) in every_slot().into_iter().zip(texts) {
            job.set(slot, text);
        }
        prop_assert_eq!(JobText::from_ron(&job.to_ron()), Ok(job));
    }
}

/// What the first schema wrote: one flat list, the second part by keys of its own, several
/// processes joined by `+`.
const OLD_JOB: &str = include_str!("kept/job-1.ron");
const OLD_SESSION: &str = include_str!("kept/session-1.ron");

#[test]
fn a_job_of_the_first_schema_is_carried_over_whole() {
    let job = JobText::from_ron(OLD_JOB).expect("reads");
    let typed: Vec<(String, &str)> =
        job.typed().into_iter().map(|(slot, text)| (slot.id().into_owned(), text)).collect();
    // Each text of the old file stands somewhere, each of a list in its own run.
    let mut texts = 0;
    for line in OLD_JOB.lines().filter(|line| line.contains(": \"")) {
        let (key, text) = line.trim().split_once(": ").expect("a field");
        for text in text.trim_matches(['"', ',']).split('+').map(str::trim).filter(|text| !text.is_empty()) {
            let key = if key == "yield_b" { "yield-b" } else { key };
            let stands = |(id, found): &&(String, &str)| {
                *found == text && id.starts_with(key.replace('_', "-").as_str())
            };
            assert!(typed.iter().any(|pair| stands(&pair)), "{key}: {text} in {typed:?}");
            texts += 1;
        }
    }
    assert_eq!(texts, 34, "the old file is what it was");
    let reading = Reading {
        reference: embedded(),
        own_steels: &[],
        units: Units::F_IN,
        mark: strawblue::units::Mark::Point,
    };
    let read = read_job(&job, &reading).expect("reads");
    assert_eq!((read.job.members.len(), read.job.runs.len()), (2, 2));
    // k E: 0.6 × 11 V × 120 A ÷ (100 mm ÷ 80 s), 0.8 × 23 V × 140 A ÷ (100 mm ÷ 75 s).
    for (run, net) in read.job.runs.iter().zip([0.6336, 1.932]) {
        assert!((run.net_heat_kj_per_mm - net).abs() < 1e-12, "{run:?}");
    }
    assert_eq!(read.job.members[1].yield_mpa, Some(800.0));
    assert!(read.job.weld.several_runs && !read.job.weld.austenitic && read.job.damp);
    // Written anew it states its schema, and is the same job.
    let written = job.to_ron();
    assert!(written.contains("schema: 2") && written.contains("runs: ["), "{written}");
    assert_eq!(JobText::from_ron(&written), Ok(job));
}

#[test]
fn a_session_of_the_first_schema_is_carried_over_whole() {
    let (session, lost) = Session::from_ron(OLD_SESSION);
    assert_eq!(lost, Vec::<String>::new());
    assert_eq!(Ok(&session.job), JobText::from_ron(OLD_JOB).as_ref());
    assert_eq!((session.units, session.theme, session.place.as_str()), (Units::F_MM, Theme::Light, "plan"));
    assert_eq!(session.typed["soak.thickness"], "90");
    assert_eq!(session.choices["heat-way"], "meters");
    assert_eq!(session.own_steels[0].grade, "SAE 1541");
    assert_eq!(Session::from_ron(&session.to_ron()), (session, Vec::new()));
}

/// Two figures for one process: neither is dropped, and neither is picked.
#[test]
fn a_list_that_does_not_fit_stays_whole() {
    let job = JobText::from_ron(include_str!("kept/job-1-counts-differ.ron")).expect("reads");
    assert_eq!(job.get(Field::Hydrogen), Some("3 + H4R"));
    let reading = Reading {
        reference: embedded(),
        own_steels: &[],
        units: Units::C_MM,
        mark: strawblue::units::Mark::Point,
    };
    let problems = read_job(&job, &reading).expect_err("a count");
    assert_eq!(problems[0].fault, Fault::Count { typed: 2, processes: 1 });
}

/// A file of a later program is no job of this one, and is kept.
#[test]
fn a_later_schema_is_not_guessed_at() {
    let error = JobText::from_ron("(\n schema: 3, joint: \"butt\")").expect_err("later");
    assert_eq!((error.line, error.detail.as_str()), (2, "schema 3"));
    let (session, lost) = Session::from_ron("(place: \"plan\", job: (schema: 3, joint: \"butt\"))");
    assert_eq!((session.place.as_str(), lost), ("plan", vec!["job".to_owned()]));
}

/// One bad part or run takes no other with it, and what is bad is named with its part or run.
#[test]
fn a_bad_part_takes_no_other_with_it() {
    let job = "(schema: 2, parts: [(steel: \"4140\", leg: 3), 7, (steel: [1])], runs: [(), (hydrogen: {})])";
    let (session, lost) = Session::from_ron(&format!("(job: {job})"));
    assert_eq!(lost, ["parts", "steel-3", "hydrogen-2"]);
    assert_eq!(session.job.get(Field::Steel), Some("4140"));
    assert_eq!((session.job.parts.len(), session.job.runs.len()), (3, 2));
    let error = JobText::from_ron(&job.replace(", ", ",\n")).expect_err("a leg of a part");
    assert_eq!((error.line, error.unknown_field.as_deref()), (3, Some("leg")));
    assert_eq!(JobText::from_ron("(leg: 3,\n leg: 4)").expect_err("twice").line, 2);
}

/// What was typed for a question in place of a figure of the job goes with that job; the torch, the fuel,
/// the shop and the looks stay.
#[test]
fn another_job_takes_what_stood_for_the_old_one() {
    let entry = |(key, text): &(&str, &str)| ((*key).to_owned(), (*text).to_owned());
    let of_the_job = [("heat-cycle.leg", "8"), ("heat-cycle.runs", "3"), ("method-b.thickness", "40")];
    let own = [("heat-cycle.fuel-flow", "1.5"), ("heat-cycle.room-temperature", "5"), ("tint.minutes", "4")];
    let mut session = Session {
        typed: of_the_job.iter().chain(&own).map(entry).collect(),
        choices: [("heat-cycle.joint", "lap"), ("heat-cycle.fuel", "propane")].iter().map(entry).collect(),
        ..Session::default()
    };
    session.exchange_job(strawblue::job::demo_job());
    let kept: Vec<&str> = session.typed.keys().map(String::as_str).collect();
    let mut wanted = own.map(|(key, _)| key);
    wanted.sort_unstable();
    assert_eq!(kept, wanted);
    assert_eq!(session.choices.keys().map(String::as_str).collect::<Vec<_>>(), ["heat-cycle.fuel"]);
}
