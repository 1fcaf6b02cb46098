//! Where the engine writes a figure down that the dataset holds too, the two are one.

use strawblue::engine::hydrogen::{COE_MORETON_ROWS, HydrogenScale as Letter};
use strawblue::engine::inspection::nsss_h;
use strawblue::engine::job::{Joint, Process};
use strawblue::engine::source_ids;
use strawblue::reference::{Basis, HydrogenScale, embedded};

#[test]
fn every_source_of_a_formula_has_its_row() {
    for id in source_ids::ALL {
        assert!(embedded().source(id).is_some(), "data/sources.ron lacks {id}");
    }
    for source in embedded().sources.iter().filter(|source| source.in_engine) {
        assert!(source_ids::ALL.contains(&source.id.as_str()), "{} is not named by the engine", source.id);
    }
}

#[test]
fn diffusion_points_agree() {
    let mut points: Vec<(f64, f64)> =
        embedded().own_sheets.diffusion.points.iter().map(|point| (point.at_c, point.cm2_per_s)).collect();
    points.sort_by(|a, b| a.0.total_cmp(&b.0));
    assert_eq!(points, COE_MORETON_ROWS);
}

#[test]
fn nsss_waits_agree() {
    let mut rows = 0;
    for rule in embedded().inspection.iter().filter(|rule| rule.id.starts_with("nsss-")) {
        rows += 1;
        let size = rule.size_up_to_mm.unwrap_or(100.0);
        let heats = match (rule.heat_input_above, rule.heat_input_up_to) {
            (Some(above), _) => vec![above + 0.01, above + 2.0],
            (None, Some(up_to)) => vec![up_to, up_to - 1.0],
            (None, None) => vec![1.0, 5.0],
        };
        for heat in heats {
            assert_eq!(nsss_h(size, heat), rule.hours, "{} at {size} mm, {heat} kJ/mm", rule.id);
            if let Some(above) = rule.size_above_mm {
                assert_eq!(nsss_h(above + 0.01, heat), rule.hours, "{} just above {above} mm", rule.id);
            }
        }
    }
    assert_eq!(rows, 5, "all rows of the table are compared");
}

#[test]
fn hydrogen_letters_agree() {
    let mut letters = 0;
    for row in embedded().designators.iter().filter(|row| row.scale == HydrogenScale::Letter) {
        letters += 1;
        let letter = Letter::ALL.into_iter().find(|letter| letter.letter() == row.text).unwrap();
        let (low, high) = letter.band_ml();
        assert_eq!((row.above_ml.unwrap_or(0.0), row.up_to_ml), (low, high), "letter {}", row.text);
    }
    assert_eq!(letters, 5);
}

#[test]
fn joints_and_processes_have_their_rows() {
    for joint in Joint::ALL {
        let row = embedded().joint(joint.id()).unwrap_or_else(|| panic!("no row for {}", joint.id()));
        assert!(row.ways.first > 0 && row.f2.low <= row.f2.high && row.f3.low <= row.f3.high, "{}", row.id);
        assert!(!matches!(&row.ways_basis, Basis::Published { .. }), "{}: no public text was opened", row.id);
    }
    for process in Process::ALL {
        let row = embedded().process(process.id()).unwrap_or_else(|| panic!("no row for {}", process.id()));
        assert_eq!(row.efficiency, process.efficiency(), "{}", process.id());
        assert_eq!(row.low_hydrogen, process.low_hydrogen(), "{}", process.id());
    }
}
