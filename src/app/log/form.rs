//! The rows of the Log's forms: how a reading was taken, a new job, what is known of a piece.

use super::entry::{Draft, With, Wrong, moments, time_words, trial_told, when_id};
use super::kept::LogKept;
use crate::app::form::parts::{fields, list, plain_row};
use crate::app::form::row_id::RowId;
use crate::app::rows::model;
use crate::app::screen_values::choice;
use crate::app::{State, ui};
use crate::engine::tint::Stage;
use crate::job::shown_unit;
use crate::log::{Cooled, CrackOutcome, Face};
use crate::questions::Kind;
use crate::report::{place_words, stage_head, when_words};
use crate::words::List;

/// One field.
pub(super) fn field(state: &State, kept: LogKept, label: &str, wrong: &Wrong) -> ui::FieldRow {
    ui::FieldRow {
        id: kept.to_string().into(),
        label: state.word(label),
        text: kept.text(state).into(),
        problem: problem(wrong, kept).into(),
        ..ui::FieldRow::default()
    }
}

fn problem(wrong: &Wrong, kept: LogKept) -> String {
    wrong.iter().find(|(at, _)| *at == kept).map(|(_, says)| says.clone()).unwrap_or_default()
}

/// A field with a line to itself.
pub(super) fn alone(field: ui::FieldRow) -> ui::PartRow {
    fields(format!("{}-line", field.id), vec![field])
}

/// A row that is open where it has something wrong in it.
fn row(state: &State, id: &str, value: String, parts: Vec<ui::PartRow>, wrong: String) -> ui::FormRow {
    ui::FormRow { problem: wrong.into(), ..plain_row(state, id, value, parts) }
}

/// How a reading is taken: the instrument with its settings, the place; then the moment.
pub(super) fn entry_rows(draft: &Draft<'_>, wrong: &Wrong) -> Vec<ui::FormRow> {
    vec![how_row(draft, wrong), moment_row(draft, wrong)]
}

fn how_row(draft: &Draft<'_>, wrong: &Wrong) -> ui::FormRow {
    let (state, with) = (draft.state, draft.with());
    let named = |with: &With| choice(with.id(), state.word(with.key()), "", "");
    let at = With::ALL.iter().position(|known| *known == with);
    let mut parts = vec![list(
        state,
        &RowId::Log(LogKept::With),
        "log-form-with",
        "tool-choose",
        With::ALL.iter().map(named).collect(),
        at,
    )];
    if with == With::IrGun {
        let all = &state.reference.tint.surfaces;
        let chosen = draft.surface();
        let at = chosen.and_then(|id| all.iter().position(|surface| surface.id == id));
        let name = |id: &str| state.word(&format!("surface-{id}"));
        let choices = all.iter().map(|surface| choice(&surface.id, name(&surface.id), "", "")).collect();
        let part = list(state, &RowId::Log(LogKept::Surface), "log-form-surface", "tool-choose", choices, at);
        parts.push(ui::PartRow { problem: problem(wrong, LogKept::Surface).into(), ..part });
        let setting = field(state, LogKept::Setting, "log-form-setting", wrong);
        let hint = state.show().number(draft.last_setting(), 2).into();
        parts.push(alone(ui::FieldRow { hint, ..setting }));
    }
    let faces = Face::ALL.iter().map(|face| {
        let key = format!("log-face-{}", face.id());
        choice(
            face.id(),
            if *face == Face::NotTold { state.word("log-not-told") } else { state.word(&key) },
            "",
            "",
        )
    });
    let face = Face::ALL.iter().position(|face| *face == draft.face());
    parts.push(list(
        state,
        &RowId::Log(LogKept::Face),
        "log-form-face",
        "tool-choose",
        faces.collect(),
        face,
    ));
    let away = field(state, LogKept::Away, "log-form-away", wrong);
    let hint = draft.plan.measured_at_mm.map(|mm| state.show().rule_length(mm).main);
    let unit = shown_unit(Kind::Length, state.show().units).into();
    parts.push(alone(ui::FieldRow { hint: hint.unwrap_or_default().into(), unit, ..away }));
    let place = place_words(&state.pen(), None, draft.face(), draft.away_mm().ok().flatten());
    let value = [state.words.get(with.key()), place];
    let value: Vec<String> = value.into_iter().filter(|text| !text.is_empty()).collect();
    let wrong_here = [LogKept::Surface, LogKept::Setting, LogKept::Away];
    let says = wrong_here.iter().map(|kept| problem(wrong, *kept)).find(|says| !says.is_empty());
    row(state, "log-how", state.words.list(List::Comma, &value), parts, says.unwrap_or_default())
}

fn moment_row(draft: &Draft<'_>, wrong: &Wrong) -> ui::FormRow {
    let (state, pen) = (draft.state, draft.state.pen());
    let now = draft.when();
    let mut offered = moments(draft.before.when);
    if !offered.contains(&now) {
        offered.push(now);
    }
    let choices = offered.iter().map(|when| choice(&when_id(*when), when_words(&pen, *when), "", ""));
    let at = offered.iter().position(|when| *when == now);
    let time = field(state, LogKept::Time, "log-form-time", wrong);
    let clock = draft.at().unwrap_or(draft.now);
    let hint = state.words.with("log-time-now", &[("time", &draft.now.day_and_time().1)]);
    let note = field(state, LogKept::Note, "log-form-note", wrong);
    let optional = state.word("form-optional");
    let parts = vec![
        list(state, &RowId::Log(LogKept::When), "log-form-when", "tool-choose", choices.collect(), at),
        alone(ui::FieldRow { hint: hint.into(), ..time }),
        alone(ui::FieldRow { hint: optional, ..note }),
    ];
    let value = [when_words(&pen, now), time_words(state, clock, draft.now)];
    row(state, "log-moment", state.words.list(List::Comma, &value), parts, problem(wrong, LogKept::Time))
}

/// What is told of a trial piece beside its temperature.
pub(super) fn trial_row(state: &State) -> ui::FormRow {
    let outcomes = CrackOutcome::ALL;
    let (outcome, cooled) = trial_told(state);
    let named = |outcome: &CrackOutcome| {
        choice(outcome.id(), state.word(&format!("log-trial-{}", outcome.id())), "", "")
    };
    let at = outcomes.iter().position(|known| *known == outcome);
    let cooled_name = |cooled: &Cooled| {
        let key = format!("log-cooled-{}", cooled.id());
        let name = if *cooled == Cooled::NotTold { state.word("log-not-told") } else { state.word(&key) };
        choice(cooled.id(), name, "", "")
    };
    let cooled_at = Cooled::ALL.iter().position(|known| *known == cooled);
    let none = Wrong::new();
    let optional = state.word("form-optional");
    let told =
        |kept, label| alone(ui::FieldRow { hint: optional.clone(), ..field(state, kept, label, &none) });
    let mut parts = vec![
        list(
            state,
            &RowId::Log(LogKept::Outcome),
            "log-form-outcome",
            "tool-choose",
            outcomes.iter().map(named).collect(),
            at,
        ),
        list(
            state,
            &RowId::Log(LogKept::Cooled),
            "log-form-cooled",
            "tool-choose",
            Cooled::ALL.iter().map(cooled_name).collect(),
            cooled_at,
        ),
    ];
    if outcome == CrackOutcome::Cracked {
        parts.push(told(LogKept::Place, "log-form-crack-place"));
    }
    parts.push(told(LogKept::Heat, "log-form-heat"));
    plain_row(state, "log-trial", state.words.get(&format!("log-trial-{}", outcome.id())), parts)
}

/// The colours that a part may show, as a list to choose from, and as a second one for the last colour of a
/// range.
pub(super) fn colour_part(draft: &Draft<'_>) -> ui::FormRow {
    let (state, pen) = (draft.state, draft.state.pen());
    let named = |stage: &Stage| choice(stage.id(), stage_head(&pen, *stage), "", "");
    let place = |seen: Option<Stage>| Stage::ALL.iter().position(|stage| Some(*stage) == seen);
    let first = place(draft.colour());
    let mut parts = vec![list(
        state,
        &RowId::Log(LogKept::Colour),
        "log-form-colour",
        "tool-choose",
        Stage::ALL.iter().map(named).collect(),
        first,
    )];
    if first.is_some() {
        let alone = choice("", state.word("log-colour-alone"), "", "");
        let choices = [alone].into_iter().chain(Stage::ALL.iter().map(named)).collect();
        let at = place(draft.colour_to()).map_or(0, |at| at + 1);
        let to = RowId::Log(LogKept::ColourTo);
        parts.push(list(state, &to, "log-form-colour-to", "tool-choose", choices, Some(at)));
    }
    ui::FormRow {
        id: "log-colour".into(),
        open: true,
        pinned: true,
        parts: model(parts),
        ..ui::FormRow::default()
    }
}

/// Which of two ways is meant: the crayon that melted or the one that did not; after the flame or under it.
pub(super) fn way_choices(state: &State, with: With) -> Vec<ui::ChoiceRow> {
    let keys = match with {
        With::Crayon => ["log-way-melted", "log-way-stayed"],
        With::Colour => ["log-way-afterwards", "log-way-flame-on"],
        _ => return Vec::new(),
    };
    keys.iter().map(|key| choice(key, state.word(key), "", "")).collect()
}

/// The rows of a new job.
pub(super) fn new_rows(state: &State, wrong: &Wrong, name: &str) -> Vec<ui::FormRow> {
    let optional = state.word("form-optional");
    let part = |kept, label: &str, hint: slint::SharedString| {
        alone(ui::FieldRow { hint, ..field(state, kept, label, wrong) })
    };
    let hint = if name.is_empty() { state.words.get("log-unnamed") } else { name.to_owned() };
    let parts = vec![
        part(LogKept::Name, "log-form-name", hint.into()),
        part(LogKept::Pieces, "log-form-pieces", "1".into()),
        part(LogKept::Drawing, "log-form-drawing", optional.clone()),
        part(LogKept::Welder, "log-form-welder", optional),
    ];
    vec![ui::FormRow {
        id: "log-new".into(),
        open: true,
        pinned: true,
        parts: model(parts),
        ..ui::FormRow::default()
    }]
}

/// The parts that a reading may be of.
pub(super) fn part_choices(draft: &Draft<'_>) -> Vec<ui::ChoiceRow> {
    let all = draft.plan.members.iter().enumerate();
    all.map(|(nth, member)| choice(&nth.to_string(), member.name.as_str(), "", "")).collect()
}
