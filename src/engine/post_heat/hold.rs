//! The hours of a hold: what sets them, and what austenite adds.

use super::path;
use super::{BelowM90, Curve, Hold, PostHeatQuery, SetBy, diffusivity_cm2_per_s, slow_basis};
use crate::engine::transformation::{M90_UNDER_MS_K, martensite_share};
use crate::reference::{Basis, Reference};

/// One weld, reckoned so many times slower.
#[derive(Clone, Copy)]
pub(super) struct Work<'a> {
    pub(super) reference: &'a Reference,
    pub(super) asked: &'a PostHeatQuery,
    pub(super) times: f64,
    /// `D t` of its way out, mm²: found once for all temperatures.
    pub(super) spread_mm2: f64,
    /// The same of the deposit alone, mm².
    pub(super) deposit_mm2: f64,
}

impl Work<'_> {
    /// The longest published practice that knows the weld's size. What is only remembered
    /// stands beside it.
    fn practice(&self) -> Option<(f64, &Basis)> {
        let size_mm = self.asked.weld.size_mm();
        let rules = self.reference.post_heat.rules.iter();
        rules
            .filter(|rule| rule.time.knows_size() && matches!(rule.basis, Basis::Published { .. }))
            .map(|rule| (rule.time.hours(size_mm).1, &rule.basis))
            .max_by(|one, other| one.0.total_cmp(&other.0))
    }

    /// Hours at one temperature with what sets them: the practice, or a `D t` in mm².
    fn hours(&self, at_c: f64, spread_mm2: f64) -> (f64, SetBy, Basis) {
        let reference = self.reference;
        let slow = diffusivity_cm2_per_s(reference, Curve::Slow, at_c) / self.times;
        let by_diffusion = path::hours(spread_mm2, slow);
        match self.practice() {
            Some((hours, basis)) if hours > by_diffusion => (hours, SetBy::Practice, basis.clone()),
            _ => {
                let curve = slow_basis(reference, at_c);
                let traps = &reference.post_heat.trapping.basis;
                let basis = if self.times > 1.0 { curve.weaker(traps).clone() } else { curve };
                (by_diffusion, SetBy::Diffusion, basis)
            }
        }
    }

    /// A hold that is long enough anywhere in its span, above M90 too.
    ///
    /// Above M90 an hour goes by before the zone has turned. It is counted on top of the deposit
    /// alone: what a fillet melts in stands in its way as a margin, which is already more than
    /// that hour. (A reckoning of the boss with a fillet of 8 mm in two directions leaves a tenth
    /// after a quarter of an hour at 300 °C, where the throat alone asks for two hours, and the
    /// throat with its margin for not quite four.)
    pub(super) fn hold(&self, (low_c, high_c): (f64, f64)) -> Hold {
        let (hours, set_by, basis) = self.hours(low_c, self.spread_mm2);
        let hold = Hold { hours, low_c, high_c, turning_h: 0.0, set_by, basis };
        let Some(m90_c) = self.asked.m90_c.filter(|&m90_c| m90_c < high_c) else { return hold };
        let austenite = &self.reference.post_heat.austenite;
        let (turned_h, turned_by, turned_basis) = self.hours(low_c.max(m90_c), self.deposit_mm2);
        let with_turning = turned_h + austenite.turning_h;
        if with_turning <= hours && low_c <= m90_c {
            // At its cold end nothing has to turn, and the hours there cover the hot end too.
            return hold;
        }
        let longer = with_turning > hours;
        let (hours, set_by, basis) =
            if longer { (with_turning, turned_by, turned_basis) } else { (hours, set_by, hold.basis) };
        Hold {
            hours,
            low_c,
            high_c,
            turning_h: austenite.turning_h,
            set_by,
            basis: basis.weaker(&austenite.turning_basis).clone(),
        }
    }

    /// The other way, where the span reaches above an M90 that lies high enough.
    pub(super) fn below_m90(&self, (low_c, high_c): (f64, f64)) -> Option<BelowM90> {
        let data = &self.reference.post_heat;
        let rule = &data.austenite;
        let m90_c = self.asked.m90_c.filter(|&m90_c| m90_c < high_c && m90_c >= rule.drop_from_c)?;
        let hot_c = m90_c - rule.under_m90_k;
        // Inside the span where there is room for it; else as hot as a span that can be kept allows.
        let inside = low_c + rule.usable_k <= hot_c && low_c >= rule.drop_floor_c;
        let cold_c =
            if inside { low_c } else { (hot_c - rule.usable_k).clamp(rule.drop_floor_c, data.from_c) };
        let (hours, set_by, basis) = self.hours(cold_c, self.spread_mm2);
        Some(BelowM90 {
            hold: Hold { hours, low_c: cold_c, high_c: hot_c, turning_h: 0.0, set_by, basis },
            drops: cold_c < self.asked.minimum_c,
            austenite_left: 1.0 - martensite_share(m90_c + M90_UNDER_MS_K, hot_c),
            basis: rule.drop_basis.clone(),
        })
    }
}
