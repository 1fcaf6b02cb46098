//! What the steel does: transformation, hardness and its conversion.

use super::answers::{GRADE_MIDDLE, GRADE_UPPER};
use super::{Answers, Input, Kind, Preset, Problem, Question, Reply, Work, shared};
use crate::engine::file_test::file_test;
use crate::engine::hardness::hardness;
use crate::engine::hardness_conversion::{ConversionTable, Scale, hardness_conversion};
use crate::engine::transformation::{
    m90_c, martensite, ms_steven_haynes_c, steelmaker_c, transformation_temperatures,
};
use crate::reference::embedded;

/// Transformation temperatures, and where a temperature stands among them.
pub(super) static TRANSFORMATION_TEMPERATURES: Question = Question {
    name: "transformation-temperatures",
    work: Work::Steel,
    inputs: &[shared::STEEL.required(), shared::TEMPERATURE],
    answers: &[
        "ms",
        "m50",
        "m90",
        "mf",
        "bs",
        "ms-andrews",
        "ae1-andrews",
        "ae3-andrews",
        "ae1-grange",
        "ae3-grange",
        "ae1-eldis",
        "ae3-eldis",
        "ac1-steelmaker",
        "ac3-steelmaker",
        "ms-steelmaker",
    ],
    notes: &["mf-convention", "ac3-below-ac1", "above-ms", "above-m90", GRADE_MIDDLE, GRADE_UPPER],
    answer: answer_transformation,
};

fn answer_transformation(given: &Answers) -> Result<Reply, Problem> {
    let steel = given.composition()?;
    let reply = Reply::of(transformation_temperatures(&embedded().methods, &steel)?);
    let above = |limit_c| given.maybe_number("temperature").is_some_and(|t| t > limit_c);
    let (ms, m90) = (ms_steven_haynes_c(&steel), m90_c(&steel));
    Ok(reply
        .note_if(above(ms), "above-ms")
        .note_if(above(m90) && !above(ms), "above-m90")
        .note_if(steelmaker_c(&steel).1.is_none(), "ac3-below-ac1")
        .note_if(true, "mf-convention")
        .note_of(given.grade_note(false)))
}

/// Share of martensite at a temperature.
pub(super) static MARTENSITE_SHARE: Question = Question {
    name: "martensite-share",
    work: Work::Steel,
    inputs: &[
        shared::STEEL_OR_FIGURE,
        Input::new("ms", Kind::Temperature).one_of("analysis").within(-273.15, 1000.0),
        shared::TEMPERATURE.required(),
    ],
    answers: &["martensite-share"],
    notes: &["above-ms", "austenite-keeps-hydrogen", GRADE_MIDDLE, GRADE_UPPER],
    answer: answer_martensite,
};

fn answer_martensite(given: &Answers) -> Result<Reply, Problem> {
    let ms = given.number_or_of_composition("ms", ms_steven_haynes_c)?;
    let temperature_c = given.number("temperature")?;
    let outcome = martensite(ms, temperature_c)?;
    let share = outcome.value;
    Ok(Reply::of([outcome])
        .note_if(temperature_c >= ms, "above-ms")
        .note_if(share.is_some_and(|share| share < 0.9), "austenite-keeps-hydrogen")
        .note_of(given.grade_note(false)))
}

/// Highest hardness of the heat-affected zone.
pub(super) static HARDNESS_ESTIMATE: Question = Question {
    name: "hardness-estimate",
    work: Work::Weld,
    inputs: &[
        shared::STEEL.required(),
        Input::new("cooling-time", Kind::Seconds).required().within(0.01, 10_000.0),
    ],
    answers: &["hardness-yurioka", "hardness-duren", "hardness-martensite", "hardness-wes"],
    notes: &[
        "hardness-estimates-memory",
        "hardness-scatter",
        "hardness-above-350",
        "hardness-limits",
        GRADE_MIDDLE,
        GRADE_UPPER,
    ],
    answer: answer_hardness,
};

fn answer_hardness(given: &Answers) -> Result<Reply, Problem> {
    let answers = hardness(&embedded().methods, &given.composition()?, given.number("cooling-time")?)?;
    let hard = answers[..2].iter().any(|outcome| outcome.value.is_some_and(|hv| hv > 350.0));
    Ok(Reply::of(answers)
        .note_if(true, "hardness-estimates-memory")
        .note_if(true, "hardness-scatter")
        .note_if(hard, "hardness-above-350")
        .note_if(true, "hardness-limits")
        .note_of(given.grade_note(false)))
}

const FILE_SKATES: &str = "skates";
const FILE: &[&str] = &[FILE_SKATES, "bites"];

/// What a file tells of the surface.
pub(super) static FILE_TEST: Question = Question {
    name: "file-test",
    work: Work::Steel,
    inputs: &[Input::new("file", Kind::Choice(FILE)).required()],
    answers: &["file-hardness"],
    notes: &["file-skin-only", "file-hard-skin"],
    answer: answer_file,
};

fn answer_file(given: &Answers) -> Result<Reply, Problem> {
    let skates = given.maybe_choice("file") == Some(FILE_SKATES);
    Ok(Reply::of([file_test(skates)]).note_if(true, "file-skin-only").note_if(skates, "file-hard-skin"))
}

const SCALES: &[&str] = <Scale as strum::VariantNames>::VARIANTS;
const TABLES: &[&str] = <ConversionTable as strum::VariantNames>::VARIANTS;

/// A hardness on the other scales.
pub(super) static HARDNESS_CONVERSION: Question = Question {
    name: "hardness-conversion",
    work: Work::Steel,
    inputs: &[
        Input::new("hardness", Kind::Number).required().within(0.0, 3000.0),
        Input::new("scale", Kind::Choice(SCALES)).required(),
        Input::new("table", Kind::Choice(TABLES)).or(Preset::Choice("astm-e140")),
    ],
    answers: &["hardness-hrc", "hardness-hv", "hardness-hb", "tensile-strength"],
    notes: &["conversion-approximate", "strength-scatter", "strength-indicative", "brinell-carbide"],
    answer: answer_conversion,
};

fn answer_conversion(given: &Answers) -> Result<Reply, Problem> {
    let from = given.choice("scale", Scale::ALL, Scale::id)?;
    let table = given.choice("table", ConversionTable::ALL, ConversionTable::id)?;
    let value = given.number("hardness")?;
    let answers = hardness_conversion(&embedded().methods, value, from, table)?;
    let hv = if from == Scale::Hv { Some(value) } else { table.convert(value, from, Scale::Hv) };
    let above = |limit| hv.is_some_and(|hv| hv > limit);
    Ok(Reply::of(answers)
        .note_if(true, "conversion-approximate")
        .note_if(true, "strength-scatter")
        .note_if(above(513.0), "strength-indicative")
        .note_if(above(653.0), "brinell-carbide"))
}
