//! A bare number keeps the unit that it was typed in.

use strawblue::job::{JobText, Session};
use strawblue::units::Units;

#[test]
fn a_bare_number_keeps_the_unit_that_it_was_typed_in() {
    let job = JobText {
        thickness: Some("30".into()),
        diameter_b: Some("Ø90".into()),
        condition: Some("hardened and tempered 540".into()),
        heat_input: Some("1.0 + 1.2 kJ/mm".into()),
        leg: Some("3/8 in".into()),
        hydrogen: Some("3".into()),
        ..JobText::default()
    };
    let written = job.with_units_written(Units::C_MM);
    assert_eq!(written.thickness.as_deref(), Some("30 mm"));
    assert_eq!(written.diameter_b.as_deref(), Some("Ø90 mm"));
    assert_eq!(written.condition.as_deref(), Some("hardened and tempered 540 °C"));
    assert_eq!(written.heat_input.as_deref(), Some("1.0 kJ/mm + 1.2 kJ/mm"));
    assert_eq!(written.leg.as_deref(), Some("3/8 in"));
    assert_eq!(written.hydrogen.as_deref(), Some("3"));
    assert_eq!(written.with_units_written(Units::F_IN), written, "once written it stays");
}

#[test]
fn a_job_that_states_its_units_keeps_to_them() {
    let job = JobText { units: Some("f-in".into()), shop: Some("60".into()), ..JobText::default() };
    assert_eq!(job.with_units_written(Units::C_MM).shop.as_deref(), Some("60 °F"));
}

/// A reading that was typed in °C stays one when the screen turns to °F.
#[test]
fn what_is_typed_for_a_question_keeps_its_unit() {
    let mut session = Session::default();
    for (key, text) in [
        ("ir-true-temperature.reading", "305"),
        ("ir-true-temperature.gun-emissivity", "0.95"),
        ("ir-true-temperature.minimum", "570 °F"),
        ("measuring-place.thickness", "38"),
        ("tint.flame-minutes", "5"),
        ("photo.path", "/shop/part-7"),
    ] {
        session.typed.insert(key.to_owned(), text.to_owned());
    }
    session.switch_units(Units::F_IN);
    let typed = |key: &str| session.typed[key].as_str();
    assert_eq!(typed("ir-true-temperature.reading"), "305 °C");
    assert_eq!(typed("ir-true-temperature.gun-emissivity"), "0.95");
    assert_eq!(typed("ir-true-temperature.minimum"), "570 °F");
    assert_eq!(typed("measuring-place.thickness"), "38 mm");
    assert_eq!(typed("tint.flame-minutes"), "5");
    assert_eq!(typed("photo.path"), "/shop/part-7");
    assert_eq!(session.units, Units::F_IN);
}
