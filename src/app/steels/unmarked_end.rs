//! The end of the guided test: what it is treated as, what must be said of that, where it goes.

use slint::SharedString;

use crate::app::{ChosenFor, Page, State, ui};
use crate::engine::unmarked::{End, Reading};
use crate::job::{Field, Of};
use crate::questions::{self, Answers, BenchTest, SAYING_NO, Walk};
use crate::reference::{Composition, Element};
use crate::words::List;
use strum::IntoEnumIterator;

/// The question whose inputs the page asks.
pub(super) const QUESTION: &str = "unmarked-steel";

/// The message of an end.
const fn key(end: End) -> &'static str {
    match end {
        End::AskAgain => "unmarked-end-again",
        End::OwnSheet(_) => "unmarked-end-own-sheet",
        End::DoNotWeld => "unmarked-end-do-not-weld",
        End::Stop => "unmarked-end-stop",
        End::Ask => "unmarked-end-ask",
        End::Number => "unmarked-end-number",
        End::AtLeast => "unmarked-end-at-least",
    }
}

/// The heading, and what is done next.
pub(super) fn head(state: &State, walk: &Walk) -> ui::TestHead {
    let end = walk.reading.end;
    let parts = parts(state);
    ui::TestHead {
        id: "end".into(),
        asked: state.word(key(end)),
        ended: true,
        takes: match (walk.steel.is_some(), parts.len()) {
            (true, 0) => state.word("unmarked-take-question"),
            (true, 1) => state.word("unmarked-take"),
            // Which part it is of is asked in lines of their own.
            _ => SharedString::default(),
        },
        lists: if matches!(end, End::OwnSheet(_)) {
            state.word("unmarked-list")
        } else {
            SharedString::default()
        },
        ..ui::TestHead::default()
    }
}

/// The parts of the job that the steel may be of; none where a question asked.
fn parts(state: &State) -> Vec<usize> {
    let (from_list, chosen_for) = {
        let open = state.open.borrow();
        (open.pages.contains(&Page::Steels), open.chosen_for)
    };
    match chosen_for {
        ChosenFor::Question(_) if from_list => Vec::new(),
        ChosenFor::Nth(nth) if from_list => vec![nth],
        _ => (0..state.session(|session| session.job.count(Of::Part)).max(1)).collect(),
    }
}

/// What is said at the end.
pub(super) fn lines(state: &State, given: &Answers, walk: &Walk) -> Vec<ui::TestLine> {
    let reading = &walk.reading;
    let mut made = Vec::new();
    if let Some(steel) = &walk.steel {
        made.push(note(state.words.with("unmarked-counted", &[("figures", &figures(state, steel))])));
    }
    let parts = parts(state);
    if walk.steel.is_some() && parts.len() > 1 {
        made.extend(parts.iter().map(|nth| part(state, *nth)));
    }
    made.extend(reading.again.iter().map(|step| again(state, step)));
    made.extend(said(state, given));
    made.extend(further(state, walk, reading));
    made
}

/// The steel in symbols and figures.
fn figures(state: &State, steel: &Composition) -> String {
    let shares = Element::ALL.iter().filter(|element| steel.get(**element) > 0.0);
    let shares: Vec<String> = shares
        .map(|&element| format!("{}\u{a0}{}", element.symbol(), state.show().number(steel.get(element), 3)))
        .collect();
    state.words.list(List::Comma, &shares)
}

fn note(text: String) -> ui::TestLine {
    ui::TestLine { kind: ui::TestLineKind::Note, text: text.into(), ..ui::TestLine::default() }
}

/// The notes of the question, but for those that the page says in its own way.
fn said(state: &State, given: &Answers) -> Vec<ui::TestLine> {
    let reply = questions::find(QUESTION).and_then(|question| question.ask(given).ok());
    let notes = reply.map(|reply| reply.notes).unwrap_or_default();
    let own = |note: &&&str| {
        !note.starts_with("unmarked-next-")
            && !note.starts_with("unmarked-again-")
            && **note != "unmarked-number"
    };
    let line = |id: &&str| ui::TestLine {
        kind: if SAYING_NO.contains(id) { ui::TestLineKind::Warning } else { ui::TestLineKind::Note },
        id: (*id).into(),
        text: state.word(&format!("note-{id}")),
        ..ui::TestLine::default()
    };
    let (no, rest): (Vec<_>, Vec<_>) =
        notes.iter().filter(own).map(line).partition(|line| line.kind == ui::TestLineKind::Warning);
    no.into_iter().chain(rest).collect()
}

/// A step that is to be done again.
fn again(state: &State, step: &str) -> ui::TestLine {
    ui::TestLine {
        kind: ui::TestLineKind::Test,
        id: BenchTest::of_step(step).id().into(),
        text: state.word(&format!("note-unmarked-again-{step}")),
        ..ui::TestLine::default()
    }
}

/// A part of the job that the steel may be of.
fn part(state: &State, nth: usize) -> ui::TestLine {
    let steel =
        state.session(|session| session.job.get(Field::Steel.nth(nth)).unwrap_or_default().to_owned());
    ui::TestLine {
        kind: ui::TestLineKind::Part,
        id: nth.to_string().into(),
        text: state.word(if nth == 0 { "unmarked-take-first" } else { "unmarked-take-second" }),
        note: if steel.is_empty() {
            SharedString::default()
        } else {
            state.words.with("unmarked-take-over", &[("steel", &steel)]).into()
        },
        ..ui::TestLine::default()
    }
}

/// Tests that may still narrow it.
fn further(state: &State, walk: &Walk, reading: &Reading) -> Vec<ui::TestLine> {
    if !matches!(reading.end, End::Number | End::AtLeast | End::Ask) {
        return Vec::new();
    }
    let open: Vec<BenchTest> = BenchTest::iter().filter(|test| !walk.tests.contains(test)).collect();
    let head = ui::TestLine {
        kind: ui::TestLineKind::Head,
        id: "further".into(),
        text: state.word("unmarked-further"),
        note: state.word("unmarked-further.how"),
        ..ui::TestLine::default()
    };
    let row = |test: BenchTest| ui::TestLine {
        kind: ui::TestLineKind::Test,
        id: test.id().into(),
        text: state.word(&format!("unmarked-test-{}", test.id())),
        note: state.word(&format!("unmarked-test-{}.asked", test.id())),
        ..ui::TestLine::default()
    };
    if open.is_empty() {
        Vec::new()
    } else {
        std::iter::once(head).chain(open.into_iter().map(row)).collect()
    }
}
