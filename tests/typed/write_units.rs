//! A bare number keeps the unit that it was typed in.

use crate::typed_job::job;
use strawblue::job::{Field, Session};
use strawblue::units::Units;

#[test]
fn a_bare_number_keeps_the_unit_that_it_was_typed_in() {
    let job = job(&[
        ("thickness", "30"),
        ("diameter-b", "Ø90"),
        ("condition", "hardened and tempered 540"),
        ("condition-b", "+QT 540"),
        ("heat-input", "1.0 + 1.2 kJ/mm"),
        ("arc-energy", "2 + 3 + 4"),
        ("process", "gtaw + smaw"),
        ("leg", "3/8 in"),
        ("hydrogen", "3"),
    ]);
    let written = job.with_units_written(Units::C_MM);
    for (slot, text) in [
        (Field::Thickness.nth(0), "30 mm"),
        (Field::Diameter.nth(1), "Ø90 mm"),
        (Field::Condition.nth(0), "hardened and tempered 540 °C"),
        (Field::Condition.nth(1), "+QT 540 °C"),
        (Field::HeatInput.nth(0), "1.0 kJ/mm"),
        (Field::HeatInput.nth(1), "1.2 kJ/mm"),
        (Field::ArcEnergy.nth(0), "2 kJ/mm + 3 kJ/mm + 4 kJ/mm"),
        (Field::Leg.nth(0), "3/8 in"),
        (Field::Hydrogen.nth(1), "3"),
    ] {
        assert_eq!(written.get(slot), Some(text), "{slot:?}");
    }
    assert_eq!(written.with_units_written(Units::F_IN), written, "once written it stays");
}

#[test]
fn a_job_that_states_its_units_keeps_to_them() {
    let job = job(&[("units", "f-in"), ("shop", "60")]);
    assert_eq!(job.with_units_written(Units::C_MM).get(Field::Shop), Some("60 °F"));
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
        ("torch-heating.mass", "8"),
        ("ring-strength.torque", "400"),
        ("tint-afterwards.cooling-rate", "10"),
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
    assert_eq!(typed("torch-heating.mass"), "8 kg");
    assert_eq!(typed("ring-strength.torque"), "400 N·m");
    assert_eq!(typed("tint-afterwards.cooling-rate"), "10 °C/min");
    assert_eq!(typed("tint.flame-minutes"), "5");
    assert_eq!(typed("photo.path"), "/shop/part-7");
    assert_eq!(session.units, Units::F_IN);
}
