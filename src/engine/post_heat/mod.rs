//! How hot and how long must a weld be kept after welding, so that its hydrogen leaves?
//!
//! Hydrogen starts in the weld, so that the weld's size sets the time and not the part's.

mod answer;
mod diffusivity;
mod hold;
mod outcomes;
mod path;

pub use answer::{BelowM90, ByDiffusion, Hold, PostHeatAnswer, PostHeatQuery, RuleHours, SetBy, Way};
pub use diffusivity::{Curve, austenite_cm2_per_s, diffusivity_cm2_per_s, slow_basis};
pub use outcomes::{RULES, outcomes};
pub use path::{WeldPath, cylinder_axis_left, layer_peak, layer_peak_depth};

use super::EngineError;
use super::error::{Domain, HYDROGEN};
use crate::reference::{PostHeatRule, Reference};
use hold::Work;

/// What is done after welding, so that a tenth of the hydrogen stays at the worst place.
///
/// The hours are the greater of the published practice for this size of weld and the closed
/// form of a thin weld on a thick part, a slab or a cylinder, with the slow diffusivity at the
/// cold end of the span. In truth hydrogen also spreads along the part, so that the closed form
/// errs on the long side. The span begins at 200 °C or at the minimum, and never passes
/// `most_c`. Where any of it lies above M90, an hour more is counted there; for a fillet on the
/// throat alone, since the margin on it is more than that hour.
///
/// A thinner weld, a hotter minimum and less hydrogen never ask for longer.
///
/// # Errors
/// An input that is not a number, negative, or that no weld has; `NoAnswer`
/// (`post-heat-above-ceiling`) where the minimum lies above what the part may see.
pub fn hold_after_welding(
    reference: &Reference,
    asked: &PostHeatQuery,
) -> Result<PostHeatAnswer, EngineError> {
    check(asked)?;
    let data = &reference.post_heat;
    let way = if asked.austenitic_weld_metal {
        Way::WeldMetalHolds
    } else if asked.most_c < data.from_c {
        Way::LongerWait
    } else {
        Way::PostHeat
    };
    let low_c = if way == Way::LongerWait { asked.minimum_c } else { asked.minimum_c.max(data.from_c) };
    let span = (low_c, asked.most_c.max(low_c));
    if way == Way::WeldMetalHolds {
        return Ok(weld_metal_holds(reference, asked, low_c));
    }
    let counted = low_c >= data.wait_from_c;
    let (spread_mm2, deposit_mm2) = asked.weld.spreads_mm2(reference, data.left);
    let work = Work { reference, asked, times: 1.0, spread_mm2, deposit_mm2 };
    let slower = Work { times: data.trapping.times, ..work };
    let main = counted.then(|| work.hold(span));
    let shorter = |hot: &Hold| main.as_ref().is_none_or(|hold| hot.hours < hold.hours);
    let hot_end = (span.1 >= data.wait_from_c).then(|| work.hold((span.1, span.1))).filter(shorter);
    // Where no hour is lost to austenite the main figure is as good.
    let loses = main.as_ref().is_none_or(|hold| hold.turning_h > 0.0);
    Ok(PostHeatAnswer {
        way,
        below_m90: work.below_m90(span).filter(|_| loses),
        hot_end,
        trapped: (counted && trapped(reference, asked)).then(|| slower.hold(span)),
        diffusion: counted.then(|| by_diffusion(&work, low_c)),
        rules: rules(reference, asked),
        left_ml: main.as_ref().map(|_| data.left * asked.hydrogen_ml),
        austenite_h: None,
        main,
    })
}

fn check(asked: &PostHeatQuery) -> Result<(), EngineError> {
    asked.weld.check()?;
    HYDROGEN.check(asked.hydrogen_ml)?;
    let heat = |symbol| Domain::new(symbol, 0.0, 650.0);
    heat("Tp").check(asked.minimum_c)?;
    heat("Tmax").check(asked.most_c)?;
    asked.m90_c.map(|m90_c| Domain::new("M90", -1000.0, 1000.0).check(m90_c)).transpose()?;
    for (symbol, percent) in [("Cr", asked.chromium_percent), ("V", asked.vanadium_percent)] {
        percent.map(|percent| Domain::new(symbol, 0.0, 100.0).check(percent)).transpose()?;
    }
    if asked.minimum_c > asked.most_c {
        return Err(EngineError::NoAnswer { reason: "post-heat-above-ceiling" });
    }
    Ok(())
}

/// Steel that may hold hydrogen in traps; one whose analysis is not known may.
fn trapped(reference: &Reference, asked: &PostHeatQuery) -> bool {
    let trapping = &reference.post_heat.trapping;
    let has = |percent: Option<f64>, from: f64| percent.is_none_or(|percent| percent >= from);
    has(asked.chromium_percent, trapping.chromium_percent)
        || has(asked.vanadium_percent, trapping.vanadium_percent)
}

fn weld_metal_holds(reference: &Reference, asked: &PostHeatQuery, at_c: f64) -> PostHeatAnswer {
    let left = reference.post_heat.left;
    PostHeatAnswer {
        way: Way::WeldMetalHolds,
        main: None,
        below_m90: None,
        hot_end: None,
        trapped: None,
        diffusion: None,
        rules: Vec::new(),
        left_ml: None,
        austenite_h: Some(asked.weld.hours(reference, left, austenite_cm2_per_s(reference, at_c))),
    }
}

fn by_diffusion(work: &Work<'_>, at_c: f64) -> ByDiffusion {
    let reference = work.reference;
    let d = |curve| diffusivity_cm2_per_s(reference, curve, at_c);
    ByDiffusion {
        hours: [Curve::Slow, Curve::Middle, Curve::Fast].map(|curve| path::hours(work.spread_mm2, d(curve))),
        slow_cm2_per_s: d(Curve::Slow),
        path_mm: work.asked.weld.path_mm(reference),
        basis: slow_basis(reference, at_c),
    }
}

/// The rules that don't hold hotter than this part may be.
fn rules(reference: &Reference, asked: &PostHeatQuery) -> Vec<RuleHours> {
    let of = |rule: &PostHeatRule| {
        let (low_h, high_h, at_least) = rule.time.hours(asked.weld.size_mm());
        RuleHours { id: rule.id.clone(), low_h, high_h, at_least, basis: rule.basis.clone() }
    };
    let may = |rule: &&PostHeatRule| rule.low_c.is_none_or(|low_c| low_c <= asked.most_c);
    reference.post_heat.rules.iter().filter(may).map(of).collect()
}
