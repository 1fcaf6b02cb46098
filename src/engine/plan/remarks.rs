//! What is said above the figures that no figure shows: a metal near the border of what may be welded,
//! a code without a word on it, heat that comes from nowhere, a hold that nobody keeps up.

use strum::IntoStaticStr;

use super::{Plan, Verdict};
use crate::engine::evidence::{Case, Obligation, Standing, d11_category};
use crate::engine::family::Family;
use crate::engine::job::{Alloy, Code, Job, Process, Steel};
use crate::engine::part::{MUCH_SULPHUR_OR_PHOSPHORUS, Part, SOME_LEAD};
use crate::engine::treatment::has_left_its_name;
use crate::reference::{Element, HeatSource, Inspection, IronRouteKind, Reference};

/// Why a procedure is not prequalified by AWS D1.1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Unqualified {
    /// No category lists the steel.
    CodeUnlisted,
    /// The certificate has left its listed grade.
    CodeOutside,
    /// Its category is for low-hydrogen consumables.
    CodeHydrogen,
    /// The code is not made for such a metal at all: it gives no figure.
    CodeSilent,
}

/// What is said above the figures; its words are the Fluent message `remark-ID`.
#[derive(Debug, Clone, PartialEq)]
pub enum Remark {
    /// Lead, sulphur or phosphorus just under what is refused, %.
    HotShort {
        /// The part.
        member: usize,
        /// The elements.
        elements: Vec<(Element, f64)>,
    },
    /// The steel alone is cleared, and the stated weld metal sets the minimum.
    ByWeldMetal,
    /// The cold way of cast iron without a filler for it.
    NickelForIron {
        /// The part.
        member: usize,
    },
    /// A preheat is demanded for cast iron at which no way is welded, °C.
    NoWayForIron {
        /// What is demanded.
        demanded_c: f64,
    },
    /// The named code prequalifies no procedure for a part.
    Unqualified {
        /// The part.
        member: usize,
        /// Why.
        why: Unqualified,
    },
    /// The named code prequalifies no procedure with a process.
    CodeProcess {
        /// The process.
        process: Process,
    },
    /// Nothing heats, and the plan needs a preheat.
    NoHeatSource,
    /// The same where only the hot way of cast iron needs one.
    NoHeatForHotWay,
    /// The post-heat takes longer than anybody keeps it up, h.
    HoldTooLong {
        /// Hours, as shown.
        hours: f64,
        /// The weld's size where nobody told it, mm, and is it a fillet's?
        taken: Option<(f64, bool)>,
    },
    /// Magnetic particles on metal that is not magnetic.
    NotMagnetic,
    /// Oil in the metal: so much hydrogen is counted until it is out, ml/100 g.
    OilSoaked {
        /// What is counted.
        hydrogen_ml: f64,
    },
    /// Nobody told whether oil is in the metal: so much hydrogen is counted until it is, ml/100 g.
    OilOpen {
        /// What is counted.
        hydrogen_ml: f64,
    },
    /// A rutile or cellulosic electrode on steel that hardens.
    WetElectrode {
        /// The process.
        process: Process,
    },
    /// An old weld of a filler that nobody knows.
    OldWeld,
    /// A hardfacing where the weld goes.
    Hardfacing,
    /// A part without a mark: the worst that its test left is assumed.
    Unmarked {
        /// The part.
        member: usize,
        /// Carbon that it counts with, %.
        carbon: f64,
        /// The alloy that it counts with.
        alloy: Alloy,
        /// May it be tool steel or stainless steel as well?
        maybe_tool: bool,
    },
}

impl Remark {
    /// Stable id, as printed in JSON.
    #[must_use]
    pub fn id(&self) -> &'static str {
        match self {
            Self::HotShort { .. } => "hot-short",
            Self::ByWeldMetal => "by-weld-metal",
            Self::NickelForIron { .. } => "nickel-for-iron",
            Self::NoWayForIron { .. } => "no-way-for-iron",
            Self::Unqualified { why, .. } => why.into(),
            Self::CodeProcess { .. } => "code-process",
            Self::NoHeatSource => "no-heat-source",
            Self::NoHeatForHotWay => "no-heat-for-hot-way",
            Self::HoldTooLong { .. } => "hold-too-long",
            Self::NotMagnetic => "not-magnetic",
            Self::Unmarked { .. } => "unmarked",
            Self::OilSoaked { .. } => "oil-soaked",
            Self::OilOpen { .. } => "oil-open",
            Self::WetElectrode { .. } => "wet-electrode",
            Self::OldWeld => "old-weld",
            Self::Hardfacing => "hardfacing",
        }
    }

    /// The part that it is of, where it is of one.
    #[must_use]
    pub const fn member(&self) -> Option<usize> {
        match self {
            Self::HotShort { member, .. }
            | Self::NickelForIron { member }
            | Self::Unmarked { member, .. }
            | Self::Unqualified { member, .. } => Some(*member),
            _ => None,
        }
    }

    /// Does it leave the procedure to be qualified by test?
    pub(super) const fn is_unqualified(&self) -> bool {
        matches!(self, Self::Unqualified { .. } | Self::CodeProcess { .. })
    }
}

/// What is said above the figures of a plan; nothing of a part that must not be welded.
#[must_use]
pub(super) fn remarks(reference: &Reference, job: &Job, parts: &[Part<'_>], plan: &Plan) -> Vec<Remark> {
    if matches!(plan.verdict, Verdict::Refused(_)) {
        return Vec::new();
    }
    let first = |member: &usize| !job.members[..*member].contains(&job.members[*member]);
    let distinct: Vec<usize> = (0..parts.len()).filter(first).collect();
    let mut found: Vec<Remark> =
        distinct.iter().filter_map(|&member| unmarked(&parts[member], member)).collect();
    found.extend(distinct.iter().filter_map(|&member| hot_short(&parts[member], member)));
    found.extend(wet_electrode(job, parts));
    found.extend(repair(job));
    found.extend(iron(reference, job, parts, plan));
    found.extend(by_weld_metal(plan));
    found.extend(heat(job, plan));
    found.extend(hold(plan));
    if job.code == Code::AwsD11 {
        found.extend(distinct.iter().filter_map(|&member| by_code(reference, job, parts, member)));
        let unlisted = |process: &Process| {
            !reference.d11.prequalified.processes.iter().any(|known| known == process.id())
        };
        let process = job.runs.iter().map(|run| run.process).find(unlisted);
        found.extend(process.map(|process| Remark::CodeProcess { process }));
    }
    let hidden = job.weld.austenitic || parts.iter().any(|part| is_austenitic(part.family));
    let magnetic = job.safety.inspection == Some(Inspection::Magnetic) && hidden;
    found.extend(magnetic.then_some(Remark::NotMagnetic));
    found
}

const fn is_austenitic(family: Family) -> bool {
    matches!(family, Family::StainlessAustenitic | Family::Manganese)
}

/// What a repair has before it and the figures do not count with.
fn repair(job: &Job) -> impl Iterator<Item = Remark> {
    let told = job.repair;
    let oil = told.oil_soaked.then(|| Remark::OilSoaked { hydrogen_ml: job.hydrogen_ml() });
    let old = told.old_weld.then_some(Remark::OldWeld);
    let open = told.oil_open.then(|| Remark::OilOpen { hydrogen_ml: job.hydrogen_ml() });
    oil.into_iter().chain(open).chain(old).chain(told.hardfacing.then_some(Remark::Hardfacing))
}

/// No coating of rutile or cellulose is dry enough for steel that hardens (common practice, no source).
fn wet_electrode(job: &Job, parts: &[Part<'_>]) -> Option<Remark> {
    let hardens = parts.iter().any(|part| part.hardens() && part.family != Family::Structural);
    let wet = |process: &Process| matches!(process, Process::SmawRutile | Process::SmawCellulosic);
    let process = job.runs.iter().map(|run| run.process).find(wet)?;
    (hardens && !job.weld.austenitic).then_some(Remark::WetElectrode { process })
}

fn unmarked(part: &Part<'_>, member: usize) -> Option<Remark> {
    let Steel::Unmarked { composition, alloy, maybe_tool } = &part.member.steel else { return None };
    let (alloy, maybe_tool) = (*alloy, *maybe_tool);
    Some(Remark::Unmarked { member, carbon: composition.get(Element::C), alloy, maybe_tool })
}

/// What makes a weld crack hot, and is no chance any more, though less than is refused. Foundry iron
/// carries that much; a grade that allows it is made with it.
fn hot_short(part: &Part<'_>, member: usize) -> Option<Remark> {
    // No bench test measures them, and what is assumed of a steel without a mark is no measure.
    let unmarked = part.member.steel.is_unmarked();
    if part.chemistry.grade_only || part.family == Family::Iron || unmarked {
        return None;
    }
    let borders = [
        (Element::Pb, SOME_LEAD),
        (Element::S, MUCH_SULPHUR_OR_PHOSPHORUS),
        (Element::P, MUCH_SULPHUR_OR_PHOSPHORUS),
    ];
    let grade = part.member.steel.grade();
    let elements: Vec<(Element, f64)> = borders
        .into_iter()
        .filter_map(|(element, from)| {
            let percent = part.chemistry.composition.get(element);
            let allowed = grade.and_then(|grade| grade.composition.get(&element)).and_then(|own| own.max);
            (percent >= from && allowed.is_none_or(|most| percent > most)).then_some((element, percent))
        })
        .collect();
    (!elements.is_empty()).then_some(Remark::HotShort { member, elements })
}

fn iron(reference: &Reference, job: &Job, parts: &[Part<'_>], plan: &Plan) -> Option<Remark> {
    let member = parts.iter().position(|part| part.family == Family::Iron && !part.member.buttered)?;
    let open = !plan.routes.is_empty();
    let cold = plan.routes.iter().any(|route| route.kind == IronRouteKind::Cold);
    let kinds = [IronRouteKind::Cold, IronRouteKind::SemiHot, IronRouteKind::Hot];
    let of_a_way = |at_c: f64| {
        let mut spans = kinds.into_iter().filter_map(|kind| reference.own_sheets.iron_route(kind));
        spans.any(|route| (route.preheat_low_c..=route.preheat_high_c).contains(&at_c))
    };
    match job.demands.preheat_c {
        Some(demanded_c) if !open && !of_a_way(demanded_c) => Some(Remark::NoWayForIron { demanded_c }),
        _ if cold && !job.weld.for_iron => Some(Remark::NickelForIron { member }),
        _ => None,
    }
}

/// A minimum that the weld metal alone sets, where no part needs any.
fn by_weld_metal(plan: &Plan) -> Option<Remark> {
    let governs = plan.minimum.is_some()
        && plan
            .evidence
            .iter()
            .any(|item| item.standing == Standing::Governs && item.obligation == Obligation::WeldMetal);
    let spared = plan.members.iter().all(|member| member.exact_c.is_some_and(|exact_c| exact_c <= 0.0));
    (governs && spared).then_some(Remark::ByWeldMetal)
}

fn heat(job: &Job, plan: &Plan) -> Option<Remark> {
    let flame = job.runs.iter().any(|run| run.process == Process::OxyFuel);
    if job.safety.heat_source != Some(HeatSource::None) || flame {
        return None;
    }
    let hot = plan.routes.iter().any(|route| route.kind == IronRouteKind::Hot);
    if plan.verdict == Verdict::TwoRoutes {
        return hot.then_some(Remark::NoHeatForHotWay);
    }
    (plan.verdict.answers() && plan.minimum.is_some()).then_some(Remark::NoHeatSource)
}

fn hold(plan: &Plan) -> Option<Remark> {
    let held = plan.side.as_ref()?.post_heat.as_ref()?;
    let taken = held.size_taken.then(|| (held.weld.size_mm(), held.weld.is_fillet()));
    Some(Remark::HoldTooLong { hours: held.too_long_h()?, taken })
}

/// What AWS D1.1 says of a part: nothing to add for a listed steel in its category.
fn by_code(reference: &Reference, job: &Job, parts: &[Part<'_>], member: usize) -> Option<Remark> {
    let part = &parts[member];
    let unqualified = |why| Some(Remark::Unqualified { member, why });
    if !part.by_methods() {
        return unqualified(Unqualified::CodeSilent);
    }
    let case = Case::of(reference, job, part, member);
    let Some(grade) = part.member.steel.grade().filter(|grade| grade.d11_category.is_some()) else {
        return unqualified(Unqualified::CodeUnlisted);
    };
    if has_left_its_name(part.member) {
        return unqualified(Unqualified::CodeOutside);
    }
    // A category above its own hydrogen, without another one to fall back to, lists it no more.
    let by_any = reference.d11.prequalified.any_electrode.contains(&grade.id);
    let dry = case.low_hydrogen() && d11_category::on(&case).is_some();
    if dry || by_any { None } else { unqualified(Unqualified::CodeHydrogen) }
}
