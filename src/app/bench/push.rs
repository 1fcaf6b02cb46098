//! Answers that a plan can take: each into a field of the job, and back out of it.

use super::kept::Pushed;
use crate::app::form::parts::run_name;
use crate::app::form::question::{Found, Stands};
use crate::app::{State, ui};
use crate::engine::Outcome;
use crate::job::{Field, JobText, Of, Slot};
use crate::questions::{Question, Reply};
use crate::report::member_name;

/// The answers that a plan takes, and the field of each.
const TAKEN: [(&str, &str, Field); 3] = [
    ("heat-input", "net-heat-input", Field::HeatInput),
    ("hardness-conversion", "hardness-hv", Field::Hardness),
    ("acetylene-draw", "draw-cylinders", Field::Cylinders),
];
/// Fields of a run that say what its net heat input says, each with the input of `heat-input` that
/// begins with it.
const SAYS_HEAT: [(Field, &str); 6] = [
    (Field::ArcEnergy, ""),
    (Field::Volts, "volts"),
    (Field::Amps, "amps"),
    (Field::Travel, "travel-speed"),
    (Field::ArcTime, "arc-time"),
    (Field::RunLength, "run-length"),
];

/// The buttons of a question: what its answer can be added to, and what was added.
pub(super) fn rows(state: &State, question: &'static Question, found: &Found) -> Vec<ui::BenchPush> {
    // An answer that rests on the plan's figures alone is in the plan already.
    let reply = match &found.stands {
        Stands::Answered(reply) if found.asked.touched && reply.no_use.is_none() => Some(reply),
        _ => None,
    };
    let job = state.session(|session| session.job.clone());
    let mut rows = Vec::new();
    for (_, answer, field) in TAKEN.iter().filter(|(name, _, _)| *name == question.name) {
        let offered = reply.and_then(|reply| text_of(state, reply, answer, *field)).is_some();
        let count = job.count(field.of()).max(1);
        for nth in 0..count {
            let slot = field.nth(nth);
            let id = format!("{answer}:{}", slot.id());
            let place = (count > 1).then(|| place(state, &job, slot));
            let named = state.words.get(&field.key());
            let label = |alone: &str, of: &str| match &place {
                Some(place) => state.words.with(of, &[("where", place), ("field", &named)]),
                None => state.words.with(alone, &[("field", &named)]),
            };
            let there = job.get(slot);
            let kept = state.bench.borrow();
            let pushed = kept.pushed.get(&id).filter(|pushed| there == Some(pushed.text.as_str()));
            match pushed {
                Some(pushed) => {
                    let field = state.words.get(&field.key());
                    let values = [("text", pushed.text.as_str()), ("field", field.as_str())];
                    rows.push(ui::BenchPush {
                        id: id.into(),
                        label: label("bench-take-back", "bench-take-back-of").into(),
                        note: state.words.with("bench-added", &values).into(),
                    });
                }
                None if offered => rows.push(ui::BenchPush {
                    id: id.into(),
                    label: label("bench-add", "bench-add-of").into(),
                    note: "".into(),
                }),
                None => {}
            }
        }
    }
    rows
}

/// Which part or process a field is of, where there are several.
fn place(state: &State, job: &JobText, slot: Slot) -> String {
    match slot.field.of() {
        Of::Run => run_name(state, job, slot.nth),
        _ => state.job().map_or_else(String::new, |job| member_name(&state.pen(), &job, slot.nth)),
    }
}

/// An answer as a person would type it into the field; `None` where it is none to be typed.
fn text_of(state: &State, reply: &Reply, answer: &str, field: Field) -> Option<String> {
    let outcome: &Outcome = reply.answer(answer)?;
    let value = outcome.value.filter(|value| value.is_finite() && *value > 0.0)?;
    let show = state.show();
    let up = |value: f64, step: f64| (value / step - 1e-9).ceil() * step;
    let shown = match field {
        Field::HeatInput => show.heat(value).main,
        Field::Hardness => show.with_unit(value, 0, "HV"),
        Field::Cylinders => show.number(up(value, 1.0), 0),
        _ => return None,
    };
    Some(shown.replace('\u{a0}', " "))
}

/// A button was pressed: the answer goes into the plan, or what was there comes back.
pub(super) fn pressed(state: &State, id: &str) {
    let Some((answer, slot)) = id.split_once(':').and_then(|(answer, id)| Some((answer, Slot::from_id(id)?)))
    else {
        return;
    };
    let there = state.session(|session| session.job.get(slot).map(str::to_owned));
    let pushed = state.bench.borrow_mut().pushed.remove(id);
    if let Some(pushed) = pushed.filter(|pushed| there.as_deref() == Some(pushed.text.as_str())) {
        take_back(state, &pushed);
        return;
    }
    let Some((name, _, field)) = TAKEN.iter().find(|(_, known, _)| *known == answer) else { return };
    let text = state.last_reply(name).and_then(|reply| text_of(state, &reply, answer, *field));
    let Some(text) = text else { return };
    let same: Vec<Slot> = match field {
        Field::HeatInput => SAYS_HEAT.iter().map(|(field, _)| field.nth(slot.nth)).collect(),
        _ => Vec::new(),
    };
    let before = state.session(|session| {
        // With units, so that they mean the same when the units have changed meanwhile.
        let written = session.job.with_units_written(session.units);
        let all = std::iter::once(slot).chain(same.iter().copied());
        all.map(|slot| (slot, written.get(slot).map(str::to_owned))).collect()
    });
    state.change(|session| {
        let written = session.job.with_units_written(session.units);
        for (field, input) in SAYS_HEAT.iter().filter(|_| *field == Field::HeatInput && slot.nth == 0) {
            // The question goes on with what it took from the plan.
            if let Some(text) = written.get(*field).map(str::to_owned).filter(|_| !input.is_empty()) {
                session.typed.entry(format!("{name}.{input}")).or_insert(text);
            }
        }
        for other in &same {
            session.job.set(*other, None);
        }
        session.job.set(slot, Some(text.clone()));
    });
    state.bench.borrow_mut().pushed.insert(id.to_owned(), Pushed { slot, text, before });
}

fn take_back(state: &State, pushed: &Pushed) {
    debug_assert!(pushed.before.iter().any(|(slot, _)| *slot == pushed.slot), "its own field is kept too");
    state.change_job(|job| {
        for (slot, text) in &pushed.before {
            // What was typed there since stays.
            if *slot == pushed.slot || job.get(*slot).is_none() {
                job.set(*slot, text.clone());
            }
        }
    });
}
