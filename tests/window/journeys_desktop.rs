//! The program arrives on a desktop: the window stands where it stood, a file is brought to it, all that is kept goes
//! into one file and back.

use std::path::Path;
use std::rc::Rc;

use crate::screen::compare::{DESKTOP, PHONE};
use crate::screen::hand::{says, tap};
use crate::screen::{live_in, soon, typed_at};
use i_slint_backend_testing::AccessibleRole;
use proptest::prelude::*;
use slint::{ComponentHandle, Model, PhysicalSize};
use strawblue::app::window_place::{Area, WindowPlace, fit, note, put_back};
use strawblue::app::{LogKept, State, back_up_to, open_with, restore_from, ui};
use strawblue::job::{Field, OwnSteel, demo_job};

fn page(window: &ui::AppWindow) -> String {
    window.global::<ui::Shell>().get_page().to_string()
}

fn notice(window: &ui::AppWindow) -> String {
    window.global::<ui::Shell>().get_notice().to_string()
}

fn demo(name: &str) -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("data").join(name)
}

#[test]
fn the_window_is_as_large_as_it_was() {
    let folder = tempfile::tempdir().expect("a folder");
    {
        let (window, state) = live_in(DESKTOP, folder.path());
        put_back(&window, &state);
        assert_eq!(window.window().size(), PhysicalSize::new(1280, 800), "nothing is kept yet");
        window.window().set_size(PhysicalSize::new(1010, 707));
        note(&window, &state);
        // What did not change is not saved again.
        let saved = state.made().1;
        note(&window, &state);
        assert_eq!(state.made().1, saved);
        state.flush();
        // A second window keeps no place, and takes none.
        let (second, at_second) = live_in(PHONE, folder.path());
        put_back(&second, &at_second);
        assert_eq!(second.window().size(), PhysicalSize::new(360, 740));
        note(&second, &at_second);
        at_second.flush();
    }
    // Within one process the first window never goes, so the next start has a folder of its own.
    let next = tempfile::tempdir().expect("a folder");
    std::fs::copy(folder.path().join("session.ron"), next.path().join("session.ron")).expect("copies");
    let (window, state) = live_in(PHONE, next.path());
    put_back(&window, &state);
    let kept = state.session(|session| session.choices.clone());
    assert_eq!(window.window().size(), PhysicalSize::new(1010, 707), "{kept:?}");
    // A screen that became smaller shows all of it.
    fit(&window, &[Area { x: 0, y: 0, width: 800, height: 600 }]);
    assert_eq!(window.window().size(), PhysicalSize::new(800, 600));
    // What cannot be a place is none.
    for text in ["", "1010 707", "10 10 0 0", "99999 99999 0 0", "1010x707+0+0", "1010 707 0 a", "-5 700 0 0"]
    {
        assert_eq!(WindowPlace::read(text), None, "{text}");
    }
    let whole = WindowPlace { area: Area { x: -1200, y: 30, width: 900, height: 700 }, filled: true };
    assert_eq!(WindowPlace::read(&whole.to_string()), Some(whole));
}

fn area(at: i32, sides: std::ops::Range<u32>) -> impl Strategy<Value = Area> {
    (-at..at, -at..at, sides.clone(), sides).prop_map(|(x, y, width, height)| Area { x, y, width, height })
}

proptest! {
    /// Wherever it stood and whatever screens there are now: it can be taken hold of, it is no larger than before, and
    /// what could be taken hold of stays where it stood.
    #[test]
    fn a_window_is_never_out_of_reach(
        window in area(40_000, 200..9000),
        screens in prop::collection::vec(area(6000, 320..5000), 1..4),
    ) {
        let fitted = window.fitted(&screens);
        let held = |window: Area, screen: &Area| {
            let left = window.x.max(screen.x);
            let right = (window.x + window.width as i32).min(screen.x + screen.width as i32);
            right - left >= 120 && window.y >= screen.y && window.y + 24 <= screen.y + screen.height as i32
        };
        prop_assert!(screens.iter().any(|screen| held(fitted, screen)), "{fitted:?}");
        prop_assert!(fitted.width <= window.width && fitted.height <= window.height);
        prop_assert_eq!(fitted.fitted(&screens), fitted);
        // None is larger than all screens together.
        let wide = |low: fn(&Area) -> i32, long: fn(&Area) -> u32| {
            let ends = screens.iter().map(|screen| low(screen) + long(screen) as i32).max();
            (ends.expect("a screen") - screens.iter().map(low).min().expect("a screen")) as u32
        };
        let sized = Area {
            width: window.width.min(wide(|screen| screen.x, |screen| screen.width)),
            height: window.height.min(wide(|screen| screen.y, |screen| screen.height)),
            ..window
        };
        if screens.iter().any(|screen| held(sized, screen)) {
            prop_assert_eq!(fitted, sized);
        }
        prop_assert_eq!(window.fitted(&[]), window);
    }
}

#[test]
fn a_file_that_is_brought_opens_in_its_place() {
    let folder = tempfile::tempdir().expect("a folder");
    let (window, state) = live_in(DESKTOP, folder.path());
    tap(&window, AccessibleRole::Tab, "Safety");
    state.change_job(|job| job.set(Field::Steel, Some("4140".into())));

    // A job takes the place of the one in the form, which is put away.
    open_with(&window, &state, &demo("demo.ron"));
    assert_eq!(page(&window), "plan");
    assert_eq!(state.session(|session| session.job.clone()), demo_job());
    let away = state.session(|session| session.put_away());
    assert_eq!(away.len(), 1);
    assert_eq!(away[0].job.get(Field::Steel), Some("4140"));

    // A log is offered; taken in, its job is open.
    open_with(&window, &state, &demo("demo_log.ron"));
    assert_eq!(page(&window), "log-import");
    let named = state.session(|session| session.typed.get(&LogKept::File.to_string()).cloned());
    assert!(named.is_some_and(|file| file.ends_with("demo_log.ron")));
    window.global::<ui::HandAdapter>().invoke_import_asked();
    soon("the job", || page(&window) == "log-job");
    assert_eq!(window.global::<ui::LogAdapter>().get_pieces().row_count(), 8);

    // A photo is looked at in the Tint place.
    let photo = folder.path().join("part.jpg");
    image::RgbImage::from_pixel(60, 40, image::Rgb([150, 140, 120])).save(&photo).expect("saves");
    open_with(&window, &state, &photo);
    assert_eq!(page(&window), "tint");
    soon("the photo", || window.global::<ui::TintAdapter>().get_photo().picture.size().width == 60);

    // What is none of them changes nothing, and is said.
    let other = folder.path().join("letter.txt");
    std::fs::write(&other, "Dear welder,").expect("writes");
    for (file, why) in
        [(other.as_path(), "not a job, a log or a photo"), (Path::new("/no/such.ron"), "No such file")]
    {
        let before = state.session(Clone::clone);
        open_with(&window, &state, file);
        assert!(notice(&window).contains(why), "{}", notice(&window));
        assert_eq!((state.session(Clone::clone), page(&window).as_str()), (before, "tint"));
    }
}

fn kept(state: &Rc<State>) -> (Vec<OwnSteel>, Option<String>) {
    (state.session(|session| session.own_steels.clone()), typed_at(state, Field::Steel))
}

#[test]
fn all_that_is_kept_goes_into_one_file_and_back() {
    let (folder, other) = (tempfile::tempdir().expect("a folder"), tempfile::tempdir().expect("a folder"));
    let file = folder.path().join("all.tar");
    let (window, state) = live_in(DESKTOP, folder.path());
    open_with(&window, &state, &demo("demo_log.ron"));
    window.global::<ui::HandAdapter>().invoke_import_asked();
    soon("the job", || page(&window) == "log-job");
    state.change(|session| {
        session.job.set(Field::Steel, Some("Shop bar".into()));
        session.own_steels = vec![OwnSteel {
            name: "Shop bar".into(),
            composition: "C 0.41 Mn 0.8".into(),
            grade: String::new(),
        }];
    });
    window.global::<ui::Shell>().invoke_settings_asked();
    assert!(says(&window, "What is kept"));
    // What was typed a moment ago is in it.
    back_up_to(&window, &state, &file);
    assert!(says(&window, &format!("1 job, the steels, photos and settings are in {}.", file.display())));
    back_up_to(&window, &state, &file);
    assert!(says(&window, "There is a file of this name. Give another name."));

    let (second, at_second) = live_in(DESKTOP, other.path());
    second.global::<ui::Shell>().invoke_settings_asked();
    restore_from(&second, &at_second, &demo("demo.ron"));
    assert!(says(&second, "This is no backup of Strawblue."));
    restore_from(&second, &at_second, &file);
    assert_eq!(kept(&at_second), kept(&state));
    let rows = |window: &ui::AppWindow| {
        tap(window, AccessibleRole::Tab, "Log");
        window.global::<ui::LogAdapter>().get_jobs().row_count()
    };
    assert_eq!(rows(&second), 1);
    // It is on the disk, too.
    at_second.flush();
    drop((second, at_second));
    let (third, at_third) = live_in(DESKTOP, other.path());
    assert_eq!(kept(&at_third), kept(&state));
    assert_eq!(rows(&third), 1);
}
