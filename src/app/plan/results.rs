//! The results of a plan as rows of the screen: pure mappers.

use slint::SharedString;

use crate::app::rows::model;
use crate::app::screen_values::{
    basis_kind, caution, choice, figure, float, place_of, standing, ticks, with_unit,
};
use crate::app::{Open, Planned, State, ui};
use crate::engine::evidence::Standing;
use crate::engine::plan::{Ceiling, Limit, Verdict};
use crate::reference::Severity;
use crate::report::{
    Answer, AnswerKind, CautionLine, EvidenceGroup, EvidenceLine, LeverEffect, LeverLine, Report, StepRow,
    ToDoLine,
};
use crate::units::{Side, limit_value};
use crate::words::List;

/// The end of the evidence axis, °C.
const AXIS_TO_C: f64 = 450.0;
/// Cautions of the job that are shown before "all".
const FIRST_CAUTIONS: usize = 5;

/// The id of the caution that stands by itself under the answer.
pub(super) const CRITICAL_LINE: &str = "critical-line";

/// The answer band.
pub(crate) fn answer_view(state: &State, answer: &Answer, planned: &Planned) -> ui::AnswerView {
    ui::AnswerView {
        kind: match answer.kind {
            AnswerKind::Window => ui::AnswerKind::Window,
            AnswerKind::Dry => ui::AnswerKind::Dry,
            AnswerKind::NoWindow => ui::AnswerKind::NoWindow,
            AnswerKind::Refused => ui::AnswerKind::Refused,
            AnswerKind::Routes => ui::AnswerKind::Routes,
            AnswerKind::Uncovered => ui::AnswerKind::Uncovered,
        },
        title: answer.title.as_str().into(),
        lines: model(answer.lines.iter().map(SharedString::from).collect()),
        qualifier: answer.qualifier.as_str().into(),
        minimum: figure(&answer.minimum),
        maximum: figure(&answer.maximum),
        ceiling: figure(&answer.ceiling),
        ceiling_short: if answer.ceiling.figure.is_empty() {
            "".into()
        } else {
            match planned.plan.ceiling {
                Ceiling::At(_) => "".into(),
                Ceiling::AskTemper { .. } => state.word("answer-ask-temper.short"),
                Ceiling::BelowTransformation => state.word("answer-no-ceiling.short"),
            }
        },
        standing: match answer.standing {
            Some(found) => standing(found, false),
            None if planned.plan.verdict == Verdict::NoMethod => ui::Standing::Unproven,
            None => ui::Standing::None,
        },
        sentence: answer.sentence.as_str().into(),
        note: answer.note.as_str().into(),
        routes: model(
            answer
                .routes
                .iter()
                .map(|route| ui::RouteRow {
                    id: route.id.as_str().into(),
                    title: route.title.as_str().into(),
                    figure: route.figure.as_str().into(),
                    second: route.second.as_str().into(),
                    text: route.text.as_str().into(),
                    basis_kind: basis_kind(&route.basis),
                    basis_label: route.basis.label.as_str().into(),
                })
                .collect(),
        ),
        ..ui::AnswerView::default()
    }
}

/// The window on its axis.
pub(super) fn window_view(state: &State, planned: &Planned, answer: &Answer) -> ui::WindowView {
    let plan = &planned.plan;
    let shown = matches!(plan.verdict, Verdict::Window | Verdict::NoWindow);
    let (Some(low), Some(high), true) = (&plan.minimum, &plan.interpass, shown) else {
        return ui::WindowView::default();
    };
    let ceiling_c = plan.ceiling_c.filter(|ceiling_c| *ceiling_c <= 700.0);
    let unit = state.show().units.temperature;
    // Drawn where its label says, never where a looser figure lies.
    let drawn_c = |side, limit: &Limit| unit.to_c(limit_value(side, limit.exact_c, limit.printed, unit));
    let none = plan.verdict == Verdict::NoWindow;
    let inverted = none && low.exact_c > high.exact_c;
    let least = low.exact_c.min(high.exact_c);
    let most = low.exact_c.max(high.exact_c).max(ceiling_c.unwrap_or(0.0));
    let from_c = ((least - 60.0) / 50.0).floor().max(0.0) * 50.0;
    let to_c = ((most + 40.0) / 50.0).ceil() * 50.0;
    let label = |key: &str, shown: &crate::report::Figure| -> SharedString {
        let figure = format!("{}\u{a0}{}", shown.figure, shown.unit);
        state.words.with(key, &[("figure", &figure)]).into()
    };
    ui::WindowView {
        shown: true,
        none,
        inverted,
        from_c: float(from_c),
        to_c: float(to_c),
        low_c: float(drawn_c(Side::Minimum, low)),
        high_c: float(drawn_c(Side::Maximum, high)),
        ceiling_c: float(
            ceiling_c.map_or(0.0, |ceiling_c| unit.to_c(limit_value(Side::Maximum, ceiling_c, None, unit))),
        ),
        low_label: label("window-low", &answer.minimum),
        high_label: label("window-high", &answer.maximum),
        ceiling_label: if ceiling_c.is_some() { label("window-ceiling", &answer.ceiling) } else { "".into() },
        ticks: model(with_unit(
            state.show(),
            ticks(state.show(), from_c, to_c, if to_c - from_c > 300.0 { 100.0 } else { 50.0 }),
        )),
    }
}

/// The names of the sets of evidence.
fn evidence_sets(groups: &[EvidenceGroup]) -> Vec<ui::ChoiceRow> {
    if groups.len() < 2 {
        return Vec::new();
    }
    groups.iter().map(|group| choice(&group.id, group.title.as_str(), "", "")).collect()
}

/// What a letter of a chosen name takes at most, px, and the margins of its place.
const LETTER_PX: f32 = 8.4;
const MARGINS_PX: f32 = 8.0;

/// The room that the longest of these names takes side by side, in two lines at most.
fn room_of(groups: &[EvidenceGroup]) -> f32 {
    let letters = |text: &str| text.chars().count() as f32;
    let of = |group: &EvidenceGroup| {
        let name = group.title.as_str();
        let broken =
            name.match_indices(' ').map(|(at, _)| letters(&name[..at]).max(letters(&name[at + 1..])));
        broken.fold(letters(name), f32::min).mul_add(LETTER_PX, MARGINS_PX)
    };
    groups.iter().map(of).fold(0.0, f32::max)
}

/// One line of evidence.
fn evidence_row(line: &EvidenceLine) -> ui::EvidenceRow {
    let at_limit = line.standing == Standing::AtLimit || line.at_limit;
    ui::EvidenceRow {
        id: line.id.as_str().into(),
        name: line.name.as_str().into(),
        figure: line.figure.as_str().into(),
        standing: standing(line.standing, at_limit),
        from_c: float(line.from_c),
        to_c: float(line.to_c.min(AXIS_TO_C)),
        raw_c: float(line.raw_c.unwrap_or(0.0).min(AXIS_TO_C)),
        note: line.note.as_str().into(),
        basis_kind: basis_kind(&line.basis),
        basis_label: line.basis.label.as_str().into(),
        governs: line.standing == Standing::Governs,
        beyond: line.to_c > AXIS_TO_C,
    }
}

/// The chosen set of evidence, with its axis.
pub(super) fn fill_evidence(
    adapter: &ui::PlanAdapter<'_>,
    state: &State,
    planned: &Planned,
    report: &Report,
    open: &Open,
) {
    let governing = report
        .groups
        .iter()
        .position(|group| group.lines.iter().any(|line| line.standing == Standing::Governs))
        .unwrap_or(0);
    let set = open.evidence_set.unwrap_or(governing).min(report.groups.len().saturating_sub(1));
    adapter.set_evidence_sets(model(evidence_sets(&report.groups)));
    adapter.set_evidence_set(place_of(Some(set)));
    adapter.set_evidence_set_room(room_of(&report.groups));
    let group = report.groups.get(set);
    adapter.set_evidence(model(
        group.map_or_else(Vec::new, |group| group.lines.iter().map(evidence_row).collect()),
    ));
    adapter.set_evidence_ticks(model(ticks(state.show(), 0.0, AXIS_TO_C, 100.0)));
    adapter.set_evidence_to_c(float(AXIS_TO_C));
    adapter.set_evidence_unit(state.show().units.temperature.symbol().into());
    adapter.set_evidence_governing_c(float(planned.plan.minimum.as_ref().map_or(0.0, |limit| limit.exact_c)));
    let note = group.filter(|group| !group.result.is_empty()).map_or_else(String::new, |group| {
        state.words.with("evidence-set-note", &[("title", &group.title), ("result", &group.result)])
    });
    adapter.set_evidence_note(note.into());
}

/// One lever.
pub(super) fn lever_row(line: &LeverLine) -> ui::LeverRow {
    ui::LeverRow {
        id: line.id.into(),
        what: line.what.as_str().into(),
        result: line.result.as_str().into(),
        note: line.note.as_str().into(),
        effect: match line.effect {
            LeverEffect::Lowers => ui::LeverEffect::Lowers,
            LeverEffect::Opens => ui::LeverEffect::Opens,
            LeverEffect::NotAlone => ui::LeverEffect::NotAlone,
        },
    }
}

/// What the heat cycle says of a step: its figures, or what does not hold.
fn lines(step: &StepRow, stops: bool) -> SharedString {
    let said = step.cycle.iter().filter(|line| line.stops == stops);
    said.map(|line| line.text.as_str()).collect::<Vec<_>>().join("\n").into()
}

/// One step; where the next begins a way, it is the last of its own.
pub(super) fn step_rows(steps: &[StepRow]) -> Vec<ui::WorkRow> {
    let last = |at: usize| steps.get(at + 1).is_none_or(|next| !next.head.is_empty());
    let rows = steps.iter().enumerate().map(|(at, step)| ui::WorkRow {
        number: step.number.to_string().into(),
        head: step.head.as_str().into(),
        phase: step.phase.id().into(),
        what: step.what.as_str().into(),
        figure: step.figure.as_str().into(),
        note: step.notes.join("\n").into(),
        cycle: lines(step, false),
        low: lines(step, true),
        basis_kind: basis_kind(&step.basis),
        basis_label: step.basis.label.as_str().into(),
        sheet: step.sheet.into(),
        last: last(at),
    });
    rows.collect()
}

/// One thing apart from the steps.
pub(super) fn to_do_row(line: &ToDoLine) -> ui::ToDoRow {
    ui::ToDoRow {
        id: line.id.as_str().into(),
        label: line.label.as_str().into(),
        value: line.value.as_str().into(),
        note: line.note.as_str().into(),
        basis_kind: basis_kind(&line.basis),
        basis_label: line.basis.label.as_str().into(),
    }
}

/// The briefing: the lines of every hot job, the first cautions of this one or all, and what was not told.
pub(super) fn fill_cautions(adapter: &ui::PlanAdapter<'_>, state: &State, report: &Report, open: &Open) {
    let briefing = &report.briefing;
    let row = |line: &CautionLine| caution(line, open.cautions.contains(&line.id));
    let headed = |(at, row): (usize, ui::CautionRow), key: &str| ui::CautionRow {
        head: if at == 0 { state.word(key) } else { "".into() },
        ..row
    };
    let always = briefing.always.iter().map(|line| ui::CautionRow {
        // What to do stands there unasked; what can happen unfolds.
        text: line.do_this.as_str().into(),
        ..row(line)
    });
    let shown = if open.all_cautions { briefing.own.len() } else { FIRST_CAUTIONS.min(briefing.own.len()) };
    let own = briefing.own[..shown].iter().map(row);
    let always = always.enumerate().map(|row| headed(row, "briefing-always"));
    let own = own.enumerate().map(|row| headed(row, "briefing-own"));
    adapter.set_cautions(model(always.chain(own).collect()));
    let rest = briefing.own.len() - shown;
    adapter.set_cautions_more(if rest == 0 {
        "".into()
    } else {
        state.words.count("briefing-more", rest, &[]).into()
    });
    let told = [&briefing.left_out, &briefing.not_told].map(String::as_str);
    let told: Vec<&str> = told.into_iter().filter(|told| !told.is_empty()).collect();
    adapter.set_not_told(state.words.list(List::Sentences, &told).into());
    let worst = briefing.own.first().filter(|line| line.severity == Severity::Danger);
    adapter.set_has_critical(worst.is_some());
    if let Some(line) = worst {
        let mut row = caution(line, open.cautions.contains(CRITICAL_LINE));
        row.text = line.why.as_str().into();
        adapter.set_critical(row);
        let more = briefing.own.len() + briefing.always.len() - 1;
        adapter.set_critical_more(state.words.count("plan-more-cautions", more, &[]).into());
    }
}
