//! A guided test of a steel without a mark.

use super::{Answers, Input, Kind, Preset, Problem, Question, Reply, Work};
use crate::engine::EngineError;
use crate::engine::unmarked::{self, Alloy, Answered, End, Family, sorted};
use crate::reference::{TestFlag, Unmarked, embedded};
use crate::units::Quantity;

const FILE: &[&str] = &["easy", "effort", "skates"];
const SPARK: &[&str] = &[
    "leaf",
    "few-forks",
    "more-forks",
    "bushy",
    "short-fine",
    "forks-twice",
    "short-no-forks",
    "dull-red",
    "none",
];
const MAGNET: &[&str] = &["strong", "weak", "none"];
const LOOK: &[&str] = &["cast-skin", "forged", "rolled", "bright-bar", "oxy-cut-smooth"];
const CHIP: &[&str] = &["long", "crisp", "crumbs", "will-not"];
const EDGE: &[&str] = &["same", "harder", "skates"];
const QUENCH: &[&str] = &["bends", "bites", "skates"];
const AIR: &[&str] = &["same", "harder", "skates"];
const GROUND: &[&str] = &["bites", "skates"];
const WAS: &[&str] = &[
    "section",
    "rebar",
    "plate",
    "shaft",
    "gear-pin",
    "spring",
    "rail",
    "edge-tool",
    "wear-casting",
    "housing",
];

/// The steps that offer pictures: the input's key and the step of the data.
const CHOSEN: [(&str, &str); 10] = [
    ("file-bite", "file"),
    ("spark", "spark"),
    ("magnet", "magnet"),
    ("look", "look"),
    ("chip", "chip"),
    ("cut-edge", "cut-edge"),
    ("quench-coupon", "quench"),
    ("air-coupon", "air"),
    ("was", "was"),
    ("ground", "ground"),
];

/// The step of the data that an input answers.
#[must_use]
pub fn step_of(key: &str) -> &'static str {
    CHOSEN.iter().find(|(known, _)| *known == key).map_or("was", |(_, step)| step)
}

/// Which steel may it be?
pub(super) static UNMARKED_STEEL: Question = Question {
    name: "unmarked-steel",
    work: Work::Steel,
    inputs: &[
        Input::new("file-bite", Kind::Choice(FILE)),
        Input::new("spark", Kind::Choice(SPARK)),
        Input::new("known-bar", Kind::Flag).or(Preset::Flag(false)),
        Input::new("magnet", Kind::Choice(MAGNET)),
        Input::new("look", Kind::Choice(LOOK)),
        Input::new("chip", Kind::Choice(CHIP)),
        Input::new("cut-edge", Kind::Choice(EDGE)),
        Input::new("quench-coupon", Kind::Choice(QUENCH)),
        Input::new("quench-hrc", Kind::Of(Quantity::RockwellC)).within(0.0, 70.0),
        Input::new("air-coupon", Kind::Choice(AIR)),
        Input::new("core-hrc", Kind::Of(Quantity::RockwellC)).within(0.0, 70.0),
        Input::new("density", Kind::Of(Quantity::Density)).within(1.5, 20.0),
        Input::new("was", Kind::Choice(WAS)),
        Input::new("ground", Kind::Choice(GROUND)),
    ],
    answers: &["unmarked-carbon", "unmarked-range"],
    notes: &[
        "unmarked-again",
        "unmarked-iron",
        "unmarked-manganese",
        "unmarked-stainless-n",
        "unmarked-stainless-m",
        "unmarked-tool",
        "unmarked-hss",
        "unmarked-stop",
        "unmarked-ask",
        "unmarked-number",
        "unmarked-at-least",
        "unmarked-again-file",
        "unmarked-again-spark",
        "unmarked-again-magnet",
        "unmarked-again-look",
        "unmarked-again-chip",
        "unmarked-again-cut-edge",
        "unmarked-again-quench",
        "unmarked-again-air",
        "unmarked-again-core",
        "unmarked-again-density",
        "unmarked-again-was",
        "unmarked-again-ground",
        "unmarked-maybe-tool",
        "unmarked-maybe-iron",
        "unmarked-maybe-manganese",
        "unmarked-maybe-stainless",
        "unmarked-maybe-hss",
        "unmarked-maybe-other",
        "unmarked-next-file",
        "unmarked-next-spark",
        "unmarked-next-magnet",
        "unmarked-next-chip",
        "unmarked-next-look",
        "unmarked-next-ground",
        "unmarked-next-quench",
        "unmarked-next-alloyed",
        "unmarked-next-density",
        "unmarked-rich",
        "unmarked-lean",
        "unmarked-case-likely",
        "unmarked-hard-surface",
        "unmarked-skin-off",
        "unmarked-case-possible",
        "unmarked-free-cutting",
        "unmarked-spring",
        "unmarked-no-bar",
        "unmarked-bench-blind",
        "unmarked-never-for",
    ],
    answer: answer_unmarked,
};

/// The answers of all steps, in the order of the test.
pub(super) fn answered(data: &Unmarked, given: &Answers) -> Result<Vec<Answered>, Problem> {
    if given.maybe_choice("quench-coupon").is_some() && given.maybe_number("quench-hrc").is_some() {
        return Err(Problem::OnlyOne { keys: vec!["quench-coupon", "quench-hrc"] });
    }
    let mut made = Vec::new();
    for (key, step) in CHOSEN {
        // In the order in which the steps are told again: the core after the air, density before the part.
        if key == "was" {
            made.extend(given.maybe_number("core-hrc").map(|hrc| unmarked::core(data, hrc)).transpose()?);
            made.extend(given.maybe_number("density").map(|kg| unmarked::density(data, kg)).transpose()?);
        }
        if let Some(id) = given.maybe_choice(key) {
            // A known bar that is sparked with it narrows what a picture allows.
            let with_bar = format!("{id}-bar");
            let bar = given.flag("known-bar") && step == "spark";
            let row = bar.then(|| data.answer(step, &with_bar)).flatten().or_else(|| data.answer(step, id));
            let row = row.ok_or(EngineError::NoAnswer { reason: "table-has-no-row" })?;
            made.push(unmarked::row(step, row)?);
        }
        if key == "quench-coupon" {
            made.extend(
                given.maybe_number("quench-hrc").map(|hrc| unmarked::quenched(data, hrc)).transpose()?,
            );
        }
    }
    Ok(made)
}

fn answer_unmarked(given: &Answers) -> Result<Reply, Problem> {
    let data = &embedded().unmarked;
    let answers = answered(data, given)?;
    let found = sorted(data, &answers);
    let reading = &found.reading;
    let counted = matches!(reading.end, End::Number | End::AtLeast);
    let mut reply = Reply::of(found.outcomes).note_if(true, end_note(reading.end));
    for step in &reading.again {
        reply = reply.note_if(true, again_note(step));
    }
    let several =
        matches!(reading.end, End::Ask | End::AtLeast) && reading.families != unmarked::Families::ALL;
    if several {
        for family in reading.families.iter() {
            reply = reply.note_of(maybe_note(family));
        }
    }
    let forked = matches!(given.maybe_choice("spark"), Some("more-forks" | "bushy"));
    let on_edge = answers.iter().any(|answer| answer.flags.contains(&TestFlag::HardSkin));
    Ok(reply
        .note_of(reading.next.map(unmarked::Next::id))
        .note_if(counted && reading.alloy == Alloy::Rich, "unmarked-rich")
        .note_if(counted && reading.alloy == Alloy::Lean, "unmarked-lean")
        .note_if(reading.skin_off, "unmarked-skin-off")
        .note_if(reading.case_likely && !reading.skin_off, "unmarked-case-likely")
        .note_if(on_edge && !reading.case_likely && !reading.skin_off, "unmarked-hard-surface")
        .note_if(reading.case_possible && !reading.hard_skin, "unmarked-case-possible")
        .note_if(reading.free_cutting, "unmarked-free-cutting")
        .note_if(reading.spring, "unmarked-spring")
        .note_if(forked && !given.flag("known-bar"), "unmarked-no-bar")
        .note_if(counted, "unmarked-bench-blind")
        .note_if(true, "unmarked-never-for"))
}

const fn end_note(end: End) -> &'static str {
    match end {
        End::AskAgain => "unmarked-again",
        End::OwnSheet(Family::Iron) => "unmarked-iron",
        End::OwnSheet(Family::Manganese) => "unmarked-manganese",
        End::OwnSheet(Family::StainlessN) => "unmarked-stainless-n",
        End::OwnSheet(Family::StainlessM) => "unmarked-stainless-m",
        End::OwnSheet(_) => "unmarked-tool",
        End::DoNotWeld => "unmarked-hss",
        End::Stop => "unmarked-stop",
        End::Ask => "unmarked-ask",
        End::Number => "unmarked-number",
        End::AtLeast => "unmarked-at-least",
    }
}

const fn maybe_note(family: Family) -> Option<&'static str> {
    match family {
        Family::Steel => None,
        Family::Tool => Some("unmarked-maybe-tool"),
        Family::Iron => Some("unmarked-maybe-iron"),
        Family::Manganese => Some("unmarked-maybe-manganese"),
        Family::StainlessN | Family::StainlessM => Some("unmarked-maybe-stainless"),
        Family::Hss => Some("unmarked-maybe-hss"),
        Family::Other => Some("unmarked-maybe-other"),
    }
}

fn again_note(step: &str) -> &'static str {
    match step {
        "file" => "unmarked-again-file",
        "spark" => "unmarked-again-spark",
        "magnet" => "unmarked-again-magnet",
        "look" => "unmarked-again-look",
        "chip" => "unmarked-again-chip",
        "cut-edge" => "unmarked-again-cut-edge",
        "quench" => "unmarked-again-quench",
        "air" => "unmarked-again-air",
        "core" => "unmarked-again-core",
        "density" => "unmarked-again-density",
        "ground" => "unmarked-again-ground",
        _ => "unmarked-again-was",
    }
}
