//! The rows of the Tint place: the steel, what was there before, the instruments, the lists.

use slint::Model;

use super::ask::{self, AIRS, steel_id, steels};
use super::coupon;
use super::kept::Kept;
use super::lists;
use crate::app::form::parts::{based, list, plain_row, result_part, segments, text_part};
use crate::app::form::question;
use crate::app::form::row_id::RowId;
use crate::app::rows::model;
use crate::app::screen_values::choice;
use crate::app::{Page, State, ui};
use crate::engine::instrument::Instrument;
use crate::engine::red_heat::{red_heat_range, visible_from_c};
use crate::engine::tint::{SpotState, Stage};
use crate::questions;
use crate::reference::tint::{Light, RedHeat, TintData};
use crate::report::{printed_range, stage_head};
use crate::words::List;

/// Questions of instruments, in the order of the work.
const TOOLS: [&str; 4] = ["ir-true-temperature", "ir-expected-reading", "crayon-pair", "measuring-place"];

/// All rows.
pub(crate) fn rows(state: &State) -> Vec<ui::FormRow> {
    let mut rows = vec![steel_row(state), before_row(state)];
    rows.extend(TOOLS.iter().filter_map(|name| Some(question::row(state, questions::find(name)?))));
    rows.extend(coupon_row(state));
    let more = state.open.borrow().questions.clone();
    rows.extend(more.into_iter().map(|asked| question::row(state, asked)));
    rows.push(red_heat_row(state));
    rows.push(instruments_row(state));
    rows.push(lists::handbooks_row(state));
    rows.push(lists::stainless_row(state));
    rows
}

/// What the instruments that stand open say before any figure: that a reading is of no use, and what is
/// known all the same.
pub(super) fn verdicts(state: &State) -> Vec<ui::ParagraphRow> {
    let open = |name: &&&str| {
        let id = RowId::Question((**name).to_owned()).to_string();
        state.open.borrow().rows.contains(&id)
    };
    let said = |name: &&str| {
        let text = question::verdict(state, questions::find(name)?)?;
        Some(ui::ParagraphRow { label: state.word(&format!("question-{name}")), text: text.into() })
    };
    TOOLS.iter().filter(open).filter_map(said).collect()
}

/// The steel in words.
pub(super) fn steel_words(state: &State) -> String {
    steel_label(state, steel_id(state))
}

fn steel_label(state: &State, id: &str) -> String {
    let part = match id {
        "plan-a" => 0,
        "plan-b" => 1,
        _ => return state.words.get(&format!("tint-steel-{id}")),
    };
    let pen = state.pen();
    let name = state.job().map_or_else(String::new, |job| crate::report::member_name(&pen, &job, part));
    state.words.with("tint-steel-plan", &[("steel", &name)])
}

fn steel_row(state: &State) -> ui::FormRow {
    let offered = steels(state);
    let choices = offered.iter().map(|id| choice(id, steel_label(state, id), "", "")).collect();
    let at = offered.iter().position(|id| *id == steel_id(state));
    let spots = <SpotState as strum::VariantNames>::VARIANTS;
    let spot_choices =
        spots.iter().map(|id| choice(id, state.word(&format!("tint-spot-{id}")), "", "")).collect();
    let spot = Kept::Spot.chosen(state, spots);
    let airs = AIRS.iter().map(|id| choice(id, state.word(&format!("tint-air-{id}")), "", "")).collect();
    let parts = vec![
        list(state, &RowId::Tint(Kept::Steel), "tint-steel", "tool-choose", choices, at),
        list(state, &RowId::Tint(Kept::Spot), "tint-spot", "tool-choose", spot_choices, Some(spot)),
        segments(state, RowId::Tint(Kept::Air), "tint-air", airs, Some(Kept::Air.chosen(state, &AIRS))),
    ];
    let spot = state.words.get(&format!("tint-spot-{}", spots[spot]));
    let value = state.words.list(List::Names, &[steel_words(state), spot]);
    plain_row(state, "tint-steel", value, parts)
}

/// Something of the coupon was typed or chosen: it is of the steel that is looked at.
pub(crate) fn coupon_touched(state: &State, input: &str) {
    // On the Bench no steel stands above it.
    let here = state.page() == Page::Tint;
    if here && input.split_once('.').is_some_and(|(name, _)| name == coupon::NAME) {
        Kept::choose(state, &[(Kept::CouponOf, &ask::steel_key(state))]);
    }
}

/// The coupon: which steel it counts for stands above what was typed.
fn coupon_row(state: &State) -> Option<ui::FormRow> {
    let mut row = question::row(state, questions::find(coupon::NAME)?);
    let typed = state.session(|session| {
        let mut keys = session.typed.keys().chain(session.choices.keys());
        keys.any(|key| key.split_once('.').is_some_and(|(name, _)| name == coupon::NAME))
    });
    let counts = Kept::CouponOf.choice(state) == Some(ask::steel_key(state));
    let said = if typed && !counts {
        state.words.get("tint-coupon-other")
    } else {
        state.words.with("tint-coupon-of", &[("steel", &steel_words(state))])
    };
    let mut parts = vec![text_part("tint-coupon-of", said)];
    parts.extend(row.parts.iter());
    row.parts = model(parts);
    Some(row)
}

/// Colours that may have been there before, none first.
const fn earlier() -> [Stage; 10] {
    [
        Stage::Bright,
        Stage::FaintYellow,
        Stage::LightStraw,
        Stage::DarkStraw,
        Stage::Bronze,
        Stage::ReddishPurple,
        Stage::BluishPurple,
        Stage::Blue,
        Stage::LightBlue,
        Stage::GreenishBlue,
    ]
}

fn before_row(state: &State) -> ui::FormRow {
    let pen = state.pen();
    let name = |stage: Stage| {
        if stage == Stage::Bright { pen.words.get("tint-before-none") } else { stage_head(&pen, stage) }
    };
    let choices = earlier().iter().map(|stage| choice(stage.id(), name(*stage), "", "")).collect();
    let at = Kept::Before.chosen(state, &earlier().map(Stage::id));
    let parts =
        vec![list(state, &RowId::Tint(Kept::Before), "tint-before", "tool-choose", choices, Some(at))];
    plain_row(state, "tint-before", name(earlier()[at]), parts)
}

fn red_heat_row(state: &State) -> ui::FormRow {
    let (pen, heats) = (state.pen(), &TintData::embedded().red_heat);
    let ids = <Light as strum::VariantNames>::VARIANTS;
    let at = chosen_light(state);
    let light = Light::ALL[at];
    let choices = ids.iter().map(|id| choice(id, state.word(&format!("light-{id}")), "", "")).collect();
    let mut parts = vec![segments(state, RowId::Tint(Kept::Light), "tint-red-heat-light", choices, Some(at))];
    if let Ok(from_c) = visible_from_c(heats, light) {
        let both = pen.show.temperature(from_c);
        let label = state.words.get("tint-red-heat-from");
        parts.push(result_part("red-heat-from", label, both.main, both.second));
    }
    for &heat in RedHeat::ALL {
        let label = state.words.get(&format!("red-heat-{}", heat.id()));
        let part = match red_heat_range(heats, heat, light) {
            Ok(range) => {
                let ends = (range.outcome.low.unwrap_or(0.0), range.outcome.high.unwrap_or(0.0));
                let both = printed_range(&pen, ends.0, ends.1);
                let basis = range.outcome.basis(&pen.reference.methods);
                based(&pen, basis, result_part(heat.id(), label, both.main, both.second))
            }
            Err(_) => result_part(heat.id(), label, state.words.get("tint-red-heat-none"), String::new()),
        };
        parts.push(part);
    }
    parts.push(text_part("red-heat-note", state.words.get("tint-red-heat-note")));
    plain_row(state, "tint-red-heat", state.words.get(&format!("light-{}", light.id())), parts)
}

fn chosen_light(state: &State) -> usize {
    // Daylight until another is chosen.
    match Kept::Light.choice(state) {
        Some(_) => Kept::Light.chosen(state, <Light as strum::VariantNames>::VARIANTS),
        None => Light::ALL.iter().position(|light| *light == Light::Daylight).unwrap_or(0),
    }
}

fn instruments_row(state: &State) -> ui::FormRow {
    let parts = Instrument::ALL
        .iter()
        .copied()
        .map(|instrument| {
            let key = format!("instrument-{}", instrument.id());
            let says = |what: &str| state.words.get(&format!("{key}.{what}"));
            let note = state.words.list(List::Sentences, &[says("can"), says("cannot")]);
            result_part(instrument.id(), state.words.get(&key), String::new(), note)
        })
        .collect();
    plain_row(state, "tint-instruments", String::new(), parts)
}

/// A choice of these rows was made.
pub(crate) fn chosen(state: &State, kept: Kept, index: usize) {
    let id = match kept {
        Kept::Steel => steels(state).get(index).copied(),
        Kept::Spot => SpotState::ALL.get(index).map(|spot| spot.id()),
        Kept::Air => AIRS.get(index).copied(),
        Kept::Before => earlier().get(index).map(|stage| stage.id()),
        Kept::Light => Light::ALL.get(index).map(|light| light.id()),
        _ => None,
    };
    let of_plan = ask::steels_of_plan(state);
    match (id, kept) {
        (Some(id), Kept::Steel) => Kept::choose(state, &[(kept, id), (Kept::SteelOf, &of_plan)]),
        (Some(id), _) => Kept::choose(state, &[(kept, id)]),
        (None, _) => {}
    }
}
