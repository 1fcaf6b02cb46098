//! Sizes of a weld, its runs, and what it takes.

use super::{Answers, Input, Kind, OfPlan, Preset, Problem, Question, Reply, Work};
use crate::engine::weld::amount::{AmountQuery, Rod, amount};
use crate::engine::weld::fillet::{Fillet, FilletQuery, fillet_size};
use crate::engine::weld::groove::{
    Groove, GrooveShape, USUAL_FACE_MM, USUAL_GAP_MM, USUAL_RADIUS_MM, USUAL_V_DEG, groove_area,
};
use crate::engine::weld::runs::{MeasuredRuns, RunOf, RunsQuery, fillet_runs, runs_left};
use crate::reference::{Position, RunProcess, embedded};
use crate::units::Quantity;

/// Rows of `data/weld_runs.ron`.
pub(super) const PROCESSES: &[&str] = &["gtaw", "smaw-basic", "gmaw", "mcaw", "fcaw", "saw"];
/// Ids of [`Position`].
const POSITIONS: &[&str] = &["flat", "horizontal", "vertical-up", "overhead"];
const SHAPES: &[&str] = <GrooveShape as strum::VariantNames>::VARIANTS;
const TIG: &str = "gtaw";
const COVERED: &str = "smaw-basic";

pub(super) const LEG: Input = Input::new("leg", Kind::Length).required().within(1.0, 60.0).of(OfPlan::Leg);
pub(super) const SECOND_LEG: Input = Input::new("second-leg", Kind::Length).within(1.0, 60.0);
pub(super) const PROCESS: Input =
    Input::new("process", Kind::Choice(PROCESSES)).required().of(OfPlan::FillProcess);
pub(super) const POSITION: Input =
    Input::new("position", Kind::Choice(POSITIONS)).or(Preset::Choice("horizontal"));
const ENERGY: Input = Input::new("arc-energy", Kind::HeatInput).within(0.05, 10.0);
const PER_ENERGY: Input = Input::new("area-per-energy", Kind::Number).within(1.0, 60.0);
const THICKER: Input = Input::new("thicker-part", Kind::Length).within(0.5, 5000.0).of(OfPlan::Thickness);

pub(super) fn process(given: &Answers) -> Result<&'static RunProcess, Problem> {
    let id = given.maybe_choice("process").ok_or_else(|| Problem::Missing { keys: vec!["process"] })?;
    embedded().welding.runs.process(id).ok_or(Problem::WrongKind { key: "process" })
}

pub(super) fn fillet(given: &Answers) -> Result<Fillet, Problem> {
    Ok(Fillet::checked(given.number("leg")?, given.maybe_number("second-leg"))?)
}

fn run_of(given: &Answers) -> Result<RunOf<'static>, Problem> {
    Ok(RunOf {
        runs: &embedded().welding.runs,
        process: process(given)?,
        energy_kj_per_mm: given.maybe_number("arc-energy"),
        per_energy_mm2: given.maybe_number("area-per-energy"),
    })
}

/// Size of a fillet.
pub(super) static FILLET_SIZE: Question = Question {
    name: "fillet-size",
    work: Work::Weld,
    inputs: &[
        LEG,
        SECOND_LEG,
        Input::new("convexity", Kind::Length).within(-40.0, 45.0),
        Input::new("thinner-part", Kind::Length).within(0.5, 5000.0),
        THICKER,
        Input::new("low-hydrogen", Kind::Flag).or(Preset::Flag(true)),
        Input::new("cyclic-load", Kind::Flag).or(Preset::Flag(false)),
    ],
    answers: &[
        "fillet-throat",
        "fillet-throat-smaller",
        "fillet-area-flat",
        "fillet-area",
        "least-leg",
        "least-throat",
    ],
    notes: &[
        "fillet-too-small",
        "fillet-above-plate",
        "fillet-too-convex",
        "fillet-smaller-throat",
        "fillet-planned-convexity",
        "fillet-hollow",
    ],
    answer: |given| {
        let fillet = fillet(given)?;
        let convexity_mm = given.maybe_number("convexity");
        let asked = FilletQuery {
            fillet,
            convexity_mm,
            thinner_mm: given.maybe_number("thinner-part"),
            thicker_mm: given.maybe_number("thicker-part"),
            low_hydrogen: given.flag("low-hydrogen"),
            cyclic: given.flag("cyclic-load"),
        };
        let found = fillet_size(&embedded().welding.runs, &asked)?;
        let reply = Reply::of(found.outcomes);
        let uneven = reply.answer("fillet-throat-smaller").is_some();
        Ok(reply
            .note_if(found.too_small, "fillet-too-small")
            .note_if(found.above_plate, "fillet-above-plate")
            .note_if(found.too_convex, "fillet-too-convex")
            .note_if(uneven, "fillet-smaller-throat")
            .note_if(convexity_mm.is_none(), "fillet-planned-convexity")
            .note_if(convexity_mm.is_some_and(|mm| mm < 0.0), "fillet-hollow"))
    },
};

/// Area of a groove.
pub(super) static GROOVE_AREA: Question = Question {
    name: "groove-area",
    work: Work::Weld,
    inputs: &[
        Input::new("groove-shape", Kind::Choice(SHAPES)).or(Preset::Choice("v")),
        Input::new("thickness", Kind::Length).required().within(0.5, 500.0).of(OfPlan::Thickness),
        Input::new("groove-angle", Kind::Of(Quantity::Angle))
            .or(Preset::Number(USUAL_V_DEG))
            .within(0.0, 120.0),
        Input::new("root-gap", Kind::Length).or(Preset::Number(USUAL_GAP_MM)).within(0.0, 20.0),
        Input::new("root-face", Kind::Length).or(Preset::Number(USUAL_FACE_MM)).within(0.0, 500.0),
        Input::new("groove-radius", Kind::Length).or(Preset::Number(USUAL_RADIUS_MM)).within(0.1, 100.0),
        Input::new("first-depth", Kind::Length).within(0.0, 500.0),
        Input::new("second-angle", Kind::Of(Quantity::Angle)).within(0.0, 120.0),
        Input::new("process", Kind::Choice(PROCESSES)).of(OfPlan::FillProcess),
        ENERGY,
        PER_ENERGY,
    ],
    answers: &["groove-area", "groove-filled", "groove-layers", "groove-runs"],
    notes: &["groove-angle-means", "groove-second-side", "runs-estimate"],
    answer: |given| {
        let shape = given.choice("groove-shape", GrooveShape::ALL, GrooveShape::id)?;
        let angle_deg = given.number("groove-angle")?;
        let groove = Groove {
            shape,
            thickness_mm: given.number("thickness")?,
            angle_deg,
            second_angle_deg: given.maybe_number("second-angle").unwrap_or(angle_deg),
            face_mm: given.number("root-face")?,
            gap_mm: given.number("root-gap")?,
            radius_mm: given.number("groove-radius")?,
            first_depth_mm: given.maybe_number("first-depth"),
        };
        let run = if given.maybe_choice("process").is_some() { Some(run_of(given)?) } else { None };
        let counted = run.is_some();
        Ok(Reply::of(groove_area(&groove, run)?)
            .note_if(shape != GrooveShape::Square, "groove-angle-means")
            .note_if(!shape.double(), "groove-second-side")
            .note_if(counted, "runs-estimate"))
    },
};

fn runs_query(given: &Answers) -> Result<RunsQuery<'static>, Problem> {
    let run = run_of(given)?;
    Ok(RunsQuery {
        fillet: fillet(given)?,
        run,
        position: given.choice("position", Position::ALL, Position::id)?,
        efficiency: embedded().efficiency(&run.process.id),
        thickness_mm: given.maybe_number("thicker-part"),
    })
}

/// Runs of a fillet.
pub(super) static FILLET_RUNS: Question = Question {
    name: "fillet-runs",
    work: Work::Weld,
    inputs: &[LEG, SECOND_LEG, PROCESS, POSITION, ENERGY, PER_ENERGY, THICKER],
    answers: &[
        "runs-count",
        "runs-area",
        "runs-each",
        "runs-first-leg",
        "runs-largest-leg",
        "runs-energy-for-one",
    ],
    notes: &[
        "runs-small-first",
        "runs-capped",
        "runs-no-energy",
        "runs-order",
        "runs-last-bead",
        "runs-estimate",
    ],
    answer: |given| {
        let query = runs_query(given)?;
        let found = fillet_runs(&query)?;
        Ok(Reply::of(found.outcomes)
            .note_if(found.small_first, "runs-small-first")
            .note_if(found.capped, "runs-capped")
            .note_if(query.run.energy_kj_per_mm.is_none(), "runs-no-energy")
            .note_if(found.count > 1.0, "runs-order")
            .note_if(found.count > 2.0, "runs-last-bead")
            .note_if(true, "runs-estimate"))
    },
};

/// What to add after the first runs are measured.
pub(super) static RUNS_LEFT: Question = Question {
    name: "runs-left",
    work: Work::Weld,
    inputs: &[
        LEG,
        SECOND_LEG,
        Input::new("measured-leg", Kind::Length).required().within(1.0, 60.0),
        Input::new("measured-second-leg", Kind::Length).required().within(1.0, 60.0),
        Input::new("measured-throat", Kind::Length).within(0.5, 60.0),
        Input::new("runs-done", Kind::Number).whole().or(Preset::Number(1.0)).within(1.0, 78.0),
        PROCESS,
        POSITION,
        ENERGY,
        PER_ENERGY,
    ],
    answers: &["runs-more", "runs-done-area", "runs-rest-area", "runs-energy-used"],
    notes: &["runs-complete", "runs-not-as-planned", "runs-short-leg", "runs-measure-throat"],
    answer: |given| {
        let asked = MeasuredRuns {
            query: runs_query(given)?,
            measured: Fillet {
                first_mm: given.number("measured-leg")?,
                second_mm: given.number("measured-second-leg")?,
            },
            throat_mm: given.maybe_number("measured-throat"),
            done: given.number("runs-done")?,
        };
        let found = runs_left(&asked)?;
        Ok(Reply::of(found.outcomes)
            .note_if(found.complete, "runs-complete")
            .note_if(found.not_as_planned, "runs-not-as-planned")
            .note_if(found.uneven && !found.complete, "runs-short-leg")
            .note_if(asked.throat_mm.is_none(), "runs-measure-throat"))
    },
};

/// Filler, rods, gas and time.
pub(super) static WELD_AMOUNT: Question = Question {
    name: "weld-amount",
    work: Work::Weld,
    inputs: &[
        Input::new("leg", Kind::Length).one_of("weld-size").within(1.0, 60.0).of(OfPlan::Leg),
        Input::new("weld-area", Kind::Of(Quantity::Area)).one_of("weld-size").within(1.0, 20_000.0),
        Input::new("weld-length", Kind::Length).required().within(5.0, 100_000.0),
        Input::new("pieces", Kind::Number).whole().or(Preset::Number(1.0)).within(1.0, 100_000.0),
        PROCESS,
        Input::new("amps", Kind::Current).within(3.0, 1500.0).of(OfPlan::Amps),
        Input::new("rod-diameter", Kind::Length).within(0.5, 10.0),
        Input::new("rod-length", Kind::Length).within(50.0, 2000.0),
        Input::new("stub", Kind::Length).or(Preset::Number(50.0)).within(0.0, 2000.0),
        Input::new("shielding-flow", Kind::Of(Quantity::ShieldingFlow)).within(1.0, 60.0),
        Input::new("run-count", Kind::Number).whole().or(Preset::Number(1.0)).within(1.0, 1000.0),
    ],
    answers: &[
        "amount-weld",
        "amount-filler",
        "amount-rods",
        "amount-rods-batch",
        "amount-rods-spare",
        "amount-arc-time",
        "amount-shop-time",
        "amount-gas",
    ],
    notes: &["amount-no-rods", "amount-no-gas", "amount-no-current", "amount-dry-electrodes"],
    answer: answer_amount,
};

fn answer_amount(given: &Answers) -> Result<Reply, Problem> {
    let runs = &embedded().welding.runs;
    let process = process(given)?;
    let area_mm2 = match given.maybe_number("weld-area") {
        Some(own) => own,
        None => Fillet::checked(given.number("leg")?, None)?.planned_mm2(runs),
    };
    let (tig, covered) = (process.id == TIG, process.id == COVERED);
    let diameter = given.maybe_number("rod-diameter");
    let length = if tig { runs.rod_length_mm } else { runs.electrode_length_mm };
    let rod = diameter.filter(|_| tig || covered).map(|diameter_mm| Rod {
        diameter_mm,
        length_mm: given.maybe_number("rod-length").unwrap_or(length),
        stub_mm: given.maybe_number("stub").unwrap_or(runs.stub_mm),
        share: if tig { process.deposited_share } else { runs.recovery },
    });
    let asked = AmountQuery {
        runs,
        process,
        area_mm2,
        length_mm: given.number("weld-length")?,
        pieces: given.number("pieces")?,
        rod,
        amps: given.maybe_number("amps"),
        runs_each: given.number("run-count")?,
        flow_l_per_min: given.maybe_number("shielding-flow"),
    };
    let flow = asked.flow_l_per_min.is_some();
    Ok(Reply::of(amount(&asked)?)
        .note_if(diameter.is_some() && rod.is_none(), "amount-no-rods")
        .note_if(flow && !process.shielding, "amount-no-gas")
        .note_if(asked.amps.is_none(), "amount-no-current")
        .note_if(covered, "amount-dry-electrodes"))
}
