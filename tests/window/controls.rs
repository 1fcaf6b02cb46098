//! The controls of the window, worked by finger, keyboard and screen reader.

use std::cell::RefCell;
use std::path::Path;
use std::rc::Rc;

use crate::screen::{mock_elapsed_time, window};
use i_slint_backend_testing::{AccessibleRole, ElementHandle, ElementQuery};
use slint::platform::{Key, PointerEventButton, WindowEvent};
use slint::{ComponentHandle, SharedString};
use strawblue::app::ui;
use strawblue::words::Words;

const DESKTOP: (u32, u32) = (1280, 4000);
const PHONE: (u32, u32) = (360, 6000);

/// What the form told, in order.
type Told = Rc<RefCell<Vec<String>>>;

fn listen(window: &ui::AppWindow) -> Told {
    let told = Told::default();
    let form = window.global::<ui::FormEvents>();
    let note = |what: &'static str| {
        let told = told.clone();
        move |id: SharedString, more: SharedString| told.borrow_mut().push(format!("{what} {id} {more}"))
    };
    form.on_field_edited(note("edited"));
    form.on_field_committed(note("committed"));
    let choice = note("choice");
    form.on_choice_made(move |id, index| choice(id, index.to_string().into()));
    let pick = note("pick");
    form.on_pick_asked(move |id| pick(id, SharedString::new()));
    let row = note("row");
    form.on_row_toggled(move |id| row(id, SharedString::new()));
    told
}

fn by_id(window: &ui::AppWindow, id: &str) -> ElementHandle {
    let id = id.to_owned();
    ElementQuery::from_root(window)
        .match_predicate(move |element| element.accessible_id().is_some_and(|found| found == id))
        .find_first()
        .expect("the window has this control")
}

fn press(window: &ui::AppWindow, key: impl Into<SharedString>) {
    let text = key.into();
    window.window().dispatch_event(WindowEvent::KeyPressed { text: text.clone() });
    window.window().dispatch_event(WindowEvent::KeyReleased { text });
    mock_elapsed_time(20);
}

/// What is drawn is 48 px or more each way wherever a gloved thumb has to hit it.
#[test]
fn every_target_is_large_enough() {
    for size in [PHONE, DESKTOP] {
        let shown = window(size, ui::Look::Dark, |_| {});
        let mut seen = 0;
        for role in [
            AccessibleRole::Button,
            AccessibleRole::RadioButton,
            AccessibleRole::Tab,
            AccessibleRole::TextInput,
        ] {
            for element in ElementQuery::from_root(&shown).match_accessible_role(role).find_all() {
                let size = element.size();
                // A text input lies in a box of 48 px that takes the touch for it.
                let least = if role == AccessibleRole::TextInput { 40.0 } else { 48.0 };
                let name = element.accessible_label().unwrap_or_default();
                assert!(size.width >= least && size.height >= least, "{name}: {size:?}");
                assert!(!name.is_empty() || role == AccessibleRole::TextInput, "a control without a name");
                seen += 1;
            }
        }
        assert!(seen > 20, "only {seen} controls were found");
    }
}

#[test]
fn a_field_tells_each_letter_and_keeps_what_cannot_be_read() {
    let shown = window(DESKTOP, ui::Look::Dark, |_| {});
    let told = listen(&shown);
    let field = by_id(&shown, "thickness-b-edt");
    field.mock_single_click(PointerEventButton::Left);
    for letter in ["1", "-", "1", "/"] {
        press(&shown, letter);
    }
    press(&shown, Key::Tab);
    let told = told.borrow();
    assert_eq!(told.iter().filter(|line| line.starts_with("edited thickness-b")).count(), 4, "{told:?}");
    assert!(
        told.iter().any(|line| line.starts_with("committed thickness-b") && line.contains("1-1/")),
        "{told:?}"
    );
}

#[test]
fn enter_in_a_field_lets_rust_write_it_anew() {
    let shown = window(DESKTOP, ui::Look::Dark, |_| {});
    let weak = shown.as_weak();
    shown.global::<ui::FormEvents>().on_field_committed(move |id, text| {
        assert_eq!(text.as_str(), "1 1/2 in", "what was typed comes whole");
        let rows = weak.upgrade().expect("the window lives").global::<ui::PlanAdapter>().get_rows();
        set_field(&rows, &id, "38.1");
    });
    let field = by_id(&shown, "thickness-b-edt");
    field.set_accessible_value("1 1/2 in");
    field.mock_single_click(PointerEventButton::Left);
    press(&shown, Key::Return);
    assert_eq!(by_id(&shown, "thickness-b-edt").accessible_value().unwrap_or_default(), "38.1");
}

fn set_field(rows: &slint::ModelRc<ui::FormRow>, id: &str, text: &str) {
    use slint::Model;
    for part in rows.iter().flat_map(|row| row.parts.iter().collect::<Vec<_>>()) {
        for (index, mut field) in part.fields.iter().enumerate() {
            if field.id == id {
                field.text = text.into();
                part.fields.set_row_data(index, field);
            }
        }
    }
}

#[test]
fn choices_are_made_by_tap_and_by_keyboard() {
    let shown = window(DESKTOP, ui::Look::Dark, |_| {});
    let told = listen(&shown);
    let tile = ElementHandle::find_by_accessible_label(&shown, "Corner").next().expect("a joint tile");
    tile.mock_single_click(PointerEventButton::Left);
    press(&shown, Key::RightArrow);
    press(&shown, Key::DownArrow);
    press(&shown, " ");
    assert_eq!(*told.borrow(), ["choice joint 4", "choice joint 8"]);
}

#[test]
fn buttons_act_on_enter_and_on_a_screen_reader() {
    let shown = window(DESKTOP, ui::Look::Dark, |_| {});
    let told = listen(&shown);
    by_id(&shown, "steel-btn").invoke_accessible_default_action();
    by_id(&shown, "steel-btn").mock_single_click(PointerEventButton::Left);
    press(&shown, Key::Return);
    assert_eq!(*told.borrow(), ["pick steel ", "pick steel ", "pick steel "]);
}

#[test]
fn rows_unfold_on_request() {
    let shown = window(PHONE, ui::Look::Dark, |_| {});
    let told = listen(&shown);
    let row = by_id(&shown, "heat-btn");
    assert_eq!(row.accessible_expanded(), Some(false));
    row.mock_single_click(PointerEventButton::Left);
    assert_eq!(*told.borrow(), ["row heat "]);
}

#[test]
fn the_way_back_closes_the_basis_first_and_leaves_last() {
    let shown = window(PHONE, ui::Look::Dark, |window| window.global::<ui::BasisAdapter>().set_open(true));
    let told = Rc::new(RefCell::new(Vec::new()));
    let weak = shown.as_weak();
    let log = told.clone();
    shown.global::<ui::BasisAdapter>().on_close_asked(move || {
        log.borrow_mut().push("close");
        weak.upgrade().expect("the window lives").global::<ui::BasisAdapter>().set_open(false);
    });
    let log = told.clone();
    shown.global::<ui::Shell>().on_leave(move || log.borrow_mut().push("leave"));
    press(&shown, Key::Escape);
    press(&shown, Key::Back);
    assert_eq!(*told.borrow(), ["close", "leave"]);
}

/// No page holds a literal text, and every key that it asks for is in the English file.
#[test]
fn every_key_of_the_window_has_words() {
    let words = Words::english();
    let mut keys = 0;
    let mut folders = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join("ui")];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).expect("the folder of the window") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|end| end == "slint") {
                let text = std::fs::read_to_string(&path).expect("a text file");
                for after in text.split("I18n.t(\"").skip(1) {
                    let key = after.split('"').next().unwrap_or_default();
                    assert!(words.has(key), "{} asks for {key}", path.display());
                    keys += 1;
                }
            }
        }
    }
    assert!(keys > 20, "only {keys} keys were found");
}
