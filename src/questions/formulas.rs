//! Preheat formulas, each by itself.

use super::answers::{GRADE_MIDDLE, GRADE_UPPER};
use super::{Answers, Input, Kind, OfPlan, Preset, Problem, Question, Reply, shared};
use crate::engine::Outcome;
use crate::engine::carbon_equivalent::{Equivalent, ce_iiw, cen};
use crate::engine::evidence::{chart_index, dearden_oneill, ito_bessyo, method_b, multi_run, seferian};
use crate::engine::hydrogen::h_jis_ml;
use crate::engine::plan::Chemistry;

const EQUIVALENT: Kind = Kind::Percent;
/// The method answers that this weld needs no preheat: an answer, not the lack of one.
pub const NO_PREHEAT: &str = "no-preheat-by-method";
const JIS_CONVERTED: &str = "hydrogen-jis-converted";
const JIS_RAISED: &str = "hydrogen-jis-raised";

/// Hydrogen by JIS: given, or converted from ISO 3690 and put at 0.1 where the
/// conversion falls below that. With what must be said.
fn jis_hydrogen(given: &Answers) -> Result<(f64, bool, bool), Problem> {
    if let Some(value) = given.maybe_number("hydrogen-jis") {
        return Ok((value, false, false));
    }
    let hydrogen_ml = given
        .maybe_number("hydrogen")
        .ok_or_else(|| Problem::Missing { keys: vec!["hydrogen", "hydrogen-jis"] })?;
    let converted = h_jis_ml(hydrogen_ml);
    let floor = multi_run::H_JIS_LIMITS_ML.0;
    Ok((converted.max(floor), true, converted < floor))
}

fn has_figure(outcome: &Outcome) -> bool {
    outcome.value.is_some()
}

/// Method B of EN 1011-2.
pub(super) static METHOD_B: Question = Question {
    name: "method-b",
    inputs: &[
        shared::STEEL_OR_FIGURE,
        Input::new("cet", EQUIVALENT).one_of("analysis").within(0.0, 5.0),
        Input::new("weld-cet", EQUIVALENT).within(0.0, 5.0).of(OfPlan::WeldCet),
        shared::THICKNESS.required(),
        shared::HYDROGEN.required(),
        shared::NET_HEAT.required(),
    ],
    answers: &["method-b", "sew-088"],
    notes: &[NO_PREHEAT, "weld-cet-governs", "heat-term-turns", GRADE_UPPER],
    answer: answer_method_b,
};

fn answer_method_b(given: &Answers) -> Result<Reply, Problem> {
    let parent = given.number_or_of_analysis("cet", Chemistry::cet)?;
    let governing = method_b::governing_cet(parent, given.maybe_number("weld-cet"));
    let inputs = method_b::MethodB {
        cet: governing,
        thickness_mm: given.number("thickness")?,
        hydrogen_ml: given.number("hydrogen")?,
        net_heat_kj_per_mm: given.number("heat-input")?,
    };
    let mut outcome = method_b::method_b(inputs)?;
    if let Some(steel) = given.maybe_composition() {
        outcome.range.extend(Equivalent::Cet.range(&steel));
    }
    let none = !has_figure(&outcome);
    Ok(Reply::of([outcome, method_b::sew_088(inputs)?])
        .note_if(none, NO_PREHEAT)
        .note_if(governing > parent, "weld-cet-governs")
        .note_if(governing > method_b::HEAT_TERM_TURNS_AT_CET, "heat-term-turns")
        .note_of(given.grade_note(true)))
}

/// Seferian's formula.
pub(super) static SEFERIAN: Question = Question {
    name: "seferian",
    inputs: &[
        shared::STEEL_OR_FIGURE,
        Input::new("c-chem", EQUIVALENT).one_of("analysis").within(0.0, 20.0),
        shared::THICKNESS.required(),
    ],
    answers: &["seferian"],
    notes: &[NO_PREHEAT, "knows-no-hydrogen", GRADE_MIDDLE, GRADE_UPPER],
    answer: answer_seferian,
};

fn answer_seferian(given: &Answers) -> Result<Reply, Problem> {
    let equivalent = given.number_or_of_composition("c-chem", seferian::c_chem)?;
    let outcome = seferian::seferian(equivalent, given.number("thickness")?)?;
    let none = !has_figure(&outcome);
    Ok(Reply::of([outcome])
        .note_if(none, NO_PREHEAT)
        .note_if(true, "knows-no-hydrogen")
        .note_of(given.grade_note(false)))
}

/// Ito and Bessyo's formula.
pub(super) static ITO_BESSYO: Question = Question {
    name: "ito-bessyo",
    inputs: &[
        shared::STEEL_OR_FIGURE,
        Input::new("pcm", EQUIVALENT).one_of("analysis").within(0.0, 10.0),
        shared::THICKNESS.required(),
        shared::HYDROGEN.one_of("hydrogen"),
        shared::HYDROGEN_JIS.one_of("hydrogen"),
        Input::new("restraint-intensity", Kind::Number).within(0.0, 1e6),
    ],
    answers: &["ito-bessyo"],
    notes: &[NO_PREHEAT, JIS_CONVERTED, JIS_RAISED, "severest-restraint", GRADE_UPPER],
    answer: answer_ito_bessyo,
};

fn answer_ito_bessyo(given: &Answers) -> Result<Reply, Problem> {
    let (h_jis_ml, converted, raised) = jis_hydrogen(given)?;
    let intensity = given.maybe_number("restraint-intensity");
    let mut outcome = ito_bessyo::ito_bessyo(ito_bessyo::ItoBessyo {
        pcm: given.number_or_of_analysis("pcm", Chemistry::pcm)?,
        h_jis_ml,
        thickness_mm: given.number("thickness")?,
        restraint_kgf_per_mm2: intensity,
    })?;
    if let Some(steel) = given.maybe_composition() {
        outcome.range.extend(Equivalent::Pcm.range(&steel));
    }
    let none = !has_figure(&outcome);
    Ok(Reply::of([outcome])
        .note_if(none, NO_PREHEAT)
        .note_if(converted, JIS_CONVERTED)
        .note_if(raised, JIS_RAISED)
        .note_if(intensity.is_none(), "severest-restraint")
        .note_of(given.grade_note(true)))
}

/// Suzuki's formula for multi-run weld metal.
pub(super) static MULTI_RUN: Question = Question {
    name: "multi-run",
    inputs: &[
        Input::new("weld-thickness", Kind::Length).required().within(0.1, 5000.0).of(OfPlan::WeldThickness),
        Input::new("strength", Kind::Stress).required().within(50.0, 3000.0).of(OfPlan::WeldStrength),
        shared::HYDROGEN.one_of("hydrogen"),
        shared::HYDROGEN_JIS.one_of("hydrogen").within(0.001, 200.0),
    ],
    answers: &["multi-run"],
    notes: &[NO_PREHEAT, JIS_CONVERTED, JIS_RAISED],
    answer: answer_multi_run,
};

fn answer_multi_run(given: &Answers) -> Result<Reply, Problem> {
    let (h_jis_ml, converted, raised) = jis_hydrogen(given)?;
    let outcome = multi_run::multi_run(h_jis_ml, given.number("weld-thickness")?, given.number("strength")?)?;
    let none = !has_figure(&outcome);
    Ok(Reply::of([outcome])
        .note_if(none, NO_PREHEAT)
        .note_if(converted, JIS_CONVERTED)
        .note_if(raised, JIS_RAISED))
}

/// The old bands by carbon equivalent.
pub(super) static DEARDEN_ONEILL: Question = Question {
    name: "dearden-oneill",
    inputs: &[shared::STEEL_OR_FIGURE, Input::new("ce", EQUIVALENT).one_of("analysis").within(0.0, 20.0)],
    answers: &["dearden-oneill"],
    notes: &["no-figure-no-clearance", "knows-no-hydrogen", GRADE_MIDDLE, GRADE_UPPER],
    answer: answer_dearden_oneill,
};

fn answer_dearden_oneill(given: &Answers) -> Result<Reply, Problem> {
    let outcome = dearden_oneill::dearden_oneill(given.number_or_of_composition("ce", ce_iiw)?)?;
    let none = !has_figure(&outcome);
    Ok(Reply::of([outcome])
        .note_if(none, "no-figure-no-clearance")
        .note_if(true, "knows-no-hydrogen")
        .note_of(given.grade_note(false)))
}

/// Yurioka's cracking index of 1983.
pub(super) static CRACKING_INDEX: Question = Question {
    name: "cracking-index",
    inputs: &[
        shared::STEEL_OR_FIGURE,
        Input::new("cen", EQUIVALENT).one_of("analysis").within(0.0, 20.0),
        shared::HYDROGEN.one_of("hydrogen"),
        shared::HYDROGEN_JIS.one_of("hydrogen").within(0.01, 200.0),
        Input::new("notch-factor", Kind::Number).or(Preset::Number(4.0)).within(1.0, 20.0),
        Input::new("stress", Kind::Stress).required().within(10.0, 3000.0),
    ],
    answers: &["cracking-index", "t100-critical"],
    notes: &[JIS_CONVERTED, JIS_RAISED, "t100-compare", GRADE_MIDDLE, GRADE_UPPER],
    answer: answer_cracking_index,
};

fn answer_cracking_index(given: &Answers) -> Result<Reply, Problem> {
    let (h_jis_ml, converted, raised) = jis_hydrogen(given)?;
    let mut outcomes = chart_index::cracking_index(chart_index::CrackingIndex {
        cen: given.number_or_of_composition("cen", cen)?,
        h_jis_ml,
        notch_factor: given.number("notch-factor")?,
        stress_mpa: given.number("stress")?,
    })?;
    if let Some(steel) = given.maybe_composition() {
        for outcome in &mut outcomes {
            outcome.range.extend(Equivalent::CeN.range(&steel));
        }
    }
    Ok(Reply::of(outcomes)
        .note_if(converted, JIS_CONVERTED)
        .note_if(raised, JIS_RAISED)
        .note_if(true, "t100-compare")
        .note_of(given.grade_note(false)))
}
