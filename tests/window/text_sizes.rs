//! Text of twice the usual size, and controls for a hand in a glove: on a phone nothing is cut, nothing lies
//! on anything else, nothing leaves the window, and everything that is pressed has grown.
//!
//! `STRAWBLUE_SIZES=FOLDER` writes each page there at twice the size, to be looked at.

use std::collections::BTreeMap;
use std::path::PathBuf;

use i_slint_backend_testing::{AccessibleRole, ElementQuery};
use slint::ComponentHandle;
use strawblue::app::ui;
use strawblue::job::{Controls, Session, TextSize, demo_job};

use crate::languages::{Desk, PAGES};
use crate::screen::compare::{drawn, write};
use crate::screen::hand::{found, tap};
use crate::screen::on_screen::{Fonts, shown, unread};
use crate::screen::{live, mock_elapsed_time};

/// The variable that names the folder.
const FOLDER: &str = "STRAWBLUE_SIZES";
/// So high that all choices of the settings are in view at every size.
const HIGH: (u32, u32) = (360, 1800);
/// So high that hardly a page scrolls.
const WHOLE: (u32, u32) = (360, 6000);

fn percent(percent: u16) -> TextSize {
    TextSize::try_from(percent).expect("a size that is offered")
}

/// Every page in a language at a size: what of it can't be read.
fn faults(language: &str, size: u16, fonts: &Fonts) -> Vec<String> {
    let folder = std::env::var_os(FOLDER).map(PathBuf::from);
    let kept = tempfile::tempdir().expect("a folder");
    let session = Session {
        language: language.to_owned(),
        text_size: percent(size),
        job: demo_job(),
        ..Session::default()
    };
    let desk = Desk::of(session, kept.path(), WHOLE);
    let mut faults = Vec::new();
    for (page, deed) in PAGES {
        desk.shows(deed);
        // The sheet of a figure lies over the page that it belongs to.
        let found = unread(&desk.window, fonts, page == "basis");
        faults.extend(found.into_iter().map(|fault| format!("{language} {size} {page}: {fault}")));
        // The longest list is drawn in any case: the renderer counts the pixels of an area in 16 bits.
        let picture = (folder.is_some() || page == "settings").then(|| drawn(&desk.window));
        if let (Some(folder), Some(picture)) = (&folder, &picture) {
            std::fs::create_dir_all(folder).expect("the folder can be made");
            write(picture, &folder.join(format!("{page}-{language}-{size}.png")));
        }
    }
    faults
}

#[test]
fn text_of_twice_the_size_is_read_whole_on_a_phone() {
    let fonts = Fonts::new();
    let mut all = Vec::new();
    for (language, size) in [("en", 200), ("de", 200)] {
        all.extend(faults(language, size, &fonts));
    }
    all.sort();
    all.dedup();
    assert!(all.is_empty(), "{} faults:\n{}", all.len(), all.join("\n"));
}

/// What is pressed on a page: the least side of each by its role and its name.
fn pressed(window: &ui::AppWindow) -> BTreeMap<String, f32> {
    let roles = [
        AccessibleRole::Button,
        AccessibleRole::Checkbox,
        AccessibleRole::RadioButton,
        AccessibleRole::Slider,
        AccessibleRole::Tab,
    ];
    let mut least = BTreeMap::new();
    for element in ElementQuery::from_root(window).match_predicate(|_| true).find_all() {
        let Some(role) = element.accessible_role().filter(|role| roles.contains(role)) else { continue };
        let (name, size) = (element.accessible_label().unwrap_or_default(), element.size());
        let side: &mut f32 = least.entry(format!("{role:?} “{name}”")).or_insert(f32::MAX);
        *side = side.min(size.width).min(size.height);
    }
    least
}

/// A gloved hand needs 60 px where a bare one has 48.
#[test]
fn every_control_is_larger_for_a_hand_in_a_glove() {
    let desks = [Controls::Normal, Controls::Gloves].map(|controls| {
        let kept = tempfile::tempdir().expect("a folder");
        let session = Session { controls, job: demo_job(), ..Session::default() };
        (Desk::of(session, kept.path(), WHOLE), kept)
    });
    let (mut small, mut checked) = (Vec::new(), 0);
    for (page, deed) in PAGES {
        let [bare, gloved] = [&desks[0], &desks[1]].map(|(desk, _)| {
            desk.shows(deed);
            pressed(&desk.window)
        });
        for (control, before) in bare.into_iter().filter(|(_, before)| *before >= 47.5) {
            // What a larger page has pushed out of the window is not there.
            let Some(now) = gloved.get(&control) else { continue };
            checked += 1;
            if *now < 59.5 {
                small.push(format!("{page}: {control} has {before:.0} px and {now:.0} with gloves"));
            }
        }
    }
    assert!(checked > 150, "{checked} controls");
    assert!(small.is_empty(), "{} are small:\n{}", small.len(), small.join("\n"));
}

/// Chosen in the settings it holds at once, everywhere; and back again nothing has moved.
#[test]
fn text_is_made_larger_and_small_again_in_the_settings() {
    let (window, state) = live(HIGH, Session { job: demo_job(), ..Session::default() });
    let plan = || {
        window.global::<ui::Shell>().invoke_place_chosen("plan".into());
        mock_elapsed_time(60);
    };
    let choose = |choice: &str| {
        window.global::<ui::Shell>().invoke_settings_asked();
        tap(&window, AccessibleRole::RadioButton, choice);
        plan();
    };
    let figure = window.global::<ui::PlanAdapter>().get_answer().minimum.figure.to_string();
    let size_of = || {
        let texts = shown(&window);
        texts.iter().find(|text| text.said == figure).map(|text| text.size_px).expect("the figure is in view")
    };
    plan();
    let (before, usual) = (drawn(&window), size_of());
    for size in TextSize::ALL {
        choose(&format!("{}\u{a0}%", size.percent()));
        assert_eq!(state.session(|session| session.text_size), size);
        let scale = window.global::<ui::Asked>().get_scale();
        assert!((scale * 100.0 - f32::from(size.percent())).abs() < 0.01, "{scale}");
        let now = size_of();
        assert!(now >= usual && (size == TextSize::default() || now > usual), "{now} px at {size:?}");
        assert_eq!(unread(&window, &Fonts::new(), false), Vec::<String>::new(), "{size:?}");
    }
    choose("100\u{a0}%");
    assert!(drawn(&window) == before, "the page is as it was");
    choose("For gloves");
    assert_eq!(state.session(|session| session.controls), Controls::Gloves);
    assert!(drawn(&window) != before);
    choose("Normal");
    assert!(drawn(&window) == before, "the page is as it was");
    assert!(found(&window, AccessibleRole::Tab, "Plan").size().height >= 60.0);
}
