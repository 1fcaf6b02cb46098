//! Sentences in the reader's units: one message, written for every scale.

#![allow(clippy::unwrap_used, reason = "a file that can't be read fails the test")]

use std::fs;
use std::path::Path;

use strawblue::units::{Show, Units, length, limits};
use strawblue::words::Words;

fn language() -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("data/en.ftl")).expect("it is there")
}

/// Every message and attribute of the language, by key.
fn keys() -> Vec<String> {
    let text = language();
    let resource = fluent_syntax::parser::parse(text.as_str()).expect("it parses");
    let mut keys = Vec::new();
    for entry in &resource.body {
        let fluent_syntax::ast::Entry::Message(message) = entry else { continue };
        if message.value.is_some() {
            keys.push(message.id.name.to_owned());
        }
        keys.extend(
            message.attributes.iter().map(|attribute| format!("{}.{}", message.id.name, attribute.id.name)),
        );
    }
    keys
}

fn in_units(units: Units) -> Words {
    let words = Words::english();
    words.write_in(units.scales());
    words
}

/// Before it is rounded to its safe side a figure has a tenth: 298.86 °C is 569.95 °F.
#[test]
fn an_exact_temperature_has_a_tenth() {
    let words = Words::english();
    let shown = |units: Units, point_c: f64| Show::new(units, &words).exact_temperature(point_c);
    assert_eq!(shown(Units::C_MM, 298.861), "298.9\u{a0}°C");
    assert_eq!(shown(Units::F_IN, 298.861), "569.9\u{a0}°F");
    assert_eq!(shown(Units::C_MM, 300.0), "300\u{a0}°C");
    let german = Words::of("de");
    assert_eq!(Show::new(Units::C_MM, &german).exact_temperature(317.2), "317,2\u{a0}°C");
}

#[test]
fn a_sentence_follows_the_units() {
    // Figures: °F = 1.8 °C + 32, a difference 1.8 times; ranges of handbooks to 10 °F.
    let cases = [
        ("filler-note-er410nimo", "Interpass at most 260\u{a0}°C", "Interpass at most 500\u{a0}°F"),
        ("grade-note-impact-45", "at \u{2212}45\u{a0}°C", "at \u{2212}49\u{a0}°F"),
        ("grade-note-temper-embrittlement-375-575", "375–575\u{a0}°C", "710–1070\u{a0}°F"),
        ("grade-note-avoid-temper-425-565", "425–565\u{a0}°C", "800–1050\u{a0}°F"),
        ("limit-standard-temper", "−\u{a0}30\u{a0}°C", "−\u{a0}54\u{a0}°F"),
        ("error-tint-stainless", "100–250\u{a0}°C higher", "180–450\u{a0}°F higher"),
        ("note-average-over-75", "within 75\u{a0}mm", "within 3\u{a0}in"),
    ];
    let (metric, inch) = (in_units(Units::C_MM), in_units(Units::F_IN));
    for (key, c, f) in cases {
        assert!(metric.get(key).contains(c), "{key}: {}", metric.get(key));
        assert!(inch.get(key).contains(f), "{key}: {}", inch.get(key));
    }
    // Each scale by itself.
    assert!(in_units(Units::F_MM).get("note-average-over-75").contains("75\u{a0}mm"));
    assert!(in_units(Units::C_IN).get("filler-note-er410nimo").contains("260\u{a0}°C"));
}

#[test]
fn units_change_at_once_and_back() {
    let words = Words::english();
    let before = words.get("filler-note-er410nimo");
    words.write_in(Units::F_IN.scales());
    assert_ne!(words.get("filler-note-er410nimo"), before);
    words.write_in(Units::C_MM.scales());
    assert_eq!(words.get("filler-note-er410nimo"), before);
}

/// Messages that name both scales or mean one alone: what may be typed, names of units, names
/// of quantities that are defined in °C, equations, and rows that a standard prints in mm.
const OWN_SCALE: &[&str] = &[
    "accepts-",
    "typed-",
    "units-",
    "sheet-rounding-",
    "cli-",
    "formula-",
    "answer-cooling-time",
    "input-cooling-time",
    "answer-t100",
    "question-",
    "input-restraint-intensity",
    "answer-dry",
    "sheet-part-zero",
];

#[test]
fn no_sentence_keeps_one_scale() {
    let (metric, inch) = (in_units(Units::C_MM), in_units(Units::F_IN));
    let mut stay = Vec::new();
    for key in keys().iter().filter(|key| !OWN_SCALE.iter().any(|own| key.starts_with(own))) {
        let (c, f) = (metric.get(key), inch.get(key));
        if f.contains("°C") || f.contains(" K ") || c.contains("°F") {
            stay.push(format!("{key}: {c} | {f}"));
        }
        // A length may stand in both scales at once.
        let both = ["in)", "ft)"]
            .iter()
            .any(|end| f.contains(&format!("\u{a0}{end}")) || f.contains(&format!(" {end}")));
        let metric_length = f.split([' ', '\u{a0}', '.', ',', ';']).any(|word| word == "mm" || word == "cm");
        if metric_length && !both {
            stay.push(format!("{key}: {f}"));
        }
    }
    assert!(stay.is_empty(), "only in one scale:\n{}", stay.join("\n"));
}

#[test]
fn every_function_answers() {
    for units in Units::ALL {
        let words = in_units(units);
        for key in keys() {
            let text = words.get(&key);
            assert!(
                !["TEMP(", "RISE(", "LENGTH("].iter().any(|call| text.contains(call)),
                "{key} in {}: {text}",
                units.id()
            );
        }
    }
}

#[test]
fn both_texts_of_a_length_mean_the_same() {
    let text = language();
    let mut read = 0;
    for call in text.split("LENGTH(").skip(1) {
        let texts: Vec<&str> =
            call.split(')').next().expect("has an end").split('"').skip(1).step_by(2).collect();
        let [metric, inches] = texts[..] else { panic!("LENGTH takes two texts: {call:.60}") };
        // A range is read by its ends; a sentence of figures and feet are read by eye.
        let ends = |text: &str, unit: &str| -> Option<Vec<f64>> {
            let figures = text.strip_suffix(unit)?;
            figures
                .split('–')
                .map(|end| {
                    length(&format!("{end}{unit}"), Units::C_MM.length, limits::ANY_LENGTH_MM)
                        .ok()
                        .map(|read| read.mm)
                })
                .collect()
        };
        let (Some(metric_mm), Some(inches_mm)) = (ends(metric, " mm"), ends(inches, " in")) else { continue };
        assert_eq!(metric_mm.len(), inches_mm.len(), "{metric} and {inches}");
        for (metric_mm, inches_mm) in metric_mm.iter().zip(&inches_mm) {
            let ratio = inches_mm / metric_mm;
            assert!((0.93..=1.07).contains(&ratio), "{metric} is not {inches}: {ratio}");
        }
        read += 1;
    }
    assert!(read >= 15, "only {read} lengths were read");
}

#[test]
fn a_round_figure_of_a_book_stays_round() {
    // SAE chart, printed in °F with °C beside it (200, 500, 600, 700, 800 °F).
    let text = |point_c: f64| Show { units: Units::F_IN, mark: '.' }.temperature(point_c).main;
    for (point_c, fahrenheit) in [(93.0, 200), (260.0, 500), (316.0, 600), (371.0, 700), (427.0, 800)] {
        assert_eq!(text(point_c), format!("{fahrenheit}\u{a0}°F"));
    }
    // What is no round °F is turned to the whole degree, and our own figures are never rounded off.
    assert_eq!(text(200.0), "392\u{a0}°F");
    assert_eq!(text(315.6), "600\u{a0}°F");
    assert_eq!(text(316.2), "601\u{a0}°F");
}

#[test]
fn a_least_length_is_never_shorter() {
    for tenths in 1..3000 {
        let length_mm = f64::from(tenths) / 10.0;
        for units in [Units::C_MM, Units::C_IN] {
            let shown = Show { units, mark: '.' }.least_length(length_mm).main;
            let read = length(&shown, units.length, limits::ANY_LENGTH_MM).expect("is a length").mm;
            assert!(read >= length_mm - 1e-3, "{shown} is shorter than {length_mm} mm");
            assert!(read < length_mm + 6.36, "{shown} is far longer than {length_mm} mm");
        }
    }
    // AWS D1.1 prints the warm zone as 3 in [75 mm].
    assert_eq!(Show { units: Units::F_IN, mark: '.' }.least_length(75.0).main, "3\u{a0}in");
}

/// A conversion is no more exact than what it converts (common practice, no source).
#[test]
fn a_rule_of_thumb_shows_no_false_digits() {
    let both =
        |both: strawblue::units::Both| format!("{} ({})", both.main, both.second).replace('\u{a0}', " ");
    let show = |units| Show { units, mark: '.' };
    let metric = show(Units::C_MM);
    for (length_mm, said) in [(75.0, "75 mm (3 in)"), (50.0, "50 mm (2 in)"), (24.0, "24 mm (1 in)")] {
        assert_eq!(both(metric.rule_length(length_mm)), said);
    }
    assert_eq!(both(metric.rule_heat(1.02)), "1 kJ/mm (25 kJ/in)");
    assert_eq!(both(show(Units::F_IN).rule_heat(1.5)), "40 kJ/in (1.5 kJ/mm)");
    for (length_mm, said) in [(75.0, "75 mm (3 in)"), (90.0, "90 mm (3.5 in)"), (38.1, "38.1 mm (1-1/2 in)")]
    {
        assert_eq!(both(metric.alike(metric.length(length_mm))), said);
    }
    assert_eq!(both(metric.alike(metric.heat(1.0))), "1 kJ/mm (25 kJ/in)");
    assert_eq!(both(metric.size(90.0)), "90 mm (3.54 in)");
}
