//! Handbook tables beside the model. No upper limit on coverage: the band may not be
//! called too wide by the tables that it was drawn from.

use strawblue::engine::tint::tables::{cells, column_coverage, set_coverage};
use strawblue::engine::tint::{Afterwards, Circumstances, Mode, Span, Stage, peak_from_film};
use strawblue::reference::tint::{CoverageSet, TintData};

use crate::near;

#[test]
fn handbooks_lie_within_the_band() {
    let tables = &TintData::embedded().tables;
    for column in &tables.columns {
        let found = column_coverage(column).unwrap();
        println!(
            "{:20} {} of {} in one sigma, {} in two",
            column.id, found.one_sigma, found.count, found.two_sigma
        );
    }
    for (set, count, one, two) in
        [(CoverageSet::S1, 26, 18, 25), (CoverageSet::S2, 36, 28, 35), (CoverageSet::S3, 59, 51, 58)]
    {
        let found = set_coverage(set).unwrap();
        println!("{set:?}: {} and {} of {}", found.one_sigma, found.two_sigma, found.count);
        assert_eq!((found.count, found.one_sigma, found.two_sigma), (count, one, two), "{set:?}");
        assert!(found.two_sigma * 10 >= found.count * 9, "{set:?}: at least 90 % in two sigma");
        if set == CoverageSet::S1 {
            assert!(found.one_sigma * 2 >= found.count, "at least half in one sigma");
        }
    }
}

#[test]
fn the_fitted_column_lies_within_seven_kelvin() {
    // Colvin, Juthe: The Working of Steel, about 1920, means of five lists.
    let tables = &TintData::embedded().tables;
    let column = tables.columns.iter().find(|column| column.fitted).unwrap();
    let mut squares = 0.0;
    let cells = cells(column).unwrap();
    for cell in &cells {
        let id = cell.stage.id();
        let mean =
            tables.fitted_means_c.iter().find(|(stage, _)| stage == id).map_or(cell.printed_c, |row| row.1);
        near(cell.model_c, mean, 7.0, id);
        squares += (cell.model_c - mean).powi(2);
    }
    near((squares / 8.0).sqrt(), 3.4, 0.3, "rms of eight figures with two free parameters");
    assert_eq!(cells.len(), 8);
}

#[test]
fn classical_thickness_is_the_model_and_one_offset() {
    // A German plating lexicon: film thickness of temper colours.
    let optics = &TintData::embedded().optics;
    let mut compared = 0;
    for row in &optics.classical {
        let Some(stage) = row.stage.as_deref().map(|id| Stage::from_id(id).unwrap()) else { continue };
        let model_nm = row.nm - optics.classical_offset_nm;
        near(stage.typical_nm(), model_nm, 1.35, &row.name);
        assert_eq!(Stage::of(model_nm), stage, "{}", row.name);
        compared += 1;
    }
    assert_eq!(compared, 6);
}

/// Where the hue of the film's colour passes an angle, nm.
fn hue_at(degrees: f64) -> f64 {
    let hue = |film_nm: f64| {
        let lab = strawblue::engine::tint::colour::film_swatch(film_nm).lab;
        lab.b.atan2(lab.a).to_degrees()
    };
    (20..110)
        .map(|half| f64::from(half) / 2.0)
        .find(|&film_nm| hue(film_nm) >= degrees && hue(film_nm + 0.5) < degrees)
        .map(|film_nm| film_nm + 0.5 * (hue(film_nm) - degrees) / (hue(film_nm) - hue(film_nm + 0.5)))
        .unwrap()
}

#[test]
fn hue_crossings_lie_on_a_line_beside_the_classical_thickness() {
    // The hue for each classical name is a reading of the name; thickness as above.
    let pairs = [(70.0, 52.0), (42.0, 58.0), (-15.0, 63.0), (-55.0, 68.0), (-80.0, 72.0)]
        .map(|(hue, classical_nm)| (hue_at(hue), classical_nm));
    let mean = |part: fn(&(f64, f64)) -> f64| pairs.iter().map(part).sum::<f64>() / 5.0;
    let (mean_model, mean_classical) = (mean(|pair| pair.0), mean(|pair| pair.1));
    let spread: f64 = pairs.iter().map(|(model, _)| (model - mean_model).powi(2)).sum();
    let joint: f64 =
        pairs.iter().map(|(model, classical)| (model - mean_model) * (classical - mean_classical)).sum();
    let slope = joint / spread;
    let squares: f64 = pairs
        .iter()
        .map(|(model, classical)| (mean_classical + slope * (model - mean_model) - classical).powi(2))
        .sum();
    let (offset, rms) = (mean_classical - mean_model, (squares / 5.0).sqrt());
    println!("{pairs:?}: offset {offset:.2} nm, slope {slope:.2}, rms {rms:.2} nm");
    near(offset, 29.2, 1.0, "offset");
    near(slope, 1.0, 0.2, "slope");
    assert!(rms < 1.0, "{rms}");
}

#[test]
fn torch_heated_low_alloy_steel_is_purple_blue_where_the_trade_says() {
    // Common practice, no source: bright low-alloy steel, torch-heated in two to three
    // minutes to 260-271 °C and looked at after a short wait, reads purple-blue, up to just
    // beyond blue. Two sigma would hold nearly anything, so the central range must hold it.
    let practice = &TintData::embedded().tables.practice;
    let seen = Span { low: practice.film_low_nm, high: practice.film_high_nm };
    let found =
        peak_from_film(&Mode::Afterwards(Afterwards::default()), seen, &Circumstances::BRIGHT).unwrap();
    let (low, high) = found.central_c;
    near(low.unwrap(), 252.7, 0.06, "lowest central peak");
    near(high, 288.8, 0.06, "highest central peak");
    assert!(low.unwrap() <= practice.low_c && practice.high_c <= high);
    near(found.band_c.0.unwrap(), 209.0, 0.6, "two sigma below");
    near(found.band_c.1, 333.0, 0.6, "two sigma above");
}
