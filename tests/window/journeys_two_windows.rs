//! Two windows on the same folder, as a second start of the program opens it: each sees what the
//! other changes, and nothing that was saved is lost.

use std::path::Path;
use std::rc::Rc;

use crate::screen::compare::{DESKTOP, PHONE};
use crate::screen::hand::tap;
use crate::screen::{live_in, mock_elapsed_time, soon, typed_at};
use i_slint_backend_testing::AccessibleRole;
use slint::ComponentHandle;
use strawblue::app::{State, ui};
use strawblue::job::{Field, JobText, OwnSteel, Session, Store, demo_job};

type Live = (ui::AppWindow, Rc<State>);

fn two(folder: &Path) -> (Live, Live) {
    (live_in(DESKTOP, folder), live_in(PHONE, folder))
}

fn typed(window: &ui::AppWindow, field: &str, text: &str) {
    window.global::<ui::FormEvents>().invoke_field_edited(field.into(), text.into());
    mock_elapsed_time(20);
}

fn own(name: &str, composition: &str) -> OwnSteel {
    OwnSteel { name: name.into(), composition: composition.into(), grade: String::new() }
}

fn names(state: &State) -> Vec<String> {
    state.session(|session| session.own_steels.iter().map(|own| own.name.clone()).collect())
}

fn on_disk(folder: &Path) -> Session {
    let store = Store::open(folder).expect("the folder can be used");
    Session::load(&store).expect("reads").session
}

#[test]
fn the_second_window_sees_what_the_first_changes() {
    let folder = tempfile::tempdir().expect("a folder");
    let ((first, at_first), (second, at_second)) = two(folder.path());
    typed(&first, "thickness", "38");
    soon("the thickness in the second window", || {
        typed_at(&at_second, Field::Thickness).as_deref() == Some("38")
    });
    // What is shown there is the same, and each stays at its own place.
    let fields = |window: &ui::AppWindow| {
        let rows = window.global::<ui::PlanAdapter>().get_rows();
        let row = slint::Model::row_data(&rows, 0).expect("the first part");
        slint::Model::iter(&row.parts)
            .flat_map(|part| slint::Model::iter(&part.fields).collect::<Vec<_>>())
            .find(|field| field.id == "thickness")
            .map(|field| field.text.to_string())
    };
    assert_eq!(fields(&second).as_deref(), Some("38"));
    second.global::<ui::Shell>().invoke_place_chosen("tint".into());
    typed(&second, "shop", "5");
    soon("the shop in the first window", || typed_at(&at_first, Field::Shop).as_deref() == Some("5"));
    assert_eq!(first.global::<ui::Shell>().get_page(), "plan");
    assert_eq!(second.global::<ui::Shell>().get_page(), "tint");
    // A change of units comes over with every bare number written out, so that none changes its size.
    first.global::<ui::Shell>().invoke_unit_picked(1);
    soon("the units", || {
        at_second.session(|session| session.units) == at_first.session(|session| session.units)
    });
    assert_eq!(typed_at(&at_second, Field::Thickness), typed_at(&at_first, Field::Thickness));
    assert_eq!(typed_at(&at_second, Field::Thickness).as_deref(), Some("38 mm"));
}

#[test]
fn both_type_at_once_and_neither_loses_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let ((first, at_first), (second, at_second)) = two(folder.path());
    // No moment for the one to see the other.
    first.global::<ui::FormEvents>().invoke_field_edited("thickness".into(), "38".into());
    second.global::<ui::FormEvents>().invoke_field_edited("shop".into(), "5".into());
    at_first.flush();
    at_second.flush();
    let both = |state: &State| {
        (typed_at(state, Field::Thickness), typed_at(state, Field::Shop))
            == (Some("38".into()), Some("5".into()))
    };
    soon("both in both", || both(&at_first) && both(&at_second));
    let kept = on_disk(folder.path());
    assert_eq!((kept.job.get(Field::Thickness), kept.job.get(Field::Shop)), (Some("38"), Some("5")));
}

#[test]
fn a_saved_steel_is_never_lost() {
    let folder = tempfile::tempdir().expect("a folder");
    let ((_first, at_first), (_second, at_second)) = two(folder.path());
    let (rack, other) = (own("Rack 7", "C 0.4 Mn 0.9"), own("Rack 7", "C 0.2 Mn 1.2"));
    at_first.change(|session| session.own_steels.push(rack.clone()));
    at_second.change(|session| session.own_steels.push(own("Axle", "C 0.45 Mn 0.7")));
    at_first.flush();
    at_second.flush();
    soon("both steels in both", || [&at_first, &at_second].iter().all(|state| names(state).len() == 2));
    // Both make a steel of one name: two steels, and each job keeps its own.
    at_first.change(|session| session.own_steels.retain(|own| own.name != "Rack 7"));
    soon("one steel in both", || [&at_first, &at_second].iter().all(|state| names(state).len() == 1));
    at_first.change(|session| session.own_steels.push(rack.clone()));
    at_second.change(|session| {
        session.own_steels.push(other.clone());
        session.job.set(Field::Steel, Some("Rack 7".into()));
    });
    at_first.flush();
    at_second.flush();
    soon("three steels in both", || [&at_first, &at_second].iter().all(|state| names(state).len() == 3));
    let job = typed_at(&at_second, Field::Steel).expect("a steel");
    let kept = on_disk(folder.path());
    let taken = kept.own_steels.iter().find(|own| own.name == job).expect("the job’s steel");
    assert_eq!(taken.composition, other.composition, "the job is not of the other window’s steel");
    assert!(kept.own_steels.iter().any(|own| own.name == "Rack 7" && own.composition == rack.composition));
}

/// Nothing is written while nobody changes anything: two windows don’t answer each other for ever.
#[test]
fn two_idle_windows_leave_the_disk_alone() {
    let folder = tempfile::tempdir().expect("a folder");
    let ((first, at_first), (_second, at_second)) = two(folder.path());
    typed(&first, "thickness", "38");
    soon("the thickness in the second window", || {
        typed_at(&at_second, Field::Thickness).as_deref() == Some("38")
    });
    let settle = || {
        for _ in 0..5 {
            mock_elapsed_time(1000);
            at_first.flush();
            at_second.flush();
        }
    };
    settle();
    let store = Store::open(folder.path()).expect("the folder can be used");
    let before = store.stamp("session.ron");
    assert!(before.is_some());
    settle();
    assert_eq!(store.stamp("session.ron"), before);
}

fn press(window: &ui::AppWindow, label: &str) {
    tap(window, AccessibleRole::Button, label);
    mock_elapsed_time(50);
}

/// One begins another job while the other one types into the old one: it comes over whole, and what was
/// typed stands in the job that was put away.
#[test]
fn another_job_comes_over_whole() {
    let folder = tempfile::tempdir().expect("a folder");
    let first = Session { job: demo_job(), ..Session::default() };
    first.save(&Store::open(folder.path()).expect("opens")).expect("saves");
    let ((first, at_first), (second, at_second)) = two(folder.path());
    at_second.open.borrow_mut().rows.insert("safety".to_owned());
    first.global::<ui::PlanAdapter>().invoke_new_job_asked();
    typed(&first, "leg", "6");
    typed(&second, "shop", "5");
    at_first.flush();
    at_second.flush();
    let job = |state: &State| state.session(|session| session.job.clone());
    let mut new = JobText::default();
    new.set(Field::Leg, Some("6".into()));
    soon("the new job in both", || job(&at_first) == new && job(&at_second) == new);
    assert!(at_second.planned().is_none(), "nothing of the old plan is left");
    assert!(at_second.open.borrow().rows.is_empty());
    let shop = |state: &State| {
        state.session(Session::put_away).first().and_then(|away| away.job.get(Field::Shop).map(str::to_owned))
    };
    soon("what was typed in the job put away", || {
        [&at_first, &at_second].iter().all(|state| shop(state).as_deref() == Some("5 °C"))
    });
}

fn on_certificate(window: &ui::AppWindow) {
    window.global::<ui::FormEvents>().invoke_pick_asked("steel".into());
    mock_elapsed_time(50);
    press(window, "Type in a certificate");
}

/// Both type a certificate at the same time: two steels, and no figure of the one in the other.
#[test]
fn two_certificates_at_once_stay_two() {
    let folder = tempfile::tempdir().expect("a folder");
    let ((first, at_first), (second, at_second)) = two(folder.path());
    for (window, name, figures) in [
        (&first, "Rack", [("C", "0.4"), ("Mn", "0.9"), ("Cr", "1.1")].as_slice()),
        (&second, "Axle", [("C", "0.2"), ("Mn", "1.2")].as_slice()),
    ] {
        on_certificate(window);
        for (field, text) in [("name", name)].iter().chain(figures) {
            window.global::<ui::CertificateAdapter>().invoke_field_edited((*field).into(), (*text).into());
            at_first.flush();
            at_second.flush();
            mock_elapsed_time(1000);
        }
    }
    let shown =
        |window: &ui::AppWindow| window.global::<ui::CertificateAdapter>().get_name().text.to_string();
    assert_eq!((shown(&first).as_str(), shown(&second).as_str()), ("Rack", "Axle"));
    for window in [&first, &second] {
        window.global::<ui::CertificateAdapter>().invoke_save_asked();
        mock_elapsed_time(1000);
    }
    soon("both steels in both", || [&at_first, &at_second].iter().all(|state| names(state).len() == 2));
    let composition = |name: &str| {
        let steels = on_disk(folder.path()).own_steels;
        steels.into_iter().find(|own| own.name == name).map(|own| own.composition)
    };
    assert_eq!(composition("Rack").as_deref(), Some("C 0.4 Mn 0.9 Cr 1.1"));
    assert_eq!(composition("Axle").as_deref(), Some("C 0.2 Mn 1.2"));
}

/// One renames a steel while the other one changes it: it is one steel still, with both changes.
#[test]
fn a_steel_renamed_in_the_one_is_followed_by_the_other() {
    let folder = tempfile::tempdir().expect("a folder");
    let kept = Session { own_steels: vec![own("Rack", "C 0.4 Mn 0.9")], ..Session::default() };
    kept.save(&Store::open(folder.path()).expect("opens")).expect("saves");
    let ((first, at_first), (second, at_second)) = two(folder.path());
    let edit = |window: &ui::AppWindow, field: &str, text: &str| {
        window.global::<ui::CertificateAdapter>().invoke_field_edited(field.into(), text.into());
        mock_elapsed_time(20);
    };
    for window in [&first, &second] {
        window.global::<ui::SteelsAdapter>().invoke_edit_asked("own:Rack".into());
        mock_elapsed_time(50);
    }
    edit(&second, "Cr", "1.1");
    at_second.flush();
    edit(&first, "name", "Rack 7");
    first.global::<ui::CertificateAdapter>().invoke_save_asked();
    soon("the name in the other window", || names(&at_second) == ["Rack 7"]);
    mock_elapsed_time(50);
    assert!(second.global::<ui::CertificateAdapter>().get_editing());
    assert_eq!(second.global::<ui::CertificateAdapter>().get_name().text, "Rack 7");
    second.global::<ui::CertificateAdapter>().invoke_save_asked();
    at_second.flush();
    at_first.flush();
    assert_eq!(on_disk(folder.path()).own_steels, [own("Rack 7", "C 0.4 Mn 0.9 Cr 1.1")]);
}
