//! The passes: what each waits for, what it brings, where it ends.

use super::clock::{AT_ARC_S, AT_ONCE_S, Stride};
use super::heating::Heated;
use super::record::Phase;
use super::refusal::Refusal;
use super::run::Run;

/// One pass as it went.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PassHistory {
    /// Waits until weld and heat-affected zone were at the maximum interpass, min.
    pub interpass_min: f64,
    /// The flame before it, where the coldest required place was below the minimum.
    pub reheat: Option<Heated>,
    /// Evening out after that flame, s.
    pub even_s: f64,
    /// Arc on, min from the first flame.
    pub start_min: f64,
    /// Arc on so long, min.
    pub arc_min: f64,
    /// Coldest required place at arc on, °C.
    pub coldest_start_c: f64,
    /// Hottest of weld and heat-affected zone at arc on, °C.
    pub hottest_start_c: f64,
    /// Coldest required place at arc off, °C: below the minimum one warms half-way, or welds less
    /// at a time.
    pub coldest_end_c: f64,
    /// The same at the end of the pause, °C.
    pub coldest_after_c: f64,
}

/// Steel beside the weld is printed up to here, °C.
const HOTTEST_MEMBER_C: f64 = 1200.0;

impl Run<'_, '_> {
    /// Lays every pass.
    pub(super) fn weld(&mut self) -> Result<Vec<PassHistory>, Refusal> {
        (0..self.setup.query.passes.len()).map(|pass| self.lay(pass)).collect()
    }

    fn lay(&mut self, number: usize) -> Result<PassHistory, Refusal> {
        let (query, pace) = (self.setup.query, self.setup.pace);
        let pass = &query.passes[number];
        let begun = self.state.time;
        self.wait_interpass()?;
        let mut waited = self.state.time - begun;
        let (mut reheat, mut even_s) = (None, 0.0);
        if self.coldest_c() < query.minimum_c {
            reheat = Some(self.heat_up()?);
            even_s = self.wait_even()?;
            let begun = self.state.time;
            self.wait_interpass()?;
            waited += self.state.time - begun;
        }
        let start = self.state.time;
        let (coldest_start_c, hottest_start_c) = (self.coldest_c(), self.hottest_c());
        let fill = &self.setup.fills[number];
        self.state.hydrogen.lay(&self.setup.body, fill, pass.hydrogen_ml);
        let length = self.setup.lengths[number];
        let arc_s = pass.net_kj_per_mm * 1e6 * length / pass.arc_net_w;
        // A flat section is one metre deep, a round one goes all round.
        let power = query.shape.weld_length_mm().map_or(pass.arc_net_w, |_| pass.arc_net_w / length);
        let volume = &self.setup.body.volume;
        let filled: f64 = fill.iter().map(|&(cell, share)| volume[cell] * share).sum();
        let mut source = vec![0.0; volume.len()];
        for &(cell, share) in fill {
            source[cell] = power * volume[cell] * share / filled;
        }
        self.arc = Some(source);
        let arc = Stride::new(AT_ARC_S, pace.change_in_pass_k);
        self.spend(arc, pace.pass_s, arc_s, Phase::Arc(number))?;
        self.arc = None;
        let coldest_end_c = self.coldest_c();
        self.check_members()?;
        let pause = Stride::new(AT_ARC_S, pace.change_k);
        self.spend(pause, pace.wait_s, query.pause_s, Phase::Pause)?;
        Ok(PassHistory {
            interpass_min: waited / 60.0,
            reheat,
            even_s,
            start_min: start / 60.0,
            arc_min: arc_s / 60.0,
            coldest_start_c,
            hottest_start_c,
            coldest_end_c,
            coldest_after_c: self.coldest_c(),
        })
    }

    /// Waits until weld and heat-affected zone are at the maximum interpass.
    fn wait_interpass(&mut self) -> Result<(), Refusal> {
        let Some(most_c) = self.setup.query.interpass_c else { return Ok(()) };
        let stride = Stride::new(AT_ONCE_S, self.setup.pace.change_k);
        self.wait_for(stride, self.setup.pace.wait_s, most_c, Self::hottest_c, Phase::Interpass)
    }

    /// Members away from the weld are no hotter than their properties are printed for.
    fn check_members(&self) -> Result<(), Refusal> {
        let mut hottest_c = f64::NEG_INFINITY;
        let mut near = vec![false; self.setup.body.cells()];
        self.setup.sites.weld_zone.iter().for_each(|&cell| near[cell] = true);
        for (&at_c, near) in self.state.heat.at_c.iter().zip(near) {
            if !near {
                hottest_c = hottest_c.max(at_c);
            }
        }
        if hottest_c > HOTTEST_MEMBER_C {
            return Err(Refusal::TooHot { at_c: hottest_c, most_c: HOTTEST_MEMBER_C });
        }
        Ok(())
    }
}
