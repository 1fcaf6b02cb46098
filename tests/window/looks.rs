//! What is drawn, and how: nothing torn, nothing cut off, nothing said more loudly than it is known.

use std::rc::Rc;

use crate::screen::compare::{DESKTOP, PHONE, drawn};
use crate::screen::hand::{fill, press, tap, with};
use crate::screen::{live, mock_elapsed_time};
use i_slint_backend_testing::{AccessibleRole, ElementQuery};
use slint::platform::Key;
use slint::{ComponentHandle, Model};
use strawblue::app::glue::glued;
use strawblue::app::{RowId, State, ui};
use strawblue::job::{Session, Theme, demo_job};

fn demo(size: (u32, u32)) -> (ui::AppWindow, Rc<State>) {
    live(size, Session { job: demo_job(), theme: Theme::Dark, ..Session::default() })
}

/// A line breaks neither between a figure and its unit nor in a range (Unicode Standard Annex #14: the
/// narrow no-break space is of class GL, the zero width no-break space of class WJ).
#[test]
fn a_figure_is_drawn_in_one_line() {
    let (space, joiner) = ("\u{202f}\u{202f}", '\u{feff}');
    let drawn = |said: &str| glued(said).unwrap_or_else(|| said.to_owned());
    assert_eq!(drawn("at most 350\u{a0}°C."), format!("at most 350{space}°C."));
    assert_eq!(drawn("730–775\u{a0}°C"), format!("730–{joiner}775{space}°C"));
    assert_eq!(drawn("Ø90"), format!("Ø{joiner}90"));
    assert_eq!(drawn("Fe–C, 5– or –5"), "Fe–C, 5– or –5", "only figures make a range");
    assert_eq!(glued("Nothing to hold together"), None);
}

/// A screen reader hears what is said, and none of what holds it together.
#[test]
fn what_is_spoken_is_as_it_is_written() {
    let (window, _state) = demo((360, 9000));
    let spoken = ElementQuery::from_root(&window).match_predicate(|_| true).find_all();
    let labels: Vec<String> = spoken
        .iter()
        .flat_map(|element| {
            [element.accessible_label(), element.accessible_value(), element.accessible_description()]
        })
        .flatten()
        .map(|label| label.to_string())
        .collect();
    assert!(labels.iter().any(|label| label.contains("\u{a0}°C")), "figures are spoken");
    for label in &labels {
        assert!(!label.contains(['\u{202f}', '\u{feff}', '\u{2060}']), "{label:?}");
    }
}

/// The ring about a field is whole wherever the keyboard leads the view.
#[test]
fn what_has_the_keyboard_is_never_cut_off() {
    let (window, _state) = demo(PHONE);
    let accent = window.global::<ui::Theme>().get_accent().to_argb_u8();
    let accent = [accent.red, accent.green, accent.blue];
    let mut rings = 0;
    for key in [Key::Tab; 60].into_iter().chain([Key::Backtab; 50]) {
        press(&window, key);
        let picture = drawn(&window);
        let lit = |x: u32, y: u32| picture.get_pixel(x, y).0[..3] == accent;
        // The left side of the ring about what stands at the margin.
        let rows: Vec<u32> = (53..picture.height() - 65).filter(|y| lit(12, *y)).collect();
        let (Some(top), Some(bottom)) = (rows.first(), rows.last()) else { continue };
        if bottom - top < 30 {
            continue;
        }
        rings += 1;
        let across = |y: u32| (20..60).all(|x| lit(x, y));
        // Round the corners they lie a little further out.
        assert!((top - 6..top + 3).any(across), "no upper side at {top}");
        assert!((bottom - 3..bottom + 6).any(across), "no lower side at {bottom}");
    }
    assert!(rings > 20, "{rings} rings");
}

/// An input that was put at the limit of its method has a sign of its own.
#[test]
fn an_input_at_its_limit_is_no_input_outside() {
    let (window, _state) = demo(DESKTOP);
    window.global::<ui::PlanAdapter>().invoke_basis_asked("minimum".into());
    let sheet = window.global::<ui::BasisAdapter>().get_view();
    assert_eq!(sheet.standing, ui::Standing::AtLimit, "as in the answer");
    assert_eq!(window.global::<ui::PlanAdapter>().get_answer().standing, ui::Standing::AtLimit);
    let ranges = sheet.ranges;
    let at_limit: Vec<_> = ranges.iter().filter(|range| range.verdict == ui::RangeVerdict::AtLimit).collect();
    assert!(!at_limit.is_empty());
    assert!(ranges.iter().any(|range| range.verdict == ui::RangeVerdict::Inside));
    let words: Vec<_> = ranges.iter().map(|range| (range.verdict, range.word)).collect();
    for (verdict, word) in &words {
        let same = words.iter().filter(|(other, _)| other == verdict);
        assert!(same.clone().all(|(_, other)| other == word), "one word for one sign: {words:?}");
    }
}

/// Where the first colour that shows a temperature may show more than the plan allows, it is not
/// written as a word to go by.
#[test]
fn a_colour_past_the_plan_is_no_heading() {
    let (window, _state) = demo((360, 4200));
    tap(&window, AccessibleRole::Tab, "Tint");
    tap(&window, AccessibleRole::RadioButton, "5\u{a0}min");
    let (mut muted, mut plain) = (0, 0);
    for celsius in (200..=340).step_by(10) {
        fill(&window, "Awaited temperature", &celsius.to_string());
        let answer = window.global::<ui::TintAdapter>().get_answer();
        let named = answer.figure.figure != "Colour cannot show it";
        let past = matches!(answer.sign, ui::TintSign::Over | ui::TintSign::Unsure);
        assert_eq!(answer.muted, named && past, "{celsius}: {}", answer.sentence);
        *(if answer.muted { &mut muted } else { &mut plain }) += 1;
    }
    assert!(muted > 0 && plain > 0, "{muted} and {plain}");
}

/// A steel whose colours say nothing offers no photo of them.
#[test]
fn no_photo_of_a_steel_that_colour_says_nothing_of() {
    let (window, state) = demo((360, 5200));
    tap(&window, AccessibleRole::Tab, "Tint");
    let offered = || window.global::<ui::TintAdapter>().get_photo_offered();
    assert!(offered());
    state.change(|session| {
        session.choices.insert("tint.steel".to_owned(), "stainless".to_owned());
    });
    strawblue::app::refresh_all(&window, &state);
    assert_eq!(window.global::<ui::TintAdapter>().get_answer().title, "Colour cannot be used here");
    assert!(!offered());
}

/// An extrapolated figure is a rough guide, and says so; a temperature is a whole degree.
#[test]
fn an_extrapolated_answer_is_not_set_in_bold() {
    let (window, state) = demo((360, 9000));
    tap(&window, AccessibleRole::Tab, "Tint");
    let question = strawblue::questions::find("method-b").expect("a question");
    state.open.borrow_mut().questions.push(question);
    let results = || {
        strawblue::app::refresh_all(&window, &state);
        let rows = window.global::<ui::TintAdapter>().get_rows();
        let row = rows
            .iter()
            .find(|row| row.id == RowId::Question("method-b".into()).to_string())
            .expect("the question");
        let parts: Vec<_> = row.parts.iter().filter(|part| part.kind == ui::PartKind::Result).collect();
        (row.value.to_string(), parts)
    };
    let (value, parts) = results();
    assert!(parts.iter().any(|part| part.rough), "{parts:?}");
    assert!(value.starts_with("Rough guide: "), "{value}");
    for part in parts {
        let figure = part.value.split('\u{a0}').next().unwrap_or_default().to_owned();
        assert!(figure.chars().all(|sign| sign.is_ascii_digit()), "whole degrees: {}", part.value);
    }
}

/// What lies outside is said once, and what there is not rests on nothing.
#[test]
fn a_certificate_says_once_what_lies_outside() {
    let (window, _state) = demo(PHONE);
    window.global::<ui::FormEvents>().invoke_pick_asked("steel".into());
    mock_elapsed_time(50);
    tap(&window, AccessibleRole::Button, "Type in a certificate");
    let adapter = window.global::<ui::CertificateAdapter>();
    assert!(adapter.get_readout().iter().all(|figure| figure.figure == "–" && figure.basis_label.is_empty()));
    for (field, text) in [("C", "0.4"), ("Mn", "0.9"), ("Si", "0.2"), ("Cr", "1.1")] {
        adapter.invoke_field_edited(field.into(), text.into());
    }
    assert!(
        adapter.get_readout().iter().all(|figure| figure.figure != "–" && !figure.basis_label.is_empty())
    );
    let note = adapter.get_readout_note();
    assert_eq!(note.matches("utside").count(), 1, "{note}");
    assert!(["CE (IIW)", "CET", "Pcm"].iter().all(|name| note.contains(name)), "{note}");
}

/// What the settings lead to lights no place.
#[test]
fn about_belongs_to_the_settings() {
    for size in [PHONE, DESKTOP] {
        let (window, _state) = demo(size);
        let lit = || {
            with(&window, |element| {
                element.accessible_role() == Some(AccessibleRole::Tab)
                    && element.accessible_label().is_some_and(|label| label == "Plan")
            })
            .and_then(|tab| tab.accessible_item_selected())
        };
        assert_eq!(lit(), Some(true));
        window.global::<ui::Shell>().invoke_settings_asked();
        assert_eq!(lit(), Some(false));
        window.global::<ui::SettingsAdapter>().invoke_about_asked();
        assert_eq!(window.global::<ui::Shell>().get_page(), "about");
        assert_eq!(lit(), Some(false), "{size:?}");
    }
}
