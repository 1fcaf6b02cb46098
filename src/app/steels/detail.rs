//! Everything known about one steel, as rows of text.

use slint::SharedString;

use crate::app::plan::form::CONDITIONS;
use crate::app::rows::model;
use crate::app::screen_values::basis_kind;
use crate::app::ui;
use crate::engine::carbon_equivalent::Equivalent;
use crate::job::{OwnSteel, find_steel};
use crate::reference::{
    Basis, CevCap, Element, Grade, GradeCondition, Limits, PublishedFit, PublishedPreheat, ThicknessTable,
};
use crate::report::{
    BasisMark, Pen, basis_mark, forms_words, hardness_words, heat_words, range, source_line, temper_words,
};
use crate::units::{Show, Side};
use crate::words::List;

/// The three equivalents that a certificate is judged by.
pub(super) const EQUIVALENTS: [Equivalent; 3] = [Equivalent::CeIiw, Equivalent::Cet, Equivalent::Pcm];

/// The limits of an element as text.
pub(super) fn limits_text(show: &Show, limits: Limits) -> String {
    // Standards print two decimals at least.
    let number = |value: f64| {
        let mut text = show.number(value, 4);
        if !text.contains(show.mark) {
            text.push(show.mark);
        }
        let decimals = text.chars().rev().take_while(|letter| *letter != show.mark).count();
        text.extend(std::iter::repeat_n('0', 2_usize.saturating_sub(decimals)));
        text
    };
    match (limits.min, limits.max) {
        (Some(min), Some(max)) => format!("{}–{}", number(min), number(max)),
        (None, Some(max)) => format!("≤\u{a0}{}", number(max)),
        (Some(min), None) => format!("≥\u{a0}{}", number(min)),
        (None, None) => "–".to_owned(),
    }
}

/// The equivalents of an own steel in one line, and the grade that it names.
pub(super) fn equivalents_line(pen: &Pen<'_>, own: &OwnSteel) -> String {
    let Ok(line) = own.read() else { return pen.words.get("steels-own-unreadable") };
    let grade = find_steel(&own.grade, pen.reference).ok();
    let steel = grade.map_or(line.composition, |grade| line.with_grade(grade).0);
    let mut parts: Vec<String> =
        EQUIVALENTS.into_iter().take(2).map(|which| named_value(pen, which, which.of(&steel))).collect();
    if let Some(grade) = grade {
        parts.push(pen.words.with("steels-own-names", &[("grade", &grade.designation)]));
    }
    pen.words.list(List::Names, &parts)
}

fn named_value(pen: &Pen<'_>, which: Equivalent, value: f64) -> String {
    format!("{}\u{a0}{}", pen.words.get(&format!("answer-{}", which.id())), pen.show.number(value, 3))
}

/// A grade of the dataset.
pub(super) fn of_grade(pen: &Pen<'_>, grade: &Grade) -> ui::SteelDetail {
    let also: Vec<&str> = grade.also.iter().chain(&grade.standards).map(String::as_str).collect();
    let composition = grade
        .composition
        .iter()
        .map(|(element, limits)| ui::ParagraphRow {
            label: element.symbol().into(),
            text: limits_text(&pen.show, *limits).into(),
        })
        .collect();
    let group = pen.words.get(&format!("group-{}", grade.group));
    ui::SteelDetail {
        id: grade.id.as_str().into(),
        title: grade.designation.as_str().into(),
        also: pen.words.list(List::Names, &also).into(),
        group: pen.words.list(List::Names, &[group, forms_words(pen, grade)]).into(),
        own: false,
        composition: model(composition),
        composition_note: composition_note(pen, grade).into(),
        composition_kind: basis_kind(&basis_mark(pen, &grade.composition_basis)),
        composition_basis: source_line(pen, &grade.composition_basis).into(),
        conditions: model(grade.conditions.iter().map(|condition| condition_row(pen, condition)).collect()),
        facts: model(facts(pen, grade)),
        notes: model(grade.notes.iter().map(|note| pen.words.get(note).into()).collect()),
    }
}

fn composition_note(pen: &Pen<'_>, grade: &Grade) -> String {
    let listed = |elements: &[Element], key: &str| {
        let symbols: Vec<&str> = elements.iter().map(|element| element.symbol()).collect();
        (!symbols.is_empty())
            .then(|| pen.words.with(key, &[("elements", &pen.words.list(List::Comma, &symbols))]))
    };
    let parts = [
        listed(&grade.composition_usual, "steels-composition-usual"),
        listed(&grade.composition_memory, "steels-composition-memory"),
    ];
    pen.words.list(List::Sentences, &parts.into_iter().flatten().collect::<Vec<_>>())
}

fn condition_row(pen: &Pen<'_>, condition: &GradeCondition) -> ui::SteelCondition {
    let typed =
        CONDITIONS.iter().find(|(kind, _)| *kind == condition.kind).map_or("unknown", |(_, typed)| typed);
    let mut title = pen.words.get(&format!("form-condition-{}", typed.replace(' ', "-")));
    if let Some(up_to_mm) = condition.up_to_mm {
        let size = pen.show.size(up_to_mm).main;
        title = pen.words.with("steels-condition-up-to", &[("condition", &title), ("size", &size)]);
    }
    let strength = strength(pen, condition);
    let temper = temper_words(pen, condition);
    // A condition without figures claims nothing that would need a source.
    let bare = strength.is_empty() && temper.is_empty();
    let basis = if bare { BasisMark::default() } else { basis_mark(pen, &condition.basis) };
    ui::SteelCondition {
        title: title.into(),
        strength: strength.into(),
        temper: temper.into(),
        basis_kind: basis_kind(&basis),
        basis_label: if bare { SharedString::default() } else { source_line(pen, &condition.basis).into() },
    }
}

fn strength(pen: &Pen<'_>, condition: &GradeCondition) -> String {
    let mpa = |value: f64| pen.show.strength(value).main;
    let mut parts = Vec::new();
    if let Some(value) = condition.yield_mpa {
        parts.push(pen.words.with("steels-yield", &[("value", &mpa(value))]));
    }
    let tensile = match (condition.tensile_min_mpa, condition.tensile_max_mpa) {
        (Some(low), Some(high)) => Some(range(pen, &mpa(low), &mpa(high))),
        (Some(low), None) => Some(mpa(low)),
        (None, Some(high)) => Some(pen.words.with("range-up-to", &[("high", &mpa(high))])),
        (None, None) => None,
    };
    if let Some(value) = tensile {
        parts.push(pen.words.with("steels-tensile", &[("value", &value)]));
    }
    parts.extend(hardness_words(pen, condition));
    pen.words.list(List::Names, &parts)
}

fn fact(pen: &Pen<'_>, label: &str, value: String, note: String, basis: &Basis) -> ui::SteelFact {
    ui::SteelFact {
        label: pen.words.get(label).into(),
        value: value.into(),
        note: note.into(),
        basis_kind: basis_kind(&basis_mark(pen, basis)),
        basis_label: source_line(pen, basis).into(),
    }
}

/// Caps, category, published preheat, heat treatment, weldability.
fn facts(pen: &Pen<'_>, grade: &Grade) -> Vec<ui::SteelFact> {
    let mut made = Vec::new();
    for cap in grade.cev_cap.iter().chain(&grade.cev_cap_thicker) {
        made.push(fact(pen, "steels-cev-cap", cap_text(pen, cap), String::new(), &cap.basis));
    }
    for (label, side, table) in [
        ("steels-own-preheat", Side::Minimum, &grade.preheat_rows),
        ("steels-own-interpass", Side::Maximum, &grade.interpass_rows),
    ] {
        if let Some(table) = table {
            made.push(fact(pen, label, table_text(pen, side, table), String::new(), &table.basis));
        }
    }
    if let Some(sheet) = &grade.data_sheet {
        made.push(published(pen, "steels-data-sheet", sheet));
    }
    if let Some(preheat) = &grade.published_preheat {
        made.push(published(pen, "steels-published-preheat", preheat));
    }
    if let Some(pwht) = &grade.pwht {
        let heat = heat_words(pen, pwht.low_c, pwht.high_c, pwht.wording.as_deref());
        made.push(fact(pen, "steels-pwht", heat, String::new(), &pwht.basis));
    }
    let class = grade.weldability.to_string();
    made.push(fact(
        pen,
        "steels-weldability",
        class,
        pen.words.get("steels-weldability-note"),
        &Basis::Practice,
    ));
    made
}

fn cap_text(pen: &Pen<'_>, cap: &CevCap) -> String {
    let value = pen.show.number(cap.value, 3);
    match cap.up_to_mm {
        Some(up_to_mm) => {
            let size = pen.show.size(up_to_mm).main;
            pen.words.with("steels-up-to", &[("value", &value), ("size", &size)])
        }
        None => value,
    }
}

fn table_text(pen: &Pen<'_>, side: Side, table: &ThicknessTable) -> String {
    let rows = table.rows.iter().filter_map(|row| {
        let exact_c = row.at.c.or_else(|| row.at.f.map(|f| (f - 32.0) / 1.8))?;
        let value = pen.show.limit(side, exact_c, Some(row.at)).main;
        Some(match row.up_to_mm {
            Some(up_to_mm) => {
                let size = pen.show.size(up_to_mm).main;
                pen.words.with("steels-up-to", &[("value", &value), ("size", &size)])
            }
            None => pen.words.with("steels-above", &[("value", &value)]),
        })
    });
    pen.words.list(List::Semicolon, &rows.collect::<Vec<_>>())
}

fn published(pen: &Pen<'_>, label: &str, preheat: &PublishedPreheat) -> ui::SteelFact {
    let fit = pen.words.get(match preheat.fit {
        PublishedFit::GradeNamed => "published-fit-named",
        PublishedFit::CarbonRow => "published-fit-carbon",
        PublishedFit::GroupAssigned => "published-fit-group",
        PublishedFit::Analogy => "published-fit-analogy",
        PublishedFit::Extrapolated => "published-fit-extrapolated",
        PublishedFit::Memory => "published-fit-memory",
        PublishedFit::MemoryDoubtful => "published-fit-doubtful",
    });
    let note = if preheat.sae_chart {
        pen.words.list(List::Sentences, &[fit, pen.words.get("steels-sae-chart-note")])
    } else {
        fit
    };
    let heat = heat_words(pen, preheat.low_c, preheat.high_c, preheat.wording.as_deref());
    fact(pen, label, heat, note, &preheat.basis)
}

/// A steel of the reader's own.
pub(super) fn of_own(pen: &Pen<'_>, id: &str, own: &OwnSteel) -> ui::SteelDetail {
    let grade = find_steel(&own.grade, pen.reference).ok();
    let note = match grade {
        Some(grade) => pen.words.with("steels-own-grade", &[("grade", &grade.designation)]),
        None => pen.words.get("certificate-no-grade-note"),
    };
    let detail = ui::SteelDetail {
        id: id.into(),
        title: own.name.as_str().into(),
        also: equivalents_line(pen, own).into(),
        own: true,
        ..ui::SteelDetail::default()
    };
    let Ok(line) = own.read() else { return detail };
    let steel = grade.map_or(line.composition, |grade| line.with_grade(grade).0);
    let tested = line.unmarked.is_some();
    let stated = line.stated.iter().map(|&element| ui::ParagraphRow {
        label: element.symbol().into(),
        text: pen.show.number(line.composition.get(element), 4).into(),
    });
    let equivalents = EQUIVALENTS.into_iter().map(|which| {
        let basis = &pen.reference.methods.row(which.method()).basis;
        ui::SteelFact {
            label: pen.words.get(&format!("answer-{}", which.id())).into(),
            value: pen.show.number(which.of(&steel), 3).into(),
            note: SharedString::default(),
            basis_kind: basis_kind(&basis_mark(pen, basis)),
            basis_label: source_line(pen, basis).into(),
        }
    });
    ui::SteelDetail {
        composition: model(stated.collect()),
        composition_note: if tested { SharedString::default() } else { note.into() },
        composition_basis: pen
            .words
            .get(if tested { "steels-own-tested" } else { "steels-own-basis" })
            .into(),
        facts: model(equivalents.collect()),
        ..detail
    }
}
