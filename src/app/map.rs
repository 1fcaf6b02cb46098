//! Small mappers that every place uses.

use slint::SharedString;

use super::ui;
use crate::engine::plan::Standing;
use crate::reference::Severity;
use crate::report::{BasisMark, CautionLine, Figure};

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

/// The severity of a caution; a low one is drawn as medium, its word tells.
pub(super) const fn severity(severity: Severity) -> ui::Severity {
    match severity {
        Severity::Critical => ui::Severity::Critical,
        Severity::High => ui::Severity::High,
        Severity::Medium | Severity::Low => ui::Severity::Medium,
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
