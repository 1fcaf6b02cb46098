//! What a grade row says reaches the reader in words of the language file and in the
//! reader's units.

use strawblue::reference::{ConditionKind, Grade, embedded};
use strawblue::report::{Pen, forms_words, hardness_words, heat_words, temper_words};
use strawblue::units::{Show, Units};
use strawblue::words::Words;

fn written(units: Units, write: impl Fn(&Pen<'_>) -> String) -> String {
    let words = Words::english();
    words.write_in(units.scales());
    let pen = Pen { reference: embedded(), words: &words, show: Show::new(units, &words) };
    write(&pen).replace('\u{a0}', " ")
}

fn both(write: impl Fn(&Pen<'_>) -> String) -> [String; 2] {
    [written(Units::C_MM, &write), written(Units::F_IN, &write)]
}

fn grade(id: &str) -> &'static Grade {
    embedded().grade(id).unwrap_or_else(|| panic!("{id} is missing"))
}

fn preheat(pen: &Pen<'_>, id: &str) -> String {
    let row = grade(id).published_preheat.as_ref().expect("it has one");
    heat_words(pen, row.low_c, row.high_c, row.wording.as_deref())
}

fn relief(pen: &Pen<'_>, id: &str) -> String {
    let row = grade(id).pwht.as_ref().expect("it has one");
    heat_words(pen, row.low_c, row.high_c, row.wording.as_deref())
}

// SAE chart by steel group (°F), NAVSEA S9074-AR-GIB-010/278 Tables IV and VI (°F): each figure
// in °F is the one that the source prints.
#[test]
fn published_heat_follows_the_units_and_keeps_the_printed_figure() {
    for (id, c, f) in [
        ("1008", "Up to 93 °C", "Up to 200 °F"),
        ("1025", "93–149 °C", "200–300 °F"),
        ("4140", "316–427 °C", "600–800 °F"),
        (
            "4130",
            "204–316 °C: row for carbon-molybdenum steel with 0.20–0.30 % carbon",
            "400–600 °F: row for",
        ),
        ("10CrMo9-10", "up to 0.15 % carbon", "500–700 °F: row for"),
        (
            "A105",
            "79 °C where carbon is above 0.30 % and the part thicker than 25 mm",
            "175 °F where carbon is above 0.30 % and the part thicker than 1 in",
        ),
        ("P11", "above 414 MPa", "above 60 ksi"),
    ] {
        let [metric, inch] = both(|pen| preheat(pen, id));
        assert!(metric.contains(c) && inch.contains(f), "{id}: {metric} | {inch}");
    }
    for (id, c, f) in [
        ("P11", "677–746 °C", "1250–1375 °F"),
        ("1045", "593–677 °C, 1 h for each 25 mm", "1100–1250 °F, 1 h for each inch"),
        ("4130", "minus about 28 °C", "minus about 50 °F"),
    ] {
        let [metric, inch] = both(|pen| relief(pen, id));
        assert!(metric.contains(c) && inch.contains(f), "{id}: {metric} | {inch}");
    }
}

#[test]
fn every_grade_is_said_in_either_set_of_units_alone() {
    for grade in &embedded().grades {
        let [metric, inch] = both(|pen| {
            let heats = grade.data_sheet.iter().chain(&grade.published_preheat);
            let mut texts: Vec<String> = heats
                .map(|row| heat_words(pen, row.low_c, row.high_c, row.wording.as_deref()))
                .chain(
                    grade
                        .pwht
                        .iter()
                        .map(|row| heat_words(pen, row.low_c, row.high_c, row.wording.as_deref())),
                )
                .collect();
            for condition in &grade.conditions {
                texts.extend(hardness_words(pen, condition));
                texts.push(temper_words(pen, condition));
            }
            texts.push(forms_words(pen, grade));
            texts.join("; ")
        });
        assert!(!metric.contains("°F") && !metric.contains("ksi"), "{}: {metric}", grade.id);
        assert!(!inch.contains("°C") && !inch.contains("MPa"), "{}: {inch}", grade.id);
        // A key that has no message comes back as it is.
        assert!(!metric.contains("grade-"), "{}: {metric}", grade.id);
    }
}

#[test]
fn conditions_say_hardness_state_and_where_the_temper_is_from() {
    let of = |id: &str, kind: ConditionKind| grade(id).condition_at(kind, 10.0).expect("it is there");
    let hardness = |id: &str, kind| written(Units::C_MM, |pen| hardness_words(pen, of(id, kind)).join(", "));
    assert_eq!(hardness("1045", ConditionKind::InductionHardened), "50–58 HRC, of the surface layer");
    assert_eq!(hardness("1008", ConditionKind::AsRolled), "86 HB");
    assert_eq!(hardness("P11", ConditionKind::NormalisedTempered), "≤ 163 HB");
    assert_eq!(hardness("RAIL-AREMA", ConditionKind::AsRolled), "≥ 310 HB");
    assert_eq!(hardness("A913-50", ConditionKind::Thermomechanical), "quenched and self-tempered");
    let temper = |id: &str, kind| written(Units::C_MM, |pen| temper_words(pen, of(id, kind)));
    // Two cards print the temper of 42CrMo4; that of 34CrMo4 was not seen.
    assert_eq!(temper("42CrMo4", ConditionKind::HardenedTempered), "Tempered at 540–680 °C, typical");
    assert_eq!(
        temper("34CrMo4", ConditionKind::HardenedTempered),
        "Tempered at 540–680 °C, typical (tempering temperature from memory)"
    );
    // Handbooks print what is usual of a normalised bar, and no standard demands it.
    assert_eq!(hardness("4140", ConditionKind::Normalised), "302 HB, typical, not a minimum");
    assert_eq!(temper("4140", ConditionKind::Annealed), "");
    assert_eq!(
        temper("P91", ConditionKind::NormalisedTempered),
        "Tempered at 730–780 °C or above (tempering temperature from memory)"
    );
    assert_eq!(written(Units::C_MM, |pen| forms_words(pen, grade("1008"))), "bar, plate, sheet");
}
