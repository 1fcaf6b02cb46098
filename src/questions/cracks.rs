//! Named checks of how a weld cracks.

use super::answers::{GRADE_MIDDLE, GRADE_UPPER};
use super::{Answers, Input, Kind, OfPlan, Preset, Problem, Question, Reply, Work, shared};
use crate::engine::Says;
use crate::engine::crack::Check;
use crate::engine::crack::bent::bent;
use crate::engine::crack::butter::butter;
use crate::engine::crack::cut_edge::cut_preheat;
use crate::engine::crack::hydrogen_hardness::hydrogen_hardness;
use crate::engine::crack::lamellar::{LamellarQuery, lamellar};
use crate::engine::crack::reheat::reheat;
use crate::engine::crack::run_shape::{downslope_s, width_depth};
use crate::engine::crack::solidification::{SolidQuery, solidification};
use crate::engine::family::Family;
use crate::reference::{Composition, Element, Restraint, embedded};
use crate::units::Quantity;

const WELDS: [&str; 2] = ["fillet", "butt"];
/// Families whose zone is judged by its hardness, and the one that is not.
const FAMILIES: &[&str] = &["structural", "quenched-tempered", "plain-carbon", "hardenable"];
/// Rows of `data/weld_cracks.ron`.
const SHAPES: &[&str] =
    &["buttered", "deep-in", "balanced-steps", "near-symmetric", "small-fillets", "full-tee", "corner"];

const DILUTION: Input = Input::new("dilution", Kind::Number).or(Preset::Number(0.3)).within(0.0, 1.0);

const fn of_filler(key: &'static str, usual: f64, most: f64) -> Input {
    Input::new(key, Kind::Percent).or(Preset::Number(usual)).within(0.0, most)
}

/// Solidification of the weld metal.
pub(super) static HOT_CRACKING: Question = Question {
    name: "hot-cracking",
    work: Work::Check,
    inputs: &[
        shared::STEEL.required(),
        DILUTION,
        Input::new("weld-form", Kind::Choice(&WELDS)).or(Preset::Choice("fillet")),
        Input::new("depth-width", Kind::Number).within(0.1, 5.0),
        of_filler("filler-c", 0.08, 2.0),
        of_filler("filler-s", 0.015, 1.0),
        of_filler("filler-p", 0.015, 1.0),
        of_filler("filler-si", 0.5, 5.0),
        of_filler("filler-mn", 1.2, 15.0),
        of_filler("filler-nb", 0.0, 5.0),
    ],
    answers: &["crack-ucs", "crack-ucs-limit", "crack-s-plus-p", "crack-mn-s", "crack-mn-s-needed"],
    notes: &[
        "crack-ucs-pass",
        "crack-ucs-warn",
        "crack-deep",
        "crack-dirty",
        "crack-base-sulphur",
        "crack-mn-s-warn",
        "crack-mn-s-none",
        "crack-indicator",
        "crack-dilution",
        "crack-no-travel-limit",
        GRADE_MIDDLE,
        GRADE_UPPER,
    ],
    answer: |given| {
        let part = |key| given.number(key);
        let filler = Composition::new(&[
            (Element::C, part("filler-c")?),
            (Element::S, part("filler-s")?),
            (Element::P, part("filler-p")?),
            (Element::Si, part("filler-si")?),
            (Element::Mn, part("filler-mn")?),
            (Element::Nb, part("filler-nb")?),
        ]);
        let asked = SolidQuery {
            base: given.composition()?,
            filler,
            dilution: given.number("dilution")?,
            butt: given.maybe_choice("weld-form") == Some(WELDS[1]),
            depth_width: given.maybe_number("depth-width"),
        };
        let found = solidification(&embedded().welding.cracks, &embedded().methods, &asked)?;
        Ok(Reply::of(found.outcomes)
            .note_if(found.ucs == Check::Pass, "crack-ucs-pass")
            .note_if(found.ucs == Check::Warn && !found.deep, "crack-ucs-warn")
            .note_if(found.deep, "crack-deep")
            .note_if(found.sulphur == Check::Warn, "crack-dirty")
            .note_if(found.base_sulphur == Check::Warn, "crack-base-sulphur")
            .note_if(found.manganese == Check::Warn, "crack-mn-s-warn")
            .note_if(found.manganese == Check::NoFigure, "crack-mn-s-none")
            .note_if(true, "crack-indicator")
            .note_if(true, "crack-dilution")
            .note_if(true, "crack-no-travel-limit")
            .note_of(given.grade_note(false)))
    },
};

/// Width, depth and crater.
pub(super) static RUN_SHAPE: Question = Question {
    name: "run-shape",
    work: Work::Check,
    inputs: &[
        Input::new("run-width", Kind::Length).required().within(0.5, 100.0),
        Input::new("run-depth", Kind::Length).required().within(0.1, 100.0),
        Input::new("amps", Kind::Current).within(3.0, 400.0).of(OfPlan::Amps),
    ],
    answers: &["crack-width-depth", "crack-downslope"],
    notes: &[
        "crack-shape-pass",
        "crack-shape-narrow",
        "crack-shape-wide",
        "crack-crater",
        "crack-no-travel-limit",
    ],
    answer: |given| {
        let cracks = &embedded().welding.cracks;
        let (ratio, check) = width_depth(cracks, given.number("run-width")?, given.number("run-depth")?)?;
        let narrow = ratio.value.is_some_and(|ratio| ratio < cracks.width_depth.low);
        let slope = given.maybe_number("amps").map(|amps| downslope_s(cracks, amps)).transpose()?;
        let outcomes: Vec<_> = std::iter::once(ratio).chain(slope).collect();
        Ok(Reply::of(outcomes)
            .note_if(check == Check::Pass, "crack-shape-pass")
            .note_if(check == Check::Warn && narrow, "crack-shape-narrow")
            .note_if(check == Check::Warn && !narrow, "crack-shape-wide")
            .note_if(true, "crack-crater")
            .note_if(true, "crack-no-travel-limit"))
    },
};

/// Cracks of a heat treatment.
pub(super) static REHEAT_CRACKING: Question = Question {
    name: "reheat-cracking",
    work: Work::Check,
    inputs: &[shared::STEEL.required()],
    answers: &["crack-dg", "crack-psr"],
    notes: &[
        "crack-dg-pass",
        "crack-dg-warn",
        "crack-psr-pass",
        "crack-psr-warn",
        "crack-psr-none",
        "crack-indicator",
        "crack-reheat-when",
        GRADE_MIDDLE,
        GRADE_UPPER,
    ],
    answer: |given| {
        let (outcomes, [first, second]) = reheat(&embedded().methods, &given.composition()?)?;
        Ok(Reply::of(outcomes)
            .note_if(first == Check::Pass, "crack-dg-pass")
            .note_if(first == Check::Warn, "crack-dg-warn")
            .note_if(second == Check::Pass, "crack-psr-pass")
            .note_if(second == Check::Warn, "crack-psr-warn")
            .note_if(second == Check::NoFigure, "crack-psr-none")
            .note_if(true, "crack-indicator")
            .note_if(true, "crack-reheat-when")
            .note_of(given.grade_note(false)))
    },
};

/// Hardness against hydrogen.
pub(super) static HYDROGEN_HARDNESS: Question = Question {
    name: "hydrogen-hardness",
    work: Work::Check,
    inputs: &[
        Input::new("zone-hardness", Kind::Of(Quantity::Vickers)).required().within(50.0, 1000.0),
        shared::HYDROGEN.required(),
        shared::RESTRAINT.or(Preset::Choice("medium")),
        Input::new("family", Kind::Choice(FAMILIES)).required().of(OfPlan::Family),
    ],
    answers: &["crack-hv-limit", "crack-hv-counted"],
    notes: &["crack-hv-pass", "crack-hv-warn", "crack-hv-none", "crack-hv-plan-decides"],
    answer: |given| {
        let family = match given.maybe_choice("family") {
            Some("quenched-tempered") => Family::QuenchedTempered,
            Some("plain-carbon") => Family::PlainCarbon,
            Some("hardenable") => Family::Hardenable,
            _ => Family::Structural,
        };
        let (outcomes, check) = hydrogen_hardness(
            &embedded().welding.cracks,
            given.number("zone-hardness")?,
            given.number("hydrogen")?,
            restraint(given)?,
            family,
        )?;
        Ok(Reply::of(outcomes)
            .note_if(check == Check::Pass, "crack-hv-pass")
            .note_if(check == Check::Warn, "crack-hv-warn")
            .note_if(check == Check::NoFigure, "crack-hv-none")
            .note_if(true, "crack-hv-plan-decides"))
    },
};

fn restraint(given: &Answers) -> Result<Restraint, Problem> {
    match given.maybe_choice("restraint") {
        Some("low") => Ok(Restraint::Low),
        Some("medium") => Ok(Restraint::Medium),
        Some("high") => Ok(Restraint::High),
        _ => Err(Problem::Missing { keys: vec!["restraint"] }),
    }
}

/// A plate pulled through its thickness.
pub(super) static LAMELLAR_TEARING: Question = Question {
    name: "lamellar-tearing",
    work: Work::Check,
    inputs: &[
        Input::new("pulling-throat", Kind::Length).required().within(0.5, 200.0).of(OfPlan::WeldSize),
        Input::new("thickness", Kind::Length).required().within(0.5, 500.0).of(OfPlan::Thickness),
        Input::new("pulling-shape", Kind::Choice(SHAPES)).or(Preset::Choice("full-tee")),
        shared::RESTRAINT.or(Preset::Choice("high")),
        Input::new("compressed", Kind::Flag).or(Preset::Flag(false)),
        Input::new("preheat", Kind::Temperature)
            .or(Preset::Number(20.0))
            .within(-50.0, 450.0)
            .of(OfPlan::Minimum),
    ],
    answers: &["crack-z", "crack-z-class"],
    notes: &["crack-z-none", "crack-z-needed", "crack-z-beyond", "crack-z-scope"],
    answer: |given| {
        let asked = LamellarQuery {
            throat_mm: given.number("pulling-throat")?,
            shape: given.maybe_choice("pulling-shape").unwrap_or_default(),
            plate_mm: given.number("thickness")?,
            compressed: given.flag("compressed"),
            restraint: restraint(given)?,
            preheat_c: given.number("preheat")?,
        };
        let reply = Reply::of(lamellar(&embedded().welding.cracks, &asked)?);
        let class = reply.answer("crack-z-class").and_then(|found| found.value);
        Ok(reply
            .note_if(class == Some(0.0), "crack-z-none")
            .note_if(class.is_some_and(|class| class > 0.0), "crack-z-needed")
            .note_if(class.is_none(), "crack-z-beyond")
            .note_if(true, "crack-z-scope"))
    },
};

/// Oxygen cutting of wear plate.
pub(super) static CUT_PREHEAT: Question = Question {
    name: "cut-preheat",
    work: Work::Preheat,
    inputs: &[
        Input::new("hardness-hb", Kind::Of(Quantity::Brinell)).required().within(100.0, 700.0),
        Input::new("thickness", Kind::Length).required().within(0.5, 500.0).of(OfPlan::Thickness),
    ],
    answers: &["cut-preheat"],
    notes: &["cut-none", "cut-no-figure", "cut-ceiling", "cut-slow-cool", "cut-grind-back"],
    answer: |given| {
        let outcome = cut_preheat(
            &embedded().welding.cracks,
            given.number("hardness-hb")?,
            given.number("thickness")?,
        )?;
        let says = outcome.says;
        Ok(Reply::of([outcome])
            .note_if(says == Says::Clears, "cut-none")
            .note_if(says == Says::NoFigure, "cut-no-figure")
            .note_if(says == Says::Figure, "cut-ceiling")
            .note_if(says == Says::Figure, "cut-slow-cool")
            .note_if(true, "cut-grind-back"))
    },
};

/// Welding where a part was bent.
pub(super) static COLD_BENT: Question = Question {
    name: "cold-bent",
    work: Work::Check,
    inputs: &[
        Input::new("bend-radius", Kind::Length).required().within(0.0, 20_000.0),
        Input::new("thickness", Kind::Length).required().within(0.5, 500.0).of(OfPlan::Thickness),
    ],
    answers: &["bent-static", "bent-fatigue", "bent-killed", "bent-zone", "bent-strain"],
    notes: &["bent-too-thick", "bent-any", "bent-scope"],
    answer: |given| {
        let thickness_mm = given.number("thickness")?;
        let reply = Reply::of(bent(&embedded().welding.cracks, given.number("bend-radius")?, thickness_mm)?);
        let most = reply.answer("bent-static").and_then(|found| found.value);
        Ok(reply
            .note_if(most.is_some_and(|most| thickness_mm > most), "bent-too-thick")
            .note_if(most.is_none(), "bent-any")
            .note_if(true, "bent-scope"))
    },
};

/// Layers of a buttering.
pub(super) static BUTTER_LAYERS: Question = Question {
    name: "butter-layers",
    work: Work::Weld,
    inputs: &[
        Input::new("base-carbon", Kind::Percent).required().within(0.0, 2.0),
        Input::new("filler-carbon", Kind::Percent).or(Preset::Number(0.08)).within(0.0, 2.0),
        Input::new("dilution", Kind::Number).or(Preset::Number(0.3)).within(0.0, 0.9),
    ],
    answers: &["butter-layers", "butter-carbon"],
    notes: &["butter-keeps-minimum", "crack-dilution"],
    answer: |given| {
        let found = butter(
            &embedded().welding.cracks,
            given.number("base-carbon")?,
            given.number("filler-carbon")?,
            given.number("dilution")?,
        )?;
        Ok(Reply::of(found).note_if(true, "butter-keeps-minimum").note_if(true, "crack-dilution"))
    },
};
