//! A figure stands in °C and in °F, each rounded to its safe side. Where the two look wrong beside each
//! other, the plan says so of that pair, and not of another one alone.

use strawblue::engine::plan::plan;
use strawblue::reference::embedded;
use strawblue::report::{Figure, Pen, Report};
use strawblue::units::{Show, Units};
use strawblue::words::Words;

use crate::typed_job::read;

/// °F next to a figure in °C, to the ten, are never farther away than this, K.
const NEXT_TEN_K: f64 = 5.0 / 1.8;

fn celsius(figure: &str) -> Option<f64> {
    let (value, unit) = figure.split_once('\u{a0}')?;
    let value: f64 = value.parse().ok()?;
    Some(if unit == "°F" { (value - 32.0) / 1.8 } else { value })
}

#[test]
fn each_pair_that_looks_wrong_is_explained() {
    let words = Words::english();
    let mut explained = [0, 0];
    for units in [Units::C_MM, Units::F_IN] {
        let pen = Pen { reference: embedded(), words: &words, show: Show::new(units, &words) };
        for (mm, steel) in (10..130).map(|mm| (mm, if mm % 2 == 0 { "4140" } else { "1045" })) {
            let thickness = format!("{mm} mm");
            let job = [
                ("steel", steel),
                ("condition", if steel == "4140" { "Q&T 600 C" } else { "normalised" }),
                ("thickness", &thickness),
                ("joint", "butt"),
                ("process", "smaw basic"),
            ];
            let job = read(&job).expect("a job").job;
            let made = plan(embedded(), &job);
            let answer = Report::of(&pen, &job, &made).answer;
            let wrong: Vec<&Figure> = [&answer.minimum, &answer.maximum, &answer.ceiling]
                .into_iter()
                .filter(|figure| {
                    let main = [figure.figure.as_str(), figure.unit.as_str()].join("\u{a0}");
                    let both = celsius(&main).zip(celsius(&figure.second));
                    both.is_some_and(|(main_c, second_c)| (main_c - second_c).abs() > NEXT_TEN_K + 1e-9)
                })
                .collect();
            let said = answer.note.contains("rounded to its safe side");
            assert_eq!(said, !wrong.is_empty(), "{mm} mm: {}", answer.note);
            for figure in &wrong {
                let main = [figure.figure.as_str(), figure.unit.as_str()].join("\u{a0}");
                let pair = words.with("answer-rounded.pair", &[("main", &main), ("second", &figure.second)]);
                assert!(answer.note.contains(&pair), "{mm} mm: {pair} in {}", answer.note);
            }
            explained[wrong.len().min(2).saturating_sub(1)] += usize::from(!wrong.is_empty());
        }
    }
    assert!(explained.iter().all(|count| *count > 0), "one pair and several: {explained:?}");
}
