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
mod cautions;
mod chemistry;
mod family;
mod figures;
mod levers;
mod member;
mod minimum;
mod part;
mod round;
mod sheets;
mod side;
mod types;
mod upper;

pub use actions::{Action, cracked_case, lowest_ms_m90_c, tempered};
pub use cautions::{Raised, cautions};
pub use chemistry::{Cap, Chemistry};
pub use family::{HARDENING_CARBON, LEAD_LIMIT, QT_YIELD_MPA, Refusal, SULPHUR_LIMIT, known_method};
pub use figures::{Figures, combined_thickness_mm, figures};
pub use levers::{Change, Lever};
pub use part::Part;
pub use round::{STEP_C, down_c, up_c};
pub use side::{CoolingTime, QT_SPAN_S, Side, WarmZone, heat_for_span_kj_per_mm, side};
pub use types::{Evidence, Family, Limit, Obligation, Says, Standing};
pub use upper::{Ceiling, LEAST_WINDOW_K, UNDER_TEMPER_K};

use crate::engine::job::Job;
use crate::reference::{IronRoute, IronRouteKind, Printed, Reference};

/// What a plan comes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Verdict {
    /// Preheat, inside a usable window.
    Window,
    /// No preheat: dry, at least 5 °C.
    NoPreheat,
    /// Iron: two routes, never blended.
    TwoRoutes,
    /// Minimum and maximum leave no usable window.
    NoWindow,
    /// A part must not be welded.
    Refused(Refusal),
    /// No method covers the steel: weld a trial piece.
    NoMethod,
}

impl Verdict {
    /// Stable id, as printed in JSON.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Window => "window",
            Self::NoPreheat => "no-preheat",
            Self::TwoRoutes => "two-routes",
            Self::NoWindow => "no-window",
            Self::Refused(_) => "do-not-weld",
            Self::NoMethod => "no-method",
        }
    }

    /// Is this a safe answer to weld by?
    #[must_use]
    pub const fn answers(self) -> bool {
        matches!(self, Self::Window | Self::NoPreheat | Self::TwoRoutes)
    }
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
    /// Everything that was asked.
    pub evidence: Vec<Evidence>,
    /// What must be done beside heating, in the order of the work.
    pub actions: Vec<Action>,
    /// What would lower the minimum or open the window.
    pub levers: Vec<Lever>,
    /// Combined thickness of the joint, mm.
    pub combined_mm: f64,
}

impl Plan {
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
    let Some(figures) = figures::figures_of(reference, job, &parts) else {
        return refused(&parts, combined_mm);
    };
    let verdict = verdict(reference, job, &parts, &figures);
    let minimum_c = figures.minimum_c.unwrap_or(0.0);
    let levers = levers::levers(reference, job, &parts, &figures);
    let cooling = side::cooling_time(reference, job, &parts, minimum_c, figures.interpass_c);
    let actions = actions::actions(&actions::Drawn {
        reference,
        job,
        parts: &parts,
        minimum_c,
        interpass_c: figures.interpass_c,
        iron_cold: parts.iter().any(|part| part.family == Family::Iron)
            && iron_routes(reference, job).iter().any(|route| route.kind == IronRouteKind::Cold),
        ask_temper: figures.upper.ask_temper.is_some(),
        cooling_outside: side::leaves_span(&parts, &cooling),
        weld_metal_unknown: figures.minimum.weld_metal_unknown,
    });
    let members = parts
        .iter()
        .enumerate()
        .map(|(index, part)| {
            let (exact_c, printed) = member_minimum(&figures.minimum.evidence, index, part.family).unzip();
            let printed = printed.flatten();
            MemberNote {
                family: part.family,
                chemistry: part.chemistry,
                minimum_c: exact_c.map(|exact_c| minimum::as_shown_c(exact_c, printed)),
                exact_c,
                printed,
                layer: figures::layer(reference, job, &parts, index).map(|layer| Layer {
                    exact_c: layer.exact_c.unwrap_or(0.0),
                    most_c: layer.upper.interpass.exact_c,
                    usable: layer.usable,
                }),
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
        minimum: figures.minimum.limit.filter(|_| needed),
        minimum_c: figures.minimum_c,
        interpass_c: Some(figures.interpass_c),
        interpass: Some(figures.upper.interpass),
        ceiling: figures.upper.ceiling,
        ceiling_c,
        usable_window: figures.usable,
        evidence: figures.minimum.evidence,
        actions,
        levers,
        combined_mm,
    }
}

fn verdict(reference: &Reference, job: &Job, parts: &[Part<'_>], figures: &Figures) -> Verdict {
    let Some(exact_c) = figures.exact_c else { return Verdict::NoMethod };
    if !figures.usable {
        return Verdict::NoWindow;
    }
    // A demand or another member can leave one route: that one is a window like any other.
    let iron = parts.iter().all(|part| part.family == Family::Iron);
    if iron && iron_routes(reference, job).len() > 1 {
        return Verdict::TwoRoutes;
    }
    if exact_c > 0.0 { Verdict::Window } else { Verdict::NoPreheat }
}

/// A member's own minimum, exact and as printed: the greatest that speaks for its
/// heat-affected zone. Iron is warmed by hand: its 20 °C are no "without preheat".
fn member_minimum(evidence: &[Evidence], index: usize, kin: Family) -> Option<(f64, Option<Printed>)> {
    evidence
        .iter()
        .filter(|item| item.member == Some(index) && item.obligation == Obligation::HeatAffectedZone)
        .filter(|item| item.standing != Standing::ShownOnly)
        .filter_map(|item| Some((item.value_c()?, item.printed)))
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|found| {
            let none = found.0 <= minimum::WITHOUT_PREHEAT_C && kin != Family::Iron;
            if none { (0.0, None) } else { found }
        })
}

fn refused(parts: &[Part<'_>], combined_mm: f64) -> Plan {
    let refusal = parts.iter().find_map(|part| family::refusal(part.member, &part.chemistry));
    Plan {
        verdict: refusal.map_or(Verdict::NoMethod, Verdict::Refused),
        members: parts
            .iter()
            .map(|part| MemberNote {
                family: part.family,
                chemistry: part.chemistry,
                minimum_c: None,
                exact_c: None,
                printed: None,
                layer: None,
            })
            .collect(),
        minimum: None,
        minimum_c: None,
        interpass: None,
        interpass_c: None,
        ceiling: Ceiling::BelowTransformation,
        ceiling_c: None,
        usable_window: false,
        evidence: Vec::new(),
        actions: Vec::new(),
        levers: Vec::new(),
        combined_mm,
    }
}

/// The routes of a plan for iron that keep what the job demands, cold first.
#[must_use]
pub fn iron_routes(reference: &Reference, job: &Job) -> Vec<IronRoute> {
    sheets::iron_routes(reference, &job.demands)
}
