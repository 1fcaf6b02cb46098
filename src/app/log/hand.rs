//! What goes from hand to hand: the job card with its preview, the table of readings, job files out and in.

use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::time::Duration;

use slint::{ComponentHandle, Image, SharedString, TimerMode};

use super::desk::LogDesk;
use super::form::{alone, field};
use super::handed::{ToSave, What};
use super::kept::LogKept;
use super::opened::open_job;
use super::sheets::CardOf;
use crate::app::calls::{calls, calls_plain};
#[cfg(feature = "gui")]
use crate::app::chooser::{self, Chosen};
use crate::app::rows::{model, put};
use crate::app::screen_values::{choice, place_of};
use crate::app::shell::{open_page, refresh_screen};
use crate::app::{Page, State, ui};
use crate::card::{Lost, Paper};
use crate::log::{Imported, OpenLog};
use crate::units::{LengthUnit, Units};
use crate::words::List;

/// How often it is asked what came of work off the screen's thread.
const NEWS: Duration = Duration::from_millis(60);
/// Units of a card.
const UNITS: [Units; 3] = [Units::C_MM, Units::F_IN, Units::F_MM];
/// The folder of files that a phone hands over, in the program's own.
const OWN_FOLDER: &str = "handover";
/// So many job files are offered.
const OFFERED: usize = 8;

/// Wires it.
pub(super) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let adapter = window.global::<ui::HandAdapter>();
    adapter.set_folder_rows(model(Vec::new()));
    adapter.set_import_rows(model(Vec::new()));
    adapter.set_can_choose(cfg!(feature = "gui"));
    adapter.on_draw({
        let (weak, state) = (window.as_weak(), Rc::downgrade(state));
        move |width, _| {
            let (Some(window), Some(state)) = (weak.upgrade(), state.upgrade()) else {
                return Image::default();
            };
            let pixels = (width * window.window().scale_factor()).round().max(1.0) as u32;
            state.log.borrow_mut().card.image(pixels)
        }
    });
    adapter.on_card_asked(calls_plain(window, state, |window, state| {
        state.log.borrow_mut().card.nth = 0;
        let adapter = window.global::<ui::HandAdapter>();
        adapter.set_scroll_card(0.0);
        adapter.set_scroll_sheet(0.0);
        adapter.set_large(false);
        adapter.set_no_chooser(false);
        open_page(window, state, Page::LogCard);
    }));
    adapter.on_turn_asked(calls(window, state, |window, state, by: i32| {
        state.log.borrow_mut().card.turn_by(by);
        window.global::<ui::HandAdapter>().set_scroll_sheet(0.0);
        refresh_screen(window, state);
    }));
    adapter.on_paper_picked(calls(window, state, |window, state, index: i32| {
        let paper = if index == 1 { Paper::Letter } else { Paper::A4 };
        LogKept::Paper.set(state, Some(paper.id()));
        refresh_screen(window, state);
    }));
    adapter.on_units_picked(calls(window, state, |window, state, index: i32| {
        let units = usize::try_from(index).ok().and_then(|at| UNITS.get(at));
        LogKept::CardUnits.set(state, units.map(|units| units.id()));
        refresh_screen(window, state);
    }));
    adapter.on_save_asked(calls(window, state, |window, state, what: SharedString| {
        if let Some(what) = What::of(&what) {
            save(state, what);
        }
        refresh_screen(window, state);
    }));
    adapter.on_share_asked(calls_plain(window, state, |window, state| {
        share(state);
        refresh_screen(window, state);
    }));
    adapter.on_import_page_asked(calls_plain(window, state, |window, state| {
        state.log.borrow_mut().handed.import_anew();
        window.global::<ui::HandAdapter>().set_no_chooser(false);
        open_page(window, state, Page::LogImport);
    }));
    adapter.on_import_asked(calls_plain(window, state, |window, state| {
        let typed = LogKept::File.text(state);
        if !typed.trim().is_empty() {
            import(state, Path::new(typed.trim()));
        }
        refresh_screen(window, state);
    }));
    adapter.on_file_asked(calls(window, state, |window, state, file: SharedString| {
        import(state, Path::new(file.as_str()));
        refresh_screen(window, state);
    }));
    adapter.on_choose_folder_asked(calls_plain(window, state, choose_folder));
    adapter.on_choose_file_asked(calls_plain(window, state, choose_file));
    let timer = &state.log.borrow().hand_timer;
    timer.start(TimerMode::Repeated, NEWS, {
        let (weak, heard) = (window.as_weak(), Rc::downgrade(state));
        move || {
            if let (Some(window), Some(state)) = (weak.upgrade(), heard.upgrade()) {
                hear(&window, &state);
            }
        }
    });
    timer.stop();
}

/// What a card is made of, as it is chosen; none where no job is open.
fn card_of(state: &State) -> Option<CardOf> {
    let (job, records, lost, own) = {
        let desk = state.log.borrow();
        let open = desk.open.as_ref()?;
        let own = open.log().standing().job.as_ref()?.now.plan.units;
        (open.job(), open.log().len(), Lost::of(open.notes()), own)
    };
    let units = LogKept::CardUnits.get(state);
    let units = UNITS.into_iter().find(|known| units.as_deref() == Some(known.id())).unwrap_or(own);
    let paper = LogKept::Paper.get(state);
    let usual = if units.length == LengthUnit::Inch { Paper::Letter } else { Paper::A4 };
    let paper = Paper::ALL.into_iter().find(|known| paper.as_deref() == Some(known.id())).unwrap_or(usual);
    Some(CardOf { job, records, lost, paper, units, language: state.words.language() })
}

/// The folder that files are written to: the one that is typed, or the one of the person's documents. On a
/// phone it is the program's own.
fn folder(state: &State) -> PathBuf {
    let typed = LogKept::Folder.text(state);
    if typed.trim().is_empty() { usual_folder(state) } else { PathBuf::from(typed.trim()) }
}

#[cfg(not(target_os = "android"))]
fn usual_folder(state: &State) -> PathBuf {
    let own = || state.log.borrow().folder().map(|folder| folder.join(OWN_FOLDER)).unwrap_or_default();
    directories::UserDirs::new().map_or_else(own, |found| {
        found.document_dir().filter(|folder| folder.is_dir()).unwrap_or_else(|| found.home_dir()).to_owned()
    })
}

#[cfg(target_os = "android")]
fn usual_folder(state: &State) -> PathBuf {
    state.log.borrow().folder().map(|folder| folder.join(OWN_FOLDER)).unwrap_or_default()
}

fn save(state: &State, what: What) {
    let Some(of) = card_of(state) else { return };
    let folder = folder(state);
    let to_save = {
        let desk = state.log.borrow();
        let Some(open) = desk.open.as_ref().filter(|_| !desk.handed.saves()) else { return };
        let job = desk.job_name().map(|(name, _)| name).filter(|name| !name.trim().is_empty());
        let job = job.unwrap_or_else(|| state.words.get("log-unnamed"));
        ToSave {
            what,
            own_folder: desk.folder().is_some_and(|own| folder.starts_with(own)),
            of,
            log: open.log().clone(),
            export: if what == What::JobFile { open.export() } else { String::new() },
            folder,
            name: what.named(&state.words, &job),
        }
    };
    let mut desk = state.log.borrow_mut();
    desk.handed.save(to_save);
    desk.hand_timer.restart();
}

/// Hands the last file of the open job to another program of the device.
fn share(state: &State) {
    let title = state.words.get("log-share");
    let mut desk = state.log.borrow_mut();
    let job = desk.open.as_ref().map(OpenLog::job);
    let shared = desk.handed.file_of(job).map(|(file, kind)| desk.device.share(file, kind, &title));
    if let Some(came) = shared {
        desk.handed.shared(came);
    }
}

fn import(state: &State, file: &Path) {
    let mut desk = state.log.borrow_mut();
    if desk.handed.imports() {
        return;
    }
    let Some(logs) = desk.logs() else { return };
    desk.handed.import(&logs, file.to_owned());
    desk.hand_timer.restart();
}

/// Takes in what work off the screen's thread has told.
fn hear(window: &ui::AppWindow, state: &State) {
    let (mut news, imported) = {
        let mut desk = state.log.borrow_mut();
        let mut news = desk.card.hear();
        let imported = desk.handed.hear_imported();
        if let Some(saved) = desk.handed.hear_saved() {
            news = true;
            if let Some((of, pages)) = saved {
                desk.card.take(&of, pages);
            }
        }
        if !desk.card.works() && !desk.handed.saves() && !desk.handed.imports() {
            desk.hand_timer.stop();
        }
        (news, imported)
    };
    if let Some(told) = imported {
        news = true;
        state.log.borrow_mut().known_is_old();
        // Who went to another place or job meanwhile stays there; the list has the job.
        if let Some(told) = told
            && state.page() == Page::LogImport
            && open_job(state, told.job)
        {
            state.log.borrow_mut().handed.imported = Some(told);
            LogKept::File.set(state, None);
            state.open.borrow_mut().pages.retain(|page| *page != Page::LogImport);
            open_page(window, state, Page::LogJob);
            return;
        }
    }
    if news && state.page().is_log() {
        refresh_screen(window, state);
    }
}

/// Asks the system for the folder that files go to.
#[cfg(feature = "gui")]
fn choose_folder(window: &ui::AppWindow, state: &Rc<State>) {
    let asked = rfd::AsyncFileDialog::new()
        .set_title(state.words.get("log-choose-folder"))
        .set_directory(folder(state))
        .pick_folder();
    ask_system(window, state, asked, |state, path| {
        LogKept::Folder.set(state, Some(&path.display().to_string()));
    });
}

/// Asks the system for a job file, and takes it in.
#[cfg(feature = "gui")]
fn choose_file(window: &ui::AppWindow, state: &Rc<State>) {
    let asked = rfd::AsyncFileDialog::new()
        .set_title(state.words.get("log-choose-file"))
        .add_filter("RON", &["ron", "RON"])
        .pick_file();
    ask_system(window, state, asked, |state, path| {
        LogKept::File.set(state, Some(&path.display().to_string()));
        import(state, path);
    });
}

#[cfg(feature = "gui")]
fn ask_system(
    window: &ui::AppWindow,
    state: &Rc<State>,
    asked: impl Future<Output = Option<rfd::FileHandle>> + 'static,
    act: impl FnOnce(&State, &Path) + 'static,
) {
    chooser::ask_system(window, state, asked, move |window, state, chosen| {
        let none = matches!(chosen, Chosen::NoChooser);
        window.global::<ui::HandAdapter>().set_no_chooser(none);
        if let Chosen::Path(path) = chosen {
            act(state, &path);
            refresh_screen(window, state);
        }
    });
}

#[cfg(not(feature = "gui"))]
const fn choose_folder(_: &ui::AppWindow, _: &Rc<State>) {}

#[cfg(not(feature = "gui"))]
const fn choose_file(_: &ui::AppWindow, _: &Rc<State>) {}

/// A field that stands open by itself.
fn lone_row(state: &State, kept: LogKept, label: &str, hint: SharedString) -> Vec<ui::FormRow> {
    let part = alone(ui::FieldRow { hint, ..field(state, kept, label, &Vec::new()) });
    vec![ui::FormRow {
        id: format!("{kept}-row").into(),
        open: true,
        pinned: true,
        parts: model(vec![part]),
        ..ui::FormRow::default()
    }]
}

/// Fills what the pages show of it.
pub(super) fn fill(window: &ui::AppWindow, state: &State, page: Page) {
    let adapter = window.global::<ui::HandAdapter>();
    let folder = folder(state);
    let hint: SharedString = usual_folder(state).display().to_string().into();
    put(&adapter.get_folder_rows(), lone_row(state, LogKept::Folder, "log-form-folder", hint));
    put(&adapter.get_import_rows(), lone_row(state, LogKept::File, "log-form-file", SharedString::default()));
    adapter.set_folder(state.words.with("log-folder", &[("path", &folder.display().to_string())]).into());
    if page == Page::LogImport {
        let offered = job_files(&folder).into_iter().map(|file| ui::HandFile {
            name: file.file_name().unwrap_or_default().to_string_lossy().as_ref().into(),
            path: file.display().to_string().into(),
        });
        adapter.set_files(model(offered.collect()));
    }
    let of = card_of(state);
    if let Some(of) = of.as_ref().filter(|_| page == Page::LogCard) {
        let mut desk = state.log.borrow_mut();
        let LogDesk { card, open, hand_timer, .. } = &mut *desk;
        if let Some(open) = open {
            card.ask(of, || open.log().clone());
            if card.works() {
                hand_timer.restart();
            }
        }
        drop(desk);
        fill_choices(&adapter, state, of);
    }
    let desk = state.log.borrow();
    let (count, nth) = (desk.card.count(), desk.card.nth);
    adapter.set_pages(i32::try_from(count).unwrap_or(i32::MAX));
    adapter.set_nth(i32::try_from(nth).unwrap_or(0));
    let values = [("page", (nth + 1).to_string()), ("pages", count.to_string())];
    let values: Vec<(&str, &str)> = values.iter().map(|(key, text)| (*key, text.as_str())).collect();
    adapter.set_page_words(state.words.with("card-page", &values).into());
    adapter.set_headings(state.words.list(List::Semicolon, &desk.card.headings()).into());
    adapter.set_shape(desk.card.shape() as f32);
    adapter.set_laying_out(desk.card.works());
    let lost = desk.card.lost && !desk.card.works();
    adapter.set_card_problem(if lost { state.word("log-hand-lost") } else { SharedString::default() });
    adapter.set_turn(desk.card.turn);
    let (saved, not_saved) = desk.handed.said_of(&state.words, desk.open.as_ref().map(OpenLog::job));
    adapter.set_saved(saved.into());
    adapter.set_not_saved(not_saved.into());
    let job = desk.open.as_ref().map(OpenLog::job);
    adapter.set_can_share(desk.device.shares() && desk.handed.file_of(job).is_some());
    adapter.set_saving(desk.handed.saves());
    adapter.set_importing(desk.handed.imports());
    adapter.set_import_problem(desk.handed.import_problem(&state.words).into());
    let told = desk.handed.imported.as_ref();
    let told = told.filter(|told| desk.open.as_ref().is_some_and(|open| open.job() == told.job));
    adapter.set_imported(model(told.map(|told| imported(state, told)).unwrap_or_default()));
}

fn fill_choices(adapter: &ui::HandAdapter<'_>, state: &State, of: &CardOf) {
    let papers =
        Paper::ALL.map(|paper| choice(paper.id(), state.word(&format!("card-paper-{}", paper.id())), "", ""));
    let units = UNITS.map(|units| choice(units.id(), state.word(&format!("units-{}", units.id())), "", ""));
    adapter.set_papers(model(papers.to_vec()));
    adapter.set_paper(place_of(Paper::ALL.iter().position(|paper| *paper == of.paper)));
    adapter.set_units(model(units.to_vec()));
    adapter.set_unit(place_of(UNITS.iter().position(|units| *units == of.units)));
}

/// What an import brought, in sentences.
fn imported(state: &State, told: &Imported) -> Vec<SharedString> {
    let counts = [("new", told.new), ("known", told.known)];
    let mut said = vec![state.words.numbers("log-imported", &counts, &[])];
    if !told.damaged.is_empty() {
        said.push(state.words.count("log-imported-damaged", told.damaged.len(), &[]));
    }
    if told.cut {
        said.push(state.words.get("log-imported-cut"));
    }
    if told.conflicts > 0 {
        said.push(state.words.count("log-imported-conflicts", told.conflicts, &[]));
    }
    said.into_iter().map(Into::into).collect()
}

/// The latest job files of a folder.
fn job_files(folder: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    let mut found: Vec<_> = entries
        .filter(|entry| entry.path().extension().is_some_and(|ending| ending.eq_ignore_ascii_case("ron")))
        .filter_map(|entry| Some((entry.metadata().ok().filter(std::fs::Metadata::is_file)?, entry.path())))
        .map(|(known, path)| (known.modified().ok(), path))
        .collect();
    found.sort_by(|one, other| other.cmp(one));
    found.into_iter().take(OFFERED).map(|(_, path)| path).collect()
}
