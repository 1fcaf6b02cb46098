//! Every figure of every published check as it is printed, in both unit systems, to a file that
//! `STRAWBLUE_FIGURES` names: two processors must write the same file, to the last digit.

use std::fmt::Write;
use std::{env, fs};

use strawblue::engine::Outcome;
use strawblue::reference::embedded;
use strawblue::report::{Pen, of_unit, step_lines};
use strawblue::units::{Show, Units};
use strawblue::words::Words;

use crate::published::{ask, files};

fn figures(outcome: &Outcome, pen: &Pen<'_>) -> String {
    let ends = [outcome.low, outcome.value, outcome.high];
    let mut all: Vec<String> =
        ends.into_iter().flatten().map(|value| of_unit(value, outcome.unit, &pen.show)).collect();
    all.extend(step_lines(pen, outcome).into_iter().map(|step| step.value));
    all.join("\t")
}

#[test]
fn every_figure_prints_as_a_figure() {
    let words = Words::english();
    let shows = [Units::C_MM, Units::F_IN].map(|units| Show { units, ..Show::default() });
    let mut written = String::new();
    for file in files() {
        for case in &file.cases {
            let Ok(reply) = ask(case) else { continue };
            for outcome in &reply.answers {
                for show in shows {
                    let line = figures(outcome, &Pen { words: &words, show, reference: embedded() });
                    assert!(
                        !line.contains("NaN") && !line.contains("inf"),
                        "{}, {}: {line}",
                        file.name,
                        case.name
                    );
                    let _ = writeln!(written, "{}\t{}\t{}\t{line}", file.name, case.name, outcome.name);
                }
            }
        }
    }
    assert!(written.lines().count() > 1000, "only {} lines", written.lines().count());
    if let Some(path) = env::var_os("STRAWBLUE_FIGURES") {
        fs::write(path, written).unwrap();
    }
}
