//! Places of the tacks and the order of the runs, beside the steps of a plan.

use super::{Pen, StepRow};
use crate::engine::job::Joint;
use crate::engine::plan::Phase;
use crate::engine::weld::order::{FROM_END_MM, TACK_SPACING_MM};
use crate::engine::weld_of_job::{JobWeld, Laying, Ring};
use crate::words::List;

/// Beyond a worn length a build-up ends so far, mm (common practice).
const BEYOND_MM: f64 = 15.0;

/// Puts them there. A plan without preheat has no step for its tacks: they stand before its runs.
pub(super) fn put(pen: &Pen<'_>, weld: &JobWeld<'_>, steps: &mut [StepRow]) {
    let Ok(laying) = &weld.laying else { return };
    let tacks = tack_words(pen, laying);
    let one = weld.layers.as_ref().is_ok_and(|layers| layers.beads.len() == 1);
    let mut runs = run_words(pen, laying, one);
    runs.extend(downslope(pen, weld));
    let tacked = steps.iter().any(|step| step.phase == Phase::Tack);
    for step in steps {
        match step.phase {
            Phase::Tack => {
                step.notes.splice(0..0, tacks.iter().cloned());
            }
            Phase::Weld => {
                let before = if tacked { &[][..] } else { tacks.as_slice() };
                let said = before.iter().chain(&runs).cloned();
                step.notes.splice(0..0, said);
            }
            _ => {}
        }
    }
}

fn degrees(pen: &Pen<'_>, at_deg: f64) -> String {
    // An angle has no space before its sign.
    pen.words.with("weld-angle", &[("angle", &pen.show.number(at_deg, 0))])
}

fn tack_words(pen: &Pen<'_>, laying: &Laying) -> Vec<String> {
    match laying {
        Laying::Ring(ring) => ring_tacks(pen, ring),
        Laying::Line { tack: (length_mm, runs), short, .. } => {
            let length = pen.show.rule_length(*length_mm).main;
            let key = if *runs > 1 { "weld-line-tacks.two-runs" } else { "weld-line-tacks" };
            let spacing = pen.show.rule_length(TACK_SPACING_MM).main;
            let from_end = pen.show.rule_length(FROM_END_MM).main;
            let values = [("spacing", spacing.as_str()), ("end", from_end.as_str())];
            vec![
                pen.words.with(key, &[("length", &length)]),
                if *short {
                    pen.words.get("weld-line-tack-ends")
                } else {
                    pen.words.with("weld-line-tack-places", &values)
                },
                pen.words.get("weld-tack-feather"),
            ]
        }
        Laying::NoDiameter => vec![pen.words.get("weld-no-diameter"), pen.words.get("weld-tack-feather")],
        Laying::Along | Laying::Cavity => Vec::new(),
    }
}

fn ring_tacks(pen: &Pen<'_>, ring: &Ring) -> Vec<String> {
    let length = pen.show.rule_length(ring.tacks.length_mm).main;
    let at: Vec<String> = ring.tacks.at.iter().map(|at_deg| degrees(pen, *at_deg)).collect();
    let places = pen.words.list(List::And, &at);
    let values = [("length", length.as_str()), ("places", places.as_str())];
    let mut said = vec![pen.words.count("weld-ring-tacks", ring.tacks.at.len(), &values)];
    said.extend(ring.shrunk.then(|| pen.words.get("weld-ring-tacks-shrunk")));
    said.extend([pen.words.get("weld-tack-first-of-root"), pen.words.get("weld-tack-feather")]);
    said
}

/// The order of a run, and of the next one where there is more than one.
fn run_words(pen: &Pen<'_>, laying: &Laying, one: bool) -> Vec<String> {
    let get = |keys: &[&str]| keys.iter().map(|key| pen.words.get(key)).collect::<Vec<_>>();
    match laying {
        Laying::Ring(ring) => {
            let order: Vec<String> = ring.segments.iter().map(|segment| (segment + 1).to_string()).collect();
            let order = pen.words.list(List::Comma, &order);
            let length = pen.show.rule_length(ring.segment_mm()).main;
            let values = [("length", length.as_str()), ("order", order.as_str())];
            let mut said = vec![pen.words.count("weld-ring-order", ring.segments.len(), &values)];
            said.extend((!one).then(|| pen.words.get("weld-ring-next-run")));
            said.extend(get(if ring.both { &["weld-turn-part"] } else { &["weld-turn-bar"] }));
            said
        }
        Laying::Line { step_mm, both, joint, .. } => {
            let step = pen.show.rule_length(*step_mm).main;
            let mut said = vec![pen.words.with("weld-line-order", &[("step", &step)])];
            said.extend((!one).then(|| pen.words.get("weld-line-back")));
            said.extend(both.then(|| pen.words.get("weld-turn-sides")));
            said.extend(match joint {
                Joint::Lap => Some(pen.words.get("weld-lap")),
                Joint::Butt => Some(pen.words.get("weld-butt")),
                _ => None,
            });
            said
        }
        Laying::NoDiameter => get(&["weld-opposite", "weld-turn-part"]),
        Laying::Along => {
            let beyond = pen.show.rule_length(BEYOND_MM).main;
            let mut said = get(&["weld-along"]);
            said.push(pen.words.with("weld-along-end", &[("length", &beyond)]));
            said
        }
        Laying::Cavity => get(&["weld-cavity", "weld-cavity-toes"]),
    }
}

/// How long the current of a TIG run goes down.
fn downslope(pen: &Pen<'_>, weld: &JobWeld<'_>) -> Option<String> {
    let longest =
        weld.runs.iter().filter_map(|run| run.settings.downslope.as_ref()?.value).reduce(f64::max)?;
    let seconds = pen.show.with_unit(longest.ceil(), 0, "s");
    Some(pen.words.with("weld-downslope", &[("seconds", &seconds)]))
}
