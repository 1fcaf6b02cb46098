//! What people type and what is answered, row by row from `tests/typed/*.ron`, and
//! the page that shows the same table.

use std::path::{Path, PathBuf};

use serde::Deserialize;
use strawblue::units::{self, Hydrogen, Problem, Quantity, Show, Units, Within, limits};
use strawblue::words::Words;
use strum::VariantArray as _;

#[derive(Deserialize)]
struct Table {
    title: String,
    reader: String,
    rows: Vec<(String, String, String)>,
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/typed")
}

fn tables() -> Vec<Table> {
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder())
        .expect("tests/typed is there")
        .map(|entry| entry.expect("readable").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "ron"))
        .collect();
    files.sort();
    files
        .iter()
        .flat_map(|path| {
            let text = std::fs::read_to_string(path).expect("readable");
            let many = text.lines().any(|line| line.starts_with('['));
            let read =
                if many { ron::from_str(&text) } else { ron::from_str(&text).map(|table| vec![table]) };
            read.unwrap_or_else(|error| panic!("{}: {error}", path.display()))
        })
        .collect()
}

fn figure(value: f64, unit: &str) -> String {
    let shown = Show::default().with_unit(value, 3, unit);
    shown.replace('\u{a0}', " ")
}

fn problem(problem: &Problem) -> String {
    match problem {
        Problem::Empty { .. } => "empty".to_owned(),
        Problem::NotUnderstood { .. } => "not understood".to_owned(),
        Problem::UnknownUnit { unit, .. } => format!("unit: {unit}"),
        Problem::OutOfRange { low, high, unit, .. } => format!("{low} to {high} {unit}"),
        Problem::Ambiguous { choices, .. } => {
            let written: Vec<&str> = choices.iter().map(|choice| choice.write.as_str()).collect();
            format!("asks: {}", written.join(" | "))
        }
        Problem::Trap { key, .. } => format!("trap: {key}"),
    }
}

/// What a reader answers in words of the table.
pub(crate) fn answer(reader: &str, typed: &str, shown: Units) -> Result<String, Problem> {
    Ok(match reader {
        "length" => {
            let length = units::length(typed, shown.length, limits::THICKNESS_MM)?;
            format!("{}{}", figure(length.mm, "mm"), if length.round { " round" } else { "" })
        }
        "leg" => figure(units::leg(typed, shown.length, limits::LEG_MM)?.mm, "mm"),
        "temperature" => figure(units::temperature(typed, shown.temperature, limits::DEMAND_C)?, "°C"),
        "shop" => figure(units::temperature(typed, shown.temperature, limits::SHOP_C)?, "°C"),
        "heat" => figure(units::net_heat(typed, shown.length, limits::NET_HEAT_KJ_PER_MM)?, "kJ/mm"),
        "hydrogen" => {
            let Hydrogen { ml, open, .. } = units::hydrogen(typed, limits::HYDROGEN_ML)?;
            format!("{}{}", figure(ml, "ml/100 g"), if open { " or more" } else { "" })
        }
        "voltage" => figure(units::voltage(typed, limits::VOLTAGE_V)?, "V"),
        "current" => figure(units::current(typed, limits::CURRENT_A)?, "A"),
        "travel" => figure(units::travel(typed, shown.length, limits::TRAVEL_MM_PER_MIN)?, "mm/min"),
        "strength" => figure(units::strength(typed, shown.length, limits::STRENGTH_MPA)?, "MPa"),
        "yield" => figure(units::stated_strength(typed, limits::STRENGTH_MPA)?, "MPa"),
        "hardness" => {
            let hardness = units::hardness(typed)?;
            figure(hardness.value, hardness.scale.symbol())
        }
        "duration" => figure(units::duration(typed, units::TimeUnit::Minutes, limits::DURATION_S)?, "s"),
        "arc-time" => figure(units::duration(typed, units::TimeUnit::Seconds, limits::ARC_TIME_S)?, "s"),
        "gas-flow" => figure(units::gas_flow(typed, shown.length, limits::GAS_FLOW_M3_PER_H)?, "m³/h"),
        "volume" => figure(units::volume(typed, shown.length, limits::VOLUME_M3)?, "m³"),
        "run-length" => figure(units::run_length(typed, shown.length, limits::RUN_MM)?, "mm"),
        other => {
            let quantity = Quantity::VARIANTS
                .iter()
                .find(|quantity| format!("{quantity:?}").to_lowercase() == other.replace('-', ""))
                .unwrap_or_else(|| panic!("no reader {other}"));
            figure(quantity.read(typed, shown, Within::new(0.0, 1e6))?, quantity.own_unit())
        }
    })
}

#[test]
fn every_row_answers_as_written() {
    let mut wrong = Vec::new();
    for table in tables() {
        for (typed, metric, inch) in &table.rows {
            let inch = if inch == "=" { metric } else { inch };
            let by_temperature = matches!(
                table.reader.as_str(),
                "temperature" | "shop" | "difference" | "minute-rate" | "hour-rate"
            );
            let mixed = if by_temperature { [inch, metric] } else { [metric, inch] };
            let cases = [
                (Units::C_MM, metric),
                (Units::F_IN, inch),
                (Units::F_MM, mixed[0]),
                (Units::C_IN, mixed[1]),
            ];
            for (shown, expected) in cases {
                let got = answer(&table.reader, typed, shown).unwrap_or_else(|found| problem(&found));
                if got != *expected {
                    wrong.push(format!(
                        "{} {typed:?} {}: {got:?}, not {expected:?}",
                        table.reader,
                        shown.id()
                    ));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Every problem is one plain line with no key showing through, and repeats what was typed.
#[test]
fn every_problem_has_words() {
    let words = Words::english();
    for table in tables() {
        for (typed, ..) in &table.rows {
            let Err(found) = answer(&table.reader, typed, Units::C_MM) else { continue };
            let said = found.say(&words);
            assert!(!said.contains('{') && !said.contains("typed-") && !said.contains("accepts-"), "{said}");
            assert!(!said.contains('\n') && said.len() > 20, "{said}");
            assert!(typed.trim().is_empty() || said.contains(typed.trim()), "{typed}: {said}");
        }
    }
    for accepts in <units::Accepts as strum::VariantArray>::VARIANTS {
        assert!(words.has(accepts.key()), "{accepts:?}");
        assert!(words.has(&format!("{}.name", accepts.key())), "{accepts:?}");
    }
}

/// Each offered choice is understood when it is written.
#[test]
fn every_choice_can_be_written() {
    let mut choices = 0;
    for table in tables() {
        for (typed, ..) in &table.rows {
            let Err(found) = answer(&table.reader, typed, Units::C_MM) else { continue };
            for choice in found.choices() {
                choices += 1;
                let again = answer(&table.reader, &choice.write, Units::C_MM);
                assert!(
                    !matches!(&again, Err(Problem::Ambiguous { .. } | Problem::NotUnderstood { .. })),
                    "{typed} offers {}, which answers {again:?}",
                    choice.write
                );
            }
        }
    }
    assert!(choices >= 30, "only {choices} choices were offered");
}

fn page() -> String {
    let words = Words::english();
    let mut made = String::from(
        "# What can be typed\n\nMade from the tables beside this page; `tests/typed/tables.rs` keeps the two equal\n\
         (write it anew with `WRITE_TYPED_PAGE=1 cargo test --no-default-features --test typed`).\n\
         A bare number takes the unit shown in its field.\n",
    );
    for table in tables() {
        made.push_str(&format!(
            "\n## {}\n\n| typed | with °C and mm | with °F and inches |\n|---|---|---|\n",
            table.title
        ));
        for (typed, ..) in &table.rows {
            let cell = |shown| {
                let said = answer(&table.reader, typed, shown).unwrap_or_else(|found| found.say(&words));
                said.replace('|', "\\|").replace('\u{a0}', " ")
            };
            let shown = if typed.trim().is_empty() { "(nothing)" } else { typed };
            made.push_str(&format!(
                "| {} | {} | {} |\n",
                shown.replace('|', "\\|"),
                cell(Units::C_MM),
                cell(Units::F_IN)
            ));
        }
    }
    made
}

#[test]
fn the_page_equals_the_tables() {
    let path = folder().join("README.md");
    if std::env::var_os("WRITE_TYPED_PAGE").is_some() {
        std::fs::write(&path, page()).expect("writable");
    }
    let written = std::fs::read_to_string(&path).unwrap_or_default();
    assert_eq!(written, page(), "write the page anew: WRITE_TYPED_PAGE=1");
}
