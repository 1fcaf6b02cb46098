//! Preheat formulas, each by itself.

use super::answers::{GRADE_MIDDLE, GRADE_UPPER};
use super::{Answers, Input, Kind, OfPlan, Preset, Problem, Question, Reply, Work, shared};
use crate::engine::carbon_equivalent::{ce_iiw, cen, within};
use crate::engine::chemistry::Chemistry;
use crate::engine::evidence::method_b::CetOf;
use crate::engine::evidence::{cracking_index, dearden_oneill, ito_bessyo, method_b, multi_run, seferian};
use crate::engine::hydrogen::h_jis_ml;
use crate::engine::{Checked, Ends, Outcome, Says};
use crate::reference::{Element, Method, MethodRow, Restraint, embedded};

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
    let floor = row(Method::MultiRun).limit("H_JIS").and_then(|limit| limit.low).unwrap_or(0.0);
    Ok((converted.max(floor), true, converted < floor))
}

fn row(method: Method) -> &'static MethodRow {
    embedded().methods.row(method)
}

fn clears(outcome: &Outcome) -> bool {
    outcome.says == Says::Clears
}

/// The elements of a given steel that a method limits, beside their limits.
fn elements(given: &Answers, method: Method) -> Vec<Checked> {
    given.maybe_composition().map(|steel| within(row(method), &steel)).unwrap_or_default()
}

/// Method B of EN 1011-2.
pub(super) static METHOD_B: Question = Question {
    name: "method-b",
    work: Work::Preheat,
    inputs: &[
        shared::STEEL_OR_FIGURE,
        Input::new("cet", EQUIVALENT).one_of("analysis").within(0.0, 5.0),
        Input::new("weld-cet", EQUIVALENT).within(0.0, 5.0).of(OfPlan::WeldCet),
        shared::THICKNESS.required(),
        shared::HYDROGEN.required(),
        shared::NET_HEAT.required(),
        shared::RESTRAINT.or(Preset::Choice("medium")),
    ],
    answers: &["method-b", "sew-088"],
    notes: &[NO_PREHEAT, "weld-cet-governs", "heat-term-turns", GRADE_UPPER],
    answer: answer_method_b,
};

fn answer_method_b(given: &Answers) -> Result<Reply, Problem> {
    let parent = given.number_or_of_analysis("cet", Chemistry::cet)?;
    let governing = method_b::governing_cet(parent, given.maybe_number("weld-cet"));
    let analysis = given.analysis();
    // Of the weld metal no analysis is known.
    let steel = analysis.as_ref().filter(|_| governing <= parent);
    let asked = method_b::MethodB {
        cet: CetOf {
            cet: governing,
            analysis: steel.map(|steel| &steel.composition),
            add: steel.map_or(0.0, |steel| steel.cet_add),
        },
        thickness_mm: given.number("thickness")?,
        hydrogen_ml: given.number("hydrogen")?,
        net_heat_kj_per_mm: given.number("heat-input")?,
        high_restraint: given.choice("restraint", Restraint::ALL, Restraint::id)? == Restraint::High,
    };
    let outcome = method_b::method_b(row(Method::MethodB), &asked, Ends::Drawn)?;
    let none = clears(&outcome);
    Ok(Reply::of([outcome, method_b::sew_088(row(Method::Sew088), &asked)?])
        .note_if(none, NO_PREHEAT)
        .note_if(governing > parent, "weld-cet-governs")
        .note_if(governing > method_b::HEAT_TERM_TURNS_AT_CET, "heat-term-turns")
        .note_of(given.grade_note(true)))
}

/// Seferian's formula.
pub(super) static SEFERIAN: Question = Question {
    name: "seferian",
    work: Work::Preheat,
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
    let none = clears(&outcome);
    Ok(Reply::of([outcome])
        .note_if(none, NO_PREHEAT)
        .note_if(true, "knows-no-hydrogen")
        .note_of(given.grade_note(false)))
}

/// Ito and Bessyo's formula.
pub(super) static ITO_BESSYO: Question = Question {
    name: "ito-bessyo",
    work: Work::Preheat,
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
    let asked = ito_bessyo::ItoBessyo {
        pcm: given.number_or_of_analysis("pcm", Chemistry::pcm)?,
        carbon: given.analysis().map(|steel| steel.nominal.get(Element::C)),
        h_jis_ml,
        thickness_mm: given.number("thickness")?,
        restraint_kgf_per_mm2: intensity,
    };
    let mut outcome = ito_bessyo::ito_bessyo(row(Method::ItoBessyo), asked)?;
    // Beside carbon, which the formula limits itself.
    outcome.inputs.extend(elements(given, Method::Pcm).into_iter().filter(|input| input.symbol != "C"));
    let none = clears(&outcome);
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
    work: Work::Preheat,
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
    let asked = multi_run::MultiRun {
        h_jis_ml,
        weld_thickness_mm: given.number("weld-thickness")?,
        strength_mpa: given.number("strength")?,
    };
    let outcome = multi_run::multi_run(row(Method::MultiRun), asked, Ends::Drawn)?;
    let none = clears(&outcome);
    Ok(Reply::of([outcome])
        .note_if(none, NO_PREHEAT)
        .note_if(converted, JIS_CONVERTED)
        .note_if(raised, JIS_RAISED))
}

/// The old bands by carbon equivalent.
pub(super) static DEARDEN_ONEILL: Question = Question {
    name: "dearden-oneill",
    work: Work::Preheat,
    inputs: &[shared::STEEL_OR_FIGURE, Input::new("ce", EQUIVALENT).one_of("analysis").within(0.0, 20.0)],
    answers: &["dearden-oneill"],
    notes: &["no-figure-no-clearance", "knows-no-hydrogen", GRADE_MIDDLE, GRADE_UPPER],
    answer: answer_dearden_oneill,
};

fn answer_dearden_oneill(given: &Answers) -> Result<Reply, Problem> {
    let ce = given.number_or_of_composition("ce", ce_iiw)?;
    let outcome = dearden_oneill::dearden_oneill(&embedded().practice.dearden_oneill, ce)?;
    let none = outcome.says == Says::NoFigure;
    Ok(Reply::of([outcome])
        .note_if(none, "no-figure-no-clearance")
        .note_if(true, "knows-no-hydrogen")
        .note_of(given.grade_note(false)))
}

/// Yurioka's cracking index of 1983.
pub(super) static CRACKING_INDEX: Question = Question {
    name: "cracking-index",
    work: Work::Preheat,
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
    let mut outcomes = cracking_index::cracking_index(cracking_index::CrackingIndex {
        cen: given.number_or_of_composition("cen", cen)?,
        h_jis_ml,
        notch_factor: given.number("notch-factor")?,
        stress_mpa: given.number("stress")?,
    })?;
    for outcome in &mut outcomes {
        outcome.inputs.extend(elements(given, outcome.method));
    }
    Ok(Reply::of(outcomes)
        .note_if(converted, JIS_CONVERTED)
        .note_if(raised, JIS_RAISED)
        .note_if(true, "t100-compare")
        .note_of(given.grade_note(false)))
}
