//! What would change a limit and nobody told is asked before the first step; what must not be is said above
//! the figures.

use strawblue::engine::plan::Find;
use strawblue::engine::weld_of_job::weld_of_job;
use strawblue::reference::embedded;
use strawblue::report::{Pen, Report, put_weld};
use strawblue::units::{Show, Units};
use strawblue::words::Words;

use crate::on_top::{made, remarks};

fn job<'a>(more: &[(&'a str, &'a str)]) -> Vec<(&'a str, &'a str)> {
    let mut pairs = vec![("steel", "4140"), ("thickness", "30 mm"), ("joint", "t-fillet-both-sides")];
    pairs.extend_from_slice(more);
    pairs
}

/// A packet of basic electrodes holds one of several classes; a bare rod has none to read.
#[test]
fn the_class_on_the_packet_is_asked() {
    for (process, hydrogen, asks) in [
        ("smaw basic", "", true),
        ("smaw basic", "H5", false),
        ("fcaw", "", true),
        ("gtaw", "", false),
        ("gtaw + smaw basic", "3 ml + H4", false),
        ("smaw rutile", "", false),
    ] {
        let (_, plan) = made(&job(&[("process", process), ("hydrogen", hydrogen)]));
        assert_eq!(plan.sequence.find.contains(&Find::Hydrogen), asks, "{process} {hydrogen}");
    }
    // Where hydrogen decides nothing it is not asked.
    let (_, stainless) =
        made(&[("steel", "304"), ("thickness", "10"), ("joint", "lap"), ("process", "smaw basic")]);
    assert!(!stainless.sequence.find.contains(&Find::Hydrogen));
}

/// Rutile and cellulosic electrodes on steel that hardens: common practice, no source.
#[test]
fn a_wet_electrode_on_steel_that_hardens_is_warned_of_above_the_figures() {
    for (steel, process, warned) in [
        ("4140", "smaw rutile", true),
        ("1045", "smaw cellulosic", true),
        ("4140", "smaw basic", false),
        ("S235JR", "smaw rutile", false),
    ] {
        let pairs = [("steel", steel), ("thickness", "20"), ("joint", "lap"), ("process", process)];
        assert_eq!(remarks(&pairs).contains(&"wet-electrode"), warned, "{steel} {process}");
    }
}

/// The runs that are told bring less heat than the plan counts with: that is asked above the figure.
#[test]
fn runs_too_small_for_their_heat_are_asked_above_the_figure() {
    let asked = |runs: &str| {
        let pairs = job(&[
            ("process", "smaw basic"),
            ("hydrogen", "H4"),
            ("leg", "8 mm"),
            ("heat-input", "1.2"),
            ("runs", runs),
        ]);
        let (read, plan) = made(&pairs);
        let words = Words::english();
        let pen = Pen { reference: embedded(), words: &words, show: Show::new(Units::C_MM, &words) };
        let mut report = Report::of(&pen, &read.job, &plan);
        assert!(weld_of_job(embedded(), &read.job, &read.told, &plan).is_some());
        put_weld(&pen, &read.job, &read.told, &plan, &mut report);
        report.answer.lines.iter().any(|line| line.contains("Type that as heat input"))
    };
    assert!(asked("4") && !asked("2"));
}
