//! Post-heat: one figure, and what stands beside it.

use super::answers::GRADE_MIDDLE;
use super::{Answers, Input, Kind, Preset, Problem, Question, Reply, Work, shared};
use crate::engine::error::check_composition;
use crate::engine::post_heat::{PostHeatQuery, RULES, SetBy, Way, WeldPath, hold_after_welding, outcomes};
use crate::engine::transformation::m90_c;
use crate::reference::{Element, embedded};

const FULL_BUTT: &str = "full-butt";
const WELDS: &[&str] = &["fillet", "build-up", "repair-weld", "part-groove", FULL_BUTT, "bar-weld"];
/// Post-heat.
pub(super) static POST_HEAT: Question = Question {
    name: "post-heat",
    work: Work::Cool,
    inputs: &[
        Input::new("weld-kind", Kind::Choice(WELDS)).required(),
        Input::new("weld-depth", Kind::Length).required().within(0.5, 1000.0),
        Input::new("minimum-preheat", Kind::Temperature).required().within(0.0, 650.0),
        Input::new("interpass-most", Kind::Temperature).required().within(0.0, 650.0),
        Input::new("ceiling", Kind::Temperature).within(0.0, 1600.0),
        shared::STEEL,
        shared::HYDROGEN.or(Preset::Number(5.0)),
        Input::new("face-closed", Kind::Flag).or(Preset::Flag(false)),
        Input::new("austenitic-weld", Kind::Flag).or(Preset::Flag(false)),
    ],
    answers: &[
        "post-heat-time",
        "post-heat-temperature",
        "post-heat-hot-end",
        "post-heat-below-m90",
        "post-heat-below-m90-temperature",
        "post-heat-austenite-left",
        "post-heat-trapped",
        "post-heat-diffusion",
        "post-heat-left",
        "post-heat-austenitic-weld",
        RULES[0],
        RULES[1],
        RULES[2],
        RULES[3],
        RULES[4],
        RULES[5],
        RULES[6],
        RULES[7],
        RULES[8],
        RULES[9],
    ],
    notes: &[
        "post-heat-before-cold",
        "post-heat-by-practice",
        "post-heat-by-diffusion",
        "post-heat-turning",
        "post-heat-drop",
        "post-heat-longer-wait",
        "post-heat-too-cold-to-count",
        "post-heat-weld-metal-holds",
        "post-heat-steel-not-known",
        "post-heat-code-first",
        GRADE_MIDDLE,
    ],
    answer: answer_post_heat,
};

fn weld_of(kind: &str, size_mm: f64, one_face_closed: bool) -> WeldPath {
    match kind {
        "fillet" => WeldPath::Fillet { throat_mm: size_mm },
        "build-up" => WeldPath::BuildUp { depth_mm: size_mm },
        "repair-weld" => WeldPath::Repair { depth_mm: size_mm },
        "part-groove" => WeldPath::PartGroove { depth_mm: size_mm },
        FULL_BUTT => WeldPath::FullButt { thickness_mm: size_mm, one_face_closed },
        _ => WeldPath::BarToBar { diameter_mm: size_mm },
    }
}

fn answer_post_heat(given: &Answers) -> Result<Reply, Problem> {
    let kind = given.maybe_choice("weld-kind").ok_or_else(|| Problem::Missing { keys: vec!["weld-kind"] })?;
    let interpass_c = given.number("interpass-most")?;
    // A grade counts at its middle here, as for every temperature at which it turns.
    let steel = given.analysis();
    steel.as_ref().map(|steel| check_composition(&steel.composition)).transpose()?;
    let asked = PostHeatQuery {
        weld: weld_of(kind, given.number("weld-depth")?, given.flag("face-closed")),
        hydrogen_ml: given.number("hydrogen")?,
        minimum_c: given.number("minimum-preheat")?,
        most_c: given.maybe_number("ceiling").map_or(interpass_c, |ceiling_c| ceiling_c.min(interpass_c)),
        m90_c: steel.as_ref().map(|steel| m90_c(&steel.nominal)),
        chromium_percent: steel.as_ref().map(|steel| steel.composition.get(Element::Cr)),
        vanadium_percent: steel.as_ref().map(|steel| steel.composition.get(Element::V)),
        austenitic_weld_metal: given.flag("austenitic-weld"),
    };
    let found = hold_after_welding(embedded(), &asked)?;
    let set_by = |which| found.main.as_ref().is_some_and(|hold| hold.set_by == which);
    let turns = found.main.as_ref().is_some_and(|hold| hold.turning_h > 0.0);
    let held = found.way == Way::WeldMetalHolds;
    Ok(Reply::of(outcomes(embedded(), &found))
        .note_if(held, "post-heat-weld-metal-holds")
        .note_if(found.way == Way::LongerWait, "post-heat-longer-wait")
        .note_if(!held && found.main.is_none(), "post-heat-too-cold-to-count")
        .note_if(set_by(SetBy::Practice), "post-heat-by-practice")
        .note_if(set_by(SetBy::Diffusion), "post-heat-by-diffusion")
        .note_if(turns, "post-heat-turning")
        .note_if(found.below_m90.is_some(), "post-heat-drop")
        .note_if(!held && steel.is_none(), "post-heat-steel-not-known")
        .note_if(!held, "post-heat-before-cold")
        .note_if(true, "post-heat-code-first")
        .note_of(given.grade_note(false).map(|_| GRADE_MIDDLE)))
}
