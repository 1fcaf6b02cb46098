//! A hand on the window: taps, keys, and what a screen reader would say.

use i_slint_backend_testing::testing_backend::mock_elapsed_time;
use i_slint_backend_testing::{AccessibleRole, ElementHandle, ElementQuery};
use i_slint_core::item_tree::ItemRc;
use i_slint_core::items::{Clip, ComplexText, SimpleText};
use i_slint_core::window::WindowInner;
use slint::platform::{Key, PointerEventButton, WindowEvent};
use slint::{ComponentHandle, LogicalPosition, LogicalSize, SharedString};
use strawblue::app::ui;

/// Presses and lets go of a key.
pub(crate) fn press(window: &ui::AppWindow, key: impl Into<SharedString>) {
    let text = key.into();
    window.window().dispatch_event(WindowEvent::KeyPressed { text: text.clone() });
    window.window().dispatch_event(WindowEvent::KeyReleased { text });
    mock_elapsed_time(20);
}

/// The first element that is wanted.
pub(crate) fn with(
    window: &ui::AppWindow,
    wanted: impl Fn(&ElementHandle) -> bool + 'static,
) -> Option<ElementHandle> {
    mock_elapsed_time(20);
    ElementQuery::from_root(window).match_predicate(wanted).find_first()
}

/// The element of a role and a label.
pub(crate) fn labelled(window: &ui::AppWindow, role: AccessibleRole, label: &str) -> Option<ElementHandle> {
    let label = label.to_owned();
    with(window, move |element| {
        element.accessible_role() == Some(role)
            && element.accessible_label().is_some_and(|found| found == label)
    })
}

/// The same, which must be there.
pub(crate) fn found(window: &ui::AppWindow, role: AccessibleRole, label: &str) -> ElementHandle {
    labelled(window, role, label).unwrap_or_else(|| panic!("there is no {role:?} “{label}”"))
}

/// Taps an element.
pub(crate) fn tap(window: &ui::AppWindow, role: AccessibleRole, label: &str) {
    found(window, role, label).mock_single_click(PointerEventButton::Left);
    mock_elapsed_time(20);
}

/// Taps into a field and types over what is there.
pub(crate) fn fill(window: &ui::AppWindow, label: &str, text: &str) {
    tap(window, AccessibleRole::TextInput, label);
    press(window, Key::End);
    let there = found(window, AccessibleRole::TextInput, label).accessible_value().unwrap_or_default();
    (0..there.chars().count()).for_each(|_| press(window, Key::Backspace));
    text.chars().for_each(|letter| press(window, SharedString::from(letter)));
}

/// Does anything on the window say exactly this, to the eye or to a screen reader?
pub(crate) fn says(window: &ui::AppWindow, words: &str) -> bool {
    let heard = words.to_owned();
    with(window, move |element| element.accessible_label().is_some_and(|label| label == heard)).is_some()
        || texts(window).iter().any(|(said, ..)| said == words)
}

/// Every text that is drawn, also where a control speaks for it: what it says, where, and how large its
/// place is.
pub(crate) fn texts(window: &ui::AppWindow) -> Vec<(String, LogicalPosition, LogicalSize)> {
    let mut found = Vec::new();
    let root = ItemRc::new_root(WindowInner::from_pub(window.window()).component());
    gather(&root, &mut found);
    found
}

fn gather(item: &ItemRc, into: &mut Vec<(String, LogicalPosition, LogicalSize)>) {
    // What is not visible takes measure, and is not drawn.
    if item.downcast::<Clip>().is_some_and(|clip| {
        let clip = clip.as_pin_ref();
        clip.is_visibility_clip() && clip.clip()
    }) {
        return;
    }
    let drawn = item
        .downcast::<ComplexText>()
        .map(|text| text.as_pin_ref().text())
        .or_else(|| item.downcast::<SimpleText>().map(|text| text.as_pin_ref().text()));
    if let Some(drawn) = drawn {
        let geometry = item.geometry();
        let at = item.map_to_window(geometry.origin);
        // As it was said, before figures and units were held together.
        let said = drawn.replace("\u{202f}\u{202f}", "\u{a0}").replace('\u{feff}', "");
        into.push((
            said,
            LogicalPosition::new(at.x, at.y),
            LogicalSize::new(geometry.width(), geometry.height()),
        ));
    }
    let mut child = item.first_child();
    while let Some(here) = child {
        gather(&here, into);
        child = here.next_sibling();
    }
}
