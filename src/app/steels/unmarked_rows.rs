//! What the guided test shows: the path, what the answers leave, the answers of the test on the screen.

use slint::SharedString;

use super::unmarked_end::{self, QUESTION};
use super::unmarked_sketch::sketch;
use crate::app::form::{question, question_inputs};
use crate::app::rows::model;
use crate::app::screen_values::{basis_kind, float};
use crate::app::{State, ui};
use crate::engine::unmarked::{Alloy, End, Families, Family, Reading};
use crate::questions::{self, Answers, BenchTest, Kind, SECTION, Walk};
use crate::reference::{Method, TestAnswer, TestFlag};
use crate::report::{basis_mark, range};
use crate::words::List;

/// Softer steel has no hardness on the scale that the plan converts, HRC.
pub(super) const LEAST_HRC: f64 = 20.0;
/// So many families left are hardly fewer than all.
const HARDLY_FEWER: u32 = 6;
/// Round figures under the band, %.
const TICKS: [f64; 4] = [0.0, 0.3, 0.6, 1.0];

/// The path: each test with what was answered, and the end.
pub(super) fn tests(
    state: &State,
    given: &Answers,
    walk: &Walk,
    here: Option<BenchTest>,
) -> Vec<ui::TestCell> {
    let mut shown = walk.tests.clone();
    if let Some(test) = here.filter(|test| !shown.contains(test)) {
        shown.push(test);
    }
    // Who cannot tell is through with a test as well.
    let passed = state.open.borrow().unmarked_passed.clone();
    let passed = |test: &BenchTest| passed.contains(test) && !test.is_answered(given);
    let mut cells: Vec<ui::TestCell> = shown
        .iter()
        .map(|test| ui::TestCell {
            id: test.id().into(),
            label: state.word(&format!("unmarked-test-{}", test.id())),
            said: if passed(test) { state.word("unmarked-pass") } else { said(state, given, *test).into() },
            done: test.is_answered(given) || passed(test),
            here: here == Some(*test),
            ..ui::TestCell::default()
        })
        .collect();
    cells.push(ui::TestCell {
        id: "end".into(),
        label: state.word("unmarked-test-end"),
        here: here.is_none(),
        last: true,
        ..ui::TestCell::default()
    });
    for (nth, cell) in cells.iter_mut().enumerate() {
        cell.number = state.show().number(f64::from(u32::try_from(nth + 1).unwrap_or(0)), 0).into();
    }
    cells
}

/// What was answered in a test, in a few words.
fn said(state: &State, given: &Answers, test: BenchTest) -> String {
    let word = |key: &&str| {
        given.maybe_choice(key).map(|id| state.words.get(&format!("option-{key}-{id}"))).or_else(|| {
            let value = given.maybe_number(key)?;
            let unit = if *key == "density" { "kg/dm³" } else { "HRC" };
            Some(state.show().with_unit(value, 2, unit))
        })
    };
    // A former use stands with the test that it belongs to.
    let belongs = |key: &&&str| {
        **key != "was"
            || given.maybe_choice("was").is_some_and(|was| (was == SECTION) == (test == BenchTest::Alloy))
    };
    let words: Vec<String> = test.inputs().iter().filter(belongs).filter_map(word).collect();
    state.words.list(List::Semicolon, &words)
}

/// Carbon as it is said: two decimals, the upper end never below what counts, the lower never above it.
pub(super) fn hundredths(state: &State, percent: f64, up: bool) -> String {
    let by = 100.0 * percent;
    let whole = if up { (by - 1e-6).ceil() } else { (by + 1e-6).floor() };
    format!("{:.2}", whole / 100.0).replace('.', &state.show().mark.to_string())
}

/// The same with its unit.
fn share(state: &State, percent: f64, up: bool) -> String {
    state.words.with("unmarked-percent", &[("figure", &hundredths(state, percent, up))])
}

/// What the answers leave.
pub(super) fn band(state: &State, walk: &Walk) -> ui::CarbonBand {
    let reading = &walk.reading;
    let pen = state.pen();
    let data = &state.reference.unmarked;
    let top = data.top_percent;
    // Of a contradiction no carbon stands.
    let steel = reading.families.has(Family::Steel) && reading.end != End::AskAgain;
    let narrowed = reading.families != Families::ALL || reading.carbon != (0.0, top);
    let (low, high) = (reading.carbon.0.min(reading.carbon.1), reading.carbon.1.max(reading.carbon.0));
    let counted = walk.steel.is_some();
    let figure = match reading.end {
        _ if !narrowed => state.words.get("unmarked-anything"),
        End::AskAgain => state.words.get("unmarked-contradiction"),
        End::Number | End::AtLeast => {
            state.words.with("unmarked-carbon", &[("carbon", &share(state, reading.counted, true))])
        }
        End::OwnSheet(_) | End::DoNotWeld | End::Stop => {
            state.words.with("unmarked-only", &[("families", &family_names(state, reading.families))])
        }
        End::Ask => state.words.get("unmarked-no-figure"),
    };
    let mark = basis_mark(&pen, &pen.reference.methods.row(Method::UnmarkedSteel).basis);
    ui::CarbonBand {
        label: state.word(if counted { "unmarked-treat-as" } else { "unmarked-so-far" }),
        figure: figure.into(),
        counted,
        range: if steel {
            range(&pen, &share(state, low, false), &share(state, high, true)).into()
        } else {
            SharedString::default()
        },
        left: left(state, reading).into(),
        steel,
        low: float(low / top),
        high: float(high / top),
        at: float(reading.counted.min(top) / top),
        ticks: model(
            TICKS
                .into_iter()
                .chain([top])
                .map(|percent| ui::SliderTick {
                    at: float(percent / top),
                    // The axis says once what it is of.
                    label: if percent < top {
                        state.show().number(percent, 1).into()
                    } else {
                        state.show().with_unit(percent, 2, "%").into()
                    },
                })
                .collect(),
        ),
        basis_kind: basis_kind(&mark),
        basis_label: mark.label.into(),
    }
}

/// What it may be, and what is known of its alloy.
fn left(state: &State, reading: &Reading) -> String {
    let mut parts = Vec::new();
    if reading.families != Families::ALL {
        let names = family_names(state, reading.families);
        parts.push(state.words.with("unmarked-may-be", &[("families", &names)]));
    }
    if reading.families.has(Family::Steel) {
        let lean = reading.alloy == Alloy::Lean;
        parts.push(state.words.get(if lean { "unmarked-alloy-lean" } else { "unmarked-alloy-open" }));
    }
    state.words.list(List::Sentences, &parts)
}

/// The names of families, in the order in which they are told.
fn family_names(state: &State, families: Families) -> String {
    let names: Vec<String> =
        families.iter().map(|family| state.words.get(&format!("unmarked-family-{}", family.id()))).collect();
    state.words.list(List::Or, &names)
}

/// The name of the steel that a test ended in.
pub(super) fn name(state: &State, reading: &Reading) -> String {
    let (low, high) = (hundredths(state, reading.carbon.0, false), hundredths(state, reading.counted, true));
    state.words.with("unmarked-name", &[("low", &low), ("high", &high)])
}

/// The heading of what is on the screen, and what can be done there.
pub(super) fn head(state: &State, given: &Answers, walk: &Walk, here: Option<BenchTest>) -> ui::TestHead {
    let Some(test) = here else { return unmarked_end::head(state, walk) };
    let key = format!("unmarked-test-{}", test.id());
    let word = |part: &str| state.word(&format!("{key}.{part}"));
    let at = walk.tests.iter().position(|one| *one == test);
    let after = at.and_then(|at| walk.tests.get(at + 1));
    let answered = test.is_answered(given);
    let to = after.map_or("end", |test| test.id());
    let to = state.words.get(&format!("unmarked-test-{to}"));
    ui::TestHead {
        id: test.id().into(),
        asked: word("asked"),
        how: word("how"),
        caution: word("caution"),
        first: at == Some(0),
        next: if answered {
            state.words.with("unmarked-next", &[("test", &to)]).into()
        } else {
            SharedString::default()
        },
        can_pass: true,
        fields_first: test == BenchTest::Spark,
        ..ui::TestHead::default()
    }
}

/// The answers of the test on the screen, or what stands at the end.
pub(super) fn lines(
    state: &State,
    given: &Answers,
    walk: &Walk,
    here: Option<BenchTest>,
) -> Vec<ui::TestLine> {
    let Some(test) = here else { return unmarked_end::lines(state, given, walk) };
    let Some(question) = questions::find(QUESTION) else { return Vec::new() };
    let several =
        test.inputs().iter().filter(|key| !matches!(**key, "known-bar" | "core-hrc" | "quench-hrc")).count()
            > 1;
    let mut made = Vec::new();
    for key in test.inputs() {
        let Some(Kind::Choice(offered)) = question.input(key).map(|input| input.kind) else { continue };
        if several {
            made.push(ui::TestLine {
                kind: ui::TestLineKind::Head,
                id: (*key).into(),
                text: state.word(&format!("input-{key}")),
                note: how(state, key),
                ..ui::TestLine::default()
            });
        }
        let offered =
            offered.iter().filter(|id| *key != "was" || test != BenchTest::Alloy || **id == SECTION);
        made.extend(offered.map(|id| answer(state, given, key, id)));
    }
    made
}

/// How the test of an input is done, where its screen holds several.
fn how(state: &State, key: &str) -> SharedString {
    let how = format!("input-{key}.how");
    if state.words.has(&how) { state.word(&how) } else { SharedString::default() }
}

/// One answer: its drawing, its words, and what it leaves.
fn answer(state: &State, given: &Answers, key: &str, id: &str) -> ui::TestLine {
    let step = questions::step_of(key);
    let with_bar =
        given.flag("known-bar").then(|| state.reference.unmarked.answer(step, &format!("{id}-bar")));
    let row = with_bar.flatten().or_else(|| state.reference.unmarked.answer(step, id));
    let drawn = sketch(key, id);
    ui::TestLine {
        kind: ui::TestLineKind::Answer,
        id: format!("{key}.{id}").into(),
        text: state.word(&format!("option-{key}-{id}")),
        note: row.map(|row| leaves(state, row)).unwrap_or_default().into(),
        strokes: drawn.lines.into(),
        solid: drawn.solid.into(),
        chosen: given.maybe_choice(key) == Some(id),
    }
}

/// What an answer leaves, from the row that counts it.
fn leaves(state: &State, row: &TestAnswer) -> String {
    let families = Families::of_letters(&row.families).unwrap_or(Families::ALL);
    let told = |flag| row.flags.contains(&flag);
    let mut parts = Vec::new();
    if families.count() < HARDLY_FEWER {
        let names = family_names(state, families);
        parts.push(state.words.with("unmarked-leaves", &[("families", &names)]));
    }
    if let Some((low, high)) = row.low.zip(row.high) {
        let span = range(&state.pen(), &share(state, low, false), &share(state, high, true));
        parts.push(state.words.with("unmarked-carbon.short", &[("carbon", &span)]));
    }
    if told(TestFlag::HardSkin) {
        parts.push(state.words.get("unmarked-means-hard"));
    }
    if told(TestFlag::SkinOff) {
        parts.push(state.words.get("unmarked-means-off"));
    }
    if told(TestFlag::AirSame) || told(TestFlag::EdgeSame) || told(TestFlag::Section) {
        parts.push(state.words.get("unmarked-little-alloy"));
    }
    if told(TestFlag::CasePossible) {
        parts.push(state.words.get("unmarked-means-case"));
    }
    if parts.is_empty() {
        parts.push(state.words.get("unmarked-means-nothing"));
    }
    state.words.list(List::Names, &parts)
}

/// What is typed or ticked in the test on the screen, as a row of a form.
pub(super) fn fields(state: &State, here: Option<BenchTest>) -> Vec<ui::FormRow> {
    let (Some(test), Some(question)) = (here, questions::find(QUESTION)) else { return Vec::new() };
    let asked = question::asked(state, question);
    let is_typed =
        |key: &&&str| question.input(key).is_some_and(|input| !matches!(input.kind, Kind::Choice(_)));
    let parts: Vec<ui::PartRow> = test
        .inputs()
        .iter()
        .filter(is_typed)
        .filter_map(|key| question_inputs::one(state, &asked, key))
        .collect();
    if parts.is_empty() {
        return Vec::new();
    }
    vec![ui::FormRow {
        id: format!("unmarked-{}", test.id()).into(),
        label: state.word(&format!("unmarked-test-{}", test.id())),
        open: true,
        pinned: true,
        parts: model(parts),
        ..ui::FormRow::default()
    }]
}
