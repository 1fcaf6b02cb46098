//! Pictures of the pages beside the plan: steels, certificate, fillers, care, settings, about.
#![cfg(feature = "gui")]

#[path = "screen/compare.rs"]
mod compare;
mod screen;

use std::cell::RefCell;
use std::rc::Rc;

use compare::{DESKTOP, PHONE, check, check_all};
use i_slint_backend_testing::{AccessibleRole, ElementHandle};
use screen::{mock_elapsed_time, rows as list, window};
use slint::ComponentHandle;
use slint::platform::{Key, PointerEventButton, WindowEvent};
use strawblue::app::ui;
use strawblue::words::Words;

/// A small phone, and the narrowest desktop window that is looked at.
const SMALL_PHONE: (u32, u32) = (360, 640);
const SMALL_DESKTOP: (u32, u32) = (1024, 768);

/// Opens a page as something reached from the plan, or as a place of its own.
fn open(window: &ui::AppWindow, page: &str, title: &str) {
    let shell = window.global::<ui::Shell>();
    let place = matches!(page, "care" | "settings");
    shell.set_page(page.into());
    shell.set_place(if place { page.into() } else { "plan".into() });
    shell.set_title(title.into());
    shell.set_job_line("".into());
    shell.set_can_go_back(page != "care");
}

/// A page on the small sizes, in one look each.
fn check_small(name: &str, fill: impl Fn(&ui::AppWindow)) {
    check(&window(SMALL_PHONE, ui::Look::Dark, &fill), &format!("{name}-small-phone"));
    check(&window(SMALL_DESKTOP, ui::Look::Light, &fill), &format!("{name}-small-desktop"));
}

#[test]
fn steels() {
    check(
        &window((360, 1600), ui::Look::Dark, |window| open(window, "steels", "Boss steel")),
        "steels-phone-long",
    );
    check_all("steels", |window| open(window, "steels", "Boss steel"));
    check_small("steels", |window| open(window, "steels", "Boss steel"));
}

/// Nothing typed: own steels first, then the groups, one of them unfolded.
#[test]
fn steels_browse() {
    let fill = |window: &ui::AppWindow| {
        open(window, "steels", "Boss steel");
        let head = |title: &str, also: &str| ui::SteelEntry {
            kind: ui::SteelEntryKind::Head,
            title: title.into(),
            also: also.into(),
            ..Default::default()
        };
        let group = |title: &str, count: &str, open: bool| ui::SteelEntry {
            kind: ui::SteelEntryKind::Group,
            title: title.into(),
            count: count.into(),
            open,
            ..Default::default()
        };
        let steel = |title: &str, also: &str, group: &str| ui::SteelEntry {
            kind: ui::SteelEntryKind::Steel,
            id: title.into(),
            title: title.into(),
            also: also.into(),
            group: group.into(),
            ..Default::default()
        };
        let adapter = window.global::<ui::SteelsAdapter>();
        adapter.set_query("".into());
        adapter.set_detail(ui::SteelDetail::default());
        adapter.set_entries(list(vec![
            ui::SteelEntry {
                kind: ui::SteelEntryKind::Certificate,
                title: "Type a certificate".into(),
                also: "Real figures beat a grade’s limits".into(),
                ..Default::default()
            },
            head("Your own steels", ""),
            ui::SteelEntry {
                own: true,
                chosen: true,
                ..steel("Boss bar, Ø90", "CE (IIW) 0.74 · CET 0.51 · names 34CrMo4", "")
            },
            steel("Arm plate, 30 mm", "CE (IIW) 0.41 · CET 0.29 · names S355J2", ""),
            head("By group", ""),
            group("Plain carbon", "24", false),
            group("Cr-Mo", "11", true),
            steel("25CrMo4", "1.7218 · EN 10083-3 · SAE 4130", ""),
            steel("34CrMo4", "1.7220 · EN 10083-3 · SAE 4135", ""),
            steel("42CrMo4", "1.7225 · EN 10083-3 · SAE 4140", ""),
            group("Ni-Cr-Mo", "9", false),
            group("Spring steel", "8", false),
            group("C-Mn structural", "31", false),
            group("Quenched and tempered plate", "14", false),
            group("Tool steel", "12", false),
            group("Cast iron", "6", false),
        ]));
    };
    check_all("steels-browse", fill);
}

/// Nothing found says what to do next.
#[test]
fn steels_empty() {
    let fill = |window: &ui::AppWindow| {
        open(window, "steels", "Boss steel");
        let adapter = window.global::<ui::SteelsAdapter>();
        adapter.set_query("zebra".into());
        adapter.set_detail(ui::SteelDetail::default());
        adapter.set_entries(list(vec![ui::SteelEntry {
            kind: ui::SteelEntryKind::Empty,
            title: "Nothing like “zebra”".into(),
            also: "Try a number such as 4140 or 1.7225, a word such as axle or spring, or type the mill certificate. With neither, \
                   “Know the steel” on the bench helps."
                .into(),
            ..Default::default()
        }]));
    };
    check(&window(PHONE, ui::Look::Dark, fill), "steels-empty-phone-dark");
    check(&window(DESKTOP, ui::Look::Light, fill), "steels-empty-desktop-light");
}

#[test]
fn certificate() {
    check(
        &window((360, 1200), ui::Look::Dark, |window| open(window, "certificate", "Own steel")),
        "certificate-phone-long",
    );
    check_all("certificate", |window| open(window, "certificate", "Own steel"));
    check_small("certificate", |window| open(window, "certificate", "Own steel"));
}

/// A new one: nothing typed yet, and why it can't be saved.
#[test]
fn certificate_new() {
    let fill = |window: &ui::AppWindow| {
        open(window, "certificate", "New steel");
        let adapter = window.global::<ui::CertificateAdapter>();
        adapter.set_editing(false);
        adapter.set_can_save(false);
        adapter.set_save_note("Give it a name and at least its carbon.".into());
        adapter.set_grade("".into());
        adapter.set_line_note("".into());
        adapter.set_readout_note("".into());
        adapter.set_name(ui::FieldRow {
            id: "name".into(),
            label: "Name".into(),
            hint: "Boss bar, heat 4711".into(),
            ..Default::default()
        });
        let symbols = ["C", "Si", "Mn", "P", "S", "Cr", "Mo", "Ni", "V", "Cu", "Nb", "Ti", "B", "Al", "N"];
        adapter.set_elements(list(
            symbols
                .iter()
                .map(|symbol| ui::FieldRow {
                    id: (*symbol).into(),
                    label: (*symbol).into(),
                    hint: "–".into(),
                    ..Default::default()
                })
                .collect::<Vec<_>>(),
        ));
        adapter.set_readout(list(
            ["CE (IIW)", "CET", "Pcm"]
                .iter()
                .map(|label| ui::FigureView {
                    label: (*label).into(),
                    figure: "–".into(),
                    ..Default::default()
                })
                .collect::<Vec<_>>(),
        ));
    };
    check(&window(PHONE, ui::Look::Light, fill), "certificate-new-phone-light");
    check(&window(DESKTOP, ui::Look::Dark, fill), "certificate-new-desktop-dark");
}

#[test]
fn fillers() {
    check_all("fillers", |window| open(window, "fillers", "Filler"));
    check_small("fillers", |window| open(window, "fillers", "Filler"));
}

#[test]
fn care() {
    check_all("care", |window| open(window, "care", "Care"));
    check_small("care", |window| open(window, "care", "Care"));
}

/// First aid is one tap away, and everything else folded.
#[test]
fn care_first_aid() {
    let fill = |window: &ui::AppWindow| {
        open(window, "care", "Care");
        let adapter = window.global::<ui::CareAdapter>();
        let mut aid = adapter.get_first_aid();
        aid.open = true;
        adapter.set_first_aid(aid);
    };
    check(&window(PHONE, ui::Look::Dark, fill), "care-first-aid-phone-dark");
    check(&window(DESKTOP, ui::Look::Light, fill), "care-first-aid-desktop-light");
}

/// A word found across all headings, and one that isn't.
#[test]
fn care_search() {
    let found = |window: &ui::AppWindow| {
        open(window, "care", "Care");
        let adapter = window.global::<ui::CareAdapter>();
        let words = Words::english();
        assert!(words.has("care-nothing-found"));
        adapter.set_query("argon".into());
        adapter.set_found_note("2 cautions with “argon”".into());
        adapter.set_found(list(vec![
            ui::CautionRow {
                id: "C079".into(),
                severity: ui::Severity::Critical,
                word: "Critical".into(),
                title: "Argon and carbon dioxide build-up".into(),
                text: "When you weld or purge in a tank, bucket, box section or pit.".into(),
                ..Default::default()
            },
            ui::CautionRow {
                id: "C025".into(),
                severity: ui::Severity::High,
                word: "High".into(),
                title: "Purge gas in a small room".into(),
                text: "When a back purge runs for long.".into(),
                ..Default::default()
            },
        ]));
    };
    let none = |window: &ui::AppWindow| {
        open(window, "care", "Care");
        let adapter = window.global::<ui::CareAdapter>();
        adapter.set_query("zebra".into());
        adapter.set_found_note("No caution with “zebra”".into());
    };
    check(&window(PHONE, ui::Look::Light, found), "care-search-phone-light");
    check(&window(DESKTOP, ui::Look::Dark, found), "care-search-desktop-dark");
    check(&window(PHONE, ui::Look::Dark, none), "care-search-none-phone-dark");
}

#[test]
fn settings() {
    check_all("settings", |window| open(window, "settings", "Settings"));
    check_small("settings", |window| open(window, "settings", "Settings"));
}

/// Everything that unfolds in the settings, unfolded.
#[test]
fn settings_open() {
    let fill = |window: &ui::AppWindow| {
        open(window, "settings", "Settings");
        let adapter = window.global::<ui::SettingsAdapter>();
        adapter.set_mixed(false);
        adapter.set_unit_chosen(0);
        adapter.set_sources_open(true);
        adapter.set_licences_open(true);
    };
    check(&window((360, 1400), ui::Look::Dark, fill), "settings-open-phone-dark");
    check(&window(DESKTOP, ui::Look::Light, fill), "settings-open-desktop-light");
}

#[test]
fn about() {
    check(
        &window((360, 1200), ui::Look::Dark, |window| open(window, "about", "About Strawblue")),
        "about-phone-long",
    );
    check_all("about", |window| open(window, "about", "About Strawblue"));
    check_small("about", |window| open(window, "about", "About Strawblue"));
}

fn press(window: &ui::AppWindow, key: impl Into<slint::SharedString>) {
    let text = key.into();
    window.window().dispatch_event(WindowEvent::KeyPressed { text: text.clone() });
    window.window().dispatch_event(WindowEvent::KeyReleased { text });
    mock_elapsed_time(50);
}

/// Search, Enter, arrows, Enter: the list works without a pointer, and takes nothing by itself.
#[test]
fn steels_by_keyboard() {
    let window = window(PHONE, ui::Look::Dark, |window| open(window, "steels", "Boss steel"));
    let told = Rc::new(RefCell::new(Vec::new()));
    let adapter = window.global::<ui::SteelsAdapter>();
    for (what, slot) in [("chosen", 0), ("toggled", 1)] {
        let told = Rc::clone(&told);
        let tell = move |id: slint::SharedString| told.borrow_mut().push(format!("{what} {id}"));
        if slot == 0 { adapter.on_steel_chosen(tell) } else { adapter.on_detail_toggled(tell) }
    }
    let search = ElementHandle::find_by_element_id(&window, "SteelsPage::search-edt")
        .next()
        .expect("there is a search field");
    search.mock_single_click(PointerEventButton::Left);
    press(&window, Key::Return);
    assert!(told.borrow().is_empty(), "Enter in the search takes no steel: {:?}", told.borrow());
    check(&window, "steels-keyboard-phone-dark");
    press(&window, Key::Return);
    press(&window, Key::DownArrow);
    press(&window, Key::LeftArrow);
    press(&window, Key::Return);
    assert_eq!(*told.borrow(), ["chosen 42CrMo4", "toggled 4140", "chosen 4140"]);
    let row = ElementHandle::find_by_accessible_label(&window, "42CrMo4")
        .find(|element| element.accessible_role() == Some(AccessibleRole::ListItem))
        .expect("the row is there");
    assert!(row.size().height >= 48.0, "a row is high enough for a thumb");
    row.mock_single_click(PointerEventButton::Left);
    assert_eq!(told.borrow().last().map(String::as_str), Some("chosen 42CrMo4"));
}
