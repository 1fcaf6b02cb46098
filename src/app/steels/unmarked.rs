//! A bar without a mark: one test a screen, what the answers leave always in view, and at the end a steel
//! for the plan.

use std::rc::Rc;

use slint::{ComponentHandle, SharedString};

use super::certificate;
use super::unmarked_end::QUESTION;
use super::unmarked_rows as rows;
use crate::app::calls::{calls, calls_plain};
use crate::app::form::{question, question_steel};
use crate::app::open::UnmarkedAt;
use crate::app::rows::{model, put};
use crate::app::shell::refresh_all;
use crate::app::{ChosenFor, Page, State, ui};
use crate::engine::unmarked::{End, Family};
use crate::job::typed::UnmarkedLine;
use crate::job::{Field, OwnSteel, Reading, read_answer};
use crate::questions::{self, Answers, BenchTest, Given, Walk, walk};
use crate::reference::GradeFamily;

/// What a part with a hard layer on it is typed as.
const CASED: &str = "case-hardened";

/// Wires the page.
pub(crate) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let adapter = window.global::<ui::UnmarkedAdapter>();
    adapter.set_tests(model(Vec::new()));
    adapter.set_lines(model(Vec::new()));
    adapter.set_fields(model(Vec::new()));
    let of_id = |act: fn(&ui::AppWindow, &State, &str)| {
        calls(window, state, move |window, state, id: SharedString| act(window, state, &id))
    };
    let plain =
        |act: fn(&ui::AppWindow, &State)| calls_plain(window, state, move |window, state| act(window, state));
    adapter.on_answer_asked(of_id(answered));
    adapter.on_test_asked(of_id(|window, state, id| go(window, state, at_of(id))));
    adapter.on_part_asked(of_id(|window, state, id| take(window, state, id.parse().ok())));
    adapter.on_step_back(plain(step_back));
    adapter.on_passed(plain(pass));
    adapter.on_next(plain(next));
    adapter.on_restart(plain(restart));
    adapter.on_list_asked(plain(list));
    adapter.on_certificate_asked(plain(|window, state| certificate::open(window, state, None)));
}

/// Where a cell of the path leads: to a test, or to the end.
fn at_of(id: &str) -> UnmarkedAt {
    id.parse().map_or(UnmarkedAt::End, UnmarkedAt::Test)
}

/// What is answered, as far as it can be read: what cannot narrows nothing.
pub(super) fn given(state: &State) -> Answers {
    let Some(question) = questions::find(QUESTION) else { return Answers::new() };
    let units = state.session(|session| session.units);
    let reading =
        Reading { reference: state.reference, own_steels: &[], units, mark: state.show().typed_mark() };
    let mut read: Vec<(&str, Given)> = Vec::new();
    for input in question.inputs {
        let key = format!("{QUESTION}.{}", input.key);
        let text = state.session(|session| {
            session.typed.get(&key).or_else(|| session.choices.get(&key)).cloned().unwrap_or_default()
        });
        if !text.trim().is_empty()
            && let Ok(value) = read_answer(input, &text, &reading)
        {
            read.push((input.key, value));
        }
    }
    // What was measured says more than what was felt.
    let measured = read.iter().any(|(key, _)| *key == "quench-hrc");
    read.retain(|(key, _)| !(measured && *key == "quench-coupon"));
    read.into_iter().fold(Answers::new(), |answers, (key, value)| answers.with(key, value))
}

/// How far the test has come; none where answers do not go together.
pub(super) fn stand(state: &State) -> Option<(Answers, Walk)> {
    let given = given(state);
    let passed = state.open.borrow().unmarked_passed.clone();
    walk(&given, &passed).ok().map(|walk| (given, walk))
}

/// The test on the screen; none at the end.
pub(super) fn shown(state: &State, given: &Answers, walk: &Walk) -> Option<BenchTest> {
    let (at, passed) = {
        let open = state.open.borrow();
        (open.unmarked_at, open.unmarked_passed.clone())
    };
    match at {
        UnmarkedAt::Test(test) => Some(test),
        UnmarkedAt::End => None,
        UnmarkedAt::First => {
            walk.tests.iter().copied().find(|test| !test.is_answered(given) && !passed.contains(test))
        }
    }
}

fn go(window: &ui::AppWindow, state: &State, at: UnmarkedAt) {
    state.open.borrow_mut().unmarked_at = at;
    refresh(window, state);
}

/// What stands so many places from a test in the path, which has all tests so far; none is its end.
fn neighbour(state: &State, here: Option<BenchTest>, by: isize) -> UnmarkedAt {
    let Some((_, walk)) = stand(state) else { return UnmarkedAt::First };
    let mut tests = walk.tests;
    // A test that nobody is led to may be opened from the end.
    if let Some(test) = here.filter(|test| !tests.contains(test)) {
        tests.push(test);
    }
    let at = here.and_then(|test| tests.iter().position(|one| *one == test)).unwrap_or(tests.len());
    let to = at.checked_add_signed(by).unwrap_or(0);
    tests.get(to).copied().map_or(UnmarkedAt::End, UnmarkedAt::Test)
}

fn step_back(window: &ui::AppWindow, state: &State) {
    let Some((given, walk)) = stand(state) else { return };
    go(window, state, neighbour(state, shown(state, &given, &walk), -1));
}

fn next(window: &ui::AppWindow, state: &State) {
    let Some((given, walk)) = stand(state) else { return };
    go(window, state, neighbour(state, shown(state, &given, &walk), 1));
}

/// Nobody can tell: what was said of it goes, and the worst case stays.
fn pass(window: &ui::AppWindow, state: &State) {
    let Some((given, walk)) = stand(state) else { return };
    let Some(test) = shown(state, &given, &walk) else { return };
    state.change(|session| {
        for key in test.inputs().iter().map(|key| format!("{QUESTION}.{key}")) {
            session.choices.remove(&key);
            session.typed.remove(&key);
        }
    });
    {
        let mut open = state.open.borrow_mut();
        if !open.unmarked_passed.contains(&test) {
            open.unmarked_passed.push(test);
        }
    }
    go(window, state, neighbour(state, Some(test), 1));
}

/// An answer, `INPUT.ID`. Where a test has one question only it leads on.
fn answered(window: &ui::AppWindow, state: &State, id: &str) {
    let (Some((key, answer)), Some((given, walk))) = (id.split_once('.'), stand(state)) else { return };
    let Some(test) = shown(state, &given, &walk) else { return };
    let kept = format!("{QUESTION}.{key}");
    let was = state.session(|session| session.choices.get(&kept).cloned());
    // What is chosen already is taken back.
    let again = was.as_deref() == Some(answer);
    state.change(|session| {
        if again {
            session.choices.remove(&kept);
            return;
        }
        session.choices.insert(kept.clone(), answer.to_owned());
        if key == "quench-coupon" {
            session.typed.remove(&format!("{QUESTION}.quench-hrc"));
        }
    });
    state.open.borrow_mut().unmarked_passed.retain(|passed| *passed != test);
    let leads_on =
        !again && matches!(test, BenchTest::File | BenchTest::Spark | BenchTest::Magnet | BenchTest::Chip);
    let at = if leads_on { neighbour(state, Some(test), 1) } else { UnmarkedAt::Test(test) };
    go(window, state, at);
}

/// Another bar: nothing of the one before is left.
fn restart(window: &ui::AppWindow, state: &State) {
    begin_anew(state);
    refresh(window, state);
}

fn begin_anew(state: &State) {
    question::clear(state, QUESTION);
    let mut open = state.open.borrow_mut();
    open.unmarked_passed.clear();
    open.unmarked_at = UnmarkedAt::First;
}

/// The steel of the end goes where the page was asked from: into a part of the job, or a question.
fn take(window: &ui::AppWindow, state: &State, part: Option<usize>) {
    let Some((given, Walk { reading, steel: Some(steel), .. })) = stand(state) else { return };
    let said = UnmarkedLine { alloy: reading.alloy, maybe_tool: reading.end == End::AtLeast };
    let own = OwnSteel::of_test(rows::name(state, &reading), said, &steel);
    // A part that is named is one of the job's; without a name the page was asked from a place of its own.
    let chosen_for = part.map_or(state.open.borrow().chosen_for, ChosenFor::Nth);
    let (core_hrc, show) = (given.maybe_number("core-hrc"), state.show());
    state.change(|session| {
        let name = session.keep_tested(own);
        match chosen_for {
            ChosenFor::Question(question) => question_steel::take_steel(session, question, &name),
            ChosenFor::Nth(nth) => {
                session.job.take_steel(nth, &name);
                // A hard layer that is still on it keeps the part cool until it is off.
                let cased = reading.hard_skin && !reading.skin_off;
                session.job.set(Field::Condition.nth(nth), cased.then(|| CASED.to_owned()));
                let hrc = core_hrc.filter(|hrc| !cased && *hrc >= rows::LEAST_HRC);
                session.job.set(Field::Hardness.nth(nth), hrc.map(|hrc| show.with_unit(hrc, 2, "HRC")));
                "plan".clone_into(&mut session.place);
            }
        }
    });
    begin_anew(state);
    state.open.borrow_mut().pages.retain(|page| match chosen_for {
        ChosenFor::Question(_) => !matches!(page, Page::Unmarked | Page::Steels),
        ChosenFor::Nth(_) => false,
    });
    refresh_all(window, state);
}

/// The steels of the one family that is left, to choose from.
fn list(window: &ui::AppWindow, state: &State) {
    let Some((_, walk)) = stand(state) else { return };
    let End::OwnSheet(family) = walk.reading.end else { return };
    let is_of = |own: GradeFamily| match family {
        Family::Iron => matches!(own, GradeFamily::GreyIron | GradeFamily::DuctileIron),
        Family::Manganese => own == GradeFamily::AusteniticManganese,
        Family::StainlessN => own == GradeFamily::StainlessAustenitic,
        Family::StainlessM => {
            own == GradeFamily::StainlessFerritic || own == GradeFamily::StainlessMartensitic
        }
        _ => own == GradeFamily::ToolSteel,
    };
    let group =
        state.reference.grades.iter().find(|grade| is_of(grade.family)).map(|grade| grade.group.clone());
    let from_list = {
        let mut open = state.open.borrow_mut();
        open.pages.retain(|page| *page != Page::Unmarked);
        open.pages.last() == Some(&Page::Steels)
    };
    if from_list {
        state.open.borrow_mut().steel_query.clear();
    } else {
        state.open.borrow_mut().pages.push(Page::Steels);
    }
    state.open.borrow_mut().steel_groups.extend(group);
    refresh_all(window, state);
}

/// Fills the page.
pub(crate) fn refresh(window: &ui::AppWindow, state: &State) {
    let adapter = window.global::<ui::UnmarkedAdapter>();
    let Some((given, walk)) = stand(state) else { return };
    let here = shown(state, &given, &walk);
    put(&adapter.get_tests(), rows::tests(state, &given, &walk, here));
    put(&adapter.get_lines(), rows::lines(state, &given, &walk, here));
    put(&adapter.get_fields(), rows::fields(state, here));
    adapter.set_band(rows::band(state, &walk));
    adapter.set_head(rows::head(state, &given, &walk, here));
}
