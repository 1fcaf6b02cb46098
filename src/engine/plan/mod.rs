//! The plan: evidence weighed into a minimum preheat, a maximum interpass and a ceiling.
//!
//! *Highest only across different obligations; best evidence within one.* "The highest of
//! all methods" is wrong: every method added could only raise the answer, and methods that
//! stop at C 0.25–0.32 % fall silent just for hardenable steels. So each obligation (the
//! heat-affected zone of each member, the weld metal, a code, dry and warm steel, a figure
//! on the drawing) is answered by its best evidence, and the greatest obligation is the
//! minimum. Interpass and ceiling are the lowest over the members.
//!
//! An input beyond a method's range is put at the limit; the answer reads "at least" and
//! may govern. The raw figure is drawn beside it and never governs.

mod actions;
mod asked;
mod cautions;
mod figures;
mod levers;
mod limit;
mod member;
mod minimum;
mod remarks;
mod round;
mod sequence;
mod sheets;
mod side;
mod temper;
mod temper_curve;
mod upper;

pub use actions::{Action, tempered};
pub use asked::{Asked, Documented, LeastBad};
pub use cautions::Briefing;
pub use figures::{Figures, combined_thickness_mm, figures};
pub use levers::{Change, Lever};
pub use limit::Limit;
pub use remarks::{Remark, Unqualified};
pub use round::{STEP_C, down_c, up_c};
pub use sequence::{Branch, Deed, Edge, Find, Note, Phase, Sequence, Step, StepFigure};
pub use side::{CoolingTime, PRACTICABLE_H, PostHeat, QT_SPAN_S, Side, WarmZone, tack_from_c};
pub use temper::NeedsTemper;
pub use upper::{Ceiling, LEAST_WINDOW_K, UNDER_TEMPER_K};

use strum::IntoStaticStr;

use crate::engine::chemistry::Chemistry;
use crate::engine::evidence::{Evidence, Standing};
use crate::engine::family::Family;
use crate::engine::job::{Demands, Job};
use crate::engine::part::Part;
use crate::engine::treatment::{self, Refusal};
use crate::reference::{CrackedCase, IronRoute, IronRouteKind, Printed, Reference};

/// What a plan comes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Verdict {
    /// Preheat, inside a usable window.
    Window,
    /// No preheat: dry, at least 5 °C.
    NoPreheat,
    /// Iron: two routes, never blended.
    TwoRoutes,
    /// Minimum and maximum leave no usable window.
    NoWindow,
    /// What a part is must be told first: no figure stands until then.
    Asks,
    /// A part must not be welded.
    #[strum(serialize = "do-not-weld")]
    Refused(Refusal),
    /// No method covers the steel: weld a trial piece.
    NoMethod,
}

impl Verdict {
    /// Stable id, as printed in JSON.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    /// Is this a safe answer to weld by?
    #[must_use]
    pub const fn answers(self) -> bool {
        matches!(self, Self::Window | Self::NoPreheat | Self::TwoRoutes)
    }
}

/// The limits of a job without what drawing, procedure or customer demand.
#[derive(Debug, Clone, PartialEq)]
pub struct Undemanded {
    /// The minimum; `None` where none is needed.
    pub minimum: Option<Limit>,
    /// Maximum interpass.
    pub interpass: Limit,
}

/// What a plan knows of one member.
#[derive(Debug, Clone, PartialEq)]
pub struct MemberNote {
    /// Its family.
    pub family: Family,
    /// Its analysis as the methods saw it.
    pub chemistry: Chemistry,
    /// The minimum that this member alone asks for, as shown in °C; 0 when none.
    pub minimum_c: Option<f64>,
    /// The same before rounding, °C.
    pub exact_c: Option<f64>,
    /// The same as its source prints it.
    pub printed: Option<Printed>,
    /// Laying the buttering on this member, where that takes it out of the last joint.
    pub layer: Option<Layer>,
}

/// What laying a buttering asks for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Layer {
    /// The minimum, exact, °C; 0 when none is needed.
    pub exact_c: f64,
    /// The most that the part may see, exact, °C.
    pub most_c: f64,
    /// Is there room between the two?
    pub usable: bool,
}

/// A whole plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// What it comes to.
    pub verdict: Verdict,
    /// The members, in the order of the job.
    pub members: Vec<MemberNote>,
    /// The minimum; `None` when none is needed or none is known.
    pub minimum: Option<Limit>,
    /// The minimum as shown, °C; 0 when no preheat is needed.
    pub minimum_c: Option<f64>,
    /// Where no preheat is needed: the steel is dry and no colder than this.
    pub dry_from: Option<Edge>,
    /// Maximum interpass.
    pub interpass: Option<Limit>,
    /// Maximum interpass as shown, °C.
    pub interpass_c: Option<f64>,
    /// The ceiling.
    pub ceiling: Ceiling,
    /// The ceiling as shown, °C.
    pub ceiling_c: Option<f64>,
    /// Is there a window of at least 25 K?
    pub usable_window: bool,
    /// The facts that would change a limit, asked first; the safe side stands meanwhile.
    pub asks: Vec<Asked>,
    /// What is said above the figures beside what is asked.
    pub remarks: Vec<Remark>,
    /// The temper that the whole window stands under, where one is not known.
    pub needs: Option<NeedsTemper>,
    /// The limits without what a document demands, where one demands anything.
    pub undemanded: Option<Undemanded>,
    /// Without a window: the least bad way for a quenched and tempered steel.
    pub least_bad: Option<LeastBad>,
    /// Without a window: is t8/5 too long even at the minimum, at this heat input?
    pub too_slow: bool,
    /// Without a window: what a document prints as its own.
    pub documented: Option<Documented>,
    /// The members whose temper must be asked for.
    pub ask_temper: Vec<usize>,
    /// Everything that was asked.
    pub evidence: Vec<Evidence>,
    /// What must be done beside heating, in the order of the work.
    pub actions: Vec<Action>,
    /// What would lower the minimum or open the window.
    pub levers: Vec<Lever>,
    /// Combined thickness of the joint, mm.
    pub combined_mm: f64,
    /// Ms and M90 of the part that transforms lowest, °C.
    pub ms_m90_c: Option<(f64, f64)>,
    /// How far nine in ten measured steels of its carbon lie from them, K.
    pub ms_scatter_k: Option<f64>,
    /// A published case in which such a steel cracked although it was preheated.
    pub cracked: Option<CrackedCase>,
    /// The routes for iron that keep what the job demands, cold first.
    pub routes: Vec<IronRoute>,
    /// The side questions; `None` where the plan has no figures.
    pub side: Option<Side>,
    /// What is done, in the order of time.
    pub sequence: Sequence,
    /// What is told before work starts.
    pub briefing: Briefing,
}

impl Plan {
    /// The evidence that sets the minimum.
    #[must_use]
    pub fn governing(&self) -> Option<&Evidence> {
        self.evidence.iter().find(|item| item.standing == Standing::Governs)
    }

    /// The family that the plan is governed by: one that must not be welded, else the
    /// governing member's, else the first's.
    #[must_use]
    pub fn family(&self) -> Option<Family> {
        if self.members.iter().any(|member| member.family == Family::DoNotWeld) {
            return Some(Family::DoNotWeld);
        }
        let index = self.minimum.as_ref().and_then(|limit| limit.member).unwrap_or(0);
        self.members.get(index).or_else(|| self.members.first()).map(|member| member.family)
    }
}

/// Makes the plan of a job.
#[must_use]
pub fn plan(reference: &Reference, job: &Job) -> Plan {
    let parts = Part::all(job);
    let combined_mm = combined_thickness_mm(reference, job);
    let mut plan = match figures::figures_of(reference, job, &parts) {
        Some(figures) => weighed(reference, job, &parts, figures, combined_mm),
        None => refused(&parts, combined_mm),
    };
    plan.asks = asked::asks(reference, &parts, &plan.ask_temper);
    plan.side = side::side(reference, job, &parts, &plan);
    plan.remarks = remarks::remarks(reference, job, &parts, &plan);
    if plan.remarks.iter().any(Remark::is_unqualified) {
        plan.actions.push(Action::QualifyProcedure);
    }
    plan.sequence = sequence::sequence(reference, job, &parts, &plan);
    plan.briefing = cautions::briefing(reference, job, &parts, &plan);
    plan
}

/// A plan with its figures, and nothing that follows from the whole of it yet.
fn weighed(reference: &Reference, job: &Job, parts: &[Part<'_>], figures: Figures, combined_mm: f64) -> Plan {
    let any_iron = parts.iter().any(|part| part.family == Family::Iron);
    let routes = if any_iron { sheets::iron_routes(reference, &job.demands) } else { Vec::new() };
    let verdict = verdict(parts, &figures, routes.len());
    let shut = verdict == Verdict::NoWindow;
    // Where the runs are too hot, smaller ones are the way: the lever says how small.
    let least_bad = if shut && !figures.upper.too_slow { asked::least_bad(parts, &figures) } else { None };
    let minimum_c = figures.minimum_c.unwrap_or(0.0);
    let levers = levers::levers(reference, job, parts, &figures);
    let cooling = side::cooling_time(reference, job, parts, minimum_c, figures.interpass_c);
    let ms_m90_c = actions::lowest_ms_m90_c(parts);
    let cracked = actions::cracked_case(reference, parts).cloned();
    let actions = actions::actions(&actions::Drawn {
        job,
        parts,
        minimum_c,
        interpass_c: figures.interpass_c,
        iron_cold: routes.iter().any(|route| route.kind == IronRouteKind::Cold),
        ask_temper: !figures.upper.ask_temper.is_empty(),
        cooling_outside: cooling.iter().any(CoolingTime::outside),
        weld_metal_unknown: figures.minimum.weld_metal_unknown,
        cracked: cracked.is_some(),
        ms_m90_c,
    });
    let members = (0..parts.len())
        .map(|index| {
            let part = &parts[index];
            let own = minimum::member_minimum(&figures.minimum.evidence, index, part.family);
            let (exact_c, printed) = own.unzip();
            let printed = printed.flatten();
            MemberNote {
                minimum_c: exact_c.map(|exact_c| minimum::as_shown_c(exact_c, printed)),
                exact_c,
                printed,
                layer: figures::layer(reference, job, parts, index).map(|layer| Layer {
                    exact_c: layer.exact_c.unwrap_or(0.0),
                    most_c: layer.upper.interpass.exact_c,
                    usable: layer.usable,
                }),
                ..MemberNote::unweighed(part)
            }
        })
        .collect();
    let ceiling_c = match &figures.upper.ceiling {
        Ceiling::At(limit) => Some(upper::shown_c(limit)),
        _ => None,
    };
    let needed = figures.exact_c.is_some_and(|exact_c| exact_c > 0.0);
    Plan {
        verdict,
        members,
        dry_from: (!needed).then_some(figures.minimum.dry_from),
        minimum: figures.minimum.limit.filter(|_| needed),
        minimum_c: figures.minimum_c,
        interpass_c: Some(figures.interpass_c),
        interpass: Some(figures.upper.interpass),
        ceiling: figures.upper.ceiling,
        ceiling_c,
        usable_window: figures.usable,
        needs: figures.upper.needs,
        undemanded: undemanded(reference, job),
        too_slow: figures.upper.too_slow,
        least_bad,
        documented: if shut { asked::documented(parts) } else { None },
        ask_temper: figures.upper.ask_temper,
        evidence: figures.minimum.evidence,
        actions,
        levers,
        ms_m90_c,
        ms_scatter_k: actions::ms_scatter_k(reference, parts),
        cracked,
        routes,
        ..Plan::empty(combined_mm)
    }
}

fn undemanded(reference: &Reference, job: &Job) -> Option<Undemanded> {
    if job.demands == Demands::default() {
        return None;
    }
    let figures = figures::figures(reference, &Job { demands: Demands::default(), ..job.clone() })?;
    let minimum = figures.minimum.limit.filter(|limit| limit.exact_c > 0.0);
    Some(Undemanded { minimum, interpass: figures.upper.interpass })
}

fn verdict(parts: &[Part<'_>], figures: &Figures, routes: usize) -> Verdict {
    let Some(exact_c) = figures.exact_c else { return Verdict::NoMethod };
    if !figures.usable {
        return Verdict::NoWindow;
    }
    // A demand or another member can leave one route: that one is a window like any other.
    if routes > 1 && parts.iter().all(|part| part.family == Family::Iron) {
        return Verdict::TwoRoutes;
    }
    if exact_c > 0.0 { Verdict::Window } else { Verdict::NoPreheat }
}

fn refused(parts: &[Part<'_>], combined_mm: f64) -> Plan {
    let refusal = parts.iter().find_map(|part| treatment::refusal(part.member, &part.chemistry));
    Plan {
        verdict: match refusal {
            Some(refusal) => Verdict::Refused(refusal),
            None if parts.iter().any(Part::must_be_told) => Verdict::Asks,
            None => Verdict::NoMethod,
        },
        members: parts.iter().map(MemberNote::unweighed).collect(),
        ..Plan::empty(combined_mm)
    }
}

impl MemberNote {
    /// A part before anything is weighed.
    const fn unweighed(part: &Part<'_>) -> Self {
        Self {
            family: part.family,
            chemistry: part.chemistry,
            minimum_c: None,
            exact_c: None,
            printed: None,
            layer: None,
        }
    }
}

impl Plan {
    /// A plan that has no answer.
    fn empty(combined_mm: f64) -> Self {
        Self {
            verdict: Verdict::NoMethod,
            members: Vec::new(),
            minimum: None,
            minimum_c: None,
            dry_from: None,
            interpass: None,
            interpass_c: None,
            ceiling: Ceiling::BelowTransformation,
            ceiling_c: None,
            usable_window: false,
            asks: Vec::new(),
            remarks: Vec::new(),
            needs: None,
            undemanded: None,
            too_slow: false,
            least_bad: None,
            documented: None,
            ask_temper: Vec::new(),
            evidence: Vec::new(),
            actions: Vec::new(),
            levers: Vec::new(),
            combined_mm,
            ms_m90_c: None,
            ms_scatter_k: None,
            cracked: None,
            routes: Vec::new(),
            side: None,
            sequence: Sequence::default(),
            briefing: Briefing::default(),
        }
    }
}
