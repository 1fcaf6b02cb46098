//! Small mappers that every place uses.

use slint::SharedString;

use super::ui;
use crate::engine::evidence::Standing;
use crate::reference::Severity;
use crate::report::{BasisMark, CautionLine, Figure};
use crate::units::{Show, TemperatureUnit};

/// The mark of a basis.
pub(super) fn basis_kind(mark: &BasisMark) -> ui::BasisKind {
    match mark.kind {
        "published" => ui::BasisKind::Published,
        "practice" => ui::BasisKind::Practice,
        "memory" => ui::BasisKind::Memory,
        _ => ui::BasisKind::None,
    }
}

/// How a bar is filled.
pub(super) const fn standing(standing: Standing, at_limit: bool) -> ui::Standing {
    match (standing, at_limit) {
        (Standing::ShownOnly, _) => ui::Standing::Shown,
        (_, true) | (Standing::AtLimit, false) => ui::Standing::AtLimit,
        (Standing::Governs | Standing::InRange, false) => ui::Standing::Inside,
    }
}

/// The severity of a caution.
pub(super) const fn severity(severity: Severity) -> ui::Severity {
    match severity {
        Severity::Danger => ui::Severity::Critical,
        Severity::Warning => ui::Severity::High,
        Severity::Caution => ui::Severity::Medium,
    }
}

/// A figure.
pub(super) fn figure(figure: &Figure) -> ui::FigureView {
    ui::FigureView {
        id: figure.id.as_str().into(),
        label: figure.label.as_str().into(),
        figure: figure.figure.as_str().into(),
        unit: figure.unit.as_str().into(),
        second: figure.second.as_str().into(),
        note: figure.note.as_str().into(),
        basis_kind: basis_kind(&figure.basis),
        basis_label: figure.basis.label.as_str().into(),
    }
}

/// A caution.
pub(super) fn caution(line: &CautionLine, open: bool) -> ui::CautionRow {
    ui::CautionRow {
        id: line.id.as_str().into(),
        severity: severity(line.severity),
        word: line.word.as_str().into(),
        title: line.title.as_str().into(),
        text: line.trigger.as_str().into(),
        why: line.why.as_str().into(),
        r#do: line.do_this.as_str().into(),
        source: line.source.as_str().into(),
        basis_kind: basis_kind(&line.basis),
        open,
        head: SharedString::default(),
    }
}

/// One choice of several.
pub(super) fn choice(
    id: &str,
    label: impl Into<SharedString>,
    note: impl Into<SharedString>,
    sketch: &str,
) -> ui::ChoiceRow {
    ui::ChoiceRow { id: id.into(), label: label.into(), note: note.into(), sketch: sketch.into() }
}

/// What the window calls by its place in a list; -1 is none.
pub(super) fn place_of(index: Option<usize>) -> i32 {
    index.and_then(|index| i32::try_from(index).ok()).unwrap_or(-1)
}

/// What stands at a place in a list that the window was given.
pub(super) fn picked<T: Copy>(offered: &[T], place: i32) -> Option<T> {
    usize::try_from(place).ok().and_then(|index| offered.get(index).copied())
}

/// A figure for the screen.
#[allow(clippy::cast_possible_truncation, reason = "pixels need no more than a float")]
pub(super) const fn float(value: f64) -> f32 {
    value as f32
}

/// Round numbers of the reader's unit on an axis from `from_c` to `to_c`.
pub(super) fn ticks(show: Show, from_c: f64, to_c: f64, step: f64) -> Vec<ui::AxisTick> {
    let unit = show.units.temperature;
    let tick = |at_c: f64| ui::AxisTick {
        at_c: float(at_c),
        label: show.number(unit.from_c(at_c).round(), 0).into(),
    };
    round_c(unit, (from_c, to_c), step).map(tick).collect()
}

/// The same with the unit beside the last of them.
pub(super) fn with_unit(show: Show, mut ticks: Vec<ui::AxisTick>) -> Vec<ui::AxisTick> {
    if let Some(last) = ticks.iter_mut().rfind(|tick| !tick.label.is_empty()) {
        last.label = [last.label.as_str(), show.units.temperature.symbol()].join("\u{a0}").into();
    }
    ticks
}

/// Temperatures, °C, that are round in a unit: so many °C apart, or twice as many °F.
pub(super) fn round_c(
    unit: TemperatureUnit,
    (from_c, to_c): (f64, f64),
    step: f64,
) -> impl Iterator<Item = f64> {
    let step = if unit == TemperatureUnit::F { step * 2.0 } else { step };
    let first = (unit.from_c(from_c) / step).ceil();
    (0_u32..)
        .map(move |nth| unit.to_c((first + f64::from(nth)) * step))
        .take_while(move |at_c| *at_c <= to_c + 1e-6)
}
