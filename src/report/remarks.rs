//! What is said above the figures beside what is asked.

use super::figure::{minimum, printed_range};
use super::{Pen, member_name};
use crate::engine::job::Job;
use crate::engine::plan::{Plan, Remark};
use crate::engine::unmarked::Alloy;
use crate::reference::IronRouteKind;
use crate::words::List;

/// A line for each remark.
pub(super) fn remarks(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Vec<String> {
    plan.remarks.iter().map(|remark| line(pen, job, plan, remark)).collect()
}

fn line(pen: &Pen<'_>, job: &Job, plan: &Plan, remark: &Remark) -> String {
    let key = format!("remark-{}", remark.id());
    let with = |values: &[(&str, &str)]| pen.words.with(&key, values);
    let named = |member: usize| member_name(pen, job, member);
    match remark {
        Remark::HotShort { member, elements } => {
            let shares = elements.iter().map(|(element, percent)| {
                let percent = pen.show.with_unit(*percent, 3, "%");
                pen.words.with("remark-share", &[("symbol", element.symbol()), ("percent", &percent)])
            });
            let shares = pen.words.list(List::And, &shares.collect::<Vec<_>>());
            with(&[("member", &named(*member)), ("shares", &shares)])
        }
        Remark::NickelForIron { member } => with(&[("member", &named(*member))]),
        Remark::Unqualified { member, .. } => {
            let most = pen.show.hydrogen(pen.reference.d11.low_hydrogen_ml);
            with(&[("member", &named(*member)), ("hydrogen", &most)])
        }
        Remark::NoWayForIron { demanded_c } => {
            let span = |kind| {
                let route = pen.reference.own_sheets.iron_route(kind);
                route.map_or_else(String::new, |route| {
                    printed_range(pen, route.preheat_low_c, route.preheat_high_c).main
                })
            };
            let [cold, semi, hot] =
                [IronRouteKind::Cold, IronRouteKind::SemiHot, IronRouteKind::Hot].map(span);
            let demanded = pen.show.temperature(*demanded_c).main;
            with(&[("demanded", &demanded), ("cold", &cold), ("semi", &semi), ("hot", &hot)])
        }
        Remark::CodeProcess { process } => {
            with(&[("process", &pen.words.get(&format!("process-{}", process.id())))])
        }
        Remark::NoHeatSource => {
            let low = plan.minimum.as_ref();
            let low = low.map_or_else(String::new, |limit| minimum(pen, limit.exact_c, limit.printed).main);
            with(&[("low", &low)])
        }
        Remark::HoldTooLong { hours, taken } => {
            let hours = pen.show.with_unit(*hours, 0, "h");
            let Some((mm, fillet)) = taken else { return with(&[("hours", &hours)]) };
            // A size that nobody told says nothing yet of what can be done.
            let asked = if *fillet { "leg" } else { "depth" };
            let values = [("hours", &*hours), ("size", &*pen.show.rule_length(*mm).main)];
            pen.words.with(&format!("{key}.{asked}"), &values)
        }
        Remark::Unmarked { member, carbon, alloy, maybe_tool } => {
            let key = match alloy {
                Alloy::Rich => key,
                Alloy::Lean => format!("{key}.lean"),
            };
            let carbon = pen.show.with_unit(*carbon, 2, "%");
            let said = pen.words.with(&key, &[("member", &named(*member)), ("carbon", &carbon)]);
            let tool = maybe_tool.then(|| pen.words.get("remark-unmarked.tool"));
            let blind = pen.words.get("remark-unmarked.blind");
            pen.words.list(
                List::Sentences,
                &[Some(said), tool, Some(blind)].into_iter().flatten().collect::<Vec<_>>(),
            )
        }
        Remark::OilSoaked { hydrogen_ml } | Remark::OilOpen { hydrogen_ml } => {
            with(&[("hydrogen", &pen.show.hydrogen(*hydrogen_ml))])
        }
        Remark::WetElectrode { process } => {
            let process = pen.words.get(&format!("process-{}", process.id()));
            with(&[("process", &process)])
        }
        Remark::OldWeld
        | Remark::Hardfacing
        | Remark::ByWeldMetal
        | Remark::NoHeatForHotWay
        | Remark::NotMagnetic => pen.words.get(&key),
    }
}
