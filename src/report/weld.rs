//! What the weld of a plan takes, in words: filler, runs, current, arc energy, order.

use super::beside::ToDoLine;
use super::figure::{BasisMark, basis_mark, of_unit, range};
use super::{Pen, Report, weld_steps};
use crate::engine::Unit;
use crate::engine::job::{Job, Process};
use crate::engine::plan::Plan;
use crate::engine::weld::matching::WeldKind;
use crate::engine::weld::order::Face;
use crate::engine::weld_of_job::{
    AsPart, BaseStrength, Chosen, ChosenFiller, JobWeld, LayerNote, Layers, Laying, NoLayers, RunOfJob,
    RunTold, StrengthFrom, faces_in_turn, weld_of_job,
};
use crate::reference::{Basis, DepositKind, Filler};
use crate::units::Both;
use crate::words::List;

/// A rounded current, A.
const AMPS_STEP: f64 = 5.0;
/// A rounded travel speed, mm/min.
const TRAVEL_STEP: f64 = 5.0;
/// So many turns of the faces are written out.
const TURNS: usize = 8;

/// Puts what the weld takes into a report: its lines, and its places and order beside the steps. It is given
/// back to be drawn.
pub fn put_weld<'a>(
    pen: &Pen<'a>,
    job: &'a Job,
    told: &[RunTold],
    plan: &'a Plan,
    report: &mut Report,
) -> Option<JobWeld<'a>> {
    let weld = weld_of_job(pen.reference, job, told, plan)?;
    weld_steps::put(pen, &weld, &mut report.steps);
    report.weld = lines(pen, &weld);
    Some(weld)
}

/// What the numbers of the drawn beads are, with the process of each where there are several.
#[must_use]
pub fn beads_of(pen: &Pen<'_>, weld: &JobWeld<'_>) -> String {
    let Ok(layers) = &weld.layers else { return String::new() };
    let leg = pen.show.size(layers.fillet.first_mm).main;
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
        lines.push(current_line(pen, run, label(pen, "weld-current", run.process, several), nth));
        lines.push(energy_line(pen, run, label(pen, "weld-energy", run.process, several), nth));
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

fn process_name(pen: &Pen<'_>, process: Process) -> String {
    pen.words.get(&format!("process-{}", process.id()))
}

fn line(
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
    let why_none = pen.words.get(&format!("{none}.why"));
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
    let lead = fillers.lead();
    if let Some(lead) = lead.filter(|lead| !matches!(lead.verdict, Chosen::Refused(_))) {
        said.extend(lead_words(pen, weld, lead));
        let solid = matches!(run.process, Process::Gtaw | Process::Gmaw | Process::Paw);
        let key = if solid { "weld-filler-clean" } else { "weld-filler-packet" };
        let hydrogen = pen.show.hydrogen(fillers.hydrogen_ml);
        said.extend(ferritic(lead.filler).then(|| pen.words.with(key, &[("hydrogen", &hydrogen)])));
        basis = basis_mark(pen, &pen.reference.welding.strength.matching_basis);
    }
    let hardens = weld.need.driest_process && lead.is_none_or(|lead| ferritic(lead.filler));
    if hardens && run.process != Process::Gtaw && !weld.other_metal {
        said.push(pen.words.get("weld-driest-process"));
    }
    line(pen, format!("filler-{nth}"), label, value, &said, basis)
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
    of_unit(mm2.round(), Unit::SquareMillimetre, &pen.show)
}

fn layer_words(pen: &Pen<'_>, weld: &JobWeld<'_>, layers: &Layers) -> Vec<String> {
    let leg = pen.show.size(layers.fillet.first_mm).main;
    let whole = [("leg", leg), ("area", area(pen, layers.need_mm2))];
    let whole: Vec<(&str, &str)> = whole.iter().map(|(name, text)| (*name, text.as_str())).collect();
    let mut said = vec![pen.words.with("weld-leg-area", &whole)];
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
            LayerNote::FirstFills => pen.words.get("weld-runs-first-fills"),
            LayerNote::SmallFirst => pen.words.get("note-runs-small-first"),
            LayerNote::Capped | LayerNote::ToesFirst => continue,
        });
    }
    if let Some(size) = &weld.size {
        said.extend(size.too_small.then(|| pen.words.get("note-fillet-too-small")));
        said.extend(size.above_plate.then(|| pen.words.get("note-fillet-above-plate")));
    }
    said.extend([pen.words.get("weld-position"), pen.words.get("note-runs-estimate")]);
    said
}

/// A current, to what a machine is set to.
fn amps(pen: &Pen<'_>, low: f64, high: f64) -> String {
    let shown = |amps: f64| pen.show.with_unit((amps / AMPS_STEP).round() * AMPS_STEP, 0, "A");
    if low.total_cmp(&high).is_eq() {
        pen.show.with_unit(high, 0, "A")
    } else {
        range(pen, &shown(low), &shown(high))
    }
}

fn current_line(pen: &Pen<'_>, run: &RunOfJob<'_>, label: String, nth: usize) -> ToDoLine {
    let set = &run.settings;
    let outcome = |name: &str| set.outcomes.iter().find(|one| one.name == name);
    let mut said = Vec::new();
    for row in set.outcomes.iter().filter(|one| matches!(one.name, "electrode-range" | "wire-spray-amps")) {
        let (Some(id), Some((low, high))) = (&row.row, row.low.zip(row.high)) else { continue };
        let kind = if row.name == "electrode-range" { "electrode" } else { "wire" };
        let rod = pen.words.get(&format!("option-{kind}-{id}"));
        said.push(pen.words.with("weld-current-row", &[("rod", &rod), ("amps", &amps(pen, low, high))]));
    }
    let size = |name: &str| outcome(name).and_then(|one| one.value).map(|mm| pen.show.size(mm).main);
    let between = |name: &str, unit: &str| {
        let (low, high) = outcome(name).and_then(|one| one.low.zip(one.high))?;
        let shown = |value: f64| {
            if unit.is_empty() { pen.show.number(value, 0) } else { pen.show.with_unit(value, 0, unit) }
        };
        Some(range(pen, &shown(low), &shown(high)))
    };
    if let (Some(tungsten), Some(rod)) = (size("tig-tungsten"), size("tig-rod")) {
        said.push(pen.words.with("weld-tungsten", &[("tungsten", &tungsten), ("rod", &rod)]));
    }
    if let (Some(cup), Some(argon)) = (between("tig-cup", ""), between("tig-argon", "l/min")) {
        said.push(pen.words.with("weld-cup", &[("cup", &cup), ("argon", &argon)]));
    }
    let own = |id: &str| if id.starts_with("current-") { format!("weld-{id}") } else { format!("note-{id}") };
    said.extend(set.notes.iter().map(|id| pen.words.get(&own(id))));
    let value = match (set.amps, set.outcomes.first().map(|one| one.name)) {
        (Some((low, high)), _) => amps(pen, low, high),
        (None, Some("wire-spray-amps")) => pen.words.get("weld-current-spray"),
        (None, Some("electrode-range")) => pen.words.get("weld-current-by-size"),
        (None, _) => pen.words.get("weld-current-open"),
    };
    let mut basis: Option<&Basis> = None;
    for one in &set.outcomes {
        let own = one.basis(&pen.reference.methods);
        basis = Some(basis.map_or(own, |before| before.weaker(own)));
    }
    let basis = basis.map_or_else(BasisMark::default, |basis| basis_mark(pen, basis));
    line(pen, format!("current-{nth}"), label, value, &said, basis)
}

fn energy_line(pen: &Pen<'_>, run: &RunOfJob<'_>, label: String, nth: usize) -> ToDoLine {
    let energy = &run.energy;
    let net = pen.show.heat(energy.net_kj_per_mm).main;
    let key = if energy.told { "weld-energy-told" } else { "weld-energy-assumed" };
    let mut said = vec![pen.words.with(key, &[("net", &net)])];
    if let Some((slow, fast)) = energy.travel_mm_per_s {
        let step = |mm_per_s: f64| (mm_per_s * 60.0 / TRAVEL_STEP).round() * TRAVEL_STEP;
        let shown = |mm_per_s: f64| -> Both { pen.show.travel(step(mm_per_s)) };
        let travel = range(pen, &shown(slow).main, &shown(fast).main);
        said.push(pen.words.with("weld-energy-travel", &[("travel", &travel)]));
    }
    let value = pen.show.heat(energy.arc_kj_per_mm).main;
    let basis = basis_mark(pen, efficiency_basis(pen, run.process));
    line(pen, format!("energy-{nth}"), label, value, &said, basis)
}

fn efficiency_basis<'a>(pen: &Pen<'a>, process: Process) -> &'a Basis {
    pen.reference.process(process.id()).map_or(&Basis::Practice, |row| &row.efficiency_basis)
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
    said.extend((passes > 1).then(|| pen.words.get("weld-order-rows")));
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
