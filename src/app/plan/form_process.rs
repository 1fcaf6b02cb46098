//! The row of processes and hydrogen in the form of the Plan place.

use super::form_values::{CLASSES, at, processes};
use crate::app::form::parts::{action, field_part, fields, form_row, list, note, segments};
use crate::app::form::row_id::{Button, RowId};
use crate::app::screen_values::choice;
use crate::app::{State, ui};
use crate::engine::job::Process;
use crate::job::{Field, JobText};

/// The processes of the job and what hydrogen each brings.
pub(super) fn process_row(state: &State, job: &JobText) -> ui::FormRow {
    let count = processes(job);
    let offered: Vec<ui::ChoiceRow> = Process::ALL
        .iter()
        .map(|process| choice(process.id(), state.word(&format!("process-{}", process.id())), "", ""))
        .collect();
    let typed = |place: usize| {
        let text = at(job, Field::Process, place);
        let found =
            state.planned().and_then(|planned| planned.read.job.runs.get(place).map(|run| run.process.id()));
        Process::ALL.iter().position(|process| process.id() == text).or_else(|| {
            found
                .and_then(|id| Process::ALL.iter().position(|process| process.id() == id))
                .filter(|_| !text.is_empty())
        })
    };
    let mut parts = vec![list(
        state,
        &RowId::OfProcess(Field::Process, 0),
        "form-process-first",
        "form-process-choose",
        offered.clone(),
        typed(0),
    )];
    parts.push(hydrogen_part(state, job, 0));
    parts.push(hydrogen_field(state, job, 0));
    if count > 1 {
        let mut second = offered;
        second.push(choice("none", state.word("form-process-none"), "", ""));
        parts.push(list(
            state,
            &RowId::OfProcess(Field::Process, 1),
            "form-process-second",
            "form-process-choose",
            second,
            typed(1),
        ));
        parts.push(hydrogen_part(state, job, 1));
        parts.push(hydrogen_field(state, job, 1));
    } else {
        parts.push(action(state, RowId::Button(Button::AddProcess), "form-add-process"));
    }
    parts.push(note(state, "hydrogen-note", "form-hydrogen-note"));
    let names: Vec<String> =
        state.planned().filter(|_| job.get(Field::Process).is_some()).map_or_else(Vec::new, |planned| {
            planned
                .read
                .job
                .runs
                .iter()
                .enumerate()
                .map(|(place, run)| {
                    let name = state.words.get(&format!("process-{}", run.process.id()));
                    let hydrogen = state.show().hydrogen(run.hydrogen_ml);
                    let assumed = at(job, Field::Hydrogen, place).is_empty();
                    let key = if assumed { "form-process-assumed" } else { "form-process-stated" };
                    state.words.with(key, &[("process", &name), ("hydrogen", &hydrogen)])
                })
                .collect()
        });
    let mut row = form_row(state, "process", &[Field::Process, Field::Hydrogen], names.join(" + "), parts);
    row.pinned = true;
    row
}

fn hydrogen_part(state: &State, job: &JobText, place: usize) -> ui::PartRow {
    let typed = at(job, Field::Hydrogen, place);
    let chosen = CLASSES.iter().position(|class| *class == typed);
    let choices = CLASSES
        .iter()
        .map(|class| {
            let letter = class.trim_start_matches("EN ");
            choice(class, letter, state.word(&format!("form-class-{}", letter.to_lowercase())), "")
        })
        .collect();
    segments(state, RowId::HydrogenClass(place), "form-hydrogen-class", choices, chosen)
}

fn hydrogen_field(state: &State, job: &JobText, place: usize) -> ui::PartRow {
    let mut made = field_part(state, Field::Hydrogen, &at(job, Field::Hydrogen, place), "ml/100 g");
    made.id = RowId::OfProcess(Field::Hydrogen, place).to_string().into();
    made.label = state.word("form-hydrogen-typed");
    // What counts where nothing is typed stands in the empty field.
    let assumed =
        state.planned().and_then(|planned| planned.read.job.runs.get(place).map(|run| run.hydrogen_ml));
    made.hint = match assumed {
        Some(hydrogen_ml) if made.text.is_empty() => {
            let figure = state.show().number(hydrogen_ml, 1);
            state.words.with("form-hydrogen-assumed", &[("figure", &figure)]).into()
        }
        _ => state.word("form-hydrogen-hint"),
    };
    fields(format!("hydrogen-typed-{place}"), vec![made])
}
