//! Trial pieces whose temperature has an open end: never flattered.

use strawblue::engine::reading::Band;
use strawblue::log::{
    CrackOutcome, Entry, Hand, Log, MemberCopy, Moment, SteelAsked, TrialPiece, bounds, cracked_above,
    known_trials,
};
use strawblue::reference::embedded;
use strawblue::report::{Pen, own_trial_warnings, taught_lines};
use strawblue::units::{Show, Units};
use strawblue::words::Words;

use crate::shop::job_of;

fn log_of(trials: &[(CrackOutcome, Band)]) -> Log {
    let mut log = Log::default();
    let hand = Hand::at("me", Moment::new(0, 0));
    let mut job = job_of(1);
    let (name, grade) = ("plate".to_owned(), Some("42CrMo4".to_owned()));
    job.plan.members = vec![MemberCopy { name, grade, ..MemberCopy::default() }];
    log.extend(hand.begin_job(job));
    for (outcome, band) in trials {
        let trial = TrialPiece {
            steel: "42CrMo4".to_owned(),
            grade: Some("42CrMo4".to_owned()),
            outcome: *outcome,
            band: *band,
            ..TrialPiece::default()
        };
        log.add(hand.clone().after(&log).begin(Entry::Trial(Box::new(trial))));
    }
    log
}

fn at_least(low_c: f64) -> Band {
    Band { low_c: Some(low_c), ..Band::default() }
}

fn said(log: &Log) -> String {
    let words = Words::english();
    let pen = Pen { reference: embedded(), words: &words, show: Show::new(Units::C_MM, &words) };
    taught_lines(&pen, &log.standing()).join(" ").replace('\u{a0}', " ")
}

/// A crayon for 150 °C melted, and nothing else is known: it may have been 300 °C.
#[test]
fn without_a_crack_only_a_known_hot_end_counts() {
    let log = log_of(&[(CrackOutcome::Sound, at_least(149.0))]);
    let standing = log.standing();
    assert!(bounds(&standing)[0].sound.is_none());
    assert!(known_trials(standing.job.as_ref().expect("a job").id, &standing).is_empty());
    assert_eq!(said(&log), "");
    let log =
        log_of(&[(CrackOutcome::Sound, at_least(149.0)), (CrackOutcome::Sound, Band::from_to(240.0, 260.0))]);
    assert_eq!(bounds(&log.standing())[0].sound.as_ref().expect("one").0, 260.0);
}

#[test]
fn a_crack_with_an_open_hot_end_always_warns() {
    for band in [at_least(149.0), Band::default()] {
        let log =
            log_of(&[(CrackOutcome::Cracked, band), (CrackOutcome::Cracked, Band::from_to(90.0, 100.0))]);
        let standing = log.standing();
        let known = known_trials(standing.job.as_ref().expect("a job").id, &standing);
        assert_eq!(known.len(), 2);
        let steel = SteelAsked { grade: Some("42CrMo4".to_owned()), ..SteelAsked::default() };
        let warned = cracked_above(&known, &[steel], 350.0);
        assert_eq!(warned.len(), 1, "{band:?}");
        assert_eq!(warned[0].1.trial.band, band);
        assert!(said(&log).contains("it may have been hotter"), "{}", said(&log));
    }
    // Whether it was hotter than one without a crack is known by its cold end alone.
    let overlap = |low_c: f64| {
        let log = log_of(&[
            (CrackOutcome::Cracked, at_least(low_c)),
            (CrackOutcome::Sound, Band::from_to(240.0, 260.0)),
        ]);
        bounds(&log.standing())[0].overlap()
    };
    assert!(!overlap(149.0) && overlap(270.0));
}

/// The job's minimum is 200 °C: its own crack there, or above it, is told at its head.
#[test]
fn a_crack_of_the_job_itself_at_its_minimum_warns() {
    let words = Words::english();
    let pen = Pen { reference: embedded(), words: &words, show: Show::new(Units::C_MM, &words) };
    let warned = |outcome, band| own_trial_warnings(&pen, &log_of(&[(outcome, band)]).standing());
    for band in [Band::from_to(190.0, 200.0), Band::from_to(240.0, 260.0), at_least(120.0)] {
        let said = warned(CrackOutcome::Cracked, band).join(" ");
        assert!(said.contains("Do not weld at this minimum") && said.contains("plate"), "{band:?}: {said}");
    }
    assert!(warned(CrackOutcome::Cracked, Band::from_to(180.0, 199.0)).is_empty());
    assert!(warned(CrackOutcome::Sound, Band::from_to(240.0, 260.0)).is_empty());
}
