//! A plan in words: rows of text that the window and the command line both read.
//!
//! Pure mappers from outcomes of the engine to lines of text. Nothing is computed here
//! but the way a figure is written.

mod answer;
mod asks;
mod basis_sheet;
mod beside;
mod caution_search;
mod cautions;
mod copied;
mod curve;
mod cycle;
mod cycle_after;
pub mod cycle_axis;
mod equivalent;
mod evidence;
mod figure;
mod levers;
mod log;
mod log_trials;
mod outcome;
mod plan_copy;
mod remarks;
mod sequence;
mod sequence_notes;
mod status;
mod steel;
mod tint;
mod tint_wait;
mod weld;
mod weld_amount;
mod weld_current;
mod weld_steps;

pub use answer::{Answer, AnswerKind, Route, answer};
pub use basis_sheet::{BasisSheet, answer_sheet, basis_sheet};
pub use beside::{ToDoLine, beside_lines, find_lines};
pub use caution_search::{SAME_WORDS, cautions_with};
pub use cautions::{BriefingLines, CautionLine, briefing_lines, caution_line};
pub use copied::{step_head, step_what, written_in};
pub use curve::curve_points;
pub use cycle::{
    CycleLine, CycleTold, by_heat, clock_span, flame_minutes, hydrogen_left, is_preliminary, longest_minutes,
    minutes_between, minutes_left, no_cycle_words, put_cycle, shortest_minutes,
};
pub use cycle_after::{HeldRow, after_lines, held_rows, turn_key, turn_lines};
pub use equivalent::equivalent_sheet;
pub use evidence::{EvidenceGroup, EvidenceLine, evidence_groups};
pub use figure::{
    BasisMark, Figure, band, basis_mark, both_of_unit, in_both, of_unit, printed_range, range, source_line,
};
pub use levers::{LeverEffect, LeverLine, lever_lines};
pub use log::{
    ClockLine, PieceLine, ReadingLine, band_words, clock_line, day_and_time, instrument_words, piece_line,
    piece_words, place_words, reading_line, reading_reasons, seen_words, verdict_words, when_words,
};
pub use log_trials::{TrialLine, own_trial_warnings, put_trials, taught_lines, trial_line, trial_warnings};
pub use outcome::{
    RangeLine, RangeVerdict, StepLine, answer_figure, degrees_up, first_outside, large_answer, limits,
    number, range_lines, step_lines, symbol,
};
pub use plan_copy::{CopyTyped, copy_of_job, limit_line, plan_copy, steels_asked};
pub use sequence::{StepRow, step_rows};
pub use steel::{forms_words, hardness_words, heat_words, temper_words};
pub use tint::{
    ShownLimits, Sign, TintLine, minutes, moment_words, outcome_sheet, peak_figures, peak_line, refusal_line,
    stage_head, stage_name, tint_limits,
};
pub use tint_wait::{WaitHeld, colour_line};
pub use weld::{beads_of, put_weld};

use crate::engine::job::Job;
use crate::engine::plan::{Plan, Verdict};
use crate::reference::Reference;
use crate::units::Show;
use crate::words::Words;

/// What every line is written with.
#[derive(Clone, Copy)]
pub struct Pen<'a> {
    /// The dataset.
    pub reference: &'a Reference,
    /// The words.
    pub words: &'a Words,
    /// Units and number format.
    pub show: Show,
}

/// A whole plan in words.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// The answer.
    pub answer: Answer,
    /// The evidence, by member and obligation.
    pub groups: Vec<EvidenceGroup>,
    /// What would lower the minimum.
    pub levers: Vec<LeverLine>,
    /// What must be found out before the first step.
    pub find: Vec<ToDoLine>,
    /// What is done, in the order of time.
    pub steps: Vec<StepRow>,
    /// What the weld takes: filler, runs, current, arc energy, order. [`put_weld`] writes it.
    pub weld: Vec<ToDoLine>,
    /// Figures of the job that order nothing.
    pub beside: Vec<ToDoLine>,
    /// What is told before work starts.
    pub briefing: BriefingLines,
}

impl Report {
    /// Writes a plan out.
    #[must_use]
    pub fn of(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Self {
        Self {
            answer: answer(pen, job, plan),
            // Evidence of one of two routes would read as if it governed both.
            groups: if plan.verdict == Verdict::TwoRoutes {
                Vec::new()
            } else {
                evidence_groups(pen, job, plan)
            },
            levers: lever_lines(pen, job, plan),
            find: find_lines(pen, plan),
            steps: step_rows(pen, job, plan),
            weld: Vec::new(),
            beside: beside_lines(pen, job, plan),
            briefing: briefing_lines(pen, plan),
        }
    }
}

/// The name of a member for a heading: its grade or "certificate steel", and its size.
#[must_use]
pub fn member_name(pen: &Pen<'_>, job: &Job, index: usize) -> String {
    let Some(member) = job.members.get(index) else { return String::new() };
    let known = if member.steel.is_unmarked() { "steel-unmarked" } else { "steel-by-certificate" };
    let steel = member.steel.grade().map_or_else(|| pen.words.get(known), |grade| grade.designation.clone());
    let size = pen.show.size(member.thickness_mm).main;
    if member.round { format!("{steel} Ø{size}") } else { format!("{steel} {size}") }
}

/// The members that differ: two parts of one steel, size and state are spoken of once.
#[must_use]
pub fn distinct_members(job: &Job) -> Vec<usize> {
    (0..job.members.len()).filter(|&index| !job.members[..index].contains(&job.members[index])).collect()
}
