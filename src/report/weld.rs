//! What the weld of a plan takes, in words: filler, runs, current, arc energy, order.

use super::beside::ToDoLine;
use super::figure::{BasisMark, basis_mark, of_unit, range};
use super::{Pen, Report, weld_amount, weld_current, weld_steps};
use crate::engine::Unit;
use crate::engine::job::{Job, Process};
use crate::engine::plan::Plan;
use crate::engine::weld::matching::{WeldKind, WeldLoad};
use crate::engine::weld::order::Face;
use crate::engine::weld_of_job::{
    AsPart, BaseStrength, Chosen, ChosenFiller, JobWeld, Laid, LayerNote, Layers, Laying, NoLayers, RunOfJob,
    StrengthFrom, WeldTold, faces_in_turn, weld_of_job,
};
use crate::reference::{Basis, DepositKind, Filler, Told};
use crate::units::LengthUnit;
use crate::words::List;

/// A square inch, mm².
const SQUARE_INCH_MM2: f64 = 645.16;
/// So many turns of the faces are written out.
const TURNS: usize = 8;

/// Puts what the weld takes into a report: its lines, and its places and order beside the steps. It is given
/// back to be drawn.
pub fn put_weld<'a>(
    pen: &Pen<'a>,
    job: &'a Job,
    told: &WeldTold,
    plan: &'a Plan,
    report: &mut Report,
) -> Option<JobWeld<'a>> {
    let weld = weld_of_job(pen.reference, job, told, plan)?;
    weld_steps::put(pen, &weld, &mut report.steps);
    report.answer.lines.extend(colder(pen, &weld));
    report.weld = lines(pen, &weld);
    Some(weld)
}

/// Runs that bring less heat than the plan counts with need more preheat: asked above the figure.
fn colder(pen: &Pen<'_>, weld: &JobWeld<'_>) -> Vec<String> {
    let notes = weld.layers.iter().flat_map(|layers| &layers.notes);
    let asked = notes.filter_map(|note| {
        let LayerNote::Colder { process, net_kj_per_mm, .. } = *note else { return None };
        let heat = pen.show.heat(net_kj_per_mm).main;
        let process = process_name(pen, weld.runs.get(process)?.process);
        Some(pen.words.with("ask-colder-runs", &[("heat", &heat), ("process", &process)]))
    });
    asked.collect()
}

/// What the numbers of the drawn beads are, with the process of each where there are several.
#[must_use]
pub fn beads_of(pen: &Pen<'_>, weld: &JobWeld<'_>) -> String {
    let Ok(layers) = &weld.layers else { return String::new() };
    let Laid::Fillet(fillet) = layers.laid else { return String::new() };
    let leg = pen.show.size(fillet.first_mm).main;
    let mut said = vec![pen.words.with("weld-section-title", &[("leg", &leg)])];
    let several = layers.of.iter().filter(|of| of.count > 0).count() > 1;
    let mut first = 1;
    for (of, run) in layers.of.iter().zip(&weld.runs).filter(|(of, _)| several && of.count > 0) {
        let runs = range(pen, &first.to_string(), &(first + of.count - 1).to_string());
        let values = [("runs", runs), ("process", process_name(pen, run.process))];
        let values: Vec<(&str, &str)> = values.iter().map(|(name, text)| (*name, text.as_str())).collect();
        said.push(pen.words.with("weld-section-of", &values));
        first += of.count;
    }
    pen.words.list(List::Sentences, &said)
}

/// Sentences that say a message each.
pub(super) fn said(pen: &Pen<'_>, keys: impl IntoIterator<Item = &'static str>) -> Vec<String> {
    keys.into_iter().map(|key| pen.words.get(key)).collect()
}

fn lines(pen: &Pen<'_>, weld: &JobWeld<'_>) -> Vec<ToDoLine> {
    let several = weld.runs.len() > 1;
    let mut lines = Vec::new();
    for (nth, run) in weld.runs.iter().enumerate() {
        lines.push(filler_line(pen, weld, run, label(pen, "weld-filler", run.process, several), nth));
    }
    lines.push(runs_line(pen, weld));
    for (nth, run) in weld.runs.iter().enumerate() {
        lines.push(weld_current::current_line(
            pen,
            (run, weld.position),
            label(pen, "weld-current", run.process, several),
            nth,
        ));
        lines.push(weld_current::energy_line(pen, run, label(pen, "weld-energy", run.process, several), nth));
        lines.extend(weld_amount::line_of(pen, run, label(pen, "weld-amount", run.process, several), nth));
    }
    lines.extend(order_line(pen, weld));
    lines
}

/// A label, with the process where the job has several.
fn label(pen: &Pen<'_>, key: &str, process: Process, several: bool) -> String {
    if !several {
        return pen.words.get(key);
    }
    pen.words.with(&format!("{key}.of"), &[("process", &process_name(pen, process))])
}

pub(super) fn process_name(pen: &Pen<'_>, process: Process) -> String {
    pen.words.get(&format!("process-{}", process.id()))
}

pub(super) fn line(
    pen: &Pen<'_>,
    id: String,
    label: String,
    value: String,
    said: &[String],
    basis: BasisMark,
) -> ToDoLine {
    ToDoLine { id, label, value, note: pen.words.list(List::Sentences, said), basis }
}

fn filler_line(pen: &Pen<'_>, weld: &JobWeld<'_>, run: &RunOfJob<'_>, label: String, nth: usize) -> ToDoLine {
    let fillers = &run.fillers;
    let names: Vec<&str> = fillers.offered.iter().map(|filler| filler.classification.as_str()).collect();
    let offered = pen.words.list(List::Or, &names);
    let none = match (weld.other_metal, weld.strength_is_open()) {
        (true, _) => "weld-filler-other-metal",
        (_, true) => "weld-filler-open",
        _ => "weld-filler-none",
    };
    let mut why_none = pen.words.get(&format!("{none}.why"));
    if let Some(base) = weld.base.filter(|_| none == "weld-filler-none") {
        let part =
            pen.words.with("weld-base-strength", &[("base", &pen.show.strength(base.tensile_mpa).main)]);
        why_none = pen.words.list(List::Sentences, &[part, why_none]);
    }
    let mut said = Vec::new();
    let mut basis = BasisMark::default();
    let value = match &fillers.chosen {
        Some(ChosenFiller { filler, verdict: Chosen::Refused(why), .. }) => {
            said.push(pen.words.get(&format!("weld-{}", why.id())));
            said.extend(strengths(pen, weld, filler));
            said.push(match names.is_empty() {
                true => why_none,
                false => pen.words.with("weld-filler-instead", &[("fillers", &offered)]),
            });
            pen.words.with("weld-filler-refused", &[("filler", &filler.classification)])
        }
        Some(chosen) => chosen.filler.classification.clone(),
        None if names.is_empty() => {
            said.push(why_none);
            pen.words.get(none)
        }
        None => offered,
    };
    said.extend(load_words(pen, weld));
    let lead = fillers.lead();
    if let Some(lead) = lead.filter(|lead| !matches!(lead.verdict, Chosen::Refused(_))) {
        said.extend(lead_words(pen, weld, lead));
        let solid = matches!(run.process, Process::Gtaw | Process::Gmaw | Process::Paw);
        let key = if solid { "weld-filler-clean" } else { "weld-filler-packet" };
        let hydrogen = pen.show.hydrogen(fillers.hydrogen_ml);
        // Rutile and cellulosic packets name no class.
        let classed = pen.reference.low_hydrogen(run.process.id());
        said.extend(
            (ferritic(lead.filler) && classed).then(|| pen.words.with(key, &[("hydrogen", &hydrogen)])),
        );
        basis = basis_mark(pen, &pen.reference.welding.strength.matching_basis);
    }
    let hardens = weld.need.driest_process && lead.is_none_or(|lead| ferritic(lead.filler));
    if hardens && run.process != Process::Gtaw && !weld.other_metal {
        said.push(pen.words.get("weld-driest-process"));
    }
    line(pen, format!("filler-{nth}"), label, value, &said, basis)
}

/// How a full groove is loaded decides what must match.
fn load_words(pen: &Pen<'_>, weld: &JobWeld<'_>) -> Option<String> {
    let key = if weld.load == WeldLoad::NotKnown { "weld-load-open" } else { "weld-load-told" };
    let load = pen.words.get(weld.load.key());
    (weld.kind == WeldKind::FullGroove && !weld.other_metal).then(|| pen.words.with(key, &[("load", &load)]))
}

const fn ferritic(filler: &Filler) -> bool {
    matches!(filler.deposit, DepositKind::Ferritic | DepositKind::Martensitic)
}

/// The strength of a filler against that of the weaker part.
fn strengths(pen: &Pen<'_>, weld: &JobWeld<'_>, filler: &Filler) -> Vec<String> {
    let Some((base, mpa)) = weld.base.zip(filler.tensile_min_mpa) else { return Vec::new() };
    let strength = |mpa: f64| pen.show.strength(mpa).main;
    let (own, part) = (strength(mpa), strength(base.tensile_mpa));
    let both = pen.words.with("weld-strengths", &[("filler", &own), ("base", &part)]);
    std::iter::once(both).chain(taken_from(pen, base)).collect()
}

/// Strength against the weaker part, and whether less is enough.
fn lead_words(pen: &Pen<'_>, weld: &JobWeld<'_>, lead: &ChosenFiller<'_>) -> Vec<String> {
    let mut said = strengths(pen, weld, lead.filler);
    match lead.verdict {
        Chosen::StrengthOpen => said.push(pen.words.get("weld-filler-open.why")),
        Chosen::Fits(verdict) if !(lead.weaker && weld.kind == WeldKind::Fillet) => {
            said.push(pen.words.get(&format!("note-{}", verdict.id())));
        }
        _ => said.extend(enough(pen, lead.as_part.as_ref())),
    }
    said.extend(lead.yield_lower.then(|| pen.words.get("note-match-yield-lower")));
    said.extend((!ferritic(lead.filler)).then(|| pen.words.get("note-filler-austenitic-preheat")));
    said
}

/// What the strength of the part is taken from, where it is not the usual.
fn taken_from(pen: &Pen<'_>, base: BaseStrength) -> Option<String> {
    (base.from != StrengthFrom::Grade).then(|| pen.words.get(&format!("weld-base-{}", base.from.id())))
}

/// Is a weaker filler enough in this fillet?
fn enough(pen: &Pen<'_>, as_part: Option<&AsPart>) -> Vec<String> {
    let Some(part) = as_part else { return said(pen, ["weld-weaker", "weld-weaker-load"]) };
    let id = part.part.id();
    let Some(leg_mm) = part.leg.value else { return said(pen, ["weld-weaker", "weld-weaker-load"]) };
    let leg = pen.show.least_length(leg_mm).main;
    let needs = pen.words.with(&format!("weld-as-{id}"), &[("leg", &leg)]);
    if part.enough {
        return vec![needs, pen.words.get("weld-weaker-enough")];
    }
    vec![pen.words.get("weld-weaker"), needs, pen.words.get("weld-weaker-load")]
}

fn runs_line(pen: &Pen<'_>, weld: &JobWeld<'_>) -> ToDoLine {
    let both = matches!(&weld.laying, Ok(Laying::Ring(ring)) if ring.both)
        || matches!(&weld.laying, Ok(Laying::Line { both: true, .. }));
    let label = pen.words.get(if both { "weld-runs.each" } else { "weld-runs" });
    let mut basis = BasisMark::default();
    let (value, mut said) = match &weld.layers {
        Ok(layers) => {
            let processes = layers.of.iter().enumerate().filter(|(_, of)| of.count > 0);
            let counts: Vec<String> = processes
                .map(|(_, of)| {
                    let (low, high) = of.span;
                    range(pen, &low.to_string(), &high.to_string())
                })
                .collect();
            basis = basis_mark(pen, runs_basis(pen, weld));
            (pen.words.list(List::Plus, &counts), layer_words(pen, weld, layers))
        }
        Err(NoLayers::NoLeg) => (pen.words.get("weld-no-leg"), said(pen, ["weld-no-leg.why"])),
        Err(NoLayers::NotCounted) => (pen.words.get("weld-not-counted"), said(pen, ["weld-not-counted.why"])),
        Err(NoLayers::Groove) => (pen.words.get("weld-groove"), said(pen, ["weld-groove.why"])),
        Err(NoLayers::Process(nth)) => {
            let process = weld.runs.get(*nth).map_or_else(String::new, |run| process_name(pen, run.process));
            let why = pen.words.with("weld-runs-open.why", &[("process", &process)]);
            (pen.words.get("weld-runs-open"), vec![why])
        }
        Err(NoLayers::Outside(_)) => (pen.words.get("weld-runs-open"), said(pen, ["weld-runs-outside"])),
    };
    let least = weld.size.as_ref().and_then(|size| size.outcomes.iter().find(|one| one.name == "least-leg"));
    if let (Err(NoLayers::NoLeg), Some(least)) = (&weld.layers, least.and_then(|least| least.value)) {
        said.push(pen.words.with("weld-least-leg", &[("leg", &pen.show.least_length(least).main)]));
    }
    line(pen, "runs".to_owned(), label, value, &said, basis)
}

/// The basis of the run areas of the weakest process.
fn runs_basis<'a>(pen: &Pen<'a>, weld: &JobWeld<'_>) -> &'a Basis {
    let runs = &pen.reference.welding.runs;
    let rows = weld.runs.iter().filter_map(|run| runs.process(run.process.id()));
    rows.map(|row| &row.basis).reduce(|one, other| one.weaker(other)).unwrap_or(&Basis::Practice)
}

fn area(pen: &Pen<'_>, mm2: f64) -> String {
    match pen.show.units.length {
        LengthUnit::Mm => of_unit(mm2.round(), Unit::SquareMillimetre, &pen.show),
        LengthUnit::Inch => pen.show.with_unit(mm2 / SQUARE_INCH_MM2, 2, "in²"),
    }
}

fn layer_words(pen: &Pen<'_>, weld: &JobWeld<'_>, layers: &Layers) -> Vec<String> {
    let whole = area(pen, layers.need_mm2);
    let mut said = vec![match layers.laid {
        Laid::Fillet(fillet) => {
            let leg = pen.show.size(fillet.first_mm).main;
            pen.words.with("weld-leg-area", &[("leg", &leg), ("area", &whole)])
        }
        Laid::Groove(groove) => {
            let (depth, shape) = (pen.show.size(groove.thickness_mm).main, pen.words.get(groove.shape.key()));
            pen.words.with("weld-groove-area", &[("shape", &shape), ("depth", &depth), ("area", &whole)])
        }
    }];
    let several = layers.of.iter().filter(|of| of.count > 0).count() > 1;
    for (of, run) in layers.of.iter().zip(&weld.runs).filter(|(of, _)| of.count > 0) {
        let (each, process) = (area(pen, of.each_mm2), process_name(pen, run.process));
        let key = if several { "weld-each-run.of" } else { "weld-each-run" };
        said.push(pen.words.with(key, &[("area", &each), ("process", &process)]));
    }
    for note in &layers.notes {
        let process =
            |nth: usize| weld.runs.get(nth).map_or_else(String::new, |run| process_name(pen, run.process));
        said.push(match *note {
            LayerNote::Colder { process: nth, net_kj_per_mm, told } => {
                let heat = pen.show.heat(net_kj_per_mm).main;
                let key = if told { "weld-runs-colder.told" } else { "weld-runs-colder" };
                pen.words.with(key, &[("heat", &heat), ("process", &process(nth))])
            }
            LayerNote::TooFew { process: nth, needed } => {
                pen.words.count("weld-runs-too-few", needed, &[("process", &process(nth))])
            }
            LayerNote::NotMelted => pen.words.get("weld-not-melted"),
            LayerNote::FirstFills => pen.words.get("weld-runs-first-fills"),
            LayerNote::SmallFirst => pen.words.get("note-runs-small-first"),
            LayerNote::Capped | LayerNote::ToesFirst => continue,
        });
    }
    if let Some(size) = &weld.size {
        said.extend(size.too_small.then(|| pen.words.get("note-fillet-too-small")));
        said.extend(size.above_plate.then(|| pen.words.get("note-fillet-above-plate")));
    }
    said.extend(match (layers.laid, weld.position) {
        (Laid::Fillet(_), Some(position)) => {
            Some(pen.words.with("weld-position-told", &[("position", &pen.words.get(position.key()))]))
        }
        (Laid::Fillet(_), None) => Some(pen.words.get("weld-position")),
        (Laid::Groove(_), _) => None,
    });
    said.push(pen.words.get("note-runs-estimate"));
    said
}

/// The order over the faces and within the section; the places stand beside the steps.
fn order_line(pen: &Pen<'_>, weld: &JobWeld<'_>) -> Option<ToDoLine> {
    let layers = weld.layers.as_ref().ok();
    let passes = layers.map_or(0, |layers| layers.beads.len());
    let both = match weld.laying.as_ref().ok()? {
        Laying::Ring(ring) => ring.both,
        Laying::Line { both, .. } => *both,
        Laying::NoDiameter => true,
        Laying::Along | Laying::Cavity => return None,
    };
    let mut said = Vec::new();
    let value = if both && passes > 0 {
        let turns = faces_in_turn(passes, true);
        let mut named: Vec<String> = turns.iter().take(TURNS).map(|turn| face_run(pen, *turn)).collect();
        named.extend((turns.len() > TURNS).then(|| pen.words.get("weld-order-more")));
        said.push(pen.words.get("weld-order-faces"));
        pen.words.list(List::Comma, &named)
    } else if both {
        said.push(pen.words.get("weld-order-faces"));
        pen.words.get("weld-order-in-turn")
    } else if passes > 1 {
        pen.words.get("weld-order-root-first")
    } else {
        return None;
    };
    let groove = layers.is_some_and(|layers| matches!(layers.laid, Laid::Groove(_)));
    let order = if groove { "weld-order-layers" } else { "weld-order-rows" };
    said.extend((passes > 1).then(|| pen.words.get(order)));
    let toes = layers.is_some_and(|layers| layers.notes.contains(&LayerNote::ToesFirst));
    said.extend(toes.then(|| pen.words.get("weld-order-toes")));
    let basis = basis_mark(pen, &Basis::Practice);
    Some(line(pen, "order".to_owned(), pen.words.get("weld-order"), value, &said, basis))
}

/// A run of a face: A1.
fn face_run(pen: &Pen<'_>, (face, pass): (Face, usize)) -> String {
    let key = if face == Face::A { "weld-face-run.first" } else { "weld-face-run.second" };
    pen.words.with(key, &[("run", &pass.to_string())])
}
