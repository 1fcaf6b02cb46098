//! Every language on a phone: nothing is cut or leaves its place, and a window that changes its language says
//! all that one says which began in it.
//!
//! `STRAWBLUE_PAGES=FOLDER` writes each page in each language there, to be looked at.

use std::path::{Path, PathBuf};
use std::rc::Rc;

use i_slint_backend_testing::ElementQuery;
use slint::{ComponentHandle, Model, ModelRc};
use strawblue::app::{Page, State, open_page, ui};
use strawblue::job::{Field, Session, Store, demo_job};
use strawblue::words::Words;

use crate::screen::compare::{drawn, write};
use crate::screen::hand::texts;
use crate::screen::measure::{Measure, Weight};
use crate::screen::{live_with, mock_elapsed_time};

/// The variable that names the folder.
const FOLDER: &str = "STRAWBLUE_PAGES";
const PHONE: (u32, u32) = (360, 740);
/// So high that hardly a page scrolls: for whoever looks at them.
const WHOLE: (u32, u32) = (360, 3600);
/// One line of text by its height: the size of its letters at least. A note beside a larger text stands in a
/// line of that one; `places` measures what a form has in its true size.
const LINES: [(f32, f64); 4] = [(16.0, 12.0), (18.0, 12.0), (22.0, 13.0), (24.0, 13.0)];

/// What is done before a page is looked at.
pub(crate) type Deed = fn(&ui::AppWindow, &Rc<State>);

fn place(window: &ui::AppWindow, id: &str) {
    window.global::<ui::Shell>().invoke_place_chosen(id.into());
}

fn question(window: &ui::AppWindow, state: &State, name: &str) {
    place(window, "bench");
    window.global::<ui::BenchAdapter>().invoke_question_asked(name.into());
    state.finish_answers();
    strawblue::app::refresh_all(window, state);
}

fn example(window: &ui::AppWindow) {
    place(window, "log");
    let log = window.global::<ui::LogAdapter>();
    match log.get_jobs().row_data(0) {
        Some(job) => log.invoke_job_asked(job.id),
        None => log.invoke_example_asked(),
    }
}

fn piece(window: &ui::AppWindow) {
    example(window);
    let log = window.global::<ui::LogAdapter>();
    let piece = log.get_pieces().row_data(2).expect("the example has pieces");
    log.invoke_piece_asked(piece.id, false);
}

fn typed(window: &ui::AppWindow, field: &str, text: &str) {
    window.global::<ui::FormEvents>().invoke_field_edited(field.into(), text.into());
}

/// Every page, and what else says words of its own.
pub(crate) const PAGES: [(&str, Deed); 23] = [
    ("plan", |window, _| place(window, "plan")),
    ("plan-open", |window, state| {
        place(window, "plan");
        state.open.borrow_mut().rows.extend(["joint", "process", "steel", "weld"].map(str::to_owned));
        strawblue::app::refresh_all(window, state);
    }),
    ("plan-unread", |window, _| {
        place(window, "plan");
        typed(window, "thickness", "thick");
    }),
    ("basis", |window, _| {
        place(window, "plan");
        window.global::<ui::PlanAdapter>().invoke_basis_asked("minimum".into());
    }),
    ("tint", |window, _| place(window, "tint")),
    ("bench", |window, _| place(window, "bench")),
    ("bench-nothing", |window, _| {
        place(window, "bench");
        window.global::<ui::BenchAdapter>().invoke_query_edited("xyzzy".into());
    }),
    ("question-answered", |window, state| question(window, state, "method-b")),
    ("question-fit", |window, state| question(window, state, "shrink-fit")),
    ("log", |window, _| place(window, "log")),
    ("log-job", |window, _| example(window)),
    ("log-piece", |window, _| piece(window)),
    ("log-entry", |window, _| {
        piece(window);
        window.global::<ui::LogAdapter>().invoke_reading_new_asked();
    }),
    ("safety", |window, _| place(window, "safety")),
    ("steels", |window, state| open_page(window, state, Page::Steels)),
    ("fillers", |window, state| open_page(window, state, Page::Fillers)),
    ("unmarked", |window, state| open_page(window, state, Page::Unmarked)),
    ("certificate", |window, state| open_page(window, state, Page::Certificate)),
    ("cycle", |window, _| {
        place(window, "plan");
        window.global::<ui::CycleAdapter>().invoke_open_asked();
    }),
    ("settings", |window, state| {
        open_page(window, state, Page::Settings);
        window.global::<ui::SettingsAdapter>().invoke_terms_toggled();
        window.global::<ui::SourcesAdapter>().invoke_toggled();
    }),
    ("about", |window, state| open_page(window, state, Page::About)),
    ("welcome", |window, state| open_page(window, state, Page::Welcome)),
    ("new-job", |window, state| open_page(window, state, Page::LogNew)),
];

pub(crate) struct Desk {
    pub(crate) window: ui::AppWindow,
    pub(crate) state: Rc<State>,
}

impl Desk {
    fn new(language: &str, kept: &Path, size: (u32, u32)) -> Self {
        Self::of(Session { language: language.to_owned(), job: demo_job(), ..Session::default() }, kept, size)
    }

    pub(crate) fn of(session: Session, kept: &Path, size: (u32, u32)) -> Self {
        let store = Store::open(kept).expect("the folder can be used");
        let (window, state) = live_with(size, session, Some(store));
        Self { window, state }
    }

    pub(crate) fn shows(&self, deed: Deed) {
        place(&self.window, "plan");
        self.state
            .change_job(|job| job.set(Field::Thickness, demo_job().get(Field::Thickness).map(str::to_owned)));
        deed(&self.window, &self.state);
        mock_elapsed_time(60);
    }

    fn speak(&self, tag: &str) {
        let nth = Words::languages().position(|known| known == tag).expect("a language");
        let nth = i32::try_from(nth).expect("few");
        self.window.global::<ui::SettingsAdapter>().invoke_language_picked(nth);
        mock_elapsed_time(60);
    }

    /// All that is drawn, and all that a screen reader hears.
    fn says(&self) -> Vec<String> {
        let all = ElementQuery::from_root(&self.window).match_predicate(|_| true).find_all();
        let heard = all.iter().flat_map(|element| {
            [
                element.accessible_label(),
                element.accessible_value(),
                element.accessible_description(),
                element.accessible_placeholder_text(),
            ]
        });
        heard.flatten().map(|said| said.to_string()).filter(|said| !said.is_empty()).collect()
    }

    /// What is wider than its place.
    fn faults(&self, page: &str, measure: &Measure) -> Vec<String> {
        let wide = PHONE.0 as f32;
        let mut faults = Vec::new();
        for (text, at, size) in texts(&self.window) {
            if at.x < -0.5 || at.x + size.width > wide + 0.5 {
                faults.push(format!("{page}: “{text}” leaves the window"));
            }
            let role = LINES.iter().find(|(line, _)| (size.height - line).abs() < 0.5);
            let (px, parts) = match role {
                Some((_, px)) => (*px, vec![text.as_str()]),
                // Of a paragraph no word is wider than its lines.
                None => (LINES[0].1, text.split([' ', '-', '–', '/']).collect()),
            };
            for part in parts {
                let (needed, has) = (measure.width(part, px), f64::from(size.width));
                if needed > has + 2.0 {
                    faults.push(format!("{page}: “{part}” needs {needed:.0} px and has {:.0}", size.width));
                }
            }
        }
        faults
    }
}

#[test]
fn every_page_fits_a_phone_in_every_language() {
    let folder = std::env::var_os(FOLDER).map(PathBuf::from);
    let measure = Measure::new(Weight::Regular);
    let mut faults = Vec::new();
    for tag in Words::languages() {
        let kept = tempfile::tempdir().expect("a folder");
        let desk = Desk::new(tag, kept.path(), if folder.is_some() { WHOLE } else { PHONE });
        for (page, deed) in PAGES {
            desk.shows(deed);
            faults.extend(desk.faults(page, &measure).into_iter().map(|fault| format!("{tag} {fault}")));
            if let Some(folder) = &folder {
                std::fs::create_dir_all(folder).expect("the folder can be made");
                write(&drawn(&desk.window), &folder.join(format!("{page}-{tag}.png")));
            }
        }
    }
    faults.sort();
    faults.dedup();
    assert!(faults.is_empty(), "{} faults:\n{}", faults.len(), faults.join("\n"));
}

/// The header of a phone has 180 px for a title; a name that somebody gave a job may be longer.
#[test]
fn every_title_is_read_whole_on_a_phone() {
    let measure = Measure::new(Weight::SemiBold);
    let mut cut = Vec::new();
    for tag in Words::languages() {
        let words = Words::of(tag);
        let work = strawblue::questions::ALL.iter().map(|question| format!("work-{}", question.work.id()));
        let pages = ["unmarked", "steels", "fillers", "certificate", "cycle", "settings", "about", "log-new"];
        let titles: std::collections::BTreeSet<String> =
            pages.iter().map(|page| format!("page-{page}")).chain(work).collect();
        for key in titles {
            let needed = measure.width(&words.get(&key), 17.0);
            if needed > 180.0 {
                cut.push(format!("{tag} {key} “{}” needs {needed:.0} px", words.get(&key)));
            }
        }
    }
    assert!(cut.is_empty(), "cut:\n{}", cut.join("\n"));
}

/// The language that is tried, and English again: what is on the screen never waits for the next deed.
#[test]
fn a_window_that_changes_its_language_says_all_of_it_anew() {
    let Some(other) = Words::languages().nth(1) else { return };
    let folders = [(); 2].map(|()| tempfile::tempdir().expect("a folder"));
    let (switched, begun) =
        (Desk::new("en", folders[0].path(), PHONE), Desk::new(other, folders[1].path(), PHONE));
    for (page, deed) in PAGES {
        // What a log keeps of a plan is in the words of the day on which it was made.
        if ["log-job", "log-piece", "log-entry"].contains(&page) {
            continue;
        }
        switched.speak("en");
        switched.shows(deed);
        let english = if page == "plan-open" { switched.says() } else { Vec::new() };
        switched.speak(other);
        begun.shows(deed);
        let (now, there) = (switched.says(), begun.says());
        let kept: Vec<&String> = now.iter().filter(|said| !there.contains(said)).collect();
        assert_eq!(kept, Vec::<&String>::new(), "{page} keeps words of before");
        assert_eq!(now, there, "{page}");
        // And back, once.
        if page == "plan-open" {
            switched.speak("en");
            assert_eq!(switched.says(), english, "{page}, back in English");
        }
    }
}

/// Each language is offered by its own name, and the one that is spoken is marked.
#[test]
fn the_settings_offer_each_language_by_its_own_name() {
    let kept = tempfile::tempdir().expect("a folder");
    let desk = Desk::new("en", kept.path(), PHONE);
    let settings = || desk.window.global::<ui::SettingsAdapter>();
    let names =
        |rows: ModelRc<ui::ChoiceRow>| rows.iter().map(|row| row.label.to_string()).collect::<Vec<_>>();
    for (nth, tag) in Words::languages().enumerate() {
        desk.speak(tag);
        open_page(&desk.window, &desk.state, Page::Settings);
        let own = Words::of(tag).get(&format!("language-{tag}"));
        assert_eq!(names(settings().get_languages())[nth], own, "{tag}");
        assert_eq!(usize::try_from(settings().get_language_chosen()), Ok(nth), "{tag}");
        assert_eq!(desk.state.session(|session| session.language.clone()), tag);
        // Who reads English is told no English terms.
        assert_eq!(settings().get_terms_known(), tag != "en", "{tag}");
    }
}

/// The system's language is spoken until one is chosen, and no session keeps it.
#[test]
fn a_new_window_speaks_the_language_of_the_system() {
    for system in Words::languages() {
        let state = State::new(Session::default(), None, system);
        assert_eq!(state.words.language(), system);
        state.change(|session| session.place = "tint".to_owned());
        assert_eq!(state.words.language(), system);
        assert_eq!(state.session(|session| session.language.clone()), "");
        let chosen = State::new(Session { language: "en".to_owned(), ..Session::default() }, None, system);
        assert_eq!(chosen.words.language(), "en");
    }
}
