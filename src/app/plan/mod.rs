//! The Plan place: what is typed becomes a plan, the plan becomes rows.

pub(crate) mod begin;
pub(crate) mod fillers;
pub(crate) mod form;
pub(crate) mod form_events;
mod form_laying;
mod form_process;
mod form_repair;
mod form_safety;
mod form_weld;
mod moments;
mod results;
mod weld_picture;

use std::rc::Rc;

use slint::{ComponentHandle, SharedString};

use crate::app::calls::{calls, calls_plain};
use crate::app::open::toggle;
use crate::app::rows::{model, put};
use crate::app::{BasisOf, Planned, ResultsOf, State, basis, cycle, ui};
use crate::engine::plan::Verdict;
use crate::job::{Fault, Field, Of, Slot};
use crate::report::{Report, basis_sheet, put_trials, put_weld};
use crate::words::List;

/// Wires the Plan place.
pub(crate) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let adapter = window.global::<ui::PlanAdapter>();
    adapter.set_rows(model(Vec::new()));
    begin::connect(window, state);
    adapter.on_basis_asked(calls(window, state, |window, state, id: SharedString| {
        state.open.borrow_mut().basis = Some(BasisOf::Plan(id.to_string()));
        refresh(window, state);
    }));
    adapter.on_caution_toggled(calls(window, state, |window, state, id: SharedString| {
        toggle(&mut state.open.borrow_mut().cautions, &id);
        refresh(window, state);
    }));
    adapter.on_evidence_set_picked(calls(window, state, |window, state, index: i32| {
        state.open.borrow_mut().evidence_set = usize::try_from(index).ok();
        refresh(window, state);
    }));
    adapter.on_critical_toggled(calls_plain(window, state, |window, state| {
        toggle(&mut state.open.borrow_mut().cautions, results::CRITICAL_LINE);
        refresh(window, state);
    }));
    adapter.on_cautions_all_asked(calls_plain(window, state, |window, state| {
        state.open.borrow_mut().all_cautions = true;
        refresh(window, state);
    }));
}

/// Fills the place anew.
pub(crate) fn refresh(window: &ui::AppWindow, state: &State) {
    let adapter = window.global::<ui::PlanAdapter>();
    put(&adapter.get_rows(), form::rows(state));
    begin::fill(&adapter, state);
    // What a refusal says of one steel is nothing to go by for another.
    match state.planned().filter(|planned| !refused_another(state, planned)) {
        None => fill_empty(&adapter, state),
        Some(planned) => {
            let pen = state.pen();
            let mut report = Report::of(&pen, &planned.read.job, &planned.plan);
            state.log.borrow_mut().read_known();
            put_trials(&pen, &planned.read.job, &planned.plan, state.log.borrow().known(), &mut report);
            let weld = put_weld(&pen, &planned.read.job, &planned.read.told, &planned.plan, &mut report);
            let joint = planned.read.job.joint;
            adapter.set_weld_picture(
                weld.map_or_else(Default::default, |weld| weld_picture::picture(&pen, joint, &weld)),
            );
            let line = cycle::put_lines(state, &planned, &mut report.steps);
            adapter.set_cycle_note(line.note.into());
            let mut answer = results::answer_view(state, &report.answer, &planned);
            let mut note = by_certificates(state);
            note.extend(Some(answer.note.to_string()).filter(|said| !said.is_empty()));
            answer.note = state.words.list(List::Sentences, &note).into();
            if let Some(why) = stale_why(state) {
                answer.stale = true;
                answer.stale_title = state.word("plan-stale");
                answer.stale_why = why;
            }
            let stops = matches!(
                answer.kind,
                ui::AnswerKind::Refused | ui::AnswerKind::NoWindow | ui::AnswerKind::Uncovered
            );
            begin_at_top(&adapter, state, stops);
            adapter.set_answer(answer);
            let open = state.open.borrow();
            let line = results::window_view(state, &planned, &report.answer);
            adapter.set_moments(model(moments::moments(state, &planned, &line)));
            adapter.set_window_line(line);
            results::fill_evidence(&adapter, state, &planned, &report, &open);
            adapter.set_levers_note(state.word("plan-levers-note"));
            adapter.set_levers(model(report.levers.iter().map(results::lever_row).collect()));
            adapter.set_find(model(report.find.iter().map(results::to_do_row).collect()));
            adapter.set_steps(model(results::step_rows(&report.steps)));
            adapter.set_weld(model(report.weld.iter().map(results::to_do_row).collect()));
            adapter.set_beside(model(report.beside.iter().map(results::to_do_row).collect()));
            results::fill_cautions(&adapter, state, &report, &open);
            let assumed = planned.read.defaulted.iter().map(|found| ui::ParagraphRow {
                label: found.slot.name(&state.words).into(),
                text: found.say(&state.words, &state.show()).into(),
            });
            adapter.set_assumed(model(assumed.collect()));
        }
    }
    fill_basis(window, state);
}

/// Which certificate the composition of each part comes from, where one was chosen or typed.
fn by_certificates(state: &State) -> Vec<String> {
    let (job, own_steels) = state.session(|session| (session.job.clone(), session.own_steels.clone()));
    let of_part = if job.parts.len() > 1 { ".part" } else { "" };
    let said = |nth: usize| {
        let typed = |nth: usize, field: Field| job.get(field.nth(nth));
        let stated = [Field::Steel, Field::Certificate].iter().any(|field| typed(nth, *field).is_some());
        // A part of which nothing is said is of the first one's steel.
        let of = if stated { nth } else { 0 };
        let own =
            own_steels.iter().find(|own| typed(of, Field::Steel).is_some_and(|name| own.is_called(name)));
        let (key, name) = match own {
            _ if typed(of, Field::Certificate).is_some() => ("plan-by-certificate", ""),
            // A bar without a mark has no certificate: its own line says what it counts as.
            Some(own) if own.read().is_ok_and(|line| line.unmarked.is_some()) => return None,
            Some(own) => ("plan-by-heat", own.name.as_str()),
            None => return None,
        };
        let part = state.words.get(if nth == 0 { "form-member-a" } else { "form-member-b" });
        Some(state.words.with(&format!("{key}{of_part}"), &[("part", &part), ("name", name)]))
    };
    (0..job.parts.len()).filter_map(said).collect()
}

/// The results of another steel, and a refusal, begin at their top.
fn begin_at_top(adapter: &ui::PlanAdapter<'_>, state: &State, refused: bool) {
    let steels = state.session(|session| {
        let of = |nth: usize| session.job.get(Field::Steel.nth(nth)).unwrap_or_default();
        format!("{} + {}", of(0), of(1))
    });
    let now = ResultsOf { steels, refused };
    let before = state.open.borrow_mut().results_of.replace(now.clone());
    if before.is_some_and(|before| before.steels != now.steels || refused && !before.refused) {
        adapter.set_scroll_results(0.0);
    }
}

/// The entries that can't be used, each once and by its name: what is wrong with it stands at its field.
fn bad_fields(state: &State) -> Vec<String> {
    let mut slots: Vec<Slot> = Vec::new();
    for problem in state.problems() {
        if problem.fault != Fault::Missing && !slots.contains(&problem.slot) {
            slots.push(problem.slot);
        }
    }
    slots.iter().map(|slot| name_in_form(state, *slot)).collect()
}

/// What a field is called in the form: a round bar has a diameter, and of two parts one is meant.
fn name_in_form(state: &State, slot: Slot) -> String {
    let job = state.session(|session| session.job.clone());
    let round = slot.field == Field::Thickness
        && job
            .get(Field::Shape.nth(slot.nth))
            .is_some_and(|shape| crate::job::typed::shape_is_round(shape) == Ok(true));
    let field = if round { Field::Diameter } else { slot.field };
    let name = field.nth(slot.nth).name(&state.words);
    let first_of_two = job.parts.len() > 1 && slot.field.of() == Of::Part && slot.nth == 0;
    if first_of_two { state.words.with("field-of-first", &[("field", &name)]) } else { name }
}

/// Is the last plan a refusal of a steel that is not in the form any more?
fn refused_another(state: &State, planned: &Planned) -> bool {
    let of_steel = [Field::Steel, Field::Certificate];
    let says_no = matches!(planned.plan.verdict, Verdict::Refused(_) | Verdict::NoWindow | Verdict::NoMethod);
    says_no && state.problems().iter().any(|problem| of_steel.contains(&problem.slot.field))
}

/// Why the shown plan is an old one: fields that can't be read, or one that is empty again.
fn stale_why(state: &State) -> Option<SharedString> {
    let bad = bad_fields(state);
    if !bad.is_empty() {
        let fields = state.words.list(List::Comma, &bad);
        return Some(state.words.count("plan-unusable", bad.len(), &[("fields", &fields)]).into());
    }
    let problems = state.problems();
    let problem = problems.first()?;
    let field = problem.slot.name(&state.words);
    let said = problem.say(&state.words);
    Some(state.words.with("plan-stale-missing", &[("field", &field), ("said", &said)]).into())
}

/// The empty place: what to type first.
fn fill_empty(adapter: &ui::PlanAdapter<'_>, state: &State) {
    let steps = begin::steps_in_words(state);
    let bad = bad_fields(state);
    let title = match (bad.len(), steps.len()) {
        (0, 4) => state.word("plan-empty"),
        (0, _) => state.word("plan-empty-rest"),
        (count, _) => {
            let fields = state.words.list(List::Comma, &bad);
            state.words.count("plan-unusable", count, &[("fields", &fields)]).into()
        }
    };
    adapter.set_answer(ui::AnswerView {
        kind: ui::AnswerKind::Empty,
        title,
        lines: model(steps),
        ..ui::AnswerView::default()
    });
    adapter.set_window_line(ui::WindowView::default());
    adapter.set_moments(model(Vec::new()));
    adapter.set_evidence_sets(model(Vec::new()));
    adapter.set_evidence(model(Vec::new()));
    adapter.set_levers(model(Vec::new()));
    adapter.set_find(model(Vec::new()));
    adapter.set_steps(model(Vec::new()));
    adapter.set_weld(model(Vec::new()));
    adapter.set_weld_picture(ui::WeldPicture::default());
    adapter.set_beside(model(Vec::new()));
    adapter.set_cycle_note("".into());
    adapter.set_assumed(model(Vec::new()));
    adapter.set_cautions(model(Vec::new()));
    adapter.set_cautions_more("".into());
    adapter.set_not_told("".into());
    adapter.set_has_critical(false);
}

fn fill_basis(window: &ui::AppWindow, state: &State) {
    let found = match (&state.open.borrow().basis, state.planned()) {
        (Some(BasisOf::Plan(id)), Some(planned)) => {
            basis_sheet(&state.pen(), &planned.read.job, &planned.plan, id).map(|sheet| (id.clone(), sheet))
        }
        _ => None,
    };
    basis::show(window, found.as_ref().map(|(id, sheet)| (id.as_str(), sheet)));
}
