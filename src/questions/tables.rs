//! Preheat tables, each by itself.

use super::answers::{GRADE_MIDDLE, GRADE_UPPER};
use super::types::HELD;
use super::{
    Answers, COMPOSITION, Given, Input, Kind, OfPlan, Preset, Problem, Question, Reply, Work, shared,
};
use crate::engine::chemistry::Chemistry;
use crate::engine::evidence::table_c1::{C1Query, table_c1};
use crate::engine::evidence::{
    carbon_line, ceq_bands, d11_annex, d11_category, data_sheet, grade_rows, low_hydrogen_rows, naval_rows,
    sae_chart,
};
use crate::engine::{EngineError, Says};
use crate::reference::{Basis, LowHydrogenRow, Method, Restraint, RowUse, SheetCase, embedded};

const EQUIVALENT: Kind = Kind::Percent;

/// Table C.1 of EN 1011-2.
pub(super) static TABLE_C1: Question = Question {
    name: "table-c1",
    work: Work::Preheat,
    inputs: &[
        shared::STEEL_OR_FIGURE,
        Input::new("ce", EQUIVALENT).one_of("analysis").within(0.0, 20.0),
        shared::HYDROGEN.required(),
        shared::NET_HEAT.required(),
        Input::new("combined", Kind::Length).within(0.1, 20_000.0).of(OfPlan::CombinedThickness),
    ],
    answers: &["table-c1"],
    notes: &[
        "table-c1-clears",
        "table-c1-does-not-clear",
        "table-c1-no-cell",
        "table-c1-chart-end",
        GRADE_UPPER,
    ],
    answer: answer_table_c1,
};

fn answer_table_c1(given: &Answers) -> Result<Reply, Problem> {
    let table = &embedded().table_c1;
    let steel = given.analysis();
    let query = C1Query {
        ce: given.number_or_of_analysis("ce", Chemistry::ce)?,
        analysis: steel.as_ref().map(|steel| &steel.nominal),
        hydrogen_ml: given.number("hydrogen")?,
        heat_input_kj_per_mm: given.number("heat-input")?,
        combined_mm: given.maybe_number("combined"),
    };
    let outcome = table_c1(table, embedded().methods.row(Method::CeIiw), &query)?;
    let (most_mm, says) = (outcome.value, outcome.says);
    Ok(Reply::of([outcome])
        .note_if(says == Says::Clears, "table-c1-clears")
        .note_if(says == Says::DoesNotClear, "table-c1-does-not-clear")
        .note_if(most_mm.is_none(), "table-c1-no-cell")
        .note_if(most_mm.is_some_and(|most_mm| most_mm >= table.never_above_mm), "table-c1-chart-end")
        .note_of(given.grade_note(true)))
}

/// The hydrogen annex of AWS D1.1.
pub(super) static D11_ANNEX: Question = Question {
    name: "d11-annex",
    work: Work::Preheat,
    inputs: &[
        shared::STEEL_OR_FIGURE,
        Input::new("pcm", EQUIVALENT).one_of("analysis").within(0.0, 10.0),
        shared::HYDROGEN.required(),
        shared::RESTRAINT.or(Preset::Choice("medium")),
        shared::THICKNESS.required(),
    ],
    answers: &["d11-annex"],
    notes: &[HELD, "lower-serves", GRADE_UPPER],
    answer: answer_d11_annex,
};

fn answer_d11_annex(given: &Answers) -> Result<Reply, Problem> {
    let asked = d11_annex::D11Annex {
        pcm: given.number_or_of_analysis("pcm", Chemistry::pcm)?,
        hydrogen_ml: given.number("hydrogen")?,
        restraint: given.choice("restraint", Restraint::ALL, Restraint::id)?,
        thickness_mm: given.number("thickness")?,
    };
    let outcome = d11_annex::d11_annex(&embedded().d11, asked)?;
    let lower = outcome.says == Says::Clears;
    Ok(Reply::of([outcome]).note_if(lower, "lower-serves").note_of(given.grade_note(true)))
}

/// The categories of AWS D1.1.
pub(super) static D11_CATEGORY: Question = Question {
    name: "d11-category",
    work: Work::Preheat,
    inputs: &[
        Input::new("category", Kind::Choice(&["a", "b", "c", "d"])).required(),
        shared::THICKNESS.required(),
        shared::HYDROGEN,
    ],
    answers: &["d11-category"],
    notes: &[
        "category-a-any-electrode",
        "category-low-hydrogen",
        "category-d-hydrogen",
        "freezing-steel-warmed",
    ],
    answer: answer_d11_category,
};

fn answer_d11_category(given: &Answers) -> Result<Reply, Problem> {
    let missing = || Problem::Missing { keys: vec!["category"] };
    let letter = given.maybe_choice("category").and_then(|id| id.chars().next()).ok_or_else(missing)?;
    let hydrogen_ml = given.maybe_number("hydrogen");
    let d11 = &embedded().d11;
    let letter = letter.to_ascii_uppercase();
    let outcome = d11_category::d11_category(d11, letter, given.number("thickness")?, hydrogen_ml)?;
    let cold = outcome.value.is_some_and(|value_c| value_c <= d11.cold_start.below_c);
    Ok(Reply::of([outcome])
        .note_if(letter == 'A', "category-a-any-electrode")
        .note_if(letter != 'A', "category-low-hydrogen")
        .note_if(letter == 'D', "category-d-hydrogen")
        .note_if(cold, "freezing-steel-warmed"))
}

/// Grades of the handbook's low-hydrogen rows.
const PRACTICE_GRADES: &[&str] = &["4130", "4140", "4340", "8620", "8630"];

/// The handbook's low-hydrogen rows.
pub(super) static PRACTICE_ROWS: Question = Question {
    name: "practice-rows",
    work: Work::Preheat,
    inputs: &[
        Input::new("grade", Kind::Choice(PRACTICE_GRADES)).required(),
        shared::THICKNESS.required(),
        shared::HYDROGEN.or(Preset::Number(8.0)),
    ],
    answers: &["practice-rows"],
    notes: &[HELD, "row-shown-only", "hydrogen-moved"],
    answer: answer_practice_rows,
};

fn answer_practice_rows(given: &Answers) -> Result<Reply, Problem> {
    let practice = &embedded().practice;
    let grade = given.maybe_choice("grade").ok_or_else(|| Problem::Missing { keys: vec!["grade"] })?;
    let hydrogen_ml = given.number("hydrogen")?;
    let outcome =
        low_hydrogen_rows::low_hydrogen_rows(practice, grade, given.number("thickness")?, hydrogen_ml)?;
    let shown = |row: &&LowHydrogenRow| row.grade == grade && row.row_use == RowUse::ShownOnly;
    let shown_only = practice.low_hydrogen.rows.iter().any(|row| shown(&row));
    let moved = (hydrogen_ml - practice.low_hydrogen.hydrogen_ml).abs() > f64::EPSILON;
    Ok(Reply::of([outcome]).note_if(shown_only, "row-shown-only").note_if(moved, "hydrogen-moved"))
}

/// The trade text's staircase.
pub(super) static CEQ_BANDS: Question = Question {
    name: "ceq-bands",
    work: Work::Preheat,
    inputs: &[
        shared::STEEL_OR_FIGURE,
        Input::new("ceq", EQUIVALENT).one_of("analysis").within(0.0, 20.0),
        shared::HYDROGEN.or(Preset::Number(8.0)),
    ],
    answers: &["ceq-bands"],
    notes: &["step-is-ours", "hydrogen-raises-only", "knows-no-thickness", HELD, GRADE_MIDDLE],
    answer: answer_ceq_bands,
};

fn answer_ceq_bands(given: &Answers) -> Result<Reply, Problem> {
    let practice = &embedded().practice;
    let hydrogen_ml = given.number("hydrogen")?;
    let ceq = given.number_or_of_analysis("ceq", Chemistry::ceq_s49)?;
    let outcome = ceq_bands::ceq_bands(practice, ceq, hydrogen_ml)?;
    let ours = outcome.own_basis == Some(Basis::Practice);
    Ok(Reply::of([outcome])
        .note_if(ours, "step-is-ours")
        .note_if(true, "hydrogen-raises-only")
        .note_if(true, "knows-no-thickness")
        .note_of(given.analysis().filter(|steel| steel.grade_only).map(|_| GRADE_MIDDLE)))
}

/// The carbon chart as a line.
pub(super) static CARBON_LINE: Question = Question {
    name: "carbon-line",
    work: Work::Preheat,
    inputs: &[
        Input::new("carbon", Kind::Percent).required().within(0.0, 2.0),
        shared::HYDROGEN.or(Preset::Number(15.0)),
        shared::THICKNESS.required(),
    ],
    answers: &["carbon-line"],
    notes: &[HELD, "plain-carbon-only"],
    answer: answer_carbon_line,
};

fn answer_carbon_line(given: &Answers) -> Result<Reply, Problem> {
    let practice = &embedded().practice;
    let (carbon, hydrogen_ml) = (given.number("carbon")?, given.number("hydrogen")?);
    let outcome = carbon_line::carbon_line(practice, carbon, hydrogen_ml, given.number("thickness")?)?;
    Ok(Reply::of([outcome]).note_if(true, "plain-carbon-only"))
}

/// Groups of the naval table.
const NAVAL_GROUPS: &[&str] = &["s-1", "s-2", "s-3", "s-3a", "s-4", "s-5"];

/// The naval table for carbon and creep-resisting steel.
pub(super) static NAVSEA_ROWS: Question = Question {
    name: "navsea-rows",
    work: Work::Preheat,
    inputs: &[
        Input::new("group", Kind::Choice(NAVAL_GROUPS)).required(),
        Input::new("tensile", Kind::Stress).within(50.0, 3000.0),
        Input::new("carbon", Kind::Percent).within(0.0, 2.0),
        Input::new("chromium", Kind::Percent).within(0.0, 40.0),
        shared::THICKNESS.required(),
    ],
    answers: &["navsea-rows", "navsea-interpass"],
    notes: &["unknown-raises"],
    answer: answer_navsea_rows,
};

fn answer_navsea_rows(given: &Answers) -> Result<Reply, Problem> {
    let sheets = &embedded().own_sheets;
    let id = given.maybe_choice("group").ok_or_else(|| Problem::Missing { keys: vec!["group"] })?;
    let case = |tensile_mpa, c, cr| {
        let thickness_mm = given.number("thickness")?;
        Ok::<_, Problem>(SheetCase { tensile_mpa, thickness_mm, c, cr })
    };
    let share = |key| given.maybe_number(key);
    let (tensile_mpa, carbon, chromium) = (share("tensile"), share("carbon"), share("chromium"));
    // What is not given counts as above every limit.
    let unknown = 100.0;
    let asked = case(tensile_mpa, carbon.unwrap_or(unknown), chromium.unwrap_or(unknown))?;
    let least = case(tensile_mpa.or(Some(0.0)), carbon.unwrap_or(0.0), chromium.unwrap_or(0.0))?;
    let answers = naval_rows::naval_rows(sheets, id, &asked)?;
    let raised = answers[0].value != naval_rows::naval_rows(sheets, id, &least)?[0].value;
    Ok(Reply::of(answers).note_if(raised, "unknown-raises"))
}

/// What a grade's own rows print: its minimum by thickness, its data sheet, the old chart.
pub(super) static GRADE_FIGURES: Question = Question {
    name: "grade-figures",
    work: Work::Preheat,
    inputs: &[
        shared::STEEL.required(),
        shared::THICKNESS.required(),
        shared::HYDROGEN.or(Preset::Number(8.0)),
    ],
    answers: &["grade-rows", "data-sheet", "sae-chart"],
    notes: &["hydrogen-raises-only"],
    answer: answer_grade_figures,
};

fn answer_grade_figures(given: &Answers) -> Result<Reply, Problem> {
    let Some(Given::Steel(steel)) = given.get(COMPOSITION) else {
        return Err(Problem::WrongKind { key: COMPOSITION });
    };
    let grade = steel.grade().ok_or(EngineError::NoAnswer { reason: "table-has-no-row" })?;
    let hydrogen_ml = given.number("hydrogen")?;
    let found = [
        grade_rows::grade_rows(grade, given.number("thickness")?),
        data_sheet::data_sheet(&embedded().practice, grade, hydrogen_ml),
        sae_chart::sae_chart(grade),
    ];
    let mut answers = Vec::new();
    for answer in found {
        match answer {
            Ok(outcome) => answers.push(outcome),
            Err(EngineError::NoAnswer { .. }) => {}
            Err(problem) => return Err(problem.into()),
        }
    }
    if answers.is_empty() {
        return Err(EngineError::NoAnswer { reason: "table-has-no-row" }.into());
    }
    let moved = answers.iter().any(|outcome| outcome.method == Method::DataSheet);
    Ok(Reply::of(answers).note_if(moved, "hydrogen-raises-only"))
}
