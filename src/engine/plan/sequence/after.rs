//! The steps after the last run: the part goes on into a furnace, or is post-heated and cools
//! slowly, never both.

use super::{Branch, Deed, Edge, Note, Scene, Step, StepFigure};
use crate::engine::family::Family;
use crate::engine::job::Joint;
use crate::engine::plan::limit::Limit;
use crate::engine::plan::{Action, Ceiling, PRACTICABLE_H, PostHeat};
use crate::engine::post_heat::Way;
use crate::reference::{Basis, Element, RuleTime};

/// Cooled so far before it is tempered, °C (common practice).
const TEMPER_FROM_C: (f64, f64) = (100.0, 120.0);
/// Cooled so far before a steel of much chromium is heat-treated, °C (common practice).
const TURN_AT_C: (f64, f64) = (80.0, 95.0);

/// Adds what every way has, and gives the ways that part.
pub(super) fn after(scene: &Scene<'_>, steps: &mut Vec<Step>) -> Vec<(Branch, Vec<Step>)> {
    let post_heat = post_heat(scene);
    let clash = scene.austenitic() || scene.no_treatment();
    if !scene.must_be_treated() || clash {
        if scene.has(Action::PostHeatBeforeCold) && !clash {
            return vec![
                (Branch::FurnaceAtHand, from_heat(scene)),
                (Branch::NoFurnace, on(scene, post_heat)),
            ];
        }
        steps.extend(on(scene, post_heat));
        return Vec::new();
    }
    // Steel that the methods speak for turns hard as it cools: its hydrogen leaves before, in the
    // furnace or in a hold.
    let turned = scene.has(Action::HeatTreatStraightAfter) || post_heat.is_some();
    let (furnace, none) = if turned {
        let (low_c, high_c) = TEMPER_FROM_C;
        let range = StepFigure::Range(Edge::own(low_c), Edge::own(high_c));
        let held = post_heat.is_some();
        let on = if held { Note::BackFromHere } else { Note::NotCold };
        let mut way = Step::new(Deed::CoolToTemper, [on]).with(range, &Basis::Practice);
        way.notes.splice(0..0, scene.turns_first().then_some(Note::TurnFirst));
        let first = held.then(|| into_furnace(scene));
        (first.into_iter().chain([way, treated(scene, Deed::TemperNow)]).collect(), Vec::from_iter(post_heat))
    } else {
        let mut way = Vec::new();
        if scene.turns_first() {
            let (low_c, high_c) = TURN_AT_C;
            let range = StepFigure::Range(Edge::own(low_c), Edge::own(high_c));
            way.push(Step::new(Deed::CoolToTemper, [Note::TurnFirst]).with(range, &Basis::Practice));
        }
        way.push(treated(scene, Deed::HeatTreatNow));
        let mut by_sheet =
            sheet_post_heat(scene).unwrap_or_else(|| Step::new(Deed::PostHeatBySheet, [Note::HoursBySheet]));
        by_sheet.notes.splice(0..0, scene.turns_first().then_some(Note::TurnBefore));
        (way, vec![by_sheet])
    };
    let end = |mut way: Vec<Step>| {
        way.push(inspect(scene));
        way
    };
    let mut slow = none;
    slow.extend(cool(scene));
    slow.push(treated(scene, Deed::HeatTreatLater));
    vec![(Branch::FurnaceAtHand, end(furnace)), (Branch::NoFurnace, end(slow))]
}

/// The way of a part that needs no heat treatment: post-heated where that is needed, and cooled.
fn on(scene: &Scene<'_>, post_heat: Option<Step>) -> Vec<Step> {
    let mut way: Vec<Step> = post_heat.into_iter().chain(cool(scene)).collect();
    way.extend(treatment(scene));
    way.push(inspect(scene));
    way
}

/// The way of such a part straight from the heat into a furnace, which takes the place of the hold.
fn from_heat(scene: &Scene<'_>) -> Vec<Step> {
    let mut furnace = Step::new(Deed::HeatTreatNow, [Note::FromPreheat, Note::ReplacesHold]);
    furnace.notes.splice(0..0, why_held(scene));
    let printed = printed(scene);
    if let (true, Ceiling::At(limit)) = (printed.is_empty(), &scene.plan.ceiling) {
        furnace = furnace.with(StepFigure::Most(Edge::of(limit)), &limit.basis);
    }
    treat(scene, &mut furnace, printed);
    // A range that is printed is that of the first treatment; a limit holds for both.
    let limit = furnace.figure.filter(|figure| matches!(figure, StepFigure::Most(_)));
    let again = scene.has(Action::PostHeatBeforeCold).then(|| {
        let step = Step::new(Deed::TemperAgain, [Note::TurnedAfter]);
        match limit {
            Some(limit) => step.with(limit, &furnace.basis),
            None => step,
        }
    });
    let mut way = vec![furnace];
    way.extend(again);
    way.push(inspect(scene));
    way
}

/// The furnace first, where it is tempered once more after it has turned.
fn into_furnace(scene: &Scene<'_>) -> Step {
    let mut step = Step::new(Deed::FurnaceFirst, [Note::ReplacesHold]);
    step.notes.splice(0..0, why_held(scene));
    let held = scene.plan.side.as_ref().and_then(|side| side.post_heat.as_ref());
    let hold = held.and_then(|held| held.answer.main.as_ref());
    if let Ceiling::At(limit) = &scene.plan.ceiling {
        step = step.with(StepFigure::Most(Edge::of(limit)), &limit.basis);
    } else if let Some(hold) = hold {
        // Without a figure for the furnace it does what the post-heat does.
        step = step.with(StepFigure::Hours(hold.shown_h()), &hold.basis);
        step.notes.push(Note::HeldAt { low: Edge::own(hold.low_c), high: Edge::own(hold.high_c) });
    }
    step
}

/// Why hydrogen must leave before the part is cold.
fn why_held(scene: &Scene<'_>) -> Vec<Note> {
    let above = scene.has(Action::PostHeatAboveM90).then_some(Note::AboveM90);
    let before = scene.has(Action::PostHeatBeforeCold).then_some(Note::MinimumAboveM90);
    above.into_iter().chain(before).collect()
}

/// The rule for chromium-molybdenum steel in `data/post_heat.ron`.
const CREEP_RULE: &str = "post-heat-creep-resisting";
/// Chromium from which it speaks, %.
const CREEP_CHROMIUM: f64 = 0.5;

/// What is printed for chromium-molybdenum steel that goes into no furnace at once, where the maximum
/// leaves room for it.
fn sheet_post_heat(scene: &Scene<'_>) -> Option<Step> {
    let mut parts = scene.parts.iter().filter(|part| part.hardens_by_its_sheet());
    let speaks = parts.all(|part| {
        part.family == Family::Creep && part.chemistry.nominal.get(Element::Cr) >= CREEP_CHROMIUM
    });
    let rule = scene.reference.post_heat.rules.iter().find(|rule| rule.id == CREEP_RULE && speaks)?;
    let (plan, RuleTime::Fixed { low_h, .. }) = (scene.plan, &rule.time) else { return None };
    let interpass_c = plan.interpass.as_ref()?.exact_c;
    let most_c = plan.ceiling.exact_c().map_or(interpass_c, |ceiling_c| ceiling_c.min(interpass_c));
    let low_c = plan.minimum.as_ref().map_or(rule.low_c, |limit| rule.low_c.map(|c| c.max(limit.exact_c)))?;
    let held = Note::HeldAt { low: Edge::own(low_c), high: Edge::own(most_c) };
    (low_c <= most_c)
        .then(|| Step::new(Deed::PostHeatBySheet, [held]).with(StepFigure::Hours(*low_h), &rule.basis))
}

pub(super) fn post_heat(scene: &Scene<'_>) -> Option<Step> {
    let before_cold = scene.has(Action::PostHeatBeforeCold);
    let above_m90 = scene.has(Action::PostHeatAboveM90);
    let held = scene.plan.side.as_ref().and_then(|side| side.post_heat.as_ref());
    if !(before_cold || above_m90 || held.is_some()) {
        return None;
    }
    let plain = if above_m90 { Deed::PostHeatIfHot } else { Deed::PostHeat };
    let mut step = match held {
        None => Step::new(plain, []),
        Some(held) => held_step(plain, held),
    };
    step.notes.splice(0..0, why_held(scene));
    Some(step)
}

fn held_step(plain: Deed, held: &PostHeat) -> Step {
    let Some(hold) = &held.answer.main else { return Step::new(Deed::NoPostHeat, [Note::TooCool]) };
    let deed = if held.answer.way == Way::LongerWait { Deed::LongerWait } else { plain };
    let mut step = Step::new(deed, []).with(StepFigure::Hours(hold.shown_h()), &hold.basis);
    if held.too_long_h().is_some() {
        step.notes.extend((!held.size_taken).then_some(Note::NotPracticable));
        step.notes.extend(trade_hours(held));
    }
    step.notes.push(Note::HeldAt { low: Edge::own(hold.low_c), high: Edge::own(hold.high_c) });
    let mm = held.weld.size_mm();
    let fillet = held.weld.is_fillet();
    step.notes.push(if held.size_taken {
        Note::SizeAssumed { mm, fillet }
    } else {
        Note::SizeCounted { mm }
    });
    step.notes.extend((hold.turning_h > 0.0).then_some(Note::TurningHour));
    // Colder it takes longer still: nobody keeps that up either.
    let below = held.answer.below_m90.as_ref();
    let below = below.filter(|below| below.hold.shown_h() <= PRACTICABLE_H);
    step.notes.extend(below.map(|_| Note::BelowM90));
    step
}

/// What the rules of thumb hold for a weld of this size.
fn trade_hours(held: &PostHeat) -> Option<Note> {
    let rule = |id: &str| held.answer.rules.iter().find(|rule| rule.id == id);
    let (field, trade) = (rule("post-heat-field-rule")?, rule("post-heat-trade")?);
    Some(Note::TradeHours { field_h: field.high_h, low_h: trade.low_h, high_h: trade.high_h })
}

/// How the part cools where it goes into no furnace.
fn cool(scene: &Scene<'_>) -> Option<Step> {
    let slowly = scene.has(Action::CoolSlowly);
    if !slowly && !scene.preheated() {
        return None;
    }
    let mut step = Step::new(if slowly { Deed::CoolSlowly } else { Deed::CoolStill }, [Note::NoWater]);
    if scene.job.joint == Joint::BossThrough {
        step.notes.push(Note::Supported);
    }
    step.notes.extend(slowly.then_some(Note::StaysHot));
    step.notes.extend(scene.austenitic().then_some(Note::KeepsHydrogen));
    Some(step)
}

/// A heat treatment that must follow.
fn treated(scene: &Scene<'_>, deed: Deed) -> Step {
    let mut step = Step::new(deed, []);
    step.notes.extend(match deed {
        Deed::HeatTreatLater => Some(Note::NoLoad),
        Deed::HeatTreatNow if !scene.turns_first() && scene.preheated() => Some(Note::FromPreheat),
        _ => None,
    });
    step.notes.extend(scene.has(Action::HeatTreatStraightAfter).then_some(Note::AboveMs));
    step.notes.extend(scene.has(Action::HeatTreatAfter).then_some(Note::HardUntilTreated));
    step.notes.extend(scene.carbon_molybdenum().then_some(Note::CodeMayExempt));
    treat(scene, &mut step, printed(scene));
    step
}

/// What is printed of a heat treatment, with its figure: the range, where there is one and nothing must be
/// known first, or the ceiling of this job, where that is lower.
fn treat(scene: &Scene<'_>, step: &mut Step, printed: Vec<Note>) {
    let ends = printed.iter().filter_map(|note| match note {
        Note::OverCeiling { ceiling, .. } => Some(*ceiling),
        _ => None,
    });
    if let Some(lowest) = ends.min_by(|one, other| one.exact_c.total_cmp(&other.exact_c)) {
        step.figure = Some(StepFigure::Most(lowest));
    } else if let Some((figure, basis)) = printed_range(scene, &printed)
        && !scene.has(Action::AskTemper)
    {
        step.figure = Some(figure);
        step.basis = basis;
    }
    step.notes.extend(printed);
    // What must be known before the furnace is said before it.
    step.notes.splice(0..0, scene.has(Action::AskTemper).then_some(Note::TemperFirst));
}

/// The one range that is printed for every part that has a heat treatment; none where they differ.
fn printed_range(scene: &Scene<'_>, printed: &[Note]) -> Option<(StepFigure, Basis)> {
    let mut ranges = printed.iter().map(|note| {
        let Note::PrintedTreatment { member } = *note else { return None };
        let row = scene.job.members[member].steel.grade()?.pwht.as_ref()?;
        Some((StepFigure::Printed(row.low_c?, row.high_c?), row.basis.clone()))
    });
    let (figure, basis) = ranges.next()??;
    ranges.all(|other| other.is_some_and(|(other, _)| other == figure)).then_some((figure, basis))
}

/// A heat treatment that may follow, or must not.
fn treatment(scene: &Scene<'_>) -> Option<Step> {
    if scene.austenitic() {
        return Some(Step::new(Deed::NoHotTreatment, [Note::TurnsBrittle]));
    }
    if scene.has(Action::NoPwht) {
        return Some(Step::new(Deed::NoStressRelief, [Note::LosesStrength]));
    }
    if scene.no_treatment() {
        return Some(Step::new(Deed::NoStressRelief, []));
    }
    let notes = printed(scene);
    if notes.is_empty() {
        return None;
    }
    let mut step = Step::new(Deed::HeatTreatIfAsked, []);
    treat(scene, &mut step, notes);
    Some(step)
}

/// What is printed of heat treatment for each grade that may need it.
pub(super) fn printed(scene: &Scene<'_>) -> Vec<Note> {
    let members = &scene.job.members;
    let first = |index: &usize| !members[..*index].contains(&members[*index]);
    (0..members.len())
        .filter(first)
        .filter_map(|member| {
            // A structural plate needs none, and a quenched and tempered one must not have it.
            let family = scene.parts[member].family;
            let spoken = matches!(family, Family::Structural | Family::QuenchedTempered);
            members[member].steel.grade()?.pwht.as_ref().filter(|_| !spoken)?;
            // What is printed knows nothing of the temper or the ceiling of this job.
            let hottest_c = scene.hottest_treatment_c(member);
            Some(match &scene.plan.ceiling {
                Ceiling::At(limit)
                    if (limit.by == "demanded" || loses_strength(limit))
                        && hottest_c.is_some_and(|hottest_c| hottest_c > limit.exact_c) =>
                {
                    let loser = limit.member.unwrap_or(member);
                    Note::OverCeiling { member, loser, ceiling: Edge::of(limit) }
                }
                _ => Note::PrintedTreatment { member },
            })
        })
        .collect()
}

/// Is it the limit of a part that a hotter treatment takes the strength of, and no figure for runs?
pub(super) fn loses_strength(limit: &Limit) -> bool {
    matches!(limit.by, "stated-temper" | "hardness-temper" | "rolled-ceiling")
}

fn inspect(scene: &Scene<'_>) -> Step {
    let wait = scene.plan.side.as_ref().and_then(|side| side.wait.first());
    match wait.and_then(|strictest| Some((strictest, strictest.value?))) {
        Some((strictest, hours)) => Step::new(Deed::Inspect, [Note::LateCracks])
            .with(StepFigure::After(hours), strictest.basis(&scene.reference.methods)),
        None => Step::new(Deed::InspectCold, []),
    }
}
