//! Every page of the Log, on a phone and on a desktop: nothing on it is wider than its place.
//!
//! `STRAWBLUE_PAGES=FOLDER` writes each page there, in both looks, to be looked at.

use std::path::{Path, PathBuf};
use std::rc::Rc;

use i_slint_backend_testing::AccessibleRole;
use slint::{ComponentHandle, Model};
use strawblue::app::{State, ui};
use strawblue::job::{Session, Store, Theme, demo_job};
use strawblue::log::CrackOutcome;

use crate::screen::compare::{drawn, write};
use crate::screen::hand::{tap, texts};
use crate::screen::{live_with, mock_elapsed_time};

/// The variable that names the folder.
const FOLDER: &str = "STRAWBLUE_PAGES";
const LOOKS: [(&str, Theme); 2] = [("dark", Theme::Dark), ("light", Theme::Light)];

struct Album {
    window: ui::AppWindow,
    _state: Rc<State>,
    folder: Option<PathBuf>,
    shape: &'static str,
    look: &'static str,
    wide: f32,
    faults: Vec<String>,
}

impl Album {
    fn look_at(&mut self, page: &str) {
        mock_elapsed_time(60);
        for (text, at, size) in texts(&self.window) {
            if at.x < -0.5 || at.x + size.width > self.wide + 0.5 {
                self.faults.push(format!("{page} {}: “{text}” leaves the window", self.shape));
            }
        }
        if let Some(folder) = &self.folder {
            std::fs::create_dir_all(folder).expect("the folder can be made");
            let name = format!("log-{page}-{}-{}.png", self.shape, self.look);
            write(&drawn(&self.window), &folder.join(name));
        }
    }
}

fn walk(
    shape: &'static str,
    size: (u32, u32),
    (look, theme): (&'static str, Theme),
    kept: &Path,
) -> Vec<String> {
    let store = Store::open(kept).expect("the folder can be used");
    let session = Session { theme, job: demo_job(), place: "log".to_owned(), ..Session::default() };
    let (window, state) = live_with(size, session, Some(store));
    let folder = std::env::var_os(FOLDER).map(PathBuf::from);
    let wide = size.0 as f32;
    let mut album = Album { window, _state: state, folder, shape, look, wide, faults: Vec::new() };
    let log = |album: &Album| album.window.as_weak().upgrade().expect("it lives");
    album.look_at("empty");
    if size.0 < 800 {
        tap(&album.window, AccessibleRole::Button, "Make a job of this plan");
        album.look_at("new");
        album.window.global::<ui::Shell>().invoke_back_asked();
    }
    tap(&album.window, AccessibleRole::Button, "Load the example");
    album.look_at("job");
    let cells = log(&album).global::<ui::LogAdapter>().get_pieces();
    let begun = cells.iter().position(|cell| cell.sign == ui::LogSign::Overdue).unwrap_or(0);
    let of = |nth: usize| cells.row_data(nth).expect("a piece").id;
    album.window.global::<ui::LogAdapter>().invoke_piece_asked(of(begun), size.0 >= 800);
    album.look_at("piece");
    if let Some(row) = log(&album).global::<ui::LogAdapter>().get_readings().row_data(0) {
        album.window.global::<ui::LogAdapter>().invoke_reading_toggled(row.id);
        album.look_at("piece-open");
    }
    album.window.global::<ui::LogAdapter>().invoke_reading_new_asked();
    album.look_at("entry-begin");
    for key in ["2", "8", "5"] {
        album.window.global::<ui::LogAdapter>().invoke_key_asked(key.into());
    }
    album.window.global::<ui::LogAdapter>().invoke_part_picked(1);
    album.look_at("entry");
    album.window.global::<ui::FormEvents>().invoke_row_toggled("log-how".into());
    album.window.global::<ui::FormEvents>().invoke_row_toggled("log-moment".into());
    album.look_at("entry-rows");
    album.window.global::<ui::LogAdapter>().invoke_value_edited("2x".into());
    album.look_at("entry-wrong");
    album.window.global::<ui::FormEvents>().invoke_choice_made("log.with".into(), 4);
    album.window.global::<ui::LogAdapter>().invoke_value_edited("310".into());
    album.look_at("crayon");
    album.window.global::<ui::LogAdapter>().invoke_way_picked(0);
    album.window.global::<ui::LogAdapter>().invoke_way_picked(1);
    album.look_at("crayon-other");
    // A piece stands beside its job where there is room.
    for _ in 0..if size.0 < 800 { 2 } else { 1 } {
        album.window.global::<ui::Shell>().invoke_back_asked();
    }
    album.window.global::<ui::LogAdapter>().invoke_trial_new_asked();
    album.window.global::<ui::LogAdapter>().invoke_value_edited("25".into());
    album.look_at("trial");
    // It has cracked, where the plan would weld.
    album.window.global::<ui::FormEvents>().invoke_choice_made("log.with".into(), 0);
    album.window.global::<ui::LogAdapter>().invoke_value_edited("340".into());
    album.window.global::<ui::LogAdapter>().invoke_part_picked(1);
    let cracked = CrackOutcome::ALL.iter().position(|outcome| *outcome == CrackOutcome::Cracked);
    let cracked = i32::try_from(cracked.expect("one of them")).expect("few");
    album.window.global::<ui::FormEvents>().invoke_choice_made("log.outcome".into(), cracked);
    album.window.global::<ui::LogAdapter>().invoke_save_asked();
    album.look_at("job-warned");
    hand_over(&mut album, kept);
    album.window.global::<ui::Shell>().invoke_place_chosen("log".into());
    album.look_at("list");
    album.faults
}

/// The card in each way that it is looked at, its files, and a job file that is taken in.
fn hand_over(album: &mut Album, kept: &Path) {
    let files = kept.join("files");
    std::fs::create_dir(&files).expect("it can be made");
    let window = album.window.as_weak().upgrade().expect("it lives");
    let hand = window.global::<ui::HandAdapter>();
    let events = window.global::<ui::FormEvents>();
    let waits = |done: &dyn Fn() -> bool| {
        while !done() {
            std::thread::sleep(std::time::Duration::from_millis(5));
            mock_elapsed_time(100);
        }
    };
    events.invoke_field_edited("log.folder".into(), files.display().to_string().into());
    hand.invoke_save_asked("job-file".into());
    waits(&|| !hand.get_saving());
    album.look_at("job-saved");
    hand.invoke_card_asked();
    album.look_at("card-begin");
    waits(&|| hand.get_pages() > 0);
    album.look_at("card");
    hand.set_large(true);
    album.look_at("card-large");
    hand.set_large(false);
    hand.invoke_turn_asked(3);
    hand.invoke_save_asked("card".into());
    waits(&|| !hand.get_saving());
    album.look_at("card-saved");
    hand.set_scroll_card(-480.0);
    album.look_at("card-foot");
    window.global::<ui::Shell>().invoke_back_asked();
    window.global::<ui::Shell>().invoke_back_asked();
    hand.invoke_import_page_asked();
    std::fs::write(files.join("notes.ron"), "no job").expect("written");
    hand.invoke_file_asked(files.join("notes.ron").display().to_string().into());
    waits(&|| !hand.get_importing());
    album.look_at("import");
    let logs = strawblue::log::Logs::open(kept).expect("it opens");
    let job = logs.list_all().expect("read")[0].id;
    for (file, heat) in [("theirs.ron", "B 200"), ("ours.ron", "A 100")] {
        std::fs::write(files.join(file), changed_elsewhere(kept, job, heat)).expect("written");
    }
    for file in ["ours.ron", "theirs.ron"] {
        hand.invoke_import_page_asked();
        hand.invoke_file_asked(files.join(file).display().to_string().into());
        waits(&|| !hand.get_importing());
    }
    assert_eq!(logs.job(job).expect("read").log().standing().conflicts(), 1);
    album.look_at("job-conflict");
}

/// The job with a piece that another device gave a heat number.
fn changed_elsewhere(kept: &Path, job: strawblue::log::Id, heat: &str) -> String {
    use strawblue::log::{Entry, Hand, LogFile, Logs};
    let open = Logs::open(kept).expect("it opens").job(job).expect("read");
    let standing = open.log().standing();
    let seven = standing.pieces.iter().find(|piece| piece.now.number == 7).expect("it is there");
    let mut piece = seven.now.clone();
    piece.heat_numbers = vec![heat.to_owned(), String::new()];
    let record = Hand::now("a1b2c3d4e5f6").after(open.log()).change(seven, Entry::Piece(piece));
    LogFile { job, device: "a1b2c3d4e5f6".to_owned() }.write(open.log().records().chain([&record]))
}

fn all(shape: &'static str, size: (u32, u32)) {
    // Both looks are laid out alike: the second is for whoever looks at the pages.
    let looks = if std::env::var_os(FOLDER).is_some() { LOOKS.len() } else { 1 };
    for look in LOOKS.into_iter().take(looks) {
        let kept = tempfile::tempdir().expect("a folder");
        let faults = walk(shape, size, look, kept.path());
        assert!(faults.is_empty(), "{}", faults.join("\n"));
    }
}

#[test]
fn every_page_of_the_log_on_a_phone() {
    all("phone", (360, 740));
    all("narrow", (320, 640));
    all("long", (360, 2200));
}

#[test]
fn every_page_of_the_log_on_a_desktop() {
    all("desktop", (1280, 800));
}
