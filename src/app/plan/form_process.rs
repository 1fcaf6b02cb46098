//! The row of processes and hydrogen in the form of the Plan place.

use crate::app::form::parts::{
    action, field_part, fields, form_row, list, note, of_run as named_by_run, segments,
};
use crate::app::form::row_id::{Button, RowId};
use crate::app::screen_values::choice;
use crate::app::{State, ui};
use crate::engine::hydrogen::hydrogen_scale;
use crate::engine::job::Process;
use crate::job::{Field, JobText};
use crate::units::{hydrogen, limits};
use crate::words::List;

/// Hydrogen classes of EN 1011-2, driest first, as they are typed and kept.
pub(super) const CLASSES: [&str; 5] = ["EN E", "EN D", "EN C", "EN B", "EN A"];

/// The processes of the job and what hydrogen each brings.
pub(super) fn process_row(state: &State, job: &JobText) -> ui::FormRow {
    let count = job.runs.len().max(1);
    let mut parts: Vec<ui::PartRow> = (0..count).flat_map(|nth| of_run(state, job, nth)).collect();
    let add = if count == 1 { "form-add-process" } else { "form-add-process-more" };
    parts.push(action(state, RowId::Button(Button::AddProcess), add));
    parts.push(note(state, "hydrogen-note", "form-hydrogen-note"));
    let names: Vec<String> =
        state.planned().filter(|_| job.get(Field::Process).is_some()).map_or_else(Vec::new, |planned| {
            let runs = planned.read.job.runs.iter().enumerate();
            runs.map(|(nth, run)| {
                let name = state.words.get(&format!("process-{}", run.process.id()));
                let hydrogen = state.show().hydrogen(run.hydrogen_ml);
                let assumed = job.get(Field::Hydrogen.nth(nth)).is_none();
                let key = if assumed { "form-process-assumed" } else { "form-process-stated" };
                state.words.with(key, &[("process", &name), ("hydrogen", &hydrogen)])
            })
            .collect()
        });
    let watched: Vec<_> =
        (0..count).flat_map(|nth| [Field::Process, Field::Hydrogen].map(|field| field.nth(nth))).collect();
    let mut row = form_row(state, "process", &watched, state.words.list(List::Plus, &names), parts);
    row.pinned = true;
    row
}

/// One process and its hydrogen. Each but the first can be taken away.
fn of_run(state: &State, job: &JobText, nth: usize) -> [ui::PartRow; 3] {
    let slot = Field::Process.nth(nth);
    let mut offered: Vec<ui::ChoiceRow> = Process::ALL
        .iter()
        .map(|process| choice(process.id(), state.word(&format!("process-{}", process.id())), "", ""))
        .collect();
    if nth > 0 {
        offered.push(choice("none", state.word("form-process-none"), "", ""));
    }
    let read = || state.planned()?.read.job.runs.get(nth).map(|run| run.process);
    let typed = job
        .get(slot)
        .and_then(|text| Process::ALL.iter().copied().find(|process| process.id() == text).or_else(read));
    let chosen = typed.and_then(|typed| Process::ALL.iter().position(|process| *process == typed));
    let label = match nth {
        0 => "form-process-first",
        1 => "form-process-second",
        _ => "form-process-more",
    };
    let mut hydrogen = hydrogen_part(state, job, nth);
    hydrogen.label = match named_by_run(state, job, slot, &hydrogen.label) {
        named if named.is_empty() => hydrogen.label,
        named => named,
    };
    let process = list(state, &RowId::of(slot), label, "form-process-choose", offered, chosen);
    [process, hydrogen, hydrogen_field(state, job, nth)]
}

fn hydrogen_part(state: &State, job: &JobText, nth: usize) -> ui::PartRow {
    let typed = job.get(Field::Hydrogen.nth(nth));
    // A class of a filler or a figure lies in the scale too, whatever else cannot be read.
    let scale = || {
        state.problem_of(Field::Hydrogen.nth(nth)).is_none().then_some(())?;
        let hydrogen_ml = match state.planned_now() {
            Some(planned) => planned.read.job.runs.get(nth)?.hydrogen_ml,
            None => hydrogen(typed?, limits::HYDROGEN_ML).ok()?.ml,
        };
        let (letter, _) = hydrogen_scale(&state.reference.designators, hydrogen_ml).ok()?;
        CLASSES.iter().position(|class| {
            letter.id == format!("scale-{}", class.trim_start_matches("EN ").to_lowercase())
        })
    };
    let named = CLASSES.iter().position(|class| Some(*class) == typed);
    let chosen = named.or_else(|| typed.and_then(|_| scale()));
    let choices = CLASSES
        .iter()
        .map(|class| {
            let letter = class.trim_start_matches("EN ");
            choice(class, letter, state.word(&format!("form-class-{}", letter.to_lowercase())), "")
        })
        .collect();
    segments(state, RowId::HydrogenClass(nth), "form-hydrogen-class", choices, chosen)
}

fn hydrogen_field(state: &State, job: &JobText, nth: usize) -> ui::PartRow {
    let mut made = field_part(state, job, Field::Hydrogen.nth(nth));
    made.label = state.word("form-hydrogen-typed");
    made.spoken = named_by_run(state, job, Field::Hydrogen.nth(nth), &made.label);
    // What counts where nothing is typed stands in the empty field.
    let assumed =
        state.planned_now().and_then(|planned| planned.read.job.runs.get(nth).map(|run| run.hydrogen_ml));
    made.hint = match assumed {
        Some(hydrogen_ml) if made.text.is_empty() => {
            let figure = state.show().number(hydrogen_ml, 1);
            state.words.with("form-figure-assumed", &[("figure", &figure)]).into()
        }
        _ => state.word("form-hydrogen-hint"),
    };
    fields(format!("hydrogen-typed-{nth}"), vec![made])
}
