//! A file of another job under the name of the own one, by a hand or a sync that slipped: it is put aside, never
//! mixed in, never written over.

use std::fs;
use std::path::Path;

use strawblue::log::LogNote;

use crate::faults::is_plain;
use crate::shop::{Shop, begin, read, reading};

/// Does any file below a folder hold these bytes?
fn lies_in(folder: &Path, bytes: &[u8]) -> bool {
    fs::read_dir(folder).into_iter().flatten().flatten().any(|entry| {
        let path = entry.path();
        if path.is_dir() { lies_in(&path, bytes) } else { fs::read(&path).is_ok_and(|there| there == bytes) }
    })
}

#[test]
fn a_file_of_another_job_is_put_aside() {
    let words = strawblue::words::Words::english();
    for second_copy in [true, false] {
        let shop = Shop::new();
        let (mut strange, mut own) = (begin(&shop.logs(), 2), begin(&shop.logs(), 2));
        let of_strange: Vec<_> = (0..4).map(|nth| read(&mut strange, nth)).collect();
        let of_own: Vec<_> = (10..14).map(|nth| read(&mut own, nth)).collect();
        let (strange, own) = (strange.job(), own.job());
        let theirs = fs::read(shop.own_file(strange)).expect("reads");
        fs::write(shop.own_file(own), &theirs).expect("writes");
        if !second_copy {
            fs::remove_dir_all(shop.second_folder(own)).expect("removes");
        }
        // Only the copy counts here: the job that it belongs to is elsewhere.
        fs::remove_dir_all(shop.job_folder(strange)).expect("removes");
        fs::remove_dir_all(shop.second_folder(strange)).expect("removes");
        let mut open = shop.logs().job(own).expect("reads");
        let note = open.notes().iter().find(|note| matches!(note, LogNote::OtherJob { .. })).expect("a note");
        assert!(is_plain(&note.say(&words)), "{}", note.say(&words));
        let record = reading(&open.hand(), own, 20);
        let added = record.id;
        open.add(vec![record]).expect("adds");
        for start in 0..2 {
            let open = shop.logs().job(own).expect("reads");
            assert!(open.log().get(added).is_some());
            assert!(of_strange.iter().all(|id| open.log().get(*id).is_none()), "mixed in, start {start}");
            assert_eq!(of_own.iter().all(|id| open.log().get(*id).is_some()), second_copy);
            assert!(lies_in(shop.folder.path(), &theirs), "written over, start {start}");
        }
    }
}

/// The same of what lies a second time.
#[test]
fn a_second_copy_of_another_job_is_put_aside() {
    let shop = Shop::new();
    let (mut strange, mut own) = (begin(&shop.logs(), 2), begin(&shop.logs(), 2));
    let (theirs, ours) = (read(&mut strange, 1), read(&mut own, 2));
    let name = format!("{}.ron", shop.logs().device());
    let bytes = fs::read(shop.own_file(strange.job())).expect("reads");
    fs::write(shop.second_folder(own.job()).join(&name), &bytes).expect("writes");
    fs::remove_dir_all(shop.job_folder(strange.job())).expect("removes");
    fs::remove_dir_all(shop.second_folder(strange.job())).expect("removes");
    let mut open = shop.logs().job(own.job()).expect("reads");
    read(&mut open, 3);
    assert!(open.log().get(ours).is_some() && open.log().get(theirs).is_none());
    assert!(lies_in(shop.folder.path(), &bytes), "written over");
}

/// The own file lost one line, the second copy another one: together they have all.
#[test]
fn two_copies_that_are_hurt_in_other_lines_have_all() {
    let shop = Shop::new();
    let mut own = begin(&shop.logs(), 2);
    let ids: Vec<_> = (0..6).map(|nth| read(&mut own, nth)).collect();
    let name = format!("{}.ron", shop.logs().device());
    for (file, lost) in [(shop.own_file(own.job()), 1), (shop.second_folder(own.job()).join(name), 4)] {
        let text = fs::read_to_string(&file).expect("reads");
        let hurt = text.replacen(&format!("reading {lost}"), "reading x", 1);
        assert_ne!(text, hurt);
        fs::write(&file, hurt).expect("writes");
    }
    let open = shop.logs().job(own.job()).expect("reads");
    assert!(ids.iter().all(|id| open.log().get(*id).is_some()));
}
