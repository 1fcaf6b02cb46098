//! Current, torch, and what a run leaves.

use super::weld_runs::{POSITION, PROCESS, process};
use super::{Answers, Input, Kind, OfPlan, Preset, Problem, Question, Reply, Work};
use crate::engine::weld::deposit::{DepositQuery, Free, deposit};
use crate::engine::weld::electrode::{electrode_current, wire_current};
use crate::engine::weld::fillet::Fillet;
use crate::engine::weld::tig::{TigBy, tig_settings};
use crate::engine::weld::torch_class::{CLASSES, torch_class};
use crate::reference::{Position, embedded};
use crate::units::Quantity;

const JOINTS: [&str; 2] = ["butt-or-corner", "lap-or-fillet"];
/// Rows of `data/weld_current.ron`.
const ELECTRODES: &[&str] = &[
    "basic-2-5",
    "basic-3-2",
    "basic-4-0",
    "basic-5-0",
    "stainless-2-4",
    "stainless-3-2",
    "stainless-4-0",
    "stainless-4-8",
];
/// Rows of `data/weld_current.ron`.
const WIRES: &[&str] = &["wire-0-8", "wire-0-9", "wire-1-1", "wire-1-3", "wire-1-6"];

const AMPS: Input = Input::new("amps", Kind::Current).within(3.0, 1500.0).of(OfPlan::Amps);
const PART: Input = Input::new("part-temperature", Kind::Temperature)
    .or(Preset::Number(20.0))
    .within(-50.0, 700.0)
    .of(OfPlan::Maximum);

/// Current, tungsten, gas and rod.
pub(super) static TIG_SETTINGS: Question = Question {
    name: "tig-settings",
    work: Work::Weld,
    inputs: &[
        Input::new("thinner-part", Kind::Length).one_of("tig").within(0.5, 500.0),
        Input::new("amps", Kind::Current).one_of("tig").within(3.0, 500.0),
        Input::new("tig-joint", Kind::Choice(&JOINTS)).or(Preset::Choice(JOINTS[1])),
        PART,
    ],
    answers: &["tig-amps", "tig-tungsten", "tig-cup", "tig-argon", "tig-taper", "tig-rod"],
    notes: &["tig-no-tungsten", "tig-thick", "tig-rod-gap", "tig-ranges-differ", "tig-gas-flow"],
    answer: |given| {
        let by = match given.maybe_number("amps") {
            Some(amps) => TigBy::Current(amps),
            None => TigBy::Thickness {
                mm: given.number("thinner-part")?,
                fillet: given.maybe_choice("tig-joint") == Some(JOINTS[1]),
                part_c: given.number("part-temperature")?,
            },
        };
        let found = tig_settings(&embedded().welding.current, by)?;
        Ok(Reply::of(found.outcomes)
            .note_if(found.no_tungsten, "tig-no-tungsten")
            .note_if(found.thick, "tig-thick")
            .note_if(found.rod_by_gap, "tig-rod-gap")
            .note_if(!found.no_tungsten, "tig-ranges-differ")
            .note_if(!found.no_tungsten, "tig-gas-flow"))
    },
};

/// Air or water.
pub(super) static TIG_TORCH: Question = Question {
    name: "tig-torch",
    work: Work::Weld,
    inputs: &[
        AMPS.required(),
        Input::new("arc-minutes", Kind::Of(Quantity::Minutes)).or(Preset::Number(6.0)).within(0.1, 10.0),
        PART,
    ],
    answers: &CLASSES,
    notes: &[
        "torch-enough-air",
        "torch-enough-large-air",
        "torch-enough-water",
        "torch-enough-none",
        "torch-read-plate",
        "torch-busiest-minutes",
    ],
    answer: |given| {
        let duty = 10.0 * given.number("arc-minutes")?;
        let (outcomes, verdict) = torch_class(
            &embedded().welding.current,
            given.number("amps")?,
            duty,
            given.number("part-temperature")?,
        )?;
        Ok(Reply::of(outcomes)
            .note_if(true, verdict.id())
            .note_if(true, "torch-read-plate")
            .note_if(true, "torch-busiest-minutes"))
    },
};

/// Current of a covered electrode.
pub(super) static ELECTRODE_CURRENT: Question = Question {
    name: "electrode-current",
    work: Work::Weld,
    inputs: &[Input::new("electrode", Kind::Choice(ELECTRODES)).required(), POSITION],
    answers: &["electrode-start", "electrode-range"],
    notes: &["electrode-read-box"],
    answer: |given| {
        let current = &embedded().welding.current;
        let id = given.maybe_choice("electrode").unwrap_or_default();
        let row = current.electrodes.iter().find(|row| row.id == id);
        let row = row.ok_or(Problem::WrongKind { key: "electrode" })?;
        let position = given.choice("position", Position::ALL, Position::id)?;
        Ok(Reply::of(electrode_current(current, row, position)?).note_if(true, "electrode-read-box"))
    },
};

/// Short arc or spray.
pub(super) static WIRE_CURRENT: Question = Question {
    name: "wire-current",
    work: Work::Weld,
    inputs: &[Input::new("wire", Kind::Choice(WIRES)).required(), AMPS],
    answers: &[
        "wire-spray-from",
        "wire-short-amps",
        "wire-short-volts",
        "wire-spray-amps",
        "wire-spray-volts",
    ],
    notes: &[
        "wire-short-arc",
        "wire-spray",
        "wire-large-drops",
        "wire-border",
        "wire-no-range",
        "wire-short-cold",
    ],
    answer: |given| {
        let current = &embedded().welding.current;
        let id = given.maybe_choice("wire").unwrap_or_default();
        let row = current.wires.iter().find(|row| row.id == id);
        let row = row.ok_or(Problem::WrongKind { key: "wire" })?;
        let (outcomes, transfer) = wire_current(current, row, given.maybe_number("amps"))?;
        let ranged = row.short_a.is_some();
        Ok(Reply::of(outcomes)
            .note_of(transfer.map(crate::engine::weld::electrode::Transfer::id))
            .note_if(ranged, "wire-short-cold"))
    },
};

/// What a run leaves.
pub(super) static RUN_DEPOSIT: Question = Question {
    name: "run-deposit",
    work: Work::Weld,
    inputs: &[
        PROCESS,
        AMPS.required(),
        Input::new("volts", Kind::Voltage).within(1.0, 200.0).of(OfPlan::Volts),
        Input::new("travel-speed", Kind::Speed).one_of("free").within(0.1, 50.0).of(OfPlan::Travel),
        Input::new("bead-area", Kind::Of(Quantity::Area)).one_of("free").within(1.0, 300.0),
        Input::new("run-leg", Kind::Length).one_of("free").within(1.0, 20.0),
        Input::new("deposit-rate", Kind::Of(Quantity::DepositRate)).within(0.05, 30.0),
        Input::new("run-length", Kind::Length).within(1.0, 1e6).of(OfPlan::RunLength),
    ],
    answers: &[
        "deposit-rate",
        "bead-area",
        "bead-leg",
        "bead-speed",
        "bead-volts",
        "bead-energy",
        "bead-net-heat",
        "bead-per-energy",
        "bead-time",
        "bead-mass",
    ],
    notes: &["deposit-volts-estimated", "deposit-unlikely", "deposit-time-first"],
    answer: answer_deposit,
};

/// Travel speeds of a steady hand or a machine, mm/s (common practice).
fn usual_speed(process: &str) -> (f64, f64) {
    match process {
        "gtaw" => (0.7, 2.5),
        "smaw-basic" => (1.5, 4.0),
        "saw" => (5.0, 15.0),
        _ => (3.0, 10.0),
    }
}

fn answer_deposit(given: &Answers) -> Result<Reply, Problem> {
    let reference = embedded();
    let (runs, current) = (&reference.welding.runs, &reference.welding.current);
    let process = process(given)?;
    let free = match (given.maybe_number("travel-speed"), given.maybe_number("bead-area")) {
        (Some(speed), _) => Free::Speed(speed),
        (None, Some(area)) => Free::Area(area),
        (None, None) => Free::Area(Fillet::checked(given.number("run-leg")?, None)?.planned_mm2(runs)),
    };
    let asked = DepositQuery {
        runs,
        current,
        process,
        amps: given.number("amps")?,
        volts: given.maybe_number("volts"),
        rate_kg_per_h: given.maybe_number("deposit-rate"),
        free,
        length_mm: given.maybe_number("run-length"),
        efficiency: reference.efficiency(&process.id),
    };
    let found = deposit(&asked)?;
    let rated = asked.rate_kg_per_h.is_none();
    let reply = Reply::of(found.outcomes);
    let speed = reply.answer("bead-speed").and_then(|outcome| outcome.value);
    let (slow, fast) = usual_speed(&process.id);
    let unlikely = speed.is_some_and(|speed| speed < 0.5 * slow || speed > 1.5 * fast);
    Ok(reply
        .note_if(found.estimated, "deposit-volts-estimated")
        .note_if(unlikely, "deposit-unlikely")
        .note_if(rated, "deposit-time-first"))
}
