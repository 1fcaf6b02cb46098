//! The rows of the form that have a fair default: heat input, weld metal, shop, demands.

use super::form_values::{at, length_unit, processes};
use crate::app::form::parts::{field_part, fields, form_row, note, pick, segments};
use crate::app::form::row_id::RowId;
use crate::app::screen_values::choice;
use crate::app::{State, ui};
use crate::engine::heat_input::Travel;
use crate::job::{Field, JobText};
use crate::units::{self, LengthUnit, TimeUnit, limits};

/// The ways in which heat input is stated.
const HEAT_WAYS: [&str; 3] = ["net", "arc", "meters"];
/// Fields of the last way.
const METERS: [Field; 5] = [Field::Volts, Field::Amps, Field::Travel, Field::ArcTime, Field::RunLength];
const CODES: [&str; 2] = ["none", "D1.1"];
/// Fields that are answered by yes or no.
const YES_NO: [Field; 4] = [Field::Damp, Field::ThermalCut, Field::Buttered, Field::ButteredB];

fn heat_way(state: &State, job: &JobText) -> usize {
    if job.get(Field::ArcEnergy).is_some() {
        1
    } else if METERS.into_iter().any(|field| job.get(field).is_some()) {
        2
    } else {
        // A way that was chosen and has nothing typed yet.
        state.session(|session| {
            let chosen = session.choices.get("heat-way").map(String::as_str);
            HEAT_WAYS.iter().position(|way| Some(*way) == chosen).unwrap_or(0)
        })
    }
}

fn one_of(state: &State, job: &JobText, field: Field, place: usize, unit: &str) -> ui::FieldRow {
    let mut made = field_part(state, field, &at(job, field, place), unit);
    made.id = RowId::OfProcess(field, place).to_string().into();
    made
}

/// Heat input, in one of three ways, for each process.
pub(super) fn heat_row(state: &State, job: &JobText) -> ui::FormRow {
    let way = heat_way(state, job);
    let ways =
        HEAT_WAYS.iter().map(|way| choice(way, state.word(&format!("form-heat-{way}")), "", "")).collect();
    let inch = state.show().units.length == LengthUnit::Inch;
    let (energy, speed) = if inch { ("kJ/in", "in/min") } else { ("kJ/mm", "mm/min") };
    let mut parts = vec![segments(state, RowId::HeatWay, "form-heat-way", ways, Some(way))];
    for place in 0..processes(job) {
        match way {
            0 => parts.push(fields(
                format!("heat-{place}"),
                vec![one_of(state, job, Field::HeatInput, place, energy)],
            )),
            1 => parts.push(fields(
                format!("heat-{place}"),
                vec![one_of(state, job, Field::ArcEnergy, place, energy)],
            )),
            _ => parts.extend(meters(state, job, place, speed)),
        }
    }
    parts.push(note(state, "heat-note", &format!("form-heat-{}-note", HEAT_WAYS[way])));
    let value = state.planned().map_or_else(
        || state.words.get("form-by-default"),
        |planned| {
            let shown: Vec<String> = planned
                .read
                .job
                .runs
                .iter()
                .map(|run| state.show().heat(run.net_heat_kj_per_mm).main)
                .collect();
            state.words.with("form-heat-value", &[("heat", &shown.join(" + "))])
        },
    );
    let watched = [[Field::HeatInput, Field::ArcEnergy].as_slice(), &METERS].concat();
    form_row(state, "heat", &watched, value, parts)
}

/// What is read from the meters; with a timed run the travel speed is what follows from it.
fn meters(state: &State, job: &JobText, place: usize, speed: &str) -> Vec<ui::PartRow> {
    let mut read =
        vec![one_of(state, job, Field::Volts, place, "V"), one_of(state, job, Field::Amps, place, "A")];
    let timed = vec![
        one_of(state, job, Field::ArcTime, place, "s"),
        one_of(state, job, Field::RunLength, place, length_unit(state)),
    ];
    let travel = one_of(state, job, Field::Travel, place, speed);
    let follows = timed_travel(state, job, place).filter(|_| job.get(Field::Travel).is_none());
    let derived = follows.map(|speed| {
        let row = ui::FieldRow { text: speed.into(), unit: "".into(), derived: true, ..travel.clone() };
        fields(format!("follows-{place}"), vec![row])
    });
    if derived.is_none() {
        read.push(travel);
    }
    let timed = ui::PartRow { note: state.word("form-heat-timed"), ..fields(format!("run-{place}"), timed) };
    [fields(format!("heat-{place}"), read), timed].into_iter().chain(derived).collect()
}

/// The travel speed of a timed run, where both of its figures can be read.
fn timed_travel(state: &State, job: &JobText, place: usize) -> Option<String> {
    let shown = state.show();
    let time = units::duration(&at(job, Field::ArcTime, place), TimeUnit::Seconds, limits::ARC_TIME_S);
    let length = units::run_length(&at(job, Field::RunLength, place), shown.units.length, limits::RUN_MM);
    let run = Travel::Run { arc_time_s: time.ok()?, run_mm: length.ok()? };
    let mm_per_min = run.mm_per_s() * 60.0;
    limits::TRAVEL_MM_PER_MIN.holds(mm_per_min).then(|| shown.travel(mm_per_min).main)
}

/// Filler, strength, CET, number of runs.
pub(super) fn weld_row(state: &State, job: &JobText) -> ui::FormRow {
    let filler = job.get(Field::Filler).unwrap_or_default();
    let strength_unit = if state.show().units.length == LengthUnit::Inch { "ksi" } else { "MPa" };
    let parts = vec![
        pick(
            state,
            RowId::Field(Field::Filler),
            "field-filler",
            filler,
            "form-filler-unknown",
            "",
            Field::Filler,
        ),
        fields(
            "weld",
            vec![
                field_part(
                    state,
                    Field::WeldStrength,
                    job.get(Field::WeldStrength).unwrap_or_default(),
                    strength_unit,
                ),
                field_part(state, Field::WeldCet, job.get(Field::WeldCet).unwrap_or_default(), "%"),
                field_part(state, Field::Runs, job.get(Field::Runs).unwrap_or_default(), ""),
            ],
        ),
    ];
    let value = if filler.is_empty() { state.words.get("form-filler-unknown") } else { filler.to_owned() };
    let watched = [Field::Filler, Field::WeldStrength, Field::WeldCet, Field::Runs];
    form_row(state, "weld", &watched, value, parts)
}

/// Yes or no.
pub(super) fn yes_no(state: &State, job: &JobText, field: Field) -> ui::PartRow {
    let yes = job.get(field).is_some_and(|text| crate::job::typed::yes_no(text) == Ok(true));
    let choices =
        vec![choice("no", state.word("form-no"), "", ""), choice("yes", state.word("form-yes"), "", "")];
    segments(state, RowId::Field(field), &field.key(), choices, Some(usize::from(yes)))
}

/// Shop temperature, damp air, thermal-cut edges.
pub(super) fn shop_row(state: &State, job: &JobText) -> ui::FormRow {
    let unit = state.show().units.temperature.symbol();
    let parts = vec![
        fields("shop", vec![field_part(state, Field::Shop, job.get(Field::Shop).unwrap_or_default(), unit)]),
        yes_no(state, job, Field::Damp),
        yes_no(state, job, Field::ThermalCut),
    ];
    let value = state.planned().map_or_else(
        || state.words.get("form-by-default"),
        |planned| state.show().temperature(planned.read.job.shop_c).main,
    );
    form_row(state, "shop", &[Field::Shop, Field::Damp, Field::ThermalCut], value, parts)
}

/// Code and demanded figures.
pub(super) fn demands_row(state: &State, job: &JobText) -> ui::FormRow {
    let unit = state.show().units.temperature.symbol();
    let code = job.get(Field::Code).and_then(|text| crate::job::typed::code(text).ok());
    let place = usize::from(code == Some(crate::engine::job::Code::AwsD11));
    let codes = vec![
        choice("none", state.word("form-code-none"), "", ""),
        choice("d11", state.word("form-code-d11"), "", ""),
    ];
    let demand = |field: Field| field_part(state, field, job.get(field).unwrap_or_default(), unit);
    let parts = vec![
        segments(state, RowId::Field(Field::Code), "field-code", codes, Some(place)),
        fields("demand-low", vec![demand(Field::DemandPreheat)]),
        fields("demand-high", vec![demand(Field::DemandInterpass), demand(Field::DemandCeiling)]),
    ];
    let typed: Vec<&str> = [Field::DemandPreheat, Field::DemandInterpass, Field::DemandCeiling]
        .into_iter()
        .filter_map(|field| job.get(field))
        .collect();
    let value = match (place, typed.is_empty()) {
        (0, true) => state.words.get("form-demands-none"),
        (0, false) => typed.join(", "),
        (_, true) => state.words.get("form-code-d11"),
        (_, false) => format!("{}, {}", state.words.get("form-code-d11"), typed.join(", ")),
    };
    let watched = [Field::Code, Field::DemandPreheat, Field::DemandInterpass, Field::DemandCeiling];
    form_row(state, "demands", &watched, value, parts)
}

/// A choice among these rows was made; false if it is none of theirs.
pub(crate) fn chosen(state: &State, row: &RowId, index: usize) -> bool {
    match *row {
        RowId::Field(field) if YES_NO.contains(&field) => {
            let answer = if index == 1 { "yes" } else { "no" };
            state.change_job(|job| job.set(field, Some(answer.to_owned())));
        }
        RowId::Field(Field::Code) => {
            state.change_job(|job| job.set(Field::Code, CODES.get(index).map(|code| (*code).to_owned())));
        }
        RowId::HeatWay => {
            let way = HEAT_WAYS[index.min(HEAT_WAYS.len() - 1)];
            state.change(|session| {
                session.choices.insert("heat-way".to_owned(), way.to_owned());
                keep_heat_for(&mut session.job, index);
            });
        }
        _ => return false,
    }
    true
}

/// Only one way of stating the heat input may hold something; a figure moves along
/// between net heat input and arc energy no more than a label would.
fn keep_heat_for(job: &mut JobText, way: usize) {
    let kept: &[Field] = match way {
        0 => &[Field::HeatInput],
        1 => &[Field::ArcEnergy],
        _ => &METERS,
    };
    let all = [Field::HeatInput, Field::ArcEnergy].into_iter().chain(METERS);
    for field in all.filter(|field| !kept.contains(field)) {
        job.set(field, None);
    }
}
