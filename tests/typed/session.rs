//! Nothing typed is lost: over a kill in the middle of a write, a broken file, a folder
//! that can't be written.

use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use proptest::prelude::*;
use strawblue::job::{Field, JobText, OwnSteel, Session, Store, Theme};
use strawblue::units::Units;

fn filled() -> Session {
    let mut job = JobText::default();
    job.set(Field::Thickness, Some("1-1/2\" \u{1f525} \\ \"quoted\"".to_owned()));
    job.set(Field::Steel, Some("34CrMo4".to_owned()));
    Session {
        language: "en".to_owned(),
        theme: Theme::Light,
        units: Units::F_MM,
        place: "bench".to_owned(),
        job,
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

#[test]
fn a_corrupted_file_is_kept_aside_each_time() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("opens");
    let file = folder.path().join("session.ron");
    let first: &[u8] = b"(theme: Light, place: \"pl\xff\xfe";
    fs::write(&file, first).expect("writes");
    let found = Session::load(&store).expect("reads");
    assert_eq!((found.session, found.lost), (Session::default(), vec!["session"]));
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
        prop_assert_eq!(lost, Vec::<&str>::new());
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
    fn a_job_file_reads_back(texts in proptest::collection::vec(proptest::option::of(".{1,20}"), Field::ALL.len())) {
        let mut job = JobText::default();
        for (field, text) in Field::ALL.iter().zip(texts) {
            job.set(*field, text);
        }
        prop_assert_eq!(JobText::from_ron(&job.to_ron()), Ok(job));
    }
}
