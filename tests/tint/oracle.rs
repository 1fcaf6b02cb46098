//! The engine against general libraries: `tmm` for thin films, `colour-science` for
//! colour, `scipy` for integrals and roots. Versions stand in the committed file.

use std::process::Command;
use std::sync::LazyLock;

use serde_json::Value;
use strawblue::engine::infrared::{GunSetting, Spot, band_radiance, true_temperature_c};
use strawblue::engine::tint::colour::{difference, swatch};
use strawblue::engine::tint::growth::Growth;
use strawblue::engine::tint::optics::{FilmModel, reflectance};

use crate::near;
use crate::vectors::triple;

const SCRIPT: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/oracle/tint_oracle.py");

static COMMITTED: LazyLock<Value> =
    LazyLock::new(|| serde_json::from_str(include_str!("../oracle/tint_oracle.json")).unwrap());

fn rows<'a>(file: &'a Value, name: &str) -> &'a [Value] {
    let rows = file[name].as_array().unwrap();
    assert!(!rows.is_empty(), "{name}");
    rows
}

fn number(row: &Value, key: &str) -> f64 {
    row[key].as_f64().unwrap()
}

/// Everything that a run of the script says, against the engine.
fn compare(file: &Value) {
    let model = FilmModel::adopted();
    for row in rows(file, "reflectance") {
        let found = reflectance(number(row, "nm"), number(row, "film_nm"), &model);
        near(found, number(row, "reflectance"), 1e-12, &row.to_string());
    }
    for row in rows(file, "swatches") {
        let found = swatch(number(row, "film_nm"), &model);
        let (lab, xyz) = (triple(&row["lab"]), triple(&row["xyz"]));
        for (value, expected) in [found.lab.l, found.lab.a, found.lab.b].into_iter().zip(lab) {
            near(value, expected, 2e-3, &row.to_string());
        }
        for (value, expected) in found.xyz.into_iter().zip(xyz) {
            near(value, expected, 1e-5, &row.to_string());
        }
        for (value, expected) in found.srgb.map(f64::from).into_iter().zip(triple(&row["srgb"])) {
            // A byte that falls on the border of two may round either way.
            near(value, expected, 1.0, &row.to_string());
        }
    }
    for row in rows(file, "differences") {
        let [a, b] = ["a", "b"].map(|key| {
            let [l, a, b] = triple(&row[key]);
            palette::Lab::new(l, a, b)
        });
        near(difference(a, b), number(row, "difference"), 1e-5, &row.to_string());
    }
    for row in rows(file, "radiance") {
        let expected = number(row, "radiance");
        near(band_radiance(number(row, "celsius")), expected, 1e-8 * expected, &row.to_string());
    }
    for row in rows(file, "ir") {
        let gun = GunSetting { emissivity: number(row, "set"), surroundings_c: number(row, "assumed_c") };
        let spot =
            Spot { emissivity: number(row, "emissivity"), surroundings_c: number(row, "surroundings_c") };
        let found = true_temperature_c(number(row, "reading_c"), gun, spot).unwrap();
        near(found, number(row, "true_c"), 1e-4, &row.to_string());
    }
    for row in rows(file, "histories") {
        let growth = Growth::with_exponent(number(row, "exponent"));
        let points = row["points"].as_array().unwrap();
        let grown: f64 = points
            .windows(2)
            .map(|pair| {
                let at = |point: &Value, place: usize| point[place].as_f64().unwrap();
                growth.on_line(at(&pair[0], 1), at(&pair[1], 1), at(&pair[1], 0) - at(&pair[0], 0))
            })
            .sum();
        let found = growth.film_nm(growth.power(number(row, "before_nm")) + grown);
        near(found, number(row, "film_nm"), 1e-6, &row.to_string());
    }
}

#[test]
fn committed_run_of_the_oracle() {
    let made_with = COMMITTED["made_with"].as_object().unwrap();
    for library in ["python", "tmm", "colour-science", "numpy", "scipy"] {
        assert!(made_with[library].is_string(), "{library}");
    }
    compare(&COMMITTED);
}

#[test]
fn a_run_of_the_oracle_here() {
    let python = std::env::var("ORACLE_PYTHON").unwrap_or_else(|_| "python3".to_owned());
    let has = Command::new(&python).args(["-c", "import tmm, colour, scipy"]).output();
    if !has.is_ok_and(|run| run.status.success()) {
        println!("{python} has no tmm, colour-science and scipy: the committed run stands alone");
        return;
    }
    let run = Command::new(&python).arg(SCRIPT).output().unwrap();
    assert!(run.status.success(), "{}", String::from_utf8_lossy(&run.stderr));
    compare(&serde_json::from_slice(&run.stdout).unwrap());
}
