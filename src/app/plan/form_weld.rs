//! The rows of the form that have a fair default: heat input, weld metal, shop, demands.

use std::collections::BTreeMap;

use crate::app::form::parts::{
    field_part, fields, form_row, note, pick, run_head, run_name, segments, sized,
};
use crate::app::form::row_id::RowId;
use crate::app::screen_values::choice;
use crate::app::{State, ui};
use crate::engine::heat_input::Travel;
use crate::job::{Field, JobText, Slot};
use crate::units::{self, Accepts, TimeUnit, limits};
use crate::words::List;

/// The ways in which heat input is stated, and the fields of each.
const HEAT_WAYS: [(&str, &[Field]); 3] =
    [("net", &[Field::HeatInput]), ("arc", &[Field::ArcEnergy]), ("meters", &METERS)];
const METERS: [Field; 5] = [Field::Volts, Field::Amps, Field::Travel, Field::ArcTime, Field::RunLength];
const CODES: [&str; 2] = ["none", "D1.1"];

/// The way in which the heat input of a run is stated; that which was chosen while nothing is.
fn heat_way(state: &State, job: &JobText, nth: usize) -> usize {
    let stated = |(_, of): &(&str, &[Field])| of.iter().any(|field| job.get(field.nth(nth)).is_some());
    HEAT_WAYS.iter().rposition(stated).unwrap_or_else(|| {
        state.session(|session| {
            let chosen = session.choices.get("heat-way").map(String::as_str);
            HEAT_WAYS.iter().position(|(way, _)| Some(*way) == chosen).unwrap_or(0)
        })
    })
}

/// Heat input, in one of three ways, for each process.
pub(super) fn heat_row(state: &State, job: &JobText) -> ui::FormRow {
    let count = job.runs.len().max(1);
    let way = heat_way(state, job, 0);
    let word = |way: &str| state.word(&format!("form-heat-{way}"));
    let ways = HEAT_WAYS.iter().map(|(way, _)| choice(way, word(way), "", "")).collect();
    let mut parts = vec![segments(state, RowId::HeatWay, "form-heat-way", ways, Some(way))];
    for nth in 0..count {
        parts.extend(run_head(state, job, nth));
        match HEAT_WAYS[heat_way(state, job, nth)].1 {
            [field] => {
                let mut stated = field_part(state, job, field.nth(nth));
                let counts = state.planned_now().and_then(|planned| planned.read.job.runs.get(nth).cloned());
                // What counts where nothing is typed stands in the empty field.
                if let Some(run) = counts.filter(|_| stated.text.is_empty() && *field == Field::HeatInput) {
                    stated.hint = assumed(state, &state.show().heat(run.net_heat_kj_per_mm).main);
                }
                parts.push(fields(format!("heat-{nth}"), vec![stated]));
            }
            _ => parts.extend(meters(state, job, nth)),
        }
    }
    parts.push(note(state, "heat-note", &format!("form-heat-{}-note", HEAT_WAYS[way].0)));
    let value = state.planned().map_or_else(
        || state.words.get("form-by-default"),
        |planned| {
            let runs = planned.read.job.runs.iter().enumerate();
            let shown = runs.map(|(nth, run)| {
                let heat = state.show().heat(run.net_heat_kj_per_mm).main;
                said_of_run(state, job, nth, &state.words.with("form-heat-value", &[("heat", &heat)]))
            });
            state.words.list(List::Plus, &shown.collect::<Vec<String>>())
        },
    );
    let of = HEAT_WAYS.iter().flat_map(|(_, of)| *of);
    let watched: Vec<Slot> = of.flat_map(|field| (0..count).map(|nth| field.nth(nth))).collect();
    form_row(state, "heat", &watched, value, parts)
}

/// What is said of a run, with its name where there are several.
fn said_of_run(state: &State, job: &JobText, nth: usize, said: &str) -> String {
    if job.runs.len() < 2 {
        return said.to_owned();
    }
    state.words.with("form-of-run", &[("run", &run_name(state, job, nth)), ("said", said)])
}

/// What counts while nothing is typed, as an empty field shows it; the field writes its unit.
fn assumed(state: &State, shown: &str) -> slint::SharedString {
    let figure = shown.split('\u{a0}').next().unwrap_or_default();
    state.words.with("form-figure-assumed", &[("figure", figure)]).into()
}

/// What is read from the meters; with a timed run the travel speed is what follows from it.
fn meters(state: &State, job: &JobText, nth: usize) -> Vec<ui::PartRow> {
    let part = |field: Field| field_part(state, job, field.nth(nth));
    let read = vec![part(Field::Volts), part(Field::Amps)];
    let timed = vec![part(Field::ArcTime), part(Field::RunLength)];
    let travel = part(Field::Travel);
    let follows = timed_travel(state, job, nth).filter(|_| job.get(Field::Travel.nth(nth)).is_none());
    let derived = follows.map(|speed| {
        let row = ui::FieldRow { text: speed.into(), unit: "".into(), derived: true, ..travel.clone() };
        fields(format!("follows-{nth}"), vec![row])
    });
    // Its long unit wants a row of its own on a phone.
    let typed = derived.is_none().then(|| fields(format!("travel-{nth}"), vec![travel]));
    let timed = ui::PartRow { note: state.word("form-heat-timed"), ..fields(format!("run-{nth}"), timed) };
    let read = fields(format!("heat-{nth}"), read);
    std::iter::once(read).chain(typed).chain([timed]).chain(derived).collect()
}

/// The travel speed of a timed run, where both of its figures can be read.
fn timed_travel(state: &State, job: &JobText, nth: usize) -> Option<String> {
    let shown = state.show();
    let time = job.get(Field::ArcTime.nth(nth))?;
    let length = job.get(Field::RunLength.nth(nth))?;
    let mark = shown.typed_mark();
    let read_s = |text: &str| units::duration(text, TimeUnit::Seconds, limits::ARC_TIME_S);
    let read_mm = |text: &str| units::run_length(text, shown.units.length, limits::RUN_MM);
    let arc_time_s = mark.read(time, read_s).ok()?;
    let run_mm = mark.read(length, read_mm).ok()?;
    let mm_per_min = Travel::Run { arc_time_s, run_mm }.mm_per_s() * 60.0;
    limits::TRAVEL_MM_PER_MIN.holds(mm_per_min).then(|| shown.travel(mm_per_min).main)
}

/// Filler and number of runs of each process, strength, CET.
pub(super) fn weld_row(state: &State, job: &JobText) -> ui::FormRow {
    let count = job.runs.len().max(1);
    let whole = [Field::WeldStrength, Field::WeldCet].map(|field| field_part(state, job, field));
    let filler_of = |nth: usize| job.get(Field::Filler.nth(nth)).unwrap_or_default();
    let mut parts = Vec::new();
    for nth in 0..count {
        let filler = filler_of(nth);
        parts.extend(run_head(state, job, nth));
        parts.push(pick(state, Field::Filler.nth(nth), filler, "form-filler-unknown", ""));
        parts.push(fields(format!("weld-{nth}"), vec![field_part(state, job, Field::Passes.nth(nth))]));
    }
    parts.push(fields("weld", whole.into()));
    let unknown = state.words.get("form-filler-unknown");
    let shown = |nth: usize| if filler_of(nth).is_empty() { unknown.as_str() } else { filler_of(nth) };
    let value = if (1..count).all(|nth| filler_of(nth) == filler_of(0)) {
        shown(0).to_owned()
    } else {
        let of_runs: Vec<String> = (0..count).map(|nth| said_of_run(state, job, nth, shown(nth))).collect();
        state.words.list(List::Plus, &of_runs)
    };
    let watched = [Field::Filler, Field::Passes].into_iter();
    let watched = watched.flat_map(|field| (0..count).map(move |nth| field.nth(nth)));
    let watched: Vec<Slot> = watched.chain([Field::WeldStrength, Field::WeldCet].map(Slot::from)).collect();
    form_row(state, "weld", &watched, value, parts)
}

/// Yes or no.
pub(super) fn yes_no(state: &State, job: &JobText, slot: Slot) -> ui::PartRow {
    let yes = job.get(slot).is_some_and(|text| crate::job::typed::yes_no(text) == Ok(true));
    let choices =
        vec![choice("no", state.word("form-no"), "", ""), choice("yes", state.word("form-yes"), "", "")];
    segments(state, RowId::of(slot), &slot.field.key(), choices, Some(usize::from(yes)))
}

/// Shop temperature, damp air, thermal-cut edges.
pub(super) fn shop_row(state: &State, job: &JobText) -> ui::FormRow {
    let mut shop = field_part(state, job, Field::Shop);
    if let Some(planned) = state.planned_now().filter(|_| shop.text.is_empty()) {
        shop.hint = assumed(state, &state.show().temperature(planned.read.job.shop_c).main);
    }
    let parts = vec![
        fields("shop", vec![shop]),
        yes_no(state, job, Field::Damp.into()),
        yes_no(state, job, Field::ThermalCut.into()),
    ];
    let value = state.planned().map_or_else(
        || state.words.get("form-by-default"),
        |planned| state.show().temperature(planned.read.job.shop_c).main,
    );
    form_row(state, "shop", &[Field::Shop, Field::Damp, Field::ThermalCut].map(Slot::from), value, parts)
}

/// Code and demanded figures.
pub(super) fn demands_row(state: &State, job: &JobText) -> ui::FormRow {
    let code = job.get(Field::Code).and_then(|text| crate::job::typed::code(text).ok());
    let place = usize::from(code == Some(crate::engine::job::Code::AwsD11));
    let codes = vec![
        choice("none", state.word("form-code-none"), "", ""),
        choice("d11", state.word("form-code-d11"), "", ""),
    ];
    let demand = |field: Field| field_part(state, job, field);
    let parts = vec![
        segments(state, RowId::of(Field::Code), "field-code", codes, Some(place)),
        fields("demand-low", vec![demand(Field::DemandPreheat)]),
        fields("demand-high", vec![demand(Field::DemandInterpass)]),
        fields("demand-most", vec![demand(Field::DemandCeiling)]),
    ];
    let typed = [
        (Field::DemandPreheat, "form-demands-preheat"),
        (Field::DemandInterpass, "form-demands-interpass"),
        (Field::DemandCeiling, "form-demands-ceiling"),
    ];
    // A bare figure says its unit here, where no field stands beside it.
    let typed = typed.into_iter().filter_map(|(field, key)| {
        Some(state.words.with(key, &[("figure", &sized(state, job.get(field)?, Field::Shop))]))
    });
    let typed: Vec<String> = typed.collect();
    let code = (place != 0).then(|| state.words.get("form-code-d11"));
    let all: Vec<&str> = code.as_deref().into_iter().chain(typed.iter().map(String::as_str)).collect();
    let value = if all.is_empty() {
        state.words.get("form-demands-none")
    } else {
        state.words.list(List::Names, &all)
    };
    let watched = [Field::Code, Field::DemandPreheat, Field::DemandInterpass, Field::DemandCeiling];
    form_row(state, "demands", &watched.map(Slot::from), value, parts)
}

/// What was typed in another way of stating the heat input, put aside.
const ASIDE: &str = "heat-aside-";
/// Of which parts that was typed.
const ASIDE_OF: &str = "heat-aside-of";

/// Only one way of stating the heat input may hold something; a figure moves along between net heat input
/// and arc energy no more than a label would. What the others hold is put aside, and comes back with its way
/// while the parts are the same.
fn restate(job: &mut JobText, choices: &mut BTreeMap<String, String>, kept: &[Field]) {
    let of = format!("{:?}", job.parts);
    if choices.get(ASIDE_OF) != Some(&of) {
        choices.retain(|key, _| !key.starts_with(ASIDE));
        choices.insert(ASIDE_OF.to_owned(), of);
    }
    let aside = |field: Field, nth: usize| format!("{ASIDE}{}-{nth}", field.id());
    let all = HEAT_WAYS.iter().flat_map(|(_, of)| *of);
    for nth in 0..job.runs.len() {
        for field in all.clone() {
            let (slot, key) = (field.nth(nth), aside(*field, nth));
            if !kept.contains(field) {
                if let Some(text) = job.get(slot).map(str::to_owned) {
                    choices.insert(key, text);
                    job.set(slot, None);
                }
            } else if job.get(slot).is_none()
                && let Some(text) = choices.remove(&key)
            {
                job.set(slot, Some(text));
            }
        }
    }
}

/// A choice among these rows was made; false if it is none of theirs.
pub(crate) fn chosen(state: &State, row: &RowId, index: usize) -> bool {
    match *row {
        RowId::Slot(slot) if slot.field.accepts() == Accepts::YesNo => {
            let answer = if index == 1 { "yes" } else { "no" };
            state.change_job(|job| job.set(slot, Some(answer.to_owned())));
        }
        RowId::Slot(slot) if slot.field == Field::Code => {
            state.change_job(|job| job.set(slot, CODES.get(index).map(|code| (*code).to_owned())));
        }
        RowId::HeatWay => {
            let (way, kept) = HEAT_WAYS[index.min(HEAT_WAYS.len() - 1)];
            state.change(|session| {
                session.choices.insert("heat-way".to_owned(), way.to_owned());
                restate(&mut session.job, &mut session.choices, kept);
            });
        }
        _ => return false,
    }
    true
}
