//! Pictures of the pages beside the plan, filled as the app fills them: steels, certificate,
//! fillers, safety, settings, about.

use crate::screen::compare::{DESKTOP, PHONE, check};
use crate::screen::{live_with, mock_elapsed_time};
use i_slint_backend_testing::ElementHandle;
use slint::ComponentHandle;
use slint::platform::{Key, PointerEventButton, WindowEvent};
use strawblue::app::{Page, State, open_page, refresh_all, ui};
use strawblue::job::{Field, OwnSteel, Session, Theme, demo_job};

/// A small phone, and the narrowest desktop window that is looked at.
const SMALL_PHONE: (u32, u32) = (360, 640);
const SMALL_DESKTOP: (u32, u32) = (1024, 768);

/// The demo job with two steels of one's own, one of them in use.
fn session(theme: Theme) -> Session {
    let own = |name: &str, composition: &str, grade: &str| OwnSteel {
        name: name.to_owned(),
        composition: composition.to_owned(),
        grade: grade.to_owned(),
    };
    let mut job = demo_job();
    job.set(Field::Steel, Some("Boss bar, Ø90".to_owned()));
    Session {
        theme,
        job,
        own_steels: vec![
            own(
                "Boss bar, Ø90",
                "C 0.34 Si 0.27 Mn 0.78 P 0.012 S 0.021 Cr 1.05 Mo 0.21 Ni 0.14 Cu 0.18",
                "34CrMo4",
            ),
            own("Arm plate, 30 mm", "C 0.18 Si 0.3 Mn 1.35 P 0.015 S 0.01", "S355J2"),
        ],
        ..Session::default()
    }
}

/// The app on a page, with what is open on it.
fn drawn(size: (u32, u32), theme: Theme, page: Page, set: impl Fn(&State)) -> ui::AppWindow {
    let (window, state) = live_with(size, session(theme), None);
    if page == Page::Safety {
        state.change(|session| session.place = page.id().to_owned());
    } else {
        open_page(&window, &state, page);
    }
    set(&state);
    refresh_all(&window, &state);
    mock_elapsed_time(50);
    window
}

/// A page on a phone in both looks, and on a desktop: its dark colours are the phone's.
fn check_all(name: &str, page: Page, set: impl Fn(&State)) {
    check(&drawn(PHONE, Theme::Dark, page, &set), &format!("{name}-phone-dark"));
    check(&drawn(PHONE, Theme::Light, page, &set), &format!("{name}-phone-light"));
    check(&drawn(DESKTOP, Theme::Light, page, &set), &format!("{name}-desktop-light"));
}

/// A page on the small sizes, in one look each.
fn check_small(name: &str, page: Page, set: impl Fn(&State)) {
    check(&drawn(SMALL_PHONE, Theme::Dark, page, &set), &format!("{name}-small-phone"));
    check(&drawn(SMALL_DESKTOP, Theme::Light, page, &set), &format!("{name}-small-desktop"));
}

fn look_at_4140(state: &State) {
    let mut open = state.open.borrow_mut();
    open.steel_query = "1.7225".to_owned();
    open.steel_detail = Some("4140".to_owned());
}

#[test]
fn steels() {
    check(&drawn((360, 1700), Theme::Dark, Page::Steels, look_at_4140), "steels-phone-long");
    check_all("steels", Page::Steels, look_at_4140);
    check_small("steels", Page::Steels, look_at_4140);
}

/// Nothing typed: own steels first, then the groups, one of them unfolded.
#[test]
fn steels_browse() {
    check_all("steels-browse", Page::Steels, |state| {
        let mut open = state.open.borrow_mut();
        open.steel_groups.insert("cr-mo".to_owned());
        open.steel_detail = Some("own:Boss bar, Ø90".to_owned());
    });
}

/// Nothing found says what to do next; a slip shows what is near.
#[test]
fn steels_not_found() {
    let asked =
        |query: &'static str| move |state: &State| state.open.borrow_mut().steel_query = query.to_owned();
    check(&drawn(PHONE, Theme::Dark, Page::Steels, asked("zebra")), "steels-empty-phone-dark");
    check(&drawn(DESKTOP, Theme::Light, Page::Steels, asked("zebra")), "steels-empty-desktop-light");
    check(&drawn(PHONE, Theme::Light, Page::Steels, asked("4144")), "steels-slip-phone-light");
    check(&drawn(PHONE, Theme::Dark, Page::Steels, asked("axle")), "steels-word-phone-dark");
}

/// A figure that can't be read, and a grade that stands in for it.
fn bad_figure(state: &State) {
    state.open.borrow_mut().certificate_of = Some("Boss bar, Ø90".to_owned());
    state.change(|session| {
        session.typed.insert("certificate.own.Boss bar, Ø90/Cr".to_owned(), "1.0.5".to_owned());
    });
}

#[test]
fn certificate() {
    check(&drawn((360, 1400), Theme::Dark, Page::Certificate, bad_figure), "certificate-phone-long");
    check_all("certificate", Page::Certificate, bad_figure);
    check_small("certificate", Page::Certificate, bad_figure);
}

/// A new one: nothing typed yet, and why it can't be saved.
#[test]
fn certificate_new() {
    check(&drawn(PHONE, Theme::Light, Page::Certificate, |_| {}), "certificate-new-phone-light");
    check(&drawn(DESKTOP, Theme::Dark, Page::Certificate, |_| {}), "certificate-new-desktop-dark");
}

#[test]
fn fillers() {
    let bad = |state: &State| state.change_job(|job| job.set(Field::WeldCet, Some("0.3l".to_owned())));
    check_all("fillers", Page::Fillers, bad);
}

fn torch(state: &State) {
    let mut open = state.open.borrow_mut();
    open.safety_places.insert("light-torch".to_owned());
    open.safety_cautions.insert("c012".to_owned());
}

#[test]
fn safety() {
    check(&drawn((360, 1800), Theme::Dark, Page::Safety, torch), "safety-phone-long");
    check_all("safety", Page::Safety, torch);
    check_small("safety", Page::Safety, |_| {});
}

/// First aid is one tap away, and everything else folded.
#[test]
fn safety_first_aid() {
    let aid = |state: &State| state.open.borrow_mut().first_aid = true;
    check(&drawn(PHONE, Theme::Dark, Page::Safety, aid), "safety-first-aid-phone-dark");
    check(&drawn(DESKTOP, Theme::Light, Page::Safety, aid), "safety-first-aid-desktop-light");
}

/// A word found across all headings, and one that isn't.
#[test]
fn safety_search() {
    let asked =
        |query: &'static str| move |state: &State| state.open.borrow_mut().safety_query = query.to_owned();
    check(&drawn(PHONE, Theme::Light, Page::Safety, asked("argon")), "safety-search-phone-light");
    check(&drawn(DESKTOP, Theme::Dark, Page::Safety, asked("argon")), "safety-search-desktop-dark");
    check(&drawn(PHONE, Theme::Dark, Page::Safety, asked("zebra")), "safety-search-none-phone-dark");
}

#[test]
fn settings() {
    let mixed = |state: &State| state.open.borrow_mut().units_mixed = true;
    check_all("settings", Page::Settings, mixed);
    check_small("settings", Page::Settings, |_| {});
}

/// Everything that unfolds in the settings, unfolded.
#[test]
fn settings_open() {
    let unfolded = |state: &State| {
        let mut open = state.open.borrow_mut();
        open.sources = true;
        open.licences = true;
        open.licence_texts.insert("own".to_owned());
    };
    check(&drawn((360, 1400), Theme::Dark, Page::Settings, unfolded), "settings-open-phone-dark");
    check(&drawn(DESKTOP, Theme::Light, Page::Settings, unfolded), "settings-open-desktop-light");
}

#[test]
fn about() {
    check(&drawn((360, 1300), Theme::Dark, Page::About, |_| {}), "about-phone-long");
    check_all("about", Page::About, |_| {});
    check_small("about", Page::About, |_| {});
}

fn press(window: &ui::AppWindow, key: impl Into<slint::SharedString>) {
    let text = key.into();
    window.window().dispatch_event(WindowEvent::KeyPressed { text: text.clone() });
    window.window().dispatch_event(WindowEvent::KeyReleased { text });
    mock_elapsed_time(50);
}

/// Enter goes from the search to the list; the ring says where the arrows are.
#[test]
fn steels_by_keyboard() {
    let window = drawn(PHONE, Theme::Dark, Page::Steels, look_at_4140);
    let search = ElementHandle::find_by_element_id(&window, "SteelsPage::search-edt").next();
    search.expect("there is a search field").mock_single_click(PointerEventButton::Left);
    press(&window, Key::Return);
    check(&window, "steels-keyboard-phone-dark");
}
