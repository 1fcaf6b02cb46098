//! What a weld carries, and which filler is strong enough.

use super::weld_runs::{LEG, PROCESSES, SECOND_LEG, fillet};
use super::{Answers, Input, Kind, OfPlan, Preset, Problem, Question, Reply, Work, shared};
use crate::engine::weld::matching::{MatchQuery, WeldKind, WeldLoad, filler_match};
use crate::engine::weld::offered::{OFFERED, OfferQuery, offer};
use crate::engine::weld::plate::{AsStrong, AsStrongQuery, as_strong, base_shear};
use crate::engine::weld::ring::{RingLoad, RingQuery, ring_strength};
use crate::engine::weld::strength::{FilletMetal, Load, Rules, StrengthQuery, fillet_strength};
use crate::engine::{Outcome, Step, Unit};
use crate::reference::{Method, embedded};
use crate::units::Quantity;

const RULES: &[&str] = <Rules as strum::VariantNames>::VARIANTS;
/// Rows of `data/weld_strength.ron`.
const STEELS: &[&str] = &["s235", "s275", "s355", "other"];
const KINDS: &[&str] = <WeldKind as strum::VariantNames>::VARIANTS;
const LOADS: &[&str] = <WeldLoad as strum::VariantNames>::VARIANTS;
const PARTS: &[&str] = <AsStrong as strum::VariantNames>::VARIANTS;

const FILLER: Input =
    Input::new("filler-strength", Kind::Stress).required().within(200.0, 2500.0).of(OfPlan::WeldStrength);
const BASE: Input = Input::new("base-strength", Kind::Stress).within(200.0, 2500.0);
const BASE_YIELD: Input = Input::new("base-yield", Kind::Stress).within(100.0, 2500.0).of(OfPlan::Yield);
const BY: Input = Input::new("rules", Kind::Choice(RULES)).or(Preset::Choice("aisc-working"));
const STEEL: Input = Input::new("correlation-steel", Kind::Choice(STEELS)).or(Preset::Choice("other"));
const FACTORED: Input = Input::new("load-factored", Kind::Flag).or(Preset::Flag(false));
const RINGS: Input = Input::new("rings", Kind::Number).whole().or(Preset::Number(1.0)).within(1.0, 2.0);
const PIN: Input = Input::new("pin-diameter", Kind::Length).required().within(5.0, 2000.0);

fn rules(given: &Answers) -> Result<Rules, Problem> {
    given.choice("rules", Rules::ALL, Rules::id)
}

fn metal(given: &Answers) -> Result<FilletMetal, Problem> {
    let steel = given.maybe_choice("correlation-steel").unwrap_or_default();
    let correlation = embedded().welding.strength.correlation_of(steel);
    Ok(FilletMetal {
        filler_mpa: given.number("filler-strength")?,
        base_mpa: given.maybe_number("base-strength"),
        correlation: correlation.ok_or(Problem::WrongKind { key: "correlation-steel" })?,
    })
}

/// Says whether a load is carried, and that a weaker filler is enough where it is.
fn said_of_load(
    reply: Reply,
    enough: Option<bool>,
    undermatched: bool,
    rules: Rules,
    factored: bool,
) -> Reply {
    reply
        .note_if(enough == Some(true) && undermatched, "weld-undermatch-enough")
        .note_if(enough == Some(true) && !undermatched, "weld-carries")
        .note_if(enough == Some(false), "weld-too-weak")
        .note_if(enough.is_none(), "weld-no-load")
        .note_if(enough.is_some() && !factored && rules != Rules::AiscWorking, "weld-load-multiplied")
        .note_if(true, "weld-static-only")
        .note_if(true, "weld-designer")
}

/// What a straight fillet carries.
pub(super) static FILLET_STRENGTH: Question = Question {
    name: "fillet-strength",
    work: Work::Weld,
    inputs: &[
        LEG,
        SECOND_LEG,
        Input::new("weld-length", Kind::Length).required().within(5.0, 100_000.0),
        Input::new("weld-lines", Kind::Number).whole().or(Preset::Number(1.0)).within(1.0, 100.0),
        FILLER,
        BASE,
        Input::new("load-along", Kind::Of(Quantity::Force)).within(0.0, 100_000.0),
        Input::new("load-across", Kind::Of(Quantity::Force)).within(0.0, 100_000.0),
        FACTORED,
        Input::new("force-angle", Kind::Of(Quantity::Angle)).or(Preset::Number(0.0)).within(0.0, 90.0),
        BY,
        STEEL,
        Input::new("full-ends", Kind::Flag).or(Preset::Flag(false)),
        Input::new("evenly-loaded", Kind::Flag).or(Preset::Flag(false)),
        Input::new("plate-thickness", Kind::Length).within(0.5, 500.0),
        BASE_YIELD,
    ],
    answers: &[
        "fillet-holds",
        "fillet-per-mm",
        "fillet-used",
        "fillet-leg-for-load",
        "fillet-throat-factor",
        "fillet-base-holds",
    ],
    notes: &[
        "weld-undermatch-enough",
        "weld-carries",
        "weld-too-weak",
        "weld-no-load",
        "weld-load-multiplied",
        "weld-static-only",
        "weld-designer",
        "fillet-base-weaker",
        "fillet-long",
        "fillet-least-size",
    ],
    answer: answer_fillet,
};

fn answer_fillet(given: &Answers) -> Result<Reply, Problem> {
    let strength = &embedded().welding.strength;
    let (along, across) = (given.maybe_number("load-along"), given.maybe_number("load-across"));
    let load = (along.is_some() || across.is_some())
        .then(|| Load { along_kn: along.unwrap_or(0.0), across_kn: across.unwrap_or(0.0) });
    let asked = StrengthQuery {
        fillet: fillet(given)?,
        length_mm: given.number("weld-length")?,
        lines: given.number("weld-lines")?,
        metal: metal(given)?,
        rules: rules(given)?,
        load,
        factored: given.flag("load-factored"),
        angle_deg: given.number("force-angle")?,
        full_ends: given.flag("full-ends"),
        evenly_loaded: given.flag("evenly-loaded"),
    };
    let mut found = fillet_strength(strength, &asked)?;
    let mut weaker = false;
    let plate =
        (given.maybe_number("plate-thickness"), given.maybe_number("base-yield"), asked.metal.base_mpa);
    if let ((Some(thickness), Some(fy), Some(fu)), false) = (plate, asked.rules.european()) {
        let (yields, breaks) = base_shear(strength, thickness, fy, fu);
        let working = asked.rules == Rules::AiscWorking;
        // The same two limits with safety factors where the load is a working one.
        let per = |value: f64, resistance: f64, safety: f64| {
            if working { value / resistance / safety } else { value }
        };
        let yields = per(yields, strength.base_yield_resistance, strength.base_yield_safety);
        let breaks = per(breaks, strength.resistance, strength.safety);
        let holds = yields.min(breaks);
        let of_weld = found.outcomes[1].value.unwrap_or_default() * asked.lines;
        weaker = holds < of_weld;
        found.outcomes.push(
            Outcome::new(Method::FilletAisc, holds, Unit::NewtonPerMm)
                .named("fillet-base-holds")
                .resting_on(&strength.base_basis)
                .worked(vec![
                    Step::new("yield", yields, Unit::NewtonPerMm),
                    Step::new("rupture", breaks, Unit::NewtonPerMm),
                ]),
        );
    }
    let reply = Reply::of(found.outcomes);
    // The leg that a small load needs may be smaller than any that is allowed.
    let sized = reply.answer("fillet-leg-for-load").is_some();
    Ok(said_of_load(reply, found.enough, found.undermatched, asked.rules, asked.factored)
        .note_if(weaker, "fillet-base-weaker")
        .note_if(found.shortened, "fillet-long")
        .note_if(sized, "fillet-least-size"))
}

/// What a ring weld carries.
pub(super) static RING_STRENGTH: Question = Question {
    name: "ring-strength",
    work: Work::Weld,
    inputs: &[
        PIN,
        RINGS,
        LEG,
        SECOND_LEG,
        FILLER,
        BASE,
        Input::new("torque", Kind::Of(Quantity::Torque)).within(0.0, 1e7),
        Input::new("load-push", Kind::Of(Quantity::Force)).within(0.0, 100_000.0),
        Input::new("bending", Kind::Of(Quantity::Torque)).within(0.0, 1e7),
        Input::new("load-side", Kind::Of(Quantity::Force)).within(0.0, 100_000.0),
        FACTORED,
        BY,
        STEEL,
    ],
    answers: &["ring-torque", "ring-push", "ring-used", "ring-leg-for-load"],
    notes: &[
        "weld-undermatch-enough",
        "weld-carries",
        "weld-too-weak",
        "weld-no-load",
        "weld-load-multiplied",
        "weld-static-only",
        "weld-designer",
    ],
    answer: |given| {
        let told = |key| given.maybe_number(key);
        let all = [told("torque"), told("load-push"), told("bending"), told("load-side")];
        let [torque, push, bending, side] = all.map(Option::unwrap_or_default);
        let load = all.iter().any(Option::is_some).then_some(RingLoad {
            torque_nm: torque,
            push_kn: push,
            bending_nm: bending,
            side_kn: side,
        });
        let asked = RingQuery {
            diameter_mm: given.number("pin-diameter")?,
            rings: given.number("rings")?,
            fillet: fillet(given)?,
            metal: metal(given)?,
            rules: rules(given)?,
            load,
            factored: given.flag("load-factored"),
        };
        let found = ring_strength(&embedded().welding.strength, &asked)?;
        let reply = Reply::of(found.outcomes);
        Ok(said_of_load(reply, found.enough, found.undermatched, asked.rules, asked.factored))
    },
};

/// A fillet as strong as its part.
pub(super) static AS_STRONG: Question = Question {
    name: "as-strong-as-part",
    work: Work::Weld,
    inputs: &[
        Input::new("as-strong-part", Kind::Choice(PARTS)).required(),
        Input::new("part-size", Kind::Length).required().within(1.0, 2000.0),
        BASE_YIELD.required(),
        BASE,
        FILLER,
        RINGS,
        Input::new("by-en", Kind::Flag).or(Preset::Flag(false)),
        STEEL,
    ],
    answers: &["as-strong-leg", "as-strong-throat"],
    notes: &["as-strong-too-large", "as-strong-two-fillets", "weld-static-only", "weld-designer"],
    answer: |given| {
        let part = given.choice("as-strong-part", AsStrong::ALL, AsStrong::id)?;
        let size_mm = given.number("part-size")?;
        let steel = given.maybe_choice("correlation-steel").unwrap_or_default();
        let asked = AsStrongQuery {
            part,
            size_mm,
            yield_mpa: given.number("base-yield")?,
            tensile_mpa: given.maybe_number("base-strength"),
            filler_mpa: given.number("filler-strength")?,
            rings: given.number("rings")?,
            correlation: embedded().welding.strength.correlation_of(steel).filter(|_| given.flag("by-en")),
        };
        let found = as_strong(&embedded().welding.strength, &asked)?;
        let leg_mm = found[0].value.unwrap_or_default();
        let plate = !part.round();
        Ok(Reply::of(found)
            .note_if(plate && leg_mm > size_mm, "as-strong-too-large")
            .note_if(plate, "as-strong-two-fillets")
            .note_if(true, "weld-static-only")
            .note_if(true, "weld-designer"))
    },
};

const KIND: Input = Input::new("weld-type", Kind::Choice(KINDS)).required();
const LOAD: Input = Input::new("weld-load", Kind::Choice(LOADS)).or(Preset::Choice("not-known"));

/// Does a filler match?
pub(super) static FILLER_MATCH: Question = Question {
    name: "filler-match",
    work: Work::Weld,
    inputs: &[
        KIND,
        LOAD,
        BASE.required(),
        FILLER,
        BASE_YIELD,
        Input::new("filler-yield", Kind::Stress).within(100.0, 2500.0),
    ],
    answers: &["match-least", "match-throat-factor"],
    notes: &[
        "match-matches",
        "match-too-strong",
        "match-one-lower",
        "match-if-shown",
        "match-too-weak-tension",
        "match-too-weak-compression",
        "match-yield-lower",
        "match-weaker-part",
    ],
    answer: |given| {
        let asked = MatchQuery {
            kind: given.choice("weld-type", WeldKind::ALL, WeldKind::id)?,
            load: given.choice("weld-load", WeldLoad::ALL, WeldLoad::id)?,
            base_mpa: given.number("base-strength")?,
            filler_mpa: given.number("filler-strength")?,
        };
        let (outcomes, verdict) = filler_match(&embedded().welding.strength, &asked)?;
        let yields = (given.maybe_number("filler-yield"), given.maybe_number("base-yield"));
        let lower = matches!(yields, (Some(filler), Some(base)) if filler < base);
        Ok(Reply::of(outcomes)
            .note_if(true, verdict.id())
            .note_if(lower && !verdict.refused(), "match-yield-lower")
            .note_if(true, "match-weaker-part"))
    },
};

/// Fillers that fit.
pub(super) static FILLER_CHOICE: Question = Question {
    name: "filler-choice",
    work: Work::Weld,
    inputs: &[
        Input::new("process", Kind::Choice(PROCESSES)).required().of(OfPlan::FillProcess),
        KIND,
        LOAD,
        BASE.required(),
        Input::new("needed-strength", Kind::Stress).within(100.0, 2500.0),
        shared::HYDROGEN.or(Preset::Number(5.0)).of_no_plan(),
        Input::new("furnace-follows", Kind::Flag).or(Preset::Flag(false)),
        Input::new("hardened-again", Kind::Flag).or(Preset::Flag(false)),
        Input::new("free-cutting", Kind::Flag).or(Preset::Flag(false)),
        Input::new("austenitic-too", Kind::Flag).or(Preset::Flag(false)),
    ],
    answers: &OFFERED,
    notes: &[
        "match-matches",
        "match-too-strong",
        "match-one-lower",
        "match-if-shown",
        "filler-undermatch-first",
        "filler-austenitic-preheat",
        "filler-treated-strength",
        "filler-read-packet",
    ],
    answer: |given| {
        let id = given.maybe_choice("process").unwrap_or_default();
        let reference = embedded();
        let asked = OfferQuery {
            chromium: None,
            process: reference.process(id).ok_or(Problem::WrongKind { key: "process" })?,
            kind: given.choice("weld-type", WeldKind::ALL, WeldKind::id)?,
            load: given.choice("weld-load", WeldLoad::ALL, WeldLoad::id)?,
            base_mpa: given.number("base-strength")?,
            least_mpa: given.maybe_number("needed-strength"),
            hydrogen_ml: given.number("hydrogen")?,
            heat_treated: given.flag("furnace-follows"),
            hardened_again: given.flag("hardened-again"),
            free_cutting: given.flag("free-cutting"),
            austenitic: given.flag("austenitic-too"),
        };
        let (outcomes, verdict) = offer(reference, &asked)?;
        let weaker = outcomes[0].value.is_some_and(|mpa| mpa < asked.base_mpa);
        Ok(Reply::of(outcomes)
            .note_if(true, verdict.id())
            .note_if(weaker, "filler-undermatch-first")
            .note_if(asked.austenitic, "filler-austenitic-preheat")
            .note_if(asked.heat_treated, "filler-treated-strength")
            .note_if(true, "filler-read-packet"))
    },
};
