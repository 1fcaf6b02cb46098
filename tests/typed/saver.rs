//! The session is saved beside the screen: soon, whole, and not once for every key.

use std::fs::File;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant, SystemTime, UNIX_EPOCH};

use strawblue::job::{Field, Saver, Session, Store};

fn at(place: impl ToString) -> Session {
    Session { place: place.to_string(), ..Session::default() }
}

#[test]
fn many_changes_are_one_save_and_the_last_one_stands() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("opens");
    let saver = Saver::new(store.clone(), Session::default());
    for count in 0..500 {
        saver.save(at(count));
    }
    saver.flush();
    let saved = saver.saved();
    assert_eq!((saved.told, saved.done, saved.failures), (500, 500, 0));
    assert_eq!(Session::load(&store).expect("reads").session.place, "499");
    assert!((1..=100).contains(&saved.written), "{saved:?}");
    // Without another word it is saved too, and what is told last is saved on the way out.
    saver.save(at("soon"));
    let start = Instant::now();
    while Session::load(&store).expect("reads").session.place != "soon" {
        assert!(start.elapsed() < Duration::from_secs(20), "it is never saved");
        std::thread::sleep(Duration::from_millis(5));
    }
    saver.save(at("last"));
    drop(saver);
    assert_eq!(Session::load(&store).expect("reads").session.place, "last");
}

#[test]
fn saving_that_fails_is_told_and_so_is_its_recovery() {
    let folder = tempfile::tempdir().expect("a folder");
    let home = folder.path().join("home");
    let store = Store::open(&home).expect("opens");
    let saver = Saver::new(store.clone(), Session::default());
    let save = |place: &str| {
        saver.save(at(place));
        saver.flush();
        let saved = saver.saved();
        (saved.failing, saved.failures)
    };
    assert_eq!(save("one"), (false, 0));
    std::fs::remove_dir_all(&home).expect("removes");
    assert_eq!([save("two"), save("three")], [(true, 1), (true, 2)]);
    std::fs::create_dir(&home).expect("makes");
    assert_eq!(save("four"), (false, 2));
    assert_eq!(Session::load(&store).expect("reads").session.place, "four");
}

const HELPER_FOLDER: &str = "STRAWBLUE_TEST_SAVES_BESIDE";

fn now_ms() -> u128 {
    SystemTime::now().duration_since(UNIX_EPOCH).expect("a clock").as_millis()
}

/// Not a test by itself: changes a session every few milliseconds until it is killed, and tells
/// each change before it is made.
#[test]
fn helper_changes_until_killed() {
    let Some(folder) = std::env::var_os(HELPER_FOLDER) else { return };
    let saver = Saver::new(Store::open(folder).expect("opens"), Session::default());
    loop {
        let now = now_ms();
        println!("changed {now}");
        saver.save(at(now));
        std::thread::sleep(Duration::from_millis(3));
    }
}

/// 100 ms, and what the disk and a busy machine take beyond a save's usual time.
#[test]
fn a_kill_loses_no_more_than_the_last_moment() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("opens");
    let one_save = (0..5).map(|_| {
        let start = Instant::now();
        at("here").save(&store).expect("saves");
        start.elapsed()
    });
    let slowest = one_save.max().expect("five").as_millis();
    let mut child = Command::new(std::env::current_exe().expect("this test"))
        .args(["--exact", "saver::helper_changes_until_killed", "--nocapture"])
        .env(HELPER_FOLDER, folder.path())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("starts");
    let lines = BufReader::new(child.stdout.take().expect("piped")).lines();
    let mut changed = 0_u128;
    let mut first = None;
    for line in lines {
        let line = line.expect("text");
        let Some(at) = line.strip_prefix("changed ").and_then(|at| at.parse().ok()) else { continue };
        changed = at;
        if changed - *first.get_or_insert(at) > 400 {
            child.kill().expect("kills");
            break;
        }
    }
    child.wait().expect("ends");
    let found = Session::load(&store).expect("reads");
    assert!(found.lost.is_empty(), "{found:?}");
    let saved: u128 = found.session.place.parse().expect("the helper saved");
    let behind = changed.saturating_sub(saved);
    assert!(behind <= 100 + 10 * slowest, "{behind} ms behind; a save takes {slowest} ms");
}

/// Another window's hand on the folder, until it is dropped.
fn hold(folder: &Path) -> File {
    let lock = File::options().create(true).append(true).open(folder.join(".lock")).expect("a lock");
    lock.lock().expect("it is free");
    lock
}

fn with(mut session: Session, field: Field, text: &str) -> Session {
    session.job.set(field, Some(text.to_owned()));
    session
}

#[test]
fn a_save_waits_for_the_other_window_and_writes_nothing_over() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("opens");
    let saver = Saver::new(store.clone(), Session::default());
    let held = hold(folder.path());
    saver.save(with(Session::default(), Field::Thickness, "38"));
    saver.flush();
    // That it waits is said, and that once.
    let soon = |what: &str, so: &dyn Fn() -> bool| {
        let start = Instant::now();
        while !so() {
            assert!(start.elapsed() < Duration::from_secs(20), "never: {what}");
            std::thread::sleep(Duration::from_millis(10));
        }
    };
    soon("it says that it waits", &|| saver.saved().waiting);
    saver.flush();
    let saved = saver.saved();
    assert_eq!((saved.failing, saved.failures, saved.written, saved.done), (true, 1, 0, 0));
    assert!(store.stamp("session.ron").is_none(), "nothing is written while another window writes");
    with(Session::default(), Field::Shop, "5").save(&store).expect("the other one writes");
    drop(held);
    soon("it is saved", &|| saver.saved().done == 1);
    let saved = saver.saved();
    assert_eq!((saved.failing, saved.waiting, saved.failures, saved.written), (false, false, 1, 1));
    let both = with(with(Session::default(), Field::Thickness, "38"), Field::Shop, "5");
    assert_eq!(Session::load(&store).expect("reads").session, both);
    assert_eq!(saver.news().map(|news| news.found), Some(both));
}

/// A window that never lets go must not cost what was typed: the last save of all goes on, upon what
/// is there.
#[test]
fn the_last_save_goes_on_without_the_lock_and_upon_what_is_there() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("opens");
    let saver = Saver::new(store.clone(), Session::default());
    let _held = hold(folder.path());
    with(Session::default(), Field::Shop, "5").save(&store).expect("the other one writes");
    saver.save(with(Session::default(), Field::Thickness, "38"));
    drop(saver);
    let both = with(with(Session::default(), Field::Thickness, "38"), Field::Shop, "5");
    assert_eq!(Session::load(&store).expect("reads").session, both);
}

#[test]
fn what_cannot_be_read_is_kept_aside_before_it_is_saved_over() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("opens");
    let saver = Saver::new(store.clone(), Session::default());
    saver.save(at("one"));
    saver.flush();
    let broken = "(job: (thickness: [1, 2]), place: \"tint\"";
    std::fs::write(folder.path().join("session.ron"), broken).expect("writes");
    saver.save(at("two"));
    saver.flush();
    assert_eq!(Session::load(&store).expect("reads").session.place, "two");
    let aside = std::fs::read_to_string(folder.path().join("session.ron.broken")).expect("kept aside");
    assert_eq!(aside, broken);
    // Once is enough.
    saver.save(at("three"));
    saver.flush();
    assert!(!folder.path().join("session.ron.broken-2").exists());
}

#[test]
fn a_window_has_its_number_while_it_runs() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("opens");
    assert!(!store.is_seated(1));
    let (first, second) = (store.seat(), store.seat());
    assert_eq!((first.number, second.number), (1, 2));
    drop(first);
    assert!(!store.is_seated(1) && store.is_seated(2) && !store.is_seated(3));
    assert_eq!(store.seat().number, 1);
    assert_eq!(second.number, 2);
}
