//! What goes from hand to hand: the job card with its preview, its files, and a job from one device to another.

use std::cell::RefCell;
use std::path::{Path, PathBuf};
use std::rc::Rc;

use i_slint_backend_testing::{AccessibleRole, ElementQuery};
use slint::platform::Key;
use slint::{ComponentHandle, Model};
use strawblue::app::{Device, State, on_device, ui};
use strawblue::log::{Log, LogFile, Logs};
use strawblue::words::Words;

use crate::screen::compare::{DESKTOP, PHONE};
use crate::screen::hand::{labelled, press, says, tap};
use crate::screen::{live_in, mock_elapsed_time, soon};

type Live = (ui::AppWindow, Rc<State>);

const BUTTON: AccessibleRole = AccessibleRole::Button;

fn log(window: &ui::AppWindow) -> ui::LogAdapter<'_> {
    window.global::<ui::LogAdapter>()
}

fn hand(window: &ui::AppWindow) -> ui::HandAdapter<'_> {
    window.global::<ui::HandAdapter>()
}

fn page(window: &ui::AppWindow) -> String {
    window.global::<ui::Shell>().get_page().to_string()
}

fn type_in(window: &ui::AppWindow, id: &str, text: &str) {
    window.global::<ui::FormEvents>().invoke_field_edited(id.into(), text.into());
}

/// A device whose files go to a folder.
fn device(size: (u32, u32), kept: &Path, files: &Path) -> Live {
    let (window, state) = live_in(size, kept);
    tap(&window, AccessibleRole::Tab, "Log");
    type_in(&window, "log.folder", &files.display().to_string());
    (window, state)
}

/// The same with the example open in it.
fn example(size: (u32, u32), kept: &Path, files: &Path) -> Live {
    let live = device(size, kept, files);
    tap(&live.0, BUTTON, "Load the example");
    assert_eq!(page(&live.0), "log-job");
    live
}

fn folder() -> tempfile::TempDir {
    tempfile::tempdir().expect("a folder")
}

fn files_of(folder: &Path, ending: &str) -> Vec<PathBuf> {
    let all = std::fs::read_dir(folder).expect("it is there").flatten().map(|entry| entry.path());
    let mut found: Vec<PathBuf> =
        all.filter(|path| path.extension().is_some_and(|end| end == ending)).collect();
    found.sort();
    found
}

/// The log of the one job of a device.
fn kept(folder: &Path) -> Log {
    let logs = Logs::to_read(folder).expect("something was logged");
    let rows = logs.list_all().expect("read");
    assert_eq!(rows.len(), 1);
    logs.job(rows[0].id).expect("read").log().clone()
}

fn export(window: &ui::AppWindow, files: &Path) -> PathBuf {
    let before = files_of(files, "ron");
    hand(window).invoke_save_asked("job-file".into());
    soon("the job file", || !hand(window).get_saving());
    assert_eq!(hand(window).get_not_saved(), "");
    let new = files_of(files, "ron").into_iter().find(|file| !before.contains(file));
    new.expect("a file more")
}

fn import(window: &ui::AppWindow, file: &Path) {
    tap(window, BUTTON, "Import a job file");
    assert_eq!(page(window), "log-import");
    type_in(window, "log.file", &file.display().to_string());
    tap(window, BUTTON, "Import");
    soon("the import", || !hand(window).get_importing());
}

fn imported(window: &ui::AppWindow) -> Vec<String> {
    hand(window).get_imported().iter().map(|line| line.to_string()).collect()
}

/// Dark pixels of the page that is shown.
fn ink(window: &ui::AppWindow) -> usize {
    let image = hand(window).invoke_draw(328.0, hand(window).get_turn());
    let pixels = image.to_rgb8().expect("it is drawn");
    pixels.as_slice().iter().filter(|pixel| pixel.r < 128).count()
}

/// A phone: it keeps what it was asked to share, and refuses the second file.
struct Phone(Rc<RefCell<Vec<(PathBuf, String)>>>);

impl Device for Phone {
    fn shares(&self) -> bool {
        true
    }

    fn share(&self, file: &Path, kind: &str, title: &str) -> Result<(), String> {
        assert_eq!(title, "Share it");
        self.0.borrow_mut().push((file.to_owned(), kind.to_owned()));
        if self.0.borrow().len() == 2 { Err("no program takes it".to_owned()) } else { Ok(()) }
    }
}

#[test]
fn a_phone_shares_what_it_saved() {
    let (home, files) = (folder(), folder());
    let (window, state) = example((360, 2600), home.path(), files.path());
    let shared = Rc::new(RefCell::new(Vec::new()));
    on_device(&window, &state, Phone(shared.clone()));
    assert!(labelled(&window, BUTTON, "Share it").is_none(), "nothing is saved yet");
    for (what, kind) in [("job-file", "application/octet-stream"), ("readings", "text/csv")] {
        hand(&window).invoke_save_asked(what.into());
        soon("the file", || !hand(&window).get_saving());
        tap(&window, BUTTON, "Share it");
        let (file, told) = shared.borrow().last().cloned().expect("it was shared");
        assert!(file.is_file() && told == kind, "{} as {told}", file.display());
    }
    assert!(says(&window, "It was not shared: no program takes it"));
    assert!(!hand(&window).get_saved().is_empty(), "what is saved is still said");
    // What was said of it is said in the other language too.
    let german = Words::languages().position(|tag| tag == "de").expect("it is spoken");
    window.global::<ui::SettingsAdapter>().invoke_language_picked(german as i32);
    assert_eq!(hand(&window).get_not_saved(), "Nicht weitergegeben: no program takes it");
}

#[test]
fn the_card_is_looked_at_and_saved() {
    let (home, files) = (folder(), folder());
    let (window, _state) = example((360, 2600), home.path(), files.path());
    tap(&window, BUTTON, "Job card");
    assert_eq!(page(&window), "log-card");
    soon("the pages", || hand(&window).get_pages() > 3);
    assert!(says(&window, "Page 1 of 7"), "{}", hand(&window).get_page_words());
    assert!(hand(&window).get_headings().contains("Screen bell crank"), "{}", hand(&window).get_headings());
    let first = ink(&window);
    assert!(first > 2000, "{first}");
    tap(&window, BUTTON, "Next page");
    assert!(says(&window, "Page 2 of 7"));
    assert_ne!(ink(&window), first);
    tap(&window, BUTTON, "Previous page");
    tap(&window, BUTTON, "Previous page");
    assert_eq!((hand(&window).get_nth(), ink(&window)), (0, first), "there is none before the first");
    // The other paper is another shape, and other units are other figures.
    let a4 = hand(&window).get_shape();
    hand(&window).invoke_paper_picked(1);
    soon("the other paper", || !hand(&window).get_laying_out());
    assert!((a4 - 297.0 / 210.0).abs() < 0.001 && (hand(&window).get_shape() - 11.0 / 8.5).abs() < 0.001);
    hand(&window).invoke_units_picked(1);
    soon("the other units", || !hand(&window).get_laying_out());
    assert_ne!(ink(&window), first);
    for (what, ending) in [("card", "pdf"), ("card", "pdf"), ("readings", "csv")] {
        hand(&window).invoke_save_asked(what.into());
        soon("the file", || !hand(&window).get_saving());
        assert_eq!(hand(&window).get_not_saved(), "");
        assert!(hand(&window).get_saved().contains(&format!(".{ending}")), "{}", hand(&window).get_saved());
    }
    let made = files_of(files.path(), "pdf");
    let names: Vec<_> = made.iter().map(|file| file.file_name().expect("a name").to_string_lossy()).collect();
    assert_eq!(names, ["Screen bell crank, job card (2).pdf", "Screen bell crank, job card.pdf"]);
    for file in &made {
        let pdf = std::fs::read(file).expect("read");
        assert!(pdf.starts_with(b"%PDF-1.7"));
        // Letter, in points.
        assert!(find(&pdf, b"[0 0 612 792]"));
    }
    let csv = std::fs::read_to_string(&files_of(files.path(), "csv")[0]).expect("read");
    assert_eq!(csv.lines().count(), 1 + kept(home.path()).standing().readings.len());
}

fn find(bytes: &[u8], wanted: &[u8]) -> bool {
    bytes.windows(wanted.len()).any(|part| part == wanted)
}

/// Where nothing can be written it is said, with the folder, and nothing is left behind.
#[test]
fn what_cannot_be_saved_is_said() {
    let (home, files) = (folder(), folder());
    let nowhere = files.path().join("gone");
    let (window, _state) = example(PHONE, home.path(), &nowhere);
    for what in ["card", "readings", "job-file"] {
        hand(&window).invoke_save_asked(what.into());
        soon("an answer", || !hand(&window).get_saving());
        let said = hand(&window).get_not_saved();
        assert!(said.contains("gone") && said.contains("cannot be written"), "{said}");
        assert_eq!(hand(&window).get_saved(), "");
    }
    assert!(!nowhere.exists());
    // A file in the place of the folder is no folder either.
    std::fs::write(&nowhere, "a file").expect("written");
    hand(&window).invoke_save_asked("readings".into());
    soon("an answer", || !hand(&window).get_saving());
    assert!(!hand(&window).get_not_saved().is_empty());
}

#[test]
fn a_job_goes_from_one_device_to_another() {
    let (one, other, files) = (folder(), folder(), folder());
    let (from, _at) = example(PHONE, one.path(), files.path());
    let file = export(&from, files.path());
    let all = kept(one.path());
    let (to, _state) = device(PHONE, other.path(), files.path());
    import(&to, &file);
    assert_eq!(page(&to), "log-job");
    assert_eq!(kept(other.path()), all, "the same job");
    assert_eq!(imported(&to), [format!("{} new records, 0 known before.", all.len())]);
    assert_eq!(log(&to).get_pieces().row_count(), 8);
    assert!(says(&to, &imported(&to)[0]));
    // Once more brings nothing new, and the file is offered by its name now.
    window_back(&to);
    tap(&to, BUTTON, "Import a job file");
    tap(&to, BUTTON, "Screen bell crank.ron");
    soon("the import", || !hand(&to).get_importing());
    assert_eq!(imported(&to), [format!("0 new records, {} known before.", all.len())]);
    assert_eq!(kept(other.path()), all);
}

fn window_back(window: &ui::AppWindow) {
    window.global::<ui::Shell>().invoke_back_asked();
    mock_elapsed_time(50);
}

/// Junk is refused in a plain line; what is typed stays, and the jobs that are there stay as they are.
#[test]
fn what_is_no_job_file_is_refused() {
    let (home, files) = (folder(), folder());
    let (window, _state) = example(PHONE, home.path(), files.path());
    let before = kept(home.path());
    window_back(&window);
    let whole = LogFile { job: before.records().next().expect("one").thing, device: "x".to_owned() };
    let whole = whole.write(before.records());
    // A record whose job is nowhere: its head and the record that begins the job are gone.
    let lost: String =
        whole.lines().skip(6).filter(|line| line.contains("sum:")).take(3).collect::<Vec<_>>().join("\n");
    let cases: [(&str, Vec<u8>, &str); 6] = [
        ("empty.ron", Vec::new(), "is empty"),
        ("junk.ron", (0..5000_u32).map(|at| (at * 7919 % 251) as u8).collect(), "is no log"),
        ("words.ron", b"Dear welder".to_vec(), "is no log"),
        ("newer.ron", whole.replace("schema: 1", "schema: 99").into_bytes(), "newer program"),
        ("lost.ron", lost.into_bytes(), "is no log"),
        ("missing.ron", Vec::new(), "cannot be read"),
    ];
    for (name, bytes, wanted) in cases {
        let file = files.path().join(name);
        if name != "missing.ron" {
            std::fs::write(&file, &bytes).expect("written");
        }
        import(&window, &file);
        assert_eq!(page(&window), "log-import", "{name}");
        let said = hand(&window).get_import_problem();
        assert!(said.contains(name) && said.contains(wanted), "{name}: {said}");
        window_back(&window);
    }
    assert_eq!(kept(home.path()), before);
    // A file that lost its end is taken in as far as it goes, and that is said.
    let cut = files.path().join("cut.ron");
    std::fs::write(&cut, &whole[..whole.len() - whole.len() / 4]).expect("written");
    import(&window, &cut);
    assert!(imported(&window).iter().any(|line| line.contains("The end of the file is missing")));
    assert_eq!(kept(home.path()), before);
}

/// Two devices change one piece, neither sees the other: both versions are shown, and one is kept.
#[test]
fn a_merge_with_a_conflict_is_shown_and_settled() {
    let (one, other, files) = (folder(), folder(), folder());
    let (first, _at_first) = example(DESKTOP, one.path(), files.path());
    let (second, _at_second) = device(DESKTOP, other.path(), files.path());
    import(&second, &export(&first, files.path()));
    for (window, heat) in [(&first, "A 100"), (&second, "B 200")] {
        let cells = log(window).get_pieces();
        let seven = cells.iter().find(|cell| cell.number == "7").expect("it is there").id;
        log(window).invoke_piece_asked(seven, true);
        window.global::<ui::FormEvents>().invoke_field_committed("log.heat-a".into(), heat.into());
        mock_elapsed_time(50);
    }
    let theirs = export(&second, files.path());
    window_back(&first);
    import(&first, &theirs);
    assert_eq!(imported(&first).len(), 2, "{:?}", imported(&first));
    assert!(imported(&first)[0].starts_with("1 new record"), "{:?}", imported(&first));
    let conflict = log(&first).get_conflicts().row_data(0).expect("a conflict");
    assert_eq!(conflict.what, "Piece 7");
    let versions: Vec<String> = conflict.versions.iter().map(|version| version.text.to_string()).collect();
    assert_eq!(versions.len(), 2);
    for heat in ["A 100", "B 200"] {
        assert!(versions.iter().any(|text| text.contains(heat)), "{versions:?}");
        assert!(
            versions.iter().filter(|text| text.contains(heat)).all(|text| says(&first, text)),
            "it can be read on the page"
        );
    }
    assert_eq!(kept(one.path()).standing().conflicts(), 1);
    let keeps = versions.iter().position(|text| text.contains("B 200")).expect("theirs") + 1;
    tap(&first, BUTTON, &format!("Keep version {keeps}"));
    assert_eq!(log(&first).get_conflicts().row_count(), 0);
    assert_eq!(kept(one.path()).standing().conflicts(), 0);
    let standing = kept(one.path());
    let standing = standing.standing();
    let seven = standing.pieces.iter().find(|piece| piece.now.number == 7).expect("it is there");
    assert_eq!(seven.now.heat_numbers[0], "B 200");
    // The other device hears of it by the next file, and both have the same log.
    let back = export(&first, files.path());
    window_back(&second);
    import(&second, &back);
    assert_eq!(kept(one.path()), kept(other.path()));
    assert!(labelled(&second, BUTTON, "Keep version 1").is_none());
}

/// Moves the keyboard on until its ring stands around a control.
fn tab_to(window: &ui::AppWindow, role: AccessibleRole, label: &str) {
    for _ in 0..150 {
        press(window, Key::Tab);
        // What is scrolled out of sight is not found until the keyboard is near it.
        let Some(wanted) = labelled(window, role, label) else { continue };
        let (at, size) = (wanted.absolute_position(), wanted.size());
        let rings = ElementQuery::from_root(window).match_inherits("FocusRing").find_all();
        let there = rings.iter().any(|ring| {
            let (left, wide) = (ring.absolute_position(), ring.size());
            (left.x - at.x).abs() + (left.y - at.y).abs() < 2.0
                && (wide.width - size.width).abs() + (wide.height - size.height).abs() < 2.0
        });
        if there {
            return;
        }
    }
    panic!("the keyboard does not come to “{label}”");
}

fn press_button(window: &ui::AppWindow, label: &str) {
    tab_to(window, BUTTON, label);
    press(window, Key::Return);
}

/// From the example to its card, its files and an import, without a touch.
#[test]
fn all_of_it_goes_by_the_keyboard_alone() {
    let (home, files) = (folder(), folder());
    let (window, _state) = live_in(PHONE, home.path());
    type_in(&window, "log.folder", &files.path().display().to_string());
    tab_to(&window, AccessibleRole::Tab, "Log");
    press(&window, Key::Return);
    press_button(&window, "Load the example");
    press_button(&window, "Job card");
    soon("the pages", || hand(&window).get_pages() > 3);
    tab_to(&window, AccessibleRole::Image, "Page 1 of 7");
    press(&window, Key::RightArrow);
    assert!(says(&window, "Page 2 of 7"));
    press(&window, Key::End);
    assert!(says(&window, "Page 7 of 7"));
    press(&window, Key::Home);
    press_button(&window, "Save as PDF");
    soon("the card", || !hand(&window).get_saving());
    assert_eq!(files_of(files.path(), "pdf").len(), 1, "{}", hand(&window).get_not_saved());
    press_button(&window, "Larger");
    tab_to(&window, AccessibleRole::Image, "Page 1 of 7");
    press(&window, Key::RightArrow);
    assert!(hand(&window).get_scroll_sheet() < -50.0, "a wide page moves sideways");
    press(&window, Key::Escape);
    assert_eq!(page(&window), "log-job");
    press_button(&window, "Save the job file");
    soon("the job file", || !hand(&window).get_saving());
    press(&window, Key::Escape);
    press_button(&window, "Import a job file");
    assert_eq!(page(&window), "log-import");
    // The field is the first on its page.
    press(&window, Key::Tab);
    let file = files_of(files.path(), "ron").remove(0).display().to_string();
    file.chars().for_each(|letter| press(&window, slint::SharedString::from(letter)));
    press_button(&window, "Import");
    soon("the import", || !hand(&window).get_importing());
    assert_eq!(page(&window), "log-job", "{}", hand(&window).get_import_problem());
    assert!(imported(&window)[0].starts_with("0 new records"), "{:?}", imported(&window));
}
