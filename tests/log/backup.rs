//! A backup of all that is kept, and its way back: into an empty folder it is the same again, beside other work
//! nothing is lost, and of a damaged one nothing is taken.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use strawblue::backup::{BackupError, pack, restore};
use strawblue::job::{Field, JobText, OwnSteel, Session, Store, demo_job};
use strawblue::log::Id;

use crate::shop::{Dice, Shop, begin, read};

/// The files of a folder that belong to the person, by their path; those of the machine are left out.
fn kept(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    fn walk(top: &Path, folder: &Path, found: &mut BTreeMap<String, Vec<u8>>) {
        for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
            let path = entry.path();
            if path.is_dir() {
                walk(top, &path, found);
                continue;
            }
            let name = path.strip_prefix(top).expect("below").to_string_lossy().into_owned();
            let machine = name == "device"
                || name == "log-index.json"
                || name.starts_with("log-second/")
                || entry.file_name().to_string_lossy().starts_with('.');
            if !machine {
                found.insert(name, fs::read(&path).expect("reads"));
            }
        }
    }
    let mut found = BTreeMap::new();
    walk(folder, folder, &mut found);
    found
}

/// Every record of every job.
fn records(shop: &Shop) -> BTreeMap<Id, Vec<String>> {
    let logs = shop.logs();
    let rows = logs.list_all().expect("lists");
    let of = |id: Id| {
        let open = logs.job(id).expect("reads");
        open.log().records().map(|record| format!("{record:?}")).collect()
    };
    rows.into_iter().map(|row| (row.id, of(row.id))).collect()
}

fn session_in(folder: &Path) -> Session {
    Session::load(&Store::open(folder).expect("opens")).expect("reads").session
}

fn save(folder: &Path, session: &Session) {
    session.save(&Store::open(folder).expect("opens")).expect("saves");
}

fn steel(name: &str, composition: &str) -> OwnSteel {
    OwnSteel { name: name.into(), composition: composition.into(), grade: String::new() }
}

fn job(steel: &str, thickness: &str) -> JobText {
    let mut job = JobText::default();
    job.set(Field::Steel, Some(steel.to_owned()));
    job.set(Field::Thickness, Some(thickness.to_owned()));
    job
}

/// A shop where much was done, by chance.
fn busy(dice: &mut Dice) -> Shop {
    let shop = Shop::new();
    let folder = shop.folder.path();
    for nth in 0..dice.below(4) {
        let mut open = begin(&shop.logs(), 1 + dice.below(5) as u32);
        for reading in 0..dice.below(20) {
            read(&mut open, reading);
        }
        if dice.below(2) == 0 {
            let photo = folder.join(format!("trial {nth}.png"));
            let tone = dice.below(256) as u8;
            image::RgbImage::from_pixel(9, 5, image::Rgb([tone, 40, 90])).save(&photo).expect("saves");
            open.keep_photo(&photo).expect("keeps");
            fs::remove_file(&photo).expect("removes");
        }
        // Another device wrote too, and a damaged file was kept aside.
        if dice.below(3) == 0 {
            let head = |device: &str| format!("device: \"{device}\"");
            let text = open.export().replacen(&head(shop.logs().device()), &head("otherdevice1"), 1);
            fs::write(shop.job_folder(open.job()).join("otherdevice1.ron"), text).expect("writes");
        }
        if dice.below(3) == 0 {
            let aside = folder.join("log-aside").join(open.job().to_string());
            fs::create_dir_all(&aside).expect("makes");
            fs::write(aside.join("x.ron.0badc0de.broken"), b"\xff\x00 no log").expect("writes");
        }
    }
    if dice.below(4) > 0 {
        let session = Session {
            job: if dice.below(2) == 0 { demo_job() } else { job("4140", "38") },
            own_steels: vec![steel("Shop bar", "C 0.41 Mn 0.8")],
            ..Session::default()
        };
        save(folder, &session);
    }
    if dice.below(4) == 0 {
        fs::write(folder.join("session.ron.broken"), "( what it was").expect("writes");
    }
    shop
}

fn packed(shop: &Shop) -> (tempfile::TempDir, PathBuf) {
    let away = tempfile::tempdir().expect("a folder");
    let file = away.path().join("all.tar");
    pack(shop.folder.path(), &file).expect("packs");
    (away, file)
}

#[test]
fn into_an_empty_folder_it_is_the_same_again_and_twice_is_once() {
    let mut dice = Dice::new();
    for _ in 0..12 {
        let shop = busy(&mut dice);
        let (_away, file) = packed(&shop);
        let other = Shop::new();
        let done = restore(other.folder.path(), &file).expect("restores");
        assert_eq!(kept(other.folder.path()), kept(shop.folder.path()));
        assert_eq!(records(&other), records(&shop));
        assert_eq!(done.records, records(&shop).values().map(Vec::len).sum::<usize>());
        assert_eq!(done.jobs, records(&shop).len());
        assert!(!done.merged);
        assert_ne!(other.logs().device(), shop.logs().device(), "each machine keeps its own id");
        let before = kept(other.folder.path());
        let again = restore(other.folder.path(), &file).expect("restores");
        assert_eq!((again.records, again.merged), (0, false), "{again:?}");
        assert_eq!(kept(other.folder.path()), before);
        // What it was made of is as it was, too.
        assert_eq!(restore(shop.folder.path(), &file).expect("restores").records, 0);
    }
}

#[test]
fn beside_other_work_nothing_is_lost() {
    let (shop, other) = (Shop::new(), Shop::new());
    let mut open = begin(&shop.logs(), 2);
    read(&mut open, 1);
    let away = tempfile::tempdir().expect("a folder");
    let handed = away.path().join("handed.ron");
    fs::write(&handed, open.export()).expect("writes");
    // The other shop took the job in and went on with it; this one went on too, and began another.
    other.logs().import(&handed).expect("imports");
    let mut theirs = other.logs().job(open.job()).expect("reads");
    read(&mut theirs, 2);
    read(&mut open, 3);
    begin(&shop.logs(), 1);
    save(
        shop.folder.path(),
        &Session {
            job: job("Shop bar", "50 mm"),
            own_steels: vec![steel("Shop bar", "C 0.41 Mn 0.8"), steel("Pin", "C 0.3")],
            ..Session::default()
        },
    );
    let stood = Session {
        job: job("Shop bar", "20"),
        own_steels: vec![steel("Shop bar", "C 0.15 Mn 1.2")],
        ..Session::default()
    };
    save(other.folder.path(), &stood);
    let before = records(&other);
    let (_away, file) = packed(&shop);
    let done = restore(other.folder.path(), &file).expect("restores");
    let after = records(&other);
    for (job, records) in before.iter().chain(&records(&shop)) {
        assert!(records.iter().all(|record| after[job].contains(record)), "a record of {job} is gone");
    }
    assert_eq!(after.len(), 2);
    assert_eq!(
        done.records,
        after.values().map(Vec::len).sum::<usize>() - before.values().map(Vec::len).sum::<usize>()
    );
    // The plan on hand stays, with the steel that it had, whatever that is called now.
    assert!(done.merged);
    let now = session_in(other.folder.path());
    let bar = now.job.get(Field::Steel).expect("a steel").to_owned();
    let of =
        |name: &str| now.own_steels.iter().find(|own| own.name == name).expect("a steel").composition.clone();
    assert_eq!((of(&bar).as_str(), now.job.get(Field::Thickness)), ("C 0.15 Mn 1.2", Some("20")));
    assert_eq!(now.own_steels.len(), 3);
    // The other plan waits, with its own steel.
    let away = now.put_away();
    assert_eq!(away.len(), 1);
    let their_bar = away[0].job.get(Field::Steel).expect("a steel");
    assert_eq!((of(their_bar).as_str(), away[0].job.get(Field::Thickness)), ("C 0.41 Mn 0.8", Some("50 mm")));
    // And what stood is kept as it stood.
    let aside =
        done.aside.iter().find(|path| path.ends_with("session.ron.before-restore")).expect("kept aside");
    assert_eq!(Session::from_ron(&fs::read_to_string(aside).expect("reads")).0, stood);
    let again = restore(other.folder.path(), &file).expect("restores");
    assert_eq!((again.records, again.merged, again.aside.len()), (0, false, 0), "{again:?}");
    assert_eq!(session_in(other.folder.path()), now);
}

/// What was answered for one job never stands beside another one: it would change its figures.
#[test]
fn answers_of_the_backup_do_not_come_to_the_plan_on_hand() {
    let (shop, other) = (Shop::new(), Shop::new());
    let answer = ("heat-cycle.fuel-flow".to_owned(), "9 m³/h".to_owned());
    let theirs = Session { job: demo_job(), typed: [answer.clone()].into(), ..Session::default() };
    save(shop.folder.path(), &theirs);
    save(other.folder.path(), &Session { job: job("4140", "38"), ..Session::default() });
    let (_away, file) = packed(&shop);
    restore(other.folder.path(), &file).expect("restores");
    assert!(!session_in(other.folder.path()).typed.contains_key(&answer.0));
    // Where nothing stands, all of it comes back.
    let empty = Shop::new();
    save(empty.folder.path(), &Session::default());
    restore(empty.folder.path(), &file).expect("restores");
    assert_eq!(session_in(empty.folder.path()), theirs);
}

/// Whatever units each of them has: a bare figure keeps its size, and the same twice is once.
#[test]
fn figures_keep_their_size_in_other_units() {
    use strawblue::units::Units;
    let shop = Shop::new();
    let theirs = Session { job: job("4140", "2"), units: Units::F_IN, ..Session::default() };
    save(shop.folder.path(), &theirs);
    let (_away, file) = packed(&shop);
    let own_steels = vec![steel("Pin", "C 0.3")];
    for (stood, thickness) in [(job("34CrMo4", "20"), Some("20")), (JobText::default(), Some("2 in"))] {
        let other = Shop::new();
        save(
            other.folder.path(),
            &Session { job: stood.clone(), own_steels: own_steels.clone(), ..Session::default() },
        );
        assert!(restore(other.folder.path(), &file).expect("restores").merged);
        let now = session_in(other.folder.path());
        assert_eq!((now.units, now.job.get(Field::Thickness)), (Units::C_MM, thickness));
        let away: Vec<_> = now.put_away().into_iter().map(|away| away.job).collect();
        let waits = away.first().and_then(|job| job.get(Field::Thickness).map(str::to_owned));
        assert_eq!(waits.as_deref(), if stood == JobText::default() { None } else { Some("2 in") });
        assert!(!restore(other.folder.path(), &file).expect("restores").merged);
        assert_eq!(session_in(other.folder.path()), now);
    }
}

#[test]
fn nothing_is_written_over() {
    let shop = Shop::new();
    begin(&shop.logs(), 1);
    let (away, file) = packed(&shop);
    let before = fs::read(&file).expect("reads");
    assert!(matches!(pack(shop.folder.path(), &file), Err(BackupError::Taken { .. })));
    assert_eq!(fs::read(&file).expect("reads"), before);
    assert_eq!(fs::read_dir(away.path()).expect("reads").count(), 1, "nothing half written stays");
    // Of two pictures under one name the second is kept aside.
    let mut open = begin(&shop.logs(), 1);
    let folder = shop.job_folder(open.job());
    read(&mut open, 1);
    fs::write(folder.join("trial.png"), b"of the backup").expect("writes");
    let (_away, file) = packed(&shop);
    fs::write(folder.join("trial.png"), b"of today").expect("writes");
    let done = restore(shop.folder.path(), &file).expect("restores");
    assert_eq!(fs::read(folder.join("trial.png")).expect("reads"), b"of today");
    assert_eq!(done.aside.len(), 1, "{done:?}");
    assert_eq!(fs::read(&done.aside[0]).expect("reads"), b"of the backup");
}

/// Cut anywhere, or with any one byte changed, it is refused whole, or it is the same.
#[test]
fn of_a_damaged_backup_nothing_is_taken() {
    let shop = Shop::new();
    let mut open = begin(&shop.logs(), 1);
    read(&mut open, 1);
    save(shop.folder.path(), &Session { job: demo_job(), ..Session::default() });
    let (away, file) = packed(&shop);
    let whole = fs::read(&file).expect("reads");
    let hurt = away.path().join("hurt.tar");
    let mut refused = 0;
    let mut tried = |bytes: &[u8]| {
        fs::write(&hurt, bytes).expect("writes");
        let other = Shop::new();
        match restore(other.folder.path(), &hurt) {
            Ok(_) => assert_eq!(kept(other.folder.path()), kept(shop.folder.path())),
            Err(BackupError::Damaged | BackupError::NoBackup | BackupError::Newer { .. }) => {
                refused += 1;
                assert!(
                    fs::read_dir(other.folder.path()).expect("reads").next().is_none(),
                    "something was taken"
                );
            }
            Err(error) => panic!("{error}"),
        }
    };
    let step = (whole.len() / 150).max(1);
    for end in (0..whole.len()).step_by(step) {
        tried(&whole[..end]);
        let mut flipped = whole.clone();
        flipped[end] ^= 0x10;
        tried(&flipped);
    }
    tried(b"");
    tried(b"(schema: 2, parts: [])");
    tried(&[0; 4096]);
    assert!(refused > 200, "{refused}");
}

/// A tar archive of these files, whatever they are called.
fn archive(files: &[(&str, &[u8])]) -> Vec<u8> {
    let mut made = tar::Builder::new(Vec::new());
    for (name, bytes) in files {
        let mut header = tar::Header::new_gnu();
        header.set_size(bytes.len() as u64);
        header.set_mode(0o644);
        // The library itself refuses names that lead out of a folder: somebody else's need not.
        let field = &mut header.as_old_mut().name;
        field[..name.len()].copy_from_slice(name.as_bytes());
        header.set_cksum();
        made.append(&header, *bytes).expect("appends");
    }
    made.into_inner().expect("ends")
}

#[test]
fn a_name_that_leads_out_of_the_folder_is_refused() {
    let job = "019cfa7c-aa40-7000-8000-000000000001";
    let names = [
        "../out.ron".to_owned(),
        "/tmp/strawblue-out".to_owned(),
        "device".to_owned(),
        ".lock".to_owned(),
        "log/../../out.ron".to_owned(),
        format!("log/{job}/../out.ron"),
        format!("log/{job}/.hidden"),
        format!("log/{job}/a/b.ron"),
        format!("log-third/{job}/a.ron"),
        "session.ron/x".to_owned(),
        "session.ron.".to_owned(),
    ];
    for name in names {
        let sum = format!("{:08x}", crc32fast::hash(b"x"));
        let list = serde_json::json!({
            "schema": 1, "program": "0.1.0", "files": [{ "name": name, "length": 1, "sum": sum }]
        });
        let list = serde_json::to_vec(&list).expect("writes");
        let away = tempfile::tempdir().expect("a folder");
        let file = away.path().join("made.tar");
        fs::write(&file, archive(&[(&name, b"x"), ("contents.json", &list)])).expect("writes");
        let folder = away.path().join("kept");
        let refused = restore(&folder, &file);
        assert!(matches!(refused, Err(BackupError::Damaged)), "{name}: {refused:?}");
        assert!(!folder.exists() && fs::read_dir(away.path()).expect("reads").count() == 1, "{name}");
    }
}

#[test]
fn a_backup_of_a_newer_program_is_told_as_one() {
    let away = tempfile::tempdir().expect("a folder");
    let file = away.path().join("newer.tar");
    let list = br#"{ "schema": 2, "rooms": ["what comes later"] }"#;
    fs::write(&file, archive(&[("later/x", b"x"), ("contents.json", list)])).expect("writes");
    let refused = restore(&away.path().join("kept"), &file);
    assert!(matches!(refused, Err(BackupError::Newer { schema: 2 })), "{refused:?}");
}
