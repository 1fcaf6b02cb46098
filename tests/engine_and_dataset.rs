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

/// A formula names one source, whoever asks it: the text in which it was really seen.
#[test]
fn a_formula_has_one_basis() {
    use strawblue::engine::carbon_equivalent::Equivalent;
    use strawblue::questions::{self, Answers, Given};
    let method =
        |id: &str| embedded().methods.get(id).unwrap_or_else(|| panic!("no method {id}")).basis.clone();
    for which in Equivalent::ALL {
        let id = if which == Equivalent::CeqBands { "ceq-s49" } else { which.id() };
        assert_eq!(which.basis(), method(id), "{id}");
    }
    let given: &[(&'static str, f64)] = &[
        ("cet", 0.3),
        ("c-chem", 0.5),
        ("pcm", 0.3),
        ("ce", 0.5),
        ("thickness", 30.0),
        ("hydrogen", 5.0),
        ("heat-input", 1.0),
        ("weld-thickness", 30.0),
        ("strength", 700.0),
        ("volts", 25.0),
        ("amps", 150.0),
        ("travel-speed", 2.5),
        ("efficiency", 0.8),
        ("preheat", 100.0),
        ("cooling-time", 10.0),
        ("f3", 0.9),
    ];
    for (name, id) in [
        ("method-b", "method-b"),
        ("seferian", "seferian"),
        ("ito-bessyo", "ito-bessyo"),
        ("multi-run", "multi-run"),
        ("dearden-oneill", "dearden-oneill"),
        ("table-c1", "table-c1"),
        ("heat-input", "heat-input"),
        ("cooling-time", "t85"),
        ("preheat-for-cooling-time", "t85"),
    ] {
        let question = questions::find(name).unwrap();
        let mut answers = Answers::new();
        for (key, value) in given.iter().filter(|(key, _)| question.input(key).is_some()) {
            answers.set(*key, Given::Number(*value));
        }
        let reply = question.ask(&answers).unwrap_or_else(|problem| panic!("{name}: {problem}"));
        assert_eq!(reply.answers[0].basis, method(id), "{name}");
    }
    assert_eq!(embedded().practice.dearden_oneill.basis, method("dearden-oneill"));
}

/// The shape factors of a joint are from memory or common practice: an answer that takes
/// them says so, and is not called published.
#[test]
fn a_cooling_time_is_as_weak_as_its_shape_factors() {
    use strawblue::questions::{self, Answers, Given};
    for joint in Joint::ALL {
        let row = embedded().joint(joint.id()).unwrap();
        let given = Answers::new()
            .with("heat-input", Given::Number(1.0))
            .with("preheat", Given::Number(100.0))
            .with("joint", Given::Choice(joint.id().to_owned()));
        let question = questions::find("cooling-time").unwrap();
        let by_joint = question.ask(&given).unwrap();
        assert_eq!(by_joint.answers[0].basis, row.factors_basis, "{}", row.id);
        assert_ne!(by_joint.answers[0].basis.kind(), "published", "{}", row.id);
        assert!(by_joint.notes.contains(&"shape-factors-memory"));
        let own = given.with("f2", Given::Number(0.9)).with("f3", Given::Number(0.9));
        assert_eq!(question.ask(&own).unwrap().answers[0].basis.kind(), "published");
    }
}

#[test]
fn joints_and_processes_have_their_rows() {
    for joint in Joint::ALL {
        let row = embedded().joint(joint.id()).unwrap_or_else(|| panic!("no row for {}", joint.id()));
        assert!(row.ways.first > 0 && row.f2.low <= row.f2.high && row.f3.low <= row.f3.high, "{}", row.id);
        assert!(!matches!(&row.ways_basis, Basis::Published { .. }), "{}: no public text was opened", row.id);
    }
    for process in Process::ALL {
        assert!(embedded().process(process.id()).is_some(), "no row for {}", process.id());
    }
}
