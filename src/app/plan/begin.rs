//! How a plan begins: what is still wanted, an example, a new job.

use std::rc::Rc;

use slint::{ComponentHandle, SharedString};

use crate::app::calls::{calls, calls_plain};
use crate::app::form::row_id::RowId;
use crate::app::rows::{model, put};
use crate::app::shell::{keyboard_to, open_page, refresh_all, refresh_screen};
use crate::app::{ChosenFor, Page, State, ui};
use crate::job::{Field, JobText, Session, Slot, demo_job, is_demo};
use crate::units::Units;
use crate::words::List;

/// One of the four things that make a plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Step {
    Steel(usize),
    Size(Slot),
    Joint,
    Process,
}

/// Wires the beginning.
pub(super) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let adapter = window.global::<ui::PlanAdapter>();
    adapter.set_last_jobs(model(Vec::new()));
    adapter.on_step_asked(calls(window, state, |window, state, index: i32| {
        let step = usize::try_from(index).ok().and_then(|index| steps(state).get(index).copied());
        if let Some(step) = step {
            lead(window, state, step);
        }
    }));
    adapter.on_example_asked(calls_plain(window, state, |window, state| {
        state.exchange_job(demo_job());
        begun(window, state);
    }));
    adapter.on_new_job_asked(calls_plain(window, state, |window, state| {
        put_away(state);
        begun(window, state);
    }));
    adapter.on_last_job_asked(calls(window, state, |window, state, key: SharedString| {
        bring_back(state, &key);
        begun(window, state);
    }));
}

/// Another job stands in the form: it begins at its top, with nothing unfolded.
fn begun(window: &ui::AppWindow, state: &State) {
    let adapter = window.global::<ui::PlanAdapter>();
    adapter.set_scroll_inputs(0.0);
    adapter.set_scroll_results(0.0);
    refresh_all(window, state);
}

/// A plan takes four entries; with fewer a job is only begun.
const BEGINNING: usize = 4;

/// The job is put away, as it was typed; bare figures with the unit that they were typed in. Beside jobs
/// that were put away before, the untouched example and a beginning of fewer entries than a plan takes are
/// not kept.
fn put_away(state: &State) {
    let whole = state.planned().is_some() && state.problems().is_empty();
    state.change(|session| {
        let before = !session.put_away().is_empty();
        let kept = session.job.with_units_written(session.units);
        let example = kept == demo_job().with_units_written(Units::C_MM);
        let worth = whole || session.job.typed().len() >= BEGINNING;
        if !before || worth && !example {
            session.put_job_away(&kept);
        }
        session.exchange_job(JobText::default());
    });
}

/// A job that the person brings along takes the place of the one in the form, which is put away.
pub(crate) fn bring(window: &ui::AppWindow, state: &State, job: JobText) {
    state.change(|session| {
        put_now_away(session);
        session.exchange_job(job);
    });
    begun(window, state);
}

/// What stands in the form is put away, but for nothing and the untouched example.
fn put_now_away(session: &mut Session) {
    let now = session.job.with_units_written(session.units);
    if !now.typed().is_empty() && now != demo_job().with_units_written(Units::C_MM) {
        session.put_job_away(&now);
    }
}

/// A job that was put away comes back. What stands in the form is put away in turn.
fn bring_back(state: &State, key: &str) {
    state.change(|session| {
        let Some(job) = session.take_put_away(key) else { return };
        put_now_away(session);
        session.exchange_job(job);
    });
}

/// Leads to where what is wanted is typed or chosen.
fn lead(window: &ui::AppWindow, state: &State, step: Step) {
    let mut wanted = String::new();
    {
        let mut open = state.open.borrow_mut();
        match step {
            Step::Steel(nth) => open.chosen_for = ChosenFor::Nth(nth),
            Step::Size(slot) => {
                open.rows.insert(if slot.nth == 0 { "member-a" } else { "member-b" }.to_owned());
                wanted = slot.id().into_owned();
            }
            Step::Joint => {
                open.rows.insert("joint".to_owned());
                wanted = RowId::of(Field::Joint).to_string();
            }
            Step::Process => {
                open.rows.insert("process".to_owned());
                open.rows.insert(RowId::of(Field::Process).folded().to_string());
                wanted = RowId::of(Field::Process).to_string();
            }
        }
    }
    if let Step::Steel(_) = step {
        open_page(window, state, Page::Steels);
        return;
    }
    // What is made takes the keyboard as it is made, what is there already as it is named.
    keyboard_to(window, wanted.into(), true);
    refresh_screen(window, state);
}

/// What is still wanted, in the order of the form.
fn steps(state: &State) -> Vec<Step> {
    let problems = state.problems();
    let wanted = |fields: &[Field]| {
        problems.iter().map(|problem| problem.slot).find(|slot| fields.contains(&slot.field))
    };
    let size = wanted(&[Field::Thickness, Field::Diameter]);
    let size = size.map(|slot| {
        match state.session(|session| session.job.get(Field::Diameter.nth(slot.nth)).is_some()) {
            true => Field::Diameter.nth(slot.nth),
            false => Field::Thickness.nth(slot.nth),
        }
    });
    [
        wanted(&[Field::Steel, Field::Certificate]).map(|slot| Step::Steel(slot.nth)),
        size.map(Step::Size),
        wanted(&[Field::Joint]).map(|_| Step::Joint),
        wanted(&[Field::Process]).map(|_| Step::Process),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// The same in words.
pub(super) fn steps_in_words(state: &State) -> Vec<SharedString> {
    let round = |nth: usize| {
        state.session(|session| {
            let shape = session.job.get(Field::Shape.nth(nth));
            shape.is_some_and(|shape| crate::job::typed::shape_is_round(shape) == Ok(true))
        })
    };
    let key = |step: Step| match step {
        Step::Steel(_) => "plan-empty-steel",
        Step::Size(Slot { field: Field::Diameter, .. }) => "plan-empty-diameter",
        Step::Size(slot) if round(slot.nth) => "plan-empty-diameter",
        Step::Size(_) => "plan-empty-thickness",
        Step::Joint => "plan-empty-joint",
        Step::Process => "plan-empty-process",
    };
    steps(state).into_iter().map(|step| state.word(key(step))).collect()
}

/// Fills what is offered beside an empty answer, and under the form.
pub(super) fn fill(adapter: &ui::PlanAdapter<'_>, state: &State) {
    let typed = state.session(|session| !session.job.typed().is_empty());
    adapter.set_can_begin_anew(typed);
    adapter.set_example_offered(!typed);
    adapter.set_is_example(state.session(|session| is_demo(&session.job)));
    // They stay at hand whatever is typed since, and after a restart too.
    let jobs = state.session(Session::put_away).into_iter();
    let jobs = jobs.map(|away| ui::LastJob { text: called(state, &away.job), key: away.key.into() });
    put(&adapter.get_last_jobs(), jobs.collect());
}

/// What a job that was put away is called: by its name, or by its first part.
fn called(state: &State, job: &JobText) -> SharedString {
    let told = |field| job.get(field).map(str::trim).filter(|text| !text.is_empty());
    let name = told(Field::Name).map(str::to_owned).or_else(|| {
        let size = told(Field::Thickness).or_else(|| told(Field::Diameter));
        let part: Vec<String> = told(Field::Steel).into_iter().chain(size).map(str::to_owned).collect();
        (!part.is_empty()).then(|| state.words.list(List::Comma, &part))
    });
    match name {
        Some(name) => state.words.with("plan-last-job-named", &[("name", &name)]).into(),
        None => state.word("plan-last-job"),
    }
}
