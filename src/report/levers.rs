//! The levers in words.

use super::figure::{maximum, minimum};
use super::{Pen, member_name};
use crate::engine::job::Job;
use crate::engine::plan::{Change, Plan, Verdict};

/// What a lever does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LeverEffect {
    /// It lowers the minimum.
    Lowers,
    /// It opens a window that is not there.
    Opens,
    /// It helps, but does not open the window by itself.
    NotAlone,
}

/// One lever.
#[derive(Debug, Clone, PartialEq)]
pub struct LeverLine {
    /// Stable id.
    pub id: &'static str,
    /// What is changed.
    pub what: String,
    /// The minimum with it.
    pub result: String,
    /// What else to know.
    pub note: String,
    /// What it does.
    pub effect: LeverEffect,
}

/// The levers of a plan; where none gains anything for a steel that hardens, what helps
/// without a number.
#[must_use]
pub fn lever_lines(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Vec<LeverLine> {
    let shut = plan.verdict == Verdict::NoWindow;
    let hardens = plan.members.iter().any(|member| member.family.traits().hardens_through);
    // Without a window the answer itself says it.
    if plan.levers.is_empty() && hardens && plan.verdict == Verdict::Window {
        return vec![LeverLine {
            id: "without-number",
            what: pen.words.get("lever-without-number"),
            result: pen.words.get("lever-without-number.result"),
            note: pen.words.get("lever-without-number.note"),
            effect: LeverEffect::Lowers,
        }];
    }
    plan.levers
        .iter()
        .map(|lever| {
            let what = match lever.change {
                Change::HydrogenDown { from_ml, to_ml } => pen.words.with(
                    "lever-hydrogen-down",
                    &[("from", &pen.show.hydrogen(from_ml)), ("to", &pen.show.hydrogen(to_ml))],
                ),
                Change::MoreHeat { from_kj_per_mm, to_kj_per_mm } => pen.words.with(
                    "lever-more-heat",
                    &[
                        ("from", &pen.show.heat(from_kj_per_mm).main),
                        ("to", &pen.show.heat(to_kj_per_mm).main),
                    ],
                ),
                Change::LessHeat { from_kj_per_mm, to_kj_per_mm } => pen.words.with(
                    "lever-less-heat",
                    &[
                        ("from", &pen.show.heat(from_kj_per_mm).main),
                        ("to", &pen.show.heat(to_kj_per_mm).main),
                    ],
                ),
                Change::SkinOff => pen.words.get("lever-skin-off"),
                Change::LittleAlloy { member } => {
                    pen.words.with("lever-little-alloy", &[("member", &member_name(pen, job, member))])
                }
                Change::Certificate => pen.words.get("lever-certificate"),
                Change::Buttering { member } => {
                    pen.words.with("lever-buttering", &[("member", &member_name(pen, job, member))])
                }
            };
            let result = if lever.exact_c > 0.0 {
                minimum(pen, lever.exact_c, None).main
            } else {
                pen.words.get("lever-no-preheat")
            };
            let effect = match (lever.opens, shut) {
                (true, _) => LeverEffect::Opens,
                (false, true) => LeverEffect::NotAlone,
                (false, false) => LeverEffect::Lowers,
            };
            let note = pen.words.with(
                &format!("lever-{}.note", lever.change.id()),
                &[("interpass", &maximum(pen, lever.interpass_exact_c, None).main)],
            );
            LeverLine { id: lever.change.id(), what, result, note, effect }
        })
        .collect()
}
