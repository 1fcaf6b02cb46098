//! The Log place: jobs, pieces, readings. Everything is on the disk before the screen says so.

pub(crate) mod arrival;
mod begin;
mod conflicts;
pub(crate) mod desk;
mod entry;
pub(crate) mod events;
mod form;
mod hand;
mod handed;
mod job;
pub(crate) mod kept;
mod list;
mod lit;
mod opened;
mod photo_kept;
mod photos;
mod piece;
mod plot;
mod plot_time;
mod sheets;
mod told;
mod typing;
mod used;
mod work;
mod write;

use std::rc::Rc;
use std::time::Duration;

use slint::{ComponentHandle, SharedString, Timer, TimerMode};

use self::kept::LogKept;
use self::opened::{choose_piece, open_at, open_job};
use crate::app::calls::{calls, calls_pair, calls_plain};
use crate::app::rows::model;
use crate::app::shell::{back, open_page, refresh_all, refresh_screen};
use crate::app::{Page, State, ui};
use crate::log::{CrackOutcome, Id, Moment};

/// How often it is asked what others wrote, and whether a minute is over.
const LISTENS_EVERY: Duration = Duration::from_millis(700);

/// Wires the place, and opens what was open when the program was left.
pub(crate) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let adapter = window.global::<ui::LogAdapter>();
    adapter.set_jobs(model(Vec::new()));
    adapter.set_pieces(model(Vec::new()));
    adapter.set_trials(model(Vec::new()));
    adapter.set_conflicts(model(Vec::new()));
    adapter.set_readings(model(Vec::new()));
    adapter.set_steps(model(Vec::new()));
    adapter.set_new_rows(model(Vec::new()));
    adapter.set_piece_rows(model(Vec::new()));
    adapter.set_entry_rows(model(Vec::new()));
    connect_jobs(&adapter, window, state);
    connect_piece(&adapter, window, state);
    connect_entry(&adapter, window, state);
    hand::connect(window, state);
    work::connect(window, state);
    go_on(state);
    tell_plan(window, state);
    let desk = state.log.borrow();
    desk.timer.start(TimerMode::Repeated, LISTENS_EVERY, {
        let (weak, heard) = (window.as_weak(), Rc::downgrade(state));
        move || {
            if let (Some(window), Some(state)) = (weak.upgrade(), heard.upgrade()) {
                listen(&window, &state);
            }
        }
    });
    desk.timer.stop();
}

fn connect_jobs(adapter: &ui::LogAdapter<'_>, window: &ui::AppWindow, state: &Rc<State>) {
    adapter.on_job_asked(calls(window, state, |window, state, id: SharedString| {
        let Some(id) = Id::read(&id) else { return };
        if open_job(state, id) {
            window.global::<ui::LogAdapter>().set_scroll_job(0.0);
            open_page(window, state, Page::LogJob);
        } else {
            refresh_screen(window, state);
        }
    }));
    adapter.on_more_jobs_asked(calls_plain(window, state, |window, state| {
        state.log.borrow_mut().more_jobs += 1;
        refresh_screen(window, state);
    }));
    adapter.on_new_asked(calls_plain(window, state, |window, state| {
        state.log.borrow_mut().new_problem = None;
        // It is asked for in the Plan too.
        if state.page() != Page::Log {
            window.global::<ui::Shell>().invoke_place_chosen(Page::Log.id().into());
        }
        open_page(window, state, Page::LogNew);
    }));
    adapter.on_example_asked(calls_plain(window, state, |window, state| {
        let Some(logs) = state.log.borrow_mut().logs() else { return refresh_screen(window, state) };
        match logs.load_example() {
            Ok(done) if open_job(state, done.job) => open_page(window, state, Page::LogJob),
            Ok(_) => refresh_screen(window, state),
            Err(error) => {
                state.log.borrow_mut().trouble = Some(error);
                refresh_screen(window, state);
            }
        }
    }));
    adapter.on_plan_asked(calls_plain(window, state, |window, state| {
        window.global::<ui::Shell>().invoke_place_chosen(Page::Plan.id().into());
        refresh_screen(window, state);
    }));
    adapter.on_begin_asked(calls_plain(window, state, |window, state| {
        begin::begin(state);
        refresh_screen(window, state);
    }));
    adapter.on_remove_asked(calls_plain(window, state, |window, state| {
        write::remove_job(state);
        refresh_all(window, state);
    }));
    adapter.on_back_asked(calls_plain(window, state, |window, state| {
        if write::bring_back(state) {
            choose_piece(state);
        }
        refresh_all(window, state);
    }));
    adapter.on_version_kept(calls(window, state, |window, state, id: SharedString| {
        if let Some(id) = Id::read(&id) {
            write::keep_version(state, id);
        }
        refresh_screen(window, state);
    }));
}

fn connect_piece(adapter: &ui::LogAdapter<'_>, window: &ui::AppWindow, state: &Rc<State>) {
    adapter.on_piece_asked(calls_pair(window, state, |window, state, id: SharedString, wide: bool| {
        let Some(id) = Id::read(&id) else { return };
        choose(state, id);
        window.global::<ui::LogAdapter>().set_scroll_piece(0.0);
        // Where there is room the piece stands beside its job.
        if wide {
            refresh_screen(window, state);
        } else {
            open_page(window, state, Page::LogPiece);
        }
    }));
    adapter.on_trial_toggled(calls(window, state, |window, state, id: SharedString| {
        unfold(state, &id);
        refresh_screen(window, state);
    }));
    adapter.on_trial_outcome(calls_pair(window, state, |window, state, id: SharedString, cracked: bool| {
        let outcome = if cracked { CrackOutcome::Cracked } else { CrackOutcome::Sound };
        if let Some(id) = Id::read(&id) {
            write::trial_outcome(state, id, outcome);
        }
        refresh_screen(window, state);
    }));
    adapter.on_reading_toggled(calls(window, state, |window, state, id: SharedString| {
        unfold(state, &id);
        refresh_screen(window, state);
    }));
    adapter.on_reading_removed(calls(window, state, |window, state, id: SharedString| {
        if let Some(id) = Id::read(&id) {
            write::remove_reading(state, id);
        }
        refresh_screen(window, state);
    }));
    adapter.on_all_readings_asked(calls_plain(window, state, |window, state| {
        state.log.borrow_mut().all_readings = true;
        refresh_screen(window, state);
    }));
    adapter.on_step_toggled(calls(window, state, |window, state, id: SharedString| {
        let step = state.log.borrow().step(|step| piece::step_id(step) == id.as_str());
        if let Some(step) = step {
            write::step(state, &step);
        }
        refresh_screen(window, state);
    }));
    adapter.on_next_step_asked(calls_plain(window, state, |window, state| {
        let next = state.log.borrow().next_step(state.reference);
        if let Some(step) = next {
            write::step(state, &step);
        }
        refresh_screen(window, state);
    }));
    adapter.on_finished_asked(calls_plain(window, state, |window, state| {
        write::finished(state);
        refresh_screen(window, state);
    }));
    adapter.on_undo_asked(calls_plain(window, state, |window, state| {
        state.log.borrow_mut().undo();
        refresh_screen(window, state);
    }));
}

fn connect_entry(adapter: &ui::LogAdapter<'_>, window: &ui::AppWindow, state: &Rc<State>) {
    let opens = |of_trial: bool| {
        move |window: &ui::AppWindow, state: &Rc<State>| {
            state.log.borrow_mut().of_trial = of_trial;
            window.global::<ui::LogAdapter>().set_scroll_entry(0.0);
            open_page(window, state, Page::LogEntry);
        }
    };
    adapter.on_reading_new_asked(calls_plain(window, state, opens(false)));
    adapter.on_trial_new_asked(calls_plain(window, state, opens(true)));
    adapter.on_value_edited(calls(window, state, |window, state, text: SharedString| {
        typing::typed(state, &text);
        refresh_entry(window, state);
    }));
    adapter.on_key_asked(calls(window, state, |window, state, key: SharedString| {
        typing::pressed(state, &key);
        refresh_entry(window, state);
    }));
    adapter.on_part_picked(calls(window, state, |window, state, index: i32| {
        LogKept::Part.set(state, Some(&index.to_string()));
        refresh_entry(window, state);
    }));
    adapter.on_way_picked(calls(window, state, |window, state, index: i32| {
        typing::way_picked(state, index == 1);
        refresh_entry(window, state);
    }));
    adapter.on_save_asked(calls_plain(window, state, |window, state| {
        let of_trial = state.log.borrow().of_trial;
        let done = if of_trial { write::trial(state) } else { write::reading(state) };
        if done {
            window.global::<ui::LogAdapter>().set_scroll_piece(0.0);
            back(window, state);
        } else {
            refresh_screen(window, state);
        }
    }));
}

/// Another piece is looked at.
fn choose(state: &State, id: Id) {
    let other = state.log.borrow().piece != Some(id);
    if other {
        {
            let mut desk = state.log.borrow_mut();
            desk.piece = Some(id);
            desk.all_readings = false;
            desk.forget_last();
        }
        LogKept::forget_piece(state);
    }
}

fn unfold(state: &State, id: &str) {
    let Some(id) = Id::read(id) else { return };
    let mut desk = state.log.borrow_mut();
    if !desk.unfolded.remove(&id) {
        desk.unfolded.insert(id);
    }
}

/// Opens what was open when the program was left.
fn go_on(state: &State) {
    if Page::place(&state.session(|session| session.place.clone())) != Page::Log {
        return;
    }
    let Some(job) = LogKept::Job.get(state).and_then(|id| Id::read(&id)) else { return };
    let pages = match LogKept::Page.text(state).parse() {
        Ok(Page::LogJob) => vec![Page::LogJob],
        Ok(Page::LogPiece) => vec![Page::LogJob, Page::LogPiece],
        Ok(Page::LogEntry) => vec![Page::LogJob, Page::LogPiece, Page::LogEntry],
        _ => return,
    };
    if open_at(state, job, LogKept::Piece.get(state).and_then(|id| Id::read(&id))) {
        state.open.borrow_mut().pages = pages;
    }
}

/// The plan is told what trial pieces of earlier jobs taught, once the window is there.
fn tell_plan(window: &ui::AppWindow, state: &Rc<State>) {
    if !state.log.borrow().has_any() {
        return;
    }
    let (weak, heard) = (window.as_weak(), Rc::downgrade(state));
    Timer::single_shot(LISTENS_EVERY, move || {
        if let (Some(window), Some(state)) = (weak.upgrade(), heard.upgrade()) {
            state.log.borrow_mut().read_list();
            if !state.log.borrow().known().is_empty() {
                refresh_screen(&window, &state);
            }
            // Of many jobs that nobody has read a few are read at a time, and one of the last may warn.
            if state.log.borrow().unread > 0 {
                tell_plan(&window, &state);
            }
        }
    });
}

/// Keeps what is open, for the next start.
fn remember(state: &State, page: Page) {
    let open = state.log.borrow().open.as_ref().map(crate::log::OpenLog::job);
    let (job, piece) = match open {
        Some(job) => (Some(job.to_string()), state.log.borrow().piece.map(|piece| piece.to_string())),
        // What is typed still belongs to what was open last.
        None => (LogKept::Job.get(state), LogKept::Piece.get(state)),
    };
    // A trial piece that is half typed is gone on with at its job.
    let page = match page {
        Page::LogEntry if state.log.borrow().of_trial => Page::LogJob,
        Page::LogCard => Page::LogJob,
        Page::LogImport => Page::Log,
        page => page,
    };
    let now = [(LogKept::Job, job), (LogKept::Piece, piece), (LogKept::Page, Some(page.id().to_owned()))];
    if now.iter().any(|(kept, text)| kept.get(state) != *text) {
        let all: Vec<(LogKept, Option<&str>)> =
            now.iter().map(|(kept, text)| (*kept, text.as_deref())).collect();
        LogKept::set_all(state, &all);
    }
}

/// What others wrote is taken in; a copy that is made becomes a job; a minute that is over moves the clocks.
fn listen(window: &ui::AppWindow, state: &Rc<State>) {
    if !state.page().is_log() {
        state.log.borrow().timer.stop();
        return;
    }
    // A job that is made while another is worked at waits until nobody is interrupted.
    let waits = !matches!(state.page(), Page::Log | Page::LogNew);
    match if waits { None } else { begin::hear(state) } {
        Some(true) => {
            choose_piece(state);
            state.open.borrow_mut().pages.retain(|page| *page != Page::LogNew);
            open_page(window, state, Page::LogJob);
            return;
        }
        Some(false) => return refresh_screen(window, state),
        None => {}
    }
    let minute = Moment::now().utc_s / 60;
    let passed = minute != state.log.borrow().minute;
    let news = state.log.borrow_mut().hear() || state.log.borrow().unread > 0;
    if passed || news || state.log.borrow().list_is_old(state.page() == Page::Log) {
        refresh_screen(window, state);
    }
}

/// The entry alone: a key that is pressed changes nothing on the disk.
fn refresh_entry(window: &ui::AppWindow, state: &State) {
    typing::fill(&window.global::<ui::LogAdapter>(), state);
}

/// Fills a page of the place.
pub(crate) fn refresh(window: &ui::AppWindow, state: &State, page: Page) {
    let adapter = window.global::<ui::LogAdapter>();
    {
        let mut desk = state.log.borrow_mut();
        desk.minute = Moment::now().utc_s / 60;
        if matches!(page, Page::Log | Page::LogNew | Page::LogImport) {
            desk.read_list();
        }
        if !desk.timer.running() {
            desk.timer.restart();
        }
    }
    remember(state, page);
    {
        let desk = state.log.borrow();
        adapter.set_troubles(model(desk.troubles(&state.words).into_iter().map(Into::into).collect()));
        list::fill(&adapter, state, &desk);
        job::fill(&adapter, state, &desk);
        piece::fill(&adapter, state, &desk);
    }
    work::fill_all(window, state);
    begin::fill(&adapter, state);
    hand::fill(window, state, page);
    if page == Page::LogEntry {
        typing::fill(&adapter, state);
    }
}
