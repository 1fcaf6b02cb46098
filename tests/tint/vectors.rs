//! Figures of an independent implementation of the same model (standard library Python),
//! each to half of its last printed digit.

use std::sync::LazyLock;

use serde_json::Value;
use strawblue::engine::infrared::{
    GunSetting, Spot, band_radiance, black_body_fraction, reading_c, true_temperature_c,
};
use strawblue::engine::tint::colour::{difference, lab_of, lab_of_linear, linear_of, swatch};
use strawblue::engine::tint::optics::{FilmModel, reflectance};
use strawblue::engine::tint::{Course, Heating, History, Stage, Stretch};

use crate::near;

static FILE: LazyLock<Value> =
    LazyLock::new(|| serde_json::from_str(include_str!("model_vectors.json")).unwrap());

pub(crate) fn rows(name: &str) -> &'static [Value] {
    FILE[name].as_array().unwrap()
}

fn number(row: &Value, key: &str) -> f64 {
    row[key].as_f64().unwrap()
}

pub(crate) fn triple(value: &Value) -> [f64; 3] {
    std::array::from_fn(|place| value[place].as_f64().unwrap())
}

fn lab_near(lab: strawblue::engine::tint::colour::LabColour, expected: [f64; 3], tolerance: f64, what: &str) {
    for (value, expected) in [lab.l, lab.a, lab.b].into_iter().zip(expected) {
        near(value, expected, tolerance, what);
    }
}

/// Stage names of the vectors and ours.
fn named(name: &str) -> Stage {
    match name {
        "bright (no tint)" => Stage::Bright,
        "faint yellow" => Stage::FaintYellow,
        "straw" => Stage::LightStraw,
        "dark straw" => Stage::DarkStraw,
        "bronze / brown" => Stage::Bronze,
        "purple (reddish)" => Stage::ReddishPurple,
        "purple-blue" => Stage::BluishPurple,
        "blue" => Stage::Blue,
        "light blue" => Stage::LightBlue,
        "grey-blue / greenish" => Stage::GreenishBlue,
        "grey, later orders - do not judge" => Stage::Later,
        other => panic!("unknown stage {other}"),
    }
}

#[test]
fn reflectance_of_an_even_film() {
    for row in rows("reflectance_sharp_film") {
        let value = reflectance(number(row, "wl"), number(row, "d"), &FilmModel::adopted());
        near(value, number(row, "R"), 5.1e-7, &row.to_string());
    }
}

#[test]
fn colour_of_a_film() {
    for row in rows("thickness_to_colour") {
        let film_nm = number(row, "d");
        let found = swatch(film_nm, &FilmModel::adopted());
        lab_near(found.lab, triple(&row["lab"]), 5.1e-4, &row.to_string());
        for (value, expected) in found.xyz.into_iter().zip(triple(&row["xyz"])) {
            near(value, expected, 5.1e-6, &row.to_string());
        }
        assert_eq!(found.srgb.map(f64::from), triple(&row["srgb"]), "{row}");
        assert_eq!(Stage::of(film_nm), named(row["name"].as_str().unwrap()), "{row}");
    }
    for row in rows("thickness_to_colour_no_blur") {
        let model = FilmModel { spread: 0.0, ..FilmModel::adopted() };
        lab_near(swatch(number(row, "d"), &model).lab, triple(&row["lab"]), 5.1e-4, &row.to_string());
    }
}

#[test]
fn film_after_a_time_at_one_temperature() {
    for row in rows("Tt_to_thickness") {
        let heating = Heating::new(Course::Constant { minutes: number(row, "t") }).unwrap();
        let film_nm = heating.film_nm(number(row, "T"));
        near(film_nm, number(row, "d"), 5.1e-4, &row.to_string());
        assert_eq!(Stage::of(film_nm), named(row["name"].as_str().unwrap()), "{row}");
    }
    for row in rows("time_for") {
        let heating = Heating::new(Course::Constant { minutes: number(row, "t_min") }).unwrap();
        near(heating.peak_c(number(row, "d")).unwrap(), number(row, "T"), 0.01, &row.to_string());
    }
}

#[test]
fn temperature_and_sigma_of_each_stage() {
    let mut sigmas = 0;
    for row in rows("stage_temperature") {
        let film_nm = number(row, "d");
        for (minutes, expected) in row["by_time"].as_object().unwrap() {
            let heating = Heating::new(Course::Constant { minutes: minutes.parse().unwrap() }).unwrap();
            near(heating.peak_c(film_nm).unwrap(), number(expected, "T"), 0.051, &row.to_string());
            near(heating.sigma_k(film_nm).unwrap(), number(expected, "sigma"), 0.051, &row.to_string());
            sigmas += 1;
        }
    }
    assert_eq!(sigmas, 54);
}

#[test]
fn film_along_segments() {
    for row in rows("history") {
        let stretches = row["segments"]
            .as_array()
            .unwrap()
            .iter()
            .map(|segment| {
                let celsius = segment[0].as_f64().unwrap();
                Stretch { from_c: celsius, to_c: celsius, minutes: segment[1].as_f64().unwrap() }
            })
            .collect();
        let history = History { film_before_nm: number(row, "d0"), stretches };
        near(history.film_nm().unwrap(), number(row, "d"), 5.1e-4, &row.to_string());
    }
}

#[test]
fn what_a_gun_shows_and_what_it_means() {
    for row in rows("ir") {
        let gun = GunSetting { emissivity: number(row, "eps_set"), surroundings_c: number(row, "t_surr") };
        let spot = Spot { emissivity: number(row, "eps_true"), surroundings_c: number(row, "t_surr") };
        let (read, truth) = (number(row, "read"), number(row, "t_true"));
        near(reading_c(truth, gun, spot).unwrap(), read, 1.1e-3, &row.to_string());
        near(true_temperature_c(read, gun, spot).unwrap(), truth, 5e-3, &row.to_string());
    }
}

#[test]
fn radiance_and_black_body_fractions() {
    for row in rows("band_radiance_8_14_W_m2_sr") {
        near(band_radiance(number(row, "T")), number(row, "L"), 6e-5, &row.to_string());
    }
    for row in rows("blackbody_fraction") {
        near(black_body_fraction(number(row, "lamT_umK")), number(row, "F"), 5.1e-7, &row.to_string());
    }
    // Handbook table of black-body fractions, from memory; it uses an older constant.
    for row in rows("blackbody_fraction_handbook") {
        let fraction = black_body_fraction(row[0].as_f64().unwrap());
        near(fraction, row[1].as_f64().unwrap(), 6e-5, &row.to_string());
    }
}

#[test]
fn colour_difference_of_sharma() {
    // Sharma, Wu, Dalal 2005, Color Research and Application 30, 21: test pairs.
    assert_eq!(rows("ciede2000_sharma").len(), 11);
    for row in rows("ciede2000_sharma") {
        let [a, b] = ["lab1", "lab2"].map(|key| {
            let [l, a, b] = triple(&row[key]);
            palette::Lab::new(l, a, b)
        });
        near(difference(a, b), number(row, "dE"), 5.1e-5, &row.to_string());
    }
}

#[test]
fn screen_colour_to_lab_and_back() {
    for row in rows("srgb_xyz_lab") {
        let xyz = triple(&row["xyz"]);
        lab_near(lab_of(xyz), triple(&row["lab"]), 4e-3, &row.to_string());
        let srgb = triple(&row["srgb"]);
        let linear = linear_of(xyz);
        let coded = palette::Srgb::<f64>::from_linear(palette::LinSrgb::new(linear[0], linear[1], linear[2]));
        for (value, expected) in [coded.red, coded.green, coded.blue].into_iter().zip(srgb) {
            near(value * 255.0, expected, 0.02, &row.to_string());
        }
        let light = palette::Srgb::new(srgb[0] / 255.0, srgb[1] / 255.0, srgb[2] / 255.0).into_linear();
        lab_near(
            lab_of_linear([light.red, light.green, light.blue]),
            triple(&row["lab"]),
            5e-3,
            &row.to_string(),
        );
    }
}
